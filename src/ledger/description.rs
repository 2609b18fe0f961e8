//! What events say of bottles, places and tests.

use crate::keeping::SheetLives;
use crate::kit::{Bottle, Colour, Container, Material};
use crate::quantity::{Area, Day, Volume};

/// What a bottle is, as far as anybody knows.
#[derive(Clone, Debug, PartialEq)]
pub struct Description {
    /// What label and data sheet say.
    pub label: Bottle,
    /// The vessel.
    pub container: ContainerNote,
    /// What it cost.
    pub price: Option<Price>,
    /// How long it keeps, by the data sheet; kept in whole days.
    pub lives: SheetLives,
    /// Film units that a litre of it takes, by the data sheet.
    pub films_per_litre: Option<Thousandths>,
}

/// What is known of a container. What is not known is not invented.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct ContainerNote {
    /// The user's name for it; may be empty.
    pub name: String,
    /// What it holds to the brim.
    pub brimful: Option<Volume>,
    /// What it is sold as.
    pub nominal: Option<Volume>,
    /// What the wall is made of.
    pub material: Option<Material>,
    /// Area of the wall.
    pub wall_area: Option<Area>,
    /// Thickness of the wall in millimetres.
    pub thickness: Option<f64>,
    /// How it stands to light.
    pub colour: Option<Colour>,
}

/// A price.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Price {
    /// In hundredths of the currency.
    pub cents: u32,
    /// The currency, as the user writes it.
    pub currency: String,
}

/// A number in whole thousandths: a strength (1000 is fresh), film units (1000 is one).
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub struct Thousandths(pub u32);

/// Whether and when a bottle was opened for the first time.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Opened {
    /// It was not.
    Never,
    /// On that day.
    On(Day),
    /// It was, and nobody knows when.
    SomeDay,
    /// Nobody knows whether.
    NotKnown,
}

/// What a test showed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TestResult {
    /// As it should be.
    Passed,
    /// As it should be, by eye alone, which finds only gross faults.
    Seen,
    /// Not as it should be.
    Failed,
    /// So strong against fresh.
    Strength {
        /// 1000 is as strong as fresh.
        strength: Thousandths,
        /// Its standard uncertainty, if it is known.
        uncertainty: Option<Thousandths>,
    },
}

impl Description {
    /// What a label says, and nothing else known.
    pub fn of(label: Bottle) -> Self {
        Self {
            label,
            container: ContainerNote::default(),
            price: None,
            lives: SheetLives::default(),
            films_per_litre: None,
        }
    }
}

impl ContainerNote {
    /// The container, as far as it must be known to tell what air does: its size and its material. A capacity to the brim that
    /// nobody measured is assumed from the nominal one, and a colour that nobody noted lets light in.
    pub fn container(&self) -> Option<Container> {
        let assumed = |nominal| Volume::from_millilitres(Container::brimful_of(nominal).value);
        Some(Container {
            name: self.name.clone(),
            brimful: self.brimful.or(self.nominal.map(assumed))?,
            nominal: self.nominal,
            material: self.material?,
            wall_area: self.wall_area,
            thickness: self.thickness,
            colour: self.colour.unwrap_or(Colour::Clear),
        })
    }
}

impl Thousandths {
    /// The nearest to a number; 0 where it is negative or none.
    pub fn nearest(value: f64) -> Self {
        Self((value * 1000.0).round() as u32)
    }

    /// As a number: 1 for 1000.
    pub fn number(self) -> f64 {
        f64::from(self.0) / 1000.0
    }
}
