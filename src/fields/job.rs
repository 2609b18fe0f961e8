//! The fields of a planned job: which bottles it takes, how much must be over, and how long each test takes.

use super::Field;
use super::kinds::{Counts, Days, Dilutions, Names, Spans};
use crate::quantity::bounds::{self, Bounds};

/// Fills that must be over.
const SPARE_FILLS: Bounds = Bounds {
    what: "the number of spare fills",
    least: 0.0,
    most: 20.0,
    why: "one is for what goes wrong",
};

/// Which bottle is the developer.
pub const DEVELOPER_BOTTLE: Field<Names> = Field::new("bottle", "Developer", Names);
/// Dilution of the developer; its label's where nothing is said, and none that nobody wrote down.
pub const JOB_DILUTION: Field<Dilutions> = Field::new("dilution", "Dilution", Dilutions);
/// Which bottle is the fixer.
pub const FIXER_BOTTLE: Field<Names> = Field::new("fixer_bottle", "Fixer", Names);
/// Which bottle is the stop bath, if one is used.
pub const STOP_BOTTLE: Field<Names> = Field::new("stop_bottle", "Stop bath", Names);
/// Dilution of the fixer; its label's where nothing is said.
pub const FIXER_DILUTION: Field<Dilutions> = Field::new("fixer_dilution", "Dilution of the fixer", Dilutions);
/// Dilution of the stop bath; its label's where nothing is said.
pub const STOP_DILUTION: Field<Dilutions> = Field::new("stop_dilution", "Dilution of the stop bath", Dilutions);
/// Film units that a litre from the fixer's bottle takes; its label's where nothing is said.
pub const FIXER_FILMS: Field<Counts> = Field::count(
    "fixer_films",
    "Films a litre from its bottle takes",
    &bounds::FILMS_PER_LITRE,
);
/// So many fills more than the job takes must be there.
pub const SPARE: Field<Counts> = Field::count("spare", "Spare fills", &SPARE_FILLS).initial("1");
/// The day of the job; today where nothing is said.
pub const JOB_DAY: Field<Days> = Field::new("job_day", "Day of the job", Days);
/// When the thermometer was compared with a better one.
pub const THERMOMETER_ON: Field<Days> = Field::new("thermometer_on", "Thermometer compared on", Days);
/// How long a clip test takes.
pub const CLIP_TAKES: Field<Spans> = Field::span("clip_takes", "A clip test takes", &bounds::TIME);
/// How long a clearing test takes.
pub const CLEARING_TAKES: Field<Spans> = Field::span("clearing_takes", "A clearing test takes", &bounds::TIME);
/// How long it takes to calibrate an instrument.
pub const CALIBRATING_TAKES: Field<Spans> =
    Field::span("calibrating_takes", "Calibrating one thing takes", &bounds::TIME);
