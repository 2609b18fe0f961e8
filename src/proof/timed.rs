//! A test by stop-watch: how long the same thing takes in fresh bath and in the bath now, once or several times each.
//!
//! The rate is k ~ a exp(-Ea / R T), so the strength is a = t_fresh / t_now, times what the temperatures do. Times scatter in
//! proportion to themselves, so all is done with their logarithms.
//!
//! ```
//! use meniscus::proof::{Timed, Warmth, WarmthLaw, WATCHED};
//! use meniscus::development::Parameter;
//! use meniscus::quantity::{Span, Temperature, TemperatureDifference};
//!
//! let twenty = Temperature::from_celsius(20.0);
//! let timed = Timed {
//!     fresh: &[Span::from_seconds(40.0)],
//!     now: &[Span::from_seconds(50.0)],
//!     warmth: Warmth {
//!         fresh: twenty,
//!         now: twenty,
//!         law: WarmthLaw::PerTen(Parameter::given_or(Some(2.0), WATCHED)),
//!         thermometer: [TemperatureDifference::from_kelvins(0.5); 2],
//!     },
//!     scatter: Parameter::given_or(None, WATCHED),
//! };
//! let strength = timed.strength().expect("both were timed").strength;
//! assert!((strength.value - 0.8).abs() < 1e-12);
//! ```

use super::measured::{self, Against, Measured, Warmth};
use crate::chemistry::Guess;
use crate::development::Parameter;
use crate::quantity::Span;

/// How well an eye and a stop-watch repeat a moment that comes slowly, as a share of the time (an assumption).
pub const WATCHED: Guess = Guess {
    value: 0.05,
    least: 0.02,
    most: 0.10,
    why: "nobody knows yet how well your eye repeats a moment that comes slowly; a twentieth of the time is a fair hand",
};

/// Half of what a stop-watch is read to, in seconds.
const READ_TO: f64 = 0.5;

/// Times in fresh bath and in the bath now.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Timed<'a> {
    /// In fresh bath, each above zero.
    pub fresh: &'a [Span],
    /// In the bath now, each above zero.
    pub now: &'a [Span],
    /// How warm the two were.
    pub warmth: Warmth,
    /// Relative standard deviation of one time, where none was repeated.
    pub scatter: Parameter,
}

impl<'a> Timed<'a> {
    /// Times by a hand that nobody measured.
    pub fn by_hand(fresh: &'a [Span], now: &'a [Span], warmth: Warmth) -> Self {
        Self {
            fresh,
            now,
            warmth,
            scatter: Parameter::given_or(None, WATCHED),
        }
    }
}

impl Timed<'_> {
    /// The strength; `None` where one of the two was not timed.
    pub fn strength(&self) -> Option<Measured> {
        let apparent = (mean(self.fresh)? - mean(self.now)?).exp();
        let (scatter, degrees) = self.scatter();
        Some(self.with(apparent, self.count(), scatter, degrees))
    }

    /// The mean time in the bath now.
    pub fn now(&self) -> Option<Span> {
        mean(self.now).map(|log| Span::from_seconds(log.exp()))
    }

    /// The mean time in fresh bath.
    pub fn fresh(&self) -> Option<Span> {
        mean(self.fresh).map(|log| Span::from_seconds(log.exp()))
    }

    /// Whether some time was repeated, so that the scatter is the hand's own.
    pub fn is_repeated(&self) -> bool {
        self.scatter().1.is_some()
    }

    /// How often each would have to be timed for the strength, if it stays as it is, to be told from a limit.
    pub fn repeats(&self, limit: f64) -> Option<u32> {
        let apparent = (mean(self.fresh)? - mean(self.now)?).exp();
        measured::repeats(|count| {
            let each = f64::from(count);
            let strength = self.with(apparent, [each; 2], self.scatter().0, Some(2.0 * each - 2.0));
            strength.against(limit) != Against::Open
        })
    }

    fn count(&self) -> [f64; 2] {
        [self.fresh.len() as f64, self.now.len() as f64]
    }

    /// Relative standard deviation of one time, and its degrees of freedom: pooled over the two, or as assumed.
    fn scatter(&self) -> (f64, Option<f64>) {
        let squares = |times: &[Span]| {
            let mean = mean(times).unwrap_or(0.0);
            let parts = times.iter().map(|time| (time.seconds().ln() - mean).powi(2));
            parts.sum::<f64>()
        };
        let degrees = self.fresh.len().saturating_sub(1) + self.now.len().saturating_sub(1);
        match degrees {
            0 => (self.scatter.value, None),
            some => {
                let variance = (squares(self.fresh) + squares(self.now)) / some as f64;
                (variance.sqrt(), Some(some as f64))
            }
        }
    }

    /// The strength by so many times of that scatter.
    fn with(&self, apparent: f64, counts: [f64; 2], scatter: f64, degrees: Option<f64>) -> Measured {
        let by_hand = scatter * (1.0 / counts[0] + 1.0 / counts[1]).sqrt();
        let read = |times: &[Span]| READ_TO / 3f64.sqrt() / mean(times).unwrap_or(0.0).exp();
        let known = read(self.fresh).hypot(read(self.now)).hypot(self.warmth.uncertainty());
        let relative = by_hand.hypot(known);
        // Welch and Satterthwaite (GUM G.4.1): only what the hand scatters is uncertain itself.
        let effective = degrees
            .filter(|_| by_hand > 0.0)
            .map(|degrees| degrees * (relative / by_hand).powi(4));
        let k = measured::one_sided(effective);
        let strength = measured::band(&self.warmth.raise().map(|raise| apparent * raise.exp()));
        Measured {
            strength,
            uncertainty: strength.value * relative,
            surely: (
                strength.least * (-k * relative).exp(),
                strength.most * (k * relative).exp(),
            ),
            unseen: measured::band(&[-(-2.0 * relative).exp_m1()]),
        }
    }
}

/// Mean of the logarithms; `None` of no time.
fn mean(times: &[Span]) -> Option<f64> {
    let sum: f64 = times.iter().map(|time| time.seconds().ln()).sum();
    (!times.is_empty()).then(|| sum / times.len() as f64)
}
