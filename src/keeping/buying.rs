//! Buying: which bottle size costs least per film once what outlives its trust is counted, and when to order.

use super::assumptions::at;
use super::{Assumptions, Lean, Pace, Ranged, warmth_factor};
use crate::kit::Climate;
use crate::quantity::sorted::sort;
use crate::quantity::{Day, Volume};
use crate::uncertainty::Random;

/// A size that can be bought.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Size {
    /// What is in it.
    pub volume: Volume,
    /// What it costs, in any money, above zero.
    pub price: f64,
}

/// How a bottle is kept while it is used up.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum WhileUsed {
    /// In the bottle it came in, whose headspace grows.
    InItsBottle,
    /// Decanted, always full to the brim.
    Brimful,
}

/// What the shopping is for.
#[derive(Clone, Copy, Debug)]
pub struct Shopping<'a> {
    /// What one film takes.
    pub per_film: Volume,
    /// How it is used.
    pub pace: &'a Pace,
    /// How it keeps; without lives nothing outlives its trust.
    pub assumptions: &'a Assumptions,
    /// To what multiple of the stated life it is trusted.
    pub trusted: f64,
    /// How warm it stands.
    pub climate: Climate,
    /// How it is kept.
    pub kept: WhileUsed,
    /// The day it is opened.
    pub today: Day,
}

/// What a size comes to.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Purchase {
    /// The size.
    pub size: Size,
    /// Cost per film in the long run: price over the films that a bottle is good for in the mean; least and most in
    /// nine of ten cases.
    pub per_film: Ranged<f64>,
    /// Share of the content that outlives its trust in the mean, and would want a test.
    pub outlives: f64,
    /// Share of the bottles that are used up within their trust.
    pub used_up: f64,
    /// Days that a bottle is in use, in the middle of all cases.
    pub days: f64,
}

/// Draws of each size.
const DRAWS: usize = 2000;
/// Share of the cases in which the stock at the reorder point suffices until the order comes (an assumption).
const SERVED: f64 = 0.95;

/// What each size comes to, the cheapest per film first.
pub fn buy(sizes: &[Size], shopping: &Shopping, random: &mut Random) -> Vec<Purchase> {
    let mut purchases: Vec<Purchase> = sizes.iter().map(|size| purchase(*size, shopping, random)).collect();
    sort(&mut purchases, |one, other| one.per_film.value < other.per_film.value);
    purchases
}

/// With so much left, order: it lasts the days until the order comes, in nineteen cases of twenty. One draw at the
/// least.
pub fn reorder_point(pace: &Pace, days: f64, random: &mut Random) -> Volume {
    let mut needed: Vec<f64> = (0..DRAWS)
        .map(|_| {
            let habit = pace.habit(random);
            let mut draws = 0.0;
            let wait = pace.wait(&habit, 1.0);
            let mut passed = wait.days(random);
            while passed <= days && draws < MOST_DRAWS {
                draws += 1.0;
                passed += wait.days(random);
            }
            habit.volume.millilitres() * draws
        })
        .collect();
    needed.sort_unstable_by(f64::total_cmp);
    Volume::from_millilitres(needed[place(SERVED)]).max(pace.volume())
}

/// Beyond so many draws within the days of an order nobody keeps a ledger.
const MOST_DRAWS: f64 = 1000.0;

fn purchase(size: Size, shopping: &Shopping, random: &mut Random) -> Purchase {
    let whole = size.volume.millilitres();
    let mut used = Vec::with_capacity(DRAWS);
    let mut lasted = Vec::with_capacity(DRAWS);
    for _ in 0..DRAWS {
        let habit = shopping.pace.habit(random);
        let draws = whole / habit.volume.millilitres();
        let emptied = shopping.pace.wait(&habit, draws).days(random).max(1.0);
        let trusted = trusted_days(emptied, shopping, &Lean::sample(random));
        used.push(whole * (trusted / emptied).min(1.0));
        lasted.push(trusted.min(emptied));
    }
    let in_time = used.iter().filter(|volume| **volume >= whole).count();
    let mean = used.iter().sum::<f64>() / DRAWS as f64;
    used.sort_unstable_by(f64::total_cmp);
    lasted.sort_unstable_by(f64::total_cmp);
    let cost = |volume: f64| size.price * shopping.per_film.millilitres() / volume;
    Purchase {
        size,
        per_film: Ranged {
            value: cost(mean),
            least: cost(used[place(0.95)]),
            most: cost(used[place(0.05)]),
        },
        outlives: 1.0 - mean / whole,
        used_up: in_time as f64 / DRAWS as f64,
        days: lasted[place(0.5)],
    }
}

fn place(probability: f64) -> usize {
    (probability * (DRAWS - 1) as f64).round() as usize
}

/// Days until a bottle that would be empty after `emptied` days, used at an even pace, has used up its trusted life;
/// infinite if it never does. With h = t / emptied the share used is the integral of f / L(h), an exponential of t.
fn trusted_days(emptied: f64, shopping: &Shopping, lean: &Lean) -> f64 {
    let Some(lives) = shopping.assumptions.lives else {
        return f64::INFINITY;
    };
    let per_ten = at(&shopping.assumptions.per_ten, lean.per_ten);
    let faster = warmth_factor(shopping.climate, per_ten, shopping.today, shopping.today + 365);
    let life = shopping.trusted * lives.days(0.0, lean) / faster;
    let steepness = match shopping.kept {
        WhileUsed::Brimful => 0.0,
        WhileUsed::InItsBottle => (lives.days(0.0, lean) / lives.days(1.0, lean)).ln() / emptied,
    };
    match steepness * life > 1e-9 {
        true => (steepness * life).ln_1p() / steepness,
        false => life,
    }
}
