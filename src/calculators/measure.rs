//! Measure: one volume, every sensible way with the kit.
//!
//! Worked example: 4 ml from a 10 ml syringe by ISO 7886-1 is good to 1.5 % of 10 ml and 1 % of 4 ml, 0.19 ml.

use super::Calculator;
use crate::darkroom::Darkroom;
use crate::fields::{self, Field, Form, Temperatures, Volumes};
use crate::parts::{self, Conditions};
use crate::quantity::{Temperature, TemperatureDifference, bounds};
use crate::sheet::{Figure, Item, Sheet};

const VOLUME: Field<Volumes> = Field::volume("volume", "Volume", &bounds::POUR).initial("18.75 ml");
const LIQUID_TEMPERATURE: Field<Temperatures> =
    Field::temperature("liquid_temperature", "Temperature", &bounds::MEASURING_TEMPERATURE).initial("20 C");

pub(super) const MEASURE: Calculator = Calculator {
    name: "measure",
    title: "One volume, every sensible way with your kit",
    fields: &[&VOLUME, &LIQUID_TEMPERATURE, &fields::DENSITY],
    examples: &[],
    run,
};

fn run(form: &mut Form, Darkroom { kit, shelf }: &Darkroom) -> Sheet {
    let units = form.units();
    let density = form.read(&fields::DENSITY);
    let from_20 = form
        .read(&LIQUID_TEMPERATURE)
        .map_or(TemperatureDifference::ZERO, |now| now - Temperature::from_celsius(20.0));
    let mut sheet = Sheet::default();
    let Some(volume) = form.read(&VOLUME) else {
        sheet.title = "No volume yet".to_owned();
        return sheet;
    };
    sheet.title = format!("{} measured", units.volume(volume));
    let conditions = Conditions {
        density,
        room: None,
        from_20,
        units,
    };
    let figure = Figure::volume("volume", "Measure", volume, units);
    match parts::measure(kit, volume, conditions) {
        Ok(ways) => {
            let best = &ways[0];
            sheet
                .headline
                .push(figure.measured_to(best.standard_uncertainty(), units));
            sheet.part("The best way", parts::pictures(best, units));
            sheet.part("All ways", parts::way_items("way", &ways, units, shelf.today));
            let causes = best.errors.causes().into_iter().map(|(cause, u)| {
                let name = format!("cause_{}", cause.replace(|c: char| !c.is_ascii_alphanumeric(), "_"));
                Item::Figure(Figure::percent(name, cause, u / volume.millilitres(), units))
            });
            sheet.part("What makes the best way uncertain", causes.collect());
        }
        Err(sentence) => {
            sheet.headline.push(figure);
            sheet.part("The kit cannot", vec![Item::Caution(sentence)]);
        }
    }
    sheet
}
