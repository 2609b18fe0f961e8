//! Spots: a stop bath by its colour, film by a drop that shows silver or fixer left in it.
//!
//! Worked example: an indicator that is still yellow says that the pH is 5.2 at the most, so the bath stops; at a pH of 6 it is spent.

use super::Calculator;
use crate::darkroom::Darkroom;
use crate::fields::{self, Form};
use crate::parts;
use crate::sheet::Sheet;

pub(super) const SPOTS: Calculator = Calculator {
    name: "spots",
    title: "Stop bath, silver and wash",
    fields: &[
        &fields::BOTTLE,
        &fields::SPOT,
        &fields::INDICATOR,
        &fields::PH,
        &fields::STAIN,
        &fields::WASH_STAIN,
    ],
    examples: &[],
    run,
};

fn run(form: &mut Form, darkroom: &Darkroom) -> Sheet {
    let mut sheet = Sheet {
        title: "Stop bath, silver and wash".to_owned(),
        ..Sheet::default()
    };
    parts::spots(&mut sheet, form, darkroom);
    sheet
}
