//! The ledger on the page: what happened is written down, shown at once, and confirmed when it is safe.
//!
//! All events are in memory. Every change, from here, another tab, a file or the mirror, folds the shelf anew and shows it.

use std::cell::{Cell, RefCell};
use std::rc::Rc;

use gloo_events::EventListener;
use uuid::{NoContext, Timestamp, Uuid};

use super::{App, answers, clock, dom, kit, shelf};
use crate::ledger::{self, BottleId, Event, EventId, KeepError, Ledger, Moment, Shelf, What, migrate};
use crate::quantity::Day;
use crate::store::DoorError;
use crate::view;

/// The ledger in memory, and what is still to be kept of it.
#[derive(Default)]
pub struct Book {
    all: RefCell<Ledger>,
    /// What the store did not take, and why; tried again with every later event.
    unkept: RefCell<Vec<(Event, DoorError)>>,
    /// When the last event of this tab was written down, in milliseconds: the next is later, so that they stay in order.
    last: Cell<i64>,
}

/// Reads the ledger, brings the bottles of the simple store into it, and folds the shelf.
pub fn start(app: &Rc<App>) {
    let loaded = ledger::load_all(&*app.door);
    let bottles = std::mem::take(&mut app.darkroom.borrow_mut().kit.bottles);
    let today = clock::today();
    let migrated = migrate::migrate(&*app.door, &bottles, today);
    let mut events = migrated.new;
    for (id, error) in migrated.failed {
        let kept = bottles.iter().find(|kept| kept.id == id);
        let event = kept.and_then(|kept| migrate::event(kept, today));
        if let (Some(event), KeepError::Door(error)) = (event, error) {
            app.ledger.unkept.borrow_mut().push((event.clone(), error));
            events.push(event);
        }
    }
    let moved = Ledger {
        events,
        ..Ledger::default()
    };
    *app.ledger.all.borrow_mut() = loaded.ledger.merge(moved);
    fold(app);
    let pressed = {
        let app = Rc::clone(app);
        move |event: &web_sys::Event| take_back(&app, event)
    };
    app.own(EventListener::new(&app.document, "click", pressed));
}

/// Writes down what happened now, today; shows it at once; confirms it when the mirror has it. `None` if it could not be kept;
/// the reason is shown. Nothing of the app may be borrowed meanwhile.
pub fn record(app: &Rc<App>, what: What) -> Option<EventId> {
    write(app, None, clock::today(), what)
}

/// The same for a day that the user names: it counts as done at noon of that day, or now if the day is today.
#[allow(dead_code)]
pub fn record_on(app: &Rc<App>, day: Day, what: What) -> Option<EventId> {
    let at = (day != clock::today()).then(|| Moment::noon(day));
    write(app, at, day, what)
}

/// A fresh name for a bottle.
pub fn new_bottle_id() -> BottleId {
    new_id(clock::now() as i64).into()
}

/// Offers to take an event back, and says what was done.
pub fn offer_undo(app: &App, event: EventId, done: &str) {
    if let Some(place) = app.document.get_element_by_id("undo") {
        place.set_inner_html(&view::take_back(done, &event.to_string()).into_string());
        dom::show(&place, true);
    }
}

fn take_back(app: &Rc<App>, click: &web_sys::Event) {
    let named = dom::pressed(click).and_then(|button| button.get_attribute("data-take-back"));
    let Some(event) = named.and_then(|name| name.parse().ok()) else {
        return;
    };
    if record(app, What::Corrected { event }).is_some()
        && let Some(place) = app.document.get_element_by_id("undo")
    {
        dom::show(&place, false);
    }
}

fn write(app: &Rc<App>, at: Option<Moment>, day: Day, what: What) -> Option<EventId> {
    let book = &app.ledger;
    let now = (clock::now() as i64).max(book.last.get() + 1);
    book.last.set(now);
    let id = new_id(now);
    let at = at.or(id.moment())?;
    let event = Event { id, at, day, what };
    let event = match ledger::append(&*app.door, &event) {
        Ok(event) => event,
        Err(KeepError::Door(error)) => {
            let event = Event::from_text(&event.to_text()).ok()?;
            book.unkept.borrow_mut().push((event.clone(), error));
            event
        }
        Err(_) => return None,
    };
    add(app, event);
    Some(id)
}

fn add(app: &Rc<App>, event: Event) {
    let more = Ledger {
        events: vec![event],
        ..Ledger::default()
    };
    let all = app.ledger.all.take();
    *app.ledger.all.borrow_mut() = all.merge(more);
    changed(app);
}

/// Folds the shelf anew, and shows all that follows from it.
pub fn changed(app: &Rc<App>) {
    fold(app);
    kit::show(app);
    shelf::show(app);
    answers::show_all(app);
}

/// The shelf of all events, today.
fn fold(app: &App) {
    let shelf = Shelf::fold(app.ledger.all.borrow().events.clone(), clock::today());
    let mut darkroom = app.darkroom.borrow_mut();
    darkroom.kit.bottles = shelf.labels();
    darkroom.shelf = shelf;
}

/// A name for what is written down at that moment, in milliseconds since 1970.
fn new_id(now: i64) -> EventId {
    let stamp = Timestamp::from_unix(NoContext, now as u64 / 1000, (now % 1000) as u32 * 1_000_000);
    let moment = Moment::from_milliseconds(now).unwrap_or(Moment::noon(Day::from_days(0)));
    EventId::new(moment, Uuid::new_v7(stamp).as_u128())
}
