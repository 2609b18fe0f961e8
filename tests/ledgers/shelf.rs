//! What the fold makes of events, case by case.

use meniscus::chemistry::Class;
use meniscus::kit::{Climate, Light, Material, Treatment};
use meniscus::ledger::{BottleId, Missing, Opened, Shelf, What};
use meniscus::quantity::{DecimalMark, Temperature, TemperatureUnit, Units, VolumeUnit};

use crate::generator::{bottle, day, description, event, ml};
use crate::short::{FIRST, added, decanted, drawn, filled, fold, left, noted, problems, treated};

#[test]
fn tenths_add_up_exactly() {
    let mut whats = vec![added("a", Some(1.0))];
    whats.extend((0..10).map(|_| drawn("a", 0.1)));
    let shelf = fold(whats);
    assert_eq!(left(&shelf, "a"), Some(0));
    assert!(shelf.bottles[0].is_empty());
    problems(&shelf, &[]);
}

#[test]
fn more_than_there_is_is_told_and_not_counted() {
    let shelf = fold(vec![added("a", Some(20.0)), drawn("a", 15.0), drawn("a", 18.75)]);
    assert_eq!(left(&shelf, "a"), Some(0));
    assert_eq!(shelf.bottles[0].account.drawn, ml(20.0));
    assert_eq!(shelf.bottles[0].draws[1].volume, ml(18.75));
    problems(
        &shelf,
        &["2026-03-03 18.75 ml were taken where 5 ml should have been left; look how much there is, and note it."],
    );
}

#[test]
fn more_than_it_holds_is_told() {
    let top_up = What::ToppedUp {
        bottle: bottle("a"),
        volume: ml(100.0),
        from: None,
    };
    let shelf = fold(vec![added("a", Some(500.0)), top_up]);
    assert_eq!(left(&shelf, "a"), Some(600_000));
    problems(
        &shelf,
        &[
            "2026-03-02 There would be 600 ml in a bottle that holds 525 ml to the brim; look how much there is, and note it.",
        ],
    );
}

#[test]
fn what_a_bottle_is_can_be_said_anew() {
    let is = description("Blue Syrup", Class::Syrup, Some(1000.0), Material::Pet);
    let shelf = fold(vec![
        added("a", Some(900.0)),
        What::BottleNoted {
            bottle: bottle("a"),
            is: Box::new(is.clone()),
        },
    ]);
    assert_eq!(shelf.bottles[0].is, is);
    // It is no longer too full: what is said anew holds from the beginning.
    problems(&shelf, &[]);
    assert_eq!(
        shelf.bottles[0].headspace(&shelf.bottles[0].life[0].stood),
        Some(ml(150.0))
    );
}

#[test]
fn content_that_nobody_knew_is_known_once_somebody_looks() {
    let look = What::ContentNoted {
        bottle: bottle("a"),
        left: ml(130.0),
    };
    let shelf = fold(vec![added("a", None), drawn("a", 20.0), look, drawn("a", 30.0)]);
    let a = &shelf.bottles[0];
    assert_eq!(left(&shelf, "a"), Some(100_000));
    assert_eq!(a.account.noted, ml(150.0));
    assert_eq!(a.life[0].stood.content, None);
    assert_eq!(a.headspace(&a.life[0].stood), None);
    assert_eq!(a.missing(), [Missing::Place]);
    assert_eq!(
        fold(vec![added("a", None)]).bottles[0].missing(),
        [Missing::Content, Missing::Place]
    );
    assert_eq!(Missing::Content.question(), "How much is left in it?");
}

#[test]
fn the_air_in_a_bottle() {
    let beads = Treatment::Beads(Some(ml(50.0)));
    let shelf = fold(vec![
        added("a", Some(500.0)),
        drawn("a", 200.0),
        treated("a", Treatment::Squeezed),
        drawn("a", 10.0),
        treated("a", Treatment::Beads(None)),
        What::Opened { bottle: bottle("a") },
        treated("a", beads),
        drawn("a", 10.0),
        treated("a", Treatment::InertGas),
        treated("a", Treatment::Plain),
    ]);
    let a = &shelf.bottles[0];
    let life: Vec<_> = a
        .life
        .iter()
        .map(|s| {
            let headspace = a.headspace(&s.stood).expect("capacity and content are known");
            let day = s.from.days() - day(FIRST).days();
            (day, s.stood.open, headspace.millilitres(), s.stood.treatment)
        })
        .collect();
    // The capacity to the brim is 525 ml. An opening undoes what was done, but beads of a known volume stay in.
    assert_eq!(
        life,
        [
            (0, Some(false), 25.0, Treatment::Plain),
            (1, Some(true), 225.0, Treatment::Plain),
            (2, Some(true), 225.0, Treatment::Squeezed),
            (3, Some(true), 235.0, Treatment::Plain),
            (4, Some(true), 235.0, Treatment::Beads(None)),
            (5, Some(true), 235.0, Treatment::Plain),
            (6, Some(true), 235.0, beads),
            (7, Some(true), 245.0, beads),
            (8, Some(true), 245.0, Treatment::InertGas),
            (9, Some(true), 245.0, Treatment::Plain),
        ]
    );
    assert_eq!(a.opened, Opened::On(day("2026-03-02")));
    let openings: Vec<_> = a.openings.iter().map(|o| (o.day, o.times)).collect();
    assert_eq!(openings, (1..10).map(|n| (day(FIRST) + n, 1)).collect::<Vec<_>>());
    assert_eq!(a.openings[1].stood.treatment, Treatment::Squeezed);
}

#[test]
fn an_opening_is_how_the_bottle_was_put_away_that_day() {
    let on_one_day = vec![
        added("a", Some(500.0)),
        drawn("a", 100.0),
        drawn("a", 100.0),
        treated("a", Treatment::Squeezed),
    ];
    let events = (0..)
        .zip(on_one_day)
        .map(|(n, what)| event(n, day(FIRST), n as i64, what))
        .collect();
    let shelf = Shelf::fold(events, day(FIRST) + 5);
    let a = &shelf.bottles[0];
    assert_eq!(a.openings.len(), 1);
    assert_eq!((a.openings[0].times, a.openings[0].stood), (3, a.now));
    assert_eq!(a.life.len(), 1);
    assert_eq!(a.now.treatment, Treatment::Squeezed);
}

#[test]
fn what_was_decanted_goes_on_with_its_life() {
    let shelf = fold(vec![
        added("a", Some(500.0)),
        What::Moved {
            bottle: bottle("a"),
            place: "cellar".to_owned(),
        },
        decanted("a", vec![filled("b", 100.0), filled("c", 50.0)]),
        drawn("a", 50.0),
        decanted("b", vec![filled("d", 20.0)]),
    ]);
    assert_eq!(left(&shelf, "a"), Some(300_000));
    assert_eq!(shelf.bottles[0].account.decanted, ml(150.0));
    let d = shelf.bottle("d").expect("the bottle is there");
    assert_eq!(d.is.label, shelf.bottles[0].is.label);
    assert_eq!(d.is.price, None);
    assert_eq!(d.opened, Opened::On(day("2026-03-05")));
    assert_eq!(d.now.place, Some(0));
    let back = std::iter::successors(Some(d), |bottle| shelf.decanted_from(bottle));
    let stood_in: Vec<_> = back
        .map(|bottle| (bottle.id.to_string(), bottle.since - day(FIRST)))
        .collect();
    assert_eq!(
        stood_in,
        [("d", 4), ("b", 2), ("a", 0)].map(|(name, since)| (name.to_owned(), since))
    );
}

#[test]
fn places_are_what_was_noted_last() {
    let noted = |degrees: f64| What::PlaceNoted {
        place: "cellar".to_owned(),
        climate: Some(Climate::Steady(Temperature::from_celsius(degrees))),
        light: Some(Light::Dark),
    };
    let shelf = fold(vec![noted(14.0), noted(18.0)]);
    let cellar = shelf.place("cellar").expect("the place is there");
    let on = |text: &str| cellar.on(day(text)).and_then(|note| note.climate);
    let steady = |degrees| Some(Climate::Steady(Temperature::from_celsius(degrees)));
    assert_eq!(on("2026-03-01"), steady(14.0));
    assert_eq!(on("2026-03-02"), steady(18.0));
    // Before anybody said anything it is taken to have been as it was said first.
    assert_eq!(on("2020-01-01"), steady(14.0));
}

/// By hand: a place is in use until it is dropped; what is put there or noted of it, or the dropping taken back, brings it back.
/// What was noted of it stays known.
#[test]
fn a_place_goes_off_the_list_and_comes_back() {
    let noted = || What::PlaceNoted {
        place: "cellar".to_owned(),
        climate: Some(Climate::Steady(Temperature::from_celsius(14.0))),
        light: None,
    };
    let dropped = |place: &str| What::PlaceDropped {
        place: place.to_owned(),
    };
    let moved = || What::Moved {
        bottle: bottle("a"),
        place: "cellar".to_owned(),
    };
    let gone = || What::Discarded {
        bottle: bottle("a"),
        reason: String::new(),
    };
    let in_use = |shelf: &Shelf| {
        let places = shelf.places_in_use();
        places
            .map(|(place, bottles)| (place.name.clone(), bottles))
            .collect::<Vec<_>>()
    };
    let cellar = |bottles| vec![("cellar".to_owned(), bottles)];
    let full = || added("a", Some(20.0));
    assert_eq!(in_use(&fold(vec![noted()])), cellar(0));
    let shelf = fold(vec![noted(), dropped("cellar")]);
    assert_eq!(in_use(&shelf), []);
    assert!(
        shelf
            .place("cellar")
            .is_some_and(|cellar| cellar.on(shelf.today).is_some())
    );
    assert!(shelf.problems.is_empty());
    assert_eq!(
        shelf.words(&shelf.events[1], None, Units::default()),
        "took the place “cellar” off the list"
    );
    assert_eq!(in_use(&fold(vec![noted(), dropped("cellar"), noted()])), cellar(0));
    assert_eq!(
        in_use(&fold(vec![full(), noted(), dropped("cellar"), moved()])),
        cellar(1)
    );
    // Another device put a bottle there meanwhile; once that is gone, so is the place.
    assert_eq!(in_use(&fold(vec![full(), moved(), dropped("cellar")])), cellar(1));
    assert_eq!(in_use(&fold(vec![full(), moved(), dropped("cellar"), gone()])), []);
    assert_eq!(in_use(&fold(vec![noted(), dropped("attic")])), cellar(0));
    let back = What::Corrected {
        event: shelf.events[1].id,
    };
    assert_eq!(in_use(&fold(vec![noted(), dropped("cellar"), back])), cellar(0));
}

#[test]
fn an_empty_bottle_has_no_life() {
    let top_up = What::ToppedUp {
        bottle: bottle("a"),
        volume: ml(10.0),
        from: None,
    };
    let shelf = fold(vec![added("a", Some(20.0)), drawn("a", 20.0), noted("a"), top_up]);
    let spans: Vec<_> = shelf.bottles[0].life.iter().map(|s| (s.from, s.to)).collect();
    let day = |n: i32| day(FIRST) + n;
    assert_eq!(spans, [(day(0), day(1)), (day(3), day(100))]);
}

#[test]
fn words_are_in_the_users_units() {
    let units = Units {
        volume: VolumeUnit::UsFluidOunce,
        temperature: TemperatureUnit::Fahrenheit,
        decimal: DecimalMark::Comma,
    };
    let cellar = What::PlaceNoted {
        place: "cellar".to_owned(),
        climate: Some(Climate::Between(
            Temperature::from_celsius(10.0),
            Temperature::from_celsius(20.0),
        )),
        light: None,
    };
    let shelf = fold(vec![added("a", Some(473.176_473)), drawn("a", 29.573_53), cellar]);
    let words: Vec<_> = shelf
        .events
        .iter()
        .map(|event| shelf.words(event, None, units))
        .collect();
    assert_eq!(
        words,
        [
            "added 16 fl oz of “Blue Syrup” (developer, syrup concentrate), in a 16,91 fl oz bottle of glass, for 14,90 EUR",
            "drew 1 fl oz from “Blue Syrup”",
            "place “cellar”: 50 °F to 68 °F",
        ]
    );
    assert_eq!(
        shelf.life_record("a", units)[1].to_string(),
        "2026-03-02 drew 1 fl oz; 15 fl oz left"
    );
    assert_eq!(shelf.life_record("nothing", units), []);
}

#[test]
fn a_bottle_needs_a_name() {
    for name in ["", " ", "a\nb", &"x".repeat(81)] {
        assert!(BottleId::new(name).is_err(), "{name}");
    }
}
