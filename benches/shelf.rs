//! How long the page takes to start with ten years of a darkroom in its store: 10,000 events of 60 bottles. It needs `dist/`;
//! `make bench` builds it and runs this.
//!
//! What is measured is the whole start of the module, from the moment at which it is compiled to the moment at which it says that
//! it is ready, with that ledger and with none. The difference is what the ledger costs once at every start: getting two million
//! letters out of the browser's store, checking and reading each entry, folding them to the shelf, and the lists and choices of its
//! bottles. How long the shelf itself takes is measured in `module.rs`.

use serde_json::json;

#[path = "../tests/browser"]
#[allow(dead_code, reason = "the tests use more of it")]
mod browser {
    pub mod chromium;
    pub mod release;
    pub mod site;
}
#[path = "../tests/ledgers/generator.rs"]
#[allow(dead_code, reason = "the tests use more of it")]
mod generator;

use browser::{
    chromium::{Chromium, Setup},
    release::built,
    site::Site,
};

const EVENTS: usize = 10_000;
const BOTTLES: usize = 60;
const STARTS: usize = 15;

/// Notes when the module is compiled, and when the page says that it is ready.
const WATCH: &str = "
    for (const name of ['instantiate', 'instantiateStreaming']) {
        const compile = WebAssembly[name];
        WebAssembly[name] = async (...all) => {
            const made = await compile(...all);
            window.compiled = performance.now();
            return made;
        };
    }
    new MutationObserver((_, watch) => {
        if (document.body?.dataset.ready !== 'yes') return;
        window.ready = performance.now();
        watch.disconnect();
    }).observe(document, { attributes: true, subtree: true });";

#[tokio::main(flavor = "current_thread")]
async fn main() {
    let site = Site::serve(&built(), "/");
    let page = Setup::new("bench-shelf").start().await;
    page.devtools("Page.addScriptToEvaluateOnNewDocument", json!({ "source": WATCH }))
        .await;
    page.open(&site.url()).await;
    println!("start of the module in Chromium, {STARTS} starts");
    println!("{:38} {:>10} {:>10}", "", "best", "median");
    let empty = starts(&page).await;
    row("with an empty ledger", &empty);
    fill(&page).await;
    let full = starts(&page).await;
    row(&format!("with {EVENTS} events"), &full);
    let differ = [0, STARTS / 2].map(|at| full[at] - empty[at]);
    println!("{:38} {:7.1} ms {:7.1} ms", "so the ledger costs", differ[0], differ[1]);
    page.quit().await;
}

/// Milliseconds of every start, the shortest first.
async fn starts(page: &Chromium) -> Vec<f64> {
    let mut times = Vec::new();
    for _ in 0..STARTS {
        page.reload().await;
        let time = page.run("return window.ready - window.compiled").await;
        times.push(time.as_f64().expect("both were noted"));
    }
    times.sort_by(f64::total_cmp);
    times
}

fn row(what: &str, times: &[f64]) {
    println!("{what:38} {:7.1} ms {:7.1} ms", times[0], times[STARTS / 2]);
}

async fn fill(page: &Chromium) {
    let events = generator::darkroom(1, BOTTLES, EVENTS);
    for some in events.chunks(1000) {
        let entries: Vec<_> = some.iter().map(|event| (event.key(), event.to_text())).collect();
        page.run(&format!(
            "{}.forEach(([key, text]) => localStorage.setItem(key, text))",
            json!(entries)
        ))
        .await;
    }
}
