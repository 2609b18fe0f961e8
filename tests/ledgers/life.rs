//! The life of a bottle's content as keeping judges it.

use meniscus::chemistry::Class;
use meniscus::keeping::{Assumptions, Case, Life, Limits, Seal, State, Trusted, judge};
use meniscus::kit::{Climate, Material, Treatment};
use meniscus::ledger::{Bath, BottleId, Description, Opened, Portion, Shelf, TestResult, Thousandths, What};
use meniscus::parts::Judged;
use meniscus::proof::TestKind;
use meniscus::quantity::{Temperature, Volume};

use crate::generator::{bottle, darkroom, day, description, event, ml};
use crate::short::{FIRST, added, daily, decanted, discarded, drawn, filled, fold, treated};

fn steady(degrees: f64) -> Climate {
    Climate::Steady(Temperature::from_celsius(degrees))
}

/// Days since the first, content, how closed, and what it is in to the brim.
fn told(life: &Life) -> Vec<(i32, i32, f64, Seal, f64)> {
    let day = |of: meniscus::quantity::Day| of - day(FIRST);
    life.stretches()
        .iter()
        .map(|s| {
            let (content, brimful) = (s.content.millilitres(), s.container.brimful.millilitres());
            (day(s.from), day(s.to), content, s.seal, brimful)
        })
        .collect()
}

#[track_caller]
fn stretches(shelf: &Shelf, id: &str) -> Vec<(i32, i32, f64, Seal, f64)> {
    let content = shelf.life(id, steady(20.0)).expect("all is known");
    told(&content.life().expect("a life"))
}

#[test]
fn every_opening_and_change_begins_a_stretch() {
    let shelf = fold(vec![
        added("a", Some(500.0)),
        drawn("a", 100.0),
        What::Opened { bottle: bottle("a") },
        What::Moved {
            bottle: bottle("a"),
            place: "cellar".to_owned(),
        },
        treated("a", Treatment::Squeezed),
    ]);
    assert_eq!(
        stretches(&shelf, "a"),
        [
            (0, 1, 500.0, Seal::Unopened, 525.0),
            (1, 2, 400.0, Seal::Opened, 525.0),
            (2, 3, 400.0, Seal::Opened, 525.0),
            (3, 4, 400.0, Seal::StillClosed, 525.0),
            (4, 100, 400.0, Seal::Opened, 525.0),
        ]
    );
}

#[test]
fn openings_of_one_day_are_stretches_of_no_length() {
    let events = [added("a", Some(500.0)), drawn("a", 100.0), drawn("a", 50.0)];
    let events = (0..).zip(events).map(|(n, what)| event(n, day(FIRST), n as i64, what));
    let shelf = Shelf::fold(events.collect(), day(FIRST) + 7);
    assert_eq!(
        stretches(&shelf, "a"),
        [(0, 0, 350.0, Seal::Opened, 525.0), (0, 7, 350.0, Seal::Opened, 525.0)]
    );
}

#[test]
fn what_was_done_today_is_the_last_stretch() {
    let shelf = Shelf::fold(daily(vec![added("a", Some(500.0)), drawn("a", 100.0)]), day(FIRST) + 1);
    assert_eq!(
        stretches(&shelf, "a"),
        [(0, 1, 500.0, Seal::Unopened, 525.0), (1, 1, 400.0, Seal::Opened, 525.0)]
    );
    let shelf = Shelf::fold(daily(vec![added("a", Some(500.0))]), day(FIRST));
    assert_eq!(stretches(&shelf, "a"), [(0, 0, 500.0, Seal::Unopened, 525.0)]);
}

#[test]
fn a_place_is_as_warm_as_it_was_noted_when() {
    let noted = |degrees: f64| What::PlaceNoted {
        place: "cellar".to_owned(),
        climate: Some(steady(degrees)),
        light: None,
    };
    let moved = What::Moved {
        bottle: bottle("a"),
        place: "cellar".to_owned(),
    };
    let shelf = fold(vec![added("a", Some(500.0)), noted(12.0), moved, noted(16.0)]);
    let content = shelf.life("a", steady(21.0)).expect("all is known");
    let life = content.life().expect("a life");
    let climates: Vec<_> = life.stretches().iter().map(|s| (s.from, s.climate)).collect();
    let day = |n: i32| day(FIRST) + n;
    assert_eq!(
        climates,
        [(day(0), steady(21.0)), (day(2), steady(12.0)), (day(3), steady(16.0))]
    );
}

#[test]
fn what_was_decanted_goes_on_from_where_it_came() {
    let shelf = fold(vec![
        added("a", Some(500.0)),
        drawn("a", 50.0),
        decanted("a", vec![filled("b", 100.0)]),
        decanted("b", vec![filled("c", 30.0)]),
    ]);
    assert_eq!(
        stretches(&shelf, "c"),
        [
            (0, 1, 500.0, Seal::Unopened, 525.0),
            (1, 2, 450.0, Seal::Opened, 525.0),
            (2, 3, 100.0, Seal::Opened, 100.0),
            (3, 100, 30.0, Seal::Opened, 30.0),
        ]
    );
}

/// What stayed behind is not what was poured off before it was tested; common practice, no source.
#[test]
fn a_test_speaks_for_what_was_poured_off_after_it() {
    let tested = What::Tested {
        bottle: bottle("a"),
        test: TestKind::Clip,
        result: TestResult::Passed,
        note: String::new(),
    };
    let poured = decanted("a", vec![filled("b", 100.0)]);
    let state_of_b = |on_that_day: [&What; 2]| {
        let mut events = vec![event(1, day(FIRST), 0, added("a", Some(500.0)))];
        for (later, what) in (1..).zip(on_that_day) {
            events.push(event(1 + later as u128, day(FIRST) + 10, later, what.clone()));
        }
        let shelf = Shelf::fold(events, day(FIRST) + 20);
        let b = shelf.bottle("b").expect("b is there");
        Judged::of(&shelf, b).state()
    };
    assert_eq!(state_of_b([&tested, &poured]), State::Proved);
    assert_eq!(state_of_b([&poured, &tested]), State::InDate);
}

#[test]
fn a_life_begins_anew_after_the_bottle_stood_empty() {
    let top_up = What::ToppedUp {
        bottle: bottle("a"),
        volume: ml(300.0),
        from: None,
    };
    let shelf = fold(vec![
        added("a", Some(500.0)),
        drawn("a", 500.0),
        drawn("x", 1.0),
        top_up,
        decanted("a", vec![filled("b", 100.0)]),
    ]);
    assert_eq!(
        stretches(&shelf, "b"),
        [(3, 4, 300.0, Seal::Opened, 525.0), (4, 100, 100.0, Seal::Opened, 100.0)]
    );
}

#[test]
fn a_bottle_that_came_opened_was_open_from_then_on() {
    let mut came = added("a", Some(200.0));
    if let What::Added { opened, .. } = &mut came {
        *opened = Opened::On(day(FIRST) + -200);
    }
    let shelf = fold(vec![came, discarded("a")]);
    assert_eq!(
        stretches(&shelf, "a"),
        [
            (-200, 0, 200.0, Seal::Opened, 525.0),
            (0, 1, 200.0, Seal::StillClosed, 525.0)
        ]
    );
}

/// What is done on the day on which an old bottle came changes nothing of the years before, and the years go along with what is
/// poured over.
#[test]
fn the_day_of_coming_rewrites_no_past() {
    let old = || {
        let mut came = added("a", Some(200.0));
        if let What::Added { opened, .. } = &mut came {
            *opened = Opened::On(day(FIRST) + -1461);
        }
        came
    };
    let on_one_day = |whats: Vec<What>| {
        let mut events = daily(whats);
        for (index, event) in events.iter_mut().enumerate() {
            event.day = day(FIRST);
            event.at = meniscus::ledger::Moment::from_milliseconds(
                meniscus::ledger::Moment::noon(event.day).milliseconds() + index as i64,
            )
            .expect("after 1970");
        }
        Shelf::fold(events, day(FIRST))
    };
    let poured = on_one_day(vec![old(), decanted("a", vec![filled("b", 100.0), filled("c", 100.0)])]);
    for id in ["b", "c"] {
        let told = stretches(&poured, id);
        assert_eq!(told[0], (-1461, 0, 200.0, Seal::Opened, 525.0), "{told:?}");
    }
    let moved = What::Moved {
        bottle: bottle("a"),
        place: "garage".to_owned(),
    };
    let noted = What::PlaceNoted {
        place: "garage".to_owned(),
        climate: Some(steady(30.0)),
        light: None,
    };
    let cellar = What::Moved {
        bottle: bottle("a"),
        place: "cellar".to_owned(),
    };
    let shelf = on_one_day(vec![
        noted,
        old(),
        cellar,
        drawn("a", 50.0),
        treated("a", Treatment::Squeezed),
        moved,
    ]);
    let content = shelf.life("a", steady(18.0)).expect("all is known");
    let life = content.life().expect("a life");
    let before = life.stretches()[0];
    assert_eq!((before.content, before.treatment), (ml(200.0), Treatment::Plain));
    assert_eq!(before.climate, steady(18.0));
}

#[test]
fn a_mixed_bath_has_the_oxygen_of_its_water() {
    let mixed = |water: f64| What::Mixed {
        from: vec![Portion {
            bottle: bottle("a"),
            volume: ml(100.0),
        }],
        water: ml(water),
        dilution: None,
        into: Bath::Kept {
            bottle: bottle("bath"),
            is: Box::new(description(
                "Bath",
                Class::WorkingDeveloper,
                Some(1000.0),
                Material::Glass,
            )),
        },
    };
    let oxygen = |water: f64| {
        let events = daily(vec![added("a", Some(500.0)), mixed(water)]);
        let shelf = Shelf::fold(events, day(FIRST) + 1);
        let content = shelf.life("bath", steady(20.0)).expect("all is known");
        let life = content.life().expect("a life");
        let assumptions = Assumptions::of_class(Class::WorkingDeveloper);
        (meniscus::keeping::air(&life, &assumptions), shelf.bottles[1].water)
    };
    assert_eq!(oxygen(900.0).1, ml(900.0));
    let (dry, wet) = (oxygen(0.0).0.value.water, oxygen(900.0).0.value.water);
    assert!(wet > dry, "{wet:?} is not more than {dry:?}");
}

#[test]
fn what_is_not_known_is_not_invented() {
    let no_life = |shelf: &Shelf, id: &str| assert_eq!(shelf.life(id, steady(20.0)), None, "{id}");
    no_life(&fold(vec![added("a", None)]), "a");
    no_life(&fold(vec![added("a", Some(5.0)), drawn("a", 5.0)]), "a");
    no_life(&fold(vec![]), "a");
    let unlabelled = What::Added {
        bottle: BottleId::new("a").expect("a name"),
        is: Box::new(Description::of(
            description("Blue Syrup", Class::Syrup, None, Material::Glass).label,
        )),
        filled: Some(Volume::from_millilitres(100.0)),
        opened: Opened::Never,
    };
    no_life(&fold(vec![unlabelled, decanted("a", vec![filled("b", 50.0)])]), "b");
}

/// Every bottle of ten years of a darkroom is a life, and keeping has something to say of it.
#[test]
fn a_whole_shelf_is_judged() {
    let events = darkroom(5, 40, 3000);
    let today = events.last().expect("an event").day;
    let shelf = Shelf::fold(events, today);
    let mut judged = Vec::new();
    for bottle in shelf.standing() {
        let Some(content) = shelf.life(bottle.id.as_str(), steady(19.0)) else {
            assert!(bottle.is_empty(), "{}", bottle.id);
            continue;
        };
        let life = content.life().expect("a life without gaps");
        assert_eq!(life.today(), today);
        assert_eq!(Some(life.last().content), bottle.left());
        judged.push(
            judge(&Case {
                life: &life,
                assumptions: &Assumptions::of_class(bottle.is.label.class),
                tests: &[],
                trusted: Trusted::STATED,
                limits: &Limits::default(),
            })
            .state,
        );
    }
    assert!(judged.len() > 5, "only {} bottles were judged", judged.len());
    assert!(judged.contains(&State::TestFirst));
}

fn measured(id: &str, strength: u32, uncertainty: u32) -> What {
    What::Tested {
        bottle: bottle(id),
        test: TestKind::Clip,
        result: TestResult::Strength {
            strength: Thousandths(strength),
            uncertainty: Some(Thousandths(uncertainty)),
        },
        note: String::new(),
    }
}

/// The arithmetic is by hand: 1 - 0.92 is more than 2 x 0.03, 1 - 0.95 is not.
#[test]
fn a_strength_is_taken_where_the_last_test_told_it_from_fresh() {
    let strength_of = |whats: Vec<What>, id: &str| {
        let shelf = fold(whats);
        shelf.measured_strength(shelf.bottle(id).expect("a bottle"))
    };
    let came = || added("a", Some(500.0));
    let poured = || decanted("a", vec![filled("b", 250.0)]);
    assert_eq!(strength_of(vec![came()], "a"), None);
    assert_eq!(strength_of(vec![came(), measured("a", 920, 30)], "a"), Some(0.92));
    assert_eq!(strength_of(vec![came(), measured("a", 950, 30)], "a"), None);
    let again = vec![came(), measured("a", 920, 30), measured("a", 900, 10)];
    assert_eq!(strength_of(again, "a"), Some(0.9));
    // It goes with what is poured off, and what comes to light later does not.
    assert_eq!(
        strength_of(vec![came(), measured("a", 920, 30), poured()], "b"),
        Some(0.92)
    );
    assert_eq!(strength_of(vec![came(), poured(), measured("a", 920, 30)], "b"), None);
    // What a wash left in film says nothing of a developer, nor does a colour.
    let of_film = |test| What::Tested {
        bottle: bottle("a"),
        test,
        result: TestResult::Passed,
        note: String::new(),
    };
    for test in [TestKind::ResidualThiosulfate, TestKind::Indicator] {
        assert_eq!(
            strength_of(vec![came(), measured("a", 920, 30), of_film(test)], "a"),
            Some(0.92)
        );
    }
    assert_eq!(
        strength_of(vec![came(), measured("a", 920, 30), of_film(TestKind::Clip)], "a"),
        None
    );
}

/// By hand, with 1.645 standard uncertainties for 95 % on one side: 0.95 - 1.645 x 0.03 is above 0.9; 0.91 ± 0.2 tells nothing.
#[test]
fn a_measured_strength_counts_where_it_is_certain_and_the_later_of_a_day_decides() {
    let state_of = |whats: Vec<What>| {
        let shelf = Shelf::fold(
            whats
                .into_iter()
                .enumerate()
                .map(|(n, what)| event(n as u128, day(FIRST), n as i64, what))
                .collect(),
            day(FIRST) + 3,
        );
        let judged = Judged::of(&shelf, &shelf.bottles[0]);
        (
            judged.state(),
            judged.verdict.as_ref().is_some_and(|verdict| verdict.paid),
        )
    };
    let came = || added("a", Some(500.0));
    let (passed, failed) = ((State::Proved, true), (State::Failed, false));
    assert_eq!(state_of(vec![came(), measured("a", 950, 30)]), passed);
    assert_eq!(state_of(vec![came(), measured("a", 600, 35)]), failed);
    let untold = state_of(vec![came()]);
    assert!(untold != passed && untold != failed);
    assert_eq!(state_of(vec![came(), measured("a", 910, 200)]), untold);
    // Of one day the later decides, in either order.
    assert_eq!(
        state_of(vec![came(), measured("a", 950, 30), measured("a", 600, 35)]),
        failed
    );
    assert_eq!(
        state_of(vec![came(), measured("a", 600, 35), measured("a", 950, 30)]),
        passed
    );
    let by_eye = || What::Tested {
        bottle: bottle("a"),
        test: TestKind::Clip,
        result: TestResult::Seen,
        note: String::new(),
    };
    assert_eq!(state_of(vec![came(), by_eye()]), (State::Proved, false));
    assert_eq!(state_of(vec![came(), measured("a", 600, 35), by_eye()]), failed);
}
