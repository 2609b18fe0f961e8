//! Least squares: the straight line, and small linear models in general ([`fit()`]).
//!
//! All points weigh the same, and all of the scatter is taken to be in y. The line is that of GUM H.3.

mod columns;

use std::fmt;

pub(crate) use columns::fit_columns;
pub use columns::{Fit, fit, fit_with_scatter};

/// The straight line y = a + b x through points, with what is known about a and b.
#[derive(Clone, Debug, PartialEq)]
pub struct Line {
    centre: f64,
    spread: f64,
    count: f64,
    fit: Fit<2>,
}

/// A value read off a fit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Prediction {
    /// The value, in the unit of y.
    pub value: f64,
    /// Standard uncertainty of the fit there, in the unit of y. The scatter of a single new reading comes on top.
    pub standard_uncertainty: f64,
}

/// Why there is no fit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Error {
    /// Too few points to tell the scatter.
    Points {
        /// How many there are.
        given: usize,
        /// How many it takes: one more than there are coefficients.
        least: usize,
    },
    /// A point is not made of finite numbers.
    NotFinite {
        /// Which, counted from 1.
        point: usize,
    },
    /// All points of a line have the same x.
    SameX,
    /// A column is zero, or no more than a mixture of those before it.
    Collinear {
        /// Which, counted from 1.
        column: usize,
    },
}

impl Line {
    /// Fits a line through points `(x, y)`.
    ///
    /// # Errors
    ///
    /// Fewer than three points, a point that is not finite, or no two different x.
    ///
    /// ```
    /// use meniscus::uncertainty::line::Line;
    ///
    /// let line = Line::fit(&[(0.0, 1.0), (1.0, 3.1), (2.0, 4.9)])?;
    /// assert!((line.slope() - 1.95).abs() < 1e-12);
    /// assert!((line.predict(3.0).value - 6.9).abs() < 1e-12);
    ///
    /// let fault = Line::fit(&[(2.0, 1.0), (2.0, 3.1), (2.0, 4.9)]).expect_err("a vertical line");
    /// assert_eq!(fault.to_string(), "all points have the same x: give at least two different ones");
    /// # Ok::<(), meniscus::uncertainty::line::Error>(())
    /// ```
    pub fn fit(points: &[(f64, f64)]) -> Result<Self, Error> {
        if let Some(place) = points.iter().position(|(x, y)| !(x.is_finite() && y.is_finite())) {
            return Err(Error::NotFinite { point: place + 1 });
        }
        let count = points.len() as f64;
        let centre = points.iter().map(|(x, _)| x / count).sum::<f64>();
        let rows: Vec<_> = points.iter().map(|&(x, y)| ([1.0, x - centre], y)).collect();
        let fit = fit(&rows).map_err(|error| match error {
            Error::Collinear { .. } => Error::SameX,
            other => other,
        })?;
        let spread = rows.iter().map(|([_, x], _)| x * x).sum::<f64>();
        Ok(Self {
            centre,
            spread,
            count,
            fit,
        })
    }

    /// a, the value at x = 0, in the unit of y.
    pub fn intercept(&self) -> f64 {
        self.predict(0.0).value
    }

    /// Standard uncertainty of a.
    pub fn intercept_uncertainty(&self) -> f64 {
        self.predict(0.0).standard_uncertainty
    }

    /// b, in the unit of y per unit of x.
    pub fn slope(&self) -> f64 {
        self.fit.coefficients()[1]
    }

    /// Standard uncertainty of b.
    pub fn slope_uncertainty(&self) -> f64 {
        self.fit.covariance()[1][1].sqrt()
    }

    /// r(a, b), the correlation of intercept and slope (GUM H.3), from −1 to 1: not that of x and y.
    pub fn correlation(&self) -> f64 {
        -self.centre / (self.spread / self.count).sqrt().hypot(self.centre)
    }

    /// s, the standard deviation of the points about the line, in the unit of y.
    pub fn residual_standard_deviation(&self) -> f64 {
        self.fit.residual_standard_deviation()
    }

    /// The number of points less two.
    pub fn degrees_of_freedom(&self) -> f64 {
        self.fit.degrees_of_freedom()
    }

    /// Each point's y less the line's, in the order of the points.
    pub fn residuals(&self) -> &[f64] {
        self.fit.residuals()
    }

    /// The line at `x`, and how well it is known there, the correlation of a and b included.
    pub fn predict(&self, x: f64) -> Prediction {
        self.fit.predict([1.0, x - self.centre])
    }
}

impl fmt::Display for Error {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Points { given, least } => {
                write!(f, "{given} points are too few: give at least {least}")
            }
            Self::NotFinite { point } => write!(f, "point {point} is not a finite number: correct it or leave it out"),
            Self::SameX => write!(f, "all points have the same x: give at least two different ones"),
            Self::Collinear { column } => write!(
                f,
                "column {column} is zero or a mixture of those before it: leave it out or vary it on its own"
            ),
        }
    }
}

impl std::error::Error for Error {}
