//! Proving the chemistry: what a test finds, and how well; whether two negatives differ; whether a series of tests has moved.

mod clearing;
mod clip;

pub mod comparison;
mod curve;
pub mod control;
mod finding;
mod longer;
mod spots;
mod measured;
mod timed;
pub mod sampling;

pub use clearing::{
    CLEARS_FASTER, FILMS_A_LITRE, Fixer, LONGEST, SOUND_WITHIN, capacity, fixing_time, is_longer, still_takes,
    way_to_spent,
};
pub use clip::{
    ByDensity, EYE, LEADER, LEADER_PROGRESS, Leader, Rest, Seen, density_ratio, strength_of_ratio, unseen_by_eye,
};
pub use curve::{
    CRITERION_DENSITY, CRITERION_EXPOSURE, CRITERION_WITHIN, CharacteristicCurve, CurveError, CurveForm, FEWEST_STEPS,
    MOST_STEPS, ReadOff, SPEED_DENSITY, check_steps, iso_degrees, iso_name, iso_speed,
};
pub use finding::{Finding, Outcome, TestKind};
pub use longer::{Longer, LongerError};
pub use measured::{Against, Measured, Warmth, WarmthLaw};
pub use spots::{Indicator, SPENT_FROM, Spot, Stain, YELLOW_UP_TO, by_indicator, by_ph, by_stain};
pub use timed::{Timed, WATCHED};

/// One stop, half or twice the light, as density and as log exposure.
pub const STOP: f64 = std::f64::consts::LOG10_2;
