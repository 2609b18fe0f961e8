//! The module of the shelf: loaded when the shelf is first opened, told what the page knows, asked for sheets and markup.

use std::cell::{Cell, RefCell};
use std::rc::Rc;

use js_sys::{Array, Function, Promise, Reflect};
use wasm_bindgen::prelude::*;
use web_sys::HtmlFormElement;

use super::{App, dom, forms, ledger, rooms};
use crate::fields::{Fault, Named};
use crate::ledger::{Event, Ledger, What, read_all};
use crate::store::Record;
use crate::view::Block;

/// What became of loading it.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
enum Stage {
    #[default]
    NotAsked,
    Coming,
    Here,
    Failed,
}

/// What is called when it does not come.
type Told = Closure<dyn FnMut(JsValue)>;

/// The module, once it is here.
#[derive(Default)]
pub struct Annex {
    stage: Cell<Stage>,
    module: RefCell<JsValue>,
    /// Whether it knows all that the page knows.
    knows: Cell<bool>,
    /// A form that was sent before it was here.
    sent: RefCell<Option<HtmlFormElement>>,
    told: RefCell<Option<Told>>,
}

/// A sheet as it comes.
pub struct Shown {
    /// What is wrong with the fields.
    pub faults: Vec<Fault>,
    /// The fields that play no part.
    pub passed_over: Vec<String>,
    /// The figures that are acted on, piece by piece.
    pub head: Vec<String>,
    /// The rest, in parts.
    pub parts: Vec<Block>,
}

impl Shown {
    /// From the object that the module gives; nothing if it gives none.
    fn of(object: &JsValue) -> Option<Self> {
        let list = |name: &str| Some(Array::from(&Reflect::get(object, &name.into()).ok()?));
        object.is_object().then_some(())?;
        let parts = list("parts")?;
        let parts = parts.iter().map(|part| {
            let part = Array::from(&part);
            Block {
                heading: part.get(0).as_string().unwrap_or_default(),
                pieces: dom::texts(&Array::from(&part.get(1))),
            }
        });
        Some(Self {
            faults: faults(&list("faults")?),
            passed_over: dom::texts(&list("passed_over")?),
            head: dom::texts(&list("head")?),
            parts: parts.collect(),
        })
    }
}

fn faults(list: &Array) -> Vec<Fault> {
    let fault = |(field, sentence)| Fault { field, sentence };
    pairs(list).into_iter().map(fault).collect()
}

fn pairs(list: &Array) -> Vec<(String, String)> {
    let text = |pair: &JsValue, at| Array::from(pair).get(at).as_string().unwrap_or_default();
    list.iter().map(|pair| (text(&pair, 0), text(&pair, 1))).collect()
}

/// What a form about a bottle or a place says.
pub struct Said {
    /// What is wrong with it.
    pub faults: Vec<Fault>,
    /// What is to be written down.
    pub whats: Vec<What>,
    /// Where a bottle that comes stands.
    pub place: String,
}

/// Loads it, unless that was done; the room that is shown is shown anew when it is here.
pub fn want(app: &Rc<App>) {
    if matches!(app.annex.stage.get(), Stage::Coming | Stage::Here) {
        return;
    }
    app.annex.stage.set(Stage::Coming);
    show_stage(app);
    let Some(coming) = asked_for() else {
        app.annex.stage.set(Stage::Failed);
        return show_stage(app);
    };
    // When it comes, the page is told by `take_shelf`.
    let failed: Told = {
        let app = Rc::clone(app);
        Closure::new(move |_: JsValue| {
            app.annex.stage.set(Stage::Failed);
            show_stage(&app);
        })
    };
    // The promise is the page's for as long as the closure is kept.
    drop(coming.catch(&failed));
    app.annex.told.replace(Some(failed));
}

/// The module is here, whoever asked for it; the room that is shown is shown anew.
pub fn take(app: &Rc<App>, module: JsValue) {
    app.annex.module.replace(module);
    app.annex.stage.set(Stage::Here);
    app.annex.knows.set(false);
    show_stage(app);
    rooms::show_again(app);
    if let Some(form) = app.annex.sent.take() {
        let sent = form.request_submit();
        debug_assert!(sent.is_ok());
    }
}

/// The form is sent again as soon as the module is here.
pub fn send_later(app: &Rc<App>, form: HtmlFormElement) {
    app.annex.sent.replace(Some(form));
    want(app);
}

/// The page's loader gives the module's promise.
fn asked_for() -> Option<Promise> {
    let page = Reflect::get(&js_sys::global(), &"meniscus".into()).ok()?;
    let more: Function = Reflect::get(&page, &"more".into()).ok()?.dyn_into().ok()?;
    more.call0(&page).ok()?.dyn_into().ok()
}

fn show_stage(app: &App) {
    let stage = app.annex.stage.get();
    for (id, when) in [("shelf-coming", Stage::Coming), ("shelf-failed", Stage::Failed)] {
        if let Some(place) = app.document.get_element_by_id(id) {
            dom::show(&place, stage == when);
        }
    }
}

/// Whether it has come.
pub fn is_here(app: &App) -> bool {
    app.annex.stage.get() == Stage::Here
}

/// Something has changed that it must know; it is told before it is next asked.
pub fn forget(app: &App) {
    app.annex.knows.set(false);
}

/// Calls a function of the module with texts; `None` while it is not here.
pub fn call(app: &App, function: &str, arguments: &[JsValue]) -> Option<JsValue> {
    if !is_here(app) {
        return None;
    }
    let module = app.annex.module.borrow();
    if !app.annex.knows.get() {
        let darkroom = app.darkroom.borrow();
        let house = Record::House(darkroom.kit.house).to_text();
        let events: Array = ledger::texts(app).into_iter().map(JsValue::from).collect();
        let today = JsValue::from(darkroom.today().days());
        let told = invoke(&module, "know", &[house.into(), events.into(), today]);
        app.annex.knows.set(told.is_some());
        if told.is_none() {
            // It stopped: only loading the page again helps.
            app.annex.stage.set(Stage::Failed);
            show_stage(app);
            return None;
        }
    }
    invoke(&module, function, arguments)
}

fn invoke(module: &JsValue, function: &str, arguments: &[JsValue]) -> Option<JsValue> {
    let function: Function = Reflect::get(module, &function.into()).ok()?.dyn_into().ok()?;
    let arguments: Array = arguments.iter().collect();
    function.apply(module, &arguments).ok()
}

/// The sheet of one of its calculators.
pub fn answer(app: &App, name: &str, named: &Named) -> Option<Shown> {
    Shown::of(&call(app, "answer", &[name.into(), forms::object(named)])?)
}

/// The record of a bottle; `Some(None)` if there is no such bottle.
pub fn record(app: &App, id: &str) -> Option<Option<Shown>> {
    Some(Shown::of(&call(app, "record", &[id.into()])?))
}

/// What a form says; nothing while the module is not here.
pub fn said(app: &App, form: &str, named: &Named, bottle: &str) -> Option<Said> {
    let said = call(app, "said", &[form.into(), forms::object(named), bottle.into()])?;
    let part = |name: &str| Reflect::get(&said, &name.into()).ok();
    let events = dom::texts(&Array::from(&part("events")?));
    let what = |text: &String| Event::from_text(text).ok().map(|event| event.what);
    Some(Said {
        faults: faults(&Array::from(&part("faults")?)),
        whats: events.iter().filter_map(what).collect(),
        place: part("place")?.as_string().unwrap_or_default(),
    })
}

/// What a copy holds, and markup of what is wrong with it.
pub fn read_copy(app: &App, text: &str) -> Option<(Ledger, String)> {
    let copied = call(app, "read_copy", &[text.into()])?;
    let part = |name: &str| Reflect::get(&copied, &name.into()).ok();
    let mut entries: Vec<(String, String)> = pairs(&Array::from(&part("unread")?));
    for text in dom::texts(&Array::from(&part("events")?)) {
        if let Ok(event) = Event::from_text(&text) {
            entries.push((event.key(), text));
        }
    }
    Some((read_all(entries).ledger, part("complaints")?.as_string()?))
}

/// What stands in the form of a bottle that is on the shelf.
pub fn known(app: &App, bottle: &str) -> Named {
    let mut named = Named::new();
    let known = call(app, "known", &[bottle.into()]);
    for (name, text) in known.map(|known| pairs(&Array::from(&known))).unwrap_or_default() {
        named.insert(name, text);
    }
    named
}

/// What a function of it says.
pub fn text(app: &App, function: &str, arguments: &[JsValue]) -> Option<String> {
    call(app, function, arguments)?.as_string()
}

/// What each field of one of its forms takes.
pub fn takes(app: &App, name: &str) -> Vec<(String, String)> {
    let takes = call(app, "takes", &[name.into()]);
    takes.map(|takes| pairs(&Array::from(&takes))).unwrap_or_default()
}
