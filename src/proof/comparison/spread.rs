//! How well the mean of some readings is known.

/// Densities that were read, each with what its own sampling leaves uncertain.
#[derive(Clone, Debug, PartialEq)]
pub struct Readings {
    /// The densities; at least one.
    pub values: Vec<f64>,
    /// Standard uncertainty of each; 0 where none was stated.
    pub uncertainties: Vec<f64>,
    /// One unit of the last digit; 0 if nothing was rounded.
    pub step: f64,
}

impl Readings {
    /// Plain readings, rounded to a step.
    pub fn new(values: Vec<f64>, step: f64) -> Self {
        Self {
            uncertainties: vec![0.0; values.len()],
            values,
            step,
        }
    }

    /// Their mean.
    pub fn mean(&self) -> f64 {
        mean(&self.values)
    }

    /// Standard uncertainty of the mean, without what differs from roll to roll.
    pub fn uncertainty(&self) -> f64 {
        Spread::of(self).of_mean(self.values.len() as f64).variance.sqrt()
    }

    /// Variance that the rounding of the last digit leaves (GUM F.2.2.1).
    fn of_last_digit(&self) -> f64 {
        self.step * self.step / 12.0
    }
}

/// What makes the mean of some readings uncertain.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Spread {
    /// Variance of one reading, from their scatter.
    scatter: f64,
    /// Variance of one reading, as stated.
    stated: f64,
    /// Variance that stays however many there are, since like readings are rounded alike.
    last_digit: f64,
}

/// A variance and its degrees of freedom.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Part {
    pub variance: f64,
    pub freedom: f64,
}

impl Spread {
    pub fn of(readings: &Readings) -> Self {
        let squares: Vec<f64> = readings.uncertainties.iter().map(|u| u * u).collect();
        Self {
            scatter: variance(&readings.values),
            stated: mean(&squares),
            last_digit: readings.of_last_digit(),
        }
    }

    pub fn of_pairs(first: &Readings, second: &Readings) -> Self {
        let pairs = || first.values.iter().zip(&second.values);
        let differences: Vec<f64> = pairs().map(|(one, other)| one - other).collect();
        let [one, other] = [first, second].map(Self::of);
        Self {
            scatter: variance(&differences),
            stated: one.stated + other.stated,
            last_digit: one.last_digit + other.last_digit,
        }
    }

    /// Of the mean of so many. Scatter holds the readings' own errors already, so the largest counts, and not the sum; only
    /// scatter is known from few readings.
    pub fn of_mean(self, count: f64) -> Part {
        let scatter = self.scatter / count;
        let least = (self.stated / count).max(self.last_digit);
        match scatter > least {
            true => Part {
                variance: scatter,
                freedom: count - 1.0,
            },
            false => certain(least),
        }
    }

    /// The same beside what differs from roll to roll. Where each reading is of a roll of its own their scatter holds that
    /// already, and the larger counts.
    pub fn with_rolls(self, count: f64, of_rolls: f64, each_its_roll: bool) -> Vec<Part> {
        let readings = self.of_mean(count);
        match each_its_roll {
            false => vec![readings, certain(of_rolls)],
            true if readings.variance > of_rolls => vec![readings],
            true => vec![certain(of_rolls)],
        }
    }
}

fn certain(variance: f64) -> Part {
    Part {
        variance,
        freedom: f64::INFINITY,
    }
}

fn mean(values: &[f64]) -> f64 {
    values.iter().sum::<f64>() / values.len() as f64
}

/// 0 for a single value, of which nothing is known.
fn variance(values: &[f64]) -> f64 {
    let middle = mean(values);
    let squares: f64 = values.iter().map(|value| (value - middle) * (value - middle)).sum();
    squares / (values.len() as f64 - 1.0).max(1.0)
}
