//! Oxygen: in air, in water, and through a wall.

use crate::chemistry::Substance;
use crate::development::GAS_CONSTANT;
use crate::quantity::held::held;
use crate::quantity::{Amount, Area, Mass, MassDensity, Temperature, Volume};

/// Mole fraction of oxygen in dry air (handbook value, from memory; the US Standard Atmosphere 1976 has 0.209476,
/// CIPM-2007 0.20939).
pub const AIR_OXYGEN: f64 = 0.209_46;

/// The standard atmosphere, in pascals (exact by definition).
pub const ONE_ATMOSPHERE: f64 = 101_325.0;

/// The air that a bottle is closed over.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Air {
    /// How warm.
    pub temperature: Temperature,
    /// Pressure of the place, in pascals.
    pub pressure: f64,
    /// Relative humidity, 0 (dry) to 1 (saturated).
    pub humidity: f64,
}

impl Air {
    /// Dry air of the standard atmosphere at 20 °C.
    pub const STANDARD: Self = Self {
        temperature: Temperature::from_celsius(20.0),
        pressure: ONE_ATMOSPHERE,
        humidity: 0.0,
    };

    /// Oxygen in a volume of it: n = 0.20946 (P - p_w) V / (R T), the ideal gas.
    ///
    /// ```
    /// use meniscus::keeping::Air;
    /// use meniscus::quantity::Volume;
    ///
    /// let hundred = Air::STANDARD.oxygen(Volume::from_millilitres(100.0));
    /// assert!((hundred.millimoles() - 0.87075).abs() < 0.00001);
    /// ```
    pub fn oxygen(&self, volume: Volume) -> Amount {
        let dry = self.pressure - self.humidity * vapour_pressure(self.temperature);
        oxygen_of_dry(dry, volume, self.temperature)
    }
}

/// Saturation pressure of water vapour, in pascals, from 0 to 100 °C (IAPWS-IF97, equation 30; coefficients as in the
/// package iapws 1.5.5). Below 0 °C that of 0 °C is taken.
///
/// ```
/// use meniscus::keeping::vapour_pressure;
/// use meniscus::quantity::Temperature;
///
/// assert!((vapour_pressure(Temperature::from_celsius(20.0)) - 2339.2).abs() < 0.05);
/// ```
pub fn vapour_pressure(temperature: Temperature) -> f64 {
    let kelvins = temperature.kelvins().max(Temperature::ICE_POINT_KELVINS);
    let x = kelvins - 0.238_555_575_678_49 / (kelvins - 650.175_348_447_98);
    let a = x * x + 1_167.052_145_276_7 * x - 724_213.167_032_06;
    let b = -17.073_846_940_092 * x * x + 12_020.824_702_470 * x - 3_232_555.032_233_3;
    let c = 14.915_108_613_530 * x * x - 4_823.265_736_159_1 * x + 405_113.405_420_57;
    (2.0 * c / (-b + (b * b - 4.0 * a * c).sqrt())).powi(4) * 1e6
}

/// Oxygen that fresh water holds in contact with air, from 0 to 40 °C (Benson and Krause, as in APHA Standard Methods
/// 4500-O, at the standard atmosphere); at another pressure, given in pascals, in proportion to that of the dry air
/// over it. `None` outside 0 to 40 °C.
///
/// ```
/// use meniscus::keeping::{ONE_ATMOSPHERE, dissolved};
/// use meniscus::quantity::{Temperature, Volume};
///
/// let tap = dissolved(Temperature::from_celsius(20.0), ONE_ATMOSPHERE).expect("between 0 and 40 °C");
/// let litre = tap * Volume::from_millilitres(1000.0);
/// assert!((litre.grams() - 0.009092).abs() < 1e-6);
/// ```
pub fn dissolved(temperature: Temperature, pressure: f64) -> Option<MassDensity> {
    if !(0.0..=40.0).contains(&temperature.celsius()) {
        return None;
    }
    let x = 1.0 / temperature.kelvins();
    let ln = -139.344_11 + x * (1.575_701e5 + x * (-6.642_308e7 + x * (1.243_800e10 - x * 8.621_949e11)));
    let vapour = vapour_pressure(temperature);
    let share = ((pressure - vapour) / (ONE_ATMOSPHERE - vapour)).max(0.0);
    Some(MassDensity::from_grams_per_millilitre(ln.exp() * share * 1e-6))
}

/// Oxygen that comes through a wall in a day: Q = P A dp / L, in the steady state, with no oxygen inside, so at the
/// most.
///
/// `permeability` in cm³(STP) mm/(m² day atm), `thickness` in mm and above zero, `pressure` of the air outside in
/// pascals.
///
/// ```
/// use meniscus::keeping::{ONE_ATMOSPHERE, permeation};
/// use meniscus::kit::Material;
/// use meniscus::quantity::Area;
///
/// let wall = Area::from_square_centimetres(600.0);
/// let stiff = permeation(Material::Hdpe.permeability().value, wall, 0.5, ONE_ATMOSPHERE);
/// assert!((stiff.millimoles() * 31.9988 - 2.4723).abs() < 0.0001);
/// ```
pub fn permeation(permeability: f64, area: Area, thickness: f64, pressure: f64) -> Amount {
    let square_metres = area.square_centimetres() / 1e4;
    let difference = AIR_OXYGEN * pressure / ONE_ATMOSPHERE;
    // A millimole of gas at 0 °C and one atmosphere, in cm³.
    let molar = GAS_CONSTANT * Temperature::ICE_POINT_KELVINS / ONE_ATMOSPHERE * 1e3;
    Amount::from_millimoles(permeability * square_metres * difference / thickness / molar)
}

/// Oxygen in a volume of gas whose dry air has that pressure in pascals; none where it is below zero.
pub(super) fn oxygen_of_dry(pressure: f64, volume: Volume, temperature: Temperature) -> Amount {
    // Pa ml = 1e-6 J, and mol = 1000 mmol.
    let moles = AIR_OXYGEN * pressure.max(0.0) * volume.millilitres() * 1e-6 / (GAS_CONSTANT * temperature.kelvins());
    Amount::from_millimoles(moles * 1000.0)
}

/// Oxygen that a volume of water brings along; that of water at 0 or 40 °C outside this range.
pub(super) fn brought_by_water(volume: Volume, temperature: Temperature, pressure: f64) -> Amount {
    let within = Temperature::from_celsius(held(temperature.celsius(), 0.0, 40.0));
    let mass = dissolved(within, pressure).map_or(Mass::ZERO, |density| density * volume);
    Substance::OXYGEN.amount(mass)
}
