//! Tests in a real browser: an old bottle beside a fresh one, from two densities to the record of both and to the next bath; a
//! stop bath by its colour; an instrument that is weighed and used.

use super::{
    ledger::start,
    release::built,
    shelf::{HEAD, LIFE, add, go, pick, record, texts},
    site::Site,
};

#[tokio::test]
async fn an_old_bottle_is_compared_with_a_fresh_one_and_it_is_written_up() {
    let site = Site::serve(&built(), "/");
    let page = start("compared", &site).await;
    let known = [("class", "syrup"), ("dilution", "1+31")];
    let old = add(&page, "Old Syrup", &known).await;
    let fresh = add(&page, "Fresh Syrup", &known).await;

    // Without a bottle there is nothing to write it on.
    go(&page, "compare").await;
    assert!(!page.shows("[data-found=compare]").await);
    pick(&page, "compare", &old).await;
    page.run(&format!(
        "const select = document.getElementById('compare-against');
        select.value = '{fresh}'; select.dispatchEvent(new Event('input', {{ bubbles: true }}))"
    ))
    .await;
    // Far more than any hand: a third of the density is gone.
    page.fill("compare", "first", "0.62 0.63 0.62 0.61").await;
    page.fill("compare", "second", "0.95 0.94 0.96 0.95").await;
    page.fill("compare", "first_base", "0.30").await;
    page.fill("compare", "second_base", "0.30").await;
    page.until_text("output[form=compare]", "weaker").await;
    // Nonsense stands at its field, and nothing else is lost.
    page.fill("compare", "first_rolls", "many").await;
    page.until_text("#compare-first_rolls-fault", "not a number").await;
    assert_eq!(page.value("compare", "first").await, "0.62 0.63 0.62 0.61");
    page.fill("compare", "first_rolls", "1").await;
    page.until(
        "the fault goes",
        "return !document.getElementById('compare-first_rolls-fault')",
    )
    .await;
    page.until_text("output[form=compare]", "weaker").await;
    page.press("[data-found=compare]").await;
    page.until_text("#undo", "Old Syrup").await;

    record(&page, &fresh, "Fresh Syrup").await;
    page.until_text(LIFE, "Stood as fresh in a comparison of Old Syrup.")
        .await;
    record(&page, &old, "Old Syrup").await;
    page.until_text(LIFE, "comparison").await;
    page.until_text(HEAD, "failed").await;

    // What it lost is made up for in the next bath.
    pick(&page, "mix", &old).await;
    page.until(
        "its strength stands in the form",
        "return parseFloat(document.getElementById('mix-strength').value) < 90",
    )
    .await;
    pick(&page, "mix", &fresh).await;
    page.until(
        "the fresh one is at full strength",
        "return document.getElementById('mix-strength').value === '100 %'",
    )
    .await;

    // The write-up, as it is pasted.
    let text = page
        .finish(
            "window.meniscus.more().then((annex) => arguments[0](annex.text('compare',
                Object.fromEntries(new FormData(document.getElementById('compare'))))))",
        )
        .await;
    let text = text.as_str().expect("a text").to_owned();
    for part in ["weaker", "What to do", "Old Syrup"] {
        assert!(text.contains(part), "{part} is not in\n{text}");
    }
    page.quit().await;
}

#[tokio::test]
async fn a_stop_bath_is_proved_by_its_colour_and_that_can_be_taken_back() {
    let site = Site::serve(&built(), "/");
    let page = start("spots", &site).await;
    let stop = add(&page, "Sour Stop", &[("class", "stop")]).await;
    go(&page, "tests").await;
    let links = texts(&page, "[data-room=tests] .questions a").await;
    assert_eq!(links.len(), 9, "{links:?}");
    page.press("[data-room=tests] a[href='#spots']").await;
    pick(&page, "spots", &stop).await;
    page.until_text("output[form=spots]", "not looked at yet").await;
    assert!(
        !page.shows("[data-found=spots]").await,
        "there is nothing to write down yet"
    );
    page.run(
        "const select = document.getElementById('spots-indicator');
        select.value = 'yellow'; select.dispatchEvent(new Event('input', { bubbles: true }))",
    )
    .await;
    page.until_text("output[form=spots]", "use it").await;
    page.press("[data-found=spots]").await;
    page.until_text("#undo", "Sour Stop").await;
    page.until_text("[data-verdict=spots]", "proved").await;
    page.press("#undo [data-take-back]").await;
    page.until_text("[data-verdict=spots]", "in date").await;
    page.quit().await;
}

#[tokio::test]
async fn an_instrument_that_was_weighed_is_used_at_once() {
    let site = Site::serve(&built(), "/");
    let page = start("weighed", &site).await;
    go(&page, "calibrate").await;
    page.run(
        "const select = document.getElementById('calibrate-instrument');
        select.value = [...select.options].find((one) => one.textContent.includes('20 ml syringe')).value;
        select.dispatchEvent(new Event('input', { bubbles: true }))",
    )
    .await;
    page.fill("calibrate", "marked", "18 ml").await;
    page.fill(
        "calibrate",
        "masses",
        "17.82; 17.80; 17.84; 17.81; 17.83; 17.82; 17.80; 17.82; 17.81; 17.83",
    )
    .await;
    page.until_text("output[form=calibrate]", "ml").await;
    page.press("[data-calibrated=calibrate]").await;
    page.until_text("#undo", "20 ml syringe").await;
    go(&page, "kit").await;
    page.until_text("[data-list=instrument]", "calibrat").await;
    // It outlives the page.
    page.reload().await;
    go(&page, "kit").await;
    page.until_text("[data-list=instrument]", "calibrat").await;
    page.quit().await;
}
