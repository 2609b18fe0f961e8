//! How long a product keeps and how far it is trusted: by the form, by its label, by its tests on the shelf, by its class.

use super::{Picked, assumption_of};
use crate::chemistry::Class;
use crate::darkroom::Darkroom;
use crate::fields::{self, Form};
use crate::keeping::{Assumptions, Limits, Lives, LivesError, SheetLives, Trusted, stated};
use crate::kit::Climate;
use crate::ledger::{self, TestKind, TestResult};
use crate::quantity::read;
use crate::sheet::{Figure, Item};

/// The assumptions of keeping with the lives that the form or the label states, and how much faster they run when it is warm.
pub fn keeps(form: &mut Form, picked: &Picked, class: Class) -> Assumptions {
    let on_label = picked.bottle.map(|bottle| bottle.is.lives).unwrap_or_default();
    let sheet = SheetLives {
        unopened: form.read(&fields::shelf::UNOPENED).or(on_label.unopened),
        full: form.read(&fields::shelf::FULL).or(on_label.full),
        half_full: form.read(&fields::shelf::HALF_FULL).or(on_label.half_full),
    };
    let lives = match Lives::new(sheet, class) {
        Ok(lives) => lives,
        Err(error) => {
            let field = match error {
                LivesError::NoLife => "full",
                LivesError::HalfKeepsLonger => "half_full",
            };
            form.fault(field, &error.to_string());
            Lives::typical(class)
        }
    };
    let of_class = Assumptions::of_class(class).with_lives(lives);
    Assumptions {
        per_ten: form
            .read(&fields::shelf::PER_TEN)
            .map_or(of_class.per_ten, super::given),
        ..of_class
    }
}

/// What was assumed of how it keeps.
pub fn keeps_assumed(form: &Form, assumptions: &Assumptions) -> Vec<Item> {
    let units = form.units();
    let days = |days| read::show_period(days, units);
    let life = |name: &'static str, label: &'static str, value: f64| Figure {
        shown: days(value),
        ..Figure::number(name, label, value, 0, units)
    };
    let mut items = Vec::new();
    if let Some(lives) = assumptions.lives {
        let full = life("assumed_full", "Keeps opened, full", lives.full.value);
        items.extend(assumption_of(full, lives.full, "full", days));
        let share = Figure::percent(
            "assumed_half_full",
            "Keeps half full, of that",
            lives.half_full.value,
            units,
        );
        items.extend(assumption_of(share, lives.half_full, "half_full", |share| {
            units.percent(share)
        }));
        let unopened = life("assumed_unopened", "Keeps unopened", lives.unopened.value);
        items.extend(assumption_of(unopened, lives.unopened, "unopened", days));
    }
    let factor = assumptions.per_ten;
    let figure = Figure::number("assumed_per_ten", "Ages faster by, for 10 °C", factor.value, 2, units);
    items.extend(super::assumption(figure, factor, "per_ten", units));
    items
}

/// To what multiple of its stated life the tests on the shelf let a product be trusted.
pub fn trusted(
    bottles: &[&ledger::Bottle],
    assumptions: &Assumptions,
    darkroom: &Darkroom,
    climate: Climate,
) -> Trusted {
    let (mut passed, mut failed) = (Vec::new(), Vec::new());
    for bottle in bottles {
        for test in &bottle.tests {
            let life = darkroom.shelf.life_until(bottle.id.as_str(), test.day, climate);
            let share = life.and_then(|life| Some(stated(&life.life().ok()?, assumptions)?.value));
            match (share, passes(test)) {
                (Some(share), Some(true)) => passed.push(share),
                (Some(share), Some(false)) => failed.push(share),
                _ => {}
            }
        }
    }
    Trusted::from_tests(&passed, &failed)
}

/// Whether a test passed; `None` if it says nothing of the bottle. A strength passes where less would ask for a test.
pub fn passes(test: &ledger::Tested) -> Option<bool> {
    match (test.test, test.result) {
        (TestKind::ResidualSilver | TestKind::ResidualThiosulfate, _) => None,
        (_, TestResult::Passed) => Some(true),
        (_, TestResult::Failed) => Some(false),
        (_, TestResult::Strength { strength, .. }) => Some(strength.number() >= 1.0 - Limits::default().agent.value),
    }
}
