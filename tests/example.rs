//! The invented darkroom: that it fits together on any day, shows every state, gives every calculator of the shelf something to
//! say, and can be told from what is the user's.
#![cfg(not(target_arch = "wasm32"))]

use meniscus::calculators::calculate;
use meniscus::darkroom::Darkroom;
use meniscus::example::{self, all_of_it, concerns_example, events, is_example};
use meniscus::fields::Named;
use meniscus::keeping::{State, Voice};
use meniscus::kit::Kit;
use meniscus::ledger::{Bath, BottleId, Event, EventId, Moment, Portion, Shelf, What};
use meniscus::parts;
use meniscus::quantity::{Day, Units, Volume};

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
    Darkroom {
        kit: Kit::starter(),
        shelf: Shelf::fold(events(today), today),
    }
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
    let mut all = events(today);
    assert!(all.iter().all(concerns_example));
    for event in &all {
        assert!(event.what.begins().chain(event.what.needs()).all(is_example));
        if let What::PlaceNoted { place, .. } | What::Moved { place, .. } = &event.what {
            assert!(place.ends_with(example::PLACES), "{place}");
        }
    }
    let own_count = all.len();
    let bottle = |name: &str| BottleId::new(name).expect("a name");
    let mut done = |what: What| {
        let at = Moment::noon(today);
        let id = EventId::new(at, all.len() as u128);
        all.push(Event {
            id,
            at,
            day: today,
            what,
        });
        id
    };
    let added = events(today).into_iter().find_map(|event| match event.what {
        What::Added { is, .. } => Some(is),
        _ => None,
    });
    let is = added.expect("one came");
    let opened = |name: &str| What::Opened { bottle: bottle(name) };
    let mixed = |from: &[&str], into: &str| What::Mixed {
        from: from
            .iter()
            .map(|name| Portion {
                bottle: bottle(name),
                volume: Volume::from_millilitres(10.0),
            })
            .collect(),
        water: Volume::from_millilitres(500.0),
        dilution: None,
        into: Bath::Kept {
            bottle: bottle(into),
            is: is.clone(),
        },
    };
    let mine = What::Added {
        bottle: bottle("mine"),
        is: is.clone(),
        filled: Some(Volume::from_millilitres(300.0)),
        opened: meniscus::ledger::Opened::Never,
    };
    let stays = [
        done(mine),
        done(opened("mine")),
        done(mixed(&["mine", "example-blue"], "of both")),
        done(opened("of both")),
        done(What::ToppedUp {
            bottle: bottle("mine"),
            volume: Volume::from_millilitres(5.0),
            from: Some(bottle("example-blue")),
        }),
    ];
    let taken_back = done(opened("example-stop"));
    let goes = [
        taken_back,
        done(What::Corrected { event: taken_back }),
        done(mixed(&["example-blue"], "of the example")),
        done(opened("of the example")),
    ];
    let shelf = Shelf::fold(all.clone(), today);
    assert_eq!(shelf.problems, []);
    let gone = all_of_it(&shelf);
    assert!(goes.iter().all(|id| gone.contains(id)));
    assert!(!stays.iter().any(|id| gone.contains(id)));
    assert_eq!(gone.len(), own_count + goes.len());

    let by_itself = |name: &str| {
        let its = all
            .iter()
            .filter(|event| event.what.needs().any(|id| id.as_str() == name));
        its.map(concerns_example).collect::<Vec<_>>()
    };
    assert!(by_itself("example-stop").iter().all(|concerns| *concerns));
    assert_eq!(by_itself("of both"), [false]);
    // What names both an example's bottle and the user's concerns the example too, and stays all the same.
    assert_eq!(by_itself("mine"), [false, true, true]);

    // What is left afterwards: one bottle, and what was mixed from it, with a word on what is no longer there.
    all.retain(|event| !gone.contains(&event.id));
    let rest = Shelf::fold(all, today);
    let left: Vec<_> = rest.bottles.iter().map(|bottle| bottle.id.as_str()).collect();
    assert_eq!(left, ["mine", "of both"]);
    // 300 - 10 + 5.
    assert_eq!(rest.bottles[0].left(), Some(Volume::from_millilitres(295.0)));
    // Both events that named a bottle of the example besides.
    assert_eq!(rest.problems.len(), 2);
    for problem in &rest.problems {
        assert_eq!(
            problem.sentence(Units::default()),
            "The bottle of this event is not here; import the file of the device that it was written on."
        );
    }
}

/// Corrections that take back each other belong to nobody, and the search for whose they are ends.
#[test]
fn a_circle_of_corrections_is_left_alone() {
    let today = day("2026-03-01");
    let at = Moment::noon(today);
    let ids = [1, 2].map(|number| EventId::new(at, number));
    let take_back = |id, event| Event {
        id,
        at,
        day: today,
        what: What::Corrected { event },
    };
    let circle = vec![take_back(ids[0], ids[1]), take_back(ids[1], ids[0])];
    let shelf = Shelf::fold(circle, today);
    assert_eq!(all_of_it(&shelf), []);
}
