//! Text to quantities: numbers as people write them, units where they matter, and one gate for every range.
//!
//! Decimal comma and decimal point are both read, as are `18 3/4` and `18¾`. `1,000` could be one or a thousand: whichever
//! of the two lies in the range is taken, and if both do, the reader asks.
//!
//! ```
//! use meniscus::quantity::{bounds, read, Units};
//!
//! let units = Units::default();
//! assert_eq!(read::volume("18,75", &bounds::POUR, units)?.millilitres(), 18.75);
//! assert_eq!(read::span("6m45s", &bounds::TIME, units)?.seconds(), 405.0);
//! let fault = read::volume("5 yards", &bounds::POUR, units).unwrap_err();
//! assert_eq!(fault.to_string(), "“yards” is not a unit taken here; write ml, l, fl oz, pt, qt or gal");
//! # Ok::<(), read::ReadError>(())
//! ```

mod period;

use std::fmt;

pub use period::period;
pub(crate) use period::show_period;

use super::show::{TemperatureUnit, VolumeUnit};
use super::text::split_while;
use super::{Bounds, Mass, MassDensity, Span, Temperature, TemperatureDifference, Units, Volume};

/// Why a text is not the quantity asked for. The display is what the user reads.
#[derive(Clone, Debug, PartialEq)]
pub enum ReadError {
    /// Nothing was written where something is needed.
    Empty,
    /// There is no number at the start.
    NoNumber(String),
    /// None of the ways to write a time.
    NotATime(String),
    /// More digits than any instrument shows.
    TooManyDigits,
    /// A unit that does not belong to this quantity; with those that do.
    UnknownUnit(String, &'static str),
    /// Digits in threes after one mark, and both readings lie in the range.
    Ambiguous(String),
    /// A number outside its range: what, least, most, why.
    OutOfRange(&'static str, String, String, &'static str),
    /// A temperature outside its range that would lie in it as degrees Fahrenheit.
    PerhapsFahrenheit(String),
    /// A fraction of a thing that is counted.
    NotWhole(&'static str),
}

impl fmt::Display for ReadError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Empty => f.write_str("something is needed here"),
            Self::NoNumber(given) => write!(f, "“{given}” is not a number"),
            Self::NotATime(given) => write!(f, "“{given}” is not a time; write 6:45, 6m45s, 6 3/4 or 405 s"),
            Self::TooManyDigits => f.write_str("that is more digits than any instrument shows"),
            Self::UnknownUnit(unit, takes) => write!(f, "“{unit}” is not a unit taken here; write {takes}"),
            Self::Ambiguous(given) => write!(
                f,
                "“{given}” could be a decimal or thousands; write it without the mark, or with another digit"
            ),
            Self::OutOfRange(what, least, most, why) => write!(f, "{what} must be from {least} to {most} ({why})"),
            Self::PerhapsFahrenheit(given) => write!(f, "{given} °C is far too warm; for Fahrenheit write {given} F"),
            Self::NotWhole(what) => write!(f, "{what} must be a whole number"),
        }
    }
}

impl std::error::Error for ReadError {}

/// A volume: `600`, `600 ml`, `0.6 l`, `20 fl oz`; the user's own unit where none is written.
///
/// # Errors
/// Any [`ReadError`] but `NotWhole`.
pub fn volume(text: &str, bounds: &'static Bounds, units: Units) -> Result<Volume, ReadError> {
    let ounce = Volume::US_FLUID_OUNCE.millilitres();
    let own = match units.volume {
        VolumeUnit::Millilitre => 1.0,
        VolumeUnit::UsFluidOunce => ounce,
    };
    let factor = |unit: &str| match unit {
        "" => Some(own),
        "ml" | "cc" | "cm3" | "cm³" | "millilitre" | "millilitres" | "milliliter" | "milliliters" => Some(1.0),
        "l" | "litre" | "litres" | "liter" | "liters" => Some(1000.0),
        "cl" => Some(10.0),
        "dl" => Some(100.0),
        "fl oz" | "floz" | "fl. oz." | "fl. oz" | "oz" => Some(ounce),
        "qt" | "quart" | "quarts" => Some(ounce * 32.0),
        "pt" | "pint" | "pints" => Some(ounce * 16.0),
        "gal" | "gallon" | "gallons" => Some(ounce * 128.0),
        _ => None,
    };
    scaled(text, bounds, factor, "ml, l, fl oz, pt, qt or gal", |value| {
        show_volume(value, units)
    })
    .map(Volume::from_millilitres)
}

/// A mass: `3.5`, `3.5 g`, `250 mg`, `1 kg`, `1 oz`; grams where none is written.
///
/// # Errors
/// Any [`ReadError`] but `NotWhole`.
pub fn mass(text: &str, bounds: &'static Bounds, units: Units) -> Result<Mass, ReadError> {
    let factor = |unit: &str| match unit {
        "" | "g" | "gram" | "grams" => Some(1.0),
        "mg" => Some(0.001),
        "kg" => Some(1000.0),
        "oz" => Some(Mass::OUNCE.grams()),
        _ => None,
    };
    scaled(text, bounds, factor, "g, mg, kg or oz", |value| show_mass(value, units)).map(Mass::from_grams)
}

/// The density of a liquid: `1.25`, `1.25 g/ml`, `1250 g/l`.
///
/// # Errors
/// Any [`ReadError`] but `NotWhole`.
pub fn density(text: &str, bounds: &'static Bounds, units: Units) -> Result<MassDensity, ReadError> {
    let factor = |unit: &str| match unit {
        "" | "g/ml" | "g/cm3" | "g/cm³" | "kg/l" => Some(1.0),
        "g/l" | "kg/m3" | "kg/m³" => Some(0.001),
        _ => None,
    };
    scaled(text, bounds, factor, "g/ml or g/l", |value| show_density(value, units))
        .map(MassDensity::from_grams_per_millilitre)
}

/// A share in percent: `95`, `95 %`; returned as percent.
///
/// # Errors
/// Any [`ReadError`] but `NotWhole`.
pub fn percent(text: &str, bounds: &'static Bounds, units: Units) -> Result<f64, ReadError> {
    let factor = |unit: &str| matches!(unit, "" | "%" | "percent").then_some(1.0);
    scaled(text, bounds, factor, "%", |value| {
        format!("{} %", units.number(value, 2))
    })
}

/// A number without a unit.
///
/// # Errors
/// Any [`ReadError`] but `NotWhole`.
pub fn number(text: &str, bounds: &'static Bounds, units: Units) -> Result<f64, ReadError> {
    let factor = |unit: &str| unit.is_empty().then_some(1.0);
    scaled(text, bounds, factor, "the number alone", |value| {
        show_number(value, units)
    })
}

/// A whole number.
///
/// # Errors
/// Any [`ReadError`].
pub fn count(text: &str, bounds: &'static Bounds, units: Units) -> Result<u32, ReadError> {
    let value = number(text, bounds, units)?;
    match value.fract() == 0.0 {
        true => Ok(value as u32),
        false => Err(ReadError::NotWhole(bounds.what)),
    }
}

/// A temperature: `20`, `20 C`, `68 °F`; the user's own unit where none is written.
///
/// # Errors
/// Any [`ReadError`] but `NotWhole`.
pub fn temperature(text: &str, bounds: &'static Bounds, units: Units) -> Result<Temperature, ReadError> {
    let convert = |value: f64, unit: &str| match (degrees(unit), units.temperature) {
        (Some(Some(TemperatureUnit::Celsius)), _) | (Some(None), TemperatureUnit::Celsius) => Some(value),
        (Some(_), _) => Some(Temperature::from_fahrenheit(value).celsius()),
        (None, _) => None,
    };
    let found = gate(text, bounds, convert, "C or F", |value| show_temperature(value, units));
    match (found, decimal(text)) {
        (Err(ReadError::OutOfRange(..)), Some(bare))
            if bounds.holds(Temperature::from_fahrenheit(bare).celsius()) && bare > bounds.most =>
        {
            Err(ReadError::PerhapsFahrenheit(units.number(bare, 2)))
        }
        (found, _) => found.map(Temperature::from_celsius),
    }
}

/// A difference of temperatures: `0.5`, `0.5 C`, `1 F`.
///
/// # Errors
/// Any [`ReadError`] but `NotWhole`.
pub fn temperature_difference(
    text: &str,
    bounds: &'static Bounds,
    units: Units,
) -> Result<TemperatureDifference, ReadError> {
    let convert = |value: f64, unit: &str| match (degrees(unit), units.temperature) {
        (Some(Some(TemperatureUnit::Celsius)), _) | (Some(None), TemperatureUnit::Celsius) => Some(value),
        (Some(_), _) => Some(value / 1.8),
        (None, _) => None,
    };
    gate(text, bounds, convert, "C or F", |value| {
        show_temperature_difference(value, units)
    })
    .map(TemperatureDifference::from_kelvins)
}

/// A time: `6:45`, `1:05:00`, `6m45s`, `6 min 45 s`, `6 3/4`, `405 s`; minutes where no unit is written.
///
/// # Errors
/// Any [`ReadError`] but `NotWhole`.
pub fn span(text: &str, bounds: &'static Bounds, units: Units) -> Result<Span, ReadError> {
    let text = text.trim();
    let wordless = |error| match error {
        ReadError::NoNumber(_) => ReadError::NotATime(short(text)),
        other => other,
    };
    let mut readings = match text.contains(':') {
        true => vec![clock(text)?],
        // A number that could be thousands is taken as what the field holds.
        false => vec![pieces(text, 0).map_err(wordless)?, pieces(text, 1).map_err(wordless)?],
    };
    readings.dedup();
    readings.retain(|seconds| bounds.holds(*seconds));
    match readings[..] {
        [] => Err(out_of_range(bounds, |value| show_span(value, units))),
        [seconds] => Ok(Span::from_seconds(seconds)),
        _ => Err(ReadError::Ambiguous(short(text))),
    }
}

/// A plain decimal number with nothing after it; `None` otherwise, and where it could be thousands too.
pub fn decimal(text: &str) -> Option<f64> {
    match scan(text.trim()) {
        Ok((numbers, "")) if numbers.len() == 1 => numbers.first().copied(),
        _ => None,
    }
}

pub(crate) fn show_volume(value: f64, units: Units) -> String {
    match units.volume {
        VolumeUnit::Millilitre if value >= 1000.0 => format!("{} l", units.number(value / 1000.0, 3)),
        VolumeUnit::Millilitre => format!("{} ml", units.number(value, 3)),
        _ => units.volume(Volume::from_millilitres(value)),
    }
}

pub(crate) fn show_mass(value: f64, units: Units) -> String {
    format!("{} g", units.number(value, 4))
}

pub(crate) fn show_density(value: f64, units: Units) -> String {
    format!("{} g/ml", units.number(value, 3))
}

pub(crate) fn show_percent(value: f64, units: Units) -> String {
    format!("{} %", units.number(value, 2))
}

pub(crate) fn show_number(value: f64, units: Units) -> String {
    units.number(value, 3)
}

pub(crate) fn show_temperature(value: f64, units: Units) -> String {
    units.temperature(Temperature::from_celsius(value))
}

pub(crate) fn show_temperature_difference(value: f64, units: Units) -> String {
    units.temperature_difference(TemperatureDifference::from_kelvins(value))
}

pub(crate) fn show_span(value: f64, units: Units) -> String {
    match value < 60.0 {
        true => format!("{} s", units.number(value, 1)),
        false => units.span(Span::from_seconds(value)),
    }
}

fn scaled(
    text: &str,
    bounds: &'static Bounds,
    factor: impl Fn(&str) -> Option<f64>,
    takes: &'static str,
    show: impl Fn(f64) -> String,
) -> Result<f64, ReadError> {
    gate(
        text,
        bounds,
        |value, unit| factor(unit).map(|factor| value * factor),
        takes,
        show,
    )
}

/// The one way from text to a number in its range.
fn gate(
    text: &str,
    bounds: &'static Bounds,
    convert: impl Fn(f64, &str) -> Option<f64>,
    takes: &'static str,
    show: impl Fn(f64) -> String,
) -> Result<f64, ReadError> {
    let text = text.trim();
    let (numbers, unit) = scan(text)?;
    let unit = unit.trim().to_ascii_lowercase();
    let mut held = Vec::new();
    for number in numbers {
        let value = convert(number, &unit).ok_or_else(|| ReadError::UnknownUnit(short(&unit), takes))?;
        if bounds.holds(value) {
            held.push(value);
        }
    }
    match held[..] {
        [] => Err(out_of_range(bounds, show)),
        [value] => Ok(value),
        _ => Err(ReadError::Ambiguous(short(text))),
    }
}

fn out_of_range(bounds: &'static Bounds, show: impl Fn(f64) -> String) -> ReadError {
    ReadError::OutOfRange(bounds.what, show(bounds.least), show(bounds.most), bounds.why)
}

/// `Some(None)` for no unit, `Some(unit)` for a known one, `None` for an unknown one.
fn degrees(unit: &str) -> Option<Option<TemperatureUnit>> {
    let mut unit = unit.trim_start_matches('°');
    while let Some(rest) = unit.strip_prefix("deg") {
        unit = rest;
    }
    match unit.trim() {
        "" => Some(None),
        "c" | "celsius" => Some(Some(TemperatureUnit::Celsius)),
        "f" | "fahrenheit" => Some(Some(TemperatureUnit::Fahrenheit)),
        _ => None,
    }
}

/// `m:s` or `h:m:s`, in seconds.
fn clock(text: &str) -> Result<f64, ReadError> {
    let no_time = || ReadError::NotATime(short(text));
    let parts = text
        .split(':')
        .map(|part| match part.trim() {
            digits if digits.len() <= 5 && digits.bytes().all(|b| b.is_ascii_digit()) => digits.parse::<u32>().ok(),
            _ => None,
        })
        .collect::<Option<Vec<_>>>()
        .ok_or_else(no_time)?;
    match parts[..] {
        [minutes, seconds] if seconds < 60 => Ok(f64::from(minutes) * 60.0 + f64::from(seconds)),
        [hours, minutes, seconds] if minutes < 60 && seconds < 60 => {
            Ok(f64::from(hours) * 3600.0 + f64::from(minutes) * 60.0 + f64::from(seconds))
        }
        _ => Err(no_time()),
    }
}

/// Numbers with units one after another, in seconds; a bare last number is in the next smaller unit, minutes if alone. Of numbers
/// that can be read in two ways, that reading is taken.
fn pieces(text: &str, reading: usize) -> Result<f64, ReadError> {
    let mut rest = text;
    let mut sum = 0.0;
    let mut next = 60.0;
    loop {
        let (numbers, tail) = scan(rest)?;
        let tail = tail.trim_start();
        let (unit, after) = split_while(tail, |c| !c.is_ascii_digit());
        let unit = unit.trim().trim_end_matches('.').to_ascii_lowercase();
        let size = match unit.as_str() {
            "" if after.is_empty() && next >= 1.0 => next,
            "h" | "hr" | "hour" | "hours" => 3600.0,
            "m" | "min" | "mins" | "minute" | "minutes" | "'" | "′" => 60.0,
            "s" | "sec" | "secs" | "second" | "seconds" | "\"" | "″" => 1.0,
            _ => return Err(ReadError::NotATime(short(text))),
        };
        sum += numbers.get(reading).or(numbers.first()).copied().unwrap_or_default() * size;
        if after.is_empty() {
            return Ok(sum);
        }
        (rest, next) = (after, size / 60.0);
    }
}

/// A number at the start of the text in all its readings (one, or a decimal and thousands), and what follows it.
fn scan(text: &str) -> Result<(Vec<f64>, &str), ReadError> {
    if text.is_empty() {
        return Err(ReadError::Empty);
    }
    let no_number = || ReadError::NoNumber(short(text));
    let (sign, unsigned) = match text.strip_prefix(['-', '−']) {
        Some(rest) => (-1.0, rest.trim_start()),
        None => (1.0, text.strip_prefix('+').unwrap_or(text)),
    };
    let (run, rest) = split_while(unsigned, |c| c.is_ascii_digit() || c == '.' || c == ',');
    if run.bytes().filter(u8::is_ascii_digit).count() > 12 {
        return Err(ReadError::TooManyDigits);
    }
    if run.is_empty() {
        let (part, rest) = vulgar(rest).ok_or_else(no_number)?;
        return Ok((vec![sign * part], rest));
    }
    let readings = readings(run).ok_or_else(no_number)?;
    if let [whole] = readings[..] {
        if let Some((below, rest)) = rest.strip_prefix('/').and_then(digits) {
            return match below == 0.0 {
                true => Err(no_number()),
                false => Ok((vec![sign * whole / below], rest)),
            };
        }
        if let Some((part, rest)) = fraction(rest) {
            return Ok((vec![sign * (whole + part)], rest));
        }
    }
    Ok((readings.into_iter().map(|value| sign * value).collect(), rest))
}

/// What a run of digits and marks can mean.
fn readings(run: &str) -> Option<Vec<f64>> {
    let marks: Vec<char> = run.chars().filter(|c| !c.is_ascii_digit()).collect();
    let parse = parse_decimal;
    let thousands = |text: &str, mark: char| {
        let mut groups = text.split(mark);
        let first = groups.next().unwrap_or_default();
        let whole = (1..=3).contains(&first.len()) && !first.starts_with('0') && groups.all(|group| group.len() == 3);
        whole.then(|| text.replace(mark, "")).and_then(|text| parse(&text))
    };
    match marks[..] {
        [] => Some(vec![parse(run)?]),
        [mark] => {
            let mut all = vec![parse(&run.replace(mark, "."))?];
            all.extend(thousands(run, mark));
            Some(all)
        }
        [.., before, last] if before != last && marks[..marks.len() - 1].iter().all(|&mark| mark == before) => {
            let (whole, part) = run.rsplit_once(last)?;
            let whole = thousands(whole, before)?;
            Some(vec![parse(&format!("{}.{part}", whole as u64))?])
        }
        [mark, ..] if marks.iter().all(|&other| other == mark) => Some(vec![thousands(run, mark)?]),
        _ => None,
    }
}

/// Digits with at most one point. At most 12 digits come here, so mantissa and power of ten are both exact and their quotient is
/// the nearest number there is; the general reader of the standard library would be a large part of the page.
fn parse_decimal(text: &str) -> Option<f64> {
    let (whole, part) = text.split_once('.').unwrap_or((text, ""));
    let digits = format!("{whole}{part}");
    let mantissa: u64 = digits.parse().ok()?;
    Some(mantissa as f64 / 10f64.powi(part.len() as i32))
}

/// ` 3/4` or `¾` after a whole number.
fn fraction(text: &str) -> Option<(f64, &str)> {
    let trimmed = text.trim_start();
    if let Some(found) = vulgar(trimmed) {
        return Some(found);
    }
    if trimmed.len() == text.len() {
        return None;
    }
    let (above, rest) = digits(trimmed)?;
    let (below, rest) = digits(rest.strip_prefix('/')?)?;
    (below > 0.0).then_some((above / below, rest))
}

fn vulgar(text: &str) -> Option<(f64, &str)> {
    let mut letters = text.chars();
    let value = match letters.next()? {
        '¼' => 0.25,
        '½' => 0.5,
        '¾' => 0.75,
        '⅓' => 1.0 / 3.0,
        '⅔' => 2.0 / 3.0,
        '⅛' => 0.125,
        '⅜' => 0.375,
        '⅝' => 0.625,
        '⅞' => 0.875,
        _ => return None,
    };
    Some((value, letters.as_str()))
}

fn digits(text: &str) -> Option<(f64, &str)> {
    let (run, rest) = split_while(text, |c| c.is_ascii_digit());
    (1..=4)
        .contains(&run.len())
        .then(|| run.parse::<u32>().ok())
        .flatten()
        .map(|value| (f64::from(value), rest))
}

/// Enough of what was written to recognise it.
pub(crate) fn short(text: &str) -> String {
    match text.char_indices().nth(24).and_then(|(end, _)| text.get(..end)) {
        Some(begun) => format!("{begun}…"),
        None => text.to_owned(),
    }
}
