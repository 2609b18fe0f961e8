//! The models beneath the calculators against their files: limits of error, dilutions, film, the law of development.

use meniscus::chemistry::{Class, Guess};
use meniscus::development::{
    FirstOrder, Origin, Parameter, RateLaw, SheetTime, SlipLaw, activation_from_q10, q10_from_activation,
};
use meniscus::kit::{Film, Grade, Load, Tolerance, syringe_dead_space};
use meniscus::quantity::{Dilution, FILM_UNIT, Mass, Span, Temperature, Volume};
use serde::Deserialize;

use super::cases::load;
use super::near;

/// Exact but for the rounding of floating-point arithmetic.
const EXACT: f64 = 1e-12;

fn ml(value: f64) -> Volume {
    Volume::from_millilitres(value)
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Tolerances {
    syringe: Vec<Syringe>,
    table: Vec<Table<3>>,
    class_a: Vec<Table<2>>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Syringe {
    capacity: f64,
    source: String,
    limits: Vec<[f64; 2]>,
    dead_space: f64,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Table<const N: usize> {
    standard: String,
    source: String,
    #[serde(deserialize_with = "rows")]
    rows: Vec<[f64; N]>,
}

/// Rows of exactly so many numbers.
fn rows<'de, D: serde::Deserializer<'de>, const N: usize>(from: D) -> Result<Vec<[f64; N]>, D::Error> {
    let rows = Vec::<Vec<f64>>::deserialize(from)?;
    rows.into_iter()
        .map(|row| {
            <[f64; N]>::try_from(row).map_err(|row| serde::de::Error::custom(format!("{row:?} has not {N} numbers")))
        })
        .collect()
}

fn by_standard(standard: &str, grade: Grade) -> Tolerance {
    match standard {
        "ISO 4788" => Tolerance::CylinderIso4788(grade),
        "ASTM E1272" => Tolerance::CylinderAstmE1272(grade),
        "ISO 835" => Tolerance::GraduatedPipetteIso835(grade),
        "ISO 648" => Tolerance::SingleMarkPipetteIso648(grade),
        other => panic!("no standard {other}"),
    }
}

#[test]
fn syringes() {
    for case in load::<Tolerances>("tolerances").syringe {
        let capacity = ml(case.capacity);
        for [delivered, limit] in case.limits {
            let what = format!("{delivered} ml from a {} ml syringe ({})", case.capacity, case.source);
            let got = Tolerance::SyringeIso7886.half_width(capacity, ml(delivered));
            near(&what, got.millilitres(), limit, EXACT);
        }
        near(
            &format!("dead space of {} ml ({})", case.capacity, case.source),
            syringe_dead_space(capacity).millilitres(),
            case.dead_space,
            EXACT,
        );
    }
}

/// ISO 7886-1: just below half of the capacity and at half the limit is the same; it jumps only from size to size, at 5 ml.
#[test]
fn syringes_have_no_step_at_half_their_capacity() {
    let sizes = (1..=600).map(|tenths| f64::from(tenths) / 10.0);
    for size in sizes {
        let limit = |delivered: f64| {
            Tolerance::SyringeIso7886
                .half_width(ml(size), ml(delivered))
                .millilitres()
        };
        let step = 1e-9 * size;
        let part = if size < 5.0 { 0.025 } else { 0.02 };
        near(
            &format!("{size} ml, below half"),
            limit(size / 2.0 - step),
            part * size,
            1e-9 * size,
        );
        near(
            &format!("{size} ml, at half"),
            limit(size / 2.0),
            part * size,
            EXACT * size,
        );
    }
    let at_full = |size: f64| Tolerance::SyringeIso7886.half_width(ml(size), ml(size)) / ml(size);
    near("below 5 ml", at_full(4.999), 0.05, EXACT);
    near("5 ml", at_full(5.0), 0.04, EXACT);
}

#[test]
fn glassware() {
    let file = load::<Tolerances>("tolerances");
    for table in &file.table {
        for [size, a, b] in &table.rows {
            for (grade, limit) in [(Grade::A, a), (Grade::B, b)] {
                // At any point of the scale (ISO 4788, as read): a small fill has the limit of the whole.
                for delivered in [0.1 * size, 0.5 * size, *size] {
                    let got = by_standard(&table.standard, grade).half_width(ml(*size), ml(delivered));
                    near(
                        &format!("{size} ml, class {grade:?} ({})", table.source),
                        got.millilitres(),
                        *limit,
                        EXACT,
                    );
                }
            }
        }
    }
    for table in &file.class_a {
        for [size, limit] in &table.rows {
            let got = by_standard(&table.standard, Grade::A).half_width(ml(*size), ml(*size));
            near(
                &format!("{size} ml ({})", table.source),
                got.millilitres(),
                *limit,
                EXACT,
            );
        }
    }
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Dilutions {
    parts: Vec<Parts>,
    weighed: Vec<Weighed>,
    refused: Vec<Refused>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Parts {
    written: String,
    total: f64,
    concentrates: Vec<f64>,
    water: f64,
    within: f64,
    source: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Weighed {
    written: String,
    total: f64,
    mass: f64,
    source: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Refused {
    written: String,
    sentence: String,
    source: String,
}

#[test]
fn dilutions() {
    let file = load::<Dilutions>("dilution");
    for case in file.parts {
        let what = format!("{} ({})", case.written, case.source);
        let dilution: Dilution = case.written.parse().expect(&what);
        let got = dilution.concentrates(ml(case.total));
        assert_eq!(got.len(), case.concentrates.len(), "{what}");
        for (got, wanted) in got.iter().zip(&case.concentrates) {
            near(&what, got.millilitres(), *wanted, case.within);
        }
        let water = ml(case.total) - got.into_iter().sum();
        near(&what, water.millilitres(), case.water, case.within);
        near(&what, dilution.share(), 1.0 - case.water / case.total, case.within);
    }
    for case in file.weighed {
        let what = format!("{} ({})", case.written, case.source);
        let Dilution::Weighed(density) = case.written.parse().expect(&what) else {
            panic!("{what} is not by weight");
        };
        let mass: Mass = density * ml(case.total);
        near(&what, mass.grams(), case.mass, EXACT);
    }
    for case in file.refused {
        let fault = case.written.parse::<Dilution>().expect_err(&case.written);
        assert_eq!(fault.to_string(), case.sentence, "{}", case.source);
    }
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Films {
    unit: Unit,
    roll: Vec<Roll>,
    sheet: Vec<SheetFilm>,
    load: Vec<Loaded>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Unit {
    square_centimetres: f64,
    within: f64,
    source: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Roll {
    name: String,
    units: f64,
    length: f64,
    width: f64,
    within: f64,
    source: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct SheetFilm {
    name: String,
    inches: [f64; 2],
    units: f64,
    source: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Loaded {
    counts: [u32; 5],
    units: f64,
    words: String,
    source: String,
}

#[test]
fn film_by_the_unit() {
    let file = load::<Films>("film");
    let unit = FILM_UNIT.square_centimetres();
    near(&file.unit.source, unit, file.unit.square_centimetres, file.unit.within);
    let named = |name: &str| {
        Film::ALL
            .into_iter()
            .find(|film| film.label() == name)
            .expect("a format")
    };
    for case in file.roll {
        let counted = named(&case.name).units();
        near(&case.source, counted, case.units, EXACT);
        let area = case.length * case.width / 100.0 / unit;
        near(&case.source, area / counted, 1.0, case.within);
    }
    for case in file.sheet {
        let counted = named(&case.name).units();
        near(&case.source, counted, case.units, EXACT);
        near(&case.source, counted, case.inches[0] * case.inches[1] / 80.0, EXACT);
    }
    for case in file.load {
        let load = Load::new(case.counts);
        near(&case.source, load.units(), case.units, EXACT);
        assert_eq!(load.words(), case.words);
    }
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Development {
    table: Vec<TimeTable>,
    coefficients: Coefficients,
    rate: Rate,
    worked: Worked,
    thermometer: Thermometer,
    doubled: Vec<Doubled>,
    curve: Vec<Curve>,
    sensitivity: Pairs,
    yardstick: Yardstick,
}

/// The fit by degrees belongs to the second derivation.
#[derive(Deserialize)]
struct TimeTable {
    name: String,
    source: String,
    times: Vec<[f64; 2]>,
    by_degrees: ByDegrees,
    activation: f64,
    q10_within: f64,
    at_20: f64,
    every: f64,
    residual: f64,
}

#[derive(Deserialize)]
struct ByDegrees {
    q10: f64,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Coefficients {
    source: String,
    pairs: Vec<[f64; 2]>,
    within: f64,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Rate {
    source: String,
    activation: f64,
    from: f64,
    to: f64,
    ratio: f64,
    within: f64,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Worked {
    source: String,
    minutes: f64,
    at: f64,
    within: f64,
    times: Vec<[f64; 3]>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Thermometer {
    source: String,
    q10: f64,
    errors: Vec<[f64; 2]>,
    within: f64,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Doubled {
    source: String,
    minutes: f64,
    contrast: f64,
    contrast_at_double: f64,
    rate: f64,
    limit: f64,
    within: f64,
    times: Vec<[f64; 2]>,
    times_within: f64,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Curve {
    source: String,
    rate: f64,
    limit: f64,
    contrasts: Vec<[f64; 2]>,
    within: f64,
    times: Vec<[f64; 2]>,
    times_within: f64,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Pairs {
    source: String,
    values: Vec<[f64; 2]>,
    within: f64,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Yardstick {
    source: String,
    strength: f64,
    values: Vec<[f64; 2]>,
    within: f64,
}

fn minutes_at(minutes: f64, temperature: Temperature) -> SheetTime {
    SheetTime {
        time: Span::from_minutes(minutes),
        temperature,
        dilution: None,
    }
}

fn law(times: &[SheetTime], q10: Option<f64>) -> RateLaw {
    RateLaw::new(times, 1.0, None, q10, Class::LiquidConcentrate).expect("a law")
}

#[test]
fn published_time_temperature_tables() {
    for table in load::<Development>("development").table {
        let name = format!("table {} ({})", table.name, table.source);
        let times: Vec<SheetTime> = table
            .times
            .iter()
            .map(|&[fahrenheit, minutes]| minutes_at(minutes, Temperature::from_fahrenheit(fahrenheit)))
            .collect();
        let law = law(&times, None);
        near(&name, law.activation().value / 1000.0, table.activation, 0.05);
        assert_eq!(law.activation().origin, Origin::Fitted, "{name}");
        near(&name, law.q10().value, table.by_degrees.q10, table.q10_within);
        let at_20 = law.time(Temperature::from_celsius(20.0), 1.0, 1.0);
        near(&name, at_20.time.minutes(), table.at_20, 0.001);
        assert_eq!(at_20.band.0, at_20.band.1, "{name}: nothing was assumed");
        near(&name, law.largest_residual(), table.residual, 0.0005);
        for time in &times {
            let ratio = law.time(time.temperature, 1.0, 1.0).time / time.time;
            near(&name, ratio.ln(), 0.0, table.every);
        }
    }
}

#[test]
fn coefficients_of_temperature() {
    let file = load::<Development>("development");
    for [q10, activation] in file.coefficients.pairs {
        let source = &file.coefficients.source;
        near(
            source,
            activation_from_q10(q10) / 1000.0,
            activation,
            file.coefficients.within,
        );
        let back = q10_from_activation(activation_from_q10(q10), Temperature::from_celsius(25.0));
        near("and back", back, q10, 1e-12);
    }
    let rate = file.rate;
    let q10 = q10_from_activation(rate.activation * 1000.0, Temperature::from_celsius(25.0));
    let times = [minutes_at(10.0, Temperature::from_celsius(rate.from))];
    let law = law(&times, Some(q10));
    let at = |celsius| law.time(Temperature::from_celsius(celsius), 1.0, 1.0).time;
    near(&rate.source, at(rate.from) / at(rate.to), rate.ratio, rate.within);
}

#[test]
fn worked_times() {
    let file = load::<Development>("development");
    let at = Temperature::from_celsius(file.worked.at);
    for [q10, celsius, minutes] in file.worked.times {
        let law = law(&[minutes_at(file.worked.minutes, at)], Some(q10));
        let got = law.time(Temperature::from_celsius(celsius), 1.0, 1.0).time.minutes();
        near(&file.worked.source, got / minutes, 1.0, file.worked.within);
    }
    let thermometer = file.thermometer;
    let law = law(&[minutes_at(10.0, at)], Some(thermometer.q10));
    let time = |celsius| law.time(Temperature::from_celsius(celsius), 1.0, 1.0).time;
    for [kelvins, share] in thermometer.errors {
        let got = time(20.0 - kelvins) / time(20.0) - 1.0;
        near(&thermometer.source, got / share, 1.0, thermometer.within);
    }
}

#[test]
fn first_order_law() {
    let file = load::<Development>("development");
    for case in file.doubled {
        let once = (Span::from_minutes(case.minutes), case.contrast);
        let doubled = (once.0 * 2.0, case.contrast_at_double);
        let law = FirstOrder::from_two(doubled, once).expect(&case.source);
        near(&case.source, law.rate, case.rate, case.within);
        near(&case.source, law.limit, case.limit, case.within);
        for [contrast, minutes] in case.times {
            let time = law.time_to(contrast).expect(&case.source);
            near(&case.source, time.minutes(), minutes, case.times_within);
        }
    }
    for case in file.curve {
        let law = FirstOrder {
            rate: case.rate,
            limit: case.limit,
        };
        for [minutes, contrast] in case.contrasts {
            near(
                &case.source,
                law.contrast(Span::from_minutes(minutes)),
                contrast,
                case.within,
            );
        }
        for [contrast, minutes] in case.times {
            let time = law.time_to(contrast).expect(&case.source);
            near(&case.source, time.minutes(), minutes, case.times_within);
        }
        assert_eq!(law.time_to(case.limit), None, "endless development gives the limit");
    }
    for [progress, share] in file.sensitivity.values {
        let got = FirstOrder::sensitivity(progress);
        near(&file.sensitivity.source, got, share, file.sensitivity.within);
    }
}

#[test]
fn strength_as_contrast() {
    let Yardstick {
        source,
        strength,
        values,
        within,
    } = load::<Development>("development").yardstick;
    let given = |value| {
        Parameter::given_or(
            Some(value),
            Guess {
                value,
                least: value,
                most: value,
                why: "",
            },
        )
    };
    for [progress, share] in values {
        let law = SlipLaw {
            time: None,
            temperature: Temperature::from_celsius(20.0),
            exponent: given(1.0),
            activation: given(50_000.0),
            progress: given(progress),
        };
        let slip = law.slip(strength);
        near(&source, slip.contrast.value / strength, share, within);
        assert!(slip.seconds.is_none(), "no seconds without a time");
        let warmer = slip.kelvins.expect("a small slip");
        assert!(warmer.value > 0.0, "stronger is as warmer");
    }
}
