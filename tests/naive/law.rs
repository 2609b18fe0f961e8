//! The time at a temperature, by the normal equations written out and solved by elimination.

use serde::Deserialize;

use super::cases::{self, Cases};
use super::{near, parts, value};

/// J/(mol K): 6.02214076e23 times 1.380649e-23, both exact (SI Brochure, 9th ed.).
const GAS: f64 = 6.022_140_76 * 1.380_649;

/// One time: seconds, kelvins, share of concentrate.
type Point = (f64, f64, f64);

#[derive(Deserialize)]
struct Development {
    table: Vec<Table>,
}

#[derive(Deserialize)]
struct Table {
    source: String,
    times: Vec<[f64; 2]>,
    by_degrees: ByDegrees,
    activation: f64,
}

#[derive(Deserialize)]
struct ByDegrees {
    q10: f64,
    at_20: f64,
    residual: f64,
}

/// Solves the normal equations of `y = sum b x`, row by row.
fn least_squares(rows: &[(Vec<f64>, f64)]) -> Vec<f64> {
    let n = rows[0].0.len();
    let mut matrix = vec![vec![0.0; n + 1]; n];
    for (x, y) in rows {
        for i in 0..n {
            for j in 0..n {
                matrix[i][j] += x[i] * x[j];
            }
            matrix[i][n] += x[i] * y;
        }
    }
    for i in 0..n {
        let pivot = matrix[i][i];
        matrix[i].iter_mut().for_each(|cell| *cell /= pivot);
        for k in 0..n {
            if k != i {
                let times = matrix[k][i];
                let row = matrix[i].clone();
                matrix[k]
                    .iter_mut()
                    .zip(row)
                    .for_each(|(cell, above)| *cell -= times * above);
            }
        }
    }
    matrix.into_iter().map(|row| row[n]).collect()
}

fn kelvins(fahrenheit: f64) -> f64 {
    (fahrenheit + 459.67) * 5.0 / 9.0
}

/// The tables as they were first fitted, exponential in degrees; and by 1/T, for the activation energy.
#[test]
fn published_tables_by_normal_equations() {
    for table in cases::load::<Development>("development").table {
        let rows: Vec<_> = table
            .times
            .iter()
            .map(|&[fahrenheit, minutes]| (vec![1.0, kelvins(fahrenheit) - 293.15], minutes.ln()))
            .collect();
        let found = least_squares(&rows);
        near(&table.source, (-10.0 * found[1]).exp(), table.by_degrees.q10, 0.0006);
        near(&table.source, found[0].exp(), table.by_degrees.at_20, 0.0006);
        let residual = rows
            .iter()
            .map(|(x, y)| ((found[0] + found[1] * x[1] - y).exp() - 1.0).abs())
            .fold(0.0, f64::max);
        near(&table.source, residual, table.by_degrees.residual, 0.0006);
        let rows: Vec<_> = table
            .times
            .iter()
            .map(|&[fahrenheit, minutes]| (vec![1.0, 1e5 / kelvins(fahrenheit) - 1e5 / 293.15], minutes.ln()))
            .collect();
        let activation = least_squares(&rows)[1] * 1e5 * GAS / 1000.0;
        near(&table.source, activation, table.activation, 0.05);
    }
}

/// Minutes as a reader with a pencil takes them, in seconds.
fn seconds(text: &str) -> f64 {
    let number = |text: &str| text.trim().parse::<f64>().expect("a number");
    let text = text.trim();
    if let Some((minutes, seconds)) = text.split_once(':') {
        return number(minutes) * 60.0 + number(seconds);
    }
    if let Some((minutes, seconds)) = text.strip_suffix('s').and_then(|text| text.split_once('m')) {
        return number(minutes) * 60.0 + number(seconds);
    }
    if let Some(whole) = text.strip_suffix('½') {
        return (number(whole) + 0.5) * 60.0;
    }
    if let Some((whole, fraction)) = text.split_once(' ') {
        let (above, below) = fraction.split_once('/').expect("a fraction");
        return (number(whole) + number(above) / number(below)) * 60.0;
    }
    number(text) * 60.0
}

/// `TIME at DEGREES [C|F] [DILUTION]`
fn point(line: &str, bath: f64) -> Point {
    let (time, rest) = line.split_once(" at ").expect("at");
    let mut words = rest.split_whitespace().peekable();
    let degrees: f64 = words.next().expect("degrees").parse().expect("a number");
    let kelvins = match words.next_if(|word| ["C", "F"].contains(word)) {
        Some("F") => kelvins(degrees),
        _ => degrees + 273.15,
    };
    let dilution = words.collect::<Vec<_>>().join(" ");
    (
        seconds(time),
        kelvins,
        if dilution.is_empty() { bath } else { share(&dilution) },
    )
}

/// Share of concentrate, or grams: only ratios of one kind are used.
fn share(dilution: &str) -> f64 {
    if let Some(grams) = dilution.strip_suffix("g/l") {
        return grams.trim().parse().expect("a number");
    }
    let (a, b, water) = parts(dilution).expect("parts");
    (a + b) / (a + b + water)
}

/// Every time of the vectors, where nothing is at fault.
#[test]
fn times_by_normal_equations() {
    let mut worked = 0;
    for case in cases::load::<Cases>("time").case {
        if !case.faults.is_empty() || !case.fields.contains_key("times") {
            continue;
        }
        let typed = |field: &str| {
            case.fields
                .get(field)
                .map(|text| text.parse::<f64>().expect("a number"))
        };
        let bath = share(case.fields.get("dilution").map_or("1+31", String::as_str));
        let lines = case.fields["times"].split(['\n', ';']);
        let points: Vec<Point> = lines.map(|line| point(line.trim(), bath)).collect();
        let now = match case
            .fields
            .get("temperature")
            .map(|text| text.split_once(' ').unwrap_or((text, "C")))
        {
            Some((degrees, "F")) => kelvins(degrees.parse().expect("a number")),
            Some((degrees, _)) => 273.15 + degrees.parse::<f64>().expect("a number"),
            None => 293.15,
        };
        let strength = case.fields.get("strength").map_or(1.0, |text| {
            text.trim_end_matches([' ', '%']).parse::<f64>().expect("a number") / 100.0
        });

        let differ = |of: fn(&Point) -> f64| points.iter().any(|point| of(point) != of(&points[0]));
        let (by_temperature, by_share) = (differ(|point| point.1), differ(|point| point.2));
        let entangled = by_temperature && by_share && points.len() == 2;
        let fit_activation = by_temperature && typed("q10").is_none();
        let fit_exponent = by_share && typed("exponent").is_none() && !entangled;
        let q10 = typed("q10").unwrap_or(2.5);
        // In units of 1e5 K, so that the columns are alike in size.
        let known_activation = q10.ln() / (1e5 / 293.15 - 1e5 / 303.15);
        let known_exponent = typed("exponent").unwrap_or(0.75);
        let rows: Vec<_> = points
            .iter()
            .map(|&(seconds, kelvins, share)| {
                let (warm, thin) = (1e5 / kelvins - 1e5 / 293.15, (bath / share).ln());
                let mut columns = vec![1.0];
                let mut rest = seconds.ln();
                if fit_activation {
                    columns.push(warm)
                } else {
                    rest -= known_activation * warm
                }
                if fit_exponent {
                    columns.push(thin)
                } else {
                    rest -= known_exponent * thin
                }
                (columns, rest)
            })
            .collect();
        let found = least_squares(&rows);
        let activation = if fit_activation { found[1] } else { known_activation };
        let exponent = if fit_exponent {
            found[found.len() - 1]
        } else {
            known_exponent
        };
        let wanted = (found[0] + activation * (1e5 / now - 1e5 / 293.15)).exp() / strength;

        let sheet = case.answer("time").sheet;
        near(&case.name, value(&sheet, "time") / wanted, 1.0, 1e-8);
        near(
            &case.name,
            value(&sheet, "activation_energy"),
            activation * 1e5 * GAS / 1000.0,
            1e-6,
        );
        near(&case.name, value(&sheet, "exponent"), exponent, 1e-8);
        worked += 1;
    }
    assert!(worked > 7, "only {worked} times were worked out");
}
