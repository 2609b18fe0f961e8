//! Without a network: the page opens and computes, in a tab that was open and after a cold start.

use std::fs;

use serde_json::json;

use super::{
    chromium::{Chromium, Setup},
    release::{SHELF, built, next},
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
    for file in ["shelf/shelf.js", SHELF] {
        let looked = format!("caches.match('{file}').then((found) => arguments[0](!!found))");
        let begun = std::time::Instant::now();
        while page.finish(&looked).await != json!(true) {
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
    page.until(
        "both files are kept",
        &format!("return Promise.all([caches.match('shelf/shelf.js'), caches.match('{SHELF}')]).then((all) => all.every(Boolean))"),
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
    // Of the next release only the module of the shelf has arrived.
    let of_next = fs::read(next("offline-half").join(SHELF)).expect("the module is there");
    site.change(SHELF, &of_next);
    page.open(&format!("{}?again#shelf", site.url())).await;
    page.until("it is told", &told()).await;
    assert_eq!(page.text(LIST).await, "");
    let looked = format!("caches.match('{SHELF}').then((found) => arguments[0](!!found))");
    assert_eq!(page.finish(&looked).await, json!(false));
    go(&page, "mix").await;
    computes(&page).await;

    // The rest of it arrives, and the user lets it in.
    site.deploy(&next("offline-half"));
    page.run("navigator.serviceWorker.getRegistration().then((registration) => registration.update())")
        .await;
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
    let looked = format!("caches.match('{SHELF}').then((found) => arguments[0](!!found))");
    assert_eq!(page.finish(&looked).await, json!(false));
    page.devtools("Page.removeScriptToEvaluateOnNewDocument", added).await;
    page
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
