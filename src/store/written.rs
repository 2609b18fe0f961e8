//! The written form of a record, spelled out so that no change of a calculation can change what is kept.
//! Amounts are integers: microlitres, micrograms, micrograms per millilitre, thousandths of a degree, milliseconds, thousandths.

use super::Record;
use super::object::Object;
use super::reading::{Fields, Wrong, short, value, word_for};
use crate::chemistry::Class;
use crate::development::SheetTime;
use crate::fields::Named;
use crate::kit::{
    Balance, Bottle, Grade, House, Instrument, InstrumentKind, Reading, Tank, Thermometer, Tolerance, Turning,
};
use crate::quantity::{
    Day, DecimalMark, Dilution, DilutionError, Mass, MassDensity, Span, Temperature, TemperatureDifference,
    TemperatureUnit, Units, Volume, VolumeUnit,
};

/// Words of the file for the small enumerations; words once written never change.
const KINDS: [(&str, InstrumentKind); 5] = [
    ("syringe", InstrumentKind::Syringe),
    ("cylinder", InstrumentKind::Cylinder),
    ("graduated_pipette", InstrumentKind::GraduatedPipette),
    ("single_mark_pipette", InstrumentKind::SingleMarkPipette),
    ("jug", InstrumentKind::Jug),
];
const READINGS: [(&str, Reading); 3] = [
    ("marks", Reading::Marks),
    ("half_marks", Reading::HalfMarks),
    ("fifths", Reading::Fifths),
];
/// Shared with the ledger, whose events name classes by the same words.
pub(crate) const CLASSES: [(&str, Class); 7] = [
    ("syrup", Class::Syrup),
    ("liquid", Class::LiquidConcentrate),
    ("powder", Class::PowderStock),
    ("working", Class::WorkingDeveloper),
    ("stop", Class::StopBath),
    ("fixer", Class::Fixer),
    ("other", Class::Other),
];
const GRADES: [(&str, Grade); 2] = [("A", Grade::A), ("B", Grade::B)];
const VOLUME_UNITS: [(&str, VolumeUnit); 2] = [("ml", VolumeUnit::Millilitre), ("us_fl_oz", VolumeUnit::UsFluidOunce)];
const TEMPERATURE_UNITS: [(&str, TemperatureUnit); 2] = [
    ("celsius", TemperatureUnit::Celsius),
    ("fahrenheit", TemperatureUnit::Fahrenheit),
];
const DECIMALS: [(&str, DecimalMark); 2] = [("point", DecimalMark::Point), ("comma", DecimalMark::Comma)];

/// A record as JSON.
pub(super) fn to_json(record: &Record) -> String {
    let part = Object::of_record();
    let (kind, says) = match record {
        Record::Instrument(item) => ("instrument", write_instrument(part, item)),
        Record::Balance(item) => (
            "balance",
            part.text("name", &item.name)
                .integer("readability_ug", millionths(item.readability.grams()))
                .integer("capacity_ug", millionths(item.capacity.grams())),
        ),
        Record::Tank(item) => ("tank", write_tank(part, item)),
        Record::Bottle(item) => ("bottle", write_bottle(part, item)),
        Record::House(house) => ("house", write_house(part, house)),
        Record::Thermometer(line) => ("thermometer", write_thermometer(part, line)),
        Record::Form(named) => {
            let fields = named
                .iter()
                .fold(Object::of_record(), |all, (name, text)| all.text(name, text));
            ("form", part.object("fields", fields))
        }
        Record::Gone => return "\"gone\"".to_owned(),
    };
    Object::of_record().object(kind, says).end()
}

/// A record from JSON, or why it is none.
pub(super) fn from_json(json: &str) -> Result<Record, String> {
    let (kind, mut whole) = Fields::chosen(json, said);
    if kind == "gone" {
        return whole.end().map(|()| Record::Gone);
    }
    let mut of = whole.object(kind);
    let record = match kind {
        "instrument" => Record::Instrument(instrument(&mut of)),
        "balance" => Record::Balance(balance(&mut of)),
        "tank" => Record::Tank(tank(&mut of)),
        "bottle" => Record::Bottle(bottle(&mut of)),
        "house" => Record::House(house(&mut of)),
        "thermometer" => Record::Thermometer(thermometer(&mut of)),
        "form" => {
            let mut fields = of.object("fields");
            let mut named = Named::new();
            for (name, text) in fields.texts() {
                named.insert(name, text);
            }
            of.close(fields);
            Record::Form(named)
        }
        other => {
            of.wrong(format!("unknown variant `{}`", short(other)));
            Record::Gone
        }
    };
    whole.close(of);
    whole.end().map(|()| record)
}

/// How records say what is wrong with their shape.
fn said(wrong: Wrong) -> String {
    match wrong {
        Wrong::NoObject => "expected values with names".to_owned(),
        Wrong::Left(name) => format!("unknown field `{}`", short(name)),
        Wrong::Missing(name) => format!("missing field `{}`", short(name)),
        Wrong::Not(name, what) => format!("invalid type: `{}` {what}", short(name)),
    }
}

fn write_instrument(says: Object, item: &Instrument) -> Object {
    let says = says
        .text("name", &item.name)
        .text("is", word_for(&KINDS, item.kind))
        .integer("capacity_ul", item.capacity.microlitres())
        .integer("graduation_ul", item.graduation.microlitres())
        .text("reading", word_for(&READINGS, item.reading));
    let part = Object::of_record();
    let class = |grade| Some(Object::of_record().text("class", word_for(&GRADES, grade)));
    let (kind, limits) = match item.tolerance {
        Tolerance::SyringeIso7886 => ("iso7886", None),
        Tolerance::CylinderIso4788(grade) => ("iso4788", class(grade)),
        Tolerance::CylinderAstmE1272(grade) => ("astm_e1272", class(grade)),
        Tolerance::GraduatedPipetteIso835(grade) => ("iso835", class(grade)),
        Tolerance::SingleMarkPipetteIso648(grade) => ("iso648", class(grade)),
        Tolerance::Share(share) => ("share", Some(part.integer("thousandths", thousandths(share)))),
        Tolerance::Own(limit) => ("own", Some(part.integer("ul", limit.microlitres()))),
        Tolerance::Calibrated {
            bias,
            uncertainty,
            repeatability,
        } => (
            "calibrated",
            Some(
                part.integer("bias_ul", bias.microlitres())
                    .integer("uncertainty_ul", uncertainty.microlitres())
                    .integer("repeatability_ul", repeatability.microlitres()),
            ),
        ),
    };
    let says = match limits {
        None => says.text("limits", kind),
        Some(limits) => says.object("limits", Object::of_record().object(kind, limits)),
    };
    let says = says.integer("dead_space_ul", item.dead_space.microlitres());
    says.integer_if("calibrated_day", item.calibrated_on.map(|day| i64::from(day.days())))
}

fn instrument(of: &mut Fields) -> Instrument {
    let name = of.text("name");
    let kind = value(of, "is", &KINDS);
    let capacity = positive(of, "capacity_ul", "capacity");
    let graduation = positive(of, "graduation_ul", "graduation");
    if capacity / graduation > MOST_MARKS_READ {
        of.wrong("no scale has so many marks".to_owned());
    }
    Instrument {
        name,
        kind,
        capacity: Volume::from_microlitres(capacity),
        graduation: Volume::from_microlitres(graduation),
        reading: value(of, "reading", &READINGS),
        tolerance: tolerance(of),
        dead_space: volume(of, "dead_space_ul", "dead space"),
        calibrated_on: of.integer_if("calibrated_day").map(day),
    }
}

fn tolerance(of: &mut Fields) -> Tolerance {
    let (kind, mut limits) = of.choice("limits");
    let tolerance = match kind {
        "iso7886" => Tolerance::SyringeIso7886,
        _ => {
            let mut inner = limits.object(kind);
            let tolerance = tolerance_of(&mut inner, kind);
            limits.close(inner);
            tolerance
        }
    };
    of.close(limits);
    tolerance
}

fn tolerance_of(of: &mut Fields, kind: &str) -> Tolerance {
    match kind {
        "iso4788" => Tolerance::CylinderIso4788(grade(of)),
        "astm_e1272" => Tolerance::CylinderAstmE1272(grade(of)),
        "iso835" => Tolerance::GraduatedPipetteIso835(grade(of)),
        "iso648" => Tolerance::SingleMarkPipetteIso648(grade(of)),
        "share" => Tolerance::Share(positive(of, "thousandths", "share") as f64 / 1000.0),
        "own" => Tolerance::Own(some(of, "ul", "limit")),
        "calibrated" => Tolerance::Calibrated {
            bias: Volume::from_microlitres(of.integer("bias_ul")),
            uncertainty: some(of, "uncertainty_ul", "uncertainty"),
            repeatability: volume(of, "repeatability_ul", "repeatability"),
        },
        other => {
            of.wrong(format!("unknown variant `{}`", short(other)));
            Tolerance::SyringeIso7886
        }
    }
}

fn grade(of: &mut Fields) -> Grade {
    let word = of.word("class");
    let found = GRADES.iter().find(|(other, _)| *other == word);
    if found.is_none() {
        of.wrong(format!("there is no class {}", short(word)));
    }
    found.map_or(Grade::A, |(_, grade)| *grade)
}

fn balance(of: &mut Fields) -> Balance {
    Balance {
        name: of.text("name"),
        readability: Mass::from_grams(positive(of, "readability_ug", "readability") as f64 / 1e6),
        capacity: Mass::from_grams(positive(of, "capacity_ug", "capacity") as f64 / 1e6),
    }
}

fn write_tank(says: Object, item: &Tank) -> Object {
    let rotary = item.turning == Turning::Rotary;
    says.text("name", &item.name)
        .plain("rotary", if rotary { "true" } else { "false" })
        .integer("brim_ul", item.brim.microlitres())
        .integer("per_135_ul", item.per_135.microlitres())
        .integer("per_120_ul", item.per_120.microlitres())
        .integer("sheets_4x5_ul", item.sheets_4x5.microlitres())
        .integer("sheets_8x10_ul", item.sheets_8x10.microlitres())
}

fn tank(of: &mut Fields) -> Tank {
    Tank {
        name: of.text("name"),
        turning: match of.truth("rotary") {
            true => Turning::Rotary,
            false => Turning::Inversion,
        },
        brim: some(of, "brim_ul", "brim"),
        per_135: volume(of, "per_135_ul", "cover"),
        per_120: volume(of, "per_120_ul", "cover"),
        sheets_4x5: volume(of, "sheets_4x5_ul", "cover"),
        sheets_8x10: volume(of, "sheets_8x10_ul", "cover"),
    }
}

fn write_bottle(says: Object, item: &Bottle) -> Object {
    let density = item.density.map(MassDensity::grams_per_millilitre);
    says.text("product", &item.product)
        .text("class", word_for(&CLASSES, item.class))
        .integer_or_null("density_ug_per_ml", density.map(millionths))
        .text_or_null("dilution", &Dilution::show_list(&item.dilutions))
        .integer_or_null("least_per_film_ul", item.least_per_film.map(Volume::microlitres))
        .list("times", item.times.iter().map(write_time).collect())
        .integer_or_null("exponent_thousandths", item.exponent.map(thousandths))
}

fn write_time(time: &SheetTime) -> Object {
    let dilution = time.dilution.as_ref().map(ToString::to_string);
    Object::of_record()
        .integer("time_ms", thousandths(time.time.seconds()))
        .integer("temperature_mc", time.temperature.millidegrees())
        .text_or_null("dilution", &dilution.unwrap_or_default())
}

fn bottle(of: &mut Fields) -> Bottle {
    let density = positive_or_null(of, "density_ug_per_ml", "density");
    of.null("dilution");
    of.null("least_per_film_ul");
    Bottle {
        product: of.text("product"),
        class: value(of, "class", &CLASSES),
        density: density.map(|density| MassDensity::from_grams_per_millilitre(density as f64 / 1e6)),
        dilutions: dilutions(of),
        least_per_film: of
            .integer_if("least_per_film_ul")
            .map(|least| not_negative(of, least, "least per film")),
        times: times(of),
        exponent: positive_or_null(of, "exponent_thousandths", "exponent").map(|n| n as f64 / 1000.0),
    }
}

fn times(of: &mut Fields) -> Vec<SheetTime> {
    let list = of.list_needed("times");
    let mut times = Vec::with_capacity(list.len());
    for json in list {
        let mut inner = Fields::said(json, said);
        times.push(sheet_time(&mut inner));
        of.close(inner);
    }
    times
}

fn sheet_time(of: &mut Fields) -> SheetTime {
    let temperature = of.integer("temperature_mc");
    // Liquid water, widely taken.
    if !(-50_000..=150_000).contains(&temperature) {
        of.wrong("no bath has that temperature".to_owned());
    }
    of.null("dilution");
    SheetTime {
        time: Span::from_seconds(positive(of, "time_ms", "time") as f64 / 1000.0),
        temperature: Temperature::from_celsius(temperature as f64 / 1000.0),
        dilution: of.text_if("dilution").and_then(|text| dilution(of, &text)),
    }
}

/// Several of them, parted by semicolons.
fn dilutions(of: &mut Fields) -> Vec<Dilution> {
    let text = of.text_if("dilution").unwrap_or_default();
    let parts = text.split(';').map(str::trim).filter(|part| !part.is_empty());
    parts.filter_map(|part| dilution(of, part)).collect()
}

/// A dilution is kept as its canonical text, which is exact to four decimals of a part and two of a gram.
fn dilution(of: &mut Fields, text: &str) -> Option<Dilution> {
    let dilution = if text == "undiluted" { "stock" } else { text }.parse();
    dilution
        .map_err(|error: DilutionError| of.wrong(error.to_string()))
        .ok()
}

fn write_house(says: Object, house: &House) -> Object {
    says.text("volume_unit", word_for(&VOLUME_UNITS, house.units.volume))
        .text(
            "temperature_unit",
            word_for(&TEMPERATURE_UNITS, house.units.temperature),
        )
        .text("decimal", word_for(&DECIMALS, house.units.decimal))
        .integer("thermometer_mk", house.thermometer.millidegrees())
        .integer("timing_ms", thousandths(house.timing.seconds()))
        .integer("hand_thousandths", thousandths(house.hand))
}

fn house(of: &mut Fields) -> House {
    House {
        units: Units {
            volume: value(of, "volume_unit", &VOLUME_UNITS),
            temperature: value(of, "temperature_unit", &TEMPERATURE_UNITS),
            decimal: value(of, "decimal", &DECIMALS),
        },
        thermometer: TemperatureDifference::from_millidegrees(positive(of, "thermometer_mk", "thermometer's limit")),
        timing: Span::from_seconds(positive(of, "timing_ms", "timing error") as f64 / 1000.0),
        hand: positive(of, "hand_thousandths", "spread of the hand") as f64 / 1000.0,
    }
}

fn write_thermometer(says: Object, line: &Thermometer) -> Object {
    says.integer("at_mc", line.at.millidegrees())
        .integer("correction_mk", line.correction.millidegrees())
        .integer("slope_millionths", millionths(line.slope))
        .integer("uncertainty_mk", line.uncertainty.millidegrees())
        .integer("slope_uncertainty_millionths", millionths(line.slope_uncertainty))
        .integer("day", i64::from(line.on.days()))
}

fn thermometer(of: &mut Fields) -> Thermometer {
    let thousandths = |number: i64| number as f64 / 1000.0;
    Thermometer {
        at: Temperature::from_celsius(thousandths(of.integer("at_mc"))),
        correction: TemperatureDifference::from_kelvins(thousandths(of.integer("correction_mk"))),
        slope: of.integer("slope_millionths") as f64 / 1e6,
        uncertainty: TemperatureDifference::from_kelvins(thousandths(of.integer("uncertainty_mk"))),
        slope_uncertainty: of.integer("slope_uncertainty_millionths") as f64 / 1e6,
        on: day(of.integer("day")),
    }
}

/// A day by its number since 1970; the first where there can be none.
fn day(number: i64) -> Day {
    Day::from_days(u16::try_from(number).unwrap_or_default().into())
}

/// More marks than this would only slow everything down; the forms take far fewer.
const MOST_MARKS_READ: i64 = 10_000;

/// A volume of more than 0.
fn some(of: &mut Fields, name: &str, what: &str) -> Volume {
    Volume::from_microlitres(positive(of, name, what))
}

/// A volume of 0 or more.
fn volume(of: &mut Fields, name: &str, what: &str) -> Volume {
    let amount = of.integer(name);
    not_negative(of, amount, what)
}

fn not_negative(of: &mut Fields, amount: i64, what: &str) -> Volume {
    if amount < 0 {
        of.wrong(format!("the {what} is less than 0"));
    }
    Volume::from_microlitres(amount)
}

/// An amount of more than 0; 1 where it is not.
fn positive(of: &mut Fields, name: &str, what: &str) -> i64 {
    let amount = of.integer(name);
    if amount <= 0 {
        of.wrong(format!("the {what} is not more than 0"));
        return 1;
    }
    amount
}

fn positive_or_null(of: &mut Fields, name: &str, what: &str) -> Option<i64> {
    of.null(name);
    of.has(name).then(|| positive(of, name, what))
}

fn thousandths(value: f64) -> i64 {
    (value * 1000.0).round() as i64
}

fn millionths(value: f64) -> i64 {
    (value * 1e6).round() as i64
}
