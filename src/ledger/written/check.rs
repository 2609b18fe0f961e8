//! What written values may be.

use crate::kit::container;
use crate::ledger::description::Thousandths;
use crate::ledger::id::{BottleId, EventId, IdError, Moment};
use crate::quantity::{Area, Day, Dilution, DilutionError, MassDensity, Span, Temperature, Volume, bounds};

/// A thousand litres: no bottle, bath or draw at a sink has more.
const MOST_MICROLITRES: i64 = 1_000_000_000;
/// A hundred years.
const MOST_DAYS: i64 = 36_525;
/// Longest name of a product, a place, a currency, in characters.
const LONGEST_NAME: usize = 200;
/// Longest note, in characters.
const LONGEST_TEXT: usize = 4_000;
/// Most parts of one event: bottles mixed, containers filled, times of a data sheet.
const MOST_PARTS: usize = 40;
/// Ten times fresh.
const MOST_STRENGTH: i64 = 10_000;
/// Where bottles can stand, in thousandths of a degree Celsius.
const TEMPERATURES: std::ops::RangeInclusive<i64> = -60_000..=80_000;

pub(super) fn event_id(text: &str) -> Result<EventId, String> {
    text.parse().map_err(|error: IdError| error.to_string())
}

pub(super) fn bottle(text: String) -> Result<BottleId, String> {
    BottleId::new(text).map_err(|error| error.to_string())
}

pub(super) fn moment(milliseconds: i64) -> Result<Moment, String> {
    Moment::from_milliseconds(milliseconds).ok_or_else(|| format!("{milliseconds} ms is no moment since 1970"))
}

/// Written in one way only (ISO 8601, extended format), so that equal events have equal texts.
pub(super) fn day(text: &str) -> Result<Day, String> {
    let number = |part: &str| match part.bytes().all(|byte| byte.is_ascii_digit()) {
        true => part.parse().ok(),
        false => None,
    };
    let day = || match (
        text.len(),
        text.get(..4)?,
        text.get(4..5)?,
        text.get(5..7)?,
        text.get(7..8)?,
        text.get(8..)?,
    ) {
        (10, year, "-", month, "-", day) => Day::from_date(number(year)? as i32, number(month)?, number(day)?),
        _ => None,
    };
    day().ok_or_else(|| format!("“{}” is no day", super::fields::short(text)))
}

/// A volume of 0 or more.
pub(super) fn volume(microlitres: i64) -> Result<Volume, String> {
    match (0..=MOST_MICROLITRES).contains(&microlitres) {
        true => Ok(Volume::from_microlitres(microlitres)),
        false => Err(format!("{microlitres} µl is no volume at a sink")),
    }
}

/// A volume of more than 0.
pub(super) fn some(microlitres: i64) -> Result<Volume, String> {
    match microlitres == 0 {
        true => Err("a volume is 0 where there must be some".to_owned()),
        false => volume(microlitres),
    }
}

pub(super) fn temperature(millidegrees: i64) -> Result<Temperature, String> {
    match TEMPERATURES.contains(&millidegrees) {
        true => Ok(Temperature::from_celsius(millidegrees as f64 / 1000.0)),
        false => Err(format!(
            "{millidegrees} thousandths of a degree is no place for bottles"
        )),
    }
}

pub(super) fn two_temperatures(low: i64, high: i64) -> Result<(Temperature, Temperature), String> {
    match low <= high {
        true => Ok((temperature(low)?, temperature(high)?)),
        false => Err("the lower temperature is the higher one".to_owned()),
    }
}

pub(super) fn day_of_year(day: i64) -> Result<u32, String> {
    match (1..=366).contains(&day) {
        true => Ok(day as u32),
        false => Err(format!("a year has no day {day}")),
    }
}

pub(super) fn wall_area(square_millimetres: i64) -> Result<Area, String> {
    let area = square_millimetres as f64 / 100.0;
    match container::WALL_AREA.holds(area) {
        true => Ok(Area::from_square_centimetres(area)),
        false => Err(format!("{square_millimetres} mm² is no wall of a bottle")),
    }
}

/// A thickness in millimetres.
pub(super) fn thickness(micrometres: i64) -> Result<f64, String> {
    let thickness = micrometres as f64 / 1000.0;
    match container::THICKNESS.holds(thickness) {
        true => Ok(thickness),
        false => Err(format!("{micrometres} µm is no wall of a bottle")),
    }
}

pub(super) fn strength(thousandths: i64) -> Result<Thousandths, String> {
    match (0..=MOST_STRENGTH).contains(&thousandths) {
        true => Ok(Thousandths(thousandths as u32)),
        false => Err(format!("{thousandths} thousandths is no strength")),
    }
}

pub(super) fn thousandths(value: i64) -> Result<Thousandths, String> {
    let fits = u32::try_from(value).map(Thousandths);
    fits.map_err(|_| format!("{value} thousandths is no number of films"))
}

pub(super) fn cents(value: i64) -> Result<u32, String> {
    u32::try_from(value).map_err(|_| format!("{value} hundredths is no price"))
}

/// A life in days.
pub(super) fn life(days: i64) -> Result<f64, String> {
    match (1..=MOST_DAYS).contains(&days) {
        true => Ok(days as f64),
        false => Err(format!("{days} days is no life on a shelf")),
    }
}

pub(super) fn span(milliseconds: i64) -> Result<Span, String> {
    let seconds = milliseconds as f64 / 1000.0;
    match bounds::TIME.holds(seconds) {
        true => Ok(Span::from_seconds(seconds)),
        false => Err(format!("{milliseconds} ms is no time of a data sheet")),
    }
}

pub(super) fn density(micrograms_per_millilitre: i64) -> Result<MassDensity, String> {
    let density = micrograms_per_millilitre as f64 / 1e6;
    match bounds::DENSITY.holds(density) {
        true => Ok(MassDensity::from_grams_per_millilitre(density)),
        false => Err(format!(
            "{micrograms_per_millilitre} µg/ml is no density of a photographic liquid"
        )),
    }
}

pub(super) fn exponent(thousandths: i64) -> Result<f64, String> {
    let exponent = thousandths as f64 / 1000.0;
    match bounds::EXPONENT.holds(exponent) {
        true => Ok(exponent),
        false => Err(format!("{thousandths} thousandths is no dilution exponent")),
    }
}

/// A name that may be empty.
pub(super) fn name(text: String) -> Result<String, String> {
    within(text, LONGEST_NAME)
}

/// A name that must be there.
pub(super) fn needed(text: String) -> Result<String, String> {
    match text.trim().is_empty() {
        true => Err("a name is empty".to_owned()),
        false => name(text),
    }
}

/// A note that may be empty.
pub(super) fn note(text: String) -> Result<String, String> {
    within(text, LONGEST_TEXT)
}

/// As many as one event may have.
pub(super) fn few<T>(parts: Vec<T>) -> Result<Vec<T>, String> {
    match parts.len() <= MOST_PARTS {
        true => Ok(parts),
        false => Err(format!("it has more than {MOST_PARTS} parts")),
    }
}

pub(super) fn dilution(text: &str) -> Result<Dilution, String> {
    let text = if text == "undiluted" { "stock" } else { text };
    text.parse().map_err(|error: DilutionError| error.to_string())
}

/// The value of a word of the file.
pub(super) fn value<T: Copy>(words: &[(&str, T)], word: &str) -> Result<T, String> {
    let found = words.iter().find(|(other, _)| *other == word);
    found
        .map(|(_, value)| *value)
        .ok_or_else(|| format!("there is no “{}”", super::fields::short(word)))
}

/// The word of the file for a value.
pub(super) fn word<T: PartialEq>(words: &[(&'static str, T)], value: T) -> &'static str {
    let found = words.iter().find(|(_, other)| *other == value);
    found.map_or("", |(word, _)| *word)
}

fn within(text: String, longest: usize) -> Result<String, String> {
    match text.len() <= longest || text.chars().count() <= longest {
        true => Ok(text),
        false => Err(format!("a text is longer than {longest} characters")),
    }
}
