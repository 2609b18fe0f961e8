//! The plans of a decanting as ways: what to fill, in order of use, and the oxygen that each meets.

use super::{milligrams_of, show_oxygen};
use crate::chemistry::Class;
use crate::keeping::{Advice, Fill, Job, Lean, Plan, Ranged, oxygen_within};
use crate::kit::Container;
use crate::quantity::{Amount, Units};
use crate::sheet::{Figure, Item, Way};

/// The advised plan first, then leaving it, then the one that meets the least where that is another.
pub fn ways(job: &Job, advice: &Advice, class: Class, units: Units) -> Vec<Item> {
    let (advised, leave) = (&advice.advised, &advice.leave);
    let mut ways = Vec::new();
    if advised.poured() > 0 {
        ways.push(way(job, advised, ["oxygen_advised", "cost_advised"], class, units));
    }
    ways.push(way(job, leave, ["oxygen_leave", "cost_leave"], class, units));
    if advice.least.poured() > 0 && advice.least.fills != advised.fills {
        ways.push(way(job, &advice.least, ["oxygen_least", "cost_least"], class, units));
    }
    if let Some(first) = ways.first_mut() {
        first.best = true;
    }
    ways.into_iter().map(Item::Way).collect()
}

/// What it gains, in a sentence.
pub fn gain(job: &Job, advice: &Advice, class: Class, units: Units) -> Option<String> {
    let share = |plan: &Plan| {
        let met = oxygen_within(job, plan, &[job.days()]);
        let cost = could_cost(job, class, met.first()?)?;
        Some(units.percent(cost.value))
    };
    let (leave, advised) = (share(&advice.leave)?, share(&advice.advised)?);
    let (what, up_to) = match class.is_developer() {
        true => ("developer", "up to "),
        false => ("preservative", "about "),
    };
    Some(match advice.advised.poured() {
        0 => format!("By the last drop the air could have cost {up_to}{leave} of the {what}."),
        _ => format!(
            "By the last drop the air could have cost {up_to}{leave} of the {what} as it is, and {up_to}{advised} decanted."
        ),
    })
}

fn way(job: &Job, plan: &Plan, [oxygen, cost]: [&'static str; 2], class: Class, units: Units) -> Way {
    let met = oxygen_within(job, plan, &[job.days()]);
    let figures = met.iter().flat_map(|met| {
        let shown = met.map(|amount| show_oxygen(amount, units));
        let figure = Figure {
            unit: "g",
            shown: shown.value,
            ..Figure::number(oxygen, "Oxygen it meets", milligrams_of(met.value) / 1000.0, 4, units)
        };
        let figure = figure.between(&shown.least, &shown.most).assumed();
        let cost = could_cost(job, class, met).map(|share| {
            let shown = share.map(|share| units.percent(share));
            let label = match class.is_developer() {
                true => "Developer it could cost, at the most",
                false => "Preservative it takes",
            };
            Figure::percent(cost, label, share.value, units)
                .between(&shown.least, &shown.most)
                .assumed()
        });
        std::iter::once(figure).chain(cost)
    });
    Way {
        title: match plan.poured() {
            0 => "Leave it as it is".to_owned(),
            1 => "Fill 1 container".to_owned(),
            many => format!("Fill {many} containers"),
        },
        steps: steps(job, plan, units),
        figures: figures.collect(),
        best: false,
    }
}

/// The share of what it holds against the air that the oxygen takes: of the developing agent if all went to that, or else of the
/// sulfite. All of it at the most.
fn could_cost(job: &Job, class: Class, met: &Ranged<Amount>) -> Option<Ranged<f64>> {
    let share = |oxygen: Amount, lean: &Lean| {
        let reserve = job.assumptions.reserve(lean);
        let share = match class.is_developer() {
            true => reserve.agent_used(oxygen, job.content),
            false => reserve.sulfite_used(oxygen, job.content),
        };
        share.map(|share| share.min(1.0))
    };
    Some(Ranged {
        value: share(met.value, &Lean::USUAL)?,
        least: share(met.least, &Lean::GENTLE)?,
        most: share(met.most, &Lean::HARSH)?,
    })
}

/// What is where, in the order of use; containers that are alike together.
fn steps(job: &Job, plan: &Plan, units: Units) -> Vec<String> {
    let alike = |one: &Fill, other: &Fill| match (kept_in(job, one), kept_in(job, other)) {
        (Some(a), Some(b)) => one.volume == other.volume && a.brimful == b.brimful && a.material == b.material,
        _ => false,
    };
    let groups: Vec<&[Fill]> = plan.fills.chunk_by(alike).collect();
    let last = groups.len().saturating_sub(1);
    let mut steps: Vec<String> = Vec::new();
    for (place, group) in groups.iter().enumerate() {
        let when = match place {
            _ if last == 0 => "",
            0 => "Use first: ",
            place if place == last => "Use last: ",
            _ => "Then: ",
        };
        steps.push(format!("{when}{}.", what(job, group, units)));
    }
    if plan.poured() > 0 {
        steps.push("Write the content and today’s date on each before you fill it.".to_owned());
    }
    steps
}

fn what(job: &Job, group: &[Fill], units: Units) -> String {
    let fill = &group[0];
    let volume = units.volume(fill.volume);
    let Some(container) = kept_in(job, fill) else {
        let air = units.volume(job.container.headspace(fill.volume));
        return match fill.brimful {
            true => format!("{volume} in the bottle it is in, full to the brim"),
            false => format!("{volume} in the bottle it is in, under {air} of air"),
        };
    };
    let name = format!("{} {}", units.volume(container.brimful), container.material.name());
    match (group.len(), fill.brimful) {
        (1, true) => format!("{name}, full to the brim"),
        (1, false) => format!("{name} with {volume} in it"),
        (many, _) => format!("{many} × {name}, each full to the brim; open one only when the one before is empty"),
    }
}

fn kept_in<'a>(job: &Job<'a>, fill: &Fill) -> Option<&'a Container> {
    fill.container.map(|place| &job.at_hand[place])
}
