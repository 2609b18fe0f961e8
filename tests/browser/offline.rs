//! Without a network: the page opens and computes, in a tab that was open and after a cold start.

use super::{
    chromium::{Chromium, Setup},
    release::built,
    site::Site,
};

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

/// 600 / (1 + 31) = 18.75 and 400 / (1 + 31) = 12.5 (arithmetic of 1 + n).
async fn computes(page: &Chromium) {
    page.fill("mix", "dilution", "1+31").await;
    for (total, concentrate) in [("600 ml", "18.75"), ("400 ml", "12.5")] {
        page.fill("mix", "total", total).await;
        page.until_text("[data-sheet]", concentrate).await;
    }
}
