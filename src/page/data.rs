//! A sheet's data as an object of the browser, field by field: the library for that would weigh more than all of it.

use js_sys::{Array, Object, Reflect};
use wasm_bindgen::prelude::*;

use crate::view::Data;

/// The same object as DEVELOPERS.md describes.
pub fn object(data: &Data) -> JsValue {
    let figures = data.figures.iter().map(|figure| {
        of(&[
            ("name", text(&figure.name)),
            ("label", text(&figure.label)),
            ("value", figure.value.into()),
            ("unit", text(figure.unit)),
            (
                "standard_uncertainty",
                figure.standard_uncertainty.map_or(JsValue::NULL, JsValue::from),
            ),
            ("band", figure.band.as_deref().map_or(JsValue::NULL, text)),
            ("standing", text(figure.standing)),
            ("shown", text(&figure.shown)),
        ])
    });
    let ways = data.ways.iter().map(|way| {
        let steps: Array = way.steps.iter().map(|step| text(step)).collect();
        of(&[("title", text(&way.title)), ("steps", steps.into())])
    });
    let assumptions = data.assumptions.iter().map(|assumption| {
        of(&[
            ("name", text(&assumption.name)),
            ("range", text(&assumption.range)),
            ("why", text(&assumption.why)),
            ("field", text(assumption.field)),
        ])
    });
    let faults = data
        .faults
        .iter()
        .map(|fault| of(&[("field", text(&fault.field)), ("sentence", text(&fault.sentence))]));
    let cautions = data.cautions.iter().map(|caution| text(caution));
    of(&[
        ("title", text(&data.title)),
        ("figures", figures.collect::<Array>().into()),
        ("ways", ways.collect::<Array>().into()),
        ("cautions", cautions.collect::<Array>().into()),
        ("assumptions", assumptions.collect::<Array>().into()),
        ("faults", faults.collect::<Array>().into()),
        // No calculator of the sink leads to steps.
        ("recipe", JsValue::NULL),
    ])
}

fn of(fields: &[(&str, JsValue)]) -> JsValue {
    let object = Object::new();
    for (name, value) in fields {
        let done = Reflect::set(&object, &text(name), value);
        debug_assert!(done.is_ok());
    }
    object.into()
}

fn text(text: &str) -> JsValue {
    JsValue::from_str(text)
}
