//! Drift: how long to develop where the bath moves towards the temperature of the room while it develops.
//!
//! Worked example: 600 s at 20 °C with Ea = 67.7 kJ/mol become 611.28 s in a bath that begins at 20 °C, with a room of 16 °C and a time
//! constant of 6000 s (scipy).

use super::Calculator;
use crate::darkroom::Darkroom;
use crate::fields::{self, Form};
use crate::parts::{self, Drifting};
use crate::sheet::Sheet;

pub(super) const DRIFT: Calculator = Calculator {
    name: "drift",
    title: "How long to develop where the room is colder or warmer than the bath",
    fields: &[
        &fields::BOTTLE,
        &fields::DEVELOPED,
        &fields::TIME_AT,
        &fields::TEMPERATURE,
        &fields::COOLER_ROOM,
        &fields::TOTAL,
        &fields::JACKET,
        &fields::FIRST_READING,
        &fields::SECOND_READING,
        &fields::BETWEEN_READINGS,
        &fields::ROOM_THEN,
        &fields::READ_TO,
        &fields::TIMES,
        &fields::DILUTION,
        &fields::CLASS,
        &fields::Q10,
    ],
    examples: &[],
    run,
};

fn run(form: &mut Form, Darkroom { kit, shelf }: &Darkroom) -> Sheet {
    let mut sheet = Sheet {
        title: "How long to develop while the bath drifts".to_owned(),
        ..Sheet::default()
    };
    if let Some(drifting) = Drifting::read(form, kit) {
        parts::drifting(&mut sheet, &drifting, form, kit, shelf.today);
    }
    sheet
}
