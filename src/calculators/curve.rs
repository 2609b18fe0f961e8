//! Curve: the characteristic curve of a film from the densities of its steps; contrast, speed and, from two developing times, the
//! user's own law of developing.
//!
//! Worked example: gamma 0.60 after 4 min and 0.90 after 8 min are k = ln(0.60 / 0.30) / 4 = 0.173 a minute and at most 1.20; a
//! gamma of 0.75 takes 5.66 min (Sheppard and Mees).

use super::Calculator;
use crate::darkroom::Darkroom;
use crate::fields::{self, Form, curve};
use crate::parts::{self, Curves};
use crate::sheet::Sheet;

pub(super) const CURVE: Calculator = Calculator {
    name: "curve",
    title: "The curve of a film: contrast, speed, and how it develops",
    fields: &[
        &curve::STEPS,
        &curve::STEP,
        &curve::DEVELOPED,
        &curve::OTHER,
        &curve::OTHER_DEVELOPED,
        &curve::WANTED,
        &curve::CONTRAST_AS,
        &curve::FIRST_EXPOSURE,
        &curve::BASE_FOG,
        &curve::OTHER_BASE_FOG,
        &curve::READING,
        &fields::PROGRESS,
    ],
    examples: &["steps"],
    run,
};

fn run(form: &mut Form, Darkroom { kit, .. }: &Darkroom) -> Sheet {
    let units = form.units();
    let mut sheet = Sheet {
        title: "No curve yet".to_owned(),
        ..Sheet::default()
    };
    let curves = Curves::read(form, &kit.house);
    parts::curves(&mut sheet, &curves, units);
    sheet
}
