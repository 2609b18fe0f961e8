//! Films into fills: against every possible division of a few films, and what holds of any division of many.

use meniscus::kit::{Alike, Batch, Film, Hands, Limits, Plan, Tank, Turning, in_turn, plan, thriftiest};
use meniscus::quantity::{Span, Volume};
use proptest::collection::vec;
use proptest::prelude::*;

use super::tries;

/// Film units of each format by the rule of 80 square inches (common practice, no source), typed once more.
const UNITS: [f64; 5] = [1.0, 1.0, 2.0, 0.25, 1.0];

/// A tank in whole millilitres: brim, a 135 reel, a 120 reel, sheets of either kind; 0 for what it does not take.
type Vessel = [u32; 5];

/// What binds, in whole millilitres and seconds.
#[derive(Clone, Debug)]
struct Case {
    tanks: Vec<Vessel>,
    /// Format and minutes of each film; 0 for no time.
    films: Vec<(usize, u32)>,
    per_unit: u32,
    step: u32,
    within: u32,
    sheets: [u32; 2],
}

fn tanks(case: &Case) -> Vec<Tank> {
    let tank = |[brim, per_135, per_120, sheets_4x5, sheets_8x10]: Vessel| {
        let volume = |millilitres: u32| Volume::from_millilitres(f64::from(millilitres));
        Tank {
            name: "tank".to_owned(),
            turning: Turning::Inversion,
            brim: volume(brim),
            per_135: volume(per_135),
            per_120: volume(per_120),
            sheets_4x5: volume(sheets_4x5),
            sheets_8x10: volume(sheets_8x10),
        }
    };
    case.tanks.iter().copied().map(tank).collect()
}

fn limits<'a>(case: &Case, tanks: &'a [Tank]) -> Limits<'a> {
    Limits {
        tanks: tanks.iter().collect(),
        per_unit: Volume::from_millilitres(f64::from(case.per_unit)),
        step: Volume::from_millilitres(f64::from(case.step)),
        within: Span::from_minutes(f64::from(case.within)),
        most_4x5: case.sheets[0],
        most_8x10: case.sheets[1],
    }
}

fn alike(film: usize, minutes: u32, count: u32) -> Alike {
    Alike {
        film: Film::ALL[film],
        count,
        time: (minutes > 0).then(|| Span::from_minutes(f64::from(minutes))),
    }
}

fn singly(case: &Case) -> Vec<Alike> {
    case.films
        .iter()
        .map(|&(film, minutes)| alike(film, minutes, 1))
        .collect()
}

/// The least bath for these films in one fill, in microlitres, by the definition; `None` if they cannot be together.
fn bath(case: &Case, films: &[(usize, u32)]) -> Option<u64> {
    let times = || films.iter().map(|&(_, minutes)| minutes);
    let (shortest, longest) = (times().min()?, times().max()?);
    if longest - shortest > case.within || shortest == 0 && longest > 0 {
        return None;
    }
    let count = |format: usize| films.iter().filter(|(film, _)| *film == format).count() as u32;
    if count(3) > case.sheets[0] || count(4) > case.sheets[1] {
        return None;
    }
    let units: f64 = films.iter().map(|&(film, _)| UNITS[film]).sum();
    let in_tank = |&[brim, per_135, per_120, sheets_4x5, sheets_8x10]: &Vessel| {
        let once = |format: usize| u32::from(count(format) > 0);
        let parts = [
            (count(0), per_135, count(0)),
            (count(1) + count(2), per_120, count(1) + count(2)),
            (count(3), sheets_4x5, once(3)),
            (count(4), sheets_8x10, once(4)),
        ];
        if parts.iter().any(|&(there, one, _)| there > 0 && one == 0) {
            return None;
        }
        let cover: u32 = parts.iter().map(|&(_, one, times)| one * times).sum();
        let least = f64::from(cover).max(units * f64::from(case.per_unit));
        let whole = (least / f64::from(case.step.max(1))).ceil() * f64::from(case.step.max(1));
        let total = match case.step {
            0 => least,
            _ => whole.min(f64::from(brim)),
        };
        (least <= f64::from(brim)).then_some((total * 1000.0).round() as u64)
    };
    case.tanks.iter().filter_map(in_tank).min()
}

/// Fewest fills and the least bath of as few, and the least bath of any division, by trying every division.
fn every_division(case: &Case, films: &[(usize, u32)]) -> ((usize, u64), u64) {
    fn divide(
        case: &Case,
        films: &[(usize, u32)],
        groups: &mut Vec<Vec<(usize, u32)>>,
        best: &mut (usize, u64),
        least: &mut u64,
    ) {
        let Some((&film, rest)) = films.split_first() else {
            let baths: Option<Vec<u64>> = groups.iter().map(|group| bath(case, group)).collect();
            if let Some(baths) = baths {
                let all = baths.iter().sum();
                *best = (*best).min((groups.len(), all));
                *least = (*least).min(all);
            }
            return;
        };
        for at in 0..groups.len() {
            groups[at].push(film);
            if bath(case, &groups[at]).is_some() {
                divide(case, rest, groups, best, least);
            }
            groups[at].pop();
        }
        groups.push(vec![film]);
        divide(case, rest, groups, best, least);
        groups.pop();
    }
    let (mut best, mut least) = ((usize::MAX, u64::MAX), u64::MAX);
    divide(case, films, &mut Vec::new(), &mut best, &mut least);
    (best, least)
}

fn all_baths(plan: &Plan) -> u64 {
    plan.fills.iter().map(|fill| fill.total.microlitres() as u64).sum()
}

/// Every film is in one fill or left out, and no fill breaks a limit.
fn keeps_to_its_limits(case: &Case, films: &[Alike], plan: &Plan) -> Result<(), TestCaseError> {
    let vessels = &case.tanks;
    let mut dealt = vec![0; films.len()];
    for fill in &plan.fills {
        let mut inside = Vec::new();
        for &(at, count) in &fill.films {
            dealt[at] += count;
            let minutes = films[at].time.map_or(0, |time| time.minutes().round() as u32);
            inside.extend(std::iter::repeat_n((films[at].film as usize, minutes), count as usize));
        }
        let in_its_own = Case {
            tanks: vec![vessels[fill.tank]],
            ..case.clone()
        };
        prop_assert_eq!(
            bath(&in_its_own, &inside),
            Some(fill.total.microlitres() as u64),
            "{:?}",
            fill
        );
        prop_assert!(fill.cover <= fill.total);
    }
    for &(at, _) in &plan.left_out {
        dealt[at] += films[at].count;
        let alone = films[at].time.map_or(0, |time| time.minutes().round() as u32);
        prop_assert_eq!(bath(case, &[(films[at].film as usize, alone)]), None);
    }
    let counts: Vec<u32> = films.iter().map(|alike| alike.count).collect();
    prop_assert_eq!(dealt, counts);
    prop_assert!(plan.at_least <= plan.fills.len());
    Ok(())
}

fn vessel() -> impl Strategy<Value = Vessel> {
    let or_none = |range: std::ops::Range<u32>| prop_oneof![3 => range, 1 => Just(0)];
    (
        300..1600_u32,
        or_none(150..400),
        or_none(250..600),
        or_none(200..900),
        or_none(200..900),
    )
        .prop_map(|(brim, per_135, per_120, sheets_4x5, sheets_8x10)| {
            let up_to = |volume: u32| if volume > brim { 0 } else { volume };
            [
                brim,
                up_to(per_135),
                up_to(per_120),
                up_to(sheets_4x5),
                up_to(sheets_8x10),
            ]
        })
}

fn case(most: usize) -> impl Strategy<Value = Case> {
    (
        vec(vessel(), 1..4),
        vec((0..5_usize, prop_oneof![1 => Just(0_u32), 6 => 6..11_u32]), 0..=most),
        prop_oneof![Just(0_u32), 100..500_u32],
        prop_oneof![Just(0_u32), 1..120_u32],
        0..3_u32,
        [1..5_u32, 1..3_u32],
    )
        .prop_map(|(tanks, films, per_unit, step, within, sheets)| Case {
            tanks,
            films,
            per_unit,
            step,
            within,
            sheets,
        })
}

proptest! {
    #![proptest_config(tries(1500))]

    /// Against every division of up to eight films.
    #[test]
    fn no_division_has_fewer_fills_or_takes_less(case in case(8)) {
        let tanks = tanks(&case);
        let limits = limits(&case, &tanks);
        let films = singly(&case);
        let found = plan(&films, &limits);
        keeps_to_its_limits(&case, &films, &found)?;
        let goes: Vec<(usize, u32)> = case.films.iter().copied().filter(|&film| bath(&case, &[film]).is_some()).collect();
        let (best, least) = every_division(&case, &goes);
        prop_assert_eq!((found.fills.len(), all_baths(&found)), best);
        prop_assert!(found.is_least_bath && found.at_least == found.fills.len());
        let thrifty = thriftiest(&films, &limits).expect("few films");
        keeps_to_its_limits(&case, &films, &thrifty)?;
        prop_assert_eq!(all_baths(&thrifty), least);
    }
}

proptest! {
    #![proptest_config(tries(300))]

    /// For a home's day the answer is proved, in whatever order the films are told and however they are put together in lines.
    #[test]
    fn the_order_of_lines_does_not_matter(case in case(16), seed in any::<u64>()) {
        let tanks = tanks(&case);
        let limits = limits(&case, &tanks);
        let found = plan(&singly(&case), &limits);
        prop_assert!(found.is_least_bath && found.at_least == found.fills.len());
        let mut shuffled = case.clone();
        let mut state = seed;
        for at in (1..shuffled.films.len()).rev() {
            state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
            shuffled.films.swap(at, (state >> 33) as usize % (at + 1));
        }
        let mut lines: Vec<Alike> = Vec::new();
        for one in singly(&shuffled) {
            match lines.iter_mut().find(|line| line.film == one.film && line.time == one.time) {
                Some(line) => line.count += 1,
                None => lines.push(one),
            }
        }
        let again = plan(&lines, &limits);
        keeps_to_its_limits(&case, &lines, &again)?;
        let told = |plan: &Plan| -> Vec<_> {
            plan.fills.iter().map(|fill: &Batch| (fill.tank, fill.load, fill.total, fill.times)).collect()
        };
        prop_assert_eq!(told(&again), told(&found));
    }

    /// Nor does one film more ever save a fill.
    #[test]
    fn a_film_more_saves_no_fill(case in case(14), film in 0..5_usize, minutes in 6..11_u32) {
        let tanks = tanks(&case);
        let limits = limits(&case, &tanks);
        let before = plan(&singly(&case), &limits);
        let mut more = singly(&case);
        more.push(alike(film, minutes, 1));
        prop_assert!(plan(&more, &limits).fills.len() >= before.fills.len());
    }

    /// Many films in few lines: still within every limit, no better than the bound, and hardly worse.
    #[test]
    fn many_films_keep_to_their_limits(case in case(12), counts in vec(1..200_u32, 12)) {
        let tanks = tanks(&case);
        let limits = limits(&case, &tanks);
        let mut films = singly(&case);
        films.iter_mut().zip(counts).for_each(|(alike, count)| alike.count = count);
        let found = plan(&films, &limits);
        keeps_to_its_limits(&case, &films, &found)?;
        // Where times are not mixed, the relaxation rounded up is missed by a fill for each time at the most, and mostly reached.
        if case.within == 0 {
            prop_assert!(found.fills.len() <= found.at_least + 6, "{} of {}", found.fills.len(), found.at_least);
        }
    }

    /// A day is as long as its parts; with a tank for every fill, nobody waits.
    #[test]
    fn a_day_is_the_sum_of_its_parts(case in case(10), minutes in [0..20_u32, 0..60, 0..90]) {
        let tanks = tanks(&case);
        let fills = plan(&singly(&case), &limits(&case, &tanks)).fills;
        let [loading, steps, drying] = minutes.map(|minutes| Span::from_minutes(f64::from(minutes)));
        let hands = Hands { loading, steps, drying };
        let day = in_turn(&fills, &hands);
        let mut order = day.order.clone();
        order.sort_unstable();
        prop_assert_eq!(order, (0..fills.len()).collect::<Vec<_>>());
        let worked: Span = fills.iter().map(|fill| {
            let developed = fill.time().unwrap_or_default();
            loading * f64::from(fill.load.pieces()) + developed + steps
        }).sum();
        prop_assert!((day.takes - day.waits - worked).seconds().abs() < 1e-6);
        prop_assert_eq!(day.with(&fills, &hands), day.clone());
        let mut apart = fills.clone();
        apart.iter_mut().enumerate().for_each(|(at, fill)| fill.tank = at);
        prop_assert_eq!(in_turn(&apart, &hands).waits, Span::ZERO);
        // Nobody waits longer than for every fill but the first.
        prop_assert!(day.waits.seconds() <= drying.seconds() * fills.len().saturating_sub(1) as f64 + 1e-6);
    }
}
