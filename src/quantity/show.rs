//! Quantities to text: rounded once, last, and in the units that the user chose.
//!
//! ```
//! use meniscus::quantity::{Units, Volume};
//!
//! let units = Units::default();
//! assert_eq!(units.volume(Volume::from_millilitres(18.75)), "18.75 ml");
//! assert_eq!(units.volume(Volume::from_millilitres(1500.0)), "1500 ml");
//! ```

use super::{Amount, Mass, Span, Temperature, TemperatureDifference, Volume};

/// The units and the decimal mark in which a user reads and writes.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Units {
    /// For volumes.
    pub volume: VolumeUnit,
    /// For temperatures.
    pub temperature: TemperatureUnit,
    /// Between whole and fraction; both are always read.
    pub decimal: DecimalMark,
}

/// Unit of volume, shown and assumed where none is written.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum VolumeUnit {
    /// Millilitres.
    #[default]
    Millilitre,
    /// US fluid ounces.
    UsFluidOunce,
}

/// Unit of temperature, shown and assumed where none is written.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum TemperatureUnit {
    /// Degrees Celsius.
    #[default]
    Celsius,
    /// Degrees Fahrenheit.
    Fahrenheit,
}

/// The mark between whole and fraction.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum DecimalMark {
    /// 18.75
    #[default]
    Point,
    /// 18,75
    Comma,
}

impl Units {
    /// The volume that is counted as one.
    pub fn volume_unit(self) -> Volume {
        match self.volume {
            VolumeUnit::Millilitre => Volume::from_millilitres(1.0),
            VolumeUnit::UsFluidOunce => Volume::US_FLUID_OUNCE,
        }
    }

    /// A number, at most `places` decimals, trailing zeros dropped.
    pub fn number(self, value: f64, places: usize) -> String {
        let text = trimmed(value, places);
        match self.decimal {
            DecimalMark::Point => text,
            DecimalMark::Comma => text.replace('.', ","),
        }
    }

    /// A number with three significant figures, for anything that is only an estimate.
    pub fn about(self, value: f64) -> String {
        self.number(value, places_for(value, 3))
    }

    /// So many hundredths, both decimals written: an amount of money.
    pub fn hundredths(self, count: u64) -> String {
        let mark = match self.decimal {
            DecimalMark::Point => '.',
            DecimalMark::Comma => ',',
        };
        format!("{}{mark}{:02}", count / 100, count % 100)
    }

    /// A multiple of something, three significant figures, and no more than two decimals.
    pub fn times(self, value: f64) -> String {
        self.number(value, places_for(value, 3).min(2))
    }

    /// A volume with its unit: to 0.01 ml below a litre, then 0.1 ml; four figures in fluid ounces.
    pub fn volume(self, volume: Volume) -> String {
        match self.volume {
            VolumeUnit::Millilitre => {
                let value = volume.millilitres();
                format!("{} ml", self.number(value, millilitre_places(value)))
            }
            VolumeUnit::UsFluidOunce => {
                let value = volume / Volume::US_FLUID_OUNCE;
                format!("{} fl oz", self.number(value, places_for(value, 4)))
            }
        }
    }

    /// The volume as [`Units::volume`] shows it, as a number again.
    pub fn shown_volume(self, volume: Volume) -> Volume {
        let (unit, places) = match self.volume {
            VolumeUnit::Millilitre => (1.0, millilitre_places(volume.millilitres())),
            VolumeUnit::UsFluidOunce => {
                let unit = Volume::US_FLUID_OUNCE.millilitres();
                (unit, places_for(volume.millilitres() / unit, 4))
            }
        };
        Volume::from_millilitres(rounded(volume.millilitres() / unit, places) * unit)
    }

    /// An uncertainty of a volume, two significant figures.
    pub fn volume_error(self, volume: Volume) -> String {
        self.volume_figures(volume, 2)
    }

    /// A volume that is only an estimate, or to be poured by a coarse scale: three significant figures.
    pub fn volume_about(self, volume: Volume) -> String {
        self.volume_figures(volume, 3)
    }

    fn volume_figures(self, volume: Volume, figures: i32) -> String {
        let (value, unit) = match self.volume {
            VolumeUnit::Millilitre => (volume.millilitres(), "ml"),
            VolumeUnit::UsFluidOunce => (volume / Volume::US_FLUID_OUNCE, "fl oz"),
        };
        format!("{} {unit}", self.number(value, places_for(value, figures)))
    }

    /// A mass with its unit: to 0.01 g below 100 g, then 0.1 g.
    pub fn mass(self, mass: Mass) -> String {
        format!(
            "{} g",
            self.number(mass.grams(), if mass.grams().abs() < 99.995 { 2 } else { 1 })
        )
    }

    /// An uncertainty of a mass, two significant figures, and no finer than to a tenth of a milligram.
    pub fn mass_error(self, mass: Mass) -> String {
        format!("{} g", self.number(mass.grams(), places_for(mass.grams(), 2).min(4)))
    }

    /// A mass that is only an estimate: three significant figures.
    pub fn mass_about(self, mass: Mass) -> String {
        format!("{} g", self.about(mass.grams()))
    }

    /// A small mass in milligrams, three significant figures, and no more than two decimals.
    pub fn milligrams(self, mass: Mass) -> String {
        self.at_least(mass.grams() * 1000.0, 3, "mg")
    }

    /// An amount of substance in millimoles, three significant figures, and no more than two decimals.
    pub fn amount(self, amount: Amount) -> String {
        self.at_least(amount.millimoles(), 3, "mmol")
    }

    /// A stretch of the calendar as people say it: days, whole weeks, months from a quarter of a year, years from two.
    pub fn period(self, days: f64) -> String {
        super::read::show_period(days, self)
    }

    /// A temperature with its unit, to 0.1 degree.
    pub fn temperature(self, temperature: Temperature) -> String {
        match self.temperature {
            TemperatureUnit::Celsius => format!("{} °C", self.number(temperature.celsius(), 1)),
            TemperatureUnit::Fahrenheit => format!("{} °F", self.number(temperature.fahrenheit(), 1)),
        }
    }

    /// A difference of temperature with its unit, two significant figures.
    pub fn temperature_difference(self, difference: TemperatureDifference) -> String {
        let (value, unit) = match self.temperature {
            TemperatureUnit::Celsius => (difference.kelvins(), "°C"),
            TemperatureUnit::Fahrenheit => (difference.kelvins() * 1.8, "°F"),
        };
        format!("{} {unit}", self.number(value, places_for(value, 2)))
    }

    /// A percentage of a share (0.05 is 5 %), two significant figures, and no more than two decimals.
    pub fn percent(self, share: f64) -> String {
        self.at_least(share * 100.0, 2, "%")
    }

    /// A number of so many significant figures with its unit, to the hundredth at the finest: what is less than half of that, but
    /// more than floating point leaves of nothing, is said to be less.
    fn at_least(self, value: f64, figures: i32, unit: &str) -> String {
        match value > 1e-9 && value < 0.005 {
            true => format!("less than {} {unit}", self.number(0.01, 2)),
            false => format!("{} {unit}", self.number(value, places_for(value, figures).min(2))),
        }
    }

    /// A time as minutes and seconds, `6:45`, or hours, `1:05:00`; to the second.
    pub fn span(self, span: Span) -> String {
        let all = span.seconds().round().max(0.0) as u64;
        let (hours, minutes, seconds) = (all / 3600, all / 60 % 60, all % 60);
        if hours > 0 {
            format!("{hours}:{minutes:02}:{seconds:02}")
        } else {
            format!("{minutes}:{seconds:02}")
        }
    }

    /// `45 s` below a minute, `1:30` from there on.
    pub fn brief(self, span: Span) -> String {
        match span.seconds() < 59.5 {
            true => self.seconds(span),
            false => self.span(span),
        }
    }

    /// A short difference of time in seconds, two significant figures.
    pub fn seconds(self, span: Span) -> String {
        let value = span.seconds();
        format!("{} s", self.number(value, places_for(value, 2).min(1)))
    }
}

/// From the lowest to the highest, as shown: a unit that both have is said once. Nothing where both read the same.
///
/// ```
/// use meniscus::quantity::show::range;
///
/// assert_eq!(range("1.5 %", "17 %").as_deref(), Some("1.5 to 17 %"));
/// assert_eq!(range("1 day", "90 days").as_deref(), Some("1 to 90 days"));
/// assert_eq!(range("2 days", "8 weeks").as_deref(), Some("2 days to 8 weeks"));
/// assert_eq!(range("0.28", "0.28"), None);
/// ```
pub fn range(low: &str, high: &str) -> Option<String> {
    let parted = low.split_once(' ').zip(high.split_once(' '));
    let same = |one: &str, other: &str| one == other || Some(one) == other.strip_suffix('s');
    let short = parted.filter(|(low, high)| same(low.1, high.1)).map(|(low, _)| low.0);
    (low != high).then(|| format!("{} to {high}", short.unwrap_or(low)))
}

/// A number with at most `places` decimals, a decimal point, and no trailing zeros. Exact for what instruments show, up to 15
/// figures; beyond that the figures are those of the nearest number that can be held.
pub fn trimmed(value: f64, places: usize) -> String {
    let scaled = (value * 10f64.powi(places as i32)).round() as i64;
    let mut digits = scaled.unsigned_abs().to_string();
    while digits.len() <= places {
        digits.insert(0, '0');
    }
    if places > 0 {
        digits.insert(digits.len() - places, '.');
        while digits.ends_with('0') {
            digits.pop();
        }
        if digits.ends_with('.') {
            digits.pop();
        }
    }
    if scaled < 0 {
        digits.insert(0, '-');
    }
    digits
}

/// The value rounded half away from zero to so many decimals.
pub fn rounded(value: f64, places: usize) -> f64 {
    let scale = 10f64.powi(places as i32);
    (value * scale).round() / scale
}

fn millilitre_places(value: f64) -> usize {
    match value.abs() {
        size if size < 999.995 => 2,
        _ => 1,
    }
}

/// Decimals that show so many significant figures.
fn places_for(value: f64, figures: i32) -> usize {
    if value == 0.0 || !value.is_finite() {
        return 0;
    }
    let magnitude = value.abs().log10().floor() as i32;
    (figures - 1 - magnitude).clamp(0, 8) as usize
}
