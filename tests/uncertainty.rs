//! The uncertainty library against published examples, against a naive second derivation, and against its own laws.
#![cfg(not(target_arch = "wasm32"))]

use std::f64::consts::PI;

use meniscus::uncertainty::line::{self, Line, Prediction};
use meniscus::uncertainty::monte_carlo::{self, Sample};
use meniscus::uncertainty::{Distribution, Estimate, Input, Interval, Random, student};

use cases::{Columns, Output, Vectors, vectors};

#[path = "uncertainty/cases.rs"]
mod cases;
#[path = "uncertainty/laws.rs"]
mod laws;

#[track_caller]
fn near(what: &str, got: f64, wanted: f64, tolerance: f64) {
    assert!(
        (got - wanted).abs() <= tolerance,
        "{what}: {got} is not {wanted} within {tolerance}"
    );
}

#[test]
fn published_propagations() {
    for case in vectors().propagation {
        let name = format!("{} ({})", case.name, case.source);
        let inputs = case.inputs();
        let estimate = Estimate::propagate(&inputs, case.model()).expect(&name);
        near(&name, estimate.value(), case.value, case.tolerance);
        near(&name, estimate.standard_uncertainty(), case.uncertainty, case.tolerance);
        for part in &case.contributions {
            let named = estimate
                .contributions()
                .iter()
                .filter(|line| part.of.contains(&line.name));
            let sum = named.map(|line| line.contribution.powi(2)).sum::<f64>().sqrt();
            near(
                &name,
                sum,
                part.is,
                case.contribution_tolerance.expect("contributions have a tolerance"),
            );
        }
        match (estimate.effective_degrees_of_freedom(), case.degrees_of_freedom) {
            (Some(got), Some(wanted)) => near(&name, got, wanted, 1e-4),
            (got, wanted) => assert_eq!(got, wanted, "{name}"),
        }
        if let Some(wanted) = &case.expanded {
            let got = estimate.expanded(wanted.coverage).expect(&name);
            near(&name, got.k, wanted.k, 1e-6);
            near(&name, got.interval.low, wanted.low, wanted.tolerance);
            near(&name, got.interval.high, wanted.high, wanted.tolerance);
        }
        if let Some(wanted) = &case.monte_carlo {
            let sample = monte_carlo::run(&inputs, case.model(), wanted.draws, &mut Random::new(20)).expect(&name);
            near(&name, sample.mean(), wanted.mean, wanted.tolerance);
            near(&name, sample.standard_deviation(), wanted.uncertainty, wanted.tolerance);
            let interval = sample.symmetric_interval(0.95).expect(&name);
            near(&name, interval.low, wanted.symmetric[0], wanted.interval_tolerance);
            near(&name, interval.high, wanted.symmetric[1], wanted.interval_tolerance);
            if let Some([low, high]) = wanted.shortest {
                let place = wanted.place_tolerance.expect("a shortest interval has tolerances");
                let length = wanted.length_tolerance.expect("a shortest interval has tolerances");
                let interval = sample.shortest_interval(0.95).expect(&name);
                near(&name, interval.high - interval.low, high - low, length);
                near(&name, interval.low, low, place);
                near(&name, interval.high, high, place);
            }
        }
    }
}

/// Derivatives by hand and the full double sum over correlation coefficients (GUM 5.2.2, equation 13).
#[test]
fn propagations_derived_a_second_time() {
    for case in vectors().propagation {
        let inputs = case.inputs();
        let estimate = Estimate::propagate(&inputs, case.model()).expect(&case.name);
        let values: Vec<f64> = inputs.iter().map(|input| input.value).collect();
        let partials = case.partials(&values);
        for (line, partial) in estimate.contributions().iter().zip(&partials) {
            near(&case.name, line.sensitivity, *partial, 1e-8 * partial.abs().max(1e-3));
        }
        let mut variance = 0.0;
        for (i, first) in inputs.iter().enumerate() {
            for (j, second) in inputs.iter().enumerate() {
                if i == j || (first.group.is_some() && first.group == second.group) {
                    variance += partials[i] * partials[j] * first.uncertainty() * second.uncertainty();
                }
            }
        }
        near(
            &case.name,
            estimate.standard_uncertainty(),
            variance.sqrt(),
            1e-8 * variance.sqrt(),
        );
    }
}

#[test]
fn a_steep_formula_keeps_its_slope() {
    let input = Input::new("x", 1.0, Distribution::Normal { sigma: 1.0 });
    let estimate = Estimate::propagate(&[input], |x| (3.0 * x[0]).exp()).expect("an estimate");
    near(
        "slope",
        estimate.contributions()[0].sensitivity,
        3.0 * 3_f64.exp(),
        1e-9,
    );
}

#[test]
fn an_estimate_as_input_of_the_next() {
    let vectors = vectors();
    let find = |name: &str| vectors.propagation.iter().find(|case| case.name == name).expect(name);
    let (molar, whole) = (
        find("molar mass of potassium hydrogen phthalate"),
        find("standardising sodium hydroxide"),
    );
    let molar = Estimate::propagate(&molar.inputs(), molar.model()).expect("molar mass");
    let mut inputs = whole.inputs();
    inputs.truncate(6);
    inputs.push(molar.to_input("molar mass"));
    let model = |x: &[f64]| 1000.0 * x[0] * (x[1] + x[2]) * x[3] / ((x[4] + x[5]) * x[6]);
    let estimate = Estimate::propagate(&inputs, model).expect("titration");
    near(
        "A2 in two steps",
        estimate.standard_uncertainty(),
        whole.uncertainty,
        whole.tolerance,
    );
}

#[test]
fn published_lines() {
    for case in vectors().line {
        let name = format!("{} ({})", case.name, case.source);
        let points: Vec<_> = case.x.iter().zip(&case.y).map(|(x, y)| (x - case.origin, *y)).collect();
        let line = Line::fit(&points).expect(&name);
        near(&name, line.intercept(), case.intercept[0], case.tolerance);
        near(&name, line.intercept_uncertainty(), case.intercept[1], case.tolerance);
        near(&name, line.slope(), case.slope[0], case.tolerance);
        near(&name, line.slope_uncertainty(), case.slope[1], case.tolerance);
        near(&name, line.correlation(), case.correlation, case.correlation_tolerance);
        near(
            &name,
            line.residual_standard_deviation(),
            case.scatter[0],
            case.scatter[1],
        );
        assert_eq!(line.degrees_of_freedom(), case.degrees_of_freedom, "{name}");
        let Prediction {
            value,
            standard_uncertainty,
        } = line.predict(case.at - case.origin);
        near(&name, value, case.prediction[0], case.tolerance);
        near(&name, standard_uncertainty, case.prediction[1], case.tolerance);
        // a second time, by the raw sums of GUM H.3.2
        let n = points.len() as f64;
        let sum = |of: fn(&(f64, f64)) -> f64| points.iter().map(of).sum::<f64>();
        let (x, y, xx, xy) = (sum(|p| p.0), sum(|p| p.1), sum(|p| p.0 * p.0), sum(|p| p.0 * p.1));
        let d = n * xx - x * x;
        near(&name, line.intercept(), (y * xx - xy * x) / d, 1e-9);
        near(&name, line.slope(), (n * xy - x * y) / d, 1e-9);
        let s = line.residual_standard_deviation();
        near(&name, line.intercept_uncertainty(), s * (xx / d).sqrt(), 1e-9);
        near(&name, line.slope_uncertainty(), s * (n / d).sqrt(), 1e-9);
        near(&name, line.correlation(), -x / (n * xx).sqrt(), 1e-9);
    }
}

#[test]
fn published_columns() {
    for case in vectors().columns {
        match case.powers[..] {
            [a] => columns(&case, [a]),
            [a, b, c] => columns(&case, [a, b, c]),
            _ => panic!("{}: one or three columns", case.name),
        }
    }
}

fn columns<const N: usize>(case: &Columns, powers: [i32; N]) {
    let name = format!("{} ({})", case.name, case.source);
    let rows: Vec<_> = case
        .x
        .iter()
        .zip(&case.y)
        .map(|(x, y)| (powers.map(|power| x.powi(power)), *y))
        .collect();
    let fit = line::fit(&rows).expect(&name);
    for place in 0..N {
        let (wanted, doubt) = (case.coefficients[place], case.uncertainties[place]);
        near(&name, fit.coefficients()[place], wanted, wanted.abs() * case.tolerance);
        near(
            &name,
            fit.covariance()[place][place].sqrt(),
            doubt,
            doubt * case.tolerance,
        );
    }
    near(
        &name,
        fit.residual_standard_deviation(),
        case.scatter,
        case.scatter * case.tolerance,
    );
    for (place, (row, y)) in rows.iter().enumerate() {
        near(
            &name,
            fit.predict(*row).value + fit.residuals()[place],
            *y,
            1e-11 * y.abs(),
        );
    }
}

/// Columns that are nearly alike still leave residuals that have no part of any of them.
#[test]
fn residuals_are_orthogonal_to_the_columns() {
    let scatter = [3.0, -1.0, 4.0, 1.0, -5.0, 9.0, -2.0, -6.0, 5.0, 3.0, -5.0];
    let rows: Vec<_> = (50_000..=50_010)
        .map(f64::from)
        .zip(scatter)
        .map(|(x, y)| ([1.0, x, x * x], y))
        .collect();
    let fit = line::fit(&rows).expect("a fit");
    for column in 0..3 {
        let along = rows
            .iter()
            .zip(fit.residuals())
            .map(|((row, _), rest)| row[column] * rest);
        near("part", along.sum::<f64>() / rows[0].0[column], 0.0, 1e-12);
    }
}

#[test]
fn published_quantiles() {
    let Vectors { normal, student: t, .. } = vectors();
    for [probability, x] in normal.quantiles {
        let got = student::normal_quantile(probability).expect(&normal.source);
        near(&normal.source, got, x, x.abs() * normal.tolerance_relative);
        near("and back", student::normal_cdf(got), probability, probability * 1e-12);
    }
    for [probability, degrees, wanted] in t.quantiles {
        let what = format!("{probability} at {degrees} ({})", t.source);
        let got = student::t_quantile(probability, degrees).expect(&what);
        near(&what, got, wanted, wanted.abs() * t.tolerance_relative);
        near(
            "and back",
            student::t_cdf(got, degrees).expect(&what),
            probability,
            probability * 1e-11,
        );
    }
}

/// With t = √ν tan θ the density of t is a power of cos θ: Simpson's rule needs nothing else.
#[test]
fn student_integrated_a_second_time() {
    let integral = |to: f64, power: f64| {
        let step = to / 20_000.0;
        let weight = |k: i32| f64::from(if k == 0 || k == 20_000 { 1 } else { 2 + 2 * (k % 2) });
        (0..=20_000)
            .map(|k| weight(k) * (f64::from(k) * step).cos().max(0.0).powf(power))
            .sum::<f64>()
            * step
            / 3.0
    };
    for degrees in [1.0, 2.0, 3.0, 4.5, 9.0, 12.7956, 31.0, 200.0, 1500.0] {
        let half = 2.0 * integral(PI / 2.0, degrees - 1.0);
        for t in [0.01_f64, 0.7, 1.5, 1.8, 2.5, 6.0, 40.0] {
            let naive = 0.5 + integral((t / degrees.sqrt()).atan(), degrees - 1.0) / half;
            near("t", student::t_cdf(t, degrees).expect("a distribution"), naive, 2e-9);
        }
    }
}

#[test]
fn published_random_numbers() {
    let random = vectors().random;
    for Output { seed, bits } in random.outputs {
        let mut generator = Random::new(seed.parse().expect("a seed"));
        let got: Vec<String> = bits.iter().map(|_| generator.bits().to_string()).collect();
        assert_eq!(got, bits, "{}", random.source);
    }
}

/// Kolmogorov and Smirnov at the 0.1 % level: what is drawn must follow the distribution that it is drawn from.
#[test]
fn draws_follow_their_distribution() {
    for degrees in [0.8, 3.0, 9.0, f64::INFINITY] {
        let input = Input::new("x", 0.0, Distribution::Normal { sigma: 1.0 });
        let input = if degrees.is_finite() {
            input.with_degrees_of_freedom(degrees)
        } else {
            input
        };
        let sample = monte_carlo::run(&[input], |x| x[0], 40_001, &mut Random::new(3)).expect("a sample");
        let off = (0..=40_000).map(|place| {
            let probability = f64::from(place) / 40_000.0;
            let x = sample.quantile(probability).expect("a probability");
            (student::t_cdf(x, degrees).expect("a distribution") - probability).abs()
        });
        assert!(off.fold(0.0, f64::max) < 1.95 / 200.0, "{degrees} degrees of freedom");
    }
}

#[test]
fn quantiles_and_intervals_of_a_sample() {
    // numpy 2.4.6, numpy.quantile with its default method
    let sample = Sample::new(vec![3.0, 1.0, 4.0, 1.0, 5.0, 9.0, 2.0, 6.0]).expect("a sample");
    for (probability, wanted) in [(0.0, 1.0), (0.1, 1.0), (0.5, 3.5), (0.77, 5.39), (1.0, 9.0)] {
        near(
            "quantile",
            sample.quantile(probability).expect("a probability"),
            wanted,
            1e-12,
        );
    }
    near("mean", sample.mean(), 31.0 / 8.0, 1e-12);
    near(
        "standard deviation",
        sample.standard_deviation(),
        (423.0_f64 / 56.0).sqrt(),
        1e-12,
    );
    // JCGM 101:2008, 7.7 by hand, from memory: q = 5 of M = 10; r = 3 symmetric; shortest at the dense end
    let squares = Sample::new((1..=10).map(|k| f64::from(k * k)).collect()).expect("a sample");
    assert_eq!(squares.symmetric_interval(0.5), Ok(Interval { low: 9.0, high: 64.0 }));
    assert_eq!(squares.shortest_interval(0.5), Ok(Interval { low: 1.0, high: 36.0 }));
}

#[test]
fn faults_say_what_to_do() {
    let input = |value, sigma| Input::new("x", value, Distribution::Normal { sigma });
    let says = |inputs: &[Input], model: fn(&[f64]) -> f64| {
        let first = Estimate::propagate(inputs, model).expect_err("a fault").to_string();
        let again = monte_carlo::run(inputs, model, 9, &mut Random::new(1))
            .expect_err("a fault")
            .to_string();
        (first, again)
    };
    for (inputs, wanted) in [
        (vec![], "there are no inputs: give at least one"),
        (
            vec![input(f64::NAN, 1.0)],
            "the value of `x` is NaN: give a finite number",
        ),
        (
            vec![input(1.0, -1.0)],
            "the standard uncertainty of `x` is -1: give a width that is zero or more",
        ),
        (
            vec![input(1.0, f64::NAN)],
            "the standard uncertainty of `x` is NaN: give a width that is zero or more",
        ),
        (
            vec![input(1.0, 1.0).with_degrees_of_freedom(0.0)],
            "the degrees of freedom of `x` are 0: give a number above zero, or none at all",
        ),
        (
            vec![
                input(1.0, 1.0).in_group("g"),
                input(1.0, 1.0).with_degrees_of_freedom(3.0).in_group("g"),
            ],
            "`x` and `x` differ in shape or degrees of freedom, so they cannot share one error: make them alike or take \
             one out of the group `g`",
        ),
    ] {
        assert_eq!(says(&inputs, |x| x[0]), (wanted.to_string(), wanted.to_string()));
    }
    let (first, again) = says(&[input(0.0, 1.0)], |x| (x[0] - 2.0).ln());
    assert_eq!(
        first,
        "the formula gives NaN at the stated values: give values for which it has a result"
    );
    assert_eq!(
        again,
        "a draw gives NaN: keep the inputs where the formula has a result"
    );
    let (first, _) = says(&[input(0.0, 1.0)], |x| x[0].sqrt());
    assert_eq!(
        first,
        "the formula has no slope along `x` at the stated values: move away from its edge"
    );

    let sample = Sample::new(vec![1.0, 2.0]).expect("a sample");
    for (fault, wanted) in [
        (
            Sample::new(vec![1.0]).expect_err("one"),
            "1 draws are too few: take at least 2",
        ),
        (
            sample.symmetric_interval(0.95).expect_err("two"),
            "2 draws are too few: take at least 11",
        ),
        (
            sample.shortest_interval(0.0).expect_err("none"),
            "a coverage of 0 is not between 0 and 1: 0.95 is usual",
        ),
        (
            sample.quantile(1.5).expect_err("above one"),
            "a probability of 1.5 is not from 0 to 1",
        ),
    ] {
        assert_eq!(fault.to_string(), wanted);
    }
    for (points, wanted) in [
        (vec![(0.0, 1.0), (1.0, 2.0)], "2 points are too few: give at least 3"),
        (
            vec![(0.0, 1.0), (1.0, f64::NAN)],
            "point 2 is not a finite number: correct it or leave it out",
        ),
        (
            vec![(0.1, 1.0), (0.1, 2.0), (0.1, 2.5)],
            "all points have the same x: give at least two different ones",
        ),
    ] {
        assert_eq!(Line::fit(&points).expect_err("a fault").to_string(), wanted);
    }
    let fault = student::t_quantile(1.0, 3.0).expect_err("infinite");
    assert_eq!(
        fault.to_string(),
        "a probability of 1 has no quantile: give one between 0 and 1"
    );
}
