//! The few things asked of the document.

use wasm_bindgen::JsCast;
use wasm_bindgen::prelude::*;
use web_sys::{CanvasRenderingContext2d, Document, Element, HtmlCanvasElement, HtmlElement, ImageBitmap};

pub use crate::browser::dom::{show, value};

/// Shows whether a button is the one that is chosen.
pub fn press(button: &Element, pressed: bool) {
    let done = button.set_attribute("aria-pressed", if pressed { "true" } else { "false" });
    debug_assert!(done.is_ok());
}

/// Puts text into a control, unless it stands there.
pub fn set_value(control: &Element, text: &str) {
    if value(control) != text {
        let done = js_sys::Reflect::set(control, &"value".into(), &text.into());
        debug_assert!(done.is_ok());
    }
}

/// Says what is wrong at a control, or that nothing is.
pub fn show_fault(document: &Document, control: &Element, why: Option<&str>) {
    let id = control.id();
    let Some(place) = document.get_element_by_id(&format!("{id}-fault")) else {
        return;
    };
    show(&place, why.is_some());
    place.set_text_content(why);
    let hint = format!("{id}-takes");
    let hint = document.get_element_by_id(&hint).map(|_| hint).unwrap_or_default();
    let described = match why {
        Some(_) => format!("{id}-fault {hint}"),
        None => hint,
    };
    for (name, value) in [
        ("aria-invalid", if why.is_some() { "true" } else { "" }),
        ("aria-describedby", described.trim_end()),
    ] {
        let done = match value {
            "" => control.remove_attribute(name),
            value => control.set_attribute(name, value),
        };
        debug_assert!(done.is_ok());
    }
}

/// Puts a picture on the canvas of a stage, which takes its shape, and gives it back.
pub fn paint(stage: &Element, picture: &JsValue) -> Result<(), JsValue> {
    let picture: &ImageBitmap = picture.dyn_ref().ok_or(JsValue::NULL)?;
    let canvas = canvas(stage)?;
    let (width, height) = (picture.width(), picture.height());
    canvas.set_width(width);
    canvas.set_height(height);
    let context: CanvasRenderingContext2d = canvas.get_context("2d")?.ok_or(JsValue::NULL)?.dyn_into()?;
    context.draw_image_with_image_bitmap(picture, 0.0, 0.0)?;
    picture.close();
    let stage: &HtmlElement = stage.unchecked_ref();
    let shape = crate::quantity::show::trimmed(f64::from(width) / f64::from(height), 4);
    stage.style().set_property("--shape", &shape)
}

/// Takes the picture off the canvas.
pub fn wipe(stage: &Element) {
    if let Ok(canvas) = canvas(stage) {
        canvas.set_width(0);
        canvas.set_height(0);
    }
}

fn canvas(stage: &Element) -> Result<HtmlCanvasElement, JsValue> {
    Ok(stage.query_selector("canvas")?.ok_or(JsValue::NULL)?.dyn_into()?)
}
