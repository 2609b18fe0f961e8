//! Whole sheets as plain text, word by word, for people to read through. Their figures are checked against sources in
//! `tests/vectors`; here it is the words, their order, and that nothing is said twice or left out.
#![cfg(not(target_arch = "wasm32"))]

use meniscus::calculators::{Answer, calculate};
use meniscus::entries::{self, Entry, Newcomer};
use meniscus::fields::Named;
use meniscus::kit::{Balance, House, Instrument, Kept, Kit, Tank, Thermometer};
use meniscus::parts;
use meniscus::quantity::{Temperature, TemperatureDifference, Units};
use meniscus::view;

use golden::Golden;

#[path = "common/darkroom.rs"]
mod darkroom;
#[path = "common/shelf.rs"]
mod shelf;
#[path = "common/golden.rs"]
mod golden;

fn named(pairs: &[(&str, &str)]) -> Named {
    pairs
        .iter()
        .map(|(name, text)| ((*name).to_owned(), (*text).to_owned()))
        .collect()
}

fn entry<T: Entry>(pairs: &[(&str, &str)]) -> T {
    entries::read(&named(pairs), Units::default()).expect("a thing of the kit")
}

fn kept<T>(item: T) -> Kept<T> {
    Kept {
        id: "own".to_owned(),
        item,
    }
}

/// The starter kit, in US units with a decimal comma.
fn us_with_comma() -> Kit {
    let house = entry::<House>(&[("volume_unit", "floz"), ("temperature_unit", "f"), ("decimal", "comma")]);
    Kit {
        house,
        ..Kit::starter()
    }
}

/// A kit for small volumes, with a calibrated syringe, a fine balance, a drum and a bottle.
fn well_kept() -> Kit {
    let mut kit = Kit::starter();
    kit.instruments.push(kept(entry::<Instrument>(&[
        ("name", "weighed 5 ml syringe"),
        ("capacity", "5 ml"),
        ("graduation", "0.2 ml"),
        ("limits", "calibrated"),
        ("bias", "-0.04 ml"),
        ("bias_uncertainty", "0.01 ml"),
        ("repeatability", "0.02 ml"),
    ])));
    kit.balances = vec![kept(entry::<Balance>(&[
        ("name", "pocket balance"),
        ("readability", "0.01 g"),
        ("most", "200 g"),
    ]))];
    kit.tanks.push(kept(entry::<Tank>(&[
        ("name", "sheet drum"),
        ("turning", "rotary"),
        ("brim", "1 l"),
        ("sheets_4x5", "300 ml"),
    ])));
    kit.bottles.push(kept(
        entry::<Newcomer>(&[
            ("product", "amber syrup"),
            ("class", "syrup"),
            ("dilution", "1:50"),
            ("least_per_film", "6 ml"),
            ("times", "11 at 20 C 1+50; 7:30 at 24 C 1+50; 6 at 20 C 1+25"),
            ("density", "1.28"),
        ])
        .is
        .label,
    ));
    kit
}

/// A thermometer that was compared, and a syringe that was weighed long ago.
fn compared_and_old() -> Kit {
    let mut kit = Kit::starter();
    kit.thermometer = Some(Thermometer {
        at: Temperature::from_celsius(24.0),
        correction: TemperatureDifference::from_kelvins(0.32),
        slope: -0.02,
        uncertainty: TemperatureDifference::from_kelvins(0.07),
        slope_uncertainty: 0.01,
        on: "2025-12-01".parse().expect("a day"),
    });
    kit.instruments = vec![kept(entry::<Instrument>(&[
        ("name", "weighed 20 ml syringe"),
        ("capacity", "20 ml"),
        ("graduation", "1 ml"),
        ("limits", "calibrated"),
        ("bias", "-0.25 ml"),
        ("bias_uncertainty", "0.04 ml"),
        ("repeatability", "0.05 ml"),
    ]))];
    kit.instruments[0].item.calibrated_on = Some("2025-02-01".parse().expect("a day"));
    kit
}

type Sheet = (
    &'static str,
    &'static str,
    &'static [(&'static str, &'static str)],
    fn() -> Kit,
);

/// Name, calculator, what is typed, with which kit.
const SHEETS: &[Sheet] = &[
    ("mix-first-visit", "mix", &[], Kit::starter),
    ("mix-colon", "mix", &[("dilution", "1:31")], Kit::starter),
    (
        "mix-data-sheet",
        "mix",
        &[
            (
                "times",
                "8 at 18 C 1+31\n6:45 at 20 C 1+31\n5:30 at 22 C 1+31\n9:30 at 20 C 1+47",
            ),
            ("least_per_film", "6 ml"),
            ("density", "1.26"),
            ("temperature", "21.5"),
        ],
        Kit::starter,
    ),
    ("mix-bottle", "mix", &[("bottle", "own"), ("dilution", "")], well_kept),
    (
        "mix-us-comma",
        "mix",
        &[("total", "20"), ("temperature", "70"), ("times", "6:45 at 68 F")],
        us_with_comma,
    ),
    ("mix-two-parts", "mix", &[("dilution", "1+1+100")], Kit::starter),
    ("mix-percent", "mix", &[("dilution", "3,5 %")], Kit::starter),
    ("mix-stock-first", "mix", &[("dilution", "1+3 then 1+7")], Kit::starter),
    ("mix-by-weight", "mix", &[("dilution", "20 g/l")], Kit::starter),
    (
        "mix-undiluted",
        "mix",
        &[("dilution", "stock"), ("class", "working")],
        Kit::starter,
    ),
    (
        "mix-added",
        "mix",
        &[
            ("dilution", "1+9"),
            ("method", "added"),
            ("total", "250 ml"),
            ("films_135", "0"),
        ],
        Kit::starter,
    ),
    (
        "mix-stop",
        "mix",
        &[("dilution", "1+19"), ("class", "stop")],
        Kit::starter,
    ),
    (
        "mix-fixer",
        "mix",
        &[("dilution", "1+4"), ("class", "fixer")],
        Kit::starter,
    ),
    (
        "mix-faults",
        "mix",
        &[("temperature", "warm"), ("density", "heavy"), ("strength", "5 %")],
        Kit::starter,
    ),
    (
        "mix-no-total",
        "mix",
        &[("total", "some"), ("times", "6:45 at 20 C")],
        Kit::starter,
    ),
    ("mix-no-dilution", "mix", &[("dilution", "thin")], Kit::starter),
    ("measure-first-visit", "measure", &[], Kit::starter),
    ("measure-little", "measure", &[("volume", "1 ml")], Kit::starter),
    ("measure-too-little", "measure", &[("volume", "0.08 ml")], Kit::starter),
    (
        "measure-calibrated",
        "measure",
        &[("volume", "3.3 ml"), ("density", "1.28"), ("liquid_temperature", "24")],
        well_kept,
    ),
    ("measure-much", "measure", &[("volume", "1.3 l")], Kit::starter),
    ("fill-first-visit", "fill", &[], Kit::starter),
    (
        "fill-short",
        "fill",
        &[("dilution", "1+50"), ("least_per_film", "6 ml")],
        Kit::starter,
    ),
    (
        "fill-short-timed",
        "fill",
        &[("bottle", "own"), ("dilution", "")],
        well_kept,
    ),
    ("fill-enough", "fill", &[("least_per_film", "6 ml")], Kit::starter),
    (
        "fill-drum",
        "fill",
        &[
            ("tank", "own"),
            ("films_135", "0"),
            ("sheets_4x5", "6"),
            ("total", "300 ml"),
        ],
        well_kept,
    ),
    (
        "time-assumed",
        "time",
        &[("times", "6:45 at 20 C 1+31"), ("temperature", "22 C")],
        Kit::starter,
    ),
    (
        "time-fitted",
        "time",
        &[
            ("times", "10 at 18 C; 8 at 20 C; 6:15 at 24 C"),
            ("temperature", "21.5 C"),
        ],
        Kit::starter,
    ),
    (
        "time-two-dilutions",
        "time",
        &[
            ("times", "6 at 20 C 1+25; 11 at 20 C 1+50"),
            ("dilution", "1+40"),
            ("strength", "90 %"),
            ("temperature", "26"),
        ],
        Kit::starter,
    ),
    (
        "time-fahrenheit",
        "time",
        &[
            ("times", "6 at 63 F; 5 at 68 F; 4 at 72 F; 3:15 at 80 F"),
            ("temperature", "75"),
        ],
        us_with_comma,
    ),
    ("air-first-visit", "air", &[], Kit::starter),
    (
        "air-stock-in-plastic",
        "air",
        &[
            ("formula", "mq-borax"),
            ("material", "hdpe"),
            ("brimful", "1060 ml"),
            ("left", "300 ml"),
            ("opened", "2 months"),
            ("openings", "4"),
            ("treatment", "squeezed"),
            ("climate", "18 to 27 C"),
        ],
        Kit::starter,
    ),
    (
        "air-us-comma",
        "air",
        &[("left", "12"), ("nominal", "1 qt"), ("climate", "70")],
        us_with_comma,
    ),
    ("air-stop", "air", &[("class", "stop"), ("left", "0")], Kit::starter),
    (
        "air-faults",
        "air",
        &[("left", "2 l"), ("opened", "long"), ("agent", "much")],
        Kit::starter,
    ),
    ("keeping-first-visit", "keeping", &[], Kit::starter),
    (
        "keeping-old-syrup",
        "keeping",
        &[("opened", "4 years"), ("openings", "30"), ("paid", "yes")],
        Kit::starter,
    ),
    (
        "keeping-proved",
        "keeping",
        &[
            ("class", "powder"),
            ("life_full", "6 months"),
            ("life_half", "2 months"),
            ("opened", "5 weeks"),
            ("openings", "3"),
            ("left", "800 ml"),
            ("tested", "2026-02-27"),
            ("result", "passed"),
            ("paid", "yes"),
            ("draw", "300 ml"),
            ("every", "1 week"),
        ],
        Kit::starter,
    ),
    (
        "keeping-hot-and-light",
        "keeping",
        &[
            ("class", "working"),
            ("climate", "18 to 33 C"),
            ("light", "lit"),
            ("colour", "clear"),
            ("opened", "3 months"),
        ],
        Kit::starter,
    ),
    (
        "keeping-failed",
        "keeping",
        &[("class", "fixer"), ("tested", "2026-02-21"), ("result", "failed")],
        Kit::starter,
    ),
    (
        "keeping-unknown",
        "keeping",
        &[("class", "other"), ("openings", "0"), ("draw", "0")],
        Kit::starter,
    ),
    (
        "keeping-us-comma",
        "keeping",
        &[("left", "12"), ("nominal", "1 qt"), ("climate", "70"), ("draw", "1")],
        us_with_comma,
    ),
    (
        "keeping-faults",
        "keeping",
        &[
            ("opened", "long"),
            ("tested", "yesterday"),
            ("life_half", "some"),
            ("limit_agent", "0"),
        ],
        Kit::starter,
    ),
    ("decant-first-visit", "decant", &[], Kit::starter),
    (
        "decant-plastic",
        "decant",
        &[
            ("material", "hdpe"),
            ("class", "powder"),
            ("at_hand", "3 x 100 ml ldpe; 500 ml pet"),
            ("used_up_in", "8 months"),
            ("climate", "8 to 24 C seasonal"),
        ],
        Kit::starter,
    ),
    (
        "decant-fixer-us",
        "decant",
        &[
            ("class", "fixer"),
            ("left", "16"),
            ("brimful", "34"),
            ("at_hand", "2 x 8 glass"),
        ],
        us_with_comma,
    ),
    ("decant-stop", "decant", &[("class", "stop")], Kit::starter),
    ("buy-first-visit", "buy", &[], Kit::starter),
    (
        "buy-us-comma",
        "buy",
        &[
            ("offers", "8,5 12,50; 1 qt 29"),
            ("currency", "USD"),
            ("class", "powder"),
            ("life_full", "6 months"),
            ("life_half", "2 months"),
            ("climate", "75"),
            ("in_stock", "1"),
        ],
        us_with_comma,
    ),
    (
        "buy-faults",
        "buy",
        &[("offers", "cheap"), ("lead", "soon")],
        Kit::starter,
    ),
    ("spend-first-visit", "spend", &[], Kit::starter),
    (
        "spend-typed",
        "spend",
        &[
            ("price", "20"),
            ("currency", "EUR"),
            ("size", "500 ml"),
            ("used", "300 ml"),
            ("thrown", "100 ml"),
            ("saved", "50 ml"),
            ("films", "30"),
        ],
        Kit::starter,
    ),
    ("calibrate-first-visit", "calibrate", &[], Kit::starter),
    (
        "calibrate-outside",
        "calibrate",
        &[
            ("instrument", "own"),
            ("marked", "5 ml"),
            ("masses", "34.12 - 29.42; 34.10-29.42; 4.69"),
            ("water_temperature", "25 C"),
        ],
        well_kept,
    ),
    (
        "calibrate-few-and-alike",
        "calibrate",
        &[
            ("masses", "10.4; 10.4"),
            ("evaporated", "0"),
            ("balance_error", "0.05 %"),
        ],
        Kit::starter,
    ),
    (
        "calibrate-thermometer",
        "calibrate",
        &[("what", "thermometer")],
        Kit::starter,
    ),
    (
        "calibrate-thermometer-one-pair",
        "calibrate",
        &[
            ("what", "thermometer"),
            ("readings", "68 69"),
            ("reference", "0,2"),
            ("used_at", "75"),
        ],
        us_with_comma,
    ),
    (
        "calibrate-faults",
        "calibrate",
        &[
            ("masses", "99; 100"),
            ("instrument", "starter-syringe-20"),
            ("water_temperature", "50 C"),
            ("pressure", "3"),
        ],
        Kit::starter,
    ),
    (
        "mix-calibrated",
        "mix",
        &[("times", "6:45 at 20 C 1+31")],
        compared_and_old,
    ),
    (
        "time-calibrated",
        "time",
        &[("times", "6:45 at 20 C 1+31")],
        compared_and_old,
    ),
    (
        "decant-faults",
        "decant",
        &[("left", "half"), ("at_hand", "jars"), ("every", "seldom")],
        Kit::starter,
    ),
];

type Shelved = (&'static str, &'static str, &'static [(&'static str, &'static str)]);

/// Name, calculator, what is typed, before a shelf with a year behind it.
const SHELVED: &[Shelved] = &[
    ("shelf-decant", "decant", &[("bottle", "blue-1")]),
    ("shelf-buy", "buy", &[("bottle", "blue-1"), ("currency", "EUR")]),
    ("shelf-spend", "spend", &[]),
    ("shelf-air", "air", &[("bottle", "pale-1")]),
    ("shelf-air-little-known", "air", &[("bottle", "dim-1")]),
    ("shelf-keeping", "keeping", &[("bottle", "pale-1")]),
    ("shelf-keeping-little-known", "keeping", &[("bottle", "dim-1")]),
    ("shelf-keeping-decanted", "keeping", &[("bottle", "plain-2")]),
];

/// Every sheet with its name.
fn answers() -> Vec<(&'static str, Answer)> {
    let plain = SHEETS.iter().map(|(name, calculator, fields, kit)| {
        let answer = calculate(calculator, &named(fields), &darkroom::with(kit())).expect("a calculator");
        (*name, answer)
    });
    let shelved = SHELVED.iter().map(|(name, calculator, fields)| {
        let answer = calculate(calculator, &named(fields), &shelf::darkroom()).expect("a calculator");
        (*name, answer)
    });
    plain.chain(shelved).collect()
}

#[test]
fn whole_sheets() {
    let mut golden = Golden::new("sheets");
    for (name, answer) in answers() {
        golden.check(name, &view::text(&answer));
    }
    golden.finish();
}

/// The README shows the beginning of a sheet, word by word.
#[test]
fn the_readme_shows_a_true_sheet() {
    let readme = include_str!("../README.md");
    let shown = readme
        .split("```text\n")
        .nth(1)
        .and_then(|rest| rest.split("```").next());
    let shown = shown.expect("a block of text in README.md");
    let command = readme
        .lines()
        .find(|line| line.contains("--example sheet -- mix"))
        .expect("its command in README.md");
    assert!(command.ends_with("mix dilution=1:31 total=\"600 ml\""), "{command}");
    let answer = calculate(
        "mix",
        &named(&[("dilution", "1:31"), ("total", "600 ml")]),
        &darkroom::starter(),
    );
    let text = view::text(&answer.expect("mix"));
    assert!(
        text.starts_with(shown),
        "README.md shows\n{shown}\nand the sheet begins with\n{text}"
    );
}

/// The list of the shelf and the sheet of a bottle come to the same state, who says so and whether it may touch paid work.
#[test]
fn the_list_and_the_sheet_agree_on_every_bottle() {
    let darkroom = shelf::darkroom();
    let mut judged = 0;
    for one in parts::bottles(&darkroom) {
        let id = one.bottle.id.as_str();
        let answer = calculate("keeping", &named(&[("bottle", id)]), &darkroom).expect("keeping");
        let sheet = &answer.sheet;
        let shown = |name: &str| sheet.figure(name).map(|figure| figure.shown.clone());
        let Some(verdict) = &one.verdict else {
            // What the shelf does not know the form describes, and the sheet says so.
            let described = view::text(&answer).contains("does not know enough of it");
            assert!(described || (one.bottle.is_empty() && shown("state").is_none()), "{id}");
            continue;
        };
        assert_eq!(shown("state").as_deref(), Some(one.state().name()), "{id}");
        assert_eq!(
            shown("paid").as_deref(),
            Some(if verdict.paid { "yes" } else { "no" }),
            "{id}"
        );
        let used = sheet.figure("life_used").map(|figure| figure.value);
        assert_eq!(used, verdict.share.map(|share| share.value), "{id}");
        judged += 1;
    }
    assert!(judged >= 4, "only {judged} were judged");
}

/// What the plain text says the page says too: every word of a figure, a sentence, a step and a caution.
#[test]
fn the_page_says_what_the_text_says() {
    for (name, answer) in answers() {
        let words = view::sheet(&answer)
            .replace("&amp;", "&")
            .replace("&lt;", "<")
            .replace("&gt;", ">")
            .replace("&quot;", "\"");
        for figure in answer.sheet.figures() {
            assert!(words.contains(&*figure.label), "{name}: {}", figure.label);
            let (number, _) = figure.shown.split_once(' ').unwrap_or((&figure.shown, ""));
            assert!(words.contains(number), "{name}: {} {}", figure.label, figure.shown);
        }
        let data = view::data(&answer);
        for sentence in data.cautions.iter().chain(data.ways.iter().flat_map(|way| &way.steps)) {
            assert!(words.contains(sentence.as_str()), "{name}: {sentence}");
        }
        for part in &answer.sheet.parts {
            assert!(words.contains(&part.title), "{name}: {}", part.title);
        }
    }
}
