//! What calculators have in common: a model's result, said in the parts of a sheet.

mod against_air;
mod against_reference;
mod airing;
mod bath;
mod buying;
mod capacity;
mod care;
mod clearing;
mod clip;
mod curve;
mod charting;
mod comparing;
mod held;
mod holding;
mod job;
mod judged;
mod judging;
mod measuring;
mod mixing;
mod outlook;
mod decanting;
mod doubts;
mod drifting;
mod lives;
mod log;
mod money;
mod picked;
mod planning;
mod scatter;
mod sessions;
mod slips;
mod spending;
mod spots;
mod steps;
mod strip;
mod tempering;
mod thermometer;
mod timing;
mod trust;
mod usage;
mod vessel;
mod voices;
mod warm;
mod washing;
mod weighing;
mod weighing_out;

pub use against_reference::{ComparedThermometer, comparing, how_to_compare};
pub use airing::{
    ahead as air_ahead, bounds as air_bounds, classes as glance_classes, cost as air_cost, hot_wall,
    sources as air_sources, walls as glance_walls,
};
pub use bath::{Bath, load};
pub use buying::{Buying, buying};
pub use capacity::{Fill, capacity, filling};
pub use care::care;
pub use charting::{Charting, charting};
pub use clearing::{Clearing, clearing};
pub use clip::{Clip, clip};
pub use comparing::Comparing;
pub use curve::{Curves, curves};
pub use decanting::{Decanting, advised_containers, decanting};
pub use doubts::doubts;
pub use drifting::{Drifting, drifting};
pub use holding::{
    drawn as vessel_drawn, headspace, record as vessel_record, reserves, unmeasured as vessel_unmeasured,
};
pub use job::{Job, job};
pub use judged::{Judged, bottles};
pub use judging::Judging;
pub use log::{Found, Logged, session_sheet, step_words};
pub use measuring::{Conditions, measure, pictures, poured, way_items};
pub use mixing::{Method, Mixing};
pub use money::{money, show_money};
pub use outlook::{ahead as look_ahead_items, dates_ahead, look_ahead, unstated};
pub use picked::Picked;
pub use planning::{Planning, planning};
pub use scatter::scatter_assumption;
pub use sessions::{Developing, Recipe, budget_sheet};
pub use slips::{Precision, slips};
pub use spending::{Spending, spending};
pub use spots::spots;
pub use steps::{Steps, steps};
pub use tempering::{Tempered, tempering};
pub use thermometer::as_read;
pub use timing::{Timed, exponent_assumption, law_assumptions, progress_assumption, q10_assumption, without_times};
pub use vessel::Vessel;
pub use voices::{air_voice, judged, next, sheet_voice, state_figures, surroundings, tests_voice, verdict, voice_asks};
pub use warm::warm;
pub use washing::{Washing, washing};
pub use weighing::{WeighedInstrument, how_to_weigh, weighing};
pub use weighing_out::{WeighingOut, weighing_out};

use crate::development::{Origin, Parameter};
use crate::quantity::Units;
use crate::quantity::show::range;
use crate::sheet::{Assumption, Figure, Item};

/// The item for a parameter that nobody measured; nothing for one that somebody did.
fn assumption(figure: Figure, parameter: Parameter, field: &'static str, units: Units) -> Option<Item> {
    assumption_of(figure, parameter, field, &|end| units.about(end))
}

/// The same, with the ends of its range shown as the number is.
fn assumption_of(
    figure: Figure,
    parameter: Parameter,
    field: &'static str,
    show: &dyn Fn(f64) -> String,
) -> Option<Item> {
    let Origin::Assumed(why) = parameter.origin else {
        return None;
    };
    let (least, most) = (show(parameter.least), show(parameter.most));
    Some(Item::Assumption(Assumption {
        figure: figure.assumed(),
        range: range(&least, &most).unwrap_or(least),
        why: why.to_owned(),
        field,
    }))
}

/// A sentence.
fn text(text: &str) -> Item {
    Item::Text(text.to_owned())
}

/// So many of something: `1 roll`, `2 rolls`.
fn counted(count: usize, what: &str) -> String {
    match count {
        1 => format!("1 {what}"),
        many => format!("{many} {what}s"),
    }
}

/// A number that the user gave.
fn given(value: f64) -> Parameter {
    Parameter {
        value,
        least: value,
        most: value,
        origin: Origin::Given,
    }
}

/// Steps that are not to be folded up, one below the other.
fn numbered(steps: Vec<String>) -> Vec<Item> {
    let steps = steps.into_iter().enumerate();
    steps
        .map(|(at, step)| Item::Text(format!("{}. {step}", at + 1)))
        .collect()
}
