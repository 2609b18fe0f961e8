//! The vocabulary of the house: kinds of quantity that cannot be mixed up.
//!
//! A volume is not a mass, and a temperature is not a temperature difference; the compiler holds them apart.
//! Units exist only where text is read ([`read`]) and where it is shown ([`show`]); in between everything is in one unit
//! a kind (millilitres, grams, degrees Celsius, seconds).
//!
//! ```
//! use meniscus::quantity::{Temperature, TemperatureDifference, Volume};
//!
//! let bath = Volume::from_millilitres(600.0);
//! assert_eq!((bath / 32.0).millilitres(), 18.75);
//! let warmer = Temperature::from_celsius(20.0) + TemperatureDifference::from_kelvins(2.0);
//! assert_eq!(warmer.celsius(), 22.0);
//! ```
//!
//! Adding a mass to a volume, or two temperatures, does not compile:
//!
//! ```compile_fail
//! use meniscus::quantity::{Mass, Volume};
//! let _ = Volume::from_millilitres(1.0) + Mass::from_grams(1.0);
//! ```
//! ```compile_fail
//! use meniscus::quantity::Temperature;
//! let _ = Temperature::from_celsius(20.0) + Temperature::from_celsius(2.0);
//! ```

#[macro_use]
mod linear;

mod amount;
mod area;
pub mod bounds;
mod day;
mod dilution;
pub mod exact;
pub(crate) mod held;
pub(crate) mod power;
mod mass;
pub mod read;
pub mod show;
pub(crate) mod sorted;
mod span;
mod temperature;
pub(crate) mod text;
mod volume;

pub use amount::Amount;
pub use area::{Area, FILM_UNIT};
pub use bounds::Bounds;
pub use day::{Day, DayError, YEAR};
pub use dilution::{Dilution, DilutionError, Notation, Parts};
pub use mass::{Mass, MassDensity};
pub use show::{DecimalMark, TemperatureUnit, Units, VolumeUnit};
pub use span::Span;
pub use temperature::{Temperature, TemperatureDifference};
pub use volume::Volume;
