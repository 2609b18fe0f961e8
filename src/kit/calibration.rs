//! Calibration by weighing water: what a balance shows in air, turned into the volume that was delivered at 20 °C (ISO 4787,
//! ISO 8655-6), and what the kit keeps of it.

use super::{Thermometer, Tolerance};
use crate::chemistry::water_density;
use crate::development::Parameter;
use crate::quantity::{Bounds, Day, Mass, Temperature, TemperatureDifference, Volume};
use crate::uncertainty::{Distribution, Estimate, Input, student};

/// What a calibration found, as the kit keeps it.
#[derive(Clone, Debug, PartialEq)]
pub enum Calibration {
    /// An instrument's own error in place of its limit.
    Instrument {
        /// Its key in the store.
        id: String,
        /// What was found, as the kit keeps it.
        tolerance: Tolerance,
        /// The day.
        on: Day,
    },
    /// The line by which the thermometer is put right.
    Thermometer(Thermometer),
}

/// Water weighed at one mark.
#[derive(Clone, Debug, PartialEq)]
pub struct Weighing {
    /// The mark.
    pub marked: Volume,
    /// What was delivered each time, as the balance showed it.
    pub masses: Vec<Mass>,
    /// Temperature of the water, of the air and of the instrument.
    pub water: Temperature,
    /// Its standard uncertainty.
    pub water_uncertainty: TemperatureDifference,
    /// Air pressure in hectopascals.
    pub pressure: Parameter,
    /// By which share of its volume the instrument grows for a kelvin.
    pub expansion: Parameter,
    /// The smallest step that the balance shows.
    pub balance_step: Mass,
    /// Half-width of the balance's own error, as a share of what it shows.
    pub balance_error: Parameter,
    /// What evaporates in each weighing, in grams.
    pub evaporated: Parameter,
}

/// What a weighing found.
#[derive(Clone, Debug, PartialEq)]
pub struct Weighed {
    /// Mean volume delivered, at 20 °C; in millilitres, with its budget.
    pub delivered: Estimate,
    /// Delivered less marked.
    pub bias: Volume,
    /// Standard uncertainty of the bias: so wide that twice of it covers 95 % (JCGM 100, G.6.4), however few the weighings.
    pub uncertainty: Volume,
    /// Standard deviation of one delivery, as the weighings scatter.
    pub scatter: Volume,
    /// What is kept of that: wide enough for so few weighings, and never less than what the balance's steps could hide.
    pub repeatability: Volume,
}

/// How an error stands to a limit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Verdict {
    /// All of what it may be lies inside.
    Within,
    /// All of what it may be lies outside.
    Outside,
    /// It may be either.
    CannotTell,
}

/// The temperature at which instruments are marked, in degrees Celsius (ISO 4787).
const MARKED_AT: f64 = 20.0;
/// Density of the weights that balances are set with, in kilograms per cubic metre (OIML R 111, by convention).
const WEIGHTS: f64 = 8000.0;
/// Humidity of the air in percent: between dry and damp it moves a volume by less than 1e-5.
const HUMIDITY: f64 = 50.0;
/// The finest that is kept of a volume, and the least that the form of an instrument takes.
const FINEST: Volume = Volume::from_millilitres(0.001);
/// After so many days a calibration wants doing again (common practice, no source: plastic wears and its print with it).
pub const HOLDS: i32 = 365;
/// Temperature of water that is weighed and of baths that thermometers are compared in, degrees Celsius.
pub const BETWEEN: Bounds = Bounds {
    what: "the temperature",
    least: 10.0,
    most: 40.0,
    why: "as baths are; beyond that neither water nor thermometer is used",
};

/// Density of air at a pressure in hectopascals, in kilograms per cubic metre: the simple formula of OIML R 111, E.3-1, which ISO 4787
/// uses too; good to 2e-4 of it from 900 to 1100 hPa and 10 to 30 °C, and to more than a volume here can show beyond.
pub fn air_density(pressure: f64, air: Temperature) -> f64 {
    let t = air.celsius();
    (0.348_48 * pressure - 0.009 * HUMIDITY * (0.061 * t).exp()) / (t + 273.15)
}

/// Z: the volume at the water's temperature of what shows as a gram of water on a balance in air, in millilitres per gram.
///
/// ```
/// use meniscus::kit::z_factor;
/// use meniscus::quantity::Temperature;
///
/// let z = z_factor(Temperature::from_celsius(20.0), 1013.0);
/// assert!((z - 1.0029).abs() < 0.00005);
/// ```
pub fn z_factor(water: Temperature, pressure: f64) -> f64 {
    let air = air_density(pressure, water);
    1000.0 / (water_density(water) - air) * (1.0 - air / WEIGHTS)
}

/// Volume at 20 °C of an instrument that delivered so many grams: by Z and by the instrument's own expansion.
fn at_20(grams: f64, water: f64, pressure: f64, expansion: f64) -> f64 {
    grams * z_factor(Temperature::from_celsius(water), pressure) * (1.0 - expansion * (water - MARKED_AT))
}

impl Weighing {
    /// What it found; `None` from fewer than two weighings, which tell no scatter.
    pub fn found(&self) -> Option<Weighed> {
        let (mean, scatter) = mean_and_scatter(&self.masses)?;
        let delivered = self.delivered(mean, scatter, self.masses.len())?;
        let volume = |grams: f64| self.volume_of(Mass::from_grams(1.0)) * grams;
        let freedom = self.masses.len() as f64 - 1.0;
        Some(Weighed {
            bias: Volume::from_millilitres(delivered.value()) - self.marked,
            uncertainty: Volume::from_millilitres(covering(&delivered)),
            scatter: volume(scatter),
            repeatability: volume(widened(scatter, freedom).max(self.hidden())),
            delivered,
        })
    }

    /// The volume that one mass had, with nothing added for what evaporated.
    pub fn volume_of(&self, mass: Mass) -> Volume {
        let water = self.water.celsius();
        Volume::from_millilitres(at_20(mass.grams(), water, self.pressure.value, self.expansion.value))
    }

    /// The standard uncertainty of the bias if so many weighings scattered as these do.
    pub fn uncertainty_of(&self, count: usize) -> Option<Volume> {
        let (mean, scatter) = mean_and_scatter(&self.masses)?;
        let delivered = self.delivered(mean, scatter, count)?;
        Some(Volume::from_millilitres(covering(&delivered)))
    }

    /// Standard uncertainty of one weighing in grams by the balance's steps, of which each takes two readings: a scatter below it
    /// does not show.
    fn hidden(&self) -> f64 {
        self.balance_step.grams() * (2.0f64 / 12.0).sqrt()
    }

    fn delivered(&self, mean: f64, scatter: f64, count: usize) -> Option<Estimate> {
        let normal = |sigma: f64| Distribution::Normal { sigma };
        let limits = |half_width: f64| Distribution::Rectangular { half_width };
        let range = |of: Parameter| limits((of.most - of.least) / 2.0);
        let count = count as f64;
        // The steps are not divided by the count: weighings that fall on one step all err alike.
        let inputs = [
            Input::new("the scatter of the weighings", mean, normal(scatter / count.sqrt()))
                .with_degrees_of_freedom(count - 1.0),
            Input::new("the balance's steps", 0.0, normal(self.hidden())),
            Input::new("the balance's own error", 0.0, limits(mean * self.balance_error.value)),
            Input::new("what evaporates", self.evaporated.value, range(self.evaporated)),
            Input::new(
                "the water's temperature",
                self.water.celsius(),
                normal(self.water_uncertainty.kelvins()),
            ),
            Input::new("the air pressure", self.pressure.value, range(self.pressure)),
            Input::new("what it is made of", self.expansion.value, range(self.expansion)),
        ];
        Estimate::propagate(&inputs, |x| at_20(x[0] + x[1] + x[2] + x[3], x[4], x[5], x[6])).ok()
    }
}

impl Weighed {
    /// How the bias stands to a limit: by what it may be at 95 %.
    pub fn against(&self, limit: Volume) -> Verdict {
        verdict(self.bias, self.uncertainty, limit)
    }

    /// The tolerance that an instrument has from now on, in what is kept of it.
    pub fn tolerance(&self) -> Tolerance {
        Tolerance::Calibrated {
            bias: Volume::from_microlitres(self.bias.microlitres()),
            uncertainty: Volume::from_microlitres(self.uncertainty.max(FINEST).microlitres()),
            repeatability: Volume::from_microlitres(self.repeatability.max(FINEST).microlitres()),
        }
    }
}

/// How a bias with this standard uncertainty stands to a limit.
pub fn verdict(bias: Volume, uncertainty: Volume, limit: Volume) -> Verdict {
    let (size, doubt) = (bias.millilitres().abs(), 2.0 * uncertainty.millilitres());
    match limit.millilitres() {
        limit if size + doubt <= limit => Verdict::Within,
        limit if size - doubt > limit => Verdict::Outside,
        _ => Verdict::CannotTell,
    }
}

/// Whether a calibration of that day wants doing again.
pub fn is_old(calibrated: Day, today: Day) -> bool {
    today - calibrated > HOLDS
}

/// A standard uncertainty of which twice covers 95 %: Student's t over 2 where it is more than 1.
pub(super) fn widened(uncertainty: f64, degrees_of_freedom: f64) -> f64 {
    let t = student::t_quantile(0.975, degrees_of_freedom).unwrap_or(2.0);
    uncertainty * (t / 2.0).max(1.0)
}

fn covering(estimate: &Estimate) -> f64 {
    let freedom = estimate.effective_degrees_of_freedom().unwrap_or(f64::INFINITY);
    widened(estimate.standard_uncertainty(), freedom)
}

/// Mean and standard deviation in grams; `None` of fewer than two.
fn mean_and_scatter(masses: &[Mass]) -> Option<(f64, f64)> {
    if masses.len() < 2 {
        return None;
    }
    let count = masses.len() as f64;
    let mean = masses.iter().map(|mass| mass.grams()).sum::<f64>() / count;
    let squares: f64 = masses.iter().map(|mass| (mass.grams() - mean).powi(2)).sum();
    Some((mean, (squares / (count - 1.0)).sqrt()))
}
