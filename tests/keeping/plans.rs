//! Decanting against every plan there is, buying and ordering against hand and naive figures, and the comparisons.

use meniscus::chemistry::Class;
use meniscus::keeping::comparison::{half_empty_litre, same_bottle};
use meniscus::keeping::{
    Advice, Air, Assumptions, HARDLY, Job, Lean, Life, MARGIN, ONE_ATMOSPHERE, Pace, Plan, Seal, Shopping, Size,
    Stretch, WhileUsed, at, buy, decant, dissolved, even_times, exposure, oxygen_within, reorder_point,
};
use meniscus::kit::{Container, Material, Treatment};
use meniscus::quantity::{Day, Volume};
use meniscus::uncertainty::Random;

use super::cases;
use super::lives::{known, lives};
use super::{bottle, celsius, material, millilitres, near, steady};

fn job<'a>(content: f64, from: &'a Container, at_hand: &'a [Container], assumptions: &'a Assumptions) -> Job<'a> {
    Job {
        content: millilitres(content),
        container: from,
        treatment: Treatment::Plain,
        at_hand,
        draw: millilitres(20.0),
        interval: 7.0,
        climate: steady(20.0),
        assumptions,
    }
}

fn places(plan: &Plan) -> Vec<i32> {
    let place = |container: Option<usize>| container.map_or(-1, |place| place as i32);
    plan.fills.iter().map(|fill| place(fill.container)).collect()
}

#[test]
fn decanting_by_hand() {
    let assumptions = Assumptions::of_class(Class::Syrup);
    for case in cases::decant() {
        let from = bottle(Material::Glass, case.brimful);
        let at_hand: Vec<Container> = case
            .at_hand
            .iter()
            .map(|(size, word)| bottle(material(word), *size))
            .collect();
        let job = Job {
            draw: millilitres(case.draw),
            interval: case.interval,
            ..job(case.content, &from, &at_hand, &assumptions)
        };
        let advice = decant(&job);
        assert_eq!(
            places(&advice.advised),
            case.advised,
            "{} ({}): {advice:?}",
            case.name,
            case.source
        );
    }
}

/// What a plan meets, by small steps of use; fills in order, each with its container and volume.
fn naive_oxygen(job: &Job, fills: &[(i32, f64)]) -> f64 {
    let assumptions = job.assumptions;
    let usual = |parameter| at(parameter, 0.0);
    let air = Air {
        temperature: celsius(20.0),
        pressure: usual(&assumptions.pressure),
        humidity: usual(&assumptions.humidity),
    };
    let fresh = air.oxygen(millilitres(1.0)).millimoles();
    let poured = dissolved(celsius(20.0), ONE_ATMOSPHERE)
        .expect("in range")
        .grams_per_millilitre()
        / 0.031_998_8;
    let (uptake, interval) = (usual(&assumptions.uptake), job.interval);
    let (mut begins, mut met) = (0.0, 0.0);
    for &(place, volume) in fills {
        let container = if place < 0 {
            job.container
        } else {
            &job.at_hand[place as usize]
        };
        let size = container.brimful.millilitres();
        let wall = assumptions.wall(container, &Lean::USUAL).millimoles();
        if place >= 0 {
            met += poured * volume;
        }
        if volume < size && begins > 0.0 {
            met += (size - volume) * fresh;
        }
        met += wall * begins;
        // The mean of x with openings at a rate 1/interval that set it to `fresh`: gains and losses balance.
        let through = wall / size;
        let mean = (fresh / interval + through) / (1.0 / interval + 1.0 / uptake + through / fresh);
        let days = volume / job.draw.millilitres() * interval;
        let steps = 400;
        for step in 0..steps {
            let gas = size - volume + volume * (f64::from(step) + 0.5) / f64::from(steps);
            met += days / f64::from(steps) * (gas * mean / uptake + wall * (1.0 - gas / size));
        }
        begins += days;
    }
    met
}

/// Every order of every choice of containers, and every way to let one of them be only part full.
fn every_plan(job: &Job) -> Vec<Vec<(i32, f64)>> {
    let mut orders: Vec<Vec<i32>> = vec![vec![]];
    let mut all = Vec::new();
    while let Some(order) = orders.pop() {
        for place in -1..job.at_hand.len() as i32 {
            if !order.contains(&place) {
                orders.push([order.clone(), vec![place]].concat());
            }
        }
        all.push(order);
    }
    let size = |place: i32| match place {
        -1 => job.container.brimful.millilitres(),
        place => job.at_hand[place as usize].brimful.millilitres(),
    };
    let content = job.content.millilitres();
    let mut plans = Vec::new();
    for order in all.into_iter().filter(|order| !order.is_empty()) {
        let full: f64 = order.iter().map(|place| size(*place)).sum();
        if full == content {
            plans.push(order.iter().map(|place| (*place, size(*place))).collect());
        }
        for part in 0..order.len() {
            let rest = content - (full - size(order[part]));
            let source = order.iter().position(|place| *place == -1);
            if rest > 0.0 && rest < size(order[part]) && source.is_none_or(|source| source == part) {
                let volume = |(index, place): (usize, &i32)| (*place, if index == part { rest } else { size(*place) });
                plans.push(order.iter().enumerate().map(volume).collect());
            }
        }
    }
    plans
}

#[test]
fn no_plan_is_better() {
    let mut random = Random::new(5);
    let mut pick = |least: f64, most: f64| (least + (most - least) * random.uniform()).round();
    let materials = [Material::Glass, Material::Pet, Material::Hdpe, Material::Ldpe];
    for round in 0..40 {
        let class = if round % 2 == 0 {
            Class::PowderStock
        } else {
            Class::Syrup
        };
        let assumptions = Assumptions::of_class(class);
        let from = bottle(materials[pick(0.0, 3.0) as usize], 1000.0);
        let count = 1 + round % 5;
        let at_hand: Vec<Container> = (0..count)
            .map(|_| bottle(materials[pick(0.0, 3.0) as usize], 50.0 * pick(1.0, 12.0)))
            .collect();
        let job = Job {
            draw: millilitres(pick(5.0, 200.0)),
            interval: pick(1.0, 40.0),
            ..job(50.0 * pick(2.0, 19.0), &from, &at_hand, &assumptions)
        };
        let advice = decant(&job);
        let plans = every_plan(&job);
        let poured = |plan: &[(i32, f64)]| plan.iter().filter(|(place, _)| *place >= 0).count();
        let costs: Vec<(usize, f64)> = plans
            .iter()
            .map(|plan| (poured(plan), naive_oxygen(&job, plan)))
            .collect();
        let best = costs.iter().map(|cost| cost.1).fold(f64::INFINITY, f64::min);
        let Advice {
            leave,
            least,
            advised,
            exhaustive,
        } = &advice;
        assert!(exhaustive);
        near("the least of all", least.oxygen.millimoles(), best, 1e-5 * best);
        let leaving = naive_oxygen(&job, &[(-1, job.content.millilitres())]);
        near("leaving it", leave.oxygen.millimoles(), leaving, 1e-5 * leaving);
        let agent = at(&assumptions.agent.expect("a developer"), 0.0);
        let allowed = (best + f64::max(MARGIN * leaving, HARDLY * agent * job.content.millilitres())) * (1.0 + 1e-5);
        let good = costs.iter().filter(|cost| cost.1 <= allowed);
        let fewest = good.map(|cost| cost.0).min().expect("one of them is the best");
        assert_eq!(advised.poured(), fewest, "round {round}: {advice:?}");
        let of_these = costs.iter().filter(|cost| cost.0 == fewest).map(|cost| cost.1);
        let wanted = of_these.fold(f64::INFINITY, f64::min);
        near(
            "the best with so few",
            advised.oxygen.millimoles(),
            wanted,
            1e-5 * wanted,
        );
    }
}

/// Twelve unlike containers of glass: with no walls the order is open but for the one part full, so all sets can be
/// tried.
#[test]
fn no_set_of_twelve_is_better() {
    let sizes = [
        30.0, 60.0, 75.0, 100.0, 125.0, 150.0, 200.0, 240.0, 250.0, 300.0, 330.0, 500.0,
    ];
    let at_hand: Vec<Container> = sizes.iter().map(|size| bottle(Material::Glass, *size)).collect();
    let from = bottle(Material::Glass, 1000.0);
    let assumptions = Assumptions::of_class(Class::Syrup);
    for content in [480.0, 777.0, 915.0] {
        let job = job(content, &from, &at_hand, &assumptions);
        let mut best = naive_oxygen(&job, &[(-1, content)]);
        for set in 1..1_u32 << 12 {
            let chosen: Vec<i32> = (0..12).filter(|place| set >> place & 1 == 1).collect();
            let full: f64 = chosen.iter().map(|place| sizes[*place as usize]).sum();
            let mut parts: Vec<(i32, f64)> = chosen.iter().map(|place| (*place, sizes[*place as usize])).collect();
            parts.push((-1, 1000.0));
            for (part, size) in parts {
                let others: Vec<(i32, f64)> = chosen
                    .iter()
                    .filter(|place| **place != part)
                    .map(|place| (*place, sizes[*place as usize]))
                    .collect();
                let rest = content - if part < 0 { full } else { full - size };
                if rest > 0.0 && rest <= size {
                    best = best.min(naive_oxygen(&job, &[vec![(part, rest)], others].concat()));
                }
            }
        }
        let advice = decant(&job);
        assert!(advice.exhaustive);
        near(
            "the least of all sets",
            advice.least.oxygen.millimoles(),
            best,
            1e-5 * best,
        );
    }
}

#[test]
fn a_plan_is_a_curve_that_ends_where_it_says() {
    let at_hand = [bottle(Material::Glass, 250.0), bottle(Material::Ldpe, 200.0)];
    let from = bottle(Material::Pet, 1000.0);
    let assumptions = Assumptions::of_class(Class::Syrup);
    let job = job(600.0, &from, &at_hand, &assumptions);
    let advice = decant(&job);
    for plan in [&advice.leave, &advice.least] {
        let days: Vec<f64> = even_times(job.days()).collect();
        near("its last day", days[days.len() - 1], 210.0, 1e-9);
        let curve = oxygen_within(&job, plan, &days);
        let end = curve[curve.len() - 1].value.millimoles();
        near("its end", end, plan.oxygen.millimoles(), 1e-9);
        assert!(
            curve.windows(2).all(|pair| pair[0].value <= pair[1].value),
            "it only rises"
        );
        assert!(curve.iter().all(|met| met.least <= met.value && met.value <= met.most));
    }
    let squeezed = decant(&Job {
        treatment: Treatment::Squeezed,
        ..job
    });
    assert!(
        squeezed.leave.oxygen < advice.leave.oxygen / 2.0,
        "a bottle that is squeezed meets far less"
    );
    let glass = bottle(Material::Glass, 1000.0);
    let leaving = |treatment| {
        let job = Job {
            container: &glass,
            treatment,
            ..job
        };
        decant(&job).leave.oxygen.millimoles()
    };
    let left = Treatment::InertGas.air_left().value;
    near(
        "inert gas",
        leaving(Treatment::InertGas),
        left * leaving(Treatment::Plain),
        1e-9,
    );
}

/// Openings at random, one after another, in a bottle whose content stays the same.
#[test]
fn openings_at_random_meet_what_the_plan_says() {
    let mut random = Random::new(9);
    for wall in [Material::Glass, Material::Hdpe] {
        let from = bottle(wall, 1000.0);
        let assumptions = Assumptions {
            uptake: meniscus::development::Parameter {
                value: 140.0,
                least: 140.0,
                most: 140.0,
                origin: meniscus::development::Origin::Given,
            },
            ..Assumptions::of_class(Class::Syrup)
        };
        let mut day = Day::from_days(0);
        let stretches = (0..4000).map(|_| {
            let begins = day;
            day = day + (-200.0 * (1.0 - random.uniform()).ln()).round() as i32;
            Stretch {
                from: begins,
                to: day,
                content: millilitres(200.0),
                seal: Seal::Opened,
                treatment: Treatment::Plain,
                container: &from,
                climate: steady(20.0),
            }
        });
        let life = Life::new(stretches.collect()).expect("they follow on one another");
        let met = exposure(&life, &assumptions, &Lean::USUAL, None).oxygen().millimoles();
        let a_day = met / f64::from(day - Day::from_days(0));
        // Drawn down from 400 ml the mean content is 200.
        let job = Job {
            interval: 200.0,
            ..job(400.0, &from, &[], &assumptions)
        };
        let planned = decant(&job).leave.oxygen.millimoles() / (400.0 / 20.0 * 200.0);
        near("mmol a day", a_day, planned, 0.03 * planned);
    }
}

/// A pace known so well that little is left to chance.
fn habit(draw: f64, interval: f64) -> Pace {
    let draws: Vec<(Day, Volume)> = (1..=400)
        .map(|count| (Day::from_days((f64::from(count) * interval) as i32), millilitres(draw)))
        .collect();
    Pace::from_draws(&draws, Day::from_days(0), draws[399].0, millilitres(draw))
}

#[test]
fn buying_by_hand() {
    for case in cases::buy() {
        let name = format!("{} ({})", case.name, case.source);
        let assumptions =
            Assumptions::of_class(Class::Other).with_lives(Some(lives(9999.0, case.full, case.half_full)));
        let pace = habit(case.draw, case.interval);
        let shopping = Shopping {
            per_film: millilitres(case.per_film),
            pace: &pace,
            assumptions: &assumptions,
            trusted: 1.0,
            climate: steady(20.0),
            kept: WhileUsed::InItsBottle,
            today: Day::from_days(0),
        };
        let size = Size {
            volume: millilitres(case.size),
            price: case.price,
        };
        let got = buy(&[size], &shopping, &mut Random::new(1))[0];
        near(
            &name,
            got.per_film.value,
            case.per_film_costs,
            case.tolerance * case.per_film_costs,
        );
        near(&name, got.outlives, case.outlives, case.tolerance);
        // A second time by hours of use.
        let (mut used, mut worn, a_day) = (0.0, 0.0, case.draw / case.interval);
        while used < case.size && worn < 1.0 {
            let life = case.full * (case.half_full / case.full).powf(2.0 * used / case.size);
            worn += 1.0 / 24.0 / life;
            used += a_day / 24.0;
        }
        let naive = case.price * case.per_film / f64::min(used, case.size);
        near(&name, got.per_film.value, naive, case.tolerance * naive);
        let full = buy(
            &[size],
            &Shopping {
                kept: WhileUsed::Brimful,
                ..shopping
            },
            &mut Random::new(1),
        )[0];
        let warm = Assumptions {
            per_ten: known(2.0),
            ..Assumptions::of_class(Class::Other).with_lives(Some(lives(9999.0, 2.0 * case.full, 2.0 * case.half_full)))
        };
        let warm = Shopping {
            assumptions: &warm,
            climate: steady(30.0),
            ..shopping
        };
        let warm = buy(&[size], &warm, &mut Random::new(1))[0];
        near(
            "twice the life, ten degrees warmer",
            warm.per_film.value,
            got.per_film.value,
            1e-9,
        );
        assert!(
            full.per_film.value <= got.per_film.value * 1.001,
            "{name}: decanted it costs no more"
        );
    }
}

#[test]
fn the_larger_bottle_is_dearer_for_who_uses_little() {
    let assumptions = Assumptions::of_class(Class::LiquidConcentrate);
    let sizes = [(100.0, 8.0), (1000.0, 40.0)].map(|(volume, price)| Size {
        volume: millilitres(volume),
        price,
    });
    let cheapest = |interval| {
        let pace = habit(20.0, interval);
        let shopping = Shopping {
            per_film: millilitres(6.0),
            pace: &pace,
            assumptions: &assumptions,
            trusted: 1.0,
            climate: steady(18.0),
            kept: WhileUsed::InItsBottle,
            today: Day::from_days(0),
        };
        let all = buy(&sizes, &shopping, &mut Random::new(2));
        for one in &all {
            let used = one.size.volume.millilitres() * (1.0 - one.outlives);
            near(
                "price over what is used",
                one.per_film.value,
                one.size.price * 6.0 / used,
                1e-9,
            );
            assert!(one.per_film.least <= one.per_film.value && one.per_film.value <= one.per_film.most);
        }
        all[0].size.volume.millilitres()
    };
    assert_eq!(cheapest(30.0), 100.0);
    assert_eq!(cheapest(2.0), 1000.0);
}

/// Draws at random at a rate that is gamma distributed: their number is negative binomial.
#[test]
fn when_to_order() {
    let draws = [3, 9].map(|day| (Day::from_days(day), millilitres(20.0)));
    let pace = Pace::from_draws(&draws, Day::from_days(0), Day::from_days(20), millilitres(20.0));
    near("mean interval: (14 + 20)/(1 + 2)", pace.interval(), 34.0 / 3.0, 1e-9);
    assert_eq!(
        reorder_point(&pace, 0.0, &mut Random::new(3)),
        millilitres(20.0),
        "one draw at the least"
    );
    for lead in [5.0, 14.0, 40.0] {
        let p = 34.0 / (34.0 + lead);
        let mut probability = f64::powi(p, 3);
        let (mut below, mut count) = (probability, 0.0);
        while below < 0.95 {
            count += 1.0;
            probability *= (count + 2.0) / count * (1.0 - p);
            below += probability;
        }
        let got = reorder_point(&pace, lead, &mut Random::new(3)) / millilitres(20.0);
        // Two equal draws: the assumed scatter of single draws is gone.
        near(&format!("draws in {lead} days"), got, f64::max(count, 1.0), 0.6);
    }
}

#[test]
fn what_class_and_wall_make_of_the_same_bottle() {
    let [syrup, stock, working] = half_empty_litre(60, 14);
    let agent = |one: meniscus::keeping::comparison::ByClass| one.air.value.agent.expect("a developer");
    assert!(agent(syrup) < agent(stock) && agent(stock) < agent(working));
    let share = |one: meniscus::keeping::comparison::ByClass| one.share.expect("lives are assumed").value;
    near(
        "a stock half full for two months has used its life",
        share(stock),
        1.0,
        1e-9,
    );
    assert!(share(syrup) < share(stock) && share(stock) < share(working));
    let stock = Assumptions::of_class(Class::PowderStock);
    let [glass, pet, soft] = same_bottle(&stock, 4);
    let end = |one: &meniscus::keeping::comparison::ByMaterial| one.wall[4].value.millimoles();
    assert_eq!((glass.wall.len(), end(&glass)), (5, 0.0));
    // A second time: the published middle, 4.5 and 450 mil units, over the estimated wall of 581 cm² and 0.5 mm.
    let days = 4.0 * 365.2425;
    for (one, mils) in [(&pet, 4.5), (&soft, 450.0)] {
        let gas = mils * 0.393_700_787 * 0.058_116 * 0.20946 / 0.5 * days;
        near("mmol in four years", end(one), gas / 22.414, 2e-3 * gas / 22.414);
    }
    assert!(soft.agent.expect("a developer").value > 0.99 && pet.agent.expect("a developer").value < 0.1);
}
