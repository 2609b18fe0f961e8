//! A kind of field that takes densities as they are read off one strip, each with its own ± or not.

use super::Kind;
use super::lists::short;
use crate::proof::comparison::Readings;
use crate::quantity::{Bounds, Units, read};
use crate::uncertainty::COVERAGE;

/// A field for densities. The last digit that was typed says how finely they were read; a bare 0, as of a meter that was set to zero
/// there, is exact.
///
/// ```
/// use meniscus::fields::{DensityReadings, Kind};
/// use meniscus::quantity::Units;
///
/// let read = |text| DensityReadings.read(text, Units::default());
/// let readings = read("0.85 ± 0.01; 0,9\n.87").expect("three densities");
/// assert_eq!((readings.values, readings.uncertainties), (vec![0.85, 0.9, 0.87], vec![0.005, 0.0, 0.0]));
/// assert_eq!(readings.step, 0.01);
/// assert_eq!(read("0").expect("a density").step, 0.0);
/// assert_eq!(
///     read("0.85,0.87").unwrap_err(),
///     "“0.85,0.87” is not a density; write 0.85 0.87 or 0.85 ± 0.01, with a space or a semicolon between two",
/// );
/// ```
#[derive(Clone, Copy)]
pub struct DensityReadings;

/// Densities that one list may hold.
const MOST: usize = 200;
/// A density as negatives have it.
static DENSITY: Bounds = Bounds {
    what: "a density",
    least: 0.0,
    most: 5.0,
    why: "from nothing to deep black",
};
/// The ± of a density.
static OWN: Bounds = Bounds {
    what: "the ± of a density",
    least: 0.0,
    most: 1.0,
    why: "more would be no measurement",
};

impl Kind for DensityReadings {
    type Value = Readings;

    fn read(&self, text: &str, units: Units) -> Result<Readings, String> {
        let apart = text.replace("+/-", " ± ").replace("+-", " ± ").replace('±', " ± ");
        let words = apart.split(|c: char| c.is_whitespace() || c == ';');
        let mut readings = Readings::new(Vec::new(), 1.0);
        let mut places = 0;
        let mut own_follows = false;
        for word in words.filter(|word| !word.is_empty()) {
            match word {
                "±" if own_follows || readings.values.is_empty() => return Err(not_one("±", units)),
                "±" => own_follows = true,
                _ if own_follows => {
                    own_follows = false;
                    if let Some(last) = readings.uncertainties.last_mut() {
                        *last = number(word, &OWN, units)?.0 / COVERAGE;
                    }
                }
                _ if readings.values.len() == MOST => return Err(format!("a list takes up to {MOST} densities")),
                _ => {
                    let (value, decimals) = number(word, &DENSITY, units)?;
                    places = places.max(decimals);
                    readings.values.push(value);
                    readings.uncertainties.push(0.0);
                }
            }
        }
        if own_follows || readings.values.is_empty() {
            return Err(not_one(text.trim(), units));
        }
        let exact = places == 0 && readings.values.iter().all(|value| *value == 0.0);
        readings.step = if exact { 0.0 } else { 1.0 / 10f64.powi(places) };
        Ok(readings)
    }

    fn takes(&self, units: Units) -> String {
        let show = |value| units.number(value, 2);
        format!(
            "{} {} {}, or {} ± {}",
            show(0.85),
            show(0.87),
            show(0.86),
            show(0.85),
            show(0.01)
        )
    }
}

/// A number, and how many decimals were typed.
fn number(word: &str, bounds: &'static Bounds, units: Units) -> Result<(f64, i32), String> {
    // A comma at the end parts two numbers.
    let word = word.strip_suffix(',').unwrap_or(word);
    let known = |c: char| c.is_ascii_digit() || ['.', ',', '-', '−'].contains(&c);
    if !word.chars().all(known) {
        return Err(not_one(word, units));
    }
    match read::number(word, bounds, units) {
        Ok(value) => {
            let decimals = word.rsplit_once(['.', ',']).map_or(0, |(_, part)| part.len());
            Ok((value, decimals as i32))
        }
        Err(fault @ (read::ReadError::OutOfRange(..) | read::ReadError::TooManyDigits)) => Err(fault.to_string()),
        Err(_) => Err(not_one(word, units)),
    }
}

fn not_one(word: &str, units: Units) -> String {
    let show = |value| units.number(value, 2);
    format!(
        "“{}” is not a density; write {} {} or {} ± {}, with a space or a semicolon between two",
        short(word),
        show(0.85),
        show(0.87),
        show(0.85),
        show(0.01)
    )
}
