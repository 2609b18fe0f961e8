//! The shapes of a characteristic curve that are fitted: a toe that runs into a straight line, with a shoulder or without.
//!
//! With s(x) = ln(1 + exp(x)), which is 0 far below and x far above,
//! D = f + gamma a (s((h - h1) / a) - s((h - h2) / a)): base + fog f, a straight line of slope gamma between h1 and h2, and bends
//! of softness a. It never falls. Without h2 there is no shoulder; with h1 and h2 close together it is the logistic curve, all bend.

use crate::quantity::held::held;
use crate::uncertainty::line::fit_columns;

/// Which of the shapes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Kind {
    /// Numbers: f, ln gamma, h1, ln a.
    Line,
    /// Numbers: f, ln (gamma (h2 - h1)), (h1 + h2) / 2, ln a; h2 - h1 is next to nothing.
    Bend,
    /// Numbers: as for the bend, and ln (h2 - h1).
    Shoulder,
}

/// One curve.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Shape {
    pub kind: Kind,
    pub numbers: Vec<f64>,
}

/// A shape as it was fitted.
pub(super) struct Fitted {
    pub shape: Shape,
    /// Lower triangle whose product with its own transpose is the covariance of the numbers, column by column.
    pub columns: Vec<Vec<f64>>,
    /// Sum of the squares of what is left.
    pub squares: f64,
    /// Readings less numbers.
    pub freedom: f64,
}

/// Rounds of the fit, and of making a step smaller, in all.
const ROUNDS: usize = 60;
/// The least and the most that the logarithms of a shape's numbers may be: far beyond any film.
const LOGARITHMS: (f64, f64) = (-6.0, 3.0);
/// Where the logarithm of a number is known no better than this, the readings say nothing of it.
const UNKNOWN: f64 = 2.0;
/// h2 - h1 of the bend, in a.
const NARROW: f64 = 0.1;

impl Shape {
    /// Density at a log exposure.
    pub fn density(&self, exposure: f64) -> f64 {
        let (scale, low, high, soft) = self.line();
        let above = high.map_or(0.0, |high| softened((exposure - high) / soft));
        self.numbers[0] + scale * soft * (softened((exposure - low) / soft) - above)
    }

    /// Slope at a log exposure.
    pub fn slope(&self, exposure: f64) -> f64 {
        let (scale, low, high, soft) = self.line();
        let above = high.map_or(0.0, |high| share((exposure - high) / soft));
        scale * (share((exposure - low) / soft) - above)
    }

    /// The exposure of the steepest slope; none where it rises to the end.
    pub fn steepest(&self) -> Option<f64> {
        (self.kind != Kind::Line).then(|| self.numbers[2])
    }

    /// gamma, h1, h2 and a.
    fn line(&self) -> (f64, f64, Option<f64>, f64) {
        let soft = self.numbers[3].exp();
        let wide = match self.kind {
            Kind::Line => return (self.numbers[1].exp(), self.numbers[2], None, soft),
            Kind::Bend => NARROW * soft,
            Kind::Shoulder => self.numbers[4].exp(),
        };
        let middle = self.numbers[2];
        let scale = self.numbers[1].exp() / wide;
        (scale, middle - wide / 2.0, Some(middle + wide / 2.0), soft)
    }

    /// The same with its numbers moved.
    pub fn moved(&self, by: &[f64], times: f64) -> Self {
        let moved = self.numbers.iter().zip(by).enumerate().map(|(place, (number, by))| {
            let moved = number + times * by;
            match place {
                1 | 3 | 4 => held(moved, LOGARITHMS.0, LOGARITHMS.1),
                _ => moved,
            }
        });
        Self {
            kind: self.kind,
            numbers: moved.collect(),
        }
    }

    /// Fitted to log exposures and densities, each reading good to `reading`: least squares by steps that are held back as far as
    /// they must be (Levenberg 1944, Marquardt 1963). `None` where the readings do not determine it.
    pub fn fit(kind: Kind, readings: &[(f64, f64)], reading: f64) -> Option<Fitted> {
        let found = starts(kind, readings)
            .into_iter()
            .map(|start| improved(start, readings));
        let (squares, shape) = found.reduce(|best, other| if other.0 < best.0 { other } else { best })?;
        let columns = columns(&shape, readings);
        let freedom = readings.len() as f64 - columns.len() as f64;
        if !squares.is_finite() || freedom < 1.0 {
            return None;
        }
        // The scatter that the readings show, or what is known of a reading, whichever is more.
        let scatter = (squares / freedom).sqrt().max(reading);
        let covariance = fit_columns(columns, vec![0.0; readings.len()], scatter)
            .ok()?
            .covariance;
        let unknown = |place: usize| covariance.get(place).is_some_and(|row| row[place] > UNKNOWN * UNKNOWN);
        if [1, 3, 4].into_iter().any(unknown) {
            return None;
        }
        Some(Fitted {
            columns: root(&covariance)?,
            shape,
            squares,
            freedom,
        })
    }
}

/// ln(1 + exp(x)).
fn softened(x: f64) -> f64 {
    x.max(0.0) + (-x.abs()).exp().ln_1p()
}

/// Its slope, 1 / (1 + exp(-x)).
fn share(x: f64) -> f64 {
    1.0 / (1.0 + (-x).exp())
}

/// Where to begin: several, since the way down from one of them may end too early.
fn starts(kind: Kind, readings: &[(f64, f64)]) -> Vec<Shape> {
    let on_film = || readings.iter().filter(|(exposure, _)| exposure.is_finite());
    let lowest = readings
        .iter()
        .map(|(_, density)| *density)
        .fold(f64::INFINITY, f64::min);
    let highest = readings
        .iter()
        .map(|(_, density)| *density)
        .fold(f64::NEG_INFINITY, f64::max);
    let first = on_film().map(|(exposure, _)| *exposure).fold(f64::INFINITY, f64::min);
    let last = on_film()
        .map(|(exposure, _)| *exposure)
        .fold(f64::NEG_INFINITY, f64::max);
    let (rise, stretch) = (highest - lowest, last - first);
    let at = |part: f64| {
        let reached = on_film().find(|(_, density)| *density >= lowest + part * rise);
        reached.map_or(last, |(exposure, _)| *exposure)
    };
    let (quarter, half, most) = (at(0.25), at(0.5), at(0.75));
    let slope = (rise / 2.0 / (most - quarter).max(stretch / 50.0)).max(1e-3);
    let start = |soft: f64, wide: f64| {
        let soft = (soft * stretch).ln();
        let numbers = match kind {
            Kind::Line => vec![lowest, slope.ln(), half - rise / 2.0 / slope, soft],
            Kind::Bend => vec![lowest, rise.ln(), half, soft],
            Kind::Shoulder => vec![lowest, rise.ln(), half, soft, (wide * rise / slope).ln()],
        };
        let still = vec![0.0; numbers.len()];
        Shape { kind, numbers }.moved(&still, 0.0)
    };
    vec![start(0.05, 1.0), start(0.15, 0.7)]
}

/// Moved downhill until nothing is gained.
fn improved(mut shape: Shape, readings: &[(f64, f64)]) -> (f64, Shape) {
    let squares = |shape: &Shape| left(shape, readings).iter().map(|left| left * left).sum::<f64>();
    let mut best = squares(&shape);
    let mut damping = 1e-3;
    for _ in 0..ROUNDS {
        let mut columns = columns(&shape, readings);
        let mut rest = left(&shape, readings);
        let count = columns.len();
        for (place, column) in columns.iter_mut().enumerate() {
            let size: f64 = column.iter().map(|one| one * one).sum();
            let hold = (damping * size.max(1e-12)).sqrt();
            column.extend((0..count).map(|other| if other == place { hold } else { 0.0 }));
        }
        rest.extend(vec![0.0; count]);
        let step = fit_columns(columns, rest, 0.0).ok();
        let moved = step.map(|step| shape.moved(&step.coefficients, 1.0));
        match moved.map(|moved| (squares(&moved), moved)) {
            Some((less, moved)) if less <= best => {
                let gained = best - less;
                (best, shape) = (less, moved);
                if gained <= 1e-15 * best {
                    break;
                }
                damping = (damping / 10.0).max(1e-12);
            }
            _ => damping *= 10.0,
        }
    }
    (best, shape)
}

/// What each reading is above the curve.
fn left(shape: &Shape, readings: &[(f64, f64)]) -> Vec<f64> {
    readings
        .iter()
        .map(|(exposure, density)| density - shape.density(*exposure))
        .collect()
}

/// How the density at each reading follows each number of the shape.
fn columns(shape: &Shape, readings: &[(f64, f64)]) -> Vec<Vec<f64>> {
    const SMALL: f64 = 1e-5;
    let count = shape.numbers.len();
    let along = |place: usize| {
        let one: Vec<f64> = (0..count).map(|other| if other == place { 1.0 } else { 0.0 }).collect();
        let (above, below) = (shape.moved(&one, SMALL), shape.moved(&one, -SMALL));
        let slope = |(exposure, _): &(f64, f64)| (above.density(*exposure) - below.density(*exposure)) / (2.0 * SMALL);
        readings.iter().map(slope).collect()
    };
    (0..count).map(along).collect()
}

/// The columns of the lower triangle L with L L' the matrix (Cholesky); none where it is no covariance.
fn root(matrix: &[Vec<f64>]) -> Option<Vec<Vec<f64>>> {
    let count = matrix.len();
    let mut columns = vec![vec![0.0; count]; count];
    for column in 0..count {
        for row in column..count {
            let known: f64 = columns[..column].iter().map(|one| one[row] * one[column]).sum();
            let rest = matrix[row][column] - known;
            columns[column][row] = match row == column {
                true if rest > 0.0 => rest.sqrt(),
                true => return None,
                false => rest / columns[column][column],
            };
        }
    }
    Some(columns)
}
