//! What a solution holds against the air, in mol/l, and how long its class is said to keep.

use super::{Class, Guess};
use crate::quantity::{Amount, Volume};

/// Sulfite that one oxygen takes: 2 Na2SO3 + O2 = 2 Na2SO4, and as many where an agent is sulfonated on the way: C6H6O2
/// + O2 + 2 SO3(2-) = C6H5O5S(-) + SO4(2-) + OH(-) (James, *The Theory of the Photographic Process*; from memory).
pub const SULFITE_PER_OXYGEN: f64 = 2.0;

/// Oxygen that takes one developing agent, at the least: one for one (same source; from memory).
pub const OXYGEN_PER_AGENT: f64 = 1.0;

/// What a solution holds against the air.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Reserve {
    /// Developing agents together, mol/l.
    pub agent: f64,
    /// Sulfite in any form, mol/l.
    pub sulfite: f64,
}

impl Reserve {
    /// Share of the sulfite of a volume that the oxygen takes if sulfite takes it all; `None` where there is none. Not
    /// limited to 1.
    ///
    /// ```
    /// use meniscus::chemistry::Formula;
    /// use meniscus::quantity::{Amount, Volume};
    ///
    /// let stock = Formula::find("mq-borax").expect("it is published").reserve();
    /// let air = Amount::from_millimoles(4.354); // in half a litre of air
    /// let half_litre = Volume::from_millilitres(500.0);
    /// assert!((stock.sulfite_used(air, half_litre).expect("it has sulfite") - 0.0220).abs() < 0.0001);
    /// ```
    pub fn sulfite_used(&self, oxygen: Amount, volume: Volume) -> Option<f64> {
        used(oxygen * SULFITE_PER_OXYGEN, self.sulfite, volume)
    }

    /// The same after thinning to this share of concentrate, 0 to 1.
    pub fn thinned(self, share: f64) -> Self {
        Self {
            agent: self.agent * share,
            sulfite: self.sulfite * share,
        }
    }

    /// Share of the agents of a volume that the oxygen takes if agents take it all; `None` where there are none. Not
    /// limited to 1.
    pub fn agent_used(&self, oxygen: Amount, volume: Volume) -> Option<f64> {
        used(oxygen / OXYGEN_PER_AGENT, self.agent, volume)
    }
}

/// mol/l is mmol/ml.
fn used(taken: Amount, per_millilitre: f64, volume: Volume) -> Option<f64> {
    let there = per_millilitre * volume.millilitres();
    (there > 0.0).then(|| taken.millimoles() / there)
}

/// What a class of solution may hold against the air.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TypicalReserve {
    /// Developing agents, mol/l; `None` where nothing develops.
    pub agent: Option<Guess>,
    /// Sulfite, mol/l.
    pub sulfite: Guess,
}

/// How long data sheets of a class mostly say that it keeps, at room temperature.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TypicalLives {
    /// Days unopened, as it is sold or mixed.
    pub unopened: Guess,
    /// Days once opened, full to the brim and closed.
    pub full: Guess,
    /// Life half full, as a share of the life full.
    pub half_full: Guess,
}

impl Class {
    /// What it may hold against the air; `None` where air does no harm that is known. Assumptions: those of powder
    /// stocks span the published formulas, the others are from memory of safety data sheets, no source.
    pub fn reserve(self) -> Option<TypicalReserve> {
        let of = |agent, sulfite| TypicalReserve { agent, sulfite };
        Some(match self {
            Self::Syrup => of(
                Some(guess(0.8, 0.4, 1.5, "a syrup holds some 50 to 150 g/l of agents")),
                guess(
                    1.5,
                    0.8,
                    3.0,
                    "a syrup holds some 100 to 300 g/l of sulfite in one form or another",
                ),
            ),
            Self::LiquidConcentrate => of(
                Some(guess(
                    0.3,
                    0.1,
                    0.8,
                    "a thin concentrate holds some 15 to 80 g/l of agents",
                )),
                guess(1.0, 0.3, 2.0, "a thin concentrate holds some 40 to 250 g/l of sulfite"),
            ),
            Self::PowderStock => of(
                Some(guess(0.057, 0.04, 0.13, "the published stocks lie in this range")),
                guess(0.79, 0.29, 0.95, "the published stocks lie in this range"),
            ),
            Self::WorkingDeveloper => of(
                Some(guess(0.025, 0.005, 0.06, "a concentrate or a stock, thinned as usual")),
                guess(0.06, 0.02, 0.4, "a concentrate or a stock, thinned as usual"),
            ),
            Self::Fixer => of(
                None,
                guess(0.1, 0.03, 0.25, "fixers are preserved with some 5 to 30 g/l of sulfite"),
            ),
            Self::StopBath | Self::Other => return None,
        })
    }

    /// How long it is said to keep, where its own data sheet is not at hand; `None` where nothing can be said.
    /// Assumptions, from memory of data sheets unless the reason names a source.
    pub fn lives(self) -> Option<TypicalLives> {
        let (unopened, full, half_full) = match self {
            Self::Syrup => (
                guess(730.0, 365.0, 1825.0, TWO_YEARS),
                guess(
                    365.0,
                    180.0,
                    1460.0,
                    "sheets say half a year to a year; hands have found four",
                ),
                guess(0.5, 0.25, 1.0, "little water, much reserve"),
            ),
            Self::LiquidConcentrate => (
                guess(730.0, 365.0, 1095.0, TWO_YEARS),
                guess(180.0, 90.0, 365.0, "sheets mostly say half a year once opened"),
                guess(1.0 / 3.0, 1.0 / 6.0, 2.0 / 3.0, "as published for stocks, or better"),
            ),
            Self::PowderStock => (
                guess(
                    180.0,
                    90.0,
                    365.0,
                    "a stock keeps from its mixing, whether opened or not",
                ),
                guess(180.0, 90.0, 365.0, "sheets mostly say half a year, full and closed"),
                guess(
                    1.0 / 3.0,
                    1.0 / 6.0,
                    0.5,
                    "published lives of one composition: a third and a sixth",
                ),
            ),
            Self::WorkingDeveloper => (
                guess(
                    14.0,
                    2.0,
                    60.0,
                    "a thin bath keeps from its mixing, whether opened or not",
                ),
                guess(14.0, 2.0, 60.0, "sheets say from a day to two months"),
                guess(0.25, 0.1, 0.5, "little reserve, much water"),
            ),
            Self::StopBath => (
                guess(1825.0, 730.0, 3650.0, "an acid keeps; the indicator tells its end"),
                guess(180.0, 60.0, 730.0, "an acid keeps; the indicator tells its end"),
                guess(1.0, 0.8, 1.0, "air does it no harm"),
            ),
            Self::Fixer => (
                guess(730.0, 365.0, 1095.0, TWO_YEARS),
                guess(
                    60.0,
                    30.0,
                    180.0,
                    "a working fixer keeps two months at the most (Anchell, p. 108)",
                ),
                guess(0.7, 0.4, 1.0, "air takes its sulfite, slowly"),
            ),
            Self::Other => return None,
        };
        Some(TypicalLives {
            unopened,
            full,
            half_full,
        })
    }
}

const TWO_YEARS: &str = "closed, not beyond two years from making (USAF T.O. 33B-1-1, 6.7.7.1.1)";

const fn guess(value: f64, least: f64, most: f64, why: &'static str) -> Guess {
    Guess {
        value,
        least,
        most,
        why,
    }
}
