//! What written values may be: each is taken from its object and checked. Something harmless stands for what is wrong.

use std::cell::RefCell;

use crate::kit::container;
use crate::ledger::description::Thousandths;
use crate::ledger::id::{BottleId, EventId, Moment};
use crate::quantity::{Area, Bounds, Day, Dilution, DilutionError, MassDensity, Span, Temperature, Volume, bounds};
use crate::store::reading::{Fields, short};

/// A thousand litres: no bottle, bath or draw at a sink has more.
const MOST_MICROLITRES: i64 = 1_000_000_000;
/// Longest name of a product, a place, a currency, in characters.
pub(super) const LONGEST_NAME: usize = 200;
/// Longest note, in characters.
pub(super) const LONGEST_TEXT: usize = 4_000;
/// Longest written form of a session, in bytes: an event that holds it, with its marks escaped, is still an event.
const LONGEST_SESSION: usize = 48_000;
/// As many dilutions are remembered.
const LAST_DILUTIONS: usize = 8;
/// Most parts of one event: bottles mixed, containers filled, times of a data sheet.
const MOST_PARTS: usize = 40;

/// A life on a shelf, in days: a hundred years.
const LIFE: Bounds = Bounds {
    what: "the life",
    least: 1.0,
    most: 36_525.0,
    why: "as data sheets state it",
};
/// A temperature of a place or a bath, in degrees Celsius: liquid water, widely taken.
const TEMPERATURE: Bounds = Bounds {
    what: "the temperature",
    least: -50.0,
    most: 150.0,
    why: "as places and baths are",
};
/// A strength, as a share of fresh.
const STRENGTH: Bounds = Bounds {
    what: "the strength",
    least: 0.0,
    most: 10.0,
    why: "as tests show it",
};

thread_local! {
    /// The dilutions that were read last, by their text: a ledger says few of them, thousands of times each.
    static LAST: RefCell<Vec<(String, Dilution)>> = const { RefCell::new(Vec::new()) };
}

pub(super) fn event_id(of: &mut Fields, name: &str) -> EventId {
    let id = of.word(name).parse();
    id.unwrap_or_else(|error: crate::ledger::IdError| {
        of.wrong(error.to_string());
        EventId::derived("")
    })
}

pub(super) fn bottle(of: &mut Fields, name: &str) -> BottleId {
    let text = of.text(name);
    named(of, text)
}

pub(super) fn bottle_if(of: &mut Fields, name: &str) -> Option<BottleId> {
    of.text_if(name).map(|text| named(of, text))
}

pub(super) fn moment(of: &mut Fields, name: &str) -> Moment {
    let milliseconds = of.integer(name);
    Moment::from_milliseconds(milliseconds).unwrap_or_else(|| {
        of.wrong(format!("{milliseconds} ms is no moment since 1970"));
        Moment::noon(Day::from_days(0))
    })
}

pub(super) fn day(of: &mut Fields, name: &str) -> Day {
    let text = of.word(name);
    written_day(text).unwrap_or_else(|| {
        of.wrong(format!("“{}” is no day", short(text)));
        Day::from_days(0)
    })
}

/// A volume of 0 or more.
pub(super) fn volume(of: &mut Fields, name: &str) -> Volume {
    let microlitres = of.integer(name);
    measured(of, microlitres, 0)
}

/// A volume of more than 0.
pub(super) fn some(of: &mut Fields, name: &str) -> Volume {
    let microlitres = of.integer(name);
    measured(of, microlitres, 1)
}

pub(super) fn volume_if(of: &mut Fields, name: &str) -> Option<Volume> {
    of.integer_if(name).map(|microlitres| measured(of, microlitres, 0))
}

pub(super) fn some_if(of: &mut Fields, name: &str) -> Option<Volume> {
    of.integer_if(name).map(|microlitres| measured(of, microlitres, 1))
}

pub(super) fn temperature(of: &mut Fields, name: &str) -> Temperature {
    let millidegrees = of.integer(name);
    Temperature::from_celsius(within(of, millidegrees, 1e3, &TEMPERATURE))
}

/// The lower and the higher of two.
pub(super) fn two_temperatures(of: &mut Fields) -> (Temperature, Temperature) {
    let (low, high) = (temperature(of, "low_mc"), temperature(of, "high_mc"));
    if low > high {
        of.wrong("the lower temperature is the higher one".to_owned());
    }
    (low, high)
}

pub(super) fn day_of_year(of: &mut Fields, name: &str) -> u32 {
    let day = of.integer(name);
    if !(1..=366).contains(&day) {
        of.wrong(format!("a year has no day {day}"));
    }
    day as u32
}

pub(super) fn strength(of: &mut Fields, thousandths: i64) -> Thousandths {
    within(of, thousandths, 1e3, &STRENGTH);
    whole(of, thousandths)
}

/// A life in days.
pub(super) fn life_if(of: &mut Fields, name: &str) -> Option<f64> {
    within_if(of, name, 1.0, &LIFE)
}

pub(super) fn span(of: &mut Fields, name: &str) -> Span {
    let milliseconds = of.integer(name);
    Span::from_seconds(within(of, milliseconds, 1e3, &bounds::TIME))
}

pub(super) fn density_if(of: &mut Fields, name: &str) -> Option<MassDensity> {
    within_if(of, name, 1e6, &bounds::DENSITY).map(MassDensity::from_grams_per_millilitre)
}

pub(super) fn exponent_if(of: &mut Fields, name: &str) -> Option<f64> {
    within_if(of, name, 1e3, &bounds::EXPONENT)
}

pub(super) fn wall_area_if(of: &mut Fields, name: &str) -> Option<Area> {
    within_if(of, name, 1e2, &container::WALL_AREA).map(Area::from_square_centimetres)
}

/// A thickness in millimetres.
pub(super) fn thickness_if(of: &mut Fields, name: &str) -> Option<f64> {
    within_if(of, name, 1e3, &container::THICKNESS)
}

pub(super) fn thousandths(of: &mut Fields, name: &str) -> Thousandths {
    let number = of.integer(name);
    whole(of, number)
}

/// A whole number that is not negative.
pub(super) fn whole(of: &mut Fields, number: i64) -> Thousandths {
    Thousandths(u32::try_from(number).unwrap_or_else(|_| {
        of.wrong(format!("{number} is out of range"));
        0
    }))
}

/// A name that must be there.
pub(super) fn name(of: &mut Fields, name: &str) -> String {
    let text = of.text(name);
    if text.trim().is_empty() {
        of.wrong(format!("“{name}” is empty"));
    }
    no_longer(of, text, LONGEST_NAME)
}

/// A name that may be left out.
pub(super) fn name_if(of: &mut Fields, name: &str) -> String {
    let text = of.text_if(name).unwrap_or_default();
    no_longer(of, text, LONGEST_NAME)
}

/// A note that must be there, if only as an empty one.
pub(super) fn note(of: &mut Fields, name: &str) -> String {
    let text = of.text(name);
    no_longer(of, text, LONGEST_TEXT)
}

/// A note that may be left out.
pub(super) fn note_if(of: &mut Fields, name: &str) -> String {
    let text = of.text_if(name).unwrap_or_default();
    no_longer(of, text, LONGEST_TEXT)
}

/// A session, which is not looked into.
pub(super) fn session(of: &mut Fields, name: &str) -> String {
    let text = of.text(name);
    if is_too_long(&text) {
        of.wrong(TOO_LONG.to_owned());
    }
    text
}

/// Whether no session has so long a written form.
pub(super) fn is_too_long(text: &str) -> bool {
    text.len() > LONGEST_SESSION
}

/// What is said of it.
pub(super) const TOO_LONG: &str = "it is longer than any session";

pub(super) fn dilution_if(of: &mut Fields, name: &str) -> Option<Dilution> {
    let text = of.word_if(name)?;
    dilution(of, text)
}

/// Several dilutions in one text, parted by semicolons.
pub(super) fn dilutions_if(of: &mut Fields, name: &str) -> Vec<Dilution> {
    let text = of.word_if(name).unwrap_or_default();
    let parts = text.split(';').map(str::trim).filter(|part| !part.is_empty());
    parts.filter_map(|part| dilution(of, part)).collect()
}

fn dilution(of: &mut Fields, text: &str) -> Option<Dilution> {
    let known = LAST.with_borrow(|last| {
        let found = last.iter().find(|(said, _)| said == text);
        found.map(|(_, dilution)| dilution.clone())
    });
    if known.is_some() {
        return known;
    }
    let read: Result<Dilution, DilutionError> = if text == "undiluted" { "stock" } else { text }.parse();
    let dilution = read.map_err(|error| of.wrong(error.to_string())).ok()?;
    LAST.with_borrow_mut(|last| {
        last.truncate(LAST_DILUTIONS - 1);
        last.insert(0, (text.to_owned(), dilution.clone()));
    });
    Some(dilution)
}

/// As many parts as one event may have.
pub(super) fn parts<T>(of: &mut Fields, name: &str, read: fn(&mut Fields) -> T) -> Vec<T> {
    parts_up_to(of, name, MOST_PARTS, read)
}

/// So many parts at the most.
pub(super) fn parts_up_to<T>(of: &mut Fields, name: &str, most: usize, read: fn(&mut Fields) -> T) -> Vec<T> {
    let mut parts = Vec::new();
    each_part(of, name, most, &mut |inner| parts.push(read(inner)));
    parts
}

fn each_part(of: &mut Fields, name: &str, most: usize, read: &mut dyn FnMut(&mut Fields)) {
    let list = of.list(name);
    if list.len() > most {
        of.wrong(format!("“{name}” has more than {most} parts"));
        return;
    }
    for json in list {
        let mut inner = Fields::of(json);
        read(&mut inner);
        of.close(inner);
    }
}

fn named(of: &mut Fields, text: String) -> BottleId {
    BottleId::new(text).unwrap_or_else(|error| {
        of.wrong(error.to_string());
        EventId::derived("").into()
    })
}

/// Written in one way only (ISO 8601, extended format), so that equal events have equal texts.
fn written_day(text: &str) -> Option<Day> {
    let bytes = text.as_bytes();
    let number = |from: usize, to: usize| {
        bytes[from..to].iter().try_fold(0, |number, byte| {
            let digit = byte.is_ascii_digit().then(|| u32::from(byte - b'0'))?;
            Some(number * 10 + digit)
        })
    };
    if bytes.len() != 10 || bytes[4] != b'-' || bytes[7] != b'-' {
        return None;
    }
    Day::from_date(number(0, 4)? as i32, number(5, 7)?, number(8, 10)?)
}

fn measured(of: &mut Fields, microlitres: i64, least: i64) -> Volume {
    if !(least..=MOST_MICROLITRES).contains(&microlitres) {
        of.wrong(format!("{microlitres} µl is no volume for this"));
    }
    Volume::from_microlitres(microlitres)
}

/// A number of parts, so many of which are one, that lies in a range.
fn within(of: &mut Fields, parts: i64, one: f64, range: &Bounds) -> f64 {
    let value = parts as f64 / one;
    if !range.holds(value) {
        of.wrong(format!("{} is out of range: {parts}", range.what));
    }
    value
}

fn within_if(of: &mut Fields, name: &str, one: f64, range: &Bounds) -> Option<f64> {
    of.integer_if(name).map(|parts| within(of, parts, one, range))
}

pub(super) fn no_longer(of: &mut Fields, text: String, longest: usize) -> String {
    if text.len() > longest && text.chars().count() > longest {
        of.wrong(format!("a text is longer than {longest} characters"));
    }
    text
}
