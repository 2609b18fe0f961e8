//! Two negatives compared again: Student's t by adding up its density in small steps, strength by halving until the walked law of
//! development gives the contrast, and how often a plan decides by playing it many times.

use meniscus::proof::comparison::{Comparison, Readings, Strip, Verdict};
use meniscus::uncertainty::Random;

use super::cases::{self, Cases};
use super::{near, search, value};

/// The t with 5 % above it.
fn five_percent(freedom: f64) -> f64 {
    let density = |t: f64| (1.0 + t * t / freedom).powf(-(freedom + 1.0) / 2.0);
    let between = |from: f64, to: f64| {
        let steps = 20_000;
        let step = (to - from) / f64::from(steps);
        let middles = (0..steps).map(|index| density(from + step * (f64::from(index) + 0.5)));
        middles.sum::<f64>() * step
    };
    // Beyond 2000 nothing is left that would show.
    let half = between(0.0, 20.0) + between(20.0, 2_000.0);
    let (mut low, mut high) = (0.0, 20.0);
    for _ in 0..40 {
        let middle = (low + high) / 2.0;
        if between(0.0, middle) < 0.9 * half {
            low = middle;
        } else {
            high = middle;
        }
    }
    low
}

/// Densities parted by blanks, in the cases that write them so.
fn plain(text: &str) -> Option<Vec<f64>> {
    text.split_whitespace().map(|word| word.parse().ok()).collect()
}

fn variance(values: &[f64]) -> f64 {
    let count = values.len() as f64;
    let all: f64 = values.iter().sum();
    let squares: f64 = values.iter().map(|value| value * value).sum();
    (squares - all * all / count) / (count - 1.0)
}

/// Unpaired cases with one roll of each, two decimals and a typed repeat.
#[test]
fn intervals_by_adding_up_the_density() {
    let mut compared = 0;
    for case in cases::load::<Cases>("compare").case {
        let typed = |field: &str, first: &str| case.fields.get(field).map_or(first.to_owned(), Clone::clone);
        let lists = [
            typed("first", "0.80 0.81 0.79 0.80"),
            typed("second", "0.85 0.84 0.86 0.85"),
        ]
        .map(|text| plain(&text));
        let ([Some(first), Some(second)], Ok(repeat)) = (lists, typed("repeat", "").parse::<f64>()) else {
            continue;
        };
        let unlike = ["pairs", "first_rolls", "measured"];
        if unlike.iter().any(|field| case.fields.contains_key(*field)) || first.len() < 2 {
            continue;
        }
        let rounding = 0.01f64.powi(2) / 12.0;
        let base = typed("first_base", "");
        // A base that nobody read cancels, and so does a meter's zero.
        let (base, of_bases) = match base.as_str() {
            _ if base != typed("second_base", "") => continue,
            "0.30" => (0.3, 2.0 * rounding),
            "" => (0.3, 0.0),
            "0" => (0.0, 0.0),
            _ => continue,
        };
        let sheet = case.answer("compare").sheet;
        let mut known = 2.0 * repeat * repeat + of_bases;
        let mut scattered = Vec::new();
        for values in [&first, &second] {
            let of_mean = variance(values) / values.len() as f64;
            match of_mean > rounding {
                true => scattered.push((of_mean, values.len() as f64 - 1.0)),
                false => known += rounding,
            }
        }
        let all = known + scattered.iter().map(|(part, _)| part).sum::<f64>();
        let freedom = all * all
            / scattered
                .iter()
                .map(|(part, freedom)| part * part / freedom)
                .sum::<f64>();
        let half = five_percent(freedom) * all.sqrt();
        let mean = |values: &[f64]| values.iter().sum::<f64>() / values.len() as f64;
        let difference = mean(&first) - mean(&second);
        near(&case.name, value(&sheet, "low"), difference - half, 2e-6);
        near(&case.name, value(&sheet, "high"), difference + half, 2e-6);
        if let Some(strength) = sheet.figure("strength") {
            let ratio = (mean(&first) - base) / (mean(&second) - base);
            // Contrast of a rate, by walking the law in small steps; x is 1.
            let contrast = |rate: f64| {
                let mut gamma = 0.0;
                for _ in 0..20_000 {
                    let half = gamma + (1.0 - gamma) * rate / 40_000.0;
                    gamma += (1.0 - half) * rate / 20_000.0;
                }
                gamma
            };
            let wanted = contrast(1.0) * ratio;
            near(
                &case.name,
                strength.value / 100.0,
                search(|rate| contrast(rate) - wanted),
                1e-6,
            );
        }
        compared += 1;
    }
    assert!(compared >= 6, "only {compared} were compared");
}

/// Two that are alike, and two that differ by twice the margin, are told apart as often as the plan says: rolls and readings drawn
/// anew 4000 times with as many rolls as it asks for, and with one fewer.
#[test]
fn plans_by_playing_them() {
    let (repeat, reading, margin) = (0.02, 0.01, 0.06);
    let mut random = Random::new(7);
    let mut played = |rolls: u32, truth: f64| {
        let mut side = |level: f64| {
            let mut values = Vec::new();
            for _ in 0..rolls {
                let roll = level + repeat * random.normal();
                values.extend([0; 3].map(|_| roll + reading * random.normal()));
            }
            // What scatters within the rolls; the rolls' own part is counted by itself.
            let within: Vec<f64> = values
                .chunks(3)
                .flat_map(|roll| {
                    let mean = roll.iter().sum::<f64>() / 3.0;
                    roll.iter().map(move |value| value - mean).collect::<Vec<_>>()
                })
                .collect();
            let mean = values.iter().sum::<f64>() / values.len() as f64;
            Strip {
                rolls,
                repeat,
                ..Strip::new(Readings::new(within.iter().map(|value| value + mean).collect(), 0.0))
            }
        };
        let (first, second) = (side(0.6 + truth), side(0.6));
        Comparison::new(&first, &second, false, margin)
    };
    let asked = played(1, 0.0).plan().rolls.expect("some rolls");
    let mut share = |rolls: u32, truth: f64, wanted: Verdict| {
        let told = (0..4_000).filter(|_| played(rolls, truth).verdict() == wanted).count();
        told as f64 / 4_000.0
    };
    let (alike, fewer) = (
        share(asked, 0.0, Verdict::Within),
        share(asked - 1, 0.0, Verdict::Within),
    );
    // Four standard deviations of 4000 throws are 0.025.
    assert!(
        alike > 0.8 - 0.025 && fewer < 0.8 + 0.025,
        "{asked} rolls: {alike}, one fewer: {fewer}"
    );
    let weaker = share(asked, -2.0 * margin, Verdict::Weaker);
    assert!(weaker > alike - 0.025, "{weaker} {alike}");
    // At the very end of the margin each side errs in one case of twenty.
    let wrong = share(asked, -margin, Verdict::Within);
    assert!((0.035..0.065).contains(&wrong), "{wrong}");
}
