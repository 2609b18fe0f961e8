//! A thermometer compared with a better one: the line by which it is put right, and how well (JCGM 100, H.3).

use super::calibration::{is_old, widened};
use crate::development::Parameter;
use crate::quantity::{Day, Temperature, TemperatureDifference};

/// The correction of a thermometer as a straight line through the middle of its readings. There the level and the slope are independent
/// of each other, so that two uncertainties are right at every temperature, with no correlation to keep (JCGM 100, H.3.5).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Thermometer {
    /// The middle of the readings that it was compared at, as it shows them.
    pub at: Temperature,
    /// What is added to what it shows there.
    pub correction: TemperatureDifference,
    /// By how much that grows for each kelvin.
    pub slope: f64,
    /// Standard uncertainty of the temperature in the middle, for one reading.
    pub uncertainty: TemperatureDifference,
    /// Standard uncertainty of the slope.
    pub slope_uncertainty: f64,
    /// The day on which it was compared.
    pub on: Day,
}

/// Readings of a thermometer beside a better one, in one bath each.
#[derive(Clone, Debug, PartialEq)]
pub struct Comparison {
    /// What it showed and what the other showed.
    pub readings: Vec<(Temperature, Temperature)>,
    /// Half-width of the other's own error, in kelvins.
    pub reference: Parameter,
    /// The smallest step that is read.
    pub step: TemperatureDifference,
    /// Half-width of what the correction may change by for each kelvin, where the readings do not tell.
    pub drift: Parameter,
}

/// What a comparison found.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Compared {
    /// The line, with all that is uncertain about one reading put right by it.
    pub line: Thermometer,
    /// Whether the slope is that of the readings; else they lie too close together or are too few, and it is nothing.
    pub is_line: bool,
    /// Standard deviation of the corrections about the line, or about their mean; nothing of a single one.
    pub scatter: Option<TemperatureDifference>,
    /// Standard uncertainty of the line alone in the middle (JCGM 100, H.3).
    pub level_alone: TemperatureDifference,
    /// Standard uncertainty of the slope alone.
    pub slope_alone: f64,
}

/// Readings spread over so much tell a slope; closer together, what is known of thermometers tells more.
const LINE_FROM: f64 = 3.0;

impl Thermometer {
    /// What is added to what it shows.
    pub fn correction_at(&self, shown: Temperature) -> TemperatureDifference {
        self.correction + TemperatureDifference::from_kelvins(self.slope * (shown - self.at).kelvins())
    }

    /// The temperature where it shows this.
    pub fn corrected(&self, shown: Temperature) -> Temperature {
        shown + self.correction_at(shown)
    }

    /// What it shows where the temperature is this: the other way round. The line never falls by a degree for a degree.
    pub fn shows(&self, is: Temperature) -> Temperature {
        let from_middle = (is - self.at - self.correction).kelvins() / (1.0 + self.slope);
        self.at + TemperatureDifference::from_kelvins(from_middle)
    }

    /// Standard uncertainty of a temperature read once and put right.
    pub fn standard_uncertainty(&self, shown: Temperature) -> TemperatureDifference {
        let slope = self.slope_uncertainty * (shown - self.at).kelvins();
        TemperatureDifference::from_kelvins(self.uncertainty.kelvins().hypot(slope))
    }

    /// Whether it wants comparing again.
    pub fn is_old(&self, today: Day) -> bool {
        is_old(self.on, today)
    }
}

impl Comparison {
    /// What it found on that day; `None` of no readings. One gives a correction alone, two their mean, three or more that lie
    /// apart a line by least squares.
    pub fn found(&self, on: Day) -> Option<Compared> {
        let points: Vec<(f64, f64)> = self
            .readings
            .iter()
            .map(|(shown, true_one)| (shown.celsius(), (*true_one - *shown).kelvins()))
            .collect();
        let count = points.len() as f64;
        if points.is_empty() {
            return None;
        }
        let middle = points.iter().map(|point| point.0).sum::<f64>() / count;
        let level = points.iter().map(|point| point.1).sum::<f64>() / count;
        let about = |of: &dyn Fn(f64, f64) -> f64| points.iter().map(|(x, y)| of(x - middle, y - level)).sum::<f64>();
        let spread = about(&|x, _| x * x);
        let least = points.iter().map(|point| point.0).fold(f64::INFINITY, f64::min);
        let most = points.iter().map(|point| point.0).fold(f64::NEG_INFINITY, f64::max);
        let is_line = points.len() > 2 && most - least >= LINE_FROM;
        let slope = if is_line { about(&|x, y| x * y) / spread } else { 0.0 };
        let squares = about(&|x, y| (y - slope * x).powi(2));
        let freedom = count - if is_line { 2.0 } else { 1.0 };
        let scatter = (freedom > 0.0).then(|| (squares / freedom).sqrt());
        // The readings' steps leave at least this, however well they agree by chance.
        let steps = self.step.kelvins() / 12f64.sqrt();
        let one = match (scatter, points.len()) {
            // Two tell no scatter: half their difference is its limit.
            (Some(scatter), 2) => (scatter / 2f64.sqrt() / 3f64.sqrt()).max(steps),
            (Some(scatter), _) => widened(scatter, freedom).max(steps),
            (None, _) => steps,
        };
        let others = self.reference.value / 3f64.sqrt();
        let slope_uncertainty = match is_line {
            true => one / spread.sqrt(),
            false => self.drift.value / 3f64.sqrt(),
        };
        let alone = scatter.unwrap_or_default();
        Some(Compared {
            line: Thermometer {
                at: Temperature::from_celsius(middle),
                correction: TemperatureDifference::from_kelvins(level),
                slope,
                uncertainty: TemperatureDifference::from_kelvins((one / count.sqrt()).hypot(one).hypot(others)),
                slope_uncertainty,
                on,
            },
            is_line,
            scatter: scatter.map(TemperatureDifference::from_kelvins),
            level_alone: TemperatureDifference::from_kelvins(alone / count.sqrt()),
            slope_alone: if is_line { alone / spread.sqrt() } else { 0.0 },
        })
    }
}

impl Compared {
    /// Standard uncertainty of the line alone where the thermometer shows this (JCGM 100, H.3.4).
    pub fn alone_at(&self, shown: Temperature) -> TemperatureDifference {
        let slope = self.slope_alone * (shown - self.line.at).kelvins();
        TemperatureDifference::from_kelvins(self.level_alone.kelvins().hypot(slope))
    }

    /// Correlation of the level at a temperature with the slope (JCGM 100, H.3: there at 20 °C); nothing without a line.
    pub fn correlation_at(&self, level: Temperature) -> f64 {
        let alone = self.alone_at(level).kelvins();
        let slope = self.slope_alone * (level - self.line.at).kelvins();
        if alone > 0.0 { slope / alone } else { 0.0 }
    }
}
