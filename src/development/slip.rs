//! What a slip of the concentrate does, shown four ways: percent of concentrate, seconds of developing time, degrees of
//! temperature, change of contrast.

use super::{GAS_CONSTANT, Parameter};
use crate::quantity::bounds::{BATH_TEMPERATURE, Bounds, MEASURING_TEMPERATURE};
use crate::quantity::{Span, Temperature, TemperatureDifference};

/// What turns an error of concentration into the other three.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SlipLaw {
    /// Developing time of the bath; seconds are not told without it.
    pub time: Option<Span>,
    /// Temperature of the bath.
    pub temperature: Temperature,
    /// Dilution exponent n.
    pub exponent: Parameter,
    /// Activation energy, J/mol.
    pub activation: Parameter,
    /// Progress x = k t.
    pub progress: Parameter,
}

/// A number and the band that assumptions leave it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Band {
    /// With every parameter at its value.
    pub value: f64,
    /// The least of all corners.
    pub least: f64,
    /// The most of all corners.
    pub most: f64,
}

/// A change of contrast, in whatever else would make it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SameAs {
    /// Strength of the bottle, against one that makes no change.
    pub strength: Band,
    /// Change of the strength over a small relative change of the changed contrast.
    pub slope: f64,
    /// Change of the concentration, as a share of it.
    pub concentration: Band,
    /// Change of the developing time in seconds; `None` without a time.
    pub seconds: Option<Band>,
    /// Change of the temperature in kelvins; `None` where it leads to no bath in which the law is known to hold.
    pub kelvins: Option<Band>,
}

/// One slip, four ways.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Slip {
    /// Error of the concentration, as a share of it; positive is too much.
    pub concentration: f64,
    /// Seconds of developing time that would do the same; `None` without a time.
    pub seconds: Option<Band>,
    /// Kelvins that would do the same; `None` where they lead to no bath in which the law is known to hold.
    pub kelvins: Option<Band>,
    /// Change of contrast, as a share of it.
    pub contrast: Band,
}

impl SlipLaw {
    /// The slip whose concentration is off by this share of itself. It must be more than -1.
    pub fn slip(&self, concentration: f64) -> Slip {
        let factor = |n: f64| (n * concentration.ln_1p()).exp();
        let contrast = |n: f64, _: f64, x: f64| (-x * factor(n)).exp_m1() / (-x).exp_m1() - 1.0;
        Slip {
            concentration,
            seconds: self
                .time
                .map(|time| self.band(&|n, _, _| time.seconds() * (factor(n) - 1.0))),
            kelvins: self.warmer(&|n, _| n * concentration.ln_1p()),
            contrast: self.band(&contrast),
        }
    }

    /// What would change contrast by this share of it. `None` where contrast would be gone, or more than any development gives at
    /// some end of the parameters' ranges.
    ///
    /// The rate follows the strength in proportion, and the concentration by the exponent n.
    pub fn same_as(&self, contrast: f64) -> Option<SameAs> {
        let ratio = 1.0 + contrast;
        // What is left to gain, against what endless development would give.
        let left = |x: f64| 1.0 + ratio * (-x).exp_m1();
        if !(ratio > 0.0 && left(self.progress.most) > 0.0 && left(self.progress.value) > 0.0) {
            return None;
        }
        let factor = |x: f64| -left(x).ln() / x;
        let x = self.progress.value;
        Some(SameAs {
            strength: self.band(&|_, _, x| factor(x)),
            slope: -(-x).exp_m1() * ratio / (x * left(x)),
            concentration: self.band(&|n, _, x| (factor(x).ln() / n).exp_m1()),
            seconds: self
                .time
                .map(|time| self.band(&|_, _, x| time.seconds() * (factor(x) - 1.0))),
            kelvins: self.warmer(&|_, x| factor(x).ln()),
        })
    }

    /// The change of temperature that multiplies the rate by so much, told as a logarithm from n and k t; `None` where it leads to
    /// no bath, or at some end of the parameters' ranges to no liquid that is measured.
    fn warmer(&self, ln_factor: &dyn Fn(f64, f64) -> f64) -> Option<Band> {
        let band = self.band(&|n, activation, x| self.kelvins(activation, ln_factor(n, x)));
        let ends = [band.least, band.most];
        let holds = self.leads_to(band.value, &BATH_TEMPERATURE)
            && ends.iter().all(|end| self.leads_to(*end, &MEASURING_TEMPERATURE));
        holds.then_some(band)
    }

    fn leads_to(&self, warmer: f64, range: &Bounds) -> bool {
        let bath = self.temperature + TemperatureDifference::from_kelvins(warmer);
        range.holds(bath.celsius())
    }

    /// The change of temperature that multiplies the rate by so much.
    fn kelvins(&self, activation: f64, ln_factor: f64) -> f64 {
        let inverse = 1.0 / self.temperature.kelvins() - GAS_CONSTANT / activation * ln_factor;
        1.0 / inverse - self.temperature.kelvins()
    }

    /// The value and the extremes over all corners of the parameters' ranges.
    fn band(&self, of: &dyn Fn(f64, f64, f64) -> f64) -> Band {
        let corners = |parameter: Parameter| [parameter.least, parameter.most];
        let mut band = Band::of(of(self.exponent.value, self.activation.value, self.progress.value));
        for n in corners(self.exponent) {
            for activation in corners(self.activation) {
                for x in corners(self.progress) {
                    band = band.with(of(n, activation, x));
                }
            }
        }
        band
    }
}

impl Band {
    fn of(value: f64) -> Self {
        Self {
            value,
            least: value,
            most: value,
        }
    }

    fn with(self, corner: f64) -> Self {
        Self {
            least: self.least.min(corner),
            most: self.most.max(corner),
            ..self
        }
    }
}
