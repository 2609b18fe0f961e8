//! The log: its list, the page of a session, the write-up and CSV as kept texts, the question and its faults, and the laws of its
//! escapes. Its figures follow from those of `tests/ledgers` and of the invented darkroom.
#![cfg(not(target_arch = "wasm32"))]

use meniscus::development::drift::Onward;
use meniscus::example;
use meniscus::fields::Named;
use meniscus::ledger::{Counts, Event, EventId, Moment, Shelf, What, session_to_text};
use meniscus::parts::{Found, Logged};
use meniscus::quantity::{Day, DecimalMark, Span, Temperature, TemperatureUnit, Units, Volume, VolumeUnit};
use meniscus::session::{Agitation, Bath, Made, Rate, Recipe, Session, Step, StepKind, Went};
use meniscus::view;

use golden::Golden;

#[path = "common/golden.rs"]
mod golden;
#[path = "log/handed_out.rs"]
mod handed_out;

fn today() -> Day {
    "2026-03-01".parse().expect("a day")
}

fn seconds(seconds: f64) -> Span {
    Span::from_seconds(seconds)
}

/// A session in which nothing went as planned, written by somebody who likes marks.
fn odd() -> Session {
    let step = |kind, name: &str, time, temperature: Option<f64>| Step {
        kind,
        name: name.to_owned(),
        time: seconds(time),
        temperature: temperature.map(Temperature::from_celsius),
        agitation: None,
    };
    let rocked = Agitation {
        first: seconds(30.0),
        each: Span::ZERO,
        every: Span::ZERO,
    };
    let went = |step, began, lasted, due, paused| Went {
        step,
        began: seconds(began),
        lasted: seconds(lasted),
        due: seconds(due),
        paused: seconds(paused),
        readings: Vec::new(),
    };
    let mut first = went(0, 0.0, 245.0, 240.0, 12.0);
    first.readings = vec![
        (seconds(30.0), Temperature::from_celsius(24.1)),
        (seconds(200.0), Temperature::from_celsius(23.5)),
    ];
    Session {
        recipe: Recipe {
            title: "=Two baths|*A* & _B_ <b>".to_owned(),
            films: "+1 roll, \"old\"".to_owned(),
            units: 1.25,
            steps: vec![
                Step {
                    agitation: Some(rocked),
                    ..step(StepKind::Develop, "First bath", 240.0, Some(24.0))
                },
                step(StepKind::Develop, "Second bath", 180.0, None),
                step(StepKind::Stop, "", 30.0, None),
                step(StepKind::Fix, "-5 °C fixer", 300.0, None),
            ],
            baths: vec![
                Bath {
                    kind: StepKind::Develop,
                    bottle: String::new(),
                    words: "@home bath".to_owned(),
                    made: Made::Mixed {
                        concentrate: Volume::from_millilitres(12.5),
                        water: Volume::from_millilitres(237.5),
                        dilution: "1+19".parse().expect("a dilution"),
                    },
                },
                Bath {
                    kind: StepKind::Stop,
                    bottle: String::new(),
                    words: String::new(),
                    made: Made::Mixed {
                        concentrate: Volume::ZERO,
                        water: Volume::from_millilitres(250.0),
                        dilution: "stock".parse().expect("a dilution"),
                    },
                },
                Bath {
                    kind: StepKind::Fix,
                    bottle: "example-fix-bath".to_owned(),
                    words: "Clear Fix bath".to_owned(),
                    made: Made::Reused,
                },
            ],
            rate: Some(Rate {
                activation: 79_500.0,
                is_assumed: Some(true),
                at: Temperature::from_celsius(24.0),
                onward: Onward::Towards {
                    room: Temperature::from_celsius(18.0),
                    tau: Span::from_minutes(90.0),
                },
            }),
            figures: vec![("Total".to_owned(), "250 ml ± 3 ml".to_owned())],
            form: vec![("total".to_owned(), "250 ml".to_owned())],
        },
        began: 1_772_000_000_000,
        steps: vec![
            first,
            went(1, 260.0, 170.0, 180.0, 0.0),
            went(1, 440.0, 30.0, 30.0, 0.0),
            went(2, 480.0, 31.2, 30.0, 0.0),
        ],
        doubts: vec!["The clock was changed by 0:40 in “Second bath”.".to_owned()],
        note: "1. It foamed.\n- Then it did not.\n\n  # Never again, `rocked` by hand ~ or not\\".to_owned(),
    }
}

fn event(number: u128, day: Day, text: String) -> Event {
    let at = Moment::noon(day);
    Event {
        id: EventId::new(at, number),
        at,
        day,
        what: What::Developed { text },
    }
}

/// The invented darkroom; on two days before today the odd one, one that is a copy of an earlier title, and one that nobody can read.
fn shelf() -> Shelf {
    let mut events = example::events(today());
    let mut choir = Shelf::fold(events.clone(), today())
        .sessions()
        .find_map(|(_, session)| {
            session
                .ok()
                .filter(|session| session.recipe.title.starts_with("The choir"))
        })
        .expect("there");
    choir.recipe.title = choir.recipe.title.to_uppercase();
    events.push(event(1, today() + -2, session_to_text(&odd())));
    events.push(event(2, today() + -1, session_to_text(&choir)));
    events.push(event(3, today() + -1, r#"{"recipe":{"title":"torn<"#.to_owned()));
    Shelf::fold(events, today())
}

fn us_with_comma() -> Units {
    Units {
        volume: VolumeUnit::UsFluidOunce,
        temperature: TemperatureUnit::Fahrenheit,
        decimal: DecimalMark::Comma,
    }
}

fn asked(pairs: &[(&str, &str)]) -> Named {
    let pairs = pairs
        .iter()
        .map(|(name, text)| ((*name).to_owned(), (*text).to_owned()));
    pairs.collect()
}

fn logged<'a>(shelf: &'a Shelf, title: &str) -> Logged<'a> {
    let is_it = |logged: &Logged| {
        logged
            .session
            .as_ref()
            .is_ok_and(|session| session.recipe.title.starts_with(title))
    };
    Logged::all(shelf).find(is_it).expect("a session of that title")
}

/// Markup with every element on its own line, to be read.
fn lines(markup: &str) -> String {
    let mut text = String::new();
    for (at, letter) in markup.char_indices() {
        let closes_again = markup[at..].starts_with("</");
        if letter == '<' && !closes_again && !text.is_empty() && !text.ends_with('\n') {
            text.push('\n');
        }
        text.push(letter);
    }
    text + "\n"
}

#[test]
fn kept_texts() {
    let shelf = shelf();
    let mut golden = Golden::new("log");
    let list = |fields: &[(&str, &str)], units| {
        let found = Found::of(&shelf, &asked(fields));
        lines(&view::log_list(&found, units).into_string())
    };
    golden.check("list", &list(&[], Units::default()));
    golden.check(
        "list-found",
        &list(&[("words", "BLUE fix"), ("from", "2025-12-01")], us_with_comma()),
    );
    golden.check(
        "list-none",
        &list(&[("words", "daguerre"), ("to", "soon")], Units::default()),
    );
    let empty = Shelf::fold(Vec::new(), today());
    golden.check(
        "list-empty",
        &lines(&view::log_list(&Found::of(&empty, &Named::new()), Units::default()).into_string()),
    );
    for (name, title, units) in [
        ("choir", "THE CHOIR", Units::default()),
        ("children", "The children", us_with_comma()),
        ("odd", "=Two", Units::default()),
    ] {
        let logged = logged(&shelf, title);
        golden.check(
            &format!("{name}-page"),
            &lines(&view::log_entry(&logged, &shelf, units).into_string()),
        );
        golden.check(&format!("{name}-text"), &view::log_text(&logged, &shelf, units));
        golden.check(&format!("{name}-markdown"), &view::log_markdown(&logged, &shelf, units));
    }
    let unread = Logged::all(&shelf)
        .find(|logged| logged.session.is_err())
        .expect("there");
    golden.check(
        "unread-page",
        &lines(&view::log_entry(&unread, &shelf, Units::default()).into_string()),
    );
    golden.check("unread-text", &view::log_text(&unread, &shelf, Units::default()));
    golden.check(
        "unread-markdown",
        &view::log_markdown(&unread, &shelf, Units::default()),
    );
    golden.check("csv", &view::log_csv(&Found::of(&shelf, &Named::new())));
    golden.finish();
}

/// How many are found, and the sentences of the faults.
#[track_caller]
fn finds(fields: &[(&str, &str)], count: usize, faults: &[&str]) {
    let shelf = shelf();
    let found = Found::of(&shelf, &asked(fields));
    assert_eq!(found.sessions.len(), count, "{fields:?}");
    let sentences: Vec<&str> = found.faults.iter().map(|fault| fault.sentence.as_str()).collect();
    assert_eq!(sentences, faults, "{fields:?}");
}

/// By hand: four of the example on 2025-11-01 (the choir), 2025-12-25, 2026-01-27 and 2026-02-12; the odd one on 2026-02-27, the choir
/// again and the one that cannot be read on 2026-02-28.
#[test]
fn it_is_searched() {
    finds(&[], 7, &[]);
    finds(&[("words", " \n ")], 7, &[]);
    finds(&[("words", "choir")], 2, &[]);
    finds(&[("words", "Chöír SYRUP")], 2, &[]);
    finds(&[("words", "choir street")], 0, &[]);
    finds(&[("words", "candles")], 2, &[]);
    finds(&[("words", "wetting")], 4, &[]);
    finds(&[("words", "sour 1+19")], 2, &[]);
    finds(&[("words", "1 roll, \"old\"")], 1, &[]);
    finds(&[("bottle", "example-fix-bath")], 3, &[]);
    finds(&[("bottle", "example-fix-bath"), ("words", "roll old")], 1, &[]);
    finds(&[("bottle", "example-fix")], 0, &[]);
    finds(&[("from", "2026-02-28")], 2, &[]);
    finds(&[("from", "2026-02-28"), ("words", "choir")], 1, &[]);
    finds(&[("to", "2025-11-01")], 1, &[]);
    finds(&[("from", "2025-11-02"), ("to", "2026-02-12")], 3, &[]);
    finds(&[("session", "nobody")], 0, &[]);
}

#[test]
fn every_fault_has_a_sentence_and_the_rest_is_answered() {
    finds(
        &[("from", "yesterday"), ("words", "choir")],
        2,
        &["“yesterday” is not a day; write year-month-day, such as 2026-03-01."],
    );
    finds(
        &[("from", "2026-02-28"), ("to", "2026-02-27")],
        0,
        &["The last day comes before the first."],
    );
    finds(
        &[("words", &"x".repeat(1001))],
        7,
        &["A note has at most 1000 characters."],
    );
    finds(
        &[("mood", "good")],
        7,
        &["There is no field of this name; there are words, from, to, bottle, session."],
    );
}

#[test]
fn what_cannot_be_read_stops_nothing_and_is_told() {
    let shelf = shelf();
    let found = Found::of(&shelf, &asked(&[("words", "choir")]));
    assert_eq!((found.of, found.not_searched), (7, 1));
    // By hand: 2 + 2 + 1 + 2 of the example, 1.25, and 2.
    assert_eq!(Found::of(&shelf, &Named::new()).film_units(), 10.25);
    let id = Logged::all(&shelf)
        .find(|logged| logged.session.is_err())
        .expect("there")
        .event
        .id;
    let one = Found::of(&shelf, &asked(&[("session", &id.to_string())]));
    assert_eq!(one.sessions.len(), 1);
    assert!(Logged::of(&shelf, "nonsense").is_none());
    assert!(Logged::of(&shelf, &shelf.events[0].id.to_string()).is_none());
    assert_eq!(
        Logged::of(&shelf, &id.to_string()).map(|logged| logged.event.id),
        Some(id)
    );
}

/// What was taken back is neither in the list nor has it a page.
#[test]
fn what_is_taken_back_is_gone() {
    let shelf = shelf();
    let odd = logged(&shelf, "=Two").event.clone();
    let mut events = shelf.events.clone();
    events.push(Event {
        id: EventId::new(Moment::noon(today()), 9),
        at: Moment::noon(today()),
        day: today(),
        what: What::Corrected { event: odd.id },
    });
    let after = Shelf::fold(events, today());
    assert_eq!(Logged::all(&after).count(), 6);
    assert!(Logged::of(&after, &odd.id.to_string()).is_none());
}
