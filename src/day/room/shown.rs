//! What the timer shows: the room's frame, what changes with every second, and the line in the other rooms.

use js_sys::Reflect;
use wasm_bindgen::prelude::*;
use web_sys::Element;

use super::{KEEP, Room};
use crate::browser::{clock as device, dom};
use crate::day::clock::Jump;
use crate::day::kept::Uncertain;
use crate::day::sound;
use crate::day::{markup, words};
use crate::session::{Cue, Now};

/// What a control holds.
const STATE: [&str; 2] = ["value", "checked"];

/// Most letters of a time that still fit a phone in the large size.
const USUAL_LETTERS: usize = 4;

impl Room {
    /// Where the run stands; none if there is none, or it is over.
    pub(super) fn now(&self) -> Option<Now> {
        let kept = self.kept.borrow();
        kept.as_ref()?.run.at(self.clock.get().elapsed())
    }

    /// Looks at the clocks, and shows what has changed.
    pub(super) fn tick(&self) {
        if self.kept.borrow().is_none() {
            return;
        }
        let mut clock = self.clock.get();
        let before = clock.elapsed();
        let jump = clock.read(device::now() as f64, device::since_loaded());
        self.clock.set(clock);
        if let Some(jump) = jump {
            if let Some(kept) = &mut *self.kept.borrow_mut()
                && !kept.run.is_over()
            {
                kept.doubts.push(match jump {
                    Jump::Forward(time) => Uncertain::Counted { time, at: before },
                    Jump::Back(time) => Uncertain::PutBack(time),
                });
            }
            self.sound.stop();
            self.keep();
            self.show();
        }
        let elapsed = self.clock.get().elapsed();
        let due = self
            .kept
            .borrow()
            .as_ref()
            .is_some_and(|kept| elapsed - kept.elapsed >= KEEP);
        if due {
            self.keep();
        }
        self.show_time();
    }

    /// Shows what stands in the room, if it differs, and the time.
    pub(super) fn show(&self) {
        self.units.set(self.kit().house.units);
        let frame = self.markup();
        if *self.frame.borrow() != frame {
            let typed = self.typed();
            let focused = self
                .document
                .active_element()
                .filter(|it| self.place.contains(Some(it)));
            let focused = focused.and_then(|it| match it.get_attribute("data-act") {
                Some(act) => Some(format!("[data-act={act}]")),
                None => Some(it.id()).filter(|id| !id.is_empty()).map(|id| format!("#{id}")),
            });
            self.place.set_inner_html(&frame);
            self.frame.replace(frame);
            self.type_again(&typed);
            if let Some(selector) = focused {
                let again = self.place.query_selector(&selector).ok().flatten();
                let again = again.or_else(|| self.place.query_selector("button").ok().flatten());
                if let Some(element) = again {
                    dom::focus(&element);
                }
            }
        }
        self.show_time();
    }

    /// What the user has typed and ticked, control by control.
    fn typed(&self) -> Vec<(String, [JsValue; 2])> {
        let controls = dom::all(&self.document, "#run-place input, #run-place textarea");
        let of = |control: Element| {
            let part = |name: &str| Reflect::get(&control, &name.into()).unwrap_or_default();
            (control.id(), STATE.map(part))
        };
        controls.into_iter().map(of).collect()
    }

    /// The same into the controls that are there again.
    fn type_again(&self, typed: &[(String, [JsValue; 2])]) {
        for (id, state) in typed {
            if let Some(control) = self.document.get_element_by_id(id) {
                for (name, value) in STATE.iter().zip(state) {
                    let done = Reflect::set(&control, &(*name).into(), value);
                    debug_assert!(done.is_ok());
                }
            }
        }
    }

    fn markup(&self) -> String {
        let units = self.units.get();
        if let Some(recipe) = &*self.waits.borrow() {
            return markup::before(recipe, units).into_string();
        }
        let kept = self.kept.borrow();
        let Some(open) = &*kept else {
            return markup::nothing().into_string();
        };
        let elapsed = self.clock.get().elapsed();
        let legs = open.run.legs(elapsed);
        let said = self.said.borrow();
        match open.run.at(elapsed) {
            Some(now) => markup::running(open, &now, &legs, &said, units),
            None => markup::over(open, &legs, &self.deeds(String::new()), &said, units),
        }
        .into_string()
    }

    /// What changes with every second.
    fn show_time(&self) {
        let now = self.now();
        self.show_bar(now.as_ref());
        let Some(now) = now else { return };
        let units = self.units.get();
        let kept = self.kept.borrow();
        let Some(open) = &*kept else { return };
        let Some(step) = open.run.recipe.steps.get(now.leg.step) else {
            return;
        };
        let left = words::clock(now.left(), units);
        let for_how_long = now.cue_left.filter(|_| !now.leg.stands);
        let for_how_long = for_how_long.map(|left| words::clock(left, units)).unwrap_or_default();
        let then = now
            .then
            .map(|then| format!("Then: {}.", words::cue(step, then).to_lowercase()));
        for (id, text) in [
            ("run-left", left.as_str()),
            ("run-cue", words::now(step, &now)),
            ("run-cue-left", &for_how_long),
            ("run-then", &then.unwrap_or_default()),
        ] {
            self.write(id, text);
        }
        self.mark("data-long", left.chars().count() > USUAL_LETTERS);
        self.mark("data-stands", now.leg.stands);
        if let Some(done) = self.document.get_element_by_id("run-done") {
            let share = now.leg.spent.min(now.leg.due) as f64;
            let shown = js_sys::Reflect::set(&done, &"value".into(), &share.into());
            debug_assert!(shown.is_ok());
        }
        let cue = Some((open.run.marks.len(), now.cue));
        let before = self.cue.replace(cue);
        if before != cue {
            dom::set(&self.place, "data-cue", cue_word(now.cue));
            let same_run = before.is_some_and(|(marks, _)| marks == open.run.marks.len());
            if same_run {
                sound::shake(now.cue);
            }
        }
        let elapsed = self.clock.get().elapsed();
        self.sound.give(elapsed, &open.run.ahead(&now, sound::AHEAD));
    }

    /// Marks the room, or takes the mark away.
    fn mark(&self, name: &str, is_so: bool) {
        let marked = self.place.toggle_attribute_with_force(name, is_so);
        debug_assert!(marked.is_ok());
    }

    /// In the other rooms, a line that leads back.
    fn show_bar(&self, now: Option<&Now>) {
        let Some(bar) = self.document.get_element_by_id("running") else {
            return;
        };
        let here = self.place.closest("[data-room]:not([hidden])").ok().flatten().is_some();
        let line = now.filter(|_| !here).and_then(|now| {
            let kept = self.kept.borrow();
            let step = kept.as_ref()?.run.recipe.steps.get(now.leg.step)?;
            let left = words::clock(now.left(), self.units.get());
            Some(format!(
                "{} {left}. {}.",
                words::title(&step.name),
                words::now(step, now)
            ))
        });
        dom::show(&bar, line.is_some());
        self.write("running-line", &line.unwrap_or_default());
    }

    /// Writes a text, unless it stands there.
    fn write(&self, id: &str, text: &str) {
        if let Some(place) = self.document.get_element_by_id(id)
            && place.text_content().as_deref() != Some(text)
        {
            place.set_text_content(Some(text));
        }
    }
}

fn cue_word(cue: Cue) -> &'static str {
    match cue {
        Cue::Agitate => "agitate",
        Cue::Rest => "rest",
        Cue::Ready => "ready",
        Cue::Over => "over",
    }
}
