//! Each event once.

use std::cmp::Ordering;

use crate::ledger::event::Event;
use crate::ledger::order::{by_moment, by_name, ordered, texts};

/// Events by moment and name, each once.
pub(super) struct Distinct {
    pub(super) events: Vec<Event>,
    /// Indices of the events, by name.
    pub(super) by_name: Vec<usize>,
    /// Events of whose name there were several texts. The text that is first in the alphabet is taken, on every device alike.
    pub(super) conflicts: Vec<usize>,
}

impl Distinct {
    pub(super) fn of(events: Vec<Event>) -> Self {
        let names = by_name(&events);
        let mut once = vec![true; events.len()];
        let mut several = Vec::new();
        for two in names.windows(2) {
            let (before, after) = (&events[two[0]], &events[two[1]]);
            if before.id == after.id {
                once[two[1]] = false;
                if texts(before, after) != Ordering::Equal {
                    several.push(before.id);
                }
            }
        }
        let mut order = by_moment(&events);
        order.retain(|&at| once[at]);
        let events = ordered(events, &order);
        let conflict = |at: &usize| several.binary_search(&events[*at].id).is_ok();
        Self {
            by_name: by_name(&events),
            conflicts: (0..events.len()).filter(conflict).collect(),
            events,
        }
    }
}
