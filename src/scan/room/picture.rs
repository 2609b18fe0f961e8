//! The page's end of the thread of a picture.

use gloo_events::EventListener;
use js_sys::{Array, Float64Array};
use wasm_bindgen::JsCast;
use wasm_bindgen::prelude::*;
use web_sys::{File, MessageEvent, Worker, WorkerOptions, WorkerType};

/// A picture in a thread of its own. Dropping it ends the thread, which gives all of its memory back.
pub struct Picture {
    worker: Worker,
    _listeners: [EventListener; 2],
}

impl Picture {
    /// Starts a thread and gives it a file; `heard` is called with each of its answers, and with nothing if it breaks down.
    ///
    /// # Errors
    ///
    /// If the browser starts no threads.
    pub fn open(folder: &str, file: &File, heard: impl Fn(Option<Array>) + Clone + 'static) -> Result<Self, JsValue> {
        let options = WorkerOptions::new();
        options.set_type(WorkerType::Module);
        let worker = Worker::new_with_options(&format!("{folder}picture.js"), &options)?;
        let answered = heard.clone();
        let listeners = [
            EventListener::new(&worker, "message", move |event| {
                let event: &MessageEvent = event.unchecked_ref();
                answered(event.data().dyn_into().ok());
            }),
            EventListener::new(&worker, "error", move |_| heard(None)),
        ];
        let picture = Self {
            worker,
            _listeners: listeners,
        };
        picture.worker.post_message(file)?;
        Ok(picture)
    }

    /// Asks for the densities of areas: four hundredths of the picture for each.
    pub fn ask(&self, round: u32, (coding, gamma): (u32, f64), inverted: bool, places: &[f64]) {
        let places = Float64Array::from(places);
        let message: [JsValue; 5] = [
            round.into(),
            coding.into(),
            gamma.into(),
            inverted.into(),
            places.into(),
        ];
        let sent = self.worker.post_message(&message.iter().collect::<Array>());
        debug_assert!(sent.is_ok());
    }
}

impl Drop for Picture {
    fn drop(&mut self) {
        self.worker.terminate();
    }
}
