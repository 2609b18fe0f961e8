//! The fields of tempering: what the taps give, what is wanted, and what else has heat of its own.

use super::Field;
use super::kinds::{Choice, Masses, Percents, Temperatures};
use crate::development::tempering::VesselKind;
use crate::quantity::Bounds;

/// Temperature of a bath or of wash water that is tempered.
const WANTED_RANGE: Bounds = Bounds {
    what: "the temperature wanted",
    least: 4.0,
    most: 60.0,
    why: "from a cold rinse to water for powder",
};
/// Temperature of what runs from a tap, or comes from a kettle.
const TAP_RANGE: Bounds = Bounds {
    what: "the tap",
    least: 1.0,
    most: 99.0,
    why: "from icy pipes to a kettle",
};
/// Temperature of a room that people work in.
pub(super) const ROOM_RANGE: Bounds = Bounds {
    what: "the room",
    least: 0.0,
    most: 45.0,
    why: "as rooms with film in them are",
};
/// Temperature of ice.
const ICE_RANGE: Bounds = Bounds {
    what: "the ice",
    least: -30.0,
    most: 0.0,
    why: "from the coldest freezer to melting",
};
/// Ice that there is, in grams.
const ICE_MASS_RANGE: Bounds = Bounds {
    what: "the ice",
    least: 0.0,
    most: 20_000.0,
    why: "0 for none",
};
/// Mass of a vessel, in grams.
const VESSEL_RANGE: Bounds = Bounds {
    what: "the vessel",
    least: 5.0,
    most: 20_000.0,
    why: "from a beaker to a sink",
};
/// Heat of a concentrate against that of water, percent.
const HEAT_RANGE: Bounds = Bounds {
    what: "its heat",
    least: 40.0,
    most: 120.0,
    why: "as liquids are",
};

/// The temperature that is wanted.
pub const WANTED: Field<Temperatures> = Field::temperature("wanted", "Wanted", &WANTED_RANGE).initial("20 C");
/// What the hot tap gives.
pub const HOT_TAP: Field<Temperatures> = Field::temperature("hot", "Hot tap", &TAP_RANGE).initial("50 C");
/// What the cold tap gives.
pub const COLD_TAP: Field<Temperatures> = Field::temperature("cold", "Cold tap", &TAP_RANGE).initial("12 C");
/// How warm the room is.
pub const ROOM: Field<Temperatures> = Field::temperature("room", "The room", &ROOM_RANGE).initial("20 C");
/// What the vessel is made of; `None` where it is not counted.
pub const VESSEL: Field<Choice<Option<VesselKind>>> = Field::new(
    "vessel",
    "Vessel, at room temperature",
    Choice(&[
        ("none", "rinsed with the water, not counted", None),
        ("plastic", "plastic", Some(VesselKind::Plastic)),
        ("glass", "glass", Some(VesselKind::Glass)),
        ("steel", "steel", Some(VesselKind::Steel)),
    ]),
)
.initial("none");
/// What it weighs.
pub const VESSEL_MASS: Field<Masses> = Field::mass("vessel_mass", "The vessel weighs", &VESSEL_RANGE);
/// How cold the ice is.
pub const ICE: Field<Temperatures> = Field::temperature("ice", "Ice is at", &ICE_RANGE);
/// How much ice there is.
pub const ICE_AT_HAND: Field<Masses> = Field::mass("ice_at_hand", "Ice at hand", &ICE_MASS_RANGE);
/// Heat that a concentrate takes, against as much water.
pub const CONCENTRATE_HEAT: Field<Percents> =
    Field::percent("concentrate_heat", "Heat of concentrate, of water's", &HEAT_RANGE);
