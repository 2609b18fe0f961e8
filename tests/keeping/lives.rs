//! Stated lives, by hand, by the published ratios, and day by day.

use meniscus::chemistry::Class;
use meniscus::development::{Origin, Parameter};
use meniscus::keeping::{
    Assumptions, Lean, Life, LifeError, Lives, LivesError, Seal, SheetLives, Stretch, Trusted, at, share_used, stated,
    warmth_factor,
};
use meniscus::kit::{Climate, Container, Material, Treatment, Warmth};
use meniscus::quantity::Day;

use super::air::{some_leans, some_lives};
use super::cases;
use super::{bottle, celsius, millilitres, near, steady};

pub fn known(value: f64) -> Parameter {
    Parameter {
        value,
        least: value,
        most: value,
        origin: Origin::Given,
    }
}

pub fn lives(unopened: f64, full: f64, half_full: f64) -> Lives {
    let sheet = SheetLives {
        unopened: Some(unopened),
        full: Some(full),
        half_full: Some(half_full),
    };
    Lives::new(sheet, Class::Other).expect("sound").expect("stated")
}

#[test]
fn published_lives() {
    for case in cases::keeping().life {
        let name = format!("{} ({})", case.name, case.source);
        let lives = lives(999.0, case.full, case.half_full);
        near(&name, lives.half_full.value, case.ratio, 1e-8);
        for [headspace, days] in case.at {
            near(&name, lives.days(headspace, &Lean::USUAL), days, 1e-3);
            // A second time: a straight line on logarithmic paper through the two stated points.
            let slope = (case.half_full.log10() - case.full.log10()) / 0.5;
            near(&name, days.log10(), case.full.log10() + slope * headspace, 1e-5);
        }
    }
}

#[test]
fn shares_by_hand() {
    for case in cases::keeping().share {
        let glass = bottle(Material::Glass, 1000.0);
        let mut from = Day::from_days(100);
        let stretches = case.stretches.iter().map(|&(days, headspace, warm)| {
            let begins = from;
            from = from + days;
            Stretch {
                from: begins,
                to: from,
                content: millilitres(1000.0 * (1.0 - headspace.max(0.0))),
                seal: if headspace < 0.0 { Seal::Unopened } else { Seal::Opened },
                treatment: Treatment::Plain,
                container: &glass,
                climate: steady(warm),
            }
        });
        let life = Life::new(stretches.collect()).expect("they follow on one another");
        let assumptions = Assumptions {
            per_ten: known(case.per_ten),
            ..Assumptions::of_class(Class::Other).with_lives(Some(lives(case.unopened, case.full, case.half_full)))
        };
        let name = format!("{} ({})", case.name, case.source);
        let share = stated(&life, &assumptions).expect("lives are stated");
        near(&name, share.value, case.is, 1e-6);
        assert_eq!(
            (share.least, share.most),
            (share.value, share.value),
            "{name}: nothing is assumed"
        );
    }
}

/// Each day by itself, with the temperature of its noon.
#[test]
fn shares_counted_a_second_time() {
    let (glass, soft) = (bottle(Material::Glass, 1000.0), bottle(Material::Ldpe, 1050.0));
    let climates = [
        steady(23.0),
        Climate::Between(celsius(15.0), celsius(27.0)),
        Climate::Seasonal {
            low: celsius(8.0),
            high: celsius(30.0),
            warmest: 200,
        },
    ];
    let assumptions = Assumptions::of_class(Class::PowderStock);
    let typical = assumptions.lives.expect("a stock has lives");
    for climate in climates {
        for life in some_lives(&glass, &soft) {
            let stretches: Vec<Stretch> = life.stretches().iter().map(|one| Stretch { climate, ..*one }).collect();
            let life = Life::new(stretches).expect("as before");
            for lean in some_leans() {
                let got = share_used(&life, &assumptions, &lean, None).expect("lives are assumed");
                let per_ten = at(&assumptions.per_ten, lean.per_ten);
                let naive: f64 = life
                    .stretches()
                    .iter()
                    .map(|one| naive_share(one, &typical, &lean, per_ten))
                    .sum();
                near("share", got, naive, 2e-4 * naive);
            }
        }
    }
}

fn naive_share(one: &Stretch, typical: &Lives, lean: &Lean, per_ten: f64) -> f64 {
    let headspace = (one.container.brimful - one.content) / one.container.brimful;
    let left = at(&one.treatment.air_left(), lean.treatment);
    let air = match one.treatment {
        Treatment::Beads(Some(beads)) => (headspace - beads / one.container.brimful).max(0.0),
        _ => headspace * left,
    };
    let full = at(&typical.full, lean.full);
    let half = full * at(&typical.half_full, lean.half_full);
    let days = match one.seal {
        Seal::Unopened => at(&typical.unopened, lean.unopened),
        Seal::Opened | Seal::StillClosed => full * (half / full).powf(air / 0.5),
    };
    let faster = |temperature: f64| per_ten.powf((temperature - 20.0) / 10.0);
    (one.from.days()..one.to.days())
        .map(|day| match one.climate {
            Climate::Between(low, high) => {
                let step = (high - low).kelvins() / 1000.0;
                let all = (0..1000).map(|k| faster(low.celsius() + step * (f64::from(k) + 0.5)));
                all.sum::<f64>() / 1000.0 / days
            }
            other => faster(other.on(Day::from_days(day)).celsius()) / days,
        })
        .sum()
}

/// Over whole years the mean of exp(a cos x) is the modified Bessel function I0(a), here by its series (Abramowitz and
/// Stegun 9.6.12).
#[test]
fn a_whole_year_is_a_bessel_function() {
    let climate = Climate::Seasonal {
        low: celsius(4.0),
        high: celsius(28.0),
        warmest: 20,
    };
    let steepness = 12.0 * 2_f64.ln() / 10.0;
    let mut term = 1.0;
    let series: f64 = (1..20)
        .map(|k| {
            let before = term;
            term *= (steepness / 2.0 / f64::from(k)).powi(2);
            before
        })
        .sum();
    let year = Day::from_days(0);
    let wanted = series * 2_f64.powf((16.0 - 20.0) / 10.0);
    near(
        "400 years",
        warmth_factor(climate, 2.0, year, year + 146_097),
        wanted,
        1e-6,
    );
}

#[test]
fn what_the_trade_says_of_a_temperature() {
    let vectors = cases::keeping();
    for (t, wanted) in vectors.warmth {
        let got = format!("{:?}", Warmth::of(celsius(t)));
        assert_eq!(got, wanted, "{t} °C ({})", vectors.warmth_source);
    }
    let (from, to) = (Day::from_days(0), Day::from_days(100));
    assert_eq!(steady(25.0).hot_days(from, to), 0.0);
    assert_eq!(steady(25.1).hot_days(from, to), 100.0);
    near(
        "half of it",
        Climate::Between(celsius(20.0), celsius(30.0)).hot_days(from, to),
        50.0,
        1e-9,
    );
    let attic = Climate::Seasonal {
        low: celsius(15.0),
        high: celsius(30.0),
        warmest: 200,
    };
    // 30 - 15 (1 - cos x)/2 > 25 where cos x > 1/3: 2 acos(1/3) of a circle of 365.2425 days.
    let wanted = 2.0 * (1.0_f64 / 3.0).acos() / std::f64::consts::TAU * 365.2425;
    near("days of a summer", attic.hot_days(from, from + 365), wanted, 1.0);
}

#[test]
fn what_a_sheet_leaves_open_is_assumed() {
    let of = |unopened, full, half_full, class| {
        let sheet = SheetLives {
            unopened,
            full,
            half_full,
        };
        Lives::new(sheet, class)
    };
    let only_half = of(None, None, Some(60.0), Class::PowderStock)
        .expect("sound")
        .expect("stated");
    near("180 by the class's third", only_half.full.value, 180.0, 1e-9);
    assert_eq!((only_half.full.least, only_half.full.most), (120.0, 360.0));
    assert!(only_half.full.is_assumed() && only_half.assumed());
    let only_full = of(None, Some(900.0), None, Class::PowderStock)
        .expect("sound")
        .expect("stated");
    assert_eq!(only_full.unopened.value, 900.0, "unopened no shorter than opened");
    assert_eq!(of(Some(700.0), None, None, Class::Other), Ok(None));
    assert!(of(None, Some(700.0), None, Class::Other).expect("sound").is_some());
    assert!(
        !of(Some(700.0), Some(400.0), Some(400.0), Class::Other)
            .expect("sound")
            .expect("stated")
            .assumed()
    );
    for (fault, wanted) in [
        (of(None, Some(0.0), None, Class::Syrup), LivesError::NoLife),
        (of(None, Some(f64::NAN), None, Class::Syrup), LivesError::NoLife),
        (
            of(None, Some(30.0), Some(40.0), Class::Syrup),
            LivesError::HalfKeepsLonger,
        ),
    ] {
        assert_eq!(fault, Err(wanted));
    }
    assert_eq!(LivesError::NoLife.to_string(), "a life must be longer than nothing");
}

#[test]
fn lives_that_do_not_follow_are_refused() {
    let glass = bottle(Material::Glass, 1000.0);
    let stretch = |from: i32, to: i32, seal| one(&glass, from, to, seal);
    for (stretches, wanted, says) in [
        (vec![], LifeError::Empty, "a life needs at least one stretch"),
        (
            vec![stretch(5, 4, Seal::Opened)],
            LifeError::Backwards(1),
            "stretch 1 ends before it begins",
        ),
        (
            vec![stretch(0, 4, Seal::Opened), stretch(5, 6, Seal::Opened)],
            LifeError::Gap(2),
            "stretch 2 must begin on the day on which the one before it ends",
        ),
        (
            vec![stretch(0, 4, Seal::Opened), stretch(4, 6, Seal::Unopened)],
            LifeError::Resealed(2),
            "stretch 2 cannot be unopened: the bottle was opened before it",
        ),
    ] {
        let fault = Life::new(stretches).expect_err("no life");
        assert_eq!(fault.to_string(), says);
        assert_eq!(fault, wanted);
    }
}

fn one<'a>(container: &'a Container, from: i32, to: i32, seal: Seal) -> Stretch<'a> {
    Stretch {
        from: Day::from_days(from),
        to: Day::from_days(to),
        content: millilitres(900.0),
        seal,
        treatment: Treatment::Plain,
        container,
        climate: steady(20.0),
    }
}

#[test]
fn a_life_used_evenly() {
    let glass = bottle(Material::Glass, 1000.0);
    let life = Life::used_evenly(one(&glass, 0, 100, Seal::Opened), millilitres(500.0), 5).expect("a life");
    let told: Vec<(i32, i32, f64)> = life
        .stretches()
        .iter()
        .map(|one| (one.from.days(), one.to.days(), one.content.millilitres()))
        .collect();
    let wanted = [
        (0, 20, 900.0),
        (20, 40, 800.0),
        (40, 60, 700.0),
        (60, 80, 600.0),
        (80, 100, 500.0),
    ];
    assert_eq!(told, wanted);
    let once = Life::used_evenly(one(&glass, 0, 100, Seal::Opened), millilitres(500.0), 0).expect("a life");
    assert_eq!(once.stretches().len(), 1);
    assert_eq!(once.last().content, millilitres(500.0));
}

#[test]
fn trust_is_stretched_with_caution() {
    let share = |passed: &[f64], failed: &[f64]| Trusted::from_tests(passed, failed).share;
    assert_eq!(
        share(&[0.3, 0.9], &[]),
        1.0,
        "within its stated life nothing is stretched"
    );
    assert_eq!(share(&[3.0], &[]), 2.0, "one pass counts half");
    assert_eq!(share(&[3.0, 2.5, 0.1], &[]), 2.5, "two passes: the second-longest");
    assert_eq!(share(&[3.0, 1.1], &[]), 2.0, "or half of the longest, if that is more");
    assert_eq!(
        share(&[3.0, 2.5], &[2.0]),
        1.5,
        "never beyond three quarters of a failure"
    );
    assert_eq!(share(&[], &[0.8]), 0.8 * 0.75, "which may shorten it");
}
