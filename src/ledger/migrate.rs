//! Bottles of the simple store become events: each once, the same on every device and in every tab.

use super::description::{Description, Opened};
use super::event::{Event, What};
use super::id::{BottleId, EventId, Moment};
use super::keep::{KeepError, append};
use crate::kit::{Bottle, Kept};
use crate::quantity::Day;
use crate::store::Door;

/// What became of the bottles of the simple store.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Migrated {
    /// Events that are new.
    pub new: Vec<Event>,
    /// Bottles that could not be taken over, by their key, and why.
    pub failed: Vec<(String, KeepError)>,
}

/// Brings the bottles of the simple store into the ledger behind the same door. Those that were brought before are left as they
/// are, even if they were changed or taken back since. The simple store is not touched.
pub fn migrate(door: &dyn Door, bottles: &[Kept<Bottle>], today: Day) -> Migrated {
    let mut migrated = Migrated::default();
    for kept in bottles {
        let Some(event) = event(kept, today) else {
            let nameless = crate::store::RecordError::Content("its key names no bottle".to_owned());
            migrated.failed.push((kept.id.clone(), KeepError::NotAnEvent(nameless)));
            continue;
        };
        match door.get(&event.key()) {
            Ok(Some(_)) => continue,
            Ok(None) => {}
            Err(error) => {
                migrated.failed.push((kept.id.clone(), error.into()));
                continue;
            }
        }
        match append(door, &event) {
            Ok(event) => migrated.new.push(event),
            // Another tab was first.
            Err(KeepError::Taken) => {}
            Err(error) => migrated.failed.push((kept.id.clone(), error)),
        }
    }
    migrated
}

/// The event that brings a bottle of the simple store to the shelf; `None` if its key can name no bottle. Name and moment follow
/// from the key (a UUID of version 7 tells when the bottle was entered; otherwise it is the noon of today), so that all who do
/// this write the same. Container, content and opening are marked as not known.
pub fn event(kept: &Kept<Bottle>, today: Day) -> Option<Event> {
    let bottle = BottleId::new(kept.id.clone()).ok()?;
    let entered = kept.id.parse::<EventId>().ok().and_then(EventId::moment);
    let at = entered.unwrap_or_else(|| Moment::noon(today));
    Some(Event {
        id: EventId::derived(&kept.id),
        at,
        day: entered.map_or(today, Moment::day),
        what: What::Added {
            bottle,
            is: Box::new(Description::of(kept.item.clone())),
            filled: None,
            opened: Opened::NotKnown,
        },
    })
}
