//! What a chart is of: what is measured, how far it may go, and how much a hand's own scatter makes of it.

use super::Edge;
use crate::chemistry::Guess;
use crate::proof::TestKind;

/// What is measured, one value a test.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Measure {
    /// Strength of a developer by clips, 1 for fresh.
    Clip,
    /// Strength of a fixer by clearing times, 1 for fresh.
    Clearing,
    /// Strength by comparing strips or negatives, 1 for fresh.
    Comparison,
    /// Density of the unexposed, developed film.
    BaseFog,
    /// Density of a middle step of a strip.
    MidDensity,
    /// Difference of the densities of two steps.
    Difference,
}

impl Measure {
    /// Every measure, with its word in forms and its name.
    pub const ALL: [(&'static str, &'static str, Self); 6] = [
        ("clip", "strength by clip", Self::Clip),
        ("clearing", "strength by clearing time", Self::Clearing),
        ("comparison", "strength by comparison", Self::Comparison),
        ("base-fog", "base plus fog", Self::BaseFog),
        ("mid-density", "mid-density", Self::MidDensity),
        ("difference", "density difference", Self::Difference),
    ];

    /// Its name for people.
    pub fn name(self) -> &'static str {
        Self::ALL[self as usize].1
    }

    /// The test that finds it; none for a density, which stands on no shelf.
    pub fn test(self) -> Option<TestKind> {
        match self {
            Self::Clip => Some(TestKind::Clip),
            Self::Clearing => Some(TestKind::Clearing),
            Self::Comparison => Some(TestKind::Comparison),
            Self::BaseFog | Self::MidDensity | Self::Difference => None,
        }
    }

    /// How far a density may be off its operating level: 0.03 for base plus fog, upward; 0.15 either way for the others
    /// (21 CFR 900.12(e)(1)(i) to (iii), daily tests of film processors). None for a strength.
    pub fn density_limit(self) -> Option<f64> {
        match self {
            Self::BaseFog => Some(0.03),
            Self::MidDensity | Self::Difference => Some(0.15),
            Self::Clip | Self::Clearing | Self::Comparison => None,
        }
    }

    /// The limit where nobody sets another: a density's distance from its level, or the strength that is enough.
    pub fn usual_limit(self) -> f64 {
        let enough = || self.test().map_or(0.0, TestKind::enough);
        self.density_limit().unwrap_or_else(enough)
    }

    /// What is not to be passed: of a strength a least value, of a density so much off its level.
    pub fn edges(self, level: f64, limit: f64) -> Vec<Edge> {
        let below = |at| Edge { at, above: false };
        let above = |at| Edge { at, above: true };
        match self {
            Self::Clip | Self::Clearing | Self::Comparison => vec![below(limit)],
            Self::BaseFog => vec![above(level + limit)],
            Self::MidDensity | Self::Difference => vec![below(level - limit), above(level + limit)],
        }
    }

    /// The standard deviation of one value where nobody measured it, for a hand that repeats contrast to this share.
    ///
    /// A tenth less developer takes 4.3 % of contrast where development has gone far (k t = 1.5) and 6.9 % where it has not
    /// (0.7), by the first-order law with a rate in proportion to strength: so a hand's scatter of contrast reads as 1.4 to 2.3
    /// times as much of strength.
    pub fn scatter(self, hand: f64) -> Guess {
        let (value, least, most, why) = match self {
            Self::Clip | Self::Comparison => (
                hand * 1.8,
                hand * 0.7,
                hand * 4.6,
                "what the hand repeats of contrast, turned into strength",
            ),
            Self::Clearing => (
                0.05,
                0.02,
                0.1,
                "a second or two at the end of a minute of clearing (common practice, no source)",
            ),
            Self::BaseFog => (
                0.01,
                0.005,
                0.02,
                "one step of a densitometer (common practice, no source)",
            ),
            Self::MidDensity | Self::Difference => (
                hand,
                hand * 0.5,
                hand * 2.0,
                "what the hand repeats of contrast, for a density of about 1 above the base",
            ),
        };
        Guess {
            value,
            least,
            most,
            why,
        }
    }
}
