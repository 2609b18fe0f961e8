//! What is read off the thermometer of the kit: what that comes to, and how well it is known.

use crate::kit::{Kit, Thermometer};
use crate::quantity::{Day, Temperature, Units};
use crate::sheet::Item;
use crate::uncertainty::{Distribution, Input};

/// What a reading comes to, and whether the thermometer wants comparing again.
pub fn as_read(line: &Thermometer, shown: Temperature, units: Units, today: Day) -> String {
    let is = units.temperature(line.corrected(shown));
    let again = if line.is_old(today) { " Compare it again." } else { "" };
    format!("{} on your thermometer is {is}.{again}", units.temperature(shown))
}

/// The same of each reading; nothing where the thermometer is taken at its word.
pub(super) fn readings(shown: &[Temperature], kit: &Kit, today: Day) -> Vec<Item> {
    let mut items = Vec::new();
    if let Some(line) = &kit.thermometer {
        for shown in shown {
            items.push(Item::Text(as_read(line, *shown, kit.house.units, today)));
        }
    }
    items
}

/// A temperature that it told, with its limit of error, which is the same error in all that it told.
pub(super) fn degrees(name: &str, at: Temperature, kit: &Kit) -> Input {
    let half_width = kit.thermometer_limit(at).kelvins();
    Input::new(name, at.celsius(), Distribution::Rectangular { half_width }).in_group("the thermometer")
}
