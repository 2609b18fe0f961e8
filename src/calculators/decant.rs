//! Decant: which of the containers at hand to fill to the brim, so that what is left meets the least air until it is used.
//!
//! Worked example: 500 ml in a bottle of 1040 ml, 20 ml a week, so 175 days over 790 ml of air in the mean. Each opening brings
//! it anew every 7 days and the liquid takes it up in 14, so 790 x 175 / (7 + 14) = 6583 ml of air are taken up, some 1.8 g of
//! it oxygen. In two bottles of 250 ml, filled to the brim, the mean is 125 ml of air, and a sixth of that.

use super::Calculator;
use crate::darkroom::Darkroom;
use crate::fields::{self, Form};
use crate::parts::{self, Decanting};
use crate::sheet::Sheet;

pub(super) const DECANT: Calculator = Calculator {
    name: "decant",
    title: "Which containers to fill, so that the air stays out",
    fields: &[
        &fields::BOTTLE,
        &fields::MATERIAL,
        &fields::NOMINAL,
        &fields::LEFT,
        &fields::AT_HAND,
        &fields::DRAW,
        &fields::EVERY,
        &fields::USED_UP_IN,
        &fields::CLIMATE,
        &fields::CLASS,
        &fields::BRIMFUL,
        &fields::THICKNESS,
        &fields::AGENT,
        &fields::SULFITE,
        &fields::UPTAKE,
        &fields::PRESSURE,
        &fields::HUMIDITY,
    ],
    examples: &[],
    run,
};

fn run(form: &mut Form, darkroom: &Darkroom) -> Sheet {
    let units = form.units();
    let mut sheet = Sheet {
        title: "Decanting".to_owned(),
        ..Sheet::default()
    };
    if let Some(decanting) = Decanting::read(form, darkroom) {
        parts::decanting(&mut sheet, decanting, units);
    }
    sheet
}
