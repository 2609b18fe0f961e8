//! How long one sheet takes natively, from named text to HTML: the median of many, and the slowest of them. The aim is less
//! than 1000 µs for `mix`, and 50,000 µs for `plan` with 200 films.

use std::hint::black_box;
use std::time::{Duration, Instant};

use meniscus::calculators::calculate;
use meniscus::darkroom::Darkroom;
use meniscus::fields::Named;
use meniscus::kit::{Kept, Tank, Turning};
use meniscus::quantity::Volume;
use meniscus::view;

/// Runs that are not counted, and runs that are.
const WARMING: usize = 200;
const COUNTED: usize = 2_000;

/// Name, calculator, what is typed.
type Sheet = (&'static str, &'static str, &'static [(&'static str, &'static str)]);

const SHEETS: [Sheet; 8] = [
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
    ("plan, as it opens", "plan", &[]),
    (
        "plan, 200 films",
        "plan",
        &[
            (
                "films",
                "40 x 135 8:30; 40 x 120 8:30; 40 x 220 8:30; 30 x 4x5 8:30; 20 x 135 9:30; 20 x 120 9:30; 10 x 8x10 9:30",
            ),
            ("least_per_film", "5 ml"),
            ("left", "500 ml"),
        ],
    ),
];

/// A shared darkroom's tanks, for many films: name, brim, a 135 reel, a 120 reel, sheets of 4 x 5 and of 8 x 10 in, in millilitres.
const TANKS: [(&str, [f64; 5]); 3] = [
    ("five-reel tank", [1500.0, 290.0, 480.0, 0.0, 0.0]),
    ("drum", [1100.0, 140.0, 270.0, 400.0, 500.0]),
    ("sheet tank", [1300.0, 0.0, 0.0, 1000.0, 0.0]),
];

fn main() {
    let mut darkroom = Darkroom::starter("2026-03-01".parse().expect("a day"));
    darkroom.kit.tanks.extend(TANKS.map(tank));
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

fn tank((name, volumes): (&str, [f64; 5])) -> Kept<Tank> {
    let [brim, per_135, per_120, sheets_4x5, sheets_8x10] = volumes.map(Volume::from_millilitres);
    let item = Tank {
        name: name.to_owned(),
        turning: Turning::Inversion,
        brim,
        per_135,
        per_120,
        sheets_4x5,
        sheets_8x10,
    };
    Kept {
        id: name.to_owned(),
        item,
    }
}

/// One sheet: fields, calculator, headline and parts as HTML.
fn once(calculator: &str, named: &Named, darkroom: &Darkroom) -> Duration {
    let begun = Instant::now();
    let answer = calculate(calculator, black_box(named), black_box(darkroom)).expect("a calculator of the list");
    black_box(view::sheet(&answer));
    begun.elapsed()
}
