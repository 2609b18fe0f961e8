//! Shapes of an error about zero, and the standard uncertainty of each.

use super::Random;

/// What is known about the size of an error, in the unit of the value it belongs to.
///
/// All shapes are symmetric about zero. A width of zero is allowed and means "exact".
///
/// ```
/// use meniscus::uncertainty::Distribution;
///
/// let balance = Distribution::Resolution { step: 0.1 };
/// assert!((balance.standard_uncertainty() - 0.028_867_5).abs() < 1e-7);
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Distribution {
    /// Normal: a standard uncertainty that somebody worked out or observed.
    Normal {
        /// Standard deviation.
        sigma: f64,
    },
    /// Rectangular: anywhere within ±`half_width` alike; limits and nothing more (GUM 4.3.7).
    Rectangular {
        /// Half the distance between the limits.
        half_width: f64,
    },
    /// Triangular: within ±`half_width`, most often near zero (GUM 4.3.9).
    Triangular {
        /// Half the distance between the limits.
        half_width: f64,
    },
    /// The last digit of a display: anywhere within half a step alike (GUM F.2.2.1).
    Resolution {
        /// The smallest difference that the display shows.
        step: f64,
    },
}

/// Outline without a width: errors that move as one must agree in it.
#[derive(Clone, Copy, PartialEq)]
pub(super) enum Shape {
    Normal,
    Flat,
    Triangular,
}

impl Distribution {
    /// The standard deviation: σ, a/√3 (rectangular), a/√6 (triangular), step/√12 (resolution).
    ///
    /// Negative or not finite exactly when the width is.
    pub fn standard_uncertainty(self) -> f64 {
        match self {
            Self::Normal { sigma } => sigma,
            Self::Rectangular { half_width } => half_width / 3_f64.sqrt(),
            Self::Triangular { half_width } => half_width / 6_f64.sqrt(),
            Self::Resolution { step } => step / 12_f64.sqrt(),
        }
    }

    /// One random error, about zero.
    ///
    /// ```
    /// use meniscus::uncertainty::{Distribution, Random};
    ///
    /// let mut random = Random::new(1);
    /// let error = Distribution::Triangular { half_width: 0.5 }.sample(&mut random);
    /// assert!(error.abs() <= 0.5);
    /// ```
    pub fn sample(self, random: &mut Random) -> f64 {
        self.standard_uncertainty() * self.shape().sample(random)
    }

    pub(super) fn shape(self) -> Shape {
        match self {
            Self::Normal { .. } => Shape::Normal,
            Self::Rectangular { .. } | Self::Resolution { .. } => Shape::Flat,
            Self::Triangular { .. } => Shape::Triangular,
        }
    }
}

impl Shape {
    /// One random error of standard deviation 1.
    pub(super) fn sample(self, random: &mut Random) -> f64 {
        match self {
            Self::Normal => random.normal(),
            Self::Flat => 3_f64.sqrt() * (2.0 * random.uniform() - 1.0),
            Self::Triangular => 6_f64.sqrt() * (random.uniform() - random.uniform()),
        }
    }
}
