//! How well a time by the stop-watch repeats, where nobody measured it.

use super::assumption_of;
use crate::development::Parameter;
use crate::proof::WATCHED;
use crate::quantity::Units;
use crate::sheet::{Figure, Item};

/// The item for times that were taken once each; the field is where more of them are typed.
pub fn scatter_assumption(field: &'static str, units: Units) -> Option<Item> {
    let scatter = Parameter::given_or(None, WATCHED);
    let figure = Figure::percent("assumed_scatter", "One time is repeated to", scatter.value, units);
    assumption_of(figure, scatter, field, &|share| units.percent(share))
}
