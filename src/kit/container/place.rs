//! Places where bottles stand: how warm, how light.

use std::f64::consts::TAU;

use crate::quantity::held::held;
use crate::quantity::{Bounds, Day, Temperature, YEAR};

/// Temperature of a place, in degrees Celsius.
pub const PLACE_TEMPERATURE: Bounds = Bounds {
    what: "the temperature of the place",
    least: -10.0,
    most: 45.0,
    why: "as rooms, cellars and garages are",
};

/// Where bottles stand.
#[derive(Clone, Debug, PartialEq)]
pub struct Place {
    /// The user's name for it.
    pub name: String,
    /// How warm it is.
    pub climate: Climate,
    /// How light it is.
    pub light: Light,
}

/// How warm a place is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Climate {
    /// Always about the same.
    Steady(Temperature),
    /// Anything from the first to the second, each as often as any other.
    Between(Temperature, Temperature),
    /// A sine over the year.
    Seasonal {
        /// Mean of the coldest day.
        low: Temperature,
        /// Mean of the warmest day.
        high: Temperature,
        /// The warmest day, counted from the first of January as 1.
        warmest: u32,
    },
}

/// How light a place is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Light {
    /// Dark, but for the moments of use.
    Dark,
    /// Daylight or a lamp for hours.
    Lit,
}

/// What the trade says of keeping chemistry at a temperature (common practice, no source; the cold end: hydroquinone
/// crystallises below 40 °F, US Army TM 11-2323).
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Warmth {
    /// Below 4 °C something may crystallise.
    Cold,
    /// To 20 °C: as it should be.
    Quiet,
    /// To 25 °C: tolerable.
    Tolerable,
    /// Hotter: not for long.
    Hot,
}

/// Above this, in degrees Celsius, a place is [`Warmth::Hot`].
pub const HOT: f64 = 25.0;

impl Warmth {
    /// Of a temperature.
    pub fn of(temperature: Temperature) -> Self {
        match temperature.celsius() {
            cold if cold < 4.0 => Self::Cold,
            quiet if quiet <= 20.0 => Self::Quiet,
            tolerable if tolerable <= HOT => Self::Tolerable,
            _ => Self::Hot,
        }
    }
}

/// Cosine of a number of turns, to 1e-13: by its series within a quarter of a turn. The general one of the standard library,
/// for arguments of any size, would be a large part of the page.
fn cosine(turns: f64) -> f64 {
    let part = (turns - turns.round()).abs();
    // From 0 to a quarter of a turn as it is; from there to a half as the negative of its mirror.
    let (sign, part) = if part <= 0.25 { (1.0, part) } else { (-1.0, 0.5 - part) };
    let square = (TAU * part).powi(2);
    let mut term = 1.0;
    let mut sum = 1.0;
    for index in 1..=11 {
        let even = f64::from(2 * index);
        term *= -square / (even * (even - 1.0));
        sum += term;
    }
    sign * sum
}

impl Climate {
    /// Coldest and warmest of it.
    pub fn extremes(self) -> (Temperature, Temperature) {
        match self {
            Self::Steady(always) => (always, always),
            Self::Between(low, high) | Self::Seasonal { low, high, .. } => (low, high),
        }
    }

    /// The middle of it.
    pub fn middle(self) -> Temperature {
        let (low, high) = self.extremes();
        low + (high - low) / 2.0
    }

    /// The usual temperature of a day; the middle where it is not known by day.
    ///
    /// ```
    /// use meniscus::kit::Climate;
    /// use meniscus::quantity::{Day, Temperature};
    ///
    /// let [low, high] = [10.0, 24.0].map(Temperature::from_celsius);
    /// let attic = Climate::Seasonal { low, high, warmest: 200 };
    /// let day = |text: &str| text.parse::<Day>().expect("a day");
    /// assert!((attic.on(day("2026-07-19")).celsius() - 24.0).abs() < 0.01);
    /// assert!((attic.on(day("2026-01-18")).celsius() - 10.0).abs() < 0.01);
    /// ```
    pub fn on(self, day: Day) -> Temperature {
        self.at(f64::from(day.days()) + 0.5)
    }

    /// The same at a moment, in days since 1970-01-01.
    pub(crate) fn at(self, days: f64) -> Temperature {
        match self {
            Self::Seasonal { low, high, warmest } => {
                let since = days + 0.5 - f64::from(warmest);
                low + (high - low) * (0.5 + 0.5 * cosine(since / YEAR))
            }
            Self::Steady(_) | Self::Between(..) => self.middle(),
        }
    }

    /// Days between two days, the first included, that are hotter than 25 °C.
    pub fn hot_days(self, from: Day, to: Day) -> f64 {
        let length = f64::from((to - from).max(0));
        match self {
            Self::Steady(always) => length * f64::from(always.celsius() > HOT),
            Self::Between(low, high) => {
                let (low, high) = (low.celsius(), high.celsius());
                let share = match high > low {
                    true => held((high - HOT) / (high - low), 0.0, 1.0),
                    false => f64::from(high > HOT),
                };
                length * share
            }
            Self::Seasonal { high, .. } if high.celsius() <= HOT => 0.0,
            Self::Seasonal { .. } => {
                let hot = (from.days()..to.days()).filter(|&day| self.on(Day::from_days(day)).celsius() > HOT);
                hot.count() as f64
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Against the standard library's.
    #[test]
    fn the_cosine_is_the_cosine() {
        for step in -4000..4000 {
            let turns = f64::from(step) / 997.0;
            let wanted = (TAU * turns).cos();
            assert!(
                (cosine(turns) - wanted).abs() < 1e-13,
                "{turns}: {} {wanted}",
                cosine(turns)
            );
        }
    }
}
