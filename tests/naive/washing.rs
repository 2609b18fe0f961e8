//! A wash poured out and filled up again, gram by gram; and running water in small steps.

use meniscus::chemistry::{SEQUENCES, Wash, slower};
use meniscus::quantity::{Temperature, Volume};

use super::cases::{self, Cases};
use super::{near, value};

fn millilitres(written: &str) -> f64 {
    written.trim_end_matches(" ml").parse().expect("millilitres")
}

/// Every case whose water and wanted thinning are written down.
#[test]
fn poured_out_and_filled_up() {
    let mut poured = 0;
    for case in cases::load::<Cases>("wash").case {
        let field = |name: &str| case.fields.get(name).map(String::as_str);
        let (Some(fresh), Some(carried), Some(one_in)) = (field("fresh"), field("carried"), field("one_in")) else {
            continue;
        };
        let (fresh, carried) = (millilitres(fresh), millilitres(carried));
        let wanted = 1.0 / one_in.parse::<f64>().expect("a number");
        // A gram of fixer for each millilitre that is carried over.
        let mut grams = carried;
        let mut changes = 0;
        while grams / carried > wanted * (1.0 + 1e-9) {
            let thinned = grams / (carried + fresh);
            grams = thinned * carried;
            changes += 1;
        }
        let sheet = case.answer("wash").sheet;
        near(&case.name, value(&sheet, "changes"), f64::from(changes), 0.0);
        let flow = field("flow").map_or(1000.0, millilitres);
        let enough = value(&sheet, "running_enough") / 60.0;
        near(&case.name, running(fresh, carried, flow, enough), wanted, 2e-3 * wanted);
        poured += 1;
    }
    assert!(poured >= 6, "only {poured} were poured");
}

/// What is left of the fixer's strength after one fill and so many minutes of running water, step by step; never more than at first.
fn running(fresh: f64, carried: f64, flow: f64, minutes: f64) -> f64 {
    let content = fresh + carried;
    let steps = 100_000;
    let out = flow * minutes / f64::from(steps) / content;
    let mut left = carried / content;
    for _ in 0..steps {
        left -= left * out / (1.0 + out / 2.0);
    }
    left
}

fn wash(carried: f64, fresh: f64) -> Wash {
    let volume = Volume::from_millilitres;
    Wash {
        carried: volume(carried),
        fresh: volume(fresh),
    }
}

/// Ideal dilution as it is tabled: 10 ml into 280 ml, and 5 ml in 500 ml (computed).
#[test]
fn tabled_dilutions() {
    for (changes, left) in [
        (1.0, 3.45e-2),
        (2.0, 1.19e-3),
        (3.0, 4.10e-5),
        (4.0, 1.41e-6),
        (5.0, 4.88e-8),
    ] {
        near("10 in 290", wash(10.0, 280.0).after(changes), left, 0.005 * left);
        let hundredth = 10f64.powf(-2.0 * changes);
        near("5 in 500", wash(5.0, 495.0).after(changes), hundredth, 1e-9 * hundredth);
    }
}

/// The washes in use again: contents and minutes as the tables state them.
#[test]
fn washes_in_use() {
    let tabled = [
        ("dump", 3.0, 105.0 / 60.0),
        ("slow", 1.0 + 4.0 * 35.0 / 60.0, 35.0),
        ("quick", 1.0 + 8.0 * 20.0 / 60.0, 20.0),
        ("army", 1.0 + 8.0 * 30.0 / 60.0, 30.0),
    ];
    let tank = wash(10.0, 280.0);
    for (sequence, (word, fills, minutes)) in SEQUENCES.iter().zip(tabled) {
        assert_eq!(sequence.word, word);
        near(word, sequence.fills(), fills, 1e-9);
        near(word, sequence.minutes(), minutes, 1e-9);
        let wanted = match word {
            "dump" => (1.0f64 / 29.0).powi(3),
            _ => running(280.0, 10.0, 290.0, fills - 1.0),
        };
        near(word, sequence.leaves(&tank), wanted, 1e-6 * wanted.max(1e-3));
    }
}

/// Stokes and Einstein with the viscosities of iapws 1.5.5: 1.1376, 1.0016 and 0.9107 mPa s at 15, 20 and 24 °C.
#[test]
fn diffusion_by_tabled_viscosity() {
    for (celsius, viscosity) in [(15.0, 1.1376), (20.0, 1.0016), (24.0, 0.9107)] {
        let wanted = viscosity / 1.0016 * 293.15 / (celsius + 273.15);
        near("diffusion", slower(Temperature::from_celsius(celsius)), wanted, 5e-4);
    }
}
