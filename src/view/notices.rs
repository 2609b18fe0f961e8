//! What stands about the sheets: the things of the kit, the choices between them, and what the store could not do.

use maud::{Markup, html};

use crate::quantity::Dilution;
use crate::store::Unread;

/// One thing of the kit, as its list shows it.
pub struct Thing {
    /// Key in the store.
    pub id: String,
    /// The user's name for it.
    pub name: String,
    /// What it is, in a line.
    pub summary: String,
    /// Whether a form can change it.
    pub has_form: bool,
}

/// The things of one kind, each with its buttons.
pub fn things(things: &[Thing], none: &str) -> Markup {
    html! {
        @for thing in things {
            li.thing data-id=(thing.id) {
                p { b { (thing.name) } small { (thing.summary) } }
                span.actions {
                    @if thing.has_form { button type="button" data-change-thing=(thing.id) aria-label={ "Change " (thing.name) } { "Change" } }
                    button type="button" data-remove-thing=(thing.id) aria-label={ "Remove " (thing.name) } { "Remove" }
                }
            }
        }
        @if things.is_empty() { li.thing { p { (none) } } }
    }
}

/// The options of a choice, by value and label.
pub fn options(options: &[(String, String)]) -> Markup {
    html! { @for (value, label) in options { option value=(value) { (label) } } }
}

/// The dilutions of a bottle, each to be taken with one touch.
pub fn dilutions(dilutions: &[Dilution]) -> Markup {
    html! {
        @for dilution in dilutions {
            button type="button" data-dilution=(dilution) { (dilution) }
        }
    }
}

/// What the store could not do, and what in it could not be read.
pub fn trouble(sentences: &[String], unread: &[Unread]) -> Markup {
    html! {
        @for sentence in sentences { p { (sentence) } }
        @if !unread.is_empty() {
            p {
                (unread.len()) " of the entries kept on this device cannot be read. They are kept as they are, and everything \
                 else works."
            }
            details {
                summary { "Show them" }
                @for entry in unread { p { (entry.key) ": " (entry.why) } pre { (entry.text) } }
            }
        }
    }
}

/// What was done, and the way back: the record that stood there before.
pub fn undo(done: &str, id: &str, before: &str) -> Markup {
    html! {
        (done) " "
        button type="button" data-undo=(before) data-undo-id=(id) { "Take that back" }
    }
}

/// What was done, and the way back: the event to take back.
pub fn take_back(done: &str, event: &str) -> Markup {
    html! {
        (done) " "
        button type="button" data-take-back=(event) { "Take that back" }
    }
}
