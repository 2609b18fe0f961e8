//! The built page, and a next release of it.

use std::{
    fs,
    path::{Path, PathBuf},
};

#[path = "../../examples/assets.rs"]
#[expect(dead_code, reason = "its `main` is for the build")]
mod assets;

/// What the title of the page ends with in the release that [`next`] makes.
pub const NEXT_TITLE: &str = " (next)";

/// The built page.
pub fn built() -> PathBuf {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("dist");
    assert!(
        folder.join("index.html").is_file(),
        "dist/ is missing: run `make build` first"
    );
    folder
}

/// A release after the built one, in a folder named for the test that wants it. Its page has
/// [`NEXT_TITLE`], and its modules differ in bytes though not in what they compute.
pub fn next(test: &str) -> PathBuf {
    let folder = scratch(&format!("{test}-release"));
    copy(&built(), &folder);

    let page = folder.join("index.html");
    let text = fs::read_to_string(&page).expect("the page is text");
    let changed = text.replace("</title>", &format!("{NEXT_TITLE}</title>"));
    assert_ne!(text, changed, "the page has a title");
    fs::write(&page, changed).expect("the copy can be written");

    let later = assets::LATER.map(|later| module_of(later.name, &folder));
    for module in [MODULE.to_owned()].iter().chain(&later) {
        let module = folder.join(module);
        let mut bytes = fs::read(&module).expect("the module is there");
        bytes.extend(EMPTY_SECTION);
        fs::write(&module, bytes).expect("the copy can be written");
    }

    assets::fill_in(&folder).expect("the list of assets can be written");
    folder
}

/// The module's file.
pub const MODULE: &str = "meniscus_bg.wasm";

/// The file of the module of the shelf in a release: no two releases have it at one address.
pub fn shelf(folder: &Path) -> String {
    module_of("shelf", folder)
}

/// The file of a later module in the built page.
pub fn module(later: &str) -> String {
    module_of(later, &built())
}

/// The file of a later module in a release.
fn module_of(later: &str, folder: &Path) -> String {
    let found = assets::folder_of(later, folder).expect("one folder of the module");
    let name = found.file_name().expect("a name").to_string_lossy();
    format!("{name}/{later}_bg.wasm")
}

/// A custom section named `x` without content: any module may end with it (WebAssembly core
/// specification, 5.5.3).
const EMPTY_SECTION: [u8; 4] = [0, 2, 1, b'x'];

/// An empty folder below Cargo's folder for the files of tests.
pub fn scratch(name: &str) -> PathBuf {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join(name);
    if folder.exists() {
        fs::remove_dir_all(&folder).expect("an older folder can be removed");
    }
    fs::create_dir_all(&folder).expect("a folder can be made");
    folder
}

fn copy(from: &Path, to: &Path) {
    fs::create_dir_all(to).expect("a folder can be made");
    for entry in fs::read_dir(from).expect("the folder can be listed") {
        let entry = entry.expect("the folder can be listed");
        let target = to.join(entry.file_name());
        if entry.path().is_dir() {
            copy(&entry.path(), &target);
        } else {
            fs::copy(entry.path(), target).expect("the file can be copied");
        }
    }
}
