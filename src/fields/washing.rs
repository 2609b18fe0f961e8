//! The fields of a wash: what is poured in, what is carried over, how far the fixer is to be thinned.

use super::Field;
use super::kinds::{Choice, Counts, Numbers, Spans, Temperatures, Volumes};
use crate::quantity::Bounds;

/// Fresh water of one change, in millilitres.
const FRESH: Bounds = Bounds {
    what: "the water of one change",
    least: 20.0,
    most: 20_000.0,
    why: "as tanks and trays are",
};
/// Films in the tank.
const WASHED: Bounds = Bounds {
    what: "the number of films",
    least: 1.0,
    most: 99.0,
    why: "as tanks hold",
};
/// What is carried over, in millilitres.
const CARRIED: Bounds = Bounds {
    what: "what is carried over",
    least: 0.1,
    most: 2_000.0,
    why: "from a blotted sheet to a tank of many reels",
};
/// One part in how many.
const ONE_IN: Bounds = Bounds {
    what: "the thinning",
    least: 2.0,
    most: 10_000_000.0,
    why: "1000 is to a thousandth",
};
/// Thiosulfate in dry film, in grams on a square metre.
const RESIDUAL: Bounds = Bounds {
    what: "what may be left",
    least: 0.001,
    most: 1.0,
    why: "film that must last may hold 0.014",
};
/// Thiosulfate in a fixer, in grams to the litre.
const IN_FIXER: Bounds = Bounds {
    what: "the thiosulfate",
    least: 5.0,
    most: 500.0,
    why: "as fixers are mixed",
};
/// Water in wet film, in millilitres on a square metre.
const HELD: Bounds = Bounds {
    what: "the water that film holds",
    least: 5.0,
    most: 500.0,
    why: "from squeegeed to dripping",
};
/// How long one change stands, in seconds.
const SOAK: Bounds = Bounds {
    what: "the time",
    least: 10.0,
    most: 3_600.0,
    why: "for seconds write 42 s or 0:42",
};
/// Temperature of the water, in degrees Celsius.
const WATER: Bounds = Bounds {
    what: "the temperature",
    least: 1.0,
    most: 40.0,
    why: "as taps run",
};
/// What runs in a minute, in millilitres.
const FLOW: Bounds = Bounds {
    what: "what runs in a minute",
    least: 10.0,
    most: 30_000.0,
    why: "as taps run",
};
/// How long it runs, in seconds.
const RUNS: Bounds = Bounds {
    what: "the time",
    least: 10.0,
    most: 14_400.0,
    why: "for minutes write 20 or 20:00",
};

/// Fresh water of one change.
pub const WASH_FRESH: Field<Volumes> = Field::volume("fresh", "Fresh water each time", &FRESH).initial("600 ml");
/// Films in the tank.
pub const WASH_FILMS: Field<Counts> = Field::count("films", "Films in the tank", &WASHED).initial("2");
/// Temperature of the water.
pub const WASH_WATER: Field<Temperatures> = Field::temperature("temperature", "Water", &WATER).initial("20 C");
/// Whether there is a bath of wash aid before the water.
pub const WASH_AID: Field<Choice<bool>> = Field::new(
    "aid",
    "Wash aid",
    Choice(&[("none", "none", false), ("fresh", "a fresh bath of it first", true)]),
)
.initial("none");
/// What is carried over, measured.
pub const WASH_CARRIED: Field<Volumes> = Field::volume("carried", "Carried over each time", &CARRIED);
/// How long one change stands at 20 °C.
pub const WASH_SOAK: Field<Spans> = Field::span("soak", "Each change stands, at 20 °C", &SOAK);
/// How far the fixer is to be thinned.
pub const WASH_ONE_IN: Field<Numbers> = Field::number("one_in", "Thin the fixer to 1 part in", &ONE_IN);
/// What may be left in dry film.
pub const WASH_RESIDUAL: Field<Numbers> =
    Field::number("residual", "May be left in film, g/m²", &RESIDUAL).initial("0.014");
/// Thiosulfate in the fixer.
pub const WASH_FIXER: Field<Numbers> = Field::number("thiosulfate", "Thiosulfate in fixer, g/l", &IN_FIXER);
/// Water that wet film holds.
pub const WASH_HELD: Field<Numbers> = Field::number("held", "Wet film holds, ml/m²", &HELD);
/// What runs in a minute.
pub const WASH_FLOW: Field<Volumes> = Field::volume("flow", "Running water, a minute", &FLOW).initial("1 l");
/// How long it runs.
pub const WASH_RUNS: Field<Spans> = Field::span("runs", "It runs for", &RUNS).initial("20:00");

/// Those that say how far it is to be thinned, where that is not said itself.
pub const WASH_TO_LEVEL: [&str; 3] = ["residual", "thiosulfate", "held"];
