//! Proving the chemistry: what a test finds.

mod curve;
mod finding;

pub use curve::{
    CRITERION_DENSITY, CRITERION_EXPOSURE, CRITERION_WITHIN, CharacteristicCurve, CurveError, CurveForm, FEWEST_STEPS,
    MOST_STEPS, ReadOff, SPEED_DENSITY, check_steps, iso_degrees, iso_name, iso_speed,
};
pub use finding::{Finding, Outcome, TestKind};
