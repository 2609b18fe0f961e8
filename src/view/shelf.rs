//! The shelf and the record of one bottle.

use maud::{Markup, html};

use super::html::{Block, folded};
use super::picture;
use crate::example;
use crate::keeping::{Reason, State, Voice};
use crate::kit::{Climate, Light};
use crate::ledger::{Bottle, Counts, Line, Opened, Place, PlaceNote, Problem, Shelf};

use crate::parts::Judged;
use crate::quantity::{Day, Units, Volume};
use crate::sheet::Picture;

/// The bottles, each with its state and who says so.
pub fn bottles(all: &[Judged], shelf: &Shelf, units: Units) -> Markup {
    html! {
        @let problems = problems(shelf, None, units);
        @if !problems.is_empty() {
            li.bottle.thing {
                b { "What does not fit together" }
                ul.cautions { @for problem in &problems { li { (problem) } } }
            }
        }
        @for judged in all {
            li.bottle.thing {
                a.to-record href={ "#record/" (judged.bottle.id) } {
                    @if let Some(picture) = drawing(judged.bottle, units) { (picture::draw(&picture)) }
                    span.what {
                        b { (judged.bottle.is.label.product) }
                        @if !judged.bottle.is_empty() { (state(judged.state())) }
                        @for line in facts(judged.bottle, shelf, units) { span.fact { (line) } }
                    }
                }
                @for reason in judged.deciding() { p.says { (voice(reason)) (reason.sentence(units)) } }
                @if let Some(missing) = judged.bottle.missing().first() { p.says { (missing.question()) } }
                @if let Some(draw) = judged.bottle.draws.last().filter(|draw| judged.bottle.left() >= Some(draw.volume)) {
                    p.actions {
                        button type="button" data-draw-again=(judged.bottle.id) {
                            "Draw " (units.volume(draw.volume)) " again"
                        }
                    }
                }
            }
        }
    }
}

/// The state of a bottle and who says so, where it is about to be used; it leads to the record.
pub fn verdict(judged: &Judged, units: Units) -> Markup {
    html! {
        a.verdict href={ "#record/" (judged.bottle.id) } {
            (state(judged.state()))
            @match &judged.verdict {
                Some(verdict) if !verdict.paid => { " " span.paid { "not for paid work" } },
                _ => {}
            }
            @for reason in judged.deciding() { span.says { (voice(reason)) (reason.sentence(units)) } }
            @if let Some(missing) = judged.bottle.missing().first() { span.says { (missing.question()) } }
        }
    }
}

/// What is acted on: the state, what is left, the headspace.
pub fn record_head(judged: &Judged, units: Units) -> Vec<String> {
    let bottle = judged.bottle;
    let figure = |label: &str, shown: String| {
        let (number, unit) = shown.split_once(' ').unwrap_or((&shown, ""));
        html! { div.measure { dt { (label) } dd { span.amount { b { (number) } " " span.unit { (unit) } } } } }
    };
    let about = html! { p.about { (bottle.is.label.product) ", " (bottle.is.label.class.name()) } };
    let standing = html! {
        p.standing {
            @if bottle.is_empty() { span.paid { "empty" } } @else { (state(judged.state())) }
            @if let Some(verdict) = judged.verdict.as_ref().filter(|_| !bottle.is_empty()) {
                @if verdict.paid { span.paid { "may touch paid work" } } @else { span.paid { "not for paid work" } }
            }
        }
    };
    let headspace = bottle.headspace(&bottle.now);
    let figures = html! {
        dl.pour {
            @if let Some(left) = bottle.left() { (figure("Left", units.volume(left))) }
            @if let Some(headspace) = headspace { (figure("Headspace", units.volume(headspace))) }
        }
    };
    [about, standing, figures].map(Markup::into_string).to_vec()
}

/// The bottle as it stands, and what the shelf would like to know of it.
///
/// Where it asks nothing and everything fits together, the drawing is folded up behind the facts.
pub fn standing(bottle: &Bottle, shelf: &Shelf, units: Units) -> Block {
    const HEADING: &str = "As it stands";
    let missing = bottle.missing();
    let problems = problems(shelf, Some(bottle), units);
    let facts = facts(bottle, shelf, units);
    let drawn = html! {
        @if let Some(picture) = drawing(bottle, units) { figure { (picture::draw(&picture)) } }
    };
    if missing.is_empty() && problems.is_empty() {
        return folded(HEADING, &facts.join("; "), &drawn);
    }
    let asked = html! {
        div.pictures {
            (drawn)
            div {
                @for line in &facts { p { (line) } }
                @for one in &missing { p { (one.question()) } }
                @if !missing.is_empty() { p { "Say it under “Change what is known”." } }
            }
        }
    };
    let warned = html! {
        @if !problems.is_empty() { ul.cautions { @for problem in &problems { li { (problem) } } } }
    };
    block(HEADING, [asked, warned])
}

/// Lines of a record that stand in sight; those before them are folded up.
const LATEST: usize = 5;

/// The life record, first to last.
pub fn life_record(lines: &[Line]) -> Block {
    let (earlier, latest) = lines.split_at(lines.len().saturating_sub(LATEST));
    let earlier = html! {
        @if !earlier.is_empty() {
            details.earlier {
                summary { (earlier.len()) @if earlier.len() == 1 { " earlier line" } @else { " earlier lines" } }
                (record(earlier))
            }
        }
    };
    block("Its record", [earlier, record(latest)])
}

fn record(lines: &[Line]) -> Markup {
    html! {
        ol.record {
            @for line in lines {
                li.passed[line.counts != Counts::Yes] {
                    span { (line) }
                    @if line.counts == Counts::Yes {
                        button type="button" data-take-back=(line.event) aria-label={ "Take back: " (line) } { "Take back" }
                    }
                }
            }
        }
    }
}

/// A part in pieces, but for those that are empty.
fn block(heading: &str, pieces: [Markup; 2]) -> Block {
    let mut all = vec![html! { h3 { (heading) } }.into_string()];
    all.extend(
        pieces
            .map(Markup::into_string)
            .into_iter()
            .filter(|piece| !piece.is_empty()),
    );
    Block {
        heading: heading.to_owned(),
        pieces: all,
    }
}

/// What does not fit together in the record: of one bottle, or of any.
fn problems(shelf: &Shelf, bottle: Option<&Bottle>, units: Units) -> Vec<String> {
    let about = |problem: &&Problem| bottle.is_none_or(|bottle| problem.bottle.as_ref() == Some(&bottle.id));
    let words = |problem: &Problem| {
        let event = shelf.event(problem.event);
        let what = event.map(|event| shelf.words(event, None, units)).unwrap_or_default();
        format!("{} {what}: {}", problem.day, problem.sentence(units))
    };
    shelf.problems.iter().filter(about).map(words).collect()
}

/// The places that are in use, for a list to pick from.
pub fn places(shelf: &Shelf) -> Markup {
    let own = |place: &&Place| !place.name.ends_with(example::PLACES);
    let in_use = shelf.places_in_use().map(|(place, _)| place);
    html! { @for place in in_use.filter(own) { option value=(place.name) {} } }
}

/// The places in use with what is known of them, and a way to take those off where nothing stands.
pub fn place_list(shelf: &Shelf, units: Units) -> Markup {
    html! {
        @for (place, bottles) in shelf.places_in_use() {
            li.thing {
                p { b { (place.name) } small { (place_words(place.on(shelf.today), units)) } }
                @match bottles {
                    0 => {
                        button type="button" data-drop-place=(place.name) aria-label={ "Take off the list: " (place.name) } {
                            "Take off the list"
                        }
                    },
                    1 => small { "A bottle stands here, so it stays on the list." },
                    many => small { (many) " bottles stand here, so it stays on the list." },
                }
            }
        }
    }
}

fn place_words(note: Option<&PlaceNote>, units: Units) -> String {
    let climate = note.and_then(|note| note.climate);
    let warmth = match climate {
        None => "not known how warm".to_owned(),
        Some(climate) => {
            let (low, high) = climate.extremes();
            let range = match low == high {
                true => units.temperature(low),
                false => format!("{} to {}", units.temperature(low), units.temperature(high)),
            };
            match climate {
                Climate::Seasonal { .. } => format!("{range} by season"),
                _ => range,
            }
        }
    };
    match note.and_then(|note| note.light) {
        Some(Light::Dark) => format!("{warmth}, dark"),
        Some(Light::Lit) => format!("{warmth}, lit"),
        None => warmth,
    }
}

fn state(state: State) -> Markup {
    let (word, name, _) = State::ALL[state as usize];
    html! { span class={ "state " (word) } { (name) } }
}

fn voice(reason: &Reason) -> Markup {
    let who = match reason.voice() {
        _ if matches!(reason, Reason::Heat { .. }) => "The warmth: ",
        Voice::Air => "The air: ",
        Voice::Sheet => "The data sheet: ",
        Voice::Tests => "Your tests: ",
    };
    html! { b { (who) } }
}

/// The bottle with its liquid, headspace and brim; nothing where its size or its content is not known.
fn drawing(bottle: &Bottle, units: Units) -> Option<Picture> {
    let left = bottle.left()?;
    let brimful = bottle.is.container.container()?.brimful;
    let headspace = (brimful - left).max(Volume::ZERO);
    let shown = [left, headspace, brimful].map(|volume| units.volume(volume));
    // A brim that nobody measured is only assumed, and the room below it too.
    let about = |shown: String| match bottle.is.container.brimful {
        Some(_) => shown,
        None => format!("about {shown}"),
    };
    let [left_shown, headspace, brim] = shown;
    let shown = [left_shown, about(headspace), about(brim)];
    Some(Picture::Bottle {
        caption: format!("{} of liquid, {} above it", shown[0], shown[1]),
        fill: left / brimful,
        shown,
    })
}

/// What is left, when it was opened, where it stands.
fn facts(bottle: &Bottle, shelf: &Shelf, units: Units) -> Vec<String> {
    let mut facts = Vec::new();
    facts.extend(bottle.left().map(|left| match left > Volume::ZERO {
        true => format!("{} left", units.volume(left)),
        false => "empty".to_owned(),
    }));
    facts.extend(bottle.vessel_in_short(units));
    facts.push(match bottle.opened {
        Opened::Never => "not opened yet".to_owned(),
        Opened::On(day) => format!("opened {day}, {}", ago(shelf.today, day)),
        Opened::SomeDay => "opened, nobody knows when".to_owned(),
        Opened::NotKnown => "not known whether opened".to_owned(),
    });
    let place = bottle.now.place.map(|place| shelf.places[place].name.clone());
    facts.extend(place);
    facts
}

fn ago(today: Day, day: Day) -> String {
    match today - day {
        0 => "today".to_owned(),
        1 => "yesterday".to_owned(),
        days if days < 91 => format!("{days} days ago"),
        days if days < 731 => format!("{} months ago", days * 12 / 365),
        days => format!("{} years ago", days / 365),
    }
}
