//! What the log is asked for: words that all must occur, days, a bottle, or one session.

use super::Logged;
use crate::fields::{BOTTLE, FROM, Fault, Form, LOG_SESSION, LOG_WORDS, Named, TO};
use crate::ledger::Shelf;
use crate::quantity::text::split_at_word;
use crate::quantity::{Day, Units};
use crate::session::Session;

/// The sessions that were asked for.
#[derive(Clone, Debug, PartialEq)]
pub struct Found<'a> {
    /// They, the last first; among them those of these days that cannot be read, unless something is asked that only reading
    /// tells.
    pub sessions: Vec<Logged<'a>>,
    /// How many there are in all.
    pub of: usize,
    /// How many of these days cannot be read, and so could not be searched.
    pub not_searched: usize,
    /// What is wrong with the question; the rest of it is answered.
    pub faults: Vec<Fault>,
}

/// The question.
struct Asked {
    words: Vec<String>,
    from: Option<Day>,
    to: Option<Day>,
    bottle: Option<String>,
    session: Option<String>,
}

impl<'a> Found<'a> {
    /// The sessions of the shelf that the fields ask for: `words`, `from`, `to`, `bottle`, `session`; all where they are blank.
    pub fn of(shelf: &'a Shelf, named: &Named) -> Self {
        let mut form = Form::new(named, Units::default());
        form.refuse_unknown(&[&LOG_WORDS, &FROM, &TO, &BOTTLE, &LOG_SESSION]);
        let words = form.read(&LOG_WORDS).unwrap_or_default();
        let asked = Asked {
            words: words.split_whitespace().map(folded).collect(),
            from: form.read(&FROM),
            to: form.read(&TO),
            bottle: form.read(&BOTTLE),
            session: form.read(&LOG_SESSION),
        };
        if asked.from.zip(asked.to).is_some_and(|(from, to)| from > to) {
            form.fault("to", "the last day comes before the first");
        }
        let mut found = Self {
            sessions: Vec::new(),
            of: 0,
            not_searched: 0,
            faults: form.into_faults(),
        };
        for logged in Logged::all(shelf) {
            found.of += 1;
            let day = logged.event.day;
            let is_early = asked.from.is_some_and(|from| day < from);
            let is_late = asked.to.is_some_and(|to| to < day);
            let is_other = asked
                .session
                .as_ref()
                .is_some_and(|id| *id != logged.event.id.to_string());
            if is_early || is_late || is_other {
                continue;
            }
            match &logged.session {
                Ok(session) if !asked.matches(session) => {}
                Err(_) if asked.looks_inside() => found.not_searched += 1,
                _ => found.sessions.push(logged),
            }
        }
        found
    }

    /// Film units of all that can be read.
    pub fn film_units(&self) -> f64 {
        let mut all = 0.0;
        for session in self.sessions.iter().flat_map(|logged| &logged.session) {
            all += session.recipe.units;
        }
        all
    }
}

impl Asked {
    fn looks_inside(&self) -> bool {
        !self.words.is_empty() || self.bottle.is_some()
    }

    fn matches(&self, session: &Session) -> bool {
        let recipe = &session.recipe;
        let from_it = |bottle: &String| recipe.baths.iter().any(|bath| bath.bottle == *bottle);
        if !self.bottle.as_ref().is_none_or(from_it) {
            return false;
        }
        if self.words.is_empty() {
            return true;
        }
        let mut all = vec![recipe.title.as_str(), &recipe.films, &session.note];
        for bath in &recipe.baths {
            all.extend_from_slice(&[bath.kind.word(), &bath.words]);
        }
        for step in &recipe.steps {
            all.extend_from_slice(&[step.kind.word(), &step.name]);
        }
        let all = folded(&all.join("\n"));
        self.words.iter().all(|word| split_at_word(&all, word).is_some())
    }
}

/// Latin letters with a mark, small and capital, by what they are without it.
const MARKED: [(&str, &str); 23] = [
    ("a", "àáâãäåāĀăĂąĄ"),
    ("ae", "æ"),
    ("c", "çćĆĉĈċĊčČ"),
    ("d", "ďĎđĐð"),
    ("e", "èéêëēĒĕĔėĖęĘěĚ"),
    ("g", "ĝĜğĞġĠģĢ"),
    ("h", "ĥĤħĦ"),
    ("i", "ìíîïĩĨīĪĭĬįĮıİ"),
    ("ij", "ĳĲ"),
    ("j", "ĵĴ"),
    ("k", "ķĶ"),
    ("l", "ĺĹļĻľĽŀĿłŁ"),
    ("n", "ñńŃņŅňŇŉŋŊ"),
    ("o", "òóôõöøōŌŏŎőŐ"),
    ("oe", "œŒ"),
    ("r", "ŕŔŗŖřŘ"),
    ("s", "śŚŝŜşŞšŠșȘſ"),
    ("ss", "ß"),
    ("t", "ţŢťŤŧŦțȚ"),
    ("u", "ùúûüũŨūŪŭŬůŮűŰųŲ"),
    ("w", "ŵŴ"),
    ("y", "ýÿŷŶŸ"),
    ("z", "źŹżŻžŽ"),
];

/// A text for finding: small letters of Latin, Greek and Cyrillic, those of Latin without their marks. Marks that stand for
/// themselves (U+0300 to U+036F) go too. The standard library's table of all letters would weigh more than the rest of the log.
fn folded(text: &str) -> String {
    let mut plain = String::with_capacity(text.len());
    for letter in text.chars() {
        let up = |by: u32| char::from_u32(u32::from(letter) + by).unwrap_or(letter);
        let small = match letter {
            'A'..='Z' | 'À'..='Ö' | 'Ø'..='Þ' | 'Α'..='Ω' | 'А'..='Я' => up(32),
            'Ѐ'..='Џ' => up(80),
            '\u{300}'..='\u{36f}' => continue,
            other => other,
        };
        let found = match small.is_ascii() {
            true => None,
            false => MARKED
                .iter()
                .find(|(_, marked)| marked.chars().any(|other| other == small)),
        };
        match found {
            Some((without, _)) => plain.push_str(without),
            None => plain.push(small),
        }
    }
    plain
}

/// Whether two texts are the same but for case and marks.
pub(super) fn same(one: &str, other: &str) -> bool {
    folded(one) == folded(other)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn case_and_marks_are_passed_over() {
        let check = |text: &str, plain: &str| assert_eq!(folded(text), plain, "{text}");
        check("Blue Syrup 1+31", "blue syrup 1+31");
        check(
            "Étude à l’ÉGLISE, Ångström, Łódź, İzmir",
            "etude a l’eglise, angstrom, lodz, izmir",
        );
        check("e\u{301}t", "et");
        check("Straße ŒUVRE × ÷", "strasse oeuvre × ÷");
        check("ΑΘΗΝΑ ЁЛКА Москва", "αθηνα ёлка москва");
    }

    /// Against the standard library, whose small letters it must not miss in these scripts.
    #[test]
    fn a_capital_and_its_small_letter_are_one() {
        let letters = ('A'..='Z').chain('À'..='ſ').chain('Α'..='Ω').chain('Ѐ'..='Я');
        for letter in letters {
            let small: String = letter.to_lowercase().collect();
            assert_eq!(folded(&letter.to_string()), folded(&small), "{letter}");
        }
    }
}
