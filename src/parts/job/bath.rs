//! One bath of a job: is its bottle proved, is there enough with what must be over, and does it still take the film.

use super::super::judged::Judged;
use super::super::picked::is_ready_to_use;
use super::{Answer, Step, Task};
use crate::chemistry::Class;
use crate::keeping::State;
use crate::kit::Load;
use crate::ledger::{Bottle, Shelf};
use crate::proof::still_takes;
use crate::quantity::{Dilution, Units, Volume};

/// What a bath is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Role {
    Developer,
    Fixer,
    Stop,
}

/// A bath as the job takes it.
pub(super) struct Bath<'a> {
    pub role: Role,
    pub bottle: &'a Bottle,
    /// How it is judged on the day of the job.
    pub judged: Judged<'a>,
    /// From its bottle for one fill; `None` where nobody says how it is diluted.
    pub a_fill: Option<Volume>,
    /// The same for all fills that must be there.
    pub wanted: Option<Volume>,
    /// Film units that it still takes; `None` where nobody says.
    pub takes: Option<f64>,
    /// Film units that it has to take.
    pub film: f64,
    /// Whether a second concentrate belongs to it, of which nothing is asked.
    two_parts: bool,
}

/// What a bath is taken for, besides its bottle.
pub(super) struct Order<'a> {
    pub load: &'a Load,
    pub total: Option<Volume>,
    /// Fills that must be over.
    pub spare: u32,
    pub dilution: Option<Dilution>,
    /// Least concentrate for a film unit.
    pub least_per_film: Option<Volume>,
    /// Film units that a litre from the bottle takes.
    pub films_per_litre: Option<f64>,
}

impl Role {
    pub fn name(self) -> &'static str {
        match self {
            Self::Developer => "developer",
            Self::Fixer => "fixer",
            Self::Stop => "stop bath",
        }
    }

    /// The field in which its bottle is picked.
    pub fn field(self) -> &'static str {
        match self {
            Self::Developer => "bottle",
            Self::Fixer => "fixer_bottle",
            Self::Stop => "stop_bottle",
        }
    }

    pub fn is_of(self, class: Class) -> bool {
        match self {
            Self::Developer => class.is_developer(),
            Self::Fixer => class == Class::Fixer,
            Self::Stop => class == Class::StopBath,
        }
    }

    fn test(self) -> (&'static str, Task) {
        match self {
            Self::Developer => ("a clip test", Task::Clip),
            Self::Fixer => ("a clearing test", Task::Clearing),
            Self::Stop => ("an indicator test", Task::Look),
        }
    }
}

impl<'a> Bath<'a> {
    /// `shelf` is that of the day of the job.
    pub fn new(role: Role, shelf: &'a Shelf, bottle: &'a Bottle, order: &Order) -> Self {
        let ready = is_ready_to_use(bottle);
        let concentrates = order
            .dilution
            .as_ref()
            .zip(order.total)
            .map(|(dilution, total)| dilution.concentrates(total));
        let a_fill = match ready {
            true => order.total,
            false => concentrates.as_ref().and_then(|all| all.first().copied()),
        };
        let fills = f64::from(1 + order.spare);
        // Fixer and stop bath are poured back and serve the spare fill too.
        let is_poured_back = ready && role != Role::Developer;
        let film = order.load.units();
        let per_litre = |volume: Volume| order.films_per_litre.map(|films| films * volume.millilitres() / 1000.0);
        let (takes, film) = match (role, ready) {
            (Role::Stop, _) => (None, 0.0),
            (_, true) => (
                bottle
                    .left()
                    .and_then(per_litre)
                    .map(|films| (films - shelf.films_through(bottle)).max(0.0)),
                film * fills,
            ),
            (Role::Developer, false) => (a_fill.zip(order.least_per_film).map(|(fill, least)| fill / least), film),
            (Role::Fixer, false) => (a_fill.and_then(per_litre), film),
        };
        Self {
            role,
            bottle,
            judged: Judged::of(shelf, bottle),
            a_fill,
            wanted: a_fill.map(|fill| if is_poured_back { fill } else { fill * fills }),
            takes,
            film,
            two_parts: !ready && concentrates.is_some_and(|all| all.len() > 1),
        }
    }

    pub fn product(&self) -> &str {
        &self.bottle.is.label.product
    }

    /// Whether it may touch paid work.
    pub fn proved(&self) -> Answer {
        match &self.judged.verdict {
            None => Answer::NotKnown,
            Some(verdict) if verdict.paid => Answer::Yes,
            Some(verdict) if verdict.state == State::Unknown => Answer::NotKnown,
            Some(_) => Answer::No,
        }
    }

    /// Whether what is left in it is enough, by its record.
    pub fn enough(&self) -> Answer {
        match self.bottle.left().zip(self.wanted) {
            None => Answer::NotKnown,
            Some(_) if self.two_parts => Answer::NotKnown,
            Some((left, wanted)) => Answer::of(left.reaches(wanted)),
        }
    }

    /// Whether it still takes the film.
    pub fn takes_film(&self) -> Answer {
        match (self.role, self.takes) {
            (Role::Stop, _) => Answer::Yes,
            (_, None) => Answer::NotKnown,
            (_, Some(takes)) => Answer::of(still_takes(takes, self.film)),
        }
    }

    /// What is to be done about it.
    pub fn steps(&self, units: Units, steps: &mut Vec<Step>) {
        let product = self.product();
        let role = self.role.name();
        let (test, task) = self.role.test();
        let mut add = |task, text| steps.push(Step { task, text });
        if self.bottle.discarded.is_some() || self.bottle.is_empty() {
            add(
                Task::Get,
                format!("Take another bottle as {role}: {product} is empty or gone."),
            );
            return;
        }
        match (self.proved(), self.judged.state()) {
            (Answer::Yes, _) => {}
            (_, State::Failed) => add(
                Task::Get,
                format!("Take fresh instead of {product}: its last test failed."),
            ),
            _ if self.judged.verdict.is_none() => {
                let asks: Vec<&str> = self.bottle.missing().iter().map(|missing| missing.question()).collect();
                let asks = asks.join(" ");
                add(
                    task,
                    format!("Say in the record of {product}: {asks} Then make {test}, and write down what it shows."),
                );
            }
            _ => add(task, format!("Make {test} of {product}, and write down what it shows.")),
        }
        match (self.enough(), self.bottle.left(), self.wanted) {
            (Answer::Yes, ..) => {}
            (Answer::No, Some(left), Some(wanted)) => add(
                Task::Get,
                format!(
                    "Get more {product}: {} are left where {} must be there, spare fills counted.",
                    units.volume(left),
                    units.volume(wanted)
                ),
            ),
            (_, None, _) => add(
                Task::Look,
                format!("Look how much {product} is left, and note it in its record."),
            ),
            (_, _, None) => add(
                Task::Look,
                format!("Say how {product} is diluted for {role}, by volume."),
            ),
            _ => add(
                Task::Look,
                format!("Look whether the second part of {product} is proved and enough: it is not asked for here."),
            ),
        }
        match (self.takes_film(), is_ready_to_use(self.bottle), self.role) {
            (Answer::Yes, ..) => {}
            (Answer::No, true, _) => add(
                Task::Get,
                format!(
                    "Mix fresh {role}: {product} takes {} film units more, and {} are planned.",
                    units.number(self.takes.unwrap_or(0.0), 1),
                    units.number(self.film, 2)
                ),
            ),
            (Answer::No, false, _) => add(
                Task::Get,
                format!(
                    "Make a larger or a richer bath of {product}: a fill takes {} film units, and {} are planned.",
                    units.number(self.takes.unwrap_or(0.0), 1),
                    units.number(self.film, 2)
                ),
            ),
            (Answer::NotKnown, false, Role::Developer) => {
                add(
                    Task::Look,
                    format!("Type the least of {product} for one film, from its data sheet."),
                );
            }
            (Answer::NotKnown, ..) => add(
                Task::Look,
                format!("Look up how many films a litre of {product} takes, by its data sheet."),
            ),
        }
    }
}
