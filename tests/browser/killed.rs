//! Chromium is killed right after a record was confirmed, and some seconds later: what was confirmed is there.
//!
//! Chromium keeps the last seconds of `localStorage` in memory only, so this is what the mirror is for.

use std::time::{Duration, Instant};

use super::{
    chromium::{Chromium, Setup},
    ledger::{record, shelf},
    release::built,
    site::Site,
};

/// Seconds from the beginning of a round at which a record is made; the kill comes right after the last is confirmed. So each
/// round tests records confirmed 6, 3, 1 and 0 seconds before.
const AT: [u64; 4] = [0, 3, 5, 6];
const ROUNDS: usize = 5;

#[tokio::test]
async fn what_was_confirmed_survives_a_kill_at_any_age() {
    let site = Site::serve(&built(), "/");
    // 4 browsers, 5 rounds each: 20 kills.
    let found = tokio::join!(
        rounds(&site, "killed-1"),
        rounds(&site, "killed-2"),
        rounds(&site, "killed-3"),
        rounds(&site, "killed-4"),
    );
    assert_eq!(found.0 + found.1 + found.2 + found.3, 4 * ROUNDS * AT.len());
}

/// How many records there are in the end; after each kill, all of them are.
async fn rounds(site: &Site, name: &str) -> usize {
    let mut page = open(Setup::new(name).apart(), site).await;
    let mut records = Vec::new();
    for round in 1..=ROUNDS {
        let begun = Instant::now();
        for at in AT {
            tokio::time::sleep(Duration::from_secs(at).saturating_sub(begun.elapsed())).await;
            let product = format!("{name}, round {round}, at {at} s");
            assert_eq!(record(&page, &product).await, "Written down.");
            records.push(product);
        }
        page = open(page.kill(), site).await;
        for product in &records {
            page.until_text("[data-list=bottle]", product).await;
        }
    }
    page.quit().await;
    records.len()
}

async fn open(setup: Setup, site: &Site) -> Chromium {
    let page = setup.start().await;
    page.open(&shelf(site)).await;
    page
}
