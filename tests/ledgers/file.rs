//! Files that are not what they should be.

use meniscus::ledger::{self, Complaint, Event, KeepError, LARGEST, Ledger, ROOM, Usage, What};
use meniscus::store::{Door, DoorError, EVENTS, Memory, RecordError};

use crate::generator::{darkroom, day, event};
use crate::kinds::every_kind;
use crate::short::sealed;

fn file() -> String {
    let ledger = Ledger {
        events: every_kind(),
        unread: vec![],
    };
    ledger::export(&ledger, day("2026-03-05"))
}

#[test]
fn wrong_files_are_called_that() {
    let wrong = [
        "",
        "\n\n\n",
        "Dear diary, today I developed two rolls.",
        "<!DOCTYPE html><html></html>",
        "{\"events\":[1,2,3]}",
        "\u{0}\u{1}\u{2}\u{7f}\u{feff}",
        "1 2 3\n4 5 6\n7 8 9\n",
        "1 cbf43926 123456789",
    ];
    for text in wrong {
        let import = ledger::import(text);
        assert_eq!(import.complaints, [Complaint::NotALedger], "{text}");
        assert_eq!(import.ledger, Ledger::default());
    }
    assert_eq!(
        Complaint::NotALedger.to_string(),
        "There is nothing of a ledger of this page in the file."
    );
    let rejected = &ledger::import("hello").rejected;
    assert_eq!(
        rejected[0].to_string(),
        "Line 1: it is not an entry of this page (“hello”)."
    );
}

#[test]
fn a_file_cut_anywhere_gives_its_whole_lines() {
    let file = file();
    let events = every_kind();
    for end in (0..file.len() - 1).filter(|&end| file.is_char_boundary(end)).step_by(7) {
        let import = ledger::import(&file[..end]);
        // A line whose end is cut off but for the line break is whole.
        let breaks = file.bytes().take(end + 1).filter(|byte| *byte == b'\n').count();
        let whole = breaks.saturating_sub(1);
        assert_eq!(import.ledger.events, events[..whole], "cut at {end}");
        let told = import.complaints.len() + import.rejections;
        assert!(told > 0 && import.rejections <= 1, "cut at {end}");
    }
}

#[test]
fn what_other_systems_do_to_a_text_does_no_harm() {
    let file = file();
    for changed in [
        file.replace('\n', "\r\n"),
        format!("\u{feff}{file}"),
        file.replace('\n', "\n\n"),
        file.replace('\n', "  \n"),
        file.trim_end().to_owned(),
    ] {
        let import = ledger::import(&changed);
        assert_eq!(import.complaints, []);
        assert_eq!(import.ledger.events, every_kind());
    }
}

#[test]
fn lines_in_another_order_or_twice_are_the_same_ledger() {
    let file = file();
    let mut lines: Vec<_> = file.lines().collect();
    lines.reverse();
    let import = ledger::import(&[lines.join("\n"), file].join("\n"));
    assert_eq!(import.complaints, []);
    assert_eq!(import.ledger.events, every_kind());
}

#[test]
fn a_file_without_its_first_line_is_taken_and_that_is_said() {
    let file = file();
    let (_, rest) = file.split_once('\n').expect("there are lines");
    let import = ledger::import(rest);
    assert_eq!(import.complaints, [Complaint::NoHeader]);
    assert_eq!(import.ledger.events, every_kind());
}

#[test]
fn a_file_of_a_later_version_is_taken_as_far_as_it_goes() {
    let later = file().replace("format 1", "format 3").replacen("\n1 ", "\n3 ", 1);
    let import = ledger::import(&later);
    assert_eq!(import.complaints, [Complaint::Later(3)]);
    assert_eq!(
        import.complaints[0].to_string(),
        "The file was written by a later version of this page (format 3); what could be read of it was taken."
    );
    let events = every_kind();
    assert_eq!(import.ledger.events, events[1..]);
    // What this version is too old for is kept under its own name, and goes along into the next file.
    let carried = &import.ledger.unread[0];
    assert_eq!((&carried.key, &carried.why), (&events[0].key(), &RecordError::Later(3)));
    assert_eq!(carried.text, later.lines().nth(1).expect("a line"));
    let again = ledger::import(&ledger::export(&import.ledger, day("2026-03-06")));
    assert_eq!(again.ledger, import.ledger);
}

#[test]
fn a_huge_file_is_not_read() {
    let import = ledger::import(&"x".repeat(LARGEST + 1));
    assert_eq!(import.complaints, [Complaint::TooLarge]);
    assert_eq!(
        import.complaints[0].to_string(),
        "The file is larger than 32 million characters, which no ledger of this page is; it was not read."
    );
    let import = ledger::import(&"x\n".repeat(100_000));
    assert_eq!(import.rejections, 100_000);
    assert_eq!(import.rejected.len(), 100);
    let import = ledger::import(&"x".repeat(LARGEST));
    assert_eq!((import.rejections, import.rejected[0].start.len()), (1, 60));
}

#[test]
fn hostile_lines_are_turned_away() {
    let name = "019c9f00-8f60-7000-8000-000000000001";
    let event = |what: &str| {
        sealed(&format!(
            r#"{{"id":"{name}","at":1772194140000,"day":"2026-02-27","what":{what}}}"#
        ))
    };
    let opened = event(r#""opened","bottle":"x""#);
    assert!(Event::from_text(&opened).is_ok());
    let nested = format!(r#""note","text":{}"x"{}"#, "[".repeat(40_000), "]".repeat(40_000));
    let long = format!(r#""note","text":"{}""#, "x".repeat(4001));
    let longer = format!(r#""note","text":"{}""#, "x".repeat(200_000));
    let many = format!(
        r#""mixed","from":[{}],"water_ul":0,"into":{{"used":{{}}}}"#,
        [r#"{"bottle":"x","volume_ul":1}"#; 41].join(",")
    );
    for what in [
        nested.as_str(),
        &long,
        &longer,
        &many,
        r#""drawn","bottle":"x","volume_ul":-1"#,
        r#""drawn","bottle":"x","volume_ul":0"#,
        r#""drawn","bottle":"x","volume_ul":1.5"#,
        r#""drawn","bottle":"x","volume_ul":9223372036854775807"#,
        r#""drawn","bottle":"x","volume_ul":1e400"#,
        r#""drawn","bottle":"x","volume_ul":null"#,
        r#""drawn","bottle":"x","volume_ul":1,"volume_ul":2"#,
        r#""drawn","bottle":"x","volume_ul":1,"":0"#,
        r#""drawn","bottle":"","volume_ul":1"#,
        r#""drawn","bottle":"x\ny","volume_ul":1"#,
        r#""drawn","bottle":"x","volume_ul":1,"dilution":"1+""#,
        r#""drawn","bottle":"x""#,
        r#""opened","bottle":"x","what":"note","text":"""#,
        r#""moved","bottle":"x","place":" ""#,
        r#""mixed","from":[],"water_ul":0,"into":{"used":{}}"#,
        r#""mixed","from":[{"bottle":"x","volume_ul":1}],"water_ul":0,"into":{"used":{},"kept":{}}"#,
        r#""treated","bottle":"x","how":{"squeezed":1}"#,
        r#""treated","bottle":"x","how":"beads_ul""#,
        r#""place_noted","place":"x","climate":{"between":{"low_mc":2,"high_mc":1}}"#,
        r#""place_noted","place":"x","climate":{"steady":{"mc":151000}}"#,
        r#""place_noted","place":"x","climate":{"seasonal":{"low_mc":1,"high_mc":2,"warmest_day":367}}"#,
        r#""place_noted","place":"x","climate":{"steady":{"mc":1},"between":{}}"#,
        r#""place_noted","place":"x","temperature":{"steady":{"mc":1}}"#,
        r#""place_noted","place":"x","light":"glaring""#,
        r#""corrected","event":"019C9F00-8F60-7000-8000-000000000001""#,
        r#""corrected","event":"019c9f00-8f60-4000-8000-000000000001""#,
        r#""added","bottle":"x","is":{"product":"","class":"syrup"},"opened":"never""#,
        r#""added","bottle":"x","is":{"product":"x","class":"tonic"},"opened":"never""#,
        r#""added","bottle":"x","is":{"product":"x","class":"syrup","container":{"material":"wood"}},"opened":"never""#,
        r#""added","bottle":"x","is":{"product":"x","class":"syrup","container":{"thickness_um":0}},"opened":"never""#,
        r#""added","bottle":"x","is":{"product":"x","class":"syrup"},"opened":{"on":"yesterday"}"#,
        r#""added","bottle":"x","is":{"product":"x","class":"syrup","exponent_thousandths":0},"opened":"never""#,
        r#""added","bottle":"x","is":{"product":"x","class":"syrup","currency":"EUR"},"opened":"never""#,
    ] {
        let text = event(what);
        assert!(Event::from_text(&text).is_err(), "{what:.120}");
        assert_eq!(ledger::import(&text).ledger.events, [], "{what:.120}");
    }
    let json = opened.splitn(3, ' ').nth(2).expect("JSON");
    for (from, to) in [
        ("1772194140000", "-1"),
        ("1772194140000", "281474976710656"),
        ("2026-02-27", "2026-2-27"),
        ("2026-02-27", "99999-01-01"),
        (name, "nobody"),
    ] {
        let changed = sealed(&json.replace(from, to));
        assert!(
            matches!(Event::from_text(&changed), Err(RecordError::Content(_))),
            "{to}"
        );
    }
    let headers = "meniscus ledger, format 4294967296, x, 18446744073709551615 events, 18446744073709551615 unread";
    assert_eq!(ledger::import(headers).complaints, [Complaint::NotALedger]);
}

/// A file may say anything of other keys of the store; nothing of it is written.
#[test]
fn a_file_writes_under_names_of_events_alone() {
    for key in ["meniscus/kit/house", "other", "meniscus/events", ""] {
        let entry = ledger::read(key, "1 00000000 {}").expect_err("damaged");
        let ledger = Ledger {
            events: vec![],
            unread: vec![entry],
        };
        let import = ledger::import(&ledger::export(&ledger, day("2026-03-05")));
        assert_eq!(import.ledger, Ledger::default());
        assert_eq!(import.rejections, 1);
    }
}

#[test]
fn more_than_the_store_holds_is_not_begun() {
    let text = "x".repeat(4000);
    let note = |n: u128| {
        let what = What::Note {
            bottle: None,
            text: text.clone(),
        };
        event(n, day("2026-03-01"), 0, what)
    };
    let ledger = Ledger {
        events: (0..1300).map(note).collect(),
        unread: vec![],
    };
    let door = Memory::default();
    ledger::append(&door, &note(1)).expect("room for one");
    let taken = ledger::take_in(&door, &ledger);
    assert_eq!((taken.new, taken.trouble), (0, Some(DoorError::Full)));
    assert_eq!(door.keys().map(|keys| keys.len()), Ok(1));
    assert!(
        taken.to_string().starts_with(
            "0 entries new, 0 entries here already; the rest was not taken in: the browser's store is full"
        )
    );
}

#[test]
fn taking_in_tells_what_it_did() {
    let door = Memory::default();
    let events = every_kind();
    ledger::append(&door, &events[8]).expect("room");
    let mut other = events[8].clone();
    other.day = other.day + 1;
    let ledger = Ledger {
        events: [events, vec![other]].concat(),
        unread: vec![],
    };
    let taken = ledger::take_in(&door, &ledger);
    assert_eq!(
        taken.to_string(),
        "40 entries new, 1 entry here already; 1 entry differed from what is here, and both are kept"
    );
    assert_eq!(ledger::load_all(&door).ledger.events.len(), 41);
}

#[test]
fn use_of_the_store_is_counted_as_browsers_count() {
    let mut usage = Usage::default();
    // A letter is one unit, a G clef two (the Unicode Standard 3.9: U+1D11E is a surrogate pair in UTF-16).
    usage.add("é", "𝄞x");
    assert_eq!(usage.units, 4);
    assert_eq!((usage.warning(), usage.events), (None, 0));

    let door = Memory::default();
    for event in darkroom(1, 3, 100) {
        ledger::append(&door, &event).expect("room");
    }
    door.set("meniscus/kit/x", "12345").expect("room");
    let usage = Usage::of(&door).expect("a store");
    let all = door.keys().expect("keys").into_iter().map(|key| {
        let text = door.get(&key).expect("a store").expect("a text");
        (key + &text).encode_utf16().count()
    });
    assert_eq!(usage.units, all.sum::<usize>());
    assert_eq!((usage.events, usage.units - usage.event_units), (100, 19));
    assert_eq!(usage.to_string(), "100 events, 1 % of the browser's store");
}

#[test]
fn the_user_is_warned_before_the_store_is_full() {
    let filled = |share: f64| {
        let mut usage = Usage::default();
        let event = format!("{EVENTS}{}", "x".repeat(246));
        while usage.share() < share {
            usage.add(&event, "");
        }
        usage
    };
    assert_eq!(filled(0.79).warning(), None);
    assert_eq!(
        filled(0.83).warning().as_deref(),
        Some(
            "The browser's store for this page is 83 % full, with room for about 3414 more events. Export the ledger to a \
             file now, and keep it."
        )
    );
    let full = filled(1.1);
    assert_eq!((full.room_for(), full.units > ROOM), (0, true));
}

#[test]
fn an_event_that_says_what_no_event_may_is_not_written() {
    let door = Memory::default();
    let what = What::Moved {
        bottle: crate::generator::bottle("a"),
        place: "x".repeat(201),
    };
    let refused = ledger::append(&door, &event(1, day("2026-03-01"), 0, what));
    let why = RecordError::Content("a text is longer than 200 characters".to_owned());
    assert_eq!(refused, Err(KeepError::NotAnEvent(why)));
    assert_eq!(
        refused.expect_err("refused").to_string(),
        "this cannot be kept: this version cannot make sense of it: a text is longer than 200 characters"
    );
    assert_eq!(door.keys(), Ok(vec![]));
}
