//! wasm only: the two strips in the page. It draws, listens, and asks the threads of the pictures.

mod dom;
mod form;
mod picture;

use std::cell::RefCell;
use std::rc::Rc;

use gloo_events::EventListener;
use js_sys::Array;
use wasm_bindgen::JsCast;
use wasm_bindgen::prelude::*;
use web_sys::{Document, Element, Event, HtmlElement, HtmlInputElement, PointerEvent};

use super::markup::{self, MOST_PATCHES, SIDES};
use super::strip::{Found, Spot, Strip};
use crate::proof::sampling::Coding;
use crate::quantity::held::held;
use crate::quantity::show::trimmed;
use picture::Picture;

/// The strips, by the fields of the form that their readings go into.
const STRIPS: [(&str, &str); 2] = [("first", "Strip under test"), ("second", "Fresh strip")];

const BROKE: &str = "This picture could not be read: it is damaged, or too large for this device.";

/// Everything that lives while the pictures are open.
struct Room {
    document: Document,
    place: Element,
    button: HtmlElement,
    /// Where the module's files are.
    folder: String,
    form: String,
    strips: [RefCell<OnTable>; 2],
    listeners: RefCell<Vec<EventListener>>,
}

/// A strip, its picture if there is one, and what is under way.
#[derive(Default)]
struct OnTable {
    strip: Strip,
    picture: Option<Picture>,
    /// The number of the last question, and whether it is answered.
    round: u32,
    waits: bool,
    /// Something changed since it was asked.
    changed: bool,
    /// Where a drag began, and what stood there before.
    drag: Option<((f64, f64), Spot)>,
}

thread_local! {
    static ROOM: RefCell<Option<Rc<Room>>> = const { RefCell::new(None) };
}

/// Opens the two strips in a place of the page, for the form that the button names; `folder` is the address of the module's files.
///
/// # Errors
///
/// If there is no document.
#[wasm_bindgen]
pub fn open(place: Element, button: HtmlElement, folder: String) -> Result<(), JsValue> {
    if ROOM.with_borrow(Option::is_some) {
        return Ok(());
    }
    let document = web_sys::window().and_then(|window| window.document());
    let document = document.ok_or_else(|| JsError::new("there is no document"))?;
    place.set_inner_html(&markup::room_of_strips(STRIPS).into_string());
    dom::show(&button, false);
    let room = Rc::new(Room {
        document,
        form: button.dataset().get("form").unwrap_or_default(),
        place,
        button,
        folder,
        strips: Default::default(),
        listeners: RefCell::default(),
    });
    room.listen();
    ROOM.set(Some(Rc::clone(&room)));
    room.focus("scan-first-file");
    Ok(())
}

impl Room {
    fn listen(self: &Rc<Self>) {
        type Call = fn(&Rc<Room>, &Event) -> Option<()>;
        let calls: [(&'static str, Call); 7] = [
            ("click", Self::pressed),
            ("change", Self::changed),
            ("input", Self::typed),
            ("pointerdown", Self::down),
            ("pointermove", Self::moved),
            ("pointerup", Self::up),
            ("pointercancel", Self::called_off),
        ];
        let mut listeners = self.listeners.borrow_mut();
        for (name, call) in calls {
            let room = Rc::clone(self);
            listeners.push(EventListener::new(&self.place, name, move |event| {
                call(&room, event);
            }));
        }
        if let Some(window) = web_sys::window() {
            let room = Rc::clone(self);
            // The page has shown another room by then, if there is another.
            listeners.push(EventListener::new(&window, "hashchange", move |_| {
                let gone = room.place.closest("[data-room][hidden]");
                if !matches!(gone, Ok(None)) {
                    room.close();
                }
            }));
        }
    }

    /// Gives all back: the pictures, their threads, and what was drawn.
    fn close(&self) {
        for table in &self.strips {
            table.take();
        }
        self.place.set_inner_html("");
        dom::show(&self.button, true);
        ROOM.set(None);
        self.listeners.take();
    }

    fn by_id(&self, id: &str) -> Option<Element> {
        self.document.get_element_by_id(id)
    }

    fn of_strip(&self, index: usize, end: &str) -> Option<Element> {
        self.by_id(&format!("scan-{}-{end}", STRIPS[index].0))
    }

    fn focus(&self, id: &str) {
        if let Some(element) = self
            .by_id(id)
            .and_then(|element| element.dyn_into::<HtmlElement>().ok())
        {
            let done = element.focus();
            debug_assert!(done.is_ok());
        }
    }

    /// The strip that an event happened in.
    fn strip_of(event: &Event) -> Option<(usize, Element)> {
        let target: Element = event.target()?.dyn_into().ok()?;
        let strip = target.closest("[data-strip]").ok()??.get_attribute("data-strip")?;
        let index = STRIPS.iter().position(|(name, _)| *name == strip)?;
        Some((index, target))
    }

    fn pressed(self: &Rc<Self>, event: &Event) -> Option<()> {
        let target: Element = event.target()?.dyn_into().ok()?;
        let button = target.closest("button").ok()??;
        if button.has_attribute("data-use") {
            self.write_into_form();
        } else if button.has_attribute("data-close") {
            self.close();
            let done = self.button.focus();
            debug_assert!(done.is_ok());
        }
        let (index, _) = Self::strip_of(event)?;
        let area = |name: &str| button.get_attribute(name)?.parse::<usize>().ok();
        let mut table = self.strips[index].borrow_mut();
        if let Some(area) = area("data-choose") {
            table.strip.chosen = area;
        } else if let Some(area) = area("data-remove") {
            table.strip.remove(area);
        } else if button.has_attribute("data-add") && table.strip.areas.len() <= MOST_PATCHES {
            table.strip.add();
        }
        let chosen = table.strip.chosen;
        drop(table);
        self.show_chosen(index);
        self.measure(index);
        if !button.is_connected() {
            self.focus(&format!("scan-{}-choose-{chosen}", STRIPS[index].0));
        }
        Some(())
    }

    fn changed(self: &Rc<Self>, event: &Event) -> Option<()> {
        let target: Element = event.target()?.dyn_into().ok()?;
        if target.id() == "scan-coding" || target.id() == "scan-inverted" {
            if let Some(gamma) = self.by_id("scan-gamma").and_then(|gamma| gamma.parent_element()) {
                dom::show(&gamma, self.value("scan-coding") == "gamma");
            }
            (0..STRIPS.len()).for_each(|index| self.measure(index));
        }
        let (index, target) = Self::strip_of(event)?;
        let input: HtmlInputElement = target.dyn_into().ok()?;
        let file = (input.type_() == "file").then(|| input.files())?;
        self.take_file(index, file.and_then(|files| files.get(0)));
        Some(())
    }

    fn typed(self: &Rc<Self>, event: &Event) -> Option<()> {
        let target: Element = event.target()?.dyn_into().ok()?;
        if target.id() == "scan-gamma" {
            let (least, most) = Coding::GAMMAS;
            let fault = format!("Give a number from {} to {}.", trimmed(least, 1), trimmed(most, 1));
            dom::show_fault(&self.document, &target, self.coding().is_none().then_some(&*fault));
            (0..STRIPS.len()).for_each(|index| self.measure(index));
        }
        let (index, target) = Self::strip_of(event)?;
        let side = target.get_attribute("data-side")?;
        let side = SIDES.iter().position(|(name, _)| *name == side)?;
        let mut table = self.strips[index].borrow_mut();
        let spot = table.strip.chosen();
        spot.typed[side] = dom::value(&target);
        spot.found = None;
        drop(table);
        self.show_faults(index);
        self.measure(index);
        Some(())
    }

    /// The place in the picture that a pointer is at, in hundredths, and which strip it is.
    fn at(event: &Event) -> Option<(usize, Element, (f64, f64))> {
        let (index, target) = Self::strip_of(event)?;
        let pointer: &PointerEvent = event.dyn_ref()?;
        let stage = target.closest(".stage").ok()??;
        let frame = stage.get_bounding_client_rect();
        let percent = |at: f64, from: f64, long: f64| held((at - from) / long * 100.0, 0.0, 100.0);
        let x = percent(pointer.client_x().into(), frame.left(), frame.width());
        let y = percent(pointer.client_y().into(), frame.top(), frame.height());
        Some((index, stage, (x, y)))
    }

    fn down(self: &Rc<Self>, event: &Event) -> Option<()> {
        let (index, stage, at) = Self::at(event)?;
        let pointer: &PointerEvent = event.dyn_ref()?;
        if !pointer.is_primary() || pointer.button() != 0 {
            return None;
        }
        // Without it the drag ends at the edge.
        stage.set_pointer_capture(pointer.pointer_id()).ok();
        let mut table = self.strips[index].borrow_mut();
        let before = table.strip.chosen().clone();
        table.drag = Some((at, before));
        Some(())
    }

    fn moved(self: &Rc<Self>, event: &Event) -> Option<()> {
        let (index, _, at) = Self::at(event)?;
        let mut table = self.strips[index].borrow_mut();
        let from = table.drag.as_ref()?.0;
        *table.strip.chosen() = Spot::between(from, at);
        drop(table);
        self.draw(index);
        Some(())
    }

    fn up(self: &Rc<Self>, event: &Event) -> Option<()> {
        let (index, _, at) = Self::at(event)?;
        let mut table = self.strips[index].borrow_mut();
        let (from, before) = table.drag.take()?;
        // A tap draws nothing.
        if from == at || (from.0 - at.0).abs().min((from.1 - at.1).abs()) < 0.1 {
            *table.strip.chosen() = before;
        } else {
            *table.strip.chosen() = Spot::between(from, at);
            table.strip.choose_next();
        }
        drop(table);
        self.show_chosen(index);
        self.measure(index);
        Some(())
    }

    fn called_off(self: &Rc<Self>, event: &Event) -> Option<()> {
        let (index, _) = Self::strip_of(event)?;
        let mut table = self.strips[index].borrow_mut();
        let (_, before) = table.drag.take()?;
        *table.strip.chosen() = before;
        drop(table);
        self.show(index);
        Some(())
    }

    /// Another picture, or none.
    fn take_file(self: &Rc<Self>, index: usize, file: Option<web_sys::File>) {
        let mut table = self.strips[index].borrow_mut();
        // The one that was there goes first.
        table.picture = None;
        table.waits = false;
        for spot in &mut table.strip.areas {
            spot.found = None;
        }
        let has_file = file.is_some();
        let come = file.and_then(|file| {
            let room = Rc::clone(self);
            Picture::open(&self.folder, &file, move |reply| room.heard(index, reply)).ok()
        });
        let failed = has_file && come.is_none();
        table.picture = come;
        drop(table);
        self.show_fault(index, failed.then_some(BROKE));
        self.say(
            index,
            if has_file && !failed {
                "The picture is being read."
            } else {
                ""
            },
        );
        self.show_open(index, false);
    }

    /// What the thread of a picture says; nothing if it broke down.
    fn heard(self: &Rc<Self>, index: usize, reply: Option<Array>) {
        let Some(reply) = reply else {
            return self.refuse(index, BROKE);
        };
        let first = reply.get(0);
        match first.as_string().as_deref() {
            Some("here") => {
                let text = |at| trimmed(reply.get(at).as_f64().unwrap_or_default(), 0);
                let shown = self
                    .of_strip(index, "stage")
                    .map(|stage| dom::paint(&stage, &reply.get(4)));
                if !matches!(shown, Some(Ok(()))) {
                    return self.refuse(index, BROKE);
                }
                self.say(index, &format!("{} by {} pixels, {} bits.", text(1), text(2), text(3)));
                self.show_open(index, true);
                self.show_chosen(index);
                self.measure(index);
            }
            Some(_) => self.refuse(index, &reply.get(1).as_string().unwrap_or_default()),
            None => self.found(
                index,
                first.as_f64().unwrap_or_default() as u32,
                &Array::from(&reply.get(1)),
            ),
        }
    }

    fn refuse(&self, index: usize, why: &str) {
        let gone = self.strips[index].borrow_mut().picture.take();
        drop(gone);
        self.say(index, "");
        self.show_open(index, false);
        self.show_fault(index, Some(why));
    }

    /// Asks for the densities of the areas, unless an answer is still to come: then after it.
    fn measure(self: &Rc<Self>, index: usize) {
        let mut table = self.strips[index].borrow_mut();
        table.changed = true;
        if !table.waits
            && let Some(coding) = self.coding()
            && let Some(picture) = &table.picture
        {
            let places = table
                .strip
                .areas
                .iter()
                .flat_map(|spot| spot.percent().unwrap_or([f64::NAN; 4]));
            let places: Vec<f64> = places.collect();
            let inverted = self.value("scan-inverted") == "yes";
            picture.ask(table.round + 1, coding, inverted, &places);
            table.round += 1;
            table.waits = true;
            table.changed = false;
        }
        for spot in &mut table.strip.areas {
            if spot.percent().is_none() {
                spot.found = None;
            }
        }
        drop(table);
        self.show(index);
    }

    fn found(self: &Rc<Self>, index: usize, round: u32, areas: &Array) {
        let mut table = self.strips[index].borrow_mut();
        if round != table.round {
            return;
        }
        table.waits = false;
        if table.changed {
            drop(table);
            return self.measure(index);
        }
        for (spot, found) in table.strip.areas.iter_mut().zip(areas.iter()) {
            let found = found.dyn_into::<Array>().ok();
            spot.found = found.map(|found| {
                let text = found.get(1).as_string().unwrap_or_default();
                match found.get(0).is_truthy() {
                    true => Found::Reading(text),
                    false => Found::Fault(text),
                }
            });
        }
        drop(table);
        self.show(index);
    }

    /// How brightness is written: which way, and its gamma; nothing while that is not a number that is taken.
    fn coding(&self) -> Option<(u32, f64)> {
        match self.value("scan-coding").as_str() {
            "srgb" => Some((0, 0.0)),
            "linear" => Some((1, 0.0)),
            _ => {
                let gamma = self.value("scan-gamma").trim().replace(',', ".").parse().ok()?;
                Coding::gamma(gamma).map(|_| (2, gamma))
            }
        }
    }

    fn value(&self, id: &str) -> String {
        self.by_id(id).map(|control| dom::value(&control)).unwrap_or_default()
    }

    fn say(&self, index: usize, words: &str) {
        if let Some(place) = self.of_strip(index, "said") {
            place.set_text_content(Some(words));
        }
    }

    fn show_open(&self, index: usize, open: bool) {
        if let Some(place) = self.of_strip(index, "open") {
            dom::show(&place, open);
        }
        if !open && let Some(stage) = self.of_strip(index, "stage") {
            dom::wipe(&stage);
        }
    }

    fn show_fault(&self, index: usize, why: Option<&str>) {
        if let Some(control) = self.of_strip(index, "file") {
            dom::show_fault(&self.document, &control, why);
        }
    }

    fn show_faults(&self, index: usize) {
        let faults = self.strips[index].borrow_mut().strip.chosen().faults();
        for ((side, _), fault) in SIDES.iter().zip(faults) {
            if let Some(control) = self.of_strip(index, side) {
                dom::show_fault(&self.document, &control, fault);
            }
        }
    }

    /// Shows which area is drawn and typed, and where it is.
    fn show_chosen(&self, index: usize) {
        let mut table = self.strips[index].borrow_mut();
        let chosen = table.strip.chosen;
        if let Some(legend) = self.of_strip(index, "chosen") {
            legend.set_text_content(Some(&format!("{}: where it is", Strip::name(chosen))));
        }
        for ((side, _), typed) in SIDES.iter().zip(table.strip.chosen().typed.clone()) {
            if let Some(control) = self.of_strip(index, side) {
                dom::set_value(&control, &typed);
            }
        }
        drop(table);
        self.show_faults(index);
    }

    /// Shows the areas, on the picture and in their list.
    fn show(&self, index: usize) {
        self.draw(index);
        let table = self.strips[index].borrow();
        if let Some(list) = self.of_strip(index, "areas") {
            Self::show_areas(&list, STRIPS[index].0, &table.strip);
        }
        let add = self
            .place
            .query_selector(&format!("[data-strip={}] [data-add]", STRIPS[index].0));
        if let Ok(Some(add)) = add {
            dom::show(&add, table.strip.areas.len() <= MOST_PATCHES);
        }
    }

    /// Buttons that are there stay: one may be under a finger.
    fn show_areas(list: &Element, name: &str, strip: &Strip) {
        let items = list.children();
        if items.length() as usize != strip.areas.len() {
            return list.set_inner_html(&markup::areas(name, strip).into_string());
        }
        for (area, spot) in strip.areas.iter().enumerate() {
            let Some(item) = items.item(area as u32) else { continue };
            if let Some(button) = item.first_element_child() {
                dom::press(&button, area == strip.chosen);
            }
            let html = markup::state(spot).into_string();
            if let Ok(Some(state)) = item.query_selector("span")
                && state.outer_html() != html
            {
                state.set_outer_html(&html);
            }
        }
    }

    fn draw(&self, index: usize) {
        let table = self.strips[index].borrow();
        if let Some(drawing) = self.of_strip(index, "drawing") {
            drawing.set_inner_html(&markup::drawing(&table.strip).into_string());
        }
    }

    /// Writes the readings of each strip into its field, as if they had been typed.
    fn write_into_form(&self) {
        let said = form::write(self).unwrap_or_else(|why| why);
        if let Some(place) = self.by_id("scan-said") {
            place.set_text_content(Some(&said));
        }
    }
}
