//! Sessions, and all that happened on the shelf, as CSV (RFC 4180): a line of names, then a line for every step or event. Numbers have
//! a decimal point and the unit that stands in the name, whatever the house shows.
//!
//! Words that a spreadsheet would take for a formula have an apostrophe before them (common practice, no source).

use crate::development::drift::Onward;
use crate::example::concerns_example;
use crate::ledger::{Bottle, Counts, Entry, Event, Shelf};
use crate::parts::{Found, step_words};
use crate::quantity::show::trimmed;
use crate::quantity::{Day, Span, Temperature, Units, Volume};
use crate::session::{Bath, Made, Rate, Session, Went};

/// The names of the columns. `number` counts what was done in a session, from 1, and is blank where a step was left out; `step`
/// is its place in the recipe, from 1. `planned`, `asked` and `given` are the time of the recipe, what it had become in the end, and
/// what it was. Of each bath there is as much as is known.
const COLUMNS: [&str; 37] = [
    "session",
    "day",
    "began_utc",
    "title",
    "films",
    "film_units",
    "length_s",
    "number",
    "step",
    "kind",
    "name",
    "begins_after_s",
    "planned_s",
    "asked_s",
    "given_s",
    "difference_s",
    "paused_s",
    "temperature_asked_celsius",
    "temperature_mean_celsius",
    "temperatures_read_celsius",
    "agitation_first_s",
    "agitation_each_s",
    "agitation_every_s",
    "bath",
    "bath_bottle",
    "bath_made",
    "concentrate_ml",
    "water_ml",
    "dilution",
    "activation_j_per_mol",
    "activation_is_assumed",
    "rate_at_celsius",
    "room_celsius",
    "time_constant_s",
    "figures",
    "doubts",
    "note",
];

/// The same of all that happened: an event has a line for each bottle in whose record it stands, or one alone. `left_ml` is what was
/// left in the bottle where that changed; `counts` is blank where nothing tells.
const LIFE: [&str; 9] = [
    "event",
    "day",
    "written_utc",
    "what",
    "bottle",
    "product",
    "words",
    "left_ml",
    "counts",
];

/// All that happened, first to last, the example left out. Words are in the units of the house.
pub fn life_csv(shelf: &Shelf, units: Units) -> String {
    let mut of_bottles = vec![Vec::new(); shelf.events.len()];
    for bottle in &shelf.bottles {
        for entry in &bottle.entries {
            of_bottles[entry.event].push((bottle, entry));
        }
    }
    let mut csv = Csv(LIFE.join(",") + "\r\n");
    let own = shelf.events.iter().zip(of_bottles);
    for (event, bottles) in own.filter(|(event, _)| !concerns_example(event)) {
        if bottles.is_empty() {
            csv.event(shelf, event, None, units);
        }
        for one in bottles {
            csv.event(shelf, event, Some(one), units);
        }
    }
    csv.0
}

/// The sessions that were found, the last first; those that cannot be read are left out.
pub fn csv(found: &Found) -> String {
    let mut csv = Csv(COLUMNS.join(",") + "\r\n");
    for logged in &found.sessions {
        let Ok(session) = &logged.session else { continue };
        let id = logged.event.id.to_string();
        for (at, went) in session.steps.iter().enumerate() {
            csv.line(
                session,
                [&id, &logged.event.day.to_string()],
                went.step,
                Some((at, went)),
            );
        }
        for (place, _) in session.left_out() {
            csv.line(session, [&id, &logged.event.day.to_string()], place, None);
        }
    }
    csv.0
}

struct Csv(String);

impl Csv {
    /// A step of the recipe, as it went where it was done.
    fn line(&mut self, session: &Session, [id, day]: [&str; 2], place: usize, done: Option<(usize, &Went)>) {
        let recipe = &session.recipe;
        let Some(step) = recipe.steps.get(place) else { return };
        self.words(id);
        self.words(day);
        self.moment(session.began);
        self.words(&recipe.title);
        self.words(&recipe.films);
        self.number(Some(recipe.units));
        self.time(Some(session.length()));
        self.number(done.map(|(at, _)| (at + 1) as f64));
        self.number(Some((place + 1) as f64));
        self.words(step.kind.word());
        self.words(&step_words(step));
        let went = done.map(|(_, went)| went);
        self.time(went.map(|went| went.began));
        self.time(Some(step.time));
        self.time(went.map(|went| went.due));
        self.time(went.map(|went| went.lasted));
        self.time(went.map(|went| went.lasted - went.due));
        self.time(went.map(|went| went.paused));
        self.temperature(step.temperature);
        self.temperature(went.and_then(Went::mean_temperature));
        let readings = went.map(|went| went.readings.as_slice()).unwrap_or_default().iter();
        let read = readings.map(|(at, temperature)| {
            let (celsius, at) = (trimmed(temperature.celsius(), 3), trimmed(at.seconds(), 3));
            format!("{celsius} at {at} s")
        });
        self.words(&read.collect::<Vec<_>>().join("; "));
        let agitation = step.agitation;
        self.time(agitation.map(|agitation| agitation.first));
        self.time(agitation.map(|agitation| agitation.each));
        self.time(agitation.map(|agitation| agitation.every));
        self.bath(recipe.bath(step.kind));
        self.rate(recipe.rate);
        let figures: Vec<String> = recipe
            .figures
            .iter()
            .map(|(is, shown)| format!("{is}: {shown}"))
            .collect();
        self.words(&figures.join("; "));
        self.words(&session.doubts.join(" "));
        self.words(&session.note);
        self.end();
    }

    /// What happened, to a bottle where it stands in the record of one.
    fn event(&mut self, shelf: &Shelf, event: &Event, of: Option<(&Bottle, &Entry)>, units: Units) {
        self.words(&event.id.to_string());
        self.words(&event.day.to_string());
        self.moment(event.at.milliseconds());
        self.words(event.what.word());
        let bottle = of.map(|(bottle, _)| bottle);
        self.words(bottle.map_or("", |bottle| bottle.id.as_str()));
        self.words(bottle.map_or("", |bottle| bottle.is.label.product.as_str()));
        self.words(&shelf.words(event, bottle.map(|bottle| bottle.id.as_str()), units));
        self.number(of.and_then(|(_, entry)| entry.left).map(Volume::millilitres));
        self.words(match of.map(|(_, entry)| entry.counts) {
            Some(Counts::Yes) => "yes",
            Some(Counts::TakenBack) => "taken back",
            Some(Counts::No) => "no",
            None => "",
        });
        self.end();
    }

    fn end(&mut self) {
        // In place of the comma after the last cell.
        self.0.pop();
        self.0 += "\r\n";
    }

    /// A moment in milliseconds since 1970, as ISO 8601 has it, to the second.
    fn moment(&mut self, milliseconds: i64) {
        let (day, [hour, minute, second]) = Day::in_utc(milliseconds);
        self.words(&format!("{day}T{hour:02}:{minute:02}:{second:02}Z"));
    }

    fn rate(&mut self, rate: Option<Rate>) {
        self.number(rate.map(|rate| rate.activation));
        self.words(match rate.and_then(|rate| rate.is_assumed) {
            Some(true) => "yes",
            Some(false) => "no",
            None => "",
        });
        self.temperature(rate.map(|rate| rate.at));
        let room = rate.and_then(|rate| match rate.onward {
            Onward::Held => None,
            Onward::Towards { room, tau } => Some((room, tau)),
        });
        self.temperature(room.map(|(room, _)| room));
        self.time(room.map(|(_, tau)| tau));
    }

    fn bath(&mut self, bath: Option<&Bath>) {
        self.words(bath.map_or("", |bath| &bath.words));
        self.words(bath.map_or("", |bath| &bath.bottle));
        match bath.map(|bath| &bath.made) {
            Some(Made::Mixed {
                concentrate,
                water,
                dilution,
            }) => {
                self.words("mixed");
                self.number(Some(concentrate.millilitres()));
                self.number(Some(water.millilitres()));
                self.words(&dilution.to_string());
            }
            made => {
                self.words(if made.is_some() { "reused" } else { "" });
                for _ in 0..3 {
                    self.words("");
                }
            }
        }
    }

    fn time(&mut self, span: Option<Span>) {
        self.number(span.map(Span::seconds));
    }

    fn temperature(&mut self, temperature: Option<Temperature>) {
        self.number(temperature.map(Temperature::celsius));
    }

    /// To the thousandth, as it is kept; nothing where there is none.
    fn number(&mut self, number: Option<f64>) {
        if let Some(number) = number {
            self.0 += &trimmed(number, 3);
        }
        self.0.push(',');
    }

    /// Words: what begins like a formula has an apostrophe before it, what holds a mark of CSV stands between quotation marks, and
    /// those in it are doubled.
    fn words(&mut self, text: &str) {
        let mark = |letter: char| matches!(letter, '"' | ',' | '\r' | '\n');
        let quoted = text.chars().any(mark);
        if quoted {
            self.0.push('"');
        }
        if matches!(text.bytes().next(), Some(b'=' | b'+' | b'-' | b'@' | b'\t' | b'\r')) {
            self.0.push('\'');
        }
        for letter in text.chars() {
            if letter == '"' {
                self.0.push('"');
            }
            self.0.push(letter);
        }
        self.0 += if quoted { "\"," } else { "," };
    }
}
