//! The fields of a developing and how well it is done: what was mixed, and the limits of error of all that was measured.

use super::kinds::{Percents, Spans, TemperatureDifferences, Volumes};
use super::{AnyField, Field};
use crate::quantity::bounds;

/// Volume of concentrate.
pub const CONCENTRATE: Field<Volumes> = Field::volume("concentrate", "Concentrate", &bounds::POUR).initial("18.75 ml");
/// Developing time.
pub const DEVELOPED: Field<Spans> = Field::span("time", "Developing time", &bounds::TIME).initial("10:00");
/// How well one developing is done; the kit's own where nothing is said.
pub struct Errors {
    /// 95 % half-width of the concentrate.
    pub concentrate: Field<Volumes>,
    /// 95 % half-width of the total.
    pub total: Field<Volumes>,
    /// Half-width of the thermometer's error.
    pub thermometer: Field<TemperatureDifferences>,
    /// Half-width of the error of starting and stopping.
    pub timing: Field<Spans>,
    /// Standard deviation of contrast by the hand, in percent.
    pub hand: Field<Percents>,
}

impl Errors {
    /// The names of its fields.
    pub fn names(&self) -> [&'static str; 5] {
        [
            self.concentrate.name(),
            self.total.name(),
            self.thermometer.name(),
            self.timing.name(),
            self.hand.name(),
        ]
    }
}

/// Of the one developing, or of the one under test.
pub const ERRORS: Errors = Errors {
    concentrate: Field::volume("concentrate_error", "Concentrate is good to, ±", &bounds::LIMIT),
    total: Field::volume("total_error", "Total is good to, ±", &bounds::LIMIT),
    thermometer: Field::temperature_difference("thermometer", "Thermometer is good to, ±", &bounds::THERMOMETER),
    timing: Field::span("timing", "Start and stop are good to, ±", &bounds::TIMING),
    hand: Field::percent("hand", "The hand repeats contrast to", &bounds::HAND),
};

/// Of the fresh one; as the other where nothing is said.
pub const ERRORS_OF_FRESH: Errors = Errors {
    concentrate: Field::volume("fresh_concentrate_error", "Concentrate, ±", &bounds::LIMIT),
    total: Field::volume("fresh_total_error", "Total, ±", &bounds::LIMIT),
    thermometer: Field::temperature_difference("fresh_thermometer", "Thermometer, ±", &bounds::THERMOMETER),
    timing: Field::span("fresh_timing", "Start and stop, ±", &bounds::TIMING),
    hand: Field::percent("fresh_hand", "The hand", &bounds::HAND),
};
