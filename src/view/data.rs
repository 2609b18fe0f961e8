//! A sheet as data, for scripts: every figure with its value, unit, uncertainty and standing.

use serde::Serialize;

use crate::calculators::{Answer, ONLY_THE_SINK};
use crate::ledger::recipe_to_text;
use crate::sheet::{Figure, Item, Standing};

/// A whole answer.
#[derive(Serialize)]
pub struct Data {
    /// What it is about.
    pub title: String,
    /// Every figure, in reading order.
    pub figures: Vec<FigureData>,
    /// What to do for each way, best first.
    pub ways: Vec<WayData>,
    /// Sentences that warn.
    pub cautions: Vec<String>,
    /// Numbers that nobody measured.
    pub assumptions: Vec<AssumptionData>,
    /// What was wrong with the fields.
    pub faults: Vec<FaultData>,
    /// The steps that it leads to, as they are written down.
    pub recipe: Option<String>,
}

/// One figure.
#[derive(Serialize)]
pub struct FigureData {
    /// Its name.
    pub name: String,
    /// What it is, for people.
    pub label: String,
    /// The number, in `unit`, not rounded.
    pub value: f64,
    /// `ml`, `g`, `mg`, `mmol`, `°C`, `K`, `s`, `d`, `%`, or empty.
    pub unit: &'static str,
    /// Standard uncertainty in `unit`, where it has one.
    pub standard_uncertainty: Option<f64>,
    /// Lowest and highest that assumptions leave, as shown.
    pub band: Option<String>,
    /// `exact`, `rounded` or `assumed`.
    pub standing: &'static str,
    /// As the page shows it.
    pub shown: String,
}

/// One way to do a thing.
#[derive(Serialize)]
pub struct WayData {
    /// What it is.
    pub title: String,
    /// What to do.
    pub steps: Vec<String>,
}

/// One assumption.
#[derive(Serialize)]
pub struct AssumptionData {
    /// The name of its figure.
    pub name: String,
    /// Its range, as shown.
    pub range: String,
    /// Why.
    pub why: String,
    /// The field that replaces it.
    pub field: &'static str,
}

/// One fault.
#[derive(Serialize)]
pub struct FaultData {
    /// The field.
    pub field: String,
    /// The sentence beside it.
    pub sentence: String,
}

/// An answer as data.
pub fn data(answer: &Answer) -> Data {
    let sheet = &answer.sheet;
    let mut data = Data {
        title: sheet.title.clone(),
        figures: sheet.figures().into_iter().map(figure).collect(),
        ways: Vec::new(),
        cautions: Vec::new(),
        assumptions: Vec::new(),
        faults: answer
            .faults
            .iter()
            .map(|fault| FaultData {
                field: fault.field.clone(),
                sentence: fault.sentence.clone(),
            })
            .collect(),
        recipe: match ONLY_THE_SINK {
            true => None,
            false => sheet.recipe.as_deref().map(recipe_to_text),
        },
    };
    for item in sheet.parts.iter().flat_map(|part| &part.items) {
        match item {
            Item::Way(way) => data.ways.push(WayData {
                title: way.title.clone(),
                steps: way.steps.clone(),
            }),
            Item::Caution(text) => data.cautions.push(text.clone()),
            Item::Assumption(assumption) => data.assumptions.push(AssumptionData {
                name: assumption.figure.name.to_string(),
                range: assumption.range.clone(),
                why: assumption.why.clone(),
                field: assumption.field,
            }),
            Item::Figure(_) | Item::Text(_) | Item::Table(_) | Item::Picture(_) | Item::Onward(_) => {}
        }
    }
    data
}

fn figure(figure: &Figure) -> FigureData {
    FigureData {
        name: figure.name.to_string(),
        label: figure.label.to_string(),
        value: figure.value,
        unit: figure.unit,
        standard_uncertainty: figure.standard_uncertainty,
        band: figure.band.clone(),
        standing: match figure.standing {
            Standing::Exact => "exact",
            Standing::Rounded => "rounded",
            Standing::Assumed => "assumed",
        },
        shown: figure.shown.clone(),
    }
}
