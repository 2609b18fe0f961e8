//! Time: how long to develop at the temperature that the water really has, from the data sheet's own times.
//!
//! Worked example: 10 min at 20 °C with a factor of 2 for 10 °C is 8.71 min at 22 °C (10 / 2^0.2).

use super::Calculator;
use crate::darkroom::Darkroom;
use crate::fields::{self, Form};
use crate::parts::{self, Bath};
use crate::sheet::Sheet;

pub(super) const TIME: Calculator = Calculator {
    name: "time",
    title: "How long to develop at today's temperature",
    fields: &[
        &fields::BOTTLE,
        &fields::TIMES,
        &fields::TEMPERATURE,
        &fields::DILUTION,
        &fields::STRENGTH,
        &fields::CLASS,
        &fields::EXPONENT,
        &fields::Q10,
    ],
    examples: &[],
    run,
};

fn run(form: &mut Form, Darkroom { kit, shelf }: &Darkroom) -> Sheet {
    let units = form.units();
    let bath = Bath::read(form, kit);
    let mut sheet = Sheet {
        title: "How long to develop".to_owned(),
        ..Sheet::default()
    };
    if !bath.class.is_developer() {
        form.fault("class", "only a developer has a developing time");
        return sheet;
    }
    if bath.times.is_empty() && !form.at_fault("times") {
        sheet.part("What is still needed", parts::without_times(bath.assumed_q10(), units));
    }
    let dilution = bath.dilution_needed(form);
    let Some(law) = bath.law(form) else {
        return sheet;
    };
    let (Some(temperature), Some(dilution)) = (bath.temperature, dilution) else {
        return sheet;
    };
    let Some(timed) = bath.timed(&law, temperature) else {
        return sheet;
    };
    sheet.title = format!("{dilution} at {}", units.temperature(temperature));
    let (figure, mut items) = timed.timing(kit);
    sheet.headline.push(figure);
    bath.say_thermometer(&mut items, kit, shelf.today);
    sheet.part("Why", items);
    sheet.part("Nobody measured this", parts::law_assumptions(&law, units));
    sheet
}
