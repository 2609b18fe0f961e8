//! What is handed out of the log: its table, and the escapes of Markdown and text.

use proptest::prelude::*;

use super::*;

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
    let sessions = read_csv(&view::log_csv(&Found::of(&shelf, &Named::new())));
    let life = read_csv(&view::life_csv(&shelf, Units::default()));
    for cell in sessions
        .iter()
        .chain(&life)
        .flatten()
        .filter(|cell| cell.starts_with(['=', '+', '-', '@']))
    {
        assert!(cell.parse::<f64>().is_ok() && cell.starts_with('-'), "{cell}");
    }
}

/// The invented darkroom as if it were the user's own.
fn own_shelf() -> Shelf {
    let own = |event: Event| {
        let json = event.to_text().splitn(3, ' ').last().expect("an object").to_owned();
        let json = json
            .replace("example-", "own-")
            .replace(" (example)", "")
            .replace("6578616d-706c-8", "6578616e-706c-8");
        let checksum = crc::Crc::<u32>::new(&crc::CRC_32_ISO_HDLC).checksum(json.as_bytes());
        Event::from_text(&format!("1 {checksum:08x} {json}")).expect("an event")
    };
    Shelf::fold(example::events(today()).into_iter().map(own).collect(), today())
}

/// The record of each bottle, line for line; and nothing that happened is missing.
#[test]
fn the_table_of_all_that_happened_is_the_records() {
    let (shelf, units) = (own_shelf(), us_with_comma());
    let lines = read_csv(&view::life_csv(&shelf, units));
    assert!(lines.iter().all(|line| line.len() == lines[0].len()));
    let [events, bottles, words, left, counts] =
        ["event", "bottle", "words", "left_ml", "counts"].map(|name| column(&lines, name));
    for event in &shelf.events {
        assert!(events.contains(&event.id.to_string()), "{event:?}");
    }
    assert!(shelf.bottles.len() > 5);
    for bottle in &shelf.bottles {
        let own: Vec<usize> = (0..bottles.len())
            .filter(|at| bottles[*at] == bottle.id.as_str())
            .collect();
        let record = shelf.life_record(bottle.id.as_str(), units);
        assert_eq!(own.len(), record.len());
        for ((at, line), entry) in own.into_iter().zip(&record).zip(&bottle.entries) {
            assert_eq!(events[at], line.event.to_string());
            let said = words[at].trim_start_matches('\'');
            assert!(
                !said.is_empty() && line.words.starts_with(said),
                "{} {said}",
                line.words
            );
            assert_eq!(left[at].parse::<f64>().ok(), entry.left.map(Volume::millilitres));
            let counted = match entry.counts {
                Counts::Yes => "yes",
                Counts::TakenBack => "taken back",
                Counts::No => "no",
            };
            assert_eq!(counts[at], counted);
        }
    }
}

/// The invented darkroom is none of the user's, and so is not in the table; what was developed beside it is.
#[test]
fn the_table_leaves_the_example_out() {
    let shelf = shelf();
    let lines = read_csv(&view::life_csv(&shelf, Units::default()));
    assert_eq!(column(&lines, "what"), ["developed"; 3]);
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
    let (_, note) = markdown.split_once("## Remark\n\n").expect("a remark");
    let (note, _) = note.split_once("\n\n## ").expect("the steps follow");
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
