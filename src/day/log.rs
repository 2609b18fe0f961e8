//! wasm only: the log in the page. The annex, which knows all that happened, finds and writes; this shows it and hands it out.

use std::cell::RefCell;
use std::rc::Rc;

use gloo_timers::callback::Timeout;
use js_sys::Array;
use wasm_bindgen::prelude::*;
use web_sys::{Blob, Element, Event, HtmlElement, HtmlFormElement, Url};

use super::room::Room;
use crate::browser::{dom, forms};
use crate::fields::LOG_FORM;

/// The form that a session is done again from.
const STEPS: &str = "steps";
/// Milliseconds after which a file has surely been saved.
const SAVED: u32 = 60_000;

/// What of the log is shown.
#[derive(Default)]
pub struct Log {
    /// What stands there, so that nothing is read out twice.
    frame: RefCell<String>,
}

impl Log {
    /// Listens to the room of the log.
    pub fn start(room: &Rc<Room>) {
        let Some(place) = room.document.query_selector("[data-room=log]").ok().flatten() else {
            return;
        };
        room.listen(&place, "input", |room, _| {
            Log::show(room);
            None
        });
        room.listen(&place, "submit", |_, event| {
            event.prevent_default();
            None
        });
        room.listen(&place, "click", pressed);
    }

    /// Shows what is found, or the session that the address names; nothing while another room is shown.
    pub fn show(room: &Rc<Room>) {
        let late = Rc::clone(room);
        let again = move |came: JsValue| {
            // It comes as a module, or as the reason why it does not.
            if came.is_instance_of::<js_sys::Error>() || !Self::show_if_here(&late) {
                say(
                    &late,
                    "The log could not be fetched. Connect to the network, and load the page again.",
                );
            }
        };
        if !Self::show_if_here(room) {
            say(room, "The log is being fetched.");
            room.host.when_here(Box::new(again));
        }
    }

    /// Whether that could be done: the annex is here, or another room is shown.
    fn show_if_here(room: &Room) -> bool {
        let Some(detail) = detail() else { return true };
        let asked = match detail.is_empty() {
            true => room.host.ask("log_list", &[search(room)]),
            false => room.host.ask("log_entry", &[detail.as_str().into()]),
        };
        let Some(text) = asked.and_then(|text| text.as_string()) else {
            return false;
        };
        for (id, shown) in [
            ("log-found", detail.is_empty()),
            (LOG_FORM, detail.is_empty()),
            ("log-entry", !detail.is_empty()),
        ] {
            if let Some(place) = room.document.get_element_by_id(id) {
                dom::show(&place, shown);
            }
        }
        let place = if detail.is_empty() { "log-found" } else { "log-entry" };
        let frame = format!("{detail}\n{text}");
        if *room.log().frame.borrow() != frame
            && let Some(place) = room.document.get_element_by_id(place)
        {
            place.set_inner_html(&text);
            room.log().frame.replace(frame);
            if let Some(handed_out) = room.document.get_element_by_id("log-text") {
                dom::show(&handed_out, false);
            }
        }
        true
    }
}

/// Says it where the sessions would stand.
fn say(room: &Room, sentence: &str) {
    if let Some(place) = room.document.get_element_by_id("log-found") {
        place.set_text_content(Some(sentence));
        room.log().frame.take();
    }
}

/// What the address says after the log; nothing if another room is shown.
fn detail() -> Option<String> {
    let hash = web_sys::window()?.location().hash().ok()?;
    let detail = hash.strip_prefix("#log")?;
    let detail = match detail.strip_prefix('/') {
        Some(detail) => detail,
        None if detail.is_empty() => detail,
        None => return None,
    };
    js_sys::decode_uri_component(detail).ok().map(String::from)
}

fn search(room: &Room) -> JsValue {
    let form = forms::form(&room.document, LOG_FORM);
    forms::object(&form.map(|form| forms::named(&form)).unwrap_or_default())
}

fn pressed(room: &Rc<Room>, event: &Event) -> Option<()> {
    let button = dom::pressed(event)?;
    let id = JsValue::from(button.get_attribute("data-session").unwrap_or_default());
    let text = |function: &str, argument: JsValue| room.host.ask(function, &[argument])?.as_string();
    match button.get_attribute("data-log")?.as_str() {
        "text" => hand_out(room, &button, &text("log_text", id)?),
        "markdown" => hand_out(room, &button, &text("log_markdown", id)?),
        "csv" => save(
            room,
            "meniscus-log.csv",
            "text/csv;charset=utf-8",
            &text("log_csv", search(room))?,
        ),
        "again" => again(room, &room.host.ask("log_again", &[id])?),
        _ => None,
    }
}

/// Puts a text on the clipboard, and shows it, to be taken by hand where the browser refuses.
fn hand_out(room: &Room, button: &Element, text: &str) -> Option<()> {
    let place = room.document.get_element_by_id("log-text")?;
    dom::set_value(&place, text);
    dom::show(&place, true);
    let clipboard = web_sys::window()?.navigator().clipboard();
    // The promise is not waited for: the text stands there too.
    drop(clipboard.write_text(text));
    button.set_text_content(Some("Copied"));
    Some(())
}

/// Hands a text to the browser as a file to save.
fn save(room: &Room, name: &str, kind: &str, text: &str) -> Option<()> {
    let options = web_sys::BlobPropertyBag::new();
    options.set_type(kind);
    let blob = Blob::new_with_str_sequence_and_options(&Array::of1(&text.into()), &options).ok()?;
    let address = Url::create_object_url_with_blob(&blob).ok()?;
    let link: HtmlElement = room.document.create_element("a").ok()?.dyn_into().ok()?;
    dom::set(&link, "href", &address);
    dom::set(&link, "download", name);
    link.click();
    Timeout::new(SAVED, move || drop(Url::revoke_object_url(&address))).forget();
    Some(())
}

/// Puts what a session was done from into the form of the steps, as if it had been typed.
fn again(room: &Room, fields: &JsValue) -> Option<()> {
    let named = forms::texts(fields)?;
    let form: HtmlFormElement = forms::form(&room.document, STEPS)?;
    form.reset();
    forms::fill(&room.document, STEPS, &named);
    let changed = Event::new_with_event_init_dict("input", &{
        let init = web_sys::EventInit::new();
        init.set_bubbles(true);
        init
    });
    form.dispatch_event(&changed.ok()?).ok()?;
    go(STEPS)
}

fn go(room: &str) -> Option<()> {
    web_sys::window()?.location().set_hash(room).ok()
}
