//! Orders of things, as lists of their indices: one sort for all of them, since every kind of sort costs room on the page.

use std::cmp::Ordering;

use super::event::Event;
use super::id::EventId;

/// The indices of so many things in the order that the comparison gives; equals stay as they are.
pub(super) fn order(count: usize, compare: &dyn Fn(usize, usize) -> Ordering) -> Vec<usize> {
    let mut order: Vec<usize> = (0..count).collect();
    order.sort_by(|&one, &other| compare(one, other));
    order
}

/// The things in that order; an index that is left out, or comes a second time, gives nothing.
pub(super) fn ordered<T>(things: Vec<T>, order: &[usize]) -> Vec<T> {
    if order.len() == things.len() && order.is_sorted() {
        return things;
    }
    let mut things: Vec<Option<T>> = things.into_iter().map(Some).collect();
    order.iter().filter_map(|&at| things[at].take()).collect()
}

/// The events in the order in which they happened: by moment, then by name, then by text.
pub(super) fn by_moment(events: &[Event]) -> Vec<usize> {
    order(events.len(), &|one, other| {
        let (one, other) = (&events[one], &events[other]);
        let before = (one.at, one.id).cmp(&(other.at, other.id));
        before.then_with(|| texts(one, other))
    })
}

/// The events by name, then by text.
pub(super) fn by_name(events: &[Event]) -> Vec<usize> {
    order(events.len(), &|one, other| {
        let (one, other) = (&events[one], &events[other]);
        one.id.cmp(&other.id).then_with(|| texts(one, other))
    })
}

/// The index of an event of that name, by the list of [`by_name`].
pub(super) fn find(events: &[Event], by_name: &[usize], id: EventId) -> Option<usize> {
    let found = by_name.binary_search_by(|&at| events[at].id.cmp(&id));
    found.ok().map(|found| by_name[found])
}

/// Only events of one name need their texts to be told apart.
pub(super) fn texts(one: &Event, other: &Event) -> Ordering {
    one.to_text().cmp(&other.to_text())
}
