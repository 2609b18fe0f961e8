//! Fill: does this tank take the film, does the total cover it, and is there enough concentrate; and if not, every way out.
//!
//! Worked example: 600 ml at 1+50 hold 11.76 ml; two rolls at 6 ml each want 12 ml, so 612 ml, or one roll, or 1+49.

use super::Calculator;
use crate::darkroom::Darkroom;
use crate::fields::{self, Form};
use crate::parts::{self, Bath, Fill};
use crate::sheet::{Figure, Sheet};

pub(super) const FILL: Calculator = Calculator {
    name: "fill",
    title: "Does it cover the film, and is there enough concentrate",
    fields: &[
        &fields::TANK,
        &fields::FILMS_135,
        &fields::FILMS_120,
        &fields::FILMS_220,
        &fields::SHEETS_4X5,
        &fields::SHEETS_8X10,
        &fields::TOTAL,
        &fields::BOTTLE,
        &fields::DILUTION,
        &fields::LEAST_PER_FILM,
        &fields::TEMPERATURE,
        &fields::TIMES,
        &fields::STRENGTH,
        &fields::CLASS,
        &fields::EXPONENT,
        &fields::Q10,
    ],
    examples: &[],
    run,
};

fn run(form: &mut Form, Darkroom { kit, .. }: &Darkroom) -> Sheet {
    let units = form.units();
    let (load, tank) = parts::load(form, kit);
    let total = form.read(&fields::TOTAL);
    let bath = Bath::read(form, kit);
    let least_per_film = bath.least_per_film(form);
    let law = bath.law(form);
    let dilution = bath.dilution_needed(form);
    let mut sheet = Sheet {
        title: format!("A fill for {}", load.words()),
        ..Sheet::default()
    };
    let Some(total) = total else {
        sheet.part("Does it fit", parts::filling(None, &load, tank, units));
        return sheet;
    };
    sheet.headline.push(Figure::volume("total", "Total", total, units));
    let fits = parts::filling(Some(total), &load, tank, units);
    sheet.alert(&fits);
    sheet.part("Does it fit", fits);
    let Some(dilution) = dilution else {
        return sheet;
    };
    if let Some(&concentrate) = dilution.concentrates(total).first() {
        sheet
            .headline
            .push(Figure::volume("concentrate", "Concentrate in it", concentrate, units));
    }
    let fill = Fill {
        total,
        dilution,
        load: &load,
        tank,
        least_per_film,
        law: law.as_ref(),
        exponent: bath.slip_law(law.as_ref(), None, None).exponent,
        temperature: bath.temperature,
        strength: bath.strength,
        is_developer: bath.class.is_developer(),
    };
    let exponent = fill.exponent;
    let enough = parts::capacity(&fill, units);
    sheet.alert(&enough);
    sheet.part("Is it enough", enough);
    let assumptions = match &law {
        Some(law) => parts::law_assumptions(law, units),
        None if sheet.figure("way_out_time_share").is_some() => {
            parts::exponent_assumption(exponent, units).into_iter().collect()
        }
        None => Vec::new(),
    };
    sheet.part("Nobody measured this", assumptions);
    sheet
}
