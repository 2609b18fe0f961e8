//! From the plan on to the steps of each fill.

use super::Fills;
use crate::kit::Film;
use crate::quantity::{Units, exact};
use crate::sheet::{Item, Onward};

impl Fills<'_> {
    /// To the steps of each fill; fills that are alike have one.
    pub(super) fn onward(&self, units: Units) -> Vec<Item> {
        let mut all: Vec<Onward> = Vec::new();
        let dilution = self
            .planning
            .dilution
            .as_ref()
            .map(ToString::to_string)
            .unwrap_or_default();
        for (at, fill) in self.in_order().enumerate() {
            let count = |film| fill.load.count(film).to_string();
            let fields = vec![
                ("films_135", count(Film::Roll135)),
                ("films_120", count(Film::Roll120)),
                ("films_220", count(Film::Roll220)),
                ("sheets_4x5", count(Film::Sheet4x5)),
                ("sheets_8x10", count(Film::Sheet8x10)),
                ("tank", self.planning.tank_ids[fill.tank].to_owned()),
                ("bottle", self.planning.bottle.clone()),
                ("dilution", dilution.clone()),
                ("total", exact::volume(fill.total, units)),
                (
                    "develop_for",
                    fill.time().map(|time| exact::span(time, units)).unwrap_or_default(),
                ),
            ];
            let number = (at + 1).to_string();
            match all.iter_mut().find(|other| other.fields == fields) {
                Some(other) => other.label = format!("{}, {number}", other.label.replacen("fill ", "fills ", 1)),
                None => all.push(Onward {
                    label: format!("Steps for fill {number}"),
                    to: "steps",
                    fields,
                }),
            }
        }
        all.into_iter().map(Item::Onward).collect()
    }
}
