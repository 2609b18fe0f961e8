//! How many readings or rolls it takes to decide, and what a comparison can show at all.

use super::{Design, SURE, half_width};
use crate::uncertainty::student;

/// What would decide, in four cases of five, between two that are alike and two that differ by twice the margin.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Plan {
    /// So many readings of each, of the same rolls; `None` if no number of them would do.
    pub readings: Option<u32>,
    /// So many rolls of each, each read as often as now; `None` if [`Plan::MOST`] would not do.
    pub rolls: Option<u32>,
}

/// In how many cases it decides.
const POWER: f64 = 0.8;

impl Plan {
    /// The most readings or rolls that are asked for.
    pub const MOST: u32 = 100;

    pub(super) fn of(design: &Design, margin: f64) -> Self {
        let decides = |counts, rolls| {
            let (uncertainty, freedom) = design.uncertainty(counts, rolls);
            power(uncertainty, freedom, margin) >= POWER
        };
        let fewest = |from: f64, enough: &dyn Fn(f64) -> bool| {
            (1..=Self::MOST).find(|&count| f64::from(count) > from && enough(f64::from(count)))
        };
        let [first, second] = design.counts;
        let a_roll = [0, 1].map(|side| design.counts[side] / design.rolls[side]);
        let rolls = design.rolls[0].min(design.rolls[1]);
        Self {
            readings: fewest(first.min(second), &|count| {
                decides([first.max(count), second.max(count)], design.rolls)
            }),
            rolls: fewest(rolls, &|count| {
                let rolls = design.rolls.map(|now| now.max(count));
                decides([a_roll[0] * rolls[0], a_roll[1] * rolls[1]], rolls)
            }),
        }
    }
}

/// In how many cases two that are alike are found within the margin. The uncertainty is taken to come out as it is now, so that
/// the difference follows Student's t about its truth; exact for many degrees of freedom, and near it where the rolls count most.
/// Two that differ by twice the margin are as far from its end, and are found out at least as often.
fn power(uncertainty: f64, freedom: f64, margin: f64) -> f64 {
    if uncertainty <= 0.0 {
        return 1.0;
    }
    let room = (margin - half_width(uncertainty, freedom)) / uncertainty;
    2.0 * student::t_cdf(room, freedom).unwrap_or(0.0) - 1.0
}

/// The least difference that a comparison of so many rolls of each finds to be outside the margin in four cases of five, where
/// the readings themselves are much better than the rolls repeat.
///
/// ```
/// use meniscus::proof::comparison::smallest_shown;
///
/// // (1.6449 + 0.8416) sqrt 2 = 3.5164
/// assert!((smallest_shown(1.0, 1, 0.0) - 3.5164).abs() < 1e-4);
/// ```
pub fn smallest_shown(repeat: f64, rolls: u32, margin: f64) -> f64 {
    let uncertainty = repeat * (2.0 / f64::from(rolls.max(1))).sqrt();
    let ends = [SURE, POWER].map(|share| student::normal_quantile(share).unwrap_or(0.0));
    margin + (ends[0] + ends[1]) * uncertainty
}
