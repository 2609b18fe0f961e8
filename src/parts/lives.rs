//! How long a product keeps: by the form, by its label, by its class.

use super::{Picked, assumption_of};
use crate::chemistry::Class;
use crate::fields::{self, Form};
use crate::keeping::{Assumptions, Lives, LivesError, SheetLives};
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
