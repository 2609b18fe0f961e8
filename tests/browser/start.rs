//! How the page starts: what it gives to scripts, what it says when it cannot compute, and that it
//! can be installed.

use serde_json::json;

use super::{
    chromium::Setup,
    release::{MODULE, built},
    site::Site,
};

#[tokio::test]
async fn gives_scripts_one_function_and_can_be_installed() {
    let site = Site::serve(&built(), "/");
    let page = Setup::new("start").start().await;
    page.open(&site.url()).await;
    assert!(!page.shows("#boot").await);
    let exposed = page.run("return Object.keys(window.meniscus)").await;
    assert_eq!(exposed, json!(["calculate", "more"]));
    let kinds = page
        .run("return Object.values(window.meniscus).map((given) => typeof given)")
        .await;
    assert_eq!(kinds, json!(["function", "function"]));

    page.kept_offline().await;
    assert!(!page.shows("#update").await, "the first release replaces nothing");
    let manifest = page.devtools("Page.getAppManifest", json!({})).await;
    assert_eq!(manifest["errors"], json!([]));
    let lacking = page.devtools("Page.getInstallabilityErrors", json!({})).await;
    assert_eq!(lacking["installabilityErrors"], json!([]));
    page.quit().await;
}

#[tokio::test]
async fn says_so_when_the_module_is_damaged() {
    let site = Site::serve(&built(), "/");
    site.change(MODULE, b"not a module");
    let page = Setup::new("start-damaged").start().await;
    page.driver.goto(site.url()).await.expect("the page opens");
    page.until_text("#boot", "did not start").await;
    assert!(page.shows("#mix").await, "the forms stay readable");

    // The damaged release is not kept, and the page starts once the host serves it whole.
    site.restore();
    page.reload().await;
    assert!(!page.shows("#boot").await);
    page.kept_offline().await;
    page.quit().await;
}
