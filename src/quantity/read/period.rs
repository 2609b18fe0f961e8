//! Stretches of the calendar, from days to years, as people write how long a bottle keeps.

use super::{ReadError, scaled};
use crate::quantity::{Bounds, Units, YEAR};

/// A stretch of the calendar in days: `90`, `90 days`, `6 weeks`, `8 months`, `2 1/2 years`; days where no unit is written. A month
/// is the twelfth of a mean year.
///
/// ```
/// use meniscus::quantity::{Bounds, Units, read};
///
/// const LIFE: Bounds = Bounds { what: "the life", least: 1.0, most: 36_525.0, why: "from a day to a century" };
/// let read = |text| read::period(text, &LIFE, Units::default());
/// assert_eq!(read("6 weeks")?, 42.0);
/// assert_eq!(read("4 years")?.round(), 1461.0);
/// assert_eq!(read("5 moons").unwrap_err().to_string(), "“moons” is not a unit taken here; write days, weeks, months or years");
/// # Ok::<(), read::ReadError>(())
/// ```
///
/// # Errors
/// Any [`ReadError`] but `NotWhole`.
pub fn period(text: &str, bounds: &'static Bounds, units: Units) -> Result<f64, ReadError> {
    let factor = |unit: &str| match unit.trim_end_matches('.') {
        "" | "d" | "day" | "days" => Some(1.0),
        "w" | "wk" | "wks" | "week" | "weeks" => Some(7.0),
        "m" | "mo" | "month" | "months" => Some(YEAR / 12.0),
        "y" | "yr" | "yrs" | "year" | "years" | "a" => Some(YEAR),
        _ => None,
    };
    scaled(text, bounds, factor, "days, weeks, months or years", |value| {
        show_period(value, units)
    })
}

/// How far a stretch may be from a whole number of its unit to be called that, as a share of it: 180 days are six months.
const NEARLY: f64 = 0.02;

/// The same as people say it: days below a quarter of a year, but whole weeks from eight; then months, and years from two.
pub(crate) fn show_period(days: f64, units: Units) -> String {
    let whole = |value: f64| (value - value.round()).abs() <= NEARLY * value;
    let (value, one, many) = match days {
        weeks if (55.5..91.0).contains(&weeks) && weeks.round() % 7.0 == 0.0 => (weeks / 7.0, "week", "weeks"),
        few if few < 91.0 => (few, "day", "days"),
        months if months < 2.0 * YEAR => (months / (YEAR / 12.0), "month", "months"),
        years => (years / YEAR, "year", "years"),
    };
    let is_short = value < 9.95 && !(days >= 91.0 && whole(value));
    let number = units.number(value, usize::from(is_short));
    let unit = if number == "1" { one } else { many };
    format!("{number} {unit}")
}
