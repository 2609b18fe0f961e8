//! Events behind the door of the store: one key each, written once, read back.

use std::fmt;

use super::event::Event;
use super::merge::Ledger;
use super::order::sort_texts;
use super::record::{beside, home, read};
use super::usage::{ROOM, Usage};
use crate::store::{Door, DoorError, EVENTS, RecordError};

/// Why an event was not kept. The display is what the user reads.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum KeepError {
    /// The store would not.
    Door(DoorError),
    /// Something else stands under its name; that was not touched.
    Taken,
    /// It says what no event may say.
    NotAnEvent(RecordError),
}

/// What the store holds of the ledger.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Loaded {
    /// Every event, and every entry that could not be read under the key that it was meant for.
    pub ledger: Ledger,
    /// Keys under which an event of another name stands. The event counts as what it says it is.
    pub misplaced: Vec<String>,
    /// Why the store could not be read, or not to the end.
    pub trouble: Option<DoorError>,
}

/// What became of entries that were taken in.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct TakenIn {
    /// Entries that are new here.
    pub new: usize,
    /// Of those, entries of whose name there was another already; both are kept.
    pub differing: usize,
    /// Entries that were here.
    pub known: usize,
    /// Why it ended early. What was taken in before is kept.
    pub trouble: Option<DoorError>,
}

/// Keeps an event and gives back what the store then holds of it. No other entry is touched; to keep it twice changes nothing.
///
/// ```
/// use meniscus::ledger::{self, Event, EventId, Moment, What};
/// use meniscus::store::Memory;
///
/// let door = Memory::default();
/// let at = Moment::from_milliseconds(1_772_355_600_000).expect("after 1970");
/// let what = What::Note { bottle: None, text: "new thermometer".into() };
/// let event = Event { id: EventId::new(at, 7), at, day: at.day(), what };
/// ledger::append(&door, &event)?;
/// assert_eq!(ledger::load_all(&door).ledger.events, [event]);
/// # Ok::<(), ledger::KeepError>(())
/// ```
///
/// # Errors
/// If it could not be kept, or another text stands under its name; whatever stood there is still there.
pub fn append(door: &dyn Door, event: &Event) -> Result<Event, KeepError> {
    let text = event.to_text();
    let event = Event::from_text(&text).map_err(KeepError::NotAnEvent)?;
    let key = event.key();
    match door.get(&key)? {
        None => write(door, &key, &text)?,
        Some(there) if same(&there, &text) => {}
        Some(_) => return Err(KeepError::Taken),
    }
    Ok(event)
}

/// Everything that the store holds of the ledger.
pub fn load_all(door: &dyn Door) -> Loaded {
    let (entries, trouble) = door.entries();
    Loaded {
        trouble,
        ..read_all(entries)
    }
}

/// The ledger among entries, by their keys and texts. Other entries are passed over.
pub fn read_all(entries: Vec<(String, String)>) -> Loaded {
    let mut loaded = Loaded::default();
    for (key, text) in entries.into_iter().filter(|(key, _)| key.starts_with(EVENTS)) {
        let home = home(&key, &text);
        match read(home, &text) {
            Ok(event) => {
                if home.strip_prefix(EVENTS).and_then(|name| name.parse().ok()) != Some(event.id) {
                    loaded.misplaced.push(key);
                }
                loaded.ledger.events.push(event);
            }
            Err(unread) => loaded.ledger.unread.push(unread),
        }
    }
    sort_texts(&mut loaded.misplaced);
    loaded.ledger = loaded.ledger.tidied();
    loaded
}

/// Takes in everything of another ledger: a file's, another device's, or a mirror's. Nothing that stands here is changed: where
/// another text stands under a name already, the new one goes beside it. What is plainly too much for the browser's store is not
/// begun.
pub fn take_in(door: &dyn Door, ledger: &Ledger) -> TakenIn {
    let mut taken = TakenIn::default();
    taken.trouble = taken.all(door, ledger).err();
    taken
}

impl TakenIn {
    fn all(&mut self, door: &dyn Door, ledger: &Ledger) -> Result<(), DoorError> {
        let events = ledger.events.iter().map(|event| (event.key(), event.to_text()));
        let unread = ledger.unread.iter();
        let unread = unread.map(|entry| (entry.key.clone(), entry.text.clone()));
        let entries: Vec<_> = events.chain(unread).collect();
        let mut usage = Usage::of(door)?;
        for (key, text) in &entries {
            if door.get(key)?.is_none() {
                usage.add(key, text);
            }
        }
        if usage.units > ROOM {
            return Err(DoorError::Full);
        }
        entries.iter().try_for_each(|(key, text)| self.one(door, key, text))
    }

    fn one(&mut self, door: &dyn Door, key: &str, text: &str) -> Result<(), DoorError> {
        let mut place = key.to_owned();
        while let Some(there) = door.get(&place)? {
            if same(&there, text) {
                self.known += 1;
                return Ok(());
            }
            place = beside(&place, text);
        }
        write(door, &place, text)?;
        self.new += 1;
        self.differing += usize::from(place != key);
        Ok(())
    }
}

/// Whether two texts are the same entry.
fn same(there: &str, text: &str) -> bool {
    there == text || Event::from_text(there).is_ok_and(|event| event.to_text() == text)
}

fn write(door: &dyn Door, key: &str, text: &str) -> Result<(), DoorError> {
    door.set(key, text)?;
    match door.get(key)?.as_deref() == Some(text) {
        true => Ok(()),
        false => Err(DoorError::NotKept),
    }
}

impl From<DoorError> for KeepError {
    fn from(error: DoorError) -> Self {
        Self::Door(error)
    }
}

impl fmt::Display for KeepError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Door(error) => error.fmt(f),
            Self::Taken => f.write_str("another entry stands under the name of this event; nothing was overwritten"),
            Self::NotAnEvent(why) => write!(f, "this cannot be kept: {why}"),
        }
    }
}

impl std::error::Error for KeepError {}

impl fmt::Display for TakenIn {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let entries = |count: usize| match count {
            1 => "1 entry".to_owned(),
            _ => format!("{count} entries"),
        };
        write!(f, "{} new, {} here already", entries(self.new), entries(self.known))?;
        if self.differing > 0 {
            write!(
                f,
                "; {} differed from what is here, and both are kept",
                entries(self.differing)
            )?;
        }
        if let Some(trouble) = self.trouble {
            write!(f, "; the rest was not taken in: {trouble}")?;
        }
        Ok(())
    }
}
