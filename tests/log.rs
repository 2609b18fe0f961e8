//! The log: its list, the page of a session, the write-up and CSV as kept texts, the question and its faults, and the laws of its
//! escapes. Its figures follow from those of `tests/ledgers` and of the invented darkroom.
#![cfg(not(target_arch = "wasm32"))]

use meniscus::example;
use meniscus::fields::Named;
use meniscus::ledger::{Event, EventId, Moment, Shelf, What, session_to_text};
use meniscus::parts::{Found, Logged};
use meniscus::quantity::{Day, DecimalMark, Span, Temperature, TemperatureUnit, Units, Volume, VolumeUnit};
use meniscus::session::{Agitation, Bath, Made, Rate, Recipe, Session, Step, StepKind, Went};
use meniscus::view;
use proptest::prelude::*;

use golden::Golden;

#[path = "common/golden.rs"]
mod golden;

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
                at: Temperature::from_celsius(24.0),
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

/// A reader of CSV by the grammar of RFC 4180, 2: derived a second time, and strict.
fn read_csv(text: &str) -> Vec<Vec<String>> {
    let mut lines = vec![vec![String::new()]];
    let mut letters = text.chars().peekable();
    let mut quoted = false;
    while let Some(letter) = letters.next() {
        let line = lines.last_mut().expect("a line");
        let cell = line.last_mut().expect("a cell");
        match (letter, quoted) {
            ('"', true) if letters.peek() == Some(&'"') => {
                letters.next();
                cell.push('"');
            }
            ('"', true) => {
                quoted = false;
                assert!(
                    matches!(letters.peek(), None | Some(',' | '\r')),
                    "after a closing mark"
                );
            }
            ('"', false) => {
                assert!(cell.is_empty(), "a mark within a cell that has none around it: {cell}");
                quoted = true;
            }
            (',', false) => line.push(String::new()),
            ('\r', false) => {
                assert_eq!(letters.next(), Some('\n'));
                lines.push(vec![String::new()]);
            }
            ('\n', false) => panic!("a bare line feed"),
            (letter, _) => cell.push(letter),
        }
    }
    assert!(!quoted, "a cell without an end");
    assert_eq!(lines.pop(), Some(vec![String::new()]), "the last line ends");
    lines
}

/// The cell of a column in every line.
fn column(lines: &[Vec<String>], name: &str) -> Vec<String> {
    let place = lines[0]
        .iter()
        .position(|head| head == name)
        .expect("a column of that name");
    lines[1..].iter().map(|line| line[place].clone()).collect()
}

#[test]
fn the_table_of_a_session_has_its_figures() {
    let shelf = shelf();
    let id = logged(&shelf, "=Two").event.id.to_string();
    let lines = read_csv(&view::log_csv(&Found::of(&shelf, &asked(&[("session", &id)]))));
    assert!(lines.iter().all(|line| line.len() == lines[0].len()));
    let note = odd().note;
    // By hand, from the session above.
    let expected: &[(&str, [&str; 5])] = &[
        ("number", ["1", "2", "3", "4", ""]),
        ("step", ["1", "2", "2", "3", "4"]),
        ("kind", ["develop", "develop", "develop", "stop", "fix"]),
        (
            "name",
            ["First bath", "Second bath", "Second bath", "Stop", "'-5 °C fixer"],
        ),
        ("title", ["'=Two baths|*A* & _B_ <b>"; 5]),
        ("films", ["'+1 roll, \"old\""; 5]),
        ("began_utc", ["2026-02-25T06:13:20Z"; 5]),
        ("film_units", ["1.25"; 5]),
        ("length_s", ["511.2"; 5]),
        ("planned_s", ["240", "180", "180", "30", "300"]),
        ("asked_s", ["240", "180", "30", "30", ""]),
        ("given_s", ["245", "170", "30", "31.2", ""]),
        ("difference_s", ["5", "-10", "0", "1.2", ""]),
        ("paused_s", ["12", "0", "0", "0", ""]),
        ("temperature_asked_celsius", ["24", "", "", "", ""]),
        (
            "temperatures_read_celsius",
            ["24.1 at 30 s; 23.5 at 200 s", "", "", "", ""],
        ),
        // 24.1 for 30 s, 23.8 on average for 170 s, 23.5 for 45 s.
        ("temperature_mean_celsius", ["23.782", "", "", "", ""]),
        ("agitation_first_s", ["30", "", "", "", ""]),
        (
            "bath",
            ["'@home bath", "'@home bath", "'@home bath", "", "Clear Fix bath"],
        ),
        ("bath_made", ["mixed", "mixed", "mixed", "mixed", "reused"]),
        ("concentrate_ml", ["12.5", "12.5", "12.5", "0", ""]),
        ("water_ml", ["237.5", "237.5", "237.5", "250", ""]),
        ("dilution", ["1+19", "1+19", "1+19", "undiluted", ""]),
        ("activation_j_per_mol", ["79500"; 5]),
        ("note", [note.as_str(); 5]),
    ];
    for (name, cells) in expected {
        assert_eq!(column(&lines, name), cells, "{name}");
    }
}

/// Nothing in a table begins like a formula but numbers of its own.
#[test]
fn no_cell_is_a_formula() {
    let shelf = shelf();
    let lines = read_csv(&view::log_csv(&Found::of(&shelf, &Named::new())));
    for cell in lines
        .iter()
        .flatten()
        .filter(|cell| cell.starts_with(['=', '+', '-', '@']))
    {
        assert!(cell.parse::<f64>().is_ok() && cell.starts_with('-'), "{cell}");
    }
}

/// What a reader of Markdown shows of a text without marks but escaped ones: CommonMark 0.31, 2.4, derived by hand; panics at a mark
/// that would do something.
fn shown(text: &str) -> String {
    let mut shown = String::new();
    let mut letters = text.chars();
    while let Some(letter) = letters.next() {
        match letter {
            '\\' => shown.push(
                letters
                    .next()
                    .filter(char::is_ascii_punctuation)
                    .expect("an escaped mark"),
            ),
            '*' | '_' | '`' | '[' | ']' | '<' | '>' | '#' | '|' | '~' | '&' => panic!("a bare {letter} in {text}"),
            plain => shown.push(plain),
        }
    }
    shown
}

#[test]
fn markdown_shows_the_words_as_they_were_written() {
    let shelf = shelf();
    let markdown = view::log_markdown(&logged(&shelf, "=Two"), &shelf, Units::default());
    let mut lines = markdown.lines();
    let title = lines.next().and_then(|line| line.strip_prefix("# ")).expect("a title");
    assert_eq!(shown(title), "=Two baths|*A* & _B_ <b>, 2026-02-27");
    let (_, note) = markdown.split_once("## Note\n\n").expect("a note");
    let note: Vec<String> = note.split("\n\n").map(|line| shown(line.trim_end())).collect();
    assert_eq!(
        note,
        [
            "1. It foamed.",
            "- Then it did not.",
            "# Never again, `rocked` by hand ~ or not\\"
        ]
    );
    for line in markdown.lines() {
        assert_eq!(line.trim_end(), line);
        assert!(!line.starts_with("1.") && !line.starts_with("- -"), "{line}");
    }
    let rows: Vec<&str> = markdown.lines().filter(|line| line.starts_with('|')).collect();
    let cells = |row: &str| row.replace("\\|", "").matches('|').count();
    assert_eq!(rows.len(), 7);
    assert!(rows.iter().all(|row| cells(row) == 8), "{rows:?}");
}

#[test]
fn text_has_no_trailing_blanks() {
    let shelf = shelf();
    for logged in Logged::all(&shelf).filter(|logged| logged.session.is_ok()) {
        let text = view::log_text(&logged, &shelf, Units::default());
        assert!(text.lines().all(|line| line.trim_end() == line) && text.ends_with('\n') && !text.ends_with("\n\n"));
        assert!(!text.contains('['), "drawings are left out: {text}");
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 100, failure_persistence: None, ..ProptestConfig::default() })]

    /// Whatever is written into a session, a table gives it back, its guard apart, and markup and Markdown only show it.
    #[test]
    fn words_stay_words(words in "[ -~é“\\n\\r]{0,40}", lead in "[=+@-]{0,2}") {
        let words = lead + &words;
        let mut session = odd();
        session.recipe.title = words.clone();
        session.recipe.films = words.clone();
        session.recipe.steps[0].name = words.clone();
        session.note = words.clone();
        session.doubts = vec![words.clone()];
        let shelf = Shelf::fold(vec![event(1, today(), session_to_text(&session))], today());
        let guarded = match words.starts_with(['=', '+', '-', '@', '\t', '\r']) {
            true => format!("'{words}"),
            false => words.clone(),
        };
        let found = Found::of(&shelf, &Named::new());
        let lines = read_csv(&view::log_csv(&found));
        for name in ["title", "films", "note", "doubts"] {
            prop_assert_eq!(&column(&lines, name)[0], &guarded);
        }
        let logged = &found.sessions[0];
        let page = view::log_entry(logged, &shelf, Units::default()).into_string() + &view::log_list(&found, Units::default()).into_string();
        prop_assert!(!page.contains("<script") && !page.contains("<b>old"));
        let markdown = view::log_markdown(logged, &shelf, Units::default());
        let title = markdown.lines().next().and_then(|line| line.strip_prefix("# ")).expect("a title");
        let day = match words.is_empty() {
            true => format!("A session of {}", today()),
            false => format!("{words}, {}", today()),
        };
        let joined: Vec<String> = day.split_whitespace().map(str::to_owned).collect();
        prop_assert_eq!(shown(title), joined.join(" "));
    }

    /// All are found by their own words, and fewer by more words.
    #[test]
    fn more_words_find_no_more(words in proptest::collection::vec("[a-z1+]{1,4}", 1..4)) {
        let shelf = shelf();
        let found = |words: &[String]| {
            let found = Found::of(&shelf, &asked(&[("words", &words.join(" "))]));
            found.sessions.iter().map(|logged| logged.event.id).collect::<Vec<_>>()
        };
        let (few, many) = (found(&words[..1]), found(&words));
        prop_assert!(many.iter().all(|id| few.contains(id)));
    }
}
