//! Spend: what was used, thrown away and saved between two days, in volume, in money and per film.
//!
//! Worked example: of 500 ml for 20, 300 ml were used for 30 films and 100 ml thrown away; a millilitre is 0.04, so 12 was used
//! and 4 thrown away, 16/30 = 0.533 a film. Had 50 ml of it been used after the stated life was over, 2 were saved.

use super::Calculator;
use crate::darkroom::Darkroom;
use crate::fields::{self, Form};
use crate::parts::{self, Spending};
use crate::sheet::Sheet;

pub(super) const SPEND: Calculator = Calculator {
    name: "spend",
    title: "What was used, thrown away and saved",
    fields: &[
        &fields::FROM,
        &fields::TO,
        &fields::CLIMATE,
        &fields::PRICE,
        &fields::CURRENCY,
        &fields::SIZE,
        &fields::USED,
        &fields::THROWN,
        &fields::SAVED,
        &fields::FILMS,
    ],
    examples: &[],
    run,
};

fn run(form: &mut Form, darkroom: &Darkroom) -> Sheet {
    let units = form.units();
    let mut sheet = Sheet {
        title: "What was spent".to_owned(),
        ..Sheet::default()
    };
    if let Some(spending) = Spending::read(form, darkroom) {
        parts::spending(&mut sheet, spending, units);
    }
    sheet
}
