//! What calculators have in common: a model's result, said in the parts of a sheet.

mod airing;
mod bath;
mod capacity;
mod care;
mod judged;
mod holding;
mod judging;
mod measuring;
mod outlook;
mod slips;
mod timing;
mod vessel;
mod voices;

pub use airing::{
    ahead as air_ahead, bounds as air_bounds, classes as glance_classes, cost as air_cost, hot_wall,
    sources as air_sources, walls as glance_walls,
};
pub use bath::{Bath, load};
pub use capacity::{Fill, capacity, filling};
pub use care::care;
pub use holding::{
    drawn as vessel_drawn, headspace, record as vessel_record, reserves, unmeasured as vessel_unmeasured,
};
pub use judged::{ELSEWHERE, Judged, Record, judged};
pub use judging::{Judging, Use};
pub use measuring::{Conditions, mark_part, measure, pictures, way_items};
pub use outlook::{ahead as look_ahead_items, dates_ahead, look_ahead, unstated};
pub use slips::{Precision, slips};
pub use timing::{exponent_assumption, law_assumptions, q10_assumption, timing, without_times};
pub use vessel::Vessel;
pub use voices::{air_voice, judged, next, sheet_voice, state_figures, surroundings, tests_voice, verdict};

use crate::development::{Origin, Parameter};
use crate::quantity::Units;
use crate::sheet::{Assumption, Figure, Item};

/// The item for a parameter that nobody measured; nothing for one that somebody did.
fn assumption(figure: Figure, parameter: Parameter, field: &'static str, units: Units) -> Option<Item> {
    let Origin::Assumed(why) = parameter.origin else {
        return None;
    };
    Some(Item::Assumption(Assumption {
        figure: figure.assumed(),
        range: format!("{} to {}", units.about(parameter.least), units.about(parameter.most)),
        why: why.to_owned(),
        field,
    }))
}
