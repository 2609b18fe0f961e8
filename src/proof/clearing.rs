//! The clearing test of a fixer: how long an undeveloped piece of film takes to clear, against fresh bath.
//!
//! Fix for twice the clearing time, and discard the bath when that has doubled (NAVEDTRA 14209, chapter 10); in no case for more
//! than a quarter of an hour (USAF T.O. 33B-1-1, 6-77). Fixing takes twice as long for every 10 °C below 20 °C (TM 11-2323).

use super::measured::Against;
use super::{Measured, TestKind};
use crate::chemistry::Guess;
use crate::quantity::{Span, Volume};

/// How many times faster film clears ten degrees warmer. The source speaks of below 20 °C; above, it is taken to go on so.
pub const CLEARS_FASTER: Guess = Guess {
    value: 2.0,
    least: 1.5,
    most: 2.5,
    why: "a manual has fixing take twice as long for every 10 °C below 20 °C (TM 11-2323); fixers differ",
};

/// How many film units a litre of fixer takes: 20 of acid fixer and 25 of alkaline (Anchell, p. 108, as counted there). The
/// practical limit of rapid fixers is about half of what they could take (Clerc), and so it is where silver must not stay.
pub const FILMS_A_LITRE: Guess = Guess {
    value: 20.0,
    least: 10.0,
    most: 25.0,
    why: "a handbook gives 20 to 25 rolls a litre, and half of that where nothing may stay in the film; your data sheet knows better",
};

/// No film stays in the fixer for longer (USAF T.O. 33B-1-1, 6-77).
pub const LONGEST: Span = Span::from_minutes(15.0);

/// Whether a time is longer than that, to the second to which a stop-watch is read.
pub fn is_longer(time: Span, limit: Span) -> bool {
    time > limit + Span::from_seconds(0.5)
}

/// Within so long a leader clears in sound bath (common practice, no source: the first couple of minutes).
pub const SOUND_WITHIN: Span = Span::from_minutes(2.0);

/// How a fixer stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fixer {
    /// Surely not spent.
    Sound,
    /// Not spent as measured, but it may be.
    NearItsEnd,
    /// Clearing has taken twice as long, or longer.
    Spent,
}

impl Fixer {
    /// By its measured speed against fresh: half as fast is twice the time.
    pub fn of(speed: &Measured) -> Self {
        let limit = TestKind::Clearing.enough();
        // A time that is just twice as long has doubled, whatever floating point makes of it.
        match (speed.strength.value <= limit + 1e-9, speed.against(limit)) {
            (true, _) => Self::Spent,
            (false, Against::Above) => Self::Sound,
            (false, _) => Self::NearItsEnd,
        }
    }
}

/// How far on the way from fresh (0) to spent (1) a clearing time is that has become so many times as long.
pub fn way_to_spent(times_as_long: f64) -> f64 {
    (times_as_long - 1.0).max(0.0)
}

/// How long to fix, in a bath in which film clears in so long.
pub fn fixing_time(clears_in: Span, times: f64) -> Span {
    clears_in * times
}

/// How many film units a bath takes in all.
pub fn capacity(bath: Volume, films_a_litre: f64) -> f64 {
    bath / Volume::from_millilitres(1000.0) * films_a_litre
}

/// Whether a bath that takes so many film units takes this film. What floating point leaves of a bath that is just full is no lack.
pub fn still_takes(takes: f64, film: f64) -> bool {
    takes + 1e-6 >= film
}
