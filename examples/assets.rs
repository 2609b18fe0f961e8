//! The last step of the page's build: builds the module of the shelf, which is loaded when it is first
//! opened, and writes into the service worker which files make up this release, each with its SHA-256, and
//! a version that follows from all of them.
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

/// The folder of what a first visit does not need.
const LATER: &str = "shelf/";

/// How the line of the service worker begins that this step replaces.
const LINE: &str = "const RELEASE = ";

fn main() -> ExitCode {
    let outcome = match (env::args_os().nth(1), env::var_os("TRUNK_STAGING_DIR")) {
        (Some(folder), _) => fill_in(Path::new(&folder)),
        (None, Some(staging)) => build_shelf(Path::new(&staging)).and_then(|()| fill_in(Path::new(&staging))),
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

/// Builds the crate once more, as the module of the shelf, into its own folder of the page.
fn build_shelf(folder: &Path) -> Result<(), String> {
    const TARGET: &str = "wasm32-unknown-unknown";
    let cargo = env::var_os("CARGO").unwrap_or("cargo".into());
    run(Command::new(cargo).args([
        "build",
        "--release",
        "--offline",
        "--lib",
        "--features",
        "annex",
        "--target",
        TARGET,
    ]))?;
    let target = env::var_os("CARGO_TARGET_DIR").map_or(PathBuf::from("target"), PathBuf::from);
    run(Command::new("wasm-bindgen")
        .args(["--target", "web", "--no-typescript", "--out-name", "shelf", "--out-dir"])
        .arg(folder.join(LATER))
        .arg(target.join(TARGET).join("release/meniscus.wasm")))
}

fn run(command: &mut Command) -> Result<(), String> {
    let name = command.get_program().to_string_lossy().into_owned();
    match command.status() {
        Ok(status) if status.success() => Ok(()),
        Ok(status) => Err(format!("{name} ended with {status}")),
        Err(error) => Err(format!("{name}: {error}")),
    }
}

/// Fills in the service worker of the built page in `folder` and returns the release's version:
/// 16 hexadecimal digits that change with any byte of any file. Doing it twice changes nothing.
///
/// # Errors
///
/// A sentence, when a file cannot be read or written, when a name would need escaping in an
/// address, or when the service worker does not hold its line exactly once.
pub fn fill_in(folder: &Path) -> Result<String, String> {
    let worker_path = folder.join(WORKER);
    let worker = String::from_utf8(read(&worker_path)?).map_err(|e| format!("{WORKER}: {e}"))?;
    let (before, after) = around_the_line(&worker)?;

    let (mut assets, mut later) = (BTreeMap::new(), BTreeMap::new());
    for path in files_below(folder)? {
        let name = address(&path, folder)?;
        if name != WORKER {
            let list = if name.starts_with(LATER) {
                &mut later
            } else {
                &mut assets
            };
            list.insert(name, hex(&Sha256::digest(read(&path)?)));
        }
    }

    let list = |files| serde_json::to_string(files).map_err(|e| e.to_string());
    let (assets, later) = (list(&assets)?, list(&later)?);
    let version = hex(&Sha256::digest([before, &assets, &later, after].concat()))[..16].to_owned();
    let line = format!(r#"{LINE}{{ version: "{version}", assets: {assets}, later: {later} }};"#);
    fs::write(&worker_path, [before, &line, after].concat()).map_err(|e| format!("{}: {e}", worker_path.display()))?;
    Ok(version)
}

/// What stands before and after the line to replace.
fn around_the_line(worker: &str) -> Result<(&str, &str), String> {
    let mut starts = worker.match_indices(LINE).map(|(at, _)| at);
    let (Some(start), None) = (starts.next(), starts.next()) else {
        return Err(format!("{WORKER} must hold `{LINE}` exactly once"));
    };
    let length = worker[start..].find('\n').unwrap_or(worker.len() - start);
    Ok((&worker[..start], &worker[start + length..]))
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

fn hex(bytes: &[u8]) -> String {
    bytes.iter().map(|byte| format!("{byte:02x}")).collect()
}
