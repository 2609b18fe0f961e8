//! Chart: whether a series of tests has stayed where it was, where it is going, and when it meets its limit.
//!
//! Worked example: ten values with a mean of 50.81 differ from one to the next by 1.8778 on the mean; one of them scatters by
//! 1.8778/1.128 = 1.665, and chance leaves it between 45.82 and 55.80 (NIST/SEMATECH e-Handbook, 6.3.2.2).

use super::Calculator;
use crate::darkroom::Darkroom;
use crate::fields::{self, Form};
use crate::parts::{self, Charting};
use crate::sheet::Sheet;

pub(super) const CHART: Calculator = Calculator {
    name: "chart",
    title: "Whether a series of tests has moved, and where it is going",
    fields: &[
        &fields::BOTTLE,
        &fields::MEASURE,
        &fields::VALUES,
        &fields::TARGET,
        &fields::EDGE,
        &fields::SIGMA,
        &fields::LAMBDA,
        &fields::CUSUM_K,
        &fields::CUSUM_H,
    ],
    examples: &["values"],
    run,
};

fn run(form: &mut Form, darkroom: &Darkroom) -> Sheet {
    let units = form.units();
    let mut sheet = Sheet::default();
    if let Some(charting) = Charting::read(form, darkroom, &mut sheet) {
        parts::charting(&mut sheet, &charting, darkroom.today(), units);
    }
    sheet
}
