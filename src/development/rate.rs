//! The law of the rate, from the times of a data sheet or from assumptions:
//! t = t_ref (C_ref / C)^n / a * exp(Ea / R (1/T - 1/T_ref)).
//!
//! The activation energy Ea is fitted by least squares on ln t against 1/T where the sheet gives two temperatures or more, and
//! the dilution exponent n against ln C where it gives two dilutions or more; else they are the user's, or assumed.

use std::fmt;

use super::{GAS_CONSTANT, Origin, Parameter, SheetTime};
use crate::chemistry::Class;
use crate::quantity::{Span, Temperature, TemperatureDifference};
use crate::uncertainty::line;

/// The law for one product and one contrast.
#[derive(Clone, Debug, PartialEq)]
pub struct RateLaw {
    /// ln t (t in seconds) at the middle of the sheet, Ea in J/mol, and -n: the coefficients of a row.
    coefficients: [f64; 3],
    /// Their covariance; zero where they were not fitted.
    covariance: [[f64; 3]; 3],
    /// Mean of 1/T and of ln C over the sheet.
    middle: (f64, f64),
    /// Ea in J/mol.
    activation: Parameter,
    /// n.
    exponent: Parameter,
    /// Coldest and warmest of the sheet.
    temperatures: (Temperature, Temperature),
    /// Largest residual of the fit, as a share of the time.
    largest_residual: f64,
    /// Where temperature and dilution only ever change together in the sheet, the Ea that goes with the least n, and with the
    /// most, each with its n.
    entangled: Option<[[f64; 2]; 2]>,
}

/// What the law says for a bath.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Prediction {
    /// Developing time.
    pub time: Span,
    /// Relative standard uncertainty that the fit leaves.
    pub relative_uncertainty: f64,
    /// Shortest and longest time that the assumptions allow; both equal `time` if nothing was assumed.
    pub band: (Span, Span),
}

/// Why there is no law.
#[derive(Clone, Debug, PartialEq)]
pub enum RateError {
    /// No time was given at all.
    NoTimes,
    /// The times get longer as it gets warmer, or as the bath gets stronger.
    WrongWay,
    /// The times change more steeply than those of any published table.
    TooSteep,
}

/// Steepest law that is taken from a data sheet's times: factor per 10 degrees about the middle, and exponent n. Published
/// tables lie between 1.5 and 3.8 (USAF T.O. 33B-1-1 table 6-16; North Dakota Administrative Code 33.1-10-06 appendix D);
/// beyond these, two of the times are too close together, or one is wrong.
const STEEPEST: (f64, f64) = (10.0, 3.0);

/// Half-width of a time as data sheets print it: to the quarter of a minute, in seconds (common practice, no source).
const PRINTED: f64 = 7.5;

impl RateLaw {
    /// The law from a data sheet's times; those without a dilution are taken at `strength`.
    /// `exponent` and `q10`, where the user gives them, stand before what the sheet would say.
    ///
    /// # Errors
    /// Without any time, when warmer or stronger baths take longer, or when they take less by more than any published table
    /// has it.
    pub fn new(
        times: &[SheetTime],
        strength: f64,
        exponent: Option<f64>,
        q10: Option<f64>,
        class: Class,
    ) -> Result<Self, RateError> {
        if times.is_empty() {
            return Err(RateError::NoTimes);
        }
        let points: Vec<Point> = times.iter().map(|time| Point::new(time, strength)).collect();
        let count = points.len() as f64;
        let middle = (
            points.iter().map(|point| point.inverse).sum::<f64>() / count,
            points.iter().map(|point| point.ln_strength).sum::<f64>() / count,
        );
        let varied = |of: fn(&Point) -> f64| points.iter().any(|point| (of(point) - of(&points[0])).abs() > 1e-9);
        let two_temperatures = varied(|point| point.inverse);
        let two_strengths = varied(|point| point.ln_strength);
        let fit_both = two_temperatures && two_strengths && q10.is_none() && exponent.is_none();
        let assumed = Law {
            activation: Parameter::given_or(q10, class.q10()).map(activation_from_q10),
            exponent: Parameter::given_or(exponent, class.exponent()),
        };
        let both = fit_both.then(|| fit(&points, middle, &assumed, [true, true])).flatten();
        let entangled = fit_both && both.is_none();
        let one = [
            two_temperatures && q10.is_none(),
            two_strengths && exponent.is_none() && !entangled,
        ];
        let law = both
            .or_else(|| fit(&points, middle, &assumed, one))
            .or_else(|| fit(&points, middle, &assumed, [false, false]))
            .ok_or(RateError::NoTimes)?;
        let entangled = entangled.then(|| {
            let n = law.exponent;
            let other = Law {
                exponent: Parameter::given_or(Some(n.most), class.exponent()),
                ..assumed
            };
            let high = fit(&points, middle, &other, one).map_or(f64::NAN, |law| law.activation.value);
            // Ea is linear in n.
            let rises = (high - law.activation.value) / (n.most - n.value);
            let low = high - rises * (n.most - n.least);
            // No developer slows down when it is warmed: where Ea would be negative, n ends where Ea is 0.
            [(n.least, low), (n.most, high)].map(|(n, activation)| match activation < 0.0 {
                true => [0.0, n - activation / rises],
                false => [activation, n],
            })
        });
        let activation = match entangled {
            Some([[one, _], [other, _]]) => Parameter {
                least: one.min(other),
                most: one.max(other),
                value: law.activation.value,
                origin: Origin::Assumed("it follows from the assumed n, since the times change both together"),
            },
            None => law.activation,
        };
        if law.activation.value <= 0.0 || law.exponent.value <= 0.0 {
            return Err(RateError::WrongWay);
        }
        if law.q10().value > STEEPEST.0 || law.exponent.value > STEEPEST.1 {
            return Err(RateError::TooSteep);
        }
        let celsius = |time: &SheetTime| time.temperature.celsius();
        let coldest = times.iter().map(celsius).fold(f64::INFINITY, f64::min);
        let warmest = times.iter().map(celsius).fold(f64::NEG_INFINITY, f64::max);
        Ok(Self {
            temperatures: (Temperature::from_celsius(coldest), Temperature::from_celsius(warmest)),
            entangled,
            activation,
            ..law
        })
    }

    /// Time in a bath of that temperature and strength (as [`crate::quantity::Dilution::strength`]), from a bottle of
    /// strength `bottle` (1 is fresh).
    pub fn time(&self, temperature: Temperature, strength: f64, bottle: f64) -> Prediction {
        let row = self.row(temperature, strength);
        let corners = self.corners().map(|corner| self.seconds(&row, corner, bottle));
        let variance: f64 = (0..3)
            .flat_map(|i| (0..3).map(move |j| (i, j)))
            .map(|(i, j)| row[i] * self.covariance[i][j] * row[j])
            .sum();
        Prediction {
            time: self.seconds(&row, [self.activation.value, self.exponent.value], bottle),
            relative_uncertainty: variance.max(0.0).sqrt(),
            band: (
                corners.iter().copied().fold(corners[0], Span::min),
                corners.iter().copied().fold(corners[0], Span::max),
            ),
        }
    }

    /// Ea (J/mol) and n at the ends of what is assumed: every end of one with every end of the other, unless one follows from the other.
    pub fn corners(&self) -> [[f64; 2]; 4] {
        let (activation, exponent) = (self.activation, self.exponent);
        match self.entangled {
            Some([one, other]) => [one, one, other, other],
            None => [
                [activation.least, exponent.least],
                [activation.least, exponent.most],
                [activation.most, exponent.least],
                [activation.most, exponent.most],
            ],
        }
    }

    /// The same with another activation energy (J/mol) and exponent than its own: those at the ends of an assumption.
    pub fn time_with(&self, parameters: [f64; 2], temperature: Temperature, strength: f64, bottle: f64) -> Span {
        self.seconds(&self.row(temperature, strength), parameters, bottle)
    }

    fn seconds(&self, row: &[f64; 3], [activation, exponent]: [f64; 2], bottle: f64) -> Span {
        let ln_time = self.coefficients[0] + activation * row[1] - exponent * row[2];
        Span::from_seconds(ln_time.exp() / bottle)
    }

    fn row(&self, temperature: Temperature, strength: f64) -> [f64; 3] {
        [
            1.0,
            (1.0 / temperature.kelvins() - self.middle.0) / GAS_CONSTANT,
            strength.ln() - self.middle.1,
        ]
    }

    /// Activation energy, J/mol.
    pub fn activation(&self) -> Parameter {
        self.activation
    }

    /// Standard uncertainty of the activation energy where it was fitted, J/mol; 0 where it was not.
    pub fn activation_uncertainty(&self) -> f64 {
        self.covariance[1][1].max(0.0).sqrt()
    }

    /// Dilution exponent.
    pub fn exponent(&self) -> Parameter {
        self.exponent
    }

    /// Factor per 10 degrees: about the middle of the sheet where it was fitted, and else as it was given or assumed, between
    /// 20 and 30 °C.
    pub fn q10(&self) -> Parameter {
        let about = match self.activation.origin {
            Origin::Fitted => Temperature::from_kelvins(1.0 / self.middle.0),
            Origin::Given | Origin::Assumed(_) => Temperature::from_celsius(25.0),
        };
        self.activation.map(|activation| q10_from_activation(activation, about))
    }

    /// Coldest and warmest of the sheet.
    pub fn temperatures(&self) -> (Temperature, Temperature) {
        self.temperatures
    }

    /// Largest residual of the fit as a share of the time; 0 where nothing was fitted.
    pub fn largest_residual(&self) -> f64 {
        self.largest_residual
    }

    /// Whether temperature and dilution only ever change together in the sheet, so that n could not be told from it.
    pub fn entangled(&self) -> bool {
        self.entangled.is_some()
    }
}

/// Activation energy in J/mol from a factor per 10 degrees between 20 and 30 °C.
pub fn activation_from_q10(q10: f64) -> f64 {
    let (cold, warm) = (Temperature::from_celsius(20.0), Temperature::from_celsius(30.0));
    q10.ln() * GAS_CONSTANT / (1.0 / cold.kelvins() - 1.0 / warm.kelvins())
}

/// Factor per 10 degrees, five either side of a temperature, from an activation energy in J/mol.
pub fn q10_from_activation(activation: f64, about: Temperature) -> f64 {
    let half = TemperatureDifference::from_kelvins(5.0);
    let (cold, warm) = (about + half * -1.0, about + half);
    (activation / GAS_CONSTANT * (1.0 / cold.kelvins() - 1.0 / warm.kelvins())).exp()
}

/// One time of the sheet, in the terms of the fit.
struct Point {
    ln_seconds: f64,
    seconds: f64,
    inverse: f64,
    ln_strength: f64,
}

impl Point {
    fn new(time: &SheetTime, strength: f64) -> Self {
        let strength = time.dilution.as_ref().map_or(strength, |dilution| dilution.strength());
        Self {
            ln_seconds: time.time.seconds().ln(),
            seconds: time.time.seconds(),
            inverse: 1.0 / time.temperature.kelvins(),
            ln_strength: strength.ln(),
        }
    }
}

/// The two parameters before the sheet has spoken.
#[derive(Clone, Copy)]
struct Law {
    activation: Parameter,
    exponent: Parameter,
}

/// Fits the constant and those of (Ea, n) that are asked for; the others stay as they are. `None` where the points do not
/// determine them.
fn fit(points: &[Point], middle: (f64, f64), law: &Law, wanted: [bool; 2]) -> Option<RateLaw> {
    let mean = points.iter().map(|point| point.seconds).sum::<f64>() / points.len() as f64;
    let scatter = PRINTED / 3f64.sqrt() / mean;
    let row = |point: &Point| {
        [
            1.0,
            (point.inverse - middle.0) / GAS_CONSTANT,
            point.ln_strength - middle.1,
        ]
    };
    let known = [0.0, law.activation.value, -law.exponent.value];
    let columns: Vec<usize> = [true, wanted[0], wanted[1]]
        .iter()
        .enumerate()
        .filter_map(|(index, &fitted)| fitted.then_some(index))
        .collect();
    let left: Vec<([f64; 3], f64)> = points
        .iter()
        .map(|point| {
            let row = row(point);
            let rest: f64 = (0..3).filter(|i| !columns.contains(i)).map(|i| known[i] * row[i]).sum();
            (row, point.ln_seconds - rest)
        })
        .collect();
    let (found, covariance, residuals) = match columns.len() {
        1 | 2 => solve(&columns, &left, scatter)?,
        _ => solve(&[0, 1, 2], &left, scatter)?,
    };
    let coefficient = |index: usize| match columns.contains(&index) {
        true => found[index],
        false => known[index],
    };
    let coefficients = [0, 1, 2].map(coefficient);
    Some(RateLaw {
        coefficients,
        covariance,
        middle,
        activation: match wanted[0] {
            true => Parameter::fitted(coefficients[1]),
            false => law.activation,
        },
        exponent: match wanted[1] {
            true => Parameter::fitted(-coefficients[2]),
            false => law.exponent,
        },
        temperatures: (Temperature::from_celsius(0.0), Temperature::from_celsius(0.0)),
        largest_residual: residuals
            .iter()
            .map(|residual| residual.exp_m1().abs())
            .fold(0.0, f64::max),
        entangled: None,
    })
}

type Solved = ([f64; 3], [[f64; 3]; 3], Vec<f64>);

/// Least squares on the chosen columns, spread out to all three again.
fn solve(columns: &[usize], left: &[([f64; 3], f64)], scatter: f64) -> Option<Solved> {
    let mut chosen = Vec::new();
    for &column in columns {
        chosen.push(left.iter().map(|(row, _)| row[column]).collect());
    }
    let fit = line::fit_columns(chosen, left.iter().map(|(_, y)| *y).collect(), scatter).ok()?;
    let mut coefficients = [0.0; 3];
    let mut covariance = [[0.0; 3]; 3];
    for (i, &to) in columns.iter().enumerate() {
        coefficients[to] = fit.coefficients[i];
        for (j, &other) in columns.iter().enumerate() {
            covariance[to][other] = fit.covariance[i][j];
        }
    }
    Some((coefficients, covariance, fit.residuals))
}

impl fmt::Display for RateError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NoTimes => f.write_str("at least one time of the data sheet is needed"),
            Self::WrongWay => {
                f.write_str("these times get longer where the bath is warmer or stronger; one of them must be wrong")
            }
            Self::TooSteep => f.write_str(
                "these times change more with temperature or dilution than any published table; one of them must be wrong, or \
                 two lie too close together",
            ),
        }
    }
}

impl std::error::Error for RateError {}

impl fmt::Display for Origin {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Fitted => f.write_str("from the data sheet's times"),
            Self::Given => f.write_str("yours"),
            Self::Assumed(why) => write!(f, "assumed: {why}"),
        }
    }
}
