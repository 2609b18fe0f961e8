//! A bottle in simple form: what its label and data sheet say.

use crate::chemistry::Class;
use crate::development::SheetTime;
use crate::quantity::{Dilution, MassDensity, Volume};

/// A bottle and what is known of its content.
#[derive(Clone, Debug, PartialEq)]
pub struct Bottle {
    /// The product, as the user calls it.
    pub product: String,
    /// Class of solution.
    pub class: Class,
    /// Density of the liquid.
    pub density: Option<MassDensity>,
    /// The dilutions it is used at, the usual one first.
    pub dilutions: Vec<Dilution>,
    /// Least concentrate for one film unit, by the data sheet.
    pub least_per_film: Option<Volume>,
    /// Times of the data sheet.
    pub times: Vec<SheetTime>,
    /// Dilution exponent n, where the user knows it.
    pub exponent: Option<f64>,
}
