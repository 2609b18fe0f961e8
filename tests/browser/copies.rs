//! Copies of the ledger: a file from one browser, read in by another; files that are no such thing; reminders.

use std::{
    fs,
    path::{Path, PathBuf},
    time::Duration,
};

use serde_json::{Value, json};
use thirtyfour::By;

use super::{
    chromium::Chromium,
    ledger::{record, start, stored},
    release::{built, scratch},
    site::Site,
};

const RESULT: &str = "#copy-read";

/// Saves a copy, and waits for the file.
async fn save(page: &Chromium, folder: &Path) -> PathBuf {
    let allow = json!({ "behavior": "allow", "downloadPath": folder });
    page.devtools("Browser.setDownloadBehavior", allow).await;
    shelf(page).await;
    page.press("#copy-save").await;
    for _ in 0..400 {
        let files = fs::read_dir(folder).expect("a folder").filter_map(Result::ok);
        let saved = files
            .map(|file| file.path())
            .find(|path| path.extension().is_some_and(|end| end == "txt"));
        if let Some(path) = saved {
            return path;
        }
        tokio::time::sleep(Duration::from_millis(25)).await;
    }
    panic!("no file arrived");
}

/// Reads a file in, and waits for what the page says.
async fn read_in(page: &Chromium, file: &Path) -> String {
    shelf(page).await;
    page.run("document.querySelector('#copy-read').replaceChildren()").await;
    let input = page
        .driver
        .find(By::Id("copy-file"))
        .await
        .expect("the field for a file");
    input
        .send_keys(file.display().to_string())
        .await
        .expect("it takes a file");
    page.until(
        "the page says what came of it",
        "return document.querySelector('#copy-read').textContent !== ''",
    )
    .await;
    page.text(RESULT).await
}

async fn shelf(page: &Chromium) {
    page.run("location.hash = 'shelf'").await;
    page.until(
        "the shelf is shown",
        "return !document.querySelector('[data-room=shelf]').hidden",
    )
    .await;
}

async fn bottles(page: &Chromium) -> Value {
    page.until(
        "the list is there",
        "return !!document.querySelector('[data-list=bottle] .thing')",
    )
    .await;
    page.run("return [...document.querySelectorAll('[data-list=bottle] .what b')].map(b => b.textContent)")
        .await
}

#[tokio::test]
async fn two_devices_end_with_the_same_shelf() {
    let site = Site::serve(&built(), "/");
    let (one, two) = (start("device-1", &site).await, start("device-2", &site).await);
    record(&one, "one of the first").await;
    record(&two, "one of the second").await;
    record(&one, "two of the first").await;
    let from_one = save(&one, &scratch("device-1-files")).await;
    let from_two = save(&two, &scratch("device-2-files")).await;
    let name = from_one.file_name().and_then(|name| name.to_str()).expect("a name");
    let today = one.run("const d = new Date(); return [d.getFullYear(), d.getMonth() + 1, d.getDate()].map(n => String(n).padStart(2, 0)).join('-')").await;
    assert_eq!(
        json!(name),
        json!(format!("meniscus-{}.txt", today.as_str().expect("a day")))
    );
    one.until_text("#copies", "Last copy saved: ").await;

    // Counted by hand: two events of one device, one of the other.
    assert_eq!(
        read_in(&one, &from_two).await,
        "Read in: 1 entry new, 0 entries here already."
    );
    assert_eq!(
        read_in(&two, &from_one).await,
        "Read in: 2 entries new, 0 entries here already."
    );
    assert_eq!(bottles(&one).await, bottles(&two).await);
    assert_eq!(
        bottles(&one).await,
        json!(["one of the first", "one of the second", "two of the first"])
    );
    let (before, other) = (stored(&one).await, stored(&two).await);
    assert_eq!(before, other);

    // A second time, and a device's own file, change nothing.
    assert_eq!(
        read_in(&one, &from_two).await,
        "Read in: 0 entries new, 1 entry here already."
    );
    assert_eq!(
        read_in(&one, &from_one).await,
        "Read in: 0 entries new, 2 entries here already."
    );
    assert_eq!(stored(&one).await, before);
    // A saved file and a read one are nothing that the page's own rules forbid.
    assert_eq!(one.complaints().await, Vec::<String>::new());
    one.reload().await;
    assert_eq!(bottles(&one).await, bottles(&two).await);
    one.quit().await;
    two.quit().await;
}

#[tokio::test]
async fn files_that_are_no_copy_are_told_and_harm_nothing() {
    let site = Site::serve(&built(), "/");
    let page = start("files", &site).await;
    record(&page, "Blue Syrup").await;
    record(&page, "Red Syrup").await;
    let folder = scratch("files-files");
    let copy = fs::read_to_string(save(&page, &folder).await).expect("a text");
    let before = stored(&page).await;
    let write = |name: &str, content: &[u8]| {
        let path = folder.join(name);
        fs::write(&path, content).expect("the folder takes a file");
        path
    };

    let hostile = "<img src=x onerror='struck=1'><script>struck=1</script>";
    let said = read_in(&page, &write("hostile", hostile.as_bytes())).await;
    assert!(
        said.contains("There is nothing of a ledger of this page in the file."),
        "{said}"
    );
    shelf(&page).await;
    page.press("#copy-read summary").await;
    page.until_text(RESULT, "<img src=x onerror=").await;
    // A whole ledger that brings markup along, with the right checksum, as the page itself writes it.
    let other = start("files-other", &site).await;
    record(&other, "<img src=x onerror='struck=1'>").await;
    let said = read_in(&page, &save(&other, &scratch("files-other-files")).await).await;
    assert_eq!(said, "Read in: 1 entry new, 0 entries here already.");
    other.quit().await;
    page.until(
        "its words are shown as words",
        "return document.querySelector('[data-list=bottle]').textContent.includes('<img src=x')",
    )
    .await;
    let count = |events: &Value| events.as_object().map_or(0, |all| all.len());
    let before = {
        let now = stored(&page).await;
        assert_eq!(count(&now), count(&before) + 1);
        now
    };

    let said = read_in(
        &page,
        &write("picture", &[0x89, b'P', b'N', b'G', 0, 0xff, 0xfe, 10, 0, 1]),
    )
    .await;
    assert!(
        said.contains("There is nothing of a ledger of this page in the file."),
        "{said}"
    );
    let said = read_in(&page, &write("empty", b"")).await;
    assert!(
        said.contains("There is nothing of a ledger of this page in the file."),
        "{said}"
    );
    // Cut off in the middle of its last line.
    let said = read_in(&page, &write("cut", &copy.as_bytes()[..copy.len() - 40])).await;
    assert!(
        said.contains("1 entry here already") && said.contains("1 line is no entry of a ledger, or damaged"),
        "{said}"
    );
    // Cut off before it.
    let cut = copy.trim_end().rfind('\n').expect("more than one line");
    let said = read_in(&page, &write("short", &copy.as_bytes()[..cut])).await;
    assert!(said.contains("The file should hold 2 entries and holds 1"), "{said}");
    let said = read_in(
        &page,
        &write("later", copy.replace("format 1,", "format 9,").as_bytes()),
    )
    .await;
    assert!(
        said.contains("written by a later version of this page (format 9)"),
        "{said}"
    );
    // Larger than any ledger: not read at all.
    let huge = write("huge", b"");
    fs::File::options()
        .write(true)
        .open(&huge)
        .and_then(|file| file.set_len(40 << 20))
        .expect("a large file");
    let said = read_in(&page, &huge).await;
    assert!(said.contains("larger than 32 million characters"), "{said}");

    assert_eq!(stored(&page).await, before);
    let struck = "return [window.struck === undefined, document.querySelectorAll('main img').length]";
    assert_eq!(page.run(struck).await, json!([true, 0]));
    page.quit().await;
}

#[tokio::test]
async fn an_old_copy_is_reminded_of_when_another_day_has_come() {
    let site = Site::serve(&built(), "/");
    let page = start("old-copy", &site).await;
    record(&page, "Blue Syrup").await;
    save(&page, &scratch("old-copy-files")).await;
    record(&page, "Red Syrup").await;
    assert!(!page.text("#copies").await.contains("since the last copy"));
    // The page is left open, and looked at again 31 days later.
    page.run(
        "const [day, Then] = [864e5, Date];
        window.Date = class extends Then {
            constructor(...all) { all.length ? super(...all) : super(Then.now() + 31 * day) }
            static now() { return Then.now() + 31 * day }
        };
        document.dispatchEvent(new Event('visibilitychange'))",
    )
    .await;
    page.until_text("#copies", "1 entry is new since the last copy, which is 31 days old.")
        .await;
    // At the width of WCAG 2.2 for reflow (success criterion 1.4.10).
    let narrow = json!({ "width": 320, "height": 640, "deviceScaleFactor": 1, "mobile": false });
    page.devtools("Emulation.setDeviceMetricsOverride", narrow).await;
    page.picture("copies").await;
    assert_eq!(page.axe().await, [""; 0]);
    page.quit().await;
}

#[tokio::test]
async fn what_the_browser_promises_is_told() {
    let site = Site::serve(&built(), "/");
    let page = start("promise", &site).await;
    page.run("navigator.storage.persist = async () => { window.asked = (window.asked ?? 0) + 1; return true }")
        .await;
    record(&page, "Blue Syrup").await;
    shelf(&page).await;
    page.until_text("#copies", "The browser has promised not to clear this by itself.")
        .await;
    record(&page, "Red Syrup").await;
    assert_eq!(page.run("return window.asked").await, json!(1));
    page.quit().await;
}

#[tokio::test]
async fn a_store_that_fills_up_is_told_before_it_is_full() {
    let site = Site::serve(&built(), "/");
    let page = start("filling", &site).await;
    record(&page, "Blue Syrup").await;
    assert!(!page.shows("#trouble").await);
    // 5,242,880 units are the whole (measured in Chromium): 4.5 million are 85 %.
    page.run("localStorage.setItem('meniscus/form/other', '0 ' + 'x'.repeat(4.5e6))")
        .await;
    page.reload().await;
    page.until_text("#trouble", "store for this page is 85 % full").await;
    page.until_text("#trouble", "Export the ledger to a file now").await;
    shelf(&page).await;
    page.until_text("#copies", "store for this page is 85 % full").await;
    page.quit().await;
}
