//! How the page looks: no barrier that axe-core can find in light and dark, on a phone and on a
//! desk, and nothing wider than the window. The pictures are kept in `target/screenshots/`.

use meniscus::calculators::SHELF_NAMES;

use super::{
    chromium::Setup,
    example::show_example,
    release::built,
    shelf::{go, pick, record},
    site::Site,
};

/// The narrow width is WCAG 2.2's for reflow (success criterion 1.4.10): 320 CSS pixels.
const WINDOWS: [(&str, u32, u32); 3] = [("narrow", 320, 640), ("phone", 412, 915), ("desk", 1280, 900)];

/// The rooms that have no calculator.
const PLAIN: [&str; 5] = ["shelf", "tests", "session", "run", "log"];

#[tokio::test]
async fn has_no_barriers_in_light_and_dark() {
    let site = Site::serve(&built(), "/");
    for (name, width, height) in WINDOWS {
        let page = Setup::new(&format!("look-{name}")).window(width, height).start().await;
        page.open(&site.url()).await;
        for scheme in ["light", "dark"] {
            page.prefer(scheme).await;
            page.picture(&format!("{name}-{scheme}")).await;
            assert_eq!(page.axe().await, [""; 0], "{name}, {scheme}");
        }
        page.quit().await;
    }
}

#[tokio::test]
async fn the_shelf_has_no_barriers_either() {
    let site = Site::serve(&built(), "/");
    let page = Setup::new("look-shelf").window(412, 915).start().await;
    page.open(&format!("{}#shelf", site.url())).await;
    show_example(&page).await;
    for room in PLAIN.into_iter().chain(["record"]).chain(SHELF_NAMES) {
        match room {
            "shelf" => {}
            "record" => record(&page, "example-blue", "Blue Syrup").await,
            "spend" | "curve" | "calibrate" | "temper" | "weigh" | "wash" => go(&page, room).await,
            _ if PLAIN.contains(&room) => go(&page, room).await,
            "clear" | "chart" => pick(&page, room, "example-fix-bath").await,
            "spots" => pick(&page, room, "example-stop").await,
            _ => pick(&page, room, "example-blue").await,
        }
        if room == "log" {
            page.until_text("#log-found", "Blue Syrup").await;
        } else if !PLAIN.contains(&room) {
            let answered = format!("return document.querySelector('[data-room={room}] .head').innerText !== ''");
            page.until(&format!("{room} answers"), &answered).await;
        }
        page.run("document.querySelectorAll('details').forEach((part) => part.open = true)")
            .await;
        for scheme in ["light", "dark"] {
            page.prefer(scheme).await;
            page.picture(&format!("shelf-{room}-{scheme}")).await;
            assert_eq!(page.axe().await, [""; 0], "{room}, {scheme}");
        }
        let wide = page
            .run("return document.documentElement.scrollWidth > innerWidth")
            .await;
        assert_eq!(wide, serde_json::json!(false), "{room} is wider than the window");
    }
    let small = page
        .run("return [...document.querySelectorAll('button, input, select, textarea, summary, nav a, .to-record')].filter(e => e.offsetParent && e.getBoundingClientRect().height < 48).map(e => e.outerHTML.slice(0, 80))")
        .await;
    assert_eq!(small, serde_json::json!([]));
    page.quit().await;
}
