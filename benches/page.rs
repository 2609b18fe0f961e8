//! How long a key press takes to become a painted sheet, in Chromium with the processor slowed four
//! times, and how large the built page is. It needs `dist/`; `make bench` builds it and runs this.
//!
//! The aim: the work of one key press fits one frame of a 60 Hz screen, 16 ms, from the page being
//! told of the key to the frame that is handed over. What it is with the browser's own editing of the
//! field before and the wait for that frame is shown too. The figures to act on, the head of the
//! sheet, come first; when the rest of it has been painted is shown as well.
//!
//! A machine that is shared runs now faster, now slower, by half. So there are several rounds: the
//! quickest is what the page takes, the middle one what this machine made of it today.

use std::{fs, io::Write, path::Path, time::Duration};

use flate2::{Compression, write::GzEncoder};
use serde::Deserialize;
use serde_json::json;

#[path = "../tests/browser"]
#[allow(dead_code, reason = "the tests use more of it")]
mod browser {
    pub mod chromium;
    pub mod release;
    pub mod site;
}

use browser::{
    chromium::{Chromium, Setup},
    release::built,
    site::Site,
};

const SLOWER: u32 = 4;
const PRESSES: usize = 30;
const ROUNDS: usize = 7;
const PAUSE: Duration = Duration::from_millis(150);

/// Listens first and last on the way of an `input` event, and asks for the layout at once, as the
/// browser does by itself right after. A task that blocks the user comes before all that waits: one
/// given in an animation frame begins when that frame has been handed over. (A message comes later:
/// first the browser looks through the form for what it could fill in.)
const WATCH: &str = "
    const head = document.querySelector('output[form=mix]');
    const rest = document.querySelector('[data-room=mix] [data-sheet]');
    const painted = (then) => requestAnimationFrame(() => {
        scheduler.postTask(then, { priority: 'user-blocking' });
    });
    let begun;
    const since = () => performance.now() - begun;
    addEventListener('keydown', () => { begun = performance.now(); }, { capture: true });
    addEventListener('input', () => {
        const before = head.innerHTML;
        const press = {};
        addEventListener('input', () => {
            press.written = since();
            head.getBoundingClientRect();
            press.laid_out = since();
        }, { once: true });
        const watch = new MutationObserver(() => {
            watch.disconnect();
            painted(() => {
                press.whole = since();
                window.presses.push(press);
            });
        });
        watch.observe(rest, { childList: true, subtree: true });
        painted(() => {
            press.painted = since();
            press.changed = head.innerHTML !== before;
        });
        requestAnimationFrame(() => { press.frame = since(); });
        // What is measured is set up before.
        press.told = since();
    }, { capture: true });";

/// The least that a page can do for a key press: what the browser itself takes on this machine.
const ONE_LINE: &str = "data:text/html,
    <form id=mix name=mix><input name=total><output form=mix></output></form>
    <div data-room=mix><p data-sheet></p></div>
    <script>
        document.forms.mix.oninput = ({ target }) => {
            document.querySelector('output').textContent = target.value;
            setTimeout(() => document.querySelector('[data-sheet]').textContent = target.value, 34);
        };
    </script>";

/// Milliseconds since the key went down.
#[derive(Deserialize)]
struct Press {
    told: f64,
    written: f64,
    laid_out: f64,
    frame: f64,
    painted: f64,
    whole: f64,
    changed: bool,
}

#[tokio::main(flavor = "current_thread")]
async fn main() {
    let site = Site::serve(&built(), "/");
    let page = Setup::new("bench").start().await;
    page.open(&site.url()).await;
    page.kept_offline().await;
    let ours = rounds(&page).await;
    page.driver.goto(ONE_LINE).await.expect("the browser shows a line");
    let one_line = rounds(&page).await;
    page.quit().await;

    println!(
        "key press to painted head, processor slowed {SLOWER} times, {ROUNDS} rounds of {PRESSES} presses, medians"
    );
    println!("{:42} {:>10} {:>10}", "", "quickest", "middle");
    print_row("compute the sheet, write its head", &ours, &|press| {
        press.written - press.told
    });
    print_row("style and lay out", &ours, &|press| press.laid_out - press.written);
    print_row("paint, hand over the frame", &ours, &|press| {
        press.painted - press.frame
    });
    print_row("together: the work of one press (aim: 16)", &ours, &work);
    print_row("the same of a page of one line", &one_line, &work);
    print_row("with the browser's editing and its wait", &ours, &|press| press.painted);
    print_row("the same of a page of one line", &one_line, &|press| press.painted);
    print_row("until the rest of the sheet is painted", &ours, &|press| press.whole);
    print_sizes(&built());
}

/// All rounds, the quickest first.
async fn rounds(page: &Chromium) -> Vec<Vec<Press>> {
    page.devtools("Emulation.setCPUThrottlingRate", json!({ "rate": SLOWER }))
        .await;
    page.fill("mix", "total", "600 ml").await;
    page.run("document.forms.mix.elements.total.setSelectionRange(0, 0)")
        .await;
    page.run(WATCH).await;
    let mut rounds = Vec::new();
    for _ in 0..ROUNDS {
        rounds.push(type_into_total(page).await);
    }
    let unchanged = rounds.iter().flatten().filter(|press| !press.changed).count();
    assert_eq!(unchanged, 0, "every key press changes the head before the next paint");
    rounds.sort_by(|one, other| median(one, &work).total_cmp(&median(other, &work)));
    rounds
}

fn print_row(what: &str, rounds: &[Vec<Press>], time: &dyn Fn(&Press) -> f64) {
    let (quickest, middle) = (&rounds[0], &rounds[ROUNDS / 2]);
    println!(
        "{what:42} {:7.1} ms {:7.1} ms",
        median(quickest, time),
        median(middle, time)
    );
}

/// What has to be done for a key press from the page being told of it to the frame with its answer.
fn work(press: &Press) -> f64 {
    press.laid_out - press.told + press.painted - press.frame
}

fn median(presses: &[Press], time: &dyn Fn(&Press) -> f64) -> f64 {
    let mut times: Vec<f64> = presses.iter().map(time).collect();
    times.sort_by(f64::total_cmp);
    times[times.len() / 2]
}

/// A digit before the total, then it is deleted, and so on: every press leaves a valid total.
async fn type_into_total(page: &Chromium) -> Vec<Press> {
    const BACKSPACE: &str = "\u{e003}";
    page.run("window.presses = []").await;
    for done in 0..PRESSES {
        let digit = (done / 2 % 9 + 1).to_string();
        let key = if done % 2 == 0 { &digit } else { BACKSPACE };
        page.driver
            .action_chain()
            .send_keys(key)
            .perform()
            .await
            .expect("a key can be pressed");
        // Asking whether it is done would take time from the very thread that is measured.
        tokio::time::sleep(PAUSE).await;
    }
    page.until("all is painted", &format!("return presses.length === {PRESSES}"))
        .await;
    serde_json::from_value(page.run("return presses").await).expect("times of every press")
}

fn print_sizes(folder: &Path) {
    println!("\n{:42} {:>10} {:>10}", "bytes of the page", "raw", "gzip");
    let mut sizes = Vec::new();
    measure(folder, folder, &mut sizes);
    sizes.sort();
    for (name, raw, packed) in &sizes {
        println!("{name:42} {raw:10} {packed:10}");
    }
    let sum = |of: fn(&(String, usize, usize)) -> usize| sizes.iter().map(of).sum::<usize>();
    println!("{:42} {:10} {:10}", "all", sum(|s| s.1), sum(|s| s.2));
}

fn measure(folder: &Path, root: &Path, sizes: &mut Vec<(String, usize, usize)>) {
    for entry in fs::read_dir(folder).expect("the folder can be listed") {
        let path = entry.expect("the folder can be listed").path();
        if path.is_dir() {
            measure(&path, root, sizes);
            continue;
        }
        let bytes = fs::read(&path).expect("the file can be read");
        let mut packer = GzEncoder::new(Vec::new(), Compression::best());
        packer.write_all(&bytes).expect("memory takes bytes");
        let packed = packer.finish().expect("memory takes bytes");
        let name = path.strip_prefix(root).unwrap_or(&path).display().to_string();
        sizes.push((name, bytes.len(), packed.len()));
    }
}
