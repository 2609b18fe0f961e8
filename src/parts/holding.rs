//! What a bottle is, said: its drawing, what its content holds against the air, and what of it nobody measured.

use super::against_air::{AGENT, SULFITE, agent_grams, air_assumed, sulfite_grams};
use super::picked::room_assumed;
use super::vessel::Vessel;
use super::{assumption, assumption_of, given, text};
use crate::development::Parameter;
use crate::keeping::{Life, Ranged};
use crate::kit::{Material, Treatment};
use crate::quantity::{Amount, Units, Volume};
use crate::sheet::{Figure, Item, Picture};

/// What the shelf tells of the bottle, and what it would have to know.
pub fn record(vessel: &Vessel) -> Vec<Item> {
    let mut items = Vec::new();
    if vessel.is_empty_on_shelf() {
        items.push(text("The shelf says that it is empty: there is nothing to judge."));
    }
    if let Some(discarded) = vessel.bottle.and_then(|bottle| bottle.discarded.as_ref()) {
        items.push(Item::Text(format!(
            "It was discarded on {}: this is how it stood then.",
            discarded.day
        )));
    }
    if vessel.is_on_record() {
        items.push(Item::Text(
            "Its content, its openings and its places are those of its record.".to_owned(),
        ));
    }
    if vessel.left == Some(Volume::ZERO) && !vessel.is_empty_on_shelf() {
        items.push(text("Nothing is left in it: what follows is what it had been through."));
    }
    let missing = vessel.missing();
    if !missing.is_empty() {
        let questions: Vec<&str> = missing.iter().map(|missing| missing.question()).collect();
        items.push(Item::Caution(format!(
            "The shelf does not know enough of it: the rest is taken from the fields. {}",
            questions.join(" ")
        )));
    }
    items
}

/// Room above the liquid, as a figure.
pub fn headspace(vessel: &Vessel, units: Units) -> Option<Figure> {
    let headspace = vessel.headspace()?;
    let assumed = vessel.brimful.is_some_and(Parameter::is_assumed);
    let figure = Figure::volume("headspace", "Headspace now", headspace.value, units);
    Some(match assumed {
        true => figure
            .between(&units.volume(headspace.least), &units.volume(headspace.most))
            .assumed(),
        false => figure,
    })
}

/// The bottle drawn, and what stands above its liquid.
pub fn drawn(vessel: &Vessel, units: Units) -> Vec<Item> {
    let (Some(brimful), Some(left), Some(headspace)) = (vessel.brimful, vessel.left, vessel.headspace()) else {
        return Vec::new();
    };
    let brim = Volume::from_millilitres(brimful.value);
    let assumed = brimful.is_assumed();
    let shown = [left, headspace.value, brim].map(|volume| units.volume(volume));
    let mut items = vec![
        Item::Picture(Picture::Bottle {
            caption: format!(
                "{} of liquid, {} above it, {} to the brim",
                shown[0], shown[1], shown[2]
            ),
            fill: left / brim,
            shown,
        }),
        Item::Figure(
            Figure::percent(
                "headspace_share",
                "Headspace, of the brim",
                headspace.value / brim,
                units,
            )
            .assumed_if(assumed),
        ),
    ];
    let stays = left_of_air(vessel.treatment, vessel.assumptions.air_left);
    if let Some(stays) = stays {
        let air = |share: f64| headspace.value * vessel.treatment.air(share) * gas_share(vessel.treatment, share);
        let figure = Figure::volume("air_now", "Air in it, as it is closed", air(stays.value), units);
        items.push(Item::Figure(match stays.is_assumed() {
            true => figure
                .between(&units.volume(air(stays.least)), &units.volume(air(stays.most)))
                .assumed(),
            false => figure.assumed_if(assumed),
        }));
    }
    items
}

/// What it holds against the air, to the litre and in all, and how that is known.
pub fn reserves(vessel: &Vessel, units: Units) -> Vec<Item> {
    let assumptions = &vessel.assumptions;
    let kinds = [
        ("agent", AGENT, agent_grams(assumptions), assumptions.agent),
        ("sulfite", SULFITE, sulfite_grams(assumptions), assumptions.sulfite),
    ];
    let mut items = Vec::new();
    for (name, label, grams, moles) in kinds {
        let Some((grams, moles)) = grams.zip(moles) else {
            continue;
        };
        let figure = Figure {
            shown: units.about(grams.value),
            ..Figure::number(format!("{name}_content"), label, grams.value, 1, units)
        };
        items.push(Item::Figure(within(figure, grams, &|grams| units.about(grams))));
        let Some(left) = vessel.left.filter(|left| *left > Volume::ZERO) else {
            continue;
        };
        // mol/l is mmol/ml.
        let fresh = |moles: f64| Amount::from_millimoles(moles * left.millilitres());
        let label = label.split(',').next().unwrap_or(label);
        let label = format!("{label}, in it if fresh");
        let figure = Figure::amount(format!("{name}_in_it"), label, fresh(moles.value), units);
        items.push(Item::Figure(within(figure, moles, &|moles| units.amount(fresh(moles)))));
    }
    if items.is_empty() {
        return vec![text(
            "Nothing in it is known to suffer from the air, unless you type what it holds.",
        )];
    }
    items.push(Item::Text(known_from(vessel)));
    items
}

/// Everything of the bottle and of the air that nobody measured.
pub fn unmeasured(vessel: &Vessel, lives: Option<&Ranged<Life>>, units: Units) -> Vec<Item> {
    let assumptions = &vessel.assumptions;
    let volume = |name, label, parameter, field| volume_assumed(name, label, parameter, field, units);
    let on_shelf = |field| if vessel.is_on_record() { "bottle" } else { field };
    let brimful = vessel.brimful;
    let mut items: Vec<Option<Item>> = vec![
        volume("assumed_brimful", "Holds to the brim", brimful, on_shelf("brimful")),
        volume("assumed_began", "Held at first", vessel.began, "began"),
        volume("assumed_water", "Water mixed in", vessel.water, "water"),
        air_left_assumed(vessel.treatment, assumptions.air_left, "air_left", units),
        room_assumed(vessel.climate, units),
    ];
    items.extend(air_assumed(assumptions, units).into_iter().map(Some));
    let container = lives.map(|lives| lives.value.last().container);
    let lets_through = container.filter(|one| !matches!(one.material, Material::Glass | Material::Metal));
    if let Some(container) = lets_through {
        let number = |name, label, places, parameter: Parameter, field| {
            let figure = Figure::number(name, label, parameter.value, places, units);
            assumption(figure, parameter, on_shelf(field), units)
        };
        let wall = Parameter::given_or(None, container.material.permeability());
        let through = "Oxygen through the wall, cm³ mm/(m² day atm)";
        items.extend([
            number("assumed_permeability", through, 2, wall, "material"),
            number(
                "assumed_thickness",
                "Plastic wall, mm",
                2,
                container.wall_thickness(),
                "thickness",
            ),
            number(
                "assumed_wall_area",
                "Plastic wall, cm²",
                0,
                container.area(),
                "wall_area",
            ),
        ]);
    }
    items.into_iter().flatten().collect()
}

/// A volume that nobody measured.
pub(super) fn volume_assumed(
    name: &'static str,
    label: &'static str,
    parameter: Option<Parameter>,
    field: &'static str,
    units: Units,
) -> Option<Item> {
    let parameter = parameter?;
    let figure = Figure::volume(name, label, Volume::from_millilitres(parameter.value), units);
    let show = |value| units.volume(Volume::from_millilitres(value));
    assumption_of(figure, parameter, field, &show)
}

/// What squeezing, beads or a gas leave of the air over it, where nobody measured that.
pub(super) fn air_left_assumed(
    treatment: Treatment,
    known: Option<f64>,
    field: &'static str,
    units: Units,
) -> Option<Item> {
    let stays = left_of_air(treatment, known)?;
    let figure = Figure::percent("assumed_air_left", "Air that stays", stays.value, units);
    assumption_of(figure, stays, field, &|share| units.percent(share))
}

/// A figure with the range of its parameter, where nobody measured it.
fn within(figure: Figure, parameter: Parameter, show: &dyn Fn(f64) -> String) -> Figure {
    match parameter.is_assumed() {
        true => figure.between(&show(parameter.least), &show(parameter.most)).assumed(),
        false => figure,
    }
}

/// Share of the air that the treatment leaves; `None` where nothing is done to it, or where beads of a known volume are in.
fn left_of_air(treatment: Treatment, known: Option<f64>) -> Option<Parameter> {
    match treatment {
        Treatment::Plain | Treatment::Beads(Some(_)) => None,
        treatment => Some(known.map_or(treatment.air_left(), given)),
    }
}

/// Share of a headspace that stays filled with gas.
fn gas_share(treatment: Treatment, left: f64) -> f64 {
    let whole = Volume::from_millilitres(1.0);
    treatment.gas(whole, left) / whole
}

fn known_from(vessel: &Vessel) -> String {
    let assumed = [vessel.assumptions.agent, vessel.assumptions.sulfite];
    let assumed = assumed.into_iter().flatten().any(Parameter::is_assumed);
    match (vessel.formula, assumed) {
        (Some(formula), _) => format!(
            "By the published formula “{}”, fresh, where you typed no figure of your own. Source: {}. {}",
            formula.name,
            formula.source,
            formula.known.sentence()
        ),
        (None, true) => format!(
            "As the class usually holds ({}): pick its published formula or type your own figures, and the bands close.",
            vessel.class.name()
        ),
        (None, false) => "By your own figures.".to_owned(),
    }
}
