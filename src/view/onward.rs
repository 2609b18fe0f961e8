//! The button that leads on to another calculator.

use maud::{Markup, html};

use crate::sheet::Onward;
use crate::store::object::Object;

/// The button, with the fields that it fills in as an object of JSON.
pub fn button(onward: &Onward) -> Markup {
    let mut fields = Object::of_record();
    for (name, text) in &onward.fields {
        fields = fields.text(name, text);
    }
    html! {
        button type="button" data-onward=(onward.to) data-fields=(fields.end()) { (onward.label) } " "
    }
}
