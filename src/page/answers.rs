//! The calculators' forms: every change is computed at once, shown, and remembered.

use std::rc::Rc;

use gloo_events::EventListener;
use gloo_timers::callback::Timeout;
use wasm_bindgen::prelude::*;
use web_sys::{Element, Event, HtmlElement, HtmlFormElement};

use super::{App, annex, dom, forms, rooms};
use crate::browser::{address, handed_out};
use crate::calculators;
use crate::chemistry::Class;
use crate::entries;
use crate::fields::Named;
use crate::ledger::Bottle;
use crate::quantity::Volume;
use crate::view;

/// Milliseconds after which the rest of a sheet follows its head: two frames, so that the head is painted first.
const REST_AFTER: u32 = 34;

/// Fills the forms with what stood in them last, and listens.
pub fn start(app: &Rc<App>) {
    for (name, form) in calculator_forms(app) {
        if let Some(named) = app.stood_in(name) {
            forms::fill(&app.document, name, named);
        }
        listen(app, name, &form);
    }
    listen_to_buttons(app);
    let left = {
        let app = Rc::clone(app);
        move |_: &Event| app.keep_forms()
    };
    // A phone may end a page that is out of sight without another word.
    app.own(EventListener::new(&app.document, "visibilitychange", left));
}

/// Computes and shows the sheet of the room that is shown, and what each of its fields takes. The other rooms follow when they
/// are gone to.
pub fn show_room(app: &Rc<App>) {
    let room = rooms::current(app);
    let found = calculator_forms(app).into_iter().find(|(name, _)| *name == room);
    let Some((name, form)) = found else { return };
    let units = app.darkroom.borrow().kit.house.units;
    match calculators::at_the_sink(name) {
        Some(calculator) => forms::show_hints(&app.document, name, calculator.fields, units),
        None => forms::show_takes(&app.document, name, annex::takes(app, name)),
    }
    show_bottle(app, name);
    show(app, name, &forms::named(&form));
}

fn calculator_forms(app: &App) -> Vec<(&'static str, HtmlFormElement)> {
    let at_the_sink = calculators::SINK.iter().map(|calculator| calculator.name);
    let names = at_the_sink.chain(calculators::SHELF_NAMES);
    let form = |name: &'static str| Some((name, forms::form(&app.document, name)?));
    names.filter_map(form).collect()
}

fn listen(app: &Rc<App>, name: &'static str, form: &HtmlFormElement) {
    let changed = {
        let (app, controls) = (Rc::clone(app), forms::controls(form));
        move |event: &Event| {
            let control = event.target().and_then(|target| target.dyn_into::<Element>().ok());
            if control.is_some_and(|control| control.id() == format!("{name}-bottle")) {
                take_from_bottle(&app, name);
                show_bottle(&app, name);
            }
            update(&app, name, forms::read(&controls));
        }
    };
    app.own(EventListener::new(form, "input", changed));
    let reset = {
        let (app, form) = (Rc::clone(app), form.clone());
        move |_: &Event| {
            // The form is reset only after this event.
            let (app, form) = (Rc::clone(&app), form.clone());
            Timeout::new(0, move || {
                show_bottle(&app, name);
                update(&app, name, forms::named(&form));
            })
            .forget();
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

fn update(app: &Rc<App>, name: &'static str, named: Named) {
    show(app, name, &named);
    // Writing takes a part of the frame: it is done with the rest of the sheet.
    app.keep_later(name, named);
}

fn show(app: &Rc<App>, name: &'static str, named: &Named) {
    let Some(calculator) = calculators::at_the_sink(name) else {
        return show_from_annex(app, name, named.clone());
    };
    let answer = calculator.answer(named, &app.darkroom.borrow());
    if let Some(place) = app.written.borrow_mut().of(&app.document, name) {
        place.write_faults(&app.document, &answer.faults);
        place.write_head(view::headline(&answer));
    }
    // The figures to act on are painted at once; the rest of the sheet follows as soon as they are, so that typing never waits.
    let late = Rc::clone(app);
    then(app, name, move || {
        if let Some(place) = late.written.borrow_mut().of(&late.document, name) {
            place.write_parts(view::parts(&answer));
        }
    });
}

/// The shelf's calculators look far ahead: what is typed is painted first.
fn show_from_annex(app: &Rc<App>, name: &'static str, named: Named) {
    annex::want(app);
    let late = Rc::clone(app);
    then(app, name, move || {
        let Some(shown) = annex::answer(&late, name, &named) else {
            return;
        };
        forms::pass_over(&late.document, name, &shown.passed_over);
        forms::show_faults(&late.document, name, &shown.faults);
        for button in dom::all(
            &late.document,
            &format!("[data-found={name}], [data-calibrated={name}]"),
        ) {
            dom::show(&button, shown.keeps);
        }
        if let Some(place) = late.written.borrow_mut().of(&late.document, name) {
            place.write_parts(shown.parts);
            place.write_head(shown.head);
        }
    });
}

/// Does the rest two frames later, in place of what was still to be done for that sheet, and keeps what stands in the forms.
fn then(app: &Rc<App>, name: &'static str, rest: impl FnOnce() + 'static) {
    let late = Rc::clone(app);
    let rest = Timeout::new(REST_AFTER, move || {
        late.keep_forms();
        rest();
    });
    let mut later = app.later.borrow_mut();
    later.retain(|(other, _)| *other != name);
    later.push((name, rest));
}

/// A bottle was picked: what its label and data sheet say goes into the form.
fn take_from_bottle(app: &App, form: &str) {
    const DILUTION: &str = "dilution";
    const STRENGTH: &str = "strength";
    let darkroom = app.darkroom.borrow();
    let Some(bottle) = picked(app, form) else {
        // Nothing of the last bottle stays.
        for name in entries::LABEL_FIELDS.into_iter().chain([DILUTION, STRENGTH]) {
            if let Some(control) = forms::control(&app.document, form, name) {
                dom::set_value(&control, &dom::first_value(&control));
            }
        }
        return;
    };
    let Some(label) = darkroom.kit.bottle(&bottle) else {
        return;
    };
    let mut named = entries::write_label(label, darkroom.kit.house.units);
    named.insert("class".to_owned(), String::new());
    let on_shelf = darkroom.shelf.bottle(&bottle);
    let strength = on_shelf.and_then(|bottle| darkroom.shelf.measured_strength(bottle));
    let strength = darkroom.kit.house.units.percent(strength.unwrap_or(1.0));
    named.insert(STRENGTH.to_owned(), strength);
    let with_water = |bottle: &Bottle| bottle.water > Volume::ZERO;
    let is_bath =
        label.class == Class::WorkingDeveloper || label.class != Class::PowderStock && on_shelf.is_some_and(with_water);
    let usual = match is_bath {
        true => "stock".to_owned(),
        // Where nothing is known of it, the dilution of another bottle would be a trap.
        false => label.dilutions.first().map(ToString::to_string).unwrap_or_default(),
    };
    named.insert(DILUTION.to_owned(), usual);
    forms::fill(&app.document, form, &named);
}

/// What can be done with the bottle that is picked, and its dilutions, where there are several.
fn show_bottle(app: &Rc<App>, form: &'static str) {
    // Judging takes its time: the figures are painted first.
    let late = Rc::clone(app);
    Timeout::new(REST_AFTER, move || show_verdict(&late, form)).forget();
    let picked = picked(app, form);
    for button in dom::all(&app.document, &format!("[data-room={form}] [data-of-bottle]")) {
        dom::show(&button, picked.is_some());
    }
    if let Ok(Some(place)) = app.document.query_selector(&format!("[data-dilutions={form}]")) {
        let darkroom = app.darkroom.borrow();
        let bottle = picked.as_ref().and_then(|id| darkroom.kit.bottle(id));
        let dilutions = bottle.map_or(&[][..], |bottle| &bottle.dilutions);
        place.set_inner_html(&view::dilutions(dilutions).into_string());
        dom::show(&place, dilutions.len() > 1);
    }
}

/// Whether the bottle that is picked may be used, and who says so.
fn show_verdict(app: &Rc<App>, form: &str) {
    let Ok(Some(place)) = app.document.query_selector(&format!("[data-verdict={form}]")) else {
        return;
    };
    let picked = picked(app, form);
    dom::show(&place, picked.is_some());
    let Some(id) = picked else { return };
    annex::want(app);
    let verdict = annex::text(app, "verdict", &[id.into()]);
    place.set_inner_html(verdict.as_deref().unwrap_or("Whether it may be used is not known yet."));
}

/// The bottle that is picked in a form.
fn picked(app: &App, form: &str) -> Option<String> {
    let picked = forms::control(&app.document, form, "bottle").map(|select| dom::value(&select));
    picked.filter(|id| app.darkroom.borrow().kit.bottle(id).is_some())
}

/// One of them was touched.
fn take_dilution(app: &Rc<App>, button: &Element, dilution: &str) {
    let Some(name) = room_of(button) else { return };
    let form = calculator_forms(app).into_iter().find(|(other, _)| *other == name);
    if let (Some((name, form)), Some(field)) = (form, forms::control(&app.document, &name, "dilution")) {
        dom::set_value(&field, dilution);
        update(app, name, forms::named(&form));
    }
}

/// A bottle was changed in the Kit: the forms that picked it take its new figures.
pub fn take_from_changed_bottle(app: &Rc<App>, id: &str) {
    for (name, form) in calculator_forms(app) {
        let picked = forms::control(&app.document, name, "bottle");
        if picked.is_some_and(|picked| dom::value(&picked) == id) {
            take_from_bottle(app, name);
            app.keep_later(name, forms::named(&form));
        }
    }
    app.keep_forms();
}

/// Copy, print, "change this assumption" and going on, wherever they stand.
fn listen_to_buttons(app: &Rc<App>) {
    let clicked = {
        let app = Rc::clone(app);
        move |event: &Event| {
            let Some(button) = dom::pressed(event) else { return };
            if button.has_attribute("data-copy") {
                if let Some(text) = text_of(&app, &button) {
                    handed_out::copy(&button, &text);
                }
            } else if button.has_attribute("data-print") {
                let printed = web_sys::window().map(|window| window.print());
                debug_assert!(printed.is_some());
            } else if let Some(dilution) = button.get_attribute("data-dilution") {
                take_dilution(&app, &button, &dilution);
            } else if let Some(field) = button.get_attribute("data-change") {
                go_to_field(&app, &button, &field);
            } else if let Some(to) = button.get_attribute("data-onward") {
                go_on(&app, &button, &to);
            }
        }
    };
    app.own(EventListener::new(&app.document, "click", clicked));
}

fn room_of(button: &Element) -> Option<String> {
    button.closest("[data-room]").ok().flatten()?.get_attribute("data-room")
}

/// The sheet of the room that a button stands in, as text.
fn text_of(app: &App, button: &Element) -> Option<String> {
    let name = room_of(button)?;
    let named = forms::named(&forms::form(&app.document, &name)?);
    match calculators::at_the_sink(&name) {
        Some(calculator) => Some(view::text(&calculator.answer(&named, &app.darkroom.borrow()))),
        None => {
            let fields = forms::object(&named);
            annex::text(app, "text", &[name.into(), fields])
        }
    }
}

/// Goes on to another calculator with the fields that the button tells, or else with all that its own form has of the same name.
fn go_on(app: &Rc<App>, button: &Element, to: &str) -> Option<()> {
    let (to, form) = calculator_forms(app).into_iter().find(|(name, _)| *name == to)?;
    let named = match button.get_attribute("data-fields") {
        Some(json) => forms::texts(&js_sys::JSON::parse(&json).ok()?)?,
        None => forms::named(&forms::form(&app.document, &room_of(button)?)?),
    };
    forms::fill(&app.document, to, &named);
    // Nothing of the bath that was there before stays.
    take_from_bottle(app, to);
    for control in dom::all(&app.document, &format!("#{to} [data-anew]")) {
        dom::set_value(&control, &dom::first_value(&control));
    }
    forms::fill(&app.document, to, &named);
    show_bottle(app, to);
    update(app, to, forms::named(&form));
    address::go(to);
    Some(())
}

/// Leads to the field that replaces an assumption: in the same form, or in the Kit.
fn go_to_field(app: &App, button: &Element, field: &str) {
    let here = room_of(button).and_then(|room| forms::control(&app.document, &room, field));
    let Some(control) = here.or_else(|| forms::control(&app.document, "house", field)) else {
        return;
    };
    if let Some(room) = room_of(&control)
        && room_of(button).as_deref() != Some(&room)
    {
        address::go(&room);
    }
    if let Ok(Some(details)) = control.closest("details") {
        dom::set(&details, "open", "");
    }
    // The room is shown only after this event.
    if let Ok(control) = control.dyn_into::<HtmlElement>() {
        Timeout::new(0, move || dom::focus(&control)).forget();
    }
}
