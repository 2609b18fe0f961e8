//! One session as a sheet: every figure of it, each step as planned and as it went, and what it compares to.

use super::Logged;
use super::search::same;
use crate::development::drift::Onward;
use crate::ledger::Shelf;
use crate::quantity::show::range;
use crate::quantity::{Day, Span, Temperature, Units, Volume};
use crate::session::{Agitation, Bath, Made, Session, Step, StepKind, Went};
use crate::sheet::{Bar, Figure, Item, Level, LevelKind, Picture, Sheet, Table};

/// Earlier sessions that one is compared to.
const EARLIER: usize = 5;
/// Where there is nothing to be said.
const NOTHING: &str = "–";

/// The sheet of a session; `None` if it cannot be read. Its write-up has no drawings.
pub fn session_sheet(logged: &Logged, shelf: &Shelf, units: Units, drawn: bool) -> Option<Sheet> {
    let session = logged.session.as_ref().ok()?;
    let recipe = &session.recipe;
    let mut sheet = Sheet {
        title: title(session, logged.event.day),
        headline: headline(session, units),
        ..Sheet::default()
    };
    let mut doubts = Vec::new();
    for doubt in &session.doubts {
        doubts.push(Item::Caution(doubt.clone()));
    }
    let mut baths = Vec::new();
    for bath in &recipe.baths {
        baths.push(words("bath", of_kind(bath.kind), bath_words(bath, units)));
    }
    let mut note = Vec::new();
    for line in session.note.lines().map(str::trim) {
        if !line.is_empty() {
            note.push(Item::Text(line.to_owned()));
        }
    }
    for (title, items) in [
        ("In doubt", doubts),
        ("Remark", note),
        ("Steps", steps(session, units, drawn)),
        ("Temperatures", temperatures(session, units, drawn)),
        ("Baths", baths),
        ("How it compares", comparison(logged, session, shelf, units)),
        ("Its figures", figures(session, units)),
    ] {
        sheet.part(title, items);
    }
    Some(sheet)
}

/// A step as people call it: by its own name, or by its kind.
pub fn step_words(step: &Step) -> String {
    match step.name.is_empty() {
        true => of_kind(step.kind),
        false => step.name.clone(),
    }
}

/// `first 30 s, then 10 s every 1:00`
fn agitation_words(agitation: Agitation, units: Units) -> String {
    let clauses = agitation.clauses(|span| units.brief(span));
    match &clauses[..] {
        [] => "none".to_owned(),
        [only] if agitation.each <= Span::ZERO => format!("{only} only"),
        all => all.join(", then "),
    }
}

fn title(session: &Session, day: Day) -> String {
    match session.recipe.title.is_empty() {
        true => format!("A session of {day}"),
        false => format!("{}, {day}", session.recipe.title),
    }
}

fn headline(session: &Session, units: Units) -> Vec<Figure> {
    let mut all = Vec::new();
    if let Some((asked, given)) = session.developing() {
        all.push(Figure::span("given", "Developed", given, units));
        all.push(Figure::span("asked", "Asked for", asked, units));
    }
    all.push(Figure::span("length", "In all", session.length(), units));
    all.push(Figure::number(
        "film_units",
        "Film units",
        session.recipe.units,
        3,
        units,
    ));
    all
}

/// Every step as planned and as it went, those that were never begun last.
fn steps(session: &Session, units: Units, drawn: bool) -> Vec<Item> {
    let heads = [
        "Step",
        "Planned",
        "Asked",
        "Given",
        "Difference",
        "Temperature",
        "Agitation",
    ];
    let mut rows = Vec::new();
    let mut bars = Vec::new();
    let mut longest = Span::from_seconds(1.0);
    for went in &session.steps {
        longest = longest.max(went.due).max(went.lasted);
    }
    for (at, went) in session.steps.iter().enumerate() {
        let Some(step) = session.step(went) else { continue };
        let again = session.steps[..at].iter().any(|before| before.step == went.step);
        let name = step_words(step) + if again { ", again" } else { "" };
        let mut given = Figure::span("step_given", "Given", went.lasted, units);
        if went.paused > Span::ZERO {
            given.band = Some(format!("paused {}", units.brief(went.paused)));
        }
        let asked = Figure::span("step_asked", "Asked", went.due, units);
        for (what, span, shown) in [("asked", went.due, &asked.shown), ("given", went.lasted, &given.shown)] {
            bars.push(Bar {
                label: format!("{}, {what}", cut(&name)),
                share: span / longest,
                shown: shown.clone(),
            });
        }
        let difference = Figure {
            shown: signed(went.lasted - went.due, units),
            ..Figure::seconds("step_difference", "Difference", went.lasted - went.due, units)
        };
        let planned = Figure::span("step_planned", "Planned", step.time, units);
        let row = vec![
            planned,
            asked,
            given,
            difference,
            warmth(step, Some(went), units),
            agitation(step, units),
        ];
        rows.push((name, row));
    }
    for (_, step) in session.left_out() {
        let planned = Figure::span("step_planned", "Planned", step.time, units);
        let none = |name, label, word: &str| Figure::word(name, label, 0, word);
        let row = vec![
            planned,
            none("step_asked", "Asked", NOTHING),
            none("step_given", "Given", "not done"),
            none("step_difference", "Difference", NOTHING),
            warmth(step, None, units),
            agitation(step, units),
        ];
        rows.push((step_words(step), row));
    }
    let mut items = vec![Item::Table(Table {
        heads: heads.map(str::to_owned).to_vec(),
        rows,
    })];
    if drawn && !bars.is_empty() {
        items.push(Item::Picture(Picture::Bars {
            caption: "Each step as it was asked for, and as it was given".to_owned(),
            bars,
        }));
    }
    items
}

/// As much of a name as stands beside a bar.
fn cut(name: &str) -> String {
    const MOST: usize = 18;
    match name.chars().count() > MOST {
        true => name.chars().take(MOST - 1).chain(['…']).collect(),
        false => name.to_owned(),
    }
}

/// What was read, and what it should have been.
fn warmth(step: &Step, went: Option<&Went>, units: Units) -> Figure {
    let read = went.and_then(|went| {
        let mean = went.mean_temperature()?;
        let (mut least, mut most) = (f64::INFINITY, f64::NEG_INFINITY);
        for (_, read) in &went.readings {
            (least, most) = (least.min(read.celsius()), most.max(read.celsius()));
        }
        let shown = |celsius| units.temperature(Temperature::from_celsius(celsius));
        let (least, most) = (shown(least), shown(most));
        Some(match range(&least, &most) {
            Some(range) => format!("{range}, mean {}", units.temperature(mean)),
            None => least,
        })
    });
    let silent = match step.temperature {
        Some(_) => "not read",
        None => NOTHING,
    };
    Figure {
        band: step
            .temperature
            .map(|asked| format!("asked {}", units.temperature(asked))),
        ..Figure::word("step_temperature", "Temperature", 0, read.as_deref().unwrap_or(silent))
    }
}

fn agitation(step: &Step, units: Units) -> Figure {
    let words = step.agitation.map(|agitation| agitation_words(agitation, units));
    Figure::word("step_agitation", "Agitation", 0, words.as_deref().unwrap_or(NOTHING))
}

/// Every reading, drawn where there are two or more in a step.
fn temperatures(session: &Session, units: Units, drawn: bool) -> Vec<Item> {
    let mut items = Vec::new();
    for went in &session.steps {
        let (Some(step), Some((last, _))) = (session.step(went), went.readings.last()) else {
            continue;
        };
        let name = step_words(step);
        let asked = step.temperature.map(|asked| units.temperature(asked));
        let mut values = Vec::new();
        let mut read = String::new();
        for (at, temperature) in &went.readings {
            values.push((at.seconds(), temperature.celsius()));
            let parting = if read.is_empty() { "" } else { "; " };
            read += &format!("{parting}{} at {}", units.temperature(*temperature), units.span(*at));
        }
        if drawn && values.len() > 1 {
            let mut levels = Vec::new();
            if let Some((asked, shown)) = step.temperature.zip(asked.as_ref()) {
                levels.push(Level {
                    label: format!("asked {shown}"),
                    at: asked.celsius(),
                    kind: LevelKind::Target,
                });
            }
            items.push(Item::Picture(Picture::Chart {
                caption: format!("{name}: the temperature as it was read"),
                across: "since the step began".to_owned(),
                smoothed: values.clone(),
                values,
                levels,
                ends: [units.span(went.readings[0].0), units.span(*last)],
            }));
        }
        let asked = asked.map(|shown| format!(", asked {shown}")).unwrap_or_default();
        items.push(Item::Text(format!("{name}{asked}: {read}.")));
    }
    items
}

fn bath_words(bath: &Bath, units: Units) -> String {
    let made = match &bath.made {
        Made::Reused => "used again".to_owned(),
        Made::Mixed {
            concentrate,
            water,
            dilution,
        } => {
            let concentrate = (*concentrate > Volume::ZERO).then(|| units.volume(*concentrate));
            let water = (*water > Volume::ZERO).then(|| format!("{} of water", units.volume(*water)));
            let both = [concentrate, water]
                .into_iter()
                .flatten()
                .collect::<Vec<_>>()
                .join(" and ");
            format!("{both}, {dilution}")
        }
    };
    match bath.words.is_empty() {
        true => made,
        false => format!("{}; {made}", bath.words),
    }
}

/// How it went against its plan, and against earlier ones of the same title.
fn comparison(logged: &Logged, session: &Session, shelf: &Shelf, units: Units) -> Vec<Item> {
    let mut items = Vec::new();
    let recipe = &session.recipe;
    let planned = Figure::span("planned", "Its steps were to take", recipe.length(), units);
    items.push(Item::Figure(planned));
    items.push(Item::Figure(Figure::span(
        "took",
        "It took, with all between",
        session.length(),
        units,
    )));
    if let Some((asked, given)) = session.developing().filter(|(asked, _)| *asked > Span::ZERO) {
        let share = given / asked - 1.0;
        let less = if share < 0.0 { "less" } else { "more" };
        let label = format!("Developed {less} than asked by");
        items.push(Item::Figure(Figure::percent("development", label, share.abs(), units)));
    }
    if let Some((rate, worth)) = recipe.rate.zip(session.worth()) {
        let at = units.temperature(rate.at);
        let energy = units.number(rate.activation / 1000.0, 1);
        let assumed = if rate.is_assumed == Some(true) { " assumed" } else { "" };
        let worth = Figure::span("worth", format!("Worth at {at}"), worth, units);
        items.push(Item::Figure(worth.assumed()));
        let planned: Span = recipe
            .steps
            .iter()
            .filter_map(|step| Some(recipe.rate_of(step)?.plan(step.time).time))
            .sum();
        let planned = Figure::span("planned_worth", "As planned it was worth", planned, units);
        items.extend((rate.onward != Onward::Held).then(|| Item::Figure(planned.assumed())));
        let unread = session.of_kind(StepKind::Develop).any(|went| went.readings.is_empty());
        let taken = match unread {
            true => match rate.onward {
                Onward::Held => format!(" Where nothing was read, it is taken to have been {at}."),
                Onward::Towards { room, .. } => format!(
                    " Where nothing was read, it is taken to have gone from {at} towards the {} of the room.",
                    units.temperature(room)
                ),
            },
            false => String::new(),
        };
        items.push(Item::Text(format!(
            "So long at {at} would have developed as much, by what was read in the developer and an{assumed} activation energy of \
             {energy} kJ/mol. From its beginning to the first reading it is taken to have gone straight from {at}.{taken} The thermometer's own error is not in it."
        )));
    }
    let is_other = |other: &Logged| other.event.id != logged.event.id;
    let before = Logged::all(shelf).skip_while(is_other).skip(1);
    let same_title = |other: Logged| {
        let before = other.session.ok()?;
        same(&before.recipe.title, &recipe.title).then(|| row(other.event.day, &before, units))
    };
    let rows: Vec<_> = match recipe.title.is_empty() {
        true => Vec::new(),
        false => before.filter_map(same_title).take(EARLIER).collect(),
    };
    if !rows.is_empty() {
        items.push(Item::Text("Before it, under the same title:".to_owned()));
        let heads = ["Day", "Asked", "Developed", "Temperature", "In all", "Film units"];
        items.push(Item::Table(Table {
            heads: heads.map(str::to_owned).to_vec(),
            rows,
        }));
    }
    items
}

fn row(day: Day, session: &Session, units: Units) -> (String, Vec<Figure>) {
    let (asked, given) = session.developing().unzip();
    let span = |name: &'static str, label: &'static str, span: Option<Span>| match span {
        Some(span) => Figure::span(name, label, span, units),
        None => Figure::word(name, label, 0, NOTHING),
    };
    let mean = session.of_kind(StepKind::Develop).find_map(Went::mean_temperature);
    let mean = mean.map(|mean| units.temperature(mean));
    let figures = vec![
        span("asked", "Asked", asked),
        span("given", "Developed", given),
        Figure::word("temperature", "Temperature", 0, mean.as_deref().unwrap_or("not read")),
        span("length", "In all", Some(session.length())),
        Figure::number("film_units", "Film units", session.recipe.units, 3, units),
    ];
    (day.to_string(), figures)
}

fn figures(session: &Session, units: Units) -> Vec<Item> {
    let recipe = &session.recipe;
    let mut items = Vec::new();
    if !recipe.films.is_empty() {
        items.push(words("films", "Film".to_owned(), recipe.films.clone()));
    }
    let (day, [hour, minute, _]) = Day::in_utc(session.began);
    let began = format!("{day} {hour:02}:{minute:02} UTC");
    items.push(words("began", "Began".to_owned(), began));
    if let Some(rate) = recipe.rate {
        let energy = units.number(rate.activation / 1000.0, 1);
        let rate = format!("{energy} kJ/mol about {}", units.temperature(rate.at));
        items.push(words("activation", "Activation energy".to_owned(), rate));
    }
    for (is, shown) in &recipe.figures {
        items.push(words("figure", is.clone(), shown.clone()));
    }
    items
}

fn words(name: &'static str, label: String, words: String) -> Item {
    Item::Figure(Figure::word(name, label, 0, &words))
}

/// A kind with a capital letter.
fn of_kind(kind: StepKind) -> String {
    let mut word = kind.word().to_owned();
    if let Some(first) = word.get_mut(..1) {
        first.make_ascii_uppercase();
    }
    word
}

/// A difference with its sign.
fn signed(difference: Span, units: Units) -> String {
    let size = difference.max(difference * -1.0);
    let sign = match difference.seconds() {
        none if none.abs() < 0.05 => return "0 s".to_owned(),
        less if less < 0.0 => "-",
        _ => "+",
    };
    sign.to_owned() + &units.brief(size)
}
