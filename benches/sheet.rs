//! How long one sheet takes natively, from named text to HTML: the median of many, and the slowest of them. The aim is less
//! than 1000 µs for `mix`.

use std::hint::black_box;
use std::time::{Duration, Instant};

use meniscus::calculators::calculate;
use meniscus::darkroom::Darkroom;
use meniscus::fields::Named;
use meniscus::view;

/// Runs that are not counted, and runs that are.
const WARMING: usize = 200;
const COUNTED: usize = 2_000;

/// Name, calculator, what is typed.
type Sheet = (&'static str, &'static str, &'static [(&'static str, &'static str)]);

const SHEETS: [Sheet; 6] = [
    ("mix, as it opens", "mix", &[]),
    (
        "mix, with a data sheet",
        "mix",
        &[
            (
                "times",
                "8 at 18 C 1+31; 6:45 at 20 C 1+31; 5:30 at 22 C 1+31; 9:30 at 20 C 1+47",
            ),
            ("least_per_film", "6 ml"),
            ("density", "1.26"),
            ("temperature", "21.5"),
        ],
    ),
    ("mix, 6 ml of it", "mix", &[("dilution", "1+100")]),
    ("measure, 1 ml", "measure", &[("volume", "1 ml")]),
    ("fill", "fill", &[("dilution", "1+50"), ("least_per_film", "6 ml")]),
    ("time", "time", &[("times", "10 at 18 C; 8 at 20 C; 6:15 at 24 C")]),
];

fn main() {
    let darkroom = Darkroom::starter("2026-03-01".parse().expect("a day"));
    println!("{:<24} {:>10} {:>10}", "from fields to HTML", "median µs", "slowest µs");
    for (name, calculator, fields) in SHEETS {
        let named: Named = fields
            .iter()
            .map(|(name, text)| ((*name).to_owned(), (*text).to_owned()))
            .collect();
        let mut times: Vec<Duration> = (0..WARMING + COUNTED)
            .map(|_| once(calculator, &named, &darkroom))
            .collect();
        times.drain(..WARMING);
        times.sort_unstable();
        let microseconds = |time: Duration| time.as_secs_f64() * 1e6;
        println!(
            "{name:<24} {:>10.1} {:>10.1}",
            microseconds(times[COUNTED / 2]),
            microseconds(times[COUNTED - 1])
        );
    }
}

/// One sheet: fields, calculator, headline and parts as HTML.
fn once(calculator: &str, named: &Named, darkroom: &Darkroom) -> Duration {
    let begun = Instant::now();
    let answer = calculate(calculator, black_box(named), black_box(darkroom)).expect("a calculator of the list");
    black_box(view::sheet(&answer));
    begun.elapsed()
}
