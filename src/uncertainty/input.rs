//! One quantity that goes into a formula.

use super::distribution::Distribution;
use super::error::Error;
use super::random::Random;

/// A value, what it may be off by, and whom it shares that error with.
///
/// ```
/// use meniscus::uncertainty::{Distribution, Input};
///
/// let volume = Input::new("volume", 100.0, Distribution::Triangular { half_width: 0.1 });
/// assert!((volume.uncertainty() - 0.040_825).abs() < 1e-6);
/// ```
#[derive(Clone, Debug, PartialEq)]
pub struct Input {
    /// What the budget calls it.
    pub name: String,
    /// The stated value, in any unit.
    pub value: f64,
    /// Its error about that value, in the same unit.
    pub distribution: Distribution,
    /// How much is known about the uncertainty itself; `None` is "as good as infinitely much" (GUM G.4).
    ///
    /// With [`Distribution::Normal`] it makes Monte Carlo draw from Student's t scaled by σ (JCGM 101, 6.4.9).
    pub degrees_of_freedom: Option<f64>,
    /// Inputs of one group have one and the same error, each in proportion to its own uncertainty; `None` is independent
    /// of all others. Members agree in shape and in degrees of freedom.
    pub group: Option<String>,
}

impl Input {
    /// An independent input with infinitely many degrees of freedom.
    pub fn new(name: impl Into<String>, value: f64, distribution: Distribution) -> Self {
        Self {
            name: name.into(),
            value,
            distribution,
            degrees_of_freedom: None,
            group: None,
        }
    }

    /// The same with so many degrees of freedom: n − 1 for a standard deviation of n readings; more than zero.
    pub fn with_degrees_of_freedom(self, degrees_of_freedom: f64) -> Self {
        Self {
            degrees_of_freedom: Some(degrees_of_freedom),
            ..self
        }
    }

    /// The same, sharing its error with all others of that group.
    pub fn in_group(self, group: impl Into<String>) -> Self {
        Self {
            group: Some(group.into()),
            ..self
        }
    }

    /// The standard uncertainty, in the unit of the value.
    pub fn uncertainty(&self) -> f64 {
        self.distribution.standard_uncertainty()
    }

    /// One random error of standard deviation 1 (of scale 1 for Student's t).
    pub(super) fn unit_error(&self, random: &mut Random) -> f64 {
        match (self.distribution, self.degrees_of_freedom) {
            (Distribution::Normal { .. }, Some(degrees)) => random.student(degrees),
            _ => self.distribution.shape().sample(random),
        }
    }
}

/// For each input the position of the first of its group, or its own; once every input has been found sound.
pub(super) fn leaders(inputs: &[Input]) -> Result<Vec<usize>, Error> {
    if inputs.is_empty() {
        return Err(Error::NoInputs);
    }
    inputs
        .iter()
        .enumerate()
        .map(|(here, input)| leader(inputs, here, input))
        .collect()
}

fn leader(inputs: &[Input], here: usize, input: &Input) -> Result<usize, Error> {
    let name = || input.name.clone();
    if !input.value.is_finite() {
        return Err(Error::Value {
            input: name(),
            given: input.value,
        });
    }
    let given = input.uncertainty();
    if !given.is_finite() || given < 0.0 {
        return Err(Error::Uncertainty { input: name(), given });
    }
    match input.degrees_of_freedom {
        Some(given) if !given.is_finite() || given <= 0.0 => {
            return Err(Error::DegreesOfFreedom { input: name(), given });
        }
        _ => {}
    }
    let Some(group) = &input.group else {
        return Ok(here);
    };
    let first = inputs
        .iter()
        .position(|other| other.group.as_ref() == Some(group))
        .unwrap_or(here);
    let alike = inputs[first].distribution.shape() == input.distribution.shape()
        && inputs[first].degrees_of_freedom == input.degrees_of_freedom;
    if alike {
        Ok(first)
    } else {
        Err(Error::Group {
            group: group.clone(),
            first: inputs[first].name.clone(),
            other: name(),
        })
    }
}
