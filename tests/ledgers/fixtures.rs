//! Every format ever written stays readable: files that were written once and are never written again.

use std::collections::BTreeSet;

use meniscus::ledger::{self, Complaint, KINDS, Shelf};
use meniscus::quantity::Units;
use meniscus::store::RecordError;

use crate::generator::day;
use crate::kinds::every_kind;

const FORMAT_1: &str = include_str!("format-1.txt");
const FORMAT_1_WORDS: &str = include_str!("format-1.words.txt");
/// The kind that came to the format later.
const DEVELOPED_1: &str = include_str!("developed-1.txt");
const DAMAGED_1: &str = include_str!("damaged-1.txt");

#[test]
fn format_1_reads_as_what_was_written() {
    let import = ledger::import(FORMAT_1);
    assert_eq!(import.complaints, []);
    assert_eq!(import.rejected, []);
    assert_eq!(import.ledger.events, every_kind());
    let unread: Vec<_> = import.ledger.unread.iter().map(|entry| entry.why.clone()).collect();
    assert_eq!(
        unread,
        [RecordError::Checksum, RecordError::Later(2), RecordError::Shape]
    );
    // The first is damaged, and its event is not here from elsewhere; no name tells what the last was.
    assert_eq!(import.ledger.lost().len(), 3);
}

/// The file has one entry a line, so that it is the same file again but for the order of the unread entries.
#[test]
fn format_1_is_written_as_it_was() {
    let again = ledger::export(&ledger::import(FORMAT_1).ledger, day("2026-03-06"));
    let lines = |text: &str| text.lines().map(str::to_owned).collect::<BTreeSet<_>>();
    assert_eq!(lines(&again), lines(FORMAT_1));
    assert_eq!(
        again.lines().take(41).collect::<Vec<_>>(),
        FORMAT_1.lines().take(41).collect::<Vec<_>>()
    );
}

#[test]
fn format_1_has_every_kind() {
    for kind in KINDS {
        let written = format!(r#""what":"{kind}""#);
        assert!(
            FORMAT_1.contains(&written) || DEVELOPED_1.contains(&written),
            "there is no event of the kind {kind} in the files"
        );
    }
    let kinds: BTreeSet<_> = FORMAT_1
        .lines()
        .chain(DEVELOPED_1.lines())
        .filter_map(|line| line.split_once(r#""what":""#)?.1.split('"').next())
        .collect();
    assert_eq!(kinds.len(), KINDS.len());
}

#[test]
fn format_1_says_what_it_said() {
    let shelf = Shelf::fold(ledger::import(FORMAT_1).ledger.events, day("2026-03-06"));
    let units = Units::default();
    let mut said = String::new();
    let mut say = |line: String| said += &(line.replace('\n', "⏎") + "\n");
    for event in &shelf.events {
        say(format!("{} {}", event.day, shelf.words(event, None, units)));
    }
    for bottle in &shelf.bottles {
        say(format!("\n{} — {}", bottle.id, bottle.is.label.product).replace('\n', ""));
        for line in shelf.life_record(bottle.id.as_str(), units) {
            say(line.to_string());
        }
    }
    let expected: Vec<_> = FORMAT_1_WORDS.lines().filter(|line| !line.is_empty()).collect();
    assert_eq!(said.lines().collect::<Vec<_>>(), expected);
    assert_eq!(shelf.problems, []);
}

#[test]
fn a_damaged_file_gives_what_is_whole_and_tells_the_rest() {
    let import = ledger::import(DAMAGED_1);
    assert_eq!(import.complaints, [Complaint::Incomplete { said: 42, found: 18 }]);
    assert_eq!(
        import.complaints[0].to_string(),
        "The file should hold 42 entries and holds 18: a part of it is missing. What is there was taken."
    );
    let kinds = every_kind();
    assert_eq!(
        import.ledger.events,
        [kinds[4].clone(), kinds[8].clone(), kinds[9].clone()]
    );
    let rejected: Vec<_> = import
        .rejected
        .iter()
        .map(|line| (line.line, line.why.to_string()))
        .collect();
    let expected = [
        (3, "it was damaged: it is not what was written"),
        (4, "it was damaged: it is not what was written"),
        (7, "it is not an entry of this page"),
        (15, "it was written by a later version of this page (format 7)"),
        (16, "it is not an entry of this page"),
        (17, "this version cannot make sense of it: it has no parts with names"),
        (
            19,
            "this version cannot make sense of it: its key is not that of an event",
        ),
        (21, "it was damaged: it is not what was written"),
    ];
    assert_eq!(rejected, expected.map(|(line, why)| (line, why.to_owned())));
    assert_eq!(import.rejections, 8);
    let carried: Vec<_> = import.ledger.unread.iter().map(|entry| entry.why.to_string()).collect();
    assert_eq!(
        carried,
        [
            "it is not an entry of this page",
            "this version cannot make sense of it: it is an event of the kind “frozen”, which came later",
            "this version cannot make sense of it: it says something of “hour”",
            "this version cannot make sense of it: “2026-02-30” is no day",
            "this version cannot make sense of it: -5 µl is no volume for this",
            "it was written by a later version of this page (format 7)",
        ]
    );
}
