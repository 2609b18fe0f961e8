//! What the page's own modules take in Chromium, compiled as they are for the page: the shelf from 10,000 events of 60 bottles, and
//! a look ahead of 20,000 draws.
//!
//! The aims: the shelf within 16 ms, one frame of a screen; the look ahead, with the sheet around it, within 50 ms.

#[cfg(target_arch = "wasm32")]
#[path = "../tests/ledgers/generator.rs"]
#[allow(dead_code, reason = "the tests use more of it")]
mod generator;

#[cfg(target_arch = "wasm32")]
mod in_chromium {
    use std::hint::black_box;

    use meniscus::calculators::calculate;
    use meniscus::darkroom::Darkroom;
    use meniscus::fields::Named;
    use meniscus::ledger::Shelf;
    use meniscus::quantity::Day;
    use wasm_bindgen_test::{Criterion, wasm_bindgen_bench, wasm_bindgen_test_configure};

    use crate::generator;

    wasm_bindgen_test_configure!(run_in_browser);

    #[wasm_bindgen_bench]
    fn shelf(criterion: &mut Criterion) {
        let events = generator::darkroom(1, 60, 10_000);
        let today = events.last().expect("an event").day;
        criterion.bench_function("the events alone, copied", |bencher| {
            bencher.iter(|| black_box(events.clone()))
        });
        criterion.bench_function("the shelf from 10,000 events, and that copy", |bencher| {
            bencher.iter(|| Shelf::fold(black_box(events.clone()), today));
        });
    }

    #[wasm_bindgen_bench]
    fn look_ahead(criterion: &mut Criterion) {
        let darkroom = Darkroom::starter(Day::from_days(20_000));
        criterion.bench_function("Keeping's sheet with 20,000 draws", |bencher| {
            bencher.iter(|| calculate("keeping", &Named::new(), black_box(&darkroom)));
        });
    }
}

fn main() {}
