//! The annex is told only what is new to it: whatever happened, it says what it says in a page that was just loaded and told all.

use std::fs;

use meniscus::ledger::{Event, What};
use meniscus::quantity::Volume;
use serde_json::{Value, json};
use thirtyfour::WindowHandle;

use super::{
    chromium::Chromium,
    ledger::{start, stored},
    release::built,
    shelf::{HEAD, LIST, add, change_bottle, days_ago, go, record, send},
    site::Site,
};

/// How the page's loader hands the annex over, and the same with an ear at what it is told: whether all anew, and how many events.
const HANDED: &str = "takeShelf(module);";
const HEARD: &str = "window.told = [];
    takeShelf({ ...module, know(kit, anew, events, today) {
        window.told.push([anew, events.length]);
        return module.know(kit, anew, events, today);
    } });";

/// What the annex says: the bottles, the places, and of every bottle its record, its form and a calculator's data.
const SAYS: &str = "const keeping = (bottle) => JSON.stringify(window.meniscus.calculate('keeping', { bottle }));
    window.meniscus.more().then((annex) => {
        // The page tells the annex what it must know before it asks it.
        const said = [keeping(''), annex.bottles(), annex.places(), annex.place_names()];
        const names = [...annex.bottles().matchAll(/#record\\/([^\"]+)/g)].map((found) => found[1]);
        for (const name of new Set(names)) {
            said.push(keeping(name), JSON.stringify([annex.record(name), annex.known(name)]));
        }
        arguments[0](said);
    })";

/// Two tabs: an old one that goes on and on, which is shown, and a witness that is loaded anew.
struct Tabs {
    page: Chromium,
    old: WindowHandle,
    witness: WindowHandle,
}

impl Tabs {
    async fn show(&self, tab: &WindowHandle) {
        self.page.driver.switch_to_window(tab.clone()).await.expect("a tab");
    }

    /// What the annex was told since this was asked last: whether all anew, and how many events.
    async fn told(&self) -> (bool, u64) {
        let told = self.page.run("return window.told.splice(0)").await;
        let told: Vec<(bool, u64)> = serde_json::from_value(told).expect("a list of pairs");
        (told.iter().any(|one| one.0), told.iter().map(|one| one.1).sum())
    }

    /// What both say, which is the same.
    async fn say(&self, after: &str) -> Value {
        let old = self.page.finish(SAYS).await;
        self.show(&self.witness).await;
        self.page.reload().await;
        go(&self.page, "shelf").await;
        let anew = self.page.finish(SAYS).await;
        self.show(&self.old).await;
        assert_eq!(old, anew, "after {after}");
        anew
    }
}

/// No outside source: the annex's own words in a page that was just loaded, which tells it everything, are the measure.
#[tokio::test]
async fn it_is_told_what_is_new_and_says_what_a_page_just_loaded_says() {
    let site = Site::serve(&built(), "/");
    let loader = fs::read_to_string(built().join("start.js")).expect("the loader is text");
    assert_eq!(loader.matches(HANDED).count(), 1, "the loader hands it over");
    site.change("start.js", loader.replace(HANDED, HEARD).as_bytes());
    let page = start("annex", &site).await;
    let old = page.driver.window().await.expect("a window");
    let witness = page.driver.new_tab().await.expect("a second tab");
    let tabs = Tabs { page, old, witness };
    let page = &tabs.page;
    tabs.show(&tabs.witness).await;
    page.open(&format!("{}#shelf", site.url())).await;
    tabs.show(&tabs.old).await;
    page.until("the shelf is here", "return !!window.told").await;

    let blue = add(page, "Blue Syrup", &[("filled", "500")]).await;
    assert_eq!(tabs.told().await, (true, 1), "nothing at first, and then the bottle");
    let mut before = tabs.say("a bottle came").await;

    record(page, &blue, "Blue Syrup").await;
    send(page, "drawn", &[("volume", "18.75")]).await;
    page.until_text(HEAD, "481.25 ml").await;
    assert_eq!(tabs.told().await, (false, 1));
    let mut now = tabs.say("a draw").await;
    assert_ne!(now, before);

    page.press("#undo [data-take-back]").await;
    page.until_text(HEAD, "500 ml").await;
    assert_eq!(tabs.told().await, (false, 1));
    (before, now) = (now, tabs.say("a correction").await);
    assert_ne!(now, before);

    tabs.show(&tabs.witness).await;
    record(page, &blue, "Blue Syrup").await;
    send(page, "drawn", &[("volume", "25")]).await;
    page.until_text(HEAD, "475 ml").await;
    tabs.show(&tabs.old).await;
    page.until_text(HEAD, "475 ml").await;
    assert_eq!(tabs.told().await, (false, 1));
    (before, now) = (now, tabs.say("another tab's draw").await);
    assert_ne!(now, before);

    // Events that go before others.
    change_bottle(page).await;
    let opened = days_ago(page, 30).await;
    send(page, "bottle", &[("opened", "day"), ("opened_on", &opened)]).await;
    page.until_text(LIST, &format!("opened {opened}")).await;
    let (anew, events) = tabs.told().await;
    assert!(!anew && events > 1, "{events}");
    (before, now) = (now, tabs.say("its opening said anew").await);
    assert_ne!(now, before);

    // Of another device, another text of an event that is here: both are kept.
    let own = stored(page).await;
    let texts = own.as_object().expect("an object").values();
    let mut events = texts.map(|text| Event::from_text(text.as_str().expect("a text")).expect("an event"));
    let mut other = events
        .find(|event| matches!(event.what, What::Drawn { .. }))
        .expect("a draw");
    if let What::Drawn { volume, .. } = &mut other.what {
        *volume = Volume::from_millilitres(30.0);
    }
    tabs.show(&tabs.witness).await;
    let (key, text) = (format!("{}/2", other.key()), other.to_text());
    page.run(&format!("localStorage.setItem({}, {})", json!(key), json!(text)))
        .await;
    tabs.show(&tabs.old).await;
    page.until("it is told", "return window.told.length > 0").await;
    assert_eq!(tabs.told().await, (false, 1));
    (before, now) = (now, tabs.say("two texts of one event").await);
    assert_ne!(now, before);

    // The example, something done to it, and neither of them.
    page.press("[data-example]").await;
    page.until_text(LIST, "Honey Syrup").await;
    let (anew, events) = tabs.told().await;
    assert!(!anew && events > 20, "{events}");
    record(page, "example-blue", "Blue Syrup").await;
    send(page, "drawn", &[("volume", "10")]).await;
    page.until_text(HEAD, "241.25 ml").await;
    assert_eq!(tabs.told().await, (false, 1));
    go(page, "shelf").await;
    page.press("[data-example-away]").await;
    page.until(
        "its bottles are gone",
        "return !document.getElementById('bottles').innerText.includes('Honey Syrup')",
    )
    .await;
    let kept = stored(page).await.as_object().map_or(0, |all| all.len() as u64);
    assert_eq!(tabs.told().await, (true, kept));
    assert_eq!(tabs.say("the example went").await, now);

    // The house alone.
    go(page, "kit").await;
    send(page, "house", &[("volume_unit", "floz")]).await;
    go(page, "shelf").await;
    page.until_text(LIST, "fl oz").await;
    assert_eq!(tabs.told().await, (false, 0));
    assert_ne!(tabs.say("the house").await, now);
    tabs.page.quit().await;
}
