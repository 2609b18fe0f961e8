//! What a calculator returns: figures, lines, ways, pictures, cautions and assumptions; neither text nor markup.
//!
//! Every figure says how it stands: exact, rounded for showing, or resting on an assumption that nobody measured.

mod figure;
mod picture;

pub use figure::{Figure, Standing, Text};
pub use picture::{Bar, Level, LevelKind, NamedCurve, Patch, Picture};

use crate::kit::Calibration;
use crate::proof::Finding;
use crate::session::Recipe;

/// A computed answer.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct Sheet {
    /// What it is about, in a line.
    pub title: String,
    /// The few figures that are acted on, to be shown large.
    pub headline: Vec<Figure>,
    /// What keeps it from working as it stands; said beside the headline and again in its part.
    pub alerts: Vec<String>,
    /// The rest, in reading order.
    pub parts: Vec<Part>,
    /// What it found of the bottle that was tested, to be written into its record.
    pub finding: Option<Finding>,
    /// What it found of an instrument or of the thermometer, to be used from now on.
    pub calibration: Option<Calibration>,
    /// The steps that it leads to, to be done one after the other.
    pub recipe: Option<Box<Recipe>>,
}

/// A titled part of a sheet.
#[derive(Clone, Debug, PartialEq)]
pub struct Part {
    /// Its heading.
    pub title: String,
    /// What it says, in order.
    pub items: Vec<Item>,
    /// Whether a page may fold it up: nothing in it is to be acted on, and nothing warns.
    pub background: bool,
}

/// One thing that a sheet says.
#[derive(Clone, Debug, PartialEq)]
pub enum Item {
    /// A figure with its label.
    Figure(Figure),
    /// A sentence or two.
    Text(String),
    /// A way to do a thing, among others.
    Way(Way),
    /// Rows of figures under common heads.
    Table(Table),
    /// A drawing.
    Picture(Picture),
    /// What could go wrong, or hurt.
    Caution(String),
    /// A number that nobody measured.
    Assumption(Assumption),
    /// Where to go on from here.
    Onward(Onward),
}

/// A calculator to go on to, with what it takes over.
#[derive(Clone, Debug, PartialEq)]
pub struct Onward {
    /// What it leads to, in a few words.
    pub label: String,
    /// The calculator's name.
    pub to: &'static str,
    /// What its fields say then, by their names; the others stay as they are.
    pub fields: Vec<(&'static str, String)>,
}

/// One of several ways to the same end, with what it costs.
#[derive(Clone, Debug, PartialEq)]
pub struct Way {
    /// What it is, in a line.
    pub title: String,
    /// What to do, in order; empty where the title says it all.
    pub steps: Vec<String>,
    /// How well it does.
    pub figures: Vec<Figure>,
    /// Whether it stands first.
    pub best: bool,
}

/// Rows of figures.
#[derive(Clone, Debug, PartialEq)]
pub struct Table {
    /// Head of each column, the first for the rows' own names.
    pub heads: Vec<String>,
    /// Name and figures of each row.
    pub rows: Vec<(String, Vec<Figure>)>,
}

/// A number that nobody measured, with its range and where it can be changed.
#[derive(Clone, Debug, PartialEq)]
pub struct Assumption {
    /// The number as used.
    pub figure: Figure,
    /// Its range, as shown.
    pub range: String,
    /// Why this number.
    pub why: String,
    /// The field that replaces it.
    pub field: &'static str,
}

impl Sheet {
    /// Adds a part, unless it has nothing to say.
    pub fn part(&mut self, title: impl Into<String>, items: Vec<Item>) {
        self.part_if(true, title, items);
    }

    /// Adds a part that is background, unless it has nothing to say. One that warns is never background.
    pub fn background(&mut self, title: impl Into<String>, items: Vec<Item>) {
        self.part_if(false, title, items);
    }

    /// Adds a part that is background unless it is to be acted on.
    pub fn part_if(&mut self, to_be_acted_on: bool, title: impl Into<String>, items: Vec<Item>) {
        let warns = items.iter().any(|item| matches!(item, Item::Caution(_)));
        if !items.is_empty() {
            self.parts.push(Part {
                title: title.into(),
                items,
                background: !to_be_acted_on && !warns,
            });
        }
    }

    /// Says that its figures are examples, and lets nothing of it be kept.
    pub fn is_only_an_example(&mut self) {
        self.alerts
            .insert(0, "These are example figures. Type your own.".to_owned());
        self.finding = None;
        self.calibration = None;
        self.recipe = None;
    }

    /// Raises the cautions of a part to the headline.
    pub fn alert(&mut self, items: &[Item]) {
        self.alerts.extend(items.iter().filter_map(|item| match item {
            Item::Caution(text) => Some(text.clone()),
            _ => None,
        }));
    }

    /// All figures, in reading order.
    pub fn figures(&self) -> Vec<&Figure> {
        let mut all: Vec<&Figure> = self.headline.iter().collect();
        for item in self.parts.iter().flat_map(|part| &part.items) {
            match item {
                Item::Figure(figure) => all.push(figure),
                Item::Way(way) => all.extend(&way.figures),
                Item::Table(table) => all.extend(table.rows.iter().flat_map(|(_, figures)| figures)),
                Item::Assumption(assumption) => all.push(&assumption.figure),
                Item::Text(_) | Item::Picture(_) | Item::Caution(_) | Item::Onward(_) => {}
            }
        }
        all
    }

    /// The figure of that name, if there is one.
    pub fn figure(&self, name: &str) -> Option<&Figure> {
        self.figures().into_iter().find(|figure| figure.name == name)
    }
}
