//! The error budget of a session: concentrate, total, temperature, time and the hand, as they show in contrast, and which of
//! them is worth mending.

use super::{FirstOrder, GAS_CONSTANT, SlipLaw};
use crate::quantity::{Span, TemperatureDifference};

/// Where an error of contrast comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Cause {
    /// Measuring the concentrate.
    Concentrate,
    /// Measuring the whole.
    Total,
    /// The thermometer.
    Temperature,
    /// Starting, pouring, stopping.
    Time,
    /// Agitation and all that is not measured.
    Hand,
}

/// Relative standard uncertainties of contrast by cause.
#[derive(Clone, Debug, PartialEq)]
pub struct ErrorBudget {
    /// Each cause with its share of contrast's relative standard uncertainty (not of its square).
    pub causes: Vec<(Cause, f64)>,
}

/// What is uncertain in a session, each as a standard uncertainty.
pub struct Uncertain {
    /// Of the concentrate, relative.
    pub concentrate: f64,
    /// Of the total, relative.
    pub total: f64,
    /// Of the temperature.
    pub temperature: TemperatureDifference,
    /// Of the time.
    pub time: Span,
    /// Of contrast by the hand, relative.
    pub hand: f64,
}

impl ErrorBudget {
    /// The budget; time is left out where the law has no time.
    pub fn new(law: &SlipLaw, uncertain: &Uncertain) -> Self {
        let sensitivity = FirstOrder::sensitivity(law.progress.value);
        let n = law.exponent.value;
        let per_kelvin = law.activation.value / GAS_CONSTANT / law.temperature.kelvins().powi(2);
        let mut causes = vec![
            (Cause::Concentrate, sensitivity * n * uncertain.concentrate),
            (Cause::Total, sensitivity * n * uncertain.total),
            (
                Cause::Temperature,
                sensitivity * per_kelvin * uncertain.temperature.kelvins(),
            ),
        ];
        if let Some(time) = law.time {
            causes.push((Cause::Time, sensitivity * (uncertain.time / time)));
        }
        causes.push((Cause::Hand, uncertain.hand));
        Self { causes }
    }

    /// All causes together.
    pub fn combined(&self) -> f64 {
        self.causes.iter().map(|(_, u)| u * u).sum::<f64>().sqrt()
    }

    /// The difference of two sessions: cause by cause, as if none erred alike in both. Both have the same causes.
    pub fn beside(&self, other: &Self) -> Self {
        let pairs = self.causes.iter().zip(&other.causes);
        Self {
            causes: pairs.map(|(one, other)| (one.0, one.1.hypot(other.1))).collect(),
        }
    }

    /// The same with one of the causes halved.
    pub fn halved(&self, cause: Cause) -> Self {
        let causes = self.causes.iter();
        Self {
            causes: causes
                .map(|&(other, u)| (other, if other == cause { u / 2.0 } else { u }))
                .collect(),
        }
    }

    /// Each cause's share of the variance.
    pub fn shares(&self) -> Vec<(Cause, f64)> {
        let all = self.combined().powi(2);
        self.causes
            .iter()
            .map(|&(cause, u)| (cause, if all > 0.0 { u * u / all } else { 0.0 }))
            .collect()
    }

    /// The largest cause that can be measured better: everything but the hand.
    pub fn worth_mending(&self) -> Option<(Cause, f64)> {
        self.shares()
            .into_iter()
            .filter(|(cause, _)| *cause != Cause::Hand)
            .max_by(|a, b| a.1.total_cmp(&b.1))
    }
}
