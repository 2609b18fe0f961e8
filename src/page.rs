//! The web edge: forms to named text, sheets to the page, the browser's store, the clock. Only this module knows a browser.

mod annex;
mod answers;
mod copies;
mod data;
mod kit;
mod ledger;
mod look;
mod mirror;
mod rooms;
mod written;
mod shelf;

use std::cell::RefCell;
use std::rc::Rc;

use gloo_events::EventListener;
use gloo_timers::callback::Timeout;
use wasm_bindgen::prelude::*;
use web_sys::{Document, StorageEvent};

use crate::browser::{clock, dom, door, forms};
use crate::calculators;
use crate::darkroom::Darkroom;
use crate::fields::Named;
use crate::store::{self, Door, DoorError, Record, Unread};
use crate::view;

/// Everything that lives as long as the page.
struct App {
    document: Document,
    door: Box<dyn Door>,
    darkroom: RefCell<Darkroom>,
    annex: annex::Annex,
    ledger: ledger::Book,
    mirror: mirror::Mirror,
    copies: copies::Known,
    /// What stood in the forms when the page was opened.
    forms: Vec<(String, Named)>,
    /// What stands in the forms that were changed and is still to be kept.
    unsaved: RefCell<Vec<(&'static str, Named)>>,
    /// Entries of the store that could not be read.
    unread: RefCell<Vec<Unread>>,
    /// Why the store cannot be used at all.
    trouble: Option<DoorError>,
    /// What could not be kept, by its key, and why; tried again with every later write.
    unkept: RefCell<Vec<Unkept>>,
    listeners: RefCell<Vec<EventListener>>,
    /// What is still to be shown of each calculator's sheet; replaced, and so called off, by the next.
    later: RefCell<Vec<(&'static str, Timeout)>>,
    written: RefCell<written::Written>,
}

/// What could not be kept: its key, what it is, and why.
struct Unkept {
    key: String,
    record: Record,
    error: DoorError,
}

thread_local! {
    static APP: RefCell<Option<Rc<App>>> = const { RefCell::new(None) };
}

#[wasm_bindgen(start)]
fn begin() -> Result<(), JsValue> {
    let document = dom::document()?;
    let (door, trouble) = door();
    let (entries, lost) = door.entries();
    let (events, others) = entries.into_iter().partition(|(key, _)| key.starts_with(store::EVENTS));
    let loaded = store::read(others);
    let app = Rc::new(App {
        document,
        door,
        darkroom: RefCell::new(Darkroom::with(loaded.kit, clock::today())),
        annex: annex::Annex::default(),
        ledger: ledger::Book::default(),
        mirror: mirror::Mirror::default(),
        copies: copies::Known::default(),
        forms: loaded.forms,
        unsaved: RefCell::default(),
        unread: RefCell::new(loaded.unread),
        trouble: trouble.or(lost),
        unkept: RefCell::default(),
        listeners: RefCell::default(),
        later: RefCell::default(),
        written: RefCell::default(),
    });
    APP.with_borrow_mut(|slot| *slot = Some(Rc::clone(&app)));
    look::start(&app);
    ledger::start(&app, events);
    kit::start(&app);
    shelf::start(&app);
    answers::start(&app);
    rooms::start(&app);
    copies::start(&app);
    app.show_trouble();
    app.follow_other_tabs();
    mirror::start(&app);
    if let Some(body) = app.document.body() {
        body.dataset().set("ready", "yes")?;
    }
    Ok(())
}

/// The same calculators for scripts in the page: a name, and an object of texts by field; the answer as an object. Those of the
/// shelf are there once its module is: `await meniscus.more()`.
///
/// # Errors
/// If there is no calculator of that name, its module is not here yet, or the fields are not texts.
#[wasm_bindgen]
pub fn calculate(name: &str, fields: JsValue) -> Result<JsValue, JsValue> {
    let app = APP.with_borrow(Clone::clone);
    let Some(calculator) = calculators::at_the_sink(name) else {
        let known = calculators::SHELF_NAMES.contains(&name);
        let answer = app.and_then(|app| annex::call(&app, "calculate", &[name.into(), fields]));
        return answer.ok_or_else(|| match known {
            true => JsError::new(
                "the calculators of the shelf come with its module (await meniscus.more()), and take an object of texts",
            )
            .into(),
            false => JsError::new(&format!("there is no calculator called {name}")).into(),
        });
    };
    let named = forms::texts(&fields).ok_or_else(|| JsError::new("the fields must be an object of texts"))?;
    let answer = match app {
        Some(app) => calculator.answer(&named, &app.darkroom.borrow()),
        None => calculator.answer(&named, &Darkroom::starter(clock::today())),
    };
    Ok(data::object(&view::data(&answer)))
}

/// The module of the shelf has come: the page's loader hands it over, or nothing if it could not be fetched.
#[wasm_bindgen]
pub fn take_shelf(module: JsValue) {
    if let Some(app) = APP.with_borrow(Clone::clone) {
        annex::take(&app, module);
    }
}

/// For the later modules: what a function of the annex gives; `undefined` while the annex is not here.
#[wasm_bindgen]
pub fn ask(function: &str, arguments: &js_sys::Array) -> JsValue {
    let app = APP.with_borrow(Clone::clone);
    app.and_then(|app| annex::call_with(&app, function, arguments))
        .unwrap_or_default()
}

/// For the later modules: writes down what happened now, each given as an event of no moment, and offers to take it back, all of it.
/// Whether all of it was kept; nothing is where one of them cannot be read.
#[wasm_bindgen]
pub fn write_down(events: &js_sys::Array) -> bool {
    let app = APP.with_borrow(Clone::clone);
    app.is_some_and(|app| {
        let whats = annex::whats(events);
        let count = whats.len();
        count == events.length() as usize && shelf::write_down(&app, whats) == count
    })
}

impl App {
    /// Keeps a record, and with it whatever could not be kept before; if that fails, says so and goes on.
    fn keep(&self, key: &str, record: &Record) {
        let mut waiting = self.unkept.take();
        let had_trouble = !waiting.is_empty();
        waiting.retain(|unkept| unkept.key != key);
        waiting.push(Unkept {
            key: key.to_owned(),
            record: record.clone(),
            error: DoorError::NotKept,
        });
        waiting.retain_mut(|unkept| match store::save(&*self.door, &unkept.key, &unkept.record) {
            Ok(()) => false,
            Err(error) => {
                unkept.error = error;
                true
            }
        });
        let has_trouble = !waiting.is_empty();
        *self.unkept.borrow_mut() = waiting;
        if had_trouble || has_trouble {
            self.show_trouble();
        }
    }

    /// What stood in a form when the page was opened.
    fn stood_in(&self, name: &str) -> Option<&Named> {
        let found = self.forms.iter().find(|(form, _)| form == name);
        found.map(|(_, named)| named)
    }

    /// What stands in a form is to be kept, at the latest when the page is left.
    fn keep_later(&self, name: &'static str, named: Named) {
        let mut unsaved = self.unsaved.borrow_mut();
        unsaved.retain(|(other, _)| *other != name);
        unsaved.push((name, named));
    }

    /// Keeps what stands in the forms that were changed.
    fn keep_forms(&self) {
        for (name, named) in self.unsaved.take() {
            self.keep_form(name, named);
        }
    }

    /// Keeps what stands in a form, unless it is about the example.
    fn keep_form(&self, name: &str, named: Named) {
        let bottle = named.get("bottle");
        if bottle.is_some_and(|bottle| ledger::is_bottle_of_example(self, bottle)) {
            return;
        }
        self.keep(&format!("{}{name}", store::FORMS), &Record::Form(named));
    }

    fn show_trouble(&self) {
        let (of_ledger, lost) = ledger::trouble(self);
        let mut unread = self.unread.borrow().clone();
        unread.extend(lost);
        let unkept = self.unkept.borrow();
        let mut troubles: Vec<DoorError> = self
            .trouble
            .into_iter()
            .chain(unkept.iter().map(|unkept| unkept.error))
            .collect();
        troubles.dedup();
        let mut sentences: Vec<String> = troubles
            .iter()
            .map(|trouble| crate::fields::sentence(&trouble.to_string()))
            .collect();
        sentences.extend(of_ledger);
        sentences.extend(copies::warning(self));
        if let Some(place) = self.document.get_element_by_id("trouble") {
            place.set_inner_html(&view::trouble(&sentences, &unread).into_string());
            dom::show(&place, !sentences.is_empty() || !unread.is_empty());
        }
    }

    /// Another tab changed the kit: take it over.
    fn follow_other_tabs(self: &Rc<Self>) {
        let app = Rc::clone(self);
        let Some(window) = web_sys::window() else { return };
        let listener = EventListener::new(&window, "storage", move |event| {
            let key = event.dyn_ref::<StorageEvent>().and_then(StorageEvent::key);
            match key {
                Some(key) if key.starts_with(store::EVENTS) => ledger::take_entry(&app, key),
                Some(key) if key.starts_with(store::KIT) => app.reload(),
                Some(_) => {}
                None => {
                    app.reload();
                    ledger::take_all(&app);
                }
            }
        });
        self.own(listener);
    }

    /// Reads the kit anew and shows what has changed.
    fn reload(self: &Rc<Self>) {
        let mut loaded = store::load(&*self.door);
        for unkept in &*self.unkept.borrow() {
            if let Some(id) = unkept.key.strip_prefix(store::KIT) {
                store::lay(&mut loaded.kit, id, unkept.record.clone());
            }
        }
        *self.unread.borrow_mut() = loaded.unread;
        self.darkroom.borrow_mut().kit = loaded.kit;
        ledger::bring_over(self);
        ledger::changed(self);
        self.show_trouble();
    }

    fn own(&self, listener: EventListener) {
        self.listeners.borrow_mut().push(listener);
    }
}
