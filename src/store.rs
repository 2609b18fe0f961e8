//! The one door to what is kept: named records in, verified records out, and whatever could not be read, untouched.
//!
//! The store itself (the browser's, or a map in memory) is behind [`Door`]. Every record is one key, written whole, read back
//! after writing, with its format version and checksum. Loading gives the kit *and* the entries that could not be read.
//!
//! ```
//! use meniscus::store::{self, Memory};
//!
//! let door = Memory::default();
//! let loaded = store::load(&door);
//! assert_eq!(loaded.kit.instruments.len(), 4);
//! assert!(loaded.unread.is_empty());
//! ```

pub(crate) mod line;
mod memory;
pub(crate) mod object;
pub(crate) mod reading;
mod record;
mod written;

use std::fmt;

pub use memory::Memory;
pub use record::{Record, RecordError};
pub(crate) use written::CLASSES;

use crate::fields::Named;
use crate::kit::{Kept, Kit};
use crate::quantity::sorted::sort;

/// Every key of ours begins with this.
pub const PREFIX: &str = "meniscus/";
/// What follows on it in the key of the house.
pub const HOUSE: &str = "house";
/// Keys of things of the kit.
pub const KIT: &str = "meniscus/kit/";
/// Under which name the thermometer's line is kept in the kit.
pub const THERMOMETER: &str = "thermometer";
/// Keys of what stood in a form last.
pub const FORMS: &str = "meniscus/form/";
/// Keys of what happened to bottles and places: the ledger reads those.
pub const EVENTS: &str = "meniscus/event/";
/// Where an unreadable entry is moved to before its key is written again.
const DAMAGED: &str = "meniscus/damaged/";

/// A place that keeps text by key.
pub trait Door {
    /// The text under a key.
    ///
    /// # Errors
    /// If the place cannot be used at all.
    fn get(&self, key: &str) -> Result<Option<String>, DoorError>;

    /// Keeps text under a key.
    ///
    /// # Errors
    /// If there is no room, or the place cannot be used at all.
    fn set(&self, key: &str, text: &str) -> Result<(), DoorError>;

    /// All keys that begin with [`PREFIX`].
    ///
    /// # Errors
    /// If the place cannot be used at all.
    fn keys(&self) -> Result<Vec<String>, DoorError>;

    /// All keys that begin with [`PREFIX`], each with its text; and why some are missing, if any are.
    fn entries(&self) -> (Vec<(String, String)>, Option<DoorError>) {
        let (mut entries, mut trouble) = (Vec::new(), None);
        for key in self.keys().unwrap_or_else(|error| {
            trouble = Some(error);
            Vec::new()
        }) {
            match self.get(&key) {
                Ok(Some(text)) => entries.push((key, text)),
                Ok(None) => {}
                Err(error) => trouble = Some(error),
            }
        }
        (entries, trouble)
    }
}

/// Why something could not be kept. The display is what the user reads.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum DoorError {
    /// The browser has no such store.
    Absent,
    /// The browser or its settings forbid it.
    Blocked,
    /// There is no room left.
    Full,
    /// It was written, and something else was read back.
    NotKept,
}

impl fmt::Display for DoorError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Absent => "this browser keeps nothing for pages; everything works, but your kit is forgotten when you leave",
            Self::Blocked => {
                "this browser does not let the page keep anything (private window, or blocked in its settings); everything \
                 works, but your kit is forgotten when you leave"
            }
            Self::Full => {
                "the browser's store is full, so the last change was not kept; free some by clearing data of other pages \
                 from this address, and make the change again"
            }
            Self::NotKept => "the browser did not keep the last change; make it again",
        })
    }
}

impl std::error::Error for DoorError {}

/// Everything that could be read, and everything that could not.
#[derive(Clone, Debug, PartialEq)]
pub struct Loaded {
    /// The starter kit with the user's own changes over it.
    pub kit: Kit,
    /// What stood in each form, by its name.
    pub forms: Vec<(String, Named)>,
    /// Entries that could not be read: still in the store, byte for byte.
    pub unread: Vec<Unread>,
    /// Why nothing could be read at all.
    pub trouble: Option<DoorError>,
}

/// An entry that could not be read.
#[derive(Clone, Debug, PartialEq)]
pub struct Unread {
    /// Its key.
    pub key: String,
    /// Its text, as it is.
    pub text: String,
    /// Why.
    pub why: RecordError,
}

/// Reads everything that is kept but the ledger.
pub fn load(door: &dyn Door) -> Loaded {
    let (entries, trouble) = door.entries();
    Loaded {
        trouble,
        ..read(entries)
    }
}

/// Everything but the ledger among entries, by their keys and texts.
pub fn read(mut entries: Vec<(String, String)>) -> Loaded {
    let mut loaded = Loaded {
        kit: Kit::starter(),
        forms: Vec::new(),
        unread: Vec::new(),
        trouble: None,
    };
    entries.retain(|(key, _)| !key.starts_with(EVENTS));
    sort(&mut entries, |one, other| one < other);
    for (key, text) in entries {
        match Record::from_text(&text) {
            Ok(record) => take(&mut loaded, &key, record),
            Err(why) => loaded.unread.push(Unread { key, text, why }),
        }
    }
    loaded
}

/// Writes a record and reads it back. What stands there and cannot be read is moved aside first.
///
/// # Errors
/// If it could not be kept; what stood there before is then still there.
pub fn save(door: &dyn Door, key: &str, record: &Record) -> Result<(), DoorError> {
    if let Some(before) = door.get(key)?
        && Record::from_text(&before).is_err()
    {
        write_verified(door, &free_damaged_key(door, key, &before)?, &before)?;
    }
    let text = record.to_text();
    if Record::from_text(&text).is_err() {
        return Err(DoorError::NotKept);
    }
    write_verified(door, key, &text)
}

/// A key for what could not be read: its own name, with a number where something else stands there already.
fn free_damaged_key(door: &dyn Door, key: &str, text: &str) -> Result<String, DoorError> {
    let name = key.strip_prefix(PREFIX).unwrap_or(key);
    let mut aside = format!("{DAMAGED}{name}");
    let mut number = 1;
    while door.get(&aside)?.is_some_and(|there| there != text) {
        number += 1;
        aside = format!("{DAMAGED}{name}/{number}");
    }
    Ok(aside)
}

fn write_verified(door: &dyn Door, key: &str, text: &str) -> Result<(), DoorError> {
    door.set(key, text)?;
    match door.get(key)?.as_deref() == Some(text) {
        true => Ok(()),
        false => Err(DoorError::NotKept),
    }
}

/// Lays one record over what is loaded. Records under keys that are not ours to interpret are left alone.
fn take(loaded: &mut Loaded, key: &str, record: Record) {
    if let (Some(name), Record::Form(named)) = (key.strip_prefix(FORMS), &record) {
        loaded.forms.push((name.to_owned(), named.clone()));
    } else if let Some(id) = key.strip_prefix(KIT) {
        lay(&mut loaded.kit, id, record);
    }
}

/// Lays a record over the kit: a thing replaces the one of its key or is added, and one that is gone is taken out.
pub fn lay(kit: &mut Kit, id: &str, record: Record) {
    match record {
        Record::Instrument(item) => put(&mut kit.instruments, id, item),
        Record::Balance(item) => put(&mut kit.balances, id, item),
        Record::Tank(item) => put(&mut kit.tanks, id, item),
        Record::Bottle(item) => put(&mut kit.bottles, id, item),
        Record::House(house) => kit.house = house,
        Record::Thermometer(line) => kit.thermometer = Some(line),
        Record::Gone => {
            kit.instruments.retain(|kept| kept.id != id);
            kit.balances.retain(|kept| kept.id != id);
            kit.tanks.retain(|kept| kept.id != id);
            kit.bottles.retain(|kept| kept.id != id);
            if id == THERMOMETER {
                kit.thermometer = None;
            }
        }
        Record::Form(_) => {}
    }
}

/// Everything of a kit but its bottles, as records by their keys: laid over an empty kit they are the same again.
pub fn records(kit: &Kit) -> Vec<(String, Record)> {
    fn of<T: Clone>(all: &[Kept<T>], record: fn(T) -> Record) -> impl Iterator<Item = (String, Record)> {
        all.iter().map(move |kept| (kept.id.clone(), record(kept.item.clone())))
    }
    let mut records = vec![(HOUSE.to_owned(), Record::House(kit.house))];
    records.extend(of(&kit.instruments, Record::Instrument));
    records.extend(of(&kit.balances, Record::Balance));
    records.extend(of(&kit.tanks, Record::Tank));
    records.extend(
        kit.thermometer
            .map(|line| (THERMOMETER.to_owned(), Record::Thermometer(line))),
    );
    records
}

/// Replaces the thing of that key in its place, or adds it at the end.
fn put<T>(all: &mut Vec<Kept<T>>, id: &str, item: T) {
    match all.iter_mut().find(|kept| kept.id == id) {
        Some(kept) => kept.item = item,
        None => all.push(Kept {
            id: id.to_owned(),
            item,
        }),
    }
}
