//! How long it takes to read and fold a ledger: 10,000 events of 60 bottles over ten years, and ten times that.
//!
//! To be met: the shelf from 10,000 events within 16 ms, one frame of a screen, and time that grows with the number of events
//! and no faster.

#[path = "../tests/ledgers/generator.rs"]
#[allow(dead_code)]
mod generator;

use std::hint::black_box;
use std::time::Instant;

use meniscus::ledger::{Event, Shelf};

const RUNS: usize = 25;

/// The best of several runs, in milliseconds, since whatever else the machine does only adds; making ready and clearing up are not timed.
fn best<T, R>(ready: impl Fn() -> T, run: impl Fn(T) -> R) -> f64 {
    let mut times: Vec<f64> = (0..RUNS)
        .map(|_| {
            let given = ready();
            let start = Instant::now();
            let result = black_box(run(black_box(given)));
            let time = start.elapsed().as_secs_f64() * 1000.0;
            drop(result);
            time
        })
        .collect();
    times.sort_by(f64::total_cmp);
    times[0]
}

fn main() {
    let mut times = Vec::new();
    for (events, bottles) in [(10_000, 60), (30_000, 180), (100_000, 600)] {
        let ledger = generator::darkroom(1, bottles, events);
        let texts: Vec<String> = ledger.iter().map(Event::to_text).collect();
        let today = ledger[events - 1].day;
        let mut backwards = ledger.clone();
        backwards.reverse();

        let length = texts.iter().map(String::len).sum::<usize>() / events;
        let write = best(|| (), |()| ledger.iter().map(Event::to_text).collect::<Vec<_>>());
        let read = best(
            || (),
            |()| {
                let events = texts.iter().map(|text| Event::from_text(text));
                events.collect::<Result<Vec<_>, _>>().expect("what was written is read")
            },
        );
        let fold = best(|| ledger.clone(), |events| Shelf::fold(events, today));
        let turned = best(|| backwards.clone(), |events| Shelf::fold(events, today));
        let copy = best(|| (), |()| ledger.clone());
        println!(
            "{events:>7} events, {bottles} bottles, {length} bytes each: write {write:.2} ms, read {read:.2} ms, \
             fold {fold:.2} ms, fold from backwards {turned:.2} ms, mere copy {copy:.2} ms"
        );
        times.push((fold, copy));
    }
    let (few, many) = (times[0], times[times.len() - 1]);
    println!(
        "ten times the events take {:.1} times as long to fold, and {:.1} times as long to copy; what both have \
         beyond ten is the memory's",
        many.0 / few.0,
        many.1 / few.1
    );
}
