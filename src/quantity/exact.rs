//! Quantities as text that reads back as the same quantity, for fields that are filled from what is kept.

use super::show::{TemperatureUnit, VolumeUnit, rounded};
use super::{Mass, Span, Temperature, TemperatureDifference, Units, Volume};

/// A volume as text that reads back as the same volume: in the user's own unit if four decimals of it are enough, and else
/// in millilitres, to a ten-thousandth.
pub fn volume(volume: Volume, units: Units) -> String {
    let ounces = volume / Volume::US_FLUID_OUNCE;
    let kept = Volume::US_FLUID_OUNCE * rounded(ounces, 4);
    match units.volume {
        // What is kept is whole microlitres.
        VolumeUnit::UsFluidOunce if kept.microlitres() == volume.microlitres() => {
            format!("{} fl oz", number(ounces, 4, units))
        }
        _ => format!("{} ml", number(volume.millilitres(), 4, units)),
    }
}

/// A mass as text that reads back as the same mass, to a microgram.
pub fn mass(mass: Mass, units: Units) -> String {
    format!("{} g", number(mass.grams(), 6, units))
}

/// A temperature as text that reads back as the same temperature, to a thousandth of a degree Celsius.
pub fn temperature(temperature: Temperature, units: Units) -> String {
    match units.temperature {
        TemperatureUnit::Celsius => format!("{} °C", number(temperature.celsius(), 3, units)),
        TemperatureUnit::Fahrenheit => format!("{} °F", number(temperature.fahrenheit(), 4, units)),
    }
}

/// A time as text that reads back as the same time, to a millisecond.
pub fn span(span: Span, units: Units) -> String {
    match (span.seconds() - span.seconds().round()).abs() < 0.000_5 {
        true => units.span(span),
        false => format!("{} s", number(span.seconds(), 3, units)),
    }
}

/// A difference of temperature as text that reads back as the same difference.
pub fn difference(difference: TemperatureDifference, units: Units) -> String {
    match units.temperature {
        TemperatureUnit::Celsius => format!("{} C", number(difference.kelvins(), 3, units)),
        TemperatureUnit::Fahrenheit => format!("{} F", number(difference.kelvins() * 1.8, 4, units)),
    }
}

/// A number that cannot be read as thousands: three decimals could be, and a fourth settles it.
fn number(value: f64, places: usize, units: Units) -> String {
    let text = units.number(value, places);
    match text.split_once(['.', ',']) {
        Some((_, decimals)) if decimals.len() == 3 => format!("{text}0"),
        _ => text,
    }
}
