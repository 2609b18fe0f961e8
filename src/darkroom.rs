//! A darkroom on a day: the kit, the shelf, and which day it is. Everything of the user's that a calculator may know.
//!
//! ```
//! use meniscus::darkroom::Darkroom;
//! use meniscus::quantity::Day;
//!
//! let today: Day = "2026-03-01".parse().expect("a day");
//! assert_eq!(Darkroom::starter(today).kit.tanks.len(), 1);
//! ```

use crate::kit::Kit;
use crate::ledger::Shelf;
use crate::quantity::Day;

/// What stands at the sink and on the shelf.
#[derive(Clone, Debug, PartialEq)]
pub struct Darkroom {
    /// Instruments, tanks, the labels of the bottles, the house.
    pub kit: Kit,
    /// The bottles and places with their lives, folded for today.
    pub shelf: Shelf,
}

impl Darkroom {
    /// The starter kit and an empty shelf.
    pub fn starter(today: Day) -> Self {
        Self::with(Kit::starter(), today)
    }

    /// This kit and an empty shelf.
    pub fn with(kit: Kit, today: Day) -> Self {
        Self {
            kit,
            shelf: Shelf::empty(today),
        }
    }

    /// The day for which the shelf was worked out.
    pub fn today(&self) -> Day {
        self.shelf.today
    }
}
