//! The invented darkroom: that it fits together on any day, shows every state, gives every calculator of the shelf something to
//! say, and can be told from what is the user's.
#![cfg(not(target_arch = "wasm32"))]

use meniscus::calculators::{self, calculate};
use meniscus::darkroom::Darkroom;
use meniscus::example::{self, concerns_example, events, is_example};
use meniscus::fields::{Fault, Named};
use meniscus::keeping::{State, Voice};
use meniscus::kit::Kit;
use meniscus::ledger::{BottleId, Event, EventId, Moment, Shelf, What};
use meniscus::parts;
use meniscus::quantity::{Day, Volume};
use meniscus::session::{Made, StepKind};

fn day(text: &str) -> Day {
    text.parse().expect("a day")
}

/// Leap days, turns of the year, and every thirtieth day of two years, so that every season is among them.
fn days() -> Vec<Day> {
    let first = day("2026-01-05");
    let named = ["2028-02-28", "2028-02-29", "2028-03-01", "2027-01-01", "2026-12-31"].map(day);
    named.into_iter().chain((0..25).map(|step| first + 30 * step)).collect()
}

fn darkroom(today: Day) -> Darkroom {
    let shelf = Shelf::fold(events(today), today);
    let kit = Kit {
        bottles: shelf.labels(),
        ..Kit::starter()
    };
    Darkroom { kit, shelf }
}

#[test]
fn it_fits_together_on_any_day() {
    for today in days() {
        let shelf = darkroom(today).shelf;
        assert_eq!(shelf.problems, [], "{today}");
        for event in &shelf.events {
            assert!(event.day < today && event.at < Moment::noon(today + -1), "{event:?}");
            let text = event.to_text();
            assert_eq!(Event::from_text(&text).as_ref(), Ok(event), "{text}");
        }
        for bottle in &shelf.bottles {
            // Nobody knows of one bottle how much is in it.
            let Some(left) = bottle.left() else {
                assert_eq!(bottle.id.as_str(), "example-nameless");
                continue;
            };
            let account = &bottle.account;
            let micro = Volume::microlitres;
            assert_eq!(
                micro(account.came) + micro(account.topped_up) + micro(account.noted),
                micro(left) + micro(account.drawn) + micro(account.decanted) + micro(account.discarded),
                "{}",
                bottle.id
            );
        }
    }
}

/// By hand, in millilitres. Blue: 430 - 8 x 18.75 - 2 x 9.375 - 10; the draw of 187.5 was taken back. Honey:
/// 500 - 6 x 30 - 3 x 106. Its first small bottle: 106 - 3 x 30 - 16. Grey: 1000 - 2 x 125 - 250; the one before
/// 1000 - 3 x 125 - 250. Fixer: 1000 - 2 x 200. Stop bath: 500 - 3 x 50.
#[test]
fn what_is_left_is_what_was_there_less_what_was_taken() {
    let shelf = darkroom(day("2026-03-01")).shelf;
    let by_hand = [
        ("blue", 251.25),
        ("blue-spare", 500.0),
        ("blue-bath", 500.0),
        ("honey-1", 0.0),
        ("honey-2", 106.0),
        ("honey-3", 106.0),
        ("grey", 500.0),
        ("fix", 600.0),
        ("fix-bath", 1000.0),
        ("stop", 350.0),
    ];
    for (name, left) in by_hand {
        let bottle = shelf.bottle(&format!("example-{name}")).expect("there");
        assert_eq!(bottle.left(), Some(Volume::from_millilitres(left)), "{name}");
        assert!(bottle.discarded.is_none(), "{name}");
    }
    let thrown = [("honey", 2.0), ("grey-old", 375.0), ("fix-bath-old", 1000.0)];
    for (name, thrown) in thrown {
        let bottle = shelf.bottle(&format!("example-{name}")).expect("there");
        assert_eq!(bottle.account.discarded, Volume::from_millilitres(thrown), "{name}");
        assert!(bottle.discarded.is_some(), "{name}");
    }
    assert_eq!(shelf.standing().count(), by_hand.len() + 1);
}

/// Each names bottles of the example alone; on its day as much was mixed and as much film went through as it says.
#[test]
fn its_sessions_are_those_of_its_bottles() {
    for today in days() {
        let shelf = darkroom(today).shelf;
        let sessions: Vec<_> = shelf.sessions().collect();
        assert_eq!(sessions.len(), 4);
        for (event, session) in sessions {
            let session = session.expect("it is read");
            let day = session.began.div_euclid(86_400_000);
            assert_eq!(Day::from_days(day as i32), event.day, "{}", session.recipe.title);
            let of_that_day = || shelf.events.iter().filter(|other| other.day == event.day);
            for bath in &session.recipe.baths {
                let bottle = shelf.bottle(&bath.bottle).expect("a bottle of the example");
                assert!(is_example(&bottle.id) && bottle.since <= event.day);
                assert!(
                    bottle
                        .discarded
                        .as_ref()
                        .is_none_or(|discarded| discarded.day > event.day)
                );
                let done = match &bath.made {
                    Made::Mixed {
                        concentrate,
                        water,
                        dilution,
                    } => of_that_day().any(|other| match &other.what {
                        What::Mixed {
                            from,
                            water: poured,
                            dilution: at,
                            ..
                        } => {
                            (from[0].bottle == bottle.id && from[0].volume == *concentrate)
                                && (poured, at.as_ref()) == (water, Some(dilution))
                        }
                        _ => false,
                    }),
                    Made::Reused => true,
                };
                assert!(done, "{} of {}", bath.bottle, event.day);
                if matches!(bath.kind, StepKind::Develop | StepKind::Fix) {
                    let units = bottle.films.iter().filter(|films| films.day == event.day);
                    let units: f64 = units.map(|films| films.units.number()).sum();
                    assert_eq!(units, session.recipe.units, "{} of {}", bath.bottle, event.day);
                }
            }
            // What was asked for was worth the time of the recipe, as what was given was to the hand's few seconds.
            let planned = session
                .recipe
                .steps
                .iter()
                .filter(|step| step.kind == StepKind::Develop);
            let planned: f64 = planned.map(|step| step.time.seconds()).sum();
            let worth = session.worth().expect("it was read").seconds();
            assert!((worth / planned - 1.0).abs() < 0.02, "{worth} {planned}");
        }
    }
}

/// The states of section 2 of the design, each for the reason that its bottle has, whatever the season.
#[test]
fn every_state_is_there() {
    let wanted = [
        ("blue", State::TestFirst),
        ("grey", State::TestFirst),
        ("fix", State::TestFirst),
        ("blue-bath", State::Failed),
        ("honey-1", State::Unknown),
        ("nameless", State::Unknown),
        ("blue-spare", State::InDate),
        ("honey-2", State::InDate),
        ("honey-3", State::InDate),
        ("stop", State::InDate),
        ("fix-bath", State::Proved),
    ];
    for today in days() {
        let darkroom = darkroom(today);
        let all = parts::bottles(&darkroom);
        assert_eq!(all.len(), wanted.len());
        for judged in all {
            let name = &judged.bottle.id.as_str()[example::NAMES.len()..];
            let state = wanted
                .iter()
                .find(|(wanted, _)| *wanted == name)
                .map(|(_, state)| *state);
            assert_eq!(Some(judged.state()), state, "{today} {name}: {:?}", judged.verdict);
            let asks = |voice| {
                judged
                    .deciding()
                    .iter()
                    .any(|reason| reason.asks() && reason.voice() == voice)
            };
            // Each voice asks somewhere: the air through a wall of polyethylene, the sheet of what stood too long.
            match name {
                "fix" => assert!(asks(Voice::Air) && !asks(Voice::Sheet), "{today}"),
                "blue" | "grey" => assert!(asks(Voice::Sheet), "{today} {name}"),
                _ => {}
            }
        }
    }
}

#[test]
fn every_calculator_of_the_shelf_has_something_to_say() {
    // A leap day, and a day of each season.
    for today in days().into_iter().skip(1).step_by(4).take(5) {
        let darkroom = darkroom(today);
        let standing = darkroom
            .shelf
            .standing()
            .filter(|bottle| bottle.left().is_some() && !bottle.is_empty());
        let every: Vec<&str> = standing.map(|bottle| bottle.id.as_str()).collect();
        let with_films = ["example-blue", "example-blue-spare", "example-grey", "example-honey-2"];
        let asked = [
            ("air", &every[..]),
            ("keeping", &every[..]),
            ("decant", &every[..]),
            ("buy", &with_films[..]),
            ("chart", &["example-fix-bath", "example-honey-2"]),
            ("clip", &["example-blue"]),
            ("clear", &["example-fix-bath"]),
            ("spots", &["example-stop"]),
            ("compare", &["example-blue"]),
            ("budget", &["example-blue"]),
            ("job", &["example-blue"]),
            (
                "plan",
                &["example-blue", "example-honey-2", "example-grey", "example-blue-bath"],
            ),
            ("steps", &["example-blue", "example-blue-bath", "example-honey-2"]),
        ];
        for (calculator, bottles) in asked {
            for bottle in bottles {
                let named = Named::from([("bottle".to_owned(), (*bottle).to_owned())]);
                says(calculator, &named, &darkroom);
            }
        }
        let spent = says("spend", &Named::new(), &darkroom);
        for name in ["money_used", "money_thrown", "money_saved"] {
            let figure = spent.iter().find(|(figure, _)| figure == name);
            assert!(
                figure.is_some_and(|(_, value)| *value > 0.0),
                "{today}: {name} {figure:?}"
            );
        }
    }
    // Half a bottle of syrup and half a bottle of stock are worth decanting; what stands brimful is not.
    let darkroom = darkroom(day("2026-03-01"));
    for (bottle, worth_it) in [("blue", true), ("grey", true), ("honey-2", false)] {
        let named = Named::from([("bottle".to_owned(), format!("example-{bottle}"))]);
        let containers = says("decant", &named, &darkroom)[0].1;
        assert_eq!(containers > 0.0, worth_it, "{bottle}: {containers}");
    }
}

/// Else its sentence would stand where nobody sees it.
#[test]
fn what_is_passed_over_is_never_at_fault() {
    let darkroom = darkroom(day("2026-03-01"));
    for calculator in calculators::SHELF {
        for bottle in &darkroom.shelf.bottles {
            let typed = calculator
                .fields
                .iter()
                .map(|field| (field.name().to_owned(), "-1".to_owned()));
            let mut typed: Named = typed.collect();
            typed.insert("bottle".to_owned(), bottle.id.to_string());
            let answer = calculator.answer(&typed, &darkroom);
            let hidden = |fault: &Fault| answer.passed_over.contains(&fault.field.as_str());
            let name = calculator.name;
            assert!(
                !answer.faults.iter().any(hidden),
                "{name} {}: {:?}",
                bottle.id,
                answer.faults
            );
        }
    }
}

#[test]
fn what_the_shelf_knows_need_not_be_typed() {
    let darkroom = darkroom(day("2026-03-01"));
    let fields = [("bottle", "example-blue"), ("left", "nonsense"), ("material", "wood")];
    let typed: Named = fields.map(|(name, text)| (name.to_owned(), text.to_owned())).into();
    for calculator in ["air", "keeping", "decant"] {
        let answer = calculate(calculator, &typed, &darkroom).expect("a calculator");
        assert_eq!(answer.faults, [], "{calculator}");
        for field in ["left", "material", "nominal"] {
            assert!(answer.passed_over.contains(&field), "{calculator}: {field}");
        }
        let bare = Named::from([("left".to_owned(), "nonsense".to_owned())]);
        let answer = calculate(calculator, &bare, &darkroom).expect("a calculator");
        assert_eq!(answer.passed_over, [""; 0], "{calculator}");
        assert_eq!(answer.faults.len(), 1, "{calculator}: {:?}", answer.faults);
    }
}

/// The figures of the headline, by name.
#[track_caller]
fn says(calculator: &str, named: &Named, darkroom: &Darkroom) -> Vec<(String, f64)> {
    let answer = calculate(calculator, named, darkroom).expect("a calculator");
    assert_eq!(answer.faults, [], "{calculator} {named:?}");
    let headline = &answer.sheet.headline;
    assert!(!headline.is_empty(), "{calculator} {named:?}: {:?}", answer.sheet.title);
    headline
        .iter()
        .map(|figure| (figure.name.to_string(), figure.value))
        .collect()
}

#[test]
fn it_never_stands_there_twice() {
    let [one, other] = ["2026-03-01", "2027-01-01"].map(|today| events(day(today)));
    let ids = |events: &[Event]| events.iter().map(|event| event.id).collect::<Vec<_>>();
    assert_eq!(ids(&one), ids(&other));
    let mut all = ids(&one);
    all.sort();
    all.dedup();
    assert_eq!(all.len(), one.len());
    assert_eq!(one, events(day("2026-03-01")));
    // Names of version 8 have no moment (RFC 9562, 5.8), and a text of them is read again.
    for id in all {
        assert_eq!(id.moment(), None);
        assert_eq!(id.to_string().parse::<EventId>(), Ok(id));
    }
}

#[test]
fn it_is_told_from_what_is_the_users() {
    let today = day("2026-03-01");
    let all = events(today);
    assert!(all.iter().all(concerns_example));
    for event in &all {
        assert!(event.what.begins().chain(event.what.needs()).all(is_example));
        if let What::PlaceNoted { place, .. } | What::Moved { place, .. } = &event.what {
            assert!(place.ends_with(example::PLACES), "{place}");
        }
    }
    let at = Moment::noon(today);
    let own = BottleId::new("mine").expect("a name");
    let done = |what: What| {
        concerns_example(&Event {
            id: EventId::new(at, 1),
            at,
            day: today,
            what,
        })
    };
    assert!(!done(What::Opened { bottle: own.clone() }));
    let stop = BottleId::new("example-stop").expect("a name");
    assert!(done(What::Opened { bottle: stop.clone() }));
    let from = Some(stop);
    assert!(done(What::ToppedUp {
        bottle: own,
        volume: Volume::from_millilitres(5.0),
        from
    }));
    assert!(done(What::Corrected { event: all[0].id }));
    assert!(!done(What::Corrected {
        event: EventId::new(at, 2)
    }));
}
