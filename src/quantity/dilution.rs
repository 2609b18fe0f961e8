//! Dilutions: parts of concentrate and parts of water, never a bare ratio.
//!
//! `1:31` is read as 1+31, the trade's usual meaning; the notation is kept, so that a sheet can say so.
//!
//! ```
//! use meniscus::quantity::{Dilution, Volume};
//!
//! let dilution: Dilution = "1+31".parse()?;
//! let total = Volume::from_millilitres(600.0);
//! assert_eq!((total * dilution.share()).millilitres(), 18.75);
//! assert!("1+0,,3".parse::<Dilution>().is_err());
//! # Ok::<(), meniscus::quantity::DilutionError>(())
//! ```

use std::fmt;
use std::str::FromStr;

use super::read;
use super::text::split_at_word;
use super::{MassDensity, Volume};

/// How a bath is made from what is in the bottle.
#[derive(Clone, Debug, PartialEq)]
pub enum Dilution {
    /// Used as it stands.
    Stock,
    /// One or two concentrates and water.
    Parts(Parts),
    /// A stock made first, and the bath from the stock.
    TwoStep {
        /// Concentrate and water of the stock.
        stock: Parts,
        /// Stock and water of the bath.
        bath: Parts,
    },
    /// A solid dissolved: mass in a volume of bath.
    Weighed(MassDensity),
}

/// Parts by volume: concentrate, perhaps a second concentrate, water.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Parts {
    first: f64,
    second: f64,
    water: f64,
    notation: Notation,
}

/// How the user wrote the parts.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Notation {
    /// `1+31`
    Plus,
    /// `1:31`, taken as 1+31.
    Colon,
    /// `1 in 32`
    In,
    /// `3 %` by volume.
    Percent,
}

/// Why a text is not a dilution.
#[derive(Clone, Debug, PartialEq)]
pub enum DilutionError {
    /// Nothing was written.
    Empty,
    /// None of the notations.
    NotADilution(String),
    /// A slash, which is read in two ways.
    Slash(String),
    /// A part of concentrate that is zero or less, or water below zero.
    NoConcentrate,
    /// More water to concentrate than any bath has.
    TooThin,
    /// More grams in a litre than dissolve.
    TooMuch,
}

/// Smallest part of a concentrate, and fewest grams of a solid in a litre: what is written with four and two decimals.
const SMALLEST_PART: f64 = 0.01;
/// Most parts of water to one of concentrate.
const THINNEST: u32 = 2000;
/// Most grams of a solid in a litre.
const MOST_GRAMS_PER_LITRE: u32 = 700;

impl Dilution {
    /// Whether a solid is weighed.
    pub fn is_weighed(&self) -> bool {
        matches!(self, Self::Weighed(_))
    }

    /// Volume share of concentrate (both, if two) in the bath: 1 for stock, 0 where a solid is weighed.
    pub fn share(&self) -> f64 {
        match self {
            Self::Stock => 1.0,
            Self::Parts(parts) => parts.share(),
            Self::TwoStep { stock, bath } => stock.share() * bath.share(),
            Self::Weighed(_) => 0.0,
        }
    }

    /// Relative strength of the bath, to compare it with another dilution of the same product: volume share,
    /// or grams per millilitre of a solid.
    pub fn strength(&self) -> f64 {
        match self {
            Self::Weighed(density) => density.grams_per_millilitre(),
            _ => self.share(),
        }
    }

    /// Volumes of the concentrates for a total, one or two; none for a solid.
    pub fn concentrates(&self, total: Volume) -> Vec<Volume> {
        match self {
            Self::Weighed(_) => Vec::new(),
            Self::Parts(parts) if parts.second > 0.0 => {
                let all = parts.first + parts.second + parts.water;
                vec![total * (parts.first / all), total * (parts.second / all)]
            }
            _ => vec![total * self.share()],
        }
    }

    /// Volume share of the first concentrate (the only one, mostly) in the bath; `None` where a solid is weighed.
    pub fn first_share(&self) -> Option<f64> {
        match self {
            Self::Weighed(_) => None,
            Self::Parts(parts) => Some(parts.first / (parts.first + parts.second + parts.water)),
            _ => Some(self.share()),
        }
    }

    /// The same concentrates with less or more water, so that the first (the only one, mostly) has this share of the bath: 1+n,
    /// or 1+b+n, n to two decimals, rounded down so that it is never short. `None` unless that lies between the thinnest bath and no water at all.
    pub fn with_first_share(&self, share: f64) -> Option<Self> {
        let second = match self {
            Self::Parts(parts) => parts.second_to_one(),
            _ => 0.0,
        };
        let water = ((1.0 / share - 1.0 - second) * 100.0 + 1e-6).floor() / 100.0;
        Parts::new(1.0, second, water.max(0.0), Notation::Plus)
            .ok()
            .filter(|_| share * (1.0 + second) <= 1.0)
            .map(Self::Parts)
    }

    /// How the user wrote it, where it is in parts: with a colon, if any of it is.
    pub fn notation(&self) -> Option<Notation> {
        match self {
            Self::Parts(parts) => Some(parts.notation),
            Self::TwoStep { stock, .. } if stock.notation == Notation::Colon => Some(stock.notation),
            Self::TwoStep { bath, .. } => Some(bath.notation),
            Self::Stock | Self::Weighed(_) => None,
        }
    }
}

impl Parts {
    /// Parts that make a bath.
    ///
    /// # Errors
    /// When there is no concentrate, a part is negative or not finite, or the bath is thinner than 1+2000.
    pub fn new(first: f64, second: f64, water: f64, notation: Notation) -> Result<Self, DilutionError> {
        let whole = first.is_finite() && second.is_finite() && water.is_finite();
        let too_small = |part: f64| part > 0.0 && part < SMALLEST_PART;
        if !whole || first < SMALLEST_PART || second < 0.0 || water < 0.0 || too_small(second) {
            return Err(DilutionError::NoConcentrate);
        }
        if water / first > f64::from(THINNEST) {
            return Err(DilutionError::TooThin);
        }
        Ok(Self {
            first,
            second,
            water,
            notation,
        })
    }

    /// Volume share of the concentrates.
    pub fn share(self) -> f64 {
        (self.first + self.second) / (self.first + self.second + self.water)
    }

    /// Whether there is a second concentrate.
    pub fn is_two(self) -> bool {
        self.second > 0.0
    }

    /// Parts of the second concentrate to one of the first.
    pub fn second_to_one(self) -> f64 {
        self.second / self.first
    }

    /// The number n of `1 : n` for the first concentrate: parts of water to one part.
    pub fn water_to_one(self) -> f64 {
        self.water / self.first
    }
}

impl Dilution {
    /// Several dilutions, parted by semicolons; nothing for a blank text.
    ///
    /// # Errors
    /// If any of them is no dilution.
    pub fn read_list(text: &str) -> Result<Vec<Self>, DilutionError> {
        let parts = text.split(';').map(str::trim).filter(|part| !part.is_empty());
        parts.map(str::parse).collect()
    }

    /// The text that reads back as these dilutions.
    pub fn show_list(dilutions: &[Self]) -> String {
        dilutions.iter().map(ToString::to_string).collect::<Vec<_>>().join("; ")
    }
}

impl FromStr for Dilution {
    type Err = DilutionError;

    fn from_str(given: &str) -> Result<Self, DilutionError> {
        let given = given.trim();
        // What is said back is what was written, as far as is needed to recognise it.
        Self::from_lower_case(&given.to_ascii_lowercase()).map_err(|error| match error {
            DilutionError::NotADilution(_) => DilutionError::NotADilution(read::short(given)),
            DilutionError::Slash(_) => DilutionError::Slash(read::short(given)),
            other => other,
        })
    }
}

impl Dilution {
    fn from_lower_case(text: &str) -> Result<Self, DilutionError> {
        if text.is_empty() {
            return Err(DilutionError::Empty);
        }
        if matches!(text, "stock" | "undiluted" | "neat" | "full strength") {
            return Ok(Self::Stock);
        }
        if let Some((stock, bath)) = split_at_word(text, "then") {
            return Ok(Self::TwoStep {
                stock: single(stock)?,
                bath: single(bath)?,
            });
        }
        if let Some(grams) = ["g/l", "g per l", "g per litre", "g per liter"]
            .iter()
            .find_map(|unit| text.strip_suffix(unit))
        {
            let grams = plain(grams, text)?;
            return match grams {
                _ if grams < SMALLEST_PART => Err(DilutionError::NoConcentrate),
                _ if grams > f64::from(MOST_GRAMS_PER_LITRE) => Err(DilutionError::TooMuch),
                _ => Ok(Self::Weighed(MassDensity::from_grams_per_millilitre(grams / 1000.0))),
            };
        }
        parts(text).map(Self::Parts)
    }
}

/// Parts with one concentrate only, as two steps take them.
fn single(text: &str) -> Result<Parts, DilutionError> {
    let parts = parts(text.trim())?;
    if parts.second > 0.0 {
        return Err(DilutionError::NotADilution(text.trim().to_owned()));
    }
    Ok(parts)
}

fn parts(text: &str) -> Result<Parts, DilutionError> {
    if let Some(percent) = text.strip_suffix('%').or_else(|| text.strip_suffix("percent")) {
        let percent = plain(percent, text)?;
        if percent <= 0.0 || percent > 100.0 {
            return Err(DilutionError::NotADilution(text.to_owned()));
        }
        return Parts::new(1.0, 0.0, 100.0 / percent - 1.0, Notation::Percent);
    }
    let mut text = text.to_owned();
    while let Some((before, after)) = split_at_word(&text, " to ") {
        text = format!("{before}:{after}");
    }
    let text = text.as_str();
    if let Some((one, all)) = split_at_word(text, " in ") {
        let (one, all) = (plain(one, text)?, plain(all, text)?);
        return Parts::new(one, 0.0, all - one, Notation::In);
    }
    let (separator, notation) = match text {
        _ if text.contains('+') => ('+', Notation::Plus),
        _ if text.contains(':') => (':', Notation::Colon),
        _ if is_fraction(text) => return Err(DilutionError::Slash(text.to_owned())),
        _ => return Err(DilutionError::NotADilution(text.to_owned())),
    };
    let numbers = text
        .split(separator)
        .map(|part| plain(part, text))
        .collect::<Result<Vec<_>, _>>()?;
    match numbers[..] {
        [first, water] => Parts::new(first, 0.0, water, notation),
        [_, second, _] if second <= 0.0 => Err(DilutionError::NoConcentrate),
        [first, second, water] => Parts::new(first, second, water, notation),
        _ => Err(DilutionError::NotADilution(text.to_owned())),
    }
}

fn is_fraction(text: &str) -> bool {
    text.split_once('/')
        .is_some_and(|(above, below)| read::decimal(above).and(read::decimal(below)).is_some())
}

fn plain(text: &str, whole: &str) -> Result<f64, DilutionError> {
    read::decimal(text).ok_or_else(|| DilutionError::NotADilution(whole.to_owned()))
}

impl fmt::Display for Dilution {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Stock => f.write_str("undiluted"),
            Self::Parts(parts) => parts.fmt(f),
            Self::TwoStep { stock, bath } => write!(f, "{stock} then {bath}"),
            Self::Weighed(density) => write!(
                f,
                "{} g/l",
                super::show::trimmed(density.grams_per_millilitre() * 1000.0, 2)
            ),
        }
    }
}

impl fmt::Display for Parts {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let show = |value| super::show::trimmed(value, 4);
        if self.notation == Notation::Percent {
            return write!(f, "{} %", show(self.share() * 100.0));
        }
        write!(f, "{}", show(self.first))?;
        if self.second > 0.0 {
            write!(f, "+{}", show(self.second))?;
        }
        write!(f, "+{}", show(self.water))
    }
}

impl fmt::Display for DilutionError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Empty => f.write_str("a dilution is needed, such as 1+31, 3 %, stock or 20 g/l"),
            Self::NotADilution(given) => write!(
                f,
                "“{given}” is not a dilution; write it as 1+31, 1:31, 1 in 32, 1+1+100, 3 %, stock, 20 g/l, or 1+3 then 1+7"
            ),
            Self::Slash(given) => write!(f, "“{given}” can be read in two ways; write 1+31 or 1 in 32"),
            Self::NoConcentrate => {
                f.write_str("the parts of concentrate must be at least 0.01, and water not less than 0")
            }
            Self::TooThin => write!(
                f,
                "more than {THINNEST} parts of water to one of concentrate is no bath"
            ),
            Self::TooMuch => write!(f, "more than {MOST_GRAMS_PER_LITRE} g in a litre would not dissolve"),
        }
    }
}

impl std::error::Error for DilutionError {}
