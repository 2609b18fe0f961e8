//! Day, night, or dim amber.

use std::rc::Rc;

use gloo_events::EventListener;

use super::{App, dom};
use crate::fields;

/// Name of the choice, its element, and under which it is remembered.
const LOOK: &str = "look";

/// Takes up the look that was chosen last, and listens for another.
pub fn start(app: &Rc<App>) {
    let Some(select) = app.document.get_element_by_id(LOOK) else {
        return;
    };
    let last = app.stood_in(LOOK).and_then(|named| named.get(LOOK).cloned());
    if let Some(look) = last {
        dom::set_value(&select, &look);
        apply(app, &look);
    }
    let changed = {
        let (app, select) = (Rc::clone(app), select.clone());
        move |_: &web_sys::Event| {
            let look = dom::value(&select);
            apply(&app, &look);
            app.keep_form(LOOK, fields::only(LOOK, &look));
        }
    };
    app.own(EventListener::new(&select, "change", changed));
}

fn apply(app: &App, look: &str) {
    if let Some(root) = app.document.document_element() {
        dom::set(&root, "data-look", look);
    }
    if let Some(note) = app.document.get_element_by_id("amber-note") {
        dom::show(&note, look == "amber");
    }
}
