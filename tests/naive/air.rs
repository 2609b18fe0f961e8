//! The balance of oxygen again: every closed spell walked in small steps, with constants, units and forms of its own.

use super::cases::{self, Case, Cases};
use super::{near, value};

/// A described bottle as a reader with a pencil takes it: ml, days, degrees Celsius, mol/l, hPa.
struct Told {
    brim: f64,
    left: f64,
    began: f64,
    opened: f64,
    openings: u32,
    closed: f64,
    warm: f64,
    treatment: String,
    stays: f64,
    uptake: f64,
    pressure: f64,
    humidity: f64,
    water: f64,
    sulfite: f64,
    /// mmol a day into a gas without oxygen, all of the wall.
    wall: f64,
}

/// Number and unit, times what the unit is worth.
fn scaled(text: &str, units: &[(&str, f64)]) -> f64 {
    let text = text.trim();
    let end = text
        .find(|c: char| !(c.is_ascii_digit() || c == '.' || c == '-'))
        .unwrap_or(text.len());
    let number: f64 = text[..end].parse().expect("a number");
    let unit = text[end..].trim();
    let found = units.iter().find(|(name, _)| *name == unit);
    number * found.unwrap_or_else(|| panic!("no unit {unit}")).1
}

fn told(case: &Case) -> Told {
    let typed = |field: &str, first: &str| {
        let text = case.fields.get(field).map_or(first, String::as_str);
        (!text.is_empty()).then(|| text.to_owned())
    };
    let ml = |text: String| scaled(&text, &[("", 1.0), ("ml", 1.0), ("l", 1000.0)]);
    let year = 365.2425;
    let spans = [
        ("", 1.0),
        ("day", 1.0),
        ("days", 1.0),
        ("weeks", 7.0),
        ("months", year / 12.0),
        ("years", year),
    ];
    let days = |text: String| scaled(&text, &spans);
    let plain = |text: String| scaled(&text, &[("", 1.0), ("C", 1.0)]);
    let nominal = typed("nominal", "1 l").map(ml);
    let class = typed("class", "syrup").unwrap_or_default();
    let own_brim = typed("brimful", "").map(ml);
    let left = typed("left", "500 ml").map(ml).expect("a volume");
    let brim = own_brim.unwrap_or_else(|| 1.06 * nominal.expect("a size")).max(left);
    let full = if own_brim.is_some() {
        brim / 1.06
    } else {
        nominal.expect("a size")
    };
    let began = typed("began", "").map_or(full.max(left), ml);
    let treatment = typed("treatment", "plain").expect("a treatment");
    let usual_stay = match treatment.as_str() {
        "plain" => 1.0,
        "gas" => 0.3,
        _ => 0.1,
    };
    let pressure = typed("pressure", "1013.25").map(plain).expect("a pressure");
    let mixed_at_home = ["powder", "working"].contains(&class.as_str());
    Told {
        brim,
        left,
        began,
        opened: typed("opened", "6 months").map(days).expect("a time").round(),
        openings: typed("openings", "10").map(plain).expect("a count") as u32,
        closed: typed("unopened", "0").map(days).expect("a time").round(),
        warm: typed("climate", "20 C").map(plain).expect("a temperature"),
        stays: typed("air_left", "").map_or(usual_stay, |text| plain(text) / 100.0),
        treatment,
        uptake: typed("uptake", "14").map(days).expect("a time"),
        pressure,
        humidity: typed("humidity", "50").map(plain).expect("a humidity") / 100.0,
        water: typed("water", "").map_or(if mixed_at_home { began } else { 0.0 }, ml),
        sulfite: match (typed("sulfite", ""), typed("formula", ""), class.as_str()) {
            // Anhydrous sulfite is 126.043 g/mol; the published stock has 100 g/l of it.
            (Some(own), _, _) => plain(own) / 126.043,
            (None, Some(_), _) => 100.0 / 126.043,
            (None, None, "fixer") => 0.1,
            (None, None, "powder") => 0.79,
            (None, None, "stop") => 0.0,
            (None, None, _) => 1.5,
        },
        wall: wall(case, brim, pressure),
    }
}

/// Oxygen through the whole wall in a day, mmol: from the table's own unit, in cm³ at 0 °C.
fn wall(case: &Case, brim: f64, pressure: f64) -> f64 {
    let table = match case.fields.get("material").map_or("glass", String::as_str) {
        "glass" => 0.0,
        "pet" => 4.5,
        "hdpe" => 175.0,
        "ldpe" => 450.0,
        other => panic!("no wall of {other}"),
    };
    let typed = |field: &str| {
        case.fields
            .get(field)
            .map(|text| text.parse::<f64>().expect("a number"))
    };
    let square_inches = typed("wall_area").unwrap_or_else(|| cylinder(brim)) / (2.54 * 2.54);
    let mils = typed("thickness").unwrap_or(0.5) / 0.0254;
    let atmospheres = 0.20946 * pressure / 1013.25;
    table * (square_inches / 100.0) / mils * atmospheres / 22.414
}

/// Wall of a cylinder twice as high as wide, in cm², its width found by halving.
fn cylinder(brim: f64) -> f64 {
    let pi = std::f64::consts::PI;
    let (mut low, mut high) = (0.0_f64, 100.0_f64);
    for _ in 0..80 {
        let width = (low + high) / 2.0;
        let holds = pi * (width / 2.0).powi(2) * (2.0 * width);
        if holds < brim { low = width } else { high = width }
    }
    pi * low * (2.0 * low) + 2.0 * pi * (low / 2.0).powi(2)
}

/// Oxygen by its way in, and the share of the sulfite that it takes.
#[derive(Default)]
struct Met {
    openings: f64,
    wall: f64,
    water: f64,
    sulfite: f64,
}

impl Met {
    fn spread(&mut self, told: &Told, oxygen: f64, content: f64) {
        if content > 0.0 && told.sulfite > 0.0 {
            self.sulfite += 2.0 * oxygen / (told.sulfite * content);
        }
    }
}

fn walk(told: &Told) -> Met {
    // Buck 1996, over water.
    let t = told.warm;
    let vapour = 6.1121 * ((18.678 - t / 234.5) * t / (257.14 + t)).exp();
    let litre = 22.414 * (273.15 + t) / 273.15;
    let fresh = 0.20946 / litre * (told.pressure - told.humidity * vapour) / 1013.25;
    let mut met = Met::default();
    // Water of 20 °C in contact with air, 9.092 mg/l.
    let steam = 23.39;
    met.water = 9.092e-3 * told.water / 31.9988 * (told.pressure - steam) / (1013.25 - steam);
    let mut above = 0.0;
    let mut of_air = 0.0;
    let spells: Vec<(f64, f64, bool)> = match told.openings {
        0 => vec![(told.closed + told.opened, told.left, false)],
        n => {
            let n = f64::from(n);
            let day = |i: f64| (told.opened * i / n).round();
            let mut spells = vec![(told.closed, told.began, false)];
            spells.extend((0..told.openings).map(f64::from).map(|i| {
                let content = match n > 1.0 {
                    true => told.began + (told.left - told.began) * i / (n - 1.0),
                    false => told.left,
                };
                (day(i + 1.0) - day(i), content, true)
            }));
            spells
        }
    };
    let first = spells
        .iter()
        .find(|spell| spell.0 > 0.0 || spell.2)
        .map_or(told.left, |spell| spell.1);
    met.spread(told, met.water, first);
    for (days, content, opens) in spells {
        let room = (told.brim - content).max(0.0);
        let (gas, air) = match told.treatment.as_str() {
            _ if !opens => (room, 1.0),
            "plain" => (room, 1.0),
            "gas" => (room, told.stays),
            _ => (room * told.stays, 1.0),
        };
        if opens {
            above = fresh * gas * air;
            of_air = above;
        }
        let steps = (days / told.uptake * 400.0).clamp(400.0, 400_000.0) as u32;
        let step = days / f64::from(steps);
        let through_gas = told.wall * gas / told.brim;
        let (mut taken, mut taken_of_air) = (0.0, 0.0);
        for _ in 0..steps {
            // Midpoint of each step.
            let slope = |above: f64| match gas > 0.0 {
                true => through_gas * (1.0 - above / (fresh * gas)) - above / told.uptake,
                false => 0.0,
            };
            let middle = above + slope(above) * step / 2.0;
            taken += middle / told.uptake * step;
            above += slope(middle) * step;
            let middle = of_air * (1.0 - step / told.uptake / 2.0);
            taken_of_air += middle / told.uptake * step;
            of_air -= middle / told.uptake * step;
        }
        let wall = (taken - taken_of_air).max(0.0) + (told.wall - through_gas) * days;
        met.openings += taken_of_air;
        met.wall += wall;
        met.spread(told, taken_of_air + wall, content);
    }
    met
}

/// Headspace, oxygen by its way in, and the preservative's share of every described bottle.
#[test]
fn air_by_walking_every_spell() {
    let cases: Cases = cases::load("air");
    let mut walked = 0;
    for case in cases
        .case
        .iter()
        .filter(|case| case.faults.is_empty() && !case.fields.contains_key("bottle"))
    {
        let sheet = case.answer("air").sheet;
        let told = told(case);
        let met = walk(&told);
        near(&case.name, value(&sheet, "headspace"), told.brim - told.left, 1e-9);
        let all = met.openings + met.wall + met.water;
        let within = 2e-4 * all + 1e-9;
        near(&case.name, value(&sheet, "from_openings"), met.openings, within);
        near(&case.name, value(&sheet, "from_wall"), met.wall, within);
        near(&case.name, value(&sheet, "from_water"), met.water, within);
        near(&case.name, value(&sheet, "oxygen"), all, within);
        if told.sulfite > 0.0 {
            let used = met.sulfite.min(1.0) * 100.0;
            near(&case.name, value(&sheet, "sulfite"), used, 2e-4 * used + 1e-9);
        }
        walked += 1;
    }
    assert!(walked > 15, "only {walked} bottles were walked");
}
