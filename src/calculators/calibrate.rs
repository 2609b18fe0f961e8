//! Calibrate: what an instrument really delivers, by weighing water; or what a thermometer really shows, beside a better one.
//!
//! Worked example: water of 20 °C that shows as 9.95 g on a balance at 1013 hPa has 9.95 g · 1.00285 ml/g = 9.978 ml. Ten such deliveries
//! from a syringe filled to 10 ml are 0.022 ml short, well inside the 0.4 ml that ISO 7886-1 allows.

use super::Calculator;
use crate::darkroom::Darkroom;
use crate::fields::{self, Calibrated, Form};
use crate::parts::{self, ComparedThermometer, WeighedInstrument};
use crate::sheet::Sheet;

pub(super) const CALIBRATE: Calculator = Calculator {
    name: "calibrate",
    title: "What an instrument really delivers, or a thermometer really shows",
    fields: &[
        &fields::CALIBRATED,
        &fields::INSTRUMENT,
        &fields::MARKED,
        &fields::WATER_MASSES,
        &fields::WATER_TEMPERATURE,
        &fields::BALANCE_STEP,
        &fields::READINGS,
        &fields::THERMOMETER_STEP,
        &fields::REFERENCE_GOOD_TO,
        &fields::USED_AT,
        &fields::STUFF,
        &fields::BALANCE_ERROR,
        &fields::EVAPORATED,
        &fields::PRESSURE,
        &fields::DRIFT,
    ],
    examples: &["masses", "readings"],
    run,
};

/// The fields of one kind, which play no part in the other.
const WEIGHING: [&str; 9] = [
    "instrument",
    "marked",
    "masses",
    "water_temperature",
    "balance_step",
    "stuff",
    "balance_error",
    "evaporated",
    "pressure",
];
const COMPARING: [&str; 5] = ["readings", "step", "reference", "used_at", "drift"];

fn run(form: &mut Form, darkroom: &Darkroom) -> Sheet {
    let kit = &darkroom.kit;
    let today = darkroom.today();
    let mut sheet = Sheet {
        title: "Nothing to calibrate yet".to_owned(),
        ..Sheet::default()
    };
    match form.read(&fields::CALIBRATED) {
        Some(Calibrated::Volume) => {
            form.pass_over(&COMPARING);
            match WeighedInstrument::read(form, kit) {
                Some(one) => parts::weighing(&mut sheet, &one, today, form.units()),
                None => parts::how_to_weigh(&mut sheet),
            }
        }
        Some(Calibrated::Thermometer) => {
            form.pass_over(&WEIGHING);
            match ComparedThermometer::read(form) {
                Some(one) => parts::comparing(&mut sheet, &one, kit, today),
                None => parts::how_to_compare(&mut sheet),
            }
        }
        None => {}
    }
    sheet
}
