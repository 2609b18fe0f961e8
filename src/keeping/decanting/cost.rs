//! What oxygen a plan meets.

use super::{Fill, Job, Plan};
use crate::keeping::assumptions::{AirLeft, at};
use crate::keeping::oxygen::brought_by_water;
use crate::keeping::pool::Pool;
use crate::keeping::{Air, Lean};
use crate::kit::{Container, Treatment};
use crate::quantity::held::held;
use crate::quantity::sorted::sort;
use crate::quantity::{Amount, Volume};

/// What each part of a plan costs in oxygen, with the assumptions at one place of their ranges.
pub(super) struct Prices {
    /// Oxygen of a millilitre of fresh air.
    fresh: f64,
    /// Oxygen that a millilitre takes up by being poured.
    poured: f64,
    /// Days that a millilitre lasts.
    lasts: f64,
    left: AirLeft,
    treatment: Treatment,
    /// The bottle it is in and those at hand.
    containers: Vec<Priced>,
}

struct Priced {
    /// In ml.
    brimful: f64,
    /// Oxygen through the wall in a day.
    wall: f64,
    /// Oxygen that a millilitre of gas passes on in a day of use.
    in_use: f64,
}

impl Prices {
    pub fn new(job: &Job, lean: &Lean) -> Self {
        let assumptions = job.assumptions;
        let pressure = at(&assumptions.pressure, lean.pressure);
        let air = Air {
            temperature: job.climate.middle(),
            pressure,
            humidity: at(&assumptions.humidity, lean.humidity),
        };
        let one = Volume::from_millilitres(1.0);
        let fresh = air.oxygen(one).millimoles();
        let left = AirLeft::new(assumptions.air_left, lean);
        let priced = |(place, container): (usize, &Container)| {
            let treatment = if place == 0 { job.treatment } else { Treatment::Plain };
            let (_, share) = left.gas(treatment, one);
            let brimful = container.brimful.millilitres();
            let wall = assumptions.wall(container, lean).millimoles();
            let pool = Pool {
                fresh,
                wall: wall / brimful,
                uptake: at(&assumptions.uptake, lean.uptake),
            };
            Priced {
                brimful,
                wall,
                in_use: pool.in_use(share, job.interval),
            }
        };
        Self {
            fresh,
            poured: brought_by_water(one, air.temperature, pressure).millimoles(),
            lasts: job.interval / job.draw.millilitres(),
            left,
            treatment: job.treatment,
            containers: std::iter::once(job.container)
                .chain(job.at_hand)
                .enumerate()
                .map(priced)
                .collect(),
        }
    }

    /// The fills as a plan, in the best order: those whose walls let in most for the time they last come first; but one
    /// that is not full, whose air is taken up whether it waits or not unless it is in use, comes first of all where
    /// that is better.
    pub fn plan(&self, mut fills: Vec<Fill>) -> Plan {
        let urgency = |fill: &Fill| self.container(fill).wall / fill.volume.millilitres();
        sort(&mut fills, |one, other| match (urgency(one), urgency(other)) {
            (one, other) if one != other => one > other,
            _ => (one.brimful, one.container) < (other.brimful, other.container),
        });
        let oxygen = self.oxygen(&fills);
        let part = fills.iter().position(|fill| !fill.brimful).filter(|place| *place > 0);
        if let Some(place) = part {
            let mut first = fills.clone();
            first[..=place].rotate_right(1);
            let met = self.oxygen(&first);
            if met <= oxygen {
                return Plan {
                    fills: first,
                    oxygen: Amount::from_millimoles(met),
                };
            }
        }
        Plan {
            fills,
            oxygen: Amount::from_millimoles(oxygen),
        }
    }

    /// Oxygen met in all, in mmol.
    fn oxygen(&self, fills: &[Fill]) -> f64 {
        let all: f64 = fills.iter().map(|fill| fill.volume.millilitres()).sum();
        self.met_by(fills, all * self.lasts).millimoles()
    }

    /// Oxygen met within so many days.
    pub fn met_by(&self, fills: &[Fill], days: f64) -> Amount {
        let mut begins = 0.0;
        let mut met = 0.0;
        for fill in fills {
            let container = self.container(fill);
            let volume = fill.volume.millilitres();
            let lasts = volume * self.lasts;
            let empty = container.brimful - volume;
            if fill.container.is_some() {
                met += self.poured * volume;
            }
            if !fill.brimful && begins > 0.0 {
                let (gas, air) = self.gas(fill, empty);
                met += self.fresh * gas * air;
            }
            let used = held((days - begins) / lasts, 0.0, 1.0);
            let (gas, _) = self.gas(fill, empty + used * volume / 2.0);
            let along_liquid = container.wall * (1.0 - gas / container.brimful);
            met += container.wall * begins.min(days) + (container.in_use * gas + along_liquid) * used * lasts;
            begins += lasts;
        }
        Amount::from_millimoles(met)
    }

    /// Millilitres of gas in a headspace, and the share of it that is air.
    fn gas(&self, fill: &Fill, headspace: f64) -> (f64, f64) {
        let treatment = match fill.container {
            None => self.treatment,
            Some(_) => Treatment::Plain,
        };
        let (gas, air) = self.left.gas(treatment, Volume::from_millilitres(headspace));
        (gas.millilitres(), air)
    }

    fn container(&self, fill: &Fill) -> &Priced {
        &self.containers[fill.container.map_or(0, |place| place + 1)]
    }
}
