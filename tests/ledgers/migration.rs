//! Bottles of the simple store move over by themselves.

use meniscus::ledger::{self, Counts, EventId, Missing, Moment, Opened, Shelf, What, migrate};
use meniscus::quantity::Units;
use meniscus::store::{self, Door, Memory, Record};

use crate::generator::{day, event};

/// What a store held before there was a ledger: `key`, tab, `text`. Written once, never again.
const SIMPLE_STORE: &str = include_str!("simple-store.txt");
const SYRUP: &str = "01956a00-1234-7abc-8def-00000000000a";

fn simple_store() -> Memory {
    let door = Memory::default();
    for line in SIMPLE_STORE.lines() {
        let (key, text) = line.split_once('\t').expect("a key and a text");
        door.set(key, text).expect("room");
    }
    door
}

fn shelf(door: &Memory) -> Shelf {
    Shelf::fold(ledger::load_all(door).ledger.events, day("2026-03-05"))
}

#[test]
fn bottles_of_the_simple_store_stand_on_the_shelf() {
    let door = simple_store();
    let kit = store::load(&door).kit;
    assert_eq!(kit.bottles.len(), 3);
    let migrated = migrate::migrate(&door, &kit.bottles, day("2026-03-05"));
    assert_eq!((migrated.new.len(), migrated.failed), (3, vec![]));

    let shelf = shelf(&door);
    assert_eq!(shelf.problems, []);
    // Calculators find the same bottles under the same names.
    assert_eq!(shelf.labels().len(), 3);
    for kept in &kit.bottles {
        let bottle = shelf.bottle(&kept.id).expect("the bottle is there");
        assert_eq!(bottle.is.label, kept.item);
        assert_eq!((bottle.left(), bottle.opened), (None, Opened::NotKnown));
        assert_eq!(
            bottle.missing(),
            [
                Missing::Content,
                Missing::Capacity,
                Missing::Wall,
                Missing::Opened,
                Missing::Place
            ]
        );
    }
    let record = |id: &str| shelf.life_record(id, Units::default())[0].to_string();
    // The name of a bottle tells when it was entered.
    assert_eq!(
        record(SYRUP),
        "2025-03-06 added “Blue Syrup” (developer, syrup concentrate), not known whether opened, not known how full"
    );
    assert_eq!(
        record("my stop bath"),
        "2026-03-05 added “Sour Stop” (stop bath), not known whether opened, not known how full"
    );
}

#[test]
fn a_second_time_and_in_a_second_tab_nothing_happens() {
    let door = simple_store();
    let bottles = store::load(&door).kit.bottles;
    let first = migrate::migrate(&door, &bottles, day("2026-03-05"));
    let keys = door.keys();
    let again = migrate::migrate(&door, &bottles, day("2026-03-09"));
    assert_eq!((again.new.len(), again.failed.len()), (0, 0));
    assert_eq!(door.keys(), keys);

    // Another device with the same kit writes the same.
    let other = simple_store();
    let second = migrate::migrate(&other, &bottles, day("2026-03-05"));
    assert_eq!(first, second);
    let merged = ledger::load_all(&door).ledger.merge(ledger::load_all(&other).ledger);
    assert_eq!(merged.events.len(), 3);
}

#[test]
fn the_simple_store_is_not_touched() {
    let door = simple_store();
    migrate::migrate(&door, &store::load(&door).kit.bottles, day("2026-03-05"));
    for line in SIMPLE_STORE.lines() {
        let (key, text) = line.split_once('\t').expect("a key and a text");
        assert_eq!(door.get(key), Ok(Some(text.to_owned())));
    }
    // The damaged bottle is told by the simple store itself.
    let damaged = store::load(&door).unread;
    assert_eq!(
        damaged.iter().filter(|entry| entry.key.starts_with(store::KIT)).count(),
        1
    );
}

#[test]
fn what_was_changed_or_taken_back_since_stays_so() {
    let door = simple_store();
    let bottles = store::load(&door).kit.bottles;
    let coming = migrate::migrate(&door, &bottles, day("2026-03-05")).new[0].id;
    let undo = event(1, day("2026-03-06"), 0, What::Corrected { event: coming });
    ledger::append(&door, &undo).expect("room");
    // The bottle is changed where an old page still shows the simple form.
    let mut changed = bottles[0].item.clone();
    changed.product = "Red Syrup".to_owned();
    let key = format!("{}{}", store::KIT, bottles[0].id);
    store::save(&door, &key, &Record::Bottle(changed)).expect("room");

    let again = migrate::migrate(&door, &store::load(&door).kit.bottles, day("2026-03-07"));
    assert_eq!((again.new.len(), again.failed.len()), (0, 0));
    let shelf = shelf(&door);
    assert_eq!(shelf.bottle(&bottles[0].id), None);
    assert_eq!(shelf.bottles.len(), 2);
    assert!(
        shelf
            .bottles
            .iter()
            .all(|bottle| bottle.entries[0].counts == Counts::Yes)
    );
}

#[test]
fn names_are_derived_and_their_moment_is_kept() {
    let kept = store::load(&simple_store()).kit.bottles;
    let syrup = kept.iter().find(|kept| kept.id == SYRUP).expect("the syrup is there");
    let event = migrate::event(syrup, day("2026-03-05")).expect("a name");
    // Version 8 (RFC 9562, 5.8) instead of 7, all else as in the name of the bottle, so that no two come together.
    assert_eq!(event.id.to_string(), SYRUP.replace("-7abc-", "-8abc-"));
    assert_eq!(event.id.moment(), None);
    assert_eq!(Some(event.at), SYRUP.parse::<EventId>().ok().and_then(EventId::moment));
    // Any other name gives a name of version 8 and the variant of RFC 9562, 4.1, always the same.
    let derived = EventId::derived("my stop bath").to_string();
    assert_eq!(derived, EventId::derived("my stop bath").to_string());
    assert_ne!(derived, EventId::derived("my stop bath ").to_string());
    assert_eq!(derived.as_bytes()[14], b'8');
    assert!(b"89ab".contains(&derived.as_bytes()[19]));
    assert_eq!(derived.parse(), Ok(EventId::derived("my stop bath")));
}

#[test]
fn names_of_events_are_uuids_of_version_7() {
    // The example of RFC 9562, appendix A.6: unix_ts_ms 0x017F22E279B0, rand_a 0xCC3, rand_b 0x18C4DC0C0C07398F.
    let at = Moment::from_milliseconds(1_645_557_742_000).expect("a moment");
    let id = EventId::new(at, (0xcc3 << 62) | 0x18c4_dc0c_0c07_398f);
    assert_eq!(id.to_string(), "017f22e2-79b0-7cc3-98c4-dc0c0c07398f");
    assert_eq!(id.moment(), Some(at));
    assert_eq!(at.day(), day("2022-02-22"));
    // Names sort by their moment, whatever chance adds.
    let later = Moment::from_milliseconds(1_645_557_742_001).expect("a moment");
    assert!(EventId::new(at, u128::MAX) < EventId::new(later, 0));
    assert_eq!(
        EventId::new(at, u128::MAX).to_string(),
        "017f22e2-79b0-7fff-bfff-ffffffffffff"
    );
}
