//! Orders of things, as lists of their indices: one small sort for all of them, since sorts take much room on the page.

use std::cmp::Ordering;

use super::event::Event;
use super::id::EventId;

/// The indices of so many things in the order that the comparison gives; equals stay as they are. Merges ever longer runs.
pub(super) fn order(count: usize, compare: &dyn Fn(usize, usize) -> Ordering) -> Vec<usize> {
    let mut order: Vec<usize> = (0..count).collect();
    if (1..count).all(|at| compare(at - 1, at) != Ordering::Greater) {
        return order;
    }
    let mut merged = Vec::with_capacity(count);
    let mut width = 1;
    while width < count {
        for both in order.chunks(2 * width) {
            let (mut one, mut other) = both.split_at(width.min(both.len()));
            while let ([first, rest @ ..], [second, others @ ..]) = (one, other) {
                if compare(*first, *second) == Ordering::Greater {
                    merged.push(*second);
                    other = others;
                } else {
                    merged.push(*first);
                    one = rest;
                }
            }
            merged.extend_from_slice(one);
            merged.extend_from_slice(other);
        }
        std::mem::swap(&mut order, &mut merged);
        merged.clear();
        width *= 2;
    }
    order
}

/// Puts things into an order that names each of them once.
pub(super) fn put_in_order<T>(things: &mut [T], mut order: Vec<usize>) {
    for start in 0..order.len() {
        let mut at = start;
        while order[at] != start {
            let next = order[at];
            things.swap(at, next);
            order[at] = at;
            at = next;
        }
        order[at] = at;
    }
}

/// Puts texts into their order.
pub fn sort_texts(texts: &mut [String]) {
    let in_order = order(texts.len(), &|one, other| texts[one].cmp(&texts[other]));
    put_in_order(texts, in_order);
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::uncertainty::Random;

    /// Against the standard library's sort, which is stable too.
    #[test]
    fn an_order_is_that_of_a_stable_sort() {
        let mut random = Random::new(3);
        for count in [0, 1, 2, 3, 7, 8, 9, 100, 1000] {
            for kinds in [1, 2, 10, 5000] {
                let things: Vec<u64> = (0..count).map(|_| random.bits() % kinds).collect();
                let mut sorted: Vec<(u64, usize)> = things.iter().copied().zip(0..).collect();
                sorted.sort_by_key(|(thing, _)| *thing);
                let order = order(things.len(), &|one, other| things[one].cmp(&things[other]));
                assert_eq!(order, sorted.iter().map(|(_, at)| *at).collect::<Vec<_>>());
                let mut put = things.clone();
                put_in_order(&mut put, order);
                assert_eq!(put, sorted.iter().map(|(thing, _)| *thing).collect::<Vec<_>>());
            }
        }
    }
}
