//! Classes of solution and what may be assumed of each; substances, and water.

mod class;
mod formula;
mod reserve;
mod substance;
mod water;

pub use class::{Class, Guess, PROGRESS};
pub use formula::Formula;
pub use reserve::{OXYGEN_PER_AGENT, Reserve, SULFITE_PER_OXYGEN, TypicalLives, TypicalReserve};
pub use substance::{Element, Substance};
pub use water::{ice_enthalpy, water_density, water_enthalpy};
