//! The few things asked of the document.

use js_sys::{Array, Function, Promise};
use wasm_bindgen::prelude::*;
use web_sys::{Document, Element, Event, EventTarget, HtmlElement, Node};

use crate::view::Change;

/// The document of the page.
pub fn document() -> Result<Document, JsValue> {
    web_sys::window()
        .and_then(|window| window.document())
        .ok_or_else(|| JsError::new("there is no document").into())
}

/// All elements that a selector finds below a document.
pub fn all(document: &Document, selector: &str) -> Vec<Element> {
    let Ok(list) = document.query_selector_all(selector) else {
        return Vec::new();
    };
    (0..list.length())
        .filter_map(|index| list.get(index)?.dyn_into().ok())
        .collect()
}

/// Shows or hides an element.
pub fn show(element: &Element, shown: bool) {
    let done = match shown {
        true => element.remove_attribute("hidden"),
        false => element.set_attribute("hidden", ""),
    };
    debug_assert!(done.is_ok());
}

/// Sets an attribute; names are constants here, so it cannot fail.
pub fn set(element: &Element, name: &str, value: &str) {
    let done = element.set_attribute(name, value);
    debug_assert!(done.is_ok());
}

/// Makes the changes below an element; `None` if it is not the tree that they are meant for.
pub fn change(root: &Element, changes: &[Change]) -> Option<()> {
    let below = root.get_elements_by_tag_name("*");
    let element_at = |index: usize| match index.checked_sub(1) {
        None => Some(root.clone()),
        Some(index) => below.item(index as u32),
    };
    for change in changes {
        match change {
            Change::Text { element, child, text } => {
                let element = element_at(*element)?;
                match element.child_nodes().item(*child as u32) {
                    Some(node) if node.node_type() == Node::TEXT_NODE => node.set_node_value(Some(text)),
                    None if *child == 0 => element.set_text_content(Some(text)),
                    _ => return None,
                }
            }
            Change::Attribute { element, name, value } => set(&element_at(*element)?, name, value),
        }
    }
    Some(())
}

/// The text in a control, whatever its kind.
pub fn value(control: &Element) -> String {
    property(control, "value")
}

/// What stands in a control of text before anything is typed; of another kind, nothing.
pub fn first_value(control: &Element) -> String {
    property(control, "defaultValue")
}

fn property(control: &Element, name: &str) -> String {
    js_sys::Reflect::get(control, &name.into())
        .ok()
        .and_then(|value| value.as_string())
        .unwrap_or_default()
}

/// Puts text into a control, whatever its kind.
pub fn set_value(control: &Element, text: &str) {
    let done = js_sys::Reflect::set(control, &"value".into(), &text.into());
    debug_assert!(done.is_ok());
}

/// Tells of something by an event of that name at a target.
pub fn tell(target: &EventTarget, name: &str) {
    if let Ok(event) = Event::new(name) {
        let told = target.dispatch_event(&event);
        debug_assert!(told.is_ok());
    }
}

/// Moves the focus.
pub fn focus(element: &Element) {
    if let Some(element) = element.dyn_ref::<HtmlElement>() {
        let done = element.focus();
        debug_assert!(done.is_ok());
    }
}

/// The button that a click came from, whatever in it was hit.
pub fn pressed(event: &Event) -> Option<Element> {
    let target: Element = event.target()?.dyn_into().ok()?;
    target.closest("button").ok().flatten()
}

/// Whether a click is the second of a double click, or a later one of several.
pub fn is_second_of_two(click: &Event) -> bool {
    let count = js_sys::Reflect::get(click, &"detail".into()).ok();
    count.and_then(|count| count.as_f64()).is_some_and(|count| count > 1.0)
}

/// What stands between texts that cross into the module together: one crossing takes far less time than thousands.
const BETWEEN: char = '\0';

#[wasm_bindgen]
extern "C" {
    /// A promise, both of whose ends call the same function.
    type Promised;

    #[wasm_bindgen(method)]
    fn then(this: &Promised, kept: &Function, broken: &Function) -> Promise;
}

/// The texts of a list.
pub fn texts(list: &Array) -> Vec<String> {
    let count = list.length() as usize;
    let joined = String::from(list.join(BETWEEN.encode_utf8(&mut [0])));
    let texts: Vec<String> = joined.split(BETWEEN).map(str::to_owned).collect();
    match texts.len() == count {
        true => texts,
        // One of them holds what should stand between, or there is none.
        false => list.iter().map(|text| text.as_string().unwrap_or_default()).collect(),
    }
}

/// A function for the browser to call, once. It lives until it is called.
pub fn once(call: Box<dyn FnOnce(JsValue)>) -> Function {
    Closure::once_into_js(call).unchecked_into()
}

/// Calls with what a promise brings, be it a reason why it could not be kept.
pub fn then(promise: &Promise, call: Box<dyn FnOnce(JsValue)>) {
    let call = once(call);
    let promise: &Promised = promise.unchecked_ref();
    drop(promise.then(&call, &call));
}
