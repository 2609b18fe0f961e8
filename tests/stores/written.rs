//! Records as they were once written. Lines are only ever added to the files: every one must stay readable for good.

use meniscus::calculators;
use meniscus::chemistry::Class;
use meniscus::development::SheetTime;
use meniscus::fields::Named;
use meniscus::kit::{
    Balance, Bottle, Grade, House, Instrument, InstrumentKind, Kit, Reading, Tank, Thermometer, Tolerance, Turning,
};
use meniscus::quantity::{
    DecimalMark, Dilution, Mass, MassDensity, Span, Temperature, TemperatureDifference, TemperatureUnit, Units, Volume,
    VolumeUnit,
};
use meniscus::store::{self, Record, RecordError};

use super::{darkroom, filled, fixture};

/// One of every kind, of format 1.
pub const FORMAT_1: &str = include_str!("format-1.txt");
/// What must be refused, and why.
const DAMAGED: &str = include_str!("damaged.txt");

fn ul(value: i64) -> Volume {
    Volume::from_microlitres(value)
}

fn instrument(name: &str, kind: InstrumentKind, sizes: [i64; 3], reading: Reading, tolerance: Tolerance) -> Record {
    let [capacity, graduation, dead_space] = sizes.map(ul);
    Record::Instrument(Instrument {
        name: name.to_owned(),
        kind,
        capacity,
        graduation,
        reading,
        tolerance,
        dead_space,
        calibrated_on: None,
    })
}

/// What the lines of format 1 mean.
fn meant() -> Vec<(&'static str, Record)> {
    let dilution = |text: &str| text.parse::<Dilution>().expect(text);
    let time = |seconds: f64, celsius: f64, at: Option<&str>| SheetTime {
        time: Span::from_seconds(seconds),
        temperature: Temperature::from_celsius(celsius),
        dilution: at.map(dilution),
    };
    let bottle = |product: &str, class: Class| Bottle {
        product: product.to_owned(),
        class,
        density: None,
        dilutions: vec![],
        least_per_film: None,
        times: Vec::new(),
        exponent: None,
    };
    let house = |volume, temperature, decimal| House {
        units: Units {
            volume,
            temperature,
            decimal,
        },
        thermometer: TemperatureDifference::from_millidegrees(250),
        timing: Span::from_seconds(7.5),
        hand: 1.5,
    };
    let mut dated = instrument(
        "weighed in May",
        InstrumentKind::Syringe,
        [10_000, 500, 100],
        Reading::HalfMarks,
        Tolerance::Calibrated {
            bias: ul(-55),
            uncertainty: ul(37),
            repeatability: ul(44),
        },
    );
    if let Record::Instrument(instrument) = &mut dated {
        instrument.calibrated_on = Some("2026-05-03".parse().expect("a day"));
    }
    vec![
        (
            "syringe",
            instrument(
                "10 ml “blue”",
                InstrumentKind::Syringe,
                [10_000, 500, 100],
                Reading::HalfMarks,
                Tolerance::SyringeIso7886,
            ),
        ),
        (
            "cylinder-a",
            instrument(
                "glass",
                InstrumentKind::Cylinder,
                [100_000, 1_000, 0],
                Reading::Fifths,
                Tolerance::CylinderIso4788(Grade::A),
            ),
        ),
        (
            "cylinder-b",
            instrument(
                "plastic",
                InstrumentKind::Cylinder,
                [500_000, 5_000, 0],
                Reading::Marks,
                Tolerance::CylinderAstmE1272(Grade::B),
            ),
        ),
        (
            "pipette",
            instrument(
                "pipette",
                InstrumentKind::GraduatedPipette,
                [5_000, 50, 0],
                Reading::Fifths,
                Tolerance::GraduatedPipetteIso835(Grade::B),
            ),
        ),
        (
            "bulb",
            instrument(
                "bulb",
                InstrumentKind::SingleMarkPipette,
                [25_000, 25_000, 0],
                Reading::Marks,
                Tolerance::SingleMarkPipetteIso648(Grade::A),
            ),
        ),
        (
            "jug",
            instrument(
                "jug",
                InstrumentKind::Jug,
                [1_000_000, 50_000, 0],
                Reading::HalfMarks,
                Tolerance::Share(0.05),
            ),
        ),
        (
            "own",
            instrument(
                "mine",
                InstrumentKind::Syringe,
                [3_000, 100, 70],
                Reading::HalfMarks,
                Tolerance::Own(ul(60)),
            ),
        ),
        (
            "weighed",
            instrument(
                "weighed",
                InstrumentKind::Syringe,
                [20_000, 1_000, 150],
                Reading::HalfMarks,
                Tolerance::Calibrated {
                    bias: ul(-120),
                    uncertainty: ul(30),
                    repeatability: ul(20),
                },
            ),
        ),
        (
            "balance",
            Record::Balance(Balance {
                name: "pocket".to_owned(),
                readability: Mass::from_grams(0.01),
                capacity: Mass::from_grams(200.0),
            }),
        ),
        (
            "tank",
            Record::Tank(Tank {
                name: "two reels".to_owned(),
                turning: Turning::Inversion,
                brim: ul(650_000),
                per_135: ul(290_000),
                per_120: ul(500_000),
                sheets_4x5: ul(0),
                sheets_8x10: ul(0),
            }),
        ),
        (
            "drum",
            Record::Tank(Tank {
                name: "drum".to_owned(),
                turning: Turning::Rotary,
                brim: ul(1_000_000),
                per_135: ul(140_000),
                per_120: ul(270_000),
                sheets_4x5: ul(300_000),
                sheets_8x10: ul(350_000),
            }),
        ),
        (
            "bottle-syrup",
            Record::Bottle(Bottle {
                density: Some(MassDensity::from_grams_per_millilitre(1.285)),
                dilutions: vec![dilution("1+31")],
                least_per_film: Some(ul(6_000)),
                times: vec![
                    time(405.0, 20.0, Some("1+31")),
                    time(330.0, 22.222, None),
                    time(900.0, 20.0, Some("1+1+100")),
                ],
                exponent: Some(0.85),
                ..bottle("my syrup <& co>", Class::Syrup)
            }),
        ),
        (
            "bottle-liquid",
            Record::Bottle(Bottle {
                dilutions: vec![dilution("3.5 %")],
                ..bottle("liquid", Class::LiquidConcentrate)
            }),
        ),
        (
            "bottle-powder",
            Record::Bottle(Bottle {
                dilutions: vec![dilution("stock")],
                ..bottle("powder", Class::PowderStock)
            }),
        ),
        (
            "bottle-working",
            Record::Bottle(Bottle {
                dilutions: vec![dilution("1+3 then 1+7")],
                ..bottle("working", Class::WorkingDeveloper)
            }),
        ),
        (
            "bottle-two-dilutions",
            Record::Bottle(Bottle {
                dilutions: vec![dilution("1+31"), dilution("1+3 then 1+7")],
                ..bottle("two", Class::Syrup)
            }),
        ),
        (
            "bottle-stop",
            Record::Bottle(Bottle {
                dilutions: vec![dilution("20 g/l")],
                ..bottle("stop", Class::StopBath)
            }),
        ),
        ("bottle-fixer", Record::Bottle(bottle("fixer", Class::Fixer))),
        ("bottle-other", Record::Bottle(bottle("other", Class::Other))),
        (
            "house-metric",
            Record::House(house(
                VolumeUnit::Millilitre,
                TemperatureUnit::Celsius,
                DecimalMark::Comma,
            )),
        ),
        (
            "house",
            Record::House(house(
                VolumeUnit::UsFluidOunce,
                TemperatureUnit::Fahrenheit,
                DecimalMark::Point,
            )),
        ),
        (
            "form",
            Record::Form(Named::from([
                ("dilution".to_owned(), "1:31".to_owned()),
                ("times".to_owned(), "6:45 at 20 C\n8 at 18 C".to_owned()),
                ("total".to_owned(), "<script>½".to_owned()),
            ])),
        ),
        ("starter-tank", Record::Gone),
        ("dated", dated),
        (
            "thermometer",
            Record::Thermometer(Thermometer {
                at: Temperature::from_celsius(24.008),
                correction: TemperatureDifference::from_millidegrees(-162),
                slope: 0.002183,
                uncertainty: TemperatureDifference::from_millidegrees(59),
                slope_uncertainty: 0.000755,
                on: "2026-02-28".parse().expect("a day"),
            }),
        ),
    ]
}

/// The part of a key after the last slash.
fn last(key: &str) -> &str {
    key.rsplit('/').next().unwrap_or(key)
}

#[test]
fn format_1_stays_readable() {
    let lines = fixture(FORMAT_1);
    let meant = meant();
    assert_eq!(lines.len(), meant.len(), "a line and its meaning belong together");
    for ((key, text), (name, record)) in lines.iter().zip(&meant) {
        let found = last(key);
        assert!(
            found == *name || *name == "form" || name.starts_with("house"),
            "{key} is not {name}"
        );
        assert_eq!(Record::from_text(text), Ok(record.clone()), "{key}");
    }
}

/// Texts of records are JSON texts as serde_json writes them: every character that JSON escapes, and some that it does not.
#[test]
fn every_letter_is_written_as_it_always_was() {
    for letter in ('\0'..='\u{2ff}').chain(['\u{2028}', '\u{fffd}', '𝄞']) {
        let (name, typed) = (format!("n{letter}"), format!("a{letter}b"));
        let theirs = serde_json::json!({ name.as_str(): typed.as_str() }).to_string();
        let named = Named::from([(name, typed)]);
        let record = Record::Form(named);
        let text = record.to_text();
        assert_eq!(
            text.splitn(3, ' ').nth(2),
            Some(format!(r#"{{"form":{{"fields":{theirs}}}}}"#).as_str())
        );
        assert_eq!(Record::from_text(&text), Ok(record));
    }
}

/// What serde_json read as missing or as nothing is nothing still; what it refused is refused.
#[test]
fn what_may_be_left_out_may_be_left_out() {
    let of = |json: &str| Record::from_text(&format!("1 {:08x} {json}", super::crc_32(json.as_bytes())));
    let (_, other) = meant()
        .into_iter()
        .find(|(name, _)| *name == "bottle-other")
        .expect("a bottle");
    for json in [
        r#"{"bottle":{"product":"other","class":"other","times":[]}}"#,
        r#"{"bottle":{"times":[],"class":"other","dilution":null,"product":"other","least_per_film_ul":null}}"#,
    ] {
        assert_eq!(of(json), Ok(other.clone()), "{json}");
    }
    for json in [
        r#"{"bottle":{"product":"other","class":"other"}}"#,
        r#"{"bottle":{"product":null,"class":"other","times":[]}}"#,
        r#"{"bottle":{"product":"other","class":"other","times":null}}"#,
        r#"{"bottle":{"product":"other","class":"other","times":[],"times":[]}}"#,
        r#"{"bottle":{"product":"other","class":"other","times":[],"exponent_thousandths":0850}}"#,
        r#"{"bottle":{"product":"other","class":"other","times":[]},"house":{}}"#,
        r#"{"form":{"fields":{"total":5}}}"#,
        r#"{"form":{}}"#,
        r#""form""#,
        "{}",
        r#"{"gone":1}"#,
        "null",
    ] {
        assert!(of(json).is_err(), "{json}");
    }
}

/// As long as 1 is the format that is written: the same bytes. A new format replaces this by a fixture of its own.
#[test]
fn format_1_is_what_is_written() {
    for ((key, text), (_, record)) in fixture(FORMAT_1).into_iter().zip(meant()) {
        assert_eq!(record.to_text(), text, "{key}");
    }
}

#[test]
fn a_whole_store_of_format_1_loads() {
    let door = filled(&fixture(FORMAT_1));
    let loaded = store::load(&door);
    assert_eq!(loaded.unread, []);
    assert_eq!(loaded.trouble, None);
    assert_eq!(loaded.kit.instruments.len(), Kit::starter().instruments.len() + 9);
    assert_eq!(loaded.kit.bottles.len(), 8);
    assert!(loaded.kit.thermometer.is_some());
    assert_eq!(
        loaded.kit.tanks.iter().map(|kept| kept.id.as_str()).collect::<Vec<_>>(),
        ["drum", "tank"],
        "the starter's tank is gone, the others come in the order of their keys"
    );
    assert_eq!(loaded.kit.house.units.volume, VolumeUnit::UsFluidOunce);
    let mix = loaded
        .forms
        .iter()
        .find(|(name, _)| name == "mix")
        .expect("it is there");
    assert_eq!(mix.1.get("dilution").map(String::as_str), Some("1:31"));
    assert_eq!(loaded.kit.bottle("bottle-syrup").expect("the syrup").times.len(), 3);
}

/// Every damage that was thought of, with the reason that the user reads.
#[test]
fn damaged_records_are_refused_with_a_reason() {
    for (why, text) in fixture(DAMAGED) {
        let error = Record::from_text(text).expect_err(why);
        match why.strip_suffix('…') {
            Some(start) => assert!(error.to_string().starts_with(start), "{error} for {text}"),
            None => assert_eq!(error.to_string(), why, "{text}"),
        }
        if let RecordError::Content(_) = error {
            // The checksum is right, so it is the content that was looked at.
            let json = text.splitn(3, ' ').nth(2).expect("JSON");
            assert!(
                text.contains(&format!("{:08x}", super::crc_32(json.as_bytes()))),
                "{text}"
            );
        }
    }
}

/// Amounts that no form takes, under a right checksum: the record is refused, or every calculator still gives numbers.
#[test]
fn extreme_amounts_are_refused_or_harmless() {
    let amounts = [i64::MIN, -1_000_000, -1, 0, 1, 7, 10_000, 1_000_000_000, i64::MAX];
    let mut taken = 0;
    for (key, text) in fixture(FORMAT_1) {
        let json: serde_json::Value = serde_json::from_str(text.splitn(3, ' ').nth(2).expect("JSON")).expect(key);
        for place in numbers(&json) {
            for amount in amounts {
                let mut changed = json.clone();
                *changed.pointer_mut(&place).expect("a number") = amount.into();
                let json = changed.to_string();
                let text = format!("1 {:08x} {json}", super::crc_32(json.as_bytes()));
                let Ok(record) = Record::from_text(&text) else {
                    continue;
                };
                taken += 1;
                let mut kit = Kit::starter();
                store::lay(&mut kit, "own", record);
                let darkroom = darkroom::with(kit);
                // Those of the shelf take nothing from the kit but units and labels.
                for calculator in calculators::SINK {
                    let mut named = Named::new();
                    if calculator.fields.iter().any(|field| field.name() == "bottle")
                        && !darkroom.kit.bottles.is_empty()
                    {
                        named.insert("bottle".to_owned(), "own".to_owned());
                    }
                    for figure in calculator.answer(&named, &darkroom).sheet.figures() {
                        assert!(figure.value.is_finite(), "{figure:?} with {text}");
                    }
                }
            }
        }
    }
    assert!(taken > 100, "only {taken} were taken");
}

/// Pointers to every number of a value.
fn numbers(json: &serde_json::Value) -> Vec<String> {
    let below = |key: String, value: &serde_json::Value| {
        let inner = numbers(value).into_iter();
        inner.map(move |rest| format!("/{key}{rest}")).collect::<Vec<_>>()
    };
    match json {
        serde_json::Value::Number(_) => vec![String::new()],
        serde_json::Value::Object(map) => map.iter().flat_map(|(key, value)| below(key.clone(), value)).collect(),
        serde_json::Value::Array(all) => all
            .iter()
            .enumerate()
            .flat_map(|(index, value)| below(index.to_string(), value))
            .collect(),
        _ => Vec::new(),
    }
}
