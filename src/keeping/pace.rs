//! The user's own pace of use: how often and how much is drawn, and how well that is known.

use crate::quantity::held::held;
use crate::quantity::sorted::sort;
use crate::quantity::{Day, Volume};
use crate::uncertainty::Random;

/// How a bottle is used, from past draws; few draws leave it wide open.
///
/// Draws come at random at a rate that is itself uncertain: with n draws in T days it follows a gamma distribution of
/// shape 1 + n/f and mean (1 + n/f) / (14 + T/f) a day, so that without any draw one in two weeks is assumed, give or
/// take all of it. f is how irregular the draws are: 1 for pure chance, less for a steady habit, more for bursts.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pace {
    shape: f64,
    /// In days.
    scale: f64,
    irregularity: f64,
    draws: usize,
    volume: Volume,
    scatter: f64,
}

/// One possible future: what the rate and the usual draw really are.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Habit {
    /// Mean days between draws.
    pub interval: f64,
    /// A usual draw.
    pub volume: Volume,
}

/// Days between draws where nothing is known (an assumption).
const ASSUMED_INTERVAL: f64 = 14.0;
/// Draws that what a user says of their pace is worth (an assumption).
const STATED_WEIGHS: usize = 11;
/// How many intervals the assumption of pure chance weighs (an assumption).
const CHANCE_WEIGHS: f64 = 4.0;
/// Relative scatter of single draws where fewer than two are known (an assumption).
const ASSUMED_SCATTER: f64 = 0.5;

impl Pace {
    /// From the draws of a product since a day, usually that of opening, up to today; in any order. `usual` is what a
    /// draw is taken to be where there is none.
    ///
    /// ```
    /// use meniscus::keeping::Pace;
    /// use meniscus::quantity::{Day, Volume};
    ///
    /// let tank = Volume::from_millilitres(20.0);
    /// let draws: Vec<(Day, Volume)> = (1..=30).map(|week| (Day::from_days(7 * week), tank)).collect();
    /// let pace = Pace::from_draws(&draws, Day::from_days(0), Day::from_days(210), tank);
    /// assert!((pace.interval() - 7.0).abs() < 0.3);
    /// assert_eq!(pace.volume(), tank);
    /// ```
    pub fn from_draws(draws: &[(Day, Volume)], since: Day, today: Day, usual: Volume) -> Self {
        let mut known: Vec<(Day, Volume)> = draws
            .iter()
            .filter(|(day, volume)| (since..=today).contains(day) && *volume > Volume::ZERO)
            .copied()
            .collect();
        sort(&mut known, |one, other| one.0 < other.0);
        let count = known.len() as f64;
        let irregularity = irregularity(&known);
        let watched = f64::from((today - since).max(0));
        let volumes: Vec<f64> = known.iter().map(|(_, volume)| volume.millilitres()).collect();
        Self {
            shape: 1.0 + count / irregularity,
            scale: ASSUMED_INTERVAL + watched / irregularity,
            irregularity,
            draws: known.len(),
            volume: match known.is_empty() {
                true => usual,
                false => Volume::from_millilitres(volumes.iter().sum::<f64>() / count),
            },
            scatter: scatter(&volumes),
        }
    }

    /// A pace that the user states: a draw every so many days.
    ///
    /// ```
    /// use meniscus::keeping::Pace;
    /// use meniscus::quantity::Volume;
    ///
    /// let weekly = Pace::stated(7.0, Volume::from_millilitres(20.0));
    /// assert!((weekly.per_day().millilitres() - 20.0 / 7.0).abs() < 1e-12);
    /// ```
    pub fn stated(interval: f64, volume: Volume) -> Self {
        Self::even(interval, volume, STATED_WEIGHS)
    }

    /// Nothing is known of how often, and nothing of how much.
    pub fn unknown() -> Self {
        Self::even(ASSUMED_INTERVAL, Volume::ZERO, 0)
    }

    /// The mean of so many draws at random, of which nobody knows the days.
    pub fn even(interval: f64, volume: Volume, draws: usize) -> Self {
        let shape = 1.0 + draws as f64;
        Self {
            shape,
            scale: interval * shape,
            irregularity: 1.0,
            draws,
            volume,
            scatter: ASSUMED_SCATTER,
        }
    }

    /// The same with another usual draw.
    pub fn taking(self, volume: Volume) -> Self {
        Self { volume, ..self }
    }

    /// How many draws it rests on.
    pub fn draws(&self) -> usize {
        self.draws
    }

    /// Mean days between draws.
    pub fn interval(&self) -> f64 {
        self.scale / self.shape
    }

    /// A usual draw.
    pub fn volume(&self) -> Volume {
        self.volume
    }

    /// Mean use in a day.
    pub fn per_day(&self) -> Volume {
        self.volume / self.interval()
    }

    /// One of the habits that the draws allow.
    pub(super) fn habit(&self, random: &mut Random) -> Habit {
        let volume = 1.0 + self.scatter / (self.draws as f64 + 1.0).sqrt() * random.normal();
        Habit {
            interval: self.scale / gamma(self.shape, random),
            volume: self.volume * volume.max(0.2),
        }
    }

    /// How many days so many draws (above zero) take with a habit, at random.
    pub(super) fn wait(&self, habit: &Habit, draws: f64) -> Wait {
        let shape = (draws / self.irregularity).max(0.5);
        Wait {
            mean: habit.interval * draws,
            middle: 1.0 - 1.0 / (9.0 * shape),
            spread: 1.0 / (3.0 * shape.sqrt()),
        }
    }
}

/// A gamma distributed time, by the cube of a normal deviate (Wilson and Hilferty 1931).
#[derive(Clone, Copy, Debug)]
pub(super) struct Wait {
    /// In days.
    mean: f64,
    middle: f64,
    spread: f64,
}

impl Wait {
    /// One such time, in days.
    pub fn days(&self, random: &mut Random) -> f64 {
        self.mean * (self.middle + self.spread * random.normal()).max(0.0).powi(3)
    }
}

/// Variance of the intervals by their mean square, drawn towards 1; between 0.1 and 4.
fn irregularity(known: &[(Day, Volume)]) -> f64 {
    let intervals: Vec<f64> = known.windows(2).map(|pair| f64::from(pair[1].0 - pair[0].0)).collect();
    let count = intervals.len() as f64;
    let mean = intervals.iter().sum::<f64>() / count;
    if intervals.len() < 2 || mean <= 0.0 {
        return 1.0;
    }
    let variance = intervals.iter().map(|days| (days - mean).powi(2)).sum::<f64>() / (count - 1.0);
    let observed = variance / (mean * mean);
    held((CHANCE_WEIGHS + count * observed) / (CHANCE_WEIGHS + count), 0.1, 4.0)
}

fn scatter(volumes: &[f64]) -> f64 {
    let count = volumes.len() as f64;
    if volumes.len() < 2 {
        return ASSUMED_SCATTER;
    }
    let mean = volumes.iter().sum::<f64>() / count;
    let variance = volumes.iter().map(|volume| (volume - mean).powi(2)).sum::<f64>() / (count - 1.0);
    variance.sqrt() / mean
}

/// A gamma deviate of scale 1 and a shape of 1 at the least (Marsaglia and Tsang, ACM Trans. Math. Softw. 26, 2000).
pub(super) fn gamma(shape: f64, random: &mut Random) -> f64 {
    let d = shape - 1.0 / 3.0;
    let c = 1.0 / (9.0 * d).sqrt();
    loop {
        let z = random.normal();
        let v = (1.0 + c * z).powi(3);
        if v > 0.0 && (1.0 - random.uniform()).ln() < 0.5 * z * z + d - d * v + d * v.ln() {
            return d * v;
        }
    }
}
