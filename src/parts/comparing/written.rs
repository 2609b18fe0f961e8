//! The figures behind a comparison, for the page that is printed or pasted: the day, the bottles, what was read of each.

use super::{Comparing, Item};
use crate::parts::{counted, text};
use crate::proof::comparison::{Readings, Strip};
use crate::quantity::{Day, Units};

/// One sentence for the day, and one for each strip.
pub(super) fn up(comparing: &Comparing, today: Day, units: Units) -> Vec<Item> {
    let Some(strips) = &comparing.strips else {
        return Vec::new();
    };
    let bottles = [comparing.recipe.bath.bottle, comparing.beside];
    let names = ["Under test", "Fresh"];
    let told = strips.iter().zip(bottles).zip(names).map(|((strip, bottle), name)| {
        let product = bottle
            .map(|bottle| [", ", &bottle.product].concat())
            .unwrap_or_default();
        text(&[name, &product, ": ", &of_strip(strip, comparing.base_assumed, units)].concat())
    });
    let day = text(&format!("Written up on {today}."));
    std::iter::once(day).chain(told).collect()
}

fn of_strip(strip: &Strip, base_assumed: bool, units: Units) -> String {
    let base = match &strip.base {
        Some(base) if !base_assumed => ["; clear base ", &listed(base, units)].concat(),
        Some(_) => "; clear base not read".to_owned(),
        None => String::new(),
    };
    let rolls = counted(strip.rolls as usize, "roll");
    [&listed(&strip.readings, units), &*base, "; ", &*rolls, "."].concat()
}

/// `0.85 ± 0.01; 0.87`
fn listed(readings: &Readings, units: Units) -> String {
    let one = |(value, u): (&f64, &f64)| match *u > 0.0 {
        true => [&units.number(*value, 3), " ± ", &units.number(2.0 * u, 3)].concat(),
        false => units.number(*value, 3),
    };
    let each = readings.values.iter().zip(&readings.uncertainties).map(one);
    each.collect::<Vec<_>>().join("; ")
}
