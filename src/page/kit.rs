//! The Kit: lists of what stands at the sink, forms to add and change it, and a way back from every removal.

use std::rc::Rc;

use gloo_events::{EventListener, EventListenerOptions};
use web_sys::Event;

use super::{App, annex, answers, dom, forms, ledger};
use crate::entries::{self, Entry};
use crate::fields::{Fault, Named};
use crate::kit::{Balance, House, Instrument, Kept, Kit, Tank};
use crate::parts;
use crate::quantity::{Temperature, Units};
use crate::store::{HOUSE, KIT, Record, THERMOMETER};
use crate::view::{self, Thing};

/// The forms of the Kit.
const FORMS: [&str; 4] = [Instrument::FORM, Balance::FORM, Tank::FORM, House::FORM];

/// Listens to the forms and lists, and shows what there is.
pub fn start(app: &Rc<App>) {
    for name in FORMS {
        listen(app, name);
    }
    let clicked = {
        let app = Rc::clone(app);
        move |event: &Event| on_click(&app, event)
    };
    app.own(EventListener::new(&app.document, "click", clicked));
    let typed = {
        let app = Rc::clone(app);
        move |event: &Event| forms::forget_fault(&app.document, event)
    };
    app.own(EventListener::new(&app.document, "input", typed));
    show_house(app);
    show(app);
}

/// Puts the house into its form: at the start, and when it was kept or taken back, never over what is being typed.
fn show_house(app: &App) {
    let house = app.darkroom.borrow().kit.house;
    forms::fill(&app.document, House::FORM, &house.write(house.units));
}

/// Shows the lists, the choices that depend on them, and the house.
pub fn show(app: &App) {
    let darkroom = app.darkroom.borrow();
    let kit = &darkroom.kit;
    let units = kit.house.units;
    let today = darkroom.today();
    let mut instruments = Vec::new();
    for Kept { id, item } in &kit.instruments {
        instruments.push(thing(id, &item.name, item.summary(units, today)));
    }
    choices(app, Instrument::FORM, &names(&instruments));
    if let Some(line) = &kit.thermometer {
        let summary = parts::as_read(line, Temperature::from_celsius(20.0), units, today);
        instruments.push(Thing {
            has_form: false,
            ..thing(THERMOMETER, THERMOMETER, summary)
        });
    }
    list(app, Instrument::FORM, &instruments);
    let mut balances = Vec::new();
    for Kept { id, item } in &kit.balances {
        balances.push(thing(id, &item.name, item.summary(units, today)));
    }
    list(app, Balance::FORM, &balances);
    let mut tanks = Vec::new();
    for Kept { id, item } in &kit.tanks {
        tanks.push(thing(id, &item.name, item.summary(units, today)));
    }
    list(app, Tank::FORM, &tanks);
    let mut tanks = names(&tanks);
    tanks.push(("none".to_owned(), "no tank".to_owned()));
    choices(app, Tank::FORM, &tanks);
    for (form, fields) in [
        (Instrument::FORM, Instrument::FIELDS),
        (Balance::FORM, Balance::FIELDS),
        (Tank::FORM, Tank::FIELDS),
        (House::FORM, House::FIELDS),
    ] {
        forms::show_hints(&app.document, form, fields, units);
    }
    let mut bottles = vec![(String::new(), "no bottle picked".to_owned())];
    bottles.extend(kit.bottles.iter().map(|kept| {
        let on_shelf = darkroom.shelf.bottle(&kept.id);
        let name = on_shelf.map_or_else(|| kept.item.product.clone(), |bottle| bottle.in_short(units));
        (kept.id.clone(), name)
    }));
    choices(app, "bottle", &bottles);
    for field in dom::all(&app.document, ".field.bottle") {
        dom::show(&field, !kit.bottles.is_empty());
    }
}

fn thing(id: &str, name: &str, summary: String) -> Thing {
    Thing {
        id: id.to_owned(),
        name: name.to_owned(),
        summary,
        has_form: true,
    }
}

fn names(things: &[Thing]) -> Vec<(String, String)> {
    things
        .iter()
        .map(|thing| (thing.id.clone(), thing.name.clone()))
        .collect()
}

fn list(app: &App, form: &str, things: &[Thing]) {
    if let Ok(Some(place)) = app.document.query_selector(&format!("[data-list={form}]")) {
        place.set_inner_html(&view::things(things, "None yet.").into_string());
    }
}

/// Rebuilds the options of every choice between things of a kind, and keeps what was chosen if it is still there.
fn choices(app: &App, kind: &str, options: &[(String, String)]) {
    for select in dom::all(&app.document, &format!("[data-things={kind}]")) {
        let chosen = dom::value(&select);
        select.set_inner_html(&view::options(options).into_string());
        let still = options.iter().any(|(value, _)| *value == chosen);
        let first = options.first().map_or("", |(value, _)| value);
        dom::set_value(&select, if still { &chosen } else { first });
    }
}

fn listen(app: &Rc<App>, name: &'static str) {
    let Some(form) = forms::form(&app.document, name) else {
        return;
    };
    let submitted = {
        let app = Rc::clone(app);
        move |event: &Event| {
            event.prevent_default();
            keep(&app, name);
        }
    };
    let options = EventListenerOptions::enable_prevent_default();
    app.own(EventListener::new_with_options(&form, "submit", options, submitted));
    let cleared = {
        let app = Rc::clone(app);
        move |_: &Event| {
            forget_edit(&app, name);
            forms::show_faults(&app.document, name, &[]);
        }
    };
    app.own(EventListener::new(&form, "reset", cleared));
}

/// Reads the form and keeps the thing, or shows all that is wrong.
fn keep(app: &Rc<App>, name: &str) {
    let Some(form) = forms::form(&app.document, name) else {
        return;
    };
    let units = app.darkroom.borrow().kit.house.units;
    let mut record = match read(name, &forms::named(&form), units) {
        Ok(record) => record,
        Err(faults) => {
            forms::show_faults(&app.document, name, &faults);
            forms::focus_first(&app.document, name, &faults);
            return;
        }
    };
    forms::show_faults(&app.document, name, &[]);
    let id = match name {
        House::FORM => HOUSE.to_owned(),
        _ => form
            .dataset()
            .get("id")
            .unwrap_or_else(|| ledger::new_bottle_id().to_string()),
    };
    if let Record::Instrument(item) = &mut record {
        let darkroom = app.darkroom.borrow();
        let before = darkroom.kit.instruments.iter().find(|kept| kept.id == id);
        item.date(before.map(|kept| &kept.item));
    }
    change(app, &id, &record);
    if name != House::FORM {
        form.reset();
        forms::close(&app.document, name);
        if let Some(heading) = app.document.get_element_by_id(&format!("kit-{name}")) {
            dom::set(&heading, "tabindex", "-1");
            dom::focus(&heading);
        }
    }
}

fn read(form: &str, named: &Named, units: Units) -> Result<Record, Vec<Fault>> {
    match form {
        Instrument::FORM => entries::read(named, units).map(Record::Instrument),
        Balance::FORM => entries::read(named, units).map(Record::Balance),
        Tank::FORM => entries::read(named, units).map(Record::Tank),
        _ => entries::read(named, units).map(Record::House),
    }
}

/// The record that stands under a key now.
fn current(kit: &Kit, id: &str) -> Option<Record> {
    fn of<T: Clone>(all: &[Kept<T>], id: &str, record: fn(T) -> Record) -> Option<Record> {
        let kept = all.iter().find(|kept| kept.id == id)?;
        Some(record(kept.item.clone()))
    }
    match id {
        HOUSE => return Some(Record::House(kit.house)),
        THERMOMETER => return kit.thermometer.map(Record::Thermometer),
        _ => {}
    }
    of(&kit.instruments, id, Record::Instrument)
        .or_else(|| of(&kit.balances, id, Record::Balance))
        .or_else(|| of(&kit.tanks, id, Record::Tank))
}

fn name_of(record: &Record) -> &str {
    match record {
        Record::Instrument(item) => &item.name,
        Record::Balance(item) => &item.name,
        Record::Tank(item) => &item.name,
        Record::Bottle(item) => &item.product,
        Record::Thermometer(_) => THERMOMETER,
        Record::House(_) | Record::Form(_) | Record::Gone => "the house",
    }
}

fn put(app: &Rc<App>, id: &str, record: &Record) {
    app.keep(&format!("{KIT}{id}"), record);
    // Shown whether or not the browser kept it: what is typed is never lost before one's eyes.
    crate::store::lay(&mut app.darkroom.borrow_mut().kit, id, record.clone());
    if let Record::House(_) = record {
        show_house(app);
    }
    show(app);
    annex::forget(app);
    answers::show_room(app);
}

fn on_click(app: &Rc<App>, event: &Event) {
    let Some(button) = dom::pressed(event) else { return };
    if let Some(id) = button.get_attribute("data-change-thing") {
        edit(app, &id);
    } else if let Some(id) = button.get_attribute("data-remove-thing") {
        change(app, &id, &Record::Gone);
    } else if let Some(text) = button.get_attribute("data-undo") {
        // The way back is gone once: two presses are not to and fro.
        if let Ok(record) = Record::from_text(&text) {
            put(app, &button.get_attribute("data-undo-id").unwrap_or_default(), &record);
        }
        ledger::hide_undo(app);
    }
}

/// Opens the form with the thing in it.
fn edit(app: &Rc<App>, id: &str) {
    let (name, named) = {
        let darkroom = app.darkroom.borrow();
        let units = darkroom.kit.house.units;
        match current(&darkroom.kit, id) {
            Some(Record::Instrument(item)) => (Instrument::FORM, item.write(units)),
            Some(Record::Balance(item)) => (Balance::FORM, item.write(units)),
            Some(Record::Tank(item)) => (Tank::FORM, item.write(units)),
            _ => return,
        }
    };
    forms::open(&app.document, name, &named, id);
}

fn forget_edit(app: &App, name: &str) {
    if let Some(form) = forms::form(&app.document, name) {
        form.dataset().delete("id");
    }
}

/// Keeps a record by its text: what a calibration found.
pub fn put_in(app: &Rc<App>, id: &str, text: &str) {
    if let Ok(record) = Record::from_text(text) {
        change(app, id, &record);
    }
}

/// Puts a record in its place, and offers one step back: the record that stood there before, to be put back by a button.
fn change(app: &Rc<App>, id: &str, record: &Record) {
    let before = current(&app.darkroom.borrow().kit, id).unwrap_or(Record::Gone);
    put(app, id, record);
    let (what, of) = match record {
        Record::Gone => ("Removed", &before),
        kept => ("Kept", kept),
    };
    let done = format!("{what}: {}.", name_of(of));
    if let Some(place) = app.document.get_element_by_id("undo") {
        place.set_inner_html(&view::undo(&done, id, &before.to_text()).into_string());
        dom::show(&place, true);
    }
}
