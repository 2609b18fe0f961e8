//! What stands nowhere in the tree, and what the page never loads.

use super::html::{self, Tag};
use super::{files, none, read};

/// Words that belong into no file: paths of one machine, hosts of registries, things put off. Written in two halves, so that
/// this file is no exception.
const NOWHERE: &[&str] = &[
    concat!("/wo", "rk/"),
    concat!("/ro", "ot/"),
    concat!("/ho", "me/"),
    concat!("/t", "mp/"),
    concat!("crates", ".io"),
    concat!("npmjs", ".org"),
    concat!("github", ".com"),
    concat!("local", "host:"),
    concat!("TO", "DO"),
    concat!("FIX", "ME"),
    concat!("to", "do!("),
    concat!("unimplem", "ented!("),
    concat!("#[ig", "nore"),
    concat!("should_", "panic"),
    concat!("dbg", "!("),
];

/// Files of text that people write: by their endings, or known by name.
fn texts() -> Vec<String> {
    let endings = [
        ".rs",
        ".toml",
        ".md",
        ".html",
        ".css",
        ".js",
        ".json",
        ".webmanifest",
        ".txt",
        ".svg",
    ];
    let is_text = |path: &String| {
        let name = path.rsplit('/').next().unwrap_or(path);
        name != "Cargo.lock" && (endings.iter().any(|ending| name.ends_with(ending)) || !name.contains('.'))
    };
    files("").into_iter().filter(is_text).collect()
}

#[test]
fn words_that_stand_nowhere() {
    let mut wrong = Vec::new();
    let texts = texts();
    assert!(texts.len() > 100, "only {} files were looked at", texts.len());
    for path in texts {
        // What was typed in tests may hold anything but is no file of text.
        let Ok(text) = std::fs::read_to_string(super::top().join(&path)) else {
            wrong.push(format!("{path} is not text"));
            continue;
        };
        for word in NOWHERE {
            if let Some(line) = text.lines().position(|line| line.contains(word)) {
                wrong.push(format!("{path}, line {}: {word} belongs into no file", line + 1));
            }
        }
    }
    none(wrong);
}

/// The one address that is allowed: it names a vocabulary and is never loaded.
const SVG: &str = "http://www.w3.org/2000/svg";

#[test]
fn nothing_is_loaded_from_elsewhere() {
    let mut wrong = Vec::new();
    for path in files("www").into_iter().filter(|path| !path.ends_with(".png")) {
        let text = read(&path).replace(SVG, "");
        for word in [
            "http://", "https://", "ws://", "wss://", "@import", "url(//", "\"//", "'//",
        ] {
            if text.contains(word) {
                wrong.push(format!("{path} has {word}: the page loads nothing from elsewhere"));
            }
        }
    }
    none(wrong);
}

/// The page's own policy forbids what stands inline, so it would not run anyway.
#[test]
fn nothing_stands_inline() {
    let mut wrong = Vec::new();
    let page = read("www/index.html");
    for tag in html::tags(&page).into_iter().filter(|tag| !tag.closes) {
        let Tag {
            name, attributes, text, ..
        } = &tag;
        if name == "script" && !(attributes.contains_key("src") && text.trim().is_empty()) {
            wrong.push("www/index.html has a script of its own: put it into a file".to_owned());
        }
        if name == "style" || attributes.contains_key("style") {
            wrong.push(format!(
                "www/index.html has a style on <{name}>: put it into www/style.css"
            ));
        }
        for attribute in attributes.keys().filter(|attribute| attribute.starts_with("on")) {
            wrong.push(format!(
                "www/index.html has {attribute} on <{name}>: listen in src/page"
            ));
        }
    }
    let policy = html::tags(&page).into_iter().find(|tag| {
        tag.attributes
            .get("http-equiv")
            .is_some_and(|value| value == "Content-Security-Policy")
    });
    let policy = policy.map(|tag| tag.attributes["content"].clone()).unwrap_or_default();
    for rule in [
        "default-src 'none'",
        "script-src 'self' 'wasm-unsafe-eval'",
        "connect-src 'self'",
        "form-action 'none'",
    ] {
        if !policy.split(';').any(|found| found.trim() == rule) {
            wrong.push(format!("the content security policy of www/index.html lacks {rule}"));
        }
    }
    none(wrong);
}
