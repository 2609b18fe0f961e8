//! The characteristic curve of a film from the densities of its steps: fitted, with what follows from it and how well each is known.
//!
//! Log exposures are decimal logarithms of lx s, or of anything in proportion to it; densities are decimal, from 0 to 5. A reading's
//! error is a standard uncertainty of density. Fitted is the simplest of three shapes that explains the readings: a toe with a
//! straight line (four numbers), all bend (four), or a toe, a straight line and a shoulder (five); none of them ever falls. Where
//! all three lie off by more than twice what the readings explain, a cubic that never falls goes through the readings instead.
//!
//! Definitions: ISO 6:1993 for the speed point, its criterion and the speed (0.10 above base + fog; 0.80 over 1.30; S = 0.8 / H_m,
//! from memory but for the criterion); the contrast index as the slope of a line from a point at base + fog to two points of the
//! curve, 0.2 and 2.2 away from it (the radii from memory). What a densitometer reads wrong alike at every step is not in any
//! uncertainty here.

mod pieces;
mod shape;

use std::fmt;

use crate::quantity::held::held;
use pieces::Pieces;
use shape::{Kind, Shape};

/// Fewest steps that tell a toe from a straight line.
pub const FEWEST_STEPS: usize = 6;
/// More steps than any wedge has.
pub const MOST_STEPS: usize = 60;
/// Density above base + fog at the speed point m (ISO 6).
pub const SPEED_DENSITY: f64 = 0.10;
/// From the speed point m to the point n, in log exposure (ISO 6).
pub const CRITERION_EXPOSURE: f64 = 1.30;
/// Density from m to n (ISO 6).
pub const CRITERION_DENSITY: f64 = 0.80;
/// How far that may be off (ISO 6, from memory).
pub const CRITERION_WITHIN: f64 = 0.05;
/// Distances of the two points of the contrast index.
const ARCS: (f64, f64) = (0.2, 2.2);
/// The stretch over which a curve without a shape has its steepest slope: four half stops.
const STRETCH: f64 = 0.6;
/// So many errors of a reading are explained by it: one fall in ten thousand goes further.
const EXPLAINED: f64 = 3.7;
/// A shape must lie within so many errors of a reading, in the mean.
const FITS: f64 = 2.0;
/// A fifth number must bring the sum of squares down by so many squares of a reading's error.
const WORTH_A_NUMBER: f64 = 4.0;

/// Which kind of curve was fitted.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CurveForm {
    /// A toe and a straight line.
    ToeAndLine,
    /// From toe to shoulder in one bend.
    Bend,
    /// A toe, a straight line and a shoulder.
    Shoulder,
    /// Through the readings, since no shape fits them.
    ThroughReadings,
}

/// Why there is no curve, or only one of the first steps. Steps are counted from 1.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum CurveError {
    /// So many steps are too few.
    TooFew(usize),
    /// The exposure of that step is not more than that of the one before.
    Order(usize),
    /// All densities lie within what reading explains.
    Alike,
    /// The last is less dense than the first.
    Backwards,
    /// That step is less dense than one before it, by more than reading explains.
    Falls(usize),
}

/// A fitted curve.
#[derive(Clone, Debug)]
pub struct CharacteristicCurve {
    best: Line,
    /// The curve moved up and down along each direction in which it is uncertain, by `reach` standard uncertainties.
    sides: Vec<[Line; 2]>,
    reach: f64,
    form: CurveForm,
    scatter: f64,
}

/// What is read off a curve.
#[derive(Clone, Debug, PartialEq)]
pub struct ReadOff {
    /// The value.
    pub value: f64,
    /// What each direction of uncertainty adds, with its sign; `None` where the value cannot be had on either side.
    parts: Option<Vec<f64>>,
}

/// A curve over its steps.
#[derive(Clone, Debug)]
struct Line {
    first: f64,
    last: f64,
    kind: LineKind,
}

#[derive(Clone, Debug)]
enum LineKind {
    Shape(Shape),
    Pieces(Pieces),
}

/// What is wrong with steps, each a log exposure and a density good to `reading`; the first thing in the order of the film. Up
/// to a step that falls the curve stands.
///
/// ```
/// use meniscus::proof::{CurveError, check_steps};
///
/// let steps = |densities: &[f64]| densities.iter().enumerate().map(|(i, d)| (0.15 * i as f64, *d)).collect::<Vec<_>>();
/// let fault = check_steps(&steps(&[0.1, 0.2, 0.5, 0.9, 1.3, 1.6, 1.2]), 0.02).unwrap_err();
/// assert_eq!(fault, CurveError::Falls(7));
/// assert_eq!(check_steps(&steps(&[0.1, 0.2]), 0.02), Err(CurveError::TooFew(2)));
/// ```
///
/// # Errors
/// The first of them that holds.
pub fn check_steps(steps: &[(f64, f64)], reading: f64) -> Result<(), CurveError> {
    if steps.len() < FEWEST_STEPS {
        return Err(CurveError::TooFew(steps.len()));
    }
    if let Some(at) = steps.windows(2).position(|pair| pair[1].0 <= pair[0].0) {
        return Err(CurveError::Order(at + 2));
    }
    let explained = EXPLAINED * 2f64.sqrt() * reading;
    let lowest = steps.iter().map(|step| step.1).fold(f64::INFINITY, f64::min);
    let highest = steps.iter().map(|step| step.1).fold(f64::NEG_INFINITY, f64::max);
    if highest - lowest <= explained {
        return Err(CurveError::Alike);
    }
    if steps[steps.len() - 1].1 < steps[0].1 - explained {
        return Err(CurveError::Backwards);
    }
    let mut before = f64::NEG_INFINITY;
    for (place, (_, density)) in steps.iter().enumerate() {
        if before - density > explained {
            return Err(CurveError::Falls(place + 1));
        }
        before = before.max(*density);
    }
    Ok(())
}

impl CharacteristicCurve {
    /// Fitted to steps, each a log exposure and a density; with base + fog, where that was measured by itself. Each density is good
    /// to the standard uncertainty `reading`, more than nothing.
    ///
    /// # Errors
    /// Whatever [`check_steps`] finds.
    pub fn fit(steps: &[(f64, f64)], base: Option<f64>, reading: f64) -> Result<Self, CurveError> {
        check_steps(steps, reading)?;
        let over = |kind| Line {
            first: steps[0].0,
            last: steps[steps.len() - 1].0,
            kind,
        };
        // Base + fog is what the curve is without any exposure at all.
        let mut readings: Vec<(f64, f64)> = base.map(|base| (f64::NEG_INFINITY, base)).into_iter().collect();
        readings.extend(steps);
        let fit = |kind| Shape::fit(kind, &readings, reading);
        let (line, bend, shoulder) = (fit(Kind::Line), fit(Kind::Bend), fit(Kind::Shoulder));
        let less =
            |one: &shape::Fitted, other: &shape::Fitted, by: f64| one.squares + by * reading * reading < other.squares;
        let mut best = line;
        for (other, by) in [(bend, 0.0), (shoulder, WORTH_A_NUMBER)] {
            best = match (best, other) {
                (Some(best), Some(other)) => Some(if less(&other, &best, by) { other } else { best }),
                (best, other) => best.or(other),
            };
        }
        let fits = |fitted: &shape::Fitted| (fitted.squares / fitted.freedom).sqrt() <= FITS * reading;
        if let Some(fitted) = best.filter(fits) {
            let reach = 0.1;
            let side = |by: &Vec<f64>, times: f64| over(LineKind::Shape(fitted.shape.moved(by, times)));
            return Ok(Self {
                sides: fitted
                    .columns
                    .iter()
                    .map(|by| [side(by, reach), side(by, -reach)])
                    .collect(),
                reach,
                form: match fitted.shape.kind {
                    Kind::Line => CurveForm::ToeAndLine,
                    Kind::Bend => CurveForm::Bend,
                    Kind::Shoulder => CurveForm::Shoulder,
                },
                scatter: (fitted.squares / fitted.freedom).sqrt(),
                best: over(LineKind::Shape(fitted.shape)),
            });
        }
        // Each reading moved by its own error; base + fog too.
        let through = |base: Option<f64>, at: usize, by: f64| {
            let mut moved = steps.to_vec();
            if let Some(step) = moved.get_mut(at) {
                step.1 += by;
            }
            let base = base.map(|base| if at == steps.len() { base + by } else { base });
            over(LineKind::Pieces(Pieces::new(&moved, base)))
        };
        let moving = steps.len() + usize::from(base.is_some());
        let best = through(base, moving, 0.0);
        let squares: f64 = steps
            .iter()
            .map(|(exposure, density)| (density - best.density(*exposure)).powi(2))
            .sum();
        Ok(Self {
            sides: (0..moving)
                .map(|at| [through(base, at, reading), through(base, at, -reading)])
                .collect(),
            reach: 1.0,
            form: CurveForm::ThroughReadings,
            scatter: (squares / steps.len() as f64).sqrt(),
            best,
        })
    }

    /// Which kind of curve it is.
    pub fn form(&self) -> CurveForm {
        self.form
    }

    /// Standard deviation of the readings about the curve.
    pub fn scatter(&self) -> f64 {
        self.scatter
    }

    /// Log exposures of the first and the last step.
    pub fn ends(&self) -> (f64, f64) {
        (self.best.first, self.best.last)
    }

    /// Density at a log exposure; beyond the steps it is a guess.
    pub fn density(&self, exposure: f64) -> Option<ReadOff> {
        self.read(&|line| Some(line.density(exposure)))
    }

    /// Density of base + fog.
    pub fn base(&self) -> Option<ReadOff> {
        self.read(&|line| Some(line.base()))
    }

    /// Gamma: the steepest slope over the steps; of a curve without a shape, the steepest stretch of 0.6.
    pub fn gamma(&self) -> Option<ReadOff> {
        self.read(&|line| Some(line.gamma()))
    }

    /// Log exposure of the speed point; none where it does not lie among the steps.
    pub fn speed_point(&self) -> Option<ReadOff> {
        self.read(&Line::speed_point)
    }

    /// Density from the speed point m to the point n; none where either does not lie among the steps.
    pub fn criterion(&self) -> Option<ReadOff> {
        self.read(&Line::criterion)
    }

    /// Average gradient from m to n.
    pub fn average_gradient(&self) -> Option<ReadOff> {
        self.read(&|line| line.criterion().map(|rise| rise / CRITERION_EXPOSURE))
    }

    /// Contrast index; none where its two points do not lie among the steps.
    pub fn contrast_index(&self) -> Option<ReadOff> {
        self.read(&Line::contrast_index)
    }

    /// Whether the steps end before the straight line is reached.
    pub fn stops_in_the_toe(&self) -> bool {
        match &self.best.kind {
            LineKind::Shape(shape) if shape.kind == Kind::Line => self.best.gamma() < 0.9 * shape.numbers[1].exp(),
            _ => false,
        }
    }

    /// Whether the first step already lies on the rise, so that its toe tells little of base + fog.
    pub fn starts_on_the_rise(&self) -> bool {
        self.best.density(self.best.first) - self.best.base() > SPEED_DENSITY
            || self.best.density(self.best.first + STRETCH / 4.0) - self.best.density(self.best.first)
                > 0.25 * self.best.gamma() * STRETCH / 4.0
    }

    fn read(&self, of: &dyn Fn(&Line) -> Option<f64>) -> Option<ReadOff> {
        let value = of(&self.best)?;
        let part = |[above, below]: &[Line; 2]| match (of(above), of(below)) {
            (Some(above), Some(below)) => Some((above - below) / (2.0 * self.reach)),
            (Some(above), None) => Some((above - value) / self.reach),
            (None, Some(below)) => Some((value - below) / self.reach),
            (None, None) => None,
        };
        Some(ReadOff {
            value,
            parts: self.sides.iter().map(part).collect(),
        })
    }
}

impl ReadOff {
    /// Its standard uncertainty; `None` where it cannot be told.
    pub fn standard_uncertainty(&self) -> Option<f64> {
        let squares = self.parts.as_ref()?.iter().map(|part| part * part).sum::<f64>();
        Some(squares.sqrt()).filter(|u| u.is_finite())
    }
}

impl Line {
    fn density(&self, exposure: f64) -> f64 {
        match &self.kind {
            LineKind::Shape(shape) => shape.density(exposure),
            LineKind::Pieces(pieces) => pieces.density(exposure),
        }
    }

    fn base(&self) -> f64 {
        match &self.kind {
            LineKind::Shape(shape) => shape.numbers[0],
            LineKind::Pieces(pieces) => pieces.base(),
        }
    }

    fn gamma(&self) -> f64 {
        match &self.kind {
            LineKind::Shape(shape) => {
                let steepest = shape.steepest().unwrap_or(self.last);
                shape.slope(held(steepest, self.first, self.last))
            }
            LineKind::Pieces(pieces) => {
                const PLACES: u32 = 80;
                let stretch = STRETCH.min(self.last - self.first);
                let slope = |place: u32| {
                    let from = self.first + (self.last - stretch - self.first) * f64::from(place) / f64::from(PLACES);
                    (pieces.density(from + stretch) - pieces.density(from)) / stretch
                };
                (0..=PLACES).map(slope).fold(0.0, f64::max)
            }
        }
    }

    /// The exposure that gives a density: the first or the last where it is beyond these, and whether it is not.
    fn exposure(&self, density: f64) -> (f64, bool) {
        let (mut low, mut high) = (self.first, self.last);
        if self.density(low) > density {
            return (low, false);
        }
        if self.density(high) < density {
            return (high, false);
        }
        for _ in 0..50 {
            let middle = (low + high) / 2.0;
            match self.density(middle) < density {
                true => low = middle,
                false => high = middle,
            }
        }
        ((low + high) / 2.0, true)
    }

    fn speed_point(&self) -> Option<f64> {
        let (exposure, among) = self.exposure(self.base() + SPEED_DENSITY);
        among.then_some(exposure)
    }

    fn criterion(&self) -> Option<f64> {
        let speed = self.speed_point()?;
        let end = speed + CRITERION_EXPOSURE;
        (end <= self.last).then(|| self.density(end) - self.density(speed))
    }

    /// The tangent of the line from base + fog that meets the curve at both arcs: the nearer point is moved along the curve until
    /// the further one, on the same line, lies on the curve too.
    fn contrast_index(&self) -> Option<f64> {
        let base = self.base();
        let sine = |near: f64| held((self.density(near) - base) / ARCS.0, 0.0, 1.0);
        let far = |near: f64| near + (ARCS.1 - ARCS.0) * (1.0 - sine(near).powi(2)).sqrt();
        let above = |near: f64| self.density(far(near)) - base - ARCS.1 * sine(near);
        let (mut low, mut high) = (self.first, self.exposure(base + ARCS.0).0);
        if above(low) < 0.0 || above(high) > 0.0 {
            return None;
        }
        for _ in 0..50 {
            let middle = (low + high) / 2.0;
            match above(middle) > 0.0 {
                true => low = middle,
                false => high = middle,
            }
        }
        let near = (low + high) / 2.0;
        let tangent = sine(near) / (1.0 - sine(near).powi(2)).sqrt();
        (far(near) <= self.last && tangent > 0.0 && tangent.is_finite()).then_some(tangent)
    }
}

/// ISO speed of a speed point at that log exposure in lx s: S = 0.8 / H_m.
///
/// ```
/// use meniscus::proof::{iso_degrees, iso_name, iso_speed};
///
/// let speed = iso_speed(0.008f64.log10());
/// assert!((speed - 100.0).abs() < 1e-9 && (iso_degrees(speed) - 21.0).abs() < 1e-9);
/// assert_eq!(iso_name(iso_degrees(speed)).as_deref(), Some("ISO 100/21°"));
/// ```
pub fn iso_speed(speed_point: f64) -> f64 {
    CRITERION_DENSITY / 10f64.powf(speed_point)
}

/// The same in degrees: 1 + 10 log S.
pub fn iso_degrees(speed: f64) -> f64 {
    1.0 + 10.0 * speed.log10()
}

/// The scale of speeds over ten degrees, from 12 degrees on.
const SCALE: [&str; 10] = ["125", "160", "200", "250", "320", "400", "500", "640", "800", "1000"];

/// A speed as it is written, to the third of a stop; `None` off the scale from 1.2 to 10 000.
pub fn iso_name(degrees: f64) -> Option<String> {
    let rounded = degrees.round();
    if !(2.0..=41.0).contains(&rounded) {
        return None;
    }
    let rounded = rounded as usize;
    let digits = SCALE[(rounded + 8) % 10];
    // 125 stands for 22 degrees and, ten times as much each, for 32; below, 12 and 1.2.
    let speed = match rounded {
        22.. => format!("{digits}{}", "0".repeat((rounded - 22) / 10)),
        12..=21 => digits[..digits.len() - 1].to_owned(),
        11 => "10".to_owned(),
        _ => {
            let (whole, tenths) = digits.split_at(digits.len() - 2);
            format!("{whole}.{}", &tenths[..1])
        }
    };
    Some(format!("ISO {}/{rounded}°", speed.trim_end_matches(".0")))
}

impl fmt::Display for CurveError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::TooFew(given) => write!(
                f,
                "it takes at least {FEWEST_STEPS} steps to tell a toe from a straight line, not {given}"
            ),
            Self::Order(step) => write!(f, "step {step} has no more exposure than the one before it"),
            Self::Alike => {
                f.write_str("all these densities are alike as far as reading tells, so no exposure shows in them")
            }
            Self::Backwards => f.write_str("these densities fall; write the step with the least exposure first"),
            Self::Falls(step) => write!(
                f,
                "step {step} is less dense than a step before it, by more than reading explains; read it again, or leave out what is \
                 so overexposed that it turns lighter"
            ),
        }
    }
}

impl std::error::Error for CurveError {}
