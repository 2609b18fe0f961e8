//! Copies of the ledger: saved as a file, read in from one; and what the browser says of its store.

use std::cell::Cell;
use std::rc::Rc;

use gloo_events::EventListener;
use gloo_timers::callback::Timeout;
use wasm_bindgen::prelude::*;
use web_sys::{Event, File, HtmlInputElement, StorageManager};

use super::{App, annex, clock, dom, ledger};
use crate::browser::handed_out;
use crate::fields;
use crate::ledger::{LARGEST, Usage, export};
use crate::view::{self, Copies};

/// Under which the last copy is remembered.
const COPIES: &str = "copies";
/// Milliseconds after the start in which the page is left alone before its store is measured.
const LATER: u32 = 500;

/// What is known of copies and of the store.
#[derive(Default)]
pub struct Known {
    copies: Cell<Copies>,
    /// Whether the browser was ever asked to keep everything.
    asked: Cell<bool>,
}

/// Takes up what is remembered, listens, and shows it.
pub fn start(app: &Rc<App>) {
    remember(app);
    listen(app, "copy-save", "click", save);
    listen(app, "copy-file", "change", open);
    show(app);
    if let Some(storage) = storage()
        && let Ok(promise) = storage.persisted()
    {
        promised(app, &promise);
    }
    let late = Rc::clone(app);
    Timeout::new(LATER, move || measure(&late)).forget();
}

/// Shows what is known.
pub fn show(app: &App) {
    let known = Copies {
        entries: ledger::count(app),
        ..app.copies.copies.get()
    };
    app.copies.copies.set(known);
    if let Some(place) = app.document.get_element_by_id("copies") {
        place.set_inner_html(&view::copies(&known, clock::today()).into_string());
    }
}

/// What to do before the store is full.
pub fn warning(app: &App) -> Option<String> {
    app.copies.copies.get().usage.and_then(Usage::warning)
}

/// An entry was written. With the first ever, the browser is asked to keep everything.
pub fn wrote(app: &Rc<App>, key: &str, text: &str) {
    let mut known = app.copies.copies.get();
    if let Some(usage) = &mut known.usage {
        usage.add(key, text);
    }
    app.copies.copies.set(known);
    if !app.copies.asked.get() {
        ask(app);
        keep(app);
    }
}

fn listen(app: &Rc<App>, id: &str, event: &'static str, call: fn(&Rc<App>)) {
    if let Some(element) = app.document.get_element_by_id(id) {
        let called = Rc::clone(app);
        app.own(EventListener::new(&element, event, move |_: &Event| call(&called)));
    }
}

fn remember(app: &App) {
    let Some(named) = app.stood_in(COPIES) else { return };
    let day = named.get("saved").and_then(|day| day.parse().ok());
    let entries = named.get("entries").and_then(|count| count.parse().ok());
    app.copies.asked.set(true);
    app.copies.copies.set(Copies {
        last: day.zip(entries),
        ..Copies::default()
    });
}

fn keep(app: &App) {
    let mut named = fields::only("asked", "yes");
    if let Some((day, entries)) = app.copies.copies.get().last {
        named.insert("saved".to_owned(), day.to_string());
        named.insert("entries".to_owned(), entries.to_string());
    }
    app.keep_form(COPIES, named);
}

fn measure(app: &App) {
    let usage = Usage::of(&*app.door).ok();
    let known = app.copies.copies.get();
    app.copies.copies.set(Copies { usage, ..known });
    show(app);
    if usage.and_then(Usage::warning).is_some() {
        app.show_trouble();
    }
}

/// What manages the browser's stores; missing where the page was not fetched safely.
fn storage() -> Option<StorageManager> {
    let navigator = web_sys::window()?.navigator();
    let storage = js_sys::Reflect::get(&navigator, &"storage".into()).ok()?;
    storage.dyn_into().ok()
}

/// Asks the browser not to clear the store by itself.
fn ask(app: &Rc<App>) {
    app.copies.asked.set(true);
    if let Some(storage) = storage()
        && let Ok(promise) = storage.persist()
    {
        promised(app, &promise);
    }
}

/// Shows the browser's answer when it comes.
fn promised(app: &Rc<App>, promise: &js_sys::Promise) {
    let app = Rc::clone(app);
    let answered = move |answer: JsValue| {
        let known = app.copies.copies.get();
        let promised = answer.as_bool().or(known.promised);
        app.copies.copies.set(Copies { promised, ..known });
        show(&app);
    };
    dom::then(promise.unchecked_ref(), Box::new(answered));
}

/// Saves all that is known as a file.
fn save(app: &Rc<App>) {
    let today = clock::today();
    let ledger = ledger::all(app);
    if handed_out::save(&app.document, &format!("meniscus-{today}.txt"), &export(&ledger, today)).is_none() {
        return say(
            app,
            "This browser did not take the file. Try again, or use another browser.",
        );
    }
    let last = Some((today, ledger::count(app)));
    let known = app.copies.copies.get();
    app.copies.copies.set(Copies { last, ..known });
    if known.promised == Some(false) {
        ask(app);
    }
    keep(app);
    show(app);
}

/// Reads the chosen file in.
fn open(app: &Rc<App>) {
    let input = app.document.get_element_by_id("copy-file");
    let Some(input) = input.and_then(|input| input.dyn_into::<HtmlInputElement>().ok()) else {
        return;
    };
    let Some(file) = input.files().and_then(|files| files.get(0)) else {
        return;
    };
    if file.size() > LARGEST as f64 {
        say(app, &annex::text(app, "too_large", &[]).unwrap_or_default());
    } else {
        read(app, &file);
    }
    // The same file may be chosen again.
    input.set_value("");
}

fn read(app: &Rc<App>, file: &File) {
    let app = Rc::clone(app);
    let came = move |text: JsValue| {
        let Some(text) = text.as_string() else {
            return say(&app, "The file could not be read. Choose it again.");
        };
        let Some((ledger, complaints)) = annex::read_copy(&app, &text) else {
            return say(&app, "The shelf is not here yet. Choose the file again in a moment.");
        };
        let taken = (!ledger.is_empty()).then(|| ledger::take_in(&app, ledger));
        let taken = taken.map(|taken| view::taken_in(&taken).into_string());
        tell(&app, &(taken.unwrap_or_default() + &complaints));
        measure(&app);
    };
    dom::then(file.text().unchecked_ref(), Box::new(came));
}

fn say(app: &App, sentence: &str) {
    if let Some(place) = app.document.get_element_by_id("copy-read") {
        place.set_text_content(Some(sentence));
    }
}

fn tell(app: &App, markup: &str) {
    if let Some(place) = app.document.get_element_by_id("copy-read") {
        place.set_inner_html(markup);
    }
}
