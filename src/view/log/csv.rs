//! Sessions as CSV (RFC 4180): a line of names, then a line for every step. Numbers have a decimal point and the unit that stands in
//! the name, whatever the house shows.
//!
//! Words that a spreadsheet would take for a formula have an apostrophe before them (common practice, no source).

use crate::parts::{Found, step_words};
use crate::quantity::show::trimmed;
use crate::quantity::{Day, Span, Temperature};
use crate::session::{Agitation, Made, Session, Step, Went};

/// The names of the columns. `number` counts what was done in a session, from 1, and is blank where a step was left out; `step`
/// is its place in the recipe, from 1. `planned`, `asked` and `given` are the time of the recipe, what it had become in the end, and
/// what it was. Of each bath there is as much as is known.
const COLUMNS: [&str; 34] = [
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
    "rate_at_celsius",
    "figures",
    "doubts",
    "note",
];

/// The sessions that were found, the last first; those that cannot be read are left out.
pub fn csv(found: &Found) -> String {
    let mut lines = COLUMNS.join(",") + "\r\n";
    for logged in &found.sessions {
        let Ok(session) = &logged.session else { continue };
        let (before, after) = of_the_session(session, &logged.event.id.to_string(), logged.event.day);
        for (at, went) in session.steps.iter().enumerate() {
            if let Some(step) = session.step(went) {
                line(
                    &mut lines,
                    [&before, &of_a_step(session, went.step, step, Some((at, went))), &after],
                );
            }
        }
        for (place, step) in session.left_out() {
            line(&mut lines, [&before, &of_a_step(session, place, step, None), &after]);
        }
    }
    lines
}

fn line(lines: &mut String, parts: [&Vec<String>; 3]) {
    let cells: Vec<&str> = parts.into_iter().flatten().map(String::as_str).collect();
    *lines += &cells.join(",");
    *lines += "\r\n";
}

/// What stands before the step, and what after it.
fn of_the_session(session: &Session, id: &str, day: Day) -> (Vec<String>, Vec<String>) {
    let recipe = &session.recipe;
    let before = vec![
        words(id),
        day.to_string(),
        moment(session.began),
        words(&recipe.title),
        words(&recipe.films),
        trimmed(recipe.units, 3),
        seconds(session.length()),
    ];
    let figures: Vec<String> = recipe
        .figures
        .iter()
        .map(|(is, shown)| format!("{is}: {shown}"))
        .collect();
    let rate = recipe.rate;
    let after = vec![
        rate.map(|rate| trimmed(rate.activation, 0)).unwrap_or_default(),
        celsius(rate.map(|rate| rate.at)),
        words(&figures.join("; ")),
        words(&session.doubts.join(" ")),
        words(&session.note),
    ];
    (before, after)
}

fn of_a_step(session: &Session, place: usize, step: &Step, done: Option<(usize, &Went)>) -> Vec<String> {
    let went = done.map(|(_, went)| went);
    let time = |of: fn(&Went) -> Span| went.map(|went| seconds(of(went))).unwrap_or_default();
    let readings = went.map(|went| went.readings.as_slice()).unwrap_or_default();
    let readings: Vec<String> = readings
        .iter()
        .map(|(at, read)| format!("{} at {} s", trimmed(read.celsius(), 3), seconds(*at)))
        .collect();
    let agitated = |of: fn(Agitation) -> Span| {
        let agitation = step.agitation.map(|agitation| seconds(of(agitation)));
        agitation.unwrap_or_default()
    };
    let bath = session.recipe.bath(step.kind);
    let [made, concentrate, water, dilution] = match bath.map(|bath| &bath.made) {
        None => [const { String::new() }; 4],
        Some(Made::Reused) => ["reused".to_owned(), String::new(), String::new(), String::new()],
        Some(Made::Mixed {
            concentrate,
            water,
            dilution,
        }) => [
            "mixed".to_owned(),
            trimmed(concentrate.millilitres(), 3),
            trimmed(water.millilitres(), 3),
            words(&dilution.to_string()),
        ],
    };
    vec![
        done.map(|(at, _)| (at + 1).to_string()).unwrap_or_default(),
        (place + 1).to_string(),
        step.kind.word().to_owned(),
        words(&step_words(step)),
        time(|went| went.began),
        seconds(step.time),
        time(|went| went.due),
        time(|went| went.lasted),
        time(|went| went.lasted - went.due),
        time(|went| went.paused),
        celsius(step.temperature),
        celsius(went.and_then(Went::mean_temperature)),
        words(&readings.join("; ")),
        agitated(|agitation| agitation.first),
        agitated(|agitation| agitation.each),
        agitated(|agitation| agitation.every),
        words(bath.map_or("", |bath| &bath.words)),
        words(bath.map_or("", |bath| &bath.bottle)),
        made,
        concentrate,
        water,
        dilution,
    ]
}

fn seconds(span: Span) -> String {
    trimmed(span.seconds(), 3)
}

fn celsius(temperature: Option<Temperature>) -> String {
    temperature
        .map(|temperature| trimmed(temperature.celsius(), 3))
        .unwrap_or_default()
}

/// A moment as ISO 8601 has it, to the second.
fn moment(milliseconds: i64) -> String {
    let seconds = milliseconds.div_euclid(1000);
    let day = Day::from_days(seconds.div_euclid(86_400) as i32);
    let second = seconds.rem_euclid(86_400);
    format!("{day}T{:02}:{:02}:{:02}Z", second / 3600, second / 60 % 60, second % 60)
}

/// Words as a cell: what begins like a formula has an apostrophe before it, what holds a mark of CSV stands between quotation marks,
/// and those in it are doubled.
fn words(text: &str) -> String {
    let guard = match text.starts_with(['=', '+', '-', '@', '\t', '\r']) {
        true => "'",
        false => "",
    };
    match text.contains(['"', ',', '\r', '\n']) {
        true => format!("\"{guard}{}\"", text.replace('"', "\"\"")),
        false => format!("{guard}{text}"),
    }
}
