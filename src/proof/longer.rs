//! How much longer film stays in a bath that had film before, as data sheets state it.

use std::fmt;

use crate::quantity::bounds::SHARE;
use crate::quantity::show::trimmed;
use crate::quantity::text::split_at_word;
use crate::quantity::{Bounds, Units, read};

/// How much longer, as a share of the time in fresh bath.
///
/// ```
/// use meniscus::proof::Longer;
/// use meniscus::quantity::Units;
///
/// let read = |text| Longer::read(text, Units::default()).expect(text);
/// assert_eq!(read("5 %").share(4.0), 0.2);
/// let in_steps = read("5: 10 %; 10: 25 %");
/// assert_eq!([4.0, 5.0, 12.0].map(|films| in_steps.share(films)), [0.0, 0.1, 0.25]);
/// ```
#[derive(Clone, Debug, PartialEq)]
pub enum Longer {
    /// So much for each film unit that went through before; each adds the same.
    Each(f64),
    /// From so many film units on so much in all; both rise.
    From(Vec<(f64, f64)>),
}

/// Why a text does not say how much longer.
#[derive(Clone, Debug, PartialEq)]
pub enum LongerError {
    /// A number of it cannot be read.
    Reading(read::ReadError),
    /// Several shares, and one of them without the films from which on it holds.
    NoFilms,
    /// More films and not longer, or not more films.
    Falls,
    /// More steps than a data sheet has.
    TooMany,
}

/// Most steps of one data sheet.
const MOST_STEPS: usize = 20;
/// Film units from which on a step holds.
const FILMS: Bounds = Bounds {
    what: "the number of films",
    least: 0.0,
    most: 5_000.0,
    why: "as baths take",
};

impl Longer {
    /// One share for each film unit, or steps such as `5: 10 %; 10: 25 %`.
    ///
    /// # Errors
    /// Where a number is none, a step has no films, or the steps do not rise.
    pub fn read(text: &str, units: Units) -> Result<Self, LongerError> {
        let lower = text.to_ascii_lowercase();
        let pieces = lower.split([';', '\n']).flat_map(|piece| piece.split(", "));
        let pieces = pieces.map(str::trim).filter(|piece| !piece.is_empty());
        let pieces: Vec<&str> = pieces.take(MOST_STEPS + 1).collect();
        if pieces.len() > MOST_STEPS {
            return Err(LongerError::TooMany);
        }
        let share = |text: &str| {
            let text = text.trim_start_matches("for each film").trim_start();
            let text = split_at_word(text, "per ").map_or(text, |(share, _)| share);
            let percent = read::percent(text, &SHARE, units).map_err(LongerError::Reading);
            percent.map(|percent| percent / 100.0)
        };
        if let [one] = pieces[..]
            && !one.contains(':')
        {
            return share(one).map(Self::Each);
        }
        let mut steps: Vec<(f64, f64)> = Vec::new();
        for piece in pieces {
            let (films, more) = piece.split_once(':').ok_or(LongerError::NoFilms)?;
            let films = films.trim().trim_start_matches("from").trim();
            let films = read::number(films, &FILMS, units).map_err(LongerError::Reading)?;
            let more = share(more)?;
            if steps.last().is_some_and(|last| last.0 >= films || last.1 > more) {
                return Err(LongerError::Falls);
            }
            steps.push((films, more));
        }
        Ok(Self::From(steps))
    }

    /// How much longer after so many film units, as a share of the time in fresh bath; never less than nothing.
    pub fn share(&self, films: f64) -> f64 {
        match self {
            Self::Each(share) => share * films,
            Self::From(steps) => {
                let holds = steps.iter().rev().find(|(from, _)| *from <= films);
                holds.map_or(0.0, |(_, share)| *share)
            }
        }
    }
}

impl fmt::Display for Longer {
    /// As it can be read again.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let percent = |share: f64| trimmed(share * 100.0, 2);
        match self {
            Self::Each(share) => write!(f, "{} %", percent(*share)),
            Self::From(steps) => {
                let show = |(films, share): &(f64, f64)| format!("{}: {} %", trimmed(*films, 2), percent(*share));
                f.write_str(&steps.iter().map(show).collect::<Vec<_>>().join("; "))
            }
        }
    }
}

impl fmt::Display for LongerError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Reading(error) => error.fmt(f),
            Self::NoFilms => f.write_str("from how many films on? Write 5: 10 %; 10: 25 %"),
            Self::Falls => f.write_str("more films ask for more time; write the steps upwards, as 5: 10 %; 10: 25 %"),
            Self::TooMany => write!(f, "at most {MOST_STEPS} steps"),
        }
    }
}

impl std::error::Error for LongerError {}
