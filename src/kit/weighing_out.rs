//! Weighing a solid out: on which balance, in how many portions, how exactly; and a solution of it made first, where it is too little
//! for any balance.

use super::{Balance, Draws, Instrument, InstrumentKind, Kit};
use crate::quantity::{Mass, TemperatureDifference, Volume};

/// A mass as it is weighed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Weight<'a> {
    /// On which balance.
    pub balance: &'a Balance,
    /// In how many equal portions.
    pub portions: u32,
    /// What the balance shows for each of them, to its own step.
    pub portion: Mass,
    /// Standard uncertainty of the whole: two readings to the portion, and what its steps keep it from the mass that is wanted.
    pub uncertainty: Mass,
}

/// A solution that is made of more than is wanted, and what is drawn of it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Solution<'a> {
    /// Grams in 100 ml.
    pub percent: f64,
    /// What is weighed for it.
    pub weight: Weight<'a>,
    /// To what it is made up, in which vessel.
    pub made_up: Draws<'a>,
    /// What is drawn of it.
    pub taken: Draws<'a>,
    /// Standard uncertainty of what the draw holds, relative.
    pub relative_uncertainty: f64,
}

/// Most portions that anybody weighs of one substance.
const MOST_PORTIONS: f64 = 20.0;
/// Strengths of a solution, in percent.
const PERCENTS: [f64; 7] = [10.0, 5.0, 2.0, 1.0, 0.5, 0.2, 0.1];
/// To what it is made up, in millilitres.
const MADE_UP: [f64; 5] = [50.0, 100.0, 200.0, 500.0, 1000.0];
/// One that is not as exact as it is wanted must leave no more than this share of the uncertainty of weighing alone.
const WORTH_IT: f64 = 0.5;
/// And among those, one that is no worse than the most exact one by this factor, and takes less, is as good.
const HARDLY_WORSE: f64 = 1.2;

impl<'a> Weight<'a> {
    /// On that balance; `None` where it shows nothing of it, or takes it in no reasonable number of portions.
    pub fn on(balance: &'a Balance, wanted: Mass) -> Option<Self> {
        let portions = (wanted / balance.capacity - 1e-9).ceil().max(1.0);
        let step = balance.readability;
        let portion = step * (wanted / portions / step).round();
        if portions > MOST_PORTIONS || portion <= Mass::ZERO {
            return None;
        }
        let off = (portion * portions - wanted).grams();
        let read = balance.standard_uncertainty().grams() * portions.sqrt();
        Some(Self {
            balance,
            portions: portions as u32,
            portion,
            uncertainty: Mass::from_grams(read.hypot(off)),
        })
    }

    /// What all portions weigh together.
    pub fn whole(&self) -> Mass {
        self.portion * f64::from(self.portions)
    }
}

impl Solution<'_> {
    /// Whether the draw holds what is wanted to this relative uncertainty.
    pub fn is_good_to(&self, relative: f64) -> bool {
        self.relative_uncertainty <= relative + 1e-9
    }
}

impl Kit {
    /// How that mass is weighed best.
    pub fn weigh_out(&self, wanted: Mass) -> Option<Weight<'_>> {
        let all = self.balances.iter().map(|kept| &kept.item);
        all.filter_map(|balance| Weight::on(balance, wanted))
            .min_by(|one, other| one.uncertainty.grams().total_cmp(&other.uncertainty.grams()))
    }

    /// The solution of which one draw holds `wanted` to this relative uncertainty, and that takes least of the substance; where none is
    /// so exact, one of the most exact, if it is far better than weighing alone. No stronger than dissolves, in grams to 100 ml, and no more
    /// drawn than there is room for.
    pub fn solution(&self, wanted: Mass, dissolves: f64, good_to: f64, room: Volume) -> Option<Solution<'_>> {
        let vessels: Vec<Draws> = MADE_UP
            .iter()
            .filter_map(|&volume| self.one_draw(Volume::from_millilitres(volume), is_vessel))
            .collect();
        let percents = PERCENTS.into_iter().filter(|&percent| percent <= dissolves);
        let draws: Vec<(f64, Draws)> = percents
            .map(|percent| (percent, Volume::from_millilitres(wanted.grams() / percent * 100.0)))
            .filter(|(_, volume)| *volume <= room)
            .filter_map(|(percent, volume)| Some((percent, self.one_draw(volume, |_| true)?)))
            .collect();
        let pairs = vessels
            .iter()
            .flat_map(|made_up| draws.iter().map(move |(percent, taken)| (*percent, *made_up, *taken)));
        let all: Vec<Solution> = pairs
            .filter(|(_, made_up, taken)| taken.to <= made_up.to)
            .filter_map(|(percent, made_up, taken)| self.solution_of(percent, made_up, taken))
            .collect();
        let finest = all.iter().map(|one| one.relative_uncertainty).reduce(f64::min)?;
        let enough = all
            .iter()
            .filter(|one| one.is_good_to(good_to.max(finest * HARDLY_WORSE)));
        let best = enough
            .copied()
            .reduce(|best, next| match next.weight.whole() < best.weight.whole() {
                true => next,
                false => best,
            })?;
        let alone = self
            .weigh_out(wanted)
            .map_or(f64::INFINITY, |weight| weight.uncertainty / wanted);
        (best.is_good_to(good_to) || best.relative_uncertainty < alone * WORTH_IT).then_some(best)
    }

    fn solution_of<'a>(&'a self, percent: f64, made_up: Draws<'a>, taken: Draws<'a>) -> Option<Solution<'a>> {
        let mass = Mass::from_grams(made_up.to.millilitres() * percent / 100.0);
        let weight = self.weigh_out(mass)?;
        let squares = [relative(&made_up), relative(&taken), weight.uncertainty / mass].map(|u| u * u);
        Some(Solution {
            percent,
            weight,
            made_up,
            taken,
            relative_uncertainty: squares.iter().sum::<f64>().sqrt(),
        })
    }

    /// One draw of that volume with the instrument that does it best.
    fn one_draw(&self, volume: Volume, may: impl Fn(&Instrument) -> bool) -> Option<Draws<'_>> {
        let instruments = self.instruments.iter().map(|kept| &kept.item);
        let draws = instruments
            .filter(|instrument| may(instrument) && instrument.can_draw(volume))
            .map(|instrument| Draws::once(instrument, volume));
        draws.min_by(|one, other| relative(one).total_cmp(&relative(other)))
    }
}

fn is_vessel(instrument: &Instrument) -> bool {
    matches!(instrument.kind, InstrumentKind::Cylinder | InstrumentKind::Jug)
}

fn relative(draws: &Draws) -> f64 {
    draws.relative_uncertainty(TemperatureDifference::ZERO)
}
