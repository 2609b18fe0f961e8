//! Ledgers of two devices become one: everything that is in either, each once.

use std::cmp::Ordering;

use super::event::Event;
use super::order::{by_moment, by_name, find, order, put_in_order, texts};
use crate::store::{EVENTS, Unread};

/// Everything that is kept: events, and entries that could not be read.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Ledger {
    /// Events. Two that have one name and differ are both kept.
    pub events: Vec<Event>,
    /// Entries that could not be read, byte for byte.
    pub unread: Vec<Unread>,
}

/// The events of a list that came to it since it was another: with those of the other list they are all of it. `None` if one of
/// the other list is no longer there, or no longer in its order.
///
/// ```
/// use meniscus::ledger::{Event, EventId, Moment, What, added};
///
/// let event = |number: u128| {
///     let at = Moment::from_milliseconds(1_772_355_600_000).expect("after 1970");
///     let what = What::Note { bottle: None, text: String::new() };
///     Event { id: EventId::new(at, number), at, day: at.day(), what }
/// };
/// let [one, two, three] = [event(1), event(2), event(3)];
/// let now = [one.clone(), two.clone(), three.clone()];
/// assert_eq!(added(&[one, three], &now), Some(vec![&two]));
/// assert_eq!(added(&now, &[two]), None);
/// ```
pub fn added<'a>(before: &[Event], now: &'a [Event]) -> Option<Vec<&'a Event>> {
    let mut before = before.iter().peekable();
    let new = now.iter().filter(|event| before.next_if_eq(event).is_none()).collect();
    before.next().is_none().then_some(new)
}

impl Ledger {
    /// Whether there is nothing in it.
    pub fn is_empty(&self) -> bool {
        self.events.is_empty() && self.unread.is_empty()
    }

    /// Both together. Whoever merges what with whom, in whatever order and however often, ends with the same ledger.
    pub fn merge(self, other: Self) -> Self {
        let events = self.events.into_iter().chain(other.events).collect();
        let unread = self.unread.into_iter().chain(other.unread).collect();
        Self { events, unread }.tidied()
    }

    /// The unread entries whose event did not come from elsewhere either.
    pub fn lost(&self) -> Vec<&Unread> {
        let names = by_name(&self.events);
        let is_here = |entry: &&Unread| {
            let name = entry.key.strip_prefix(EVENTS).and_then(|name| name.parse().ok());
            name.is_some_and(|name| find(&self.events, &names, name).is_some())
        };
        self.unread.iter().filter(|entry| !is_here(entry)).collect()
    }

    /// The same ledger in its one order: events by moment and name, unread entries by key, each once.
    pub fn tidied(mut self) -> Self {
        let by_moment = by_moment(&self.events);
        put_in_order(&mut self.events, by_moment);
        self.events
            .dedup_by(|one, other| one.id == other.id && texts(one, other) == Ordering::Equal);
        let by_key = order(self.unread.len(), &|one, other| {
            let (one, other) = (&self.unread[one], &self.unread[other]);
            (&one.key, &one.text).cmp(&(&other.key, &other.text))
        });
        put_in_order(&mut self.unread, by_key);
        self.unread
            .dedup_by(|one, other| one.key == other.key && one.text == other.text);
        self
    }
}
