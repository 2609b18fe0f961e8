//! Control charts and trends: the worked examples of the handbook, and series worked out by numpy and scipy.

use meniscus::fields::{self, Kind};
use meniscus::proof::control::{
    Control, D2, Edge, Measure, Meeting, NoTrend, Rule, Trend, When, moving_range, sigma_by_ranges,
};
use meniscus::quantity::{Day, Units};
use serde::Deserialize;

use super::cases::load;
use super::near;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Handbook {
    individuals: Vec<Individuals>,
    averages: Vec<Averages>,
    sums: Vec<Sums>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Individuals {
    source: String,
    values: Vec<f64>,
    mean: f64,
    moving_range: f64,
    limits: [f64; 2],
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Averages {
    source: String,
    values: Vec<f64>,
    level: f64,
    sigma: f64,
    lambda: f64,
    smoothed: Vec<f64>,
    limits: [f64; 2],
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Sums {
    source: String,
    values: Vec<f64>,
    level: f64,
    k: f64,
    h: f64,
    above: Vec<f64>,
    below: Vec<f64>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Reference {
    source: String,
    d2: f64,
    ranges_uncertainty: f64,
    series: Vec<Series>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Series {
    name: String,
    level: f64,
    sigma: f64,
    lambda: f64,
    k: f64,
    h: f64,
    days: Vec<i32>,
    values: Vec<f64>,
    moving_range: f64,
    smoothed: Vec<f64>,
    half_widths: Vec<f64>,
    above: Vec<f64>,
    below: Vec<f64>,
    limit: f64,
    limit_above: bool,
    today: i32,
    slope: f64,
    slope_uncertainty: f64,
    meets: [i32; 3],
}

fn control(level: f64, sigma: f64) -> Control {
    Control {
        level,
        sigma,
        lambda: 0.2,
        k: 0.5,
        h: 4.0,
    }
}

#[test]
fn individuals_of_the_handbook() {
    for case in load::<Handbook>("control").individuals {
        let mean = case.values.iter().sum::<f64>() / case.values.len() as f64;
        near(&case.source, mean, case.mean, 1e-9);
        near(
            &case.source,
            moving_range(&case.values).expect("a range"),
            case.moving_range,
            5e-5,
        );
        let (sigma, _) = sigma_by_ranges(&case.values).expect("they differ");
        let (low, high) = control(mean, sigma).limits();
        near(&case.source, low, case.limits[0], 5e-5);
        near(&case.source, high, case.limits[1], 5e-5);
        // The factor that charts of individuals carry: 3/1.128 = 2.66 (common knowledge of the trade, from memory).
        near("2.66", (high - mean) / case.moving_range, 2.66, 5e-4);
    }
}

#[test]
fn averages_of_the_handbook() {
    for case in load::<Handbook>("control").averages {
        let control = Control {
            lambda: case.lambda,
            ..control(case.level, case.sigma)
        };
        let got = control.smoothed(&case.values);
        for (got, wanted) in got.iter().zip(&case.smoothed) {
            near(&case.source, got.value, *wanted, 0.0051);
        }
        let last = got.last().expect("values");
        // Of twenty values 0.7^40 of the variance is still missing; the handbook rounds the root.
        near(&case.source, last.low, case.limits[0], 2e-4);
        near(&case.source, last.high, case.limits[1], 2e-4);
        let tells = |rule: Rule| control.signals(&case.values).iter().any(|signal| signal.rule == rule);
        assert!(!tells(Rule::Smoothed) && !tells(Rule::Beyond), "{}", case.source);
    }
}

/// The handbook's k and h are in the unit of the values: here a scatter of 1 carries them.
#[test]
fn sums_of_the_handbook() {
    for case in load::<Handbook>("control").sums {
        let control = Control {
            k: case.k,
            h: case.h,
            ..control(case.level, 1.0)
        };
        let got = control.sums(&case.values);
        for (at, got) in got.iter().enumerate() {
            near(&case.source, got.above, case.above[at], 0.0051);
            near(&case.source, got.below, case.below[at], 0.0051);
        }
        let first = got.iter().position(|sums| sums.above > case.h);
        assert_eq!(first, Some(13), "{}", case.source);
        let signals = control.signals(&case.values);
        let sum = signals
            .iter()
            .find(|signal| signal.rule == Rule::Sum)
            .expect("a signal");
        assert_eq!((sum.above, sum.from, sum.to), (true, 12, 19), "{}", case.source);
    }
}

#[test]
fn series_of_the_reference() {
    let path = [env!("CARGO_MANIFEST_DIR"), "tests", "reference", "control.toml"];
    let text = std::fs::read_to_string(path.iter().collect::<std::path::PathBuf>()).expect("the fixture");
    let reference: Reference = toml::from_str(&text).expect("the fixture");
    assert!(reference.source.contains("scipy"));
    near("d2", D2, reference.d2, 4e-4);
    let start = Day::from_days(20_000);
    for case in &reference.series {
        let control = Control {
            level: case.level,
            sigma: case.sigma,
            lambda: case.lambda,
            k: case.k,
            h: case.h,
        };
        let name = &case.name;
        near(
            name,
            moving_range(&case.values).expect("a range"),
            case.moving_range,
            1e-11,
        );
        let (sigma, uncertainty) = sigma_by_ranges(&case.values).expect("a scatter");
        let ranges = (case.values.len() - 1) as f64;
        near(
            name,
            uncertainty / sigma,
            reference.ranges_uncertainty / ranges.sqrt(),
            2e-4,
        );
        for (at, got) in control.smoothed(&case.values).iter().enumerate() {
            near(name, got.value, case.smoothed[at], 1e-11);
            near(name, got.high - case.level, case.half_widths[at], 1e-11);
            near(name, case.level - got.low, case.half_widths[at], 1e-11);
        }
        for (at, got) in control.sums(&case.values).iter().enumerate() {
            near(name, got.above, case.above[at], 1e-11);
            near(name, got.below, case.below[at], 1e-11);
        }
        let dated: Vec<(Day, f64)> = case
            .days
            .iter()
            .map(|day| start + *day)
            .zip(case.values.clone())
            .collect();
        let trend = Trend::fit(&dated).expect("a trend");
        near(name, trend.per_day().value, case.slope, 1e-11);
        near(
            name,
            trend.per_day().standard_uncertainty,
            case.slope_uncertainty,
            1e-11,
        );
        let edge = Edge {
            at: case.limit,
            above: case.limit_above,
        };
        let today = start + case.today;
        let Meeting {
            earliest,
            likely,
            latest,
        } = trend.meets(edge, today, 730);
        let got = [earliest, likely, latest].map(|when| match when {
            When::Past => 0,
            When::On(day) => day - today,
            When::NotWithin => -1,
        });
        assert_eq!(got, case.meets, "{name}");
    }
    let ahead = |case: &&Series| case.meets.iter().all(|days| *days > 0);
    assert!(
        reference.series.iter().any(|case| ahead(&case)),
        "no series that meets its limit later on"
    );
}

/// Rules by hand, in scatters about 0.
#[test]
fn rules_by_hand() {
    let control = Control {
        h: 100.0,
        lambda: 1.0,
        ..control(0.0, 1.0)
    };
    let told = |values: &[f64]| -> Vec<_> {
        let signals = control.signals(values);
        signals
            .iter()
            .map(|signal| (signal.rule, signal.above, signal.from, signal.to))
            .collect()
    };
    let seven = [-0.5, 0.1, 0.2, 0.1, 0.3, 0.1, 0.2, 0.1];
    assert_eq!(told(&seven), [], "seven in a row");
    let eight = [seven.as_slice(), &[0.4]].concat();
    assert_eq!(told(&eight), [(Rule::Run, true, 1, 8)], "eight in a row");
    let broken = [eight.as_slice(), &[0.0, 0.2]].concat();
    assert_eq!(told(&broken), [(Rule::Run, true, 1, 8)], "one on the line breaks it");
    // With a weight of 1 the average is the value itself.
    assert_eq!(
        told(&[0.0, -3.1, -3.2, 1.0]),
        [(Rule::Beyond, false, 1, 2), (Rule::Smoothed, false, 1, 2)]
    );
    assert_eq!(told(&[3.0, -3.0]), [], "on the limit is within it");
}

#[test]
fn no_trend_of_three_or_of_one_day() {
    let day = Day::from_days(20_000);
    let three = [(day, 1.0), (day + 1, 0.9), (day + 2, 1.0)];
    assert_eq!(Trend::fit(&three), Err(NoTrend::TooFew));
    assert_eq!(
        Trend::fit(&[(day, 1.0), (day, 0.9), (day, 1.0), (day, 1.1)]),
        Err(NoTrend::OneDay)
    );
    let line = [(day, 1.0), (day + 10, 0.99), (day + 20, 0.98), (day + 30, 0.97)];
    let trend = Trend::fit(&line).expect("four days");
    assert!(trend.is_told());
    // By hand: 0.001 a day from 0.97 reaches 0.9 after 70 days, and is below it on the day after; the band has no width.
    let edge = Edge { at: 0.9, above: false };
    let meeting = trend.meets(edge, day + 30, 730);
    assert!(
        matches!(meeting.likely, When::On(on) if (70..=71).contains(&(on - (day + 30)))),
        "{meeting:?}"
    );
}

/// 21 CFR 900.12(e)(1)(i) to (iii): base plus fog within +0.03 of its level, mid-density and density difference within ±0.15.
#[test]
fn limits_of_daily_tests() {
    let limits = Measure::ALL.map(|(_, _, measure)| measure.density_limit());
    assert_eq!(limits, [None, None, None, Some(0.03), Some(0.15), Some(0.15)]);
    let edges = |measure: Measure, limit: f64| {
        measure
            .edges(1.0, limit)
            .iter()
            .map(|edge| (edge.at, edge.above))
            .collect::<Vec<_>>()
    };
    assert_eq!(edges(Measure::BaseFog, 0.03), [(1.03, true)]);
    assert_eq!(edges(Measure::MidDensity, 0.15), [(0.85, false), (1.15, true)]);
    assert_eq!(edges(Measure::Clip, 0.9), [(0.9, false)]);
    for (at, (_, name, measure)) in Measure::ALL.into_iter().enumerate() {
        assert_eq!((measure as usize, measure.name()), (at, name));
    }
}

/// The work is bounded by the list that is taken: two hundred values.
#[test]
fn a_list_has_an_end() {
    let read = |count: usize| fields::Series.read(&"1\n".repeat(count), Units::default());
    assert_eq!(read(200).map(|values| values.len()), Ok(200));
    assert_eq!(read(201), Err("a chart takes up to 200 values".to_owned()));
    assert_eq!(read(100_000), Err("a chart takes up to 200 values".to_owned()));
}
