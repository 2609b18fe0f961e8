//! Without a network: the page opens and computes, in a tab that was open and after a cold start.

use std::fs;

use serde_json::json;

use super::{
    chromium::{Chromium, Setup},
    release::{NEXT_TITLE, built, next, shelf},
    shelf::{LIST, add, go},
    site::Site,
};

/// What the page says where the module of the shelf could not be fetched.
const FAILED: &str = "This part of the page could not be fetched.";

#[tokio::test]
async fn opens_and_computes_with_the_host_stopped() {
    let mut site = Site::serve(&built(), "/photo/meniscus/");
    let page = Setup::new("offline").start().await;
    page.open(&site.url()).await;
    page.kept_offline().await;

    site.stop();
    page.reload().await;
    computes(&page).await;

    // With a query, and at a mistyped address below the page.
    page.open(&format!("{}?from=home", site.url())).await;
    page.open(&format!("{}nowhere/at/all", site.url())).await;
    assert_eq!(
        page.driver.current_url().await.expect("an address").as_str(),
        site.url()
    );

    // Cold: Chromium ends and starts again with what its profile kept.
    let page = page.quit().await.start().await;
    page.open(&site.url()).await;
    computes(&page).await;

    // The host may come back at any time.
    site.start();
    page.reload().await;
    computes(&page).await;
    page.quit().await;
}

#[tokio::test]
async fn the_shelf_opens_with_the_host_stopped_once_the_rest_is_kept() {
    let mut site = Site::serve(&built(), "/photo/meniscus/");
    let page = Setup::new("offline-shelf").start().await;
    page.open(&site.url()).await;
    page.kept_offline().await;
    // Nobody opened the shelf: it is kept by itself once the first visit rests.
    for file in both_files() {
        let begun = std::time::Instant::now();
        while page.finish(&is_kept(&file)).await != json!(true) {
            assert!(begun.elapsed().as_secs() < 60, "{file} is not kept");
        }
    }
    site.stop();
    let page = page.quit().await.start().await;
    page.open(&site.url()).await;
    let bottle = add(&page, "Blue Syrup", &[]).await;
    go(&page, "keeping").await;
    page.run(&format!(
        "const select = document.getElementById('keeping-bottle');
        select.value = '{bottle}'; select.dispatchEvent(new Event('input', {{ bubbles: true }}))"
    ))
    .await;
    page.until_text("output[form=keeping]", "Blue Syrup: in date").await;
    page.quit().await;
}

#[tokio::test]
async fn a_first_visit_that_leaves_early_has_mix_and_gets_the_shelf_later() {
    let mut site = Site::serve(&built(), "/");
    let page = leaves_early("offline-early", &site).await;
    site.stop();
    let page = page.quit().await.start().await;
    page.open(&format!("{}#shelf", site.url())).await;
    for room in ["shelf", "record/nothing", "keeping", "air"] {
        go(&page, room).await;
        page.until("it is told", &told()).await;
    }
    go(&page, "mix").await;
    assert_eq!(page.run(&told()).await, json!(false));
    computes(&page).await;

    // As the sentence says: with the network back, the shelf is opened again, and stays.
    site.start();
    add(&page, "Blue Syrup", &[]).await;
    assert_eq!(page.run(&told()).await, json!(false));
    let [script, module] = both_files();
    page.until(
        "both files are kept",
        &format!(
            "return Promise.all([caches.match('{script}'), caches.match('{module}')]).then((all) => all.every(Boolean))"
        ),
    )
    .await;
    site.stop();
    page.reload().await;
    page.until_text(LIST, "Blue Syrup").await;
    page.quit().await;
}

/// The page is of one release and the host has the next already: what does not belong together never meets.
#[tokio::test]
async fn a_shelf_of_another_release_is_refused_until_the_page_is_of_it_too() {
    let site = Site::serve(&built(), "/");
    let page = leaves_early("offline-half", &site).await;
    // Of the next release only the module of the shelf has arrived, at this release's address.
    let released = next("offline-half");
    let of_next = fs::read(released.join(shelf(&released))).expect("the module is there");
    site.change(&shelf(&built()), &of_next);
    page.open(&format!("{}?again#shelf", site.url())).await;
    page.until("it is told", &told()).await;
    assert_eq!(page.text(LIST).await, "");
    assert_eq!(page.finish(&is_kept(&shelf(&built()))).await, json!(false));
    go(&page, "mix").await;
    computes(&page).await;

    // All of it arrives; as the sentence says, the page is loaded again, and the user lets it in.
    site.deploy(&released);
    page.reload().await;
    page.until(
        "the update is offered",
        "return !document.getElementById('update').hidden",
    )
    .await;
    go(&page, "shelf").await;
    page.until("it is still told", &told()).await;
    page.run("window.sameVisit = true").await;
    page.press("#update-now").await;
    page.until("the page loads again", "return !window.sameVisit").await;
    page.ready().await;
    add(&page, "Blue Syrup", &[]).await;
    page.quit().await;
}

/// The host gets its next release during the very first visit, before there is a service worker that could tell.
#[tokio::test]
async fn a_first_visit_never_meets_the_shelf_of_the_next_release() {
    let site = Site::serve(&built(), "/");
    let page = Setup::new("offline-first").start().await;
    let source = "ServiceWorkerContainer.prototype.register = () => Promise.reject(new Error('not yet'))";
    let added = page
        .devtools("Page.addScriptToEvaluateOnNewDocument", json!({ "source": source }))
        .await;
    page.open(&site.url()).await;
    let released = next("offline-first");
    assert_ne!(shelf(&built()), shelf(&released));
    site.deploy(&released);
    for room in ["shelf", "keeping", "shelf"] {
        go(&page, room).await;
        page.until("it is told", &told()).await;
    }
    page.until_text("#shelf-failed", "load the page again").await;
    assert_eq!(page.text(LIST).await, "");
    let [script, _] = both_files();
    let mut asked = site.requests();
    asked.retain(|path| path.starts_with("/shelf"));
    assert!(!asked.is_empty());
    assert!(asked.iter().all(|path| path[1..].starts_with(&script)), "{asked:?}");
    go(&page, "mix").await;
    computes(&page).await;

    // Loaded again it is of the next release as soon as the service worker has all of that.
    page.devtools("Page.removeScriptToEvaluateOnNewDocument", added).await;
    page.reload().await;
    page.kept_offline().await;
    page.reload().await;
    let title = page.driver.title().await.expect("a title");
    assert!(title.ends_with(NEXT_TITLE), "{title}");
    add(&page, "Blue Syrup", &[]).await;
    assert_eq!(page.run(&told()).await, json!(false));
    page.quit().await;
}

#[tokio::test]
async fn a_cache_that_cannot_be_read_stops_nobody_who_has_a_network() {
    let site = Site::serve(&built(), "/photo/meniscus/");
    let worker = fs::read_to_string(built().join("sw.js")).expect("the service worker is built");
    let damaged = "caches.match = () => Promise.reject(new Error('the disk cannot be read'));";
    site.change("sw.js", format!("{damaged}\n{worker}").as_bytes());
    let page = Setup::new("offline-damaged").start().await;
    page.open(&site.url()).await;
    page.kept_offline().await;
    page.reload().await;
    assert_eq!(
        page.run("return navigator.serviceWorker.controller.state").await,
        json!("activated")
    );
    computes(&page).await;
    page.quit().await;
}

/// A first visit after which only what it needs itself is kept.
async fn leaves_early(name: &str, site: &Site) -> Chromium {
    let page = Setup::new(name).start().await;
    // What would be said to the service worker later is never said.
    let source = "ServiceWorker.prototype.postMessage = () => {}";
    let added = page
        .devtools("Page.addScriptToEvaluateOnNewDocument", json!({ "source": source }))
        .await;
    page.open(&site.url()).await;
    page.kept_offline().await;
    assert_eq!(page.finish(&is_kept(&shelf(&built()))).await, json!(false));
    page.devtools("Page.removeScriptToEvaluateOnNewDocument", added).await;
    page
}

/// The files of the module of the shelf.
fn both_files() -> [String; 2] {
    let module = shelf(&built());
    [module.replace("_bg.wasm", ".js"), module]
}

/// Whether a file is kept.
fn is_kept(file: &str) -> String {
    format!("caches.match('{file}').then((found) => arguments[0](!!found))")
}

/// Whether the page says that the shelf could not be fetched.
fn told() -> String {
    format!("return document.body.innerText.includes({})", json!(FAILED))
}

/// 600 / (1 + 31) = 18.75 and 400 / (1 + 31) = 12.5 (arithmetic of 1 + n).
async fn computes(page: &Chromium) {
    page.fill("mix", "dilution", "1+31").await;
    for (total, concentrate) in [("600 ml", "18.75"), ("400 ml", "12.5")] {
        page.fill("mix", "total", total).await;
        page.until_text("[data-sheet]", concentrate).await;
    }
}
