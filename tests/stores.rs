//! What is kept: every record ever written stays readable, damaged ones stay untouched, and a full store loses nothing.
#![cfg(not(target_arch = "wasm32"))]

use std::cell::{Cell, RefCell};
use std::collections::BTreeMap;

use meniscus::kit::Kit;
use meniscus::store::{self, Door, DoorError, FORMS, KIT, Memory, PREFIX, Record, RecordError};

#[path = "common/darkroom.rs"]
mod darkroom;
#[path = "stores/written.rs"]
mod written;

/// Lines `KEY<tab>TEXT` of a file of fixtures.
fn fixture(text: &str) -> Vec<(&str, &str)> {
    let lines = text.lines().filter(|line| !line.starts_with('#') && !line.is_empty());
    lines.map(|line| line.split_once('\t').expect("KEY<tab>TEXT")).collect()
}

fn filled(entries: &[(&str, &str)]) -> Memory {
    let door = Memory::default();
    for (key, text) in entries {
        door.set(key, text).expect("room");
    }
    door
}

/// Everything that stands in a store, by key.
fn everything(door: &dyn Door) -> BTreeMap<String, String> {
    let keys = door.keys().expect("keys").into_iter();
    keys.map(|key| {
        let text = door.get(&key).expect("a store").expect("a text");
        (key, text)
    })
    .collect()
}

/// A record under a key, as the tests below change it.
fn tank(name: &str) -> Record {
    let mut tank = Kit::starter().tanks[0].item.clone();
    tank.name = name.to_owned();
    Record::Tank(tank)
}

const KEY: &str = "meniscus/kit/tank";

/// CRC-32 by the definition of ISO 3309, bit by bit; `123456789` gives cbf43926 (its check value, from memory, very sure).
fn crc_32(bytes: &[u8]) -> u32 {
    let mut rest = !0u32;
    for byte in bytes {
        rest ^= u32::from(*byte);
        for _ in 0..8 {
            rest = if rest & 1 == 1 {
                rest >> 1 ^ 0xEDB8_8320
            } else {
                rest >> 1
            };
        }
    }
    !rest
}

#[test]
fn a_record_is_format_checksum_and_json() {
    assert_eq!(crc_32(b"123456789"), 0xCBF4_3926);
    for (key, text) in fixture(written::FORMAT_1) {
        let mut parts = text.splitn(3, ' ');
        assert_eq!(parts.next(), Some("1"), "{key}");
        let (checksum, json) = (parts.next().expect("a checksum"), parts.next().expect("JSON"));
        assert_eq!(checksum, format!("{:08x}", crc_32(json.as_bytes())), "{key}");
        serde_json::from_str::<serde_json::Value>(json).expect(key);
    }
}

#[test]
fn full_keeps_what_stood_there() {
    // Room for the first record and its key, and a little more.
    let first = tank("first");
    let room = KEY.len() + first.to_text().len() + 8;
    let door = Memory::with_room(room);
    store::save(&door, KEY, &first).expect("room for one");
    let before = everything(&door);
    assert_eq!(
        store::save(&door, KEY, &tank("a much longer name")),
        Err(DoorError::Full)
    );
    assert_eq!(
        store::save(&door, "meniscus/kit/other", &tank("other")),
        Err(DoorError::Full)
    );
    assert_eq!(everything(&door), before);
    assert_eq!(store::load(&door).unread, []);
    store::save(&door, KEY, &tank("second")).expect("as long as the first");
}

/// A store that fails at its nth write, in one of several ways.
struct Failing {
    inner: Memory,
    writes: Cell<u32>,
    fail_at: u32,
    how: DoorError,
}

impl Door for Failing {
    fn get(&self, key: &str) -> Result<Option<String>, DoorError> {
        self.inner.get(key)
    }

    fn set(&self, key: &str, text: &str) -> Result<(), DoorError> {
        self.writes.set(self.writes.get() + 1);
        match self.writes.get() == self.fail_at {
            true if self.how == DoorError::NotKept => Ok(()),
            true => Err(self.how),
            false => self.inner.set(key, text),
        }
    }

    fn keys(&self) -> Result<Vec<String>, DoorError> {
        self.inner.keys()
    }
}

/// Whichever write fails, and however, everything that stood there stands there still, and the caller is told.
#[test]
fn failing_at_each_write_loses_nothing() {
    for how in [
        DoorError::Full,
        DoorError::Blocked,
        DoorError::Absent,
        DoorError::NotKept,
    ] {
        for fail_at in 1..=2 {
            let door = Failing {
                inner: filled(&[
                    (KEY, "1 00000000 damaged"),
                    ("meniscus/kit/other", &tank("other").to_text()),
                ]),
                writes: Cell::new(0),
                fail_at,
                how,
            };
            let before = everything(&door.inner);
            assert_eq!(store::save(&door, KEY, &tank("new")), Err(how), "write {fail_at}");
            let after = everything(&door.inner);
            for (key, text) in &before {
                assert_eq!(after.get(key), Some(text), "{key} after a failing write {fail_at}");
            }
            // and the next try works
            store::save(&door, KEY, &tank("new")).expect("no more failing");
            assert!(
                everything(&door.inner)
                    .values()
                    .any(|text| text == "1 00000000 damaged")
            );
        }
    }
}

#[test]
fn every_door_error_is_a_sentence() {
    for error in [
        DoorError::Absent,
        DoorError::Blocked,
        DoorError::Full,
        DoorError::NotKept,
    ] {
        let sentence = error.to_string();
        assert!(
            sentence.len() > 30 && sentence.starts_with(char::is_lowercase),
            "{sentence}"
        );
    }
}

/// A place that can only be asked for, and then refuses.
struct Shut(DoorError);

impl Door for Shut {
    fn get(&self, _: &str) -> Result<Option<String>, DoorError> {
        Err(self.0)
    }

    fn set(&self, _: &str, _: &str) -> Result<(), DoorError> {
        Err(self.0)
    }

    fn keys(&self) -> Result<Vec<String>, DoorError> {
        Err(self.0)
    }
}

#[test]
fn a_shut_store_leaves_the_starter_kit() {
    for error in [DoorError::Absent, DoorError::Blocked] {
        let loaded = store::load(&Shut(error));
        assert_eq!(loaded.trouble, Some(error));
        assert_eq!(loaded.kit, Kit::starter());
        assert_eq!(store::save(&Shut(error), KEY, &tank("new")), Err(error));
    }
}

#[test]
fn truncated_anywhere_is_unread_and_stays() {
    let text = tank("short").to_text();
    for end in (0..text.len()).filter(|&end| text.is_char_boundary(end)) {
        let cut = &text[..end];
        assert!(Record::from_text(cut).is_err(), "{cut}");
        let door = filled(&[(KEY, cut)]);
        let loaded = store::load(&door);
        assert_eq!(loaded.unread.len(), 1, "{cut}");
        assert_eq!(
            (loaded.unread[0].key.as_str(), loaded.unread[0].text.as_str()),
            (KEY, cut)
        );
        assert_eq!(loaded.kit, Kit::starter());
    }
}

/// One flipped bit anywhere: the record is refused, or it is the same record (a checksum in capitals).
#[test]
fn a_flipped_bit_never_reads_as_something_else() {
    let record = tank("flip");
    let text = record.to_text();
    let mut refused = 0;
    for index in 0..text.len() {
        for bit in 0..7 {
            let mut bytes = text.clone().into_bytes();
            bytes[index] ^= 1 << bit;
            let Ok(flipped) = String::from_utf8(bytes) else {
                continue;
            };
            match Record::from_text(&flipped) {
                Ok(read) => {
                    assert_eq!(read, record, "{flipped}");
                    assert_eq!(flipped.to_ascii_lowercase(), text.to_ascii_lowercase(), "{flipped}");
                }
                Err(_) => refused += 1,
            }
        }
    }
    assert!(refused > text.len() * 6, "only {refused} flips were refused");
}

/// Records under each other's keys load as what they are, or not at all; nothing is lost.
#[test]
fn swapped_keys_lose_nothing() {
    let named = meniscus::fields::Named::from([("total".to_owned(), "500 ml".to_owned())]);
    let form = Record::Form(named).to_text();
    let thing = tank("swapped").to_text();
    let house = Record::House(Kit::starter().house).to_text();
    let form_key = format!("{FORMS}mix");
    let entries = [
        (KEY, form.as_str()),
        (form_key.as_str(), thing.as_str()),
        ("meniscus/kit/starter-syringe-10", house.as_str()),
        ("meniscus/kit/starter-tank", thing.as_str()),
    ];
    let door = filled(&entries);
    let before = everything(&door);
    let loaded = store::load(&door);
    assert_eq!(loaded.unread, []);
    assert!(loaded.forms.is_empty(), "a tank is no form");
    assert_eq!(loaded.kit.tanks.len(), 1, "a form is no tank");
    assert_eq!(loaded.kit.tanks[0].item.name, "swapped");
    assert_eq!(loaded.kit.instruments, Kit::starter().instruments);
    assert_eq!(everything(&door), before, "loading writes nothing");
}

/// Keys of other programs at the same address are not looked at; keys of ours that this version does not know are left alone.
#[test]
fn foreign_keys_are_left_alone() {
    let later = Record::Gone.to_text();
    let entries = [
        ("theirs", "not ours"),
        ("meniscu", "not ours"),
        ("meniscus-two/kit/x", "not ours"),
        ("meniscus/ledger/0192", later.as_str()),
    ];
    let door = filled(&entries);
    let loaded = store::load(&door);
    assert_eq!(loaded.kit, Kit::starter());
    assert_eq!(loaded.unread, []);
    assert_eq!(door.keys().expect("keys"), ["meniscus/ledger/0192"]);
    for (key, text) in entries {
        assert_eq!(door.get(key), Ok(Some(text.to_owned())));
    }
    assert!(KIT.starts_with(PREFIX) && FORMS.starts_with(PREFIX));
}

/// What could not be read is moved aside before its key is written again, byte for byte, each time anew.
#[test]
fn damaged_entries_are_moved_aside_and_kept() {
    let door = filled(&[(KEY, "1 00000000 first damage \u{fffd}\r\n\t ")]);
    store::save(&door, KEY, &tank("new")).expect("room");
    let loaded = store::load(&door);
    assert!(loaded.kit.tanks.iter().any(|kept| kept.item.name == "new"));
    assert_eq!(loaded.unread.len(), 1, "the damaged entry is still shown");
    assert_eq!(loaded.unread[0].text, "1 00000000 first damage \u{fffd}\r\n\t ");

    door.set(KEY, "9 00000000 from a later version").expect("room");
    store::save(&door, KEY, &tank("newer")).expect("room");
    door.set(KEY, "third damage").expect("room");
    store::save(&door, KEY, &tank("newest")).expect("room");
    let texts: Vec<String> = store::load(&door)
        .unread
        .into_iter()
        .map(|unread| unread.text)
        .collect();
    for text in [
        "1 00000000 first damage \u{fffd}\r\n\t ",
        "9 00000000 from a later version",
        "third damage",
    ] {
        assert!(
            texts.iter().any(|kept| kept == text),
            "{text:?} is lost; there are {texts:?}"
        );
    }
    // A good record is replaced without a trace.
    let count = everything(&door).len();
    store::save(&door, KEY, &tank("last")).expect("room");
    assert_eq!(everything(&door).len(), count);
}

#[test]
fn a_later_format_is_told_as_such() {
    let text = tank("later").to_text().replacen('1', "2", 1);
    assert_eq!(Record::from_text(&text), Err(RecordError::Later(2)));
    assert_eq!(
        RecordError::Later(2).to_string(),
        "it was written by a later version of this page (format 2)"
    );
    let unborn = tank("never").to_text().replacen('1', "0", 1);
    assert_eq!(
        Record::from_text(&unborn),
        Err(RecordError::Shape),
        "there never was a format 0"
    );
}

/// A store that reads back something else than was written.
struct Forgetful(RefCell<BTreeMap<String, String>>);

impl Door for Forgetful {
    fn get(&self, key: &str) -> Result<Option<String>, DoorError> {
        Ok(self.0.borrow().get(key).map(|text| text[1..].to_owned()))
    }

    fn set(&self, key: &str, text: &str) -> Result<(), DoorError> {
        self.0.borrow_mut().insert(key.to_owned(), text.to_owned());
        Ok(())
    }

    fn keys(&self) -> Result<Vec<String>, DoorError> {
        Ok(self.0.borrow().keys().cloned().collect())
    }
}

#[test]
fn what_is_not_read_back_is_not_called_kept() {
    let door = Forgetful(RefCell::default());
    assert_eq!(store::save(&door, KEY, &tank("new")), Err(DoorError::NotKept));
}
