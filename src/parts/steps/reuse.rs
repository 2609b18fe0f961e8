//! Baths that are poured back: how much film they had, how much they still take, and what to do when it is too much.

use super::super::picked::{bottle_of, is_ready_to_use};
use super::super::{assumption, given, text};
use super::Steps;
use crate::chemistry::Class;
use crate::darkroom::Darkroom;
use crate::development::Parameter;
use crate::fields::{self, Form};
use crate::ledger::{Bottle, Shelf};
use crate::proof::{FILMS_A_LITRE, capacity, still_takes};
use crate::quantity::{Dilution, Units, Volume};
use crate::session::StepKind;
use crate::sheet::{Figure, Item, Table};

/// What a bath that is poured back is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Role {
    Developer,
    Stop,
    Fixer,
    Aid,
}

/// A bath that is poured back.
pub(super) struct Reused<'a> {
    pub role: Role,
    /// The bottle; none where only its capacity is typed.
    pub bottle: Option<&'a Bottle>,
    /// Film units that went through it; `None` where nobody knows.
    pub through: Option<f64>,
    /// Film units that it takes in all.
    pub takes: Option<Parameter>,
    /// Whether it is a concentrate of which no bath was mixed.
    pub is_concentrate: bool,
}

impl Role {
    pub fn name(self) -> &'static str {
        match self {
            Self::Developer => "developer",
            Self::Stop => "stop bath",
            Self::Fixer => "fixer",
            Self::Aid => "wash aid",
        }
    }

    /// How the names of its figures begin.
    pub fn word(self) -> &'static str {
        match self {
            Self::Developer => "developer",
            Self::Stop => "stop",
            Self::Fixer => "fixer",
            Self::Aid => "aid",
        }
    }

    /// The step that it is for.
    pub fn kind(self) -> StepKind {
        match self {
            Self::Developer => StepKind::Develop,
            Self::Stop => StepKind::Stop,
            Self::Fixer => StepKind::Fix,
            Self::Aid => StepKind::WashAid,
        }
    }
}

/// The baths that are poured back: a developer that is used as it is, and those that the form picks.
pub(super) fn read<'a>(form: &mut Form, developer: Option<&'a Bottle>, darkroom: &'a Darkroom) -> Vec<Reused<'a>> {
    let shelf = &darkroom.shelf;
    let mut all = Vec::new();
    let developer = developer.filter(|bottle| is_ready_to_use(bottle) && bottle.is.label.class.is_developer());
    all.extend(developer.map(|bottle| Reused::new(Role::Developer, bottle, shelf, None)));
    let stop = bottle_of(
        form,
        &fields::STOP_AGAIN,
        "stop bath",
        |class| class == Class::StopBath,
        shelf,
    );
    all.extend(stop.map(|bottle| Reused::new(Role::Stop, bottle, shelf, None)));
    let fixer = bottle_of(
        form,
        &fields::FIXER_AGAIN,
        "fixer",
        |class| class == Class::Fixer,
        shelf,
    );
    let aid = bottle_of(
        form,
        &fields::AID_AGAIN,
        "wash aid",
        |class| class == Class::Other,
        shelf,
    );
    let typed = form.read(&fields::CAPACITY);
    match (fixer, typed) {
        (Some(bottle), _) => all.push(Reused::new(Role::Fixer, bottle, shelf, typed)),
        (None, Some(films)) => all.push(Reused {
            role: Role::Fixer,
            bottle: None,
            through: None,
            takes: Some(given(films)),
            is_concentrate: false,
        }),
        (None, None) => {}
    }
    all.extend(aid.map(|bottle| Reused::new(Role::Aid, bottle, shelf, None)));
    all
}

impl<'a> Reused<'a> {
    fn new(role: Role, bottle: &'a Bottle, shelf: &Shelf, typed: Option<f64>) -> Self {
        let is_concentrate = is_concentrate(shelf, bottle);
        let stated = bottle.is.films_per_litre.map(|films| films.number());
        let left = bottle.left().filter(|left| *left > Volume::ZERO);
        let a_litre = match role {
            Role::Fixer => Some(Parameter::given_or(stated, FILMS_A_LITRE)),
            _ => stated.map(given),
        };
        let by_volume = left
            .zip(a_litre)
            .map(|(left, films)| films.map(|films| capacity(left, films)));
        Self {
            role,
            bottle: Some(bottle),
            through: (!is_concentrate).then(|| shelf.films_through(bottle)),
            takes: typed.map(given).or(by_volume).filter(|_| !is_concentrate),
            is_concentrate,
        }
    }

    /// The bottle, where it can be poured from it and back.
    pub fn poured_back(&self) -> Option<&'a Bottle> {
        self.bottle
            .filter(|bottle| !self.is_concentrate && bottle.discarded.is_none())
    }

    /// Its product, or what it is.
    pub fn name(&self) -> &'a str {
        self.bottle
            .map_or(self.role.name(), |bottle| bottle.is.label.product.as_str())
    }
}

/// Whether what is in a bottle is to be diluted, and no bath that was mixed from it.
fn is_concentrate(shelf: &Shelf, bottle: &Bottle) -> bool {
    let first = bottle.is.label.dilutions.first();
    let is_diluted = first.is_some_and(|dilution| *dilution != Dilution::Stock);
    is_diluted && !shelf.stood_in(bottle).any(is_ready_to_use)
}

/// The film of each bath against what it takes, what to do where that is too much, and what this rests on.
pub(super) fn reuse(steps: &Steps, units: Units) -> (Vec<Item>, Vec<Item>) {
    let today = steps.load.units();
    let (mut items, mut resting_on) = (Vec::new(), Vec::new());
    let counted = steps
        .reused
        .iter()
        .filter_map(|reused| Some(row(reused, reused.through?, today, units)));
    let rows: Vec<_> = counted.collect();
    if !rows.is_empty() {
        items.push(Item::Table(Table {
            heads: [
                "Bath",
                "film units before",
                "used before",
                "used after today",
                "then takes",
            ]
            .map(str::to_owned)
            .to_vec(),
            rows,
        }));
    }
    for reused in &steps.reused {
        let name = reused.name();
        if reused.is_concentrate {
            items.push(Item::Caution(format!(
                "{name} is a concentrate, to be diluted. Mix a bath of it, write that down as a bottle of its own, and pick it."
            )));
            continue;
        }
        if !steps.uses(reused.role) {
            items.push(Item::Text(format!("No step uses {name}: nothing of it is counted.")));
            continue;
        }
        items.extend(enough(reused, today, units));
        if let Some(takes) = reused.takes.filter(|_| reused.role == Role::Fixer) {
            let show = "Film units that the fixer takes in all";
            let figure = Figure::number("assumed_capacity", show, takes.value, 1, units);
            resting_on.extend(assumption(figure, takes, "capacity", units));
        }
        let had_film = reused.role == Role::Developer && reused.through.is_some_and(|films| films > 0.0);
        if had_film && steps.developing_longer.is_none() {
            items.push(text(
                "A developer that had film before may want longer. If its data sheet says how much, type that under “Develop longer, for films \
                 before”.",
            ));
        }
    }
    (items, resting_on)
}

fn row(reused: &Reused, through: f64, today: f64, units: Units) -> (String, Vec<Figure>) {
    let name = |end: &str| format!("{}_{end}", reused.role.word());
    let unknown = |end: &str, label: &'static str| Figure::word(name(end), label, 0, "not known");
    let share = |end: &str, label: &'static str, films: f64| match reused.takes {
        Some(takes) => {
            let show = |takes: f64| units.percent(films / takes);
            Figure::percent(name(end), label, films / takes.value, units)
                .between(&show(takes.most), &show(takes.least))
                .assumed_if(takes.is_assumed())
        }
        None => unknown(end, label),
    };
    let then = match reused.takes {
        Some(takes) => {
            let left = |takes: f64| (takes - through - today).max(0.0);
            let show = |takes: f64| units.number(left(takes), 1);
            Figure::number(name("then"), "then takes", left(takes.value), 1, units)
                .between(&show(takes.least), &show(takes.most))
                .assumed_if(takes.is_assumed())
        }
        None => unknown("then", "then takes"),
    };
    let figures = vec![
        Figure::number(name("before"), "film units before", through, 2, units),
        share("used", "used before", through),
        share("used_after", "used after today", through + today),
        then,
    ];
    (reused.name().to_owned(), figures)
}

/// Whether the bath still takes today's film; what to do where it does not.
fn enough(reused: &Reused, today: f64, units: Units) -> Option<Item> {
    let name = reused.name();
    let role = reused.role;
    let Some(takes) = reused.takes else {
        // Of a stop bath an indicator says more than any count.
        let counts = matches!(role, Role::Fixer | Role::Developer);
        return counts.then(|| {
            Item::Text(format!(
                "How much film {name} takes is not known: note in its record how much is in it and how many films a litre takes{}.",
                match role {
                    Role::Fixer => ", or type it",
                    _ => "",
                }
            ))
        });
    };
    let number = |films: f64| units.number(films, 1);
    let films = |films: f64| film_units(films, units);
    let Some(through) = reused.through else {
        return Some(match still_takes(takes.value, today) {
            true => Item::Text(format!(
                "Today's film is {}, {} of what the fixer takes. How much went through it before is not known: pick its bottle.",
                films(today),
                units.percent(today / takes.value)
            )),
            false => Item::Caution(format!(
                "Even fresh, the {} takes {}, and today has {}. Mix more of it, or divide the film.",
                role.name(),
                films(takes.value),
                number(today)
            )),
        });
    };
    let after = through + today;
    let test = match role {
        Role::Fixer => "time a fresh leader in it: twice as long to clear as in fresh fixer is spent",
        Role::Stop => "test it with an indicator",
        Role::Developer => "make a clip test",
        Role::Aid => "its data sheet knows how to test it, if at all",
    };
    if !still_takes(takes.value, after) {
        return Some(Item::Caution(format!(
            "{name} takes {} in all; {} went through it, and today has {}. Mix fresh {}, or before you trust it {test}.",
            films(takes.value),
            number(through),
            number(today),
            role.name()
        )));
    }
    (!still_takes(takes.least, after)).then(|| {
        Item::Text(format!(
            "It is not certain that {name} still takes today's film: it may take {} only. To be sure, {test}.",
            number(takes.least)
        ))
    })
}

/// So many film units, in words.
pub(super) fn film_units(films: f64, units: Units) -> String {
    match units.number(films, 1) {
        one if one == "1" => "1 film unit".to_owned(),
        many => format!("{many} film units"),
    }
}
