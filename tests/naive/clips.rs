//! What a clip and a stop-watch say of a bath, played out: film developed step by step, and the same test done thousands of times
//! over.

use super::cases::{self, Case, Cases};
use super::{near, value};

/// Numbers of chance by the minimal standard generator (Park and Miller, CACM 31, 1988; from memory).
struct Chance(u64);

impl Chance {
    /// Above 0 and below 1.
    fn next(&mut self) -> f64 {
        self.0 = self.0 * 48_271 % 2_147_483_647;
        self.0 as f64 / 2_147_483_647.0
    }

    /// The sum of twelve uniforms, less six: near enough to a normal deviate.
    fn normal(&mut self) -> f64 {
        (0..12).map(|_| self.next()).sum::<f64>() - 6.0
    }

    /// Between -1 and 1.
    fn even(&mut self) -> f64 {
        2.0 * self.next() - 1.0
    }
}

/// Tests that are played out for each case.
const TESTS: u32 = 20_000;
/// Steps of a development.
const STEPS: u32 = 2_000;

fn field<'a>(case: &'a Case, name: &str, usual: &'a str) -> &'a str {
    case.fields.get(name).map_or(usual, String::as_str)
}

/// Seconds of every time in a list: `0:40; 42 s`.
fn seconds(list: &str) -> Vec<f64> {
    let one = |text: &str| {
        let number = |text: &str| text.trim().parse::<f64>().expect("a number");
        match text.split_once(':') {
            Some((minutes, seconds)) => 60.0 * number(minutes) + number(seconds),
            None => number(text.trim().trim_end_matches('s')),
        }
    };
    list.split(';')
        .filter(|text| !text.trim().is_empty())
        .map(one)
        .collect()
}

fn mean(all: &[f64]) -> f64 {
    all.iter().sum::<f64>() / all.len() as f64
}

/// The root of so many of the product: what a time is in the mean where it scatters in proportion.
fn usual(times: &[f64]) -> f64 {
    times.iter().product::<f64>().powf(1.0 / times.len() as f64)
}

/// Degrees Celsius.
fn celsius(case: &Case, name: &str) -> f64 {
    let text = field(case, name, "20 C");
    text.trim_end_matches(['C', ' ']).parse().expect("a temperature")
}

/// How many times faster a developer works at one temperature than at 20 °C, by the factor from 20 to 30 °C.
fn faster(celsius: f64, factor: f64) -> f64 {
    let inverse = |celsius: f64| 1.0 / (celsius + 273.15);
    factor.powf((inverse(20.0) - inverse(celsius)) / (inverse(20.0) - inverse(30.0)))
}

/// The same for a fixer, by the factor for every ten degrees.
fn clears_faster(celsius: f64, factor: f64) -> f64 {
    factor.powf((celsius - 20.0) / 10.0)
}

/// The standard deviation of one time: of those that were repeated, each by its share of the usual, else a twentieth.
fn scatter(lists: [&[f64]; 2]) -> f64 {
    let (mut squares, mut free) = (0.0, 0);
    for times in lists {
        let middle = usual(times);
        squares += times.iter().map(|time| (time / middle).ln().powi(2)).sum::<f64>();
        free += times.len() - 1;
    }
    if free == 0 {
        0.05
    } else {
        (squares / free as f64).sqrt()
    }
}

/// The standard deviation of what comes out of many tests, relative to its mean.
fn spread(mut test: impl FnMut(&mut Chance) -> f64) -> f64 {
    let mut chance = Chance(20_260_301);
    let all: Vec<f64> = (0..TESTS).map(|_| test(&mut chance)).collect();
    let middle = mean(&all);
    let squares = all.iter().map(|one| (one / middle - 1.0).powi(2)).sum::<f64>();
    (squares / f64::from(TESTS)).sqrt()
}

/// Every timed case, of the developer and of the fixer: the watch stopped thousands of times, in baths that are not quite as warm as
/// the thermometer says.
#[test]
fn watches_stopped() {
    let mut played = 0;
    for (form, fresh, now, figure) in [
        ("clip", "black_fresh", "black_now", "strength"),
        ("clear", "clear_fresh", "clear_now", "speed"),
    ] {
        for case in cases::load::<Cases>(form).case {
            let (fresh, now) = (seconds(field(&case, fresh, "")), seconds(field(&case, now, "")));
            if case.fields.contains_key("times") || !case.faults.is_empty() || fresh.is_empty() || now.is_empty() {
                continue;
            }
            let sheet = case.answer(form).sheet;
            let warm = [celsius(&case, "warm_fresh"), celsius(&case, "temperature")];
            let rate = |celsius: f64| match form {
                "clip" => faster(celsius, 2.5),
                _ => clears_faster(celsius, 2.0),
            };
            let strength = usual(&fresh) / usual(&now) * rate(warm[0]) / rate(warm[1]);
            near(&case.name, value(&sheet, figure), 100.0 * strength, 1e-6);
            let scatter = scatter([&fresh, &now]);
            let relative = spread(|chance| {
                let mut time = |times: &[f64]| {
                    let each: Vec<f64> = times
                        .iter()
                        .map(|_| usual(times) * (scatter * chance.normal()).exp())
                        .collect();
                    usual(&each) + 0.5 * chance.even()
                };
                let (fresh, now) = (time(&fresh), time(&now));
                let off = [0.5 * chance.even(), 0.5 * chance.even()];
                fresh / now * rate(warm[0] + off[0]) / rate(warm[1] + off[1])
            });
            let told = sheet
                .figure(figure)
                .and_then(|figure| figure.standard_uncertainty)
                .expect("±");
            near(
                &format!("{}, ±", case.name),
                told / value(&sheet, figure),
                relative,
                0.03 * relative,
            );
            played += 1;
        }
    }
    assert!(played >= 10, "only {played} were played out");
}

/// Density after development for so long, each step adding to what is not yet developed.
fn developed(strength: f64, progress: f64) -> f64 {
    let mut left = 1.0;
    for _ in 0..STEPS {
        // The middle of a step stands for it.
        let step = strength * progress / f64::from(STEPS);
        left -= step * (left - step * left / 2.0);
    }
    1.0 - left
}

/// The strength that develops to this share of fresh, by halving what is left to search.
fn strength_for(ratio: f64, progress: f64) -> f64 {
    let wanted = ratio * developed(1.0, progress);
    let (mut low, mut high) = (0.0, 20.0);
    for _ in 0..40 {
        let middle = (low + high) / 2.0;
        if developed(middle, progress) < wanted {
            low = middle
        } else {
            high = middle
        }
    }
    (low + high) / 2.0
}

/// Every case by a meter: film developed step by step until it is as dark as it was read.
#[test]
fn film_developed_step_by_step() {
    let mut developed = 0;
    for case in cases::load::<Cases>("clip").case {
        let sheet = case.answer("clip").sheet;
        if field(&case, "judged", "eye") != "meter" || sheet.figure("strength").is_none() {
            continue;
        }
        let number = |name: &str| field(&case, name, "").parse::<f64>().ok();
        let ratio = number("reading").expect("a reading") / number("reference").expect("a reading");
        let usual = if field(&case, "patch", "grey") == "leader" {
            3.0
        } else {
            1.0
        };
        let wanted = strength_for(ratio, number("progress").unwrap_or(usual));
        near(&case.name, value(&sheet, "strength"), 100.0 * wanted, 1e-3);
        developed += 1;
    }
    assert!(developed >= 4, "only {developed} were developed");
}
