//! The copy of the ledger: what is said of it, and what came of a copy that was read in.

use maud::{Markup, html};

use crate::ledger::{Import, TakenIn, Usage};
use crate::quantity::Day;
use crate::store::DoorError;

/// What is known of copies and of the browser's store.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Copies {
    /// Entries of the ledger now.
    pub entries: usize,
    /// When the last copy was saved, and how many entries there were then.
    pub last: Option<(Day, usize)>,
    /// Whether the browser has promised not to clear the store by itself, where that is known.
    pub promised: Option<bool>,
    /// How full the store is, where that is known.
    pub usage: Option<Usage>,
}

/// Days after which a copy is old, once there is something new. Common practice, no source.
const OLD: i32 = 30;
/// So many entries may be without any copy.
const FEW: usize = 20;

impl Copies {
    /// What to do about a copy that is missing or old.
    pub fn reminder(&self, today: Day) -> Option<String> {
        match self.last {
            None if self.entries > FEW => Some(format!(
                "There are {} entries and no copy of them. Save one, and keep it elsewhere.",
                self.entries
            )),
            Some((day, then)) if self.entries > then && today - day > OLD => Some(format!(
                "{} since the last copy, which is {} days old. Save a new one, and keep it elsewhere.",
                match self.entries - then {
                    1 => "1 entry is new".to_owned(),
                    new => format!("{new} entries are new"),
                },
                today - day
            )),
            _ => None,
        }
    }
}

/// What is said of the ledger's copies.
pub fn copies(copies: &Copies, today: Day) -> Markup {
    html! {
        @if let Some(reminder) = copies.reminder(today) { p.notice { (reminder) } }
        @if let Some(warning) = copies.usage.and_then(Usage::warning) { p.notice { (warning) } }
        p {
            @match copies.last {
                Some((day, _)) => { "Last copy saved: " (day) "." }
                None => { "No copy saved yet." }
            }
            @if let Some(usage) = copies.usage { " Here: " (usage) "." }
        }
        @match copies.promised {
            Some(true) => p { "The browser has promised not to clear this by itself." }
            Some(false) => p {
                "The browser has not promised to keep this: it may clear it when room is short, or after weeks without a visit."
            }
            None => {}
        }
    }
}

/// What is wrong with a copy that was read.
pub fn read_in(import: &Import) -> Markup {
    html! {
        @for complaint in &import.complaints { p { (complaint) } }
        @if import.rejections > 0 {
            p {
                (import.rejections) @if import.rejections == 1 { " line is" } @else { " lines are" }
                " no entry of a ledger, or damaged; passed over."
            }
            details {
                summary { "Show them" }
                @for line in &import.rejected { p { (line) } }
                @if import.rejections > import.rejected.len() { p { "And more." } }
            }
        }
    }
}

/// What came of taking a copy in.
pub fn taken_in(taken: &TakenIn) -> Markup {
    html! { p { "Read in: " (taken) "." } }
}

/// What is said once an entry was written: whether the store has it, and whether the second copy does.
pub fn written_down(stored: bool, mirrored: bool) -> &'static str {
    match (stored, mirrored) {
        (true, true) => "Written down.",
        (true, false) => {
            "Written down. But this browser keeps no second copy: if it is stopped within a minute, the entry may be lost."
        }
        (false, true) => "Written down, in the second copy only.",
        (false, false) => {
            "Not written down: it is forgotten when you leave this page. Save a copy of the ledger, in Shelf."
        }
    }
}

/// What is said of entries that the store did not take: how many, why, and whether the second copy has them all.
pub fn unkept(count: usize, why: DoorError, mirrored: bool) -> String {
    let why = match why {
        DoorError::Full => "The browser’s store is full",
        DoorError::NotKept => "The browser’s store did not keep what was written",
        DoorError::Absent | DoorError::Blocked => "The browser’s store cannot be used",
    };
    let entries = match count {
        1 => "one entry of the ledger is".to_owned(),
        _ => format!("{count} entries of the ledger are"),
    };
    let place = match mirrored {
        true => "in the second copy only",
        false => "on this page only, and forgotten when you leave it",
    };
    format!(
        "{why}: {entries} {place}. Save a copy of the ledger now, in Shelf; clearing data of other pages from this address makes \
         room."
    )
}
