//! The shelf as it is shown: every bottle, the record of one, and what can be done with it.

use std::rc::Rc;

use gloo_events::{EventListener, EventListenerOptions};
use web_sys::Event;

use super::{App, answers, clock, dom, forms, ledger, rooms};
use crate::calculators;
use crate::entries::{self, DEEDS, Deed, Entry, Newcomer};
use crate::fields::Named;
use crate::ledger::{Bottle, BottleId, EventId, What};
use crate::parts::{self, Judged};
use crate::quantity::Day;
use crate::view::{self, Block};

/// The room of one bottle.
const RECORD: &str = "record";
/// The calculator whose sheet stands in the record of a bottle.
const KEEPING: &str = "keeping";

/// Listens to the shelf.
pub fn start(app: &Rc<App>) {
    on_submit(app, Newcomer::FORM, |app| keep_bottle(&app));
    for deed in &DEEDS {
        on_submit(app, deed.name, |app| do_deed(&app, deed));
    }
    let cleared = {
        let app = Rc::clone(app);
        move |_: &Event| {
            forget_edit(&app);
            forms::show_faults(&app.document, Newcomer::FORM, &[]);
        }
    };
    if let Some(form) = forms::form(&app.document, Newcomer::FORM) {
        app.own(EventListener::new(&form, "reset", cleared));
    }
    let clicked = {
        let app = Rc::clone(app);
        move |event: &Event| on_click(&app, event)
    };
    app.own(EventListener::new(&app.document, "click", clicked));
    show(app);
}

fn on_submit(app: &Rc<App>, name: &str, then: impl Fn(Rc<App>) + 'static) {
    let Some(form) = forms::form(&app.document, name) else {
        return;
    };
    let app_then = Rc::clone(app);
    let submitted = move |event: &Event| {
        event.prevent_default();
        then(Rc::clone(&app_then));
    };
    let options = EventListenerOptions::enable_prevent_default();
    app.own(EventListener::new_with_options(&form, "submit", options, submitted));
}

/// Shows the shelf as it stands.
pub fn show(app: &Rc<App>) {
    {
        let darkroom = app.darkroom.borrow();
        let units = darkroom.kit.house.units;
        forms::show_hints(&app.document, Newcomer::FORM, Newcomer::FIELDS, units);
        for deed in &DEEDS {
            forms::show_hints(&app.document, deed.name, deed.fields, units);
        }
        let all = parts::bottles(&darkroom);
        if let Some(place) = app.document.get_element_by_id("bottles") {
            place.set_inner_html(&view::bottles(&all, &darkroom.shelf, units).into_string());
        }
        if let Some(none) = app.document.get_element_by_id("no-bottles") {
            dom::show(&none, all.is_empty());
        }
        if let Some(places) = app.document.get_element_by_id("places") {
            places.set_inner_html(&view::places(&darkroom.shelf).into_string());
        }
    }
    show_record(app);
}

/// Shows the record of the bottle that the address names, where it names one.
pub fn show_record(app: &App) {
    let Some(id) = rooms::detail(RECORD) else { return };
    let darkroom = app.darkroom.borrow();
    let units = darkroom.kit.house.units;
    let mut written = app.written.borrow_mut();
    let Some(place) = written.of(&app.document, RECORD) else {
        return;
    };
    let bottle = darkroom.shelf.bottle(&id);
    for part in dom::all(&app.document, "[data-room=record] .deeds, [data-room=record] .after") {
        dom::show(&part, bottle.is_some_and(|bottle| bottle.discarded.is_none()));
    }
    let Some(bottle) = bottle else {
        place.write_head(vec![
            "<p class=\"alert\">There is no such bottle on this device.</p>".to_owned(),
        ]);
        place.write_parts(Vec::new());
        return;
    };
    let judged = parts::bottles(&darkroom)
        .into_iter()
        .find(|judged| judged.bottle.id == bottle.id);
    let judged = judged.unwrap_or(Judged { bottle, verdict: None });
    place.write_head(view::record_head(&judged, units));
    let mut parts = vec![view::voices(&judged, &darkroom.shelf, units)];
    parts.extend(keeping(&darkroom, &id));
    parts.push(view::life_record(&darkroom.shelf.life_record(&id, units)));
    place.write_parts(parts);
}

/// What the calculator says of a bottle of the shelf.
fn keeping(darkroom: &crate::darkroom::Darkroom, id: &str) -> Vec<Block> {
    let named = Named::from([("bottle".to_owned(), id.to_owned())]);
    let answer = calculators::calculate(KEEPING, &named, darkroom);
    answer.map(|answer| view::parts(&answer)).unwrap_or_default()
}

fn on_click(app: &Rc<App>, event: &Event) {
    let Some(button) = dom::pressed(event) else { return };
    if let Some(id) = button.get_attribute("data-draw-again") {
        draw_again(app, &id);
    } else if button.has_attribute("data-opened") {
        if let Some(bottle) = in_record(app) {
            write_down(app, [What::Opened { bottle }]);
        }
    } else if button.has_attribute("data-change-bottle") {
        edit(app);
    }
}

/// The bottle whose record is shown.
fn in_record(app: &App) -> Option<BottleId> {
    let id = rooms::detail(RECORD)?;
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
    write_down(app, again);
}

/// Reads a form and writes down what it says, or shows all that is wrong.
fn do_deed(app: &Rc<App>, deed: &'static Deed) {
    let (Some(form), Some(bottle)) = (forms::form(&app.document, deed.name), in_record(app)) else {
        return;
    };
    let units = app.darkroom.borrow().kit.house.units;
    match deed.read(&forms::named(&form), units, bottle) {
        Ok(whats) => {
            forms::show_faults(&app.document, deed.name, &[]);
            if write_down(app, whats) {
                form.reset();
                forms::close(&app.document, deed.name);
            }
        }
        Err(faults) => {
            forms::show_faults(&app.document, deed.name, &faults);
            forms::focus_first(&app.document, deed.name, &faults);
        }
    }
}

/// Writes down what happened on the day that stands above the forms, and offers the way back. Whether it was kept.
fn write_down(app: &Rc<App>, whats: impl IntoIterator<Item = What>) -> bool {
    let day = day(app);
    let mut last = None;
    for what in whats {
        match ledger::record_on(app, day, what) {
            Some(event) => last = Some(event),
            None => return false,
        }
    }
    if let Some(event) = last {
        offer_undo(app, event);
    }
    last.is_some()
}

fn offer_undo(app: &Rc<App>, event: EventId) {
    let words = {
        let darkroom = app.darkroom.borrow();
        let units = darkroom.kit.house.units;
        let event = darkroom.shelf.event(event);
        event.map(|event| darkroom.shelf.words(event, None, units))
    };
    if let Some(words) = words {
        ledger::offer_undo(app, event, &crate::fields::sentence(&words));
    }
}

/// The day that the user says it was, or today.
fn day(app: &App) -> Day {
    let field = app.document.get_element_by_id("deed-day");
    let said = field.and_then(|field| dom::value(&field).parse().ok());
    said.filter(|_| rooms::detail(RECORD).is_some())
        .unwrap_or_else(clock::today)
}

/// Opens the form with the bottle in it.
fn edit(app: &App) {
    let Some(id) = in_record(app) else { return };
    let named = {
        let darkroom = app.darkroom.borrow();
        let shelf = &darkroom.shelf;
        let Some(bottle) = shelf.bottle(id.as_str()) else {
            return;
        };
        let place = bottle.now.place.map(|place| shelf.places[place].name.clone());
        let newcomer = Newcomer {
            is: bottle.is.clone(),
            filled: bottle.left(),
            opened: bottle.opened,
            place: place.unwrap_or_default(),
        };
        newcomer.write(darkroom.kit.house.units)
    };
    rooms::go("shelf");
    forms::open(&app.document, Newcomer::FORM, &named, id.as_str());
}

fn forget_edit(app: &App) {
    if let Some(form) = forms::form(&app.document, Newcomer::FORM) {
        form.dataset().delete("id");
    }
}

/// Reads the form of a bottle: a new one, or what is known anew of one that stands here.
fn keep_bottle(app: &Rc<App>) {
    let Some(form) = forms::form(&app.document, Newcomer::FORM) else {
        return;
    };
    let units = app.darkroom.borrow().kit.house.units;
    let newcomer = match entries::read::<Newcomer>(&forms::named(&form), units) {
        Ok(newcomer) => newcomer,
        Err(faults) => {
            forms::show_faults(&app.document, Newcomer::FORM, &faults);
            forms::focus_first(&app.document, Newcomer::FORM, &faults);
            return;
        }
    };
    forms::show_faults(&app.document, Newcomer::FORM, &[]);
    let known = form.dataset().get("id").and_then(|id| {
        let darkroom = app.darkroom.borrow();
        darkroom.shelf.bottle(&id).cloned()
    });
    match known {
        Some(bottle) => change(app, &bottle, newcomer),
        None => add(app, newcomer),
    }
    form.reset();
    forms::close(&app.document, Newcomer::FORM);
}

fn add(app: &Rc<App>, newcomer: Newcomer) {
    let bottle = ledger::new_bottle_id();
    let added = What::Added {
        bottle: bottle.clone(),
        is: Box::new(newcomer.is),
        filled: newcomer.filled,
        opened: newcomer.opened,
    };
    let Some(event) = ledger::record(app, added) else {
        return;
    };
    if !newcomer.place.is_empty() {
        let place = newcomer.place;
        ledger::record(app, What::Moved { bottle, place });
    }
    offer_undo(app, event);
}

/// Writes down only what is said otherwise than before.
fn change(app: &Rc<App>, bottle: &Bottle, newcomer: Newcomer) {
    let id = &bottle.id;
    let mut is = newcomer.is;
    // What the form does not ask for stays.
    is.container.name.clone_from(&bottle.is.container.name);
    is.container.wall_area = bottle.is.container.wall_area;
    is.container.thickness = bottle.is.container.thickness;
    let mut last = None;
    if newcomer.opened != bottle.opened {
        last = add_again(app, bottle, &is, newcomer.opened).or(last);
    } else if is != bottle.is {
        let is = Box::new(is);
        last = ledger::record(app, What::BottleNoted { bottle: id.clone(), is });
    }
    if let Some(left) = newcomer.filled.filter(|filled| Some(*filled) != bottle.left()) {
        last = ledger::record(
            app,
            What::ContentNoted {
                bottle: id.clone(),
                left,
            },
        )
        .or(last);
    }
    let place = {
        let darkroom = app.darkroom.borrow();
        bottle.now.place.map(|place| darkroom.shelf.places[place].name.clone())
    };
    if !newcomer.place.is_empty() && place.as_ref() != Some(&newcomer.place) {
        let place = newcomer.place;
        last = ledger::record(
            app,
            What::Moved {
                bottle: id.clone(),
                place,
            },
        )
        .or(last);
    }
    if let Some(event) = last {
        offer_undo(app, event);
        answers::take_from_changed_bottle(app, id.as_str());
        answers::show_all(app);
    }
}

/// How a bottle came is said anew by taking its coming back and adding it again under its name.
fn add_again(
    app: &Rc<App>,
    bottle: &Bottle,
    is: &crate::ledger::Description,
    opened: crate::ledger::Opened,
) -> Option<EventId> {
    let earlier = {
        let darkroom = app.darkroom.borrow();
        let events = bottle.entries.iter().map(|entry| &darkroom.shelf.events[entry.event]);
        let mut events =
            events.filter(|event| matches!(&event.what, What::Added { bottle: added, .. } if *added == bottle.id));
        events.next().cloned()?
    };
    let What::Added { filled, .. } = earlier.what else {
        return None;
    };
    let added = What::Added {
        bottle: bottle.id.clone(),
        is: Box::new(is.clone()),
        filled,
        opened,
    };
    ledger::record(app, What::Corrected { event: earlier.id })?;
    ledger::record_instead(app, &earlier, added)
}
