//! A second opinion: the same vectors worked out again the long way round, sharing no code with the library. Only what is
//! compared comes from it.
#![cfg(not(target_arch = "wasm32"))]

use cases::{Case, Cases};
use meniscus::quantity::{Dilution, Volume};
use meniscus::sheet::Sheet;
use serde::Deserialize;

#[allow(dead_code, reason = "of a case only the inputs are wanted here")]
#[path = "common/cases.rs"]
mod cases;
#[path = "naive/air.rs"]
mod air;
#[path = "naive/bath.rs"]
mod bath_of_a_day;
#[path = "naive/batches.rs"]
mod batches;
#[path = "naive/clips.rs"]
mod clips;
#[path = "naive/comparison.rs"]
mod comparison;
#[path = "naive/calibration.rs"]
mod calibration;
#[path = "naive/cost.rs"]
mod cost;
#[path = "naive/curve.rs"]
mod curve;
#[path = "naive/decanting.rs"]
mod decanting;
#[path = "naive/law.rs"]
mod law;
#[path = "naive/plan.rs"]
mod plan;
#[path = "naive/powders.rs"]
mod powders;
#[path = "naive/sampling.rs"]
mod sampling;
#[path = "naive/steps.rs"]
mod steps;
#[path = "naive/washing.rs"]
mod washing;

#[track_caller]
fn near(what: &str, got: f64, wanted: f64, tolerance: f64) {
    assert!(
        (got - wanted).abs() <= tolerance,
        "{what}: {got} is not {wanted} within {tolerance}"
    );
}

/// A figure that must be there.
#[track_caller]
fn value(sheet: &Sheet, name: &str) -> f64 {
    sheet
        .figure(name)
        .unwrap_or_else(|| panic!("there is no figure {name}"))
        .value
}

/// Parts of concentrate, of a second concentrate, and of water, as a reader with a pencil takes them.
fn parts(written: &str) -> Option<(f64, f64, f64)> {
    let text = written.to_lowercase().replace(',', ".");
    let number = |text: &str| text.trim().parse::<f64>().ok();
    if text.trim() == "stock" {
        return Some((1.0, 0.0, 0.0));
    }
    if let Some((stock, bath)) = text.split_once("then") {
        let (a, _, water) = parts(stock)?;
        let (b, _, more) = parts(bath)?;
        return Some((a * b, 0.0, (a + water) * (b + more) - a * b));
    }
    if let Some(percent) = text.trim().strip_suffix('%') {
        let percent = number(percent)?;
        return Some((percent, 0.0, 100.0 - percent));
    }
    if let Some((one, all)) = text.split_once(" in ") {
        let (one, all) = (number(one)?, number(all)?);
        return Some((one, 0.0, all - one));
    }
    let pieces: Vec<f64> = text.split(['+', ':']).map(number).collect::<Option<_>>()?;
    match pieces[..] {
        [a, water] => Some((a, 0.0, water)),
        [a, b, water] => Some((a, b, water)),
        _ => None,
    }
}

#[derive(Deserialize)]
struct Written {
    parts: Vec<WrittenParts>,
}

#[derive(Deserialize)]
struct WrittenParts {
    written: String,
    total: f64,
}

/// Shares of a whole, by counting parts.
#[test]
fn dilutions_by_counting_parts() {
    for case in cases::load::<Written>("dilution").parts {
        let (a, b, water) = parts(&case.written).expect("parts");
        let all = a + b + water;
        let dilution: Dilution = case.written.parse().expect("a dilution");
        let got = dilution.concentrates(Volume::from_millilitres(case.total));
        near(&case.written, got[0].millilitres(), case.total * a / all, 1e-9);
        if b > 0.0 {
            near(&case.written, got[1].millilitres(), case.total * b / all, 1e-9);
        }
        near(&case.written, dilution.share(), (a + b) / all, 1e-12);
    }
}

fn mixes() -> Vec<(Case, Sheet)> {
    let cases: Cases = cases::load("mix");
    let answered = cases.case.into_iter().map(|case| {
        let sheet = case.answer("mix").sheet;
        (case, sheet)
    });
    answered.collect()
}

/// Concentrate and water of every mix, by counting parts of its total.
#[test]
fn mixes_by_counting_parts() {
    let mut counted = 0;
    for (case, sheet) in mixes() {
        let written = case.fields.get("dilution").map_or("1+31", String::as_str);
        let (Some((a, b, water)), Some(got)) = (parts(written), sheet.figure("concentrate")) else {
            continue;
        };
        let second = sheet.figure("concentrate_b").map_or(0.0, |figure| figure.value);
        let left = sheet.figure("water").map_or(0.0, |figure| figure.value);
        let total = got.value + second + left;
        let all = a + b + water;
        near(&case.name, got.value, total * a / all, 1e-9);
        near(&case.name, second, total * b / all, 1e-9);
        near(&case.name, left, total * water / all, 1e-9);
        counted += 1;
    }
    assert!(counted > 15, "only {counted} mixes were counted");
}

/// Both formulas for the uncertainty of a ratio: made up to a mark, both errors count whole; added to water, each counts
/// less by the share of concentrate (GUM 5.1.2, worked out by hand). What both have in common, a mark that measures both or
/// a temperature that is not 20 °C, makes it less. (A first dilution made up to the same mark would make it more: none of these
/// is.)
#[test]
fn strength_of_a_bath_by_formula() {
    let (mut made_up, mut added, mut alike) = (0, 0, 0);
    for (case, sheet) in mixes() {
        let (Some(got), None) = (sheet.figure("concentration_uncertainty"), sheet.figure("concentrate_b")) else {
            continue;
        };
        let relative = |name: &str| {
            let figure = sheet.figure(name).expect("a measured volume");
            figure.standard_uncertainty.expect("its uncertainty") / figure.value
        };
        let both = (relative("concentrate").powi(2) + relative("whole").powi(2)).sqrt();
        let is_added = value(&sheet, "whole") < value(&sheet, "concentrate") + value(&sheet, "water") - 1e-6;
        let wanted = match is_added {
            true => {
                added += 1;
                let concentrate = value(&sheet, "concentrate");
                (1.0 - concentrate / (concentrate + value(&sheet, "water"))) * both
            }
            false => {
                made_up += 1;
                both
            }
        };
        let got = got.value / 100.0;
        assert!(got < wanted + 1e-9, "{}: {got} is above {wanted}", case.name);
        alike += usize::from((got - wanted).abs() < 1e-9);
    }
    assert!(
        made_up > 10 && added > 1 && alike > 10,
        "{made_up} made up, {added} added, {alike} with nothing in common"
    );
}

/// The four ways of a slip again: contrast by walking the law of development in small steps, seconds and degrees by
/// searching for what gives the same contrast.
#[test]
fn slips_by_walking_the_law() {
    let mut walked = 0;
    for (case, sheet) in mixes() {
        let Some(slip) = sheet.figure("slip_one_contrast") else {
            continue;
        };
        let typed = |field: &str| {
            case.fields
                .get(field)
                .map(|text| text.replace(',', ".").parse::<f64>().expect(field))
        };
        let n = match (sheet.figure("assumed_exponent"), typed("exponent")) {
            (Some(assumed), _) => assumed.value,
            (None, Some(typed)) => typed,
            (None, None) => value(&sheet, "exponent"),
        };
        let x = typed("progress").unwrap_or_else(|| value(&sheet, "assumed_progress"));
        let stronger = 1.0 + value(&sheet, "slip_one_percent") / 100.0;
        let contrast = |rate: f64| {
            let steps = 20_000;
            let mut gamma = 0.0;
            for _ in 0..steps {
                // the midpoint of each small step
                let half = gamma + (1.0 - gamma) * rate / f64::from(steps) / 2.0;
                gamma += (1.0 - half) * rate / f64::from(steps);
            }
            gamma
        };
        let wanted = contrast(x * stronger.powf(n));
        near(&case.name, slip.value / 100.0, wanted / contrast(x) - 1.0, 1e-6);
        if let Some(seconds) = sheet.figure("slip_one_seconds") {
            let time = value(&sheet, "time");
            let longer = search(|share| contrast(x * (1.0 + share)) - wanted);
            near(&case.name, seconds.value, time * longer, 1e-3);
        }
        let q10 = typed("q10").unwrap_or(2.5);
        // Between 20 and 30 degrees the rate grows by the factor.
        let activation = q10.ln() / (1.0 / 293.15 - 1.0 / 303.15);
        let now = 273.15 + bath(&case);
        let warmer = search(|kelvins| contrast(x * (activation * (1.0 / now - 1.0 / (now + kelvins))).exp()) - wanted);
        match sheet.figure("slip_one_degrees") {
            Some(degrees) => near(&case.name, degrees.value, warmer, 1e-4),
            None => assert!(bath(&case) + warmer > 40.0, "{}: a bath can be so warm", case.name),
        }
        walked += 1;
    }
    assert!(walked > 10, "only {walked} slips were walked");
}

/// Temperature of a mix, degrees Celsius.
fn bath(case: &Case) -> f64 {
    let fahrenheit = case
        .kit
        .iter()
        .any(|entry| entry.get("temperature_unit").is_some_and(|unit| unit == "f"));
    match case.fields.get("temperature").and_then(|text| text.parse::<f64>().ok()) {
        Some(degrees) if fahrenheit => (degrees - 32.0) / 1.8,
        Some(degrees) => degrees,
        None => 20.0,
    }
}

/// Where a rising function is zero, between 0 and 40, by halving.
fn search(of: impl Fn(f64) -> f64) -> f64 {
    let (mut low, mut high) = (0.0, 40.0);
    for _ in 0..60 {
        let middle = (low + high) / 2.0;
        if of(middle) < 0.0 { low = middle } else { high = middle }
    }
    low
}
