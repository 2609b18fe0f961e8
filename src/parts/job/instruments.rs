//! How far what measures was checked: the one place that knows where a calibration is kept.

use crate::kit::{Instrument, Tolerance};
use crate::quantity::Day;

/// How well a thing is known to measure.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Known {
    /// Calibrated, on that day where it was noted.
    Calibrated(Option<Day>),
    /// Calibrated so long ago that it wants doing again.
    Old(Day),
    /// By the limit of its kind alone.
    ByLimit,
}

/// So many days a calibration holds (a year; common practice, no source).
const HOLDS: i32 = 365;

/// How well an instrument is known to measure. The kit notes a calibration, though not its day.
pub(super) fn instrument(instrument: &Instrument) -> Known {
    match instrument.tolerance {
        Tolerance::Calibrated { .. } => Known::Calibrated(None),
        _ => Known::ByLimit,
    }
}

/// How well the thermometer is known to measure on a day. The kit knows its limit alone; when it was compared, the form says.
pub(super) fn thermometer(compared: Option<Day>, on: Day) -> Known {
    match compared {
        None => Known::ByLimit,
        Some(day) if on - day > HOLDS => Known::Old(day),
        Some(day) => Known::Calibrated(Some(day)),
    }
}

impl Known {
    /// Whether it is calibrated, and not too long ago.
    pub fn is_good(self) -> bool {
        matches!(self, Self::Calibrated(_))
    }

    /// In a few words.
    pub fn words(self) -> String {
        match self {
            Self::Calibrated(Some(day)) => format!("yes, on {day}"),
            Self::Calibrated(None) => "yes, no day noted".to_owned(),
            Self::Old(day) => format!("on {day}, too long ago"),
            Self::ByLimit => "by a limit, not calibrated".to_owned(),
        }
    }
}
