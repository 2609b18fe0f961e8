//! What must hold of every life.

use meniscus::chemistry::Class;
use meniscus::keeping::{Assumptions, Lean, Life, Seal, Stretch, air, at, exposure, share_used, stated, warmth_factor};
use meniscus::kit::{Climate, Container, Material, Treatment};
use meniscus::quantity::Day;
use meniscus::uncertainty::Random;
use proptest::prelude::*;

use super::{bottle, celsius, millilitres, near, steady};

#[derive(Clone, Debug)]
struct Told {
    days: i32,
    content: f64,
    opened: bool,
    treatment: Treatment,
}

fn told() -> impl Strategy<Value = Vec<Told>> {
    let treatment = prop_oneof![
        Just(Treatment::Plain),
        Just(Treatment::Squeezed),
        Just(Treatment::Beads(None)),
        Just(Treatment::InertGas),
    ];
    let one =
        (0..200_i32, 50.0..1000.0_f64, any::<bool>(), treatment).prop_map(|(days, content, opened, treatment)| Told {
            days,
            content,
            opened,
            treatment,
        });
    prop::collection::vec(one, 1..8)
}

/// Content and treatment change only where the bottle is opened.
fn life<'a>(container: &'a Container, told: &[Told]) -> Life<'a> {
    let mut from = Day::from_days(0);
    let mut stretches: Vec<Stretch> = Vec::new();
    for one in told {
        let before = stretches.last().copied();
        let opened = Stretch {
            from,
            to: from + one.days,
            content: millilitres(one.content),
            seal: Seal::Opened,
            treatment: one.treatment,
            container,
            climate: steady(18.0),
        };
        stretches.push(match before {
            Some(before) if !one.opened => Stretch {
                content: before.content,
                treatment: before.treatment,
                seal: match before.seal {
                    Seal::Unopened => Seal::Unopened,
                    Seal::Opened | Seal::StillClosed => Seal::StillClosed,
                },
                ..opened
            },
            None if !one.opened => Stretch {
                seal: Seal::Unopened,
                ..opened
            },
            _ => opened,
        });
        from = from + one.days;
    }
    Life::new(stretches).expect("they follow on one another")
}

fn wall() -> impl Strategy<Value = Material> {
    prop_oneof![Just(Material::Glass), Just(Material::Hdpe), Just(Material::Ldpe)]
}

fn lean() -> impl Strategy<Value = Lean> {
    any::<u64>().prop_map(|seed| Lean::sample(&mut Random::new(seed)))
}

fn stock() -> Assumptions {
    Assumptions::of_class(Class::PowderStock)
}

proptest! {
    #[test]
    fn every_choice_lies_in_the_band(told in told(), wall in wall(), lean in lean()) {
        let bottle = bottle(wall, 1000.0);
        let life = life(&bottle, &told);
        let (band, got) = (air(&life, &stock()), exposure(&life, &stock(), &lean, None));
        let within = |of: fn(&meniscus::keeping::Exposure) -> f64| {
            let (least, got, most) = (of(&band.least), of(&got), of(&band.most));
            assert!(least <= got * (1.0 + 1e-9) && got <= most * (1.0 + 1e-9), "{least} {got} {most}");
        };
        within(|exposure| exposure.agent.expect("a developer"));
        within(|exposure| exposure.sulfite.expect("a developer"));
        within(|exposure| exposure.oxygen().millimoles());
        let share = stated(&life, &stock()).expect("lives are assumed");
        let got = share_used(&life, &stock(), &lean, None).expect("lives are assumed");
        prop_assert!(share.least <= got * (1.0 + 1e-9) && got <= share.most * (1.0 + 1e-9));
    }

    #[test]
    fn a_look_without_opening_changes_nothing(told in told(), wall in wall(), lean in lean(), part in 0.0..1.0_f64) {
        let bottle = bottle(wall, 1000.0);
        let life = life(&bottle, &told);
        let last = *life.last();
        let day = last.from + (f64::from(last.to - last.from) * part) as i32;
        let mut stretches = life.stretches().to_vec();
        stretches.pop();
        stretches.push(Stretch { to: day, ..last });
        let seal = if last.seal == Seal::Unopened { Seal::Unopened } else { Seal::StillClosed };
        stretches.push(Stretch { from: day, seal, ..last });
        let looked = Life::new(stretches).expect("they follow on one another");
        let oxygen = |life: &Life| exposure(life, &stock(), &lean, None).oxygen().millimoles();
        near("oxygen", oxygen(&looked), oxygen(&life), 1e-9);
        let share = |life: &Life| share_used(life, &stock(), &lean, None).expect("lives are assumed");
        near("share", share(&looked), share(&life), 1e-9);
    }

    #[test]
    fn before_and_since_add_to_the_whole(told in told(), wall in wall(), lean in lean(), day in 0..1500_i32) {
        let bottle = bottle(wall, 1000.0);
        let life = life(&bottle, &told);
        let day = life.first().from + day.min(life.today() - life.first().from);
        let before = life.until(day);
        prop_assert_eq!(life.until(life.today() + 9), life.clone());
        let oxygen = |life: &Life, since| exposure(life, &stock(), &lean, since).oxygen().millimoles();
        near("oxygen", oxygen(&before, None) + oxygen(&life, Some(day)), oxygen(&life, None), 1e-9);
        let share = |life: &Life, since| share_used(life, &stock(), &lean, since).expect("lives are assumed");
        near("share", share(&before, None) + share(&life, Some(day)), share(&life, None), 1e-9);
    }

    #[test]
    fn one_opening_more_never_meets_less(told in told(), wall in wall(), lean in lean(), place in 0..8_usize) {
        let bottle = bottle(wall, 1000.0);
        let closed = life(&bottle, &told);
        let mut stretches = closed.stretches().to_vec();
        let place = place % stretches.len();
        let soft = matches!(stretches[place].treatment, Treatment::InertGas);
        stretches[place].seal = Seal::Opened;
        for later in &mut stretches[place + 1..] {
            if later.seal == Seal::Unopened {
                later.seal = Seal::StillClosed;
            }
        }
        let opened = Life::new(stretches).expect("as before");
        let agent = |life: &Life| exposure(life, &stock(), &lean, None).agent.expect("a developer");
        // A puff of inert gas at the opening may drive out air that had come in through the wall.
        prop_assume!(!soft);
        prop_assert!(agent(&opened) >= agent(&closed) - 1e-12);
    }

    #[test]
    fn treatments_help(told in told(), wall in wall(), lean in lean()) {
        let bottle = bottle(wall, 1000.0);
        let plain: Vec<Told> = told.iter().map(|one| Told { treatment: Treatment::Plain, ..*one }).collect();
        let headspace = |told: &[Told]| exposure(&life(&bottle, told), &stock(), &lean, None).headspace.millimoles();
        prop_assert!(headspace(&told) <= headspace(&plain) + 1e-12);
    }

    #[test]
    fn warmth_lies_between_its_extremes(
        low in -5.0..20.0_f64,
        more in 0.0..20.0_f64,
        q in 1.2..4.0_f64,
        days in 0..2000_i32,
        warmest in 1..366_u32,
    ) {
        let (from, to) = (Day::from_days(9000), Day::from_days(9000 + days));
        let factor = |climate| warmth_factor(climate, q, from, to);
        let (least, most) = (factor(steady(low)), factor(steady(low + more)));
        let (low, high) = (celsius(low), celsius(low + more));
        for climate in [Climate::Between(low, high), Climate::Seasonal { low, high, warmest }] {
            let got = factor(climate);
            prop_assert!(least * (1.0 - 1e-9) <= got && got <= most * (1.0 + 1e-9), "{least} {got} {most}");
        }
    }

    #[test]
    fn a_choice_stays_in_its_range(position in -1.0..=1.0_f64) {
        let assumptions = stock();
        for parameter in [assumptions.humidity, assumptions.uptake, assumptions.per_ten, assumptions.pressure] {
            let got = at(&parameter, position);
            prop_assert!(parameter.least <= got * (1.0 + 1e-12) && got <= parameter.most * (1.0 + 1e-12));
            prop_assert_eq!(at(&parameter, 0.0), parameter.value);
            near("least", at(&parameter, -1.0), parameter.least, 1e-9 * parameter.value);
            near("most", at(&parameter, 1.0), parameter.most, 1e-9 * parameter.most);
        }
    }
}
