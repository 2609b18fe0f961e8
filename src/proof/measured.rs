//! A strength that a test measured: its value, how well it is known, what it proves and what it could not have shown.

use crate::development::{Band, GAS_CONSTANT, Parameter};
use crate::quantity::{Temperature, TemperatureDifference};
use crate::uncertainty::student;

/// A strength against fresh, 1 for as strong.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Measured {
    /// With every assumption at its value, and at its ends.
    pub strength: Band,
    /// Its standard uncertainty, assumptions apart.
    pub uncertainty: f64,
    /// At least and at most so much, each with 95 % certainty and with the assumptions as unkind as they may be. The second may
    /// be infinite.
    pub surely: (f64, f64),
    /// The smallest loss that this test could have shown, as a share: twice its standard uncertainty at full strength.
    pub unseen: Band,
}

/// Where a measured strength stands to a limit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Against {
    /// Above it, with 95 % certainty.
    Above,
    /// Below it, with 95 % certainty.
    Below,
    /// Neither is certain.
    Open,
}

/// A strength that is surely above the first, or reads above the second, is none of a used bath.
const BEYOND_FRESH: (f64, f64) = (1.05, 2.0);

impl Measured {
    /// Whether it reads so strong that something else must be wrong.
    pub fn is_beyond_fresh(&self) -> bool {
        self.surely.0 > BEYOND_FRESH.0 || self.strength.value > BEYOND_FRESH.1
    }

    /// Its standard uncertainty with what the assumptions leave: anywhere in their band (JCGM 100, 4.3.7).
    pub fn uncertainty_with_band(&self) -> f64 {
        let band = self.strength.most - self.strength.least;
        self.uncertainty.hypot(band / 12f64.sqrt())
    }

    /// Where it stands to a limit.
    pub fn against(&self, limit: f64) -> Against {
        match self.surely {
            (least, _) if least >= limit => Against::Above,
            (_, most) if most < limit => Against::Below,
            _ => Against::Open,
        }
    }
}

/// The temperatures of the two baths, and what warmth does to them.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Warmth {
    /// Of the fresh bath.
    pub fresh: Temperature,
    /// Of the bath now.
    pub now: Temperature,
    /// How the rate follows the temperature.
    pub law: WarmthLaw,
    /// Half-width of the thermometer's error at the fresh bath and at the bath now. The two count as if they had nothing in common.
    pub thermometer: [TemperatureDifference; 2],
}

/// How a rate follows the temperature.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum WarmthLaw {
    /// By an activation energy, J/mol.
    Activation(Parameter),
    /// By a factor for every ten degrees.
    PerTen(Parameter),
}

impl Warmth {
    /// What the logarithm of an apparent strength must be raised by, for a bath that is colder than the fresh one was: with the
    /// assumption at its value and at its ends.
    pub fn raise(&self) -> [f64; 3] {
        let of = |parameter: Parameter| [parameter.value, parameter.least, parameter.most];
        match self.law {
            WarmthLaw::Activation(activation) => {
                let inverse = 1.0 / self.now.kelvins() - 1.0 / self.fresh.kelvins();
                of(activation).map(|activation| activation / GAS_CONSTANT * inverse)
            }
            WarmthLaw::PerTen(factor) => {
                let colder = (self.fresh - self.now).kelvins() / 10.0;
                of(factor).map(|factor| factor.ln() * colder)
            }
        }
    }

    /// Relative standard uncertainty of a strength by the thermometer.
    pub fn uncertainty(&self) -> f64 {
        let slope = |at: Temperature| match self.law {
            WarmthLaw::Activation(activation) => activation.value / GAS_CONSTANT / at.kelvins().powi(2),
            WarmthLaw::PerTen(factor) => factor.value.ln() / 10.0,
        };
        let [fresh, now] = self.thermometer.map(TemperatureDifference::kelvins);
        (fresh * slope(self.fresh)).hypot(now * slope(self.now)) / 3f64.sqrt()
    }

    /// Whether an assumption matters: the baths were not of one temperature, and nobody measured what that does.
    pub fn is_assumed(&self) -> bool {
        let (WarmthLaw::Activation(parameter) | WarmthLaw::PerTen(parameter)) = self.law;
        parameter.is_assumed() && self.fresh != self.now
    }
}

/// The most repeats that are worth advising.
const MOST_REPEATS: u32 = 9;

/// How often each of two things would have to be done until it can be told; `None` where even nine times would not do. `told`
/// says whether so many do.
pub(super) fn repeats(told: impl Fn(u32) -> bool) -> Option<u32> {
    (2..=MOST_REPEATS).find(|&count| told(count))
}

/// How many standard uncertainties lie between a value and what it surely exceeds, with 95 % certainty on that one side.
pub(super) fn one_sided(degrees_of_freedom: Option<f64>) -> f64 {
    student::t_quantile(0.95, degrees_of_freedom.unwrap_or(f64::INFINITY)).unwrap_or(f64::INFINITY)
}

/// The least and the most of these, the first being the value.
pub(super) fn band(all: &[f64]) -> Band {
    Band {
        value: all[0],
        least: all.iter().copied().fold(f64::INFINITY, f64::min),
        most: all.iter().copied().fold(f64::NEG_INFINITY, f64::max),
    }
}
