//! The shelf in a real browser: a bottle from the day on which it comes to the day on which it goes, and what is asked of it.

use serde_json::json;

use super::{
    chromium::Chromium,
    ledger::{start, stored},
    release::built,
    site::Site,
};

/// The bottles.
pub const LIST: &str = "[data-list=bottle]";
/// What of a bottle's record is acted on.
pub const HEAD: &str = "[data-room=record] .head";
/// Its life, first to last; but for the latest lines it is folded up.
pub const LIFE: &str = "[data-room=record] .part:has(.record)";

/// Goes to a room, or to a bottle's record.
pub async fn go(page: &Chromium, address: &str) {
    let room = address.split('/').next().unwrap_or_default();
    page.run(&format!("location.hash = {}", json!(address))).await;
    page.until(
        &format!("{room} is shown"),
        &format!("return !document.querySelector('[data-room={room}]').hidden"),
    )
    .await;
}

/// Fills a form as with the keyboard, and sends it off.
pub async fn send(page: &Chromium, form: &str, fields: &[(&str, &str)]) {
    page.run(&format!(
        "const form = document.getElementById({});
        for (const [name, text] of {}) form.elements[name].value = text;
        form.requestSubmit()",
        json!(form),
        json!(fields)
    ))
    .await;
}

/// Adds a bottle of 500 ml that was never opened, with what else is known, and returns its name in addresses.
pub async fn add(page: &Chromium, product: &str, known: &[(&str, &str)]) -> String {
    go(page, "shelf").await;
    let mut fields = vec![("product", product), ("nominal", "500 ml"), ("material", "glass")];
    fields.extend(known);
    send(page, "bottle", &fields).await;
    page.until_text(LIST, product).await;
    let find = format!(
        "return [...document.querySelectorAll('#bottles .to-record')].find((link) => link.textContent.includes({}))
            .hash.slice('#record/'.length)",
        json!(product)
    );
    page.run(&find).await.as_str().expect("a name").to_owned()
}

/// Opens the form of the bottle whose record is shown, and waits until it holds what is known of it.
pub async fn change_bottle(page: &Chromium) {
    page.press("[data-change-bottle]").await;
    page.until(
        "the form holds the bottle",
        "return !!document.getElementById('bottle').dataset.id && document.activeElement.id === 'bottle-product'",
    )
    .await;
}

/// Picks a bottle of the shelf in a calculator.
pub async fn pick(page: &Chromium, calculator: &str, bottle: &str) {
    go(page, calculator).await;
    page.run(&format!(
        "const select = document.getElementById('{calculator}-bottle');
        select.value = {}; select.dispatchEvent(new Event('input', {{ bubbles: true }}))",
        json!(bottle)
    ))
    .await;
}

/// Goes to the record of a bottle.
pub async fn record(page: &Chromium, bottle: &str, product: &str) {
    go(page, &format!("record/{bottle}")).await;
    page.until_text(HEAD, product).await;
}

/// The texts of all that a selector finds.
pub async fn texts(page: &Chromium, selector: &str) -> Vec<String> {
    let script = format!(
        "return [...document.querySelectorAll({})].map((found) => found.innerText.replace(/\\s+/g, ' ').trim())",
        json!(selector)
    );
    serde_json::from_value(page.run(&script).await).expect("a list of texts")
}

/// The page's own day, so many days ago.
pub async fn days_ago(page: &Chromium, days: u32) -> String {
    let script = format!(
        "const day = new Date(); day.setDate(day.getDate() - {days});
        return [day.getFullYear(), day.getMonth() + 1, day.getDate()].map((n) => String(n).padStart(2, 0)).join('-')"
    );
    page.run(&script).await.as_str().expect("a day").to_owned()
}

/// The lines of a record that count, each without its day and its button.
async fn life(page: &Chromium) -> Vec<String> {
    page.run("for (const earlier of document.querySelectorAll('.earlier')) earlier.open = true")
        .await;
    let lines = texts(page, &format!("{LIFE} li")).await;
    let bare = |line: String| line["2026-01-01 ".len()..].trim_end_matches(" Take back").to_owned();
    let lines = lines.into_iter().map(bare);
    lines
        .filter(|line| !line.ends_with("(taken back)"))
        .filter(|line| !["took back", "counts again"].iter().any(|done| line.starts_with(done)))
        .collect()
}

#[tokio::test]
async fn a_bottle_takes_three_fields_and_is_drawn_with_its_state() {
    let site = Site::serve(&built(), "/");
    let page = start("shelf-few", &site).await;
    page.until_text("#no-bottles", "Nothing stands here yet.").await;
    page.press("[data-adder=bottle] > summary").await;
    page.fill("bottle", "product", "Blue Syrup").await;
    page.fill("bottle", "nominal", "500").await;
    page.run("document.getElementById('bottle-material').value = 'glass'")
        .await;
    page.press("#bottle button[type=submit]").await;
    // Never opened, so it is as full as it was sold, and nothing of any life is used: in date.
    for said in ["Blue Syrup", "in date", "500 ml left", "not opened yet"] {
        page.until_text(LIST, said).await;
    }
    let drawn = page
        .run("return document.querySelector('#bottles svg title').textContent")
        .await;
    assert!(
        drawn
            .as_str()
            .is_some_and(|title| title.starts_with("500 ml of liquid")),
        "{drawn}"
    );
    let before = page.text(LIST).await;
    page.reload().await;
    page.until_text(LIST, "Blue Syrup").await;
    assert_eq!(page.text(LIST).await, before);
    page.quit().await;
}

/// By hand: 500 - 18.75 = 481.25; looked at, 470; 470 - 100 - 120 = 250.
#[tokio::test]
async fn what_is_done_to_a_bottle_is_in_its_record_and_can_be_taken_back() {
    let site = Site::serve(&built(), "/");
    let page = start("shelf-deeds", &site).await;
    let blue = add(&page, "Blue Syrup", &[]).await;
    record(&page, &blue, "Blue Syrup").await;
    page.press("[data-opened]").await;
    page.until_text(LIFE, "opened").await;
    let deeds = [
        (
            "drawn",
            &[("volume", "18.75"), ("purpose", "street")][..],
            "drew 18.75 ml, street; 481.25 ml left",
        ),
        ("treated", &[("air", "squeezed")], "pressed the air out"),
        (
            "moved",
            &[("place", "cellar"), ("climate", "12 C"), ("light", "dark")],
            "moved to “cellar”",
        ),
        ("left", &[("left", "470")], "looked: 470 ml in it"),
        (
            "decanted",
            &[("containers", "100 ml brown glass; 120 ml PET")],
            "decanted 100 ml into a 100 ml bottle of glass and 120 ml into a 120 ml bottle of PET; 250 ml left",
        ),
        ("noted", &[("text", "The cap sticks.")], "The cap sticks."),
    ];
    for (form, fields, said) in deeds {
        send(&page, form, fields).await;
        page.until_text(LIFE, said).await;
    }
    page.until_text(HEAD, "250 ml").await;
    let sound = page.text(HEAD).await;
    assert!(sound.contains("in date"), "{sound}");

    send(
        &page,
        "tested",
        &[("test", "clip"), ("result", "failed"), ("note", "grey")],
    )
    .await;
    page.until_text(HEAD, "failed").await;
    page.until_text(HEAD, "not for paid work").await;
    page.press("#undo [data-take-back]").await;
    page.until_text(HEAD, "in date").await;
    assert_eq!(page.text(HEAD).await, sound);
    page.until_text(LIFE, "clip test: failed, grey (taken back)").await;

    send(&page, "discarded", &[("reason", "it leaks")]).await;
    page.until_text(LIFE, "discarded: it leaks").await;
    assert!(!page.shows("#drawn").await, "nothing is drawn from what is gone");
    go(&page, "shelf").await;
    page.until(
        "two stand there",
        "return document.querySelectorAll('#bottles .thing').length === 2",
    )
    .await;
    page.press("#undo [data-take-back]").await;
    page.until(
        "it is back",
        "return document.querySelectorAll('#bottles .thing').length === 3",
    )
    .await;
    let mut left = texts(&page, &format!("{LIST} .fact")).await;
    left.retain(|fact| fact.ends_with(" left"));
    left.sort();
    let mut expected = ["250 ml left", "100 ml left", "120 ml left"];
    expected.sort_unstable();
    assert_eq!(left, expected);
    assert_eq!(
        texts(&page, "#bottles li")
            .await
            .iter()
            .filter(|one| one.contains("cellar"))
            .count(),
        3
    );

    record(&page, &blue, "Blue Syrup").await;
    let (head, told) = (page.text(HEAD).await, life(&page).await);
    page.reload().await;
    page.until_text(HEAD, "Blue Syrup").await;
    assert_eq!((page.text(HEAD).await, life(&page).await), (head, told));

    // Its coming itself taken back, it is gone, and comes back.
    page.press(".earlier[open] [data-take-back]").await;
    page.until_text(HEAD, "There is no such bottle on this device.").await;
    page.press("#undo [data-take-back]").await;
    page.until_text(HEAD, "250 ml").await;
    page.quit().await;
}

/// By hand: 500 - 10 - 20 = 470.
#[tokio::test]
async fn what_is_known_is_said_anew_and_its_draws_stay_in_order() {
    let site = Site::serve(&built(), "/");
    let page = start("shelf-known", &site).await;
    let blue = add(&page, "Blue Syrup", &[]).await;
    // Mix must not lose the bottle meanwhile.
    pick(&page, "mix", &blue).await;
    record(&page, &blue, "Blue Syrup").await;
    send(&page, "drawn", &[("volume", "10")]).await;
    send(&page, "drawn", &[("volume", "20")]).await;
    page.until_text(HEAD, "470 ml").await;
    let before = life(&page).await;
    go(&page, "shelf").await;
    let stood = page.text(LIST).await;
    for days in [30, 20] {
        record(&page, &blue, "Blue Syrup").await;
        change_bottle(&page).await;
        assert_eq!(page.value("bottle", "filled").await, "470 ml");
        let day = days_ago(&page, days).await;
        let known = [("product", "Green Syrup"), ("opened", "day"), ("opened_on", &day)];
        send(&page, "bottle", &known).await;
        page.until_text(LIST, "Green Syrup").await;
        page.until_text(LIST, &format!("opened {day}, {days} days ago")).await;
        record(&page, &blue, "Green Syrup").await;
        page.until_text(HEAD, "470 ml").await;
        let now = life(&page).await;
        assert!(now[0].starts_with("added 500 ml") && now[0].ends_with(&day), "{now:?}");
        assert_eq!(now[1..3], before[1..], "{now:?}");
        assert!(now[3].starts_with("label: “Green Syrup”") && now.len() == 4, "{now:?}");
        assert_eq!(page.value("mix", "bottle").await, blue);
        // All of it is taken back at once.
        page.press("#undo [data-take-back]").await;
        page.until_text(HEAD, "Blue Syrup").await;
        assert_eq!(life(&page).await, before);
        go(&page, "shelf").await;
        page.until_text(LIST, "Blue Syrup").await;
        assert_eq!(page.text(LIST).await, stood);
        assert_eq!(page.value("mix", "bottle").await, blue);
    }

    // One that was filled from another counts as opened then.
    record(&page, &blue, "Blue Syrup").await;
    send(&page, "decanted", &[("containers", "100 ml glass")]).await;
    go(&page, "shelf").await;
    page.press("#bottles .thing:nth-child(2) .to-record").await;
    page.until_text(HEAD, "100 ml").await;
    change_bottle(&page).await;
    send(&page, "bottle", &[("opened", "unknown"), ("opened_on", "")]).await;
    page.until_text("#bottle-opened-fault", "It was filled from another bottle")
        .await;
    page.quit().await;
}

#[tokio::test]
async fn all_that_is_wrong_stands_at_its_field() {
    let site = Site::serve(&built(), "/");
    let page = start("shelf-faults", &site).await;
    let wrong = [
        ("nominal", "much"),
        ("filled", "-3"),
        ("opened", "day"),
        ("life_full", "soon"),
        ("brimful", "9 ml 3"),
        ("currency", "EUR"),
    ];
    send(&page, "bottle", &wrong).await;
    for (field, said) in [
        ("product", "something is needed here"),
        ("nominal", "“much” is not a number"),
        ("filled", "must be from 0 ml"),
        ("opened_on", "Say on which day"),
        ("life_full", "“soon”"),
        ("brimful", "“ml 3” is not a unit taken here"),
        ("price", "A currency stands here, and no price."),
    ] {
        page.until_text(&format!("#bottle-{field}-fault"), said).await;
        assert!(
            page.shows(&format!("#bottle-{field}-fault")).await,
            "{field} is folded away"
        );
    }
    let count = "return document.querySelectorAll('#bottle [aria-invalid=true]').length";
    assert_eq!(page.run(count).await, json!(7));
    assert_eq!(page.run("return document.activeElement.id").await, "bottle-product");
    assert_eq!(stored(&page).await, json!({}));
    let right = [
        ("product", "Blue Syrup"),
        ("nominal", "500 ml"),
        ("filled", "430"),
        ("opened", "some"),
        ("life_full", "1 year"),
        ("brimful", ""),
        ("price", "23.50"),
    ];
    send(&page, "bottle", &right).await;
    page.until_text(LIST, "430 ml left").await;
    assert_eq!(
        page.run("return document.querySelectorAll('#bottle .fault').length")
            .await,
        json!(0)
    );

    // The forms of a record do the same.
    page.press("#bottles .to-record").await;
    page.until_text(HEAD, "430 ml").await;
    let before = stored(&page).await;
    send(&page, "tested", &[("result", "measured")]).await;
    page.until_text("#tested-strength-fault", "Say how strong it is against fresh")
        .await;
    send(&page, "moved", &[("climate", "cosy")]).await;
    page.until_text("#moved-place-fault", "something is needed here").await;
    page.until_text("#moved-climate-fault", "“cosy”").await;
    assert_eq!(stored(&page).await, before);
    page.quit().await;
}

#[tokio::test]
async fn a_record_is_opened_by_its_address() {
    let site = Site::serve(&built(), "/");
    let page = start("shelf-address", &site).await;
    let blue = add(&page, "Blue Syrup", &[]).await;
    add(&page, "Clear Fix", &[("class", "fixer")]).await;
    // Cold, as from the label on the bottle.
    let page = page.quit().await.start().await;
    page.open(&format!("{}#record/{blue}", site.url())).await;
    page.until_text(HEAD, "Blue Syrup").await;
    page.until_text(LIFE, "added 500 ml of “Blue Syrup”").await;
    assert!(page.shows("#drawn").await);
    go(&page, "record/01956a00-1234-7abc-8def-000000000000").await;
    page.until_text(HEAD, "There is no such bottle on this device.").await;
    assert_eq!(page.text("[data-room=record] .sheet").await, "");
    assert!(!page.shows("#drawn").await);
    go(&page, "record/%E0%A4%A").await;
    page.until_text(HEAD, "There is no such bottle on this device.").await;
    page.quit().await;
}

/// 600 / 32 = 18.75 (arithmetic of 1 + 31), and 500 - 18.75 = 481.25; of 540 ml to the brim 58.75 are air.
#[tokio::test]
async fn a_bath_is_written_down_and_every_calculator_knows_of_it() {
    let site = Site::serve(&built(), "/");
    let page = start("shelf-mixed", &site).await;
    let known = [("dilution", "1+31"), ("brimful", "540 ml")];
    let blue = add(&page, "Blue Syrup", &known).await;
    go(&page, "mix").await;
    assert!(!page.shows("[data-mixed]").await, "nothing is picked to draw from");
    pick(&page, "mix", &blue).await;
    page.until_text("output[form=mix]", "18.75").await;
    page.press("[data-mixed]").await;
    page.until_text("#undo", "Drew 18.75 ml from “Blue Syrup”").await;
    // The second click of a double click, as the browser counts them, draws no second time.
    page.run(
        "document.querySelector('[data-mixed]').dispatchEvent(new MouseEvent('click', { bubbles: true, detail: 2 }))",
    )
    .await;
    record(&page, &blue, "Blue Syrup").await;
    page.until_text(HEAD, "481.25 ml").await;
    page.until_text(HEAD, "58.75 ml").await;
    page.until_text(LIFE, "drew 18.75 ml for 600 ml").await;

    for (calculator, said) in [
        ("air", ["The air over Blue Syrup", "58.75 ml"]),
        ("keeping", ["Blue Syrup: in date", "For paid work"]),
        ("decant", ["Blue Syrup: 481.25 ml left", "Less oxygen"]),
        ("buy", ["Which size to buy: Blue Syrup", "Costs per film"]),
    ] {
        pick(&page, calculator, &blue).await;
        for said in said {
            page.until_text(&format!("output[form={calculator}]"), said).await;
        }
    }
    go(&page, "spend").await;
    page.until_text("output[form=spend]", "18.75 ml").await;
    page.until_text("[data-room=spend] .sheet", "Blue Syrup").await;
    let answer = page
        .run(&format!(
            "return window.meniscus.calculate('air', {{ bottle: '{blue}' }})"
        ))
        .await;
    let figures = answer["figures"].as_array().expect("figures");
    let headspace = figures.iter().find(|figure| figure["label"] == "Headspace now");
    let value = headspace.and_then(|figure| figure["value"].as_f64()).expect("a number");
    assert!((value - 58.75).abs() < 1e-9, "{headspace:?}");
    page.quit().await;
}

/// 500 - 25 = 475, and once more 450.
#[tokio::test]
async fn a_draw_in_one_tab_is_seen_in_the_other() {
    let site = Site::serve(&built(), "/");
    let page = start("shelf-tabs", &site).await;
    let blue = add(&page, "Blue Syrup", &[]).await;
    let first = page.driver.window().await.expect("a window");
    let second = page.driver.new_tab().await.expect("a second tab");
    page.driver
        .switch_to_window(second.clone())
        .await
        .expect("the second tab");
    page.open(&format!("{}#record/{blue}", site.url())).await;
    page.until_text(HEAD, "500 ml").await;
    send(&page, "drawn", &[("volume", "25")]).await;
    page.until_text(HEAD, "475 ml").await;
    page.driver.switch_to_window(first).await.expect("the first tab");
    page.until_text(LIST, "475 ml left").await;
    page.press("[data-draw-again]").await;
    page.until_text(LIST, "450 ml left").await;
    page.driver.switch_to_window(second).await.expect("the second tab");
    page.until_text(HEAD, "450 ml").await;
    page.quit().await;
}

/// A place is taken off the list only where nothing stands, and comes back.
#[tokio::test]
async fn a_place_is_taken_off_the_list() {
    const PLACES: &str = "#place-list";
    let site = Site::serve(&built(), "/");
    let page = start("shelf-places", &site).await;
    let blue = add(&page, "Blue Syrup", &[("place", "cellar")]).await;
    page.until_text(PLACES, "A bottle stands here, so it stays on the list.")
        .await;
    assert!(!page.shows("[data-drop-place]").await);
    record(&page, &blue, "Blue Syrup").await;
    send(&page, "moved", &[("place", "attic")]).await;
    page.until_text(LIFE, "moved to “attic”").await;
    go(&page, "shelf").await;
    page.until_text(PLACES, "attic").await;
    page.press("[data-drop-place=cellar]").await;
    page.until_text("#undo", "Took the place “cellar” off the list.").await;
    assert_eq!(texts(&page, &format!("{PLACES} b")).await, ["attic"]);
    page.reload().await;
    page.until_text(PLACES, "attic").await;
    assert_eq!(texts(&page, &format!("{PLACES} b")).await, ["attic"]);
    assert_eq!(
        page.run("return document.querySelectorAll('#places option').length")
            .await,
        json!(1)
    );

    // Noted anew it is back; and so it is when that it was taken off is taken back.
    send(&page, "place", &[("name", "cellar"), ("climate", "12 C")]).await;
    page.until_text(PLACES, "cellar").await;
    page.press("[data-drop-place=cellar]").await;
    page.until_text("#undo", "Took the place “cellar” off the list.").await;
    page.press("#undo [data-take-back]").await;
    page.until_text(PLACES, "cellar").await;
    page.quit().await;
}
