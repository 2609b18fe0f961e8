//! Texts that are kept in files and compared word by word. `MENISCUS_WRITE=1 cargo test` writes them anew; read what changed.

use std::collections::BTreeSet;
use std::path::PathBuf;

/// Texts of one folder below `tests`, checked together.
pub struct Golden {
    folder: PathBuf,
    seen: BTreeSet<String>,
    wrong: Vec<String>,
}

impl Golden {
    /// The files `tests/FOLDER/*.txt`.
    pub fn new(folder: &str) -> Self {
        Self {
            folder: [env!("CARGO_MANIFEST_DIR"), "tests", folder].iter().collect(),
            seen: BTreeSet::new(),
            wrong: Vec::new(),
        }
    }

    /// Compares a text with its file.
    pub fn check(&mut self, name: &str, text: &str) {
        let path = self.folder.join(format!("{name}.txt"));
        assert!(self.seen.insert(format!("{name}.txt")), "two texts are called {name}");
        if std::env::var_os("MENISCUS_WRITE").is_some() {
            std::fs::write(&path, text).expect("the folder of the texts can be written");
            return;
        }
        let Ok(kept) = std::fs::read_to_string(&path) else {
            self.wrong
                .push(format!("{name}.txt is missing: write it with MENISCUS_WRITE=1"));
            return;
        };
        let lines = kept.lines().map(Some).chain(std::iter::repeat(None));
        let differing = text
            .lines()
            .map(Some)
            .chain([None])
            .zip(lines)
            .enumerate()
            .find(|(_, (new, old))| new != old);
        if let Some((index, (new, old))) = differing {
            self.wrong.push(format!(
                "{name}.txt, line {}:\n    was: {}\n    is:  {}",
                index + 1,
                old.unwrap_or("(the end)"),
                new.unwrap_or("(the end)")
            ));
        }
    }

    /// Tells everything that differs, and files that no text belongs to.
    #[track_caller]
    pub fn finish(mut self) {
        let files = std::fs::read_dir(&self.folder).expect("the folder of the texts");
        let names = files.map(|file| file.expect("a file").file_name().to_string_lossy().into_owned());
        for name in names.filter(|name| name.ends_with(".txt") && !self.seen.contains(name)) {
            self.wrong
                .push(format!("{name} belongs to no text any more: remove it"));
        }
        assert!(
            self.wrong.is_empty(),
            "{}\nMENISCUS_WRITE=1 writes them anew; read what changed.",
            self.wrong.join("\n")
        );
    }
}
