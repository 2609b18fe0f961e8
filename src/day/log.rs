//! wasm only: the log in the page. The annex, which knows all that happened, finds and writes; this shows it and hands it out.

use std::cell::RefCell;
use std::rc::Rc;

use wasm_bindgen::prelude::*;
use web_sys::{Element, Event, HtmlFormElement};

use super::room::{Room, STEPS};
use crate::browser::{address, dom, forms, handed_out};
use crate::fields::{LOG_FORM, Named};

/// Its room.
const ROOM: &str = "log";

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
    match address::fragment() == ROOM {
        true => Some(String::new()),
        false => address::detail(ROOM),
    }
}

/// What is asked for: as the form says.
fn search(room: &Room) -> JsValue {
    let form = forms::form(&room.document, LOG_FORM);
    forms::object(&form.map(|form| forms::named(&form)).unwrap_or_default())
}

/// The same of one session alone.
fn alone(session: &str) -> JsValue {
    forms::object(&Named::from([("session".to_owned(), session.to_owned())]))
}

fn pressed(room: &Rc<Room>, event: &Event) -> Option<()> {
    let button = dom::pressed(event)?;
    let session = button.get_attribute("data-session");
    let id = JsValue::from(session.as_deref().unwrap_or_default());
    let text = |function: &str, argument: JsValue| room.host.ask(function, &[argument])?.as_string();
    let save = |name: &str, text: &str| handed_out::save(&room.document, name, text);
    match button.get_attribute("data-log")?.as_str() {
        "text" => hand_out(room, &button, &text("log_text", id)?),
        "markdown" => hand_out(room, &button, &text("log_markdown", id)?),
        "csv" => match &session {
            Some(session) => save("meniscus-session.csv", &text("log_csv", alone(session))?),
            None => save("meniscus-log.csv", &text("log_csv", search(room))?),
        },
        "life" => save("meniscus-shelf.csv", &text("life_csv", JsValue::UNDEFINED)?),
        "again" => again(room, &room.host.ask("log_again", &[id])?),
        _ => None,
    }
}

/// Puts a text on the clipboard, and shows it, to be taken by hand where the browser refuses.
fn hand_out(room: &Room, button: &Element, text: &str) -> Option<()> {
    let place = room.document.get_element_by_id("log-text")?;
    dom::set_value(&place, text);
    dom::show(&place, true);
    handed_out::copy(button, text);
    Some(())
}

/// Puts what a session was done from into the form of the steps, as if it had been typed.
fn again(room: &Room, fields: &JsValue) -> Option<()> {
    let named = forms::texts(fields)?;
    let form: HtmlFormElement = forms::form(&room.document, STEPS)?;
    form.reset();
    forms::fill(&room.document, STEPS, &named);
    forms::tell_typed(&form);
    address::go(STEPS);
    Some(())
}
