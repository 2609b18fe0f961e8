//! The state of a bottle from its three voices.

use meniscus::chemistry::Class;
use meniscus::keeping::{
    Assumptions, Case, Lean, Life, Limits, Reason, Seal, State, Stretch, Tested, Trusted, Verdict, exposure, judge,
};
use meniscus::kit::{Container, Material, Treatment};
use meniscus::quantity::{Day, Units};

use super::cases;
use super::lives::lives;
use super::{bottle, class, millilitres, steady};

fn life<'a>(litre: &'a Container, days: i32, openings: u32, left: f64, warm: f64) -> Life<'a> {
    let opened = Stretch {
        from: Day::from_days(0),
        to: Day::from_days(days),
        content: millilitres(1000.0),
        seal: Seal::Opened,
        treatment: Treatment::Plain,
        container: litre,
        climate: steady(warm),
    };
    Life::used_evenly(opened, millilitres(left), openings).expect("a life")
}

fn verdict(life: &Life, class: Class, tests: &[Tested], trusted: Trusted) -> Verdict {
    let assumptions = Assumptions::of_class(class);
    judge(&Case {
        life,
        assumptions: &assumptions,
        tests,
        trusted,
        limits: &Limits::default(),
    })
}

fn says(verdict: &Verdict) -> Vec<String> {
    let reasons = verdict.deciding();
    reasons.iter().map(|reason| reason.sentence(Units::default())).collect()
}

fn tested(day: i32, passed: bool) -> Tested {
    Tested {
        sure: true,
        day: Day::from_days(day),
        passed,
    }
}

#[test]
fn states_by_the_trade() {
    let litre = bottle(Material::Glass, 1000.0);
    for case in cases::keeping().state {
        let name = format!("{} ({})", case.name, case.source);
        let life = life(&litre, case.days, case.openings, case.left, case.celsius);
        let tests: Vec<Tested> = case.tests.iter().map(|&(day, passed)| tested(day, passed)).collect();
        let got = verdict(&life, class(&case.class), &tests, Trusted::STATED);
        let word = State::ALL
            .iter()
            .find(|(_, _, state)| *state == got.state)
            .expect("a state")
            .0;
        assert_eq!(word, case.state, "{name}: {:?}", got.reasons);
        assert_eq!(got.paid, case.paid, "{name}: for paid work");
        let mut asks: Vec<String> = got
            .reasons
            .iter()
            .filter(|reason| reason.asks() && got.state == State::TestFirst)
            .map(|reason| format!("{:?}", reason.voice()))
            .collect();
        asks.dedup();
        assert_eq!(asks, case.asks, "{name}: who asks");
    }
}

/// No age and no headspace, in any class and warmth, ever fails a bottle that no test has failed.
#[test]
fn age_alone_never_fails() {
    let litre = bottle(Material::Ldpe, 1000.0);
    for (_, _, class) in Class::ALL {
        for days in [0, 30, 400, 4000, 40_000] {
            for warm in [5.0, 20.0, 40.0] {
                let life = life(&litre, days, 9, 50.0, warm);
                for tests in [vec![], vec![tested(0, true)]] {
                    let got = verdict(&life, class, &tests, Trusted::STATED);
                    assert_ne!(got.state, State::Failed, "{class:?} after {days} days at {warm} °C");
                    assert!(got.state == State::Proved || !got.paid || got.state == State::InDate);
                }
            }
        }
    }
}

#[test]
fn each_voice_says_why() {
    let litre = bottle(Material::Glass, 1000.0);
    let old = life(&litre, 1461, 20, 500.0, 18.0);
    assert_eq!(
        says(&verdict(&old, Class::Syrup, &[], Trusted::STATED)),
        ["It stands at 5 times its assumed life. Age proves nothing: a test does."],
    );
    let hands = Trusted::from_tests(&[6.0, 5.5], &[]);
    let stretched = verdict(&old, Class::Syrup, &[], hands);
    assert_eq!(stretched.state, State::InDate, "two bottles of it passed later");
    assert!(!stretched.paid, "but paid work asks for more");
    assert_eq!(
        says(&stretched),
        ["It has used 504 % of its assumed life, which your tests of this product allow up to 5.5 times."],
    );
    let proved = verdict(&old, Class::Syrup, &[tested(1454, true)], Trusted::STATED);
    assert_eq!(
        says(&proved),
        ["It passed a test on 1973-12-25, 7 days ago, and nothing large has happened since."],
    );
    let failed = verdict(&old, Class::Syrup, &[tested(1460, false)], Trusted::STATED);
    assert_eq!(
        says(&failed),
        [
            "It failed a test on 1973-12-31: not for film. Take fresh, or test it again; only a later test that passes overrules that."
        ],
    );
    let hot = verdict(&life(&litre, 60, 3, 900.0, 28.0), Class::Syrup, &[], Trusted::STATED);
    assert_eq!(
        says(&hot),
        ["It has stood hotter than 25 °C for 60 days: test it, and find it a cooler place."],
    );
    let airy = verdict(
        &life(&litre, 91, 13, 400.0, 20.0),
        Class::PowderStock,
        &[],
        Trusted::STATED,
    );
    assert_eq!(
        says(&airy),
        [
            "The air could have cost 42 % of its developing agent, at most 100 %, and has used at least 0.86 % of its \
             preservative: let a test say how strong it is.",
            "It stands at 1.1 times its assumed life. Age proves nothing: a test does.",
        ],
    );
    let unknown = verdict(&life(&litre, 60, 3, 900.0, 20.0), Class::Other, &[], Trusted::STATED);
    assert_eq!(
        says(&unknown),
        ["How long it keeps is not stated, and for this kind of bath nothing can be assumed."],
    );
    let stop = verdict(&life(&litre, 60, 3, 900.0, 20.0), Class::StopBath, &[], Trusted::STATED);
    assert_eq!(
        stop.reasons[0].sentence(Units::default()),
        "Nothing in it is known to suffer from the air."
    );
}

/// However far tests stretch the trust in a product, paid work stays within the stated life.
#[test]
fn paid_work_is_not_stretched() {
    let litre = bottle(Material::Glass, 1000.0);
    let old = life(&litre, 120, 1, 1000.0, 20.0);
    let judged = |full: f64, share| {
        let assumptions = Assumptions::of_class(Class::Other).with_lives(Some(lives(full, full, full)));
        let verdict = judge(&Case {
            life: &old,
            assumptions: &assumptions,
            tests: &[],
            trusted: Trusted {
                share,
                ..Trusted::STATED
            },
            limits: &Limits::default(),
        });
        (verdict.state, verdict.paid)
    };
    assert_eq!(judged(100.0, 1.0), (State::TestFirst, false));
    assert_eq!(judged(100.0, 1.5), (State::InDate, false));
    assert_eq!(judged(130.0, 1.5), (State::InDate, true));
    assert_eq!(judged(130.0, 0.9), (State::TestFirst, false));
}

/// A proof lapses by time, by air, and by life gone by, each with its sentence.
#[test]
fn a_proof_lapses() {
    let litre = bottle(Material::Glass, 1000.0);
    let last = |life: &Life, class, tests: &[Tested]| {
        let verdict = verdict(life, class, tests, Trusted::STATED);
        verdict
            .reasons
            .last()
            .map(|reason| (reason.voice(), reason.sentence(Units::default()), *reason))
    };
    let long_ago = last(&life(&litre, 200, 2, 950.0, 15.0), Class::Syrup, &[tested(50, true)]).expect("a reason");
    assert_eq!(long_ago.1, "It passed a test on 1970-02-20, but that is 5 months ago.");
    let much_air = last(
        &life(&litre, 60, 30, 200.0, 15.0),
        Class::PowderStock,
        &[tested(20, true)],
    )
    .expect("a reason");
    assert!(
        much_air
            .1
            .starts_with("It passed a test on 1970-01-21, but the air could have cost"),
        "{}",
        much_air.1
    );
    let some_air = life(&litre, 60, 30, 200.0, 15.0);
    let since = |day| {
        let stock = Assumptions::of_class(Class::PowderStock);
        exposure(&some_air, &stock, &Lean::USUAL, Some(Day::from_days(day)))
            .agent
            .expect("a developer")
    };
    // Half of the fifth that would make the air ask; the last days count most, since least is left.
    let day = (0..60).rev().find(|day| since(*day) > 0.1).expect("enough air");
    assert!(since(day) < 0.2 && since(day + 1) <= 0.1);
    let proof = |day| {
        last(&some_air, Class::PowderStock, &[tested(day, true)])
            .expect("a reason")
            .2
    };
    assert!(matches!(proof(day), Reason::OldProof { .. }));
    assert!(matches!(proof(day + 1), Reason::Proof { .. }));
    let gone = last(
        &life(&litre, 80, 1, 1000.0, 20.0),
        Class::PowderStock,
        &[tested(10, true)],
    )
    .expect("a reason");
    assert_eq!(
        gone.1,
        "It passed a test on 1970-01-11, but 39 % of its stated life has gone by since."
    );
    let none = last(&life(&litre, 80, 1, 1000.0, 20.0), Class::PowderStock, &[]).expect("a reason");
    assert_eq!(none.2, Reason::NoTest);
    let to_come = last(
        &life(&litre, 80, 1, 1000.0, 20.0),
        Class::PowderStock,
        &[tested(81, false)],
    )
    .expect("a reason");
    assert_eq!(to_come.2, Reason::NoTest, "a test of a later day is not known yet");
}

/// The rules of the design: only what is beyond doubt may touch paid work; by eye only gross weakness is found.
#[test]
fn a_pass_by_eye_proves_for_everyday_film_and_overrules_no_failure() {
    let litre = bottle(Material::Glass, 1000.0);
    let life = life(&litre, 200, 2, 950.0, 15.0);
    let seen = |day| Tested {
        sure: false,
        ..tested(day, true)
    };
    let state = |tests: &[Tested]| {
        let verdict = verdict(&life, Class::Syrup, tests, Trusted::STATED);
        (verdict.state, verdict.paid)
    };
    assert_eq!(state(&[seen(190)]), (State::Proved, false));
    assert_eq!(state(&[tested(190, true)]), (State::Proved, true));
    // A look after a measurement takes nothing from it.
    assert_eq!(state(&[tested(185, true), seen(190)]), (State::Proved, true));
    assert_eq!(state(&[tested(180, false), seen(190)]), (State::Failed, false));
    assert_eq!(state(&[tested(180, false), tested(190, true)]), (State::Proved, true));
    // Once the measurement is old, the look is all that is left.
    assert_eq!(state(&[tested(10, true), seen(190)]), (State::Proved, false));
    // Of one day, the later in the list.
    assert_eq!(state(&[tested(190, true), tested(190, false)]), (State::Failed, false));
    assert_eq!(state(&[tested(190, false), tested(190, true)]), (State::Proved, true));
}
