//! The error budgets of both developings side by side: which cause alone could explain the difference, and what to mend.

use super::super::slips::{label, shares_drawn, worth_mending};
use super::Comparing;
use crate::development::Cause;
use crate::quantity::Units;
use crate::sheet::{Figure, Item, Table};

/// A cause explains what lies within so many of its standard uncertainties: 95 of 100.
const WITHIN: f64 = 2.0;

impl Comparing<'_> {
    /// The budget of the difference, beside the change of contrast that was found.
    pub(super) fn causes(&self, contrast: Option<f64>, units: Units) -> Vec<Item> {
        let [tested, fresh] = &self.developings;
        let (Some(one), Some(other)) = (&tested.budget, &fresh.budget) else {
            return Vec::new();
        };
        let both = one.beside(other);
        let mut items = Vec::new();
        if let Some(contrast) = contrast {
            let could = |u: f64| contrast.abs() <= WITHIN * u;
            let alone: Vec<&str> = both
                .causes
                .iter()
                .filter(|(_, u)| could(*u))
                .map(|(cause, _)| label(*cause))
                .collect();
            let difference = units.percent(contrast.abs());
            items.push(Item::Text(match (alone.is_empty(), could(both.combined())) {
                (false, _) => format!("The difference is {difference} of contrast. Alone could explain it: {}.", alone.join(", ")),
                (true, true) => {
                    format!("The difference is {difference} of contrast. No cause alone explains it, but all together could.")
                }
                (true, false) => format!(
                    "The difference is {difference} of contrast, more than one roll of each would differ by all of these together."
                ),
            }));
        }
        items.extend(worth_mending(&both).map(Item::Text));
        items.push(Item::Figure(
            Figure::percent(
                "session_uncertainty",
                "One roll of each differs by (standard uncertainty)",
                both.combined(),
                units,
            )
            .assumed(),
        ));
        items.push(Item::Picture(shares_drawn(
            &both,
            "What makes two such rolls differ: shares of the error budget",
            units,
        )));
        let rows = both.causes.iter().enumerate().map(|(place, &(cause, u))| {
            let percent = |name: &'static str, share: f64| Figure::percent(name, "contrast", share, units).assumed();
            let figures = vec![
                percent("cause_tested", one.causes[place].1),
                percent("cause_fresh", other.causes[place].1),
                percent("cause_both", u),
            ];
            (label(cause).to_owned(), figures)
        });
        items.push(Item::Table(Table {
            heads: ["From", "under test", "fresh", "the difference"]
                .map(str::to_owned)
                .to_vec(),
            rows: rows.collect(),
        }));
        let same = tested.house.thermometer == fresh.house.thermometer;
        if same
            && both
                .causes
                .iter()
                .any(|(cause, u)| *cause == Cause::Temperature && *u > 0.0)
        {
            items.push(Item::Text(
                "One and the same thermometer or syringe errs alike both times, which cancels; counted is here as if it did not."
                    .to_owned(),
            ));
        }
        items
    }
}
