//! The figures and drawings of a clip test.

use super::Clip;
use crate::development::{Band, Parameter};
use crate::fields::{JudgedBy, Scale, Through};
use crate::parts::strip::strip;
use crate::parts::{assumption, progress_assumption, q10_assumption, scatter_assumption};
use crate::proof::{ByDensity, Measured, TestKind, density_ratio};
use crate::quantity::Units;
use crate::sheet::{Figure, Item, Patch, Picture};

/// The strength against fresh.
pub fn strength(measured: &Measured, assumes: bool, units: Units) -> Figure {
    let figure = Figure::percent("strength", "Strength against fresh", measured.strength.value, units)
        .uncertain(measured.uncertainty * 100.0, |spread| units.percent(spread / 100.0))
        .assumed_if(assumes);
    banded(figure, measured.strength, units)
}

/// The smallest loss that would have shown.
pub fn unseen(clip: &Clip, measured: Option<&Measured>, units: Units) -> Figure {
    let of = |label: &'static str, loss: Band| {
        let figure = Figure::percent("unseen", label, loss.value, units);
        banded(figure, loss, units)
    };
    match measured {
        Some(measured) => {
            let by_progress = clip.judged == JudgedBy::ByMeter && clip.progress.is_assumed();
            of("A smaller loss would not show", measured.unseen).assumed_if(by_progress)
        }
        None => of("By eye, a smaller loss would not show", clip.unseen_by_eye()).assumed(),
    }
}

fn banded(figure: Figure, band: Band, units: Units) -> Figure {
    figure.between(&units.percent(band.least), &units.percent(band.most))
}

/// The clip as it should look, or the two patches as they were read.
pub fn expected(clip: &Clip, units: Units) -> Vec<Item> {
    let read = clip.by_density().as_ref().and_then(ByDensity::means);
    let mut items = vec![Item::Picture(clip_picture(clip))];
    items.push(Item::Text(
        match clip.expired {
            false => {
                "The leader, struck by light, is as black as your reference. The rest is clear. The maker's marks along the edge \
                 are deep black: the light of the factory put them there, and only the developer brings them out."
            }
            true => {
                "The leader, struck by light, is as black as that of your reference, which must be of the same old film. The rest \
                 may be veiled: old film veils by itself."
            }
        }
        .to_owned(),
    ));
    if let Some([fresh, now]) = read.filter(|_| clip.judged == JudgedBy::ByMeter) {
        let shown = [fresh, now].map(|density| units.number(density, 2));
        items.push(strip(
            &format!(
                "As read, in densities over the clear part: the reference {}, this clip {}",
                shown[0], shown[1]
            ),
            [("the reference", fresh, &shown[0]), ("this clip", now, &shown[1])],
        ));
    }
    items
}

fn clip_picture(clip: &Clip) -> Picture {
    let black = clip.leader_density.value;
    let patch = |label: &str, density: f64, shown: &str| Patch {
        label: label.to_owned(),
        density,
        shown: shown.to_owned(),
    };
    let mut patches = vec![patch("leader", black, "pitch black")];
    if clip.judged == JudgedBy::ByMeter && clip.through == Through::Grey {
        patches.push(patch("short light", black * GREY, "grey"));
    }
    patches.push(match clip.expired {
        false => patch("unexposed", 0.0, "clear"),
        true => patch("unexposed", VEIL, "old film: veiled"),
    });
    Picture::Strip {
        caption: "A sound clip against the light".to_owned(),
        patches,
        edge: (!clip.expired).then_some(black),
    }
}

/// How dark a grey patch is drawn, of the leader's density.
const GREY: f64 = 0.35;
/// How dark the veil of old film is drawn.
const VEIL: f64 = 0.25;

/// What was read, and what follows from it.
pub fn measured(clip: &Clip, measured: &Measured, units: Units) -> Vec<Item> {
    let mut items = match clip.judged {
        JudgedBy::ByTime => by_time(clip, units),
        JudgedBy::ByMeter => by_meter(clip, units),
        JudgedBy::ByEye => Vec::new(),
    };
    let surely = |name: &'static str, label: &'static str, share: f64| {
        Item::Figure(Figure::percent(name, label, share, units).assumed_if(clip.assumes()))
    };
    items.push(surely(
        "at_least",
        "Strength, with 95 % certainty at least",
        measured.surely.0,
    ));
    if measured.surely.1.is_finite() {
        items.push(surely("at_most", "With 95 % certainty at most", measured.surely.1));
    }
    items.extend(clip.thermometer.iter().cloned());
    items
}

fn by_time(clip: &Clip, units: Units) -> Vec<Item> {
    let timed = clip.timed();
    let took = [
        (
            "took_fresh",
            "Black in fresh bath after",
            timed.and_then(|timed| timed.fresh()),
        ),
        (
            "took_now",
            "Black in this bath after",
            timed.and_then(|timed| timed.now()),
        ),
    ];
    let figure = |(name, label, time)| Some(Item::Figure(Figure::span(name, label, time?, units)));
    took.into_iter().filter_map(figure).collect()
}

fn by_meter(clip: &Clip, units: Units) -> Vec<Item> {
    let Some([fresh, now]) = clip.by_density().as_ref().and_then(ByDensity::means) else {
        return Vec::new();
    };
    let number = |name: &'static str, label: &'static str, value: f64| {
        Item::Figure(Figure::number(name, label, value, 3, units))
    };
    let limit = TestKind::Clip.enough();
    let at_limit = fresh * density_ratio(limit, clip.progress.value);
    vec![
        number("density_fresh", "Density of the reference, over its clear part", fresh),
        number("density_now", "Density of this clip, over its clear part", now),
        number("density_difference", "Thinner by, in density", fresh - now),
        Item::Figure(
            Figure::number(
                "density_at_limit",
                format!("Density that {} would give", units.percent(limit)),
                at_limit,
                3,
                units,
            )
            .assumed_if(clip.progress.is_assumed()),
        ),
    ]
}

/// What it rests on that nobody measured.
pub fn assumptions(clip: &Clip, units: Units) -> Vec<Item> {
    let number = |name: &'static str, label: &'static str, parameter: Parameter, places| {
        Figure::number(name, label, parameter.value, places, units)
    };
    let mut items = Vec::new();
    match clip.judged {
        JudgedBy::ByEye => {
            let eye = number("assumed_eye", "Your eye sees, density", clip.eye, 3);
            items.extend(assumption(eye, clip.eye, "eye", units));
            let leader = number("assumed_leader", "The leader's density", clip.leader_density, 2);
            items.extend(assumption(leader, clip.leader_density, "leader_density", units));
            let progress = number("assumed_progress", "How far the leader goes (k t)", clip.progress, 2);
            items.extend(assumption(progress, clip.progress, "progress", units));
        }
        JudgedBy::ByMeter => {
            items.extend(progress_assumption(clip.progress, units));
            let label = match clip.scale {
                Scale::Stops => "The meter's step, in stops",
                Scale::Densities => "The meter's step, in density",
            };
            items.extend(assumption(
                number("assumed_step", label, clip.step, 3),
                clip.step,
                "step",
                units,
            ));
        }
        JudgedBy::ByTime if !clip.is_repeated() => {
            items.extend(scatter_assumption("black_now", units));
        }
        JudgedBy::ByTime => {}
    }
    if clip.judged != JudgedBy::ByEye && clip.warmth.is_some_and(|warmth| warmth.is_assumed()) {
        items.extend(q10_assumption(clip.q10, units));
    }
    items
}
