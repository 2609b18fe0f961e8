//! One future, step by step: the stated life and the air add up until a voice asks, or the bottle is empty.

use super::End;
use super::world::{Model, World};
use crate::quantity::held::held;

/// A stretch of the future.
#[derive(Clone, Copy)]
pub(super) struct Step {
    /// How many days.
    pub days: f64,
    /// Liquid at its beginning, in ml.
    pub content: f64,
    /// Liquid in the mean of it, in ml.
    pub mean: f64,
}

/// Where a future stands on a day.
#[derive(Clone, Copy, Debug)]
pub(super) struct Footprint {
    /// Days from today.
    pub day: f64,
    /// How near the voices are to asking: 1 is where one asks.
    pub wear: f64,
    /// Liquid left, in ml.
    pub left: f64,
}

/// Walks the steps. `interval` is the mean of days between openings, `None` if it stays closed; `uses_up` says whether
/// the bottle is empty after the last step.
pub(super) fn walk(
    model: &Model,
    world: &World,
    interval: Option<f64>,
    path: impl Iterator<Item = Step>,
    mut trail: Option<&mut Vec<Footprint>>,
    uses_up: bool,
) -> End {
    let mut day = 0.0;
    let mut now = world.worn;
    let mut asks = match now.life >= model.trusted || now.air >= 1.0 {
        true => 0.0,
        false => model.hot_after,
    };
    let mut lapses = model.proof_left;
    let turn = interval.map(|interval| world.turn(interval, model));
    let (mut warmed, mut closed) = (0.0, 0.0);
    for step in path {
        if let Some(trail) = trail.as_deref_mut() {
            trail.push(Footprint {
                day,
                wear: model.wear(&now),
                left: step.content,
            });
        }
        let warm = world.days_to(day + step.days);
        let gas = world.gas(step.mean, model);
        let life = world.life_a_day(gas, model) * (warm - warmed);
        let air = match turn {
            Some(turn) => world.air_a_day(gas, step.mean, turn, model) * step.days,
            None => world.air_closed(day + step.days, model) - closed,
        };
        warmed = warm;
        closed += air;
        let reached = |from: f64, by: f64, limit: f64| day + reached(from, by, limit) * step.days;
        asks = asks
            .min(reached(now.life, life, model.trusted))
            .min(reached(now.air, air, 1.0));
        lapses = lapses.min(reached(now.life_since, life, model.life_since)).min(reached(
            now.air_since,
            air,
            model.air_since,
        ));
        now.life += life;
        now.air += air;
        now.life_since += life;
        now.air_since += air;
        day += step.days;
    }
    if let Some(trail) = trail {
        trail.push(Footprint {
            day,
            wear: model.wear(&now),
            left: if uses_up { 0.0 } else { model.content().millilitres() },
        });
    }
    let empty = if uses_up { day } else { f64::INFINITY };
    let asks = if model.proved { asks.max(lapses) } else { asks };
    End {
        asks: if asks < empty { asks } else { f64::INFINITY },
        empty,
    }
}

/// After which share of a step the limit is reached; infinite if it is not.
fn reached(from: f64, by: f64, limit: f64) -> f64 {
    match from + by >= limit {
        true if by > 0.0 => held((limit - from) / by, 0.0, 1.0),
        true => 0.0,
        false => f64::INFINITY,
    }
}
