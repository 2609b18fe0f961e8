//! How the page looks: no barrier that axe-core can find in light and dark, on a phone and on a
//! desk, and nothing wider than the window. The pictures are kept in `target/screenshots/`.

use super::{chromium::Setup, release::built, site::Site};

/// The narrow width is WCAG 2.2's for reflow (success criterion 1.4.10): 320 CSS pixels.
const WINDOWS: [(&str, u32, u32); 3] = [("narrow", 320, 640), ("phone", 412, 915), ("desk", 1280, 900)];

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
