//! Densities from scans: pictures made here, loaded as a user would, their areas typed and drawn, and the densities in the form.

use std::fs;
use std::io::Cursor;
use std::path::{Path, PathBuf};

use serde_json::{Value, json};
use thirtyfour::By;
use tiff::encoder::{Compression, TiffEncoder, colortype};

use super::{
    chromium::{Chromium, Setup},
    release::{built, scratch},
    shelf::go,
    site::Site,
};

const WIDTH: u32 = 800;
const HEIGHT: u32 = 400;

/// Four columns: the clear base, half of its light, a quarter, and nothing at all.
const COLUMNS: [u16; 4] = [200, 100, 50, 0];

/// log10(2) and log10(4); one step of 8 bits is 1 / √12, over 200 and over 100 or 50, in squares, over ln 10, twice, rounded up.
const DENSITIES: [&str; 2] = ["0.301 ± 0.003", "0.602 ± 0.006"];

fn values(scale: u16) -> Vec<u16> {
    let value = |at: u32| COLUMNS[(at % WIDTH / (WIDTH / 4)) as usize] * scale;
    (0..WIDTH * HEIGHT).map(value).collect()
}

fn png(folder: &Path) -> PathBuf {
    let mut bytes = Vec::new();
    let mut encoder = png::Encoder::new(&mut bytes, WIDTH, HEIGHT);
    encoder.set_color(png::ColorType::Grayscale);
    encoder.set_depth(png::BitDepth::Eight);
    let mut writer = encoder.write_header().expect("memory");
    let values: Vec<u8> = values(1).into_iter().map(|value| value as u8).collect();
    writer.write_image_data(&values).expect("memory");
    writer.finish().expect("memory");
    file(folder, "strip.png", &bytes)
}

fn tiff(folder: &Path) -> PathBuf {
    let mut bytes = Vec::new();
    let encoder = TiffEncoder::new(Cursor::new(&mut bytes)).expect("memory");
    let mut encoder = encoder.with_compression(Compression::Lzw);
    let written = encoder.write_image::<colortype::Gray16>(WIDTH, HEIGHT, &values(256));
    written.expect("memory");
    file(folder, "strip.tif", &bytes)
}

fn file(folder: &Path, name: &str, bytes: &[u8]) -> PathBuf {
    let path = folder.join(name);
    fs::write(&path, bytes).expect("the file can be written");
    path
}

/// The room of the comparison with both strips open, and a plain form where the page has none yet.
async fn start(name: &str, site: &Site, window: (u32, u32)) -> Chromium {
    let page = Setup::new(name).window(window.0, window.1).start().await;
    page.open(&format!("{}#compare", site.url())).await;
    page.run(
        "const room = document.querySelector('[data-room=compare]');
        if (!document.getElementById('compare')) {
            room.insertAdjacentHTML('beforeend', `<form id=compare>
                <label>First <textarea name=first></textarea><input name=first_base></label>
                <label>Second <textarea name=second></textarea><input name=second_base></label></form>`);
        }
        window.heard = [];
        document.getElementById('compare').addEventListener('input', (event) => heard.push(event.target.name));",
    )
    .await;
    assert_eq!(
        page.run("return document.getElementById('scan').innerHTML").await,
        json!("")
    );
    page.press("[data-later=scan]").await;
    page.until(
        "the strips are here",
        "return !!document.getElementById('scan-first-file')",
    )
    .await;
    page.run(
        "const coding = document.getElementById('scan-coding');
        coding.value = 'linear'; coding.dispatchEvent(new Event('change', { bubbles: true }))",
    )
    .await;
    page
}

async fn load(page: &Chromium, strip: &str, file: &Path) {
    let input = page
        .driver
        .find(By::Id(&*format!("scan-{strip}-file")))
        .await
        .expect("a field");
    input.send_keys(file.to_string_lossy()).await.expect("it takes a path");
}

/// Types where an area is: from the left and its width; from the top it takes all.
async fn place(page: &Chromium, strip: &str, area: usize, left: &str, width: &str) {
    page.press(&format!("#scan-{strip}-choose-{area}")).await;
    for (side, text) in [("left", left), ("top", "0"), ("width", width), ("height", "100")] {
        let field = page
            .driver
            .find(By::Id(&*format!("scan-{strip}-{side}")))
            .await
            .expect("a field");
        field.clear().await.expect("it can be emptied");
        field.send_keys(text).await.expect("it takes text");
    }
}

fn item(strip: &str, area: usize) -> String {
    format!("#scan-{strip}-areas li:nth-child({})", area + 1)
}

/// What the browser keeps of this page, but for the page itself.
const KEPT: &str = "indexedDB.databases().then((bases) => arguments[0]([{ ...localStorage }, { ...sessionStorage },
    bases.map((base) => base.name), document.cookie]))";

#[tokio::test]
async fn areas_are_typed_and_their_densities_go_into_the_form() {
    let site = Site::serve(&built(), "/");
    let folder = scratch("scan-files");
    let page = start("scan", &site, (390, 844)).await;
    let kept = page.finish(KEPT).await;
    load(&page, "first", &png(&folder)).await;
    page.until_text("#scan-first-said", "800 by 400 pixels, 8 bits").await;
    place(&page, "first", 1, "25", "25").await;
    page.until_text(&item("first", 1), "Draw the clear base first").await;
    place(&page, "first", 0, "0", "25").await;
    page.until_text(&item("first", 0), "measured").await;
    page.until_text(&item("first", 1), DENSITIES[0]).await;
    page.press("[data-strip=first] [data-add]").await;
    place(&page, "first", 2, "50", "25").await;
    page.until_text(&item("first", 2), DENSITIES[1]).await;
    assert_eq!(page.axe().await, [""; 0]);
    let small = page
        .run(
            "return [...document.querySelectorAll('#scan button, #scan input, #scan select')]
                .filter((one) => one.checkVisibility() && one.getBoundingClientRect().height < 48)
                .map((one) => one.outerHTML)",
        )
        .await;
    assert_eq!(small, json!([]));
    page.picture("scan-phone").await;

    let before = page.value("compare", "first").await;
    // What gives no density is refused where it stands, and nothing is written while it does.
    page.press("[data-strip=first] [data-add]").await;
    place(&page, "first", 3, "75", "25").await;
    page.until_text(&item("first", 3), "pure black").await;
    page.press("[data-use]").await;
    page.until_text("#scan-said", "Patch 3 has no density yet").await;
    place(&page, "first", 3, "0", "25").await;
    page.until_text(&item("first", 3), "the area of the clear base").await;
    place(&page, "first", 3, "70", "x").await;
    page.until_text("#scan-first-width-fault", "0 to 100").await;
    place(&page, "first", 3, "70", "2").await;
    page.until_text(&item("first", 3), "smaller than 32 pixels").await;
    assert_eq!(page.value("compare", "first").await, before);
    page.press("[data-remove='3']").await;

    // The other strip has 16 bits, and its base is drawn.
    load(&page, "second", &tiff(&folder)).await;
    page.until_text("#scan-second-said", "800 by 400 pixels, 16 bits").await;
    place(&page, "second", 0, "0", "25").await;
    place(&page, "second", 1, "25", "25").await;
    page.until_text(&item("second", 1), "0.301 ± 0.001").await;

    // An inverted picture has its base in the dark.
    let inverted = |value: &str| {
        format!(
            "const inverted = document.getElementById('scan-inverted');
            inverted.value = '{value}'; inverted.dispatchEvent(new Event('change', {{ bubbles: true }}))"
        )
    };
    page.run(&inverted("yes")).await;
    page.until_text(&item("second", 1), "more light than the clear base")
        .await;
    page.run(&inverted("no")).await;
    page.until_text(&item("second", 1), "0.301 ± 0.001").await;

    assert_eq!(page.finish(KEPT).await, kept, "nothing of it is kept");
    page.press("[data-use]").await;
    page.until_text("#scan-said", "draw as many on both").await;
    assert_eq!(page.value("compare", "first").await, DENSITIES.join("\n"));
    assert_eq!(page.value("compare", "second").await, "0.301 ± 0.001");
    // What is written is above the clear base, so nothing more is taken off.
    assert_eq!(page.value("compare", "first_base").await, "0.000");
    assert_eq!(page.value("compare", "second_base").await, "0.000");
    let heard = json!(["first", "first_base", "second", "second_base", "pairs"]);
    assert_eq!(page.run("return window.heard").await, heard);

    let astray = |asked: Vec<String>, home: &str| -> Vec<String> {
        asked.into_iter().filter(|address| !address.starts_with(home)).collect()
    };
    assert_eq!(astray(page.requests().await, &site.url()), [""; 0]);
    assert_eq!(page.complaints().await, [""; 0]);

    // Who leaves the room lets all go.
    go(&page, "mix").await;
    assert_eq!(
        page.run("return document.getElementById('scan').innerHTML").await,
        json!("")
    );
    go(&page, "compare").await;
    assert!(page.shows("[data-later=scan]").await);
    page.quit().await;
}

#[tokio::test]
async fn what_is_no_picture_is_refused_and_nothing_is_lost() {
    let site = Site::serve(&built(), "/");
    let folder = scratch("scan-bad-files");
    let page = start("scan-bad", &site, (1280, 900)).await;
    let good = png(&folder);
    load(&page, "first", &good).await;
    page.until_text("#scan-first-said", "800 by 400").await;
    place(&page, "first", 0, "0", "25").await;
    place(&page, "first", 1, "25", "25").await;
    page.until_text(&item("first", 1), DENSITIES[0]).await;

    let whole = fs::read(&good).expect("it was written");
    let mut huge = whole.clone();
    huge[16..24].copy_from_slice(&[0, 0, 0xff, 0xff, 0, 0, 0xff, 0xff]);
    let tiff = fs::read(tiff(&folder)).expect("it was written");
    for (name, bytes, says) in [
        ("letter.png", &b"Dear friend,"[..], "no picture"),
        ("short.png", &whole[..whole.len() - 20], "damaged"),
        ("empty.jpg", b"", "no picture"),
        ("huge.png", &huge, "too large"),
        ("short.tif", &tiff[..tiff.len() / 2], "damaged"),
    ] {
        load(&page, "second", &file(&folder, name, bytes)).await;
        page.until_text("#scan-second-file-fault", says).await;
        assert!(!page.shows("#scan-second-open").await, "{name}");
    }
    // A whole one mends it, and what was on the other strip is there.
    load(&page, "second", &good).await;
    page.until_text("#scan-second-said", "800 by 400").await;
    assert_eq!(page.text("#scan-second-file-fault").await, "");
    assert!(page.text(&item("first", 1)).await.contains(DENSITIES[0]));
    page.quit().await;
}

#[tokio::test]
async fn areas_are_drawn_with_a_pointer() {
    let site = Site::serve(&built(), "/");
    let folder = scratch("scan-drawn-files");
    let page = start("scan-drawn", &site, (1280, 900)).await;
    load(&page, "first", &png(&folder)).await;
    page.until_text("#scan-first-said", "800 by 400").await;
    page.run("document.getElementById('scan-first-stage').scrollIntoView({ block: 'center' })")
        .await;
    let frame = page
        .run(
            "const frame = document.getElementById('scan-first-stage').getBoundingClientRect();
            return [frame.left, frame.top, frame.width, frame.height]",
        )
        .await;
    let frame: Vec<f64> = serde_json::from_value(frame).expect("four numbers");
    let at = |x: f64, y: f64| json!({ "x": frame[0] + x * frame[2], "y": frame[1] + y * frame[3] });
    let send = async |kind: &str, place: Value, touch: bool| {
        let (method, event) = match touch {
            true => {
                let points = if kind == "touchEnd" { json!([]) } else { json!([place]) };
                (
                    "Input.dispatchTouchEvent",
                    json!({ "type": kind, "touchPoints": points }),
                )
            }
            false => {
                let mut event = place;
                for (name, value) in [
                    ("type", json!(kind)),
                    ("button", json!("left")),
                    ("clickCount", json!(1)),
                ] {
                    event[name] = value;
                }
                ("Input.dispatchMouseEvent", event)
            }
        };
        page.devtools(method, event).await;
    };
    // The base by a mouse, and the patch, which is chosen next, by a finger, from the lower right.
    send("mousePressed", at(0.05, 0.1), false).await;
    send("mouseMoved", at(0.1, 0.5), false).await;
    send("mouseMoved", at(0.2, 0.9), false).await;
    send("mouseReleased", at(0.2, 0.9), false).await;
    page.until_text(&item("first", 0), "measured").await;
    send("touchStart", at(0.45, 0.9), true).await;
    send("touchMove", at(0.4, 0.5), true).await;
    send("touchMove", at(0.3, 0.2), true).await;
    send("touchEnd", at(0.3, 0.2), true).await;
    page.until_text(&item("first", 1), DENSITIES[0]).await;
    // The four fields say where it is, to a pixel of the screen.
    let typed = page
        .run("return ['left', 'top', 'width', 'height'].map((side) => document.getElementById(`scan-first-${side}`).value)")
        .await;
    let typed: Vec<String> = serde_json::from_value(typed).expect("four texts");
    for (typed, wanted) in typed.iter().zip([30.0, 20.0, 15.0, 70.0]) {
        let typed: f64 = typed.parse().expect("a number");
        assert!((typed - wanted).abs() < 0.5, "{typed} is not {wanted}");
    }
    // A tap changes nothing.
    send("mousePressed", at(0.6, 0.5), false).await;
    send("mouseReleased", at(0.6, 0.5), false).await;
    assert!(page.text(&item("first", 1)).await.contains(DENSITIES[0]));
    page.quit().await;
}
