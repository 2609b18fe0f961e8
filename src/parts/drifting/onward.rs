//! From Drift on to the steps.

use super::Drifting;
use super::tank::half_minutes;
use crate::fields::{self, AnyField, Form};
use crate::quantity::{Span, Units, exact};
use crate::sheet::{Item, Onward};

/// What Steps has of this form.
const TAKEN_ON: [&dyn AnyField; 9] = [
    &fields::BOTTLE,
    &fields::DILUTION,
    &fields::TIMES,
    &fields::CLASS,
    &fields::Q10,
    &fields::TOTAL,
    &fields::TEMPERATURE,
    &fields::COOLER_ROOM,
    &fields::JACKET,
];
/// To the steps in this room, with the bath as it was typed and the tank as two readings told it.
pub(super) fn onward(drifting: &Drifting, form: &Form, units: Units) -> Item {
    let text = |field: &dyn AnyField| {
        form.sent()
            .get(field.name())
            .map_or(field.starts_as(), String::as_str)
            .to_owned()
    };
    let mut fields: Vec<_> = TAKEN_ON.iter().map(|field| (field.name(), text(*field))).collect();
    let half = (!drifting.tau.seconds.is_assumed()).then(|| half_minutes(drifting.tau.seconds).value);
    let half = half.map(|minutes| exact::span(Span::from_minutes(minutes), units));
    fields.push(("half", half.unwrap_or_default()));
    Item::Onward(Onward {
        label: "On to the steps, in this room".to_owned(),
        to: "steps",
        fields,
    })
}
