//! The calculators' forms: every change is computed at once, shown, and remembered.

use std::rc::Rc;

use gloo_events::EventListener;
use gloo_timers::callback::Timeout;
use wasm_bindgen::prelude::*;
use web_sys::{Element, Event, HtmlElement, HtmlFormElement};

use super::{App, dom, forms};
use crate::calculators::{self, Answer, Calculator};
use crate::entries::Entry;
use crate::fields::Named;
use crate::view;

/// Milliseconds after which the rest of a sheet follows its head: two frames, so that the head is painted first.
const REST_AFTER: u32 = 34;

/// Fills the forms with what stood in them last, listens, and shows every sheet.
pub fn start(app: &Rc<App>) {
    for (calculator, form) in calculator_forms(app) {
        if let Some(named) = app.forms.borrow().get(calculator.name) {
            forms::fill(&app.document, calculator.name, named);
        }
        listen(app, calculator, &form);
    }
    listen_to_buttons(app);
    show_all(app);
}

/// Computes and shows every sheet, and what each field takes.
pub fn show_all(app: &Rc<App>) {
    let units = app.darkroom.borrow().kit.house.units;
    for (calculator, form) in calculator_forms(app) {
        forms::show_hints(&app.document, calculator.name, calculator.fields, units);
        show_dilutions(app, calculator.name);
        show(app, calculator, &forms::named(&form));
    }
}

fn calculator_forms(app: &App) -> Vec<(&'static Calculator, HtmlFormElement)> {
    let form = |calculator: &'static Calculator| {
        let form = app.document.get_element_by_id(calculator.name)?.dyn_into().ok()?;
        Some((calculator, form))
    };
    calculators::ALL.into_iter().filter_map(form).collect()
}

fn listen(app: &Rc<App>, calculator: &'static Calculator, form: &HtmlFormElement) {
    let changed = {
        let (app, form) = (Rc::clone(app), form.clone());
        move |event: &Event| {
            let control = event.target().and_then(|target| target.dyn_into::<Element>().ok());
            if control.is_some_and(|control| control.id() == format!("{}-bottle", calculator.name)) {
                take_from_bottle(&app, calculator.name);
                show_dilutions(&app, calculator.name);
            }
            update(&app, calculator, &form);
        }
    };
    app.own(EventListener::new(form, "input", changed));
    let reset = {
        let (app, form) = (Rc::clone(app), form.clone());
        move |_: &Event| {
            // The form is reset only after this event.
            let (app, form) = (Rc::clone(&app), form.clone());
            Timeout::new(0, move || update(&app, calculator, &form)).forget();
        }
    };
    app.own(EventListener::new(form, "reset", reset));
    app.own(EventListener::new_with_options(
        form,
        "submit",
        gloo_events::EventListenerOptions::enable_prevent_default(),
        Event::prevent_default,
    ));
}

fn update(app: &Rc<App>, calculator: &'static Calculator, form: &HtmlFormElement) {
    let named = forms::named(form);
    show(app, calculator, &named);
    app.keep_form(calculator.name, named);
}

fn show(app: &Rc<App>, calculator: &Calculator, named: &Named) {
    let answer = calculator.answer(named, &app.darkroom.borrow());
    let document = &app.document;
    forms::show_faults(document, calculator.name, &answer.faults);
    if let Some(place) = app.written.borrow_mut().of(document, calculator.name) {
        place.write_head(view::headline(&answer));
    }
    // The figures to act on are painted at once; the rest of the sheet follows as soon as they are, so that typing never waits.
    let (late, name) = (Rc::clone(app), calculator.name);
    let rest = Timeout::new(REST_AFTER, move || {
        if let Some(place) = late.written.borrow_mut().of(&late.document, name) {
            place.write_parts(view::parts(&answer));
        }
    });
    let mut later = app.later.borrow_mut();
    later.retain(|(name, _)| *name != calculator.name);
    later.push((calculator.name, rest));
}

/// A bottle was picked: what its label and data sheet say goes into the form.
fn take_from_bottle(app: &App, form: &str) {
    let darkroom = app.darkroom.borrow();
    let Some(select) = forms::control(&app.document, form, "bottle") else {
        return;
    };
    let Some(bottle) = darkroom.kit.bottle(&dom::value(&select)) else {
        return;
    };
    let mut named = bottle.write(darkroom.kit.house.units);
    named.insert("class".to_owned(), String::new());
    match bottle.dilutions.first() {
        Some(usual) => named.insert("dilution".to_owned(), usual.to_string()),
        None => named.remove("dilution"),
    };
    forms::fill(&app.document, form, &named);
}

/// The dilutions of the bottle that is picked, under the field, where there are several.
fn show_dilutions(app: &App, form: &str) {
    let Ok(Some(place)) = app.document.query_selector(&format!("[data-dilutions={form}]")) else {
        return;
    };
    let darkroom = app.darkroom.borrow();
    let picked = forms::control(&app.document, form, "bottle").map(|select| dom::value(&select));
    let bottle = picked.and_then(|picked| darkroom.kit.bottle(&picked));
    let dilutions = bottle.map_or(&[][..], |bottle| &bottle.dilutions);
    place.set_inner_html(&view::dilutions(dilutions).into_string());
    dom::show(&place, dilutions.len() > 1);
}

/// One of them was touched.
fn take_dilution(app: &Rc<App>, button: &Element, dilution: &str) {
    let Some(name) = room_of(button) else { return };
    let form = calculator_forms(app)
        .into_iter()
        .find(|(calculator, _)| calculator.name == name);
    if let (Some((calculator, form)), Some(field)) = (form, forms::control(&app.document, &name, "dilution")) {
        dom::set_value(&field, dilution);
        update(app, calculator, &form);
    }
}

/// A bottle was changed in the Kit: the forms that picked it take its new figures.
pub fn take_from_changed_bottle(app: &Rc<App>, id: &str) {
    for (calculator, form) in calculator_forms(app) {
        let picked = forms::control(&app.document, calculator.name, "bottle");
        if picked.is_some_and(|picked| dom::value(&picked) == id) {
            take_from_bottle(app, calculator.name);
            app.keep_form(calculator.name, forms::named(&form));
        }
    }
}

/// Copy, print, and "change this assumption", wherever they stand.
fn listen_to_buttons(app: &Rc<App>) {
    let clicked = {
        let app = Rc::clone(app);
        move |event: &Event| {
            let Some(button) = dom::pressed(event) else { return };
            if button.has_attribute("data-copy") {
                copy(&app, &button);
            } else if button.has_attribute("data-print") {
                let printed = web_sys::window().map(|window| window.print());
                debug_assert!(printed.is_some());
            } else if let Some(dilution) = button.get_attribute("data-dilution") {
                take_dilution(&app, &button, &dilution);
            } else if let Some(field) = button.get_attribute("data-change") {
                go_to_field(&app, &button, &field);
            }
        }
    };
    app.own(EventListener::new(&app.document, "click", clicked));
}

fn room_of(button: &Element) -> Option<String> {
    button.closest("[data-room]").ok().flatten()?.get_attribute("data-room")
}

fn copy(app: &App, button: &Element) {
    let Some(answer) = answer_of(app, button) else { return };
    let text = view::text(&answer);
    let Some(navigator) = web_sys::window().map(|window| window.navigator()) else {
        return;
    };
    // The promise is not waited for: if the browser refuses, nothing is lost.
    drop(navigator.clipboard().write_text(&text));
    button.set_text_content(Some("Copied"));
}

fn answer_of(app: &App, button: &Element) -> Option<Answer> {
    let name = room_of(button)?;
    let form = app
        .document
        .get_element_by_id(&name)?
        .dyn_into::<HtmlFormElement>()
        .ok()?;
    calculators::calculate(&name, &forms::named(&form), &app.darkroom.borrow())
}

/// Leads to the field that replaces an assumption: in the same form, or in the Kit.
fn go_to_field(app: &App, button: &Element, field: &str) {
    let here = room_of(button).and_then(|room| forms::control(&app.document, &room, field));
    let Some(control) = here.or_else(|| forms::control(&app.document, "house", field)) else {
        return;
    };
    if let Some(room) = room_of(&control)
        && let Some(window) = web_sys::window()
        && room_of(button).as_deref() != Some(&room)
    {
        let moved = window.location().set_hash(&room);
        debug_assert!(moved.is_ok());
    }
    if let Ok(Some(details)) = control.closest("details") {
        dom::set(&details, "open", "");
    }
    // The room is shown only after this event.
    if let Ok(control) = control.dyn_into::<HtmlElement>() {
        Timeout::new(0, move || dom::focus(&control)).forget();
    }
}
