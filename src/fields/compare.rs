//! The fields of comparing two negatives.

use super::Field;
use super::densities::DensityReadings;
use super::kinds::{Choice, Counts, Names, Numbers};
use crate::quantity::Bounds;

/// The fresh bottle, with which the other is compared.
pub const AGAINST: Field<Names> = Field::new("against", "Fresh bottle", Names);
/// Densities of the one under test.
pub const FIRST: Field<DensityReadings> =
    Field::new("first", "Densities, under test", DensityReadings).initial("0.80 0.81 0.79 0.80");
/// Densities of the fresh one.
pub const SECOND: Field<DensityReadings> =
    Field::new("second", "Densities, fresh", DensityReadings).initial("0.85 0.84 0.86 0.85");
/// Clear base of the one under test; the other's where nothing is said.
pub const FIRST_BASE: Field<DensityReadings> = Field::new("first_base", "Clear base, under test", DensityReadings);
/// Clear base of the fresh one; the other's where nothing is said.
pub const SECOND_BASE: Field<DensityReadings> = Field::new("second_base", "Clear base, fresh", DensityReadings);
/// What the densities are of.
pub const MEASURED: Field<Choice<Measured>> = Field::new(
    "measured",
    "The densities are of",
    Choice(&[
        ("tone", "a middle tone", Measured::Tone),
        ("contrast", "contrast: highlight less shadow", Measured::Contrast),
    ]),
)
.initial("tone");
/// Whether the readings belong together one by one.
pub const PAIRS: Field<Choice<bool>> = Field::new(
    "pairs",
    "The two lists",
    Choice(&[
        ("apart", "are separate samples", false),
        ("paired", "have the same patches in order", true),
    ]),
)
.initial("apart");
/// Rolls of the one under test, each developed by itself.
pub const FIRST_ROLLS: Field<Counts> = Field::count("first_rolls", "Rolls, under test", &ROLLS).initial("1");
/// Rolls of the fresh one, each developed by itself.
pub const SECOND_ROLLS: Field<Counts> = Field::count("second_rolls", "Rolls, fresh", &ROLLS).initial("1");
/// Standard deviation of density from roll to roll.
pub const REPEAT: Field<Numbers> = Field::number("repeat", "Your rolls repeat to", &REPEATS);
/// The difference that does not matter.
pub const MARGIN: Field<Numbers> = Field::number("margin", "Does not matter, up to", &MARGINS);

/// What densities are of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Measured {
    /// A tone above the clear base.
    Tone,
    /// A highlight less a shadow.
    Contrast,
}

/// How many rolls.
static ROLLS: Bounds = Bounds {
    what: "the number of rolls",
    least: 1.0,
    most: 99.0,
    why: "each developed by itself",
};
/// Standard deviation of density.
static REPEATS: Bounds = Bounds {
    what: "the spread from roll to roll",
    least: 0.001,
    most: 1.0,
    why: "a standard deviation of density; no hand repeats exactly",
};
/// A difference of density.
static MARGINS: Bounds = Bounds {
    what: "the difference that does not matter",
    least: 0.001,
    most: 2.0,
    why: "a difference of density; no two strips are quite the same",
};
