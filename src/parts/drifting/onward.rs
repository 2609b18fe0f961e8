//! From Drift on to the steps.

use super::Drifting;
use super::tank::half_minutes;
use crate::fields::{self, AnyField, Form};
use crate::quantity::{Span, Units, exact};
use crate::sheet::{Item, Onward};

/// What Steps has of this form.
const TAKEN_ON: [&dyn AnyField; 8] = [
    &fields::BOTTLE,
    &fields::DILUTION,
    &fields::CLASS,
    &fields::Q10,
    &fields::TOTAL,
    &fields::TEMPERATURE,
    &fields::COOLER_ROOM,
    &fields::JACKET,
];
/// To the steps in this room, with the bath as it was typed, the tank as two readings told it, and the time that was found.
pub(super) fn onward(drifting: &Drifting, time: Span, form: &Form, units: Units) -> Item {
    let text = |field: &dyn AnyField| {
        form.sent()
            .get(field.name())
            .map_or(field.starts_as(), String::as_str)
            .to_owned()
    };
    let mut fields: Vec<_> = TAKEN_ON.iter().map(|field| (field.name(), text(*field))).collect();
    let times = text(&fields::TIMES);
    fields.push(match times.trim().is_empty() {
        true => {
            let [time, at] = [
                exact::span(drifting.time, units),
                exact::temperature(drifting.time_at, units),
            ];
            ("times", format!("{time} at {at}"))
        }
        // The data sheet's times may tell another time than the user's own.
        false => ("develop_for", units.span(time)),
    });
    let half = (!drifting.tau.seconds.is_assumed()).then(|| half_minutes(drifting.tau.seconds).value);
    let half = half.map(|minutes| units.span(Span::from_minutes(minutes)));
    fields.push(("half", half.unwrap_or_default()));
    Item::Onward(Onward {
        label: "On to the steps, in this room".to_owned(),
        to: "steps",
        fields,
    })
}
