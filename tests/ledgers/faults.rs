//! What can happen to a store. What could be read is there, what could not is kept, and it is told.

use std::cell::RefCell;

use meniscus::ledger::{self, Event, KeepError, Ledger, Shelf, What};
use meniscus::quantity::Volume;
use meniscus::store::{Door, DoorError, Memory, RecordError};

use crate::generator::{bottle, darkroom, day, event};
use crate::kinds::every_kind;

fn store(events: &[Event]) -> Memory {
    let door = Memory::default();
    for event in events {
        assert_eq!(ledger::append(&door, event).as_ref(), Ok(event));
    }
    door
}

fn texts(door: &dyn Door) -> Vec<(String, String)> {
    let text = |key: String| {
        let text = door.get(&key).expect("a store").expect("a text");
        (key, text)
    };
    door.keys().expect("a store").into_iter().map(text).collect()
}

#[test]
fn what_is_kept_is_there_again() {
    let events = every_kind();
    let door = store(&events);
    let loaded = ledger::load_all(&door);
    assert_eq!(loaded.ledger.events, events);
    assert_eq!(
        (loaded.ledger.unread.len(), loaded.misplaced.len(), loaded.trouble),
        (0, 0, None)
    );
    assert_eq!(door.keys().map(|keys| keys.len()), Ok(events.len()));
}

/// Cut at every byte, and every bit of it turned over: never taken for another event, always kept as it is.
#[test]
fn a_damaged_event_costs_no_other() {
    let events = every_kind();
    let key = events[9].key();
    let text = events[9].to_text();
    let mut damaged: Vec<Vec<u8>> = (0..text.len()).map(|end| text.as_bytes()[..end].to_vec()).collect();
    for at in 0..text.len() {
        for bit in 0..8 {
            let mut bytes = text.as_bytes().to_vec();
            bytes[at] ^= 1 << bit;
            damaged.push(bytes);
        }
    }
    let mut lost = 0;
    for damaged in damaged.into_iter().filter_map(|bytes| String::from_utf8(bytes).ok()) {
        match ledger::read(&key, &damaged) {
            // A digit of the checksum in upper case is the same digit.
            Ok(event) => assert_eq!(
                (event.to_text(), damaged.to_lowercase()),
                (text.clone(), text.to_lowercase())
            ),
            Err(unread) => {
                assert_eq!((unread.key, unread.text), (key.clone(), damaged));
                lost += 1;
            }
        }
    }
    assert!(lost > 8 * text.len() / 2);

    let door = store(&events);
    door.set(&key, &text[..text.len() - 1]).expect("room");
    let loaded = ledger::load_all(&door);
    assert_eq!(loaded.ledger.events.len(), events.len() - 1);
    assert_eq!(loaded.ledger.unread[0].text, text[..text.len() - 1]);
    assert_eq!(loaded.ledger.lost().len(), 1);
    assert_eq!(
        ledger::append(&door, &events[9])
            .expect_err("something else stands there")
            .to_string(),
        "another entry stands under the name of this event; nothing was overwritten"
    );
    // A sound copy from a file or from the mirror goes beside it.
    let taken = ledger::take_in(
        &door,
        &Ledger {
            events: events.clone(),
            unread: vec![],
        },
    );
    assert_eq!((taken.new, taken.differing, taken.known), (1, 1, events.len() - 1));
    let healed = ledger::load_all(&door);
    assert_eq!(healed.ledger.events, events);
    assert_eq!(healed.ledger.unread[0].text, text[..text.len() - 1]);
    assert_eq!((healed.ledger.lost().len(), healed.misplaced.len()), (0, 0));
}

#[test]
fn swapped_keys_are_told_and_cost_nothing() {
    let events = every_kind();
    let door = store(&events);
    let (one, other) = (events[9].key(), events[10].key());
    door.set(&one, &events[10].to_text()).expect("room");
    door.set(&other, &events[9].to_text()).expect("room");
    let loaded = ledger::load_all(&door);
    assert_eq!(loaded.ledger.events, events);
    assert_eq!(loaded.misplaced, [one, other]);
}

#[test]
fn foreign_and_later_entries_are_kept_as_they_are() {
    let events = every_kind();
    let door = store(&events);
    let later = events[3].to_text().replacen("1 ", "9 ", 1);
    let foreign = [
        (
            "meniscus/event/01956a00-0000-7000-8000-0000000000ff",
            later.as_str(),
            RecordError::Later(9),
        ),
        ("meniscus/event/", "", RecordError::Shape),
        ("meniscus/event/hello", "world", RecordError::Shape),
        ("meniscus/event/hello/again", "1 00000000 {}", RecordError::Checksum),
    ];
    for (key, text, _) in &foreign {
        door.set(key, text).expect("room");
    }
    door.set("meniscus/kit/x", "not ours").expect("room");
    let before = texts(&door);
    let loaded = ledger::load_all(&door);
    assert_eq!(loaded.ledger.events, events);
    assert_eq!(loaded.ledger.unread.len(), foreign.len());
    for (key, text, why) in foreign {
        let unread = loaded
            .ledger
            .unread
            .iter()
            .find(|entry| entry.key == key)
            .expect("it is told");
        assert_eq!((unread.text.as_str(), &unread.why), (text, &why));
    }
    assert_eq!(texts(&door), before);
}

#[test]
fn a_store_that_fills_up_keeps_what_it_has() {
    let events = every_kind();
    let all: usize = events
        .iter()
        .map(|event| event.key().len() + event.to_text().len())
        .sum();
    for room in (0..=all).step_by(97) {
        let door = Memory::with_room(room);
        let mut kept = Vec::new();
        for event in &events {
            let before = texts(&door);
            match ledger::append(&door, event) {
                Ok(event) => kept.push(event),
                Err(error) => {
                    assert_eq!(error, KeepError::Door(DoorError::Full));
                    assert_eq!(texts(&door), before);
                }
            }
        }
        let loaded = ledger::load_all(&door);
        assert_eq!(loaded.ledger.events, kept);
        assert_eq!(loaded.ledger.unread, []);
        let door = Memory::with_room(room);
        let taken = ledger::take_in(
            &door,
            &Ledger {
                events: events.clone(),
                unread: vec![],
            },
        );
        assert_eq!(taken.trouble, (taken.new < events.len()).then_some(DoorError::Full));
        assert_eq!(ledger::load_all(&door).ledger.events.len(), taken.new);
    }
}

/// A store that remembers what was written, and can fail in the ways of stores.
#[derive(Default)]
struct Watched {
    memory: Memory,
    written: RefCell<Vec<String>>,
    blocked: bool,
    forgets: bool,
    unreadable: Option<String>,
}

impl Door for Watched {
    fn get(&self, key: &str) -> Result<Option<String>, DoorError> {
        match self.blocked || self.unreadable.as_deref() == Some(key) {
            true => Err(DoorError::Blocked),
            false => self.memory.get(key),
        }
    }

    fn set(&self, key: &str, text: &str) -> Result<(), DoorError> {
        self.written.borrow_mut().push(key.to_owned());
        match self.forgets {
            true => Ok(()),
            false => self.memory.set(key, text),
        }
    }

    fn keys(&self) -> Result<Vec<String>, DoorError> {
        match self.blocked {
            true => Err(DoorError::Blocked),
            false => self.memory.keys(),
        }
    }
}

#[test]
fn an_event_is_written_once_and_no_other_with_it() {
    let door = Watched::default();
    let events = every_kind();
    for event in &events {
        for _ in 0..2 {
            ledger::append(&door, event).expect("room");
        }
    }
    let keys: Vec<_> = events.iter().map(Event::key).collect();
    assert_eq!(*door.written.borrow(), keys);
}

#[test]
fn an_event_that_is_not_read_back_is_not_called_kept() {
    let door = Watched {
        forgets: true,
        ..Watched::default()
    };
    let refused = ledger::append(&door, &every_kind()[0]);
    assert_eq!(refused, Err(KeepError::Door(DoorError::NotKept)));
}

#[test]
fn a_blocked_store_is_told() {
    let door = Watched {
        blocked: true,
        ..Watched::default()
    };
    assert_eq!(ledger::load_all(&door).trouble, Some(DoorError::Blocked));
    assert_eq!(
        ledger::append(&door, &every_kind()[0]),
        Err(KeepError::Door(DoorError::Blocked))
    );
    assert_eq!(
        ledger::take_in(&door, &Ledger::default()).trouble,
        Some(DoorError::Blocked)
    );
}

#[test]
fn one_entry_that_cannot_be_fetched_is_told_and_costs_no_other() {
    let events = every_kind();
    let mut door = Watched::default();
    for event in &events {
        ledger::append(&door, event).expect("room");
    }
    door.unreadable = Some(events[9].key());
    let loaded = ledger::load_all(&door);
    assert_eq!(loaded.trouble, Some(DoorError::Blocked));
    assert_eq!(loaded.ledger.events.len(), events.len() - 1);
}

/// Two tabs write at once, each an event of its own: both are there, whoever was first.
#[test]
fn two_tabs_lose_nothing() {
    let door = Memory::default();
    let events = darkroom(3, 2, 40);
    let (one, other): (Vec<_>, Vec<_>) = events.iter().enumerate().partition(|(at, _)| at % 2 == 0);
    for ((_, one), (_, other)) in one.iter().zip(other.iter().rev()) {
        ledger::append(&door, one).expect("room");
        ledger::append(&door, other).expect("room");
    }
    let today = day("2026-03-01");
    assert_eq!(
        Shelf::fold(ledger::load_all(&door).ledger.events, today),
        Shelf::fold(events, today)
    );
}

/// What is finer than a microlitre is gone once it is written; the event that is given back is the one that is kept.
#[test]
fn what_is_given_back_is_what_is_kept() {
    let door = Memory::default();
    let what = What::Drawn {
        bottle: bottle("a"),
        volume: Volume::from_millilitres(1.000_04),
        bath: None,
        dilution: "1:31".parse().ok(),
        purpose: String::new(),
    };
    let given = event(1, day("2026-03-01"), 0, what);
    let kept = ledger::append(&door, &given).expect("room");
    assert_eq!(ledger::load_all(&door).ledger.events, std::slice::from_ref(&kept));
    let expected = What::Drawn {
        bottle: bottle("a"),
        volume: Volume::from_millilitres(1.0),
        bath: None,
        dilution: "1+31".parse().ok(),
        purpose: String::new(),
    };
    assert_eq!(kept.what, expected);
}
