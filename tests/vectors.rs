//! Published and worked-out figures: every calculator and every model against the data files in `tests/vectors`.
#![cfg(not(target_arch = "wasm32"))]

use std::collections::BTreeSet;

use meniscus::calculators;
use meniscus::sheet::{Item, Sheet, Standing};
use meniscus::view;

use cases::{Case, Cases};

#[path = "common/cases.rs"]
mod cases;
#[path = "vectors/comparison.rs"]
mod comparison;
#[path = "vectors/curves.rs"]
mod curves;
#[path = "vectors/control.rs"]
mod control;
#[path = "vectors/drifting.rs"]
mod drifting;
#[path = "vectors/models.rs"]
mod models;
#[path = "vectors/tempering.rs"]
mod tempering;

#[track_caller]
fn near(what: &str, got: f64, wanted: f64, tolerance: f64) {
    assert!(
        (got - wanted).abs() <= tolerance,
        "{what}: {got} is not {wanted} within {tolerance}"
    );
}

/// All cases of all calculators; what is wrong is told for all of them at once.
#[test]
fn calculators_give_their_published_and_worked_figures() {
    let mut wrong = Vec::new();
    for calculator in calculators::ALL {
        let cases: Cases = cases::load(calculator.name);
        let names: BTreeSet<&str> = cases.case.iter().map(|case| case.name.as_str()).collect();
        assert_eq!(
            names.len(),
            cases.case.len(),
            "{}: two cases of one name",
            calculator.name
        );
        for case in &cases.case {
            assert!(!case.source.trim().is_empty(), "{}: no source", case.name);
            let found = check(calculator.name, case);
            if !found.is_empty() {
                wrong.push(format!(
                    "{}, {} ({}):\n    {}",
                    calculator.name,
                    case.name,
                    case.source,
                    found.join("\n    ")
                ));
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// What differs from the case, in sentences.
fn check(calculator: &str, case: &Case) -> Vec<String> {
    let answer = case.answer(calculator);
    let mut wrong = Vec::new();
    let faults: Vec<_> = answer
        .faults
        .iter()
        .map(|fault| (fault.field.clone(), fault.sentence.clone()))
        .collect();
    let wanted: Vec<_> = case
        .faults
        .iter()
        .map(|(field, sentence)| (field.clone(), sentence.clone()))
        .collect();
    if faults.len() != wanted.len() || !wanted.iter().all(|fault| faults.contains(fault)) {
        wrong.push(format!("the faults are {faults:?}, not {wanted:?}"));
    }
    for expected in &case.figures {
        let name = &expected.name;
        let Some(figure) = answer.sheet.figure(name) else {
            wrong.push(format!("there is no figure {name}"));
            continue;
        };
        let far = |got: f64, wanted: f64| (got - wanted).abs() > expected.within || got.is_nan();
        if far(figure.value, expected.is) {
            wrong.push(format!("{name} is {}, not {}", figure.value, expected.is));
        }
        if let Some(wanted) = expected.uncertainty
            && figure.standard_uncertainty.is_none_or(|got| far(got, wanted))
        {
            wrong.push(format!(
                "{name} has the uncertainty {:?}, not {wanted}",
                figure.standard_uncertainty
            ));
        }
        if let Some(wanted) = &expected.shown
            && figure.shown != *wanted
        {
            wrong.push(format!("{name} is shown as {}, not {wanted}", figure.shown));
        }
        if let Some(wanted) = &expected.standing
            && standing(figure.standing) != wanted
        {
            wrong.push(format!("{name} stands as {}, not {wanted}", standing(figure.standing)));
        }
    }
    let text = view::text(&answer);
    let missing = case.says.iter().filter(|says| !text.contains(says.as_str()));
    wrong.extend(missing.map(|says| format!("the sheet does not say “{says}”")));
    let loud = case.silent.iter().filter(|says| text.contains(says.as_str()));
    wrong.extend(loud.map(|says| format!("the sheet says “{says}”")));
    wrong.extend(general(&answer.sheet, &text));
    wrong
}

/// What holds for every sheet: names are unique but in tables, every number is one, nothing unsaid is shown.
fn general(sheet: &Sheet, text: &str) -> Vec<String> {
    let mut wrong = Vec::new();
    let in_tables: BTreeSet<&str> = sheet
        .parts
        .iter()
        .flat_map(|part| &part.items)
        .filter_map(|item| match item {
            Item::Table(table) => Some(table),
            _ => None,
        })
        .flat_map(|table| &table.rows)
        .flat_map(|(_, figures)| figures)
        .map(|figure| &*figure.name)
        .collect();
    let mut seen = BTreeSet::new();
    for figure in sheet.figures() {
        if !seen.insert(&*figure.name) && !in_tables.contains(&*figure.name) {
            wrong.push(format!("two figures are called {}", figure.name));
        }
        if !figure.value.is_finite()
            || figure
                .standard_uncertainty
                .is_some_and(|u| !(u >= 0.0 && u.is_finite()))
        {
            wrong.push(format!("{} is no number: {figure:?}", figure.name));
        }
    }
    for nonsense in ["inf", "NaN", "-0 "] {
        if text.split(|c: char| !c.is_alphanumeric()).any(|word| word == nonsense) {
            wrong.push(format!("the sheet says {nonsense}"));
        }
    }
    wrong
}

fn standing(standing: Standing) -> &'static str {
    match standing {
        Standing::Exact => "exact",
        Standing::Rounded => "rounded",
        Standing::Assumed => "assumed",
    }
}

/// The data of a sheet holds what its figures hold.
#[test]
fn data_says_what_the_sheet_says() {
    for calculator in calculators::ALL {
        let cases: Cases = cases::load(calculator.name);
        for case in &cases.case {
            let answer = case.answer(calculator.name);
            let json = serde_json::to_value(view::data(&answer)).expect("data is JSON");
            let figures = json["figures"].as_array().expect("a list of figures");
            assert_eq!(figures.len(), answer.sheet.figures().len(), "{}", case.name);
            for (data, figure) in figures.iter().zip(answer.sheet.figures()) {
                assert_eq!(data["name"], &*figure.name, "{}", case.name);
                near(
                    &case.name,
                    data["value"].as_f64().expect("a number"),
                    figure.value,
                    1e-12 * figure.value.abs(),
                );
                assert_eq!(data["shown"], figure.shown.as_str(), "{}", case.name);
                assert_eq!(data["standing"], standing(figure.standing), "{}", case.name);
            }
            assert_eq!(
                json["faults"].as_array().expect("a list").len(),
                answer.faults.len(),
                "{}",
                case.name
            );
        }
    }
}
