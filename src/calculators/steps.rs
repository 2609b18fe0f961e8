//! Steps: what is done bath after bath, for how long, with what standing ready; and the recipe that a clock goes by.
//!
//! Worked example: prewet 1:00, develop 8:43 (10:00 at 20 °C, at 22 °C), stop 0:30, fix 5:00 and rinse 1:00 are 16:13 in all. In a
//! fixer whose sheet asks for 5 % more per film, 4 films later the 5:00 are 6:00.

use super::Calculator;
use crate::darkroom::Darkroom;
use crate::fields::{self, Form};
use crate::parts::{self, Steps};
use crate::sheet::Sheet;

pub(super) const STEPS: Calculator = Calculator {
    name: "steps",
    title: "What to do, bath after bath, and for how long",
    fields: &[
        &fields::FILMS_135,
        &fields::FILMS_120,
        &fields::FILMS_220,
        &fields::SHEETS_4X5,
        &fields::SHEETS_8X10,
        &fields::TANK,
        &fields::BOTTLE,
        &fields::DILUTION,
        &fields::TOTAL,
        &fields::TEMPERATURE,
        &fields::DEVELOP_FOR,
        &fields::RECIPE,
        &fields::STOP_AGAIN,
        &fields::FIXER_AGAIN,
        &fields::AID_AGAIN,
        &fields::LEFT_TO_ROOM,
        &fields::JACKET,
        &fields::HALF_WAY,
        &fields::TIMES,
        &fields::STRENGTH,
        &fields::DEVELOP_LONGER,
        &fields::CLEARS_IN,
        &fields::CAPACITY,
        &fields::LONGER,
        &fields::CLASS,
        &fields::EXPONENT,
        &fields::Q10,
    ],
    examples: &[],
    run,
};

fn run(form: &mut Form, darkroom: &Darkroom) -> Sheet {
    let mut sheet = Sheet::default();
    let steps = Steps::read(form, darkroom);
    parts::steps(&mut sheet, &steps, form, darkroom);
    sheet
}
