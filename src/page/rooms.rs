//! Which room of the page is shown, by the fragment of its address.

use std::rc::Rc;

use gloo_events::EventListener;

use super::{App, answers, dom, ledger, shelf};
use crate::browser::address;

/// The room where nothing is said.
const FIRST: &str = "mix";

/// Shows the room of the address, and follows it.
pub fn start(app: &Rc<App>) {
    show(app, false);
    let Some(window) = web_sys::window() else { return };
    let moved = {
        let app = Rc::clone(app);
        move |_: &web_sys::Event| show(&app, true)
    };
    app.own(EventListener::new(&window, "hashchange", moved));
}

/// The room that is shown.
pub fn current(app: &App) -> String {
    let rooms = dom::all(&app.document, "[data-room]");
    let shown = rooms.iter().find(|room| !room.has_attribute("hidden"));
    let name = shown.and_then(|room| room.get_attribute("data-room"));
    name.unwrap_or_else(|| FIRST.to_owned())
}

/// Shows what stands in the room anew.
pub fn show_again(app: &Rc<App>) {
    shelf::show(app);
    answers::show_room(app);
}

fn show(app: &Rc<App>, moved: bool) {
    let rooms = dom::all(&app.document, "[data-room]");
    let address = address::fragment();
    let wanted = address.split('/').next().unwrap_or_default();
    let is = |room: &web_sys::Element, name: &str| room.get_attribute("data-room").as_deref() == Some(name);
    let name = if rooms.iter().any(|room| is(room, wanted)) {
        wanted
    } else {
        FIRST
    };
    for room in &rooms {
        dom::show(room, is(room, name));
    }
    // The rooms that stand under a section are those that its own links lead to.
    let benches = dom::all(&app.document, ".benches");
    let leads_here = |bench: &&web_sys::Element| {
        let link = bench.query_selector(&format!("a[href='#{name}']"));
        link.is_ok_and(|link| link.is_some())
    };
    let bench = benches.iter().find(leads_here);
    let section = bench.and_then(|bench| bench.get_attribute("data-of"));
    let section = match section.as_deref() {
        Some(section) => section,
        None if name == "record" => "shelf",
        None => name,
    };
    for link in dom::all(&app.document, ".bar nav a, .benches a") {
        let to = link.get_attribute("href").unwrap_or_default();
        let own = link.get_attribute("data-section");
        let here = own.as_deref() == Some(section) || (own.is_none() && to == format!("#{name}"));
        let done = match here {
            true => link.set_attribute("aria-current", "page"),
            false => link.remove_attribute("aria-current"),
        };
        debug_assert!(done.is_ok());
    }
    for bench in &benches {
        dom::show(bench, bench.get_attribute("data-of").as_deref() == Some(section));
    }
    shelf::forget_day(app);
    if moved {
        ledger::say(app, "");
    }
    // What was done on the shelf can be taken back from anywhere on it, and what a developing did from the log too.
    if moved && section != "shelf" && section != "log" {
        ledger::hide_undo(app);
    }
    show_again(app);
    if moved && let Some(heading) = app.document.get_element_by_id(&format!("at-{name}")) {
        dom::focus(&heading);
        if let Some(window) = web_sys::window() {
            window.scroll_to_with_x_and_y(0.0, 0.0);
        }
    }
}
