//! The form of a bottle: one that comes, or what is known anew of one that stands on the shelf.

use std::rc::Rc;

use gloo_timers::callback::Timeout;

use super::super::{App, annex, answers, forms, ledger};
use super::{SHELF, done_with, in_record, offer_undo, said};
use crate::browser::address;
use crate::fields::Fault;
use crate::ledger::{Bottle, Counts, Description, Event, EventId, Opened, What};
use crate::quantity::Volume;

/// Its name.
pub const BOTTLE: &str = "bottle";

/// Opens the form with the bottle in it.
pub fn edit(app: &Rc<App>) {
    let Some(id) = in_record(app) else { return };
    let named = annex::known(app, id.as_str());
    address::go(SHELF);
    // The room is shown only after this event.
    let app = Rc::clone(app);
    Timeout::new(0, move || forms::open(&app.document, BOTTLE, &named, id.as_str())).forget();
}

/// The form is for a new bottle again.
pub fn forget_edit(app: &App) {
    if let Some(form) = forms::form(&app.document, BOTTLE) {
        form.dataset().delete("id");
    }
}

/// A bottle as its form tells of it.
struct Told {
    is: Description,
    filled: Option<Volume>,
    opened: Opened,
    place: String,
}

/// Reads the form of a bottle: a new one, or what is known anew of one that stands here.
pub fn keep(app: &Rc<App>) {
    let Some(form) = forms::form(&app.document, BOTTLE) else {
        return;
    };
    let Some(said) = said(app, BOTTLE, "") else { return };
    let Some(What::Added { is, filled, opened, .. }) = said.whats.into_iter().next() else {
        return;
    };
    let told = Told {
        is: *is,
        filled,
        opened,
        place: said.place,
    };
    let id = form.dataset().get("id");
    let known = id.as_ref().and_then(|id| {
        let darkroom = app.darkroom.borrow();
        darkroom.shelf.bottle(id).cloned()
    });
    let changed = known.as_ref().map(|bottle| bottle.is.label.product.clone());
    let events = match (known, id) {
        (Some(bottle), _) => change(app, &bottle, told),
        (None, Some(_)) => return ledger::say(app, "That bottle is no longer on the shelf."),
        (None, None) => add(app, told),
    };
    let Some(events) = events else { return };
    match changed {
        Some(product) if !events.is_empty() => {
            ledger::offer_undo(app, &events, &format!("Changed: what is known of {product}."));
        }
        _ => offer_undo(app, &events),
    }
    done_with(app, BOTTLE);
}

fn add(app: &Rc<App>, told: Told) -> Option<Vec<EventId>> {
    let bottle = ledger::new_bottle_id();
    let added = What::Added {
        bottle: bottle.clone(),
        is: Box::new(told.is),
        filled: told.filled,
        opened: told.opened,
    };
    let added = ledger::record(app, added)?;
    let place = told.place;
    let moved = (!place.is_empty()).then(|| ledger::record(app, What::Moved { bottle, place }));
    // In words it is the coming that is told.
    Some(moved.flatten().into_iter().chain([added]).collect())
}

/// Writes down only what is said otherwise than before; nothing if that cannot be done, which is then said at its field.
fn change(app: &Rc<App>, bottle: &Bottle, told: Told) -> Option<Vec<EventId>> {
    let id = &bottle.id;
    let mut is = told.is;
    // What the form does not ask for stays.
    is.container.name.clone_from(&bottle.is.container.name);
    is.container.wall_area = bottle.is.container.wall_area;
    is.container.thickness = bottle.is.container.thickness;
    let mut events = Vec::new();
    if told.opened != bottle.opened {
        if came(app, bottle).is_empty() {
            let faults = [Fault {
                field: "opened".to_owned(),
                sentence: "It was filled from another bottle, so it counts as opened then.".to_owned(),
            }];
            forms::show_faults(&app.document, BOTTLE, &faults);
            forms::focus_first(&app.document, BOTTLE, &faults);
            return None;
        }
        events.extend(open_anew(app, bottle, told.opened));
    }
    if is != bottle.is {
        let is = Box::new(is);
        events.extend(ledger::record(app, What::BottleNoted { bottle: id.clone(), is }));
    }
    if let Some(left) = told.filled.filter(|filled| Some(*filled) != bottle.left()) {
        events.extend(ledger::record(
            app,
            What::ContentNoted {
                bottle: id.clone(),
                left,
            },
        ));
    }
    let place = {
        let darkroom = app.darkroom.borrow();
        bottle.now.place.map(|place| darkroom.shelf.places[place].name.clone())
    };
    if !told.place.is_empty() && place.as_ref() != Some(&told.place) {
        let place = told.place;
        events.extend(ledger::record(
            app,
            What::Moved {
                bottle: id.clone(),
                place,
            },
        ));
    }
    answers::take_from_changed_bottle(app, id.as_str());
    Some(events)
}

/// The events by which a bottle came, but those that were taken back.
fn came(app: &App, bottle: &Bottle) -> Vec<Event> {
    let darkroom = app.darkroom.borrow();
    let standing = bottle.entries.iter().filter(|entry| entry.counts != Counts::TakenBack);
    let events = standing.map(|entry| &darkroom.shelf.events[entry.event]);
    let of_it = |event: &&Event| matches!(&event.what, What::Added { bottle: added, .. } if *added == bottle.id);
    events.filter(of_it).cloned().collect()
}

/// Whether it was opened is said anew by adding it again under its name, and then taking its first coming back: so it is never
/// gone meanwhile. All of these events are returned.
fn open_anew(app: &Rc<App>, bottle: &Bottle, opened: Opened) -> Vec<EventId> {
    let earlier = came(app, bottle);
    let Some((first, What::Added { is, filled, .. })) = earlier.first().map(|first| (first, &first.what)) else {
        return Vec::new();
    };
    let added = What::Added {
        bottle: bottle.id.clone(),
        is: is.clone(),
        filled: *filled,
        opened,
    };
    let Some(added) = ledger::record_instead(app, first, added) else {
        return Vec::new();
    };
    let take_back = |event: &Event| ledger::record(app, What::Corrected { event: event.id });
    let mut done = vec![added];
    done.extend(earlier.iter().filter_map(take_back));
    done
}
