//! The vectors of the calculators as they stand in their files, and the kit that a case asks for.

use std::collections::BTreeMap;
use std::path::PathBuf;

use meniscus::calculators::{Answer, calculate};
use meniscus::darkroom::Darkroom;
use meniscus::entries::{self, Entry, Newcomer};
use meniscus::fields::Named;
use meniscus::kit::{Balance, House, Instrument, Kept, Kit, Tank};
use meniscus::quantity::Units;
use serde::Deserialize;
use serde::de::DeserializeOwned;

#[path = "darkroom.rs"]
mod darkroom;

/// The cases of one calculator.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Cases {
    pub case: Vec<Case>,
}

/// One case: what is typed, and what must come out.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Case {
    pub name: String,
    pub source: String,
    /// What stands in the form.
    #[serde(default)]
    pub fields: Texts,
    /// Entries of the Kit forms, each with its `form`; those of a kind replace the starter's of that kind.
    #[serde(default)]
    pub kit: Vec<Texts>,
    /// What happened to the bottles of the shelf: events as they are kept, without their names and moments, in order.
    #[serde(default)]
    pub events: Vec<toml::Table>,
    #[serde(default)]
    pub figures: Vec<Expected>,
    /// Sentences, or parts of them, that the sheet must say.
    #[serde(default)]
    pub says: Vec<String>,
    /// What it must not say.
    #[serde(default)]
    pub silent: Vec<String>,
    /// Every fault, by field.
    #[serde(default)]
    pub faults: BTreeMap<String, String>,
}

/// Text by field name.
pub type Texts = BTreeMap<String, String>;

/// A figure by name. The tolerance is absolute, in the figure's unit, and holds for the uncertainty too.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Expected {
    pub name: String,
    pub is: f64,
    pub within: f64,
    pub uncertainty: Option<f64>,
    pub shown: Option<String>,
    pub standing: Option<String>,
}

/// The folder of the vectors.
pub fn folder() -> PathBuf {
    [env!("CARGO_MANIFEST_DIR"), "tests", "vectors"].iter().collect()
}

/// A file of vectors by its name without the ending.
#[track_caller]
pub fn load<T: DeserializeOwned>(name: &str) -> T {
    let path = folder().join(format!("{name}.toml"));
    let text = std::fs::read_to_string(&path).unwrap_or_else(|error| panic!("tests/vectors/{name}.toml: {error}"));
    toml::from_str(&text).unwrap_or_else(|error| panic!("tests/vectors/{name}.toml: {error}"))
}

/// In an entry of an instrument, the day on which it was weighed: no field of its form, since a weighing tells it.
const CALIBRATED_ON: &str = "calibrated_on";

impl Case {
    /// The kit that the case asks for: the starter's, with its own entries in place.
    pub fn kit(&self) -> Kit {
        let mut kit = Kit::starter();
        if let Some(house) = self.entries::<House>(Units::default()).pop() {
            kit.house = house;
        }
        let units = kit.house.units;
        let mut instruments = self.entries::<Instrument>(units);
        let entries = self.kit.iter().filter(|entry| entry["form"] == Instrument::FORM);
        for (instrument, entry) in instruments.iter_mut().zip(entries) {
            let day = entry.get(CALIBRATED_ON);
            instrument.calibrated_on = day.map(|day| day.parse().expect("a day"));
        }
        replace(&mut kit.instruments, instruments, "instrument");
        replace(&mut kit.balances, self.entries::<Balance>(units), "balance");
        replace(&mut kit.tanks, self.entries::<Tank>(units), "tank");
        let newcomers = self.entries::<Newcomer>(units).into_iter();
        replace(&mut kit.bottles, newcomers.map(|one| one.is.label).collect(), "bottle");
        kit
    }

    /// The darkroom that the case asks for.
    pub fn darkroom(&self) -> Darkroom {
        let events = self
            .events
            .iter()
            .map(|event| serde_json::to_string(event).expect("an event"));
        darkroom::with_events(self.kit(), &events.collect::<Vec<_>>())
    }

    /// What the calculator of that name answers.
    pub fn answer(&self, calculator: &str) -> Answer {
        calculate(calculator, &Named::from_iter(self.fields.clone()), &self.darkroom())
            .unwrap_or_else(|| panic!("there is no calculator {calculator}"))
    }

    fn entries<T: Entry>(&self, units: Units) -> Vec<T> {
        let forms = self.kit.iter().filter(|entry| entry["form"] == T::FORM);
        forms
            .map(|entry| {
                let mut named = Named::from_iter(entry.clone());
                named.remove("form");
                named.remove(CALIBRATED_ON);
                entries::read(&named, units).unwrap_or_else(|faults| panic!("{}: {faults:?}", self.name))
            })
            .collect()
    }
}

/// Ids are `KIND-1`, `KIND-2` and so on.
fn replace<T>(all: &mut Vec<Kept<T>>, own: Vec<T>, kind: &str) {
    if own.is_empty() {
        return;
    }
    let kept = own.into_iter().enumerate().map(|(index, item)| Kept {
        id: format!("{kind}-{}", index + 1),
        item,
    });
    *all = kept.collect();
}
