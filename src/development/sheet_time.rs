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

/// What stands between a time and its temperature.
const AT: &str = " at ";

/// Most times for one film.
const MOST_TIMES: usize = 40;

/// Reads the times of a data sheet, one a line or parted by semicolons, or by commas where each part has its `at`; empty lines are
/// skipped. A line may begin with the temperature, as the tables of many sheets do.
///
/// ```
/// use meniscus::development::read_sheet_times;
/// use meniscus::quantity::Units;
///
/// let times = read_sheet_times("6:45 at 20 C 1+31; 72 F: 5:30", Units::default())?;
/// assert_eq!(times[0].time.seconds(), 405.0);
/// assert_eq!(times[1].time.seconds(), 330.0);
/// let fault = read_sheet_times("6 min 45 s 20 C", Units::default()).unwrap_err();
/// assert_eq!(fault.to_string(), "line 1 needs a time, “at” and a temperature, such as 6:45 at 20 C 1+31");
/// # Ok::<(), meniscus::development::SheetTimeError>(())
/// ```
///
/// # Errors
/// For the first line that is not a time, `at`, a temperature, and perhaps a dilution, nor begins with a temperature and can be
/// read in one way; or for more than 40 lines.
pub fn read_sheet_times(text: &str, units: Units) -> Result<Vec<SheetTime>, SheetTimeError> {
    let mut lines: Vec<&str> = Vec::new();
    for line in text.split(['\n', ';']) {
        let has_at = |part: &str| split_at_word(&part.to_ascii_lowercase(), AT).is_some();
        match line.split(',').all(has_at) {
            true => lines.extend(line.split(',').map(str::trim)),
            false => lines.push(line.trim()),
        }
    }
    lines.retain(|line| !line.is_empty());
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
    let [time, temperature, dilution] = parted(line, units).ok_or(SheetTimeError::NoAt(number))?;
    let dilution = match dilution.is_empty() {
        true => None,
        false => Some(
            dilution
                .parse()
                .map_err(|error| SheetTimeError::Dilution(number, error))?,
        ),
    };
    Ok(SheetTime {
        time: read::span(&time, &TIME, units).map_err(reading)?,
        temperature: read::temperature(&temperature, &BATH_TEMPERATURE, units).map_err(reading)?,
        dilution,
    })
}

/// The time, the temperature and the dilution of a line, which may be empty.
fn parted(line: &str, units: Units) -> Option<[String; 3]> {
    let lower = line.to_ascii_lowercase();
    let at = split_at_word(&lower, AT).or_else(|| lower.split_once('@'));
    if at.is_none()
        && let Some(parted) = temperature_first(line, units)
    {
        return Some(parted);
    }
    let (time, rest) = at.or_else(|| lower.split_once(' ').filter(|(time, _)| time.contains(':')))?;
    // What is said of them is said in the letters that were typed.
    let time = line.get(..time.len())?;
    let words: Vec<&str> = line.get(line.len() - rest.len()..)?.split_whitespace().collect();
    // As many words as still are a temperature; the rest is the dilution, however it is written.
    let is_temperature = |end: &usize| is_read(read::temperature(&bare(&words[..*end]), &BATH_TEMPERATURE, units));
    let end = (1..=words.len()).rev().find(is_temperature).unwrap_or(words.len());
    Some([bare(&[time]), bare(&words[..end]), bare(&words[end..])])
}

/// The same of a line that begins with a temperature in degrees that it names; nothing where it could be read in two ways.
fn temperature_first(line: &str, units: Units) -> Option<[String; 3]> {
    let words: Vec<&str> = line.split_whitespace().collect();
    let is_temperature = |end: &usize| {
        let said = words.get(..*end).map(bare).unwrap_or_default();
        said.ends_with(|letter: char| !letter.is_ascii_digit())
            && is_read(read::temperature(&said, &BATH_TEMPERATURE, units))
    };
    let end = (1..=2).rev().find(is_temperature)?;
    let (temperature, rest) = words.split_at_checked(end)?;
    let mut found = (0..rest.len())
        .filter_map(|at| rest.split_at_checked(at))
        .flat_map(|(one, other)| [(one, other), (other, one)])
        .map(|(time, dilution)| [bare(time), bare(temperature), bare(dilution)])
        .filter(|[time, _, dilution]| {
            is_read(read::span(time, &TIME, units)) && (dilution.is_empty() || dilution.parse::<Dilution>().is_ok())
        });
    let first = found.next()?;
    found.next().is_none().then_some(first)
}

/// Words in a row, without what parts them from the next.
fn bare(words: &[&str]) -> String {
    joined(words, " ").trim_end_matches([',', ':', ' ']).to_owned()
}

/// Whether a text was such a quantity, be it one out of its range.
fn is_read<T>(read: Result<T, read::ReadError>) -> bool {
    matches!(read, Ok(_) | Err(read::ReadError::OutOfRange(..)))
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

#[cfg(test)]
mod tests {
    use super::*;

    fn read(text: &str) -> Vec<String> {
        let times = read_sheet_times(text, Units::default()).unwrap_or_else(|fault| panic!("{text}: {fault}"));
        times.iter().map(|time| time.text(Units::default())).collect()
    }

    fn fault(text: &str) -> String {
        read_sheet_times(text, Units::default()).expect_err(text).to_string()
    }

    /// How sheets are set and people type them (common practice, no source).
    #[test]
    fn a_line_is_read_in_either_order() {
        let plain = [
            "6:45 at 20 C",
            "6:45 @ 20C",
            "6:45 20 C",
            "6:45, 20 C",
            "20 C 6:45",
            "20°C: 6 3/4",
            "20 C, 6m45s",
            "68 F 405 s",
            "20 c: 6:45,",
        ];
        for text in plain {
            assert_eq!(read(text), ["6:45 at 20 °C"], "{text}");
        }
        for text in [
            "6:45 at 20 C 1+31",
            "6:45 at 20 C, 1 : 31",
            "20 C 6:45 1+31",
            "20 C 1+31 6:45",
            "20 C: 1+31 6 min 45 s",
            "20 C: 6:45, 1+31,",
            "6:45 at 20 C 1+31,",
        ] {
            assert_eq!(read(text), ["6:45 at 20 °C 1+31"], "{text}");
        }
        // A developing of a second and a half there is none.
        assert_eq!(read("1,500 s at 20 C"), ["25:00 at 20 °C"]);
        assert_eq!(read("20 C 5\n24 C 4"), ["5:00 at 20 °C", "4:00 at 24 °C"]);
    }

    #[test]
    fn several_stand_in_one_line() {
        let two = ["6:45 at 20 °C", "5:00 at 24 °C"];
        for text in [
            "6:45 at 20 C; 5 at 24 C",
            "6:45 at 20 C, 5 at 24 C",
            "20 C 6:45; 24 C 5\n\n;",
        ] {
            assert_eq!(read(text), two, "{text}");
        }
    }

    #[test]
    fn what_could_be_two_things_is_not_guessed() {
        let asked = "line 1 needs a time, “at” and a temperature, such as 6:45 at 20 C 1+31";
        for text in ["20 C 1:31 6:45", "20 6:45", "20 C", "6:45", "abc"] {
            assert_eq!(fault(text), asked, "{text}");
        }
        assert_eq!(
            fault("16,500 s at 20 C"),
            "line 1: “16,500 s” could be a decimal or thousands; write it without the mark, or with another digit"
        );
        assert_eq!(
            fault("6:45 at 20 C\nSix at 20 C"),
            "line 2: “Six” is not a time; write 6:45, 6m45s, 6 3/4 or 405 s"
        );
    }
}
