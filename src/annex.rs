//! wasm only, and a module of its own, which the page loads when the shelf is opened: the calculators of the shelf, and the
//! shelf as markup. The page tells it what it must know; it keeps nothing and knows no document, no store and no clock.

use std::cell::RefCell;
use std::collections::BTreeMap;

use serde::Serialize;
use wasm_bindgen::prelude::*;

use crate::browser::forms;
use crate::calculators::{self, Answer, Calculator};
use crate::darkroom::Darkroom;
use crate::entries::{self, DEEDS, Doing, Entry, Newcomer, PLACE_FIELDS, PLACE_FORM};
use crate::fields::{self, Fault, Form, Named};
use crate::kit::Kit;
use crate::ledger::{self, BottleId, Event, EventId, Shelf, What};
use crate::parts::{self, Found, Judged, Logged};
use crate::quantity::{Day, Units, Volume};
use crate::store::{self, Record};
use crate::view::{self, Block};

thread_local! {
    /// All events that the page has told of.
    static EVENTS: RefCell<Vec<Event>> = const { RefCell::new(Vec::new()) };
    static DARKROOM: RefCell<Option<Darkroom>> = const { RefCell::new(None) };
}

/// What a form about a bottle or a place says.
#[derive(Serialize)]
struct Said {
    faults: Vec<(String, String)>,
    /// What is to be written down, each as an event of no moment.
    events: Vec<String>,
    /// Where a bottle that comes stands.
    place: String,
}

/// What a file holds.
#[derive(Serialize)]
struct Copied {
    events: Vec<String>,
    /// Key and text of what could not be read.
    unread: Vec<(String, String)>,
    /// What is wrong with the file, as markup.
    complaints: String,
}

/// A sheet as the page writes it.
#[derive(Serialize)]
struct Shown {
    faults: Vec<(String, String)>,
    /// Fields that play no part.
    passed_over: Vec<&'static str>,
    head: Vec<String>,
    parts: Vec<(String, Vec<String>)>,
    /// Whether it holds something that can be written into a record or the kit.
    keeps: bool,
}

/// What the page knows: the kit as keys and records in turn, all events anew or those that it has not told of yet, as they are
/// written, the day as days since 1970.
#[wasm_bindgen]
pub fn know(records: Vec<String>, anew: bool, new: Vec<String>, today: i32) {
    let mut kit = Kit::empty();
    for pair in records.chunks_exact(2) {
        if let Ok(record) = Record::from_text(&pair[1]) {
            store::lay(&mut kit, &pair[0], record);
        }
    }
    let new = new.iter().filter_map(|text| Event::from_text(text).ok());
    let events = EVENTS.with_borrow_mut(|events| {
        if anew {
            events.clear();
        }
        events.extend(new);
        events.clone()
    });
    let shelf = Shelf::fold(events, Day::from_days(today));
    kit.bottles = shelf.labels();
    DARKROOM.set(Some(Darkroom { kit, shelf }));
}

/// The sheet of a calculator of the shelf, for the page.
///
/// # Errors
/// If there is no calculator of that name, or the fields are not texts.
#[wasm_bindgen]
pub fn answer(name: &str, fields: JsValue) -> Result<JsValue, JsValue> {
    let answer = answered(name, &texts(fields)?)?;
    let shown = Shown {
        faults: pairs(&answer.faults),
        passed_over: answer.passed_over.clone(),
        head: view::headline(&answer),
        parts: flat(view::parts(&answer)),
        keeps: answer.sheet.finding.is_some() || answer.sheet.calibration.is_some(),
    };
    Ok(serde_wasm_bindgen::to_value(&shown)?)
}

/// The same as plain text.
///
/// # Errors
/// If there is no calculator of that name, or the fields are not texts.
#[wasm_bindgen]
pub fn text(name: &str, fields: JsValue) -> Result<String, JsValue> {
    Ok(view::text(&answered(name, &texts(fields)?)?))
}

/// The same as data, for scripts.
///
/// # Errors
/// If there is no calculator of that name, or the fields are not texts.
#[wasm_bindgen]
pub fn calculate(name: &str, fields: JsValue) -> Result<JsValue, JsValue> {
    Ok(serde_wasm_bindgen::to_value(&view::data(&answered(
        name,
        &texts(fields)?,
    )?))?)
}

/// What a form about a bottle, a place, or a bottle that comes, says of today or of an earlier day. Bottles that begin have names that
/// the page replaces.
///
/// # Errors
/// If there is no form of that name, or the fields are not texts.
#[wasm_bindgen]
pub fn said(form: &str, fields: JsValue, bottle: &str, today: bool) -> Result<JsValue, JsValue> {
    let named = texts(fields)?;
    let said = with(|darkroom| {
        let units = darkroom.kit.house.units;
        let bottle = BottleId::new(bottle).or_else(|_| BottleId::new("new")).ok()?;
        let left = darkroom.shelf.bottle(bottle.as_str()).and_then(ledger::Bottle::left);
        let mut place = String::new();
        let early = |newcomer: &Newcomer| matches!(newcomer.is_opened_on(), Some(day) if day > darkroom.today());
        let whats = if form == Newcomer::FORM {
            let newcomer = entries::read::<Newcomer>(&named, units);
            let newcomer = newcomer.and_then(|newcomer| match early(&newcomer) {
                false => Ok(newcomer),
                true => Err(vec![Fault {
                    field: "opened_on".to_owned(),
                    sentence: "That day has not come yet.".to_owned(),
                }]),
            });
            newcomer.map(|newcomer| {
                place = newcomer.place;
                vec![What::Added {
                    bottle,
                    is: Box::new(newcomer.is),
                    filled: newcomer.filled,
                    opened: newcomer.opened,
                }]
            })
        } else if form == PLACE_FORM {
            entries::read_place(&named, units).map(|what| vec![what])
        } else {
            let deed = DEEDS.iter().find(|deed| deed.name == form)?;
            let mut count = 0;
            let fresh = &mut || {
                count += 1;
                EventId::derived(&count.to_string()).into()
            };
            deed.read(
                &named,
                units,
                Doing {
                    bottle,
                    left,
                    today,
                    fresh,
                },
            )
        };
        let (whats, faults) = match whats {
            Ok(whats) => (whats, Vec::new()),
            Err(faults) => (Vec::new(), pairs(&faults)),
        };
        let written = |what| Event::of_no_moment(what).to_text();
        Some(Said {
            faults,
            events: whats.into_iter().map(written).collect(),
            place,
        })
    });
    let said = said.flatten();
    let said = said.ok_or_else(|| JsError::new(&format!("there is no form called {form}")))?;
    Ok(serde_wasm_bindgen::to_value(&said)?)
}

/// What stands in the form of a bottle that is on the shelf; an empty list if it is not: pairs of a name and a text.
///
/// # Errors
/// Never, but that the browser's memory is at its end.
#[wasm_bindgen]
pub fn known(bottle: &str) -> Result<JsValue, JsValue> {
    let pairs = with(|darkroom| {
        let shelf = &darkroom.shelf;
        let bottle = shelf.bottle(bottle)?;
        let place = bottle.now.place.map(|place| shelf.places[place].name.clone());
        let newcomer = Newcomer {
            is: bottle.is.clone(),
            filled: bottle.left(),
            opened: bottle.opened,
            place: place.unwrap_or_default(),
        };
        Some(newcomer.write(darkroom.kit.house.units).into_iter().collect::<Vec<_>>())
    });
    Ok(serde_wasm_bindgen::to_value(&pairs.flatten().unwrap_or_default())?)
}

/// What each field of a form takes, in the user's units: pairs of a name and a text.
///
/// # Errors
/// Never, but that the browser's memory is at its end.
#[wasm_bindgen]
pub fn takes(name: &str) -> Result<JsValue, JsValue> {
    let units = with(|darkroom| darkroom.kit.house.units).unwrap_or_default();
    let fields = match calculator(name) {
        Some(calculator) => calculator.fields,
        None if name == Newcomer::FORM => Newcomer::FIELDS,
        None if name == PLACE_FORM => PLACE_FIELDS,
        None => DEEDS
            .iter()
            .find(|deed| deed.name == name)
            .map_or(&[][..], |deed| deed.fields),
    };
    let pairs: Vec<(&str, String)> = fields.iter().map(|field| (field.name(), field.takes(units))).collect();
    Ok(serde_wasm_bindgen::to_value(&pairs)?)
}

/// The containers that decanting advises to fill, as the form of a decanting takes them; an empty text if it
/// is to be left as it is, nothing if that cannot be said.
///
/// # Errors
/// If the fields are not texts.
#[wasm_bindgen]
pub fn advised(fields: JsValue) -> Result<Option<String>, JsValue> {
    let named = texts(fields)?;
    let advised = with(|darkroom| {
        let mut form = Form::new(&named, darkroom.kit.house.units);
        parts::advised_containers(&mut form, darkroom)
    });
    Ok(advised.flatten())
}

/// What a calculator of tests found of the bottle that is picked in its form, as events of no moment; an empty list if there
/// is nothing to be written down.
///
/// # Errors
/// If there is no calculator of that name, or the fields are not texts.
#[wasm_bindgen]
pub fn found(name: &str, fields: JsValue) -> Result<Vec<String>, JsValue> {
    let named = texts(fields)?;
    let finding = answered(name, &named)?.sheet.finding;
    let whats = with(|darkroom| {
        let bottle = |field: &str| darkroom.shelf.bottle(named.get(field)?);
        let tested = bottle("bottle")?;
        let beside = bottle("against").filter(|beside| beside.id != tested.id);
        let beside = beside.map(|beside| (&beside.id, tested.is.label.product.as_str()));
        let whats = entries::found(&finding?, &tested.id, beside);
        Some(
            whats
                .into_iter()
                .map(|what| Event::of_no_moment(what).to_text())
                .collect(),
        )
    });
    Ok(whats.flatten().unwrap_or_default())
}

/// What a calibration found, as the kit keeps it: the key of the thing and its record; nothing if there is nothing to be kept.
///
/// # Errors
/// If there is no calculator of that name, or the fields are not texts.
#[wasm_bindgen]
pub fn calibrated(name: &str, fields: JsValue) -> Result<Vec<String>, JsValue> {
    let found = answered(name, &texts(fields)?)?.sheet.calibration;
    let kept = with(|darkroom| {
        let found = found?;
        let (id, record) = Record::of_calibration(&darkroom.kit, &found)?;
        Some(vec![id.to_owned(), record.to_text()])
    });
    Ok(kept.flatten().unwrap_or_default())
}

/// Whether a bottle may be used, and who says so, as markup; nothing if there is no such bottle.
#[wasm_bindgen]
pub fn verdict(id: &str) -> Option<String> {
    with(|darkroom| {
        let shelf = &darkroom.shelf;
        let judged = Judged::of(shelf, shelf.bottle(id)?);
        Some(view::verdict(&judged, darkroom.kit.house.units).into_string())
    })?
}

/// The bottles of the shelf, as markup.
#[wasm_bindgen]
pub fn bottles() -> String {
    let shown = with(|darkroom| {
        let units = darkroom.kit.house.units;
        view::bottles(&parts::bottles(darkroom), &darkroom.shelf, units).into_string()
    });
    shown.unwrap_or_default()
}

/// The label of a bottle, to be printed: its record's address goes into the code.
#[wasm_bindgen]
pub fn label(id: &str, address: &str) -> Option<String> {
    with(|darkroom| {
        let shelf = &darkroom.shelf;
        let label = view::label(shelf.bottle(id)?, shelf, address, darkroom.kit.house.units);
        Some(label.into_string())
    })?
}

/// The places, for a list to pick from, as markup.
#[wasm_bindgen]
pub fn place_names() -> String {
    let shown = with(|darkroom| view::places(&darkroom.shelf).into_string());
    shown.unwrap_or_default()
}

/// The places, as markup.
#[wasm_bindgen]
pub fn places() -> String {
    let shown = with(|darkroom| view::place_list(&darkroom.shelf, darkroom.kit.house.units).into_string());
    shown.unwrap_or_default()
}

/// What is left in a bottle, in millilitres; nothing where nobody knows, or there is no such bottle.
#[wasm_bindgen]
pub fn left(bottle: &str) -> Option<f64> {
    with(|darkroom| Some(darkroom.shelf.bottle(bottle)?.left()?.millilitres())).flatten()
}

/// Whether so many millilitres were taken out of a bottle today, by its record.
#[wasm_bindgen]
pub fn drawn_today(bottle: &str, millilitres: f64) -> bool {
    let volume = Volume::from_millilitres(millilitres);
    with(|darkroom| darkroom.shelf.has_drawn(bottle, volume, darkroom.shelf.today)).unwrap_or_default()
}

/// The record of a bottle; nothing if there is no such bottle.
///
/// # Errors
/// Never, but that the browser's memory is at its end.
#[wasm_bindgen]
pub fn record(id: &str) -> Result<JsValue, JsValue> {
    let shown = with(|darkroom| {
        let shelf = &darkroom.shelf;
        let units = darkroom.kit.house.units;
        let bottle = shelf.bottle(id)?;
        let (mut all, rest): (Vec<_>, Vec<_>) = ahead(darkroom, id)
            .into_iter()
            .partition(|part| part.heading == FIRST_IN_A_RECORD);
        all.push(view::standing(bottle, shelf, units));
        all.push(view::life_record(&shelf.life_record(id, units)));
        all.extend(rest);
        Some(Shown {
            faults: Vec::new(),
            passed_over: Vec::new(),
            head: view::record_head(&Judged::of(shelf, bottle), units),
            parts: flat(all),
            keeps: false,
        })
    });
    Ok(serde_wasm_bindgen::to_value(&shown.flatten())?)
}

/// The sessions that the fields `words`, `from`, `to` and `bottle` ask for, as markup.
///
/// # Errors
/// If the fields are not texts.
#[wasm_bindgen]
pub fn log_list(fields: JsValue) -> Result<String, JsValue> {
    let named = texts(fields)?;
    let shown = with(|darkroom| {
        let found = Found::of(&darkroom.shelf, &named);
        view::log_list(&found, darkroom.kit.house.units).into_string()
    });
    Ok(shown.unwrap_or_default())
}

/// The same sessions as CSV; or the one whose name stands in the field `session`.
///
/// # Errors
/// If the fields are not texts.
#[wasm_bindgen]
pub fn log_csv(fields: JsValue) -> Result<String, JsValue> {
    let named = texts(fields)?;
    let written = with(|darkroom| view::log_csv(&Found::of(&darkroom.shelf, &named)));
    Ok(written.unwrap_or_default())
}

/// All that happened on the shelf as CSV.
#[wasm_bindgen]
pub fn life_csv() -> String {
    let written = with(|darkroom| view::life_csv(&darkroom.shelf, darkroom.kit.house.units));
    written.unwrap_or_default()
}

/// The page of a session as markup, or that there is no such session.
#[wasm_bindgen]
pub fn log_entry(id: &str) -> String {
    let page = logged(id, view::log_entry);
    page.unwrap_or_else(view::log_without).into_string()
}

/// Its write-up as plain text.
#[wasm_bindgen]
pub fn log_text(id: &str) -> Option<String> {
    logged(id, view::log_text)
}

/// Its write-up as Markdown.
#[wasm_bindgen]
pub fn log_markdown(id: &str) -> Option<String> {
    logged(id, view::log_markdown)
}

/// The fields of the form that a session came from, as an object of texts, so that it can be done again; nothing if it cannot be
/// read.
#[wasm_bindgen]
pub fn log_again(id: &str) -> JsValue {
    let form = logged(id, |logged, _, _| {
        let session = logged.session.as_ref().ok()?;
        Some(session.recipe.form.clone())
    });
    match form.flatten() {
        Some(form) => forms::object(&Named::from_iter(form)),
        None => JsValue::UNDEFINED,
    }
}

/// The events of the example shelf, as they are written, for a day as days since 1970.
#[wasm_bindgen]
pub fn example(today: i32) -> Vec<String> {
    let events = crate::example::events(Day::from_days(today));
    events.iter().map(Event::to_text).collect()
}

/// Reads a copy of a ledger, whatever its text is.
///
/// # Errors
/// Never, but that the browser's memory is at its end.
#[wasm_bindgen]
pub fn read_copy(text: &str) -> Result<JsValue, JsValue> {
    let import = ledger::import(text);
    let unread = import.ledger.unread.iter();
    let copied = Copied {
        events: import.ledger.events.iter().map(Event::to_text).collect(),
        unread: unread.map(|entry| (entry.key.clone(), entry.text.clone())).collect(),
        complaints: view::read_in(&import).into_string(),
    };
    Ok(serde_wasm_bindgen::to_value(&copied)?)
}

/// What is said of a file that is too large to be read.
#[wasm_bindgen]
pub fn too_large() -> String {
    ledger::Complaint::TooLarge.to_string()
}

/// An event in words; nothing if it is not known.
#[wasm_bindgen]
pub fn words(event: &str) -> Option<String> {
    with(|darkroom| {
        let shelf = &darkroom.shelf;
        let id: EventId = event.parse().ok()?;
        Some(shelf.words(shelf.event(id)?, None, darkroom.kit.house.units))
    })?
}

/// What of keeping's sheet comes before all else in a record.
const FIRST_IN_A_RECORD: &str = "What to do";

/// What of keeping's sheet a record leaves to the calculator itself.
const NOT_IN_A_RECORD: [&str; 3] = ["The bottle", "Nobody measured this", "Take care"];

/// What keeping says of a bottle: what to do, the three voices, and what lies ahead.
fn ahead(darkroom: &Darkroom, id: &str) -> Vec<Block> {
    let answer = calculator("keeping").map(|keeping| keeping.answer(&fields::only("bottle", id), darkroom));
    let mut parts = answer.map(|answer| view::parts(&answer)).unwrap_or_default();
    parts.retain(|part| !NOT_IN_A_RECORD.contains(&part.heading.as_str()));
    parts
}

fn calculator(name: &str) -> Option<&'static Calculator> {
    calculators::SHELF
        .into_iter()
        .find(|calculator| calculator.name == name)
}

fn answered(name: &str, fields: &Named) -> Result<Answer, JsValue> {
    let calculator = calculator(name).ok_or_else(|| JsError::new(&format!("there is no calculator called {name}")))?;
    let answer = with(|darkroom| calculator.answer(fields, darkroom));
    answer.ok_or_else(|| JsError::new("the shelf is not known yet").into())
}

fn texts(fields: JsValue) -> Result<Named, JsValue> {
    let named = serde_wasm_bindgen::from_value::<BTreeMap<String, String>>(fields);
    named
        .map(Named::from_iter)
        .map_err(|error| JsError::new(&format!("the fields must be an object of texts: {error}")).into())
}

fn pairs(faults: &[Fault]) -> Vec<(String, String)> {
    let pair = |fault: &Fault| (fault.field.clone(), fault.sentence.clone());
    faults.iter().map(pair).collect()
}

fn with<T>(then: impl FnOnce(&Darkroom) -> T) -> Option<T> {
    DARKROOM.with_borrow(|darkroom| darkroom.as_ref().map(then))
}

fn logged<T>(id: &str, then: impl FnOnce(&Logged, &Shelf, Units) -> T) -> Option<T> {
    with(|darkroom| {
        let logged = Logged::of(&darkroom.shelf, id)?;
        Some(then(&logged, &darkroom.shelf, darkroom.kit.house.units))
    })?
}

fn flat(blocks: Vec<Block>) -> Vec<(String, Vec<String>)> {
    blocks.into_iter().map(|block| (block.heading, block.pieces)).collect()
}
