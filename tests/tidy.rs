//! The rules of the house, read off its own files. Every rule that is broken says what is missing and where it belongs.
#![cfg(not(target_arch = "wasm32"))]

use std::fs;
use std::path::{Path, PathBuf};

#[path = "tidy/bundle.rs"]
mod bundle;
#[path = "tidy/forms.rs"]
mod forms;
#[path = "tidy/html.rs"]
mod html;
#[path = "tidy/rooms.rs"]
mod rooms;
#[path = "tidy/words.rs"]
mod words;

/// The folder that holds everything.
fn top() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR"))
}

/// A file by its path from the top.
#[track_caller]
fn read(path: &str) -> String {
    fs::read_to_string(top().join(path)).unwrap_or_else(|error| panic!("{path} cannot be read: {error}"))
}

/// Every file below a folder, by its path from the top, in order; what is built or fetched is left out.
fn files(below: &str) -> Vec<String> {
    let mut found = Vec::new();
    walk(&top().join(below), &mut found);
    let mut names: Vec<String> = found
        .iter()
        .map(|path| {
            path.strip_prefix(top())
                .expect("below the top")
                .to_string_lossy()
                .replace('\\', "/")
        })
        .collect();
    names.sort();
    names
}

fn walk(folder: &Path, found: &mut Vec<PathBuf>) {
    let Ok(entries) = fs::read_dir(folder) else {
        return;
    };
    for entry in entries {
        let path = entry.expect("an entry").path();
        let name = path.file_name().unwrap_or_default().to_string_lossy().into_owned();
        if path.is_dir() {
            if !["target", ".git", "node_modules"].contains(&name.as_str()) && path != top().join("dist") {
                walk(&path, found);
            }
        } else {
            found.push(path);
        }
    }
}

/// Fails with all that is wrong, if anything is.
#[track_caller]
fn none(wrong: Vec<String>) {
    assert!(wrong.is_empty(), "\n{}\n", wrong.join("\n"));
}
