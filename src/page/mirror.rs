//! The mirror: a second copy of every event, in the browser's database.
//!
//! Browsers keep the last seconds of the store in memory; the database says when what it was given is on the disk. The mirror is
//! never needed: where it is missing, blocked or broken, everything goes on without it.

use std::cell::{OnceCell, RefCell};
use std::rc::Rc;

use js_sys::{Array, Function};
use wasm_bindgen::prelude::*;
use web_sys::{Event, IdbDatabase, IdbOpenDbRequest, IdbRequest, IdbTransaction};

use super::{App, dom, ledger};

/// The database.
const NAME: &str = "meniscus";
/// In it, the texts of events by their keys.
const EVENTS: &str = "events";

/// The database, and what waits for it.
#[derive(Default)]
pub struct Mirror {
    state: RefCell<State>,
    waiting: RefCell<Vec<Job>>,
    /// Hears what the database says of itself.
    hears: OnceCell<Closure<dyn FnMut(Event)>>,
}

#[derive(Default)]
enum State {
    #[default]
    Closed,
    Opening,
    Open(IdbDatabase),
}

/// Entries to be written, and what to do then: whether they are on the disk.
struct Job {
    entries: Vec<(String, String)>,
    then: Box<dyn FnOnce(bool)>,
}

#[wasm_bindgen]
extern "C" {
    /// A database whose transactions take options.
    type WithOptions;

    #[wasm_bindgen(method, catch)]
    fn transaction(
        this: &WithOptions,
        store: &str,
        mode: &str,
        options: &js_sys::Object,
    ) -> Result<IdbTransaction, JsValue>;
}

/// Opens the mirror. Once it is open, it is compared with the ledger, here and whenever it was closed and is opened again.
pub fn start(app: &Rc<App>) {
    let hears = {
        let app = Rc::clone(app);
        Closure::new(move |event: Event| hear(&app, &event))
    };
    if app.mirror.hears.set(hears).is_ok() {
        open(app);
    }
}

/// Writes entries, in one go, and calls with whether they are on the disk. If the database does not answer, that is never.
pub fn write(app: &Rc<App>, entries: Vec<(String, String)>, then: Box<dyn FnOnce(bool)>) {
    app.mirror.waiting.borrow_mut().push(Job { entries, then });
    let closed = matches!(*app.mirror.state.borrow(), State::Closed);
    match closed {
        true => open(app),
        false => write_waiting(app),
    }
}

fn open(app: &Rc<App>) {
    let factory = web_sys::window().and_then(|window| window.indexed_db().ok().flatten());
    let request = factory.and_then(|factory| factory.open(NAME).ok());
    let (Some(request), Some(hears)) = (request, app.mirror.hears.get()) else {
        return give_up(app);
    };
    app.mirror.state.replace(State::Opening);
    let hears: Option<&Function> = Some(hears.as_ref().unchecked_ref());
    request.set_onupgradeneeded(hears);
    request.set_onsuccess(hears);
    request.set_onerror(hears);
}

fn hear(app: &Rc<App>, event: &Event) {
    let database = || -> Option<IdbDatabase> {
        let request: IdbOpenDbRequest = event.target()?.dyn_into().ok()?;
        request.result().ok()?.dyn_into().ok()
    };
    match (event.type_().as_str(), database()) {
        ("upgradeneeded", Some(new)) => {
            let made = new.create_object_store(EVENTS);
            debug_assert!(made.is_ok());
        }
        ("success", Some(database)) => {
            let hears: Option<&Function> = app.mirror.hears.get().map(|hears| hears.as_ref().unchecked_ref());
            database.set_onclose(hears);
            database.set_onversionchange(hears);
            app.mirror.state.replace(State::Open(database));
            compare(app);
            write_waiting(app);
        }
        // It is to be deleted or changed by another tab, or was closed by force: it is opened again when it is needed.
        ("versionchange" | "close", _) => {
            if let State::Open(database) = app.mirror.state.take() {
                database.close();
            }
        }
        _ => give_up(app),
    }
}

fn give_up(app: &App) {
    app.mirror.state.replace(State::Closed);
    for job in app.mirror.waiting.take() {
        (job.then)(false);
    }
}

fn database(app: &App) -> Option<IdbDatabase> {
    match &*app.mirror.state.borrow() {
        State::Open(database) => Some(database.clone()),
        _ => None,
    }
}

fn write_waiting(app: &Rc<App>) {
    let Some(database) = database(app) else { return };
    for job in app.mirror.waiting.take() {
        match put(&database, &job.entries) {
            Ok(transaction) => {
                let then = job.then;
                let ended: Box<dyn FnOnce(JsValue)> = Box::new(move |event| {
                    then(event.dyn_into().is_ok_and(|event: Event| event.type_() == "complete"));
                });
                let ended = dom::once(ended);
                transaction.set_oncomplete(Some(&ended));
                transaction.set_onabort(Some(&ended));
            }
            Err(_) => {
                app.mirror.state.replace(State::Closed);
                (job.then)(false);
            }
        }
    }
}

/// One transaction that is complete when all of it is on the disk.
fn put(database: &IdbDatabase, entries: &[(String, String)]) -> Result<IdbTransaction, JsValue> {
    let options = js_sys::Object::new();
    js_sys::Reflect::set(&options, &"durability".into(), &"strict".into())?;
    let database: &WithOptions = database.unchecked_ref();
    let transaction = database.transaction(EVENTS, "readwrite", &options)?;
    let store = transaction.object_store(EVENTS)?;
    for (key, text) in entries {
        store.put_with_key(&text.into(), &key.into())?;
    }
    Ok(transaction)
}

/// Compares what is in the mirror with the ledger, so that each gets what it lacks.
pub fn compare(app: &Rc<App>) {
    let store = database(app).and_then(|database| {
        let transaction = database.transaction_with_str(EVENTS).ok()?;
        transaction.object_store(EVENTS).ok()
    });
    let Some(store) = store else { return };
    let Ok(request) = store.get_all_keys() else { return };
    let app = Rc::clone(app);
    answered(&request, move |keys| {
        if !ledger::lacks_any(&app, &keys) {
            return ledger::unite(&app, &keys, Vec::new());
        }
        if let Ok(request) = store.get_all() {
            answered(&request, move |texts| ledger::unite(&app, &keys, texts));
        }
    });
}

/// Calls with the texts that a request brings, if it brings any.
fn answered(request: &IdbRequest, call: impl FnOnce(Vec<String>) + 'static) {
    let asked = request.clone();
    let answer = dom::once(Box::new(move |_| {
        if let Ok(list) = asked.result() {
            call(dom::texts(list.unchecked_ref::<Array>()));
        }
    }));
    request.set_onsuccess(Some(&answer));
    request.set_onerror(Some(&answer));
}
