//! The order of the fills, and how long they take one after another: a tank is not loaded again before its reels are dry.

use super::Batch;
use crate::quantity::Span;

/// How one pair of hands works.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Hands {
    /// Loading one film or sheet.
    pub loading: Span,
    /// All of a fill besides loading and developing: mixing, stop bath, fixer, wash, hanging up, rinsing the tank.
    pub steps: Span,
    /// Until the reels of a tank are dry again.
    pub drying: Span,
}

/// The fills one after another.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct InTurn {
    /// Which fill comes when.
    pub order: Vec<usize>,
    /// How long all of it takes, with the waits; a time that nobody says counts nothing.
    pub takes: Span,
    /// How much of it is waiting for dry reels.
    pub waits: Span,
    /// When the reels of each tank are dry.
    dry: Vec<Span>,
}

/// Always the fill next whose tank can be loaded soonest; of these the one whose tank has most still to do, then the one with the most
/// film, then the longest. A rule of thumb: it saves waiting, and is not proved to save the most.
pub fn in_turn(fills: &[Batch], hands: &Hands) -> InTurn {
    let mut turns = InTurn::begin(fills);
    let mut left: Vec<usize> = (0..fills.len()).collect();
    while !left.is_empty() {
        let key = |at: usize| {
            let fill = &fills[at];
            let still = left.iter().filter(|&&other| fills[other].tank == fill.tank).count();
            (still, fill.load.units(), fill.time().unwrap_or_default())
        };
        let sooner = |one: usize, other: usize| {
            let begins = [one, other].map(|at| turns.begins(&fills[at]));
            begins[0] < begins[1] || begins[0] == begins[1] && key(one) > key(other)
        };
        let best = (1..left.len()).fold(0, |best, at| if sooner(left[at], left[best]) { at } else { best });
        let next = left.remove(best);
        turns.add(next, &fills[next], hands);
    }
    turns
}

impl InTurn {
    /// The same order with other hands.
    pub fn with(&self, fills: &[Batch], hands: &Hands) -> Self {
        let mut turns = Self::begin(fills);
        for &at in &self.order {
            turns.add(at, &fills[at], hands);
        }
        turns
    }

    fn begin(fills: &[Batch]) -> Self {
        let tanks = fills.iter().map(|fill| fill.tank + 1).max().unwrap_or(0);
        Self {
            dry: vec![Span::ZERO; tanks],
            ..Self::default()
        }
    }

    fn begins(&self, fill: &Batch) -> Span {
        self.takes.max(self.dry[fill.tank])
    }

    fn add(&mut self, at: usize, fill: &Batch, hands: &Hands) {
        let begins = self.begins(fill);
        self.waits = self.waits + (begins - self.takes);
        let loading = hands.loading * f64::from(fill.load.pieces());
        self.takes = begins + loading + fill.time().unwrap_or_default() + hands.steps;
        self.dry[fill.tank] = self.takes + hands.drying;
        self.order.push(at);
    }
}
