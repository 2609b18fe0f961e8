//! The calculators: fields in, sheet out. One file each, and the one list.
//!
//! ```
//! use meniscus::calculators::calculate;
//! use meniscus::darkroom::Darkroom;
//! use meniscus::fields::Named;
//!
//! let fields = Named::from([("dilution", "1:31"), ("total", "600 ml")].map(|(k, v)| (k.to_owned(), v.to_owned())));
//! let darkroom = Darkroom::starter("2026-03-01".parse().expect("a day"));
//! let answer = calculate("mix", &fields, &darkroom).expect("mix is in the list");
//! assert_eq!(answer.sheet.figure("concentrate").map(|figure| figure.shown.as_str()), Some("18.75 ml"));
//! assert!(answer.faults.is_empty());
//! assert!(calculate("alchemy", &fields, &darkroom).is_none());
//! ```

mod air;
mod budget;
mod buy;
mod calibrate;
mod chart;
mod clear;
mod clip;
mod compare;
mod curve;
mod decant;
mod drift;
mod fill;
mod job;
mod keeping;
mod measure;
mod mix;
mod plan;
mod spend;
mod spots;
mod steps;
mod temper;
mod time;
mod wash;
mod weigh;

use crate::darkroom::Darkroom;
use crate::fields::{AnyField, Fault, Form, Named};
use crate::sheet::Sheet;

/// A calculator: its name, what it takes, and the function from a form and a darkroom to a sheet.
pub struct Calculator {
    /// Name in forms, scripts and on the command line.
    pub name: &'static str,
    /// What it answers, in a line.
    pub title: &'static str,
    /// Its fields, in the order of the form.
    pub fields: &'static [&'static dyn AnyField],
    /// Those of them whose first content is an example, of which nothing may be kept.
    pub examples: &'static [&'static str],
    /// From fields to a sheet; what cannot be read becomes a fault of the form, and the rest is still computed.
    run: fn(&mut Form, &Darkroom) -> Sheet,
}

/// A sheet, and what was wrong with the fields.
#[derive(Clone, Debug, PartialEq)]
pub struct Answer {
    /// As much as could be computed.
    pub sheet: Sheet,
    /// All faults, each tied to its field.
    pub faults: Vec<Fault>,
    /// Fields that play no part in it, since the shelf knows better.
    pub passed_over: Vec<&'static str>,
}

/// Whether this is the module of the first visit, which makes no sheet but those of the sink: what only others hold is left out
/// of it.
pub const ONLY_THE_SINK: bool = cfg!(all(target_arch = "wasm32", not(feature = "annex")));

/// Those of the sink, which the page computes at once.
pub const SINK: [&Calculator; 4] = [&mix::MIX, &measure::MEASURE, &fill::FILL, &time::TIME];

/// Those of the shelf, which the page keeps in a module of its own, loaded when the shelf is opened.
pub const SHELF: [&Calculator; 20] = [
    &air::AIR,
    &keeping::KEEPING,
    &decant::DECANT,
    &buy::BUY,
    &spend::SPEND,
    &clip::CLIP,
    &clear::CLEAR,
    &spots::SPOTS,
    &compare::COMPARE,
    &curve::CURVE,
    &chart::CHART,
    &calibrate::CALIBRATE,
    &budget::BUDGET,
    &job::JOB,
    &plan::PLAN,
    &temper::TEMPER,
    &drift::DRIFT,
    &steps::STEPS,
    &weigh::WEIGH,
    &wash::WASH,
];

/// The names of those of the shelf, for a page that has not loaded them.
pub const SHELF_NAMES: [&str; SHELF.len()] = {
    let mut names = [""; SHELF.len()];
    let mut place = 0;
    while place < SHELF.len() {
        names[place] = SHELF[place].name;
        place += 1;
    }
    names
};

/// All calculators, in the order of the page.
pub const ALL: [&Calculator; SINK.len() + SHELF.len()] = {
    let mut all = [SINK[0]; SINK.len() + SHELF.len()];
    let mut place = 0;
    while place < all.len() {
        all[place] = if place < SINK.len() {
            SINK[place]
        } else {
            SHELF[place - SINK.len()]
        };
        place += 1;
    }
    all
};

/// The calculator of the sink of that name.
pub fn at_the_sink(name: &str) -> Option<&'static Calculator> {
    SINK.into_iter().find(|calculator| calculator.name == name)
}

/// The calculator of that name.
pub fn find(name: &str) -> Option<&'static Calculator> {
    ALL.into_iter().find(|calculator| calculator.name == name)
}

/// The answer of the calculator of that name; `None` if there is none of that name.
pub fn calculate(name: &str, fields: &Named, darkroom: &Darkroom) -> Option<Answer> {
    find(name).map(|calculator| calculator.answer(fields, darkroom))
}

impl Calculator {
    /// Reads the fields and computes what they allow.
    pub fn answer(&self, fields: &Named, darkroom: &Darkroom) -> Answer {
        let mut form = Form::new(fields, darkroom.kit.house.units);
        form.refuse_unknown(self.fields);
        let mut sheet = (self.run)(&mut form, darkroom);
        if !ONLY_THE_SINK {
            self.mark_example(&mut sheet, fields, form.passed_over());
        }
        Answer {
            sheet,
            passed_over: form.passed_over().to_vec(),
            faults: form.into_faults(),
        }
    }

    /// A sheet of example figures says so.
    fn mark_example(&self, sheet: &mut Sheet, named: &Named, passed_over: &[&str]) {
        let is_example = |field: &&dyn AnyField| {
            let text = named.get(field.name()).map_or(field.starts_as(), |text| text.trim());
            self.examples.contains(&field.name()) && !passed_over.contains(&field.name()) && text == field.starts_as()
        };
        if self.fields.iter().any(is_example) {
            sheet.is_only_an_example();
        }
    }
}
