//! The third voice's memory: how far beyond its stated life a product has proved itself in the user's own hands.

use crate::quantity::Day;
use crate::quantity::sorted::sort;

/// A test of a bottle.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Tested {
    /// When.
    pub day: Day,
    /// Whether it came out as with a fresh one.
    pub passed: bool,
    /// Whether it could have found more than gross weakness: it was measured, or is a failure. A pass by eye alone proves a bottle for
    /// everyday film, not for paid work, and overrules no failure.
    pub sure: bool,
}

/// To what multiple of its stated life a product is trusted without a test.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Trusted {
    /// The multiple; 1 is the stated life itself.
    pub share: f64,
    /// The largest multiple at which a bottle of it passed.
    pub longest_passed: Option<f64>,
    /// The least multiple at which a bottle of it failed.
    pub shortest_failed: Option<f64>,
}

/// What a single pass beyond the stated life counts of its excess: one bottle may have been lucky (an assumption).
const SINGLE_PASS: f64 = 0.5;
/// How far below the earliest failure trust ends, as a share of it: it failed somewhere before (an assumption).
const BEFORE_FAILURE: f64 = 0.75;

impl Trusted {
    /// The stated life and no more, without any test.
    pub const STATED: Self = Self {
        share: 1.0,
        longest_passed: None,
        shortest_failed: None,
    };

    /// From every test of the product: the multiples of stated life at which its bottles passed and failed.
    ///
    /// Stretched with caution: to the second-longest pass, or by half of the excess of the longest, whichever is more;
    /// never beyond three quarters of the earliest failure, which may also shorten it.
    ///
    /// ```
    /// use meniscus::keeping::Trusted;
    ///
    /// assert_eq!(Trusted::from_tests(&[0.4, 2.0], &[]).share, 1.5);
    /// assert_eq!(Trusted::from_tests(&[1.8, 2.0], &[]).share, 1.8);
    /// assert_eq!(Trusted::from_tests(&[1.8, 2.0], &[1.0]).share, 0.75);
    /// assert_eq!(Trusted::from_tests(&[], &[]), Trusted::STATED);
    /// ```
    pub fn from_tests(passed: &[f64], failed: &[f64]) -> Self {
        let mut passed: Vec<f64> = passed.to_vec();
        sort(&mut passed, |one, other| one > other);
        let longest_passed = passed.first().copied();
        let second = passed.get(1).copied().unwrap_or(1.0);
        let half_way = 1.0 + SINGLE_PASS * (longest_passed.unwrap_or(1.0) - 1.0);
        let shortest_failed = failed.iter().copied().min_by(f64::total_cmp);
        let limit = shortest_failed.map_or(f64::INFINITY, |share| share * BEFORE_FAILURE);
        Self {
            share: second.max(half_way).max(1.0).min(limit),
            longest_passed,
            shortest_failed,
        }
    }
}
