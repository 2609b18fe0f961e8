//! What must stand ready before the film is wet: the developer, measured; the baths that are used again; water.

use super::super::capacity::filling;
use super::super::judged::Judged;
use super::super::measuring::{Conditions, measure, poured};
use super::super::text;
use super::Steps;
use super::reuse::Role;
use crate::darkroom::Darkroom;
use crate::keeping::State;
use crate::kit::{Cover, Kit};
use crate::ledger::Bottle;
use crate::quantity::{Dilution, Units, Volume};
use crate::session::StepKind;
use crate::sheet::{Figure, Item};

impl Steps<'_> {
    /// Whether the developer is mixed for this, and not poured back.
    pub(super) fn is_mixed(&self) -> bool {
        self.first(StepKind::Develop).is_some() && self.reused(Role::Developer).is_none()
    }

    /// Out of the bottle, and what else makes up the total; where the dilution is one by volume.
    pub(super) fn mixed(&self) -> Option<(Volume, Volume)> {
        let total = self.total.filter(|_| self.is_mixed())?;
        let first = self.bath.dilution.as_ref()?.concentrates(total).first().copied()?;
        Some((first, total - first))
    }

    /// The least of every bath that covers the film.
    pub(super) fn least(&self) -> Option<Volume> {
        match self.tank.map(|tank| tank.cover(&self.load)) {
            Some(Cover::From(cover)) if !self.load.is_empty() => Some(cover),
            _ => self.total,
        }
    }
}

/// The baths, each with its volume.
pub(super) fn ready(steps: &Steps, darkroom: &Darkroom, units: Units) -> Vec<Item> {
    let mut items = Vec::new();
    if steps.is_mixed()
        && let Some(total) = steps.total
    {
        items.extend(developer(steps, total, darkroom, units));
    }
    let least = steps.least();
    for reused in steps.in_use() {
        if let (Some(bottle), Some(least)) = (reused.poured_back(), least) {
            let name = format!("{}_fill", reused.role.word());
            let fill = if reused.role == Role::Developer {
                steps.total.unwrap_or(least)
            } else {
                least
            };
            let label = format!("{}, poured back, at least", bottle.is.label.product);
            items.push(Item::Figure(Figure::volume(name, label, fill, units)));
        }
    }
    if let Some(least) = least {
        items.extend(other_baths(steps, least, units).map(Item::Text));
    }
    let water = names(steps, |kind| {
        matches!(kind, StepKind::Prewet | StepKind::Rinse | StepKind::Wash)
    });
    if let (false, Some(warm)) = (water.is_empty(), steps.warmth()) {
        items.push(Item::Text(format!(
            "Water for {}, near the {} of the developer.",
            water.join(", "),
            units.temperature(warm)
        )));
    }
    items
}

/// Concentrate and water, measured with the kit.
fn developer(steps: &Steps, total: Volume, darkroom: &Darkroom, units: Units) -> Vec<Item> {
    let kit = &darkroom.kit;
    let Some(dilution) = &steps.bath.dilution else {
        return Vec::new();
    };
    let conditions = Conditions {
        density: steps.bath.bottle.and_then(|bottle| bottle.density),
        room: Some(total),
        from_20: steps.bath.from_20(),
        units,
    };
    let what = match steps.bath.bottle {
        Some(bottle) => format!("of {} {dilution}", bottle.product),
        None => format!("at {dilution}"),
    };
    let mut items = vec![Item::Text(format!("Developer: {} {what}.", units.volume(total)))];
    if let Dilution::Weighed(per_volume) = dilution {
        items.push(Item::Figure(Figure::mass("mass", "Weigh", *per_volume * total, units)));
        return items;
    }
    let concentrates = dilution.concentrates(total);
    let labels = match concentrates.len() {
        1 => ["Concentrate", ""],
        _ => ["Concentrate A", "Concentrate B"],
    };
    for ((volume, label), name) in concentrates.iter().zip(labels).zip(["concentrate", "concentrate_b"]) {
        let figure = Figure::volume(name, label, *volume, units);
        match measure(kit, *volume, conditions) {
            Ok(ways) => items.push(Item::Figure(figure.measured_to(ways[0].standard_uncertainty(), units))),
            Err(sentence) => items.extend([Item::Figure(figure), Item::Caution(sentence)]),
        }
    }
    let water = total - concentrates.iter().copied().sum();
    if water > Volume::ZERO {
        items.push(Item::Figure(Figure::volume("water", "Water", water, units)));
        items.push(Item::Figure(whole(total, kit, conditions)));
    }
    items.push(text("How to measure them stands in Mix."));
    items
}

/// The whole, as well as the kit measures it.
fn whole(total: Volume, kit: &Kit, conditions: Conditions) -> Figure {
    let units = conditions.units;
    let figure = Figure::volume("whole", "Filled up to", total, units);
    let conditions = Conditions {
        density: None,
        ..conditions
    };
    let ways = measure(kit, total, conditions).unwrap_or_default();
    match poured(&ways) {
        Some(way) => figure.measured_to(way.standard_uncertainty(), units),
        None => figure,
    }
}

/// Baths of which no bottle is picked.
fn other_baths(steps: &Steps, least: Volume, units: Units) -> Option<String> {
    let picked = |kind| {
        let mut all = steps.reused.iter();
        all.any(|reused| reused.role.kind() == kind && reused.bottle.is_some())
    };
    let others = names(steps, |kind| match kind {
        StepKind::Stop | StepKind::Fix | StepKind::WashAid => !picked(kind),
        StepKind::WettingAgent | StepKind::Other => true,
        _ => false,
    });
    (!others.is_empty()).then(|| format!("For {}: at least {} of each.", others.join(", "), units.volume(least)))
}

/// The names of the steps of some kinds, each once.
fn names<'a>(steps: &'a Steps, wanted: impl Fn(StepKind) -> bool) -> Vec<&'a str> {
    let mut all: Vec<&str> = Vec::new();
    for (_, line) in steps.lines.iter().filter(|(_, line)| wanted(line.kind)) {
        if !all.contains(&line.name.as_str()) {
            all.push(&line.name);
        }
    }
    all
}

/// What the records of the bottles say against using them.
pub(super) fn bottles(steps: &Steps, darkroom: &Darkroom, units: Units) -> Vec<Item> {
    let mut items = Vec::new();
    if steps.is_mixed()
        && let Some(bottle) = steps.bath.id.as_deref().and_then(|id| darkroom.shelf.bottle(id))
    {
        items.extend(doubts(
            bottle,
            steps.mixed().map(|(concentrate, _)| concentrate),
            darkroom,
            units,
        ));
    }
    for reused in steps.in_use() {
        if let Some(bottle) = reused.bottle {
            let wanted = steps.least().filter(|_| !reused.is_concentrate);
            items.extend(doubts(bottle, wanted, darkroom, units));
        }
    }
    items.into_iter().map(Item::Caution).collect()
}

/// A bottle that is gone, that holds too little, that failed its last test, or that wants one first.
fn doubts(bottle: &Bottle, wanted: Option<Volume>, darkroom: &Darkroom, units: Units) -> Vec<String> {
    let product = &bottle.is.label.product;
    if bottle.discarded.is_some() || bottle.is_empty() {
        return vec![format!("{product} is empty or gone. Take another bottle.")];
    }
    let mut all = Vec::new();
    if let (Some(left), Some(wanted)) = (bottle.left(), wanted)
        && !left.reaches(wanted)
    {
        let (left, wanted) = (units.volume(left), units.volume(wanted));
        all.push(format!("Only {left} of {product} are left; this takes {wanted}."));
    }
    let judged = Judged::of(&darkroom.shelf, bottle);
    match judged.state() {
        State::Failed => all.push(format!("{product} failed its last test: not for film. Take fresh.")),
        State::TestFirst => {
            let why: Vec<String> = judged.deciding().iter().map(|reason| reason.sentence(units)).collect();
            all.push(format!("Test {product} before film that matters. {}", why.join(" ")));
        }
        State::InDate | State::Proved | State::Unknown => {}
    }
    all
}

/// Whether the total covers the film, and whether the developer holds enough for it.
pub(super) fn fits(steps: &Steps, units: Units) -> Vec<Item> {
    let mut items = filling(steps.total, &steps.load, steps.tank, units);
    let least = steps.bath.bottle.and_then(|bottle| bottle.least_per_film);
    if let (Some((have, _)), Some(least)) = (steps.mixed(), least) {
        let need = least * steps.load.units();
        if !have.reaches(need) {
            items.push(Item::Caution(format!(
                "Short of concentrate: {} for {}, where the data sheet wants {}. Mix shows the ways out.",
                units.volume(have),
                steps.load.words(),
                units.volume(need)
            )));
        }
    }
    items
}
