//! A bath that is tempered and one that drifts: nothing is lost on the way, and the ends are what they must be.

use meniscus::chemistry::water_density;
use meniscus::development::drift::{Course, Onward, Plan, tau_of};
use meniscus::development::tempering::{Short, Tempering};
use meniscus::quantity::{Mass, Span, Temperature, TemperatureDifference, Volume};
use proptest::option;
use proptest::prelude::*;

use super::{close, tries};

fn celsius(value: f64) -> Temperature {
    Temperature::from_celsius(value)
}

fn seconds(value: f64) -> Span {
    Span::from_seconds(value)
}

fn bath() -> impl Strategy<Value = Tempering> {
    let temperatures = (4.0f64..60.0, 1.0f64..45.0, 0.0f64..55.0, 0.0f64..45.0, -30.0f64..0.0);
    let rest = (
        50.0f64..20_000.0,
        0.0f64..0.7,
        0.4f64..1.2,
        0.0f64..400.0,
        option::of(0.0f64..2_000.0),
    );
    (temperatures, rest).prop_map(
        |((wanted, cold, warmer, room, ice), (total, share, heat, vessel, hand))| Tempering {
            total: Volume::from_millilitres(total),
            wanted: celsius(wanted),
            hot: celsius((cold + warmer).min(99.0)),
            cold: celsius(cold),
            room: celsius(room),
            concentrate: Volume::from_millilitres(total * share),
            concentrate_heat: heat,
            vessel: vessel.min(total),
            ice: celsius(ice),
            ice_at_hand: hand.map(Mass::from_grams),
        },
    )
}

fn plan() -> impl Strategy<Value = Plan> {
    (60.0f64..3_600.0, 10.0f64..40.0, 10_000.0f64..120_000.0).prop_map(|(time, at, activation)| Plan {
        time: seconds(time),
        at: celsius(at),
        activation,
    })
}

/// A few readings, and what comes after.
fn course() -> impl Strategy<Value = Course> {
    let readings = prop::collection::vec((0.0f64..2_000.0, 10.0f64..40.0), 1..6);
    (readings, option::of((0.0f64..45.0, 30.0f64..50_000.0))).prop_map(|(readings, onward)| {
        let readings: Vec<_> = readings.into_iter().map(|(at, t)| (seconds(at), celsius(t))).collect();
        let onward = onward.map_or(Onward::Held, |(room, tau)| Onward::Towards {
            room: celsius(room),
            tau: seconds(tau),
        });
        Course::new(&readings, onward).expect("readings")
    })
}

proptest! {
    #![proptest_config(tries(500))]

    /// What is poured comes to what is said, fills the total there, is never less than nothing, and no more ice than there is; what
    /// is not the wanted temperature has a reason, and lies on the side of it that the reason says.
    #[test]
    fn a_tempered_bath_adds_up(bath in bath()) {
        let poured = bath.pour();
        for volume in [poured.hot, poured.cold] {
            prop_assert!(volume.millilitres() >= -1e-9, "{poured:?}");
        }
        prop_assert!(poured.ice.grams() >= 0.0);
        prop_assert!(bath.ice_at_hand.is_none_or(|most| poured.ice.grams() <= most.grams() + 1e-6));
        let again = bath.comes_to(poured.hot, poured.cold, poured.ice);
        prop_assert!(close(again.celsius(), poured.comes_to.celsius(), 1e-6), "{again:?} {poured:?}");
        let grams = |volume: Volume, at: Temperature| volume.millilitres() * water_density(at) / 1000.0;
        let water = grams(poured.hot, bath.hot) + grams(poured.cold, bath.cold) + poured.ice.grams();
        let total = water * 1000.0 / water_density(poured.comes_to) + bath.concentrate.millilitres();
        prop_assert!(close(total / bath.total.millilitres(), 1.0, 1e-6), "{total} {poured:?}");
        match poured.short {
            None => prop_assert_eq!(poured.comes_to, bath.wanted),
            Some(Short::HotTap) => prop_assert!(poured.comes_to < bath.wanted),
            Some(Short::Ice) => prop_assert!(poured.comes_to > bath.wanted),
            Some(Short::NoWater) => prop_assert!(false, "there is water"),
        }
    }

    /// Warmer taps make a warmer bath, each by no more than itself.
    #[test]
    fn a_degree_at_a_tap_is_at_most_a_degree(bath in bath(), hot in 0.1f64..1.0) {
        let poured = bath.pour();
        let more = TemperatureDifference::from_kelvins(hot);
        let moved = |change: &dyn Fn(&mut Tempering)| {
            let mut other = bath;
            change(&mut other);
            (other.comes_to(poured.hot, poured.cold, poured.ice) - poured.comes_to).kelvins()
        };
        for by in [
            moved(&|bath| bath.hot = bath.hot + more),
            moved(&|bath| bath.cold = bath.cold + more),
            moved(&|bath| bath.room = bath.room + more),
        ] {
            prop_assert!((-1e-6..=hot * 1.01).contains(&by), "{by} of {hot}");
        }
    }

    /// Done when it is as far as planned, whatever the course; and what is left falls second by second.
    #[test]
    fn a_development_ends_when_it_is_done(plan in plan(), course in course(), share in 0.0f64..1.0) {
        let ends = plan.ends(&course);
        prop_assert!(ends > Span::ZERO);
        prop_assert!(close(plan.developed(&course, ends) / plan.time, 1.0, 1e-9), "{ends:?}");
        let part = plan.developed(&course, ends * share);
        prop_assert!(part <= plan.time * (1.0 + 1e-12) && part >= Span::ZERO);
        prop_assert!(close(plan.remaining(&course, ends * share) / ends, 1.0 - share, 1e-12));
        prop_assert!(close(plan.time_at(plan.mean(ends)) / ends, 1.0, 1e-9));
    }

    /// A room as warm as the bath, a tank that never cools, and a bath that is held are one and the same.
    #[test]
    fn no_drift_three_ways(plan in plan(), at in 10.0f64..40.0, room in 0.0f64..45.0, tau in 30.0f64..50_000.0) {
        let at = celsius(at);
        let held = Course::new(&[(Span::ZERO, at)], Onward::Held).expect("a reading");
        let wanted = plan.time_at(at);
        for course in [
            held,
            Course::drifting(at, at, seconds(tau)).expect("a course"),
            Course::drifting(at, celsius(room), seconds(1e14)).expect("a course"),
            Course::drifting(at, celsius(room), seconds(f64::INFINITY)).expect("a course"),
        ] {
            prop_assert!(close(plan.ends(&course) / wanted, 1.0, 1e-8), "{course:?}");
        }
    }

    /// The colder the room and the faster the tank follows it, the longer it takes; a timer that reads along the true course finds the
    /// same end.
    #[test]
    fn drift_has_one_direction(plan in plan(), at in 12.0f64..38.0, colder in 0.5f64..10.0, tau in 300.0f64..50_000.0) {
        let begins = celsius(at);
        let ends = |room: f64, tau: f64| plan.ends(&Course::drifting(begins, celsius(room), seconds(tau)).expect("a course"));
        let one = ends(at - colder, tau);
        prop_assert!(one > plan.time_at(begins) && ends(at + colder, tau) < plan.time_at(begins));
        prop_assert!(ends(at - colder * 1.1, tau) > one && ends(at - colder, tau * 1.1) < one);
        let room = celsius(at - colder);
        let course = Course::drifting(begins, room, seconds(tau)).expect("a course");
        let readings: Vec<_> = (0..200).map(|count| one * (f64::from(count) / 200.0)).map(|s| (s, course.temperature(s))).collect();
        let read = Course::new(&readings, Onward::Towards { room, tau: seconds(tau) }).expect("readings");
        prop_assert!(close(plan.ends(&read) / one, 1.0, 1e-3), "{one:?}");
        let later = one * 0.7;
        let tau_again = tau_of(begins, course.temperature(later), room, later).expect("between");
        prop_assert!(close(tau_again.seconds() / tau, 1.0, 1e-6));
        if let Some(start) = plan.begin_at(room, seconds(tau)) {
            let course = Course::drifting(start, room, seconds(tau)).expect("a course");
            prop_assert!(close(plan.ends(&course) / plan.time, 1.0, 1e-4), "{start:?}");
        }
    }
}

/// What is no course is none; the work does not grow with what is absurd.
#[test]
fn courses_that_cannot_be() {
    let one = [(Span::ZERO, celsius(20.0))];
    let towards = |room: f64, tau: f64| Onward::Towards {
        room: celsius(room),
        tau: seconds(tau),
    };
    assert_eq!(Course::new(&[], Onward::Held), None);
    for onward in [
        towards(20.0, 0.0),
        towards(20.0, -1.0),
        towards(20.0, f64::NAN),
        towards(f64::NAN, 60.0),
    ] {
        assert_eq!(Course::new(&one, onward), None, "{onward:?}");
    }
    for reading in [
        (seconds(f64::NAN), celsius(20.0)),
        (seconds(1.0), celsius(f64::INFINITY)),
    ] {
        assert_eq!(Course::new(&[one[0], reading], Onward::Held), None);
    }
    let plan = Plan {
        time: seconds(86_400.0),
        at: celsius(40.0),
        activation: 160_000.0,
    };
    let wild: Vec<_> = (0..1_000)
        .map(|count| (seconds(f64::from(count)), celsius(f64::from(count % 2) * 90.0)))
        .collect();
    let course = Course::new(&wild, towards(0.0, 1.0)).expect("readings");
    assert!(plan.ends(&course).seconds().is_finite());
    // Before the first reading it is as warm as then; a negative time is the past.
    let late = Course::new(&[(seconds(100.0), celsius(30.0))], Onward::Held).expect("a reading");
    assert_eq!(late.temperature(Span::ZERO), celsius(30.0));
    let past = Course::new(
        &[(seconds(-100.0), celsius(20.0)), (seconds(100.0), celsius(30.0))],
        Onward::Held,
    )
    .expect("two");
    assert!(close(past.temperature(Span::ZERO).celsius(), 25.0, 1e-12));
    assert!(close(plan.developed(&past, plan.ends(&past)) / plan.time, 1.0, 1e-9));
}
