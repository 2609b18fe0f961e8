//! Names and moments: which event, which bottle, when.

use std::fmt;
use std::str::FromStr;

use crate::quantity::Day;

/// A moment, in milliseconds since 1970-01-01T00:00 UTC; never before it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Moment(u64);

/// The name of an event: a UUID, of version 7 (RFC 9562, 5.7), its first 48 bits the moment at which it was written down; or of
/// version 8 (RFC 9562, 5.8) where it is derived from another name, so that everyone derives the same.
///
/// ```
/// use meniscus::ledger::{EventId, Moment};
///
/// // The example of RFC 9562, appendix A.6: 2022-02-22T19:22:22Z.
/// let id: EventId = "017f22e2-79b0-7cc3-98c4-dc0c0c07398f".parse()?;
/// assert_eq!(id.moment(), Moment::from_milliseconds(1_645_557_742_000));
/// assert!("017F22E2-79B0-7CC3-98C4-DC0C0C07398F".parse::<EventId>().is_err());
/// # Ok::<(), meniscus::ledger::IdError>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct EventId(u128);

/// The name of a bottle: a UUID, or the name that it had in the simple store. At most 80 characters, none of them a control
/// character, and not blank.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct BottleId(String);

/// Why a text names nothing.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum IdError {
    /// It is not a UUID of version 7 or 8, in lower case with hyphens.
    Event,
    /// It is empty, too long, or holds control characters.
    Bottle,
}

const MILLISECONDS_A_DAY: u64 = 86_400_000;
/// The last moment that a UUID of version 7 can hold: 48 bits.
const LAST_MOMENT: u64 = (1 << 48) - 1;
/// Where the 32 digits are parted by hyphens.
const HYPHENS: [usize; 4] = [8, 13, 18, 23];
const LONGEST_BOTTLE_ID: usize = 80;

impl Moment {
    /// From milliseconds since 1970; `None` before it, or after the last moment that a UUID can hold (the year 10889).
    pub fn from_milliseconds(value: i64) -> Option<Self> {
        u64::try_from(value).ok().filter(|&ms| ms <= LAST_MOMENT).map(Self)
    }

    /// Milliseconds since 1970.
    pub const fn milliseconds(self) -> i64 {
        self.0 as i64
    }

    /// Noon of a day, in UTC: for what happened on a day that the user names later. Days before 1970 have its first moment.
    pub fn noon(day: Day) -> Self {
        let days = u64::try_from(day.days()).unwrap_or_default();
        Self((days * MILLISECONDS_A_DAY + MILLISECONDS_A_DAY / 2).min(LAST_MOMENT))
    }

    /// The day in UTC, where nothing tells what day the user saw.
    pub fn day(self) -> Day {
        Day::from_days((self.0 / MILLISECONDS_A_DAY) as i32)
    }
}

impl EventId {
    /// A name of version 7: the moment of writing down, and 74 bits of chance (the lowest of `random`).
    pub const fn new(written: Moment, random: u128) -> Self {
        let above = (random >> 62) & 0xfff;
        let below = random & ((1 << 62) - 1);
        Self(((written.0 as u128) << 80) | (7 << 76) | (above << 64) | (2 << 62) | below)
    }

    /// The name of version 8 that follows from another name: the same on every device.
    pub fn derived(name: &str) -> Self {
        let bits = digits(name).unwrap_or_else(|| fnv1a(name.as_bytes()));
        Self(bits & !(0xf << 76) & !(3 << 62) | (8 << 76) | (2 << 62))
    }

    /// The moment at which it was written down, as its own clock said; `None` for a derived name.
    pub fn moment(self) -> Option<Moment> {
        (self.version() == 7).then_some(Moment((self.0 >> 80) as u64))
    }

    const fn version(self) -> u128 {
        (self.0 >> 76) & 0xf
    }
}

impl BottleId {
    /// A name of a bottle.
    ///
    /// # Errors
    /// If it is blank, longer than 80 characters, or holds control characters.
    pub fn new(name: impl Into<String>) -> Result<Self, IdError> {
        let name = name.into();
        // Most names are UUIDs, which need no closer look.
        let plain = name.bytes().all(|byte| byte.is_ascii_graphic());
        let short = name.len() <= LONGEST_BOTTLE_ID || name.chars().count() <= LONGEST_BOTTLE_ID;
        let says = !name.is_empty() && (plain || !name.trim().is_empty() && !name.contains(char::is_control));
        match short && says {
            true => Ok(Self(name)),
            false => Err(IdError::Bottle),
        }
    }

    /// As text.
    pub fn as_str(&self) -> &str {
        &self.0
    }
}

impl From<EventId> for BottleId {
    fn from(id: EventId) -> Self {
        Self(id.to_string())
    }
}

impl fmt::Display for BottleId {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

impl fmt::Display for EventId {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (above, below) = ((self.0 >> 64) as u64, self.0 as u64);
        write!(
            f,
            "{:08x}-{:04x}-{:04x}-{:04x}-{:012x}",
            above >> 32,
            (above >> 16) & 0xffff,
            above & 0xffff,
            below >> 48,
            below & 0xffff_ffff_ffff
        )
    }
}

impl FromStr for EventId {
    type Err = IdError;

    fn from_str(text: &str) -> Result<Self, IdError> {
        let id = digits(text).map(Self).ok_or(IdError::Event)?;
        let variant = (id.0 >> 62) & 3;
        match variant == 2 && matches!(id.version(), 7 | 8) {
            true => Ok(id),
            false => Err(IdError::Event),
        }
    }
}

/// The 128 bits of a UUID in lower case with hyphens, the one way in which names are written here.
fn digits(text: &str) -> Option<u128> {
    let bytes = text.as_bytes();
    if bytes.len() != 36 {
        return None;
    }
    let mut bits = 0;
    for (index, byte) in bytes.iter().enumerate() {
        let digit = match byte {
            b'-' if HYPHENS.contains(&index) => continue,
            _ if HYPHENS.contains(&index) => return None,
            b'0'..=b'9' => byte - b'0',
            b'a'..=b'f' => byte - b'a' + 10,
            _ => return None,
        };
        bits = (bits << 4) | u128::from(digit);
    }
    Some(bits)
}

/// The 128-bit hash of Fowler, Noll and Vo, variant 1a: spreads names well, resists nobody's intent.
fn fnv1a(bytes: &[u8]) -> u128 {
    let start = 0x6c62_272e_07bb_0142_62b8_2175_6295_c58d;
    bytes.iter().fold(start, |hash: u128, byte| {
        (hash ^ u128::from(*byte)).wrapping_mul((1 << 88) + 0x13b)
    })
}

impl fmt::Display for IdError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Event => "the name of an event is a UUID of version 7 or 8, in lower case",
            Self::Bottle => "the name of a bottle has 1 to 80 characters, none of them a control character",
        })
    }
}

impl std::error::Error for IdError {}
