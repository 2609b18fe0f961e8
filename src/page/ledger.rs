//! The ledger on the page: what happened is written down, shown at once, and confirmed when it is safe.
//!
//! All events are in memory. Every change, from here, another tab, a file or the mirror, folds the shelf anew and shows it.

mod union;

use std::cell::{Cell, RefCell};
use std::rc::Rc;

use gloo_events::EventListener;
use gloo_timers::callback::Timeout;
use uuid::{Builder, Uuid};

use super::{App, annex, answers, clock, copies, dom, kit, mirror, shelf};
use crate::browser::LEDGER_CHANGED;
use crate::example;
use crate::fields::sentence;
use crate::ledger::{self, BottleId, Event, EventId, KeepError, Ledger, Moment, Shelf, What, migrate};
use crate::quantity::Day;
use crate::store::{DoorError, Unread};
use crate::view;

pub use union::{lacks_any, unite};

use union::{keys_here, mirror_has};

/// Milliseconds in which the mirror should have answered; a disk takes a thousandth of that.
const PATIENCE: u32 = 3000;

/// The ledger in memory, and what is still to be kept of it.
#[derive(Default)]
pub struct Book {
    all: RefCell<Ledger>,
    /// The example shelf, while it is shown: in memory only.
    example: RefCell<Vec<Event>>,
    /// What the store did not take; tried again with every later event.
    unkept: RefCell<Vec<Unkept>>,
    /// Why it did not.
    refusal: Cell<Option<DoorError>>,
    /// When the last event of this tab was written down, in milliseconds: the next is later, so that they stay in order.
    last: Cell<i64>,
    /// How many events the mirror has not answered for.
    waiting: Cell<usize>,
    /// Whether it could not take one of them.
    missed: Cell<bool>,
    /// Speaks up if it does not answer.
    late: RefCell<Option<Timeout>>,
}

struct Unkept {
    event: Event,
    in_mirror: bool,
}

/// Reads the ledger from the store's entries, brings the bottles of the simple store into it, folds the shelf, and listens.
pub fn start(app: &Rc<App>, entries: Vec<(String, String)>) {
    *app.ledger.all.borrow_mut() = ledger::read_all(entries).ledger;
    bring_over(app);
    fold(app);
    let pressed = {
        let app = Rc::clone(app);
        move |event: &web_sys::Event| take_back(&app, event)
    };
    app.own(EventListener::new(&app.document, "click", pressed));
    let returned = {
        let app = Rc::clone(app);
        move |_: &web_sys::Event| come_back(&app)
    };
    app.own(EventListener::new(&app.document, "visibilitychange", returned));
}

/// Brings the bottles of the simple store, which are the kit's now, into the ledger. The kit's are then to be folded.
pub fn bring_over(app: &App) {
    let bottles = std::mem::take(&mut app.darkroom.borrow_mut().kit.bottles);
    let today = clock::today();
    let migrated = migrate::migrate(&*app.door, &bottles, today);
    let mut events = migrated.new;
    for (id, error) in migrated.failed {
        let kept = bottles.iter().find(|kept| kept.id == id);
        let event = kept.and_then(|kept| migrate::event(kept, today));
        if let (Some(event), KeepError::Door(error)) = (event, error) {
            not_kept(app, event.clone(), error, false);
            events.push(event);
        }
    }
    let all = app.ledger.all.take();
    app.ledger.all.replace(all.merge(of(events)));
}

/// Writes down what happened now, today; shows it at once; confirms it when the mirror has it. `None` if it is nothing that can
/// be kept; the reason is shown. Nothing of the app may be borrowed meanwhile.
pub fn record(app: &Rc<App>, what: What) -> Option<EventId> {
    write(app, None, clock::today(), what)
}

/// The same for a day that the user names: it counts as done after all else of that day, at noon at the earliest; now if the day
/// is today. Of the example nothing is kept, even where the event does not tell.
pub fn record_on(app: &Rc<App>, day: Day, what: What, of_example: bool) -> Option<EventId> {
    if day == clock::today() {
        return write_of(app, None, day, what, of_example);
    }
    let last = {
        let darkroom = app.darkroom.borrow();
        let that_day = darkroom.shelf.events.iter().filter(|event| event.day == day);
        that_day.map(|event| event.at.milliseconds() + 1).max()
    };
    let noon = Moment::noon(day);
    let after = last
        .and_then(Moment::from_milliseconds)
        .map_or(noon, |last| last.max(noon));
    write_of(app, Some(after), day, what, of_example)
}

/// The same in the place of an earlier event, which was taken back.
pub fn record_instead(app: &Rc<App>, earlier: &Event, what: What) -> Option<EventId> {
    write(app, Some(earlier.at), earlier.day, what)
}

/// A fresh name for a bottle.
pub fn new_bottle_id() -> BottleId {
    new_id(clock::now() as i64).into()
}

/// Offers to take back what was done, all of it, and says what it was.
pub fn offer_undo(app: &App, events: &[EventId], done: &str) {
    let names: Vec<String> = events.iter().map(EventId::to_string).collect();
    if let Some(place) = app.document.get_element_by_id("undo") {
        place.set_inner_html(&view::take_back(done, &names.join(" ")).into_string());
        dom::show(&place, true);
    }
}

/// Another thing is looked at: the way back stays in the record.
pub fn hide_undo(app: &App) {
    if let Some(place) = app.document.get_element_by_id("undo") {
        dom::show(&place, false);
    }
}

/// Folds the shelf anew, and shows all that follows from it.
pub fn changed(app: &Rc<App>) {
    fold(app);
    kit::show(app);
    shelf::show(app);
    copies::show(app);
    answers::show_room(app);
    dom::tell(&app.document, LEDGER_CHANGED);
}

/// Lays the example shelf beside the user's own; nothing of it is kept.
pub fn show_example(app: &Rc<App>, texts: &[String]) {
    let events = texts.iter().filter_map(|text| Event::from_text(text).ok());
    app.ledger.example.replace(events.collect());
    changed(app);
}

/// Takes the example away, and all that was done to it.
pub fn drop_example(app: &Rc<App>) {
    app.ledger.example.borrow_mut().clear();
    hide_undo(app);
    changed(app);
}

/// Whether the example is shown.
pub fn has_example(app: &App) -> bool {
    !app.ledger.example.borrow().is_empty()
}

/// Whether a bottle is of the example, or was filled from it since.
pub fn is_bottle_of_example(app: &App, bottle: &str) -> bool {
    let example = app.ledger.example.borrow();
    let mut begun = example.iter().flat_map(|event| event.what.begins());
    begun.any(|begun| begun.as_str() == bottle)
}

/// Whether an event is about the example, and so not to be kept.
fn is_of_example(app: &App, event: &Event) -> bool {
    let example = app.ledger.example.borrow();
    let undoes = match &event.what {
        What::Corrected { event } => example.iter().any(|other| other.id == *event),
        _ => false,
    };
    let mut needs = event.what.needs();
    undoes || example::concerns_example(event) || needs.any(|bottle| is_bottle_of_example(app, bottle.as_str()))
}

/// Every event that the shelf is folded from.
pub fn events(app: &App) -> Vec<Event> {
    let mut events = app.ledger.all.borrow().events.clone();
    events.extend(app.ledger.example.borrow().iter().cloned());
    events
}

/// Everything that is known, in its one order.
pub fn all(app: &App) -> Ledger {
    app.ledger.all.borrow().clone()
}

/// How many entries there are.
pub fn count(app: &App) -> usize {
    let all = app.ledger.all.borrow();
    all.events.len() + all.unread.len()
}

/// What the user must know of the ledger: of entries that the store did not take, and those that nobody can read.
pub fn trouble(app: &App) -> (Option<String>, Vec<Unread>) {
    let unkept = app.ledger.unkept.borrow();
    let refusal = app.ledger.refusal.get().filter(|_| !unkept.is_empty());
    let in_mirror = unkept.iter().all(|unkept| unkept.in_mirror);
    let sentence = refusal.map(|why| view::unkept(unkept.len(), why, in_mirror));
    let lost = app.ledger.all.borrow().lost().into_iter().cloned().collect();
    (sentence, lost)
}

/// Another tab wrote this entry.
pub fn take_entry(app: &Rc<App>, key: String) {
    if let Ok(Some(text)) = app.door.get(&key) {
        merge(app, ledger::read_all(vec![(key, text)]).ledger);
    }
}

/// The store may hold anything new. What is shown stays, even if it is no longer there.
pub fn take_all(app: &Rc<App>) {
    merge(app, ledger::load_all(&*app.door).ledger);
}

/// Takes in a ledger from elsewhere, for good.
pub fn take_in(app: &Rc<App>, ledger: Ledger) -> ledger::TakenIn {
    let taken = ledger::take_in(&*app.door, &ledger);
    match taken.trouble {
        None => merge(app, ledger),
        Some(_) => take_all(app),
    }
    mirror::compare(app);
    taken
}

fn take_back(app: &Rc<App>, click: &web_sys::Event) {
    let Some(button) = dom::pressed(click) else { return };
    let Some(named) = button.get_attribute("data-take-back") else {
        return;
    };
    let offered = button.closest("#undo").is_ok_and(|undo| undo.is_some());
    hide_undo(app);
    // The last that was done is the first to be undone.
    let events = named.rsplit(' ').filter_map(|name| name.parse().ok());
    let done: Vec<EventId> = events
        .filter_map(|event| record(app, What::Corrected { event }))
        .collect();
    if !offered {
        // From a record a whole bottle may go, and its record with it.
        shelf::offer_undo(app, &done);
    }
}

/// The page is seen again: another day may have begun, and while it slept, other tabs may have written.
fn come_back(app: &Rc<App>) {
    let known = count(app).saturating_sub(app.ledger.unkept.borrow().len());
    if keys_here(app).len() != known {
        take_all(app);
    } else if app.darkroom.borrow().today() != clock::today() {
        changed(app);
    }
}

fn write(app: &Rc<App>, at: Option<Moment>, day: Day, what: What) -> Option<EventId> {
    write_of(app, at, day, what, false)
}

fn write_of(app: &Rc<App>, at: Option<Moment>, day: Day, what: What, of_example: bool) -> Option<EventId> {
    let book = &app.ledger;
    let now = (clock::now() as i64).max(book.last.get() + 1);
    book.last.set(now);
    let id = new_id(now);
    let at = at.or(id.moment())?;
    let event = Event { id, at, day, what };
    if of_example || is_of_example(app, &event) {
        app.ledger.example.borrow_mut().push(event);
        changed(app);
        say(app, "That was done to the example; nothing of it is kept.");
        return Some(id);
    }
    keep_again(app);
    let kept = ledger::append(&*app.door, &event);
    // As it will be read, whether or not the store took it: what is entered is never lost before one's eyes.
    let (event, refusal) = match kept {
        Ok(event) => (event, None),
        Err(KeepError::Door(error)) => (Event::from_text(&event.to_text()).ok()?, Some(error)),
        Err(error) => {
            say(app, &sentence(&error.to_string()));
            return None;
        }
    };
    say(app, "");
    let entry = (event.key(), event.to_text());
    if let Some(error) = refusal {
        not_kept(app, event.clone(), error, false);
    }
    book.waiting.set(book.waiting.get() + 1);
    let late = Rc::clone(app);
    *book.late.borrow_mut() = Some(Timeout::new(PATIENCE, move || confirm(&late, false)));
    copies::wrote(app, &entry.0, &entry.1);
    mirror_has(app, vec![entry], |app, is_there| {
        let book = &app.ledger;
        book.waiting.set(book.waiting.get() - 1);
        book.missed.set(book.missed.get() || !is_there);
        if book.waiting.get() == 0 {
            drop(book.late.take());
            confirm(app, !book.missed.replace(false));
        }
    });
    merge(app, of(vec![event]));
    Some(id)
}

/// Says whether what was written is safe.
fn confirm(app: &App, mirrored: bool) {
    let stored = app.trouble.is_none() && app.ledger.unkept.borrow().is_empty();
    say(app, view::written_down(stored, mirrored));
    if !stored {
        app.show_trouble();
    }
}

/// Says it in the line that tells of what was written down.
pub fn say(app: &App, sentence: &str) {
    if let Some(place) = app.document.get_element_by_id("kept") {
        place.set_text_content(Some(sentence));
    }
}

fn not_kept(app: &App, event: Event, why: DoorError, in_mirror: bool) {
    let mut unkept = app.ledger.unkept.borrow_mut();
    if unkept.iter().all(|other| other.event.id != event.id) {
        unkept.push(Unkept { event, in_mirror });
    }
    app.ledger.refusal.set(Some(why));
}

/// Tries what the store did not take once more, in order, until it refuses again.
fn keep_again(app: &App) {
    let mut unkept = app.ledger.unkept.borrow_mut();
    let refused = unkept
        .iter()
        .position(|unkept| ledger::append(&*app.door, &unkept.event).is_err());
    let kept = refused.unwrap_or(unkept.len());
    unkept.drain(..kept);
}

/// Events as a ledger.
fn of(events: Vec<Event>) -> Ledger {
    Ledger {
        events,
        ..Ledger::default()
    }
}

/// Adds what is new, and shows it.
fn merge(app: &Rc<App>, more: Ledger) {
    let all = app.ledger.all.take();
    app.ledger.all.replace(all.merge(more));
    changed(app);
    app.show_trouble();
}

/// The shelf of all events, today.
fn fold(app: &App) {
    let shelf = Shelf::fold(events(app), clock::today());
    let mut darkroom = app.darkroom.borrow_mut();
    darkroom.kit.bottles = shelf.labels();
    darkroom.shelf = shelf;
    drop(darkroom);
    annex::forget(app);
}

/// A name for what is written down at that moment, in milliseconds since 1970.
fn new_id(now: i64) -> EventId {
    let [a, b, c, d, e, f, _version, g, _variant, h, i, j, ..] = Uuid::new_v4().into_bytes();
    let uuid = Builder::from_unix_timestamp_millis(now as u64, &[a, b, c, d, e, f, g, h, i, j]);
    let moment = Moment::from_milliseconds(now).unwrap_or(Moment::noon(Day::from_days(0)));
    EventId::new(moment, uuid.into_uuid().as_u128())
}
