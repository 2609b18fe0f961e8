//! A day at the sink on a phone, with the example shelf and the host stopped: two rolls are planned, tempered, developed and
//! written down, and the shelf is right to the millilitre afterwards.

use serde_json::json;

use super::{
    chromium::{Chromium, Setup},
    release::{built, module},
    shelf::{HEAD, go, record},
    site::Site,
};

/// The sheet's head of a calculator.
fn head(name: &str) -> String {
    format!("output[form={name}]")
}

/// Picks a thing of the shelf in a field of the steps.
async fn choose(page: &Chromium, field: &str, thing: &str) {
    page.run(&format!(
        "const select = document.getElementById('steps-{field}');
        select.value = {}; select.dispatchEvent(new Event('input', {{ bubbles: true }}))",
        json!(thing)
    ))
    .await;
}

/// The example has 251.25 ml of Blue Syrup, and takes 600 ml at 1+31: 18.75 ml of it (arithmetic).
#[tokio::test]
async fn two_rolls_are_planned_tempered_developed_and_logged_without_a_network() {
    let mut site = Site::serve(&built(), "/");
    let page = Setup::new("day").window(390, 844).start().await;
    page.open(&format!("{}#shelf", site.url())).await;
    page.kept_offline().await;
    for later in ["shelf", "day"] {
        let kept = format!("return caches.match('{}').then(Boolean)", module(later));
        page.until(&format!("{later} is kept"), &kept).await;
    }
    site.stop();
    page.reload().await;

    page.until(
        "the example is offered",
        "return document.querySelector('[data-example]').checkVisibility()",
    )
    .await;
    page.press("[data-example]").await;
    page.until_text("[data-list=bottle]", "Blue Syrup").await;

    go(&page, "plan").await;
    page.until_text(&head("plan"), "ill").await;
    go(&page, "temper").await;
    page.until_text(&head("temper"), "ml").await;

    go(&page, "steps").await;
    choose(&page, "bottle", "example-blue").await;
    choose(&page, "fixer", "example-fix-bath").await;
    page.until_text(&head("steps"), "7:3").await;
    page.press("[data-run=steps]").await;
    page.until_text("#run-place", "18.75 ml").await;
    page.press("[data-act=begin]").await;
    for _ in 0..7 {
        page.press("[data-act=next]").await;
    }
    page.until_text("#run-place", "This is the last step").await;
    page.press("#run-place [data-act=end]").await;
    page.until_text("#run-place", "18.75 ml taken out").await;
    page.fill("session-end", "note", "Two rolls of the harbour").await;
    page.press("#session-end button[type=submit]").await;

    page.until_text("#log-found", "2 × 135 in Blue Syrup 1+31").await;
    page.fill("log-search", "words", "harbour").await;
    page.until_text("#log-found", "1 of").await;
    page.press("#log-found a").await;
    page.until_text("#log-entry", "Two rolls of the harbour").await;
    page.press("#log-entry [data-log=markdown]").await;
    page.until(
        "the write-up stands there",
        "return document.getElementById('log-text').value.includes('|')",
    )
    .await;

    record(&page, "example-blue", "Blue Syrup").await;
    page.until_text(HEAD, "232.5 ml").await;

    // What was done is taken back as one thing.
    page.press("#undo [data-take-back]").await;
    page.until_text(HEAD, "251.25 ml").await;
    assert_eq!(page.complaints().await, [""; 0]);
    page.quit().await;
}
