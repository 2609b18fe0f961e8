//! Named ranges: what is bounded, least, most, and why. The gate for every number that comes from outside.

use super::YEAR;

/// A range that a number from outside must lie in, in the kind's own unit (millilitres, grams, degrees Celsius, seconds...).
///
/// ```
/// use meniscus::quantity::bounds::{self, Bounds};
///
/// assert!(bounds::BATH.holds(600.0));
/// assert!(!bounds::BATH.holds(f64::NAN));
/// ```
#[derive(Debug, PartialEq)]
pub struct Bounds {
    /// What the number is, as it starts a sentence: "the total".
    pub what: &'static str,
    /// The least that is taken.
    pub least: f64,
    /// The most that is taken.
    pub most: f64,
    /// Why not more or less, as it ends a sentence.
    pub why: &'static str,
}

impl Bounds {
    /// Whether the number lies in the range; a number that is not finite never does. The ends are taken as they are shown,
    /// to four figures, in whichever unit.
    pub fn holds(&self, value: f64) -> bool {
        let slack = |end: f64| end.abs() * SHOWN;
        value >= self.least - slack(self.least) && value <= self.most + slack(self.most)
    }
}

/// What four figures may be off by, as a share.
const SHOWN: f64 = 5e-4;

const fn bounds(what: &'static str, least: f64, most: f64, why: &'static str) -> Bounds {
    Bounds { what, least, most, why }
}

/// A whole bath, in millilitres.
pub const BATH: Bounds = bounds("the total", 10.0, 20_000.0, "as hand tanks and trays are");
/// A volume to measure out, in millilitres.
pub const POUR: Bounds = bounds("the volume", 0.05, 20_000.0, "one drop at least");
/// The capacity of an instrument, in millilitres.
pub const CAPACITY: Bounds = bounds("the capacity", 0.2, 5_000.0, "as instruments for the sink are made");
/// The distance between two marks of an instrument, in millilitres.
pub const GRADUATION: Bounds = bounds("the step between marks", 0.001, 500.0, "as scales are printed");
/// A user's own error limit of an instrument, in millilitres.
pub const LIMIT: Bounds = bounds("the limit of error", 0.001, 500.0, "more would be no instrument");
/// Standard uncertainty of a calibration, in millilitres.
pub const UNCERTAINTY: Bounds = bounds("the standard uncertainty", 0.001, 500.0, "more would be no instrument");
/// Standard deviation of one draw, in millilitres.
pub const DEVIATION: Bounds = bounds("the standard deviation", 0.001, 500.0, "more would be no instrument");
/// The air-free volume of a nozzle, in millilitres.
pub const DEAD_SPACE: Bounds = bounds("the dead space", 0.0, 2.0, "as nozzles are made");
/// The bias of a calibrated instrument, in millilitres; either sign.
pub const BIAS: Bounds = bounds("the bias", -100.0, 100.0, "more would be no instrument");
/// Readability of a balance, in grams.
pub const READABILITY: Bounds = bounds("the readability", 0.0001, 10.0, "as balances for the sink are made");
/// What a balance takes at the most, in grams.
pub const BALANCE_CAPACITY: Bounds = bounds("the most it weighs", 1.0, 50_000.0, "as balances for the sink are made");
/// A volume that a tank holds or needs, in millilitres; 0 where a tank does not take that film.
pub const TANK: Bounds = bounds("the volume", 0.0, 20_000.0, "as hand tanks are made");
/// How many films or sheets.
pub const FILMS: Bounds = bounds("the number", 0.0, 99.0, "one day by hand");
/// What is in a bottle, in millilitres.
pub const IN_BOTTLE: Bounds = bounds("the volume", 0.0, 25_000.0, "from nothing to a full canister");
/// What is taken from a bottle or poured into it, in millilitres.
pub const DRAWN: Bounds = bounds("the volume", 0.01, 25_000.0, "from a drop to a canister");
/// Film units that went through a bath at once.
pub const FILMS_THROUGH: Bounds = bounds("the number of films", 1.0, 500.0, "as baths take");
/// How long a data sheet says that something keeps, in days.
pub const LIFE: Bounds = bounds("the stated life", 1.0, 36_525.0, "from a day to a century");
/// Film units that a litre takes.
pub const FILMS_PER_LITRE: Bounds = bounds("the number of films", 1.0, 1_000.0, "as data sheets state it");
/// A price, in whole units of the currency.
pub const PRICE: Bounds = bounds("the price", 0.0, 100_000.0, "as chemistry is sold");
/// Least concentrate for one film unit, in millilitres.
pub const LEAST_PER_FILM: Bounds = bounds("the least per film", 0.0, 1_000.0, "as data sheets state it");
/// Density of a liquid, in grams per millilitre.
pub const DENSITY: Bounds = bounds("the density", 0.7, 2.5, "as photographic liquids are");
/// Strength of a bottle in percent of fresh.
pub const STRENGTH: Bounds = bounds("the strength", 10.0, 150.0, "weaker than a tenth is no developer");
/// Temperature of a bath, in degrees Celsius.
pub const BATH_TEMPERATURE: Bounds = bounds(
    "the temperature",
    10.0,
    40.0,
    "outside it the law of development is not known to hold",
);
/// Temperature at which a liquid is measured out, in degrees Celsius.
pub const MEASURING_TEMPERATURE: Bounds = bounds("the temperature", 0.0, 60.0, "as liquids at the sink are");
/// Half-width of a thermometer's error, in kelvins.
pub const THERMOMETER: Bounds = bounds(
    "the thermometer's limit of error",
    0.01,
    5.0,
    "more would be no thermometer",
);
/// A time on a data sheet or at the sink, in seconds.
pub const TIME: Bounds = bounds("the time", 10.0, 86_400.0, "from ten seconds to a day");
/// Error of starting, pouring and stopping, in seconds.
pub const TIMING: Bounds = bounds("the timing error", 0.1, 120.0, "as hands pour");
/// The dilution exponent n.
pub const EXPONENT: Bounds = bounds(
    "the dilution exponent",
    0.1,
    1.5,
    "0 is no developer, 1 is proportional",
);
/// The temperature coefficient per 10 degrees.
pub const Q10: Bounds = bounds(
    "the factor per 10 degrees",
    1.1,
    5.0,
    "published tables for one job lie between 1.9 and 3.8",
);
/// How far development has gone, x = k t.
pub const PROGRESS: Bounds = bounds(
    "the progress k t",
    0.1,
    4.0,
    "below it there is no image, above it no more to gain",
);
/// A hand process's own spread of contrast, percent.
pub const HAND: Bounds = bounds("the spread of the hand", 0.1, 20.0, "as hand processes are");
/// A stretch of a bottle's life, in days.
pub const AGE: Bounds = bounds("the time", 0.0, 18_263.0, "from today to half a century");
/// How often a bottle was opened.
pub const OPENINGS: Bounds = bounds(
    "the number of openings",
    0.0,
    500.0,
    "from never to once a week for ten years",
);
/// Days in which a liquid takes up most of the oxygen over it.
pub const UPTAKE: Bounds = bounds("the uptake", 0.1, YEAR, "from shaken often to a thick syrup");
/// Air pressure, in hectopascals.
pub const PRESSURE: Bounds = bounds(
    "the air pressure",
    500.0,
    1_100.0,
    "from the highest towns to sea level",
);
/// A share in percent.
pub const SHARE: Bounds = bounds("the share", 0.0, 100.0, "a part of the whole");
/// A share in percent that is not nothing.
pub const LIMIT_SHARE: Bounds = bounds("the limit", 1.0, 100.0, "a part of the whole");
/// A limit in days.
pub const LIMIT_DAYS: Bounds = bounds("the limit", 1.0, 3_653.0, "from a day to ten years");
/// What is taken from a bottle at a time, in millilitres; 0 where it only stands.
pub const DRAW: Bounds = bounds("the draw", 0.0, 20_000.0, "from nothing to a large bath");
/// Days from one draw to the next.
pub const EVERY: Bounds = bounds(
    "the time between draws",
    0.5,
    3_653.0,
    "from twice a day to once in ten years",
);
/// How many times faster a stated life runs ten degrees warmer.
pub const PER_TEN: Bounds = bounds("the factor for 10 °C", 1.0, 5.0, "slow reactions mostly double");
/// Days in which all is used.
pub const USED_UP_IN: Bounds = bounds("the time", 1.0, 20.0 * YEAR, "longer than that nobody plans");
/// A substance in a solution, in grams per litre; 0 where there is none.
pub const CONTENT: Bounds = bounds("the content", 0.0, 800.0, "no more dissolves");
/// What a bottle is sold as, in millilitres.
pub const SIZE: Bounds = bounds("the size", 5.0, 25_000.0, "from a sample vial to a canister");
/// Films in a month.
pub const FILMS_A_MONTH: Bounds = bounds("the number of films a month", 0.05, 300.0, "by hand");
/// What one film takes, in millilitres.
pub const PER_FILM: Bounds = bounds(
    "what one film takes",
    0.1,
    2_000.0,
    "from a drop of syrup to a tank of stock",
);
/// Days until an order comes.
pub const LEAD: Bounds = bounds(
    "the time that an order takes",
    0.0,
    YEAR,
    "longer than that it is no order",
);
/// To what multiple of its stated life a product is trusted.
pub const TRUSTED: Bounds = bounds(
    "the trust",
    0.1,
    20.0,
    "from a tenth of what is stated to twenty times as long",
);
/// What was used or thrown away in some time, in millilitres.
pub const SPENT: Bounds = bounds("the volume", 0.0, 1_000_000.0, "by hand");
/// Films in some time.
pub const FILMS_IN_ALL: Bounds = bounds("the number of films", 0.0, 100_000.0, "by hand");
/// A pH.
pub const PH: Bounds = bounds("a pH", 0.0, 14.0, "as test strips and meters show it");
