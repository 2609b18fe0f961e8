//! The forecast against closed forms and against futures told draw by draw.

use meniscus::chemistry::Class;
use meniscus::keeping::{
    Assumptions, Case, CurvePoint, Dates, Lean, Life, Limits, Pace, Seal, Stretch, Tested, Trusted, exposure, forecast,
    share_used,
};
use meniscus::kit::{Climate, Container, Material, Treatment};
use meniscus::quantity::{Day, Volume};
use meniscus::uncertainty::Random;

use super::lives::{known, lives};
use super::{bottle, celsius, millilitres, near, steady};

const TODAY: Day = Day::from_days(20_000);

fn standing<'a>(container: &'a Container, days: i32, content: f64, seal: Seal) -> Stretch<'a> {
    Stretch {
        from: TODAY + -days,
        to: TODAY,
        content: millilitres(content),
        seal,
        treatment: Treatment::Plain,
        container,
        climate: steady(20.0),
    }
}

fn case<'a>(life: &'a Life, assumptions: &'a Assumptions, tests: &'a [Tested], limits: &'a Limits) -> Case<'a> {
    Case {
        life,
        assumptions,
        tests,
        trusted: Trusted::STATED,
        limits,
    }
}

fn days(dates: Dates) -> [f64; 3] {
    [dates.early, dates.middle, dates.late].map(|day| day.map_or(f64::INFINITY, |day| f64::from(day - TODAY)))
}

#[test]
fn an_unopened_bottle_ends_with_its_stated_life() {
    let glass = bottle(Material::Glass, 1000.0);
    let life = Life::new(vec![standing(&glass, 100, 1000.0, Seal::Unopened)]).expect("a life");
    let (assumptions, limits) = (Assumptions::of_class(Class::Syrup), Limits::default());
    let got = forecast(&case(&life, &assumptions, &[], &limits), None, &mut Random::new(1));
    // 730 days, 365 to 1825: positions are triangular, one in twenty below -1 + sqrt(0.1); at 20 °C only the life
    // matters.
    let place = 1.0 - 0.1_f64.sqrt();
    let wanted = [730.0 * 0.5_f64.powf(place), 730.0, 730.0 * 2.5_f64.powf(place)].map(|life| life - 100.0);
    for (got, wanted) in days(got.test_first).into_iter().zip(wanted) {
        near("days", got, wanted, 0.05 * wanted);
    }
    assert_eq!(got.empty, Dates::default());
    assert_eq!(got.asked_before_empty, 1.0);
    assert!(got.left.iter().all(|point| point.low == 1000.0 && point.high == 1000.0));
}

#[test]
fn a_proof_is_counted_to_its_end() {
    let glass = bottle(Material::Glass, 1000.0);
    let life = Life::new(vec![standing(&glass, 500, 1000.0, Seal::Opened)]).expect("a life");
    let limits = Limits::default();
    let tests = [Tested {
        sure: true,
        day: TODAY + -10,
        passed: true,
    }];
    // Over its life: the proof ends after 92 days, or when a quarter of the life has gone by.
    for (full, wanted) in [(400.0, 82.0), (300.0, 65.0)] {
        let assumptions = Assumptions::of_class(Class::Other).with_lives(Some(lives(full, full, full)));
        let case = case(&life, &assumptions, &tests, &limits);
        let got = forecast(&case, None, &mut Random::new(1));
        for got in days(got.test_first) {
            near("days", got, wanted, 0.5);
        }
    }
    // Well within its life: the voices ask only at its end.
    let assumptions = Assumptions::of_class(Class::Other).with_lives(Some(lives(900.0, 900.0, 900.0)));
    let proved = case(&life, &assumptions, &tests, &limits);
    for got in days(forecast(&proved, None, &mut Random::new(1)).test_first) {
        near("days", got, 400.0, 0.5);
    }
    let failed = [Tested {
        sure: true,
        day: TODAY,
        passed: false,
    }];
    let failed = case(&life, &assumptions, &failed, &limits);
    assert_eq!(
        forecast(&failed, None, &mut Random::new(1)).test_first,
        Dates::default()
    );
    let short = Assumptions::of_class(Class::Other).with_lives(Some(lives(90.0, 90.0, 90.0)));
    let asking = case(&life, &short, &[], &limits);
    assert_eq!(days(forecast(&asking, None, &mut Random::new(1)).test_first), [0.0; 3]);
}

/// Everything known but the air: 700 ml of it over 300 ml with 0.1 mol/l of agent could cost a fifth, once before the
/// test, once after.
#[test]
fn a_proof_ends_with_the_air() {
    let glass = bottle(Material::Glass, 1000.0);
    let before = Stretch {
        to: TODAY + -2,
        ..standing(&glass, 600, 300.0, Seal::Opened)
    };
    let life = Life::new(vec![before, standing(&glass, 2, 300.0, Seal::Opened)]).expect("a life");
    let assumptions = Assumptions {
        pressure: known(101_325.0),
        humidity: known(0.0),
        uptake: known(14.0),
        agent: Some(known(0.1)),
        ..Assumptions::of_class(Class::Other).with_lives(Some(lives(9999.0, 9999.0, 9999.0)))
    };
    let tests = [Tested {
        sure: true,
        day: TODAY + -2,
        passed: true,
    }];
    let limits = Limits::default();
    let case = case(&life, &assumptions, &tests, &limits);
    // 8.7075 µmol x 700 / 30 mmol is 0.2032; half of the limit of 0.2 is reached when 1 - exp(-t / 14) = 0.1 / 0.2032.
    let wanted = -14.0 * (1.0 - 0.1_f64 / 0.203_175).ln() - 2.0;
    for got in days(forecast(&case, None, &mut Random::new(1)).test_first) {
        near("days", got, wanted, 0.6);
    }
}

/// A hundred small draws, taken together in sixteen steps, against each by itself.
#[test]
fn many_draws_taken_together() {
    let glass = bottle(Material::Glass, 1000.0);
    let life = Life::new(vec![standing(&glass, 0, 1000.0, Seal::Opened)]).expect("a life");
    let assumptions = Assumptions::of_class(Class::Other).with_lives(Some(lives(400.0, 400.0, 100.0)));
    let limits = Limits::default();
    let draws: Vec<(Day, Volume)> = (1..=400).map(|k| (TODAY + 5 * (k - 400), millilitres(10.0))).collect();
    let pace = Pace::from_draws(&draws, TODAY + -2000, TODAY, millilitres(10.0));
    let case = case(&life, &assumptions, &[], &limits);
    let got = days(forecast(&case, Some(&pace), &mut Random::new(1)).test_first)[1];
    let (mut share, mut wanted) = (0.0, 0.0);
    for draw in 0..100 {
        let more = 5.0 / (400.0 * 0.25_f64.powf(2.0 * f64::from(draw) / 100.0));
        if share + more > 1.0 {
            wanted += 5.0 * (1.0 - share) / more;
            break;
        }
        share += more;
        wanted += 5.0;
    }
    near("days", got, wanted, 0.015 * wanted);
}

#[test]
fn the_heat_asks_on_its_day() {
    let glass = bottle(Material::Glass, 1000.0);
    let hot = Stretch {
        climate: steady(26.0),
        ..standing(&glass, 10, 1000.0, Seal::Opened)
    };
    let life = Life::new(vec![hot]).expect("a life");
    let assumptions = Assumptions::of_class(Class::Other).with_lives(Some(lives(9000.0, 9000.0, 9000.0)));
    let limits = Limits::default();
    let got = forecast(&case(&life, &assumptions, &[], &limits), None, &mut Random::new(1));
    assert_eq!(days(got.test_first), [21.0; 3], "on the 31st hot day");
}

/// Each future as a life told on, draw by draw, judged by the plain functions of the voices.
#[test]
fn futures_told_draw_by_draw() {
    let limits = Limits::default();
    let seasonal = Climate::Seasonal {
        low: celsius(12.0),
        high: celsius(24.0),
        warmest: 200,
    };
    for (class, wall, climate, content, draw) in [
        (Class::PowderStock, Material::Hdpe, steady(20.0), 900.0, 60.0),
        (Class::Syrup, Material::Ldpe, seasonal, 950.0, 25.0),
    ] {
        let container = bottle(wall, 1000.0);
        let opened = Stretch {
            climate,
            ..standing(&container, 20, 1000.0, Seal::Opened)
        };
        let life = Life::used_evenly(opened, millilitres(content), 3).expect("a life");
        let assumptions = Assumptions::of_class(class);
        let case = case(&life, &assumptions, &[], &limits);
        let draws = [4, 12].map(|day| (TODAY + (day - 20), millilitres(draw)));
        let pace = Pace::from_draws(&draws, TODAY + -20, TODAY, millilitres(draw));
        let got = forecast(&case, Some(&pace), &mut Random::new(7));
        let (asked, empty) = naive(&case, content, draw);
        for (what, got, naive) in [
            ("asked", days(got.test_first), asked.clone()),
            ("empty", days(got.empty), empty),
        ] {
            within_quantiles(&format!("{class:?} {what}"), got, &naive, 0.02);
        }
        let before = asked.iter().filter(|days| days.is_finite()).count() as f64 / asked.len() as f64;
        let slack = 4.0 * (before * (1.0 - before) / asked.len() as f64).sqrt() + 0.01;
        near("asked before empty", got.asked_before_empty, before, slack);
        let rises = |points: &[CurvePoint]| {
            points
                .iter()
                .all(|point| point.low <= point.middle && point.middle <= point.high)
        };
        assert!(rises(&got.wear) && rises(&got.left));
        near("liquid today", got.left[0].middle, content, 1e-9);
        assert_eq!(got.draws, 20_000);
    }
}

/// A bottle opened today that then only stands, told on to the day on which a voice asks.
#[test]
fn standing_bottles_told_day_by_day() {
    let limits = Limits::default();
    for (class, wall, content) in [
        (Class::PowderStock, Material::Glass, 300.0),
        (Class::Syrup, Material::Ldpe, 950.0),
        (Class::LiquidConcentrate, Material::Hdpe, 300.0),
    ] {
        let container = bottle(wall, 1000.0);
        let life = Life::new(vec![standing(&container, 0, content, Seal::Opened)]).expect("a life");
        let assumptions = Assumptions::of_class(class);
        let case = case(&life, &assumptions, &[], &limits);
        let got = days(forecast(&case, None, &mut Random::new(2)).test_first);
        let mut random = Random::new(78);
        let mut asked: Vec<f64> = (0..1500)
            .map(|_| {
                let lean = Lean::sample(&mut random);
                let ten_years = Stretch {
                    to: TODAY + 3653,
                    ..*life.last()
                };
                let told = Life::new(vec![ten_years]).expect("it goes on");
                match over(&case, &told, &lean) {
                    true => first_day_over(&case, &told, &lean, 0, 3653),
                    false => f64::INFINITY,
                }
            })
            .collect();
        asked.sort_by(f64::total_cmp);
        within_quantiles(&format!("{class:?}"), got, &asked, 0.03);
    }
}

/// Each quantile lies within four standard errors of its place among so many futures, and a little.
fn within_quantiles(what: &str, got: [f64; 3], naive: &[f64], little: f64) {
    for (got, probability) in got.into_iter().zip([0.05, 0.5, 0.95]) {
        let place = |probability: f64| naive[(probability * (naive.len() - 1) as f64) as usize];
        let slack = 4.0 * (probability * (1.0 - probability) / naive.len() as f64).sqrt() + 0.01;
        let (low, high) = (
            place((probability - slack).max(0.0)),
            place((probability + slack).min(1.0)),
        );
        assert!(
            low * (1.0 - little) - 1.0 <= got && got <= high * (1.0 + little) + 1.0,
            "{what} {probability}: {got} is not from {low} to {high}"
        );
    }
}

/// Days until asked and until empty of many futures, in order.
fn naive(case: &Case, content: f64, draw: f64) -> (Vec<f64>, Vec<f64>) {
    let mut random = Random::new(77);
    let (mut asked, mut empty) = (Vec::new(), Vec::new());
    for _ in 0..1500 {
        let lean = Lean::sample(&mut random);
        let mut wait = |mean: f64| -mean * (1.0 - random.uniform()).ln();
        // Two draws in twenty days: a rate of shape 3 and mean 3/34, here as a sum of three exponentials.
        let rate: f64 = (0..3).map(|_| wait(1.0)).sum::<f64>() / 34.0;
        let mut stretches = case.life.stretches().to_vec();
        let (mut left, mut day, mut asks) = (content, 0.0, f64::INFINITY);
        while left > 0.0 {
            let next = day + wait(1.0 / rate);
            let last = stretches.len() - 1;
            stretches[last].to = TODAY + f64::round(next).min(1e6) as i32;
            let life = Life::new(stretches.clone()).expect("it goes on");
            if asks.is_infinite() && over(case, &life, &lean) {
                asks = first_day_over(case, &life, &lean, day.round() as i32, next.round() as i32);
            }
            left -= draw;
            day = next;
            let ends = stretches[last].to;
            stretches.push(Stretch {
                from: ends,
                to: ends,
                content: Volume::from_millilitres(left.max(0.0)),
                seal: Seal::Opened,
                ..stretches[last]
            });
        }
        asked.push(if asks < day { asks } else { f64::INFINITY });
        empty.push(if day <= 3653.0 { day } else { f64::INFINITY });
    }
    asked.sort_by(f64::total_cmp);
    empty.sort_by(f64::total_cmp);
    (asked, empty)
}

fn over(case: &Case, life: &Life, lean: &Lean) -> bool {
    let air = exposure(life, case.assumptions, lean, None);
    let limits = case.limits;
    share_used(life, case.assumptions, lean, None).expect("lives are assumed") >= 1.0
        || air.agent.expect("a developer") >= limits.agent.value
        || air.sulfite.expect("a developer") >= limits.sulfite.value
}

fn first_day_over(case: &Case, life: &Life, lean: &Lean, from: i32, to: i32) -> f64 {
    let (mut low, mut high) = (from, to);
    while low < high {
        let middle = (low + high).div_euclid(2);
        match over(case, &life.until(TODAY + middle), lean) {
            true => high = middle,
            false => low = middle + 1,
        }
    }
    f64::from(low)
}

/// Draws that nobody has made yet leave everything open; many make it narrow.
#[test]
fn few_draws_are_wide() {
    let glass = bottle(Material::Glass, 1000.0);
    let life = Life::new(vec![standing(&glass, 0, 1000.0, Seal::Opened)]).expect("a life");
    let (assumptions, limits) = (Assumptions::of_class(Class::Syrup), Limits::default());
    let case = case(&life, &assumptions, &[], &limits);
    let width = |count: i32| {
        let draws: Vec<(Day, Volume)> = (1..=count)
            .map(|k| (TODAY + 14 * (k - count), millilitres(50.0)))
            .collect();
        let pace = Pace::from_draws(&draws, TODAY + -14 * count, TODAY, millilitres(50.0));
        assert_eq!(pace.draws(), count as usize);
        near("every fortnight", pace.interval(), 14.0, 1e-9);
        let [early, middle, late] = days(forecast(&case, Some(&pace), &mut Random::new(3)).empty);
        if count == 30 {
            near("twenty draws of a fortnight", middle, 280.0, 15.0);
        }
        late / early
    };
    let widths = [0, 3, 30].map(width);
    assert!(widths[0] > 2.0 * widths[1] && widths[1] > 1.5 * widths[2], "{widths:?}");
    assert!(widths[2] < 1.7, "{widths:?}");
    let volumes = |volumes: [f64; 3]| {
        let draws = [0, 1, 2].map(|k: usize| (TODAY + -14 * k as i32, millilitres(volumes[k])));
        let pace = Pace::from_draws(&draws, TODAY + -42, TODAY, millilitres(50.0));
        let [early, _, late] = days(forecast(&case, Some(&pace), &mut Random::new(3)).empty);
        late / early
    };
    let (alike, unlike) = (volumes([50.0, 50.0, 50.0]), volumes([10.0, 110.0, 30.0]));
    assert!(
        unlike > 1.3 * alike,
        "draws unlike one another leave more open: {alike} {unlike}"
    );
}

#[test]
fn the_same_seed_tells_the_same() {
    let soft = bottle(Material::Ldpe, 500.0);
    let life = Life::new(vec![standing(&soft, 30, 400.0, Seal::Opened)]).expect("a life");
    let (assumptions, limits) = (Assumptions::of_class(Class::LiquidConcentrate), Limits::default());
    let case = case(&life, &assumptions, &[], &limits);
    let pace = Pace::from_draws(&[], TODAY, TODAY, millilitres(20.0));
    let tell = |seed| forecast(&case, Some(&pace), &mut Random::new(seed));
    assert_eq!(tell(4), tell(4));
    assert_ne!(tell(4), tell(5));
}
