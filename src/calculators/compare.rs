//! Compare: two negatives side by side; is it the developer, or the hand?
//!
//! Worked example: densities of 0.80 and 0.85 above a base of 0.30 differ by 0.05, 9.5 % of contrast. One hand process repeats
//! contrast to some 3 %, two rolls to 3 % times the square root of two; so one roll of each cannot tell.

use super::Calculator;
use crate::darkroom::Darkroom;
use crate::fields::{self, Form};
use crate::parts::Comparing;
use crate::sheet::Sheet;

pub(super) const COMPARE: Calculator = Calculator {
    name: "compare",
    title: "Two negatives: is it the developer, or the hand?",
    fields: &[
        &fields::BOTTLE,
        &fields::AGAINST,
        &fields::FIRST,
        &fields::SECOND,
        &fields::FIRST_BASE,
        &fields::SECOND_BASE,
        &fields::MEASURED,
        &fields::PAIRS,
        &fields::FIRST_ROLLS,
        &fields::SECOND_ROLLS,
        &fields::REPEAT,
        &fields::MARGIN,
        &fields::CONCENTRATE,
        &fields::TOTAL,
        &fields::TEMPERATURE,
        &fields::DEVELOPED,
        &fields::ERRORS.concentrate,
        &fields::ERRORS.total,
        &fields::ERRORS.thermometer,
        &fields::ERRORS.timing,
        &fields::ERRORS.hand,
        &fields::ERRORS_OF_FRESH.concentrate,
        &fields::ERRORS_OF_FRESH.total,
        &fields::ERRORS_OF_FRESH.thermometer,
        &fields::ERRORS_OF_FRESH.timing,
        &fields::ERRORS_OF_FRESH.hand,
        &fields::CLASS,
        &fields::EXPONENT,
        &fields::Q10,
        &fields::PROGRESS,
    ],
    examples: &["first", "second"],
    run,
};

fn run(form: &mut Form, Darkroom { kit, shelf }: &Darkroom) -> Sheet {
    let units = form.units();
    let mut sheet = Sheet {
        title: "Two negatives side by side".to_owned(),
        ..Sheet::default()
    };
    Comparing::read(form, kit).fill(&mut sheet, shelf.today, units);
    sheet
}
