//! The last step of the page's build: builds the modules that are loaded when they are first wanted, names the folder of each by
//! what is in it, so that its address leads to this release or nowhere, and writes into the service worker which files make up
//! this release, each with its SHA-256, and a version that follows from all of them.
//!
//! Trunk runs it over its staging folder. By hand, for a folder that is whole: `cargo run --example assets --
//! FOLDER`.

use std::{
    collections::BTreeMap,
    env, fs,
    path::{Path, PathBuf},
    process::{Command, ExitCode},
};

use sha2::{Digest, Sha256};

/// The service worker, which is not in its own list.
const WORKER: &str = "sw.js";

/// How the line of it begins that this step replaces.
const RELEASE: &str = "const RELEASE = ";

/// The page's loader, which fetches the later modules.
const LOADER: &str = "start.js";

/// How the line of it begins that names their folders.
const FOLDERS: &str = "const LATER = ";

/// A module that a first visit does not need.
pub struct Later {
    /// Its name, and its folder as it is built. A hyphen and a digest follow once the folder is named.
    pub name: &'static str,
    /// The feature of the crate that makes it.
    feature: &'static str,
    /// A script that stands beside it, from `www`.
    beside: Option<&'static str>,
}

/// All of them.
pub const LATER: [Later; 3] = [
    Later {
        name: "shelf",
        feature: "annex",
        beside: None,
    },
    Later {
        name: "scan",
        feature: "scan",
        beside: Some("picture.js"),
    },
    Later {
        name: "day",
        feature: "day",
        beside: None,
    },
];

fn main() -> ExitCode {
    let outcome = match (env::args_os().nth(1), env::var_os("TRUNK_STAGING_DIR")) {
        (Some(folder), _) => fill_in(Path::new(&folder)),
        (None, Some(staging)) => LATER
            .iter()
            .try_for_each(|later| build(later, Path::new(&staging)))
            .and_then(|()| fill_in(Path::new(&staging))),
        (None, None) => Err("name the folder that holds the built page".to_owned()),
    };
    match outcome {
        Ok(version) => {
            println!("release {version}");
            ExitCode::SUCCESS
        }
        Err(sentence) => {
            eprintln!("assets: {sentence}");
            ExitCode::FAILURE
        }
    }
}

/// Builds the crate once more, as a later module, into its own folder of the page.
fn build(later: &Later, folder: &Path) -> Result<(), String> {
    const TARGET: &str = "wasm32-unknown-unknown";
    let cargo = env::var_os("CARGO").unwrap_or("cargo".into());
    run(Command::new(cargo).args([
        "build",
        "--release",
        "--offline",
        "--lib",
        "--features",
        later.feature,
        "--target",
        TARGET,
    ]))?;
    let target = env::var_os("CARGO_TARGET_DIR").map_or(PathBuf::from("target"), PathBuf::from);
    let folder = folder.join(later.name);
    run(Command::new("wasm-bindgen")
        .args([
            "--target",
            "web",
            "--no-typescript",
            "--out-name",
            later.name,
            "--out-dir",
        ])
        .arg(&folder)
        .arg(target.join(TARGET).join("release/meniscus.wasm")))?;
    let Some(beside) = later.beside else { return Ok(()) };
    let source = Path::new("www").join(beside);
    let copied = fs::copy(&source, folder.join(beside));
    copied.map(drop).map_err(|e| format!("{}: {e}", source.display()))
}

fn run(command: &mut Command) -> Result<(), String> {
    let name = command.get_program().to_string_lossy().into_owned();
    match command.status() {
        Ok(status) if status.success() => Ok(()),
        Ok(status) => Err(format!("{name} ended with {status}")),
        Err(error) => Err(format!("{name}: {error}")),
    }
}

/// Names the folders of the later modules in the built page in `folder`, fills in the loader and the service worker, and
/// returns the release's version: 16 hexadecimal digits that change with any byte of any file. Doing it twice
/// changes nothing.
///
/// # Errors
///
/// A sentence, when a file cannot be read or written, when a name would need escaping in an
/// address, when the loader or the service worker does not hold its line exactly once, or when there
/// is not exactly one folder of each later module.
pub fn fill_in(folder: &Path) -> Result<String, String> {
    let later = name_later(folder)?;
    let is_later = |name: &str| later.iter().any(|folder| name.split('/').next() == Some(folder));
    let mut files = digests(folder)?;
    files.remove(WORKER);
    let (later, assets) = files.into_iter().partition(|(name, _)| is_later(name));
    let (assets, later) = (list(&assets)?, list(&later)?);

    let (before, after) = around_the_line(folder, WORKER, RELEASE)?;
    let version = short(&[&*before, &assets, &later, &after].concat());
    let line = format!(r#"{RELEASE}{{ version: "{version}", assets: {assets}, later: {later} }};"#);
    write(&folder.join(WORKER), &[before, line, after].concat())?;
    Ok(version)
}

/// Names each folder of a later module by the names and contents of its files, in the loader too, and returns the names.
fn name_later(folder: &Path) -> Result<Vec<String>, String> {
    let mut names = BTreeMap::new();
    for Later { name, .. } in LATER {
        let built = folder_of(name, folder)?;
        let named = format!("{name}-{}", short(&list(&digests(&built)?)?));
        fs::rename(&built, folder.join(&named)).map_err(|e| format!("{}: {e}", built.display()))?;
        names.insert(name.to_owned(), named);
    }
    let (before, after) = around_the_line(folder, LOADER, FOLDERS)?;
    let line = format!("{FOLDERS}{};", list(&names)?);
    write(&folder.join(LOADER), &[before, line, after].concat())?;
    Ok(names.into_values().collect())
}

/// The folder of a later module in a built page, named or not yet.
///
/// # Errors
///
/// A sentence, when the page's folder cannot be read, or when there is none or more than one.
pub fn folder_of(later: &str, folder: &Path) -> Result<PathBuf, String> {
    let complain = |e: std::io::Error| format!("{}: {e}", folder.display());
    let mut found = Vec::new();
    for entry in fs::read_dir(folder).map_err(complain)? {
        let path = entry.map_err(complain)?.path();
        let name = path.file_name().unwrap_or_default().to_string_lossy();
        if name.split('-').next() == Some(later) && path.is_dir() {
            found.push(path);
        }
    }
    match (found.pop(), found.pop()) {
        (Some(one), None) => Ok(one),
        _ => Err(format!(
            "{} must hold one folder of the module {later}",
            folder.display()
        )),
    }
}

/// What stands before and after the line to replace.
fn around_the_line(folder: &Path, file: &str, line: &str) -> Result<(String, String), String> {
    let text = String::from_utf8(read(&folder.join(file))?).map_err(|e| format!("{file}: {e}"))?;
    let mut starts = text.match_indices(line).map(|(at, _)| at);
    let (Some(start), None) = (starts.next(), starts.next()) else {
        return Err(format!("{file} must hold `{line}` exactly once"));
    };
    let length = text[start..].find('\n').unwrap_or(text.len() - start);
    Ok((text[..start].to_owned(), text[start + length..].to_owned()))
}

/// The files below a folder by their addresses in it, each with its SHA-256.
fn digests(folder: &Path) -> Result<BTreeMap<String, String>, String> {
    let digest = |path: &PathBuf| Ok((address(path, folder)?, hex(&Sha256::digest(read(path)?))));
    files_below(folder)?.iter().map(digest).collect()
}

fn list(files: &BTreeMap<String, String>) -> Result<String, String> {
    serde_json::to_string(files).map_err(|e| e.to_string())
}

/// All files below a folder, hidden ones left out: many hosts do not serve those.
fn files_below(folder: &Path) -> Result<Vec<PathBuf>, String> {
    let complain = |e: std::io::Error| format!("{}: {e}", folder.display());
    let mut files = Vec::new();
    for entry in fs::read_dir(folder).map_err(complain)? {
        let entry = entry.map_err(complain)?;
        if entry.file_name().as_encoded_bytes().starts_with(b".") {
            continue;
        }
        if entry.file_type().map_err(complain)?.is_dir() {
            files.extend(files_below(&entry.path())?);
        } else {
            files.push(entry.path());
        }
    }
    Ok(files)
}

/// The file's address relative to the page.
fn address(path: &Path, folder: &Path) -> Result<String, String> {
    let parts = path.strip_prefix(folder).map_err(|e| e.to_string())?;
    let name = parts
        .iter()
        .map(|part| part.to_string_lossy())
        .collect::<Vec<_>>()
        .join("/");
    let plain = |c: char| c.is_ascii_alphanumeric() || "._-/".contains(c);
    match name.chars().all(plain) {
        true => Ok(name),
        false => Err(format!(
            "{name}: keep to letters, digits, dots and hyphens in file names"
        )),
    }
}

fn read(path: &Path) -> Result<Vec<u8>, String> {
    fs::read(path).map_err(|e| format!("{}: {e}", path.display()))
}

fn write(path: &Path, text: &str) -> Result<(), String> {
    fs::write(path, text).map_err(|e| format!("{}: {e}", path.display()))
}

/// The beginning of a text's SHA-256.
fn short(text: &str) -> String {
    hex(&Sha256::digest(text)[..8])
}

fn hex(bytes: &[u8]) -> String {
    bytes.iter().map(|byte| format!("{byte:02x}")).collect()
}
