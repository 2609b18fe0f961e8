//! Each event once.

use std::cmp::Ordering;

use crate::ledger::event::Event;
use crate::ledger::order::{by_moment, by_name, put_in_order, texts};

/// Events by moment and name, each once.
pub(super) struct Distinct {
    pub(super) events: Vec<Event>,
    /// Indices of the events, by name.
    pub(super) by_name: Vec<usize>,
    /// Events of whose name there were several texts. The text that is first in the alphabet is taken, on every device alike.
    pub(super) conflicts: Vec<usize>,
}

impl Distinct {
    pub(super) fn of(mut events: Vec<Event>) -> Self {
        let names = by_name(&events);
        let mut again = vec![false; events.len()];
        let mut several = Vec::new();
        for two in names.windows(2) {
            let (before, after) = (&events[two[0]], &events[two[1]]);
            if before.id == after.id {
                again[two[1]] = true;
                if texts(before, after) != Ordering::Equal {
                    several.push(before.id);
                }
            }
        }
        let moments = by_moment(&events);
        let (again, mut order): (Vec<_>, Vec<_>) = moments.into_iter().partition(|&at| again[at]);
        let once = order.len();
        order.extend(again);
        put_in_order(&mut events, order);
        events.truncate(once);
        let conflict = |at: &usize| several.binary_search(&events[*at].id).is_ok();
        Self {
            by_name: by_name(&events),
            conflicts: (0..once).filter(conflict).collect(),
            events,
        }
    }
}
