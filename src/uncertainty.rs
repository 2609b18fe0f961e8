//! What is known about a number, and how well: estimates with their uncertainty budget.
//!
//! What is carried through a formula comes in as an [`Input`]: a value, a [`Distribution`] of what it may be off by, and, where it is the
//! same error again in several inputs (two draws from one syringe), the name of the group that shares it. From there:
//!
//! - [`Estimate::propagate`] carries the inputs through a formula to first order and keeps the budget, line by line
//!   (JCGM 100:2008, the *Guide to the expression of uncertainty in measurement*, "GUM");
//! - [`monte_carlo::run`] carries the whole distributions through instead (JCGM 101:2008), for formulas that bend;
//! - [`mod@line`] fits lines and small linear models by least squares;
//! - [`student`] has the quantiles behind a coverage factor;
//! - [`Random`] is the generator that all sampling takes as an argument: the same seed gives the same answer.
//!
//! # What it does not do
//!
//! Correlation is all or nothing: inputs are independent, or share one error entirely. First order means first order: no
//! second derivatives are taken; where they matter, Monte Carlo is the answer. Numbers carry no units; the caller keeps
//! them straight.
//!
//! # Example
//!
//! Three draws of 6 ml from one syringe: its scale is off by the same amount each time, the eye is not.
//!
//! ```
//! use meniscus::uncertainty::{Distribution, Estimate, Input};
//!
//! let mut inputs = Vec::new();
//! for draw in 1..=3 {
//!     inputs.push(Input::new(format!("draw {draw}"), 6.0, Distribution::Triangular { half_width: 0.1 }));
//!     inputs.push(
//!         Input::new(format!("scale at draw {draw}"), 0.0, Distribution::Rectangular { half_width: 0.2 })
//!             .in_group("scale of the 10 ml syringe"),
//!     );
//! }
//! let volume = Estimate::propagate(&inputs, |x| x.iter().sum())?;
//!
//! assert_eq!(volume.value(), 18.0);
//! let scale = 3.0 * 0.2 / 3_f64.sqrt();
//! let eye = 3_f64.sqrt() * 0.1 / 6_f64.sqrt();
//! assert!((volume.standard_uncertainty() - scale.hypot(eye)).abs() < 1e-9);
//! # Ok::<(), meniscus::uncertainty::Error>(())
//! ```
//!
//! An input that cannot be right is refused by name:
//!
//! ```
//! use meniscus::uncertainty::{Distribution, Estimate, Input};
//!
//! let syringe = Input::new("syringe", 6.0, Distribution::Rectangular { half_width: -0.2 });
//! let fault = Estimate::propagate(&[syringe], |x| x[0]).expect_err("a negative width");
//! assert_eq!(
//!     fault.to_string(),
//!     "the standard uncertainty of `syringe` is -0.11547005383792516: give a width that is zero or more",
//! );
//! ```

mod distribution;
mod error;
mod estimate;
mod input;
mod interval;
pub mod line;
pub mod monte_carlo;
mod random;
pub mod student;

pub use distribution::Distribution;
pub use error::Error;
pub use estimate::{Contribution, Estimate, Expanded};
pub use input::Input;
pub use interval::Interval;
pub use random::Random;

/// Coverage factor of every ±: about 95 % (JCGM 100, 6.3.3).
pub const COVERAGE: f64 = 2.0;
