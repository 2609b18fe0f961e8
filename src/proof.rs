//! Proving the chemistry: what a test finds, and whether a series of tests has moved.

pub mod control;
mod finding;

pub use finding::{Finding, Outcome, TestKind};
