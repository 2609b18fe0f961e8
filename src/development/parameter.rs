//! A number of the law: fitted, given by the user, or assumed.

use crate::chemistry::Guess;

/// A number of the law with the range it may lie in.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Parameter {
    /// The number as used.
    pub value: f64,
    /// The least that it may be; equal to the value unless assumed.
    pub least: f64,
    /// The most that it may be; equal to the value unless assumed.
    pub most: f64,
    /// Where it comes from.
    pub origin: Origin,
}

/// Where a number comes from.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Origin {
    /// Fitted to the times of the data sheet.
    Fitted,
    /// Typed by the user.
    Given,
    /// Assumed, with the reason.
    Assumed(&'static str),
}

impl Parameter {
    /// A number that the data sheet's times determine.
    pub fn fitted(value: f64) -> Self {
        Self::known(value, Origin::Fitted)
    }

    /// The user's own number, or else the assumption.
    pub fn given_or(given: Option<f64>, guess: Guess) -> Self {
        match given {
            Some(value) => Self::known(value, Origin::Given),
            None => Self {
                value: guess.value,
                least: guess.least,
                most: guess.most,
                origin: Origin::Assumed(guess.why),
            },
        }
    }

    /// Whether nobody measured it.
    pub fn is_assumed(self) -> bool {
        matches!(self.origin, Origin::Assumed(_))
    }

    /// The same for another scale of the number; the scale must rise with it.
    pub fn map(self, scale: impl Fn(f64) -> f64) -> Self {
        Self {
            value: scale(self.value),
            least: scale(self.least),
            most: scale(self.most),
            origin: self.origin,
        }
    }

    fn known(value: f64, origin: Origin) -> Self {
        Self {
            value,
            least: value,
            most: value,
            origin,
        }
    }
}
