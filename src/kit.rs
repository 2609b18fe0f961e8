//! What stands at the sink: instruments, balances, tanks, bottles in simple form, and how well they measure.
//!
//! ```
//! use meniscus::kit::{Kit, ways};
//! use meniscus::quantity::{TemperatureDifference, Volume};
//!
//! let kit = Kit::starter();
//! let wanted = Volume::from_millilitres(18.75);
//! let ways = ways(&kit, wanted, None, TemperatureDifference::ZERO);
//! assert!(ways[0].relative_uncertainty() < 0.02);
//! ```

mod batches;
mod bottle;
mod calibration;
pub mod container;
mod film;
mod instrument;
mod on_mark;
mod starter;
mod tank;
mod thermometer;
mod tolerance;
mod volume_errors;
mod ways;
mod weighing_out;

pub use batches::{Alike, Batch, Hands, InTurn, LeftOut, Limits, Plan, in_turn, plan, thriftiest};
pub use bottle::Bottle;
pub use calibration::{
    BETWEEN, Calibration, HOLDS, Verdict, Weighed, Weighing, air_density, is_old, verdict, z_factor,
};
pub use container::{Climate, Colour, Container, Light, Material, PLACE_TEMPERATURE, Place, Treatment, Warmth};
pub use film::{Film, Load};
pub use instrument::{Balance, Draws, Instrument, InstrumentKind, MOST_MARKS, Reading, Spread};
pub use on_mark::{OnMark, on_mark};
pub use tank::{Cover, Tank, Turning};
pub use thermometer::{Compared, Comparison, Thermometer};
pub use tolerance::{Grade, Tolerance, syringe_dead_space};
pub use volume_errors::VolumeErrors;
pub use ways::{MOST_DRAWS, Measured, Way, ways};
pub use weighing_out::{Solution, Weight};

use crate::quantity::{Span, Temperature, TemperatureDifference, Units};

/// Everything of the user's that a calculator may use.
#[derive(Clone, Debug, PartialEq)]
pub struct Kit {
    /// Syringes, cylinders, pipettes, jugs.
    pub instruments: Vec<Kept<Instrument>>,
    /// Balances.
    pub balances: Vec<Kept<Balance>>,
    /// Tanks.
    pub tanks: Vec<Kept<Tank>>,
    /// Bottles.
    pub bottles: Vec<Kept<Bottle>>,
    /// What holds for the whole darkroom.
    pub house: House,
    /// The line by which its thermometer is put right, where it was compared with a better one.
    pub thermometer: Option<Thermometer>,
}

/// A thing with the name it is kept under in the store.
#[derive(Clone, Debug, PartialEq)]
pub struct Kept<T> {
    /// Key in the store.
    pub id: String,
    /// The thing.
    pub item: T,
}

/// What holds for the whole darkroom.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct House {
    /// Units shown, and assumed where none is written.
    pub units: Units,
    /// Half-width of the thermometer's error, where it was not compared with a better one.
    pub thermometer: TemperatureDifference,
    /// Half-width of the error of starting, pouring and stopping.
    pub timing: Span,
    /// Standard deviation of contrast from one hand process to the next, percent: agitation and all that is not measured.
    pub hand: f64,
}

impl Kit {
    /// Nothing but the starter's house.
    pub fn empty() -> Self {
        Self {
            instruments: Vec::new(),
            balances: Vec::new(),
            tanks: Vec::new(),
            bottles: Vec::new(),
            ..Self::starter()
        }
    }

    /// The temperature where the thermometer shows this.
    pub fn corrected(&self, shown: Temperature) -> Temperature {
        self.thermometer.map_or(shown, |line| line.corrected(shown))
    }

    /// Half-width of the error of a temperature that was read, as of a rectangle: its standard uncertainty is this over the root of 3.
    pub fn thermometer_limit(&self, shown: Temperature) -> TemperatureDifference {
        match &self.thermometer {
            Some(line) => line.standard_uncertainty(shown) * 3f64.sqrt(),
            None => self.house.thermometer,
        }
    }

    /// The house as it is where the thermometer shows this: a calibrated thermometer has the half-width that its calibration
    /// leaves.
    pub fn house_at(&self, shown: Temperature) -> House {
        House {
            thermometer: self.thermometer_limit(shown),
            ..self.house
        }
    }

    /// The bottle kept under that key.
    pub fn bottle(&self, id: &str) -> Option<&Bottle> {
        find(&self.bottles, id)
    }

    /// The tank kept under that key.
    pub fn tank(&self, id: &str) -> Option<&Tank> {
        find(&self.tanks, id)
    }
}

fn find<'a, T>(all: &'a [Kept<T>], id: &str) -> Option<&'a T> {
    all.iter().find(|kept| kept.id == id).map(|kept| &kept.item)
}
