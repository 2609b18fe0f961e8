//! What lies ahead of a bottle: when a voice will ask for a test, and when it is empty; by Monte Carlo over the
//! assumptions and the user's own pace of use.
//!
//! Five hundred worlds, each one choice of all assumptions, go through the bottle's past once; each then has forty
//! futures of its own pace. The past and the future of a draw thus rest on the same assumptions.

mod walk;
mod world;

use super::{Case, Pace, Seal, State, judge};
use crate::quantity::Day;
use crate::quantity::held::held;
use crate::uncertainty::Random;

use walk::{Footprint, Step, walk};
use world::{Model, World};

/// What lies ahead of a bottle if no further test is made.
#[derive(Clone, Debug, PartialEq)]
pub struct Forecast {
    /// When a voice will ask for a test, or, of a proved bottle, when the proof has lapsed and a voice asks.
    pub test_first: Dates,
    /// When it is empty; never for a bottle that is not in use.
    pub empty: Dates,
    /// Share of the futures in which a test is asked for before it is empty.
    pub asked_before_empty: f64,
    /// How near the voices are to asking for a test: 1 is where one asks, and 2 where the curve is cut off. Of the
    /// futures in which there is still liquid.
    pub wear: Vec<CurvePoint>,
    /// Liquid left, in ml.
    pub left: Vec<CurvePoint>,
    /// How many futures it rests on.
    pub draws: usize,
}

/// A band of dates over all futures: one in twenty is earlier than the first, half are earlier than the middle, one in
/// twenty is later than the last. `None` where that share of the futures does not come to it within ten years, or not
/// before the bottle is empty.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Dates {
    /// 5 %.
    pub early: Option<Day>,
    /// 50 %.
    pub middle: Option<Day>,
    /// 95 %.
    pub late: Option<Day>,
}

/// A point of a curve with its band.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CurvePoint {
    /// When.
    pub day: Day,
    /// One future in twenty is lower.
    pub low: f64,
    /// The middle future.
    pub middle: f64,
    /// One future in twenty is higher.
    pub high: f64,
}

/// How far ahead is looked, in days: ten years.
const HORIZON: f64 = 3653.0;
/// Choices of all assumptions.
const WORLDS: usize = 500;
/// Futures of each while in use.
const FUTURES: usize = 40;
/// Choices for a bottle that only stands: there is one future to each.
const STANDING_WORLDS: usize = 2000;
/// Steps of a bottle that only stands.
const STANDING_STEPS: usize = 48;
/// Most steps of a bottle in use; more draws than these are taken together.
const MOST_STEPS: f64 = 12.0;
/// Where the curve of wear is cut off.
const MOST_WEAR: f64 = 2.0;
/// Stretches of a curve.
const CURVE: usize = 24;

/// Looks ahead, from the last day of the life. `pace` is how it will be used, `None` if it will only stand; one
/// unopened is taken to stay so.
pub fn forecast(case: &Case, pace: Option<&Pace>, random: &mut Random) -> Forecast {
    let state = judge(case).state;
    let last = case.life.last();
    let pace = pace.filter(|_| last.seal != Seal::Unopened && last.content.millilitres() > 0.0);
    let model = Model::new(case, state == State::Proved);
    let (worlds, futures) = match pace {
        Some(_) => (WORLDS, FUTURES),
        None => (STANDING_WORLDS, 1),
    };
    let stages = stages(pace.map_or(1.0, |pace| model.content() / pace.volume()));
    let mut asked = Vec::with_capacity(worlds * futures);
    let mut empty = Vec::with_capacity(worlds * futures);
    let mut trails = Vec::with_capacity(worlds);
    for _ in 0..worlds {
        let world = model.world(random);
        for future in 0..futures {
            let mut trail = Vec::new();
            let trail_of_first = (future == 0 && trails.len() < WORLDS).then_some(&mut trail);
            let end = match pace {
                Some(pace) => use_up(&model, &world, pace, &stages, random, trail_of_first),
                None => stand(&model, &world, trail_of_first),
            };
            asked.push(match state {
                State::TestFirst => 0.0,
                State::Failed => f64::INFINITY,
                _ => end.asks,
            });
            empty.push(end.empty);
            if !trail.is_empty() {
                trails.push(trail);
            }
        }
    }
    let draws = asked.len();
    let before = asked.iter().filter(|days| days.is_finite()).count();
    let today = case.life.today();
    let far = far(&mut empty.clone(), &mut asked.clone());
    Forecast {
        test_first: dates(today, &mut asked),
        empty: dates(today, &mut empty),
        asked_before_empty: before as f64 / draws as f64,
        wear: curve(today, far, &trails, wear_at),
        left: curve(today, far, &trails, |trail, day| Some(left_at(trail, day))),
        draws,
    }
}

/// How a future ends, in days from today; infinite where it does not.
struct End {
    asks: f64,
    empty: f64,
}

type Trail = Vec<Footprint>;

fn use_up(
    model: &Model,
    world: &World,
    pace: &Pace,
    stages: &[f64],
    random: &mut Random,
    trail: Option<&mut Trail>,
) -> End {
    let habit = pace.habit(random);
    let draw = habit.volume.millilitres();
    let draws = model.content().millilitres() / draw;
    let path = stages.windows(2).map(|stage| {
        let together = draws * (stage[0] - stage[1]);
        let content = draws * stage[0] * draw;
        Step {
            days: pace.wait(&habit, together).days(random),
            content,
            mean: content - (together - 1.0).max(0.0) / 2.0 * draw,
        }
    });
    walk(model, world, Some(habit.interval), path, trail, true)
}

/// Shares of the content left between the steps of its use, 1 first and 0 last: a step to each draw, or, of many draws,
/// a draw in the last step and more in those before, since the air costs most where least is left.
fn stages(draws: f64) -> Vec<f64> {
    let steps = held(draws.ceil(), 1.0, MOST_STEPS);
    let bend = held(draws.max(1.0).ln() / steps.max(2.0).ln(), 1.0, 2.0);
    let share = |step: u32| (1.0 - f64::from(step) / steps).max(0.0).powf(bend);
    (0..=steps as u32).map(share).collect()
}

/// In steps that grow from days to months, since what is above the liquid is taken up first.
fn stand(model: &Model, world: &World, trail: Option<&mut Trail>) -> End {
    let content = model.content().millilitres();
    let day = |step: usize| HORIZON * (step as f64 / STANDING_STEPS as f64).powi(2);
    let path = (0..STANDING_STEPS).map(|step| Step {
        days: day(step + 1) - day(step),
        content,
        mean: content,
    });
    walk(model, world, None, path, trail, false)
}

fn dates(today: Day, days: &mut [f64]) -> Dates {
    let mut date = |probability: f64| {
        let found = quantile(days, probability)?;
        (found <= HORIZON).then(|| today + found.round() as i32)
    };
    Dates {
        early: date(0.05),
        middle: date(0.5),
        late: date(0.95),
    }
}

/// The value that a share of them stays below; `None` of nothing.
fn quantile(values: &mut [f64], probability: f64) -> Option<f64> {
    let place = (probability * values.len().checked_sub(1)? as f64).round() as usize;
    Some(*values.select_nth_unstable_by(place, f64::total_cmp).1)
}

/// Where the curves end: when nearly every future is empty, or has asked for a test if it only stands.
fn far(empty: &mut [f64], asked: &mut [f64]) -> f64 {
    let end = quantile(empty, 0.95).filter(|days| days.is_finite());
    let end = end.or_else(|| quantile(asked, 0.95));
    held(end.unwrap_or(HORIZON), 14.0, HORIZON)
}

fn curve(today: Day, far: f64, trails: &[Trail], of: impl Fn(&[Footprint], f64) -> Option<f64>) -> Vec<CurvePoint> {
    let points = (0..=CURVE).filter_map(|step| {
        let days = (far * step as f64 / CURVE as f64).round();
        let mut values: Vec<f64> = trails.iter().filter_map(|trail| of(trail, days)).collect();
        Some(CurvePoint {
            day: today + days as i32,
            low: quantile(&mut values, 0.05)?,
            middle: quantile(&mut values, 0.5)?,
            high: quantile(&mut values, 0.95)?,
        })
    });
    points.collect()
}

/// The footprints about a day, and how far it lies between them; `None` beyond the last.
fn about(trail: &[Footprint], day: f64) -> Option<(Footprint, Footprint, f64)> {
    let after = trail.iter().position(|foot| foot.day >= day)?;
    let (one, other) = (trail[after.saturating_sub(1)], trail[after]);
    let between = match other.day > one.day {
        true => (day - one.day) / (other.day - one.day),
        false => 1.0,
    };
    Some((one, other, between))
}

fn wear_at(trail: &[Footprint], day: f64) -> Option<f64> {
    about(trail, day).map(|(one, other, between)| (one.wear + (other.wear - one.wear) * between).min(MOST_WEAR))
}

fn left_at(trail: &[Footprint], day: f64) -> f64 {
    let left = about(trail, day).map(|(one, other, between)| one.left + (other.left - one.left) * between);
    left.unwrap_or_else(|| trail.last().map_or(0.0, |foot| foot.left))
}
