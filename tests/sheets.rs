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

use baths::BATHS;
use days::DAYS;
use golden::Golden;
use list::{SHEETS, SHELVED};
use powders::POWDERS;

#[path = "common/darkroom.rs"]
mod darkroom;
#[path = "common/shelf.rs"]
mod shelf;
#[path = "common/golden.rs"]
mod golden;
#[path = "sheets/baths.rs"]
mod baths;
#[path = "sheets/days.rs"]
mod days;
#[path = "sheets/list.rs"]
mod list;
#[path = "sheets/powders.rs"]
mod powders;

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

type Shelved = (&'static str, &'static str, &'static [(&'static str, &'static str)]);

/// Every sheet with its name.
fn answers() -> Vec<(&'static str, Answer)> {
    let plain = SHEETS
        .iter()
        .chain(BATHS)
        .chain(DAYS)
        .chain(POWDERS)
        .map(|(name, calculator, fields, kit)| {
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
