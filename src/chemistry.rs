//! Classes of solution and what may be assumed of each; substances, published formulas and recipes; washing; water.

mod class;
mod substance;
mod hazard;
mod spelling;
mod formula;
mod recipe;
mod reserve;
mod washing;
mod water;

pub use class::{Class, Guess, PROGRESS};
pub use formula::{Formula, Known};
pub use hazard::Hazard;
pub use recipe::{FIRST_WATER, Line, Recipe, What};
pub use reserve::{OXYGEN_PER_AGENT, Reserve, SULFITE_PER_OXYGEN, TypicalLives, TypicalReserve};
pub use spelling::{NoSuchForm, Written};
pub use substance::{Element, Role, Substance};
pub use washing::{
    CARRIED_PER_FILM, HELD, How, SEQUENCES, SOAK, Sequence, THIOSULFATE, TO_LAST, Wash, slower, wanted_share,
};
pub use water::{WATER_HEAT, ice_enthalpy, water_density, water_enthalpy};
