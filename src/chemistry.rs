//! Classes of solution and what may be assumed of each.

mod class;

pub use class::{Class, Guess, PROGRESS};
