//! How fast development goes: time, temperature, strength, and what a slip of any of them does to contrast.
//!
//! The rate is k ~ a C^n exp(-Ea / R T), with a the strength of the bottle (1 is fresh), C the concentration of the bath, and T
//! in kelvins; contrast follows the first-order law gamma = gamma_inf (1 - exp(-k t)) (Sheppard and Mees 1907).

mod budget;
mod contrast;
pub mod drift;
mod parameter;
mod rate;
mod sheet_time;
mod slip;
pub mod tempering;

use crate::quantity::Temperature;

pub use budget::{Cause, ErrorBudget, Uncertain};
pub use contrast::FirstOrder;
pub use parameter::{Origin, Parameter};
pub use rate::{Prediction, RateError, RateLaw, activation_from_q10, q10_from_activation};
pub use sheet_time::{SheetTime, SheetTimeError, read_sheet_times};
pub use slip::{Band, SameAs, Slip, SlipLaw};

/// The range in which development is usually controlled (general practice, from memory).
pub const USUAL: [Temperature; 2] = [Temperature::from_celsius(18.0), Temperature::from_celsius(24.0)];

/// The molar gas constant in J/(mol K): the product of the exact Avogadro and Boltzmann constants (SI Brochure, 9th ed.).
pub const GAS_CONSTANT: f64 = 8.314_462_618_153_24;

/// Steps of halving: from 100 degrees down to less than floating point tells.
const HALVINGS: u32 = 60;

/// Where a rising function of the temperature is zero, between 0 and 100 °C, or at the nearer end.
fn zero(of: &dyn Fn(Temperature) -> f64) -> Temperature {
    let (mut low, mut high) = (0.0, 100.0);
    for _ in 0..HALVINGS {
        let middle = (low + high) / 2.0;
        match of(Temperature::from_celsius(middle)) < 0.0 {
            true => low = middle,
            false => high = middle,
        }
    }
    Temperature::from_celsius(low)
}
