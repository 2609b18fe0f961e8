//! A new release: refused while only half of it has arrived, then kept waiting until the user asks
//! for it or no page of the old one is open any more.

use std::fs;

use super::{
    chromium::{Chromium, Setup},
    release::{MODULE, NEXT_TITLE, built, next},
    site::Site,
};

const OFFERED: &str = "return !document.getElementById('update').hidden";

#[tokio::test]
async fn is_refused_when_half_deployed_and_waits_when_whole() {
    let mut site = Site::serve(&built(), "/meniscus/");
    let page = Setup::new("update").start().await;
    page.open(&site.url()).await;
    page.kept_offline().await;
    let first = releases(&page).await;
    assert_eq!(first.len(), 1, "{first:?}");
    page.finish("caches.open('of another page').then(() => arguments[0]())")
        .await;

    // Everything of the next release has arrived but its module.
    site.deploy(&next("update"));
    site.change(MODULE, &fs::read(built().join(MODULE)).expect("the module is there"));
    assert_eq!(
        look_for_update(&page).await,
        "redundant",
        "half of a release must not install"
    );
    assert_eq!(releases(&page).await, first);
    page.reload().await;
    assert!(is_old(&page).await);
    assert!(!page.shows("#update").await);
    computes(&page).await;

    // The rest arrives while a form is half filled.
    site.restore();
    page.fill("mix", "total", "4").await;
    page.run("window.sameVisit = true").await;
    assert_eq!(
        look_for_update(&page).await,
        "installed",
        "a whole release installs, and waits"
    );
    page.until("the update is offered", OFFERED).await;
    assert_eq!(page.value("mix", "total").await, "4");
    assert_eq!(page.run("return window.sameVisit").await, true);

    // Loading again does not let it in either: the page of the old release never closed.
    page.reload().await;
    assert!(is_old(&page).await);
    page.until("the update is offered", OFFERED).await;

    page.run("window.sameVisit = true").await;
    page.press("#update-now").await;
    page.until("the page loads again", "return !window.sameVisit").await;
    page.ready().await;
    assert!(!is_old(&page).await);
    assert!(!page.shows("#update").await);

    // Only the new release is kept, and it needs no host; another page's cache is left alone.
    let second = releases(&page).await;
    assert_eq!(second.len(), 1, "{second:?}");
    assert_ne!(first, second);
    assert_eq!(
        page.finish("caches.has('of another page').then(arguments[0])").await,
        true
    );
    site.stop();
    page.reload().await;
    assert!(!is_old(&page).await);
    computes(&page).await;
    page.quit().await;
}

#[tokio::test]
async fn takes_over_by_itself_only_when_the_old_release_is_closed() {
    let mut site = Site::serve(&built(), "/");
    let page = Setup::new("update-cold").start().await;
    page.open(&site.url()).await;
    page.kept_offline().await;
    site.deploy(&next("update-cold"));
    assert_eq!(look_for_update(&page).await, "installed");

    site.stop();
    let page = page.quit().await.start().await;
    page.open(&site.url()).await;
    assert!(!is_old(&page).await);
    assert!(!page.shows("#update").await);
    computes(&page).await;
    page.quit().await;
}

/// Lets the browser look for a new release, and returns how installing it ended: `installed` or
/// `redundant` (Service Workers, the states of a worker).
async fn look_for_update(page: &Chromium) -> String {
    let outcome = page
        .finish(
            "navigator.serviceWorker.getRegistration().then((registration) => {
                registration.addEventListener('updatefound', () => {
                    const worker = registration.installing;
                    worker.addEventListener('statechange', () => arguments[0](worker.state),
                        { once: true });
                }, { once: true });
                registration.update().catch(() => {});
            })",
        )
        .await;
    outcome.as_str().unwrap_or_default().to_owned()
}

/// The names of the page's own caches.
async fn releases(page: &Chromium) -> Vec<String> {
    let names = page
        .finish("caches.keys().then((all) => arguments[0](all.filter((n) => /^meniscus-/.test(n))))")
        .await;
    serde_json::from_value(names).expect("a list of names")
}

async fn is_old(page: &Chromium) -> bool {
    let title = page.driver.title().await.expect("the page has a title");
    !title.ends_with(NEXT_TITLE)
}

/// 600 / (1 + 31) = 18.75 (arithmetic of 1 + n).
async fn computes(page: &Chromium) {
    page.fill("mix", "total", "600 ml").await;
    page.fill("mix", "dilution", "1+31").await;
    page.until_text("[data-sheet]", "18.75").await;
}
