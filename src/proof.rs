//! Proving the chemistry: what a test finds, and whether two negatives differ.

pub mod comparison;
mod finding;

pub use finding::{Finding, Outcome, TestKind};
