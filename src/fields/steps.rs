//! The fields of a day's steps: what is done bath after bath, which baths are used again, and what reuse asks for.

use super::clips::CLEARS;
use super::kinds::{Names, Numbers, Spans, Temperatures};
use super::temper::ROOM_RANGE;
use super::{Field, Kind};
use crate::proof::Longer;
use crate::quantity::bounds::TIME;
use crate::quantity::{Bounds, Units};
use crate::session::{Lines, read_lines};

/// Film units that a bath takes in all.
const IN_ALL: Bounds = Bounds {
    what: "the number of films",
    least: 1.0,
    most: 5_000.0,
    why: "as baths take",
};

/// Time in which a tank goes half of the way to the room, in seconds.
const HALF_RANGE: Bounds = Bounds {
    what: "half of the way",
    least: 300.0,
    most: 86_400.0,
    why: "from five minutes to a day; an hour and ten minutes is 70 or 1:10:00",
};

/// Longest text of all steps, in characters: as long as a record of the day keeps it.
const LONGEST: usize = 4_000;

/// A field for steps, one a line. What cannot be read stands in the value: the rest of the lines holds all the same.
#[derive(Clone, Copy)]
pub struct StepLines;

/// A field for how much longer a bath asks for after films.
#[derive(Clone, Copy)]
pub struct LongerTimes;

impl Kind for StepLines {
    type Value = Lines;

    fn read(&self, text: &str, units: Units) -> Result<Lines, String> {
        match text.chars().count() <= LONGEST {
            true => Ok(read_lines(text, units)),
            false => Err(format!("all steps together have at most {LONGEST} characters")),
        }
    }

    fn takes(&self, _: Units) -> String {
        "one a line: fix 5:00 at 20 C, first 30 s, 10 s every 1:00".to_owned()
    }
}

impl Kind for LongerTimes {
    type Value = Longer;

    fn read(&self, text: &str, units: Units) -> Result<Longer, String> {
        Longer::read(text, units).map_err(|error| error.to_string())
    }

    fn takes(&self, _: Units) -> String {
        "for each film 5 %; or from so many films on 5: 10 %; 10: 25 %".to_owned()
    }
}

/// How warm the room is that the developer is left to; nothing where it is kept as warm as it is.
pub const LEFT_TO_ROOM: Field<Temperatures> = Field::temperature("room", "Room temperature", &ROOM_RANGE);
/// How long to develop, where that is not to be worked out and no step says it.
pub const DEVELOP_FOR: Field<Spans> = Field::span("develop_for", "Your own developing time", &TIME);
/// In which time the tank goes half of the way to the temperature of the room.
pub const HALF_WAY: Field<Spans> = Field::span("half", "The tank is half way to that in", &HALF_RANGE);
/// What is done, step by step. Times of the trade where no data sheet says otherwise (common practice, no source); the developer's
/// is worked out.
pub const RECIPE: Field<StepLines> = Field::new("recipe", "Steps", StepLines).initial(
    "prewet 1:00\ndevelop, first 30 s, 10 s every 1:00\nstop 0:30\nfix 5:00, 10 s every 1:00\nrinse 1:00\nwash aid 2:00\n\
     wash 10:00\nwetting agent 1:00",
);
/// Which stop bath is used again.
pub const STOP_AGAIN: Field<Names> = Field::new("stop", "Stop bath, used again", Names);
/// Which fixing bath is used again.
pub const FIXER_AGAIN: Field<Names> = Field::new("fixer", "Fixer, used again", Names);
/// Which wash aid is used again.
pub const AID_AGAIN: Field<Names> = Field::new("aid", "Wash aid, used again", Names);
/// Film units that the fixing bath takes in all; as its bottle says where nothing is typed.
pub const CAPACITY: Field<Numbers> = Field::number("capacity", "The fixer takes, films in all", &IN_ALL);
/// How much longer film is developed in a developer that had film before.
pub const DEVELOP_LONGER: Field<LongerTimes> =
    Field::new("develop_longer", "Develop longer, for films before", LongerTimes);
/// How much longer film is fixed in a bath that had film before.
pub const LONGER: Field<LongerTimes> = Field::new("longer", "Fix longer, for films before", LongerTimes);
/// How long a fresh leader takes to clear in the fixing bath as it is.
pub const CLEARS_IN: Field<Spans> = Field::span("clearing", "A fresh leader clears in", &CLEARS);
