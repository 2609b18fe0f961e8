//! wasm only: the timer in the page. It draws, listens, looks at the clocks, and keeps what was pressed.

mod keeping;
mod shown;

use std::cell::{Cell, RefCell};
use std::rc::Rc;

use gloo_events::{EventListener, EventListenerOptions};
use gloo_timers::callback::Interval;
use wasm_bindgen::prelude::*;
use web_sys::{Document, Element, Event, HtmlElement, HtmlFormElement};

use super::clock::Clock;
use super::deeds::{Deed, deeds};
use super::host::Host;
use super::kept::Kept;
use super::log::Log;
use super::markup::MORE;
use super::sound::Sound;
use super::words;
use crate::browser::{self, LEDGER_CHANGED, address, clock as device, dom, forms};
use crate::example;
use crate::fields::{Field, Form, Temperatures};
use crate::kit::Kit;
use crate::ledger::{self, BottleId, Event as Happened};
use crate::quantity::{Units, Volume, bounds};
use crate::session::{Act, Cue, Mark, Recipe, Run};
use crate::store::{self, Door, DoorError, Record};

/// Milliseconds between two looks at the clock.
const LOOK: u32 = 200;
/// Milliseconds after which what is under way is kept again, so that little is lost if the device's clock is set while the page is
/// away.
const KEEP: i64 = 15_000;
/// The form whose steps are run, and from which a session is done again.
pub const STEPS: &str = "steps";
/// The form of a temperature that was read.
const READING: &str = "reading";

const TEMPERATURE: Field<Temperatures> =
    Field::temperature("temperature", "Temperature", &bounds::BATH_TEMPERATURE).needed();

/// Everything that lives as long as the page.
pub struct Room {
    /// The document.
    pub document: Document,
    /// What the page does for this module.
    pub host: Host,
    place: Element,
    door: Box<dyn Door>,
    trouble: Option<DoorError>,
    /// The steps that wait for the first press.
    waits: RefCell<Option<Recipe>>,
    /// What is under way.
    kept: RefCell<Option<Kept>>,
    /// The text that it was last kept as, or read from.
    stands: RefCell<String>,
    clock: Cell<Clock>,
    /// What the last press did.
    said: RefCell<String>,
    /// What stands in the room.
    frame: RefCell<String>,
    /// What was to be done when it was last looked at.
    cue: Cell<Option<(usize, Cue)>>,
    /// The user's units, as the kit had them when something was last shown.
    units: Cell<Units>,
    sound: Sound,
    /// What keeps the screen on.
    lock: RefCell<JsValue>,
    log: Log,
    listeners: RefCell<Vec<EventListener>>,
    ticks: RefCell<Option<Interval>>,
}

thread_local! {
    static ROOM: RefCell<Option<Rc<Room>>> = const { RefCell::new(None) };
}

/// Opens what `by` stands for: a button, the steps of its form; a room, what is in it. `host` is the page.
///
/// # Errors
///
/// If there is no document.
#[wasm_bindgen]
pub fn open(place: Element, by: Element, _folder: String, host: JsValue) -> Result<(), JsValue> {
    let known = ROOM.with_borrow(Clone::clone);
    let room = match known {
        Some(room) => room,
        None => {
            let room = Room::new(place, Host::new(host))?;
            ROOM.set(Some(Rc::clone(&room)));
            room.start();
            room
        }
    };
    match by.get_attribute("data-run") {
        Some(form) => room.take_steps(&form),
        None => room.show_all(),
    }
    Ok(())
}

impl Room {
    fn new(place: Element, host: Host) -> Result<Rc<Self>, JsValue> {
        let (door, trouble) = browser::door();
        Ok(Rc::new(Self {
            document: dom::document()?,
            host,
            place,
            door,
            trouble,
            waits: RefCell::default(),
            kept: RefCell::default(),
            stands: RefCell::default(),
            clock: Cell::new(Clock::begin(device::now() as f64, device::since_loaded())),
            said: RefCell::default(),
            frame: RefCell::default(),
            cue: Cell::default(),
            units: Cell::default(),
            sound: Sound::default(),
            lock: RefCell::default(),
            log: Log::default(),
            listeners: RefCell::default(),
            ticks: RefCell::default(),
        }))
    }

    fn start(self: &Rc<Self>) {
        self.read_kept();
        self.show_example_again();
        self.stay_awake();
        type Call = fn(&Rc<Room>, &Event) -> Option<()>;
        let place = self.place.clone();
        self.listen(&place, "click", Self::pressed as Call);
        self.listen(&place, "submit", Self::submitted);
        let Some(window) = web_sys::window() else { return };
        self.listen(&window, "storage", Self::other_tab);
        // A phone may end a page that is out of sight without another word.
        self.listen(&window, "pagehide", Self::left);
        self.listen(&self.document, "visibilitychange", Self::left);
        self.listen(&self.document, LEDGER_CHANGED, |room, _| {
            Log::show(room);
            None
        });
        Log::start(self);
        let room = Rc::clone(self);
        *self.ticks.borrow_mut() = Some(Interval::new(LOOK, move || room.tick()));
    }

    /// The example is in memory alone: where its bottles are in what is under way, it is shown again after a reload.
    fn show_example_again(&self) {
        let is_of_example = |kept: &Kept| {
            let mut baths = kept.run.recipe.baths.iter();
            baths.any(|bath| bath.bottle.starts_with(example::NAMES))
        };
        if !self.kept.borrow().as_ref().is_some_and(is_of_example) {
            return;
        }
        let document = self.document.clone();
        self.host.when_here(Box::new(move |_| {
            let is_there = document
                .get_element_by_id("example-there")
                .is_some_and(|there| !there.has_attribute("hidden"));
            let button = document.query_selector("[data-example]").ok().flatten();
            if let Some(button) = button
                .filter(|_| !is_there)
                .and_then(|button| button.dyn_into::<HtmlElement>().ok())
            {
                button.click();
            }
        }));
    }

    /// Listens for as long as the page lives.
    pub fn listen(
        self: &Rc<Self>,
        to: &web_sys::EventTarget,
        name: &'static str,
        call: fn(&Rc<Room>, &Event) -> Option<()>,
    ) {
        let room = Rc::clone(self);
        let heard = move |event: &Event| {
            call(&room, event);
        };
        let options = EventListenerOptions::enable_prevent_default();
        let listener = EventListener::new_with_options(to, name, options, heard);
        self.listeners.borrow_mut().push(listener);
    }

    /// Shows the timer and the log as they stand.
    fn show_all(self: &Rc<Self>) {
        self.tick();
        self.show();
        Log::show(self);
    }

    /// Of the kit as it stands now: the units, and the line by which the thermometer is put right.
    fn kit(&self) -> Kit {
        let mut kit = Kit::empty();
        for id in [store::HOUSE, store::THERMOMETER] {
            if let Ok(Some(text)) = self.door.get(&format!("{}{id}", store::KIT))
                && let Ok(record) = Record::from_text(&text)
            {
                store::lay(&mut kit, id, record);
            }
        }
        kit
    }

    /// What of the log is shown.
    pub fn log(&self) -> &Log {
        &self.log
    }

    /// The steps of a form come here, to be begun.
    fn take_steps(self: &Rc<Self>, form: &str) {
        let refused = self.document.get_element_by_id("run-refused");
        let say = |why: &str| {
            if let Some(place) = &refused {
                place.set_text_content(Some(why));
                dom::show(place, !why.is_empty());
            }
        };
        say("");
        if self.kept.borrow().is_some() {
            say("Other steps are under way. End them first: Session, Timer.");
            return;
        }
        let Some(fields) = forms::form(&self.document, form) else {
            return;
        };
        let answer = self
            .host
            .ask("calculate", &[form.into(), forms::object(&forms::named(&fields))]);
        let recipe = answer.and_then(|answer| js_sys::Reflect::get(&answer, &"recipe".into()).ok());
        let recipe = recipe.and_then(|recipe| recipe.as_string());
        match recipe.and_then(|text| ledger::recipe_from_text(&text).ok()) {
            Some(recipe) => {
                self.waits.replace(Some(recipe));
                address::go("run");
                self.show();
            }
            None => {
                let fault = fields.query_selector("[id$='-fault']").ok().flatten();
                let fault = fault.and_then(|fault| fault.text_content()).unwrap_or_default();
                let fault = if fault.is_empty() {
                    "The sheet says what is still needed."
                } else {
                    &fault
                };
                say(&format!("These steps cannot be begun yet. {fault}"));
            }
        }
    }

    fn pressed(self: &Rc<Self>, event: &Event) -> Option<()> {
        let button = dom::pressed(event)?;
        let act = button.get_attribute("data-act")?;
        self.tick();
        match act.as_str() {
            // Another tab may have begun meanwhile: then nothing waits any more.
            "begin" => {
                let recipe = self.waits.take()?;
                self.sound.wake();
                let clock = Clock::begin(device::now() as f64, device::since_loaded());
                self.clock.set(clock);
                self.said.take();
                self.kept.replace(Some(Kept::new(Run::begin(recipe), &clock)));
                self.stay_awake();
                self.done();
            }
            "leave" => {
                self.waits.take();
                address::go(STEPS);
                self.show();
            }
            "forget" => {
                self.forget();
                self.show();
            }
            "undo" => {
                self.take_back();
            }
            "take-off" => {
                let index = button.get_attribute("data-doubt")?.parse().ok()?;
                self.take_off(index);
            }
            act => {
                self.sound.wake();
                self.press(act)?;
            }
        }
        None
    }

    /// What a button does to the run.
    fn press(&self, act: &str) -> Option<()> {
        let now = self.now()?;
        let step = now.leg.step;
        let act = match act {
            "next" => Act::Begin(step + 1),
            "back" => Act::Begin(step.checked_sub(1)?),
            "pause" => Act::Pause,
            "resume" => Act::Resume,
            "longer" => Act::Longer(MORE),
            // Never to less than nothing.
            "shorter" => Act::Longer(-MORE.min(now.leg.due)),
            "end" => Act::End,
            _ => return None,
        };
        let units = self.units.get();
        {
            let mut kept = self.kept.borrow_mut();
            let kept = kept.as_mut()?;
            let said = words::after(act, &now.leg, &kept.run.recipe, units);
            self.said.replace(said.unwrap_or_default());
            kept.run.marks.push(Mark {
                at: self.clock.get().elapsed(),
                act,
            });
        }
        self.done();
        Some(())
    }

    /// The last press is taken back, as if it had not been; the first one leads back to before the beginning.
    fn take_back(&self) {
        {
            let mut kept = self.kept.borrow_mut();
            let Some(open) = &mut *kept else { return };
            if open.run.marks.len() > 1 {
                open.run.marks.pop();
                self.said
                    .replace("Taken back: the time is as if the last press had not been.".to_owned());
            } else {
                self.waits.replace(Some(open.run.recipe.clone()));
                *kept = None;
            }
        }
        if self.kept.borrow().is_none() {
            self.forget();
        }
        self.done();
    }

    /// It was the device's clock: what was counted is taken off.
    fn take_off(&self, index: usize) {
        let time = self.kept.borrow_mut().as_mut().and_then(|kept| kept.take_off(index));
        let Some(time) = time else { return };
        let mut clock = self.clock.get();
        clock.take_off(time);
        self.clock.set(clock);
        self.done();
    }

    /// Something was pressed: it is kept and shown.
    fn done(&self) {
        self.keep();
        self.sound.stop();
        self.show();
    }

    fn submitted(self: &Rc<Self>, event: &Event) -> Option<()> {
        event.prevent_default();
        let form: HtmlFormElement = event.target()?.dyn_into().ok()?;
        self.tick();
        match form.id().as_str() {
            READING => self.read_temperature(&form),
            "session-end" => self.write_down(&form),
            _ => None,
        }
    }

    fn read_temperature(&self, form: &HtmlFormElement) -> Option<()> {
        let named = forms::named(form);
        let kit = self.kit();
        let units = kit.house.units;
        let mut read = Form::new(&named, units);
        let temperature = read.read(&TEMPERATURE).map(|shown| kit.corrected(shown));
        let faults = read.into_faults();
        forms::show_faults(&self.document, READING, &faults);
        let before = self.now()?;
        {
            let mut kept = self.kept.borrow_mut();
            let kept = kept.as_mut()?;
            kept.run.marks.push(Mark {
                at: self.clock.get().elapsed(),
                act: Act::Read(temperature?),
            });
        }
        let after = self.now()?;
        let said = {
            let kept = self.kept.borrow();
            let recipe = &kept.as_ref()?.run.recipe;
            let step = recipe.steps.get(after.leg.step)?;
            words::corrected(step, recipe.rate_of(step), before.leg.due, after.leg.due, units)
        };
        self.said.replace(said);
        form.reset();
        self.done();
        None
    }

    /// What was done goes into the ledger, as far as it is ticked.
    fn write_down(self: &Rc<Self>, form: &HtmlFormElement) -> Option<()> {
        let named = forms::named(form);
        let note = named.get("note").map(|note| note.trim().to_owned()).unwrap_or_default();
        let ticked = |index: &usize| matches!(form.query_selector(&format!("#deed-{index}:checked")), Ok(Some(_)));
        let events: Vec<String> = self
            .deeds(note)
            .into_iter()
            .enumerate()
            .filter(|(index, _)| ticked(index))
            .map(|(_, deed)| Happened::of_no_moment(deed.what).to_text())
            .collect();
        if events.is_empty() || self.host.write_down(events) {
            self.forget();
            self.show();
            address::go("log");
        } else if let Some(fault) = self.document.get_element_by_id("session-fault") {
            fault.set_text_content(Some(
                "Not all of it could be written down; the top of the page says why. It still stands here: leave out what is in the \
                 record already.",
            ));
            dom::show(&fault, true);
        }
        None
    }

    fn deeds(&self, note: String) -> Vec<Deed> {
        let kept = self.kept.borrow();
        let Some(kept) = &*kept else { return Vec::new() };
        let units = self.units.get();
        let doubts = kept.doubts.iter().map(|doubt| words::uncertain(doubt, units)).collect();
        let session = kept.run.session(kept.began, self.clock.get().elapsed(), doubts, note);
        let mut deeds = deeds(&session, units);
        let left = |bottle: &BottleId| {
            let left = self.host.ask("left", &[bottle.as_str().into()])?.as_f64();
            left.map(Volume::from_millilitres)
        };
        let is_drawn = |bottle: &BottleId, volume: Volume| {
            let asked = [bottle.as_str().into(), volume.millilitres().into()];
            self.host
                .ask("drawn_today", &asked)
                .is_some_and(|drawn| drawn.is_truthy())
        };
        deeds.iter_mut().for_each(|deed| deed.compare(left, is_drawn, units));
        deeds
    }
}
