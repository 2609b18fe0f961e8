//! What leaves the page by the user's own press: a file to save, a text on the clipboard.

use gloo_timers::callback::Timeout;
use js_sys::Array;
use wasm_bindgen::prelude::*;
use web_sys::{Blob, Document, Element, HtmlElement, Url};

use super::dom;

/// Milliseconds after which a file has surely been saved.
const SAVED: u32 = 60_000;

/// Hands a text to the browser as a file to save; `None` if it does not take it.
pub fn save(document: &Document, name: &str, text: &str) -> Option<()> {
    let blob = Blob::new_with_str_sequence(&Array::of1(&text.into())).ok()?;
    let address = Url::create_object_url_with_blob(&blob).ok()?;
    let link: HtmlElement = document.create_element("a").ok()?.dyn_into().ok()?;
    dom::set(&link, "href", &address);
    dom::set(&link, "download", name);
    link.click();
    Timeout::new(SAVED, move || drop(Url::revoke_object_url(&address))).forget();
    Some(())
}

/// Puts a text on the clipboard, and says so on the button. Where the browser refuses, nothing is lost, so its promise is not
/// waited for; a page that was not fetched securely has no clipboard.
pub fn copy(button: &Element, text: &str) {
    let Some(window) = web_sys::window() else { return };
    let clipboard = window.navigator().clipboard();
    if !clipboard.is_undefined() {
        drop(clipboard.write_text(text));
        button.set_text_content(Some("Copied"));
    }
}
