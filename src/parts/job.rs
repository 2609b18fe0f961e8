//! Before paid work: every bath of a job, what measures it, and what remains to be done. What nobody knows is never a yes.

mod bath;
mod instruments;
mod reading;

use super::assumption_of;
use super::capacity::filling;
use super::measuring::{Conditions, measure};
use crate::darkroom::Darkroom;
use crate::development::Parameter;
use crate::keeping::State;
use crate::kit::{Balance, Instrument, Load, Tank, Way};
use crate::ledger::Shelf;
use crate::quantity::sorted::sort;
use crate::quantity::{Day, Span, TemperatureDifference, Units, Volume};
use crate::sheet::{Figure, Item, Sheet, Table};
use bath::{Bath, Order, Role};
use instruments::Known;

/// A job as the form tells it.
pub struct Job {
    load: Load,
    /// What a fill goes into.
    tank: Option<Tank>,
    total: Option<Volume>,
    /// Its day, and the shelf as it will stand on it if nothing more happens.
    day: Day,
    shelf: Shelf,
    /// A bath that is not picked, of those that every job has.
    not_picked: Vec<Role>,
    picked: Vec<(Role, String, reading::Figures)>,
    spare: u32,
    /// Whether something that was typed could not be taken.
    at_fault: bool,
    thermometer_on: Option<Day>,
    clip: Parameter,
    clearing: Parameter,
    calibrating: Parameter,
}

/// An answer that is never a guess.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Answer {
    Yes,
    No,
    NotKnown,
}

/// A thing to do.
struct Step {
    task: Task,
    text: String,
}

/// What kind of thing, in the order in which they are done: what must be bought or known comes first, and what a test rests on
/// before it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum Task {
    Look,
    Get,
    Calibrate,
    Clip,
    Clearing,
}

impl Answer {
    fn of(is_so: bool) -> Self {
        if is_so { Self::Yes } else { Self::No }
    }

    fn figure(self, name: &'static str, label: &'static str) -> Figure {
        let word = match self {
            Self::Yes => "yes",
            Self::No => "no",
            Self::NotKnown => "not known",
        };
        Figure::word(name, label, self as usize, word)
    }
}

impl Job {
    /// How long a task takes; `None` where it is no test.
    fn takes(&self, task: Task) -> Option<Span> {
        let minutes = match task {
            Task::Look | Task::Get => return None,
            Task::Calibrate => self.calibrating,
            Task::Clip => self.clip,
            Task::Clearing => self.clearing,
        };
        Some(Span::from_minutes(minutes.value))
    }

    fn baths(&self) -> Vec<Bath<'_>> {
        let bath = |(role, id, figures): &'_ (Role, String, reading::Figures)| {
            let bottle = self.shelf.bottle(id)?;
            let order = Order {
                load: &self.load,
                total: self.total,
                spare: self.spare,
                dilution: figures.dilution.clone(),
                least_per_film: figures.least_per_film,
                films_per_litre: figures.films_per_litre,
            };
            Some(Bath::new(*role, &self.shelf, bottle, &order))
        };
        self.picked.iter().filter_map(bath).collect()
    }
}

/// The whole answer.
pub fn job(job: &Job, darkroom: &Darkroom, units: Units) -> Sheet {
    let baths = job.baths();
    let mut steps: Vec<Step> = Vec::new();
    let mut look = |text: String| {
        steps.push(Step { task: Task::Look, text });
    };
    if job.at_fault {
        look("Put right what is said at the fields.".to_owned());
    }
    if job.load.is_empty() {
        look("Say which films are to be developed.".to_owned());
    }
    for role in &job.not_picked {
        look(format!("Pick the bottle of the {}.", role.name()));
    }
    if job.total.is_none() {
        look("Say how much a fill takes.".to_owned());
    }
    let fits = filling(job.total, &job.load, job.tank.as_ref(), units);
    if job.tank.is_none() {
        look("Choose the tank: whether a fill covers the film in it is not known.".to_owned());
    }
    for item in &fits {
        if let Item::Caution(sentence) = item {
            look(sentence.clone());
        }
    }
    for bath in &baths {
        bath.steps(units, &mut steps);
    }
    let measuring = measuring(job, &baths, darkroom, units, &mut steps);
    sort(&mut steps, |one, other| one.task < other.task);

    let is_ready = steps.is_empty();
    // Of what is not picked nobody knows how much there is to do.
    let least = if job.not_picked.is_empty() { "" } else { "at least " };
    let answer = match steps.len() {
        0 => "ready".to_owned(),
        1 => format!("not yet, {least}one thing to do"),
        count => format!("not yet, {least}{count} things to do"),
    };
    let mut sheet = Sheet {
        title: format!("A job of {}: {answer}", job.load.words()),
        ..Sheet::default()
    };
    let word = if is_ready { "Ready" } else { "Not yet" };
    sheet
        .headline
        .push(Figure::word("ready", "The answer", usize::from(!is_ready), word));
    if !is_ready {
        let count = Figure::number("to_do", "Things to do", steps.len() as f64, 0, units);
        sheet.headline.push(match job.not_picked.is_empty() {
            true => count,
            false => Figure {
                shown: format!("{} or more", count.shown),
                ..count
            },
        });
    }
    let seconds: f64 = steps
        .iter()
        .filter_map(|step| job.takes(step.task))
        .map(Span::seconds)
        .sum();
    if seconds > 0.0 {
        let assumed = [job.clip, job.clearing, job.calibrating]
            .iter()
            .any(|takes| takes.is_assumed());
        let figure = Figure::span(
            "takes",
            "Tests and calibrations take",
            Span::from_seconds(seconds),
            units,
        );
        sheet.headline.push(figure.assumed_if(assumed));
    }
    sheet.part("What remains to be done, in this order", to_do(job, &steps, units));
    sheet.part("Does it fit", fits);
    sheet.part("The baths", bath_items(&baths, units));
    sheet.part("What measures", measuring);
    let mut notes = vec![Item::Text(format!(
        "All of it is judged for {}, as if nothing more happened until then. A bath may touch paid work if a recent test proved it, or \
         if it is in date and no voice speaks up even at its worst.",
        job.day
    ))];
    notes.push(super::text(
        "Whatever nobody noted counts as not known, and not as a yes.",
    ));
    sheet.background("How it is judged", notes);
    sheet.background("Nobody measured this", assumed(job, &steps, units));
    sheet
}

fn to_do(job: &Job, steps: &[Step], units: Units) -> Vec<Item> {
    if steps.is_empty() {
        return vec![super::text("Nothing: go ahead.")];
    }
    let row = |(index, step): (usize, &Step)| {
        let takes = match job.takes(step.task) {
            Some(span) => Figure::span("step_takes", "Takes", span, units).assumed(),
            None => Figure::word("step_takes", "Takes", 0, "not counted"),
        };
        (format!("{}. {}", index + 1, step.text), vec![takes])
    };
    vec![Item::Table(Table {
        heads: ["To do", "Takes"].map(str::to_owned).to_vec(),
        rows: steps.iter().enumerate().map(row).collect(),
    })]
}

fn bath_items(baths: &[Bath], units: Units) -> Vec<Item> {
    if baths.is_empty() {
        return Vec::new();
    }
    let volume = |name: &'static str, label: &'static str, volume: Option<Volume>| match volume {
        Some(volume) => Figure::volume(name, label, volume, units),
        None => Answer::NotKnown.figure(name, label),
    };
    let row = |bath: &Bath| {
        let state = bath.judged.state();
        let word = if state == State::Unknown {
            "not known"
        } else {
            state.name()
        };
        let films = match (bath.role, bath.takes) {
            (Role::Stop, _) => Figure::word("bath_films", "Films it takes", 0, "not asked"),
            (_, Some(films)) => Figure::number("bath_films", "Films it takes", films, 1, units),
            (_, None) => Answer::NotKnown.figure("bath_films", "Films it takes"),
        };
        let figures = vec![
            Figure::word("bath_state", "It is", state as usize, word),
            bath.proved().figure("bath_paid", "For paid work"),
            volume("bath_left", "Left", bath.bottle.left()),
            volume("bath_fill", "A fill", bath.a_fill),
            volume("bath_wanted", "With spare", bath.wanted),
            bath.enough().figure("bath_enough", "Enough"),
            films,
            bath.takes_film().figure("bath_takes", "Takes this film"),
        ];
        (format!("{} as {}", bath.product(), bath.role.name()), figures)
    };
    let heads = [
        "Bath",
        "It is",
        "For paid work",
        "Left",
        "A fill",
        "With spare",
        "Enough",
        "Films it takes",
        "Takes this film",
    ];
    let mut items = vec![Item::Table(Table {
        heads: heads.map(str::to_owned).to_vec(),
        rows: baths.iter().map(row).collect(),
    })];
    for bath in baths {
        for reason in bath.judged.deciding() {
            items.push(Item::Text(format!("{}: {}", bath.product(), reason.sentence(units))));
        }
    }
    items
}

/// What measures the developer and its bath, and the thermometer.
fn measuring(job: &Job, baths: &[Bath], darkroom: &Darkroom, units: Units, steps: &mut Vec<Step>) -> Vec<Item> {
    let developer = baths.iter().find(|bath| bath.role == Role::Developer);
    let mut used: Vec<&Instrument> = Vec::new();
    let mut weighs: Option<&Balance> = None;
    let density = developer.and_then(|bath| bath.bottle.is.label.density);
    let volumes = [(developer.and_then(|bath| bath.a_fill), density), (job.total, None)];
    for (volume, density) in volumes {
        let Some(volume) = volume else { continue };
        let conditions = Conditions {
            density,
            room: job.total,
            from_20: TemperatureDifference::ZERO,
            units,
        };
        // The way that Mix puts first.
        let best = match measure(&darkroom.kit, volume, conditions) {
            Ok(ways) => ways.into_iter().next(),
            Err(sentence) => {
                steps.push(Step {
                    task: Task::Look,
                    text: sentence,
                });
                continue;
            }
        };
        let Some(best) = best else { continue };
        if let Way::Weigh { balance, .. } = best.way {
            weighs = Some(balance);
        }
        for one in instruments_of(&best.way) {
            if !used.iter().any(|other| std::ptr::eq(*other, one)) {
                used.push(one);
            }
        }
    }
    let mut rows = Vec::new();
    let mut row = |name: &str, known: Known, what: &str| {
        rows.push((
            name.to_owned(),
            vec![Figure::word(
                "calibrated",
                "Calibrated",
                usize::from(!known.is_good()),
                &known.words(),
            )],
        ));
        if !known.is_good() {
            steps.push(Step {
                task: Task::Calibrate,
                text: what.to_owned(),
            });
        }
    };
    for one in used {
        let what = format!("Calibrate the {} by weighing water.", one.name);
        row(&one.name, instruments::instrument(one, job.day), &what);
    }
    let compared = job.thermometer_on.or(darkroom.kit.thermometer.map(|line| line.on));
    let thermometer = instruments::thermometer(compared, job.day);
    row("thermometer", thermometer, "Compare the thermometer with a better one.");
    let mut items = vec![Item::Table(Table {
        heads: ["Instrument", "Calibrated"].map(str::to_owned).to_vec(),
        rows,
    })];
    if let Some(balance) = weighs {
        items.push(Item::Text(format!(
            "The concentrate is weighed on the {}. Nobody notes here how it was checked: set a known weight on it before the job.",
            balance.name
        )));
    }
    items
}

/// The instruments that a way takes.
fn instruments_of<'a>(way: &Way<'a>) -> Vec<&'a Instrument> {
    match way {
        Way::Draw(draws) => draws.iter().map(|draws| draws.instrument).collect(),
        Way::Weigh { .. } => Vec::new(),
        Way::Predilute {
            concentrate,
            vessel,
            take,
            ..
        } => vec![concentrate.instrument, vessel, take.instrument],
    }
}

/// How long those tests take that are still to be made.
fn assumed(job: &Job, steps: &[Step], units: Units) -> Vec<Item> {
    let show = |minutes: f64| units.span(Span::from_minutes(minutes));
    let item = |task: Task, name: &'static str, label: &'static str, takes: Parameter, field: &'static str| {
        let figure = Figure::span(name, label, Span::from_minutes(takes.value), units);
        let is_used = steps.iter().any(|step| step.task == task);
        assumption_of(figure, takes, field, &show).filter(|_| is_used)
    };
    [
        item(
            Task::Clip,
            "assumed_clip_takes",
            "A clip test takes",
            job.clip,
            "clip_takes",
        ),
        item(
            Task::Clearing,
            "assumed_clearing_takes",
            "A clearing test takes",
            job.clearing,
            "clearing_takes",
        ),
        item(
            Task::Calibrate,
            "assumed_calibrating_takes",
            "Calibrating one thing takes",
            job.calibrating,
            "calibrating_takes",
        ),
    ]
    .into_iter()
    .flatten()
    .collect()
}
