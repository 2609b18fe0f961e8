//! Two negatives side by side: is the difference of their densities within what measuring explains, or more than that?
//!
//! The difference of two means has the standard uncertainty u(d)² = readings + bases + rolls. Readings of one roll are no further
//! rolls: however many there are, what one roll differs from the next stays, and counts once for each roll. Two one-sided tests at
//! 5 % each (Schuirmann 1987) come to the interval d ± t u that holds 90 %, with t of Student and the degrees of freedom of Welch
//! and Satterthwaite. It is laid against the margin, the difference that does not matter: wholly inside, the two are alike; wholly
//! outside, they differ; else nothing is told (the three sides of Goeman, Solari and Stijnen 2010).
//!
//! It does not know why two negatives differ, and it takes a stated repeat from roll to roll as certain.
//!
//! ```
//! use meniscus::proof::comparison::{Comparison, Readings, Strip, Verdict};
//!
//! let strip = |values: &[f64]| Strip::new(Readings::new(values.to_vec(), 0.01));
//! let (tested, fresh) = (strip(&[0.62, 0.63, 0.61]), strip(&[0.86, 0.85, 0.87]));
//! let found = Comparison::new(&tested, &fresh, false, 0.06);
//! assert_eq!(found.verdict(), Verdict::Weaker);
//! assert!((found.difference + 0.24).abs() < 1e-12);
//! ```

mod plan;
mod spread;

pub use plan::{Plan, smallest_shown};
pub use spread::Readings;

use crate::uncertainty::{Interval, student};
use spread::{Part, Spread};

/// What one side of the comparison was measured to be.
#[derive(Clone, Debug, PartialEq)]
pub struct Strip {
    /// Densities.
    pub readings: Readings,
    /// Density of the clear base, which is taken off.
    pub base: Option<Readings>,
    /// Rolls that the readings are of, each developed by itself; at least 1 and no more than there are readings.
    pub rolls: u32,
    /// Standard deviation of density from one roll to the next.
    pub repeat: f64,
}

/// What the comparison says.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Verdict {
    /// The interval lies within the margin.
    Within,
    /// It lies below the margin: the first is thinner.
    Weaker,
    /// It lies above the margin: the first is denser.
    Stronger,
    /// It lies across an end of the margin.
    CannotTell,
}

/// Two strips compared.
#[derive(Clone, Debug, PartialEq)]
pub struct Comparison {
    /// Mean density of each above its base.
    pub means: [f64; 2],
    /// The first mean less the second.
    pub difference: f64,
    /// Standard uncertainty of the difference.
    pub uncertainty: f64,
    /// Its degrees of freedom; infinite where nothing of it was found from few readings.
    pub freedom: f64,
    /// Holds the true difference in nine cases of ten.
    pub interval: Interval,
    /// The difference that does not matter.
    pub margin: f64,
    design: Design,
}

/// Share below each of the two one-sided tests.
const SURE: f64 = 0.95;

impl Strip {
    /// Readings of one roll, without a base, of a process that repeats itself exactly.
    pub fn new(readings: Readings) -> Self {
        Self {
            readings,
            base: None,
            rolls: 1,
            repeat: 0.0,
        }
    }

    /// Mean above the base.
    pub fn mean(&self) -> f64 {
        self.readings.mean() - self.base.as_ref().map_or(0.0, Readings::mean)
    }
}

impl Verdict {
    /// Every verdict, with its words.
    pub const ALL: [(Self, &'static str); 4] = [
        (Self::Within, "within what measuring explains"),
        (Self::Weaker, "weaker"),
        (Self::Stronger, "stronger"),
        (Self::CannotTell, "cannot tell yet"),
    ];

    /// In words.
    pub fn words(self) -> &'static str {
        Self::ALL[self as usize].1
    }
}

impl Comparison {
    /// The first against the second. Paired, the readings belong together one by one; there must be as many of each.
    pub fn new(first: &Strip, second: &Strip, paired: bool, margin: f64) -> Self {
        let design = Design::of([first, second], paired);
        let means = [first.mean(), second.mean()];
        let difference = means[0] - means[1];
        let (uncertainty, freedom) = design.uncertainty(design.counts, design.rolls);
        let half = half_width(uncertainty, freedom);
        Self {
            means,
            difference,
            uncertainty,
            freedom,
            interval: Interval {
                low: difference - half,
                high: difference + half,
            },
            margin,
            design,
        }
    }

    /// What the interval says against the margin.
    pub fn verdict(&self) -> Verdict {
        let Interval { low, high } = self.interval;
        match self.margin {
            margin if low > -margin && high < margin => Verdict::Within,
            margin if high < -margin => Verdict::Weaker,
            margin if low > margin => Verdict::Stronger,
            _ => Verdict::CannotTell,
        }
    }

    /// Whether the interval leaves out no difference at all: the two are not the same, whether or not it matters.
    pub fn differs(&self) -> bool {
        !self.interval.contains(0.0)
    }

    /// The part of the uncertainty that more readings of the same rolls cannot take away.
    pub fn stays(&self) -> f64 {
        self.design.uncertainty([f64::INFINITY; 2], self.design.rolls).0
    }

    /// What it takes to decide.
    pub fn plan(&self) -> Plan {
        Plan::of(&self.design, self.margin)
    }
}

/// Half of the interval that holds 90 %.
fn half_width(uncertainty: f64, freedom: f64) -> f64 {
    match uncertainty > 0.0 {
        true => uncertainty * student::t_quantile(SURE, freedom).unwrap_or(f64::INFINITY),
        false => 0.0,
    }
}

/// All that makes up the uncertainty, for any number of readings and rolls.
#[derive(Clone, Debug, PartialEq)]
struct Design {
    /// Of each side, or of the differences of pairs.
    spreads: Vec<Spread>,
    /// Of the bases.
    bases: Vec<Part>,
    /// Variance from roll to roll, of each side.
    repeats: [f64; 2],
    /// Readings of each side.
    counts: [f64; 2],
    /// Rolls of each side.
    rolls: [f64; 2],
}

impl Design {
    fn of([first, second]: [&Strip; 2], paired: bool) -> Self {
        let spreads = match paired {
            true => vec![Spread::of_pairs(&first.readings, &second.readings)],
            false => vec![Spread::of(&first.readings), Spread::of(&second.readings)],
        };
        let bases = [first, second].into_iter().filter_map(|strip| strip.base.as_ref());
        Self {
            spreads,
            bases: bases
                .map(|base| Spread::of(base).of_mean(base.values.len() as f64))
                .collect(),
            repeats: [first, second].map(|strip| strip.repeat * strip.repeat),
            counts: [first, second].map(|strip| strip.readings.values.len() as f64),
            rolls: [first, second].map(|strip| f64::from(strip.rolls)),
        }
    }

    /// Standard uncertainty of the difference and its degrees of freedom, with so many readings and rolls of each side.
    fn uncertainty(&self, counts: [f64; 2], rolls: [f64; 2]) -> (f64, f64) {
        let of_rolls = [0, 1].map(|side| self.repeats[side] / rolls[side]);
        let mut parts = self.bases.clone();
        match self.spreads[..] {
            [pairs] => {
                let each_its_roll = self.each_its_roll(0) && self.each_its_roll(1);
                parts.extend(pairs.with_rolls(counts[0], of_rolls[0] + of_rolls[1], each_its_roll));
            }
            _ => {
                for (side, spread) in self.spreads.iter().enumerate() {
                    parts.extend(spread.with_rolls(counts[side], of_rolls[side], self.each_its_roll(side)));
                }
            }
        }
        let variance: f64 = parts.iter().map(|part| part.variance).sum();
        // Welch and Satterthwaite (GUM G.4.1).
        let doubt: f64 = parts
            .iter()
            .map(|part| part.variance * part.variance / part.freedom)
            .sum();
        let freedom = match doubt > 0.0 {
            true => variance * variance / doubt,
            false => f64::INFINITY,
        };
        (variance.sqrt(), freedom)
    }

    /// Whether every reading of a side is of a roll of its own, so that their scatter has the rolls' in it.
    fn each_its_roll(&self, side: usize) -> bool {
        self.rolls[side] > 1.0 && self.rolls[side] == self.counts[side]
    }
}
