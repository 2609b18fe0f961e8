//! Weigh: what to weigh of each powder for a bath, in which order it is dissolved, and how exactly the balance does it.
//!
//! Worked example: two litres of the MQ borax stock take 4 g of metol, 200 g of sodium sulfite, 10 g of hydroquinone and 4 g of borax; of
//! borax with 5 water it is 4 g · 291.30/381.37 = 3.06 g. On a balance of 0.1 g steps 4 g are good to ± 2 · 0.1 g/√6 = 0.082 g, 2 %.

use super::Calculator;
use crate::darkroom::Darkroom;
use crate::fields::{self, Form};
use crate::parts::{self, WeighingOut};
use crate::sheet::Sheet;

pub(super) const WEIGH: Calculator = Calculator {
    name: "weigh",
    title: "How much of each powder, and in which order",
    fields: &[
        &fields::PUBLISHED,
        &fields::LINES,
        &fields::MADE,
        &fields::FORMS,
        &fields::WEIGHT_GOOD_TO,
        &fields::PRICES,
        &fields::PRICES_IN,
    ],
    examples: &[],
    run,
};

fn run(form: &mut Form, Darkroom { kit, .. }: &Darkroom) -> Sheet {
    let mut sheet = Sheet {
        title: "Nothing to weigh yet".to_owned(),
        ..Sheet::default()
    };
    if let Some(bath) = WeighingOut::read(form, kit) {
        parts::weighing_out(&mut sheet, &bath, kit, form.units());
    }
    sheet
}
