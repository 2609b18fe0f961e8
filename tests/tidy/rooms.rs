//! Sources: each opens with what it is, none is too long, and each names only the rooms before it.

use std::collections::BTreeMap;

use meniscus::calculators;

use super::{files, none, read};

/// Longest source, in bytes.
const LONGEST: usize = 20_000;

fn sources() -> Vec<String> {
    let folders = ["src", "tests", "benches", "examples"];
    folders
        .into_iter()
        .flat_map(files)
        .filter(|path| path.ends_with(".rs"))
        .collect()
}

/// The code of a file without its comments, so that a comment may name anything.
fn code(path: &str) -> String {
    let text = read(path);
    let lines = text.lines().map(|line| match line.find("//") {
        // a // inside a string is an address, and not a comment
        Some(at) if !line[..at].ends_with(':') => &line[..at],
        _ => line,
    });
    lines.collect::<Vec<_>>().join("\n")
}

/// The words that follow `crate::`, also in a list of them.
fn named_rooms(code: &str) -> Vec<String> {
    let word = |text: &str| {
        let end = text
            .find(|c: char| !(c.is_alphanumeric() || c == '_'))
            .unwrap_or(text.len());
        text[..end].to_owned()
    };
    let mut found = Vec::new();
    for (at, _) in code.match_indices("crate::") {
        let tail = &code[at + "crate::".len()..];
        match tail.strip_prefix('{') {
            None => found.push(word(tail)),
            Some(list) => {
                let mut depth = 0;
                let mut start = 0;
                for (index, c) in list.char_indices() {
                    match c {
                        '{' => depth += 1,
                        '}' if depth == 0 => {
                            found.push(word(list[start..index].trim()));
                            break;
                        }
                        '}' => depth -= 1,
                        ',' if depth == 0 => {
                            found.push(word(list[start..index].trim()));
                            start = index + 1;
                        }
                        _ => {}
                    }
                }
            }
        }
    }
    found.retain(|name| !name.is_empty());
    found
}

/// `src/kit/tank.rs` belongs to `kit`.
fn room_of(path: &str) -> &str {
    let inside = path.strip_prefix("src/").unwrap_or(path);
    inside.split(['/', '.']).next().unwrap_or(inside)
}

/// The modules in the order in which `src/lib.rs` lists them, which is the order for a newcomer.
fn order() -> Vec<String> {
    let lib = read("src/lib.rs");
    let modules = lib.lines().filter_map(|line| {
        let line = line.trim();
        line.strip_prefix("pub mod ")
            .or(line.strip_prefix("mod "))?
            .strip_suffix(';')
    });
    modules.map(str::to_owned).collect()
}

#[test]
fn every_source_says_what_it_is_and_stays_short() {
    let mut wrong = Vec::new();
    for path in sources() {
        let text = read(&path);
        if !text.starts_with("//! ") {
            wrong.push(format!(
                "{path} does not open with //!: say in its first line what the file is"
            ));
        }
        if text.len() > LONGEST {
            wrong.push(format!(
                "{path} has {} bytes, more than {LONGEST}: divide it",
                text.len()
            ));
        }
        if path.ends_with("/mod.rs") {
            wrong.push(format!("{path}: write the module beside its folder, as NAME.rs"));
        }
    }
    none(wrong);
}

#[test]
fn each_room_names_only_those_before_it() {
    let order = order();
    let place: BTreeMap<&str, usize> = order
        .iter()
        .enumerate()
        .map(|(place, name)| (name.as_str(), place))
        .collect();
    let mut wrong = Vec::new();
    for path in files("src").into_iter().filter(|path| path.ends_with(".rs")) {
        let room = room_of(&path);
        if room == "lib" {
            continue;
        }
        let Some(own) = place.get(room) else {
            wrong.push(format!("{path} belongs to no module of src/lib.rs: list it there"));
            continue;
        };
        for name in named_rooms(&code(&path)) {
            match place.get(name.as_str()) {
                None => wrong.push(format!("{path} names crate::{name}, which src/lib.rs does not list")),
                Some(other) if other > own => wrong.push(format!(
                    "{path} names {name}, which src/lib.rs lists after {room}: what both need belongs into an earlier module"
                )),
                Some(_) => {}
            }
        }
    }
    none(wrong);
}

/// Rooms that name even less than their place allows.
const ONLY: [(&str, &[&str]); 4] = [
    ("quantity", &[]),
    ("uncertainty", &["quantity"]),
    ("chemistry", &["quantity", "uncertainty"]),
    ("sheet", &["quantity", "uncertainty", "kit", "proof", "session"]),
];

#[test]
fn the_lower_rooms_stand_alone() {
    let mut wrong = Vec::new();
    for path in files("src").into_iter().filter(|path| path.ends_with(".rs")) {
        let room = room_of(&path);
        let Some((_, allowed)) = ONLY.iter().find(|(name, _)| *name == room) else {
            continue;
        };
        for name in named_rooms(&code(&path)) {
            if name != room && !allowed.contains(&name.as_str()) {
                wrong.push(format!("{path} names {name}: {room} names nothing but {allowed:?}"));
            }
        }
    }
    none(wrong);
}

#[test]
fn calculators_name_neither_each_other_nor_what_shows_or_keeps_them() {
    let own: Vec<&str> = calculators::ALL.iter().map(|calculator| calculator.name).collect();
    let mut wrong = Vec::new();
    for path in files("src/calculators") {
        let code = code(&path);
        for name in &own {
            if code.contains(&format!("super::{name}")) || code.contains(&format!("calculators::{name}")) {
                wrong.push(format!(
                    "{path} names the calculator {name}: what two share belongs into src/parts"
                ));
            }
        }
        for room in ["store", "page", "view", "entries"] {
            if named_rooms(&code).iter().any(|name| name == room) {
                wrong.push(format!(
                    "{path} names {room}: a calculator knows only its form and the kit"
                ));
            }
        }
    }
    assert_eq!(
        files("src/calculators").len(),
        own.len(),
        "one file for each calculator of the list in src/calculators.rs"
    );
    none(wrong);
}

/// What may be named in some places only.
const CONFINED: [(&[&str], &[&str], &str); 3] = [
    (
        &["serde"],
        &["src/view/data.rs", "src/annex.rs", "src/page.rs", "src/page/"],
        "the core's types have no written form of their own",
    ),
    (
        &[
            "wasm_bindgen",
            "web_sys",
            "js_sys",
            "gloo_",
            "serde_wasm_bindgen",
            "uuid::",
        ],
        &[
            "src/annex.rs",
            "src/browser.rs",
            "src/browser/",
            "src/day.rs",
            "src/day/",
            "src/page.rs",
            "src/page/",
            "src/scan.rs",
            "src/scan/",
        ],
        "the browser's crates belong to the page and its later modules",
    ),
    (
        &["SystemTime", "Instant::", "Date::new", "Date::now", "new_0()"],
        &["src/browser/clock.rs"],
        "only src/browser/clock.rs reads the time",
    ),
];

#[test]
fn what_is_confined_stays_where_it_is() {
    let mut wrong = Vec::new();
    for path in files("src").into_iter().filter(|path| path.ends_with(".rs")) {
        let code = code(&path);
        for (words, places, why) in CONFINED {
            let allowed = places
                .iter()
                .any(|place| path == *place || (place.ends_with('/') && path.starts_with(place)));
            for word in words.iter().filter(|word| !allowed && code.contains(*word)) {
                wrong.push(format!("{path} names {word}: {why}"));
            }
        }
    }
    none(wrong);
}

/// The table of rooms in DEVELOPERS.md has the modules of `src/lib.rs`, in their order.
#[test]
fn the_map_of_the_house_is_true() {
    let map = read("DEVELOPERS.md");
    let rooms: Vec<&str> = map
        .lines()
        .filter_map(|line| line.strip_prefix("| `src/")?.split_once(".rs` |"))
        .map(|(room, _)| room)
        .collect();
    assert_eq!(
        rooms,
        order(),
        "the table of rooms in DEVELOPERS.md and the modules of src/lib.rs"
    );
}

/// Every path that the documents put in backticks exists; `NAME` and the like stand for anything, built folders need not be
/// there.
#[test]
fn every_path_in_the_documents_exists() {
    let mut wrong = Vec::new();
    let mut found = 0;
    for document in ["README.md", "DEVELOPERS.md"] {
        for piece in read(document).split('`').skip(1).step_by(2) {
            let is_path = piece.starts_with(|c: char| c.is_ascii_lowercase() || c == '.')
                && !piece.contains(char::is_whitespace)
                && ["src", "tests", "www", "benches", "examples", ".ci"]
                    .iter()
                    .any(|folder| piece.strip_prefix(folder).is_some_and(|rest| rest.starts_with('/')));
            if !is_path
                || piece
                    .split(['/', '.'])
                    .any(|part| part.len() > 1 && part.chars().all(|c| c.is_ascii_uppercase()))
            {
                continue;
            }
            found += 1;
            if !super::top().join(piece).exists() {
                wrong.push(format!("{document} names {piece}, which does not exist"));
            }
        }
    }
    assert!(
        found > 15,
        "only {found} paths were found in README.md and DEVELOPERS.md"
    );
    none(wrong);
}

#[test]
fn the_reader_of_sources_reads() {
    let names = named_rooms(
        "use crate::quantity::Volume; use crate::{fields::{self, Form}, kit, sheet::Sheet}; crate::view::text()",
    );
    assert_eq!(names, ["quantity", "fields", "kit", "sheet", "view"]);
    assert_eq!((room_of("src/kit/tank.rs"), room_of("src/kit.rs")), ("kit", "kit"));
}
