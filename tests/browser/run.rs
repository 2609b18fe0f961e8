//! The timer: right after an hour out of sight, a reload, sleep, and a clock that is set; and nothing lost when the store fails.
//!
//! The page's two clocks are stood in for by one of the test, which moves them at will: what the timer shows is worked out from
//! them, and the times below are arithmetic.

use meniscus::day::{Clock, Kept};
use meniscus::development::drift::Onward;
use meniscus::quantity::{Span, Temperature};
use meniscus::session::{Agitation, Rate, Recipe, Run, Step, StepKind};
use meniscus::store::Record;
use serde_json::json;

use super::{
    chromium::{Chromium, Setup},
    release::built,
    site::Site,
};

/// Some moment: milliseconds since 1970.
const BEGUN: i64 = 1_800_000_000_000;

const LEFT: &str = "#run-left";
const CUE: &str = "#run-cue";

/// Clocks that stand until they are moved. The page's own does not go on while the device sleeps, and begins anew with the page.
const CLOCKS: &str = "(() => {
    const number = (name) => Number(sessionStorage.getItem(name) ?? 0);
    if (!sessionStorage.getItem('device')) sessionStorage.setItem('device', BEGUN);
    const loaded = number('device') - number('apart');
    Date.now = () => number('device');
    performance.now = () => number('device') - number('apart') - loaded;
    window.pass = (time) => sessionStorage.setItem('device', number('device') + time);
    window.jump = (time) => {
        sessionStorage.setItem('device', number('device') + time);
        sessionStorage.setItem('apart', number('apart') + time);
    };
})()";

fn step(kind: StepKind, seconds: f64, agitated: bool) -> Step {
    let [first, each, every] = [30.0, 10.0, 60.0].map(Span::from_seconds);
    Step {
        kind,
        name: kind.word().to_owned(),
        time: Span::from_seconds(seconds),
        temperature: None,
        agitation: agitated.then_some(Agitation { first, each, every }),
    }
}

/// A run of these steps that has just begun, as the page keeps it.
fn begun(steps: Vec<Step>) -> String {
    let recipe = Recipe {
        title: "2 × 135 in Blue Syrup 1+31".to_owned(),
        films: "2 × 135".to_owned(),
        units: 2.0,
        steps,
        rate: Some(Rate {
            activation: 50_000.0,
            is_assumed: Some(false),
            at: Temperature::from_celsius(20.0),
            onward: Onward::Held,
        }),
        ..Recipe::default()
    };
    let kept = Kept::new(Run::begin(recipe), &Clock::begin(BEGUN as f64, 0.0));
    Record::Form(kept.to_named()).to_text()
}

/// A page in which these steps have just begun, with the clocks of the test.
async fn open(name: &str, site: &Site, steps: Vec<Step>) -> Chromium {
    let page = Setup::new(name).window(412, 915).start().await;
    let clocks = CLOCKS.replace("BEGUN", &BEGUN.to_string());
    page.devtools("Page.addScriptToEvaluateOnNewDocument", json!({ "source": clocks }))
        .await;
    page.open(&site.url()).await;
    let keep = format!("localStorage.setItem('meniscus/form/run', {})", json!(begun(steps)));
    page.run(&keep).await;
    page.run("location.hash = 'run'").await;
    page.reload().await;
    page.until_text(CUE, "").await;
    page.until(
        "the timer is shown",
        "return !!document.querySelector('#run-left')?.textContent",
    )
    .await;
    page
}

async fn pass(page: &Chromium, milliseconds: i64) {
    page.run(&format!("pass({milliseconds})")).await;
}

/// A step of two hours, looked at after an hour: its second changes within 50 ms of when it should, though the page was out of
/// sight and loaded anew meanwhile.
#[tokio::test]
async fn it_is_right_after_an_hour_out_of_sight_and_a_reload() {
    let site = Site::serve(&built(), "/");
    let page = open("run-hour", &site, vec![step(StepKind::Wash, 7200.0, false)]).await;
    page.until_text(LEFT, "2:00:00").await;
    let first = page.driver.window().await.expect("a window");
    let other = page.driver.new_tab().await.expect("another tab");
    page.driver.switch_to_window(other).await.expect("it is shown");
    page.driver
        .switch_to_window(first.clone())
        .await
        .expect("the first is spoken to");
    for _ in 0..30 {
        pass(&page, 60_000).await;
        tokio::time::sleep(std::time::Duration::from_millis(30)).await;
    }
    page.reload().await;
    for _ in 0..30 {
        pass(&page, 60_000).await;
    }
    // 2:00:00 less an hour is shown until an hour has passed and not a moment longer: 3600.05 s are left before it, 3599.95 after.
    pass(&page, -50).await;
    page.until_text(LEFT, "1:00:01").await;
    pass(&page, 100).await;
    page.until_text(LEFT, "1:00:00").await;
    pass(&page, 850).await;
    page.until_text(LEFT, "1:00:00").await;
    pass(&page, 150).await;
    page.until_text(LEFT, "59:59").await;
    page.quit().await;
}

/// Ten minutes at one stroke: sleep, or a clock that was put forward. They count, are told, and can be taken off.
#[tokio::test]
async fn sleep_counts_and_a_clock_that_is_set_does_not() {
    let site = Site::serve(&built(), "/");
    let page = open("run-clocks", &site, vec![step(StepKind::Fix, 3600.0, false)]).await;
    page.until_text(LEFT, "1:00:00").await;
    pass(&page, 60_000).await;
    page.until_text(LEFT, "59:00").await;

    page.run("jump(600000)").await;
    page.until_text(LEFT, "49:00").await;
    page.until_text("#run-place", "10:00 passed at one stroke").await;
    page.press("[data-act=take-off]").await;
    page.until_text(LEFT, "59:00").await;

    page.run("jump(-7200000)").await;
    page.until_text("#run-place", "put back by 2:00:00").await;
    pass(&page, 60_000).await;
    page.until_text(LEFT, "58:00").await;
    // What was decided stays decided in a page that is loaded anew.
    page.reload().await;
    page.until_text(LEFT, "58:00").await;

    // Put back while the page is away: how long it was away cannot be known, and that is said.
    let elsewhere = format!("{}manifest.webmanifest", site.url());
    page.driver.goto(elsewhere).await.expect("another address");
    page.run("jump(-3600000)").await;
    page.open(&format!("{}#run", site.url())).await;
    page.until_text("#run-place", "how long it was away is not known").await;
    page.quit().await;
}

/// Common practice: agitate the first half minute, then ten seconds every minute.
#[tokio::test]
async fn cues_follow_each_other_and_presses_can_be_taken_back() {
    let site = Site::serve(&built(), "/");
    let steps = vec![step(StepKind::Develop, 510.0, true), step(StepKind::Stop, 30.0, false)];
    let page = open("run-cues", &site, steps).await;
    page.until_text(CUE, "Agitate").await;
    pass(&page, 31_000).await;
    page.until_text(CUE, "Let it stand").await;
    pass(&page, 30_000).await;
    page.until_text(CUE, "Agitate").await;
    assert!(page.text("#run-cue-left").await.contains("0:09"));

    for scheme in ["light", "dark"] {
        page.prefer(scheme).await;
        page.picture(&format!("run-{scheme}")).await;
        assert_eq!(page.axe().await, [""; 0], "{scheme}");
    }

    // In other rooms a line tells of it.
    page.run("location.hash = 'mix'").await;
    page.until_text("#running", "Develop 7:29. Agitate.").await;
    page.press("#running a").await;
    page.until(
        "the timer is shown",
        "return !document.querySelector('[data-room=run]').hidden",
    )
    .await;

    page.press("[data-act=next]").await;
    page.until_text("#run-said", "Develop ended 7:29 early").await;
    page.until_text(LEFT, "0:30").await;
    page.press("[data-act=undo]").await;
    page.until_text(LEFT, "7:29").await;

    page.press("[data-act=pause]").await;
    page.until_text("#run-said", "film in developer goes on developing")
        .await;
    pass(&page, 100_000).await;
    page.press("[data-act=resume]").await;
    pass(&page, 1_000).await;
    page.until_text(LEFT, "7:28").await;

    page.fill("reading", "temperature", "60 C").await;
    page.press("#reading button").await;
    page.until_text("#reading-temperature-fault", "10 °C").await;
    page.fill("reading", "temperature", "19 C").await;
    page.press("#reading button").await;
    page.until_text("#run-said", "more").await;

    pass(&page, 600_000).await;
    page.until_text(CUE, "Time is up").await;
    page.until_text(LEFT, "+").await;
    page.quit().await;
}

/// The store fails in the midst of it: it goes on and says so; a second tab sees what is pressed while it can.
#[tokio::test]
async fn a_lost_store_stops_nothing_and_other_tabs_follow() {
    let site = Site::serve(&built(), "/");
    let steps = vec![step(StepKind::Fix, 300.0, false), step(StepKind::Wash, 600.0, false)];
    let page = open("run-store", &site, steps).await;
    page.until_text(LEFT, "5:00").await;
    page.run("Storage.prototype.setItem = () => { throw new DOMException('full', 'QuotaExceededError') }")
        .await;
    page.press("[data-act=longer]").await;
    page.until_text("#run-place", "does not keep this run").await;
    page.until_text(LEFT, "5:30").await;
    page.press("[data-act=next]").await;
    page.until_text(LEFT, "10:00").await;
    page.press("[data-act=end]").await;
    page.until_text("#run-place", "To be written down").await;
    page.quit().await;
}
