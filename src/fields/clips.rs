//! The fields of the clip test and the clearing test: what is seen, what is read, how long it took.

use super::kinds::{Choice, Counts, Numbers, Temperatures, Volumes};
use super::lists::list;
use super::{Field, Kind};
use crate::proof::{Leader, Rest};
use crate::quantity::{Bounds, Span, Units, bounds, read};

/// How a clip is judged.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum JudgedBy {
    /// By eye, against a kept reference.
    ByEye,
    /// By the readings of a meter.
    ByMeter,
    /// By the time that it takes to blacken.
    ByTime,
}

/// In what a meter reads.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Scale {
    /// In stops.
    Stops,
    /// In densities.
    Densities,
}

/// Which part of a clip is read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Through {
    /// A grey patch.
    Grey,
    /// The black leader.
    Leader,
}

/// One bath of fixer, or which of two.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Baths {
    /// The only one.
    One,
    /// The first of two.
    FirstOfTwo,
    /// The second of two.
    SecondOfTwo,
}

/// A time to blacken, in seconds.
const BLACKENS: Bounds = Bounds {
    what: "the time",
    least: 2.0,
    most: 1_200.0,
    why: "for seconds write 42 s or 0:42",
};
/// A time to clear, in seconds.
pub(super) const CLEARS: Bounds = Bounds {
    what: "the time",
    least: 5.0,
    most: 1_800.0,
    why: "for seconds write 42 s or 0:42",
};
/// What a meter reads over the clear part, in stops or in densities.
const READING: Bounds = Bounds {
    what: "the reading",
    least: 0.05,
    most: 16.0,
    why: "as film is dark",
};
/// Steps of a meter, in stops or in densities.
const STEP: Bounds = Bounds {
    what: "the step",
    least: 0.001,
    most: 2.0,
    why: "as meters are made",
};
/// A difference of density that an eye sees.
const SEES: Bounds = Bounds {
    what: "the difference",
    least: 0.005,
    most: 1.0,
    why: "as eyes see",
};
/// Density of a leader.
const LEADER_DENSITY: Bounds = Bounds {
    what: "the density",
    least: 0.5,
    most: 5.0,
    why: "as film can be",
};
/// Film units that went through a bath.
const THROUGH: Bounds = Bounds {
    what: "the number of films",
    least: 0.0,
    most: 5_000.0,
    why: "as baths take",
};

/// A field for a time that was taken once or several times.
#[derive(Clone, Copy)]
pub struct SpanLists(&'static Bounds);

/// A field for a number that was read once or several times.
#[derive(Clone, Copy)]
pub struct NumberLists(&'static Bounds);

/// How many times or readings one list may have.
const MOST: usize = 20;

impl Kind for SpanLists {
    type Value = Vec<Span>;

    fn read(&self, text: &str, units: Units) -> Result<Vec<Span>, String> {
        list(text, MOST, |piece| {
            read::span(piece, self.0, units).map_err(|error| error.to_string())
        })
    }

    fn takes(&self, _: Units) -> String {
        "0:42, or several: 0:42; 0:45; 0:41".to_owned()
    }
}

impl Kind for NumberLists {
    type Value = Vec<f64>;

    fn read(&self, text: &str, units: Units) -> Result<Vec<f64>, String> {
        list(text, MOST, |piece| {
            read::number(piece, self.0, units).map_err(|error| error.to_string())
        })
    }

    fn takes(&self, units: Units) -> String {
        let show = |value| units.number(value, 1);
        format!("{}, or of several clips: {0}; {}", show(3.3), show(3.4))
    }
}

/// How the clip is judged.
pub const JUDGED: Field<Choice<JudgedBy>> = Field::new(
    "judged",
    "Judged",
    Choice(&[
        ("eye", "by eye, beside a kept reference", JudgedBy::ByEye),
        ("meter", "by a meter or a camera, in stops", JudgedBy::ByMeter),
        ("time", "by the time that it takes to blacken", JudgedBy::ByTime),
    ]),
)
.initial("eye");
/// What the leader looks like.
pub const LEADER_SEEN: Field<Choice<Leader>> = Field::new(
    "leader",
    "The leader is",
    Choice(&[
        ("black", "as black as the reference", Leader::Black),
        ("thinner", "a little thinner", Leader::Thinner),
        ("grey", "clearly grey", Leader::Grey),
    ]),
);
/// What the rest looks like.
pub const REST_SEEN: Field<Choice<Rest>> = Field::new(
    "rest",
    "The rest is",
    Choice(&[("clear", "clear", Rest::Clear), ("veiled", "veiled", Rest::Veiled)]),
);
/// Whether the film of the clip is past its date.
pub const FILM_EXPIRED: Field<Choice<bool>> = Field::new(
    "film",
    "The film is",
    Choice(&[("fresh", "fresh", false), ("expired", "past its date", true)]),
)
.initial("fresh");
/// In what the meter reads.
pub const SCALE: Field<Choice<Scale>> = Field::new(
    "scale",
    "Readings in",
    Choice(&[
        ("stops", "stops", Scale::Stops),
        ("density", "densities", Scale::Densities),
    ]),
)
.initial("stops");
/// What is read.
pub const PATCH: Field<Choice<Through>> = Field::new(
    "patch",
    "Read through",
    Choice(&[
        ("grey", "a grey patch", Through::Grey),
        ("leader", "the black leader", Through::Leader),
    ]),
)
.initial("grey");
/// How much darker the reference is than its clear part.
pub const REFERENCE: Field<NumberLists> = Field::new("reference", "Reference, darker by", NumberLists(&READING));
/// How much darker this clip is than its clear part.
pub const READING_NOW: Field<NumberLists> = Field::new("reading", "This clip, darker by", NumberLists(&READING));
/// What the meter's last step is.
pub const METER_STEP: Field<Numbers> = Field::number("step", "The meter's step", &STEP);
/// How long a leader takes to blacken in fresh bath.
pub const BLACK_FRESH: Field<SpanLists> = Field::new("black_fresh", "Black after, fresh bath", SpanLists(&BLACKENS));
/// How long it takes in this bath.
pub const BLACK_NOW: Field<SpanLists> = Field::new("black_now", "Black after, this bath", SpanLists(&BLACKENS));
/// How warm the fresh bath was.
pub const WARM_FRESH: Field<Temperatures> =
    Field::temperature("warm_fresh", "Temperature, fresh", &bounds::BATH_TEMPERATURE).initial("20 C");
/// The smallest difference of density that the eye sees.
pub const EYE_SEES: Field<Numbers> = Field::number("eye", "Your eye sees, density", &SEES);
/// Density of the leader over the clear part.
pub const LEADER_IS: Field<Numbers> = Field::number("leader_density", "The leader's density", &LEADER_DENSITY);

/// How long a piece of film takes to clear in this bath.
pub const CLEAR_NOW: Field<SpanLists> = Field::new("clear_now", "Clear after, this bath", SpanLists(&CLEARS));
/// How long it took in fresh bath.
pub const CLEAR_FRESH: Field<SpanLists> = Field::new("clear_fresh", "Clear after, fresh bath", SpanLists(&CLEARS));
/// How many times the clearing time film is fixed.
pub const FIX_FOR: Field<Choice<f64>> = Field::new(
    "fix",
    "Fix for",
    Choice(&[
        ("twice", "twice the clearing time", 2.0),
        ("thrice", "three times the clearing time", 3.0),
    ]),
)
.initial("twice");
/// One bath, or which of two.
pub const BATHS: Field<Choice<Baths>> = Field::new(
    "baths",
    "It is",
    Choice(&[
        ("one", "the only fixing bath", Baths::One),
        ("first", "the first of two", Baths::FirstOfTwo),
        ("second", "the second of two", Baths::SecondOfTwo),
    ]),
)
.initial("one");
/// Film units that went through the bath.
pub const FIXED: Field<Numbers> = Field::number("through", "Films through it", &THROUGH);
/// How much bath there is.
pub const FIXING_BATH: Field<Volumes> = Field::volume("volume", "The bath is", &bounds::BATH);
/// How many film units a litre takes.
pub const FILMS_PER_LITRE: Field<Numbers> = Field::number("per_litre", "Films a litre takes", &bounds::FILMS_PER_LITRE);
/// Film units still to come.
pub const FILMS_TO_COME: Field<Counts> = Field::count("more", "Films to come", &bounds::FILMS);
