//! The clip test of a developer: a piece of film with a light-struck leader, judged by eye against a kept reference, or by the
//! densities of a patch.
//!
//! Density over the clear part follows the first-order law, D = D_inf (1 - exp(-k t)) (Sheppard and Mees 1907): at one exposure on
//! the straight line it is in proportion to contrast, since development turns that line about one point (Hurter and Driffield's
//! constant density ratios). With x = k t for the fresh bath and a the strength of the other, their densities are as
//!
//! r = (1 - exp(-a x)) / (1 - exp(-x)), so a = -ln(1 - r (1 - exp(-x))) / x.
//!
//! In a leader nearly every grain is developed, x is large, and r tells little of a.
//!
//! ```
//! use meniscus::proof::{density_ratio, strength_of_ratio};
//!
//! // Contrast 0.60 at half the time of 0.90, so x = 2 ln 2: half as strong.
//! let x = 2.0 * 2f64.ln();
//! assert!((strength_of_ratio(0.60 / 0.90, x).expect("less than the law allows") - 0.5).abs() < 1e-12);
//! assert!((density_ratio(0.5, x) - 0.60 / 0.90).abs() < 1e-12);
//! ```

use super::measured::{self, Against, Measured, Warmth};
use crate::chemistry::{Guess, PROGRESS};
use crate::development::{Band, FirstOrder, Parameter};

/// The smallest difference of density that an eye sees side by side in a deep black (an assumption). In good light, on middle
/// greys, it would be 0.01 (two percent of the light); a black leader lets too little through for that.
pub const EYE: Guess = Guess {
    value: 0.10,
    least: 0.05,
    most: 0.30,
    why: "side by side on something bright, in a deep black; nobody measured your eye and your light",
};

/// Density of a light-struck leader over the clear part (an assumption).
pub const LEADER: Guess = Guess {
    value: 2.5,
    least: 1.8,
    most: 3.5,
    why: "light-struck film, developed as usual, lets through a hundredth to a three-thousandth of the light",
};

/// How far development goes in a light-struck leader, x = k t (an assumption).
pub const LEADER_PROGRESS: Guess = Guess {
    value: 3.0,
    least: 2.0,
    most: 4.0,
    why: "in a light-struck leader nearly every grain is developed, 86 % to 98 % of all that there is",
};

/// What the leader looks like beside the reference.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Leader {
    /// As black.
    Black,
    /// A little thinner.
    Thinner,
    /// Clearly grey.
    Grey,
}

/// What the part looks like that no light has struck.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Rest {
    /// As clear as the reference.
    Clear,
    /// Veiled.
    Veiled,
}

/// What the eye can say.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Seen {
    /// Nothing gross is wrong.
    Passed,
    /// It is weak.
    Failed,
    /// Not for the eye to tell.
    CannotTell,
}

impl Seen {
    /// What leader and rest together say.
    pub fn of(leader: Leader, rest: Rest) -> Self {
        match (leader, rest) {
            (Leader::Grey, _) => Self::Failed,
            (Leader::Black, Rest::Clear) => Self::Passed,
            (Leader::Thinner, _) | (Leader::Black, Rest::Veiled) => Self::CannotTell,
        }
    }
}

/// The ratio of densities, this bath over fresh, for a strength.
pub fn density_ratio(strength: f64, progress: f64) -> f64 {
    (-strength * progress).exp_m1() / (-progress).exp_m1()
}

/// The strength for a ratio of densities; `None` where the film cannot get so dense by the law.
pub fn strength_of_ratio(ratio: f64, progress: f64) -> Option<f64> {
    let reached = ratio * -(-progress).exp_m1();
    (reached < 1.0).then(|| -(-reached).ln_1p() / progress)
}

/// The smallest loss of strength that shows as such a difference of density in a leader: with every number at its value, and at
/// its ends. All is lost where the whole leader could hide in the difference.
pub fn unseen_by_eye(eye: Parameter, leader: Parameter, progress: Parameter) -> Band {
    let loss = |eye: f64, leader: f64, progress: f64| {
        let strength = strength_of_ratio(1.0 - eye / leader, progress);
        1.0 - strength.unwrap_or(0.0).max(0.0)
    };
    let mut losses = vec![loss(eye.value, leader.value, progress.value)];
    for eye in [eye.least, eye.most] {
        for leader in [leader.least, leader.most] {
            losses.extend([progress.least, progress.most].map(|progress| loss(eye, leader, progress)));
        }
    }
    measured::band(&losses)
}

/// Densities over the clear part of one patch, in clips from fresh bath and from the bath now.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ByDensity<'a> {
    /// From fresh bath, each above zero.
    pub fresh: &'a [f64],
    /// From the bath now, each above zero.
    pub now: &'a [f64],
    /// The smallest step of density that the meter shows. Each density is the difference of two readings.
    pub step: f64,
    /// How far development goes in the fresh bath, x = k t.
    pub progress: Parameter,
    /// Standard deviation of contrast from one clip to the next, as a share.
    pub hand: f64,
    /// How warm the two baths were.
    pub warmth: Warmth,
}

impl ByDensity<'_> {
    /// The strength; `None` where one of the two was not read, or where the film cannot get so dense by the law.
    pub fn strength(&self) -> Option<Measured> {
        self.with([self.fresh.len() as f64, self.now.len() as f64])
    }

    /// This bath's density over that of fresh; `None` where one was not read.
    pub fn ratio(&self) -> Option<f64> {
        self.means().map(|[fresh, now]| now / fresh)
    }

    /// The mean densities, fresh and now; `None` where one was not read.
    pub fn means(&self) -> Option<[f64; 2]> {
        Some([mean(self.fresh)?, mean(self.now)?])
    }

    /// How many clips of each would be needed for the strength, if it stays as it is, to be told from a limit.
    pub fn repeats(&self, limit: f64) -> Option<u32> {
        measured::repeats(|count| {
            let strength = self.with([f64::from(count); 2]);
            strength.is_some_and(|strength| strength.against(limit) != Against::Open)
        })
    }

    /// The strength by so many clips of each. The meter's steps are taken to err alike in all of them.
    fn with(&self, counts: [f64; 2]) -> Option<Measured> {
        let [fresh, now] = self.means()?;
        let ratio = now / fresh;
        // Two readings, each anywhere within its step.
        let reading = self.step / 6f64.sqrt();
        let by_meter = ratio * (reading / fresh).hypot(reading / now);
        // What the hand does to contrast it does to the rate, by the law at ordinary contrast.
        let by_hand = self.hand / FirstOrder::sensitivity(PROGRESS.value);
        let by_rate = (by_hand * (1.0 / counts[0] + 1.0 / counts[1]).sqrt()).hypot(self.warmth.uncertainty());
        let value = strength_of_ratio(ratio, self.progress.value)?;
        let raise = self.warmth.raise();
        let k = measured::one_sided(None);

        let (mut strengths, mut least, mut most) = (vec![value * raise[0].exp()], f64::INFINITY, 0.0f64);
        for progress in [self.progress.value, self.progress.least, self.progress.most] {
            let off = |by: f64| match ratio + by {
                nothing if nothing <= 0.0 => 0.0,
                ratio => strength_of_ratio(ratio, progress).unwrap_or(f64::INFINITY),
            };
            let there = off(0.0);
            let below = (there / off(-k * by_meter)).ln().hypot(k * by_rate);
            let above = (off(k * by_meter) / there).ln().hypot(k * by_rate);
            for raise in raise.map(f64::exp) {
                if there.is_finite() {
                    strengths.push(there * raise);
                    least = least.min(there * raise * (-below).exp());
                    most = most.max(there * raise * above.exp());
                } else {
                    // Denser than the law allows: at least so strong as the lower reading says, and no telling how strong.
                    least = least.min(off(-k * by_meter) * raise * (-k * by_rate).exp());
                    most = f64::INFINITY;
                }
            }
        }
        // To first order: a share of density is so much more of strength as the law is flat there.
        let slope = FirstOrder::sensitivity(value * self.progress.value);
        let relative = (by_meter / ratio / slope).hypot(by_rate);
        let unseen = |progress: f64| {
            let seen = strength_of_ratio(1.0 - 2.0 * by_meter / ratio, progress).unwrap_or(0.0);
            let by_meter = if seen > 0.0 { -seen.ln() } else { f64::INFINITY };
            -(-by_meter.hypot(2.0 * by_rate)).exp_m1()
        };
        Some(Measured {
            strength: measured::band(&strengths),
            uncertainty: strengths[0] * relative,
            surely: (least, most),
            unseen: measured::band(&[self.progress.value, self.progress.least, self.progress.most].map(unseen)),
        })
    }
}

/// The mean; `None` of nothing.
fn mean(densities: &[f64]) -> Option<f64> {
    (!densities.is_empty()).then(|| densities.iter().sum::<f64>() / densities.len() as f64)
}
