//! Water as a bath is made of it: its density, and what it takes to warm it, to cool it and to melt ice.

use crate::quantity::Temperature;

/// Enthalpy of water in J/g over that at 0 °C, by powers of a hundredth of the degrees Celsius, from the first: fitted to IAPWS-95
/// at 101.325 kPa by `tests/reference/tempering.py`, within 0.0015 J/g (0.0004 K) from 0 to 99.5 °C.
const ENTHALPY: [f64; 6] = [421.875, -15.8197, 31.7636, -35.1357, 22.0091, -5.58903];
/// What a gram of ice at 0 °C takes to melt, in joules (IAPWS R10-06 and IAPWS-95; handbooks round it to 333.5 or 334).
const MELTING: f64 = 333.42;
/// What a gram of ice takes for a kelvin between -18 and 0 °C, in joules (mean of IAPWS R10-06).
const ICE: f64 = 2.03;

/// What a millilitre of water at 20 °C takes for a kelvin, in joules: 0.998207 g times 4.18405 J/(g K) (IAPWS-95).
pub const WATER_HEAT: f64 = 4.176_55;

/// Density of air-free water at one atmosphere, in kilograms per cubic metre: Tanaka and others, Metrologia 38, 301 (2001), good to
/// 0.001 from 0 to 40 °C; beyond, it is off by no more than 0.02 at 60 °C and 0.2 at 95 °C (IAPWS-95).
///
/// ```
/// use meniscus::chemistry::water_density;
/// use meniscus::quantity::Temperature;
///
/// assert!((water_density(Temperature::from_celsius(20.0)) - 998.2067).abs() < 0.0001);
/// ```
pub fn water_density(water: Temperature) -> f64 {
    let t = water.celsius();
    999.974_950 * (1.0 - (t - 3.983_035).powi(2) * (t + 301.797) / (522_528.9 * (t + 69.348_81)))
}

/// Enthalpy of water at one atmosphere over that of water at 0 °C, in joules per gram; from 0 to 99.5 °C.
///
/// ```
/// use meniscus::chemistry::water_enthalpy;
/// use meniscus::quantity::Temperature;
///
/// let [cool, warm] = [20.0, 21.0].map(|celsius| water_enthalpy(Temperature::from_celsius(celsius)));
/// assert!((warm - cool - 4.184).abs() < 0.001);
/// ```
pub fn water_enthalpy(water: Temperature) -> f64 {
    let t = water.celsius() / 100.0;
    t * ENTHALPY
        .iter()
        .rev()
        .fold(0.0, |sum, coefficient| sum * t + coefficient)
}

/// Enthalpy of ice over that of water at 0 °C, in joules per gram: below nothing by all that it takes up until it is melted. From
/// -30 to 0 °C.
pub fn ice_enthalpy(ice: Temperature) -> f64 {
    ICE * ice.celsius() - MELTING
}
