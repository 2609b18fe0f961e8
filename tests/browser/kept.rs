//! What is kept: the kit and what was typed, over reloads, without a server, in two tabs, and with a store that is full, damaged,
//! blocked or absent.

use serde_json::json;

use super::{
    chromium::{Chromium, Setup},
    release::built,
    site::Site,
};

const HEAD: &str = "output[form=mix]";
const SHEET: &str = "[data-room=mix] .sheet";

#[tokio::test]
async fn a_changed_kit_is_used_and_still_there_without_a_server() {
    let mut site = Site::serve(&built(), "/");
    let page = Setup::new("kit").start().await;
    page.open(&site.url()).await;
    page.kept_offline().await;
    page.until_text(SHEET, "20 ml syringe").await;

    kit(&page).await;
    page.press("[data-remove-thing='starter-syringe-20']").await;
    page.until(
        "it is gone",
        "return !document.querySelector('[data-id=starter-syringe-20]')",
    )
    .await;
    page.press("[data-undo]").await;
    page.until(
        "it is back",
        "return !!document.querySelector('[data-id=starter-syringe-20]')",
    )
    .await;
    page.press("[data-remove-thing='starter-syringe-20']").await;
    page.until(
        "it is gone",
        "return !document.querySelector('[data-id=starter-syringe-20]')",
    )
    .await;

    page.run("document.querySelector('[data-adder=instrument]').open = true")
        .await;
    page.fill("instrument", "name", "fine pipette").await;
    page.run("document.getElementById('instrument-kind').value = 'graduated_pipette'")
        .await;
    page.fill("instrument", "capacity", "25 ml").await;
    page.fill("instrument", "graduation", "0.1 ml").await;
    page.press("#instrument button[type=submit]").await;
    page.until_text("[data-list=instrument]", "fine pipette").await;

    page.run("location.hash = 'mix'").await;
    page.fill("mix", "total", "580 ml").await;
    page.until_text(SHEET, "fine pipette").await;

    site.stop();
    page.reload().await;
    page.until_text(SHEET, "fine pipette").await;
    assert_eq!(page.value("mix", "total").await, "580 ml");
    // 580 / 32 (arithmetic).
    page.until_text(HEAD, "18.13").await;
    let sheet = page.text(SHEET).await;
    assert!(!sheet.contains("20 ml syringe"), "{sheet}");
    page.quit().await;
}

#[tokio::test]
async fn a_bottle_brings_its_data_sheet_into_mix() {
    let site = Site::serve(&built(), "/");
    let page = Setup::new("bottle").start().await;
    page.open(&site.url()).await;
    page.run("location.hash = 'shelf'").await;
    page.until(
        "the shelf is shown",
        "return !document.querySelector('[data-room=shelf]').hidden",
    )
    .await;
    page.run("document.querySelectorAll('[data-adder=bottle], [data-adder=bottle] details').forEach((part) => part.open = true)")
        .await;
    page.press("#bottle button[type=submit]").await;
    page.until_text("#bottle-product-fault", "something is needed here")
        .await;
    page.fill("bottle", "product", "Harbour syrup").await;
    page.until(
        "what was said of the field goes",
        "return !document.getElementById('bottle-product-fault') && !document.querySelector('#bottle-product[aria-invalid]')",
    )
    .await;
    page.fill("bottle", "dilution", "1+49").await;
    page.fill("bottle", "least_per_film", "5 ml").await;
    page.fill("bottle", "times", "9:00 at 20 C\n7:00 at 24 C").await;
    page.press("#bottle button[type=submit]").await;
    page.until_text("[data-list=bottle]", "Harbour syrup").await;
    page.run("location.hash = 'mix'").await;
    page.run(
        "const s = document.getElementById('mix-bottle'); s.selectedIndex = 1; s.dispatchEvent(new Event('input', {bubbles: true}))",
    )
    .await;
    // 600 / 50 = 12 ml, and the sheet's own time at 20 C, within its fit.
    page.until_text(HEAD, "Harbour syrup").await;
    page.until_text(HEAD, "12 ml").await;
    page.until_text(HEAD, "9:00").await;
    assert_eq!(page.value("mix", "least_per_film").await, "5 ml");
    page.quit().await;
}

#[tokio::test]
async fn two_tabs_see_each_other() {
    let site = Site::serve(&built(), "/");
    let page = Setup::new("tabs").start().await;
    page.open(&site.url()).await;
    let first = page.driver.window().await.expect("a window");
    let second = page.driver.new_tab().await.expect("a second tab");
    page.driver.switch_to_window(second).await.expect("the second tab");
    page.open(&site.url()).await;
    kit(&page).await;
    page.press("[data-remove-thing='starter-cylinder-100']").await;
    page.driver.switch_to_window(first).await.expect("the first tab");
    page.until(
        "the first tab follows",
        "return !document.querySelector('[data-id=starter-cylinder-100]')",
    )
    .await;
    page.quit().await;
}

#[tokio::test]
async fn a_full_store_has_a_sentence_and_stops_nothing() {
    let site = Site::serve(&built(), "/");
    let page = Setup::new("full").start().await;
    page.open(&site.url()).await;
    page.run(
        "for (let size = 1 << 20; size > 0; size >>= 1) { try { for (let n = 0; ; n++) localStorage.setItem('other/' + size + '/' + n, 'x'.repeat(size)) } catch (e) {} }",
    )
    .await;
    page.fill("mix", "total", "650 ml").await;
    page.until_text("#trouble", "The browser's store is full").await;
    // 650 / 32 (arithmetic).
    page.until_text(HEAD, "20.31").await;
    page.run("Object.keys(localStorage).filter(k => k.startsWith('other/')).forEach(k => localStorage.removeItem(k))")
        .await;
    page.fill("mix", "total", "640 ml").await;
    page.until(
        "the sentence goes away",
        "return document.getElementById('trouble').hidden",
    )
    .await;
    page.reload().await;
    assert_eq!(page.value("mix", "total").await, "640 ml");
    page.quit().await;
}

#[tokio::test]
async fn a_damaged_entry_is_shown_and_left_as_it_is() {
    let site = Site::serve(&built(), "/");
    let page = Setup::new("damaged").start().await;
    page.open(&site.url()).await;
    let damaged = "1 00000000 {\"tank\":{}} <script>window.struck=1</script>";
    page.run(&format!(
        "localStorage.setItem('meniscus/kit/other', {})",
        json!(damaged)
    ))
    .await;
    page.reload().await;
    page.until_text("#trouble", "cannot be read").await;
    page.until_text(HEAD, "18.75").await;
    assert_eq!(
        page.run("return localStorage.getItem('meniscus/kit/other')").await,
        json!(damaged)
    );
    assert_eq!(page.run("return window.struck === undefined").await, json!(true));
    page.quit().await;
}

#[tokio::test]
async fn a_blocked_or_absent_store_has_a_sentence_and_stops_nothing() {
    for (name, getter, sentence) in [
        (
            "blocked",
            "throw new DOMException('no', 'SecurityError')",
            "does not let the page keep anything",
        ),
        ("absent", "return null", "keeps nothing for pages"),
    ] {
        let site = Site::serve(&built(), "/");
        let page = Setup::new(name).start().await;
        let source = format!("Object.defineProperty(window, 'localStorage', {{ get() {{ {getter} }} }})");
        page.devtools("Page.addScriptToEvaluateOnNewDocument", json!({ "source": source }))
            .await;
        page.open(&site.url()).await;
        page.until_text("#trouble", sentence).await;
        page.fill("mix", "dilution", "1+24").await;
        // 600 / 25 (arithmetic).
        page.until_text(HEAD, "24").await;
        page.quit().await;
    }
}

async fn kit(page: &Chromium) {
    page.run("location.hash = 'kit'").await;
    page.until(
        "the Kit is shown",
        "return !document.querySelector('[data-room=kit]').hidden",
    )
    .await;
}
