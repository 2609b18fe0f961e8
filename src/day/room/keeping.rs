//! What is kept of a run, and read again.

use std::rc::Rc;

use wasm_bindgen::prelude::*;
use web_sys::{Event, StorageEvent, Window};

use super::Room;
use crate::browser::clock as device;
use crate::day::clock::{Clock, Jump};
use crate::day::kept::{Kept, Uncertain};
use crate::day::sound;
use crate::store::{self, FORMS, Record};

/// The name under which a run is kept, beside what stands in the forms.
const RUN: &str = "run";

impl Room {
    /// Takes up the run that is kept, if there is one; then nothing waits to be begun.
    pub(super) fn read_kept(&self) {
        let text = self.door.get(&key()).ok().flatten().unwrap_or_default();
        let found = match Record::from_text(&text) {
            Ok(Record::Form(named)) => Kept::from_named(&named),
            _ => None,
        };
        // What cannot be read is no run: the next one is kept in its place.
        self.stands.replace(text);
        let Some(mut kept) = found else { return };
        let (now, page) = (device::now() as f64, device::since_loaded());
        let (clock, jump) = Clock::resume(kept.elapsed, kept.then as f64, now, page);
        if let Some(Jump::Back(time)) = jump {
            kept.doubts.push(Uncertain::Lost(time));
        }
        self.clock.set(clock);
        self.waits.take();
        self.sound.stop();
        self.kept.replace(Some(kept));
    }

    /// Keeps the run as it stands, unless another tab has kept it since: then its presses count. Without a store it goes on, and
    /// says so.
    pub(super) fn keep(&self) {
        let stands = self.door.get(&key()).ok().flatten();
        if stands.is_some_and(|stands| stands != *self.stands.borrow()) {
            let marks = |room: &Self| {
                room.kept
                    .borrow()
                    .as_ref()
                    .map(|kept| kept.run.marks.clone())
                    .unwrap_or_default()
            };
            let own = marks(self);
            self.read_kept();
            if !marks(self).starts_with(&own) {
                self.said.replace(
                    "Another tab pressed meanwhile: the last press here does not count. Press again.".to_owned(),
                );
            }
            return self.show();
        }
        let mut kept = self.kept.borrow_mut();
        let Some(kept) = &mut *kept else { return };
        let clock = self.clock.get();
        kept.elapsed = clock.elapsed();
        kept.then = clock.device() as i64;
        kept.doubts.retain(|doubt| *doubt != Uncertain::NotKept);
        let record = Record::Form(kept.to_named());
        let saved = store::save(&*self.door, &key(), &record);
        if saved.is_ok() {
            self.stands.replace(record.to_text());
        }
        if saved.is_err() || self.trouble.is_some() {
            kept.doubts.push(Uncertain::NotKept);
        }
    }

    /// Nothing is under way any more.
    pub(super) fn forget(&self) {
        self.kept.replace(None);
        self.said.take();
        self.cue.set(None);
        self.sound.stop();
        self.stands.take();
        sound::let_sleep(&self.lock.take());
        remove(&key());
    }

    /// Another tab pressed something.
    pub(super) fn other_tab(self: &Rc<Self>, event: &Event) -> Option<()> {
        let event: &StorageEvent = event.dyn_ref()?;
        let changed = event.key();
        // Where everything was cleared, what is under way here goes on.
        if changed? != key() {
            return None;
        }
        self.kept.replace(None);
        self.sound.stop();
        self.read_kept();
        self.show();
        None
    }

    /// The page goes out of sight, or comes back.
    pub(super) fn left(self: &Rc<Self>, event: &Event) -> Option<()> {
        self.tick();
        // A page that ends may still be in sight.
        match self.document.hidden() || event.type_() == "pagehide" {
            true => self.keep(),
            false => self.stay_awake(),
        }
        None
    }

    pub(super) fn stay_awake(self: &Rc<Self>) {
        let goes_on = self.kept.borrow().as_ref().is_some_and(|kept| !kept.run.is_over());
        if goes_on {
            let room = Rc::clone(self);
            sound::stay_awake(move |lock| {
                room.lock.replace(lock);
            });
        }
    }
}

fn key() -> String {
    format!("{FORMS}{RUN}")
}

fn remove(key: &str) {
    let storage = web_sys::window().and_then(|window: Window| window.local_storage().ok().flatten());
    if let Some(storage) = storage {
        let done = storage.remove_item(key);
        debug_assert!(done.is_ok());
    }
}
