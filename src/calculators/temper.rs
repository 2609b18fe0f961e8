//! Temper: how much hot, how much cold, how much ice and concentrate make a bath of the wanted temperature.
//!
//! Worked example: 200 g of water at 45 °C and 300 g at 15 °C come to 26.993 °C (IAPWS-95), 0.007 below what plain weighting gives.

use super::Calculator;
use crate::darkroom::Darkroom;
use crate::fields::{self, Form};
use crate::parts::{self, Tempered};
use crate::sheet::Sheet;

pub(super) const TEMPER: Calculator = Calculator {
    name: "temper",
    title: "How to get water at the temperature that is wanted",
    fields: &[
        &fields::TOTAL,
        &fields::WANTED,
        &fields::COLD_TAP,
        &fields::HOT_TAP,
        &fields::DILUTION,
        &fields::ROOM,
        &fields::ICE_AT_HAND,
        &fields::ICE,
        &fields::VESSEL,
        &fields::VESSEL_MASS,
        &fields::CONCENTRATE_HEAT,
    ],
    examples: &[],
    run,
};

fn run(form: &mut Form, Darkroom { kit, shelf }: &Darkroom) -> Sheet {
    let mut sheet = Sheet {
        title: "Water at the temperature you want".to_owned(),
        ..Sheet::default()
    };
    if let Some(tempered) = Tempered::read(form, kit) {
        parts::tempering(&mut sheet, &tempered, kit, shelf.today);
    }
    sheet
}
