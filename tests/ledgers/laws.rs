//! Laws of the fold and of the merge, on invented ledgers: one in which all fits together, and a heap in which little does.

use std::collections::BTreeMap;

use meniscus::ledger::{self, Bath, Bottle, Event, Ledger, Place, Problem, Shelf, What};
use meniscus::quantity::Volume;
use meniscus::store::Memory;
use meniscus::uncertainty::Random;
use proptest::prelude::*;

use crate::generator::{darkroom, day, event, heap};
use crate::short::sealed;

const TODAY: &str = "2026-03-01";

fn fold(events: Vec<Event>) -> Shelf {
    Shelf::fold(events, day(TODAY))
}

fn shuffled<T>(mut all: Vec<T>, seed: u64) -> Vec<T> {
    let mut random = Random::new(seed);
    for at in (1..all.len()).rev() {
        let with = (random.uniform() * (at + 1) as f64) as usize;
        all.swap(at, with);
    }
    all
}

/// About half of the events, some of them twice.
fn some(events: &[Event], seed: u64) -> Ledger {
    let mut random = Random::new(seed);
    let mut some = Vec::new();
    for event in events {
        let copies = [0, 0, 1, 1, 2][(random.uniform() * 5.0) as usize];
        some.extend(std::iter::repeat_n(event.clone(), copies));
    }
    let text = |n: u64| format!("damaged {}", (n + seed) % 5);
    let unread = (0..3).map(|n| ledger::read(&format!("meniscus/event/{n}"), &text(n)).expect_err("damaged"));
    Ledger {
        unread: unread.collect(),
        events: some,
    }
}

/// A shelf but for the lists of events, which tell of every undo.
fn without_lists(shelf: Shelf) -> (Vec<Bottle>, Vec<Place>, Vec<Problem>) {
    let mut bottles = shelf.bottles;
    for bottle in &mut bottles {
        bottle.entries.clear();
    }
    (bottles, shelf.places, shelf.problems)
}

/// The account of every bottle, derived a second time: each bottle by itself, straight down the list.
fn naive_left(events: &[Event]) -> BTreeMap<String, i64> {
    let mut left: BTreeMap<String, i64> = BTreeMap::new();
    let ul = |volume: &Volume| (volume.millilitres() * 1000.0).round() as i64;
    for event in events {
        match &event.what {
            What::Added {
                bottle,
                filled: Some(filled),
                ..
            } => {
                left.insert(bottle.to_string(), ul(filled));
            }
            What::Drawn { bottle, volume, .. } => *left.entry(bottle.to_string()).or_default() -= ul(volume),
            What::ToppedUp { bottle, volume, .. } => *left.entry(bottle.to_string()).or_default() += ul(volume),
            What::Decanted { from, into } => {
                for one in into {
                    *left.entry(from.to_string()).or_default() -= ul(&one.volume);
                    left.insert(one.bottle.to_string(), ul(&one.volume));
                }
            }
            What::Mixed { from, water, into, .. } => {
                let mut all = ul(water);
                for one in from {
                    *left.entry(one.bottle.to_string()).or_default() -= ul(&one.volume);
                    all += ul(&one.volume);
                }
                if let Bath::Kept { bottle, .. } = into {
                    left.insert(bottle.to_string(), all);
                }
            }
            What::Discarded { bottle, .. } => {
                left.insert(bottle.to_string(), 0);
            }
            _ => {}
        }
    }
    left
}

/// Came + topped up + noted = left + drawn + decanted + discarded, to the microlitre.
fn conserves(bottle: &Bottle) -> Result<(), TestCaseError> {
    let ul = Volume::microlitres;
    let account = bottle.account;
    if let Some(left) = bottle.left() {
        prop_assert!(ul(left) >= 0);
        prop_assert_eq!(
            ul(account.came) + ul(account.topped_up) + ul(account.noted),
            ul(left) + ul(account.drawn) + ul(account.decanted) + ul(account.discarded),
            "{}",
            bottle.id
        );
    }
    Ok(())
}

fn life_is_whole(bottle: &Bottle) -> Result<(), TestCaseError> {
    for segment in &bottle.life {
        prop_assert!(segment.from < segment.to);
        prop_assert!(segment.stood.content != Some(Volume::ZERO));
    }
    for two in bottle.life.windows(2) {
        prop_assert!(two[0].to <= two[1].from);
    }
    for two in bottle.openings.windows(2) {
        prop_assert!(two[0].day < two[1].day);
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 64, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn the_order_in_which_events_are_given_does_not_matter(seed: u64, count in 1..120_usize) {
        let events = heap(seed, count);
        let shelf = fold(events.clone());
        prop_assert_eq!(&fold(shuffled(events.clone(), seed)), &shelf);
        prop_assert_eq!(&fold([shuffled(events.clone(), !seed), events].concat()), &shelf);
        // What the shelf gives back is the same ledger again, but for the other records of events that had two.
        let again = fold(shelf.events.clone());
        prop_assert_eq!(&again.bottles, &shelf.bottles);
    }

    #[test]
    fn every_microlitre_is_accounted_for(seed: u64, count in 1..200_usize) {
        for bottle in &fold(heap(seed, count)).bottles {
            conserves(bottle)?;
            life_is_whole(bottle)?;
        }
    }

    #[test]
    fn where_all_fits_together_nothing_is_told_and_sums_are_plain(seed: u64, count in 1..600_usize, bottles in 1..30_usize) {
        let events = darkroom(seed, bottles, count);
        let naive = naive_left(&events);
        let shelf = fold(events);
        prop_assert_eq!(&shelf.problems, &[]);
        prop_assert_eq!(shelf.bottles.len(), naive.len());
        for bottle in &shelf.bottles {
            conserves(bottle)?;
            life_is_whole(bottle)?;
            let left = bottle.left().map(Volume::microlitres);
            prop_assert_eq!(left, naive.get(bottle.id.as_str()).copied());
        }
    }

    #[test]
    fn undo_is_the_inverse(seed: u64, at in 0..300_usize, nonsense: bool) {
        let mut events = darkroom(seed, 8, 300);
        let what = match nonsense {
            true => heap(seed, 1).remove(0).what,
            false => darkroom(!seed, 8, 300).remove(at).what,
        };
        let when = events[at].day;
        let before = fold(events.clone());
        let done = event(1_000_000, when, 1, what);
        events.push(done.clone());
        let with = fold(events.clone());
        let undone = event(1_000_001, when, 2, What::Corrected { event: done.id });
        events.push(undone.clone());
        prop_assert_eq!(without_lists(fold(events.clone())), without_lists(before));
        events.push(event(1_000_002, when, 3, What::Corrected { event: undone.id }));
        prop_assert_eq!(without_lists(fold(events)), without_lists(with));
    }

    #[test]
    fn merging_is_a_union(seed: u64, count in 1..60_usize) {
        let events = heap(seed, count);
        let [a, b, c] = [1, 2, 3].map(|n| some(&events, seed ^ n));
        let merge = |one: &Ledger, other: &Ledger| one.clone().merge(other.clone());
        prop_assert_eq!(merge(&a, &b), merge(&b, &a));
        prop_assert_eq!(merge(&merge(&a, &b), &c), merge(&a, &merge(&b, &c)));
        prop_assert_eq!(merge(&a, &a), a.clone().tidied());
        prop_assert_eq!(merge(&a, &Ledger::default()), a.clone().tidied());
        prop_assert_eq!(fold(merge(&a, &b).events), fold(merge(&b, &a).events));
    }

    #[test]
    fn two_devices_that_swap_their_files_have_one_shelf(seed: u64, count in 1..60_usize) {
        let events = heap(seed, count);
        let doors = [Memory::default(), Memory::default()];
        for (door, n) in doors.iter().zip([1, 2]) {
            ledger::take_in(door, &some(&events, seed ^ n));
        }
        let files = doors.each_ref().map(|door| ledger::export(&ledger::load_all(door).ledger, day(TODAY)));
        for (door, file) in doors.iter().zip(files.iter().rev()) {
            let import = ledger::import(file);
            prop_assert_eq!(&import.complaints, &[]);
            prop_assert_eq!(import.rejections, 0);
            prop_assert_eq!(ledger::take_in(door, &import.ledger).trouble, None);
            // A second time changes nothing.
            let again = ledger::take_in(door, &import.ledger);
            prop_assert_eq!((again.new, again.differing), (0, 0));
        }
        let [one, other] = doors.each_ref().map(|door| ledger::load_all(door));
        prop_assert_eq!(&one.misplaced, &[] as &[String]);
        prop_assert_eq!(&one, &other);
        prop_assert_eq!(fold(one.ledger.events), fold(other.ledger.events));
    }

    #[test]
    fn what_is_written_is_read(seed: u64, count in 1..60_usize) {
        for event in heap(seed, count) {
            prop_assert_eq!(Event::from_text(&event.to_text()), Ok(event));
        }
    }

    /// Against a second reader and writer of JSON, and with every character written by its number.
    #[test]
    fn notes_of_any_text_are_json(text in any::<String>()) {
        let what = What::Note { bottle: None, text: text.clone() };
        let note = event(1, day(TODAY), 0, what);
        let line = note.to_text();
        prop_assert_eq!(line.lines().count(), 1 + line.matches('\r').count());
        let json = line.splitn(3, ' ').nth(2).expect("JSON");
        let value: serde_json::Value = serde_json::from_str(json).expect("JSON");
        prop_assert_eq!(value["text"].as_str(), Some(text.as_str()));
        prop_assert_eq!(Event::from_text(&line), Ok(note.clone()));

        let (head, _) = json.split_once(r#""text":"#).expect("a text");
        let theirs = serde_json::to_string(&text).expect("JSON");
        let numbers: String = text.encode_utf16().map(|unit| format!("\\u{unit:04X}")).collect();
        for written in [theirs, format!("\"{numbers}\"")] {
            let line = sealed(&format!(r#"{head}"text":{written}}}"#));
            prop_assert_eq!(Event::from_text(&line), Ok(note.clone()));
        }
    }

    #[test]
    fn any_text_can_be_imported(text in ".{0,400}", seed: u64) {
        let sound = ledger::export(&some(&heap(seed, 8), seed), day(TODAY));
        let mut random = Random::new(seed);
        let mut cut = (random.uniform() * sound.len() as f64) as usize;
        while !sound.is_char_boundary(cut) {
            cut -= 1;
        }
        for text in [text.clone(), format!("{text}\n{sound}"), format!("{}{text}{}", &sound[..cut], &sound[cut..])] {
            let import = ledger::import(&text);
            // Whatever was taken can be exported and read again.
            let again = ledger::import(&ledger::export(&import.ledger, day(TODAY)));
            prop_assert_eq!(again.ledger, import.ledger);
        }
    }
}
