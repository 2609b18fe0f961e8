//! A record as text: `FORMAT CHECKSUM JSON`, the checksum (CRC-32, ISO 3309) over the JSON's bytes.

use std::fmt;

use super::{THERMOMETER, line, written};
use crate::fields::Named;
use crate::kit::{Balance, Bottle, Calibration, House, Instrument, Kit, Tank, Thermometer};

/// What is kept under one key.
#[derive(Clone, Debug, PartialEq)]
pub enum Record {
    /// An instrument of the kit.
    Instrument(Instrument),
    /// A balance.
    Balance(Balance),
    /// A tank.
    Tank(Tank),
    /// A bottle in simple form.
    Bottle(Bottle),
    /// What holds for the whole darkroom.
    House(House),
    /// The line by which the thermometer is put right.
    Thermometer(Thermometer),
    /// What stood in a form.
    Form(Named),
    /// A thing that was removed.
    Gone,
}

/// Why a text is not a record.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum RecordError {
    /// It does not begin with a format, a checksum and JSON.
    Shape,
    /// It was written by a later version of this page.
    Later(u32),
    /// It is not what was written: the checksum differs.
    Checksum,
    /// The checksum is right, and the content makes no sense to this version.
    Content(String),
}

/// The format that is written now. Every earlier one is still read.
const FORMAT: u32 = 1;

impl Record {
    /// As it is kept.
    pub fn to_text(&self) -> String {
        line::seal(FORMAT, &written::to_json(self))
    }

    /// From what was kept.
    ///
    /// ```
    /// use meniscus::store::{Record, RecordError};
    ///
    /// let text = Record::Gone.to_text();
    /// assert_eq!(Record::from_text(&text), Ok(Record::Gone));
    /// assert_eq!(Record::from_text(&text.replace("gone", "gome")), Err(RecordError::Checksum));
    /// ```
    ///
    /// # Errors
    /// If the text is not a record, is damaged, or is of a later format.
    pub fn from_text(text: &str) -> Result<Self, RecordError> {
        let json = line::unseal(text, FORMAT)?;
        written::from_json(json).map_err(RecordError::Content)
    }

    /// What is kept of a calibration, and under which name in the kit; `None` if its instrument is gone.
    ///
    /// ```
    /// use meniscus::kit::{Calibration, Kit, Tolerance};
    /// use meniscus::store::Record;
    ///
    /// let found = Calibration::Instrument {
    ///     id: "starter-syringe-10".to_owned(),
    ///     tolerance: Tolerance::GUIDE,
    ///     on: "2026-03-01".parse().expect("a day"),
    /// };
    /// let (id, record) = Record::of_calibration(&Kit::starter(), &found).expect("it stands in the kit");
    /// assert_eq!(id, "starter-syringe-10");
    /// assert!(record.to_text().contains(r#""calibrated_day":20513"#));
    /// assert_eq!(Record::of_calibration(&Kit { instruments: Vec::new(), ..Kit::starter() }, &found), None);
    /// ```
    pub fn of_calibration<'a>(kit: &Kit, found: &'a Calibration) -> Option<(&'a str, Self)> {
        match found {
            Calibration::Instrument { id, tolerance, on } => {
                let kept = kit.instruments.iter().find(|kept| kept.id == *id)?;
                let item = Instrument {
                    tolerance: *tolerance,
                    calibrated_on: Some(*on),
                    ..kept.item.clone()
                };
                Some((id, Self::Instrument(item)))
            }
            Calibration::Thermometer(line) => Some((THERMOMETER, Self::Thermometer(*line))),
        }
    }
}

impl fmt::Display for RecordError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Shape => f.write_str("it is not an entry of this page"),
            Self::Later(format) => write!(f, "it was written by a later version of this page (format {format})"),
            Self::Checksum => f.write_str("it was damaged: it is not what was written"),
            Self::Content(why) => write!(f, "this version cannot make sense of it: {why}"),
        }
    }
}

impl std::error::Error for RecordError {}
