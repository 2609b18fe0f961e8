//! Newton cooling and the integral of the rate, against another hand's.

use meniscus::development::drift::{Course, Onward, Plan, tau_of};
use meniscus::quantity::{Span, Temperature};
use serde::Deserialize;

use super::cases::load;
use super::near;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Reference {
    source: String,
    cooling: Vec<Cooling>,
    course: Vec<Developing>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Cooling {
    start: f64,
    room: f64,
    tau: f64,
    temperatures: Vec<[f64; 2]>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Developing {
    name: String,
    activation: f64,
    seconds: f64,
    at: f64,
    readings: Vec<[f64; 2]>,
    room: Option<f64>,
    tau: Option<f64>,
    now: f64,
    developed: f64,
    ends: f64,
}

fn celsius(value: f64) -> Temperature {
    Temperature::from_celsius(value)
}

fn seconds(value: f64) -> Span {
    Span::from_seconds(value)
}

/// The curve, the time constant back from any point of it, and when the curve passes that point.
#[test]
fn newton_cooling() {
    let reference: Reference = load("drifting");
    assert!(reference.source.contains("scipy"), "{}", reference.source);
    for case in reference.cooling {
        let (start, room) = (celsius(case.start), celsius(case.room));
        let course = Course::drifting(start, room, seconds(case.tau)).expect("a course");
        for [at, wanted] in case.temperatures {
            let what = format!("{} to {} after {at} s", case.start, case.room);
            near(&what, course.temperature(seconds(at)).celsius(), wanted, 1e-8);
            let tau = tau_of(start, celsius(wanted), room, seconds(at)).expect("between start and room");
            near(&what, tau.seconds() / case.tau, 1.0, 1e-6);
            let passes = course.passes(celsius(wanted)).expect("it does");
            near(&what, passes.seconds() / at, 1.0, 1e-6);
        }
    }
}

#[test]
fn the_integral_of_the_rate() {
    for case in load::<Reference>("drifting").course {
        let onward = case
            .room
            .zip(case.tau)
            .map_or(Onward::Held, |(room, tau)| Onward::Towards {
                room: celsius(room),
                tau: seconds(tau),
            });
        let mut readings: Vec<(Span, Temperature)> = case
            .readings
            .iter()
            .map(|&[at, value]| (seconds(at), celsius(value)))
            .collect();
        let plan = Plan {
            time: seconds(case.seconds),
            at: celsius(case.at),
            activation: case.activation,
        };
        let course = Course::new(&readings, onward).expect(&case.name);
        near(
            &case.name,
            plan.developed(&course, seconds(case.now)).seconds(),
            case.developed,
            1e-6,
        );
        near(&case.name, plan.ends(&course).seconds(), case.ends, 1e-6);
        let remaining = plan.remaining(&course, seconds(case.now)).seconds();
        near(&case.name, remaining, case.ends - case.now, 1e-6);
        // As far as planned at the end, and as warm on average as would take just as long.
        near(
            &case.name,
            plan.developed(&course, seconds(case.ends)).seconds(),
            case.seconds,
            1e-6,
        );
        near(
            &case.name,
            plan.time_at(plan.mean(seconds(case.ends))).seconds(),
            case.ends,
            1e-6,
        );
        // In whatever order they come, but for two at one time.
        if readings.windows(2).all(|pair| pair[0].0 < pair[1].0) {
            readings.reverse();
            assert_eq!(Course::new(&readings, onward).as_ref(), Some(&course), "{}", case.name);
        }
    }
}
