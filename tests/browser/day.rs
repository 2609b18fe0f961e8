//! A day at the sink on a phone, with the example shelf and the host stopped: two rolls are planned, tempered, developed and
//! written down, and the shelf is right to the millilitre afterwards.

use serde_json::json;

use super::{
    chromium::{Chromium, Setup},
    example::show_example,
    release::{built, module},
    shelf::{HEAD, go, record},
    site::Site,
};

/// The sheet's head of a calculator.
fn head(name: &str) -> String {
    format!("output[form={name}]")
}

/// Picks a thing of the shelf in a field of a calculator.
async fn choose(page: &Chromium, field: &str, thing: &str) {
    page.run(&format!(
        "const select = document.getElementById('{field}');
        select.value = {}; select.dispatchEvent(new Event('input', {{ bubbles: true }}))",
        json!(thing)
    ))
    .await;
}

/// What stands in the fields of the steps.
async fn steps_say(page: &Chromium, fields: &[(&str, &str)]) {
    for (field, text) in fields {
        let says = format!(
            "return document.getElementById('steps-{field}').value === {}",
            json!(text)
        );
        page.until(&format!("{field} is {text}"), &says).await;
    }
}

/// Begins the steps, once their sheet says all of this; the first of it stands before the first step too.
async fn begin(page: &Chromium, says: &[&str]) {
    let sheet = "document.querySelector('[data-room=steps] [data-sheet]').textContent";
    for text in says {
        let is_there = format!("return {sheet}.includes({})", json!(text));
        page.until("the sheet is written", &is_there).await;
    }
    page.press("[data-run=steps]").await;
    page.until_text("#run-place", says[0]).await;
    page.press("[data-act=begin]").await;
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

    show_example(&page).await;

    go(&page, "temper").await;
    page.until_text(&head("temper"), "ml").await;
    go(&page, "plan").await;
    page.fill("plan", "films", "2 x 135 7:30 harbour").await;
    choose(&page, "plan-bottle", "example-blue").await;
    page.until_text(&head("plan"), "18.").await;
    page.press("[data-room=plan] [data-onward=steps]").await;

    steps_say(
        &page,
        &[
            ("films_135", "2"),
            ("bottle", "example-blue"),
            ("dilution", "1+31"),
            ("develop_for", "7:30"),
        ],
    )
    .await;
    page.fill("steps", "total", "600 ml").await;
    choose(&page, "steps-fixer", "example-fix-bath").await;
    page.until_text(&head("steps"), "7:30").await;
    begin(&page, &["18.75 ml", "Clear Fix bath"]).await;
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
    page.run(
        "const make = URL.createObjectURL;
        URL.createObjectURL = blob => { blob.text().then(text => { window.saved = text }); return make.call(URL, blob) }",
    )
    .await;
    page.press("#log-found [data-log=life]").await;
    page.until(
        "all that happened is saved",
        "return /^event,day,[^]*,developed,/.test(window.saved ?? '')",
    )
    .await;
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

/// What stands in the form of a bath is what the steps begin with, and what was picked there before is gone.
#[tokio::test]
async fn a_bath_leads_on_to_its_steps() {
    let site = Site::serve(&built(), "/");
    let page = Setup::new("onward").start().await;
    page.open(&format!("{}#steps", site.url())).await;
    page.until_text(&head("steps"), "5:00").await;
    page.fill("steps", "develop_for", "12:00").await;
    page.until_text(&head("steps"), "12:00").await;
    go(&page, "mix").await;
    page.fill("mix", "total", "500 ml").await;
    page.fill("mix", "temperature", "21 C").await;
    page.press("[data-room=mix] [data-onward=steps]").await;
    steps_say(
        &page,
        &[("total", "500 ml"), ("temperature", "21 C"), ("develop_for", "")],
    )
    .await;
    page.until_text("[data-room=steps]", "500 ml at 1+31").await;
    assert_eq!(page.complaints().await, [""; 0]);
    page.quit().await;
}

/// What was written down as it was mixed is not proposed once more at the end, and the example is there again after a reload.
#[tokio::test]
async fn a_bath_that_was_written_down_is_drawn_once() {
    let site = Site::serve(&built(), "/");
    let page = Setup::new("once").window(390, 844).start().await;
    page.open(&format!("{}#shelf", site.url())).await;
    show_example(&page).await;
    go(&page, "steps").await;
    page.fill("steps", "recipe", "develop 10:00\nfix 5:00\nwash 10:00")
        .await;
    choose(&page, "steps-bottle", "example-blue").await;
    page.until_text(&head("steps"), "10:00").await;
    begin(&page, &["18.75 ml"]).await;
    page.until_text("#run-left", ":").await;
    let fits = "return document.documentElement.scrollWidth <= innerWidth";
    page.until("ten minutes fit a phone", fits).await;
    page.reload().await;
    go(&page, "mix").await;
    page.until(
        "the example is there again",
        "return document.querySelector('#mix-bottle option[value=example-blue]') !== null",
    )
    .await;
    choose(&page, "mix-bottle", "example-blue").await;
    page.until_text(&head("mix"), "18.75").await;
    page.until(
        "it can be written down",
        "return document.querySelector('[data-mixed]').checkVisibility()",
    )
    .await;
    page.press("[data-mixed]").await;
    go(&page, "run").await;
    page.press("#run-place [data-act=end]").await;
    page.until_text("#run-place", "today already").await;
    assert_eq!(
        page.run("return document.getElementById('deed-0').checked").await,
        json!(false)
    );
    page.press("#session-end button[type=submit]").await;
    page.until_text("#log-found", "2 × 135 in Blue Syrup 1+31").await;
    record(&page, "example-blue", "Blue Syrup").await;
    page.until_text(HEAD, "232.5 ml").await;
    assert_eq!(page.complaints().await, [""; 0]);
    page.quit().await;
}
