//! How far what measures was checked: the one place that knows where a calibration is kept.

use crate::kit::{Instrument, Tolerance, is_old};
use crate::quantity::Day;

/// How well a thing is known to measure.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Known {
    /// Calibrated on that day.
    Calibrated(Day),
    /// Calibrated so long ago that it wants doing again.
    Old(Day),
    /// Calibrated, and nobody knows when.
    SomeDay,
    /// By the limit of its kind alone.
    ByLimit,
}

/// How well an instrument is known to measure on a day.
pub(super) fn instrument(instrument: &Instrument, on: Day) -> Known {
    match (instrument.tolerance, instrument.calibrated_on) {
        (Tolerance::Calibrated { .. }, Some(day)) => dated(day, on),
        (Tolerance::Calibrated { .. }, None) => Known::SomeDay,
        _ => Known::ByLimit,
    }
}

/// How well the thermometer is known to measure on a day, if it was compared with a better one on another.
pub(super) fn thermometer(compared: Option<Day>, on: Day) -> Known {
    compared.map_or(Known::ByLimit, |day| dated(day, on))
}

fn dated(day: Day, on: Day) -> Known {
    match is_old(day, on) {
        true => Known::Old(day),
        false => Known::Calibrated(day),
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
            Self::Calibrated(day) => format!("yes, on {day}"),
            Self::Old(day) => format!("on {day}, too long ago"),
            Self::SomeDay => "nobody noted when".to_owned(),
            Self::ByLimit => "by a limit, not calibrated".to_owned(),
        }
    }
}
