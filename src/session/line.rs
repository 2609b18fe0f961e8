//! Steps as people write them, one a line: `develop 6:45 at 20 C, first 30 s, 10 s every 1:00`.
//!
//! The clauses may stand in any order, and all but the name may be left out. Whatever a line says that cannot be taken is told;
//! nothing is silently dropped.

mod words;

use std::fmt;

use super::{Agitation, StepKind};
use crate::quantity::{Bounds, Span, Temperature, Units, exact, read};
use words::Words;

/// One line of a recipe.
#[derive(Clone, Debug, PartialEq)]
pub struct Line {
    /// What kind of step it is, by its name.
    pub kind: StepKind,
    /// Its name, as it was written.
    pub name: String,
    /// How long it takes, where the line says so.
    pub time: Option<Span>,
    /// How warm it is, where the line says so.
    pub temperature: Option<Temperature>,
    /// When to agitate, where the line says so.
    pub agitation: Option<Agitation>,
}

/// The lines of a text as far as they could be read, each with its number; blank ones are not counted.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Lines {
    /// What could be read.
    pub lines: Vec<(usize, Line)>,
    /// What could not.
    pub faults: Vec<LineFault>,
}

/// What is wrong with which line.
#[derive(Clone, Debug, PartialEq)]
pub struct LineFault {
    /// Number of the line.
    pub line: usize,
    /// What is wrong.
    pub error: LineError,
}

/// Why a line is not a step.
#[derive(Clone, Debug, PartialEq)]
pub enum LineError {
    /// It does not say what is done.
    NoName,
    /// Its name is longer than any list has room for.
    NameTooLong,
    /// It is longer than any step.
    TooLong,
    /// There are more steps than a developing has.
    TooMany,
    /// A time or a temperature of it cannot be read.
    Reading(read::ReadError),
    /// What follows “at” is no temperature.
    NoTemperature(String),
    /// “every” without how long, or without how often.
    HalfAnAgitation,
    /// Agitation that is longer than the time from one to the next.
    LongerThanEvery(String, String),
    /// Agitation at first that is longer than the step.
    LongerThanStep(String),
    /// Words that belong to nothing.
    NotUnderstood(String),
    /// Something that it says twice.
    Twice(&'static str),
}

/// Most steps of one developing.
const MOST_LINES: usize = 40;
/// Longest line, in characters.
const LONGEST_LINE: usize = 160;
/// Longest name, in characters.
const LONGEST_NAME: usize = 40;

/// How long one step takes, in seconds.
pub const STEP: Bounds = Bounds {
    what: "the time of a step",
    least: 1.0,
    most: 43_200.0,
    why: "from a second to half a day",
};
/// A time of agitation, in seconds.
const AGITATION: Bounds = Bounds {
    what: "a time of agitation",
    least: 1.0,
    most: 3_600.0,
    why: "from a second to an hour",
};
/// How warm a bath or water is, in degrees Celsius.
const WARMTH: Bounds = Bounds {
    what: "the temperature of a step",
    least: 1.0,
    most: 60.0,
    why: "as baths and water are",
};

/// Words of the trade for each kind of step, without hyphens and in lower case.
const SYNONYMS: [(StepKind, &[&str]); 8] = [
    (
        StepKind::Prewet,
        &[
            "prewet", "pre wet", "presoak", "pre soak", "soak", "prewash", "pre wash",
        ],
    ),
    (
        StepKind::Develop,
        &["develop", "developer", "development", "developing", "dev"],
    ),
    (
        StepKind::Stop,
        &["stop", "stop bath", "stopbath", "acid stop", "water stop"],
    ),
    (StepKind::Fix, &["fix", "fixer", "fixing", "fixing bath", "fixer bath"]),
    (StepKind::Rinse, &["rinse", "rinsing", "water rinse", "water"]),
    (
        StepKind::WashAid,
        &["wash aid", "washaid", "washing aid", "clearing bath", "clearing agent"],
    ),
    (StepKind::Wash, &["wash", "washing", "water wash"]),
    (
        StepKind::WettingAgent,
        &["wetting agent", "wetting", "wetting bath", "wetter"],
    ),
];
/// Words that tell one step of a kind from another and do not change the kind.
const WHICH: [&str; 7] = ["first", "second", "third", "final", "last", "another", "again"];

/// Every step of a text, one a line or parted by semicolons.
///
/// ```
/// use meniscus::quantity::Units;
/// use meniscus::session::{StepKind, read_lines};
///
/// let read = read_lines("Develop 6:45, first 30 s\n\nfix 4,5 min at 68 F; wash soon 10:00 or so", Units::default());
/// let (number, fix) = &read.lines[1];
/// assert_eq!((*number, fix.kind, fix.time.map(|time| time.seconds())), (2, StepKind::Fix, Some(270.0)));
/// assert_eq!(read.faults[0].to_string(), "line 3: “10:00 or so” is not a time; write 6:45, 6m45s, 6 3/4 or 405 s");
/// ```
pub fn read_lines(text: &str, units: Units) -> Lines {
    let mut lines = Lines::default();
    let pieces = text.split(['\n', ';']).map(str::trim).filter(|line| !line.is_empty());
    for (line, piece) in (1..).zip(pieces) {
        let read = match line > MOST_LINES {
            true => Err(LineError::TooMany),
            false => Line::read(piece, units),
        };
        match read {
            Ok(read) => lines.lines.push((line, read)),
            Err(error) => lines.faults.push(LineFault { line, error }),
        }
        if line > MOST_LINES {
            break;
        }
    }
    lines
}

impl StepKind {
    /// The kind that a name of a step says; `Other` where no word of the trade fits.
    pub fn of_name(name: &str) -> Self {
        let plain = name.to_ascii_lowercase().replace('-', " ");
        let says = |word: &&str| !WHICH.contains(word) && !word.bytes().all(|byte| byte.is_ascii_digit());
        let plain: Vec<&str> = plain.split_whitespace().filter(says).collect();
        let plain = plain.join(" ");
        let found = SYNONYMS.iter().find(|(_, words)| words.contains(&plain.as_str()));
        found.map_or(Self::Other, |(kind, _)| *kind)
    }
}

impl Line {
    /// A line as it was written.
    ///
    /// # Errors
    /// Any [`LineError`] but `TooMany`.
    pub fn read(text: &str, units: Units) -> Result<Self, LineError> {
        if text.chars().count() > LONGEST_LINE {
            return Err(LineError::TooLong);
        }
        let words = Words::read(text, units)?;
        let name = words.name.join(" ");
        if name.is_empty() {
            return Err(LineError::NoName);
        }
        if name.chars().count() > LONGEST_NAME {
            return Err(LineError::NameTooLong);
        }
        let agitation = (words.first.is_some() || words.pulse.is_some()).then(|| {
            let nothing = Span::from_seconds(0.0);
            let (each, every) = words.pulse.unwrap_or((nothing, nothing));
            Agitation {
                first: words.first.unwrap_or(nothing),
                each,
                every,
            }
        });
        if let Some((each, every)) = words.pulse.filter(|(each, every)| each > every) {
            return Err(LineError::LongerThanEvery(units.span(each), units.span(every)));
        }
        if let (Some(first), Some(time)) = (words.first, words.time)
            && first > time
        {
            return Err(LineError::LongerThanStep(units.span(first)));
        }
        Ok(Self {
            kind: StepKind::of_name(&name),
            name,
            time: words.time,
            temperature: words.temperature,
            agitation,
        })
    }

    /// The line as it can be read again, in these units.
    pub fn text(&self, units: Units) -> String {
        let mut text = self.name.clone();
        if let Some(time) = self.time {
            text.push(' ');
            text.push_str(&exact::span(time, units));
        }
        if let Some(temperature) = self.temperature {
            text.push_str(" at ");
            text.push_str(&exact::temperature(temperature, units));
        }
        if let Some(agitation) = self.agitation {
            text.push_str(", ");
            text.push_str(&agitation.clauses(|span| exact::span(span, units)).join(", "));
        }
        text
    }
}

impl Agitation {
    /// In words, with times as they are to be shown: what is done at first, and what again and again.
    pub fn clauses(&self, show: impl Fn(Span) -> String) -> Vec<String> {
        let first = (self.first > Span::ZERO).then(|| format!("first {}", show(self.first)));
        let again = (self.each > Span::ZERO).then(|| format!("{} every {}", show(self.each), show(self.every)));
        first.into_iter().chain(again).collect()
    }
}

impl fmt::Display for LineFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "line {}: {}", self.line, self.error)
    }
}

impl fmt::Display for LineError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NoName => f.write_str("what is done? Write its name first, such as fix 5:00"),
            Self::NameTooLong => write!(f, "a name has at most {LONGEST_NAME} characters"),
            Self::TooLong => write!(f, "a line has at most {LONGEST_LINE} characters"),
            Self::TooMany => write!(f, "one developing has at most {MOST_LINES} steps"),
            Self::Reading(error) => error.fmt(f),
            Self::NoTemperature(given) if given.is_empty() => {
                f.write_str("“at” wants a temperature behind it, such as at 20 C")
            }
            Self::NoTemperature(given) => write!(f, "“{given}” is not a temperature; write at 20 C"),
            Self::HalfAnAgitation => {
                f.write_str("“every” wants a time before it and one behind it, such as 10 s every 1:00")
            }
            Self::LongerThanEvery(each, every) => write!(
                f,
                "{each} of agitation do not go into {every}; minutes are taken where no unit stands: write 10 s every 1:00"
            ),
            Self::LongerThanStep(first) => write!(f, "the first agitation, {first}, is longer than the step"),
            Self::NotUnderstood(words) => write!(
                f,
                "“{words}” is not understood; write it as fix 5:00 at 20 C, first 30 s, 10 s every 1:00"
            ),
            Self::Twice(what) => write!(f, "it says {what} twice"),
        }
    }
}

impl std::error::Error for LineError {}

#[cfg(test)]
mod tests {
    use super::*;

    fn line(text: &str) -> Line {
        Line::read(text, Units::default()).unwrap_or_else(|error| panic!("{text}: {error}"))
    }

    #[track_caller]
    fn fails(text: &str, sentence: &str) {
        let error = Line::read(text, Units::default()).expect_err(text);
        assert_eq!(error.to_string(), sentence, "{text}");
    }

    /// In any order, with any punctuation, as people write it.
    #[test]
    fn one_step_in_many_words() {
        let wanted = line("develop 6:45 at 20 C, first 30 s, 10 s every 1:00");
        assert_eq!(wanted.kind, StepKind::Develop);
        for text in [
            "develop 6:45 at 20 C first 30 s 10 s every 1:00",
            "develop at 20 C 6:45, 10 s every 1:00, first 30 s",
            "develop, at 20°C, 6m45s, at first 30 s, then 10 s every minute",
            "- develop: 6 min 45 s @ 68 F, 30 s first, then agitate 10s every 60 s.",
            "2. develop 6,75 min @20 C, first 0:30 and 10 s every 1 min",
            "6:45 develop at 20 C, agitate for the first 30 s, then for 10 s every minute",
        ] {
            let read = line(text);
            assert_eq!(
                (&read.name[..], read.time, read.agitation),
                ("develop", wanted.time, wanted.agitation),
                "{text}"
            );
            assert!((read.temperature.expect(text).celsius() - 20.0).abs() < 1e-9, "{text}");
        }
    }

    #[test]
    fn a_name_says_the_kind() {
        for (name, kind) in [
            ("Pre-Wet", StepKind::Prewet),
            ("DEVELOPER", StepKind::Develop),
            ("stop bath", StepKind::Stop),
            ("second fixing bath", StepKind::Fix),
            ("fix 2", StepKind::Fix),
            ("rinse", StepKind::Rinse),
            ("wash-aid", StepKind::WashAid),
            ("First Wash", StepKind::Wash),
            ("final wash", StepKind::Wash),
            ("wetting agent", StepKind::WettingAgent),
            ("tone in selenium", StepKind::Other),
            ("stop it", StepKind::Other),
        ] {
            let read = line(&format!("{name} 2:00"));
            assert_eq!((&read.name[..], read.kind), (name, kind));
            assert_eq!(read.time, Some(Span::from_minutes(2.0)), "{name}");
        }
    }

    #[test]
    fn what_cannot_be_taken_is_told() {
        fails("5:00", "what is done? Write its name first, such as fix 5:00");
        fails(
            "fix -1",
            "the time of a step must be from 1 s to 12:00:00 (from a second to half a day)",
        );
        fails(
            "fix 5 yards",
            "“5 yards” is not a time; write 6:45, 6m45s, 6 3/4 or 405 s",
        );
        fails(
            "develop 1+31",
            "“1+31” is not a time; write 6:45, 6m45s, 6 3/4 or 405 s",
        );
        fails(
            "develop 1+31 6:45",
            "“1+31” is not understood; write it as fix 5:00 at 20 C, first 30 s, 10 s every 1:00",
        );
        fails("wash at the tap", "“the tap” is not a temperature; write at 20 C");
        fails("wash at", "“at” wants a temperature behind it, such as at 20 C");
        fails(
            "wash at 90 C",
            "the temperature of a step must be from 1 °C to 60 °C (as baths and water are)",
        );
        fails(
            "fix every 1:00",
            "“every” wants a time before it and one behind it, such as 10 s every 1:00",
        );
        fails(
            "fix, 10 every 1",
            "10:00 of agitation do not go into 1:00; minutes are taken where no unit stands: write 10 s every 1:00",
        );
        fails(
            "fix 0:20, first 30 s",
            "the first agitation, 0:30, is longer than the step",
        );
        fails("fix 5:00, 6:00", "it says how long it takes twice");
        fails("fix 5:00 at 20 C, at 21 C", "it says how warm it is twice");
        fails(
            "fix first 30 s, first 20 s",
            "it says how long to agitate at first twice",
        );
    }
}
