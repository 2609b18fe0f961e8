//! The built page: what a first visit fetches stays small, and comes from nowhere else.

use std::io::Write;

use flate2::Compression;
use flate2::write::GzEncoder;

use super::{none, top, walk};

/// Most bytes of the page's own wasm after gzip: the sink, the ledger and what keeps it.
const WASM: usize = 200_000;
/// Most bytes of all files of a first visit after gzip.
const ALL: usize = 260_000;
/// What a first visit leaves for later, how its folder's name begins, and most bytes of it after gzip: the module of the shelf,
/// fetched when the shelf is first opened, that of scans, fetched when a picture is to be sampled, and
/// that of the timer and the log, fetched when steps are to be run or the log is opened.
const LATER: [(&str, &str, usize); 3] = [
    ("the shelf", "shelf-", 520_000),
    ("the module of scans", "scan-", 190_000),
    ("the timer and the log", "day-", 130_000),
];

/// Every file of the bundle, with its content.
fn built() -> Vec<(String, Vec<u8>)> {
    let folder = top().join("dist");
    assert!(
        folder.join("index.html").exists(),
        "dist/ is missing: run `make build` first"
    );
    let mut paths = Vec::new();
    for entry in std::fs::read_dir(&folder).expect("dist/") {
        let path = entry.expect("an entry").path();
        match path.is_dir() {
            true => walk(&path, &mut paths),
            false => paths.push(path),
        }
    }
    let read = |path: std::path::PathBuf| {
        let name = path
            .strip_prefix(&folder)
            .expect("in dist/")
            .to_string_lossy()
            .into_owned();
        (name, std::fs::read(&path).expect("a file of dist/"))
    };
    paths.into_iter().map(read).collect()
}

/// As a server sends it.
fn zipped(content: &[u8]) -> usize {
    let mut gzip = GzEncoder::new(Vec::new(), Compression::best());
    gzip.write_all(content).expect("memory");
    gzip.finish().expect("memory").len()
}

#[test]
fn the_bundle_stays_small() {
    let sizes: Vec<(String, usize)> = built()
        .into_iter()
        .map(|(name, content)| (name, zipped(&content)))
        .collect();
    let sum = |counts: &dyn Fn(&str) -> bool| -> usize {
        let counted = sizes.iter().filter(|(name, _)| counts(name));
        counted.map(|(_, size)| size).sum()
    };
    let is_first = |name: &str| !LATER.iter().any(|(_, folder, _)| name.starts_with(folder));
    let all = sum(&is_first);
    let wasm = sum(&|name| is_first(name) && name.ends_with(".wasm"));
    let list = || {
        sizes
            .iter()
            .map(|(name, size)| format!("\n    {size:>7} {name}"))
            .collect::<String>()
    };
    assert!(wasm > 0, "there is no wasm in dist/: run `make build` again");
    assert!(
        wasm <= WASM,
        "the wasm has {wasm} bytes after gzip, more than {WASM}:{}",
        list()
    );
    assert!(
        all <= ALL,
        "a first visit fetches {all} bytes after gzip, more than {ALL}:{}",
        list()
    );
    for (what, folder, most) in LATER {
        let later = sum(&|name| name.starts_with(folder));
        assert!(later > 0, "{what} is missing in dist/: run `make build` again");
        assert!(
            later <= most,
            "{what} has {later} bytes after gzip, more than {most}:{}",
            list()
        );
    }
}

#[test]
fn the_bundle_loads_nothing_from_elsewhere() {
    let mut wrong = Vec::new();
    for (name, content) in built() {
        let Ok(text) = String::from_utf8(content) else {
            continue;
        };
        // A comment of the generated glue may point to where it is explained.
        let lines = text.lines().filter(|line| !line.trim_start().starts_with("//"));
        let text = lines
            .collect::<Vec<_>>()
            .join("\n")
            .replace("http://www.w3.org/2000/svg", "");
        for word in ["http://", "https://", "ws://", "wss://"] {
            if text.contains(word) {
                wrong.push(format!("dist/{name} has {word}: the page loads nothing from elsewhere"));
            }
        }
        // Any path prefix must do, so nothing is asked of the root.
        for word in ["src=\"/", "href=\"/", "from '/", "from \"/", "import('/", "fetch('/"] {
            if text.contains(word) {
                wrong.push(format!("dist/{name} has {word}: the page must work under any path"));
            }
        }
    }
    none(wrong);
}
