//! The fields of drift: what was planned, how warm the room is, and how fast the tank follows it.

use super::Field;
use super::kinds::{Spans, TemperatureDifferences, Temperatures, Volumes};
use super::temper::ROOM;
use crate::quantity::{Bounds, bounds};

/// Water around a tank, in millilitres.
const JACKET_RANGE: Bounds = Bounds {
    what: "the water",
    least: 0.0,
    most: 100_000.0,
    why: "0 for none, a bathtub at the most",
};
/// A reading of a tank of water, degrees Celsius.
const READING_RANGE: Bounds = Bounds {
    what: "the reading",
    least: 0.0,
    most: 60.0,
    why: "as water in tanks is",
};
/// Time between two readings, in seconds.
const BETWEEN_RANGE: Bounds = Bounds {
    what: "the time between",
    least: 60.0,
    most: 86_400.0,
    why: "from a minute to a day",
};

/// The temperature that the planned time is for.
pub const TIME_AT: Field<Temperatures> =
    Field::temperature("time_at", "That time is for", &bounds::BATH_TEMPERATURE).initial("20 C");
/// How warm the room is.
pub const COOLER_ROOM: Field<Temperatures> = ROOM.initial("16 C");
/// How much water of the bath's temperature the tank stands in.
pub const JACKET: Field<Volumes> = Field::volume("jacket", "Water around the tank", &JACKET_RANGE);
/// The first of two readings of this tank.
pub const FIRST_READING: Field<Temperatures> = Field::temperature("first", "First reading", &READING_RANGE);
/// The second.
pub const SECOND_READING: Field<Temperatures> = Field::temperature("second", "Second reading", &READING_RANGE);
/// The time between them.
pub const BETWEEN_READINGS: Field<Spans> = Field::span("between", "Time between them", &BETWEEN_RANGE);
/// How warm the room was then.
pub const ROOM_THEN: Field<Temperatures> = Field::temperature("room_then", "The room at that time", &READING_RANGE);
/// How well each of them was read.
pub const READ_TO: Field<TemperatureDifferences> =
    Field::temperature_difference("read_to", "Each is read to, ±", &bounds::THERMOMETER);
