//! How long a product keeps: by the form, by its label, by its class.

use super::{assumption, assumption_of, given};
use crate::chemistry::Class;
use crate::fields::{self, Form};
use crate::keeping::{Assumptions, Lives, LivesError, SheetLives};
use crate::ledger::Bottle;
use crate::quantity::Units;
use crate::sheet::{Figure, Item};

/// What is assumed of a bottle's content by its label alone.
pub(super) fn by_label(bottle: &Bottle) -> Assumptions {
    let class = bottle.is.label.class;
    let assumptions = Assumptions::of_class(class);
    match Lives::new(bottle.is.lives, class) {
        Ok(lives) => assumptions.with_lives(lives),
        Err(_) => assumptions,
    }
}

/// Takes in the lives that the form or else the label states, and how much faster they run when it is warm. Lives that contradict
/// each other are a fault.
pub(super) fn read_lives(form: &mut Form, on_shelf: Option<&Bottle>, class: Class, assumptions: &mut Assumptions) {
    let on_label = on_shelf.map(|bottle| bottle.is.lives).unwrap_or_default();
    let sheet = SheetLives {
        unopened: form.read(&fields::LIFE_UNOPENED).or(on_label.unopened),
        full: form.read(&fields::LIFE_FULL).or(on_label.full),
        half_full: form.read(&fields::LIFE_HALF).or(on_label.half_full),
    };
    match Lives::new(sheet, class) {
        Ok(lives) => assumptions.lives = lives,
        Err(error) => {
            let field = match error {
                LivesError::HalfKeepsLonger => "life_half",
                LivesError::NoLife => "life_full",
            };
            form.fault(field, &error.to_string());
        }
    }
    if let Some(per_ten) = form.read(&fields::PER_TEN) {
        assumptions.per_ten = given(per_ten);
    }
}

/// What was assumed of how it keeps.
pub(super) fn lives_assumed(assumptions: &Assumptions, units: Units) -> Vec<Item> {
    let mut items = Vec::new();
    if let Some(lives) = assumptions.lives {
        let kept = [
            (
                "assumed_life_unopened",
                "Keeps unopened",
                lives.unopened,
                "life_unopened",
            ),
            ("assumed_life_full", "Keeps opened, full", lives.full, "life_full"),
        ];
        for (name, label, life, field) in kept {
            let figure = Figure::period(name, label, life.value, units);
            items.extend(assumption_of(figure, life, field, &|days| units.period(days)));
        }
        let half = lives.half_full;
        let figure = Figure::percent("assumed_life_half", "Keeps half full, of that", half.value, units);
        items.extend(assumption_of(figure, half, "life_half", &|share| units.percent(share)));
    }
    let factor = assumptions.per_ten;
    let figure = Figure::number("assumed_per_ten", "Ages faster by, for 10 °C", factor.value, 2, units);
    items.extend(assumption(figure, factor, "per_ten", units));
    items
}
