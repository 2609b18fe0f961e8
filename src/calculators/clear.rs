//! Clear: how long to fix, and whether a fixer is spent, by the time in which a piece of film clears.
//!
//! Worked example: film that cleared in 0:50 in fresh fixer and takes 1:15 now takes 1.5 times as long: half of the way to spent.
//! Fix for twice the clearing time, 2:30.

use super::Calculator;
use crate::darkroom::Darkroom;
use crate::fields::{self, Form};
use crate::parts::{self, Clearing};
use crate::sheet::Sheet;

pub(super) const CLEAR: Calculator = Calculator {
    name: "clear",
    title: "How long to fix, and whether the fixer is spent",
    fields: &[
        &fields::BOTTLE,
        &fields::CLEAR_NOW,
        &fields::TEMPERATURE,
        &fields::CLEAR_FRESH,
        &fields::WARM_FRESH,
        &fields::FIX_FOR,
        &fields::BATHS,
        &fields::FIXED,
        &fields::FIXING_BATH,
        &fields::FILMS_PER_LITRE,
        &fields::FILMS_TO_COME,
        &fields::Q10,
    ],
    examples: &[],
    run,
};

fn run(form: &mut Form, darkroom: &Darkroom) -> Sheet {
    let units = form.units();
    let mut sheet = Sheet {
        title: "Clearing test".to_owned(),
        ..Sheet::default()
    };
    if let Some(clearing) = Clearing::read(form, darkroom) {
        parts::clearing(&mut sheet, &clearing, units);
    }
    sheet
}
