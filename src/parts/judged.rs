//! A bottle of the shelf, judged from its record; and the shelf in the order of what needs attention.

use super::lives::by_label;
use super::picked::ELSEWHERE;
use super::trust::Grounds;
use crate::darkroom::Darkroom;
use crate::keeping::{Reason, State, Verdict};
use crate::ledger::{Bottle, Shelf};
use crate::quantity::sorted::sort;

/// A bottle and what is to be thought of it.
#[derive(Clone, Debug)]
pub struct Judged<'a> {
    /// The bottle.
    pub bottle: &'a Bottle,
    /// Its state and who says so; `None` where the shelf knows too little of it.
    pub verdict: Option<Verdict>,
}

impl<'a> Judged<'a> {
    /// By its record alone. One that is discarded is not judged.
    pub fn of(shelf: &Shelf, bottle: &'a Bottle) -> Self {
        let standing = bottle.discarded.is_none();
        Self {
            bottle,
            verdict: standing.then(|| on_record(shelf, bottle)).flatten(),
        }
    }

    /// Its state.
    pub fn state(&self) -> State {
        self.verdict.as_ref().map_or(State::Unknown, |verdict| verdict.state)
    }

    /// What decides it, and who says so.
    pub fn deciding(&self) -> Vec<&Reason> {
        self.verdict.as_ref().map(Verdict::deciding).unwrap_or_default()
    }

    /// How soon it wants to be looked at: the least first.
    fn rank(&self) -> u8 {
        match self.state() {
            _ if self.bottle.is_empty() => 5,
            State::TestFirst => 0,
            State::Failed => 1,
            State::Unknown => 2,
            State::InDate => 3,
            State::Proved => 4,
        }
    }
}

/// The bottles that stand on the shelf, what needs attention first; among equals in the order in which they came.
pub fn bottles(darkroom: &Darkroom) -> Vec<Judged<'_>> {
    let shelf = &darkroom.shelf;
    let mut all: Vec<Judged> = shelf.standing().map(|bottle| Judged::of(shelf, bottle)).collect();
    sort(&mut all, |one, other| one.rank() < other.rank());
    all
}

/// The verdict on a bottle by its record alone; `None` where the shelf knows too little of it, or it is empty.
fn on_record(shelf: &Shelf, bottle: &Bottle) -> Option<Verdict> {
    let record = shelf.life(bottle.id.as_str(), ELSEWHERE)?;
    let assumptions = by_label(bottle);
    let grounds = Grounds::on_shelf(shelf, bottle, &assumptions, ELSEWHERE);
    Some(grounds.verdict(&record.life().ok()?, &assumptions))
}
