//! Proving the chemistry: what a test finds.

mod finding;
mod spots;

pub use finding::{Finding, Outcome, TestKind};
pub use spots::{Indicator, SPENT_FROM, Spot, Stain, YELLOW_UP_TO, by_indicator, by_ph, by_stain};
