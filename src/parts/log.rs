//! The log: which of the sessions are asked for, and one of them as a sheet.

mod search;
mod sheet;

pub use search::Found;
pub use sheet::{session_sheet, step_words};

use crate::ledger::{Event, Shelf};
use crate::session::Session;

/// A session in the log.
#[derive(Clone, Debug, PartialEq)]
pub struct Logged<'a> {
    /// Its event.
    pub event: &'a Event,
    /// How it went, or why that cannot be read.
    pub session: Result<Session, String>,
}

impl<'a> Logged<'a> {
    /// All that were not taken back, the last first.
    pub fn all(shelf: &'a Shelf) -> impl Iterator<Item = Self> {
        let logged = |(event, session)| Self { event, session };
        shelf.sessions().map(logged)
    }

    /// The one of that name, if it was not taken back.
    pub fn of(shelf: &'a Shelf, id: &str) -> Option<Self> {
        let id = id.parse().ok()?;
        Self::all(shelf).find(|logged| logged.event.id == id)
    }
}
