//! The module of the shelf: loaded when the shelf is first opened, told what the page knows, asked for sheets and markup.
//!
//! It never has other events than the page. What it was told is kept here as a list; when something has changed, that list is
//! compared, before the next question, with the events from which the page folds its own shelf. Either these are the list and some
//! more, and it is told those; or it forgets what it was told, and is told all. If telling fails, it is asked nothing more.

use std::cell::{Cell, RefCell};
use std::rc::Rc;

use js_sys::{Array, Function, Reflect};
use wasm_bindgen::prelude::*;
use web_sys::HtmlFormElement;

use super::{App, dom, forms, ledger, rooms};
use crate::fields::{Fault, Named};
use crate::ledger::{Event, Ledger, What, added, read_all};
use crate::store;
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

/// The module, once it is here.
#[derive(Default)]
pub struct Annex {
    stage: Cell<Stage>,
    module: RefCell<JsValue>,
    /// Whether it knows all that the page knows.
    knows: Cell<bool>,
    /// The events that it knows; nothing while that is not certain.
    events: RefCell<Option<Vec<Event>>>,
    /// A form that was sent before it was here.
    sent: RefCell<Option<HtmlFormElement>>,
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
    /// Whether it holds something that can be written into a record or the kit.
    pub keeps: bool,
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
            keeps: Reflect::get(object, &"keeps".into()).is_ok_and(|keeps| keeps.is_truthy()),
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
    // When it comes, or does not, the page is told by `take_shelf`.
    if ask().is_none() {
        take(app, JsValue::UNDEFINED);
    }
}

/// The module is here, whoever asked for it, and the room that is shown is shown anew; or it could not be fetched.
pub fn take(app: &Rc<App>, module: JsValue) {
    if module.is_undefined() {
        app.annex.stage.set(Stage::Failed);
        return show_stage(app);
    }
    app.annex.module.replace(module);
    app.annex.stage.set(Stage::Here);
    app.annex.knows.set(false);
    app.annex.events.replace(None);
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

/// Asks the page's loader for it.
fn ask() -> Option<JsValue> {
    let page = Reflect::get(&js_sys::global(), &"meniscus".into()).ok()?;
    let more: Function = Reflect::get(&page, &"more".into()).ok()?.dyn_into().ok()?;
    more.call0(&page).ok()
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
    call_with(app, function, &arguments.iter().collect())
}

/// The same with a list of them.
pub fn call_with(app: &App, function: &str, arguments: &Array) -> Option<JsValue> {
    if !is_here(app) {
        return None;
    }
    let module = app.annex.module.borrow();
    if !app.annex.knows.get() {
        let told = tell(app, &module);
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

/// Tells it what the page knows: the kit, the day, and of the events those that are new to it.
fn tell(app: &App, module: &JsValue) -> Option<()> {
    let now = ledger::events(app);
    let before = app.annex.events.take();
    let new = before.and_then(|before| added(&before, &now));
    let anew = new.is_none();
    let new = new.unwrap_or_else(|| now.iter().collect());
    let new: Array = new.into_iter().map(|event| JsValue::from(event.to_text())).collect();
    let darkroom = app.darkroom.borrow();
    let records = store::records(&darkroom.kit).into_iter();
    let kit: Array = records
        .flat_map(|(id, record)| [JsValue::from(id), record.to_text().into()])
        .collect();
    let today = darkroom.today().days();
    invoke(module, "know", &Array::of4(&kit, &anew.into(), &new, &today.into()))?;
    app.annex.events.replace(Some(now));
    Some(())
}

fn invoke(module: &JsValue, function: &str, arguments: &Array) -> Option<JsValue> {
    let function: Function = Reflect::get(module, &function.into()).ok()?.dyn_into().ok()?;
    function.apply(module, arguments).ok()
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
pub fn said(app: &App, form: &str, named: &Named, bottle: &str, today: bool) -> Option<Said> {
    let said = call(
        app,
        "said",
        &[form.into(), forms::object(named), bottle.into(), today.into()],
    )?;
    let part = |name: &str| Reflect::get(&said, &name.into()).ok();
    Some(Said {
        faults: faults(&Array::from(&part("faults")?)),
        whats: whats(&part("events")?),
        place: part("place")?.as_string().unwrap_or_default(),
    })
}

/// What a calculator of tests found of the bottle that is picked in its form; nothing to write down gives an empty list.
pub fn found(app: &App, name: &str, named: &Named) -> Vec<What> {
    let found = call(app, "found", &[name.into(), forms::object(named)]);
    found.map(|found| whats(&found)).unwrap_or_default()
}

/// What a calibration found, as the kit keeps it: a key and a record.
pub fn calibrated(app: &App, name: &str, named: &Named) -> Option<(String, String)> {
    let kept = call(app, "calibrated", &[name.into(), forms::object(named)])?;
    let mut kept = dom::texts(&Array::from(&kept)).into_iter();
    kept.next().zip(kept.next())
}

/// What events of no moment tell.
pub fn whats(events: &JsValue) -> Vec<What> {
    let what = |text: &String| Event::from_text(text).ok().map(|event| event.what);
    dom::texts(&Array::from(events)).iter().filter_map(what).collect()
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
    if let Some(known) = call(app, "known", &[bottle.into()]) {
        // To collect them would bring a sort to the page that nothing else there needs.
        named.extend(pairs(&Array::from(&known)));
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
