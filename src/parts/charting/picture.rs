//! The series drawn: values, smoothed line, target, limits, and how far chance goes.

use super::{Charting, PLACES};
use crate::proof::control::Smoothed;
use crate::quantity::Units;
use crate::sheet::{Level, LevelKind, Picture};

/// The drawing. Across are days where the values have them, or else their places in the list.
pub(super) fn chart(charting: &Charting, smoothed: &[Smoothed], units: Units) -> Picture {
    let dated = charting.series.dated();
    let spans_days =
        dated.len() == charting.values.len() && dated.first().map(|one| one.0) < dated.last().map(|one| one.0);
    let across = |at: usize| match spans_days {
        true => f64::from(dated[at].0 - dated[0].0),
        false => at as f64,
    };
    let points = |of: &dyn Fn(usize) -> f64| (0..charting.values.len()).map(|at| (across(at), of(at))).collect();
    let level = |name: &str, at: f64, kind| Level {
        label: format!("{name} {}", units.number(at, PLACES)),
        at,
        kind,
    };
    let (low, high) = charting.control.limits();
    let mut levels = vec![
        level("target", charting.control.level, LevelKind::Target),
        level("chance", low, LevelKind::Chance),
        level("chance", high, LevelKind::Chance),
    ];
    levels.extend(
        charting
            .edges
            .iter()
            .map(|edge| level("limit", edge.at, LevelKind::Limit)),
    );
    Picture::Chart {
        caption: format!(
            "{} of {} tests: each one, the smoothed line, the target and the limits",
            charting.measure.name(),
            charting.values.len()
        ),
        across: if spans_days { "day" } else { "test" }.to_owned(),
        values: points(&|at| charting.values[at]),
        smoothed: points(&|at| smoothed[at].value),
        levels,
        ends: [charting.series.name(0), charting.series.name(charting.values.len() - 1)],
    }
}
