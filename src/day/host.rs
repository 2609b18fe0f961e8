//! wasm only: what the page does for this module: it asks the annex, which knows the shelf, and writes down what happened.

use js_sys::{Array, Function, Promise, Reflect};
use wasm_bindgen::prelude::*;

use crate::browser::dom;

/// The page, as its loader hands it over.
pub struct Host(JsValue);

impl Host {
    /// What the loader gave.
    pub fn new(given: JsValue) -> Self {
        Self(given)
    }

    /// What a function of the annex gives; nothing while the annex is not here.
    pub fn ask(&self, function: &str, arguments: &[JsValue]) -> Option<JsValue> {
        let arguments: Array = arguments.iter().collect();
        let given = self.call("ask", &[function.into(), arguments.into()])?;
        (!given.is_undefined()).then_some(given)
    }

    /// Writes down what happened now, each as an event of no moment, and offers to take it back. Whether all of it is kept.
    pub fn write_down(&self, events: Vec<String>) -> bool {
        let events: Array = events.into_iter().map(JsValue::from).collect();
        let kept = self.call("write_down", &[events.into()]);
        kept.is_some_and(|kept| kept.is_truthy())
    }

    /// Fetches the annex, and calls when it is here or could not be fetched.
    pub fn when_here(&self, then: Box<dyn FnOnce(JsValue)>) {
        let coming = self
            .call("more", &[])
            .and_then(|coming| coming.dyn_into::<Promise>().ok());
        if let Some(coming) = coming {
            dom::then(&coming, then);
        }
    }

    fn call(&self, name: &str, arguments: &[JsValue]) -> Option<JsValue> {
        let function: Function = Reflect::get(&self.0, &name.into()).ok()?.dyn_into().ok()?;
        let arguments: Array = arguments.iter().collect();
        function.apply(&JsValue::NULL, &arguments).ok()
    }
}
