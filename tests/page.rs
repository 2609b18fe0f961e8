//! The module as the browser runs it: the function that scripts call, and the browser's own store.
#![cfg(target_arch = "wasm32")]

use meniscus::store::{self, Record};
use meniscus::{browser, page};
use wasm_bindgen::JsValue;
use wasm_bindgen_test::{wasm_bindgen_test, wasm_bindgen_test_configure};

wasm_bindgen_test_configure!(run_in_browser);

fn object(pairs: &[(&str, &str)]) -> JsValue {
    let object = js_sys::Object::new();
    for (name, text) in pairs {
        js_sys::Reflect::set(&object, &(*name).into(), &(*text).into()).expect("an object takes properties");
    }
    object.into()
}

#[wasm_bindgen_test]
fn scripts_get_figures_with_their_standing() {
    let fields = object(&[("dilution", "1:31"), ("total", "600 ml")]);
    let answer = page::calculate("mix", fields).expect("mix is in the list");
    let figures = js_sys::Reflect::get(&answer, &"figures".into()).expect("figures");
    let first = js_sys::Array::from(&figures).get(0);
    let get = |name: &str| js_sys::Reflect::get(&first, &name.into()).expect("a property");
    // 600 / 32 (arithmetic).
    assert_eq!(get("value").as_f64(), Some(18.75));
    assert_eq!(get("standing").as_string().as_deref(), Some("exact"));
    assert!(get("standard_uncertainty").as_f64().is_some());
}

/// Field by field it is what the data's own description makes of it.
#[wasm_bindgen_test]
fn the_object_is_the_data() {
    use meniscus::{calculators::calculate, darkroom::Darkroom, fields::Named, quantity::Day, view};
    let fields = [("dilution", "1:31"), ("total", "some"), ("times", "6:45 at 20 C")];
    let named: Named = fields.map(|(name, text)| (name.to_owned(), text.to_owned())).into();
    let answer = calculate("mix", &named, &Darkroom::starter(Day::from_days(20_000))).expect("mix is in the list");
    let serializer = serde_wasm_bindgen::Serializer::new().serialize_missing_as_null(true);
    let by_library = serde::Serialize::serialize(&view::data(&answer), &serializer).expect("an object");
    let by_page = page::calculate("mix", object(&fields)).expect("mix is in the list");
    let text = |value: &JsValue| js_sys::JSON::stringify(value).expect("text").as_string();
    assert_eq!(text(&by_page), text(&by_library));
}

#[wasm_bindgen_test]
fn scripts_get_an_error_for_what_is_no_calculator_or_no_text() {
    assert!(page::calculate("alchemy", object(&[])).is_err());
    assert!(page::calculate("mix", JsValue::from_f64(600.0)).is_err());
}

#[wasm_bindgen_test]
fn the_browsers_store_keeps_and_reads_back() {
    let (door, trouble) = browser::door();
    assert_eq!(trouble, None);
    store::save(&*door, "meniscus/kit/starter-syringe-20", &Record::Gone).expect("there is room");
    let loaded = store::load(&*door);
    assert_eq!(loaded.unread, []);
    let names: Vec<_> = loaded
        .kit
        .instruments
        .iter()
        .map(|kept| kept.item.name.as_str())
        .collect();
    assert!(!names.contains(&"20 ml syringe"), "{names:?}");
}
