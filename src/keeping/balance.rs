//! The first voice: a balance of the oxygen that a bottle met against what its solution holds.
//!
//! Each opening fills the headspace with air again; the liquid takes its oxygen up as 1 - exp(-t / uptake), and what is
//! left at the next opening is not counted twice. The wall lets in P A dp / L, less where there is still oxygen behind
//! it. What comes in is spread over the liquid that is there at that time, so that late air in a nearly empty bottle
//! costs more than early air.

use super::assumptions::{AirLeft, at};
use super::oxygen::oxygen_of_dry;
use super::pool::Pool;
use super::{Assumptions, Lean, Life, Ranged, Seal, Stretch, vapour_pressure};
use crate::chemistry::Reserve;
use crate::kit::{Container, Treatment};
use crate::quantity::{Amount, Day, Temperature, Volume};

/// The oxygen that a bottle has taken up, and what it could have cost.
#[derive(Clone, Copy, Debug, PartialEq, Default)]
pub struct Exposure {
    /// From the air above the liquid.
    pub headspace: Amount,
    /// Through the wall.
    pub wall: Amount,
    /// From the water it was mixed with.
    pub water: Amount,
    /// Still above the liquid, not yet taken up.
    pub waiting: Amount,
    /// What all openings together put above it, each counted whole: more than it has taken up, unless they were far
    /// apart.
    pub refills: Amount,
    /// Share of the developing agent that is gone if all of the oxygen went to it, 0 to 1; `None` where there is none.
    pub agent: Option<f64>,
    /// Share of the sulfite that is gone, 0 to 1; `None` where there is none.
    pub sulfite: Option<f64>,
}

impl Exposure {
    /// All that was taken up.
    pub fn oxygen(&self) -> Amount {
        self.headspace + self.wall + self.water
    }
}

/// What the air could have done in a life: usually, at the least, and at the most, as the assumptions allow. Of the
/// preservative *at least* `least.sulfite` is used; of the agent *at most* `most.agent` is.
pub fn air(life: &Life, assumptions: &Assumptions) -> Ranged<Exposure> {
    let balance = Balance::new(life, None);
    let of = |lean| balance.exposure(assumptions, &lean);
    Ranged {
        value: of(Lean::USUAL),
        least: of(Lean::GENTLE),
        most: of(Lean::HARSH),
    }
}

/// The same with the assumptions at one place of their ranges; counted from a day only, where one is given.
pub fn exposure(life: &Life, assumptions: &Assumptions, lean: &Lean, since: Option<Day>) -> Exposure {
    Balance::new(life, since).exposure(assumptions, lean)
}

/// A life made ready to be balanced many times.
pub(super) struct Balance<'a> {
    life: &'a Life<'a>,
    pieces: Vec<Piece>,
    containers: Vec<&'a Container>,
    counts_water: bool,
}

/// A stretch, or what of it lies before or after the day from which is counted.
struct Piece {
    days: f64,
    content: Volume,
    headspace: Volume,
    seal: Seal,
    treatment: Treatment,
    /// Which of the containers.
    container: usize,
    temperature: Temperature,
    /// Saturation pressure of water at that temperature.
    vapour: f64,
    counted: bool,
}

impl<'a> Balance<'a> {
    pub(super) fn new(life: &'a Life<'a>, since: Option<Day>) -> Self {
        let mut balance = Self {
            life,
            pieces: Vec::with_capacity(life.stretches().len() + 1),
            containers: Vec::new(),
            counts_water: since.is_none_or(|day| day <= life.first().from),
        };
        for stretch in life.stretches() {
            match since {
                Some(day) if stretch.to <= day => balance.push(stretch, false),
                Some(day) if stretch.from < day => {
                    balance.push(&Stretch { to: day, ..*stretch }, false);
                    let seal = match stretch.seal {
                        Seal::Unopened => Seal::Unopened,
                        Seal::Opened | Seal::StillClosed => Seal::StillClosed,
                    };
                    balance.push(
                        &Stretch {
                            from: day,
                            seal,
                            ..*stretch
                        },
                        true,
                    );
                }
                _ => balance.push(stretch, true),
            }
        }
        balance
    }

    fn push(&mut self, stretch: &Stretch<'a>, counted: bool) {
        let known = self
            .containers
            .iter()
            .position(|one| std::ptr::eq(*one, stretch.container));
        let container = known.unwrap_or_else(|| {
            self.containers.push(stretch.container);
            self.containers.len() - 1
        });
        let temperature = stretch.climate.middle();
        self.pieces.push(Piece {
            days: stretch.days(),
            content: stretch.content,
            headspace: stretch.container.headspace(stretch.content),
            seal: stretch.seal,
            treatment: stretch.treatment,
            container,
            temperature,
            vapour: vapour_pressure(temperature),
            counted,
        });
    }

    pub(super) fn exposure(&self, assumptions: &Assumptions, lean: &Lean) -> Exposure {
        let mut sum = Sum {
            reserve: assumptions.reserve(lean),
            pressure: at(&assumptions.pressure, lean.pressure),
            humidity: at(&assumptions.humidity, lean.humidity),
            uptake: at(&assumptions.uptake, lean.uptake),
            left: AirLeft::new(assumptions.air_left, lean),
            containers: self
                .containers
                .iter()
                .map(|one| (one.brimful, assumptions.wall(one, lean)))
                .collect(),
            of_air: 0.0,
            of_wall: 0.0,
            exposure: Exposure::default(),
            agent: 0.0,
            sulfite: 0.0,
        };
        if self.counts_water {
            let water = self.life.oxygen_of_water(sum.pressure);
            sum.exposure.water = water;
            sum.spread(water, self.life.first().content);
        }
        for piece in &self.pieces {
            sum.pass(piece);
        }
        sum.finish()
    }
}

const ONE_MILLILITRE: Volume = Volume::from_millilitres(1.0);

struct Sum {
    reserve: Reserve,
    pressure: f64,
    humidity: f64,
    uptake: f64,
    left: AirLeft,
    /// What each holds to the brim, and oxygen through its wall in a day.
    containers: Vec<(Volume, Amount)>,
    /// Oxygen above the liquid that came with air, and through the wall, in mmol.
    of_air: f64,
    of_wall: f64,
    exposure: Exposure,
    agent: f64,
    sulfite: f64,
}

impl Sum {
    fn pass(&mut self, piece: &Piece) {
        let (gas, air) = self.left.gas(piece.treatment, piece.headspace);
        let fresh = oxygen_of_dry(
            self.pressure - self.humidity * piece.vapour,
            ONE_MILLILITRE,
            piece.temperature,
        );
        let brimful = self.containers[piece.container].0;
        let wall = self.containers[piece.container].1;
        let pool = Pool {
            fresh: fresh.millimoles(),
            wall: (wall / brimful.millilitres()).millimoles(),
            uptake: self.uptake,
        };
        (self.of_air, self.of_wall) = match piece.seal {
            Seal::Opened => (pool.fresh * air * gas.millilitres(), 0.0),
            Seal::Unopened | Seal::StillClosed => (self.of_air, self.of_wall),
        };
        if piece.counted && piece.seal == Seal::Opened {
            self.exposure.refills = self.exposure.refills + Amount::from_millimoles(self.of_air);
        }
        let millilitres = gas.millilitres();
        let taken_of_air = self.of_air * -(-piece.days / self.uptake).exp_m1();
        let (taken, left) = match millilitres > 0.0 {
            true => pool.closed((self.of_air + self.of_wall) / millilitres, piece.days),
            false => (0.0, 0.0),
        };
        let along_liquid = wall * (1.0 - gas / brimful).max(0.0) * piece.days;
        self.of_air -= taken_of_air;
        self.of_wall = (left * millilitres - self.of_air).max(0.0);
        if piece.counted {
            let headspace = Amount::from_millimoles(taken_of_air);
            let wall = Amount::from_millimoles((taken * millilitres - taken_of_air).max(0.0)) + along_liquid;
            self.exposure.headspace = self.exposure.headspace + headspace;
            self.exposure.wall = self.exposure.wall + wall;
            self.spread(headspace + wall, piece.content);
        }
    }

    fn spread(&mut self, oxygen: Amount, content: Volume) {
        self.agent += self.reserve.agent_used(oxygen, content).unwrap_or(0.0);
        self.sulfite += self.reserve.sulfite_used(oxygen, content).unwrap_or(0.0);
    }

    fn finish(self) -> Exposure {
        let share = |used: f64, reserve: f64| (reserve > 0.0).then(|| used.min(1.0));
        Exposure {
            agent: share(self.agent, self.reserve.agent),
            sulfite: share(self.sulfite, self.reserve.sulfite),
            waiting: Amount::from_millimoles(self.of_air + self.of_wall),
            ..self.exposure
        }
    }
}
