//! What a bottle is, said: its drawing, what its content holds against the air, and what of it nobody measured.

use super::vessel::Vessel;
use crate::development::{Origin, Parameter};
use crate::keeping::{Life, Ranged};
use crate::kit::{Material, Treatment};
use crate::quantity::{Amount, Units, Volume};
use crate::sheet::{Assumption, Figure, Item, Picture};

/// What the shelf tells of the bottle, and what it would have to know.
pub fn record(vessel: &Vessel) -> Vec<Item> {
    let mut items = Vec::new();
    if vessel.is_empty_on_shelf() {
        items.push(Item::Text(
            "The shelf says that it is empty: there is nothing to judge.".to_owned(),
        ));
    }
    if let Some(discarded) = vessel.bottle.and_then(|bottle| bottle.discarded.as_ref()) {
        items.push(Item::Text(format!(
            "It was discarded on {}: this is how it stood then.",
            discarded.day
        )));
    }
    if vessel.is_on_record() {
        items.push(Item::Text(
            "Its content, its openings and its places are those of its record; the fields that describe a bottle are \
             passed over."
                .to_owned(),
        ));
    }
    if vessel.left == Some(Volume::ZERO) && !vessel.is_empty_on_shelf() {
        items.push(Item::Text(
            "Nothing is left in it: what follows is what it had been through.".to_owned(),
        ));
    }
    let missing = vessel.missing();
    if !missing.is_empty() {
        let questions: Vec<&str> = missing.iter().map(|missing| missing.question()).collect();
        items.push(Item::Caution(format!(
            "The shelf does not know enough of it, so the fields below describe it. {}",
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
    let stays = left_of_air(vessel);
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
    let kinds = [
        ("agent", "Developing agent", vessel.assumptions.agent),
        ("sulfite", "Sulfite, the preservative", vessel.assumptions.sulfite),
    ];
    let mut items = Vec::new();
    for (name, label, reserve) in kinds {
        let Some(reserve) = reserve else { continue };
        items.push(Item::Figure(within(
            Figure::number(
                format!("{name}_molarity"),
                format!("{label}, mol/l"),
                reserve.value,
                4,
                units,
            ),
            reserve,
            &|moles| units.about(moles),
        )));
        let Some(left) = vessel.left.filter(|left| *left > Volume::ZERO) else {
            continue;
        };
        // mol/l is mmol/ml.
        let fresh = |moles: f64| Amount::from_millimoles(moles * left.millilitres());
        items.push(Item::Figure(within(
            Figure::amount(
                format!("{name}_in_it"),
                format!("{label}, in it if fresh"),
                fresh(reserve.value),
                units,
            ),
            reserve,
            &|moles| units.amount(fresh(moles)),
        )));
    }
    if items.is_empty() {
        return vec![Item::Text(
            "Nothing in it is known to suffer from the air, unless you type what it holds.".to_owned(),
        )];
    }
    items.push(Item::Text(known_from(vessel)));
    items
}

/// Everything of the bottle and of the air that nobody measured.
pub fn unmeasured(vessel: &Vessel, lives: Option<&Ranged<Life>>, units: Units) -> Vec<Item> {
    let assumptions = &vessel.assumptions;
    let volume = |name, label, parameter: Option<Parameter>, field| {
        let parameter = parameter?;
        let figure = Figure::volume(name, label, Volume::from_millilitres(parameter.value), units);
        assumed(figure, parameter, field, &|value| {
            units.volume(Volume::from_millilitres(value))
        })
    };
    let number = |name, label, places, parameter: Option<Parameter>, field| {
        let parameter = parameter?;
        let figure = Figure::number(name, label, parameter.value, places, units);
        assumed(figure, parameter, field, &|value| units.about(value))
    };
    let brimful_field = if vessel.is_on_record() { "bottle" } else { "brimful" };
    let pressure = assumptions.pressure.map(|pascals| pascals / 100.0);
    let humidity = Figure::percent(
        "assumed_humidity",
        "Humidity of the room",
        assumptions.humidity.value,
        units,
    );
    let uptake = Figure::period(
        "assumed_uptake",
        "Oxygen mostly taken up in",
        assumptions.uptake.value,
        units,
    );
    let mut items: Vec<Option<Item>> = vec![
        volume("assumed_brimful", "Holds to the brim", vessel.brimful, brimful_field),
        volume("assumed_began", "Held at first", vessel.began, "began"),
        volume("assumed_water", "Water mixed in", vessel.water, "water"),
        number(
            "assumed_agent",
            "Developing agent, mol/l",
            3,
            assumptions.agent,
            "agent",
        ),
        number("assumed_sulfite", "Sulfite, mol/l", 3, assumptions.sulfite, "sulfite"),
        assumed(uptake, assumptions.uptake, "uptake", &|days| units.period(days)),
        left_of_air(vessel).and_then(|stays| {
            let figure = Figure::percent("assumed_air_left", "Air that stays", stays.value, units);
            assumed(figure, stays, "air_left", &|share| units.percent(share))
        }),
        assumed(
            Figure::number("assumed_pressure", "Air pressure, hPa", pressure.value, 0, units),
            pressure,
            "pressure",
            &|value| units.number(value, 0),
        ),
        assumed(humidity, assumptions.humidity, "humidity", &|share| {
            units.percent(share)
        }),
    ];
    let container = lives.map(|lives| lives.value.last().container);
    let lets_through = container.filter(|one| !matches!(one.material, Material::Glass | Material::Metal));
    if let Some(container) = lets_through {
        let field = |field| if vessel.is_on_record() { "bottle" } else { field };
        let wall = Parameter::given_or(None, container.material.permeability());
        items.extend([
            number(
                "assumed_permeability",
                "Oxygen through the wall, cm³ mm/(m² day atm)",
                2,
                Some(wall),
                field("material"),
            ),
            number(
                "assumed_thickness",
                "Wall, mm",
                2,
                Some(container.wall_thickness()),
                field("thickness"),
            ),
            number(
                "assumed_wall_area",
                "Wall, cm²",
                0,
                Some(container.area()),
                field("wall_area"),
            ),
        ]);
    }
    items.into_iter().flatten().collect()
}

/// The item for a number that nobody measured, its range shown as the number is; nothing for one that somebody did.
pub(super) fn assumed(
    figure: Figure,
    parameter: Parameter,
    field: &'static str,
    show: &dyn Fn(f64) -> String,
) -> Option<Item> {
    let Origin::Assumed(why) = parameter.origin else {
        return None;
    };
    Some(Item::Assumption(Assumption {
        figure: figure.assumed(),
        range: format!("{} to {}", show(parameter.least), show(parameter.most)),
        why: why.to_owned(),
        field,
    }))
}

/// A figure with the range of its parameter, where nobody measured it.
fn within(figure: Figure, parameter: Parameter, show: &dyn Fn(f64) -> String) -> Figure {
    match parameter.is_assumed() {
        true => figure.between(&show(parameter.least), &show(parameter.most)).assumed(),
        false => figure,
    }
}

/// Share of the air that the treatment leaves; `None` where nothing is done to it, or where beads of a known volume are in.
fn left_of_air(vessel: &Vessel) -> Option<Parameter> {
    match vessel.treatment {
        Treatment::Plain | Treatment::Beads(Some(_)) => None,
        treatment => Some(match vessel.assumptions.air_left {
            Some(share) => super::vessel::known(share),
            None => treatment.air_left(),
        }),
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
            "By the published formula “{}”, fresh, where you typed no figure of your own. Source: {}.",
            formula.name, formula.source
        ),
        (None, true) => format!(
            "As the class usually holds ({}): pick its published formula or type your own figures, and the bands close.",
            vessel.class.name()
        ),
        (None, false) => "By your own figures.".to_owned(),
    }
}
