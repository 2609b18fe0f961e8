//! The words of a line, sorted out: what is a name, what a time, what a temperature, what agitation.

use super::{AGITATION, LineError, STEP, WARMTH};
use crate::quantity::read::{self, ReadError};
use crate::quantity::{Bounds, Span, Temperature, Units};

/// What the words of a line say.
#[derive(Default)]
pub(super) struct Words<'a> {
    /// The name, word by word.
    pub name: Vec<&'a str>,
    /// How long the step takes.
    pub time: Option<Span>,
    /// How warm it is.
    pub temperature: Option<Temperature>,
    /// Agitation at first.
    pub first: Option<Span>,
    /// How long, and from the beginning of one to that of the next.
    pub pulse: Option<(Span, Span)>,
}

/// Most words of one time: `6 min 45 s`.
const MOST_WORDS: usize = 4;
/// Words that join one clause to the next, or say no more than that agitation is agitation.
const JOINTS: [&str; 8] = ["then", "and", "for", "the", "with", "agitate", "agitation", "agitating"];
/// What is marked before a step in a list.
const BULLETS: [char; 4] = ['-', '–', '*', '•'];

impl<'a> Words<'a> {
    /// Sorts out the words of a line.
    pub fn read(text: &'a str, units: Units) -> Result<Self, LineError> {
        let mut found = Self::default();
        let text = text.trim_start_matches(BULLETS).trim().trim_end_matches('.');
        for clause in clauses(text) {
            let mut words: Vec<&str> = clause.split_whitespace().flat_map(apart).collect();
            if found.is_empty() {
                drop_number(&mut words);
            }
            found.clause(&words, units)?;
        }
        Ok(found)
    }

    /// Whether nothing was found yet.
    fn is_empty(&self) -> bool {
        self.name.is_empty() && self.time.is_none() && self.temperature.is_none() && !self.has_agitation()
    }

    fn has_agitation(&self) -> bool {
        self.first.is_some() || self.pulse.is_some()
    }

    /// What stands between two commas: takes out what a word announces, and then the same of what stood before and behind it.
    fn clause(&mut self, words: &[&'a str], units: Units) -> Result<(), LineError> {
        if let Some(at) = position(words, "every") {
            let each = ending(&words[..at], |text| span(text, &AGITATION, units));
            let every = beginning(&words[at + 1..], |text| match is(text, "minute") || is(text, "min") {
                true => Some(Ok(Span::from_minutes(1.0))),
                false => span(text, &AGITATION, units),
            });
            let (Some((before, each)), Some((behind, every))) = (each, every) else {
                return Err(LineError::HalfAnAgitation);
            };
            once(&mut self.pulse, (each?, every?), "how often to agitate")?;
            self.clause(without_joints(&words[..before]), units)?;
            return self.clause(&words[at + 1 + behind..], units);
        }
        if let Some((from, to, first)) = first(words, units) {
            once(&mut self.first, first?, "how long to agitate at first")?;
            self.clause(without_joints(&words[..from]), units)?;
            return self.clause(&words[to..], units);
        }
        if let Some(at) = position(words, "at") {
            let warm = beginning(&words[at + 1..], |text| temperature(text, units));
            let Some((behind, warm)) = warm else {
                return Err(LineError::NoTemperature(read::short(&words[at + 1..].join(" "))));
            };
            once(&mut self.temperature, warm?, "how warm it is")?;
            self.clause(&words[..at], units)?;
            return self.clause(&words[at + 1 + behind..], units);
        }
        self.named(words, units)
    }

    /// A name with or without a time; or a time alone.
    fn named(&mut self, words: &[&'a str], units: Units) -> Result<(), LineError> {
        let time = |text: &str| span(text, &STEP, units);
        // In front of a name a bare number is none: 5 yards are not 5 minutes of yards.
        let in_front = |text: &str| {
            time(text).filter(|_| text.contains(|letter: char| letter == ':' || letter.is_ascii_alphabetic()))
        };
        let (name, time) = match (ending(words, time), beginning(words, in_front)) {
            (Some((before, time)), _) => (&words[..before], Some(time?)),
            (None, Some((behind, time))) => (&words[behind..], Some(time?)),
            (None, None) => (words, None),
        };
        if let Some(time) = time {
            once(&mut self.time, time, "how long it takes")?;
        }
        let bare: Vec<&str> = name.iter().map(|word| word.trim_end_matches(':')).collect();
        // What begins like a number was meant as a time, but for which of several steps it is, at the end.
        let begins = |word: &&str| word.starts_with(|letter: char| letter.is_ascii_digit());
        let is_odd = |at: usize| begins(&bare[at]) && !(is_count(bare[at]) && at > 0 && at + 1 == bare.len());
        if let Some(odd) = (0..bare.len()).find(|at| is_odd(*at)) {
            return Err(match time {
                Some(_) if odd > 0 => LineError::NotUnderstood(read::short(&bare[odd..].join(" "))),
                _ => LineError::Reading(ReadError::NotATime(read::short(&words[odd..].join(" ")))),
            });
        }
        match self.name.is_empty() {
            true => self.name = bare.into_iter().filter(|word| !word.is_empty()).collect(),
            false => {
                let rest = without_joints(name);
                if !rest.is_empty() {
                    return Err(LineError::NotUnderstood(read::short(&rest.join(" "))));
                }
            }
        }
        Ok(())
    }
}

/// The clauses of a line, parted by commas; one between digits is a decimal comma, unless the number is a clock's.
fn clauses(text: &str) -> Vec<&str> {
    let bytes = text.as_bytes();
    let is_digit = |at: Option<usize>| at.and_then(|at| bytes.get(at)).is_some_and(u8::is_ascii_digit);
    let mut all = Vec::new();
    let mut start = 0;
    for (at, _) in text.match_indices(',') {
        let word = text[start..at].rsplit(char::is_whitespace).next().unwrap_or_default();
        let is_decimal = is_digit(at.checked_sub(1)) && is_digit(Some(at + 1)) && !word.contains([':', ',']);
        if !is_decimal {
            all.push(&text[start..at]);
            start = at + 1;
        }
    }
    all.push(&text[start..]);
    all
}

/// A word, or the sign for “at” and what stands before and behind it.
fn apart(word: &str) -> impl Iterator<Item = &str> {
    let parts = match word.split_once('@') {
        Some((before, behind)) => [before, "at", behind],
        None => [word, "", ""],
    };
    parts.into_iter().filter(|part| !part.is_empty())
}

/// Takes off the number of a numbered list: `1.` or `2)`.
fn drop_number(words: &mut Vec<&str>) {
    let number = words.first().and_then(|word| word.strip_suffix(['.', ')']));
    if words.len() > 1 && number.is_some_and(is_count) {
        words.remove(0);
    }
}

/// A small whole number: which of several steps it is.
fn is_count(word: &str) -> bool {
    (1..=2).contains(&word.len()) && word.bytes().all(|byte| byte.is_ascii_digit())
}

fn is(word: &str, other: &str) -> bool {
    word.eq_ignore_ascii_case(other)
}

fn position(words: &[&str], wanted: &str) -> Option<usize> {
    words.iter().position(|word| is(word, wanted))
}

/// Without the joints at its end.
fn without_joints<'a, 'b>(mut words: &'b [&'a str]) -> &'b [&'a str] {
    while let Some((last, before)) = words.split_last()
        && JOINTS.iter().any(|joint| is(last, joint))
    {
        words = before;
    }
    words
}

/// `first 30 s`, `at first 30 s`, `30 s first`: from which word to which, and how long. The first of several washes is none.
fn first(words: &[&str], units: Units) -> Option<(usize, usize, Result<Span, LineError>)> {
    let at = position(words, "first")?;
    let from = match at.checked_sub(1) {
        Some(before) if is(words[before], "at") => before,
        _ => at,
    };
    let time = |text: &str| span(text, &AGITATION, units);
    if let Some((behind, first)) = beginning(&words[at + 1..], time) {
        return Some((from, at + 1 + behind, first));
    }
    let (before, first) = ending(&words[..from], time)?;
    (from < at || at + 1 == words.len()).then_some((before, at + 1, first))
}

/// The longest run of words at the end that reads as what is wanted: where it begins, and what it is.
fn ending<T>(
    words: &[&str],
    read: impl Fn(&str) -> Option<Result<T, LineError>>,
) -> Option<(usize, Result<T, LineError>)> {
    let longest = words.len().saturating_sub(MOST_WORDS);
    (longest..words.len()).find_map(|from| Some((from, read(&words[from..].join(" "))?)))
}

/// The longest run of words at the beginning that reads as what is wanted: how many they are, and what it is.
fn beginning<T>(
    words: &[&str],
    read: impl Fn(&str) -> Option<Result<T, LineError>>,
) -> Option<(usize, Result<T, LineError>)> {
    let longest = words.len().min(MOST_WORDS);
    (1..=longest)
        .rev()
        .find_map(|to| Some((to, read(&words[..to].join(" "))?)))
}

/// A time, or one that is out of its range; `None` where it is no time.
fn span(text: &str, bounds: &'static Bounds, units: Units) -> Option<Result<Span, LineError>> {
    if !descends(text) {
        return None;
    }
    held(read::span(text, bounds, units))
}

/// Whether each unit of time is smaller than the one before it: else it is two times, one behind the other.
fn descends(text: &str) -> bool {
    let units = text.split(|letter: char| !letter.is_ascii_alphabetic());
    let size = |unit: &str| match unit.as_bytes().first().map(u8::to_ascii_lowercase) {
        Some(b'h') => Some(3),
        Some(b'm') => Some(2),
        Some(b's') => Some(1),
        _ => None,
    };
    let sizes: Vec<u8> = units.filter_map(size).collect();
    sizes.windows(2).all(|two| two[0] > two[1])
}

/// The same of a temperature.
fn temperature(text: &str, units: Units) -> Option<Result<Temperature, LineError>> {
    held(read::temperature(text, &WARMTH, units))
}

fn held<T>(read: Result<T, ReadError>) -> Option<Result<T, LineError>> {
    match read {
        Ok(value) => Some(Ok(value)),
        Err(error @ (ReadError::OutOfRange(..) | ReadError::PerhapsFahrenheit(_))) => {
            Some(Err(LineError::Reading(error)))
        }
        Err(_) => None,
    }
}

/// Puts it in its place, unless something stands there.
fn once<T>(place: &mut Option<T>, value: T, what: &'static str) -> Result<(), LineError> {
    match place.replace(value) {
        Some(_) => Err(LineError::Twice(what)),
        None => Ok(()),
    }
}
