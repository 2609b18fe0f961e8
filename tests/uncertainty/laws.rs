//! What must hold of every budget, distribution, sample and line.

use meniscus::uncertainty::line::{self, Line};
use meniscus::uncertainty::monte_carlo::Sample;
use meniscus::uncertainty::{Distribution, Estimate, Input, student};
use proptest::prelude::*;

use super::near;

fn some_inputs() -> impl Strategy<Value = Vec<Input>> {
    let one = (
        -50.0..50.0_f64,
        0.01..2.0_f64,
        0..4_usize,
        prop::option::of(1.0..60.0_f64),
    )
        .prop_map(|(value, width, group, degrees)| {
            let input = Input::new(
                format!("{value}"),
                value,
                Distribution::Rectangular { half_width: width },
            );
            match degrees {
                _ if group == 0 => input.in_group("shared"),
                Some(degrees) => input.with_degrees_of_freedom(degrees),
                None => input,
            }
        });
    prop::collection::vec(one, 1..7)
}

fn curved(x: &[f64]) -> f64 {
    x.iter().map(|x| (x / 40.0).exp() + 0.3 * x).sum()
}

fn estimate(inputs: &[Input], model: impl Fn(&[f64]) -> f64) -> Estimate {
    Estimate::propagate(inputs, model).expect("an estimate")
}

proptest! {
    #[test]
    fn a_scaled_result_scales_its_budget(inputs in some_inputs(), factor in -9.0..-0.1_f64) {
        let (plain, scaled) = (estimate(&inputs, curved), estimate(&inputs, |x| factor * curved(x)));
        near("u", scaled.standard_uncertainty(), plain.standard_uncertainty() * -factor, 1e-7);
        for (a, b) in plain.contributions().iter().zip(scaled.contributions()) {
            near("contribution", b.contribution, a.contribution * factor, 1e-7);
            near("share", b.share, a.share, 1e-7);
        }
    }

    #[test]
    fn the_order_of_inputs_does_not_matter(inputs in some_inputs(), turn in 0..7_usize) {
        let mut turned = inputs.clone();
        turned.rotate_left(turn % inputs.len());
        let (a, b) = (estimate(&inputs, curved), estimate(&turned, curved));
        near("u", a.standard_uncertainty(), b.standard_uncertainty(), 1e-7);
        let degrees = |e: &Estimate| e.effective_degrees_of_freedom().map_or(0.0, f64::recip);
        near("1/dof", degrees(&a), degrees(&b), 1e-7);
    }

    #[test]
    fn shares_add_to_the_whole(inputs in some_inputs()) {
        near("sum", estimate(&inputs, curved).contributions().iter().map(|line| line.share).sum(), 1.0, 1e-12);
    }

    #[test]
    fn a_linear_formula_is_exact(inputs in some_inputs(), factors in prop::array::uniform7(-9.0..9.0_f64)) {
        let result = estimate(&inputs, |x| x.iter().zip(&factors).map(|(x, c)| c * x).sum());
        for (line, factor) in result.contributions().iter().zip(factors) {
            near("sensitivity", line.sensitivity, factor, 1e-7);
        }
    }

    #[test]
    fn a_group_of_equal_draws_is_so_many_times_one(width in 0.0..2.0_f64, value in -9.0..9.0_f64, n in 1..9_usize) {
        let one = Input::new("draw", value, Distribution::Triangular { half_width: width }).in_group("syringe");
        let many = vec![one.clone(); n];
        let (single, sum) = (estimate(&[one], |x| x[0]), estimate(&many, |x| x.iter().sum()));
        near("u", sum.standard_uncertainty(), n as f64 * single.standard_uncertainty(), 1e-7);
        let none = estimate(&[many, vec![]].concat(), |x| x.iter().sum::<f64>() - n as f64 * x[0]);
        near("cancelled", none.standard_uncertainty(), 0.0, 1e-7);
    }

    #[test]
    fn a_quantile_is_the_inverse_of_the_share_below(probability in 1e-9..0.999_999, log in -0.5..8.0_f64) {
        let degrees = 10_f64.powf(log);
        let t = student::t_quantile(probability, degrees).expect("a quantile");
        near("p", student::t_cdf(t, degrees).expect("a share"), probability, 1e-12 * probability.max(1e-3));
        let mirrored = student::t_cdf(-t, degrees).expect("a share");
        near("1 - p", mirrored, 1.0 - probability, 1e-12);
    }

    #[test]
    fn the_shortest_interval_is_no_longer_than_another(
        results in prop::collection::vec(-9.0..9.0_f64, 20..200),
        coverage in 0.1..0.95_f64,
    ) {
        let sample = Sample::new(results.clone()).expect("a sample");
        let shortest = sample.shortest_interval(coverage).expect("an interval");
        let symmetric = sample.symmetric_interval(coverage).expect("an interval");
        prop_assert!(shortest.high - shortest.low <= symmetric.high - symmetric.low);
        for interval in [shortest, symmetric] {
            let held = results.iter().filter(|result| interval.contains(**result)).count();
            prop_assert!(held as f64 >= coverage * results.len() as f64 - 0.5);
        }
    }

    #[test]
    fn a_line_is_a_fit_of_two_columns(points in prop::collection::vec((-9.0..9.0_f64, -9.0..9.0_f64), 3..20)) {
        let rows: Vec<_> = points.iter().map(|&(x, y)| ([1.0, x], y)).collect();
        let (line, fit) = (Line::fit(&points).expect("a line"), line::fit(&rows).expect("a fit"));
        let scale = 1.0 + fit.covariance()[1][1] + fit.covariance()[0][0];
        near("a", line.intercept(), fit.coefficients()[0], 1e-9 * scale);
        near("b", line.slope(), fit.coefficients()[1], 1e-9 * scale);
        let (here, there) = (line.predict(4.0), fit.predict([1.0, 4.0]));
        near("u", here.standard_uncertainty, there.standard_uncertainty, 1e-9 * scale);
        near("residuals", line.residuals().iter().sum(), 0.0, 1e-9);
    }
}
