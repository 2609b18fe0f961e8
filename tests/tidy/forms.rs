//! Calculators, forms and vectors are one set, and every control of the page agrees with the field that reads it.

use std::collections::BTreeSet;

use meniscus::calculators;
use meniscus::entries::{DEED_NAMES, DEEDS, Entry, Newcomer, PLACE_FIELDS, PLACE_FORM};
use meniscus::fields::AnyField;
use meniscus::fields::{LOG_FIELDS, LOG_FORM};
use meniscus::kit::{Balance, House, Instrument, Tank};
use meniscus::quantity::Units;

use super::html::{self, Tag};
use super::{files, none, read};

/// Vector files of models, which are no calculators.
const MODELS: [&str; 15] = [
    "buying",
    "characteristic",
    "chemistry",
    "comparison",
    "control",
    "decanting",
    "development",
    "dilution",
    "drifting",
    "film",
    "lives",
    "oxygen",
    "tempering",
    "tolerances",
    "uncertainty",
];

type Fields = &'static [&'static dyn AnyField];

/// Every form that has fields: its id and what it takes.
fn declared() -> Vec<(&'static str, Fields)> {
    let calculators = calculators::ALL
        .iter()
        .map(|calculator| (calculator.name, calculator.fields));
    let entries = [
        (Instrument::FORM, Instrument::FIELDS),
        (Balance::FORM, Balance::FIELDS),
        (Tank::FORM, Tank::FIELDS),
        (Newcomer::FORM, Newcomer::FIELDS),
        (House::FORM, House::FIELDS),
    ];
    let deeds = DEEDS.iter().map(|deed| (deed.name, deed.fields));
    let place = (PLACE_FORM, PLACE_FIELDS);
    let log = (LOG_FORM, LOG_FIELDS);
    calculators.chain(entries).chain(deeds).chain([place, log]).collect()
}

/// The page knows the calculators of the shelf by their names alone.
#[test]
fn the_two_lists_are_the_whole_list() {
    let names = |list: &[&calculators::Calculator]| list.iter().map(|one| one.name).collect::<Vec<_>>();
    assert_eq!(names(&calculators::SHELF), calculators::SHELF_NAMES);
    let both = [names(&calculators::SINK), names(&calculators::SHELF)].concat();
    assert_eq!(both, names(&calculators::ALL));
    assert_eq!(DEEDS.each_ref().map(|deed| deed.name), DEED_NAMES);
}

#[test]
fn calculators_forms_and_vectors_are_one_set() {
    let page = read("www/index.html");
    let tags = html::tags(&page);
    let forms: BTreeSet<&str> = tags
        .iter()
        .filter(|tag| tag.name == "form" && !tag.closes)
        .map(|tag| tag.attribute("id"))
        .collect();
    let vectors: BTreeSet<String> = files("tests/vectors")
        .iter()
        .filter_map(|path| {
            path.strip_prefix("tests/vectors/")?
                .strip_suffix(".toml")
                .map(str::to_owned)
        })
        .collect();
    let mut wrong = Vec::new();
    for calculator in calculators::ALL {
        let name = calculator.name;
        if !forms.contains(name) {
            wrong.push(format!(
                "the calculator {name} has no form: add <form id=\"{name}\"> to www/index.html"
            ));
        }
        if !vectors.contains(name) {
            wrong.push(format!(
                "the calculator {name} has no vectors: add tests/vectors/{name}.toml"
            ));
        }
        let source = format!("src/calculators/{name}.rs");
        if !super::top().join(&source).exists() {
            wrong.push(format!(
                "the calculator {name} has no file of its own: {source} is missing"
            ));
        }
    }
    let declared: BTreeSet<&str> = declared().iter().map(|(name, _)| *name).collect();
    for form in &forms {
        if !declared.contains(form) {
            wrong.push(format!(
                "<form id=\"{form}\"> of www/index.html belongs to nothing: add it to src/calculators.rs, or as an entry to \
                 tests/tidy/forms.rs"
            ));
        }
    }
    for name in &declared {
        if !forms.contains(name) {
            wrong.push(format!("there is no <form id=\"{name}\"> in www/index.html: add it"));
        }
    }
    let known: BTreeSet<&str> = calculators::ALL
        .iter()
        .map(|calculator| calculator.name)
        .chain(MODELS)
        .collect();
    for file in vectors.iter().filter(|file| !known.contains(file.as_str())) {
        wrong.push(format!(
            "tests/vectors/{file}.toml belongs to no calculator and is no model: list it in tests/tidy/forms.rs or in \
             src/calculators.rs"
        ));
    }
    none(wrong);
}

#[test]
fn every_control_agrees_with_its_field() {
    let page = read("www/index.html");
    let tags = html::tags(&page);
    let mut wrong = Vec::new();
    for (form, fields) in declared() {
        let Some(inside) = html::form(&tags, form) else {
            wrong.push(format!("there is no <form id=\"{form}\"> in www/index.html: add it"));
            continue;
        };
        let controls: Vec<&Tag> = inside
            .iter()
            .filter(|tag| tag.attributes.contains_key("name"))
            .collect();
        let names: Vec<&str> = controls.iter().map(|tag| tag.attribute("name")).collect();
        let wanted: Vec<&str> = fields.iter().map(|field| field.name()).collect();
        for name in names.iter().filter(|name| !wanted.contains(name)) {
            wrong.push(format!("the form {form} has a control {name} that nothing reads"));
        }
        for field in fields {
            match controls.iter().find(|tag| tag.attribute("name") == field.name()) {
                Some(control) => wrong.extend(control_agrees(form, inside, control, *field)),
                None => wrong.push(format!(
                    "the form {form} has no control {}: add it to www/index.html",
                    field.name()
                )),
            }
        }
        if names.len() == wanted.len() && names != wanted {
            wrong.push(format!(
                "the form {form} has its controls in another order than its fields are declared in: {names:?}, not {wanted:?}"
            ));
        }
    }
    none(wrong);
}

fn control_agrees(form: &str, inside: &[Tag], control: &Tag, field: &dyn AnyField) -> Vec<String> {
    let name = field.name();
    let id = format!("{form}-{name}");
    let mut wrong = Vec::new();
    let mut differs = |what: &str, is: &str, wanted: &str| {
        if is != wanted {
            wrong.push(format!(
                "www/index.html, {id}: {what} is “{is}”, and the field says “{wanted}”"
            ));
        }
    };
    differs("the id", control.attribute("id"), &id);
    let label = inside
        .iter()
        .find(|tag| tag.name == "label" && tag.attribute("for") == id);
    differs("the label", label.map_or("", |tag| tag.text.trim()), field.label());
    let options = field.options();
    let things = control.attributes.contains_key("data-things");
    match control.name.as_str() {
        "select" => {
            let found = options_of(inside, control);
            if !things {
                let words: Vec<(&str, &str)> = found
                    .iter()
                    .map(|tag| (tag.attribute("value"), tag.text.trim()))
                    .collect();
                // Where nothing need be chosen, the first says what is taken then.
                let choices = match words.first() {
                    Some(("", _)) if field.starts_as().is_empty() => &words[1..],
                    _ => &words[..],
                };
                differs("the list of options", &format!("{choices:?}"), &format!("{options:?}"));
            }
            let selected = found
                .iter()
                .find(|tag| tag.attributes.contains_key("selected"))
                .or(found.first());
            differs(
                "what is chosen at first",
                selected.map_or("", |tag| tag.attribute("value")),
                field.starts_as(),
            );
        }
        "textarea" => differs("the first content", control.text.trim(), field.starts_as()),
        _ => differs("the first content", control.attribute("value"), field.starts_as()),
    }
    if control.name != "select" {
        let hint_id = format!("{id}-takes");
        differs("aria-describedby", control.attribute("aria-describedby"), &hint_id);
        let hint = inside.iter().find(|tag| tag.attribute("id") == hint_id);
        differs(
            "the hint",
            hint.map_or("", |tag| tag.text.trim()),
            &field.takes(Units::default()),
        );
        if !options.is_empty() {
            differs("the control", &control.name, "select");
        }
    }
    wrong
}

/// The options between a select and its end.
fn options_of<'a>(inside: &'a [Tag], control: &Tag) -> Vec<&'a Tag> {
    let start = inside.iter().position(|tag| std::ptr::eq(tag, control)).unwrap_or(0);
    let rest = inside[start..].iter();
    rest.take_while(|tag| !(tag.name == "select" && tag.closes))
        .filter(|tag| tag.name == "option" && !tag.closes)
        .collect()
}

/// Every id of the page stands once, and everything that points to one finds it.
#[test]
fn ids_are_found_once() {
    let page = read("www/index.html");
    let tags = html::tags(&page);
    let ids: Vec<&str> = tags
        .iter()
        .map(|tag| tag.attribute("id"))
        .filter(|id| !id.is_empty())
        .collect();
    let mut wrong = Vec::new();
    let mut seen = BTreeSet::new();
    wrong.extend(
        ids.iter()
            .filter(|id| !seen.insert(**id))
            .map(|id| format!("www/index.html has two of id {id}")),
    );
    for tag in &tags {
        for attribute in ["for", "aria-describedby", "aria-labelledby", "form"] {
            for id in tag
                .attribute(attribute)
                .split_whitespace()
                .filter(|id| !seen.contains(id))
            {
                wrong.push(format!(
                    "www/index.html: {attribute} of <{}> points to {id}, which is not there",
                    tag.name
                ));
            }
        }
    }
    none(wrong);
}

/// No field of a form has the name of another.
#[test]
fn field_names_are_unique_in_their_form() {
    for (form, fields) in declared() {
        let names: BTreeSet<&str> = fields.iter().map(|field| field.name()).collect();
        assert_eq!(names.len(), fields.len(), "two fields of the form {form} have one name");
    }
}
