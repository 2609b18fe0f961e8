//! The fields of weighing out: a published formula or the user's own lines, the forms at hand, prices.

use super::kinds::{Choice, Names, Percents, Volumes};
use super::lists::{list, priced, short};
use super::{Field, Kind};
use crate::chemistry::{Formula, Line, Substance, What, Written};
use crate::quantity::{Bounds, Mass, Units, bounds, read};

/// A substance in a litre, in grams.
const PER_LITRE: Bounds = Bounds {
    what: "the weight for a litre",
    least: 0.001,
    most: 800.0,
    why: "no more dissolves",
};
/// What is in a pack, in grams.
const PACK: Bounds = Bounds {
    what: "what is in the pack",
    least: 0.1,
    most: 50_000.0,
    why: "as powders are sold",
};
/// How exactly each weight is wanted, in percent.
const GOOD_TO: Bounds = Bounds {
    what: "the limit",
    least: 0.1,
    most: 50.0,
    why: "finer than any formula needs, and coarser than any bears",
};

/// Which formula; `None` for the user's own lines.
pub const PUBLISHED: Field<Choice<Option<&Formula>>> =
    Field::new("formula", "Formula", Choice(&RECIPES)).initial("mq-borax");
/// The user's own lines.
pub const LINES: Field<Lines> = Field::new("lines", "Your own, grams per litre", Lines).needed();
/// How much bath is made.
pub const MADE: Field<Volumes> = Field::volume("volume", "Make", &bounds::BATH).initial("1 l");
/// Forms at hand that may be others than the formula's.
pub const FORMS: Field<Forms> = Field::new("forms", "Forms that you have", Forms);
/// How exactly each weight is wanted (common practice, no source).
pub const WEIGHT_GOOD_TO: Field<Percents> =
    Field::percent("good_to", "Every weight good to, ±", &GOOD_TO).initial("5 %");
/// What packs cost.
pub const PRICES: Field<Prices> = Field::new("prices", "What packs cost", Prices);
/// Their currency.
pub const PRICES_IN: Field<Names> = Field::new("currency", "Currency", Names);

const RECIPES: [(&str, &str, Option<&Formula>); Formula::ALL.len() + 1] = {
    const ALL: &[Formula] = &Formula::ALL;
    let mut all = [("own", "my own lines", None); ALL.len() + 1];
    let mut index = 0;
    while index < ALL.len() {
        all[index] = (ALL[index].word, ALL[index].name, Some(&ALL[index]));
        index += 1;
    }
    all
};

/// Lines that one list may have.
const MOST: usize = 12;
/// Letters that a name may have.
const LONGEST: usize = 40;

/// A field for the lines of a formula, each a substance and its grams in a litre.
///
/// ```
/// use meniscus::fields::{Kind, Lines};
/// use meniscus::quantity::Units;
///
/// let read = |text| Lines.read(text, Units::default());
/// let lines = read("metol 2 g\nsodium sulfite anhydrous 100 g\n0,3 g pyro").expect("three lines");
/// assert_eq!(lines.iter().map(|line| line.name()).collect::<Vec<_>>(), ["metol", "sodium sulfite, anhydrous", "pyro"]);
/// assert_eq!(read("metol").unwrap_err(), "“metol” is not a substance and its grams; write metol 2 g");
/// assert_eq!(read("metol 2; Metol 3").unwrap_err(), "“metol” stands twice; write it once");
/// ```
#[derive(Clone, Copy)]
pub struct Lines;

impl Kind for Lines {
    type Value = Vec<Line>;

    fn read(&self, text: &str, units: Units) -> Result<Vec<Line>, String> {
        let lines = list(text, MOST, |piece| {
            let (name, mass) = parted(piece)
                .ok_or_else(|| format!("“{}” is not a substance and its grams; write metol 2 g", short(piece)))?;
            let mass = mass.to_ascii_lowercase();
            let mass = ["/l", "per l", "per litre", "per liter"]
                .iter()
                .find_map(|end| mass.strip_suffix(end))
                .unwrap_or(&mass);
            let mass = read::mass(mass, &PER_LITRE, units).map_err(|error| error.to_string())?;
            let (what, usual_form) = what(name)?;
            Ok(Line {
                usual_form,
                ..Line::new(what, mass)
            })
        })?;
        for (at, line) in lines.iter().enumerate() {
            if lines[..at]
                .iter()
                .any(|other| other.name().eq_ignore_ascii_case(line.name()))
            {
                return Err(format!("“{}” stands twice; write it once", line.name()));
            }
        }
        Ok(lines)
    }

    fn takes(&self, _: Units) -> String {
        "one a line: metol 2 g; sodium sulfite anhydrous 100 g; borax 2 g".to_owned()
    }
}

/// A field for the forms in which substances are at hand.
///
/// ```
/// use meniscus::chemistry::Substance;
/// use meniscus::fields::{Forms, Kind};
/// use meniscus::quantity::Units;
///
/// let read = |text| Forms.read(text, Units::default());
/// let forms = read("borax penta; carbonate mono");
/// assert_eq!(forms, Ok(vec![Substance::BORAX_PENTAHYDRATE, Substance::CARBONATE_MONOHYDRATE]));
/// assert_eq!(read("metol").unwrap_err(), "“metol” has one form only; write borax penta or carbonate mono");
/// ```
#[derive(Clone, Copy)]
pub struct Forms;

impl Kind for Forms {
    type Value = Vec<Substance>;

    fn read(&self, text: &str, _: Units) -> Result<Vec<Substance>, String> {
        let forms = list(text, MOST, |piece| {
            let example = "write borax penta or carbonate mono";
            match Substance::written(piece).map_err(|error| error.to_string())? {
                Written::Unknown(_) => Err(format!("“{}” is not known here; {example}", short(piece))),
                Written::Known { substance, .. } => {
                    let forms = Substance::ALL.iter().filter(|other| other.is_salt_of(&substance));
                    match forms.count() {
                        1 => Err(format!("“{}” has one form only; {example}", short(piece))),
                        _ => Ok(substance),
                    }
                }
            }
        })?;
        for (at, form) in forms.iter().enumerate() {
            if let Some(other) = forms[..at].iter().find(|other| other.is_salt_of(form)) {
                let (one, two) = (other.name, form.name);
                return Err(format!(
                    "“{one}” and “{two}” are one salt; write the one that you weigh"
                ));
            }
        }
        Ok(forms)
    }

    fn takes(&self, _: Units) -> String {
        "only where they may differ: borax penta; carbonate mono".to_owned()
    }
}

/// What a pack of something costs.
#[derive(Clone, Debug, PartialEq)]
pub struct PackPrice {
    /// Of what.
    pub what: What,
    /// What is in the pack.
    pub pack: Mass,
    /// What it costs.
    pub price: f64,
}

/// A field for what packs cost.
///
/// ```
/// use meniscus::fields::{Kind, Prices};
/// use meniscus::quantity::Units;
///
/// let read = |text| Prices.read(text, Units::default());
/// let prices = read("metol 100 g 24.50; borax 1 kg for 6,20 €").expect("two prices");
/// assert_eq!((prices[1].pack.grams(), prices[1].price), (1000.0, 6.2));
/// let fault = "“metol 5” is not a substance, its pack and its price; write metol 100 g 24.50";
/// assert_eq!(read("metol 5").unwrap_err(), fault);
/// ```
#[derive(Clone, Copy)]
pub struct Prices;

impl Kind for Prices {
    type Value = Vec<PackPrice>;

    fn read(&self, text: &str, units: Units) -> Result<Vec<PackPrice>, String> {
        list(text, 2 * MOST, |piece| {
            let not_one = || {
                let price = units.hundredths(2450);
                let piece = short(piece);
                format!("“{piece}” is not a substance, its pack and its price; write metol 100 g {price}")
            };
            let (before, price) = priced(piece).ok_or_else(not_one)?;
            let (name, pack) = parted(&before).ok_or_else(not_one)?;
            Ok(PackPrice {
                what: what(name)?.0,
                pack: read::mass(pack, &PACK, units).map_err(|error| error.to_string())?,
                price: read::number(price, &bounds::PRICE, units).map_err(|error| error.to_string())?,
            })
        })
    }

    fn takes(&self, units: Units) -> String {
        let (one, other) = (units.hundredths(2450), units.hundredths(620));
        format!("one a line: metol 100 g {one}; borax 1 kg {other}")
    }
}

/// A name, known or not, and whether its form was left open.
fn what(name: &str) -> Result<(What, bool), String> {
    match Substance::written(name).map_err(|error| error.to_string())? {
        Written::Known { substance, usual_form } => Ok((What::Known(substance), usual_form)),
        Written::Unknown(name) if name.chars().count() > LONGEST => Err(format!(
            "“{}…” is too long; a name has at most {LONGEST} letters",
            short(&name)
        )),
        Written::Unknown(name) => Ok((What::Unknown(name), false)),
    }
}

/// A name and what is said of its weight, whichever stands first.
fn parted(piece: &str) -> Option<(&str, &str)> {
    let is_number =
        |word: &str| word.starts_with(|c: char| matches!(c, '0'..='9' | '-' | '−' | '+' | '.' | ',' | '¼' | '½' | '¾'));
    let mut starts = Vec::new();
    let mut in_word = false;
    for (at, letter) in piece.char_indices() {
        if !in_word && !letter.is_whitespace() {
            starts.push(at);
        }
        in_word = !letter.is_whitespace();
    }
    let mut last = starts.iter().rposition(|&at| is_number(&piece[at..]))?;
    let is_fraction = |at: usize| {
        piece[at..]
            .split_whitespace()
            .next()
            .is_some_and(|word| word.bytes().any(|byte| byte == b'/'))
    };
    if last > 1 && is_fraction(starts[last]) && is_number(&piece[starts[last - 1]..]) {
        last -= 1;
    }
    let (name, mass) = match last {
        // The weight stands first: its unit, if there is one, is the next word.
        0 => {
            let unit = |at: &usize| {
                let word = piece[*at..].split_whitespace().next().unwrap_or_default();
                matches!(word, "g" | "mg" | "kg" | "oz" | "gram" | "grams")
            };
            let glued = piece
                .split_whitespace()
                .next()?
                .ends_with(|letter: char| letter.is_alphabetic());
            let behind = match starts.get(1) {
                Some(at) if !glued && unit(at) => *starts.get(2)?,
                other => *other?,
            };
            (&piece[behind..], &piece[..behind])
        }
        last => (&piece[..starts[last]], &piece[starts[last]..]),
    };
    let (name, mass) = (name.trim().trim_end_matches([':', '=', ',']).trim_end(), mass.trim());
    name.contains(char::is_alphabetic).then_some((name, mass))
}
