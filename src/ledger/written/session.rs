//! The written form of a session and of its recipe, as one text: JSON with words and whole numbers, as events are written. Words
//! once written never change, and a part that is not known makes it unreadable: nobody knows what it changes.
//!
//! Microlitres, milliseconds, thousandths of a degree and of a film unit, J/mol. Apart from the events, since the page of the
//! first visit keeps it and never reads it.

use super::check;
use crate::development::drift::Onward;
use crate::ledger::id::BottleId;
use crate::quantity::{Dilution, Span, Temperature};
use crate::session::{Agitation, Bath, Made, Rate, Recipe, Session, Step, StepKind, Went};
use crate::store::object::Object;
use crate::store::reading::{Fields, no_such, short, value, word_for};

const KINDS: [(&str, StepKind); 9] = [
    ("prewet", StepKind::Prewet),
    ("develop", StepKind::Develop),
    ("stop", StepKind::Stop),
    ("fix", StepKind::Fix),
    ("rinse", StepKind::Rinse),
    ("wash aid", StepKind::WashAid),
    ("wash", StepKind::Wash),
    ("wetting agent", StepKind::WettingAgent),
    ("other", StepKind::Other),
];

/// Most steps of a recipe, and most baths.
const MOST_STEPS: usize = 40;
/// Most steps as they went: some may be done again.
const MOST_WENT: usize = 100;
/// Most readings of the thermometer in one step.
const MOST_READINGS: usize = 200;
/// Most figures, most fields of a form, most doubts.
const MOST_FIGURES: usize = 200;
/// The longest time of anything in a session, in milliseconds: a week.
const LONGEST: i64 = 7 * 86_400_000;
/// Most film at once, in thousandths of a film unit.
const MOST_FILM: i64 = 1_000_000;
/// The largest activation energy, in J/mol: the steepest law that is taken from data sheets has some 170,000.
const MOST_ACTIVATION: i64 = 1_000_000;
/// Time constants of a tank, in milliseconds: from a second to twenty days, a bathtub in a cellar.
const TAUS: std::ops::RangeInclusive<i64> = 1_000..=20 * 86_400_000;

/// A session as one text.
pub fn session_to_text(session: &Session) -> String {
    let recipe = write_recipe(&session.recipe);
    let says = Object::new()
        .object("recipe", recipe)
        .integer("began_ms", session.began);
    let says = list(says, "steps", &mut session.steps.iter().map(write_went));
    let says = match session.doubts.is_empty() {
        true => says,
        false => list(
            says,
            "doubts",
            &mut session.doubts.iter().map(|doubt| Object::new().text("says", doubt)),
        ),
    };
    says.text_if("note", &session.note).end()
}

/// A session from its text, whoever wrote it.
///
/// ```
/// use meniscus::ledger::session_from_text;
///
/// assert_eq!(session_from_text("{}"), Err("“recipe” is missing".to_owned()));
/// assert_eq!(session_from_text("hello"), Err("it has no parts with names".to_owned()));
/// ```
///
/// # Errors
/// Why it is none, as the end of a sentence.
pub fn session_from_text(text: &str) -> Result<Session, String> {
    whole(text, session)
}

/// A recipe as one text.
pub fn recipe_to_text(recipe: &Recipe) -> String {
    write_recipe(recipe).end()
}

/// A recipe from its text, whoever wrote it.
///
/// # Errors
/// Why it is none, as the end of a sentence.
pub fn recipe_from_text(text: &str) -> Result<Recipe, String> {
    whole(text, recipe)
}

fn whole<T>(text: &str, read: fn(&mut Fields) -> T) -> Result<T, String> {
    if check::is_too_long(text) {
        return Err(check::TOO_LONG.to_owned());
    }
    let mut fields = Fields::of(text);
    let read = read(&mut fields);
    fields.end().map(|()| read)
}

fn write_recipe(recipe: &Recipe) -> Object {
    let mut says = Object::new()
        .text("title", &recipe.title)
        .text_if("films", &recipe.films)
        .integer("units_thousandths", thousandths(recipe.units));
    says = list(says, "steps", &mut recipe.steps.iter().map(write_step));
    if !recipe.baths.is_empty() {
        says = list(says, "baths", &mut recipe.baths.iter().map(write_bath));
    }
    if let Some(rate) = recipe.rate {
        says = says.object("rate", write_rate(rate));
    }
    if !recipe.figures.is_empty() {
        let figure = |(is, shown): &(String, String)| Object::new().text("is", is).text("shown", shown);
        says = list(says, "figures", &mut recipe.figures.iter().map(figure));
    }
    if !recipe.form.is_empty() {
        let mut form = Object::new();
        for (field, text) in &recipe.form {
            form = form.text(field, text);
        }
        says = says.object("form", form);
    }
    says
}

fn write_rate(rate: Rate) -> Object {
    let mut says = Object::new().integer("activation_j_per_mol", rate.activation.round() as i64);
    if let Some(is_assumed) = rate.is_assumed {
        says = says.plain("assumed", if is_assumed { "true" } else { "false" });
    }
    says = says.integer("at_mc", rate.at.millidegrees());
    match rate.onward {
        Onward::Held => says,
        Onward::Towards { room, tau } => says
            .integer("room_mc", room.millidegrees())
            .integer("tau_ms", tau.milliseconds()),
    }
}

/// A list, if only an empty one.
fn list(says: Object, name: &str, objects: &mut dyn Iterator<Item = Object>) -> Object {
    let mut all = Vec::new();
    for object in objects {
        all.push(object);
    }
    says.list(name, all)
}

fn write_step(step: &Step) -> Object {
    let temperature = step.temperature.map(|temperature| temperature.millidegrees());
    let says = Object::new()
        .text("kind", word_for(&KINDS, step.kind))
        .text_if("name", &step.name)
        .integer("time_ms", step.time.milliseconds())
        .integer_if("temperature_mc", temperature);
    match step.agitation {
        Some(agitation) => says.object(
            "agitation",
            Object::new()
                .integer("first_ms", agitation.first.milliseconds())
                .integer("each_ms", agitation.each.milliseconds())
                .integer("every_ms", agitation.every.milliseconds()),
        ),
        None => says,
    }
}

fn write_bath(bath: &Bath) -> Object {
    let says = Object::new()
        .text("kind", word_for(&KINDS, bath.kind))
        .text_if("bottle", &bath.bottle)
        .text_if("words", &bath.words);
    match &bath.made {
        Made::Reused => says.text("made", "reused"),
        Made::Mixed {
            concentrate,
            water,
            dilution,
        } => {
            let mixed = Object::new()
                .integer("concentrate_ul", concentrate.microlitres())
                .integer("water_ul", water.microlitres())
                .text("dilution", &dilution.to_string());
            says.object("made", Object::new().object("mixed", mixed))
        }
    }
}

fn write_went(went: &Went) -> Object {
    let says = Object::new()
        .integer("step", went.step as i64)
        .integer("began_ms", went.began.milliseconds())
        .integer("lasted_ms", went.lasted.milliseconds())
        .integer("due_ms", went.due.milliseconds())
        .integer_if(
            "paused_ms",
            Some(went.paused.milliseconds()).filter(|paused| *paused != 0),
        );
    if went.readings.is_empty() {
        return says;
    }
    let reading = |(at, temperature): &(Span, Temperature)| {
        let at = Object::new().integer("at_ms", at.milliseconds());
        at.integer("mc", temperature.millidegrees())
    };
    list(says, "readings", &mut went.readings.iter().map(reading))
}

fn session(of: &mut Fields) -> Session {
    let mut inner = of.object("recipe");
    let recipe = recipe(&mut inner);
    of.close(inner);
    let began = check::moment(of, "began_ms").milliseconds();
    let steps = needed(of, "steps", MOST_WENT, went);
    if let Some(went) = steps.iter().find(|went| went.step >= recipe.steps.len()) {
        of.wrong(format!("its recipe has no step {}", went.step));
    }
    Session {
        recipe,
        began,
        steps,
        doubts: check::parts_up_to(of, "doubts", MOST_FIGURES, |doubt| check::note(doubt, "says")),
        note: check::note_if(of, "note"),
    }
}

fn recipe(of: &mut Fields) -> Recipe {
    let title = of.text("title");
    let title = check::no_longer(of, title, check::LONGEST_NAME);
    let films = check::name_if(of, "films");
    let units = film(of, "units_thousandths");
    let steps = needed(of, "steps", MOST_STEPS, step);
    if steps.is_empty() {
        of.wrong("“steps” has no parts".to_owned());
    }
    Recipe {
        title,
        films,
        units,
        steps,
        baths: check::parts_up_to(of, "baths", MOST_STEPS, bath),
        rate: rate(of),
        figures: check::parts_up_to(of, "figures", MOST_FIGURES, |figure| {
            (check::note(figure, "is"), check::note(figure, "shown"))
        }),
        form: form(of),
    }
}

fn step(of: &mut Fields) -> Step {
    Step {
        kind: value(of, "kind", &KINDS),
        name: check::name_if(of, "name"),
        time: span(of, "time_ms", 1),
        temperature: of
            .has("temperature_mc")
            .then(|| check::temperature(of, "temperature_mc")),
        agitation: of.object_if("agitation").map(|mut inner| {
            let agitation = agitation(&mut inner);
            of.close(inner);
            agitation
        }),
    }
}

fn agitation(of: &mut Fields) -> Agitation {
    let agitation = Agitation {
        first: span(of, "first_ms", 0),
        each: span(of, "each_ms", 0),
        every: span(of, "every_ms", 0),
    };
    if agitation.every < agitation.each {
        of.wrong("it is agitated again before it was".to_owned());
    }
    agitation
}

fn bath(of: &mut Fields) -> Bath {
    let kind = value(of, "kind", &KINDS);
    let bottle = of.text_if("bottle").unwrap_or_default();
    if !bottle.is_empty()
        && let Err(error) = BottleId::new(bottle.clone())
    {
        of.wrong(error.to_string());
    }
    Bath {
        kind,
        bottle,
        words: check::name_if(of, "words"),
        made: made(of),
    }
}

fn made(of: &mut Fields) -> Made {
    let (word, mut inner) = of.choice("made");
    let made = match word {
        "mixed" => {
            let mut says = inner.object(word);
            let made = Made::Mixed {
                concentrate: check::volume(&mut says, "concentrate_ul"),
                water: check::volume(&mut says, "water_ul"),
                dilution: dilution(&mut says),
            };
            inner.close(says);
            made
        }
        "reused" => Made::Reused,
        _ => {
            no_such(of, word);
            Made::Reused
        }
    };
    of.close(inner);
    made
}

fn dilution(of: &mut Fields) -> Dilution {
    let is_there = of.has("dilution");
    check::dilution_if(of, "dilution").unwrap_or_else(|| {
        if !is_there {
            of.wrong("“dilution” is missing".to_owned());
        }
        Dilution::Stock
    })
}

fn rate(of: &mut Fields) -> Option<Rate> {
    let mut inner = of.object_if("rate")?;
    let activation = inner.integer("activation_j_per_mol");
    if !(1..=MOST_ACTIVATION).contains(&activation) {
        inner.wrong(format!("{activation} J/mol is no activation energy"));
    }
    let rate = Rate {
        activation: activation as f64,
        is_assumed: inner.has("assumed").then(|| inner.truth("assumed")),
        at: check::temperature(&mut inner, "at_mc"),
        onward: onward(&mut inner),
    };
    of.close(inner);
    Some(rate)
}

fn onward(of: &mut Fields) -> Onward {
    if !of.has("room_mc") && !of.has("tau_ms") {
        return Onward::Held;
    }
    let room = check::temperature(of, "room_mc");
    let tau = of.integer("tau_ms");
    if !TAUS.contains(&tau) {
        of.wrong(format!("{tau} ms is no time constant of a tank"));
    }
    Onward::Towards {
        room,
        tau: Span::from_milliseconds(tau),
    }
}

/// Names and texts, in the order in which they were written; no name twice.
fn form(of: &mut Fields) -> Vec<(String, String)> {
    let mut inner = of.object_if("form").unwrap_or_default();
    let form = inner.texts();
    if form.len() > MOST_FIGURES {
        inner.wrong(format!("“form” has more than {MOST_FIGURES} parts"));
        of.close(inner);
        return Vec::new();
    }
    let mut kept: Vec<(String, String)> = Vec::with_capacity(form.len());
    for (name, text) in form {
        if kept.iter().any(|(other, _)| *other == name) {
            inner.wrong(format!("“{}” stands twice", short(&name)));
        }
        let name = check::no_longer(&mut inner, name, check::LONGEST_NAME);
        let text = check::no_longer(&mut inner, text, check::LONGEST_TEXT);
        kept.push((name, text));
    }
    of.close(inner);
    kept
}

fn went(of: &mut Fields) -> Went {
    let step = of.integer("step");
    if step < 0 {
        of.wrong(format!("its recipe has no step {step}"));
    }
    Went {
        step: step.max(0) as usize,
        began: span(of, "began_ms", 0),
        lasted: span(of, "lasted_ms", 0),
        due: span(of, "due_ms", 0),
        paused: match of.has("paused_ms") {
            true => span(of, "paused_ms", 0),
            false => Span::ZERO,
        },
        readings: check::parts_up_to(of, "readings", MOST_READINGS, |reading| {
            (span(reading, "at_ms", 0), check::temperature(reading, "mc"))
        }),
    }
}

/// A list that must be there.
fn needed<T>(of: &mut Fields, name: &str, most: usize, read: fn(&mut Fields) -> T) -> Vec<T> {
    if !of.has(name) {
        of.wrong(format!("“{name}” is missing"));
    }
    check::parts_up_to(of, name, most, read)
}

fn span(of: &mut Fields, name: &str, least: i64) -> Span {
    let milliseconds = of.integer(name);
    if !(least..=LONGEST).contains(&milliseconds) {
        of.wrong(format!("{milliseconds} ms is no time for this"));
    }
    Span::from_milliseconds(milliseconds)
}

/// How much film, in film units.
fn film(of: &mut Fields, name: &str) -> f64 {
    let number = of.integer(name);
    if !(0..=MOST_FILM).contains(&number) {
        of.wrong(format!("{number} thousandths is no amount of film"));
    }
    number as f64 / 1e3
}

fn thousandths(value: f64) -> i64 {
    (value * 1e3).round() as i64
}
