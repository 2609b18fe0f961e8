//! Control charts: shifted values shift the chart and nothing else, a level series never signals, the order in which dated lines
//! are typed does not matter.

use meniscus::calculators::calculate;
use meniscus::fields::Named;
use meniscus::proof::control::{Control, Rule, moving_range};
use proptest::collection::vec;
use proptest::prelude::*;

use super::{close, darkroom, tries};

fn control(level: f64) -> Control {
    Control {
        level,
        sigma: 0.05,
        lambda: 0.2,
        k: 0.5,
        h: 4.0,
    }
}

/// Values in thousandths, as they are typed.
fn series() -> impl Strategy<Value = Vec<i32>> {
    vec(700..1300_i32, 2..60)
}

fn number(thousandths: i32) -> f64 {
    f64::from(thousandths) / 1000.0
}

proptest! {
    #![proptest_config(tries(200))]

    #[test]
    fn shifted_values_shift_the_chart_only(series in series(), by in -300..3000_i32) {
        let (values, shifted): (Vec<f64>, Vec<f64>) = series.iter().map(|&x| (number(x), number(x + by))).unzip();
        let (here, there) = (control(1.0), control(1.0 + number(by)));
        for (one, other) in here.smoothed(&values).iter().zip(there.smoothed(&shifted)) {
            prop_assert!(close(one.value + number(by), other.value, 1e-9));
            prop_assert!(close(one.high - one.low, other.high - other.low, 1e-9));
        }
        for (one, other) in here.sums(&values).iter().zip(there.sums(&shifted)) {
            prop_assert!(close(one.above, other.above, 1e-9) && close(one.below, other.below, 1e-9));
        }
        prop_assert!(close(moving_range(&values).expect("two"), moving_range(&shifted).expect("two"), 1e-9));
        let told = |control: Control, values: &[f64]| -> Vec<_> {
            let signals = control.signals(values);
            signals.iter().map(|signal| (signal.rule as u8, signal.above, signal.from, signal.to)).collect()
        };
        prop_assert_eq!(told(here, &values), told(there, &shifted));
    }

    /// Mirrored about the level, every signal changes its side.
    #[test]
    fn a_mirror_turns_every_signal(series in series()) {
        let (values, mirrored): (Vec<f64>, Vec<f64>) = series.iter().map(|&x| (number(x), number(2000 - x))).unzip();
        let told = |values: &[f64], turned: bool| -> Vec<_> {
            let signals = control(1.0).signals(values);
            let mut told: Vec<_> = signals.iter().map(|one| (one.rule as u8, one.above != turned, one.from, one.to)).collect();
            told.sort_unstable();
            told
        };
        prop_assert_eq!(told(&values, false), told(&mirrored, true));
    }

    /// On its own level, to whatever floating point makes of it.
    #[test]
    fn a_level_series_never_signals(value in 1..6000_i32, count in 2..200_usize, measure in 0..6_usize, sigma in 1..1000_u32) {
        let values = vec![number(value); count];
        let level = values.iter().take(5).sum::<f64>() / values.iter().take(5).count() as f64;
        let control = Control { sigma: f64::from(sigma) / 1000.0, ..control(level) };
        prop_assert_eq!(control.signals(&values), vec![]);
        let measure = ["base-fog", "mid-density", "difference"][measure % 3];
        let text = vec![number(value).to_string(); count].join("; ");
        let named = Named::from([("measure", measure), ("values", &text), ("sigma", "0.01")].map(|(k, v)| (k.to_owned(), v.to_owned())));
        let answer = calculate("chart", &named, &darkroom::starter()).expect("chart");
        prop_assert_eq!(&answer.faults, &vec![]);
        let state = answer.sheet.figure("state").map(|figure| figure.shown.clone());
        prop_assert_eq!(state.as_deref(), Some(if count < 4 { "cannot tell yet" } else { "steady" }));
    }

    #[test]
    fn the_order_of_dated_lines_does_not_matter(series in vec((0..28_u32, 700..1300_i32), 4..20), seed in any::<u64>()) {
        // One value a day, so that no two can change places.
        let mut lines: Vec<String> = Vec::new();
        for (day, value) in &series {
            let day = format!("2026-01-{:02}", day + 1);
            if !lines.iter().any(|line| line.starts_with(&day)) {
                lines.push(format!("{day} {}", number(*value)));
            }
        }
        lines.sort();
        let answer = |lines: &[String]| {
            let named = Named::from([("values".to_owned(), lines.join("\n"))]);
            calculate("chart", &named, &darkroom::starter()).expect("chart")
        };
        let in_order = answer(&lines);
        let middle = (seed % lines.len() as u64) as usize;
        lines.rotate_left(middle);
        prop_assert_eq!(&answer(&lines), &in_order);
        lines.reverse();
        prop_assert_eq!(answer(&lines), in_order);
    }

    /// A single value beyond three scatters is always told, with its place.
    #[test]
    fn one_far_value_is_told(count in 1..50_usize, at in 0..50_usize, up in any::<bool>()) {
        let at = at % count;
        let mut values = vec![1.0; count];
        values[at] = if up { 1.16 } else { 0.84 };
        let signals = control(1.0).signals(&values);
        let beyond = signals.iter().find(|signal| signal.rule == Rule::Beyond).expect("a signal");
        prop_assert_eq!((beyond.above, beyond.from, beyond.to), (up, at, at));
    }
}
