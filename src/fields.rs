//! What a form takes: fields with a name, a label and a reader; and the named text that fills them.
//!
//! A form gets all its faults at once, each tied to its field, and whatever could be read is still used.
//!
//! ```
//! use meniscus::fields::{Field, Form, Named};
//! use meniscus::quantity::{bounds, Units};
//!
//! const TOTAL: Field<meniscus::fields::Volumes> = Field::volume("total", "Total", &bounds::BATH).initial("600 ml");
//!
//! let named = Named::from([("total".to_owned(), "-3".to_owned())]);
//! let mut form = Form::new(&named, Units::default());
//! assert_eq!(form.read(&TOTAL), None);
//! assert_eq!(form.faults()[0].sentence, "The total must be from 10 ml to 20 l (as hand tanks and trays are).");
//! ```

mod compare;
mod densities;
pub mod curve;
mod chart;
mod job;
mod calibrating;
mod drift;
mod keeping;
mod clips;
mod kinds;
mod lists;
mod log;
mod named;
mod recipe;
mod plan;
mod session;
mod shared;
mod shelf;
mod spots;
mod steps;
mod temper;
mod vessel;
mod washing;

use std::iter::once;

pub use calibrating::*;
pub use chart::*;
pub use clips::*;
pub use compare::*;
pub use densities::DensityReadings;
pub use drift::*;
pub use job::*;
pub use keeping::*;
pub use kinds::{
    Choice, Climates, Counts, Days, Densities, DilutionLists, Dilutions, Masses, Names, Notes, Numbers, Percents,
    Periods, SheetTimes, Spans, TemperatureDifferences, Temperatures, Volumes,
};
pub use lists::{Containers, Offers, containers_text};
pub use log::*;
pub use named::Named;
pub use plan::*;
pub use recipe::*;
pub use session::*;
pub use shared::*;
pub use shelf::*;
pub use spots::*;
pub use steps::*;
pub use temper::*;
pub use vessel::*;
pub use washing::*;

use crate::quantity::Units;
use crate::quantity::text::joined;

/// One text by its name.
pub fn only(name: &str, text: &str) -> Named {
    let mut named = Named::new();
    named.insert(name.to_owned(), text.to_owned());
    named
}

/// How one kind of field reads its text.
pub trait Kind {
    /// What the text becomes.
    type Value;

    /// Reads text that is not blank.
    ///
    /// # Errors
    /// A clause that says what is wrong: lower case, no full stop.
    fn read(&self, text: &str, units: Units) -> Result<Self::Value, String>;

    /// What the field takes, as it is said beside it.
    fn takes(&self, units: Units) -> String;

    /// The words that it takes, each with its label, where it is a choice.
    fn options(&self) -> Vec<(&'static str, &'static str)> {
        Vec::new()
    }
}

/// A field of a form.
pub struct Field<K> {
    name: &'static str,
    label: &'static str,
    initial: &'static str,
    needed: bool,
    kind: K,
}

impl<K: Copy> Field<K> {
    /// A field that may be left blank, with nothing in it at first.
    pub const fn new(name: &'static str, label: &'static str, kind: K) -> Self {
        Self {
            name,
            label,
            initial: "",
            needed: false,
            kind,
        }
    }

    /// The same field with a first content, which it must not be without.
    pub const fn initial(self, initial: &'static str) -> Self {
        Self {
            initial,
            needed: true,
            ..self
        }
    }

    /// The same field with a first content, which may be taken out again.
    pub const fn starting(self, initial: &'static str) -> Self {
        Self { initial, ..self }
    }

    /// The same field, not to be left blank.
    pub const fn needed(self) -> Self {
        Self { needed: true, ..self }
    }
}

/// A field whatever it reads: for lists, forms and their tests.
pub trait AnyField: Sync {
    /// The name in the form.
    fn name(&self) -> &'static str;
    /// The label beside it.
    fn label(&self) -> &'static str;
    /// What stands in it at first.
    fn starts_as(&self) -> &'static str;
    /// What it takes.
    fn takes(&self, units: Units) -> String;
    /// The words that it takes, each with its label, where it is a choice.
    fn options(&self) -> Vec<(&'static str, &'static str)>;
}

impl<K: Kind + Sync> AnyField for Field<K> {
    fn name(&self) -> &'static str {
        self.name
    }

    fn label(&self) -> &'static str {
        self.label
    }

    fn starts_as(&self) -> &'static str {
        self.initial
    }

    fn takes(&self, units: Units) -> String {
        self.kind.takes(units)
    }

    fn options(&self) -> Vec<(&'static str, &'static str)> {
        self.kind.options()
    }
}

/// What is wrong with one field.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Fault {
    /// The field's name.
    pub field: String,
    /// A plain sentence.
    pub sentence: String,
}

/// Named text being read, and the faults found so far.
pub struct Form<'a> {
    named: &'a Named,
    units: Units,
    faults: Vec<Fault>,
    passed_over: Vec<&'static str>,
}

impl<'a> Form<'a> {
    /// A form to be read in the user's units.
    pub fn new(named: &'a Named, units: Units) -> Self {
        Self {
            named,
            units,
            faults: Vec::new(),
            passed_over: Vec::new(),
        }
    }

    /// The user's units.
    pub fn units(&self) -> Units {
        self.units
    }

    /// The field's value; `None` if it is blank or at fault. A field that was not sent at all has its first content.
    pub fn read<K: Kind>(&mut self, field: &Field<K>) -> Option<K::Value> {
        let text = self.text(field.name, field.initial, field.needed.then_some(field.label))?;
        match field.kind.read(text, self.units) {
            Ok(value) => Some(value),
            Err(clause) => {
                self.fault(field.name, &clause);
                None
            }
        }
    }

    /// The text in a field, `None` if it is blank; with a label, it is needed.
    fn text(&mut self, name: &str, initial: &'static str, needed: Option<&str>) -> Option<&'a str> {
        let text = self.named.get(name).map_or(initial, String::as_str).trim();
        if text.is_empty() {
            if let Some(label) = needed {
                self.fault(name, &format!("{label}: something is needed here"));
            }
            return None;
        }
        Some(text)
    }

    /// Records what is wrong with a field, beyond what its own reading finds.
    pub fn fault(&mut self, field: &str, clause: &str) {
        self.faults.push(Fault {
            field: field.to_owned(),
            sentence: sentence(clause),
        });
    }

    /// What stands in these fields plays no part, right or wrong: something better is known.
    pub fn pass_over(&mut self, fields: &[&'static str]) {
        self.faults.retain(|fault| !fields.contains(&fault.field.as_str()));
        self.passed_over.extend(fields);
    }

    /// The same for those of them that are known.
    pub fn pass_over_known(&mut self, fields: &[(&'static str, bool)]) {
        for (field, _) in fields.iter().filter(|(_, is_known)| *is_known) {
            self.pass_over(&[field]);
        }
    }

    /// The fields that were passed over.
    pub fn passed_over(&self) -> &[&'static str] {
        &self.passed_over
    }

    /// Whether the field was sent, blank or not.
    pub fn was_sent(&self, field: &str) -> bool {
        self.named.contains_key(field)
    }

    /// Whether a fault was already found with that field.
    pub fn at_fault(&self, field: &str) -> bool {
        self.faults.iter().any(|fault| fault.field == field)
    }

    /// All that was sent, as it was.
    pub fn sent(&self) -> &'a Named {
        self.named
    }

    /// Records the names that no field has.
    pub fn refuse_unknown(&mut self, fields: &[&dyn AnyField]) {
        for name in self.named.keys() {
            if !fields.iter().any(|field| field.name() == name) {
                let known: Vec<_> = fields.iter().map(|field| field.name()).collect();
                self.fault(
                    name,
                    &format!("there is no field of this name; there are {}", joined(&known, ", ")),
                );
            }
        }
    }

    /// All faults so far.
    pub fn faults(&self) -> &[Fault] {
        &self.faults
    }

    /// All faults, at the end.
    pub fn into_faults(self) -> Vec<Fault> {
        self.faults
    }
}

/// A clause as a sentence: capital first, full stop last.
pub fn sentence(clause: &str) -> String {
    let mut letters = clause.chars();
    let mut sentence: String = match letters.next() {
        Some(first) => once(first.to_ascii_uppercase()).chain(letters).collect(),
        None => String::new(),
    };
    if !sentence.ends_with(['.', '!', '?']) {
        sentence.push('.');
    }
    sentence
}
