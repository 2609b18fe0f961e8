//! The ledger in a real browser: what is written down is in the store and in the mirror, whichever of the two is missing, full,
//! lost or slow, and in every tab.

use serde_json::{Value, json};

use super::{
    chromium::{Chromium, Setup},
    release::built,
    shelf::change_bottle,
    site::Site,
};

const LIST: &str = "[data-list=bottle]";
/// What of a bottle's record is acted on.
const RECORD: &str = "[data-room=record] .head";
/// What a store held before there was a ledger: `key`, tab, `text`.
const SIMPLE_STORE: &str = include_str!("../ledgers/simple-store.txt");

/// Adds a bottle through its form, and returns what the page says of it, as soon as it does.
pub async fn record(page: &Chromium, product: &str) -> String {
    let script = format!(
        "const [status, done] = [document.getElementById('kept'), arguments[0]];
        document.getElementById('bottle-product').value = {};
        status.textContent = '';
        document.getElementById('bottle').requestSubmit();
        const look = () => status.textContent ? done(status.textContent) : setTimeout(look);
        look();",
        json!(product)
    );
    page.finish(&script).await.as_str().unwrap_or_default().to_owned()
}

/// The events in the store, by key.
pub async fn stored(page: &Chromium) -> Value {
    page.run("return Object.fromEntries(Object.entries(localStorage).filter(([k]) => k.startsWith('meniscus/event/')))")
        .await
}

/// The events in the mirror, by key.
pub async fn mirrored(page: &Chromium) -> Value {
    page.finish(
        "const done = arguments[0];
        const open = indexedDB.open('meniscus');
        open.onerror = () => done(null);
        open.onsuccess = () => {
            const [entries, database] = [{}, open.result];
            const cursor = database.transaction('events').objectStore('events').openCursor();
            cursor.onsuccess = () => {
                if (!cursor.result) return database.close(), done(entries);
                entries[cursor.result.key] = cursor.result.value;
                cursor.result.continue();
            };
        };",
    )
    .await
}

/// Waits until store and mirror hold the same, so many events.
async fn until_both_hold(page: &Chromium, events: usize) {
    for _ in 0..200 {
        let (stored, mirrored) = (stored(page).await, mirrored(page).await);
        if stored == mirrored && stored.as_object().is_some_and(|all| all.len() == events) {
            return;
        }
        tokio::time::sleep(std::time::Duration::from_millis(25)).await;
    }
    panic!("store: {}, mirror: {}", stored(page).await, mirrored(page).await);
}

/// A page of its own, with the shelf before it.
pub async fn start(name: &str, site: &Site) -> Chromium {
    let page = Setup::new(name).start().await;
    page.open(&shelf(site)).await;
    page
}

/// The address of the shelf, where the bottles are listed.
pub fn shelf(site: &Site) -> String {
    format!("{}#shelf", site.url())
}

/// Fills what is left of the browser's store with what is not ours.
const FILL: &str = "for (let size = 1 << 20; size > 0; size >>= 1) {
    try { for (let n = 0; ; n++) localStorage.setItem('other/' + size + '/' + n, 'x'.repeat(size)) } catch (e) {} }";
const MAKE_ROOM: &str =
    "Object.keys(localStorage).filter(k => k.startsWith('other/')).forEach(k => localStorage.removeItem(k))";

#[tokio::test]
async fn what_happens_is_in_store_and_mirror_and_can_be_taken_back() {
    let site = Site::serve(&built(), "/");
    let page = start("ledger", &site).await;
    assert_eq!(record(&page, "Blue Syrup").await, "Written down.");
    page.until_text(LIST, "Blue Syrup").await;
    until_both_hold(&page, 1).await;

    page.press("[data-list=bottle] .to-record").await;
    page.until_text(RECORD, "Blue Syrup").await;
    change_bottle(&page).await;
    page.fill("bottle", "product", "Green Syrup").await;
    page.press("#bottle button[type=submit]").await;
    page.until_text(LIST, "Green Syrup").await;
    page.press("#undo [data-take-back]").await;
    page.until_text(LIST, "Blue Syrup").await;
    page.press("[data-list=bottle] .to-record").await;
    page.until_text(RECORD, "Blue Syrup").await;
    page.run("document.querySelector('#discarded').closest('details').open = true")
        .await;
    page.press("#discarded button[type=submit]").await;
    page.until_text("#undo", "Discarded").await;
    page.open(&shelf(&site)).await;
    page.until_text("#no-bottles", "Nothing stands here yet.").await;
    assert_eq!(page.text(LIST).await, "");
    page.run("history.back()").await;
    page.until_text(RECORD, "Blue Syrup").await;
    page.press("#undo [data-take-back]").await;
    page.run("location.hash = 'shelf'").await;
    page.until_text(LIST, "Blue Syrup").await;
    // Added, noted, taken back, discarded, taken back.
    until_both_hold(&page, 5).await;
    page.reload().await;
    page.until_text(LIST, "Blue Syrup").await;
    page.quit().await;
}

#[tokio::test]
async fn bottles_of_the_simple_store_move_over() {
    let site = Site::serve(&built(), "/");
    let page = Setup::new("moved").start().await;
    page.driver
        .goto(format!("{}style.css", site.url()))
        .await
        .expect("a page of the same address");
    for line in SIMPLE_STORE.lines() {
        let (key, text) = line.split_once('\t').expect("a key and a text");
        page.run(&format!("localStorage.setItem({}, {})", json!(key), json!(text)))
            .await;
    }
    // With a full store they are shown all the same, and move once there is room.
    page.run(FILL).await;
    page.open(&shelf(&site)).await;
    for product in ["Blue Syrup", "Clear Fix", "Sour Stop"] {
        page.until_text(LIST, product).await;
    }
    page.until_text("#trouble", "3 entries of the ledger are").await;
    assert_eq!(stored(&page).await, json!({}));
    page.run(MAKE_ROOM).await;
    page.reload().await;
    until_both_hold(&page, 3).await;
    page.until_text(LIST, "Sour Stop").await;
    assert_eq!(
        page.run("return document.querySelectorAll('[data-list=bottle] .thing').length")
            .await,
        json!(3)
    );
    // What the simple store held is still there, as it was; the damaged bottle is told of.
    for line in SIMPLE_STORE.lines() {
        let (key, text) = line.split_once('\t').expect("a key and a text");
        assert_eq!(
            page.run(&format!("return localStorage.getItem({})", json!(key))).await,
            json!(text)
        );
    }
    page.until_text("#trouble", "1 of the entries kept on this device cannot be read")
        .await;
    // Mix finds the bottle under its old name.
    page.run(
        "location.hash = 'mix'; const s = document.getElementById('mix-bottle');
        s.value = '01956a00-1234-7abc-8def-00000000000a'; s.dispatchEvent(new Event('input', {bubbles: true}))",
    )
    .await;
    page.until_text("output[form=mix]", "Blue Syrup").await;
    page.quit().await;
}

#[tokio::test]
async fn two_tabs_lose_nothing_and_see_each_other() {
    let site = Site::serve(&built(), "/");
    let page = start("ledger-tabs", &site).await;
    let first = page.driver.window().await.expect("a window");
    let second = page.driver.new_tab().await.expect("a second tab");
    let products = ["one", "two", "three", "four", "five", "six"];
    page.driver
        .switch_to_window(second.clone())
        .await
        .expect("the second tab");
    page.open(&shelf(&site)).await;
    for (product, tab) in products.iter().zip([&first, &second].into_iter().cycle()) {
        page.driver.switch_to_window(tab.clone()).await.expect("a tab");
        assert_eq!(record(&page, product).await, "Written down.");
    }
    for tab in [first, second] {
        page.driver.switch_to_window(tab).await.expect("a tab");
        for product in products {
            page.until_text(LIST, product).await;
        }
        until_both_hold(&page, products.len()).await;
    }
    page.quit().await;
}

#[tokio::test]
async fn a_full_store_loses_nothing() {
    let site = Site::serve(&built(), "/");
    let page = start("ledger-full", &site).await;
    record(&page, "before").await;
    page.run(FILL).await;
    assert_eq!(
        record(&page, "while full").await,
        "Written down, in the second copy only."
    );
    page.until_text(
        "#trouble",
        "The browser’s store is full: one entry of the ledger is in the second copy only.",
    )
    .await;
    page.until_text(LIST, "while full").await;
    page.reload().await;
    page.until_text(LIST, "while full").await;
    page.until_text("#trouble", "The browser’s store is full").await;
    page.run(MAKE_ROOM).await;
    assert_eq!(record(&page, "after").await, "Written down.");
    page.until(
        "the sentence goes away",
        "return document.getElementById('trouble').hidden",
    )
    .await;
    until_both_hold(&page, 3).await;
    page.quit().await;
}

#[tokio::test]
async fn a_lost_mirror_is_made_anew() {
    let site = Site::serve(&built(), "/");
    let page = start("mirror-lost", &site).await;
    record(&page, "one").await;
    record(&page, "two").await;
    let delete = "const asked = indexedDB.deleteDatabase('meniscus'); asked.onsuccess = () => arguments[0]('gone')";
    assert_eq!(page.finish(delete).await, json!("gone"));
    // With the next record, while the page stays open.
    assert_eq!(record(&page, "three").await, "Written down.");
    until_both_hold(&page, 3).await;
    // At the next start.
    assert_eq!(page.finish(delete).await, json!("gone"));
    page.reload().await;
    until_both_hold(&page, 3).await;
    page.quit().await;
}

#[tokio::test]
async fn a_lost_or_damaged_store_is_mended_from_the_mirror() {
    let site = Site::serve(&built(), "/");
    let page = start("store-lost", &site).await;
    for product in ["one", "two", "three"] {
        record(&page, product).await;
    }
    let before = stored(&page).await;
    page.run("localStorage.clear()").await;
    page.reload().await;
    for product in ["one", "two", "three"] {
        page.until_text(LIST, product).await;
    }
    until_both_hold(&page, 3).await;
    assert_eq!(stored(&page).await, before);

    // One value cut short on the disk: what it was comes back beside it, and it is kept as it is.
    let key = before
        .as_object()
        .and_then(|all| all.keys().next())
        .expect("an event")
        .clone();
    page.run(&format!(
        "localStorage.setItem({0}, localStorage.getItem({0}).slice(0, 40))",
        json!(key)
    ))
    .await;
    page.reload().await;
    for product in ["one", "two", "three"] {
        page.until_text(LIST, product).await;
    }
    page.until(
        "nothing is lost, so nothing is told",
        "return document.getElementById('trouble').hidden",
    )
    .await;
    let after = stored(&page).await;
    assert_eq!(after[&key].as_str().map(str::len), Some(40));
    assert_eq!(after.as_object().map(|all| all.len()), Some(4));
    page.quit().await;
}

#[tokio::test]
async fn without_a_mirror_everything_goes_on() {
    for (name, source) in [
        (
            "absent",
            "Object.defineProperty(window, 'indexedDB', { get() { return undefined } })",
        ),
        (
            "blocked",
            "Object.defineProperty(window, 'indexedDB', { get() { throw new DOMException('no', 'SecurityError') } })",
        ),
        (
            "refusing",
            "IDBFactory.prototype.open = () => { throw new DOMException('no', 'SecurityError') }",
        ),
        (
            "full",
            "IDBObjectStore.prototype.put = () => { throw new DOMException('no', 'QuotaExceededError') }",
        ),
        ("silent", "IDBFactory.prototype.open = () => new EventTarget()"),
        (
            "giving up",
            "const put = IDBObjectStore.prototype.put; IDBObjectStore.prototype.put = function (...all) {
                const asked = put.apply(this, all); asked.transaction.abort(); return asked }",
        ),
    ] {
        let site = Site::serve(&built(), "/");
        let page = Setup::new(&format!("mirror-{}", name.replace(' ', "-"))).start().await;
        page.devtools("Page.addScriptToEvaluateOnNewDocument", json!({ "source": source }))
            .await;
        page.open(&shelf(&site)).await;
        let said = record(&page, "Blue Syrup").await;
        assert!(said.contains("this browser keeps no second copy"), "{name}: {said:?}");
        page.until_text(LIST, "Blue Syrup").await;
        page.reload().await;
        page.until_text(LIST, "Blue Syrup").await;
        page.quit().await;
    }
}
