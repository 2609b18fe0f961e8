//! A control chart of single measurements: has a series of tests stayed where it was, or has it begun to move?
//!
//! Three ways to look at one series, all in the unit of the values: each value against three standard deviations, with the rule of
//! eight on one side; an exponentially weighted moving average (EWMA); two cumulative sums (CUSUM). Formulas by the
//! NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2; the charts themselves are those of ISO 7870. They take the values for
//! independent and about normal: a reading by eye that always lands on the same mark is neither, and its scatter comes out too small.

mod measure;
mod trend;

pub use measure::Measure;
pub use trend::{Edge, Meeting, NoTrend, Trend, When};

use crate::quantity::held::held;

/// Mean range of two values of a normal distribution, in standard deviations (d2 for n = 2, as the handbook rounds 2/√π).
pub const D2: f64 = 1.128;
/// So many standard deviations on either side chance leaves hardly ever: one value in 370.
pub const WIDTH: f64 = 3.0;
/// So many in a row on one side are no chance (1 in 128, both sides counted).
pub const RUN: usize = 8;
/// Standard uncertainty of a standard deviation from moving ranges, as a share of it, times the root of how many ranges there are:
/// √(0.7268 · (1 + 2 · 0.2239)) / d2, the ranges' variance and the correlation of neighbours by integration of the normal law.
const RANGES_UNCERTAINTY: f64 = 0.909;
/// What is smaller than this share of the standard deviation is what floating point leaves of nothing.
const ROUNDING: f64 = 1e-9;

/// What a series is held against.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Control {
    /// Where it should be.
    pub level: f64,
    /// Standard deviation of one value; above zero.
    pub sigma: f64,
    /// Weight of the newest value in the moving average, above 0 to 1.
    pub lambda: f64,
    /// What a cumulative sum forgives each value, in standard deviations.
    pub k: f64,
    /// From where on a cumulative sum signals, in standard deviations.
    pub h: f64,
}

/// The moving average after a value, and how far chance moves it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Smoothed {
    /// The average.
    pub value: f64,
    /// Lower limit.
    pub low: f64,
    /// Upper limit.
    pub high: f64,
}

/// The cumulative sums after a value; neither is below zero.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Sums {
    /// Of what lies above the level.
    pub above: f64,
    /// Of what lies below it.
    pub below: f64,
}

/// What tells that a series has moved.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Rule {
    /// One value beyond three standard deviations.
    Beyond,
    /// Eight or more in a row on one side.
    Run,
    /// The moving average beyond its limits.
    Smoothed,
    /// A cumulative sum beyond its limit.
    Sum,
}

/// That a rule tells of a move: the last stretch of the series of which it does.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Signal {
    /// Which rule.
    pub rule: Rule,
    /// Whether upward.
    pub above: bool,
    /// Index of the value with which the move began.
    pub from: usize,
    /// Index of the last value at which the rule tells of it.
    pub to: usize,
    /// Mean of the values of that stretch.
    pub mean: f64,
}

/// Whether something holds at a place of the series.
type Holds<'a> = &'a dyn Fn(usize) -> bool;

/// The mean of the differences of neighbours, without sign; `None` for fewer than two values.
pub fn moving_range(values: &[f64]) -> Option<f64> {
    let ranges = values.windows(2).map(|pair| (pair[1] - pair[0]).abs());
    (values.len() >= 2).then(|| ranges.sum::<f64>() / (values.len() - 1) as f64)
}

/// The standard deviation of one value by the moving range, with its standard uncertainty; `None` for fewer than two values, or
/// where all are the same.
pub fn sigma_by_ranges(values: &[f64]) -> Option<(f64, f64)> {
    let sigma = moving_range(values).filter(|range| *range > 0.0)? / D2;
    Some((sigma, sigma * RANGES_UNCERTAINTY / ((values.len() - 1) as f64).sqrt()))
}

impl Control {
    /// Lower and upper limit of single values.
    pub fn limits(&self) -> (f64, f64) {
        let half = WIDTH * self.sigma;
        (self.level - half, self.level + half)
    }

    /// The moving average after each value. It begins at the level, so its limits are narrow at first and widen to those of a long
    /// series.
    pub fn smoothed(&self, values: &[f64]) -> Vec<Smoothed> {
        let lambda = held(self.lambda, f64::MIN_POSITIVE, 1.0);
        let mut value = self.level;
        let mut forgotten = 1.0;
        let step = |x: &f64| {
            value += lambda * (x - value);
            forgotten *= (1.0 - lambda) * (1.0 - lambda);
            let half = WIDTH * self.sigma * (lambda / (2.0 - lambda) * (1.0 - forgotten)).sqrt();
            Smoothed {
                value,
                low: self.level - half,
                high: self.level + half,
            }
        };
        values.iter().map(step).collect()
    }

    /// The cumulative sums after each value.
    pub fn sums(&self, values: &[f64]) -> Vec<Sums> {
        let slack = self.k * self.sigma;
        let mut sums = Sums::default();
        let step = |x: &f64| {
            let off = self.settled(x - self.level);
            let sum = |before: f64, off: f64| self.settled(before + off - slack).max(0.0);
            sums = Sums {
                above: sum(sums.above, off),
                below: sum(sums.below, -off),
            };
            sums
        };
        values.iter().map(step).collect()
    }

    /// Everything that tells of a move: of each rule and direction the last.
    pub fn signals(&self, values: &[f64]) -> Vec<Signal> {
        let mut found = Vec::new();
        let (smoothed, sums) = (self.smoothed(values), self.sums(values));
        let far = self.h * self.sigma;
        for above in [false, true] {
            let sign = if above { 1.0 } else { -1.0 };
            let off = |at: usize| sign * self.settled(values[at] - self.level);
            let over = |value: f64, bound: f64| self.settled(value - bound) > 0.0;
            let aside = |at: usize| off(at) > 0.0;
            let sum = |at: usize| if above { sums[at].above } else { sums[at].below };
            let beyond = |at: usize| over(off(at), WIDTH * self.sigma);
            let drifted = |at: usize| {
                let Smoothed { value, low, high } = smoothed[at];
                if above { over(value, high) } else { over(low, value) }
            };
            let run = |at: usize| at + 1 >= RUN && (at + 1 - RUN..=at).all(aside);
            // Where each rule tells of a move, and through what its stretch reaches back.
            let rules: [(Rule, Holds, Holds); 4] = [
                (Rule::Beyond, &beyond, &beyond),
                (Rule::Run, &run, &aside),
                (Rule::Smoothed, &drifted, &drifted),
                (Rule::Sum, &|at| over(sum(at), far), &|at| sum(at) > 0.0),
            ];
            for (rule, holds, reaches) in rules {
                let Some(to) = (0..values.len()).rev().find(|&at| holds(at)) else {
                    continue;
                };
                let from = (0..=to).rev().take_while(|&at| reaches(at)).last().unwrap_or(to);
                let stretch = &values[from..=to];
                found.push(Signal {
                    rule,
                    above,
                    from,
                    to,
                    mean: stretch.iter().sum::<f64>() / stretch.len() as f64,
                });
            }
        }
        found
    }

    /// A difference, or nothing where floating point alone made it.
    fn settled(&self, difference: f64) -> f64 {
        if difference.abs() < ROUNDING * self.sigma {
            0.0
        } else {
            difference
        }
    }
}
