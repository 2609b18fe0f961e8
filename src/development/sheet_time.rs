//! Times of a data sheet as a user types them: `6:45 at 20 C 1+31`, one a line.

use std::fmt;

use crate::quantity::bounds::{BATH_TEMPERATURE, TIME};
use crate::quantity::text::joined;
use crate::quantity::text::split_at_word;
use crate::quantity::{Dilution, DilutionError, Span, Temperature, Units, exact, read};

/// One time of a data sheet.
#[derive(Clone, Debug, PartialEq)]
pub struct SheetTime {
    /// Developing time.
    pub time: Span,
    /// At this temperature.
    pub temperature: Temperature,
    /// At this dilution, where the sheet gives several.
    pub dilution: Option<Dilution>,
}

/// Why a line is not a time of a data sheet.
#[derive(Clone, Debug, PartialEq)]
pub enum SheetTimeError {
    /// There is no `at` in that line.
    NoAt(usize),
    /// The time, temperature or dilution of that line cannot be read.
    Reading(usize, read::ReadError),
    /// The dilution of that line cannot be read.
    Dilution(usize, DilutionError),
    /// More lines than a data sheet has for one film.
    TooMany,
}

/// Most times for one film.
const MOST_TIMES: usize = 40;

/// Reads the times of a data sheet, one a line or parted by semicolons; empty lines are skipped.
///
/// ```
/// use meniscus::development::read_sheet_times;
/// use meniscus::quantity::Units;
///
/// let times = read_sheet_times("6:45 at 20 C 1+31; 5:30 at 72 F", Units::default())?;
/// assert_eq!(times[0].time.seconds(), 405.0);
/// let fault = read_sheet_times("6 min 45 s 20 C", Units::default()).unwrap_err();
/// assert_eq!(fault.to_string(), "line 1 needs a time, “at” and a temperature, such as 6:45 at 20 C 1+31");
/// # Ok::<(), meniscus::development::SheetTimeError>(())
/// ```
///
/// # Errors
/// For the first line that is not a time, `at`, a temperature, and perhaps a dilution; or for more than 40 lines.
pub fn read_sheet_times(text: &str, units: Units) -> Result<Vec<SheetTime>, SheetTimeError> {
    let lines: Vec<&str> = text
        .split(['\n', ';'])
        .map(str::trim)
        .filter(|line| !line.is_empty())
        .collect();
    if lines.len() > MOST_TIMES {
        return Err(SheetTimeError::TooMany);
    }
    let numbered = lines.iter().enumerate();
    numbered
        .map(|(index, line)| read_line(index + 1, line, units))
        .collect()
}

fn read_line(number: usize, line: &str, units: Units) -> Result<SheetTime, SheetTimeError> {
    let reading = |error| SheetTimeError::Reading(number, error);
    let lower = line.to_ascii_lowercase();
    let (time, rest) = split_at_word(&lower, " at ")
        .or_else(|| lower.split_once('@'))
        .or_else(|| lower.split_once(' ').filter(|(time, _)| time.contains(':')))
        .ok_or(SheetTimeError::NoAt(number))?;
    let words: Vec<&str> = rest.split_whitespace().collect();
    // As many words as still are a temperature; the rest is the dilution, however it is written.
    let is_temperature = |end: &usize| {
        let found = read::temperature(
            joined(&words[..*end], " ").trim_end_matches(','),
            &BATH_TEMPERATURE,
            units,
        );
        matches!(found, Ok(_) | Err(read::ReadError::OutOfRange(..)))
    };
    let end = (1..=words.len()).rev().find(is_temperature).unwrap_or(words.len());
    let dilution = joined(&words[end..], " ");
    let dilution = match dilution.is_empty() {
        true => None,
        false => Some(
            dilution
                .parse()
                .map_err(|error| SheetTimeError::Dilution(number, error))?,
        ),
    };
    let temperature = joined(&words[..end], " ");
    Ok(SheetTime {
        time: read::span(time, &TIME, units).map_err(reading)?,
        temperature: read::temperature(temperature.trim_end_matches(','), &BATH_TEMPERATURE, units).map_err(reading)?,
        dilution,
    })
}

impl SheetTime {
    /// As it can be read again, in these units.
    pub fn text(&self, units: Units) -> String {
        let temperature = exact::temperature(self.temperature, units);
        let dilution = self.dilution.as_ref().map(|dilution| format!(" {dilution}"));
        format!(
            "{} at {temperature}{}",
            exact::span(self.time, units),
            dilution.unwrap_or_default()
        )
    }
}

impl fmt::Display for SheetTimeError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NoAt(line) => write!(
                f,
                "line {line} needs a time, “at” and a temperature, such as 6:45 at 20 C 1+31"
            ),
            Self::Reading(line, error) => write!(f, "line {line}: {error}"),
            Self::Dilution(line, error) => write!(f, "line {line}: {error}"),
            Self::TooMany => write!(f, "at most {MOST_TIMES} times for one film"),
        }
    }
}

impl std::error::Error for SheetTimeError {}
