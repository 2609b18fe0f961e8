//! The shelf as it is shown: every bottle, the record of one, and what can be done with it.

use std::rc::Rc;

use gloo_events::{EventListener, EventListenerOptions};
use web_sys::Event;

use super::{App, annex, answers, clock, dom, forms, ledger, rooms};
use crate::calculators;
use crate::entries::{DEED_NAMES, PLACE_FORM};
use crate::kit::Treatment;
use crate::ledger::{Bottle, BottleId, Description, EventId, Opened, What};
use crate::quantity::{Day, Volume};

/// The room of all bottles.
const SHELF: &str = "shelf";
/// The room of one bottle.
const RECORD: &str = "record";

/// The form of a bottle.
const BOTTLE: &str = "bottle";

/// Listens to the shelf.
pub fn start(app: &Rc<App>) {
    on_submit(app, BOTTLE, |app| keep_bottle(&app));
    for name in [PLACE_FORM].into_iter().chain(DEED_NAMES) {
        on_submit(app, name, move |app| do_deed(&app, name));
    }
    let cleared = {
        let app = Rc::clone(app);
        move |_: &Event| {
            forget_edit(&app);
            forms::show_faults(&app.document, BOTTLE, &[]);
        }
    };
    if let Some(form) = forms::form(&app.document, BOTTLE) {
        app.own(EventListener::new(&form, "reset", cleared));
    }
    let clicked = {
        let app = Rc::clone(app);
        move |event: &Event| on_click(&app, event)
    };
    app.own(EventListener::new(&app.document, "click", clicked));
}

fn on_submit(app: &Rc<App>, name: &str, then: impl Fn(Rc<App>) + 'static) {
    let Some(form) = forms::form(&app.document, name) else {
        return;
    };
    let app_then = Rc::clone(app);
    let submitted = move |event: &Event| {
        event.prevent_default();
        then(Rc::clone(&app_then));
    };
    let options = EventListenerOptions::enable_prevent_default();
    app.own(EventListener::new_with_options(&form, "submit", options, submitted));
}

/// Shows the shelf as it stands, if it is looked at.
pub fn show(app: &Rc<App>) {
    let room = rooms::current(app);
    if room != SHELF && room != RECORD {
        return;
    }
    annex::want(app);
    {
        let darkroom = app.darkroom.borrow();
        if let Some(none) = app.document.get_element_by_id("no-bottles") {
            dom::show(&none, darkroom.shelf.standing().next().is_none());
        }
        let has_example = ledger::has_example(app);
        for (id, shown) in [("example-there", has_example), ("example-offer", !has_example)] {
            if let Some(place) = app.document.get_element_by_id(id) {
                dom::show(&place, shown);
            }
        }
    }
    show_texts(app, [("places", "place_names")]);
    match room == SHELF {
        true => {
            show_takes(app, [BOTTLE, PLACE_FORM]);
            show_texts(app, [("bottles", "bottles"), ("place-list", "places")]);
        }
        false => {
            show_takes(app, DEED_NAMES);
            show_record(app);
        }
    }
}

/// What the fields of the forms take, in the user's units.
fn show_takes<const N: usize>(app: &App, forms: [&str; N]) {
    for form in forms {
        forms::show_takes(&app.document, form, annex::takes(app, form));
    }
}

/// What the annex says, in the places of the page.
fn show_texts<const N: usize>(app: &App, texts: [(&str, &str); N]) {
    for (id, function) in texts {
        if let (Some(place), Some(text)) = (app.document.get_element_by_id(id), annex::text(app, function, &[])) {
            place.set_inner_html(&text);
        }
    }
}

/// Shows the record of the bottle that the address names.
fn show_record(app: &App) {
    let Some(id) = rooms::detail(RECORD) else { return };
    let known = annex::record(app, &id);
    let mut written = app.written.borrow_mut();
    let Some(place) = written.of(&app.document, RECORD) else {
        return;
    };
    let stands = {
        let darkroom = app.darkroom.borrow();
        let bottle = darkroom.shelf.bottle(&id);
        bottle.is_some_and(|bottle| bottle.discarded.is_none())
    };
    for part in dom::all(&app.document, "[data-room=record] .deeds, [data-room=record] .after") {
        dom::show(&part, stands);
    }
    match known {
        Some(Some(shown)) => {
            place.write_parts(shown.parts);
            place.write_head(shown.head);
        }
        Some(None) => {
            place.write_parts(Vec::new());
            place.write_head(vec![
                "<p class=\"alert\">There is no such bottle on this device.</p>".to_owned(),
            ]);
        }
        None => {}
    }
}

fn on_click(app: &Rc<App>, event: &Event) {
    let Some(button) = dom::pressed(event) else { return };
    if let Some(id) = button.get_attribute("data-draw-again") {
        draw_again(app, &id);
    } else if button.has_attribute("data-opened") {
        if let Some(bottle) = in_record(app) {
            write_down(app, [What::Opened { bottle }]);
        }
    } else if button.has_attribute("data-squeezed") {
        if let Some(bottle) = in_record(app) {
            let how = Treatment::Squeezed;
            write_down(app, [What::Treated { bottle, how }]);
        }
    } else if button.has_attribute("data-change-bottle") {
        edit(app);
    } else if button.has_attribute("data-example") {
        show_example(app);
    } else if button.has_attribute("data-example-away") {
        ledger::drop_example(app);
    } else if button.has_attribute("data-label") {
        print_label(app);
    } else if button.has_attribute("data-to-keeping") {
        to_keeping(app);
    } else if button.has_attribute("data-mixed") {
        write_mix(app);
    }
}

fn show_example(app: &Rc<App>) {
    let today = clock::today().days();
    if let Some(texts) = annex::call(app, "example", &[today.into()]) {
        ledger::show_example(app, &dom::texts(&texts.into()));
    }
}

/// Prints the label of the bottle, and nothing else of the page.
fn print_label(app: &App) {
    let (Some(id), Some(window)) = (rooms::detail(RECORD), web_sys::window()) else {
        return;
    };
    let address = window.location().href().unwrap_or_default();
    let label = annex::text(app, "label", &[id.into(), address.into()]);
    let (Some(place), Some(label), Some(body)) = (app.document.get_element_by_id("label"), label, app.document.body())
    else {
        return;
    };
    place.set_inner_html(&label);
    body.set_class_name("labelling");
    let printed = window.print();
    debug_assert!(printed.is_ok());
    body.set_class_name("");
}

/// The same bottle in the calculator, where every assumption can be changed.
fn to_keeping(app: &Rc<App>) {
    let Some(bottle) = in_record(app) else { return };
    if let Some(select) = forms::control(&app.document, "keeping", "bottle") {
        dom::set_value(&select, bottle.as_str());
        rooms::go("keeping");
    }
}

/// The bath of Mix was made: its concentrate was drawn from the bottle that is picked there.
fn write_mix(app: &Rc<App>) {
    let Some(form) = forms::form(&app.document, "mix") else {
        return;
    };
    let named = forms::named(&form);
    let drawn = {
        let darkroom = app.darkroom.borrow();
        let bottle = named.get("bottle").and_then(|id| darkroom.shelf.bottle(id));
        let answer = calculators::at_the_sink("mix").map(|mix| mix.answer(&named, &darkroom));
        bottle.zip(answer).and_then(|(bottle, answer)| {
            let volume = |name: &str| {
                let figure = answer.sheet.figure(name)?;
                Some(Volume::from_millilitres(figure.value))
            };
            let concentrate = volume("concentrate")?;
            Some(What::Drawn {
                bottle: bottle.id.clone(),
                volume: concentrate,
                bath: volume("water").map(|water| concentrate + water),
                dilution: named.get("dilution").and_then(|text| text.parse().ok()),
                purpose: String::new(),
            })
        })
    };
    write_down(app, drawn);
}

/// The bottle whose record is shown.
fn in_record(app: &App) -> Option<BottleId> {
    let id = rooms::detail(RECORD)?;
    Some(app.darkroom.borrow().shelf.bottle(&id)?.id.clone())
}

fn draw_again(app: &Rc<App>, id: &str) {
    let again = {
        let darkroom = app.darkroom.borrow();
        darkroom.shelf.bottle(id).and_then(|bottle| {
            let last = bottle.draws.last()?;
            Some(What::Drawn {
                bottle: bottle.id.clone(),
                volume: last.volume,
                bath: None,
                dilution: None,
                purpose: String::new(),
            })
        })
    };
    write_down(app, again);
}

/// Reads a form and writes down what it says, or shows all that is wrong.
fn do_deed(app: &Rc<App>, name: &str) {
    let bottle = in_record(app);
    if name != PLACE_FORM && bottle.is_none() {
        return;
    }
    let Some(said) = said(app, name, bottle.as_ref().map_or("", BottleId::as_str)) else {
        return;
    };
    let whats = said.whats.into_iter().map(|what| match what {
        What::Decanted { from, mut into } => {
            for filled in &mut into {
                filled.bottle = ledger::new_bottle_id();
            }
            What::Decanted { from, into }
        }
        what => what,
    });
    if write_down(app, whats) {
        done_with(app, name);
    }
}

/// What a form says, unless something is wrong with it, which is then shown.
fn said(app: &App, name: &str, bottle: &str) -> Option<annex::Said> {
    let form = forms::form(&app.document, name)?;
    let said = annex::said(app, name, &forms::named(&form), bottle)?;
    forms::show_faults(&app.document, name, &said.faults);
    forms::focus_first(&app.document, name, &said.faults);
    said.faults.is_empty().then_some(said)
}

fn done_with(app: &App, name: &str) {
    if let Some(form) = forms::form(&app.document, name) {
        form.reset();
    }
    forms::close(&app.document, name);
}

/// Writes down what happened on the day that stands above the forms, and offers the way back. Whether it was kept.
fn write_down(app: &Rc<App>, whats: impl IntoIterator<Item = What>) -> bool {
    let day = day(app);
    let mut last = None;
    for what in whats {
        match ledger::record_on(app, day, what) {
            Some(event) => last = Some(event),
            None => return false,
        }
    }
    if let Some(event) = last {
        offer_undo(app, event);
    }
    last.is_some()
}

fn offer_undo(app: &Rc<App>, event: EventId) {
    let words = annex::text(app, "words", &[event.to_string().into()]);
    let words = words.map_or("Written down.".to_owned(), |words| crate::fields::sentence(&words));
    ledger::offer_undo(app, event, &words);
}

/// The day that the user says it was, or today.
fn day(app: &App) -> Day {
    let field = app.document.get_element_by_id("deed-day");
    let said = field.and_then(|field| dom::value(&field).parse().ok());
    said.filter(|_| rooms::detail(RECORD).is_some())
        .unwrap_or_else(clock::today)
}

/// Opens the form with the bottle in it.
fn edit(app: &App) {
    let Some(id) = in_record(app) else { return };
    let named = annex::known(app, id.as_str());
    rooms::go(SHELF);
    forms::open(&app.document, BOTTLE, &named, id.as_str());
}

fn forget_edit(app: &App) {
    if let Some(form) = forms::form(&app.document, BOTTLE) {
        form.dataset().delete("id");
    }
}

/// A bottle as its form tells of it.
struct Told {
    is: Description,
    filled: Option<Volume>,
    opened: Opened,
    place: String,
}

/// Reads the form of a bottle: a new one, or what is known anew of one that stands here.
fn keep_bottle(app: &Rc<App>) {
    let Some(form) = forms::form(&app.document, BOTTLE) else {
        return;
    };
    let Some(said) = said(app, BOTTLE, "") else { return };
    let Some(What::Added { is, filled, opened, .. }) = said.whats.into_iter().next() else {
        return;
    };
    let told = Told {
        is: *is,
        filled,
        opened,
        place: said.place,
    };
    let known = form.dataset().get("id").and_then(|id| {
        let darkroom = app.darkroom.borrow();
        darkroom.shelf.bottle(&id).cloned()
    });
    match known {
        Some(bottle) => change(app, &bottle, told),
        None => add(app, told),
    }
    done_with(app, BOTTLE);
}

fn add(app: &Rc<App>, told: Told) {
    let bottle = ledger::new_bottle_id();
    let added = What::Added {
        bottle: bottle.clone(),
        is: Box::new(told.is),
        filled: told.filled,
        opened: told.opened,
    };
    let Some(event) = ledger::record(app, added) else {
        return;
    };
    if !told.place.is_empty() {
        let place = told.place;
        ledger::record(app, What::Moved { bottle, place });
    }
    offer_undo(app, event);
}

/// Writes down only what is said otherwise than before.
fn change(app: &Rc<App>, bottle: &Bottle, told: Told) {
    let id = &bottle.id;
    let mut is = told.is;
    // What the form does not ask for stays.
    is.container.name.clone_from(&bottle.is.container.name);
    is.container.wall_area = bottle.is.container.wall_area;
    is.container.thickness = bottle.is.container.thickness;
    let mut last = None;
    if told.opened != bottle.opened {
        last = add_again(app, bottle, &is, told.opened).or(last);
    } else if is != bottle.is {
        let is = Box::new(is);
        last = ledger::record(app, What::BottleNoted { bottle: id.clone(), is });
    }
    if let Some(left) = told.filled.filter(|filled| Some(*filled) != bottle.left()) {
        last = ledger::record(
            app,
            What::ContentNoted {
                bottle: id.clone(),
                left,
            },
        )
        .or(last);
    }
    let place = {
        let darkroom = app.darkroom.borrow();
        bottle.now.place.map(|place| darkroom.shelf.places[place].name.clone())
    };
    if !told.place.is_empty() && place.as_ref() != Some(&told.place) {
        let place = told.place;
        last = ledger::record(
            app,
            What::Moved {
                bottle: id.clone(),
                place,
            },
        )
        .or(last);
    }
    if let Some(event) = last {
        offer_undo(app, event);
        answers::take_from_changed_bottle(app, id.as_str());
        answers::show_room(app);
    }
}

/// How a bottle came is said anew by taking its coming back and adding it again under its name.
fn add_again(app: &Rc<App>, bottle: &Bottle, is: &Description, opened: Opened) -> Option<EventId> {
    let earlier = {
        let darkroom = app.darkroom.borrow();
        let events = bottle.entries.iter().map(|entry| &darkroom.shelf.events[entry.event]);
        let mut events =
            events.filter(|event| matches!(&event.what, What::Added { bottle: added, .. } if *added == bottle.id));
        events.next().cloned()?
    };
    let What::Added { filled, .. } = earlier.what else {
        return None;
    };
    let added = What::Added {
        bottle: bottle.id.clone(),
        is: Box::new(is.clone()),
        filled,
        opened,
    };
    ledger::record(app, What::Corrected { event: earlier.id })?;
    ledger::record_instead(app, &earlier, added)
}
