//! Which bottles every event names, as numbers: names are compared once.

use super::index::Index;
use crate::ledger::corrections::{Corrections, Force};
use crate::ledger::event::Event;

/// The number of a name.
pub(super) type Number = usize;

/// The bottles that events name.
pub(super) struct Named {
    /// For event after event the bottles that it needs, then those that it begins.
    numbers: Vec<u32>,
    /// Where those that it needs and those that it begins start, for event after event.
    starts: Vec<[u32; 2]>,
    /// What is known of each name.
    pub(super) names: Vec<Name>,
}

/// What is known of a name.
#[derive(Default)]
pub(super) struct Name {
    /// How often it is named.
    pub(super) times: usize,
    /// Whether an event brings a bottle of this name.
    pub(super) brought: Brought,
}

/// Whether an event brings a bottle of a name.
#[derive(Clone, Copy, Default, PartialEq, Eq)]
pub(super) enum Brought {
    /// None does.
    #[default]
    Never,
    /// One did that was taken back.
    TakenBack,
    /// One does.
    Counts,
}

impl Named {
    pub(super) fn of(events: &[Event], corrections: &Corrections) -> Self {
        let mut all = Self {
            numbers: Vec::with_capacity(events.len()),
            starts: Vec::with_capacity(events.len() + 1),
            names: Vec::new(),
        };
        let mut numbers = Index::default();
        for (at, event) in events.iter().enumerate() {
            let needs = all.numbers.len() as u32;
            for bottle in event.what.needs() {
                all.name(&mut numbers, bottle.as_str());
            }
            all.starts.push([needs, all.numbers.len() as u32]);
            for bottle in event.what.begins() {
                let name = all.name(&mut numbers, bottle.as_str());
                match (corrections.force(at), name.brought) {
                    (Force::Counts, _) => name.brought = Brought::Counts,
                    (_, Brought::Never) => name.brought = Brought::TakenBack,
                    _ => {}
                }
            }
        }
        all.starts.push([all.numbers.len() as u32; 2]);
        all
    }

    /// The bottles that an event needs, in the order of [`What::needs`](crate::ledger::What::needs).
    pub(super) fn needs(&self, at: usize) -> impl Iterator<Item = Number> + use<'_> {
        let [needs, begins] = self.starts[at];
        self.between(needs, begins)
    }

    /// The bottles that an event begins, in the order of [`What::begins`](crate::ledger::What::begins).
    pub(super) fn begins(&self, at: usize) -> impl Iterator<Item = Number> + use<'_> {
        self.between(self.starts[at][1], self.starts[at + 1][0])
    }

    /// All bottles that an event names.
    pub(super) fn all(&self, at: usize) -> impl Iterator<Item = Number> + use<'_> {
        self.between(self.starts[at][0], self.starts[at + 1][0])
    }

    fn between(&self, from: u32, to: u32) -> impl Iterator<Item = Number> + use<'_> {
        self.numbers[from as usize..to as usize]
            .iter()
            .map(|&number| number as Number)
    }

    fn name<'a>(&mut self, numbers: &mut Index<'a>, bottle: &'a str) -> &mut Name {
        let number = numbers.number(bottle);
        if number == self.names.len() {
            self.names.push(Name::default());
        }
        self.numbers.push(number as u32);
        let name = &mut self.names[number];
        name.times += 1;
        name
    }
}
