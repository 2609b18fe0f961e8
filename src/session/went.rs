//! What was done: each step as it really went.

use super::Recipe;
use crate::quantity::{Span, Temperature};

/// One developing, as it went.
#[derive(Clone, Debug, PartialEq)]
pub struct Session {
    /// What was to be done.
    pub recipe: Recipe,
    /// When it began, in milliseconds since 1970 by the device's clock.
    pub began: i64,
    /// The steps as they went, in order.
    pub steps: Vec<Went>,
    /// What is not certain about it, in sentences; the device slept, say, or its clock was changed.
    pub doubts: Vec<String>,
    /// The user's words; may be empty.
    pub note: String,
}

/// A step as it went.
#[derive(Clone, Debug, PartialEq)]
pub struct Went {
    /// Which step of the recipe, from 0. One that was done again stands twice.
    pub step: usize,
    /// From the beginning of all to the beginning of this.
    pub began: Span,
    /// How long it took, pauses left out.
    pub lasted: Span,
    /// How long it should have taken in the end: the recipe's time, with what was added and what temperature asked for.
    pub due: Span,
    /// How long it stood still.
    pub paused: Span,
    /// Temperatures that were read, each so long after the beginning of the step.
    pub readings: Vec<(Span, Temperature)>,
}
