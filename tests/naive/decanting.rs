//! The oxygen of a decanting, draw by draw: the openings at random and the liquid's uptake followed in small steps of time.

use super::cases::{self, Cases};
use super::near;

/// Saturation pressure of water at 0 to 40 °C in Pa, by the Magnus formula (WMO Guide No. 8, annex 4.B), good to 0.1 %.
fn vapour(celsius: f64) -> f64 {
    611.2 * (17.62 * celsius / (243.12 + celsius)).exp()
}

/// Oxygen in a millilitre of air, mg: the ideal gas, 20.946 % of what is not vapour, 31.9988 g/mol.
fn fresh(celsius: f64, hectopascals: f64, humidity: f64) -> f64 {
    let dry = hectopascals * 100.0 - humidity * vapour(celsius);
    0.209_46 * dry * 1e-6 / (8.314_462_618 * (celsius + 273.15)) * 31_998.8
}

/// Oxygen taken up from a millilitre of gas in a day, with openings at random so many days apart in the mean that each set it to
/// `fresh`: what is taken up from one opening to the next, averaged over how far the next may be off, over the mean wait.
fn taken_up(fresh: f64, interval: f64, uptake: f64) -> f64 {
    let steps = 40_000;
    let longest = 40.0 * interval;
    let step = longest / f64::from(steps);
    let mut mean = 0.0;
    for index in 0..steps {
        let wait = (f64::from(index) + 0.5) * step;
        let chance = (-wait / interval).exp() / interval * step;
        mean += chance * fresh * (1.0 - (-wait / uptake).exp());
    }
    mean / interval
}

/// Left in a bottle of glass: every case whose fields are plain.
#[test]
fn leaving_it_draw_by_draw() {
    let mut followed = 0;
    for case in cases::load::<Cases>("decant").case {
        let sheet = case.answer("decant").sheet;
        let typed = |field: &str, unit: &str, first: f64| match case.fields.get(field) {
            None => Some(first),
            Some(text) => text.trim_end_matches(unit).trim().parse::<f64>().ok(),
        };
        let (Some(met), Some("20 C"), false) = (
            sheet.figure("oxygen_leave"),
            case.fields.get("climate").map(String::as_str),
            case.fields.contains_key("used_up_in"),
        ) else {
            continue;
        };
        let (Some(left), Some(holds), Some(draw), Some(interval)) = (
            typed("left", "ml", 500.0),
            typed("brimful", "ml", 1060.0),
            typed("draw", "ml", 20.0),
            typed("every", "days", 14.0),
        ) else {
            continue;
        };
        let air = fresh(
            20.0,
            typed("pressure", "", 1013.25).expect("a pressure"),
            typed("humidity", "%", 50.0).expect("a humidity") / 100.0,
        );
        let a_day = taken_up(air, interval, typed("uptake", "days", 14.0).expect("days"));
        // The level falls evenly from what is left to nothing.
        let days = left / draw.min(left) * interval;
        let steps = 10_000;
        let gas = |step: i32| holds - left * (1.0 - (f64::from(step) + 0.5) / f64::from(steps));
        let sum: f64 = (0..steps).map(|step| gas(step) * a_day * days / f64::from(steps)).sum();
        near(&case.name, met.value * 1000.0, sum, sum * 1e-3);
        followed += 1;
    }
    assert!(followed >= 5, "only {followed} were followed");
}
