//! Why an estimate cannot be made.

use std::fmt;

/// What is wrong with the inputs, the formula or the question.
#[derive(Clone, Debug, PartialEq)]
pub enum Error {
    /// There is nothing to propagate.
    NoInputs,
    /// A value is not a finite number.
    Value {
        /// The input's name.
        input: String,
        /// Its value.
        given: f64,
    },
    /// A standard uncertainty is negative or not a finite number.
    Uncertainty {
        /// The input's name.
        input: String,
        /// Its standard uncertainty.
        given: f64,
    },
    /// Degrees of freedom are not a finite number above zero.
    DegreesOfFreedom {
        /// The input's name.
        input: String,
        /// Its degrees of freedom.
        given: f64,
    },
    /// Two inputs of one group cannot have the same error.
    Group {
        /// The group's name.
        group: String,
        /// The group's first input.
        first: String,
        /// The input that is unlike it.
        other: String,
    },
    /// The formula has no finite result at the stated values.
    Model {
        /// What it gives.
        given: f64,
    },
    /// The formula has no finite slope along one input.
    Slope {
        /// The input's name.
        input: String,
    },
    /// A coverage is not strictly between 0 and 1.
    Coverage {
        /// The coverage asked for.
        given: f64,
    },
    /// A probability is not from 0 to 1.
    Probability {
        /// The probability asked for.
        given: f64,
    },
    /// There are too few draws for what is asked.
    Draws {
        /// How many there are.
        given: usize,
        /// How many it takes.
        least: usize,
    },
    /// A draw has no finite result.
    Draw {
        /// The result.
        given: f64,
    },
}

impl fmt::Display for Error {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NoInputs => write!(f, "there are no inputs: give at least one"),
            Self::Value { input, given } => {
                write!(f, "the value of `{input}` is {given}: give a finite number")
            }
            Self::Uncertainty { input, given } => {
                write!(
                    f,
                    "the standard uncertainty of `{input}` is {given}: give a width that is zero or more"
                )
            }
            Self::DegreesOfFreedom { input, given } => {
                write!(
                    f,
                    "the degrees of freedom of `{input}` are {given}: give a number above zero, or none at all"
                )
            }
            Self::Group { group, first, other } => write!(
                f,
                "`{first}` and `{other}` differ in shape or degrees of freedom, so they cannot share one error: \
                 make them alike or take one out of the group `{group}`"
            ),
            Self::Model { given } => {
                write!(
                    f,
                    "the formula gives {given} at the stated values: give values for which it has a result"
                )
            }
            Self::Slope { input } => {
                write!(
                    f,
                    "the formula has no slope along `{input}` at the stated values: move away from its edge"
                )
            }
            Self::Coverage { given } => write!(f, "a coverage of {given} is not between 0 and 1: 0.95 is usual"),
            Self::Probability { given } => write!(f, "a probability of {given} is not from 0 to 1"),
            Self::Draws { given, least } => {
                write!(f, "{given} draws are too few: take at least {least}")
            }
            Self::Draw { given } => {
                write!(
                    f,
                    "a draw gives {given}: keep the inputs where the formula has a result"
                )
            }
        }
    }
}

impl std::error::Error for Error {}
