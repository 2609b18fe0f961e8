//! What is weighed, by a table of formulas and molar masses typed again; and how exactly, by what the balance can show.

use std::collections::BTreeMap;

use super::cases::{self, Case, Cases};
use super::near;

/// Grams to the litre in the order of dissolving: salt and form, as short names.
const FORMULAS: [(&str, &[(&str, f64)]); 8] = [
    (
        "mq-borax",
        &[("metol", 2.0), ("sulfite 0", 100.0), ("hq", 5.0), ("borax 10", 2.0)],
    ),
    (
        "mq-borax-buffered",
        &[
            ("metol", 2.0),
            ("sulfite 0", 100.0),
            ("hq", 5.0),
            ("borax 10", 8.0),
            ("boric", 8.0),
        ],
    ),
    ("metol-sulfite", &[("metol", 7.5), ("sulfite 0", 100.0)]),
    (
        "metol-bisulfite",
        &[("metol", 7.5), ("sulfite 0", 100.0), ("bisulfite", 15.0)],
    ),
    (
        "mq-carbonate",
        &[
            ("metol", 3.0),
            ("sulfite 0", 45.0),
            ("hq", 12.0),
            ("carbonate 0", 67.5),
            ("bromide", 2.0),
        ],
    ),
    (
        "mq-1900",
        &[
            ("metol", 6.0),
            ("sulfite 7", 75.0),
            ("hq", 4.0),
            ("potash", 25.0),
            ("bromide", 1.5),
        ],
    ),
    ("citric-stop", &[("citric 0", 15.0)]),
    ("plain-hypo", &[("hypo 5", 250.0)]),
];

/// Molar masses without water (computed with molmass 2026.1.8), and of water.
const DRY: [(&str, f64); 4] = [
    ("sulfite", 126.043),
    ("borax", 201.218),
    ("carbonate", 105.989),
    ("hypo", 158.107),
];
const WATER: f64 = 18.015;

/// The forms that the cases have at hand.
const AT_HAND: [(&str, &str, f64); 6] = [
    ("borax penta", "borax", 5.0),
    ("sulphite, 7 h2o", "sulfite", 7.0),
    ("carbonate mono", "carbonate", 1.0),
    ("hypo anhydrous", "hypo", 0.0),
    ("sulfite anhydrous", "sulfite", 0.0),
    ("citric mono", "citric", 1.0),
];

/// Millilitres as a case writes them.
fn millilitres(written: &str) -> f64 {
    match written.split_once(' ').expect("a number and a unit") {
        (number, "l") => number.parse::<f64>().expect("litres") * 1000.0,
        (number, _) => number.parse().expect("millilitres"),
    }
}

fn grams(case: &Case) -> Option<Vec<f64>> {
    let field = |name: &str, initial: &str| case.fields.get(name).map_or(initial.to_owned(), Clone::clone);
    let formulas = BTreeMap::from(FORMULAS);
    let lines = formulas.get(field("formula", "mq-borax").as_str())?;
    let litres = millilitres(&field("volume", "1 l")) / 1000.0;
    let forms = field("forms", "").to_lowercase();
    let forms: Vec<&str> = forms.split(';').map(str::trim).collect();
    let of_line = |(name, grams): &(&str, f64)| {
        let mass = grams * litres;
        let Some((salt, water)) = name.split_once(' ') else {
            return mass;
        };
        let at_hand = AT_HAND
            .iter()
            .find(|(written, of, _)| *of == salt && forms.contains(written));
        let dry = DRY.iter().find(|(known, _)| *known == salt);
        match at_hand.zip(dry) {
            Some(((_, _, other), (_, dry))) => {
                let water: f64 = water.parse().expect("molecules");
                mass * (dry + other * WATER) / (dry + water * WATER)
            }
            None => mass,
        }
    };
    Some(lines.iter().map(of_line).collect())
}

/// Every case of a published formula.
#[test]
fn weights_by_another_table() {
    let mut weighed = 0;
    for case in cases::load::<Cases>("weigh").case {
        if !case.faults.is_empty() {
            continue;
        }
        let Some(all) = grams(&case) else { continue };
        let sheet = case.answer("weigh").sheet;
        for (at, wanted) in all.iter().enumerate() {
            let name = format!("weigh_{}", at + 1);
            let figure = sheet.figure(&name).unwrap_or_else(|| panic!("{}: {name}", case.name));
            if figure.unit == "ml" {
                continue;
            }
            near(&case.name, figure.value, *wanted, 2e-5 * wanted);
            weighed += 1;
        }
        assert!(
            sheet.figure(&format!("weigh_{}", all.len() + 1)).is_none(),
            "{}",
            case.name
        );
    }
    assert!(weighed > 30, "only {weighed} were weighed");
}

/// Numbers of chance by the minimal standard generator (Park and Miller, CACM 31, 1988; from memory).
struct Chance(u64);

impl Chance {
    /// Above 0 and below 1.
    fn next(&mut self) -> f64 {
        self.0 = self.0 * 48_271 % 2_147_483_647;
        self.0 as f64 / 2_147_483_647.0
    }
}

/// A balance that rounds at zero and rounds again under load: how far the mass that it shows as 2 g is from 2 g, over many tries.
#[test]
fn two_readings_played_out() {
    let mut chance = Chance(20_260_301);
    let step = 0.1;
    let tries = 200_000;
    let mut squares = 0.0;
    for _ in 0..tries {
        let (zero, load) = (chance.next() - 0.5, chance.next() - 0.5);
        squares += ((load - zero) * step).powi(2);
    }
    let played = (squares / f64::from(tries)).sqrt();
    let first = cases::load::<Cases>("weigh").case.remove(0).answer("weigh");
    let figure = first.sheet.figure("weigh_1").expect("metol");
    near(
        "two readings",
        figure.standard_uncertainty.expect("its u"),
        played,
        2e-4,
    );
}

/// What a drawn solution holds is what the formula wants.
#[test]
fn a_solution_holds_what_is_wanted() {
    let mut held = 0;
    for case in cases::load::<Cases>("weigh").case {
        let Some(all) = grams(&case) else { continue };
        let sheet = case.answer("weigh").sheet;
        for (at, wanted) in all.iter().enumerate() {
            let Some(figure) = sheet
                .figure(&format!("weigh_{}", at + 1))
                .filter(|figure| figure.unit == "ml")
            else {
                continue;
            };
            let percent = figure
                .label
                .rsplit(", ")
                .next()
                .and_then(|words| words.split(' ').next());
            let percent: f64 = percent.expect("a strength").parse().expect("a number");
            near(&case.name, figure.value * percent / 100.0, *wanted, 1e-9);
            held += 1;
        }
    }
    assert!(held > 0, "no solution was made");
}
