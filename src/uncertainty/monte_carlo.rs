//! Propagation of whole distributions by random draws (JCGM 101:2008).

use super::{Error, Input, Interval, Random, input};

/// Results of many draws, in order of size: never empty, all finite.
#[derive(Clone, Debug, PartialEq)]
pub struct Sample {
    sorted: Vec<f64>,
    mean: f64,
    standard_deviation: f64,
}

/// Draws every input `draws` times and puts each set through the formula.
///
/// Inputs of one group get one and the same error, each in proportion to its own uncertainty. A normal input with finite
/// degrees of freedom is drawn from Student's t. 10⁶ draws give about two good digits of a 95 % interval
/// (JCGM 101, 7.2.2); the same seed gives the same result.
///
/// # Errors
///
/// As [`Estimate::propagate`](super::Estimate::propagate), or fewer than two draws, or a draw without finite result.
///
/// ```
/// use meniscus::uncertainty::{Distribution, Input, Random, monte_carlo};
///
/// let inputs = [Input::new("x", 1.0, Distribution::Rectangular { half_width: 0.5 })];
/// let sample = monte_carlo::run(&inputs, |x| x[0] * x[0], 100_000, &mut Random::new(1))?;
/// let mean_of_square = 1.0 + 0.5 * 0.5 / 3.0;
/// assert!((sample.mean() - mean_of_square).abs() < 0.01);
///
/// let fault = monte_carlo::run(&inputs, |x| (x[0] - 1.0).sqrt(), 100, &mut Random::new(1)).expect_err("no real root");
/// assert_eq!(fault.to_string(), "a draw gives NaN: keep the inputs where the formula has a result");
/// # Ok::<(), meniscus::uncertainty::Error>(())
/// ```
pub fn run(
    inputs: &[Input],
    model: impl Fn(&[f64]) -> f64,
    draws: usize,
    random: &mut Random,
) -> Result<Sample, Error> {
    let leaders = input::leaders(inputs)?;
    let plan: Vec<(&Input, f64, usize)> = inputs
        .iter()
        .zip(leaders)
        .map(|(input, leader)| (input, input.uncertainty(), leader))
        .collect();
    let mut errors = vec![0.0; plan.len()];
    let mut values = vec![0.0; plan.len()];
    let results = (0..draws).map(|_| {
        for (place, &(input, uncertainty, leader)) in plan.iter().enumerate() {
            errors[place] = if leader == place {
                input.unit_error(random)
            } else {
                errors[leader]
            };
            values[place] = input.value + uncertainty * errors[place];
        }
        model(&values)
    });
    Sample::new(results.collect())
}

impl Sample {
    /// A sample of results that were drawn in some other way, in any order.
    ///
    /// # Errors
    ///
    /// Fewer than two results, or one that is not finite.
    pub fn new(results: Vec<f64>) -> Result<Self, Error> {
        if results.len() < 2 {
            return Err(Error::Draws {
                given: results.len(),
                least: 2,
            });
        }
        if let Some(&given) = results.iter().find(|result| !result.is_finite()) {
            return Err(Error::Draw { given });
        }
        let count = results.len() as f64;
        let mean = results.iter().sum::<f64>() / count;
        let squares: f64 = results.iter().map(|result| (result - mean).powi(2)).sum();
        let mut sorted = results;
        sorted.sort_unstable_by(f64::total_cmp);
        Ok(Self {
            sorted,
            mean,
            standard_deviation: (squares / (count - 1.0)).sqrt(),
        })
    }

    /// The arithmetic mean.
    pub fn mean(&self) -> f64 {
        self.mean
    }

    /// The standard deviation, with n − 1: the standard uncertainty of the result.
    pub fn standard_deviation(&self) -> f64 {
        self.standard_deviation
    }

    /// The value that a share `probability` of the results stays below: 0 is the least result, 1 the greatest, between
    /// results by straight lines (definition 7 of Hyndman and Fan, *The American Statistician* 50, 1996).
    ///
    /// # Errors
    ///
    /// A probability that is not from 0 to 1.
    pub fn quantile(&self, probability: f64) -> Result<f64, Error> {
        if !(0.0..=1.0).contains(&probability) {
            return Err(Error::Probability { given: probability });
        }
        let last = self.sorted.len() - 1;
        let place = probability * last as f64;
        let below = place.floor() as usize;
        let (low, high) = (self.sorted[below], self.sorted[last.min(below + 1)]);
        Ok(low + (high - low) * place.fract())
    }

    /// The interval that leaves out as many results below as above (JCGM 101, 7.7).
    ///
    /// # Errors
    ///
    /// A coverage that is not between 0 and 1, or so near to 1 that the sample has too few results to leave any out.
    pub fn symmetric_interval(&self, coverage: f64) -> Result<Interval, Error> {
        let steps = self.steps(coverage)?;
        Ok(self.interval((self.sorted.len() - steps).div_ceil(2) - 1, steps))
    }

    /// The shortest interval that holds a share `coverage` of the results (JCGM 101, 7.7).
    ///
    /// # Errors
    ///
    /// As [`symmetric_interval`](Self::symmetric_interval).
    pub fn shortest_interval(&self, coverage: f64) -> Result<Interval, Error> {
        let steps = self.steps(coverage)?;
        let width = |first: usize| self.sorted[first + steps] - self.sorted[first];
        let first =
            (1..self.sorted.len() - steps).fold(0, |best, first| if width(first) < width(best) { first } else { best });
        Ok(self.interval(first, steps))
    }

    /// How many places of the ordered results apart the ends of an interval lie.
    fn steps(&self, coverage: f64) -> Result<usize, Error> {
        if !(coverage > 0.0 && coverage < 1.0) {
            return Err(Error::Coverage { given: coverage });
        }
        let given = self.sorted.len();
        let steps = (coverage * given as f64).round() as usize;
        if steps < given {
            Ok(steps)
        } else {
            let least = (0.5 / (1.0 - coverage) + 1e-9).floor() as usize + 1;
            Err(Error::Draws { given, least })
        }
    }

    fn interval(&self, first: usize, steps: usize) -> Interval {
        Interval {
            low: self.sorted[first],
            high: self.sorted[first + steps],
        }
    }
}
