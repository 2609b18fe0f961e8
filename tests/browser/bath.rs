//! Mix and its neighbours: from what is typed to what is read, with good and bad input.

use meniscus::calculators::ALL;
use serde_json::json;

use super::{
    chromium::{Chromium, Setup},
    release::built,
    site::Site,
};

const HEAD: &str = "output[form=mix]";

#[tokio::test]
async fn answers_without_typing_and_after_it() {
    let site = Site::serve(&built(), "/");
    let page = Setup::new("bath").start().await;
    page.open(&site.url()).await;
    // 600 ml at 1+31 is 600 / 32 = 18.75 ml (arithmetic).
    page.until_text(HEAD, "18.75").await;
    page.until(
        "the syringe is drawn",
        "return !!document.querySelector('#mix ~ .sheet svg.syringe')",
    )
    .await;

    page.fill("mix", "dilution", "1:49").await;
    page.until_text(HEAD, "12").await;
    page.until_text("[data-room=mix] .sheet", "A colon is read as a plus: 1+49.")
        .await;

    let answer = page
        .run("return window.meniscus.calculate('mix', {dilution: '1+31', total: '600 ml'})")
        .await;
    let figures = answer["figures"].as_array().expect("figures");
    let concentrate = figures
        .iter()
        .find(|figure| figure["name"] == "concentrate")
        .expect("there");
    assert_eq!(concentrate["value"], json!(18.75));
    assert_eq!(concentrate["unit"], json!("ml"));
    assert!(concentrate["standard_uncertainty"].as_f64().is_some_and(|u| u > 0.0));
    page.quit().await;
}

#[tokio::test]
async fn says_all_faults_at_their_fields_and_computes_the_rest() {
    let site = Site::serve(&built(), "/");
    let page = Setup::new("faults").start().await;
    page.open(&site.url()).await;
    page.fill("mix", "temperature", "lukewarm").await;
    page.fill("mix", "films_135", "2.5").await;
    page.until_text("#mix-temperature-fault", "“lukewarm” is not a number.")
        .await;
    page.until_text("#mix-films_135-fault", "The number must be a whole number.")
        .await;
    page.until_text(HEAD, "18.75").await;
    let tied = page
        .run("const c = document.getElementById('mix-temperature'); return [c.getAttribute('aria-invalid'), c.getAttribute('aria-describedby')]")
        .await;
    assert_eq!(tied, json!(["true", "mix-temperature-fault mix-temperature-takes"]));

    page.fill("mix", "dilution", "<img src=x onerror=window.struck=1>")
        .await;
    page.until_text("#mix-dilution-fault", "is not a dilution").await;
    page.until_text("[data-room=mix] .sheet", "Brim").await;
    assert_eq!(page.run("return window.struck === undefined").await, json!(true));
    assert_eq!(
        page.run("return document.querySelectorAll('main img').length").await,
        json!(0)
    );

    page.reload().await;
    assert_eq!(page.value("mix", "temperature").await, "lukewarm");
    page.fill("mix", "temperature", "20").await;
    page.fill("mix", "dilution", "1+31").await;
    page.fill("mix", "films_135", "2").await;
    page.until("no fault is left", "return !document.querySelector('.fault')")
        .await;
    page.quit().await;
}

#[tokio::test]
async fn every_room_is_reached_by_its_address_and_by_keyboard() {
    let site = Site::serve(&built(), "/");
    let page = Setup::new("rooms").window(412, 915).start().await;
    page.open(&site.url()).await;
    // Mix, which the page shows by itself, comes last.
    let answering = ALL.iter().rev().map(|calculator| calculator.name);
    for room in ["shelf", "tests", "kit"].into_iter().chain(answering) {
        go(&page, room).await;
        let shown = page
            .run("return [...document.querySelectorAll('[data-room]')].filter(r => !r.hidden).map(r => r.dataset.room)")
            .await;
        assert_eq!(shown, json!([room]));
        let focus = page.run("return document.activeElement.id").await;
        assert_eq!(focus, json!(format!("at-{room}")));
        for scheme in ["light", "dark"] {
            page.prefer(scheme).await;
            page.picture(&format!("room-{room}-{scheme}")).await;
            assert_eq!(page.axe().await, [""; 0], "{room}, {scheme}");
        }
        let wide = page
            .run("return document.documentElement.scrollWidth > innerWidth")
            .await;
        assert_eq!(wide, json!(false), "{room} is wider than the window");
    }
    // WCAG 2.2 asks for 24 px (2.5.8); wet hands ask for twice that.
    let small = page
        .run("return [...document.querySelectorAll('button, input, select, textarea, summary, nav a')].filter(e => e.offsetParent && e.getBoundingClientRect().height < 48).map(e => e.outerHTML.slice(0, 80))")
        .await;
    assert_eq!(small, json!([]));
    page.quit().await;
}

#[tokio::test]
async fn the_other_calculators_answer() {
    let site = Site::serve(&built(), "/");
    let page = Setup::new("neighbours").start().await;
    page.open(&site.url()).await;
    go(&page, "time").await;
    page.run("document.querySelectorAll('details').forEach((part) => part.open = true)")
        .await;
    page.fill("time", "times", "8:00 at 20 C").await;
    page.fill("time", "q10", "2").await;
    page.fill("time", "temperature", "68 F").await;
    page.until_text("output[form=time]", "8:00").await;
    go(&page, "fill").await;
    page.fill("fill", "total", "500").await;
    page.until_text("[data-room=fill] .sheet", "500 ml does not cover 2 × 135")
        .await;
    go(&page, "measure").await;
    page.fill("measure", "volume", "4 ml").await;
    page.until_text("[data-room=measure] .sheet", "10 ml syringe").await;
    page.quit().await;
}

async fn go(page: &Chromium, room: &str) {
    page.run(&format!("location.hash = '{room}'")).await;
    page.until(
        &format!("{room} is shown"),
        &format!("return !document.querySelector('[data-room={room}]').hidden"),
    )
    .await;
}

/// Only what differs is written; in the end the page stands as if it had been opened with those fields. What the user folded
/// out stays so while nothing but figures change.
#[tokio::test]
async fn a_changed_sheet_is_the_same_as_a_fresh_one() {
    const STANDS: &str = "return document.querySelector('output[form=mix]').innerHTML \
        + document.querySelector('[data-room=mix] [data-sheet]').innerHTML";
    let site = Site::serve(&built(), "/");
    let page = Setup::new("changes").start().await;
    page.open(&site.url()).await;
    page.until_text("[data-room=mix] .sheet", "On a mark").await;
    page.run("document.querySelector('.ways details').open = true").await;
    page.fill("mix", "total", "608 ml").await;
    page.until_text("[data-room=mix] .sheet", "19 ml ± 0.67 ml").await;
    let open = page.run("return !!document.querySelector('.ways details[open]')").await;
    page.run("for (const details of document.querySelectorAll('.ways details')) details.open = false")
        .await;
    let typed = [
        ("total", "1600 ml"),
        ("total", "610"),
        ("dilution", "1:50"),
        ("least_per_film", "6 ml"),
        ("times", "11 at 20 C; 7:30 at 24 C"),
        ("temperature", "warm"),
        ("temperature", "21.5"),
        ("dilution", ""),
        ("dilution", "1+1+100"),
        ("films_135", "0"),
        ("dilution", "1+19"),
    ];
    for (field, text) in typed {
        page.run("for (const details of document.querySelectorAll('#mix details')) details.open = true")
            .await;
        page.fill("mix", field, text).await;
        // The rest of the sheet follows two frames later.
        page.finish("setTimeout(arguments[0], 80)").await;
        let changed = page.run(STANDS).await;
        page.reload().await;
        page.finish("setTimeout(arguments[0], 80)").await;
        assert_eq!(changed, page.run(STANDS).await, "{field} = {text}");
    }
    assert_eq!(open, json!(true));
    page.quit().await;
}
