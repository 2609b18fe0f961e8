//! Where a series is going: a straight line over the days by least squares, and when it meets a limit.

use crate::quantity::Day;
use crate::uncertainty::line::{Line, Prediction};
use crate::uncertainty::student::t_quantile;

/// A straight line through dated values.
#[derive(Clone, Debug, PartialEq)]
pub struct Trend {
    first: Day,
    line: Line,
    /// Half-width of the band, in standard uncertainties.
    coverage: f64,
}

/// Why there is no trend.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NoTrend {
    /// Fewer than four values: their scatter is not known.
    TooFew,
    /// All of one day.
    OneDay,
}

/// A limit that is not to be passed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Edge {
    /// Where it is.
    pub at: f64,
    /// Whether values above it are beyond it; else those below.
    pub above: bool,
}

/// When a trend meets a limit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Meeting {
    /// By the side of the band that lies nearer to the limit.
    pub earliest: When,
    /// By the line itself.
    pub likely: When,
    /// By the other side of the band.
    pub latest: When,
}

/// A day, as far as it lies ahead and not too far.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum When {
    /// It is beyond the limit already.
    Past,
    /// On that day.
    On(Day),
    /// Not within the days that were looked at.
    NotWithin,
}

/// Fewest values of which a trend is told.
const LEAST: usize = 4;
/// The share of cases in which the line lies within its band.
const SHARE: f64 = 0.95;

impl Trend {
    /// The line through values with their days.
    ///
    /// # Errors
    /// Fewer than four values, or all of one day.
    pub fn fit(values: &[(Day, f64)]) -> Result<Self, NoTrend> {
        if values.len() < LEAST {
            return Err(NoTrend::TooFew);
        }
        let first = values[0].0;
        let points: Vec<(f64, f64)> = values.iter().map(|(day, y)| (f64::from(*day - first), *y)).collect();
        let line = Line::fit(&points).map_err(|_| NoTrend::OneDay)?;
        let coverage = t_quantile(0.5 + SHARE / 2.0, line.degrees_of_freedom()).map_err(|_| NoTrend::TooFew)?;
        Ok(Self { first, line, coverage })
    }

    /// Change per day, and its standard uncertainty.
    pub fn per_day(&self) -> Prediction {
        Prediction {
            value: self.line.slope(),
            standard_uncertainty: self.line.slope_uncertainty(),
        }
    }

    /// Whether the direction is more than chance, in nineteen cases of twenty.
    pub fn is_told(&self) -> bool {
        let Prediction {
            value,
            standard_uncertainty,
        } = self.per_day();
        value.abs() > self.coverage * standard_uncertainty
    }

    /// The lower side of the band on a day, the line, and the upper side.
    pub fn on(&self, day: Day) -> [f64; 3] {
        let there = self.line.predict(f64::from(day - self.first));
        let half = self.coverage * there.standard_uncertainty;
        [there.value - half, there.value, there.value + half]
    }

    /// When line and band meet a limit, from today on and within so many days.
    pub fn meets(&self, edge: Edge, today: Day, within: u16) -> Meeting {
        let mut when = [When::NotWithin; 3];
        for ahead in (0..=i32::from(within)).rev() {
            let mut sides = self.on(today + ahead);
            if edge.above {
                sides.reverse();
            }
            for (when, side) in when.iter_mut().zip(sides) {
                let beyond = if edge.above { side > edge.at } else { side < edge.at };
                *when = match (beyond, ahead) {
                    (true, 0) => When::Past,
                    (true, _) => When::On(today + ahead),
                    (false, _) => *when,
                };
            }
        }
        let [earliest, likely, latest] = when;
        Meeting {
            earliest,
            likely,
            latest,
        }
    }
}
