//! The fields of a planned day: its films, the tanks, the baths at hand, and how one works.

use super::kinds::{Counts, Names, Spans, Volumes};
use super::lists::short;
use super::{Field, Kind};
use crate::kit::Film;
use crate::quantity::bounds::{self, Bounds};
use crate::quantity::{Span, Units, read};

/// Films of one line of a plan.
#[derive(Clone, Debug, PartialEq)]
pub struct FilmLine {
    /// Their format.
    pub film: Film,
    /// How many.
    pub count: u32,
    /// How long they are developed.
    pub time: Option<Span>,
    /// What the user calls them; empty where nothing is said.
    pub name: String,
}

/// A field for films, one kind a line: how many, the format, the developing time, a name.
///
/// ```
/// use meniscus::fields::{FilmLines, Kind};
/// use meniscus::kit::Film;
/// use meniscus::quantity::Units;
///
/// let read = |text| FilmLines.read(text, Units::default());
/// let lines = read("2 x 135 8:30 harbour; 120 11 min; 6 x 4x5").expect("three kinds of film");
/// assert_eq!((lines[0].count, lines[0].film, lines[0].name.as_str()), (2, Film::Roll135, "harbour"));
/// assert_eq!(lines[1].time.map(|time| time.minutes()), Some(11.0));
/// assert_eq!((lines[2].count, lines[2].time), (6, None));
/// assert_eq!(read("2 x 126 8:30").unwrap_err(), "“2 x 126 8:30” names no format; write 2 x 135 8:30, with one of 135, 120, 220, 4x5, 8x10");
/// ```
#[derive(Clone, Copy)]
pub struct FilmLines;

/// Lines of a plan.
const MOST_LINES: usize = 60;
/// Films and sheets of a plan: more than any day by hand.
const MOST_FILMS: u32 = 500;
/// Letters of a name.
const MOST_LETTERS: usize = 40;
/// A number alone up to here is a time in minutes; above it is as likely the beginning of a name.
const BARE_MINUTES: f64 = 60.0;

/// Words for the formats.
const FORMATS: [(&[&str], Film); 5] = [
    (&["135", "35mm"], Film::Roll135),
    (&["120"], Film::Roll120),
    (&["220"], Film::Roll220),
    (&["4x5", "4×5", "4x5in", "4×5in"], Film::Sheet4x5),
    (&["8x10", "8×10", "8x10in", "8×10in"], Film::Sheet8x10),
];
const DEVELOPING: Bounds = Bounds {
    what: "the developing time",
    least: 10.0,
    most: 14_400.0,
    why: "from ten seconds to four hours",
};
const WITHIN_BOUNDS: Bounds = Bounds {
    what: "the difference",
    least: 0.0,
    most: 600.0,
    why: "films further apart want a fill each",
};
const STEP_BOUNDS: Bounds = Bounds {
    what: "the step",
    least: 0.0,
    most: 500.0,
    why: "as totals are measured",
};
const SHEETS_BOUNDS: Bounds = Bounds {
    what: "the number of sheets",
    least: 1.0,
    most: 99.0,
    why: "as holders and drums take",
};
const FILMS_LEFT_BOUNDS: Bounds = Bounds {
    what: "the number of films",
    least: 0.0,
    most: 1_000.0,
    why: "as baths take",
};
const TAKES_BOUNDS: Bounds = Bounds {
    what: "the time",
    least: 0.0,
    most: 43_200.0,
    why: "up to half a day",
};

impl Kind for FilmLines {
    type Value = Vec<FilmLine>;

    fn read(&self, text: &str, units: Units) -> Result<Vec<FilmLine>, String> {
        let pieces = text.split([';', '\n']).map(str::trim).filter(|piece| !piece.is_empty());
        let mut lines: Vec<FilmLine> = Vec::new();
        for (at, piece) in pieces.enumerate() {
            if at == MOST_LINES {
                return Err(format!("a day takes up to {MOST_LINES} lines"));
            }
            let line = line(piece, units)?;
            let same = |other: &&mut FilmLine| other.film == line.film && other.name == line.name;
            match lines.iter_mut().find(same) {
                Some(other) if other.time == line.time => other.count += line.count,
                Some(other) if !line.name.is_empty() => {
                    let show = |time: Option<Span>| time.map_or("no time".to_owned(), |time| units.span(time));
                    return Err(format!(
                        "“{}” of {} has two times, {} and {}; give each a name of its own",
                        short(&line.name),
                        line.film.label(),
                        show(other.time),
                        show(line.time)
                    ));
                }
                _ => lines.push(line),
            }
        }
        match lines.iter().map(|line| line.count).sum::<u32>() {
            0 => Err("write at least one film, as 2 x 135 8:30".to_owned()),
            1..=MOST_FILMS => Ok(lines),
            _ => Err(format!("a day takes up to {MOST_FILMS} films")),
        }
    }

    fn takes(&self, _: Units) -> String {
        "one kind a line, time and name as you like: 2 x 135 8:30 harbour; 6 x 4x5 9 min".to_owned()
    }
}

fn format_of(word: &str) -> Option<Film> {
    let found = FORMATS
        .iter()
        .find(|(words, _)| words.iter().any(|known| word.eq_ignore_ascii_case(known)));
    found.map(|(_, film)| *film)
}

/// One line: `2 x 135 8:30 harbour`.
fn line(piece: &str, units: Units) -> Result<FilmLine, String> {
    let no_format = || {
        format!(
            "“{}” names no format; write 2 x 135 8:30, with one of 135, 120, 220, 4x5, 8x10",
            short(piece)
        )
    };
    let two = |what: &str| format!("“{}” names two {what}; write a line for each", short(piece));
    let words: Vec<&str> = piece.split_whitespace().collect();
    let is_times = |word: Option<&&str>| word.is_some_and(|word| ["x", "X", "×", "*"].contains(word));
    let first = words.first().copied().unwrap_or_default();
    let (count, mut rest): (&str, Vec<&str>) = match format_of(first) {
        Some(_) if !is_times(words.get(1)) => ("1", words),
        _ => {
            let end = first
                .find(|letter: char| !letter.is_ascii_digit())
                .unwrap_or(first.len());
            let (count, glued) = first.split_at(end);
            let glued = glued.trim_start_matches(['x', 'X', '×', '*']);
            let skipped = 1 + usize::from(glued.is_empty() && is_times(words.get(1)));
            let rest = words.iter().skip(skipped).copied();
            (
                count,
                Some(glued)
                    .filter(|glued| !glued.is_empty())
                    .into_iter()
                    .chain(rest)
                    .collect(),
            )
        }
    };
    if count.is_empty() || rest.is_empty() {
        return Err(no_format());
    }
    let count = match count.parse::<u32>() {
        Ok(count @ 1..=MOST_FILMS) => count,
        _ => return Err(format!("“{}”: a line is for 1 to {MOST_FILMS} films", short(piece))),
    };
    if rest.len() > 1 && rest[0] == "35" && rest[1].eq_ignore_ascii_case("mm") {
        rest.splice(..2, ["35mm"]);
    }
    let film = format_of(rest[0]).ok_or_else(no_format)?;
    let is_inches = |word: &&str| film.is_sheet() && word.eq_ignore_ascii_case("in");
    let rest = &rest[1 + usize::from(rest.get(1).is_some_and(is_inches))..];
    if rest.first().is_some_and(|word| format_of(word).is_some()) {
        return Err(two("formats"));
    }
    let (time, name) = time_and_name(rest, units).map_err(|clause| format!("“{}”: {clause}", short(piece)))?;
    let is_time = |word: &&str| word.contains(':') && read::span(word, &DEVELOPING, units).is_ok();
    match name.first() {
        Some(word) if format_of(word).is_some() => return Err(two("formats")),
        Some(word) if is_time(word) => return Err(two("times")),
        _ => {}
    }
    let name = name.join(" ");
    match name.chars().count() <= MOST_LETTERS {
        true => Ok(FilmLine {
            film,
            count,
            time,
            name,
        }),
        false => Err(format!("“{}”: a name has at most {MOST_LETTERS} letters", short(piece))),
    }
}

/// As many words as are still a time, and the name after them.
fn time_and_name<'a, 'b>(words: &'b [&'a str], units: Units) -> Result<(Option<Span>, &'b [&'a str]), String> {
    for end in (1..=words.len().min(4)).rev() {
        let text = words[..end].join(" ");
        match read::span(&text, &DEVELOPING, units) {
            Ok(time) if time.minutes() > BARE_MINUTES && read::decimal(&text).is_some() => {
                return Err(format!(
                    "{text} could be a time or a name; write {text} min, or begin the name with a letter"
                ));
            }
            Ok(time) => return Ok((Some(time), &words[end..])),
            Err(error @ read::ReadError::OutOfRange(..)) => return Err(error.to_string()),
            Err(error) if end == 1 && words[0].starts_with(|letter: char| letter.is_ascii_digit()) => {
                return Err(error.to_string());
            }
            Err(_) => {}
        }
    }
    Ok((None, words))
}

/// A field for names of tanks.
#[derive(Clone, Copy)]
pub struct TankNames;

impl Kind for TankNames {
    type Value = Vec<String>;

    fn read(&self, text: &str, _: Units) -> Result<Vec<String>, String> {
        match text.chars().count() <= 200 {
            true => Ok(text
                .split(';')
                .map(|name| name.trim().to_owned())
                .filter(|name| !name.is_empty())
                .collect()),
            false => Err("names of tanks take at most 200 letters".to_owned()),
        }
    }

    fn takes(&self, _: Units) -> String {
        "names from Kit, parted by semicolons; all of them where nothing is said".to_owned()
    }
}

/// The films of the day.
pub const PLAN_FILMS: Field<FilmLines> =
    Field::new("films", "Films", FilmLines).initial("3 x 135 8:30 harbour; 2 x 120 11:00 portraits");
/// Which tanks.
pub const ONLY_TANKS: Field<TankNames> = Field::new("tanks", "Only these tanks", TankNames);
/// Which bottle is the developer.
pub const PLAN_BOTTLE: Field<Names> = Field::new("bottle", "Developer", Names);
/// What is left in the developer's bottle; its record's where it has one.
pub const DEVELOPER_LEFT: Field<Volumes> = Field::volume("left", "Left in its bottle", &bounds::IN_BOTTLE);
/// Fixer, ready to use.
pub const FIXER_AT_HAND: Field<Volumes> = Field::volume("fixer", "Fixer, ready to use", &bounds::IN_BOTTLE);
/// Film units that the fixer still takes.
pub const FIXER_TAKES: Field<Counts> = Field::count("fixer_films", "Films that it still takes", &FILMS_LEFT_BOUNDS);
/// Stop bath, ready to use.
pub const STOP_AT_HAND: Field<Volumes> = Field::volume("stop", "Stop bath, ready to use", &bounds::IN_BOTTLE);
/// Film units that the stop bath still takes.
pub const STOP_TAKES: Field<Counts> = Field::count("stop_films", "Films that this still takes", &FILMS_LEFT_BOUNDS);
/// How far apart times may lie in one fill.
pub const WITHIN: Field<Spans> =
    Field::span("within", "Times in one fill may differ by", &WITHIN_BOUNDS).initial("0 s");
/// To which multiple totals go up.
pub const STEP: Field<Volumes> = Field::volume("step", "Totals go up to the next", &STEP_BOUNDS);
/// Sheets of 4 x 5 in that go into a fill.
pub const MOST_4X5: Field<Counts> = Field::count("most_4x5", "4×5 in sheets in a fill, at most", &SHEETS_BOUNDS);
/// Sheets of 8 x 10 in that go into a fill.
pub const MOST_8X10: Field<Counts> = Field::count("most_8x10", "8×10 in sheets in a fill, at most", &SHEETS_BOUNDS);
/// Loading one film.
pub const LOADING: Field<Spans> = Field::span("loading", "Loading one film takes", &TAKES_BOUNDS);
/// All of a fill but loading and developing.
pub const OTHER_STEPS: Field<Spans> = Field::span("other_steps", "The other steps of a fill take", &TAKES_BOUNDS);
/// Until reels are dry.
pub const REELS_DRY: Field<Spans> = Field::span("reels_dry", "Reels are dry after", &TAKES_BOUNDS);
