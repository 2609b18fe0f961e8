//! wasm only: what can be heard and felt of a change, and a screen that stays on.
//!
//! Sounds are given to the browser ahead of time, since it wakes a page that is out of sight only now and then.

use std::cell::{Cell, RefCell};

use js_sys::{Array, Function, Promise, Reflect};
use wasm_bindgen::prelude::*;
use web_sys::{AudioContext, OscillatorNode};

use crate::browser::dom;
use crate::session::Cue;

/// Milliseconds ahead for which sounds are given: a page out of sight is woken at least once a minute.
pub const AHEAD: i64 = 90_000;

/// Loudness, of 1.
const LOUD: f32 = 0.25;

/// What sounds.
#[derive(Default)]
pub struct Sound {
    context: RefCell<Option<AudioContext>>,
    /// What was given ahead since something last changed.
    given: RefCell<Vec<OscillatorNode>>,
    /// Until when changes were given, in milliseconds since the run began.
    until: Cell<i64>,
}

/// Beeps of a change: hertz, seconds of each, how many.
fn beeps(cue: Cue) -> (f32, f64, u32) {
    match cue {
        Cue::Agitate => (880.0, 0.15, 2),
        Cue::Rest => (440.0, 0.25, 1),
        Cue::Ready => (660.0, 0.15, 3),
        Cue::Over => (990.0, 0.5, 4),
    }
}

impl Sound {
    /// Lets it sound from now on: browsers want a press for that.
    pub fn wake(&self) {
        let mut context = self.context.borrow_mut();
        match &*context {
            Some(context) => drop(context.resume()),
            None => *context = AudioContext::new().ok(),
        }
    }

    /// Gives ahead what will change, as far as that was not done: in so many milliseconds from now, which is so many after the
    /// beginning.
    pub fn give(&self, now: i64, ahead: &[(i64, Cue)]) {
        let given = self.until.replace(now + AHEAD);
        for (after, cue) in ahead {
            if now + after > given {
                self.sound(*cue, *after as f64 / 1000.0);
            }
        }
    }

    /// Takes back what was given ahead: something has changed.
    pub fn stop(&self) {
        for node in self.given.borrow_mut().drain(..) {
            // One that has sounded already need not be silenced.
            drop(node.disconnect());
        }
        self.until.set(0);
    }

    /// The beeps of a change, in so many seconds.
    fn sound(&self, cue: Cue, after: f64) {
        let context = self.context.borrow();
        let Some(context) = &*context else { return };
        let (hertz, length, count) = beeps(cue);
        for beep in 0..count {
            let at = context.current_time() + after + f64::from(beep) * length * 1.6;
            if let Ok(node) = one_beep(context, hertz, at, length) {
                self.given.borrow_mut().push(node);
            }
        }
    }
}

fn one_beep(context: &AudioContext, hertz: f32, at: f64, length: f64) -> Result<OscillatorNode, JsValue> {
    let node = context.create_oscillator()?;
    node.frequency().set_value(hertz);
    let gain = context.create_gain()?;
    // Without a slope it clicks.
    gain.gain().set_value_at_time(0.0, at)?;
    gain.gain().linear_ramp_to_value_at_time(LOUD, at + 0.01)?;
    gain.gain().set_value_at_time(LOUD, at + length - 0.02)?;
    gain.gain().linear_ramp_to_value_at_time(0.0, at + length)?;
    node.connect_with_audio_node(&gain)?;
    gain.connect_with_audio_node(&context.destination())?;
    node.start_with_when(at)?;
    node.stop_with_when(at + length)?;
    Ok(node)
}

/// Lets the device shake, where it can.
pub fn shake(cue: Cue) {
    let (_, length, count) = beeps(cue);
    let pulse = (length * 1000.0) as u32;
    let pattern: Array = (0..count).flat_map(|_| [pulse, pulse / 2]).map(JsValue::from).collect();
    navigator_call("vibrate", &pattern);
}

/// Keeps the screen on, until the page is out of sight: then it has to be asked for again.
pub fn stay_awake(keep: impl FnOnce(JsValue) + 'static) {
    let Some(window) = web_sys::window() else { return };
    let lock = Reflect::get(&window.navigator(), &"wakeLock".into()).unwrap_or_default();
    let Ok(request) = Reflect::get(&lock, &"request".into()).and_then(|request| request.dyn_into::<Function>()) else {
        return;
    };
    let asked = request.call1(&lock, &"screen".into());
    if let Ok(promise) = asked.and_then(|promise| promise.dyn_into::<Promise>()) {
        dom::then(&promise, Box::new(keep));
    }
}

/// Lets the screen go dark again.
pub fn let_sleep(lock: &JsValue) {
    let release = Reflect::get(lock, &"release".into()).and_then(|release| release.dyn_into::<Function>());
    if let Ok(promise) = release.and_then(|release| release.call0(lock))
        && let Ok(promise) = promise.dyn_into::<Promise>()
    {
        dom::then(&promise, Box::new(drop));
    }
}

fn navigator_call(name: &str, argument: &JsValue) {
    let Some(window) = web_sys::window() else { return };
    let navigator = window.navigator();
    if let Ok(function) = Reflect::get(&navigator, &name.into()).and_then(|found| found.dyn_into::<Function>()) {
        drop(function.call1(&navigator, argument));
    }
}
