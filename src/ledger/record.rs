//! Events as text, one key an event: `meniscus/event/<name>`.

use super::event::Event;
use super::id::EventId;
use super::written;
use crate::store::{EVENTS, RecordError, Unread, line};

/// The format that is written now. Every earlier one is still read.
const FORMAT: u32 = 1;
/// The longest text of one event, in bytes.
const LONGEST: usize = 100_000;

impl Event {
    /// The key that it is kept under.
    pub fn key(&self) -> String {
        format!("{EVENTS}{}", self.id)
    }

    /// As it is kept.
    ///
    /// ```
    /// use meniscus::ledger::{Event, EventId, Moment, What};
    ///
    /// let at = Moment::from_milliseconds(1_772_355_600_000).expect("after 1970");
    /// let what = What::Note { bottle: None, text: "tap water 14 °C".into() };
    /// let event = Event { id: EventId::new(at, 7), at, day: at.day(), what };
    /// assert_eq!(event.day.to_string(), "2026-03-01");
    /// assert_eq!(Event::from_text(&event.to_text()), Ok(event));
    /// ```
    pub fn to_text(&self) -> String {
        line::seal(FORMAT, &written::to_json(self))
    }

    /// From what was kept.
    ///
    /// # Errors
    /// If the text is not an event, is damaged, is of a later format, or says something that cannot be.
    pub fn from_text(text: &str) -> Result<Self, RecordError> {
        let json = line::unseal(text, FORMAT)?;
        if text.len() > LONGEST {
            return Err(RecordError::Content("it is longer than any event".to_owned()));
        }
        written::from_json(json).map_err(RecordError::Content)
    }
}

/// The event that stands under a key, or the entry as it is. An event is what its text says, even under a wrong key.
///
/// # Errors
/// The entry, byte for byte, with the reason why it is no event.
pub fn read(key: &str, text: &str) -> Result<Event, Unread> {
    Event::from_text(text).map_err(|why| Unread {
        key: key.to_owned(),
        text: text.to_owned(),
        why,
    })
}

/// The key that a text was put beside, if it was put beside another; or else its own.
pub(super) fn home<'a>(key: &'a str, text: &str) -> &'a str {
    let mut home = key;
    // A checksum is dear: only what was put beside another has a slash in its name.
    while home.strip_prefix(EVENTS).is_some_and(|name| name.contains('/'))
        && let Some(before) = home.strip_suffix(&beside("", text))
    {
        home = before;
    }
    home
}

/// Where a text goes if another stands under its own key.
pub(super) fn beside(key: &str, text: &str) -> String {
    format!("{key}/{:08x}", line::checksum(text))
}

/// The key of a line that this version cannot read, if it still tells its name.
pub(super) fn key_of_unread(text: &str) -> Option<String> {
    let json = text.splitn(3, ' ').nth(2).filter(|_| text.len() <= LONGEST)?;
    let id: EventId = written::id_of(json)?.parse().ok()?;
    Some(format!("{EVENTS}{id}"))
}
