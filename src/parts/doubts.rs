//! What the record of a bottle says against taking from it; whether it may touch film at all is judged in its record.

use crate::ledger::{Bottle, TestResult};
use crate::quantity::{Units, Volume};
use crate::sheet::Item;

/// Less in the bottle than is wanted, or a last test that failed.
pub fn doubts(bottle: Option<&Bottle>, wanted: Option<Volume>, units: Units) -> Vec<Item> {
    let mut doubts = Vec::new();
    let Some(bottle) = bottle else { return doubts };
    if let (Some(left), Some(wanted)) = (bottle.left(), wanted)
        && !left.reaches(wanted)
    {
        let (left, wanted) = (units.volume(left), units.volume(wanted));
        doubts.push(Item::Caution(format!(
            "Only {left} are left in the bottle; this takes {wanted}."
        )));
    }
    let last = bottle.telling_tests().next_back();
    if let Some(test) = last.filter(|test| test.result == TestResult::Failed) {
        doubts.push(Item::Caution(format!(
            "It failed its last test, on {}: not for film.",
            test.day
        )));
    }
    doubts
}
