//! A sheet as HTML. All text passes through the one escaping of the markup library.

use maud::{Markup, html};

use super::picture;
use crate::calculators::{Answer, ONLY_THE_SINK};
use crate::sheet::{Assumption, Figure, Item, Part, Picture, Standing, Table, Way};

/// A part of a sheet, piece by piece, each piece one element: so that only what has changed need be written anew.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Block {
    /// Its heading, which tells it from the others of its sheet.
    pub heading: String,
    /// What it holds, the heading first.
    pub pieces: Vec<String>,
}

impl Block {
    /// The part as one element.
    pub fn html(&self) -> String {
        format!("<section class=\"part\">{}</section>", self.pieces.concat())
    }
}

/// The whole sheet.
pub fn sheet(answer: &Answer) -> String {
    let parts: String = parts(answer).iter().map(Block::html).collect();
    headline(answer).concat() + &parts
}

/// The figures that are acted on, large, piece by piece.
pub fn headline(answer: &Answer) -> Vec<String> {
    let sheet = &answer.sheet;
    let about = html! { p.about { (sheet.title) } };
    // Two places stand ready: a warning that comes while something is typed is a text to write, not an element to build.
    let alerts = html! { div { @for alert in &sheet.alerts { p.alert { (alert) } } @for _ in sheet.alerts.len()..2 { p.alert {} } } };
    let figures = html! {
        dl.pour {
            @for figure in &sheet.headline {
                div.measure.words[is_words(figure)] data-figure=(figure.name) {
                    dt { (figure.label) }
                    dd { (large(figure)) }
                }
            }
        }
    };
    // What may come and go stands last, so that the figures stay where they are.
    vec![about.into_string(), figures.into_string(), alerts.into_string()]
}

/// The rest of the sheet, in parts.
pub fn parts(answer: &Answer) -> Vec<Block> {
    answer.sheet.parts.iter().map(one_part).collect()
}

/// What is background is folded up behind its heading and the sentences that it begins with.
fn one_part(part: &Part) -> Block {
    if part.background && !ONLY_THE_SINK {
        let texts = part.items.iter().map_while(|item| match item {
            Item::Text(text) => Some(text.as_str()),
            _ => None,
        });
        let in_short: Vec<&str> = texts.collect();
        let rest = &part.items[in_short.len()..];
        let body = html! { @for run in runs(rest) { (run_of(run)) } };
        return folded(&part.title, &in_short.join(" "), &body);
    }
    let mut pieces = vec![html! { h3 { (part.title) } }.into_string()];
    pieces.extend(runs(&part.items).map(|run| run_of(run).into_string()));
    Block {
        heading: part.title.clone(),
        pieces,
    }
}

/// A part folded up behind its heading and what it says in short; with nothing else in it, there is nothing to fold.
pub(super) fn folded(heading: &str, in_short: &str, body: &Markup) -> Block {
    let pieces = match body.0.is_empty() {
        true => vec![html! { h3 { (heading) } }, html! { p { (in_short) } }],
        false => vec![html! {
            details {
                summary { h3 { (heading) } @if !in_short.is_empty() { span.in-short { (in_short) } } }
                (body)
            }
        }],
    };
    Block {
        heading: heading.to_owned(),
        pieces: pieces.into_iter().map(Markup::into_string).collect(),
    }
}

/// Runs of figures become one list, runs of assumptions and cautions another; the rest stands by itself.
fn runs(items: &[Item]) -> impl Iterator<Item = &[Item]> {
    items.chunk_by(|a, b| {
        matches!(
            (a, b),
            (Item::Figure(_), Item::Figure(_))
                | (Item::Caution(_), Item::Caution(_))
                | (Item::Assumption(_), Item::Assumption(_))
                | (Item::Way(_), Item::Way(_))
                | (Item::Picture(_), Item::Picture(_))
                | (Item::Onward(_), Item::Onward(_))
        )
    })
}

fn run_of(run: &[Item]) -> Markup {
    html! {
        @match &run[0] {
            Item::Figure(_) => dl.figures { @for item in run { (one(item)) } },
            Item::Caution(_) => ul.cautions { @for item in run { (one(item)) } },
            Item::Assumption(_) => ul.assumptions { @for item in run { (one(item)) } },
            Item::Way(_) => ol.ways { @for item in run { (one(item)) } },
            Item::Picture(_) => div.pictures { @for item in run { (one(item)) } },
            Item::Onward(_) => p.actions { @for item in run { (one(item)) } },
            Item::Text(_) | Item::Table(_) => (one(&run[0])),
        }
    }
}

fn one(item: &Item) -> Markup {
    match item {
        Item::Figure(figure) => html! {
            div data-figure=(figure.name) { dt { (figure.label) } dd { (small(figure)) } }
        },
        Item::Text(text) => html! { p { (text) } },
        Item::Way(way) => way_item(way),
        Item::Table(table) => table_item(table),
        Item::Picture(picture) => picture_item(picture),
        Item::Caution(text) => html! { li { (text) } },
        Item::Assumption(assumption) => assumption_item(assumption),
        #[cfg(any(not(target_arch = "wasm32"), feature = "annex"))]
        Item::Onward(onward) => super::onward::button(onward),
        // No sheet of the sink leads on by itself: a button of the page does.
        #[cfg(not(any(not(target_arch = "wasm32"), feature = "annex")))]
        Item::Onward(_) => html! {},
    }
}

/// Whether it is a phrase, which may take two lines, and not a number.
fn is_words(figure: &Figure) -> bool {
    figure.unit.is_empty() && figure.shown.contains(' ')
}

/// A number apart from its unit, its spread and band below.
fn large(figure: &Figure) -> Markup {
    // Words, dates and what is less than something are one piece.
    let is_number = !figure.unit.is_empty() && !figure.shown.starts_with("less than");
    let parted = figure.shown.split_once(' ').filter(|_| is_number);
    let (number, unit) = parted.unwrap_or((&figure.shown, ""));
    html! {
        span.amount {
            @if figure.is_about() { span.approx { "about " } }
            b { (number) }
            @if !unit.is_empty() { " " span.unit { (unit) } }
        }
        @if let Some(spread) = &figure.shown_spread { span.spread { "± " (spread) " (95 %)" } }
        @if let Some(band) = &figure.band { span.spread.left-open { "assumptions: " (band) } }
    }
}

fn small(figure: &Figure) -> Markup {
    let class = match figure.standing {
        Standing::Exact => "exact",
        Standing::Rounded => "rounded",
        Standing::Assumed => "assumed",
    };
    html! { span class=(class) { (figure.text()) } }
}

/// The best way in full, the others folded up behind their name and what they come to.
fn way_item(way: &Way) -> Markup {
    let body = html! {
        @if way.steps.len() == 1 {
            p { (way.steps[0]) }
        } @else {
            ol.steps { @for step in &way.steps { li { (step) } } }
        }
        dl.figures {
            @for figure in &way.figures {
                div data-figure=(figure.name) { dt { (figure.label) } dd { (small(figure)) } }
            }
        }
    };
    let in_short = way.figures.first().and_then(|figure| figure.shown_spread.as_ref());
    html! {
        li.way.best[way.best] {
            @if way.best {
                p.way-title { (way.title) " " span.first { "best" } }
                (body)
            } @else {
                details {
                    summary { (way.title) @if let Some(spread) = in_short { span.in-short { "± " (spread) } } }
                    (body)
                }
            }
        }
    }
}

/// On a phone each row folds into a block, so every cell carries its head.
fn table_item(table: &Table) -> Markup {
    html! {
        table {
            thead { tr { @for head in &table.heads { th scope="col" { (head) } } } }
            tbody {
                @for (label, figures) in &table.rows {
                    tr {
                        th scope="row" { (label) }
                        @for (figure, head) in figures.iter().zip(table.heads.iter().skip(1)) {
                            td data-head=(head) data-figure=(figure.name) {
                                (small(&Figure { band: None, ..figure.clone() }))
                                @if let Some(band) = &figure.band { " " small { (band) } }
                            }
                        }
                    }
                }
            }
        }
    }
}

fn picture_item(picture: &Picture) -> Markup {
    html! {
        figure {
            (picture::draw(picture))
            figcaption { (picture.caption()) }
        }
    }
}

fn assumption_item(assumption: &Assumption) -> Markup {
    html! {
        li data-figure=(assumption.figure.name) {
            b { (assumption.figure.label) ": " (assumption.figure.shown) }
            " (" (assumption.range) "), " (assumption.why) ". "
            button.change type="button" data-change=(assumption.field) { "Change" }
        }
    }
}
