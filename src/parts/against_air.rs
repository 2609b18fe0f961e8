//! What a solution holds against the air, and what that air is: as the form says, as a published formula, or as its class.
//!
//! The form takes grams to the litre, which recipes and data sheets give; the models count moles. Developing agents are counted as
//! hydroquinone, sulfite as sodium sulfite.

use super::{assumption, assumption_of, given};
use crate::chemistry::{Class, Formula, Substance};
use crate::development::Parameter;
use crate::fields::{self, Form};
use crate::keeping::Assumptions;
use crate::quantity::Units;
use crate::sheet::{Figure, Item};

/// What a sheet calls what a solution holds against the air.
pub(super) const AGENT: &str = "Developing agent, g/l as hydroquinone";
/// What a sheet calls its preservative.
pub(super) const SULFITE: &str = "Sulfite, the preservative, g/l";

/// What is assumed of the class, with what the formula and the form know better.
pub(super) fn read_assumptions(form: &mut Form, class: Class, formula: Option<&Formula>) -> Assumptions {
    let mut assumptions = Assumptions::of_class(class);
    if let Some(formula) = formula {
        assumptions = assumptions.with_reserve(formula.reserve());
    }
    let own = |grams: f64, substance: &Substance| (grams > 0.0).then(|| given(grams / substance.molar_mass()));
    if let Some(grams) = form.read(&fields::AGENT) {
        assumptions.agent = own(grams, &Substance::HYDROQUINONE);
    }
    if let Some(grams) = form.read(&fields::SULFITE) {
        assumptions.sulfite = own(grams, &Substance::SULFITE);
    }
    assumptions.air_left = form.read(&fields::AIR_LEFT).map(|percent| percent / 100.0);
    if let Some(days) = form.read(&fields::UPTAKE) {
        assumptions.uptake = given(days);
    }
    if let Some(hectopascals) = form.read(&fields::PRESSURE) {
        assumptions.pressure = given(hectopascals * 100.0);
    }
    if let Some(percent) = form.read(&fields::HUMIDITY) {
        assumptions.humidity = given(percent / 100.0);
    }
    assumptions
}

/// The agent in grams to the litre.
pub(super) fn agent_grams(assumptions: &Assumptions) -> Option<Parameter> {
    let grams = |moles| moles * Substance::HYDROQUINONE.molar_mass();
    assumptions.agent.map(|agent| agent.map(grams))
}

/// The sulfite in grams to the litre.
pub(super) fn sulfite_grams(assumptions: &Assumptions) -> Option<Parameter> {
    let grams = |moles| moles * Substance::SULFITE.molar_mass();
    assumptions.sulfite.map(|sulfite| sulfite.map(grams))
}

/// What was assumed of it and of the air.
pub(super) fn air_assumed(assumptions: &Assumptions, units: Units) -> Vec<Item> {
    let mut items = Vec::new();
    let held = [
        ("assumed_agent", AGENT, agent_grams(assumptions), "agent"),
        ("assumed_sulfite", SULFITE, sulfite_grams(assumptions), "sulfite"),
    ];
    for (name, label, grams, field) in held {
        let Some(grams) = grams else { continue };
        let figure = Figure {
            shown: units.about(grams.value),
            ..Figure::number(name, label, grams.value, 1, units)
        };
        items.extend(assumption(figure, grams, field, units));
    }
    let uptake = assumptions.uptake;
    let figure = Figure::period("assumed_uptake", "Oxygen mostly taken up in", uptake.value, units);
    items.extend(assumption_of(figure, uptake, "uptake", &|days| units.period(days)));
    let pressure = assumptions.pressure.map(|pascals| pascals / 100.0);
    let figure = Figure::number("assumed_pressure", "Air pressure, hPa", pressure.value, 0, units);
    items.extend(assumption_of(figure, pressure, "pressure", &|end| units.number(end, 0)));
    let humidity = assumptions.humidity;
    let figure = Figure::percent("assumed_humidity", "Humidity of the room", humidity.value, units);
    items.extend(assumption_of(figure, humidity, "humidity", &|share| {
        units.percent(share)
    }));
    items
}
