//! First-order propagation with its budget (JCGM 100:2008, the GUM).

use super::error::Error;
use super::input::{self, Input};
use super::interval::Interval;
use super::{Distribution, student};
use crate::quantity::held::held;

/// A value, its standard uncertainty and the budget behind it.
#[derive(Clone, Debug, PartialEq)]
pub struct Estimate {
    value: f64,
    standard_uncertainty: f64,
    effective_degrees_of_freedom: Option<f64>,
    budget: Vec<Contribution>,
}

/// One line of a budget: what one input adds.
#[derive(Clone, Debug, PartialEq)]
pub struct Contribution {
    /// The input's name.
    pub name: String,
    /// The group whose error it shares, if any.
    pub group: Option<String>,
    /// Change of the result per change of the input: the partial derivative at the stated values.
    pub sensitivity: f64,
    /// Standard uncertainty of the input, in the input's unit.
    pub uncertainty: f64,
    /// Sensitivity times uncertainty, with its sign, in the unit of the result.
    pub contribution: f64,
    /// Part of the variance of the result. All parts add to 1, unless the result is exact, when all are 0. Within a group
    /// errors may cancel; a part below zero says that this input takes some of the others' error away.
    pub share: f64,
}

/// An estimate with an interval that is to cover the true value (GUM clause 6).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Expanded {
    /// The coverage factor.
    pub k: f64,
    /// The coverage asked for, between 0 and 1.
    pub coverage: f64,
    /// The expanded uncertainty, k times the standard uncertainty.
    pub half_width: f64,
    /// The value minus and plus the expanded uncertainty.
    pub interval: Interval,
}

impl Estimate {
    /// Carries the inputs through a smooth formula, to first order (GUM 5.1.2; groups by 5.2.2, note 1).
    ///
    /// Sensitivities are found numerically: central differences at two steps, extrapolated, so that a formula up to the
    /// fourth power is exact but for rounding. Steps stay well within one standard uncertainty and well below the value
    /// itself, so that a quantity that must be positive stays so. A formula that rounds or jumps has no slope to find.
    ///
    /// # Errors
    ///
    /// No inputs; an input that is not finite, has a negative width or unsound degrees of freedom; unlike members of one
    /// group; a formula without finite result or slope at the stated values.
    ///
    /// ```
    /// use meniscus::uncertainty::{Distribution, Estimate, Input};
    ///
    /// let inputs = [
    ///     Input::new("concentrate", 18.0, Distribution::Normal { sigma: 0.3 }),
    ///     Input::new("total", 600.0, Distribution::Normal { sigma: 5.0 }),
    /// ];
    /// let strength = Estimate::propagate(&inputs, |x| x[0] / x[1])?;
    /// assert!((strength.relative_uncertainty() - (0.3_f64 / 18.0).hypot(5.0 / 600.0)).abs() < 1e-9);
    /// # Ok::<(), meniscus::uncertainty::Error>(())
    /// ```
    pub fn propagate(inputs: &[Input], model: impl Fn(&[f64]) -> f64) -> Result<Self, Error> {
        Self::propagated(inputs, &model)
    }

    /// The standard uncertainty alone, of what `propagate` finds; `None` where it finds nothing.
    pub fn uncertainty_of(inputs: &[Input], model: impl Fn(&[f64]) -> f64) -> Option<f64> {
        let found = Self::propagated(inputs, &model).ok()?;
        Some(found.standard_uncertainty())
    }

    fn propagated(inputs: &[Input], model: &dyn Fn(&[f64]) -> f64) -> Result<Self, Error> {
        let leaders = input::leaders(inputs)?;
        let mut values: Vec<f64> = inputs.iter().map(|input| input.value).collect();
        let value = model(&values);
        if !value.is_finite() {
            return Err(Error::Model { given: value });
        }
        let mut budget = Vec::with_capacity(inputs.len());
        let mut groups = vec![0.0; inputs.len()];
        for (place, input) in inputs.iter().enumerate() {
            let sensitivity = slope(model, &mut values, place, input.uncertainty());
            let contribution = sensitivity * input.uncertainty();
            if !contribution.is_finite() {
                return Err(Error::Slope {
                    input: input.name.clone(),
                });
            }
            groups[leaders[place]] += contribution;
            budget.push(Contribution {
                name: input.name.clone(),
                group: input.group.clone(),
                sensitivity,
                uncertainty: input.uncertainty(),
                contribution,
                share: 0.0,
            });
        }
        let standard_uncertainty = groups.iter().fold(0.0, |sum: f64, part| sum.hypot(*part));
        let part = |of: f64| {
            if standard_uncertainty > 0.0 {
                of / standard_uncertainty
            } else {
                0.0
            }
        };
        for (line, &leader) in budget.iter_mut().zip(&leaders) {
            line.share = part(line.contribution) * part(groups[leader]);
        }
        let doubt: f64 = inputs
            .iter()
            .zip(&groups)
            .filter_map(|(input, &group)| Some(part(group).powi(4) / input.degrees_of_freedom?))
            .sum();
        let effective_degrees_of_freedom = (doubt > 0.0).then(|| 1.0 / doubt);
        Ok(Self {
            value,
            standard_uncertainty,
            effective_degrees_of_freedom,
            budget,
        })
    }

    /// The result of the formula at the stated values.
    pub fn value(&self) -> f64 {
        self.value
    }

    /// The combined standard uncertainty, in the unit of the value.
    pub fn standard_uncertainty(&self) -> f64 {
        self.standard_uncertainty
    }

    /// The standard uncertainty as a fraction of the value: 0 when exact, infinite when only the value is zero.
    pub fn relative_uncertainty(&self) -> f64 {
        if self.standard_uncertainty == 0.0 {
            0.0
        } else {
            self.standard_uncertainty / self.value.abs()
        }
    }

    /// Degrees of freedom by Welch and Satterthwaite (GUM G.4.1), not rounded; `None` when infinite. A group counts as one
    /// component.
    pub fn effective_degrees_of_freedom(&self) -> Option<f64> {
        self.effective_degrees_of_freedom
    }

    /// The budget, in the order of the inputs.
    pub fn contributions(&self) -> &[Contribution] {
        &self.budget
    }

    /// An interval for the wanted coverage: k from Student's t at the effective degrees of freedom, from the normal
    /// distribution when they are infinite (GUM G.6.4, with the degrees of freedom left unrounded).
    ///
    /// # Errors
    ///
    /// A coverage that is not between 0 and 1.
    ///
    /// ```
    /// use meniscus::uncertainty::{Distribution, Estimate, Input};
    ///
    /// let draw = Input::new("draw", 6.0, Distribution::Normal { sigma: 0.1 });
    /// let draw = Estimate::propagate(&[draw], |x| x[0])?;
    /// assert!((draw.expanded(0.95)?.half_width - 0.195_996).abs() < 1e-6);
    /// let fault = draw.expanded(95.0).expect_err("a percentage");
    /// assert_eq!(fault.to_string(), "a coverage of 95 is not between 0 and 1: 0.95 is usual");
    /// # Ok::<(), meniscus::uncertainty::Error>(())
    /// ```
    pub fn expanded(&self, coverage: f64) -> Result<Expanded, Error> {
        if !(coverage > 0.0 && coverage < 1.0) {
            return Err(Error::Coverage { given: coverage });
        }
        let degrees = self.effective_degrees_of_freedom.unwrap_or(f64::INFINITY);
        let k =
            -student::t_quantile((1.0 - coverage) / 2.0, degrees).map_err(|_| Error::Coverage { given: coverage })?;
        let half_width = k * self.standard_uncertainty;
        let interval = Interval {
            low: self.value - half_width,
            high: self.value + half_width,
        };
        Ok(Expanded {
            k,
            coverage,
            half_width,
            interval,
        })
    }

    /// This result as an input of the next formula, normal, with its effective degrees of freedom.
    ///
    /// What the two formulas share is lost: use it only where the inputs behind it do not come in again.
    pub fn to_input(&self, name: impl Into<String>) -> Input {
        let distribution = Distribution::Normal {
            sigma: self.standard_uncertainty,
        };
        Input {
            degrees_of_freedom: self.effective_degrees_of_freedom,
            ..Input::new(name, self.value, distribution)
        }
    }
}

/// The partial derivative of `model` along one of its `values`, which are given back as they were.
fn slope(model: &dyn Fn(&[f64]) -> f64, values: &mut [f64], place: usize, uncertainty: f64) -> f64 {
    let centre = values[place];
    let mut difference = |step: f64| {
        let (low, high) = (centre - step, centre + step);
        values[place] = high;
        let above = model(values);
        values[place] = low;
        let below = model(values);
        values[place] = centre;
        (above - below) / (high - low)
    };
    let step = step(centre.abs(), uncertainty);
    let (wide, narrow) = (difference(step), difference(step / 2.0));
    narrow + (narrow - wide) / 3.0
}

/// Large enough that rounding does not show, small against whatever the formula could bend over.
fn step(size: f64, uncertainty: f64) -> f64 {
    let scale = size.max(uncertainty);
    if scale > 0.0 {
        held(uncertainty / 10.0, scale * 1e-7, scale * 1e-3)
    } else {
        1e-6
    }
}
