//! Proving the chemistry: what a test finds.

mod finding;

pub use finding::{Finding, Outcome, TestKind};
