//! An invented darkroom: some bottles with a history up to today, so that the page has something to say before anything is
//! typed. Everything in it bears a name of its own and can be told from the user's.
//!
//! ```
//! use meniscus::example;
//! use meniscus::ledger::Shelf;
//! use meniscus::quantity::Day;
//!
//! let today: Day = "2026-03-01".parse().expect("a day");
//! let shelf = Shelf::fold(example::events(today), today);
//! assert!(shelf.bottle("example-blue").is_some());
//! assert!(shelf.events.iter().all(example::concerns_example));
//! ```

mod sittings;
mod table;

use crate::development::read_sheet_times;
use crate::keeping::SheetLives;
use crate::kit::{Bottle, Treatment};
use crate::ledger::{
    Bath, BottleId, ContainerNote, Description, Event, EventId, Filled, Moment, Opened, Portion, Price, TestResult,
    Thousandths, What, session_to_text,
};
use crate::quantity::{Day, Units, Volume};
use table::{DEEDS, Deed, Label};

/// How the names of its bottles begin.
pub const NAMES: &str = "example-";
/// How the names of its places end.
pub const PLACES: &str = " (example)";
/// How the names of its events begin: a name of version 8 that spells the word.
const EVENTS: &str = "6578616d-706c-8";

/// What happened in it up to a few days before this day. The same names for every day, so that it never stands on a shelf
/// twice.
pub fn events(today: Day) -> Vec<Event> {
    let mut events: Vec<Event> = Vec::with_capacity(2 * DEEDS.len());
    for (ago, deed) in DEEDS {
        let day = today + -ago;
        let before = events.last().map(|event| event.id);
        for what in [what(deed, today, day, before), films(deed)].into_iter().flatten() {
            let index = events.len();
            // A millisecond apart, so that those of one day keep their order.
            let at = Moment::from_milliseconds(Moment::noon(day).milliseconds() + index as i64);
            events.push(Event {
                id: EventId::derived(&format!("{EVENTS}000-8000-{index:012}")),
                at: at.unwrap_or(Moment::noon(day)),
                day,
                what,
            });
        }
    }
    events
}

/// Whether a bottle is of the example, by its name.
pub fn is_example(bottle: &BottleId) -> bool {
    bottle.as_str().starts_with(NAMES)
}

/// Whether an event is the example's own, or names one of its bottles or places, or takes back one of its own events. What was
/// done to what came out of its bottles it cannot tell.
pub fn concerns_example(event: &Event) -> bool {
    let own = |id: EventId| id.to_string().starts_with(EVENTS);
    let what = &event.what;
    own(event.id)
        || named(what).into_iter().any(is_example)
        || match what {
            What::PlaceNoted { place, .. } | What::PlaceDropped { place } => place.ends_with(PLACES),
            What::Corrected { event } => own(*event),
            _ => false,
        }
}

/// All bottles that it names.
fn named(what: &What) -> Vec<&BottleId> {
    what.needs().chain(what.begins()).collect()
}

/// `day` is when it happened, `before` is the event before.
fn what(deed: &Deed, today: Day, day: Day, before: Option<EventId>) -> Option<What> {
    Some(match *deed {
        Deed::Place(place, climate, light) => What::PlaceNoted {
            place: place.to_owned(),
            climate: Some(climate),
            light: Some(light),
        },
        Deed::Came(label, filled, opened) => What::Added {
            bottle: id(label.id)?,
            is: description(label),
            filled: (filled > 0.0).then(|| ml(filled)),
            opened: match opened {
                Some(0) => Opened::Never,
                Some(ago) => Opened::On(today + -ago),
                None => Opened::NotKnown,
            },
        },
        Deed::Moved(bottle, place) => What::Moved {
            bottle: id(bottle)?,
            place: place.to_owned(),
        },
        Deed::Drew(bottle, volume, bath, purpose) => What::Drawn {
            bottle: id(bottle)?,
            volume: ml(volume),
            bath: Some(ml(bath)),
            dilution: None,
            purpose: purpose.to_owned(),
        },
        Deed::Used(bottle, volume, water, dilution, purpose, _) => What::Mixed {
            from: portion(bottle, volume)?,
            water: ml(water),
            dilution: dilution.parse().ok(),
            into: Bath::Used {
                purpose: purpose.to_owned(),
            },
        },
        Deed::Kept(bottle, volume, water, label) => What::Mixed {
            from: portion(bottle, volume)?,
            water: ml(water),
            dilution: label.dilution.parse().ok(),
            into: Bath::Kept {
                bottle: id(label.id)?,
                is: description(label),
            },
        },
        Deed::Decanted(bottle, into, volume, label) => What::Decanted {
            from: id(bottle)?,
            into: into
                .iter()
                .filter_map(|name| {
                    Some(Filled {
                        bottle: id(name)?,
                        container: container(label),
                        volume: ml(volume),
                    })
                })
                .collect(),
        },
        Deed::Squeezed(bottle) => What::Treated {
            bottle: id(bottle)?,
            how: Treatment::Squeezed,
        },
        Deed::Tested(bottle, test, passed, note) => What::Tested {
            bottle: id(bottle)?,
            test,
            result: match passed {
                true => TestResult::Passed,
                false => TestResult::Failed,
            },
            note: note.to_owned(),
        },
        Deed::Measured(bottle, test, strength, uncertainty, note) => What::Tested {
            bottle: id(bottle)?,
            test,
            result: TestResult::Strength {
                strength: Thousandths(strength),
                uncertainty: Some(Thousandths(uncertainty)),
            },
            note: note.to_owned(),
        },
        Deed::Films(bottle, units) => through(bottle, units)?,
        Deed::Discarded(bottle, reason) => What::Discarded {
            bottle: id(bottle)?,
            reason: reason.to_owned(),
        },
        Deed::Note(bottle, text) => What::Note {
            bottle: id(bottle),
            text: text.to_owned(),
        },
        Deed::Developed(sitting) => What::Developed {
            text: session_to_text(&sittings::session(sitting, day)?),
        },
        Deed::TookBack => What::Corrected { event: before? },
    })
}

/// The films that a bath was used for, counted with the bottle that it was mixed from.
fn films(deed: &Deed) -> Option<What> {
    match *deed {
        Deed::Used(bottle, .., units) if units > 0 => through(bottle, units),
        _ => None,
    }
}

fn through(bottle: &str, units: u32) -> Option<What> {
    Some(What::FilmsThrough {
        bottle: id(bottle)?,
        units: Thousandths(units * 1000),
        films: String::new(),
    })
}

fn id(name: &str) -> Option<BottleId> {
    BottleId::new(NAMES.to_owned() + name).ok()
}

fn ml(value: f64) -> Volume {
    Volume::from_millilitres(value)
}

fn portion(bottle: &str, volume: f64) -> Option<Vec<Portion>> {
    let bottle = id(bottle)?;
    let volume = ml(volume);
    Some(vec![Portion { bottle, volume }])
}

fn description(label: &Label) -> Box<Description> {
    let days = |days: u16| (days > 0).then_some(f64::from(days));
    let [unopened, full, half_full] = label.lives.map(days);
    Box::new(Description {
        label: Bottle {
            product: label.product.to_owned(),
            class: label.class,
            density: None,
            dilutions: label.dilution.parse().into_iter().collect(),
            least_per_film: (label.least_per_film > 0.0).then(|| ml(label.least_per_film)),
            times: read_sheet_times(label.times, Units::default()).unwrap_or_default(),
            exponent: None,
        },
        container: container(label),
        price: (label.cents > 0).then(|| Price {
            cents: label.cents,
            currency: "EUR".to_owned(),
        }),
        lives: SheetLives {
            unopened,
            full,
            half_full,
        },
        films_per_litre: (label.films_per_litre > 0).then_some(Thousandths(label.films_per_litre * 1000)),
    })
}

fn container(label: &Label) -> ContainerNote {
    let Some((size, material, colour)) = label.vessel else {
        return ContainerNote::default();
    };
    ContainerNote {
        // As much over what they are sold as as most bottles hold.
        brimful: Some(ml(size * 1.06)),
        nominal: Some(ml(size)),
        material: Some(material),
        colour: Some(colour),
        ..ContainerNote::default()
    }
}
