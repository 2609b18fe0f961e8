//! Wash: how often the water is changed, how long each change stands, and what that leaves by dilution.
//!
//! Worked example: 10 ml are carried over into 280 ml of fresh water: each change leaves 10/290 of the fixer, three leave 4.1 parts in
//! 100,000. To leave one part in 1000, ln 1000/ln 29 = 2.05 changes are needed, so three.

use super::Calculator;
use crate::darkroom::Darkroom;
use crate::fields::{self, Form};
use crate::parts::{self, Washing};
use crate::sheet::Sheet;

pub(super) const WASH: Calculator = Calculator {
    name: "wash",
    title: "How often the water is changed",
    fields: &[
        &fields::WASH_FRESH,
        &fields::WASH_FILMS,
        &fields::WASH_WATER,
        &fields::WASH_AID,
        &fields::WASH_FLOW,
        &fields::WASH_RUNS,
        &fields::WASH_CARRIED,
        &fields::WASH_SOAK,
        &fields::WASH_ONE_IN,
        &fields::WASH_RESIDUAL,
        &fields::WASH_FIXER,
        &fields::WASH_HELD,
    ],
    examples: &[],
    run,
};

fn run(form: &mut Form, _: &Darkroom) -> Sheet {
    let mut sheet = Sheet {
        title: "Nothing to wash yet".to_owned(),
        ..Sheet::default()
    };
    if let Some(wash) = Washing::read(form) {
        parts::washing(&mut sheet, &wash, form.units());
    }
    sheet
}
