//! The readings of the strips, written into the form that they are for.

use super::{Room, STRIPS, dom};
use crate::browser::forms;
use crate::quantity::show::trimmed;

/// The base of densities that are above it, as finely as they are written.
const ABOVE: &str = "0.000";

/// Writes the readings of each strip into its field, and that they are above its base, as if both had been typed; says how many.
///
/// # Errors
///
/// Why nothing was written.
pub fn write(room: &Room) -> Result<String, String> {
    let mut readings = Vec::new();
    for ((field, title), table) in STRIPS.iter().zip(&room.strips) {
        let table = table.borrow();
        if table.picture.is_none() {
            continue;
        }
        let text = table.strip.readings().map_err(|area| {
            format!("{title}: {area} has no density yet. Draw it anew or remove it. Nothing was written.")
        })?;
        if !text.is_empty() {
            readings.push((*field, *title, text));
        }
    }
    if readings.is_empty() {
        return Err("There is nothing to write yet: choose a scan, draw its clear base and a patch.".to_owned());
    }
    let mut said = String::new();
    for (field, title, text) in &readings {
        type_into(room, field, text)?;
        type_into(room, &format!("{field}_base"), ABOVE)?;
        let count = trimmed(text.lines().count() as f64, 0);
        said += &format!("{title}: {count} written. ");
    }
    if let [(_, _, one), (_, _, other)] = &readings[..] {
        let counts = [one, other].map(|text| text.lines().count());
        let pairs = counts[0] == counts[1] && counts[0] > 1;
        type_into(room, "pairs", if pairs { "paired" } else { "apart" })?;
        said += match pairs {
            true => "They are compared patch by patch, in their order.",
            false => "They are compared as separate samples: for patch by patch, draw as many on both.",
        };
    }
    if readings.len() == 1 {
        said += "Type the clear base of the other strip: left blank, it counts as 0 like this one.";
    }
    Ok(said.trim_end().to_owned())
}

/// Puts text into a field of the form, as if it had been typed.
fn type_into(room: &Room, field: &str, text: &str) -> Result<(), String> {
    let control = room
        .document
        .query_selector(&format!("#{} [name={field}]", room.form))
        .ok();
    let control = control.flatten().ok_or("There is no field to write into.")?;
    dom::set_value(&control, text);
    forms::tell_typed(&control);
    Ok(())
}
