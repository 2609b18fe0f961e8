//! The example shelf: it can be looked at and tried on, nothing of it is kept, and it goes without a trace.

use serde_json::{Value, json};

use super::{
    chromium::Chromium,
    ledger::{mirrored, start},
    release::built,
    shelf::{HEAD, LIST, add, go, pick, record, send, texts},
    site::Site,
};

/// Names that only the example has.
const ITS_OWN: [&str; 4] = ["Honey Syrup", "Grey Stock", "Sour Stop", "(example)"];

/// Shows the invented darkroom, in the room of the shelf.
pub async fn show_example(page: &Chromium) {
    page.until(
        "the example is offered",
        "return document.querySelector('[data-example]').checkVisibility()",
    )
    .await;
    page.press("[data-example]").await;
    page.until_text(LIST, "Blue Syrup").await;
}

#[tokio::test]
async fn it_is_tried_on_and_goes_without_a_trace() {
    let site = Site::serve(&built(), "/");
    let page = start("example", &site).await;
    add(&page, "Own Syrup", &[]).await;
    let before = kept(&page).await;
    let own = page.text(LIST).await;
    page.press("[data-example]").await;
    page.until_text("#example-there", "Nothing of it is kept.").await;
    for name in ITS_OWN {
        page.until_text(LIST, name).await;
    }
    // The states of section 2 of the design.
    let states = texts(&page, "#bottles .state").await;
    for state in ["in date", "test first", "proved", "failed", "unknown"] {
        assert!(
            states.iter().any(|there| there == state),
            "{state} is not among {states:?}"
        );
    }

    // By hand: 251.25 - 10 = 241.25; decanted into 100 ml, 141.25, and of those 100 again 30 drawn.
    record(&page, "example-blue", "Blue Syrup").await;
    page.until_text(HEAD, "251.25 ml").await;
    send(&page, "drawn", &[("volume", "10")]).await;
    page.until_text(HEAD, "241.25 ml").await;
    page.until_text("#kept", "That was done to the example; nothing of it is kept.")
        .await;
    send(&page, "decanted", &[("containers", "100 ml glass")]).await;
    page.until_text(HEAD, "141.25 ml").await;
    send(&page, "moved", &[("place", "attic"), ("climate", "30 C")]).await;
    page.until_text("[data-room=record] .part:has(.record)", "attic").await;
    go(&page, "shelf").await;
    page.until_text(LIST, "100 ml left").await;
    let filled = page
        .run("return [...document.querySelectorAll('#bottles .to-record')].find((link) => link.textContent.includes('100 ml left')).hash.slice('#record/'.length)")
        .await;
    let filled = filled.as_str().expect("a name");
    assert!(!filled.starts_with("example-"), "{filled}");
    record(&page, filled, "Blue Syrup").await;
    send(&page, "drawn", &[("volume", "30")]).await;
    page.until_text(HEAD, "70 ml").await;
    send(&page, "drawn", &[("volume", "5")]).await;
    page.until_text(HEAD, "65 ml").await;
    page.press("#undo [data-take-back]").await;
    page.until_text(HEAD, "70 ml").await;
    // Picked in calculators, and a bath of it written down: 600 / 20 = 30 of 106.
    pick(&page, "keeping", "example-blue").await;
    page.until_text("output[form=keeping]", "Blue Syrup: test first").await;
    pick(&page, "mix", "example-honey-2").await;
    page.until_text("output[form=mix]", "30 ml").await;
    page.press("[data-mixed]").await;
    page.until_text("#undo", "Honey Syrup").await;
    assert_eq!(kept(&page).await, before);

    go(&page, "shelf").await;
    page.until_text(LIST, "76 ml left").await;
    page.press("[data-example-away]").await;
    page.until(
        "its bottles are gone",
        "return document.querySelectorAll('#bottles .thing').length === 1",
    )
    .await;
    assert_eq!(page.text(LIST).await, own);
    assert!(!page.shows("#undo").await, "there is nothing left to take back");
    for address in [
        "shelf",
        "record/example-blue",
        "air",
        "keeping",
        "decant",
        "buy",
        "spend",
        "mix",
    ] {
        go(&page, address).await;
        // The sheet of a room follows its head.
        page.finish("setTimeout(arguments[0], 300)").await;
        let choices = texts(&page, "option").await.join("\n");
        let seen = page.text("body").await + choices.as_str();
        for name in ITS_OWN.into_iter().chain(["Blue Syrup", "attic"]) {
            assert!(!seen.contains(name), "{name} is still in {address}");
        }
    }
    assert_eq!(kept(&page).await, before);
    page.reload().await;
    go(&page, "shelf").await;
    page.until_text(LIST, "Own Syrup").await;
    assert_eq!(page.text(LIST).await, own);
    page.quit().await;
}

#[tokio::test]
async fn a_bottle_that_is_picked_is_judged_where_it_is_used() {
    let site = Site::serve(&built(), "/");
    let page = start("picked", &site).await;
    go(&page, "shelf").await;
    show_example(&page).await;
    for (form, verdict) in [("mix", "[data-verdict=mix]"), ("time", "[data-verdict=time]")] {
        pick(&page, form, "example-blue").await;
        page.until_text(verdict, "test first").await;
        page.until_text(verdict, "The data sheet:").await;
        pick(&page, form, "example-honey-2").await;
        page.until_text(verdict, "in date").await;
        pick(&page, form, "").await;
        page.until(
            "the verdict goes with the bottle",
            &format!("return document.querySelector('{verdict}').hidden"),
        )
        .await;
    }

    // What the record tells is not asked for; without a bottle it is asked for again.
    pick(&page, "decant", "example-blue").await;
    page.until(
        "it is not asked what is left",
        "return !document.getElementById('decant-left').checkVisibility()",
    )
    .await;
    assert!(page.shows("#decant-at_hand").await);
    page.fill("decant", "at_hand", "100 ml brown glass; 150 ml glass").await;
    page.until_text("output[form=decant]", "Containers to fill\n2").await;
    page.press("[data-decanted]").await;
    page.until_text("#at-record", "A bottle and its record").await;
    page.until(
        "the containers stand in the form",
        "return document.getElementById('decanted-containers').value !== ''",
    )
    .await;
    // Of 251.25 ml, by hand: 250 ml fill both, whatever their order.
    let containers = page.value("decanted", "containers").await;
    for one in ["100 ml brown glass", "150 ml glass"] {
        assert!(containers.contains(one), "{containers}");
    }
    page.press("#decanted [type=submit]").await;
    for filled in ["Decanted “Blue Syrup”", "100 ml into", "150 ml into"] {
        page.until_text("#undo", filled).await;
    }
    // The bottle goes from the form, and what was said of it.
    pick(&page, "mix", "example-blue").await;
    page.until_text("[data-verdict=mix]", "test first").await;
    page.run("document.querySelector('#mix details:has([type=reset])').open = true")
        .await;
    page.press("#mix [type=reset]").await;
    page.until(
        "the verdict goes with it",
        "return document.querySelector('[data-verdict=mix]').hidden",
    )
    .await;
    pick(&page, "decant", "").await;
    page.until(
        "it is asked what is left",
        "return document.getElementById('decant-left').checkVisibility()",
    )
    .await;
    page.quit().await;
}

/// All that this device keeps of the page.
async fn kept(page: &Chromium) -> [Value; 2] {
    let stored = page
        .run("return Object.fromEntries(Object.entries(localStorage))")
        .await;
    assert_ne!(stored, json!({}));
    [stored, mirrored(page).await]
}
