//! How long a scan of 24 megapixels takes from the file to two densities, how long it blocks the page, and what memory is left once
//! the pictures are closed. It needs `dist/`; `make bench` builds it and runs this.
//!
//! The pictures are made here, 6000 by 4000 with noise in every pixel: PNG of 8 bits, and JPEG by Chromium itself. Two areas of a
//! megapixel each are sampled. The aim: within a second of loading, and no task of the page's own thread over 50 ms.

use std::{collections::BTreeMap, fs, path::PathBuf, time::Duration};

use serde_json::{Value, json};
use thirtyfour::By;

#[path = "../tests/browser"]
#[allow(dead_code, reason = "the tests use more of it")]
mod browser {
    pub mod chromium;
    pub mod release;
    pub mod site;
}

use browser::{
    chromium::{Chromium, Setup},
    release::{built, scratch},
    site::Site,
};

const WIDTH: u32 = 6000;
const HEIGHT: u32 = 4000;
const ROUNDS: usize = 5;

/// Notes when a file is chosen, when its picture is shown and when both densities stand there, and every task of 50 ms and more.
const WATCH: &str = "
    window.times = {}; window.blocks = [];
    new PerformanceObserver((list) => list.getEntries().forEach((task) => blocks.push(task.duration)))
        .observe({ type: 'longtask' });
    const said = document.getElementById('scan-first-said');
    const list = document.getElementById('scan-first-areas');
    document.getElementById('scan-first-file').addEventListener('change', () => { times.chosen = performance.now(); });
    new MutationObserver(() => {
        if (said.textContent.includes('6000 by 4000')) times.shown ??= performance.now();
        if (!times.asked && times.shown) {
            times.asked = performance.now();
            for (const [area, left] of [[0, '5'], [1, '60']]) {
                document.getElementById(`scan-first-choose-${area}`).click();
                const place = { left, top: '30', width: '16.67', height: '25' };
                for (const [side, text] of Object.entries(place)) {
                    const field = document.getElementById(`scan-first-${side}`);
                    field.value = text;
                    field.dispatchEvent(new Event('input', { bubbles: true }));
                }
            }
        }
        if (times.asked && list.textContent.includes('±')) times.found ??= performance.now();
    }).observe(document.getElementById('scan'), { childList: true, subtree: true, characterData: true });";

#[tokio::main(flavor = "current_thread")]
async fn main() {
    let site = Site::serve(&built(), "/");
    let page = Setup::new("bench-scan").window(390, 844).start().await;
    page.open(&format!("{}#compare", site.url())).await;
    let files = [("PNG", png()), ("JPEG", jpeg(&page).await)];
    println!("a scan of {WIDTH} by {HEIGHT} pixels in Chromium, {ROUNDS} rounds");
    println!("{:44} {:>10} {:>10}", "", "best", "median");
    for (kind, file) in files {
        let size = fs::metadata(&file).expect("it was written").len();
        println!("{kind} of {} MB", size / 1_000_000);
        measure(&page, &file).await;
    }
    page.quit().await;
}

async fn measure(page: &Chromium, file: &std::path::Path) {
    let mut rows: BTreeMap<&str, Vec<f64>> = BTreeMap::new();
    let mut note = |name, value| rows.entry(name).or_default().push(value);
    for _ in 0..ROUNDS {
        page.reload().await;
        let before = memory(page).await;
        page.press("[data-later=scan]").await;
        page.until(
            "the strips are here",
            "return !!document.getElementById('scan-first-file')",
        )
        .await;
        page.run(WATCH).await;
        // The watch would see a block: here is one.
        page.run("setTimeout(() => { const until = performance.now() + 80; while (performance.now() < until); })")
            .await;
        page.until("a block is seen", "return window.blocks.splice(0).length > 0")
            .await;
        let input = page.driver.find(By::Id("scan-first-file")).await.expect("a field");
        input.send_keys(file.to_string_lossy()).await.expect("it takes a path");
        page.until("both are measured", "return window.times.found").await;
        let open = memory(page).await;
        // Tasks are told of a little later.
        tokio::time::sleep(Duration::from_millis(300)).await;
        let found = page
            .run("return [times.chosen, times.shown, times.asked, times.found, Math.max(0, ...blocks)]")
            .await;
        let found: Vec<f64> = serde_json::from_value(found).expect("five numbers");
        page.press("[data-close]").await;
        tokio::time::sleep(Duration::from_secs(2)).await;
        let closed = memory(page).await;
        note("1 ms from the file to its picture", found[1] - found[0]);
        note("2 ms from two areas of 1 MP to densities", found[3] - found[2]);
        note("3 ms, the longest task (0: none of 50 or more)", found[4]);
        note("4 MB more while it is open", open - before);
        note("5 MB more once it is closed", closed - before);
    }
    for (name, mut values) in rows {
        values.sort_by(f64::total_cmp);
        println!("  {:42} {:10.0} {:10.0}", &name[2..], values[0], values[ROUNDS / 2]);
    }
}

/// Memory of all processes of Chromium, shared pages counted once, in MB (Linux: `smaps_rollup`), after what is not needed is let go.
async fn memory(page: &Chromium) -> f64 {
    page.devtools("HeapProfiler.collectGarbage", json!({})).await;
    let mut parents = BTreeMap::new();
    for entry in fs::read_dir("/proc").expect("Linux has it").flatten() {
        let stat = fs::read_to_string(entry.path().join("stat")).unwrap_or_default();
        let number = stat.split(' ').next().and_then(|text| text.parse::<u32>().ok());
        // The name in brackets may hold anything.
        let parent = stat
            .rsplit(')')
            .next()
            .and_then(|rest| rest.split(' ').nth(2)?.parse::<u32>().ok());
        if let (Some(number), Some(parent)) = (number, parent) {
            parents.insert(number, parent);
        }
    }
    let own = std::process::id();
    let is_ours = |process: u32| {
        let mut at = process;
        while let Some(parent) = parents.get(&at) {
            if *parent == own {
                return true;
            }
            at = *parent;
        }
        false
    };
    let kilobytes = |process: &u32| {
        let rollup = fs::read_to_string(format!("/proc/{process}/smaps_rollup")).unwrap_or_default();
        let line = rollup.lines().find_map(|line| line.strip_prefix("Pss:")).unwrap_or("0");
        line.trim().trim_end_matches(" kB").parse::<f64>().unwrap_or_default()
    };
    let ours = parents.keys().filter(|process| is_ours(**process));
    ours.map(kilobytes).sum::<f64>() / 1000.0
}

/// Two thirds bright, the rest dark, noise over all, from a generator of its own.
fn value(at: u32, noise: &mut u32) -> u8 {
    *noise ^= *noise << 13;
    *noise ^= *noise >> 17;
    *noise ^= *noise << 5;
    let light = if at % WIDTH < WIDTH / 2 { 200 } else { 90 };
    light + (*noise % 16) as u8
}

fn png() -> PathBuf {
    let mut bytes = Vec::new();
    let mut encoder = png::Encoder::new(&mut bytes, WIDTH, HEIGHT);
    encoder.set_color(png::ColorType::Rgb);
    encoder.set_depth(png::BitDepth::Eight);
    encoder.set_compression(png::Compression::Fast);
    let mut writer = encoder.write_header().expect("memory");
    let mut noise = 1;
    let values: Vec<u8> = (0..WIDTH * HEIGHT).flat_map(|at| [value(at, &mut noise); 3]).collect();
    writer.write_image_data(&values).expect("memory");
    writer.finish().expect("memory");
    write("bench-scan.png", &bytes)
}

/// The same by Chromium's own encoder, handed over in letters of which each is a byte.
async fn jpeg(page: &Chromium) -> PathBuf {
    let letters = page
        .finish(&format!(
            "const canvas = new OffscreenCanvas({WIDTH}, {HEIGHT});
            const context = canvas.getContext('2d');
            const data = context.createImageData({WIDTH}, {HEIGHT});
            for (let at = 0; at < {WIDTH} * {HEIGHT}; at += 1) {{
                const value = (at % {WIDTH} < {WIDTH} / 2 ? 200 : 90) + Math.random() * 16;
                data.data.set([value, value, value, 255], at * 4);
            }}
            context.putImageData(data, 0, 0);
            canvas.convertToBlob({{ type: 'image/jpeg', quality: 0.95 }}).then(async (blob) => {{
                const bytes = new Uint8Array(await blob.arrayBuffer());
                let letters = '';
                for (let at = 0; at < bytes.length; at += 8192) {{
                    letters += String.fromCharCode(...bytes.subarray(at, at + 8192));
                }}
                arguments[0](letters);
            }})"
        ))
        .await;
    let Value::String(letters) = letters else {
        panic!("Chromium made no JPEG")
    };
    let bytes: Vec<u8> = letters.chars().map(|letter| letter as u8).collect();
    write("bench-scan.jpg", &bytes)
}

fn write(name: &str, bytes: &[u8]) -> PathBuf {
    let file = scratch(name).join(name);
    fs::write(&file, bytes).expect("the file can be written");
    file
}
