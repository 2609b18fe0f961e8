//! Budget: what one developing repeats to, where that comes from, and what a comparison of such negatives could show.
//!
//! Worked example: with x = k t = 1, d ln contrast / d ln rate is 1/(e - 1) = 0.58198, so 10 s of starting and stopping (half-width,
//! 5.77 s as a standard uncertainty) in 10 minutes are 0.56 % of contrast; beside a hand of 2 % they hardly show.

use super::Calculator;
use crate::darkroom::Darkroom;
use crate::fields::{self, Form};
use crate::parts::{self, Developing, Recipe};
use crate::sheet::Sheet;

pub(super) const BUDGET: Calculator = Calculator {
    name: "budget",
    title: "What a developing repeats to, and what is worth mending",
    fields: &[
        &fields::BOTTLE,
        &fields::CONCENTRATE,
        &fields::TOTAL,
        &fields::TEMPERATURE,
        &fields::DEVELOPED,
        &fields::ERRORS.concentrate,
        &fields::ERRORS.total,
        &fields::ERRORS.thermometer,
        &fields::ERRORS.timing,
        &fields::ERRORS.hand,
        &fields::CLASS,
        &fields::EXPONENT,
        &fields::Q10,
        &fields::PROGRESS,
    ],
    examples: &[],
    run,
};

fn run(form: &mut Form, Darkroom { kit, .. }: &Darkroom) -> Sheet {
    let units = form.units();
    let recipe = Recipe::read(form, kit);
    let mut sheet = Sheet {
        title: "What one developing repeats to".to_owned(),
        ..Sheet::default()
    };
    let developing = Developing::read(form, &recipe, kit, &fields::ERRORS, None);
    if let (Some(concentrate), Some(total)) = (recipe.concentrate, recipe.total) {
        sheet.title = format!(
            "What {} in {} repeat to",
            units.volume(concentrate),
            units.volume(total)
        );
        parts::budget_sheet(&mut sheet, &recipe, &developing, units);
    }
    sheet
}
