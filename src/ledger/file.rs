//! The ledger as one text file, to take along and to keep elsewhere.
//!
//! ```text
//! meniscus ledger, format 1, 2026-03-01, 2 events, 1 unread
//! 1 5f3c01aa {"id":"…","at":…,"day":"…","what":{…}}
//! 1 70b2c9d3 {"id":"…","at":…,"day":"…","what":{…}}
//! entries that could not be read, as they were:
//! unread 1 0c9e1f02 {"key":"…","text":"…"}
//! ```
//!
//! Every line stands for itself, so a damaged one costs no other.

use std::fmt;

use super::event::Event;
use super::merge::Ledger;
use super::record::{key_of_unread, read};
use super::written;
use crate::quantity::Day;
use crate::quantity::text::split_at_word;
use crate::store::{EVENTS, RecordError, line};

/// What a text held.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Import {
    /// Everything that can be kept.
    pub ledger: Ledger,
    /// Lines that cannot, the first hundred of them.
    pub rejected: Vec<Rejected>,
    /// How many lines cannot be kept.
    pub rejections: usize,
    /// What is wrong with the file as a whole.
    pub complaints: Vec<Complaint>,
}

/// A line that cannot be kept.
#[derive(Clone, Debug, PartialEq)]
pub struct Rejected {
    /// Its number, from 1.
    pub line: usize,
    /// How it begins.
    pub start: String,
    /// Why.
    pub why: RecordError,
}

/// What is wrong with a file as a whole. The display is what the user reads.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Complaint {
    /// It is larger than any ledger, and was not read.
    TooLarge,
    /// There is nothing of a ledger in it.
    NotALedger,
    /// Its first line is not that of a ledger.
    NoHeader,
    /// It was written by a later version.
    Later(u32),
    /// It holds less than its first line says.
    Incomplete {
        /// Entries that its first line speaks of.
        said: usize,
        /// Lines that there are.
        found: usize,
    },
}

/// The format that is written now. Every earlier one is still read.
const FORMAT: u32 = 1;
/// The largest file that is read, in bytes: several times what a browser's store holds.
pub const LARGEST: usize = 32 << 20;
const HEAD: &str = "meniscus ledger, format ";
const UNREAD_HEAD: &str = "entries that could not be read, as they were:";
const UNREAD: &str = "unread ";
/// As many rejected lines are shown.
const MOST_SHOWN: usize = 100;

/// The whole ledger as the text of a file.
pub fn export(ledger: &Ledger, today: Day) -> String {
    let (events, unread) = (ledger.events.len(), ledger.unread.len());
    let mut text = format!("{HEAD}{FORMAT}, {today}, {events} events, {unread} unread\n");
    for event in &ledger.events {
        text.push_str(&event.to_text());
        text.push('\n');
    }
    if unread > 0 {
        text.push_str(UNREAD_HEAD);
        text.push('\n');
    }
    for entry in &ledger.unread {
        let json = written::entry_to_json(&entry.key, &entry.text);
        text.push_str(UNREAD);
        text.push_str(&line::seal(FORMAT, &json));
        text.push('\n');
    }
    text
}

/// Reads a text, whatever it is.
pub fn import(text: &str) -> Import {
    let mut import = Import::default();
    if text.len() > LARGEST {
        import.complaints.push(Complaint::TooLarge);
        return import;
    }
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    let mut said = None;
    let mut found = 0;
    for (index, line) in text.lines().enumerate() {
        let line = line.trim_end();
        if line.is_empty() || line == UNREAD_HEAD {
            continue;
        }
        if let Some(head) = line.strip_prefix(HEAD) {
            said = header(head, &mut import.complaints).or(said);
            continue;
        }
        found += 1;
        if let Err(why) = import.take(line) {
            import.reject(index + 1, line, why);
        }
    }
    let held = import.ledger.events.len() + import.ledger.unread.len();
    match said {
        None if held == 0 => import.complaints.push(Complaint::NotALedger),
        None => import.complaints.push(Complaint::NoHeader),
        Some(said) if said > found => import.complaints.push(Complaint::Incomplete { said, found }),
        Some(_) => {}
    }
    import.ledger = std::mem::take(&mut import.ledger).tidied();
    import
}

impl Import {
    /// Takes a line, or says why not.
    fn take(&mut self, line: &str) -> Result<(), RecordError> {
        let (key, text) = match line.strip_prefix(UNREAD) {
            Some(sealed) => {
                let json = line::unseal(sealed, FORMAT)?;
                let (key, text) = written::entry_from_json(json).map_err(RecordError::Content)?;
                if !key.starts_with(EVENTS) {
                    return Err(RecordError::Content("its key is not that of an event".to_owned()));
                }
                (Some(key), text)
            }
            None => (None, line.to_owned()),
        };
        match Event::from_text(&text) {
            Ok(event) => self.ledger.events.push(event),
            Err(why) => {
                // What was damaged on its way is whole where it came from; what this version is too old for is carried along.
                let carried = matches!(why, RecordError::Later(_) | RecordError::Content(_));
                let own = || key_of_unread(&text).filter(|_| carried);
                let key = key.or_else(own).ok_or(why)?;
                self.ledger.unread.extend(read(&key, &text).err());
            }
        }
        Ok(())
    }

    fn reject(&mut self, line: usize, text: &str, why: RecordError) {
        self.rejections += 1;
        if self.rejected.len() < MOST_SHOWN {
            let start = text.chars().take(60).collect();
            self.rejected.push(Rejected { line, start, why });
        }
    }
}

/// How many entries the first line speaks of.
fn header(head: &str, complaints: &mut Vec<Complaint>) -> Option<usize> {
    let (format, rest) = split_at_word(head, ", ")?;
    let (_day, rest) = split_at_word(rest, ", ")?;
    let (events, rest) = split_at_word(rest, ", ")?;
    let unread = split_at_word(rest, ", ").map_or(rest, |(unread, _)| unread);
    let format: u32 = format.parse().ok()?;
    if format > FORMAT {
        complaints.push(Complaint::Later(format));
    }
    let events: usize = events.strip_suffix(" events")?.parse().ok()?;
    let unread: usize = unread.strip_suffix(" unread")?.parse().ok()?;
    events.checked_add(unread)
}

impl fmt::Display for Complaint {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::TooLarge => write!(
                f,
                "The file is larger than {} million characters, which no ledger of this page is; it was not read.",
                LARGEST >> 20
            ),
            Self::NotALedger => f.write_str("There is nothing of a ledger of this page in the file."),
            Self::NoHeader => f.write_str(
                "The file does not begin as a ledger of this page does; what could be read of it was taken.",
            ),
            Self::Later(format) => write!(
                f,
                "The file was written by a later version of this page (format {format}); what could be read of it was taken."
            ),
            Self::Incomplete { said, found } => write!(
                f,
                "The file should hold {said} entries and holds {found}: a part of it is missing. What is there was taken."
            ),
        }
    }
}

impl fmt::Display for Rejected {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "Line {}: {} (“{}”).", self.line, self.why, self.start)
    }
}
