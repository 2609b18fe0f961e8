//! A calendar day, without a clock, a time or a zone.

use std::fmt;
use std::str::FromStr;

/// A day of the proleptic Gregorian calendar, counted from 1970-01-01.
///
/// ```
/// use meniscus::quantity::Day;
///
/// let opened: Day = "2024-02-28".parse()?;
/// assert_eq!((opened + 2).to_string(), "2024-03-01");
/// assert_eq!(opened - "2023-02-28".parse()?, 365);
/// assert!("2023-02-29".parse::<Day>().is_err());
/// # Ok::<(), meniscus::quantity::DayError>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Day(i32);

/// A text that is not a day of the calendar, written year-month-day (ISO 8601).
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct DayError(String);

/// Mean length of a year in days (Gregorian calendar; exact).
pub const YEAR: f64 = 365.2425;

impl Day {
    /// From days since 1970-01-01.
    pub const fn from_days(days: i32) -> Self {
        Self(days)
    }

    /// The day of a moment in milliseconds since 1970, and the hour, minute and second, in universal time.
    ///
    /// ```
    /// use meniscus::quantity::Day;
    ///
    /// // The moment of RFC 9562, appendix A.6: 2022-02-22T19:22:22Z.
    /// let (day, time) = Day::in_utc(1_645_557_742_000);
    /// assert_eq!((day.to_string().as_str(), time), ("2022-02-22", [19, 22, 22]));
    /// ```
    pub fn in_utc(milliseconds: i64) -> (Self, [i64; 3]) {
        let seconds = milliseconds.div_euclid(1000);
        let second = seconds.rem_euclid(86_400);
        let day = Self(seconds.div_euclid(86_400) as i32);
        (day, [second / 3600, second / 60 % 60, second % 60])
    }

    /// Days since 1970-01-01.
    pub const fn days(self) -> i32 {
        self.0
    }

    /// A day by year, month and day of the month; `None` if the calendar has no such day, or the year is not 1900 to 2199.
    pub fn from_date(year: i32, month: u32, day: u32) -> Option<Self> {
        let known = (1900..2200).contains(&year) && (1..=12).contains(&month) && day >= 1;
        (known && day <= days_in_month(year, month)).then(|| {
            // Years counted from March, so that the leap day is the last of its year.
            let from_march = if month <= 2 { year - 1 } else { year };
            let months = (month as i32 + 9) % 12;
            let before =
                from_march * 365 + from_march.div_euclid(4) - from_march.div_euclid(100) + from_march.div_euclid(400);
            Self(before + (153 * months + 2) / 5 + day as i32 - 1 - DAYS_BEFORE_1970)
        })
    }

    /// Year, month and day of the month.
    pub fn date(self) -> (i32, u32, u32) {
        let mut year = 1970 + self.0.div_euclid(365);
        while new_year(year) > self.0 {
            year -= 1;
        }
        let mut left = (self.0 - new_year(year)) as u32;
        let mut month = 1;
        while left >= days_in_month(year, month) {
            left -= days_in_month(year, month);
            month += 1;
        }
        (year, month, left + 1)
    }
}

/// Days from 0000-03-01 to 1970-01-01.
const DAYS_BEFORE_1970: i32 = 719_468;

fn new_year(year: i32) -> i32 {
    let before = year - 1;
    before * 365 + before.div_euclid(4) - before.div_euclid(100) + before.div_euclid(400) - 719_162
}

fn is_leap(year: i32) -> bool {
    year % 4 == 0 && (year % 100 != 0 || year % 400 == 0)
}

fn days_in_month(year: i32, month: u32) -> u32 {
    match month {
        2 if is_leap(year) => 29,
        2 => 28,
        4 | 6 | 9 | 11 => 30,
        _ => 31,
    }
}

impl std::ops::Add<i32> for Day {
    type Output = Self;
    fn add(self, days: i32) -> Self {
        Self(self.0 + days)
    }
}

impl std::ops::Sub for Day {
    type Output = i32;
    fn sub(self, other: Self) -> i32 {
        self.0 - other.0
    }
}

impl fmt::Display for Day {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (year, month, day) = self.date();
        write!(f, "{year:04}-{month:02}-{day:02}")
    }
}

impl FromStr for Day {
    type Err = DayError;

    fn from_str(text: &str) -> Result<Self, DayError> {
        let wrong = || DayError(text.trim().chars().take(24).collect());
        let parts: Vec<u32> = text
            .trim()
            .split('-')
            .map(|part| part.parse().map_err(|_| wrong()))
            .collect::<Result<_, _>>()?;
        match parts[..] {
            [year, month, day] => Self::from_date(year as i32, month, day).ok_or_else(wrong),
            _ => Err(wrong()),
        }
    }
}

impl fmt::Display for DayError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "“{}” is not a day; write year-month-day, such as 2026-03-01", self.0)
    }
}

impl std::error::Error for DayError {}
