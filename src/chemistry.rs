//! Classes of solution and what may be assumed of each.

mod class;
mod formula;
mod reserve;
mod substance;

pub use class::{Class, Guess, PROGRESS};
pub use formula::Formula;
pub use reserve::{OXYGEN_PER_AGENT, Reserve, SULFITE_PER_OXYGEN, TypicalLives, TypicalReserve};
pub use substance::{Element, Substance};
