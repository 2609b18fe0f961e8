//! Which events count: an event that is taken back does not, unless the taking back is taken back.
//!
//! The answer hangs on who names whom alone, so no clock can change it.

use super::event::{Event, What};
use super::order;

/// How an event stands among the corrections.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Force {
    /// It counts.
    Counts,
    /// A correction that counts takes it back.
    TakenBack,
    /// A correction that by way of others takes itself back: it has no effect.
    Circle,
}

/// How the events stand, all by index.
pub(super) struct Corrections {
    force: Vec<Force>,
    /// The event that each correction names, if it is here. Empty where there are no corrections.
    target: Vec<Option<usize>>,
    /// The event at the end of the names, for every correction that is in no circle.
    root: Vec<usize>,
}

impl Corrections {
    /// `by_name` has the indices of the events by name.
    pub(super) fn of(events: &[Event], by_name: &[usize]) -> Self {
        let mut all = Self {
            force: vec![Force::Counts; events.len()],
            target: Vec::new(),
            root: Vec::new(),
        };
        for (at, event) in events.iter().enumerate() {
            if let What::Corrected { event } = event.what {
                all.target.resize(events.len(), None);
                all.target[at] = order::find(events, by_name, event);
            }
        }
        all.settle();
        all
    }

    /// How an event stands.
    pub(super) fn force(&self, at: usize) -> Force {
        self.force[at]
    }

    /// Whether the event that a correction names is here.
    pub(super) fn has_target(&self, at: usize) -> bool {
        self.target[at].is_some()
    }

    /// What an event is about in the end: for a correction the event at the end of the names.
    pub(super) fn root(&self, at: usize) -> usize {
        self.root.get(at).copied().unwrap_or(at)
    }

    /// From those that nobody names, along the names: an event is settled once everyone who names it is. Every event names one
    /// other at the most, so what stays unsettled is circles and nothing else.
    fn settle(&mut self) {
        let mut naming = vec![0_usize; self.target.len()];
        for target in self.target.iter().flatten() {
            naming[*target] += 1;
        }
        let mut ready: Vec<usize> = (0..naming.len()).filter(|&at| naming[at] == 0).collect();
        let mut settled = 0;
        while let Some(&at) = ready.get(settled) {
            settled += 1;
            let Some(target) = self.target[at] else {
                continue;
            };
            if self.force[at] == Force::Counts {
                self.force[target] = Force::TakenBack;
            }
            naming[target] -= 1;
            if naming[target] == 0 {
                ready.push(target);
            }
        }
        self.root = (0..naming.len()).collect();
        // Against the names, the root of every event's target is found before its own.
        for &at in ready.iter().rev() {
            if let Some(target) = self.target[at] {
                self.root[at] = self.root[target];
            }
        }
        for (force, left) in self.force.iter_mut().zip(naming) {
            if left > 0 {
                *force = Force::Circle;
            }
        }
    }
}
