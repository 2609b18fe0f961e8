//! The measuring plan against every split of a small kit, and limits of error by plain questions.

use meniscus::kit::{Grade, Instrument, InstrumentKind, Kept, Kit, Measured, Reading, Tolerance, Way, ways};
use meniscus::quantity::{TemperatureDifference, Volume};

use super::near;

/// A tool of the small kit: capacity, graduation, whether it is a syringe; millilitres.
#[derive(Clone, Copy, PartialEq)]
struct Tool {
    capacity: f64,
    graduation: f64,
    syringe: bool,
}

const TOOLS: [Tool; 3] = [
    Tool {
        capacity: 10.0,
        graduation: 0.5,
        syringe: true,
    },
    Tool {
        capacity: 20.0,
        graduation: 1.0,
        syringe: true,
    },
    Tool {
        capacity: 100.0,
        graduation: 1.0,
        syringe: false,
    },
];

/// The most draws of a way.
const DRAWS: usize = 4;

/// ISO 7886-1, table 1 (from memory but for 1 ml and 10 ml), one question after the other.
fn syringe_limit(capacity: f64, delivered: f64) -> f64 {
    if capacity < 5.0 {
        if delivered < 0.5 * capacity {
            1.5 / 100.0 * capacity + 2.0 / 100.0 * delivered
        } else {
            5.0 / 100.0 * delivered
        }
    } else if delivered < 0.5 * capacity {
        1.5 / 100.0 * capacity + 1.0 / 100.0 * delivered
    } else {
        4.0 / 100.0 * delivered
    }
}

#[test]
fn syringes_by_plain_questions() {
    for size in 1..=120 {
        let capacity = f64::from(size) / 2.0;
        for step in 1..=100 {
            let delivered = capacity * f64::from(step) / 100.0;
            let got = Tolerance::SyringeIso7886
                .half_width(Volume::from_millilitres(capacity), Volume::from_millilitres(delivered));
            near(
                &format!("{delivered} ml from {capacity} ml"),
                got.millilitres(),
                syringe_limit(capacity, delivered),
                1e-12,
            );
        }
    }
}

impl Tool {
    /// ISO 7886-1, or class B of ISO 4788 (from memory): 1 ml of 100.
    fn limit(self, delivered: f64) -> f64 {
        if self.syringe {
            syringe_limit(self.capacity, delivered)
        } else {
            1.0
        }
    }

    /// A fifth of the graduation on a mark, a quarter between (common practice, no source).
    fn reading(self, delivered: f64) -> f64 {
        let marks = delivered / self.graduation;
        if (marks - marks.round()).abs() < 1e-6 {
            self.graduation / 5.0
        } else {
            self.graduation / 4.0
        }
    }

    fn allows(self, delivered: f64) -> bool {
        delivered > self.graduation - 1e-9
            && delivered < self.capacity + 1e-9
            && self.limit(delivered) <= delivered / 2.0
    }
}

/// Standard uncertainty of draws of some of the tools: one error a tool, one reading a draw.
fn uncertainty(draws: &[(usize, f64)]) -> f64 {
    let mut variance = 0.0;
    for (index, tool) in TOOLS.iter().enumerate() {
        let own = draws.iter().filter(|draw| draw.0 == index);
        let limits: f64 = own.clone().map(|draw| tool.limit(draw.1)).sum();
        let readings: f64 = own.map(|draw| tool.reading(draw.1).powi(2)).sum();
        variance += (limits * limits + readings) / 3.0;
    }
    variance.sqrt()
}

/// The least uncertainty of up to four draws with any of the tools, all but the last to a mark, the last to whatever is left.
fn best_of_all(wanted: f64) -> f64 {
    let mut best = f64::INFINITY;
    let mut draws = Vec::new();
    every_split(wanted, &mut draws, &mut best);
    best
}

fn every_split(left: f64, draws: &mut Vec<(usize, f64)>, best: &mut f64) {
    for (index, tool) in TOOLS.iter().enumerate() {
        if tool.allows(left) {
            draws.push((index, left));
            *best = best.min(uncertainty(draws));
            draws.pop();
        }
    }
    if draws.len() + 1 == DRAWS {
        return;
    }
    // The order of draws makes no difference, so each is at most as high in the list as the one before.
    let before = draws.last().copied().unwrap_or((0, f64::INFINITY));
    for (index, tool) in TOOLS.iter().enumerate().skip(before.0) {
        let marks = (tool.capacity / tool.graduation).round() as u32;
        for mark in 1..=marks {
            let to = f64::from(mark) * tool.graduation;
            let again = index == before.0 && to > before.1;
            if to < left && tool.allows(to) && !again {
                draws.push((index, to));
                every_split(left - to, draws, best);
                draws.pop();
            }
        }
    }
}

fn small_kit() -> Kit {
    let mut kit = Kit::starter();
    let instrument = |tool: &Tool| Kept {
        id: format!("{}", tool.capacity),
        item: Instrument {
            name: format!("{} ml", tool.capacity),
            kind: if tool.syringe {
                InstrumentKind::Syringe
            } else {
                InstrumentKind::Cylinder
            },
            capacity: Volume::from_millilitres(tool.capacity),
            graduation: Volume::from_millilitres(tool.graduation),
            reading: Reading::HalfMarks,
            tolerance: if tool.syringe {
                Tolerance::SyringeIso7886
            } else {
                Tolerance::CylinderIso4788(Grade::B)
            },
            dead_space: Volume::ZERO,
            calibrated_on: None,
        },
    };
    kit.instruments = TOOLS.iter().map(instrument).collect();
    kit
}

fn plan(kit: &Kit, wanted: f64) -> Vec<Measured<'_>> {
    ways(kit, Volume::from_millilitres(wanted), None, TemperatureDifference::ZERO)
}

/// The plan looks at one instrument, and at two of which one is drawn once. No other split of up to four draws beats its
/// best by more than this.
const BEATEN_BY: f64 = 1.10;

#[test]
fn no_split_beats_the_plan_by_much() {
    let kit = small_kit();
    for wanted in [
        2.0, 3.3, 5.88, 7.25, 9.8, 11.76, 15.63, 18.75, 24.0, 31.7, 37.5, 52.0, 66.6, 98.04,
    ] {
        let found = plan(&kit, wanted);
        let drawn = found.iter().filter(|way| matches!(way.way, Way::Draw(_)));
        let got = drawn
            .map(|way| way.standard_uncertainty().millilitres())
            .fold(f64::INFINITY, f64::min);
        let best = best_of_all(wanted);
        assert!(
            got <= best * BEATEN_BY,
            "{wanted} ml: the plan measures to {got} ml, another split to {best} ml"
        );
        assert!(
            got >= best * (1.0 - 1e-9),
            "{wanted} ml: {got} is better than every split, {best}"
        );
    }
}

/// A dilution made first, in the 100 ml cylinder, from the full or the half first instrument, 2, 5, 10 or 20 times; what is
/// taken of it in as few draws as the second instrument allows. The same instrument twice is the same error twice, read anew.
fn best_predilution(wanted: f64) -> f64 {
    let cylinder = 2;
    let relative = |draws: &[(usize, f64)]| uncertainty(draws) / draws.iter().map(|draw| draw.1).sum::<f64>();
    let mut best = f64::INFINITY;
    for (first, tool) in TOOLS.iter().enumerate() {
        for volume in [tool.capacity, tool.capacity / 2.0] {
            for times in [2.0, 5.0, 10.0, 20.0] {
                let made_up = volume * times;
                let in_reach = volume >= wanted && volume <= 5.0 * wanted + 1e-9 && made_up <= TOOLS[cylinder].capacity;
                if !in_reach || !tool.allows(volume) || !TOOLS[cylinder].allows(made_up) {
                    continue;
                }
                let take = wanted * times;
                for (second, other) in TOOLS.iter().enumerate() {
                    let count = (take / other.capacity - 1e-9).ceil();
                    if count > DRAWS as f64 || !other.allows(take / count) {
                        continue;
                    }
                    // To the same mark each time, or to the nearest mark below and a last one.
                    let same: Vec<_> = (0..count as usize).map(|_| (second, take / count)).collect();
                    let of_concentrate = relative(&[(first, volume)]);
                    let of_dilution = relative(&same);
                    let mut both = of_concentrate.hypot(of_dilution);
                    if first == second {
                        // (a + b)² is a² + b² + 2 a b: only the limits meet.
                        let limits = tool.limit(volume) / volume * tool.limit(take / count) / (take / count);
                        both = (both.powi(2) + 2.0 * limits / 3.0).sqrt();
                    }
                    best = best.min(both.hypot(relative(&[(cylinder, made_up)])));
                }
            }
        }
    }
    best
}

/// The two look for the last draws differently, so the plan may be a little behind or before.
#[test]
fn no_dilution_beats_the_plans_by_much() {
    let kit = small_kit();
    for wanted in [1.0, 1.2, 1.5, 2.0, 2.5, 3.0, 4.0] {
        let found = plan(&kit, wanted);
        let made_first = found.iter().find(|way| matches!(way.way, Way::Predilute { .. }));
        let got = made_first.map_or(f64::INFINITY, Measured::relative_uncertainty);
        let direct = best_of_all(wanted) / wanted;
        let best = best_predilution(wanted);
        // The plan offers it where it brings the uncertainty below four fifths.
        if best < 0.75 * direct {
            assert!(
                got <= best * 1.05,
                "{wanted} ml: the plan's dilution measures to {got}, another to {best}"
            );
        }
    }
}
