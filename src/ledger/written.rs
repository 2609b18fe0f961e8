//! The written form of an event: JSON with words and whole numbers, apart from the types that are calculated with, so that no
//! change of a calculation can change what is kept. Words once written never change.
//!
//! Amounts are in microlitres, milliseconds, thousandths of a degree, thousandths, days, hundredths of a currency. A part that
//! this version does not know makes an event unreadable, and so kept as it is: nobody knows what it changes.

mod check;
mod read;
pub(super) mod session;
mod write;

use super::event::Event;
use crate::kit::{Colour, Light, Material};
use crate::proof::TestKind;
use crate::store::CLASSES;
use crate::store::object::Object;
use crate::store::reading::Fields;

/// The words of all kinds, in the order of the kinds.
pub(super) const KINDS: [&str; 18] = [
    "added",
    "opened",
    "drawn",
    "decanted",
    "treated",
    "mixed",
    "tested",
    "films_through",
    "developed",
    "topped_up",
    "moved",
    "place_noted",
    "place_dropped",
    "content_noted",
    "bottle_noted",
    "discarded",
    "corrected",
    "note",
];
const LIGHTS: [(&str, Light); 2] = [("dark", Light::Dark), ("lit", Light::Lit)];
const COLOURS: [(&str, Colour); 3] = [
    ("opaque", Colour::Opaque),
    ("amber", Colour::Amber),
    ("clear", Colour::Clear),
];
const MATERIALS: [(&str, Material); 13] = [
    ("glass", Material::Glass),
    ("metal", Material::Metal),
    ("pet", Material::Pet),
    ("hdpe", Material::Hdpe),
    ("ldpe", Material::Ldpe),
    ("pp", Material::Pp),
    ("opp", Material::PpOriented),
    ("ps", Material::Ps),
    ("pc", Material::Pc),
    ("pvc", Material::Pvc),
    ("soft_pvc", Material::PvcSoft),
    ("nylon", Material::Nylon),
    ("pvdc", Material::Pvdc),
];
const TESTS: [(&str, TestKind); 7] = [
    ("clip", TestKind::Clip),
    ("clearing", TestKind::Clearing),
    ("indicator", TestKind::Indicator),
    ("residual_silver", TestKind::ResidualSilver),
    ("residual_thiosulfate", TestKind::ResidualThiosulfate),
    ("comparison", TestKind::Comparison),
    ("other", TestKind::Other),
];

/// An event as JSON on one line.
pub(super) fn to_json(event: &Event) -> String {
    let head = Object::new()
        .text("id", &event.id.to_string())
        .integer("at", event.at.milliseconds())
        .text("day", &event.day.to_string());
    write::what(head, &event.what).end()
}

/// An event from JSON, or why it is none.
pub(super) fn from_json(json: &str) -> Result<Event, String> {
    let mut fields = Fields::of(json);
    let event = Event {
        id: check::event_id(&mut fields, "id"),
        at: check::moment(&mut fields, "at"),
        day: check::day(&mut fields, "day"),
        what: read::what(&mut fields),
    };
    fields.end().map(|()| event)
}

/// A key and a text as JSON.
pub(super) fn entry_to_json(key: &str, text: &str) -> String {
    Object::new().text("key", key).text("text", text).end()
}

/// A key and a text from JSON.
pub(super) fn entry_from_json(json: &str) -> Result<(String, String), String> {
    let mut fields = Fields::of(json);
    let entry = (fields.text("key"), fields.text("text"));
    fields.end().map(|()| entry)
}

/// The name in JSON of which this version may understand nothing else.
pub(super) fn id_of(json: &str) -> Option<String> {
    Fields::of(json).text_if("id")
}
