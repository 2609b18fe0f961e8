//! A day's steps the long way round: the clock ticked second by second, film put through a bath one unit at a time, and the
//! developing played out in small steps of a reaction.

use super::cases::{self, Case, Cases};
use super::{near, value};

/// Steps in which a developing is played out.
const STEPS: u32 = 100_000;

fn field<'a>(case: &'a Case, name: &str) -> Option<&'a str> {
    case.fields.get(name).map(String::as_str)
}

fn number(text: &str) -> f64 {
    text.trim().parse().unwrap_or_else(|_| panic!("{text} is no number"))
}

/// `6:45`, `2 h` or plain minutes, in seconds.
fn seconds(text: &str) -> f64 {
    match (text.split_once(':'), text.strip_suffix('h')) {
        (Some((minutes, seconds)), _) => 60.0 * number(minutes) + number(seconds),
        (_, Some(hours)) => 3_600.0 * number(hours),
        _ => 60.0 * number(text),
    }
}

/// Name and time of every line of the vectors, which write them plainly: the name, the time, and the rest behind a comma or `at`.
fn lines(text: &str) -> Vec<(String, Option<f64>)> {
    let one = |line: &str| {
        let line = line.split([',', '@']).next().unwrap_or_default();
        let line = line.split(" at ").next().unwrap_or_default().trim();
        match line.find(|letter: char| letter.is_ascii_digit()) {
            Some(at) => (line[..at].trim().to_owned(), Some(seconds(&line[at..]))),
            None => (line.to_owned(), None),
        }
    };
    text.lines().filter(|line| !line.trim().is_empty()).map(one).collect()
}

/// Film units that went through a bottle before, and what a litre of it takes.
fn of_bottle(case: &Case, id: &str) -> (f64, f64, f64) {
    let (mut films, mut a_litre, mut litres) = (0.0, 20.0, 0.0);
    for event in case.events.iter().filter(|event| event["bottle"].as_str() == Some(id)) {
        let integer =
            |of: &toml::Table, name: &str| of.get(name).and_then(toml::Value::as_integer).map(|value| value as f64);
        films += integer(event, "units_thousandths").unwrap_or(0.0) / 1_000.0;
        litres += integer(event, "filled_ul").unwrap_or(0.0) / 1e6;
        if let Some(is) = event.get("is").and_then(toml::Value::as_table) {
            a_litre = integer(is, "films_per_litre_thousandths").map_or(a_litre, |films| films / 1_000.0);
        }
    }
    (films, a_litre, litres)
}

/// How much longer, by going through the film one unit after another.
fn longer(text: &str, films: f64) -> f64 {
    let percent = |text: &str| number(text.trim().trim_end_matches('%')) / 100.0;
    let mut share = 0.0;
    let mut done = 0.0;
    while done < films {
        done += 1.0;
        if text.contains(':') {
            for step in text.split(';') {
                let (from, more) = step.split_once(':').expect("a step");
                if done >= number(from) {
                    share = percent(more);
                }
            }
        } else {
            share += percent(text);
        }
    }
    share
}

/// Seconds of a developing: how long a reaction takes to get as far as at the first of two temperatures, whose speed goes with
/// exp(-B/T), B by the two times.
fn developing(times: &str, celsius: f64) -> f64 {
    let points: Vec<(f64, f64)> = times
        .split(';')
        .map(|line| {
            let (time, warm) = line.split_once(" at ").expect("at");
            let warm = warm.split('C').next().expect("degrees");
            (seconds(time.trim()), number(warm) + 273.15)
        })
        .collect();
    let [(slow, cold), (fast, warm)] = points[..] else {
        panic!("{times}: two times");
    };
    let barrier = (slow / fast).ln() / (1.0 / cold - 1.0 / warm);
    let speed = |kelvins: f64| (barrier / cold - barrier / kelvins).exp();
    let step = slow / f64::from(STEPS);
    let (mut clock, mut way) = (0.0, 0.0);
    while way < slow {
        way += speed(celsius + 273.15) * step;
        clock += step;
    }
    clock
}

#[test]
fn days_ticked_second_by_second() {
    let mut played = 0;
    let cases: Cases = cases::load("steps");
    for case in cases.case.into_iter().filter(|case| case.faults.is_empty()) {
        let Some(text) = field(&case, "recipe") else { continue };
        let sheet = case.answer("steps").sheet;
        let mut clock = 0.0;
        let (mut is_first_developing, mut is_first_fix) = (true, true);
        for (name, time) in lines(text) {
            let mut time = time;
            if name == "develop" && is_first_developing {
                is_first_developing = false;
                let poured_back = field(&case, "develop_longer").zip(field(&case, "bottle"));
                let share = poured_back.map_or(0.0, |(text, id)| longer(text, of_bottle(&case, id).0));
                time = time.map(|own| own + own * share);
            }
            if name == "fix" && is_first_fix {
                is_first_fix = false;
                let clears = field(&case, "clearing").map(seconds);
                time = match (time, clears) {
                    (Some(own), _) => {
                        let films = field(&case, "fixer").map(|id| of_bottle(&case, id).0);
                        let more = field(&case, "longer")
                            .zip(films)
                            .map(|(text, films)| longer(text, films));
                        Some(own + own * more.unwrap_or(0.0))
                    }
                    (None, Some(clears)) => Some(clears + clears),
                    (None, None) => None,
                };
                near(&case.name, value(&sheet, "fix"), time.expect("a time"), 1e-9);
            }
            let mut left = time.expect("every step of these vectors has a time");
            while left > 1.0 {
                left -= 1.0;
                clock += 1.0;
            }
            clock += left;
        }
        near(&case.name, value(&sheet, "length"), clock, 1e-6);
        played += 1;
    }
    assert!(played > 8, "only {played} days were played out");
}

/// Each film takes its share out of a bath.
#[test]
fn baths_used_up_film_by_film() {
    let mut counted = 0;
    let cases: Cases = cases::load("steps");
    for case in cases.case.into_iter().filter(|case| case.faults.is_empty()) {
        let sheet = case.answer("steps").sheet;
        let Some(id) = field(&case, "fixer") else { continue };
        if sheet.figure("fixer_before").is_none() {
            continue;
        }
        let (films, a_litre, litres) = of_bottle(&case, id);
        let in_all = field(&case, "capacity").map_or(a_litre * litres, number);
        let (mut left, mut used) = (in_all, 0.0);
        let mut through = 0.0;
        while through < films {
            (left, used, through) = (left - 1.0, used + 100.0 / in_all, through + 1.0);
        }
        near(&case.name, value(&sheet, "fixer_used"), used, 1e-9);
        for _ in 0..2 {
            (left, used) = (left - 1.0, used + 100.0 / in_all);
        }
        near(&case.name, value(&sheet, "fixer_used_after"), used, 1e-9);
        near(&case.name, value(&sheet, "fixer_then"), left.max(0.0), 1e-9);
        counted += 1;
    }
    assert!(counted > 2, "only {counted} baths were counted");
}

/// The developing that two times of a data sheet come to between them.
#[test]
fn a_developing_played_out() {
    let cases: Cases = cases::load("steps");
    let wanted = |case: &&Case| field(case, "times").is_some_and(|times| times.contains(';'));
    let case = cases.case.iter().find(wanted).expect("a case with two times");
    let celsius = number(field(case, "temperature").expect("a temperature").trim_end_matches('C'));
    let played = developing(field(case, "times").expect("times"), celsius);
    near(&case.name, value(&case.answer("steps").sheet, "time"), played, 0.02);
}
