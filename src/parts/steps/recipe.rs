//! The recipe that the steps come to: all that a clock needs, and all that the record of the day will say.

use super::{Room, Steps, Times};
use crate::development::drift::Onward;
use crate::fields::Form;
use crate::quantity::sorted::sort;
use crate::session::{Bath, Made, Rate, Recipe, Step, StepKind};
use crate::sheet::Sheet;

/// Figures of the sheet that the record keeps, by name.
const KEPT: [&str; 25] = [
    "length",
    "time",
    "sheet_time",
    "fix",
    "fix_longer",
    "develop_longer",
    "steady",
    "ends_at",
    "concentrate",
    "concentrate_b",
    "water",
    "whole",
    "mass",
    "developer_fill",
    "stop_fill",
    "fixer_fill",
    "aid_fill",
    "activation_energy",
    "q10",
    "exponent",
    "seconds_per_degree",
    "seconds_by_thermometer",
    "cover",
    "brim",
    "assumed_capacity",
];

impl Steps<'_> {
    /// A line for lists: the film, and what it is developed in.
    pub(super) fn title(&self) -> String {
        let films = self.load.words();
        match (self.first(StepKind::Develop), &self.bath.dilution) {
            (None, _) => films,
            (Some(_), Some(dilution)) => format!("{films} in {} {dilution}", self.product()),
            (Some(_), None) => format!("{films} in {}", self.product()),
        }
    }

    /// Every step; `None` where it is not known how long one takes.
    fn steps(&self, times: &Times) -> Vec<Step> {
        let known = self.lines.iter().zip(&times.all);
        let step = known.filter_map(|((_, line), time)| {
            Some(Step {
                kind: line.kind,
                name: line.name.clone(),
                time: (*time)?,
                temperature: self.warmth_of(line),
                agitation: line.agitation,
            })
        });
        step.collect()
    }

    fn baths(&self) -> Vec<Bath> {
        let mut baths = Vec::new();
        if let (Some((concentrate, water)), Some(dilution)) = (self.mixed(), &self.bath.dilution) {
            baths.push(Bath {
                kind: StepKind::Develop,
                bottle: self.bath.id.clone().unwrap_or_default(),
                words: format!("{} {dilution}", self.product()),
                made: Made::Mixed {
                    concentrate,
                    water,
                    dilution: dilution.clone(),
                },
            });
        }
        baths.extend(self.in_use().filter_map(|reused| {
            let bottle = reused.poured_back()?;
            Some(Bath {
                kind: reused.role.kind(),
                bottle: bottle.id.to_string(),
                words: bottle.is.label.product.clone(),
                made: Made::Reused,
            })
        }));
        sort(&mut baths, |one, other| self.first(one.kind) < self.first(other.kind));
        baths
    }

    /// How the rate follows temperature: by the data sheet's times, by the user's own factor, or by the one that is assumed.
    fn rate(&self) -> Option<Rate> {
        let at = self.warmth().filter(|_| self.first(StepKind::Develop).is_some())?;
        let activation = self.bath.activation(self.law.as_ref());
        Some(Rate {
            activation: activation.value,
            is_assumed: Some(activation.is_assumed()),
            at,
            onward: self.room().map_or(Onward::Held, Room::onward),
        })
    }
}

/// The recipe of steps of which every time is known, from their sheet.
pub(super) fn recipe(steps: &Steps, times: &Times, sheet: &Sheet, form: &Form) -> Recipe {
    let units = form.units();
    let mut figures = Vec::new();
    let mut say = |label: &str, shown: String| figures.push((label.to_owned(), shown));
    say("Film units", units.number(steps.load.units(), 2));
    if steps.first(StepKind::Develop).is_some() {
        say("Developer", steps.product().to_owned());
        if let Some(dilution) = &steps.bath.dilution {
            say("Dilution", dilution.to_string());
        }
        if let Some(warm) = steps.warmth() {
            say("Temperature of the developer", units.temperature(warm));
        }
        if let Some(room) = steps.room() {
            say("Temperature of the room", units.temperature(room.at));
        }
        if let Some(strength) = steps.bath.strength {
            say("Strength of bottle", units.percent(strength));
        }
    }
    if let Some(clears_in) = steps.clears_in {
        say("A fresh leader clears in", units.span(clears_in));
    }
    if let Some(tank) = steps.tank {
        say("Tank", tank.name.clone());
    }
    for figure in KEPT.iter().filter_map(|name| sheet.figure(name)) {
        say(&figure.label, figure.text());
    }
    for reused in &steps.reused {
        let of_role = |end: &str| sheet.figure(&format!("{}_{end}", reused.role.word()));
        for figure in ["before", "used_after"].into_iter().filter_map(of_role) {
            say(&format!("{}: {}", reused.name(), figure.label), figure.text());
        }
    }
    let sent = form.sent().iter().map(|(name, text)| (name.clone(), text.clone()));
    Recipe {
        title: steps.title(),
        films: steps.load.words(),
        units: steps.load.units(),
        steps: steps.steps(times),
        baths: steps.baths(),
        rate: steps.rate(),
        figures,
        form: sent.collect(),
    }
}
