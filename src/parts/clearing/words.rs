//! The sentences of a clearing test.

use super::{Clearing, USUAL, Verdict};
use crate::fields::Baths;
use crate::parts::text;
use crate::proof::{Fixer, LONGEST, Measured, SOUND_WITHIN, TestKind, fixing_time, is_longer};
use crate::quantity::Units;
use crate::sheet::{Figure, Item};

/// The verdict as a figure.
pub fn verdict(verdict: Verdict) -> Figure {
    let (place, word) = match verdict {
        Verdict::Measured(Fixer::Sound) => (0, "sound"),
        Verdict::SoundByRule => (1, "probably sound"),
        Verdict::Measured(Fixer::NearItsEnd) => (2, "near its end"),
        Verdict::Measured(Fixer::Spent) => (3, "spent"),
        Verdict::CannotTell | Verdict::TooFast => (4, "cannot tell yet"),
    };
    Figure::word("verdict", "By clearing, the fixer is", place, word)
}

/// What to do, first of all.
pub fn next(clearing: &Clearing, speed: Option<&Measured>, verdict: Option<Verdict>, units: Units) -> Vec<Item> {
    let mut items = Vec::new();
    let Some(verdict) = verdict else {
        items.push(text(
            "Drop a piece of undeveloped film into the fixer, keep it moving, and stop the watch when the last milkiness is gone. Type \
             that time above, and the time that fresh bath took.",
        ));
        items.push(text(
            "Fix for twice that time, and discard the bath when it has doubled.",
        ));
        return items;
    };
    let fix = clearing
        .clears_in()
        .map(|clears_in| fixing_time(clears_in, clearing.fix));
    let may_fix = verdict != Verdict::Measured(Fixer::Spent);
    items.extend(stands(clearing, speed, verdict, units));
    if let Some(fix) = fix.filter(|fix| may_fix && is_longer(*fix, LONGEST)) {
        let way_out = match clearing.warmth.is_some_and(|warmth| warmth.now < USUAL) {
            true => format!("Warm it to {}, or take fresh bath.", units.temperature(USUAL)),
            false => "Take fresh bath.".to_owned(),
        };
        items.push(Item::Caution(format!(
            "{} would be too long: no film stays in the fixer for more than {}. {way_out}",
            units.span(fix),
            units.span(LONGEST)
        )));
    }
    if may_fix && clearing.is_full() {
        items.push(Item::Caution(
            "As many films went through it as it takes. It may still clear quickly, and leave silver in the film all the same: take \
             fresh."
                .to_owned(),
        ));
    }
    items
}

/// How the bath stands, and what that asks for.
fn stands(clearing: &Clearing, speed: Option<&Measured>, verdict: Verdict, units: Units) -> Vec<Item> {
    match verdict {
        Verdict::Measured(Fixer::Sound) => vec![text("It is sound: film does not take twice as long to clear as in fresh bath, which would be the end of it.")],
        Verdict::Measured(Fixer::NearItsEnd) => {
            let more = clearing.timed().and_then(|timed| timed.repeats(TestKind::Clearing.enough()));
            let more = match more {
                Some(count) => format!("Time each {count} times over and type all of them, or take fresh."),
                None => "It lies too near to spent to be told apart: take fresh.".to_owned(),
            };
            vec![Item::Text(format!("It may be spent already. {more}"))]
        }
        Verdict::Measured(Fixer::Spent) => {
            let fresh = match clearing.baths {
                Baths::FirstOfTwo => "Discard it: the second bath becomes the first, and a new one the second.",
                _ => "Discard it and take fresh.",
            };
            let times = speed.map_or(2.0, |speed| 1.0 / speed.strength.value);
            vec![Item::Caution(format!(
                "It is spent: film takes {} times as long to clear as in fresh bath. {fresh} It holds silver: collect it, never down \
                 the drain. Film that went through it lately wants fixing again.",
                units.number(times, 2)
            ))]
        }
        Verdict::SoundByRule => vec![text(
            "It clears as sound bath usually does, within a couple of minutes. Without the time of fresh bath nobody can say how far it \
             is from spent: time fresh bath once, with the same film, and keep the number.",
        )],
        Verdict::CannotTell => vec![Item::Text(format!(
            "Sound bath usually clears film within {}; this took longer. Some films and fixers are slow by themselves, so time fresh \
             bath with the same film. Until then take fresh for film that matters.",
            units.span(SOUND_WITHIN)
        ))],
        Verdict::TooFast => vec![Item::Caution(
            "It clears faster than fresh bath did, which a used bath cannot. Were the two exchanged, was it another film, or one bath \
             warmer than noted?"
                .to_owned(),
        )],
    }
}

/// What the count of films says.
pub fn films(clearing: &Clearing, units: Units) -> Vec<Item> {
    let mut items = Vec::new();
    match (clearing.through, clearing.bath) {
        (None, None) => items.push(text(
            "Count the films as well: clearing shows how fast a bath works, not how much silver it leaves. Type how many went through \
             it and how much bath there is. A roll of 135 or 120 is one.",
        )),
        (Some(_), None) => items.push(text("How many it takes depends on how much bath there is: type that above.")),
        (None, Some(_)) => items.push(text("Type how many films went through it. A roll of 135 or 120 is one.")),
        (Some(_), Some(_)) => {}
    }
    if let Some((to_come, left)) = clearing.to_come.zip(clearing.still_takes()) {
        items.push(match to_come <= left.value {
            true => text("The films to come still go through it."),
            false => Item::Caution(format!(
                "{} films to come are more than it takes: {} still go through it.",
                units.number(to_come, 0),
                units.number(left.value.floor(), 0)
            )),
        });
    }
    items
}

/// The rule of two baths.
pub fn two_baths(clearing: &Clearing, verdict: Option<Verdict>, units: Units) -> Vec<Item> {
    let mut items = Vec::new();
    if clearing.baths == Baths::One {
        items.push(text(
            "Two baths in a row leave less silver in the film, and use each bath further: the first does the work, the second stays \
             nearly fresh.",
        ));
    }
    let is_in_use = clearing.baths == Baths::FirstOfTwo && verdict != Some(Verdict::Measured(Fixer::Spent));
    items.push(match clearing.clears_in().filter(|_| is_in_use) {
        Some(clears_in) => Item::Text(format!(
            "The same time in each: {} here and {} in the second.",
            units.span(fixing_time(clears_in, clearing.fix / 2.0)),
            units.span(fixing_time(clears_in, clearing.fix / 2.0))
        )),
        None => text("The same time in each bath."),
    });
    items.push(text(
        "When film takes twice as long to clear in the first as it did at first, discard that one. The second becomes the first, and a \
         new one the second. After the third such change make both anew.",
    ));
    if clearing.baths == Baths::SecondOfTwo {
        items.push(text(
            "A second bath clears film nearly as fresh bath does. If it does not, the first was used for too long: make both anew.",
        ));
    }
    items
}

/// How the test is done.
pub fn how() -> Vec<Item> {
    [
        "A piece of the film that you will fix, undeveloped; a leader does. The light may be on.",
        "Drop it in all at once, keep it moving, and look through it at something dark: it is clear when the last milkiness is gone.",
        "Time it in fresh bath first, at the same temperature, and keep that number with the bottle. Three times each tell more than \
         one.",
        "A cold bath is slow: fixing takes twice as long for every 10 °C below 20 °C.",
    ]
    .into_iter()
    .map(text)
    .collect()
}

/// The other test of the trade.
pub fn iodide() -> Vec<Item> {
    [
        "Put 10 ml of a 4 to 5 % solution of potassium iodide into exactly 100 ml of the fixer and stir. A yellow cloud that stays \
         means that the bath is exhausted.",
        "Read the safety data sheet of potassium iodide first. Throw the sample away with the used fixer, never back into the bath.",
    ]
    .into_iter()
    .map(text)
    .collect()
}

/// The figures behind it, in a few words.
pub fn remark(clearing: &Clearing, units: Units) -> String {
    let clears_in = clearing.clears_in();
    let clears_in = clears_in.map(|clears_in| units.span(clears_in)).unwrap_or_default();
    match clearing.fresh.is_empty() {
        true => format!("clear after {clears_in}; fresh not known"),
        false => format!("clear after {clears_in}"),
    }
}
