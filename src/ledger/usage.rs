//! How full the browser's store is, before it is too late.

use std::fmt;

use crate::store::{Door, DoorError, EVENTS};

/// How much of the browser's store the page uses.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Usage {
    /// Keys and texts of all that the page keeps, in UTF-16 units as browsers count them.
    pub units: usize,
    /// Of those, events.
    pub event_units: usize,
    /// How many events.
    pub events: usize,
}

/// What a browser holds for one address, in UTF-16 units (measured in Chromium; others are said to hold as much).
pub const ROOM: usize = 5_242_880;
/// From this share on the user is told.
const WARN_AT: f64 = 0.8;
/// Units of an event where there are none to go by.
const USUAL_EVENT: usize = 260;

impl Usage {
    /// Counts all that stands behind the door.
    ///
    /// # Errors
    /// If the store cannot be used at all.
    pub fn of(door: &dyn Door) -> Result<Self, DoorError> {
        let mut usage = Self::default();
        let (entries, trouble) = door.entries();
        for (key, text) in entries {
            usage.add(&key, &text);
        }
        trouble.map_or(Ok(usage), Err)
    }

    /// Adds one entry.
    pub fn add(&mut self, key: &str, text: &str) {
        let units = units(key) + units(text);
        self.units += units;
        if key.starts_with(EVENTS) {
            self.event_units += units;
            self.events += 1;
        }
    }

    /// The share of the store that is used: 1 is full.
    pub fn share(self) -> f64 {
        self.units as f64 / ROOM as f64
    }

    /// How many more events of the usual length there is room for.
    pub fn room_for(self) -> usize {
        let one = self.event_units.checked_div(self.events).unwrap_or(USUAL_EVENT);
        ROOM.saturating_sub(self.units) / one.max(1)
    }

    /// What to tell the user once the store fills up.
    pub fn warning(self) -> Option<String> {
        (self.share() >= WARN_AT).then(|| {
            format!(
                "The browser's store for this page is {} % full, with room for about {} more events. Export the ledger to a \
                 file now, and keep it.",
                (self.share() * 100.0).floor() as usize,
                self.room_for()
            )
        })
    }
}

/// A text's length as browsers count it.
fn units(text: &str) -> usize {
    match text.is_ascii() {
        true => text.len(),
        false => text.chars().map(char::len_utf16).sum(),
    }
}

impl fmt::Display for Usage {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(
            f,
            "{} {}, {} % of the browser's store",
            self.events,
            if self.events == 1 { "event" } else { "events" },
            (self.share() * 100.0).round_ties_even() as usize
        )
    }
}
