//! The fields of the tests by a colour.

use super::Field;
use super::kinds::{Choice, Numbers};
use crate::proof::{Indicator, Stain, TestKind};
use crate::quantity::bounds;

/// Which of them it is.
pub const SPOT: Field<Choice<TestKind>> = Field::new(
    "spot",
    "Which test",
    Choice(&[
        ("stop", "stop bath: is it still acid?", TestKind::Indicator),
        (
            "silver",
            "fixing: is silver left in the film?",
            TestKind::ResidualSilver,
        ),
        (
            "thiosulfate",
            "washing: is fixer left in the film?",
            TestKind::ResidualThiosulfate,
        ),
    ]),
)
.initial("stop");
/// The colour of a stop bath's indicator.
pub const INDICATOR: Field<Choice<Indicator>> = Field::new(
    "indicator",
    "The bath is",
    Choice(&[
        ("yellow", "yellow", Indicator::Yellow),
        ("between", "between: orange, brown or green", Indicator::Between),
        ("purple", "purple or blue", Indicator::Purple),
    ]),
);
/// The pH of a stop bath, where it was measured.
pub const PH: Field<Numbers> = Field::number("ph", "Or its pH", &bounds::PH);
/// The stain of a drop that shows silver.
pub const STAIN: Field<Choice<Stain>> = Field::new("stain", "The drop left", Choice(&STAINS));
/// The stain of a drop that shows fixer.
pub const WASH_STAIN: Field<Choice<Stain>> = Field::new("wash_stain", "The drop left", Choice(&STAINS));

static STAINS: [(&str, &str, Stain); 3] = [
    ("none", "no stain", Stain::None),
    ("faint", "a stain hardly seen on white", Stain::Faint),
    ("plain", "a plain stain, yellow to brown", Stain::Plain),
];
