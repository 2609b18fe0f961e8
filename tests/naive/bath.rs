//! A bath that is tempered, and one that drifts, the long way round: heat poured together in small portions, and a day at the sink
//! walked second by second.

use super::cases::{self, Case, Cases};
use super::{near, value};

/// J/(mol K): 6.02214076e23 times 1.380649e-23, both exact (SI Brochure, 9th ed.).
const GAS: f64 = 6.022_140_76 * 1.380_649;

/// Heat capacity of water, J/(g K), by degrees Celsius (IAPWS-95 by iapws 1.5.5).
const CAPACITY: [(f64, f64); 9] = [
    (0.0, 4.2194),
    (10.0, 4.1952),
    (15.0, 4.1885),
    (20.0, 4.1841),
    (25.0, 4.1813),
    (40.0, 4.1794),
    (60.0, 4.1850),
    (80.0, 4.1968),
    (95.0, 4.2102),
];

/// Straight lines between them.
fn capacity(celsius: f64) -> f64 {
    let next = CAPACITY.iter().position(|(at, _)| *at > celsius).unwrap_or(8).max(1);
    let ((from, low), (to, high)) = (CAPACITY[next - 1], CAPACITY[next]);
    low + (high - low) * (celsius - from) / (to - from)
}

/// Grams in a millilitre: Kell 1975 (J. Chem. Eng. Data 20, 97).
fn density(t: f64) -> f64 {
    let above = 999.83952 + 16.945176 * t - 7.9870401e-3 * t.powi(2) - 46.170461e-6 * t.powi(3)
        + 105.56302e-9 * t.powi(4)
        - 280.54253e-12 * t.powi(5);
    above / (1.0 + 16.879850e-3 * t) / 1000.0
}

/// Heat that a gram of water takes from one temperature to another, by hundredths of a degree.
fn heat(from: f64, to: f64) -> f64 {
    let steps = ((to - from).abs() * 100.0).ceil().max(1.0);
    let step = (to - from) / steps;
    (0..steps as u32)
        .map(|count| capacity(from + step * (f64::from(count) + 0.5)) * step)
        .sum()
}

/// A number of the case, without its unit; in Celsius and millilitres.
fn typed(case: &Case, field: &str, otherwise: f64) -> f64 {
    let Some(text) = case.fields.get(field) else {
        return otherwise;
    };
    let (number, unit) = text.split_once(' ').unwrap_or((text, ""));
    let number: f64 = number.parse().expect("a number");
    if unit == "l" { number * 1000.0 } else { number }
}

/// What is poured in every vector: as much heat comes as goes, the mass is the bath's, and no solute is lost.
#[test]
fn tempered_by_heat_that_comes_and_goes() {
    let mut worked = 0;
    for case in cases::load::<Cases>("temper").case {
        let in_other_units = case.kit.iter().any(|entry| entry.contains_key("volume_unit"));
        let dilution = case.fields.get("dilution").map_or("1+31", String::as_str);
        if in_other_units || dilution.contains("g/l") || !case.faults.is_empty() || case.name == "all concentrate" {
            continue;
        }
        let sheet = case.answer("temper").sheet;
        let poured = |name: &str| sheet.figure(name).map_or(0.0, |figure| figure.value);
        let [hot, cold, room] =
            [("hot", 50.0), ("cold", 12.0), ("room", 20.0)].map(|(field, at)| typed(&case, field, at));
        let end = value(&sheet, "comes_to");
        let total = typed(&case, "total", 600.0);
        let (hot_grams, cold_grams) = (poured("hot") * density(hot), poured("cold") * density(cold));
        let ice = poured("ice");
        let concentrate = poured("concentrate");
        let share = typed(&case, "concentrate_heat", 80.0) / 100.0;
        let vessel = if case.fields.contains_key("vessel") {
            300.0 * 0.8
        } else {
            0.0
        };
        let frozen = typed(&case, "ice", -9.0);
        // 333.5 J melt a gram (handbooks), 2.03 J warm a gram of ice by a kelvin.
        let gone = hot_grams * heat(end, hot) + cold_grams * heat(end, cold);
        let taken = ice * (333.5 - 2.03 * frozen + heat(0.0, end))
            + concentrate * 0.9982 * 4.1841 * share * (end - room)
            + vessel * (end - room);
        let by_kelvin = (hot_grams + cold_grams + ice) * 4.18;
        near(&case.name, (gone - taken) / by_kelvin, 0.0, 0.03);
        // Density of water at 95 °C is off by 2e-4.
        near(
            &case.name,
            (hot_grams + cold_grams + ice) / density(end) + concentrate,
            total,
            2e-4 * total,
        );
        if let Some(parts) = super::parts(dilution) {
            near(
                &case.name,
                concentrate,
                total * parts.0 / (parts.0 + parts.1 + parts.2),
                1e-9,
            );
        }
        worked += 1;
    }
    assert!(worked > 10, "only {worked} baths were poured");
}

/// Every vector of a drift, second by second: the bath loses what it is off the room, the film gets what the bath is worth.
#[test]
fn drifts_second_by_second() {
    let mut walked = 0;
    for case in cases::load::<Cases>("drift").case {
        let sheet = case.answer("drift").sheet;
        let Some(time) = sheet.figure("time") else { continue };
        let clock = |field: &str, otherwise: f64| {
            let minutes = case.fields.get(field).map(|text| text.split_once(':').expect("a time"));
            minutes.map_or(otherwise, |(minutes, seconds)| {
                minutes.parse::<f64>().expect("minutes") * 60.0 + seconds.parse::<f64>().expect("seconds")
            })
        };
        let planned = clock("time", 600.0);
        let (begins, room) = (typed(&case, "temperature", 20.0), typed(&case, "room", 16.0));
        let activation = value(&sheet, "activation_energy") * 1000.0;
        let half = value(&sheet, "half") * 60.0;
        // Half of the difference goes in every half time, so in a small step this share of it.
        let step = 0.05;
        let keeps = 0.5f64.powf(step / half);
        let rate = |celsius: f64| (activation / GAS * (1.0 / 293.15 - 1.0 / (celsius + 273.15))).exp();
        let (mut away, mut got, mut passed) = (begins - room, 0.0, 0.0);
        while got < planned {
            let middle = room + away * keeps.sqrt();
            let more = rate(middle) * step;
            let share = ((planned - got) / more).min(1.0);
            got += more;
            passed += step * share;
            away *= keeps.powf(share);
        }
        near(&case.name, time.value, passed, 1e-3);
        near(&case.name, value(&sheet, "ends_at"), room + away, 1e-5);
        near(&case.name, value(&sheet, "cost"), passed - planned / rate(begins), 1e-3);
        // As long as it takes at the mean.
        near(&case.name, planned / rate(value(&sheet, "mean")), passed, 1e-3);
        walked += 1;
    }
    assert!(walked > 7, "only {walked} drifts were walked");
}
