//! How warm two baths are that a test holds against each other, by the thermometer of the kit.

use super::thermometer::readings;
use crate::darkroom::Darkroom;
use crate::proof::{Warmth, WarmthLaw};
use crate::quantity::Temperature;
use crate::sheet::Item;

/// The warmth of fresh bath and of the bath now where the thermometer shows these, put right where its own error is known, and what is
/// said of that.
pub fn warm(fresh: Temperature, now: Temperature, law: WarmthLaw, darkroom: &Darkroom) -> (Warmth, Vec<Item>) {
    let kit = &darkroom.kit;
    let warmth = Warmth {
        fresh: kit.corrected(fresh),
        now: kit.corrected(now),
        law,
        thermometer: [fresh, now].map(|shown| kit.thermometer_limit(shown)),
    };
    let mut shown = vec![now, fresh];
    shown.dedup();
    (warmth, readings(&shown, kit, darkroom.shelf.today))
}
