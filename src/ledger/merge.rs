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
