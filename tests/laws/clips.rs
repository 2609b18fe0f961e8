//! Laws of the clip test and the clearing test, and what they find of a bottle.

use meniscus::calculators::calculate;
use meniscus::development::Parameter;
use meniscus::fields::Named;
use meniscus::kit::{Kit, Thermometer};
use meniscus::proof::{
    Against, Finding, Fixer, Measured, Outcome, TestKind, Timed, WATCHED, Warmth, WarmthLaw, density_ratio,
    strength_of_ratio,
};
use meniscus::quantity::{Span, Temperature, TemperatureDifference};
use meniscus::view;
use proptest::collection::vec;
use proptest::prelude::*;

use super::{close, darkroom, shelf, tries};

fn spans(seconds: &[f64]) -> Vec<Span> {
    seconds.iter().map(|&seconds| Span::from_seconds(seconds)).collect()
}

fn timed(fresh: &[f64], now: &[f64], celsius: [f64; 2]) -> Measured {
    let [fresh_at, now_at] = celsius.map(Temperature::from_celsius);
    Timed {
        fresh: &spans(fresh),
        now: &spans(now),
        warmth: Warmth {
            fresh: fresh_at,
            now: now_at,
            law: WarmthLaw::PerTen(Parameter::given_or(Some(2.0), WATCHED)),
            thermometer: [TemperatureDifference::from_kelvins(0.5); 2],
        },
        scatter: Parameter::given_or(None, WATCHED),
    }
    .strength()
    .expect("both were timed")
}

proptest! {
    #![proptest_config(tries(256))]

    /// From strength to density and back.
    #[test]
    fn densities_and_back(strength in 0.05..3.0, progress in 0.1..4.0) {
        let back = strength_of_ratio(density_ratio(strength, progress), progress);
        prop_assert!(back.is_some_and(|back| close(back, strength, 1e-6)), "{back:?}");
    }

    /// A weaker bath makes a thinner clip, and more so where development is less far gone.
    #[test]
    fn weaker_is_thinner(strength in 0.1..0.99, progress in 0.1..3.9) {
        let ratio = density_ratio(strength, progress);
        prop_assert!(ratio < 1.0 && ratio > strength);
        prop_assert!(density_ratio(strength, progress + 0.1) > ratio);
    }

    /// Exchanging the two baths turns the strength over, and leaves its relative uncertainty.
    #[test]
    fn exchanged_it_is_turned_over(
        fresh in vec(5.0..600.0, 1..5),
        now in vec(5.0..600.0, 1..5),
        warm in 12.0..28.0,
        cold in 12.0..28.0,
    ) {
        let one = timed(&fresh, &now, [warm, cold]);
        let other = timed(&now, &fresh, [cold, warm]);
        prop_assert!(close(one.strength.value * other.strength.value, 1.0, 1e-9));
        let relative = |measured: &Measured| measured.uncertainty / measured.strength.value;
        prop_assert!(close(relative(&one), relative(&other), 1e-9));
    }

    /// The value lies within what is sure, the band within that too, and all of it is finite.
    #[test]
    fn what_is_sure_holds_the_value(fresh in vec(2.0..1200.0, 1..6), now in vec(2.0..1200.0, 1..6)) {
        let measured = timed(&fresh, &now, [20.0, 18.0]);
        let (least, most) = measured.surely;
        prop_assert!(least <= measured.strength.least && measured.strength.most <= most);
        prop_assert!(least >= 0.0 && most.is_finite() && measured.uncertainty.is_finite());
        prop_assert!((0.0..=1.0).contains(&measured.unseen.value));
        // What is surely above a limit is not surely below it.
        prop_assert!(measured.against(least) == Against::Above);
    }

    /// Half the speed is spent, and nothing above it is.
    #[test]
    fn twice_the_time_is_spent(fresh in 5.0..600.0, times in 1.0..4.0) {
        let fixer = Fixer::of(&timed(&[fresh], &[fresh * times], [20.0, 20.0]));
        prop_assert_eq!(fixer == Fixer::Spent, times >= 2.0 - 1e-9, "{}", times);
    }
}

fn found(calculator: &str, fields: &[(&str, &str)]) -> Option<Finding> {
    let named: Named = fields
        .iter()
        .map(|(name, text)| ((*name).to_owned(), (*text).to_owned()))
        .collect();
    let answer = calculate(calculator, &named, &shelf::darkroom()).expect("a calculator");
    assert_eq!(answer.faults, []);
    answer.sheet.finding
}

/// What can be told of a bottle is found, and nothing else.
#[test]
fn findings() {
    let clip = |fields: &[(&str, &str)]| found("clip", &[fields, &[("bottle", "pale-1")]].concat());
    let eye = |leader, rest| clip(&[("leader", leader), ("rest", rest)]).map(|finding| finding.outcome);
    assert_eq!(eye("black", "clear"), Some(Outcome::Seen));
    assert_eq!(eye("grey", "clear"), Some(Outcome::Failed));
    assert_eq!(eye("thinner", "clear"), None);
    assert_eq!(eye("black", "veiled"), None);
    assert_eq!(eye("", ""), None);
    assert_eq!(
        found("clip", &[("leader", "black"), ("rest", "clear")]),
        None,
        "no bottle"
    );
    let timed = |now| clip(&[("judged", "time"), ("black_fresh", "40 s"), ("black_now", now)]);
    let weak = timed("80 s").expect("surely weak");
    assert_eq!(weak.test, TestKind::Clip);
    let halved = |outcome| matches!(outcome, Outcome::Strength { strength, uncertainty } if close(strength, 0.5, 1e-9) && uncertainty > 0.0);
    assert!(halved(weak.outcome), "{weak:?}");
    assert_eq!(timed("44 s"), None, "cannot tell");
    assert_eq!(timed("20 s"), None, "too strong to be true");
    let clear = |now| {
        let fields = [("bottle", "grey-1"), ("clear_now", now), ("clear_fresh", "50 s")];
        found("clear", &fields).map(|finding| finding.outcome)
    };
    assert!(matches!(clear("75 s"), Some(Outcome::Strength { strength, .. }) if close(strength, 2.0 / 3.0, 1e-9)));
    assert_eq!(clear("100 s"), Some(Outcome::Failed));
    assert_eq!(clear("95 s"), None, "near its end");
    assert_eq!(clear("25 s"), None, "faster than fresh");
    let by_rule = found("clear", &[("bottle", "grey-1"), ("clear_now", "80 s")]);
    assert_eq!(by_rule.map(|finding| finding.outcome), Some(Outcome::Seen));
}

/// What is written down is as uncertain as what was measured and what was assumed together: anywhere in the band that the
/// assumptions leave (JCGM 100, 4.3.7 and 5.1.2).
#[test]
fn a_finding_knows_what_was_assumed() {
    let checked = |calculator: &str, fields: &[(&str, &str)], figure: &str, band: [f64; 2]| {
        let named: Named = fields
            .iter()
            .map(|(name, text)| ((*name).to_owned(), (*text).to_owned()))
            .collect();
        let answer = calculate(calculator, &named, &shelf::darkroom()).expect("a calculator");
        let shown = answer
            .sheet
            .figure(figure)
            .and_then(|figure| figure.standard_uncertainty);
        let measured = shown.expect("an uncertainty") / 100.0;
        let Some(Outcome::Strength { uncertainty, .. }) = answer.sheet.finding.map(|finding| finding.outcome) else {
            panic!("{calculator} found no strength");
        };
        let wanted = (measured.powi(2) + (band[1] - band[0]).powi(2) / 12.0).sqrt();
        assert!(
            close(uncertainty, wanted, 1e-6),
            "{calculator}: {uncertainty}, not {wanted}"
        );
    };
    let grey = [
        ("bottle", "pale-1"),
        ("judged", "meter"),
        ("reference", "3.3"),
        ("reading", "2"),
    ];
    // By hand: r = 2/3.3; -ln(1 - r (1 - exp(-x))) / x at k t = 1.5 and 0.7.
    checked("clip", &grey, "strength", [0.424297, 0.519982]);
    let cold = [
        ("bottle", "grey-1"),
        ("clear_fresh", "50 s"),
        ("clear_now", "75 s"),
        ("temperature", "15 C"),
    ];
    // By hand: 2/3 of the root of the factor for ten degrees, which is from 1.5 to 2.5.
    let of = |factor: f64| 2.0 / 3.0 * factor.sqrt();
    checked("clear", &cold, "speed", [of(1.5), of(2.5)]);
}

/// Both tests put right what a compared thermometer shows, and know how well it is known at each bath.
#[test]
fn a_thermometer_is_put_right() {
    let kelvins = TemperatureDifference::from_kelvins;
    let line = Thermometer {
        at: Temperature::from_celsius(20.0),
        correction: kelvins(1.0),
        slope: 0.1,
        uncertainty: kelvins(0.1),
        slope_uncertainty: 0.02,
        on: darkroom::today(),
    };
    let kit = Kit {
        thermometer: Some(line),
        ..Kit::starter()
    };
    let darkroom = darkroom::with(kit);
    let told = |calculator: &str, figure: &str, fields: &[(&str, &str)]| {
        let named: Named = fields
            .iter()
            .map(|(name, text)| ((*name).to_owned(), (*text).to_owned()))
            .collect();
        let answer = calculate(calculator, &named, &darkroom).expect("a calculator");
        let text = view::text(&answer);
        for says in [
            "20 °C on your thermometer is 21 °C.",
            "10 °C on your thermometer is 10 °C.",
        ] {
            assert!(text.contains(says), "{calculator} does not say “{says}”: {text}");
        }
        let figure = answer.sheet.figure(figure).expect("a strength");
        (
            figure.value / 100.0,
            figure.standard_uncertainty.expect("an uncertainty") / 100.0,
        )
    };
    // By hand: shown 20 and 10 are 21 and 10 °C, known to 0.1 and to the root of 0.1² + (10 x 0.02)²; each time to a twentieth and
    // to half a second over the root of 3.
    let known = [0.1f64, 0.1f64.hypot(0.2)];
    let watch = |time: f64| 0.05f64.hypot(0.5 / 3f64.sqrt() / time);
    let watched = watch(50.0).hypot(watch(100.0));

    let cold = [("temperature", "10 C"), ("warm_fresh", "20 C")];
    let (speed, u) = told(
        "clear",
        "speed",
        &[&cold[..], &[("clear_fresh", "50 s"), ("clear_now", "100 s")]].concat(),
    );
    let wanted = 0.5 * 2f64.powf(1.1);
    let relative = watched.hypot(known[0].hypot(known[1]) * 2f64.ln() / 10.0);
    assert!(close(speed, wanted, 1e-9), "{speed}, not {wanted}");
    assert!(close(u, wanted * relative, 1e-9), "{u}, not {}", wanted * relative);

    let by_watch = [
        ("judged", "time"),
        ("black_fresh", "50 s"),
        ("black_now", "100 s"),
        ("q10", "2.5"),
    ];
    let (strength, u) = told("clip", "strength", &[&cold[..], &by_watch].concat());
    // The factor of ten degrees is that from 20 to 30 °C, by the Arrhenius equation.
    let over_gas = 2.5f64.ln() / (1.0 / 293.15 - 1.0 / 303.15);
    let wanted = 0.5 * (over_gas * (1.0 / 283.15 - 1.0 / 294.15)).exp();
    let warm = (known[0] / 294.15f64.powi(2)).hypot(known[1] / 283.15f64.powi(2));
    let relative = watched.hypot(over_gas * warm);
    assert!(close(strength, wanted, 1e-6), "{strength}, not {wanted}");
    assert!(close(u, wanted * relative, 1e-6), "{u}, not {}", wanted * relative);
}

/// A remark is as short as the form of a test takes it.
#[test]
fn remarks_are_short() {
    for fields in [
        &[("leader", "grey"), ("rest", "veiled")][..],
        &[("judged", "time"), ("black_fresh", "1 s"), ("black_now", "20:00")],
        &[("judged", "time"), ("black_fresh", "2 s"), ("black_now", "20:00")],
        &[("judged", "meter"), ("reference", "16"), ("reading", "0.05")],
    ] {
        let named: Named = fields
            .iter()
            .chain(&[("bottle", "pale-1")])
            .map(|(name, text)| ((*name).to_owned(), (*text).to_owned()))
            .collect();
        let answer = calculate("clip", &named, &shelf::darkroom()).expect("clip");
        if let Some(finding) = answer.sheet.finding {
            assert!(finding.remark.chars().count() <= 60, "{}", finding.remark);
        }
    }
}

/// Seven tenths of the strength is too little for a developer, and plenty for a fixer.
#[test]
fn the_shelf_judges_by_the_test() {
    let state = |class: &str, test: &str| {
        let events = [
            format!(
                r#"{{"day":"2026-02-01","what":"added","bottle":"one","is":{{"product":"One","class":"{class}","container":{{"brimful_ul":1040000,"nominal_ul":1000000,"material":"glass"}},"full_days":365,"half_full_days":365}},"filled_ul":1000000,"opened":{{"on":"2026-02-01"}}}}"#
            ),
            format!(
                r#"{{"day":"2026-02-20","what":"tested","bottle":"one","test":"{test}","result":{{"strength":{{"thousandths":700}}}}}}"#
            ),
        ];
        let darkroom = darkroom::with_events(Kit::starter(), &events);
        let named = Named::from([("bottle".to_owned(), "one".to_owned())]);
        let answer = calculate("keeping", &named, &darkroom).expect("keeping");
        answer.sheet.figure("state").expect("a state").shown.clone()
    };
    assert_eq!(state("powder", "clip"), "failed");
    assert_eq!(state("fixer", "clearing"), "proved");
}
