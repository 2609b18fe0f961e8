//! What is said of copies of the ledger, and of what the store did not take.

use meniscus::ledger::{Complaint, Import, TakenIn, import};
use meniscus::store::DoorError;
use meniscus::view::{self, Copies};

use crate::generator::day;

fn reminder(entries: usize, last: Option<(&str, usize)>) -> Option<String> {
    let copies = Copies {
        entries,
        last: last.map(|(text, then)| (day(text), then)),
        ..Copies::default()
    };
    copies.reminder(day("2026-03-31"))
}

/// When a copy is old or missing is common practice, no source.
#[test]
fn a_missing_or_old_copy_is_reminded_of() {
    assert_eq!(reminder(20, None), None);
    assert!(reminder(21, None).is_some_and(|said| said.contains("21 entries and no copy")));
    // 2026-03-01 is 30 days before 2026-03-31, 2026-02-28 is 31 (the calendar).
    assert_eq!(reminder(50, Some(("2026-03-01", 10))), None);
    let said = reminder(50, Some(("2026-02-28", 10))).expect("it is old");
    assert!(
        said.starts_with("40 entries are new since the last copy, which is 31 days old."),
        "{said}"
    );
    let said = reminder(11, Some(("2026-02-28", 10))).expect("it is old");
    assert!(said.starts_with("1 entry is new"), "{said}");
    // Nothing is new, or less is there than then.
    assert_eq!(reminder(10, Some(("2020-01-01", 10))), None);
    assert_eq!(reminder(9, Some(("2020-01-01", 10))), None);
    // A clock set back: the copy is of the future, and not old.
    assert_eq!(reminder(50, Some(("2026-04-30", 10))), None);
}

#[test]
fn what_was_read_in_is_told_as_text() {
    let hostile = import("<script>alert(1)</script>\n");
    let said = view::read_in(&hostile).into_string();
    assert!(
        said.contains("nothing of a ledger of this page") && said.contains("1 line is no entry"),
        "{said}"
    );
    assert!(said.contains("&lt;script&gt;") && !said.contains("<script"), "{said}");
    let taken = TakenIn {
        new: 3,
        known: 1,
        trouble: Some(DoorError::Full),
        ..TakenIn::default()
    };
    let said = view::taken_in(&taken).into_string();
    assert!(
        said.contains("3 entries new, 1 entry here already; the rest was not taken in: "),
        "{said}"
    );
    let too_large = Import {
        complaints: vec![Complaint::TooLarge],
        ..Import::default()
    };
    assert!(view::read_in(&too_large).into_string().contains("it was not read"));
}

/// Every fault has its own sentence, and says whether the entry is lost.
#[test]
fn what_the_store_did_not_take_is_told() {
    let all = [(true, true), (true, false), (false, true), (false, false)].map(|(s, m)| view::written_down(s, m));
    for (at, said) in all.iter().enumerate() {
        assert!(!all[..at].contains(said), "{said}");
    }
    assert_eq!(all[0], "Written down.");
    assert!(all[3].starts_with("Not written down"));
    let said = view::unkept(1, DoorError::Full, true);
    assert!(
        said.starts_with("The browser’s store is full: one entry of the ledger is in the second copy only."),
        "{said}"
    );
    let said = view::unkept(2, DoorError::NotKept, false);
    assert!(
        said.contains("2 entries of the ledger are on this page only, and forgotten when you leave it."),
        "{said}"
    );
}
