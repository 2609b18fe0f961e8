//! The written form of a record, its own type so that no change of a calculation can change what is kept.
//! Amounts are integers: microlitres, micrograms, micrograms per millilitre, thousandths of a degree, milliseconds, thousandths.

use serde::{Deserialize, Serialize};

use super::Record;
use crate::chemistry::Class;
use crate::development::SheetTime;
use crate::fields::Named;
use crate::kit::{Balance, Bottle, Grade, House, Instrument, InstrumentKind, Reading, Tank, Tolerance, Turning};
use crate::quantity::{
    DecimalMark, Dilution, Mass, MassDensity, Span, Temperature, TemperatureDifference, TemperatureUnit, Units, Volume,
    VolumeUnit,
};

#[derive(Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub(super) enum Written {
    Instrument {
        name: String,
        is: String,
        capacity_ul: i64,
        graduation_ul: i64,
        reading: String,
        limits: Limits,
        dead_space_ul: i64,
    },
    Balance {
        name: String,
        readability_ug: i64,
        capacity_ug: i64,
    },
    Tank {
        name: String,
        rotary: bool,
        brim_ul: i64,
        per_135_ul: i64,
        per_120_ul: i64,
        sheets_4x5_ul: i64,
        sheets_8x10_ul: i64,
    },
    Bottle {
        product: String,
        class: String,
        density_ug_per_ml: Option<i64>,
        dilution: Option<String>,
        least_per_film_ul: Option<i64>,
        times: Vec<Time>,
        exponent_thousandths: Option<i64>,
    },
    House {
        volume_unit: String,
        temperature_unit: String,
        decimal: String,
        thermometer_mk: i64,
        timing_ms: i64,
        hand_thousandths: i64,
    },
    Form {
        fields: Named,
    },
    Gone,
}

#[derive(Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub(super) enum Limits {
    Iso7886,
    Iso4788 {
        class: char,
    },
    AstmE1272 {
        class: char,
    },
    Iso835 {
        class: char,
    },
    Iso648 {
        class: char,
    },
    Share {
        thousandths: i64,
    },
    Own {
        ul: i64,
    },
    Calibrated {
        bias_ul: i64,
        uncertainty_ul: i64,
        repeatability_ul: i64,
    },
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Time {
    time_ms: i64,
    temperature_mc: i64,
    dilution: Option<String>,
}

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
const VOLUME_UNITS: [(&str, VolumeUnit); 2] = [("ml", VolumeUnit::Millilitre), ("us_fl_oz", VolumeUnit::UsFluidOunce)];
const TEMPERATURE_UNITS: [(&str, TemperatureUnit); 2] = [
    ("celsius", TemperatureUnit::Celsius),
    ("fahrenheit", TemperatureUnit::Fahrenheit),
];
const DECIMALS: [(&str, DecimalMark); 2] = [("point", DecimalMark::Point), ("comma", DecimalMark::Comma)];

impl Written {
    pub(super) fn to_json(&self) -> String {
        // No map with keys that are not text, nothing else that JSON cannot hold.
        serde_json::to_string(self).unwrap_or_default()
    }

    pub(super) fn from_json(json: &str) -> Result<Self, String> {
        serde_json::from_str(json).map_err(|error| error.to_string())
    }
}

impl From<&Record> for Written {
    fn from(record: &Record) -> Self {
        match record {
            Record::Instrument(item) => Self::Instrument {
                name: item.name.clone(),
                is: word(&KINDS, item.kind),
                capacity_ul: item.capacity.microlitres(),
                graduation_ul: item.graduation.microlitres(),
                reading: word(&READINGS, item.reading),
                limits: limits(item.tolerance),
                dead_space_ul: item.dead_space.microlitres(),
            },
            Record::Balance(item) => Self::Balance {
                name: item.name.clone(),
                readability_ug: millionths(item.readability.grams()),
                capacity_ug: millionths(item.capacity.grams()),
            },
            Record::Tank(item) => Self::Tank {
                name: item.name.clone(),
                rotary: item.turning == Turning::Rotary,
                brim_ul: item.brim.microlitres(),
                per_135_ul: item.per_135.microlitres(),
                per_120_ul: item.per_120.microlitres(),
                sheets_4x5_ul: item.sheets_4x5.microlitres(),
                sheets_8x10_ul: item.sheets_8x10.microlitres(),
            },
            Record::Bottle(item) => Self::Bottle {
                product: item.product.clone(),
                class: word(&CLASSES, item.class),
                density_ug_per_ml: item.density.map(|density| millionths(density.grams_per_millilitre())),
                dilution: Some(Dilution::show_list(&item.dilutions)).filter(|list| !list.is_empty()),
                least_per_film_ul: item.least_per_film.map(Volume::microlitres),
                times: item.times.iter().map(time).collect(),
                exponent_thousandths: item.exponent.map(thousandths),
            },
            Record::House(house) => Self::House {
                volume_unit: word(&VOLUME_UNITS, house.units.volume),
                temperature_unit: word(&TEMPERATURE_UNITS, house.units.temperature),
                decimal: word(&DECIMALS, house.units.decimal),
                thermometer_mk: house.thermometer.millidegrees(),
                timing_ms: thousandths(house.timing.seconds()),
                hand_thousandths: thousandths(house.hand),
            },
            Record::Form(fields) => Self::Form { fields: fields.clone() },
            Record::Gone => Self::Gone,
        }
    }
}

impl TryFrom<Written> for Record {
    type Error = String;

    fn try_from(written: Written) -> Result<Self, String> {
        let volume = Volume::from_microlitres;
        Ok(match written {
            Written::Instrument {
                name,
                is,
                capacity_ul,
                graduation_ul,
                reading,
                limits,
                dead_space_ul,
            } => Self::Instrument(Instrument {
                name,
                kind: value(&KINDS, &is)?,
                capacity: volume(positive(capacity_ul, "capacity")?),
                graduation: volume(positive(graduation_ul, "graduation").and_then(|graduation| {
                    match capacity_ul / graduation <= MOST_MARKS_READ {
                        true => Ok(graduation),
                        false => Err("no scale has so many marks".to_owned()),
                    }
                })?),
                reading: value(&READINGS, &reading)?,
                tolerance: tolerance(limits)?,
                dead_space: volume(not_negative(dead_space_ul, "dead space")?),
            }),
            Written::Balance {
                name,
                readability_ug,
                capacity_ug,
            } => Self::Balance(Balance {
                name,
                readability: Mass::from_grams(positive(readability_ug, "readability")? as f64 / 1e6),
                capacity: Mass::from_grams(positive(capacity_ug, "capacity")? as f64 / 1e6),
            }),
            Written::Tank {
                name,
                rotary,
                brim_ul,
                per_135_ul,
                per_120_ul,
                sheets_4x5_ul,
                sheets_8x10_ul,
            } => Self::Tank(Tank {
                name,
                turning: if rotary { Turning::Rotary } else { Turning::Inversion },
                brim: volume(positive(brim_ul, "brim")?),
                per_135: volume(not_negative(per_135_ul, "cover")?),
                per_120: volume(not_negative(per_120_ul, "cover")?),
                sheets_4x5: volume(not_negative(sheets_4x5_ul, "cover")?),
                sheets_8x10: volume(not_negative(sheets_8x10_ul, "cover")?),
            }),
            Written::Bottle {
                product,
                class,
                density_ug_per_ml,
                dilution,
                least_per_film_ul,
                times,
                exponent_thousandths,
            } => Self::Bottle(Bottle {
                product,
                class: value(&CLASSES, &class)?,
                density: density_ug_per_ml
                    .map(|density| positive(density, "density"))
                    .transpose()?
                    .map(|density| MassDensity::from_grams_per_millilitre(density as f64 / 1e6)),
                dilutions: parsed_list(dilution.as_deref().unwrap_or_default())?,
                least_per_film: least_per_film_ul
                    .map(|least| not_negative(least, "least per film"))
                    .transpose()?
                    .map(volume),
                times: times.into_iter().map(sheet_time).collect::<Result<_, _>>()?,
                exponent: exponent_thousandths
                    .map(|n| positive(n, "exponent"))
                    .transpose()?
                    .map(|n| n as f64 / 1000.0),
            }),
            Written::House {
                volume_unit,
                temperature_unit,
                decimal,
                thermometer_mk,
                timing_ms,
                hand_thousandths,
            } => Self::House(House {
                units: Units {
                    volume: value(&VOLUME_UNITS, &volume_unit)?,
                    temperature: value(&TEMPERATURE_UNITS, &temperature_unit)?,
                    decimal: value(&DECIMALS, &decimal)?,
                },
                thermometer: TemperatureDifference::from_millidegrees(positive(thermometer_mk, "thermometer's limit")?),
                timing: Span::from_seconds(positive(timing_ms, "timing error")? as f64 / 1000.0),
                hand: positive(hand_thousandths, "spread of the hand")? as f64 / 1000.0,
            }),
            Written::Form { fields } => Self::Form(fields),
            Written::Gone => Self::Gone,
        })
    }
}

fn limits(tolerance: Tolerance) -> Limits {
    let class = |grade| if grade == Grade::A { 'A' } else { 'B' };
    match tolerance {
        Tolerance::SyringeIso7886 => Limits::Iso7886,
        Tolerance::CylinderIso4788(grade) => Limits::Iso4788 { class: class(grade) },
        Tolerance::CylinderAstmE1272(grade) => Limits::AstmE1272 { class: class(grade) },
        Tolerance::GraduatedPipetteIso835(grade) => Limits::Iso835 { class: class(grade) },
        Tolerance::SingleMarkPipetteIso648(grade) => Limits::Iso648 { class: class(grade) },
        Tolerance::Share(share) => Limits::Share {
            thousandths: thousandths(share),
        },
        Tolerance::Own(limit) => Limits::Own {
            ul: limit.microlitres(),
        },
        Tolerance::Calibrated {
            bias,
            uncertainty,
            repeatability,
        } => Limits::Calibrated {
            bias_ul: bias.microlitres(),
            uncertainty_ul: uncertainty.microlitres(),
            repeatability_ul: repeatability.microlitres(),
        },
    }
}

fn tolerance(limits: Limits) -> Result<Tolerance, String> {
    let grade = |class| match class {
        'A' => Ok(Grade::A),
        'B' => Ok(Grade::B),
        other => Err(format!("there is no class {other}")),
    };
    let volume = Volume::from_microlitres;
    Ok(match limits {
        Limits::Iso7886 => Tolerance::SyringeIso7886,
        Limits::Iso4788 { class } => Tolerance::CylinderIso4788(grade(class)?),
        Limits::AstmE1272 { class } => Tolerance::CylinderAstmE1272(grade(class)?),
        Limits::Iso835 { class } => Tolerance::GraduatedPipetteIso835(grade(class)?),
        Limits::Iso648 { class } => Tolerance::SingleMarkPipetteIso648(grade(class)?),
        Limits::Share { thousandths } => Tolerance::Share(positive(thousandths, "share")? as f64 / 1000.0),
        Limits::Own { ul } => Tolerance::Own(volume(positive(ul, "limit")?)),
        Limits::Calibrated {
            bias_ul,
            uncertainty_ul,
            repeatability_ul,
        } => Tolerance::Calibrated {
            bias: volume(bias_ul),
            uncertainty: volume(positive(uncertainty_ul, "uncertainty")?),
            repeatability: volume(not_negative(repeatability_ul, "repeatability")?),
        },
    })
}

fn time(time: &SheetTime) -> Time {
    Time {
        time_ms: thousandths(time.time.seconds()),
        temperature_mc: time.temperature.millidegrees(),
        dilution: time.dilution.as_ref().map(ToString::to_string),
    }
}

fn sheet_time(time: Time) -> Result<SheetTime, String> {
    // Liquid water, widely taken.
    if !(-50_000..=150_000).contains(&time.temperature_mc) {
        return Err("no bath has that temperature".to_owned());
    }
    Ok(SheetTime {
        time: Span::from_seconds(positive(time.time_ms, "time")? as f64 / 1000.0),
        temperature: Temperature::from_celsius(time.temperature_mc as f64 / 1000.0),
        dilution: time.dilution.as_deref().map(parsed).transpose()?,
    })
}

/// A dilution is kept as its canonical text, which is exact to four decimals of a part and two of a gram.
fn parsed(text: &str) -> Result<Dilution, String> {
    let text = if text == "undiluted" { "stock" } else { text };
    text.parse()
        .map_err(|error: crate::quantity::DilutionError| error.to_string())
}

/// Several of them, parted by semicolons.
fn parsed_list(text: &str) -> Result<Vec<Dilution>, String> {
    let parts = text.split(';').map(str::trim).filter(|part| !part.is_empty());
    parts.map(parsed).collect()
}

/// More marks than this would only slow everything down; the forms take far fewer.
const MOST_MARKS_READ: i64 = 10_000;

fn positive(amount: i64, what: &str) -> Result<i64, String> {
    match amount > 0 {
        true => Ok(amount),
        false => Err(format!("the {what} is not more than 0")),
    }
}

fn not_negative(amount: i64, what: &str) -> Result<i64, String> {
    match amount >= 0 {
        true => Ok(amount),
        false => Err(format!("the {what} is less than 0")),
    }
}

fn thousandths(value: f64) -> i64 {
    (value * 1000.0).round() as i64
}

fn millionths(value: f64) -> i64 {
    (value * 1e6).round() as i64
}

fn word<T: PartialEq>(words: &[(&str, T)], value: T) -> String {
    let found = words.iter().find(|(_, other)| *other == value);
    found.map_or(String::new(), |(word, _)| (*word).to_owned())
}

fn value<T: Copy>(words: &[(&str, T)], word: &str) -> Result<T, String> {
    let found = words.iter().find(|(other, _)| *other == word);
    found
        .map(|(_, value)| *value)
        .ok_or_else(|| format!("there is no “{word}”"))
}
