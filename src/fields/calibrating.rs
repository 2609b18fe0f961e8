//! The fields that say how an instrument was weighed, or a thermometer compared; and the two lists that they take.

use super::kinds::{Choice, Masses, Names, Percents, TemperatureDifferences, Temperatures, Volumes};
use super::lists::{list, short};
use super::{Field, Kind};
use crate::kit::BETWEEN;
use crate::quantity::{Bounds, Mass, Temperature, Units, bounds, read};

/// What is calibrated.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Calibrated {
    /// An instrument for volumes, by weighing water.
    Volume,
    /// The thermometer, beside a better one.
    Thermometer,
}

/// What an instrument is made of, as far as it matters how it grows with warmth.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stuff {
    /// Polypropylene, polyethylene and their like.
    Plastic,
    /// Borosilicate glass.
    Borosilicate,
    /// Soda-lime glass.
    SodaLime,
}

const MARK: Bounds = Bounds {
    what: "the mark",
    least: 0.02,
    most: 5_000.0,
    why: "as instruments for the sink are made",
};
const WEIGHED: Bounds = Bounds {
    what: "a weight",
    least: 0.001,
    most: 50_000.0,
    why: "as balances for the sink show",
};
const BALANCE_ERROR_RANGE: Bounds = Bounds {
    what: "the balance's error",
    least: 0.01,
    most: 2.0,
    why: "more would be no balance",
};
const EVAPORATED_RANGE: Bounds = Bounds {
    what: "what evaporates",
    least: 0.0,
    most: 0.5,
    why: "a minute in the open takes no more",
};
const STEP_RANGE: Bounds = Bounds {
    what: "the step",
    least: 0.001,
    most: 2.0,
    why: "as thermometers are read",
};
const DRIFT_RANGE: Bounds = Bounds {
    what: "the change of its error",
    least: 0.005,
    most: 2.0,
    why: "more would be no thermometer",
};

/// What is calibrated.
pub const CALIBRATED: Field<Choice<Calibrated>> = Field::new(
    "what",
    "Calibrate",
    Choice(&[
        ("volume", "a syringe, cylinder or jug", Calibrated::Volume),
        ("thermometer", "your thermometer", Calibrated::Thermometer),
    ]),
)
.initial("volume");
/// Which instrument of the kit; the first where nothing is said.
pub const INSTRUMENT: Field<Names> = Field::new("instrument", "Which", Names);
/// The mark that it was filled to; the highest where nothing is said.
pub const MARKED: Field<Volumes> = Field::volume("marked", "Filled to the mark", &MARK);
/// What the water weighed each time.
pub const WATER_MASSES: Field<NetMasses> =
    Field::new("masses", "The water weighed", NetMasses).initial("9.9; 10.0; 9.9; 9.8; 9.9; 10.0; 9.9; 9.9; 9.8; 9.9");
/// Temperature of the water that was weighed.
pub const WATER_TEMPERATURE: Field<Temperatures> =
    Field::temperature("water_temperature", "Temperature of the water", &BETWEEN).initial("20 C");
/// The smallest step of the balance; that of the kit's finest where nothing is said.
pub const BALANCE_STEP: Field<Masses> =
    Field::mass("balance_step", "Your balance shows steps of", &bounds::READABILITY);
/// Half-width of the balance's own error.
pub const BALANCE_ERROR: Field<Percents> =
    Field::percent("balance_error", "Your balance is right to, ±", &BALANCE_ERROR_RANGE);
/// What evaporates while one weighing lasts.
pub const EVAPORATED: Field<Masses> = Field::mass("evaporated", "Lost to the air each time", &EVAPORATED_RANGE);
/// What the instrument is made of; as its kind mostly is where nothing is said.
pub const STUFF: Field<Choice<Stuff>> = Field::new(
    "stuff",
    "It is made of",
    Choice(&[
        ("plastic", "plastic", Stuff::Plastic),
        ("borosilicate", "borosilicate glass", Stuff::Borosilicate),
        ("soda_lime", "other glass", Stuff::SodaLime),
    ]),
);
/// What the thermometer showed, and the better one.
pub const READINGS: Field<Pairs> = Field::new("readings", "Yours and the better one show", Pairs)
    .initial("18.2 18.5; 20.1 20.4; 24.0 24.2; 31.9 32.1; 38.1 38.1");
/// The smallest step that is read off the thermometer.
pub const THERMOMETER_STEP: Field<TemperatureDifferences> =
    Field::temperature_difference("step", "You read yours to", &STEP_RANGE).initial("0.1 C");
/// Half-width of the better thermometer's error.
pub const REFERENCE_GOOD_TO: Field<TemperatureDifferences> =
    Field::temperature_difference("reference", "The better one is right to, ±", &bounds::THERMOMETER);
/// Half-width of what the correction changes by over ten degrees.
pub const DRIFT: Field<TemperatureDifferences> =
    Field::temperature_difference("drift", "Its error changes, in 10 °C, by ±", &DRIFT_RANGE);
/// The temperature for which the sheet tells the correction.
pub const USED_AT: Field<Temperatures> = Field::temperature("used_at", "You use it at", &BETWEEN).initial("20 C");

/// A field for what was weighed several times: masses, or full and empty with a minus between.
///
/// ```
/// use meniscus::fields::{Kind, NetMasses};
/// use meniscus::quantity::Units;
///
/// let read = |text| NetMasses.read(text, Units::default());
/// let grams = |text| read(text).expect("masses").iter().map(|one| one.grams()).collect::<Vec<_>>();
/// assert_eq!(grams("9.9; 10,0 g\n34.5 - 24.5"), [9.9, 10.0, 10.0]);
/// assert_eq!(read("24.5 - 34.5").unwrap_err(), "“24.5 - 34.5” is empty less full; write the full weight first");
/// ```
#[derive(Clone, Copy)]
pub struct NetMasses;

/// Weighings, or pairs of readings, that one list may have.
const MOST: usize = 50;

impl Kind for NetMasses {
    type Value = Vec<Mass>;

    fn read(&self, text: &str, units: Units) -> Result<Vec<Mass>, String> {
        list(text, MOST, |piece| net_mass(piece, units))
    }

    fn takes(&self, units: Units) -> String {
        let show = |grams| units.number(grams, 1);
        format!(
            "grams, one a line: {}, or full - empty: {} - {}",
            show(9.9),
            show(34.4),
            show(24.5)
        )
    }
}

fn net_mass(piece: &str, units: Units) -> Result<Mass, String> {
    let read = |text: &str| read::mass(text, &WEIGHED, units).map_err(|error| error.to_string());
    // A minus at the very beginning belongs to its number.
    let minus = piece
        .char_indices()
        .find(|(at, c)| *at > 0 && ['-', '−', '–'].contains(c));
    let Some((at, minus)) = minus else {
        return read(piece);
    };
    let (full, empty) = (read(&piece[..at])?, read(&piece[at + minus.len_utf8()..])?);
    match full > empty {
        true => Ok(full - empty),
        false => Err(format!(
            "“{}” is empty less full; write the full weight first",
            short(piece)
        )),
    }
}

/// A field for pairs of readings: what the thermometer shows, and what the better one shows.
///
/// ```
/// use meniscus::fields::{Kind, Pairs};
/// use meniscus::quantity::Units;
///
/// let read = |text| Pairs.read(text, Units::default());
/// let pairs = read("20,0 20,4; 68 F 68.5 F").expect("two pairs");
/// assert_eq!((pairs[0].0.celsius(), pairs[0].1.celsius()), (20.0, 20.4));
/// assert_eq!(pairs[1].0.celsius(), 20.0);
/// assert!(read("20").unwrap_err().starts_with("“20” is not two temperatures"));
/// ```
#[derive(Clone, Copy)]
pub struct Pairs;

impl Kind for Pairs {
    type Value = Vec<(Temperature, Temperature)>;

    fn read(&self, text: &str, units: Units) -> Result<Self::Value, String> {
        list(text, MOST, |piece| pair(piece, units))
    }

    fn takes(&self, units: Units) -> String {
        let show = |celsius: f64| units.temperature(Temperature::from_celsius(celsius));
        format!("one pair a line, yours first: {} {}", show(20.1), show(20.4))
    }
}

fn pair(piece: &str, units: Units) -> Result<(Temperature, Temperature), String> {
    let words: Vec<&str> = piece.split_whitespace().collect();
    let has_digit = |word: &&&str| word.bytes().any(|byte| byte.is_ascii_digit());
    let second = words.iter().rposition(|word| has_digit(&word)).unwrap_or(0);
    if words.iter().filter(has_digit).count() != 2 {
        let show = |celsius: f64| units.temperature(Temperature::from_celsius(celsius));
        return Err(format!(
            "“{}” is not two temperatures; write {} {}",
            short(piece),
            show(20.1),
            show(20.4)
        ));
    }
    let read = |words: &[&str]| read::temperature(&words.join(" "), &BETWEEN, units).map_err(|error| error.to_string());
    Ok((read(&words[..second])?, read(&words[second..])?))
}
