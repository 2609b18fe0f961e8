//! The log: the list of sessions, the page of one, its write-up as plain text and as Markdown, and all of them as CSV.

mod csv;
mod markdown;

use maud::{Markup, html};

use super::html::{Block, headline, parts};
use super::text::text;
use crate::calculators::Answer;
use crate::ledger::Shelf;
use crate::parts::{Found, Logged, session_sheet};
use crate::quantity::Units;
use crate::session::Session;

pub use csv::{csv as log_csv, life_csv};

/// What a session that cannot be read is called.
const UNREAD: &str = "A session that cannot be read";

/// The sessions that were found, each a card that leads to its page, and what they come to.
pub fn log_list(found: &Found, units: Units) -> Markup {
    let count = found.sessions.len();
    html! {
        @for fault in &found.faults { p.fault { (fault.sentence) } }
        @if found.of == 0 {
            p { "No session is written down yet. Each is, once you have gone through its steps." }
        } @else {
            dl.pour {
                div.measure {
                    dt { @if count == 1 { "Session" } @else { "Sessions" } }
                    dd { span.amount { b { (count) } @if count < found.of { " " span.unit { "of " (found.of) } } } }
                }
                div.measure { dt { "Film units" } dd { span.amount { b { (units.number(found.film_units(), 3)) } } } }
            }
        }
        @if found.not_searched > 0 {
            p.alert { (found.not_searched) " cannot be read, and so was not searched." }
        }
        @if count == 0 && found.of > 0 { p { "None fits. Ask with fewer words, or for more days." } }
        ul.bottles {
            @for logged in &found.sessions { (card(logged, units)) }
        }
        p.actions {
            @if count > 0 { button type="button" data-log="csv" { "Save these sessions as CSV" } " " }
            button type="button" data-log="life" { "Save all that happened as CSV" }
        }
    }
}

fn card(logged: &Logged, units: Units) -> Markup {
    let day = logged.event.day;
    html! {
        li.bottle {
            a.to-record href={ "#log/" (logged.event.id) } {
                span.what {
                    @match &logged.session {
                        Ok(session) => {
                            b { (title(session)) }
                            span.fact { (day) @if !session.recipe.films.is_empty() { ", " (session.recipe.films) } }
                            @if let Some((asked, given)) = session.developing() {
                                span.fact { "developed " (units.span(given)) ", asked for " (units.span(asked)) }
                            }
                            span.fact { (units.span(session.length())) " in all" }
                            @if !session.doubts.is_empty() { span.state.test-first { "in doubt" } }
                        },
                        Err(_) => {
                            b { (UNREAD) }
                            span.fact { (day) }
                            span.state.unknown { "not read" }
                        },
                    }
                }
            }
        }
    }
}

fn title(session: &Session) -> &str {
    match session.recipe.title.as_str() {
        "" => "A session without a title",
        title => title,
    }
}

/// How the page of a session is handed out, or done again, by its word.
const DONE_WITH: [(&str, &str); 4] = [
    ("again", "Do it again"),
    ("text", "Copy as text"),
    ("markdown", "Copy as Markdown"),
    ("csv", "Save as CSV"),
];

/// The page of a session that is not there.
pub fn log_without() -> Markup {
    html! {
        (to_list())
        p { "There is no such session. It may have been taken back." }
    }
}

fn to_list() -> Markup {
    html! { p.to-list { a href="#log" { "All of the log" } } }
}

/// The page of one session.
pub fn log_entry(logged: &Logged, shelf: &Shelf, units: Units) -> Markup {
    let id = logged.event.id;
    let button = |(word, label): (&str, &str)| {
        html! { button type="button" data-log=(word) data-session=(id) { (label) } }
    };
    let back = html! {
        button type="button" data-take-back=(id) { "Take back" }
    };
    let answer = session_sheet(logged, shelf, units, true).map(answer);
    let baths = logged.session.iter().flat_map(|session| &session.recipe.baths);
    let bottles: Vec<_> = baths.filter_map(|bath| shelf.bottle(&bath.bottle)).collect();
    html! {
        (to_list())
        @match (&answer, &logged.session) {
            (Some(answer), _) => {
                @for piece in headline(answer) { (maud::PreEscaped(piece)) }
                p.actions.of-session {
                    @for one in DONE_WITH { (button(one)) }
                    button type="button" data-print { "Print" }
                    (back)
                }
                @for part in parts(answer) { (maud::PreEscaped(Block::html(&part))) }
            },
            (None, session) => {
                p.about { (UNREAD) ", " (logged.event.day) }
                @if let Err(why) = session { p.alert { "This version cannot make sense of it: " (why) ". It is kept as it is." } }
                p.actions.of-session { (back) }
                @if let Some(text) = written(logged) { pre { (text) } }
            },
        }
        @if !bottles.is_empty() {
            p.says {
                "On the shelf: "
                @for (at, bottle) in bottles.iter().enumerate() {
                    @if at > 0 { ", " }
                    a href={ "#record/" (bottle.id) } { (bottle.is.label.product) }
                }
            }
        }
    }
}

/// The write-up as plain text; of one that cannot be read, what is written of it.
pub fn log_text(logged: &Logged, shelf: &Shelf, units: Units) -> String {
    let sheet = session_sheet(logged, shelf, units, false);
    sheet.map_or_else(
        || written(logged).unwrap_or_default().to_owned(),
        |sheet| text(&answer(sheet)),
    )
}

/// The write-up as Markdown; of one that cannot be read, what is written of it.
pub fn log_markdown(logged: &Logged, shelf: &Shelf, units: Units) -> String {
    match session_sheet(logged, shelf, units, false) {
        Some(sheet) => markdown::sheet(&sheet),
        None => markdown::code(written(logged).unwrap_or_default()),
    }
}

fn answer(sheet: crate::sheet::Sheet) -> Answer {
    Answer {
        sheet,
        faults: Vec::new(),
        passed_over: Vec::new(),
    }
}

fn written<'a>(logged: &Logged<'a>) -> Option<&'a str> {
    match &logged.event.what {
        crate::ledger::What::Developed { text } => Some(text),
        _ => None,
    }
}
