//! Proving the chemistry: what a test finds.

mod finding;
pub mod sampling;

pub use finding::{Finding, Outcome, TestKind};
