//! The kinds of field: what each reads, and how it says what it takes.

use super::{Field, Kind};
use crate::development::{self, SheetTime};
use crate::kit::{Climate, PLACE_TEMPERATURE};
use crate::quantity::text::joined;
use crate::quantity::text::split_at_word;
use crate::quantity::{
    Bounds, Day, DayError, Dilution, Mass, MassDensity, Span, Temperature, TemperatureDifference, Units, Volume, read,
};

macro_rules! bounded {
    ($(#[$doc:meta])* $kind:ident, $make:ident, $value:ty, $read:path, $show:path) => {
        $(#[$doc])*
        #[derive(Clone, Copy)]
        pub struct $kind(&'static Bounds);

        impl Kind for $kind {
            type Value = $value;

            fn read(&self, text: &str, units: Units) -> Result<$value, String> {
                $read(text, self.0, units).map_err(|error| error.to_string())
            }

            fn takes(&self, units: Units) -> String {
                format!("{} to {}", $show(self.0.least, units), $show(self.0.most, units))
            }
        }

        impl Field<$kind> {
            $(#[$doc])*
            pub const fn $make(name: &'static str, label: &'static str, bounds: &'static Bounds) -> Self {
                Field::new(name, label, $kind(bounds))
            }
        }
    };
}

bounded!(
    /// A field for a volume.
    Volumes, volume, Volume, read::volume, read::show_volume
);
bounded!(
    /// A field for a mass.
    Masses, mass, Mass, read::mass, read::show_mass
);
bounded!(
    /// A field for a density.
    Densities, density, MassDensity, read::density, read::show_density
);
bounded!(
    /// A field for a temperature.
    Temperatures, temperature, Temperature, read::temperature, read::show_temperature
);
bounded!(
    /// A field for a difference of temperatures.
    TemperatureDifferences,
    temperature_difference,
    TemperatureDifference,
    read::temperature_difference,
    read::show_temperature_difference
);
bounded!(
    /// A field for a time.
    Spans, span, Span, read::span, read::show_span
);
bounded!(
    /// A field for a percentage.
    Percents, percent, f64, read::percent, read::show_percent
);
bounded!(
    /// A field for a number without a unit.
    Numbers, number, f64, read::number, read::show_number
);
bounded!(
    /// A field for a whole number.
    Counts, count, u32, read::count, read::show_number
);

bounded!(
    /// A field for a stretch of the calendar, in days.
    Periods, period, f64, read::period, read::show_period
);

/// A field for a day of the calendar.
#[derive(Clone, Copy)]
pub struct Days;

impl Kind for Days {
    type Value = Day;

    fn read(&self, text: &str, _: Units) -> Result<Day, String> {
        text.parse().map_err(|error: DayError| error.to_string())
    }

    fn takes(&self, _: Units) -> String {
        "year-month-day, as 2026-03-01".to_owned()
    }
}

/// A field for how warm a place is: always about the same, anything between two temperatures, or with the seasons.
#[derive(Clone, Copy)]
pub struct Climates;

/// The day on which a place that follows the seasons is warmest, counted from the first of January: late July. South of the
/// equator it is half a year later, which moves no yearly mean.
const WARMEST: u32 = 205;

impl Kind for Climates {
    type Value = Climate;

    fn read(&self, text: &str, units: Units) -> Result<Climate, String> {
        let read = |text: &str| {
            read::temperature(text, &PLACE_TEMPERATURE, units).map_err(|error: read::ReadError| error.to_string())
        };
        let text = text.trim();
        let by_season = text.strip_suffix("seasonal").or(text.strip_suffix("by season"));
        let ends = by_season.unwrap_or(text);
        let Some((low, high)) = split_at_word(ends, " to ") else {
            return match by_season {
                None => read(text).map(Climate::Steady),
                Some(_) => {
                    Err("a place that follows the seasons has two temperatures; write 8 to 24 C seasonal".to_owned())
                }
            };
        };
        // The unit that is written once holds for both.
        let unit = high.trim_start_matches(|c: char| !(c.is_ascii_alphabetic() || ['°', 'º'].contains(&c)));
        let (low, high) = match read::decimal(low) {
            Some(_) => (read(&format!("{} {unit}", low.trim()))?, read(high)?),
            None => (read(low)?, read(high)?),
        };
        match (low <= high, by_season) {
            (false, _) => Err("the first temperature is the lower one".to_owned()),
            (true, None) => Ok(Climate::Between(low, high)),
            (true, Some(_)) => Ok(Climate::Seasonal {
                low,
                high,
                warmest: WARMEST,
            }),
        }
    }

    fn takes(&self, units: Units) -> String {
        let show = |celsius| read::show_temperature(celsius, units);
        format!(
            "{}, {} to {}, or {} to {} seasonal",
            show(18.0),
            show(16.0),
            show(23.0),
            show(8.0),
            show(24.0)
        )
    }
}

/// A field for a dilution in any notation.
#[derive(Clone, Copy)]
pub struct Dilutions;

impl Kind for Dilutions {
    type Value = Dilution;

    fn read(&self, text: &str, _: Units) -> Result<Dilution, String> {
        text.parse()
            .map_err(|error: crate::quantity::DilutionError| error.to_string())
    }

    fn takes(&self, _: Units) -> String {
        "1+31, 1:31, 1 in 32, 1+1+100, 3 %, stock, 20 g/l, 1+3 then 1+7".to_owned()
    }
}

/// A field for several dilutions, parted by semicolons.
#[derive(Clone, Copy)]
pub struct DilutionLists;

impl Kind for DilutionLists {
    type Value = Vec<Dilution>;

    fn read(&self, text: &str, _: Units) -> Result<Vec<Dilution>, String> {
        Dilution::read_list(text).map_err(|error| error.to_string())
    }

    fn takes(&self, _: Units) -> String {
        "the usual one first: 1+31; 1+63".to_owned()
    }
}

/// A field for the times of a data sheet, one a line or parted by semicolons.
#[derive(Clone, Copy)]
pub struct SheetTimes;

impl Kind for SheetTimes {
    type Value = Vec<SheetTime>;

    fn read(&self, text: &str, units: Units) -> Result<Vec<SheetTime>, String> {
        development::read_sheet_times(text, units).map_err(|error| error.to_string())
    }

    fn takes(&self, _: Units) -> String {
        "one a line: 6:45 at 20 C 1+31".to_owned()
    }
}

/// A field for one of a few words, each with its value.
#[derive(Clone, Copy)]
pub struct Choice<T: 'static>(pub &'static [(&'static str, &'static str, T)]);

impl<T: Copy> Kind for Choice<T> {
    type Value = T;

    fn read(&self, text: &str, _: Units) -> Result<T, String> {
        let found = self.0.iter().find(|(word, _, _)| *word == text);
        found.map(|(_, _, value)| *value).ok_or_else(|| {
            let words: Vec<_> = self.0.iter().map(|(word, _, _)| *word).collect();
            format!("choose one of {}", joined(&words, ", "))
        })
    }

    fn takes(&self, _: Units) -> String {
        let labels: Vec<_> = self.0.iter().map(|(_, label, _)| *label).collect();
        joined(&labels, "; ")
    }

    fn options(&self) -> Vec<(&'static str, &'static str)> {
        self.0.iter().map(|(word, label, _)| (*word, *label)).collect()
    }
}

impl<T: Copy + PartialEq> Field<Choice<T>> {
    /// The word that reads as this value.
    pub fn word(&self, value: T) -> String {
        let found = self.kind.0.iter().find(|(_, _, other)| *other == value);
        found.map_or(String::new(), |(word, _, _)| (*word).to_owned())
    }
}

macro_rules! short_text {
    ($(#[$doc:meta])* $kind:ident, $what:literal, $most:literal) => {
        $(#[$doc])*
        #[derive(Clone, Copy)]
        pub struct $kind;

        impl Kind for $kind {
            type Value = String;

            fn read(&self, text: &str, _: Units) -> Result<String, String> {
                match text.chars().count() <= $most {
                    true => Ok(text.to_owned()),
                    false => Err(concat!($what, " has at most ", $most, " characters").to_owned()),
                }
            }

            fn takes(&self, _: Units) -> String {
                concat!("up to ", $most, " characters").to_owned()
            }
        }
    };
}

short_text!(
    /// A field for a name: a label on a bottle, or which thing of the kit is meant.
    Names, "a name", 60
);
short_text!(
    /// A field for a few lines of the user's own words.
    Notes, "a note", 1000
);
