//! One choice of all assumptions, and what it makes of a bottle's past and of the days to come.

use super::HORIZON;
use crate::chemistry::{OXYGEN_PER_AGENT, SULFITE_PER_OXYGEN};
use crate::keeping::assumptions::{AirLeft, at};
use crate::keeping::balance::Balance;
use crate::keeping::oxygen::oxygen_of_dry;
use crate::keeping::pool::Pool;
use crate::keeping::state::last_test;
use crate::keeping::stated_life::air_share;
use crate::keeping::{Case, Exposure, Lean, Seal, Stretch, vapour_pressure, warmth_factor};
use crate::kit::Climate;
use crate::quantity::{Day, Volume};
use crate::uncertainty::Random;

/// Positions at which the factor for 10 degrees is tabulated.
const NODES: usize = 9;
/// Days between two entries of the table of days to come.
const GRID: i32 = 5;

/// What is the same in every world.
pub(super) struct Model<'a> {
    case: &'a Case<'a>,
    balance: Balance<'a>,
    balance_since: Option<Balance<'a>>,
    /// Days at 20 °C of each past stretch, by node; and since the last test.
    past: Vec<[f64; NODES]>,
    past_since: Vec<[f64; NODES]>,
    /// Days at 20 °C from today on, by node.
    ahead: Vec<[f64; NODES]>,
    /// Multiple of the stated life at which the sheet asks.
    pub trusted: f64,
    /// Share of the stated life since a test at which its proof lapses.
    pub life_since: f64,
    /// Share of what makes the air ask, since a test, at which its proof lapses.
    pub air_since: f64,
    /// Whether a test proves it now.
    pub proved: bool,
    /// Days that the proof lasts at the most.
    pub proof_left: f64,
    /// Days until the heat asks.
    pub hot_after: f64,
}

/// How much is used up, each in parts of what it is measured by.
#[derive(Clone, Copy, Debug)]
pub(super) struct Worn {
    /// Multiple of the stated life.
    pub life: f64,
    /// Parts of what makes the air ask.
    pub air: f64,
    /// The same since the last test.
    pub life_since: f64,
    pub air_since: f64,
}

/// One choice of all assumptions.
pub(super) struct World {
    /// Days at 20 °C from today on.
    ahead: Vec<f64>,
    left: AirLeft,
    /// Life unopened, and full; infinite where none is known.
    unopened: f64,
    full: f64,
    ln_half_full: f64,
    pool: Pool,
    /// What a mmol in a ml of liquid wears, in parts of what makes the air ask.
    wears: f64,
    /// Oxygen now above the liquid, in mmol.
    waiting: f64,
    /// At the beginning.
    pub worn: Worn,
}

impl<'a> Model<'a> {
    pub fn new(case: &'a Case<'a>, proved: bool) -> Self {
        let today = case.life.today();
        let limits = case.limits;
        let tested = last_test(case).map(|test| test.day).filter(|_| proved);
        let days = |since: Option<Day>| {
            let stretches = case.life.stretches().iter();
            stretches.map(|stretch| table(case, stretch, since)).collect()
        };
        Self {
            case,
            balance: Balance::new(case.life, None),
            balance_since: tested.map(|day| Balance::new(case.life, Some(day))),
            past: days(None),
            past_since: tested.map(|day| days(Some(day))).unwrap_or_default(),
            ahead: ahead(case, today),
            trusted: case.trusted.share,
            life_since: limits.life_since.value,
            air_since: limits.air_since.value,
            proved,
            proof_left: tested.map_or(0.0, |day| limits.recent_days.value - f64::from(today - day)),
            hot_after: hot_after(case, today),
        }
    }

    /// What is left in the bottle.
    pub fn content(&self) -> Volume {
        self.case.life.last().content
    }

    /// How near the voices are to asking.
    pub fn wear(&self, worn: &Worn) -> f64 {
        (worn.life / self.trusted).max(worn.air)
    }

    pub fn world(&self, random: &mut Random) -> World {
        let lean = Lean::sample(random);
        let assumptions = self.case.assumptions;
        let last = self.case.life.last();
        let temperature = last.climate.middle();
        let pressure = at(&assumptions.pressure, lean.pressure);
        let dry = pressure - at(&assumptions.humidity, lean.humidity) * vapour_pressure(temperature);
        let lives = assumptions.lives;
        let lives = lives.map(|lives| {
            (
                at(&lives.unopened, lean.unopened),
                lives.days(0.0, &lean),
                lives.days(0.5, &lean),
            )
        });
        let (unopened, full, half) = lives.unwrap_or((f64::INFINITY, f64::INFINITY, f64::INFINITY));
        let reserve = assumptions.reserve(&lean);
        let wears = |per: f64, reserve: f64, limit: f64| match reserve > 0.0 {
            true => per / reserve / limit,
            false => 0.0,
        };
        let limits = self.case.limits;
        let mut world = World {
            ahead: self.ahead.iter().map(|nodes| between(nodes, lean.per_ten)).collect(),
            left: AirLeft::new(assumptions.air_left, &lean),
            unopened,
            full,
            ln_half_full: if lives.is_some() { (half / full).ln() } else { 0.0 },
            pool: Pool {
                fresh: oxygen_of_dry(dry, Volume::from_millilitres(1.0), temperature).millimoles(),
                wall: (assumptions.wall(last.container, &lean) / last.container.brimful.millilitres()).millimoles(),
                uptake: at(&assumptions.uptake, lean.uptake),
            },
            wears: f64::max(
                wears(1.0 / OXYGEN_PER_AGENT, reserve.agent, limits.agent.value),
                wears(SULFITE_PER_OXYGEN, reserve.sulfite, limits.sulfite.value),
            ),
            waiting: 0.0,
            worn: Worn {
                life: 0.0,
                air: 0.0,
                life_since: 0.0,
                air_since: 0.0,
            },
        };
        let air = |exposure: Exposure| {
            let part = |used: Option<f64>, limit: f64| used.unwrap_or(0.0) / limit;
            part(exposure.agent, limits.agent.value).max(part(exposure.sulfite, limits.sulfite.value))
        };
        let since = self.balance_since.as_ref();
        let now = self.balance.exposure(assumptions, &lean);
        world.waiting = now.waiting.millimoles();
        world.worn = Worn {
            life: world.past(self.case, &self.past, &lean),
            air: air(now),
            life_since: world.past(self.case, &self.past_since, &lean),
            air_since: since.map_or(0.0, |balance| air(balance.exposure(assumptions, &lean))),
        };
        world
    }
}

impl World {
    /// Multiple of the stated life that past stretches have used.
    fn past(&self, case: &Case, days: &[[f64; NODES]], lean: &Lean) -> f64 {
        let stretches = case.life.stretches().iter().zip(days);
        stretches
            .map(|(stretch, nodes)| between(nodes, lean.per_ten) / self.keeps(stretch))
            .sum()
    }

    fn keeps(&self, stretch: &Stretch) -> f64 {
        match stretch.seal {
            Seal::Unopened => self.unopened,
            Seal::Opened | Seal::StillClosed => self.keeps_with(air_share(stretch, self.left)),
        }
    }

    /// Days at 20 °C with that share of air.
    fn keeps_with(&self, air: f64) -> f64 {
        self.full * (2.0 * air * self.ln_half_full).exp()
    }

    /// Oxygen that a millilitre of gas passes on in a day, in mmol, with openings so many days apart in the mean.
    pub fn turn(&self, interval: f64, model: &Model) -> f64 {
        let (_, air) = self
            .left
            .gas(model.case.life.last().treatment, Volume::from_millilitres(1.0));
        self.pool.in_use(air, interval)
    }

    /// Multiple of the stated life that goes by in a day at 20 °C under this gas and its share of air.
    pub fn life_a_day(&self, (gas, air): (Volume, f64), model: &Model) -> f64 {
        let last = model.case.life.last();
        let keeps = match last.seal {
            Seal::Unopened => self.unopened,
            Seal::Opened | Seal::StillClosed => self.keeps_with(gas / last.container.brimful * air),
        };
        1.0 / keeps
    }

    /// What the air wears in a day of use under this gas with so many millilitres left, in parts of what makes it ask.
    pub fn air_a_day(&self, (gas, _): (Volume, f64), content: f64, turn: f64, model: &Model) -> f64 {
        (gas.millilitres() * turn + self.along_liquid(gas, model)) * self.wears / content
    }

    /// What the air wears until a day if the bottle stays closed, in parts of what makes it ask; nothing if it is
    /// empty.
    pub fn air_closed(&self, day: f64, model: &Model) -> f64 {
        let content = model.content().millilitres();
        let (gas, _) = self.gas(content, model);
        let from_gas = match gas > Volume::ZERO {
            true => gas.millilitres() * self.pool.closed(self.waiting / gas.millilitres(), day).0,
            false => 0.0,
        };
        match content > 0.0 {
            true => (from_gas + self.along_liquid(gas, model) * day) * self.wears / content,
            false => 0.0,
        }
    }

    /// Gas over so many millilitres, and its share of air.
    pub fn gas(&self, content: f64, model: &Model) -> (Volume, f64) {
        let last = model.case.life.last();
        let headspace = last.container.headspace(Volume::from_millilitres(content));
        self.left.gas(last.treatment, headspace)
    }

    /// Oxygen straight into the liquid in a day, in mmol.
    fn along_liquid(&self, gas: Volume, model: &Model) -> f64 {
        let rest = model.case.life.last().container.brimful - gas;
        self.pool.wall * rest.millilitres().max(0.0)
    }

    /// Days at 20 °C from today to a day ahead; beyond the table as at its end.
    pub fn days_to(&self, day: f64) -> f64 {
        let place = day / f64::from(GRID);
        let below = (place as usize).min(self.ahead.len() - 2);
        let (low, high) = (self.ahead[below], self.ahead[below + 1]);
        low + (high - low) * (place - below as f64)
    }
}

/// The position of a node, from -1 to 1.
fn position(node: usize) -> f64 {
    2.0 * node as f64 / (NODES - 1) as f64 - 1.0
}

/// By straight lines between the nodes.
fn between(nodes: &[f64; NODES], position: f64) -> f64 {
    let place = (position + 1.0) / 2.0 * (NODES - 1) as f64;
    let below = (place as usize).min(NODES - 2);
    nodes[below] + (nodes[below + 1] - nodes[below]) * (place - below as f64)
}

/// Days at 20 °C of a past stretch, or of what of it lies after a day.
fn table(case: &Case, stretch: &Stretch, since: Option<Day>) -> [f64; NODES] {
    let from = since.map_or(stretch.from, |day| stretch.from.max(day));
    let days = f64::from((stretch.to - from).max(0));
    warmed(case, stretch.climate, days, from, stretch.to)
}

fn warmed(case: &Case, climate: Climate, days: f64, from: Day, to: Day) -> [f64; NODES] {
    std::array::from_fn(|node| {
        let per_ten = at(&case.assumptions.per_ten, position(node));
        days * warmth_factor(climate, per_ten, from, to)
    })
}

fn ahead(case: &Case, today: Day) -> Vec<[f64; NODES]> {
    let climate = case.life.last().climate;
    let mut sum = [0.0; NODES];
    let mut table = vec![sum];
    for step in 0..(HORIZON as i32 / GRID + 1) {
        let from = today + step * GRID;
        let more = warmed(case, climate, f64::from(GRID), from, from + GRID);
        for (sum, more) in sum.iter_mut().zip(more) {
            *sum += more;
        }
        table.push(sum);
    }
    table
}

/// Days from today until more hot days have gone by than are quiet; infinite if they never have within ten years.
fn hot_after(case: &Case, today: Day) -> f64 {
    let limit = case.limits.hot_days.value;
    let stretches = case.life.stretches().iter();
    let mut hot: f64 = stretches
        .map(|stretch| stretch.climate.hot_days(stretch.from, stretch.to))
        .sum();
    let climate = case.life.last().climate;
    let mut day = 0;
    while hot <= limit {
        if f64::from(day) > HORIZON {
            return f64::INFINITY;
        }
        hot += climate.hot_days(today + day, today + day + 1);
        day += 1;
    }
    f64::from(day)
}
