//! The shelf as it is shown: every bottle, the record of one, and what can be done with it.

mod bottle;

use std::rc::Rc;

use gloo_events::{EventListener, EventListenerOptions};
use gloo_timers::callback::Timeout;
use web_sys::Event as Happening;

use super::{App, annex, clock, dom, forms, kit, ledger, rooms};
use crate::browser::address;
use crate::calculators;
use crate::entries::{self, DEED_NAMES, PLACE_FORM};
use crate::fields::{self, Fault, sentence};
use crate::kit::Treatment;
use crate::ledger::{BottleId, EventId, What};
use crate::quantity::{Day, Volume, bounds, read};

use bottle::BOTTLE;

/// The room of all bottles.
const SHELF: &str = "shelf";
/// The room of one bottle.
const RECORD: &str = "record";

/// Listens to the shelf.
pub fn start(app: &Rc<App>) {
    on_submit(app, BOTTLE, |app| bottle::keep(&app));
    for name in [PLACE_FORM].into_iter().chain(DEED_NAMES) {
        on_submit(app, name, move |app| do_deed(&app, name));
    }
    let cleared = {
        let app = Rc::clone(app);
        move |_: &Happening| {
            bottle::forget_edit(&app);
            forms::show_faults(&app.document, BOTTLE, &[]);
        }
    };
    if let Some(form) = forms::form(&app.document, BOTTLE) {
        app.own(EventListener::new(&form, "reset", cleared));
    }
    let clicked = {
        let app = Rc::clone(app);
        move |event: &Happening| on_click(&app, event)
    };
    app.own(EventListener::new(&app.document, "click", clicked));
}

fn on_submit(app: &Rc<App>, name: &str, then: impl Fn(Rc<App>) + 'static) {
    let Some(form) = forms::form(&app.document, name) else {
        return;
    };
    let app_then = Rc::clone(app);
    let submitted = move |event: &Happening| {
        event.prevent_default();
        then(Rc::clone(&app_then));
    };
    let options = EventListenerOptions::enable_prevent_default();
    app.own(EventListener::new_with_options(&form, "submit", options, submitted));
}

/// Shows the shelf as it stands, if it is looked at.
pub fn show(app: &Rc<App>) {
    let room = rooms::current(app);
    if room != SHELF && room != RECORD {
        return;
    }
    annex::want(app);
    {
        let darkroom = app.darkroom.borrow();
        if let Some(none) = app.document.get_element_by_id("no-bottles") {
            dom::show(&none, darkroom.shelf.standing().next().is_none());
        }
        let has_example = ledger::has_example(app);
        for (id, shown) in [
            ("example-there", has_example),
            ("example-offer", !has_example && annex::is_here(app)),
        ] {
            if let Some(place) = app.document.get_element_by_id(id) {
                dom::show(&place, shown);
            }
        }
    }
    show_texts(app, [("places", "place_names")]);
    match room == SHELF {
        true => {
            show_takes(app, [BOTTLE, PLACE_FORM]);
            show_texts(app, [("bottles", "bottles"), ("place-list", "places")]);
        }
        false => {
            show_takes(app, DEED_NAMES);
            show_record(app);
        }
    }
}

/// What the fields of the forms take, in the user's units.
fn show_takes<const N: usize>(app: &App, forms: [&str; N]) {
    for form in forms {
        forms::show_takes(&app.document, form, annex::takes(app, form));
    }
}

/// What the annex says, in the places of the page.
fn show_texts<const N: usize>(app: &App, texts: [(&str, &str); N]) {
    for (id, function) in texts {
        if let (Some(place), Some(text)) = (app.document.get_element_by_id(id), annex::text(app, function, &[])) {
            place.set_inner_html(&text);
        }
    }
}

/// Shows the record of the bottle that the address names.
fn show_record(app: &App) {
    let Some(id) = address::detail(RECORD) else { return };
    let known = annex::record(app, &id);
    let mut written = app.written.borrow_mut();
    let Some(place) = written.of(&app.document, RECORD) else {
        return;
    };
    let stands = {
        let darkroom = app.darkroom.borrow();
        let bottle = darkroom.shelf.bottle(&id);
        bottle.is_some_and(|bottle| bottle.discarded.is_none())
    };
    for part in dom::all(&app.document, "[data-room=record] .deeds, [data-room=record] .after") {
        dom::show(&part, stands);
    }
    match known {
        Some(Some(shown)) => {
            place.write_parts(shown.parts);
            place.write_head(shown.head);
        }
        Some(None) => {
            place.write_parts(Vec::new());
            place.write_head(vec![
                "<p class=\"alert\">There is no such bottle on this device.</p>".to_owned(),
            ]);
        }
        None => {}
    }
}

fn on_click(app: &Rc<App>, event: &Happening) {
    let Some(button) = dom::pressed(event) else { return };
    let once = ["data-draw-again", "data-mixed", "data-found"];
    if once.iter().any(|name| button.has_attribute(name)) && dom::is_second_of_two(event) {
        return;
    }
    if let Some(id) = button.get_attribute("data-draw-again") {
        draw_again(app, &id);
    } else if let Some(place) = button.get_attribute("data-drop-place") {
        write_down(app, vec![What::PlaceDropped { place }]);
    } else if button.has_attribute("data-opened") {
        if let Some(bottle) = in_record(app) {
            write_down(app, vec![What::Opened { bottle }]);
        }
    } else if button.has_attribute("data-squeezed") {
        if let Some(bottle) = in_record(app) {
            let how = Treatment::Squeezed;
            write_down(app, vec![What::Treated { bottle, how }]);
        }
    } else if button.has_attribute("data-change-bottle") {
        bottle::edit(app);
    } else if button.has_attribute("data-example") {
        show_example(app);
    } else if button.has_attribute("data-example-away") {
        ledger::drop_example(app);
    } else if button.has_attribute("data-label") {
        print_label(app);
    } else if button.has_attribute("data-to-keeping") {
        to_keeping(app);
    } else if button.has_attribute("data-mixed") {
        write_mix(app);
    } else if let Some(name) = button.get_attribute("data-found") {
        write_finding(app, &name);
    } else if let Some(name) = button.get_attribute("data-calibrated") {
        use_calibration(app, &name);
    } else if button.has_attribute("data-decanted") {
        to_decanted(app);
    }
}

fn show_example(app: &Rc<App>) {
    let today = clock::today().days();
    if let Some(texts) = annex::call(app, "example", &[today.into()]) {
        ledger::show_example(app, &dom::texts(&texts.into()));
    }
}

/// Prints the label of the bottle, and nothing else of the page.
fn print_label(app: &App) {
    let (Some(id), Some(window)) = (address::detail(RECORD), web_sys::window()) else {
        return;
    };
    let address = window.location().href().unwrap_or_default();
    let label = annex::text(app, "label", &[id.into(), address.into()]);
    let (Some(place), Some(label), Some(body)) = (app.document.get_element_by_id("label"), label, app.document.body())
    else {
        return;
    };
    place.set_inner_html(&label);
    body.set_class_name("labelling");
    // Some browsers print only after this returns.
    EventListener::once(&window, "afterprint", move |_| body.set_class_name("")).forget();
    let printed = window.print();
    debug_assert!(printed.is_ok());
}

/// The same bottle in the calculator, where every assumption can be changed.
fn to_keeping(app: &Rc<App>) {
    let Some(bottle) = in_record(app) else { return };
    if let Some(select) = forms::control(&app.document, "keeping", "bottle") {
        dom::set_value(&select, bottle.as_str());
        address::go("keeping");
    }
}

/// The containers that Decant advises, in the record of its bottle, to be looked over and written down.
fn to_decanted(app: &Rc<App>) {
    const DECANTED: &str = "decanted";
    let named = forms::form(&app.document, "decant").map(|form| forms::named(&form));
    let named = named.unwrap_or_default();
    let Some(bottle) = named.get("bottle").filter(|bottle| !bottle.is_empty()) else {
        return;
    };
    let containers = match annex::text(app, "advised", &[forms::object(&named)]) {
        Some(containers) if !containers.is_empty() => containers,
        Some(_) => return ledger::say(app, "There is nothing to decant: leave it as it is."),
        None => {
            return ledger::say(
                app,
                "There is no plan yet that could be written down: see what the sheet says.",
            );
        }
    };
    address::go(&format!("{RECORD}/{bottle}"));
    // The room is shown only after this event.
    let app = Rc::clone(app);
    Timeout::new(0, move || {
        forms::open(&app.document, DECANTED, &fields::only("containers", &containers), "");
    })
    .forget();
}

/// The bath of Mix was made: its concentrate was drawn from the bottle that is picked there.
fn write_mix(app: &Rc<App>) {
    let Some(form) = forms::form(&app.document, "mix") else {
        return;
    };
    let named = forms::named(&form);
    let drawn = {
        let darkroom = app.darkroom.borrow();
        let units = darkroom.kit.house.units;
        let bottle = named.get("bottle").and_then(|id| darkroom.shelf.bottle(id));
        let answer = calculators::at_the_sink("mix").map(|mix| mix.answer(&named, &darkroom));
        bottle.zip(answer).and_then(|(bottle, answer)| {
            let volume = |name: &str| {
                let figure = answer.sheet.figure(name)?;
                Some(Volume::from_millilitres(figure.value))
            };
            let concentrate = volume("concentrate")?;
            let drawn = entries::within(concentrate, bottle.left(), units);
            Some(drawn.map(|volume| {
                What::Drawn {
                    bottle: bottle.id.clone(),
                    volume,
                    bath: named
                        .get("total")
                        .and_then(|total| read::volume(total, &bounds::BATH, units).ok()),
                    dilution: named.get("dilution").and_then(|text| text.parse().ok()),
                    purpose: String::new(),
                }
            }))
        })
    };
    match drawn {
        Some(Ok(drawn)) => {
            write_down(app, vec![drawn]);
        }
        Some(Err(clause)) => ledger::say(app, &sentence(&clause)),
        None => ledger::say(
            app,
            "This bath draws no volume from the bottle: write it down in the bottle's record.",
        ),
    }
}

/// What a calibration found goes into the kit, and is used from now on.
fn use_calibration(app: &Rc<App>, name: &str) {
    let named = forms::form(&app.document, name).map(|form| forms::named(&form));
    match annex::calibrated(app, name, &named.unwrap_or_default()) {
        Some((id, text)) => kit::put_in(app, &id, &text),
        None => ledger::say(
            app,
            "There is nothing yet that could be used: pick what was calibrated, and see what the sheet says.",
        ),
    }
}

/// What a test found goes into the record of the bottle that is picked in its form.
fn write_finding(app: &Rc<App>, name: &str) {
    let named = forms::form(&app.document, name).map(|form| forms::named(&form));
    let found = annex::found(app, name, &named.unwrap_or_default());
    if found.is_empty() {
        return ledger::say(
            app,
            "The sheet does not say yet how the bottle stands: there is nothing to write down.",
        );
    }
    write_down(app, found);
}

/// The bottle whose record is shown.
fn in_record(app: &App) -> Option<BottleId> {
    let id = address::detail(RECORD)?;
    Some(app.darkroom.borrow().shelf.bottle(&id)?.id.clone())
}

fn draw_again(app: &Rc<App>, id: &str) {
    let again = {
        let darkroom = app.darkroom.borrow();
        darkroom.shelf.bottle(id).and_then(|bottle| {
            let last = bottle.draws.last()?;
            Some(What::Drawn {
                bottle: bottle.id.clone(),
                volume: last.volume,
                bath: None,
                dilution: None,
                purpose: String::new(),
            })
        })
    };
    write_down(app, again.into_iter().collect());
}

/// Reads a form and writes down what it says, or shows all that is wrong.
fn do_deed(app: &Rc<App>, name: &str) {
    let bottle = in_record(app);
    if name != PLACE_FORM && bottle.is_none() {
        return;
    }
    let Some(said) = said(app, name, bottle.as_ref().map_or("", BottleId::as_str)) else {
        return;
    };
    let whats = said.whats.into_iter().map(|what| match what {
        What::Decanted { from, mut into } => {
            for filled in &mut into {
                filled.bottle = ledger::new_bottle_id();
            }
            What::Decanted { from, into }
        }
        what => what,
    });
    let whats = whats.collect();
    if write_down(app, whats) > 0 {
        done_with(app, name);
    }
}

/// What a form says, unless something is wrong with it, which is then shown.
fn said(app: &Rc<App>, name: &str, bottle: &str) -> Option<annex::Said> {
    let form = forms::form(&app.document, name)?;
    let Some(said) = annex::said(app, name, &forms::named(&form), bottle, is_today(app)) else {
        annex::send_later(app, form);
        return None;
    };
    forms::show_faults(&app.document, name, &said.faults);
    forms::focus_first(&app.document, name, &said.faults);
    said.faults.is_empty().then_some(said)
}

fn done_with(app: &App, name: &str) {
    if let Some(form) = forms::form(&app.document, name) {
        form.reset();
    }
    forms::close(&app.document, name);
}

/// Writes down what happened on the day that stands above the forms, and offers the way back. How much of it was kept.
pub fn write_down(app: &Rc<App>, whats: Vec<What>) -> usize {
    let Some(day) = day(app) else { return 0 };
    // What is said of a place while one of its bottles is looked at is the example's too, and so is a developing in its baths.
    let shown = address::detail(RECORD);
    let concerned = whats.iter().flat_map(What::needs).map(BottleId::as_str);
    let of_example = concerned
        .chain(shown.as_deref())
        .any(|bottle| ledger::is_bottle_of_example(app, bottle));
    let mut events = Vec::new();
    for what in whats {
        match ledger::record_on(app, day, what, of_example) {
            Some(event) => events.push(event),
            None => break,
        }
    }
    offer_undo(app, &events);
    forget_day(app);
    events.len()
}

/// Says what was done with these events, and offers the way back from all of them.
pub fn offer_undo(app: &App, events: &[EventId]) {
    // The last says it best, but that something was taken back to be said anew.
    let says = |id: &&EventId| {
        let darkroom = app.darkroom.borrow();
        let event = darkroom.shelf.event(**id);
        event.is_some_and(|event| !matches!(event.what, What::Corrected { .. }))
    };
    let Some(told) = events.iter().rev().find(says).or(events.last()) else {
        return;
    };
    let words = annex::text(app, "words", &[told.to_string().into()]);
    let words = words.map_or("Written down.".to_owned(), |words| sentence(&words));
    ledger::offer_undo(app, events, &words);
}

/// The form around the forms of a record, and its one field.
const DEED: &str = "deed";
const DAY: &str = "day";

/// The day that the user says it was, or today; nothing if that day has not come yet, which is then said at the field.
fn day(app: &App) -> Option<Day> {
    let said = named_day(app);
    let today = clock::today();
    let early = said.is_some_and(|said| said > today);
    let fault = early.then(|| Fault {
        field: DAY.to_owned(),
        sentence: "That day has not come yet.".to_owned(),
    });
    let faults: Vec<Fault> = fault.into_iter().collect();
    forms::show_faults(&app.document, DEED, &faults);
    forms::focus_first(&app.document, DEED, &faults);
    (!early).then(|| said.unwrap_or(today))
}

/// Whether no other day than today is named.
fn is_today(app: &App) -> bool {
    named_day(app).is_none_or(|day| day >= clock::today())
}

/// The day that stands above the forms of a record.
fn named_day(app: &App) -> Option<Day> {
    address::detail(RECORD)?;
    let field = forms::control(&app.document, DEED, DAY)?;
    dom::value(&field).parse().ok()
}

/// A day that was named holds for one deed.
pub fn forget_day(app: &App) {
    if let Some(field) = forms::control(&app.document, DEED, DAY) {
        dom::set_value(&field, "");
    }
}
