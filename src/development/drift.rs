//! Drift: how the temperature of a bath moves towards that of the room, and the time that makes up for it.
//!
//! Newton cooling: T(s) = T_room + (T_0 - T_room) exp(-s / tau). The rate of development is k ~ exp(-Ea / R T), so a bath has
//! developed enough when the integral of the rate over its temperatures equals that of the planned time at the temperature it was
//! planned for.
//!
//! A timer that reads the temperature as it goes has the same question:
//!
//! ```
//! use meniscus::development::drift::{Course, Onward, Plan};
//! use meniscus::quantity::{Span, Temperature};
//!
//! let celsius = Temperature::from_celsius;
//! let plan = Plan { time: Span::from_minutes(10.0), at: celsius(20.0), activation: 60_000.0 };
//! let read = [(Span::ZERO, celsius(20.0)), (Span::from_minutes(5.0), celsius(19.0))];
//! let onward = Onward::Towards { room: celsius(16.0), tau: Span::from_minutes(90.0) };
//! let course = Course::new(&read, onward).expect("a reading");
//! let left = plan.remaining(&course, Span::from_minutes(5.0));
//! assert!(left > Span::from_minutes(5.0) && left < Span::from_minutes(6.0));
//! ```

use super::{GAS_CONSTANT, zero};
use crate::chemistry::{Guess, WATER_HEAT};
use crate::quantity::held::held;
use crate::quantity::sorted::sort;
use crate::quantity::{Span, Temperature, Volume};

/// What was planned: so much time at one temperature, and how the rate follows the temperature.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Plan {
    /// Developing time at a temperature that does not move.
    pub time: Span,
    /// That temperature.
    pub at: Temperature,
    /// Activation energy, J/mol.
    pub activation: f64,
}

/// How the temperature goes on after the last reading.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Onward {
    /// It stays: a bath in a tempered jacket, or nothing is known of the room.
    Held,
    /// It drifts towards that of the room, or of the water around the tank.
    Towards {
        /// Where it ends.
        room: Temperature,
        /// In this time the difference falls to 1/e of itself; more than nothing.
        tau: Span,
    },
}

/// The temperatures of one developing: as they were read, straight from one reading to the next, and onward from the last.
#[derive(Clone, Debug, PartialEq)]
pub struct Course {
    /// In the order of time; at least one.
    readings: Vec<(f64, Temperature)>,
    onward: Onward,
    /// Between two of these the rate is smooth enough for one step of integration; after the last the temperature stays.
    edges: Vec<f64>,
}

/// Most kelvins in one step of integration along a straight line.
const STEP: f64 = 2.0;
/// Most steps between two readings, whatever they say.
const MOST_STEPS: f64 = 64.0;
/// Steps of integration for each tau, and after how many tau nothing is left of the difference (exp(-40) is 4e-18).
const STEPS_A_TAU: u32 = 4;
const SETTLED: u32 = 40;

/// Nodes and weights of the five-point Gauss-Legendre rule on -1 to 1 (Abramowitz and Stegun, table 25.4).
const RULE: [(f64, f64); 5] = [
    (-0.906_179_845_938_664, 0.236_926_885_056_189_1),
    (-0.538_469_310_105_683_1, 0.478_628_670_499_366_5),
    (0.0, 0.568_888_888_888_888_9),
    (0.538_469_310_105_683_1, 0.478_628_670_499_366_5),
    (0.906_179_845_938_664, 0.236_926_885_056_189_1),
];

impl Course {
    /// The course of these readings, each with its time since the bath met the film. They may come in any order; of two at one time
    /// the later in the list counts. Before the first the temperature is that of the first.
    ///
    /// `None` without a reading, or where a reading or `tau` is no number, or `tau` is not more than nothing.
    pub fn new(readings: &[(Span, Temperature)], onward: Onward) -> Option<Self> {
        let whole =
            |&(at, temperature): &(Span, Temperature)| at.seconds().is_finite() && temperature.celsius().is_finite();
        if readings.is_empty() || !readings.iter().all(whole) {
            return None;
        }
        let onward = match onward {
            Onward::Towards { tau, .. } if tau.seconds().is_nan() || tau <= Span::ZERO => return None,
            Onward::Towards { room, .. } if !room.celsius().is_finite() => return None,
            Onward::Towards { tau, .. } if tau.seconds().is_infinite() => Onward::Held,
            sound => sound,
        };
        let mut readings: Vec<(f64, Temperature)> = readings.iter().map(|(at, read)| (at.seconds(), *read)).collect();
        sort(&mut readings, |one, other| one.0 < other.0);
        let mut edges = vec![readings[0].0.max(0.0)];
        for pair in readings.windows(2) {
            let ((from, cold), (to, warm)) = (pair[0], pair[1]);
            let steps = ((warm - cold).kelvins().abs() / STEP).ceil();
            let steps = held(steps, 1.0, MOST_STEPS) as u32;
            edges.extend((1..=steps).map(|step| from + (to - from) * f64::from(step) / f64::from(steps)));
        }
        if let Onward::Towards { tau, .. } = onward {
            let last = readings[readings.len() - 1].0;
            let step = tau.seconds() / f64::from(STEPS_A_TAU);
            edges.extend((1..=STEPS_A_TAU * SETTLED).map(|count| last + step * f64::from(count)));
        }
        edges.retain(|edge| *edge >= 0.0);
        Some(Self {
            readings,
            onward,
            edges,
        })
    }

    /// A bath at this temperature that drifts from the beginning.
    pub fn drifting(from: Temperature, room: Temperature, tau: Span) -> Option<Self> {
        Self::new(&[(Span::ZERO, from)], Onward::Towards { room, tau })
    }

    /// The temperature after so much time.
    pub fn temperature(&self, at: Span) -> Temperature {
        let at = at.seconds();
        let next = self.readings.iter().position(|(time, _)| *time > at);
        match next {
            Some(0) => self.readings[0].1,
            Some(next) => {
                let ((from, cold), (to, warm)) = (self.readings[next - 1], self.readings[next]);
                cold + (warm - cold) * ((at - from) / (to - from))
            }
            None => {
                let (from, temperature) = self.readings[self.readings.len() - 1];
                match self.onward {
                    Onward::Held => temperature,
                    Onward::Towards { room, tau } => room + (temperature - room) * (-(at - from) / tau.seconds()).exp(),
                }
            }
        }
    }

    /// The mean temperature from the beginning until then.
    pub fn mean(&self, until: Span) -> Temperature {
        match until > Span::ZERO {
            true => Temperature::from_celsius(self.sum(until, &|temperature| temperature.celsius()) / until.seconds()),
            false => self.temperature(Span::ZERO),
        }
    }

    /// Integral from the beginning until then of what follows from the temperature, over seconds.
    fn sum(&self, until: Span, of: &dyn Fn(Temperature) -> f64) -> f64 {
        let mut sum = 0.0;
        let mut at = 0.0;
        for &edge in &self.edges {
            let to = edge.min(until.seconds());
            if to > at {
                sum += self.step(at, to, of);
                at = to;
            }
        }
        let rest = (until.seconds() - at).max(0.0);
        sum + rest * of(self.temperature(until))
    }

    /// The same over one step between two edges.
    fn step(&self, from: f64, to: f64, of: &dyn Fn(Temperature) -> f64) -> f64 {
        let (middle, half) = ((from + to) / 2.0, (to - from) / 2.0);
        let at = |node: f64| of(self.temperature(Span::from_seconds(middle + half * node)));
        half * RULE.iter().map(|(node, weight)| weight * at(*node)).sum::<f64>()
    }

    /// When, after the last reading, the drift passes this temperature; `None` where it never does.
    pub fn passes(&self, level: Temperature) -> Option<Span> {
        let (from, temperature) = self.readings[self.readings.len() - 1];
        let Onward::Towards { room, tau } = self.onward else {
            return None;
        };
        let share = (level - room) / (temperature - room);
        (share > 0.0 && share < 1.0).then(|| Span::from_seconds(from) - tau * share.ln())
    }
}

impl Plan {
    /// The time that the same development takes at a temperature that does not move.
    pub fn time_at(&self, temperature: Temperature) -> Span {
        self.time / self.rate(temperature)
    }

    /// The temperature that, not moving, would develop as far in this time.
    pub fn mean(&self, time: Span) -> Temperature {
        let inverse = 1.0 / self.at.kelvins() + GAS_CONSTANT / self.activation * (time / self.time).ln();
        Temperature::from_kelvins(1.0 / inverse)
    }

    /// How far it has developed until then, as time at the planned temperature: it is done when that is the planned time.
    pub fn developed(&self, course: &Course, until: Span) -> Span {
        Span::from_seconds(course.sum(until, &|temperature| self.rate(temperature)))
    }

    /// When it has developed as far as was planned, counted from the beginning: before the last reading, if it was done by then.
    pub fn ends(&self, course: &Course) -> Span {
        let mut left = self.time.seconds();
        let mut at = 0.0;
        for &edge in course.edges.iter().filter(|edge| **edge > 0.0) {
            let step = self.integral(course, at, edge);
            if step >= left {
                return Span::from_seconds(self.within(course, at, edge, left));
            }
            left -= step;
            at = edge;
        }
        let settled = course.temperature(Span::from_seconds(at));
        Span::from_seconds(at + left / self.rate(settled))
    }

    /// What is left of it at this moment of the course, at the temperatures to come; below nothing by as much as it is overdue.
    pub fn remaining(&self, course: &Course, now: Span) -> Span {
        self.ends(course) - now
    }

    /// The temperature to begin with so that the planned time is right although the bath drifts, from 0 to 100 °C.
    pub fn begin_at(&self, room: Temperature, tau: Span) -> Option<Temperature> {
        let ahead = |from: Temperature| {
            Course::drifting(from, room, tau).map_or(f64::NAN, |course| {
                (self.developed(&course, self.time) - self.time).seconds()
            })
        };
        let [cold, hot] = [0.0, 100.0].map(|celsius| ahead(Temperature::from_celsius(celsius)));
        (cold < 0.0 && hot >= 0.0).then(|| zero(&ahead))
    }

    /// How many times as fast as at the planned temperature.
    fn rate(&self, temperature: Temperature) -> f64 {
        (self.activation / GAS_CONSTANT * (1.0 / self.at.kelvins() - 1.0 / temperature.kelvins())).exp()
    }

    /// Integral of the rate over one step, in seconds at the planned temperature.
    fn integral(&self, course: &Course, from: f64, to: f64) -> f64 {
        course.step(from, to, &|temperature| self.rate(temperature))
    }

    /// Where within a step the integral from its beginning is this much: by Newton, and by halving where that leads out of the step.
    fn within(&self, course: &Course, from: f64, to: f64, wanted: f64) -> f64 {
        let (mut low, mut high) = (from, to);
        let mut at = from;
        for _ in 0..50 {
            let off = self.integral(course, from, at) - wanted;
            match off < 0.0 {
                true => low = at,
                false => high = at,
            }
            let next = at - off / self.rate(course.temperature(Span::from_seconds(at)));
            let next = if next > low && next < high {
                next
            } else {
                (low + high) / 2.0
            };
            if (next - at).abs() < 1e-9 {
                return next;
            }
            at = next;
        }
        at
    }
}

/// The time constant of a tank from two readings of it, so far apart, in a room that does not move. `None` unless the second lies
/// between the first and the room.
pub fn tau_of(first: Temperature, second: Temperature, room: Temperature, between: Span) -> Option<Span> {
    let share = (second - room) / (first - room);
    (share > 0.0 && share < 1.0).then(|| between / -share.ln())
}

/// Heat that passes from a square metre of a tank into still air for a kelvin, in watts: what convection and radiation come to, from
/// memory; hands, draughts and turning it over add to that, double walls take from it.
pub const INTO_AIR: Guess = Guess {
    value: 10.0,
    least: 6.0,
    most: 16.0,
    why: "still air and radiation take 8 to 12 W from a square metre for a kelvin (from memory); turning the tank takes more, a thick \
          wall less",
};

/// The time constant of so much water in a vessel about as wide as high, that gives off so many watts from a square metre for a
/// kelvin: the bath alone, or with the water around its tank.
pub fn tau_assumed(water: Volume, watts: f64) -> Span {
    // A cylinder as high as wide: area = 1.5 pi (4 V / pi)^(2/3).
    let cubic_metres = water.millilitres() * 1e-6;
    let area = 1.5 * std::f64::consts::PI * (4.0 * cubic_metres / std::f64::consts::PI).powf(2.0 / 3.0);
    Span::from_seconds(water.millilitres() * WATER_HEAT / (watts * area))
}
