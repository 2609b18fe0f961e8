//! Native forms: to named text, from named text, and the faults beside their fields.

use wasm_bindgen::prelude::*;
use web_sys::{Document, Element, Event, EventInit, EventTarget, HtmlFormElement, HtmlInputElement};

use super::dom;
use crate::fields::{AnyField, Fault, Named};
use crate::quantity::Units;

/// The controls of a form that have a name, each with it. Finding them takes longer than reading them.
pub fn controls(form: &HtmlFormElement) -> Vec<(String, HtmlInputElement)> {
    let all = form.elements();
    (0..all.length())
        .filter_map(|index| {
            // Controls of every kind have a name and a value.
            let control: HtmlInputElement = all.item(index)?.unchecked_into();
            let name = control.name();
            (!name.is_empty()).then_some((name, control))
        })
        .collect()
}

/// What stands in them, by name.
pub fn read(controls: &[(String, HtmlInputElement)]) -> Named {
    let mut named = Named::new();
    for (name, control) in controls {
        named.insert(name.clone(), control.value());
    }
    named
}

/// What stands in a form, by name.
pub fn named(form: &HtmlFormElement) -> Named {
    read(&controls(form))
}

/// The texts of an object by their names; nothing if it is no object, or something in it is no text.
pub fn texts(object: &JsValue) -> Option<Named> {
    let mut named = Named::new();
    let object: &js_sys::Object = object.is_object().then(|| object.unchecked_ref())?;
    for entry in js_sys::Object::entries(object).iter() {
        let entry: js_sys::Array = entry.unchecked_into();
        named.insert(entry.get(0).as_string()?, entry.get(1).as_string()?);
    }
    Some(named)
}

/// The object of these texts.
pub fn object(named: &Named) -> JsValue {
    let object = js_sys::Object::new();
    for (name, text) in named.iter() {
        let done = js_sys::Reflect::set(&object, &name.into(), &text.into());
        debug_assert!(done.is_ok());
    }
    object.into()
}

/// Puts named text into the form of that name; names that it does not have are passed over.
pub fn fill(document: &Document, form: &str, named: &Named) {
    for (name, text) in named.iter() {
        if let Some(control) = control(document, form, name) {
            dom::set_value(&control, text);
        }
    }
}

/// The form of that name.
pub fn form(document: &Document, name: &str) -> Option<HtmlFormElement> {
    document.get_element_by_id(name)?.dyn_into().ok()
}

/// Opens a form with a thing in it, to be changed.
pub fn open(document: &Document, name: &str, named: &Named, id: &str) {
    let Some(form) = form(document, name) else { return };
    form.reset();
    fill(document, name, named);
    let done = form.dataset().set("id", id);
    debug_assert!(done.is_ok());
    if let Ok(Some(details)) = form.closest("details") {
        dom::set(&details, "open", "");
    }
    if let Some(control) = dom::all(document, &format!("#{name} input")).first() {
        dom::focus(control);
    }
}

/// Folds a form away.
pub fn close(document: &Document, name: &str) {
    let details = form(document, name).and_then(|form| form.closest("details").ok().flatten());
    if let Some(details) = details {
        let closed = details.remove_attribute("open");
        debug_assert!(closed.is_ok());
    }
}

/// Leads to the first fault.
pub fn focus_first(document: &Document, name: &str, faults: &[Fault]) {
    let first = faults.first().and_then(|fault| control(document, name, &fault.field));
    if let Some(control) = first {
        dom::focus(&control);
    }
}

/// Tells whoever listens that something was typed there.
pub fn tell_typed(at: &EventTarget) {
    let bubbles = EventInit::new();
    bubbles.set_bubbles(true);
    if let Ok(event) = Event::new_with_event_init_dict("input", &bubbles) {
        let told = at.dispatch_event(&event);
        debug_assert!(told.is_ok());
    }
}

/// The control of a field.
pub fn control(document: &Document, form: &str, field: &str) -> Option<Element> {
    document.get_element_by_id(&format!("{form}-{field}"))
}

/// Shows each fault beside its field, and takes away those that are mended. A closed part with a fault in it is opened.
pub fn show_faults(document: &Document, form: &str, faults: &[Fault]) {
    for control in dom::all(document, &format!("#{form} [aria-invalid]")) {
        if !faults
            .iter()
            .any(|fault| control.id() == format!("{form}-{}", fault.field))
        {
            take_fault_away(document, &control);
        }
    }
    for fault in faults {
        if let Some(control) = control(document, form, &fault.field) {
            show_fault(document, &control, &fault.sentence);
        }
    }
}

/// What was said of a field that is read only when its form is sent is no longer true once something else is typed there.
pub fn forget_fault(document: &Document, event: &Event) {
    let control = event.target().and_then(|target| target.dyn_into::<Element>().ok());
    if let Some(control) = control
        && matches!(control.matches("form:not([data-calculator]) [aria-invalid]"), Ok(true))
    {
        take_fault_away(document, &control);
    }
}

/// Takes the fields that play no part out of sight, and shows the others.
pub fn pass_over(document: &Document, form: &str, fields: &[String]) {
    for place in dom::all(document, &format!("#{form} .field")) {
        if let Ok(Some(control)) = place.query_selector("[name]") {
            let name = control.get_attribute("name").unwrap_or_default();
            dom::show(&place, !fields.contains(&name));
        }
    }
}

/// What each field takes, in the user's units.
pub fn show_hints(document: &Document, form: &str, fields: &[&dyn AnyField], units: Units) {
    let takes = fields.iter().map(|field| (field.name().to_owned(), field.takes(units)));
    show_takes(document, form, takes.collect());
}

/// The same, as pairs of a field and a text.
pub fn show_takes(document: &Document, form: &str, takes: Vec<(String, String)>) {
    for (field, text) in takes {
        if let Some(hint) = document.get_element_by_id(&format!("{form}-{field}-takes")) {
            hint.set_text_content(Some(&text));
        }
    }
}

fn take_fault_away(document: &Document, control: &Element) {
    let done = control.remove_attribute("aria-invalid");
    debug_assert!(done.is_ok());
    describe(control, false);
    if let Some(fault) = document.get_element_by_id(&format!("{}-fault", control.id())) {
        fault.remove();
    }
}

fn show_fault(document: &Document, control: &Element, sentence: &str) {
    let id = format!("{}-fault", control.id());
    let place = document.get_element_by_id(&id).or_else(|| {
        let place = document.create_element("p").ok()?;
        place.set_id(&id);
        place.set_class_name("fault");
        control.parent_element()?.append_child(&place).ok()?;
        Some(place)
    });
    let Some(place) = place else { return };
    if place.text_content().as_deref() != Some(sentence) {
        place.set_text_content(Some(sentence));
    }
    dom::set(control, "aria-invalid", "true");
    describe(control, true);
    if let Ok(Some(details)) = control.closest("details") {
        dom::set(&details, "open", "");
    }
}

/// Ties the control to its hint, and to its fault where it has one.
fn describe(control: &Element, at_fault: bool) {
    let id = control.id();
    let fault = if at_fault {
        format!("{id}-fault ")
    } else {
        String::new()
    };
    dom::set(control, "aria-describedby", &format!("{fault}{id}-takes"));
}
