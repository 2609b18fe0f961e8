//! Decanting: which of the containers at hand to fill to the brim, so that over the remaining use the least oxygen is
//! met.
//!
//! The liquid is used at a steady pace, one container after another, each opened once and drawn down to nothing. A
//! container in use meets the air of its growing headspace, renewed at each opening; one that waits, full to the brim,
//! meets only what comes through its wall; pouring brings the oxygen that the liquid can dissolve (that of fresh water,
//! so at the most). What is left over stays in the bottle it is in, or goes into one more container that it does not
//! fill.

mod cost;
mod search;

use super::{Assumptions, Lean, Ranged};
use crate::chemistry::{OXYGEN_PER_AGENT, SULFITE_PER_OXYGEN};
use crate::kit::{Climate, Container, Treatment};
use crate::quantity::{Amount, Volume};

use cost::Prices;

/// What is to be decanted, from what into what.
#[derive(Clone, Copy, Debug)]
pub struct Job<'a> {
    /// Liquid left.
    pub content: Volume,
    /// What it is in.
    pub container: &'a Container,
    /// What is done to the air in that bottle whenever it is closed; those at hand are closed over plain air.
    pub treatment: Treatment,
    /// Empty containers at hand.
    pub at_hand: &'a [Container],
    /// A usual draw.
    pub draw: Volume,
    /// Days between draws.
    pub interval: f64,
    /// How warm it stands.
    pub climate: Climate,
    /// What is assumed of it.
    pub assumptions: &'a Assumptions,
}

/// One container of a plan, with what goes into it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fill {
    /// Which of those at hand; `None` is the bottle it is in.
    pub container: Option<usize>,
    /// How much is in it.
    pub volume: Volume,
    /// Whether that is all it holds.
    pub brimful: bool,
}

/// Containers in the order in which to use them, and the oxygen that the liquid meets until all is used.
#[derive(Clone, Debug, PartialEq)]
pub struct Plan {
    /// What is where, first to use first.
    pub fills: Vec<Fill>,
    /// Oxygen met.
    pub oxygen: Amount,
}

/// What to do.
#[derive(Clone, Debug, PartialEq)]
pub struct Advice {
    /// Leaving it as it is.
    pub leave: Plan,
    /// The plan that meets the least oxygen of all.
    pub least: Plan,
    /// The plan that fills the fewest containers among those that meet hardly more: by no more than [`MARGIN`] of what
    /// leaving it meets, or than could cost [`HARDLY`] of what it holds against the air. It may be to leave it.
    pub advised: Plan,
    /// Whether every plan was looked at; not so only with very many unlike containers.
    pub exhaustive: bool,
}

/// How much more oxygen a plan that fills fewer containers may meet, as a share of what leaving it would: no finer is
/// the balance known (an assumption).
pub const MARGIN: f64 = 0.05;
/// Share of the developing agent, or else of the sulfite, that is not worth another container (an assumption).
pub const HARDLY: f64 = 0.01;

/// The best plans for a job.
///
/// ```
/// use meniscus::chemistry::Class;
/// use meniscus::keeping::{Assumptions, Job, decant};
/// use meniscus::kit::{Climate, Colour, Container, Material, Treatment};
/// use meniscus::quantity::{Temperature, Volume};
///
/// let glass = |brimful| Container {
///     name: format!("glass {brimful} ml"),
///     brimful: Volume::from_millilitres(brimful),
///     nominal: None,
///     material: Material::Glass,
///     wall_area: None,
///     thickness: None,
///     colour: Colour::Amber,
/// };
/// let at_hand = [glass(250.0), glass(250.0), glass(600.0)];
/// let advice = decant(&Job {
///     content: Volume::from_millilitres(500.0),
///     container: &glass(1040.0),
///     treatment: Treatment::Plain,
///     at_hand: &at_hand,
///     draw: Volume::from_millilitres(20.0),
///     interval: 7.0,
///     climate: Climate::Steady(Temperature::from_celsius(18.0)),
///     assumptions: &Assumptions::of_class(Class::Syrup),
/// });
/// assert_eq!(advice.advised.fills.iter().map(|fill| fill.container).collect::<Vec<_>>(), [Some(0), Some(1)]);
/// assert!(advice.advised.oxygen < advice.leave.oxygen / 5.0);
/// ```
pub fn decant(job: &Job) -> Advice {
    let prices = Prices::new(job, &Lean::USUAL);
    let leave = prices.plan(vec![stay(job, job.content)]);
    let found = search::best_by_poured(job, &prices);
    let plans = || std::iter::once(&leave).chain(&found.best);
    let least = plans().min_by(|one, other| one.oxygen.millimoles().total_cmp(&other.oxygen.millimoles()));
    let least = least.unwrap_or(&leave).clone();
    let allowed = least.oxygen + (leave.oxygen * MARGIN).max(hardly(job));
    let good = plans().filter(|plan| plan.oxygen <= allowed);
    let fewest = good.min_by(|one, other| {
        let counts = one.poured().cmp(&other.poured());
        counts.then(one.oxygen.millimoles().total_cmp(&other.oxygen.millimoles()))
    });
    Advice {
        advised: fewest.unwrap_or(&leave).clone(),
        leave,
        least,
        exhaustive: found.exhaustive,
    }
}

impl Plan {
    /// How many containers are to be filled.
    pub fn poured(&self) -> usize {
        self.fills.iter().filter(|fill| fill.container.is_some()).count()
    }
}

/// Oxygen that could cost [`HARDLY`] of the reserve; none where there is no reserve.
fn hardly(job: &Job) -> Amount {
    let reserve = job.assumptions.reserve(&Lean::USUAL);
    let oxygen = match reserve.agent > 0.0 {
        true => reserve.agent * OXYGEN_PER_AGENT,
        false => reserve.sulfite / SULFITE_PER_OXYGEN,
    };
    // mol/l is mmol/ml.
    Amount::from_millimoles(oxygen * job.content.millilitres() * HARDLY)
}

/// Oxygen that a plan has met after each of so many days: usually, at the least and at the most.
pub fn oxygen_within(job: &Job, plan: &Plan, days: &[f64]) -> Vec<Ranged<Amount>> {
    let prices = [Lean::USUAL, Lean::GENTLE, Lean::HARSH].map(|lean| Prices::new(job, &lean));
    let met = |after: f64| {
        let [value, least, most] = [0, 1, 2].map(|lean: usize| prices[lean].met_by(&plan.fills, after));
        Ranged { value, least, most }
    };
    days.iter().map(|&after| met(after)).collect()
}

/// The times at which a curve over so many days is worked out, both ends included.
pub fn even_times(days: f64) -> impl Iterator<Item = f64> {
    (0..=CURVE).map(move |step| days * f64::from(step) / f64::from(CURVE))
}

/// Stretches of a curve.
const CURVE: u32 = 24;

impl Job<'_> {
    /// Days until all of it is used.
    pub fn days(&self) -> f64 {
        self.content / self.draw * self.interval
    }
}

fn stay(job: &Job, volume: Volume) -> Fill {
    Fill {
        container: None,
        volume,
        brimful: volume >= job.container.brimful,
    }
}
