//! What the air could have done to a bottle, said: bounds, where the oxygen came from, and what would change it.

use super::text;
use super::vessel::Vessel;
use crate::chemistry::Substance;
use crate::keeping::comparison::{half_empty_litre, same_bottle};
use crate::keeping::{Exposure, Life, Ranged, Seal, Stretch};
use crate::kit::{Container, Material, Treatment};
use crate::quantity::{Amount, Temperature, Units, Volume};
use crate::sheet::{Bar, Figure, Item, Picture, Table};

/// Days ahead for which ways to close it are compared.
const AHEAD: i32 = 183;
/// Days, and days between openings, of the half-empty litre.
const LITRE: (i32, i32) = (56, 14);
/// Temperature of both comparisons.
const ROOM: Temperature = Temperature::from_celsius(20.0);
/// Temperature at which the walls were measured.
const MEASURED_AT: Temperature = Temperature::from_celsius(25.0);
/// Years for which walls are compared.
const YEARS: u32 = 4;
/// The head over them.
const AFTER_YEARS: &str = "In four years";

/// The figures to act on: oxygen met, preservative used at the least, agent at the most.
pub fn bounds(air: &Ranged<Exposure>, units: Units) -> Vec<Figure> {
    let mut figures = vec![met("oxygen", "Oxygen met", air.map(|one| one.oxygen()), units)];
    if let Some(sulfite) = air.map_some(|one| one.sulfite) {
        figures.push(share(
            "sulfite_at_least",
            "Preservative used, at least",
            sulfite.least,
            sulfite,
            units,
        ));
    }
    if let Some(agent) = air.map_some(|one| one.agent) {
        figures.push(share("agent_at_most", "Agent lost, at most", agent.most, agent, units));
    }
    figures
}

/// The same three as usually taken, at the least and at the most, and what they mean.
pub fn cost(air: &Ranged<Exposure>, units: Units) -> Vec<Item> {
    let mut items = vec![
        Item::Text(
            "This bounds what the air could have cost; it is no prediction, since nobody has published how much strength \
             goes with how much air."
                .to_owned(),
        ),
        Item::Figure(
            Figure::milligrams("oxygen_mass", "Oxygen met", Substance::OXYGEN.mass(air.value.oxygen()), units).assumed(),
        ),
    ];
    items.extend(usual(air, units));
    if air.value.sulfite.is_some() {
        items.push(text("Every oxygen takes two of sulfite, whether it goes through an agent or not; at most it takes one of agent too."));
    }
    items
}

/// What it has cost as usually taken.
pub(super) fn usual(air: &Ranged<Exposure>, units: Units) -> Vec<Item> {
    let (sulfite, agent) = (air.map_some(|one| one.sulfite), air.map_some(|one| one.agent));
    let usual = [
        ("sulfite", "Preservative used, as usually assumed", sulfite),
        ("agent", "Agent lost if it took all of the oxygen", agent),
    ];
    let figures = usual
        .into_iter()
        .filter_map(|(name, label, used)| used.map(|used| share(name, label, used.value, used, units)));
    figures.map(Item::Figure).collect()
}

/// Where the oxygen came from, as bars and figures.
pub fn sources(air: &Ranged<Exposure>, units: Units) -> Vec<Item> {
    let of = |part: fn(&Exposure) -> Amount| air.map(|one| part(&one));
    let parts = [
        ("from_openings", "Air let in at openings", of(|one| one.headspace)),
        ("from_wall", "Through the wall", of(|one| one.wall)),
        ("from_water", "In the water it was mixed with", of(|one| one.water)),
    ];
    let short = ["openings", "wall", "water"];
    let all = air.value.oxygen();
    let mut items = Vec::new();
    if all > Amount::ZERO {
        let bars = parts.iter().zip(short).map(|((_, _, amount), label)| Bar {
            label: label.to_owned(),
            share: amount.value / all,
            shown: units.amount(amount.value),
        });
        items.push(Item::Picture(Picture::Bars {
            caption: "Where the oxygen came from".to_owned(),
            bars: bars.collect(),
        }));
    }
    let figures = parts
        .into_iter()
        .map(|(name, label, amount)| met(name, label, amount, units));
    items.extend(figures.map(Item::Figure));
    items.push(Item::Figure(met(
        "waiting",
        "Still above the liquid",
        of(|one| one.waiting),
        units,
    )));
    items.push(Item::Figure(met(
        "refills",
        "All openings, each counted whole",
        of(|one| one.refills),
        units,
    )));
    items
}

/// That walls let more through in the heat than is known of them; nothing where no wall does, or no heat is.
pub fn hot_wall(lives: &Ranged<Life>, units: Units) -> Option<Item> {
    let last = lives.value.last();
    let hot = last.climate.extremes().1 > MEASURED_AT;
    let lets_through = !matches!(last.container.material, Material::Glass | Material::Metal);
    (hot && lets_through).then(|| {
        Item::Caution(format!(
            "The published figures for walls are for {}: in the heat more comes through, so even the most may be too little.",
            units.temperature(MEASURED_AT)
        ))
    })
}

/// What another way to close it would make of the half-year to come, if it only stands.
pub fn ahead(vessel: &Vessel, lives: &Ranged<Life>, units: Units) -> Vec<Item> {
    let left = vessel.left.unwrap_or(Volume::ZERO);
    if left <= Volume::ZERO {
        return Vec::new();
    }
    let last = lives.value.last();
    let glass = |container: &Container| Container {
        material: Material::Glass,
        ..container.clone()
    };
    let filled = |container: &Container| Container {
        brimful: left,
        nominal: None,
        wall_area: None,
        ..container.clone()
    };
    let own = last.container;
    let mut ways = vec![("as it is", own.clone(), vessel.treatment)];
    for (label, treatment) in [
        ("air pressed out", Treatment::Squeezed),
        ("filled up with beads", Treatment::Beads(None)),
        ("under inert gas", Treatment::InertGas),
    ] {
        if std::mem::discriminant(&vessel.treatment) != std::mem::discriminant(&treatment) {
            ways.push((label, own.clone(), treatment));
        }
    }
    if own.material != Material::Glass {
        ways.push(("in glass of its size", glass(own), vessel.treatment));
        ways.push((
            "in a smaller one of its kind, to the brim",
            filled(own),
            Treatment::Plain,
        ));
    }
    ways.push((
        "in a glass bottle that it fills to the brim",
        filled(&glass(own)),
        Treatment::Plain,
    ));
    let rows = ways.into_iter().map(|(label, container, treatment)| {
        let stands = Life::new(vec![Stretch {
            from: last.to,
            to: last.to + AHEAD,
            content: left,
            seal: Seal::Opened,
            treatment,
            container: &container,
            climate: last.climate,
        }]);
        let air = stands.ok().map(|life| {
            vessel.air(&Ranged {
                value: life.clone(),
                least: life.clone(),
                most: life,
            })
        });
        (
            label.to_owned(),
            air.map_or(Vec::new(), |air| columns("ahead", &air, units)),
        )
    });
    let heads = heads(
        "Closed today",
        vessel.assumptions.agent.is_some(),
        vessel.assumptions.sulfite.is_some(),
    );
    vec![
        text(
            "If it is opened today, closed so, and then stands for half a year. What pouring itself stirs in is not counted.",
        ),
        Item::Table(Table {
            heads,
            rows: rows.collect(),
        }),
    ]
}

/// The same half-empty litre by class.
pub fn classes(units: Units) -> Vec<Item> {
    let (days, interval) = LITRE;
    let compared = half_empty_litre(days, interval);
    let bars = compared.iter().map(|one| {
        let agent = one.air.value.agent.unwrap_or(0.0);
        Bar {
            label: short(one.class.name()),
            share: agent,
            shown: units.percent(agent),
        }
    });
    let picture = Picture::Bars {
        caption: "Agent lost if it took all of the oxygen".to_owned(),
        bars: bars.collect(),
    };
    let rows = compared.iter().map(|one| {
        let mut figures = Vec::new();
        if let (Some(agent), Some(sulfite)) = (one.air.map_some(|air| air.agent), one.air.map_some(|air| air.sulfite)) {
            figures.push(share("class_agent", "Agent lost, at most", agent.most, agent, units));
            figures.push(share(
                "class_sulfite",
                "Preservative used, at least",
                sulfite.least,
                sulfite,
                units,
            ));
        }
        if let Some(life) = one.share {
            figures.push(
                Figure::number("class_life", "Times its usual life", life.value, 2, units)
                    .between(&units.times(life.least), &units.times(life.most))
                    .assumed(),
            );
        }
        (one.class.name().to_owned(), figures)
    });
    let table = Table {
        heads: [
            "Half a litre in a litre of glass",
            "Agent lost, at most",
            "Preservative used, at least",
            "Times its usual life",
        ]
        .map(str::to_owned)
        .to_vec(),
        rows: rows.collect(),
    };
    vec![
        Item::Text(format!(
            "Half-empty, at {}, opened every {} for {}, with nothing drawn: the same air is little to one and much to \
             another.",
            units.temperature(ROOM),
            units.period(f64::from(interval)),
            units.period(f64::from(days)),
        )),
        Item::Picture(picture),
        Item::Table(table),
    ]
}

/// The same full, unopened litre by material, with the content of this bottle.
pub fn walls(vessel: &Vessel, units: Units) -> Vec<Item> {
    let compared = same_bottle(&vessel.assumptions, YEARS);
    let agents = compared[0].agent.is_some();
    let sulfites = compared[0].sulfite.is_some();
    let rows = compared.iter().map(|one| {
        let mut figures: Vec<Figure> = [("Oxygen in a year", 1), (AFTER_YEARS, YEARS)]
            .into_iter()
            .filter_map(|(label, year)| Some((label, *one.wall.get(year as usize)?)))
            .map(|(label, wall)| met("wall_oxygen", label, wall, units))
            .collect();
        if let Some(sulfite) = one.sulfite {
            figures.push(share(
                "wall_sulfite",
                "Preservative used, at least",
                sulfite.least,
                sulfite,
                units,
            ));
        }
        if let Some(agent) = one.agent {
            figures.push(share("wall_agent", "Agent lost, at most", agent.most, agent, units));
        }
        (one.material.name().to_owned(), figures)
    });
    let mut heads = vec![
        "A full litre, never opened".to_owned(),
        "Oxygen in a year".to_owned(),
        AFTER_YEARS.to_owned(),
    ];
    heads.extend(sulfites.then(|| "Preservative used, at least".to_owned()));
    heads.extend(agents.then(|| "Agent lost, at most".to_owned()));
    vec![
        Item::Text(format!(
            "What comes through the wall alone, into a litre of what is in this bottle, at {}.",
            units.temperature(ROOM)
        )),
        Item::Table(Table {
            heads,
            rows: rows.collect(),
        }),
    ]
}

fn heads(first: &str, agent: bool, sulfite: bool) -> Vec<String> {
    let mut heads = vec![first.to_owned(), "Oxygen met".to_owned()];
    heads.extend(sulfite.then(|| "Preservative used, at least".to_owned()));
    heads.extend(agent.then(|| "Agent lost, at most".to_owned()));
    heads
}

fn columns(name: &str, air: &Ranged<Exposure>, units: Units) -> Vec<Figure> {
    let mut figures = bounds(air, units);
    for figure in &mut figures {
        figure.name = format!("{name}_{}", figure.name).into();
    }
    figures
}

fn met(name: &'static str, label: &'static str, amount: Ranged<Amount>, units: Units) -> Figure {
    // What waits above the liquid does not grow with all that is assumed, so its own value may be the end of its band.
    let ends = [amount.least, amount.most, amount.value];
    let low = ends.into_iter().fold(amount.value, Amount::min);
    let high = ends.into_iter().fold(amount.value, Amount::max);
    let figure = Figure::amount(name, label, amount.value, units);
    match (high - low).millimoles() > NOTHING {
        true => figure.between(&units.amount(low), &units.amount(high)).assumed(),
        false => figure,
    }
}

/// A share that air has taken is assumed even where its whole band comes to all of it.
fn share(name: &'static str, label: &'static str, value: f64, band: Ranged<f64>, units: Units) -> Figure {
    let figure = Figure::percent(name, label, value, units);
    match band.most - band.least > NOTHING {
        true => figure
            .between(&units.percent(band.least), &units.percent(band.most))
            .assumed(),
        false => figure.assumed_if(value > NOTHING),
    }
}

/// What floating point leaves of nothing.
const NOTHING: f64 = 1e-9;

/// `developer, syrup concentrate` is `syrup concentrate`.
fn short(class: &str) -> String {
    class.rsplit(',').next().unwrap_or(class).trim_start().to_owned()
}
