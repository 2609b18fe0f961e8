//! A job read from its form, and the bottles that it picks from the shelf.

use super::super::load;
use super::super::picked::{bottle_of, is_ready_to_use};
use super::bath::Role;
use super::{Job, Task};
use crate::chemistry::Guess;
use crate::darkroom::Darkroom;
use crate::development::Parameter;
use crate::fields::{self, Field, Form, Names, Spans};
use crate::ledger::{Shelf, Thousandths};
use crate::quantity::{Day, Dilution, Span, Volume};

/// What form or label say of a bath.
pub(super) struct Figures {
    pub dilution: Option<Dilution>,
    pub least_per_film: Option<Volume>,
    pub films_per_litre: Option<f64>,
}

/// How far ahead a job may lie, in days: further on nobody knows what happens to a bottle.
const AHEAD: i32 = 366;

impl Job {
    /// What the form says, and the shelf on the day of the job.
    pub fn read(form: &mut Form, darkroom: &Darkroom) -> Self {
        // What stands under a name that no field has is told, and changes nothing.
        let foreign = form.faults().len();
        let (load, tank) = load(form, &darkroom.kit);
        let today = darkroom.today();
        let shelf = &darkroom.shelf;
        let pick = |form: &mut Form, field: &Field<Names>, role: Role| {
            bottle_of(form, field, role.name(), |class| role.is_of(class), shelf)
        };
        let developer = pick(form, &fields::DEVELOPER_BOTTLE, Role::Developer);
        let typed = form.read(&fields::JOB_DILUTION);
        let total = form.read(&fields::TOTAL);
        let typed_least = form.read(&fields::LEAST_PER_FILM);
        let fixer = pick(form, &fields::FIXER_BOTTLE, Role::Fixer);
        let fixer_dilution = form.read(&fields::FIXER_DILUTION);
        let fixer_films = form.read(&fields::FIXER_FILMS).map(f64::from);
        let stop = pick(form, &fields::STOP_BOTTLE, Role::Stop);
        let stop_dilution = form.read(&fields::STOP_DILUTION);
        let roles = [
            (Role::Developer, developer, typed, None, "dilution"),
            (Role::Fixer, fixer, fixer_dilution, fixer_films, "fixer_dilution"),
            (Role::Stop, stop, stop_dilution, None, "stop_dilution"),
        ];
        let (mut picked, mut not_picked) = (Vec::new(), Vec::new());
        for (role, bottle, typed, films, dilution_field) in roles {
            let Some(bottle) = bottle else {
                if role != Role::Stop || form.at_fault(role.field()) {
                    not_picked.push(role);
                }
                continue;
            };
            let label = &bottle.is.label;
            let ready = is_ready_to_use(bottle);
            if ready {
                // It goes into the tank as it is.
                form.pass_over(&[dilution_field]);
            }
            let own = (!form.at_fault(dilution_field))
                .then(|| label.dilutions.first().cloned())
                .flatten();
            let figures = Figures {
                dilution: typed.or(own),
                least_per_film: typed_least
                    .or(label.least_per_film)
                    .filter(|least| *least > Volume::ZERO),
                films_per_litre: films.or(bottle.is.films_per_litre.map(Thousandths::number)),
            };
            picked.push((role, bottle.id.to_string(), figures));
        }
        let spare = form.read(&fields::SPARE);
        let day = day(form, today);
        let thermometer_on = form.read(&fields::THERMOMETER_ON).filter(|day| {
            let known = *day <= today;
            if !known {
                form.fault("thermometer_on", "that day is still to come");
            }
            known
        });
        let mut takes = |field: &Field<Spans>, task| {
            let typed = form.read(field).map(Span::minutes);
            Parameter::given_or(typed, usual(task))
        };
        Self {
            clip: takes(&fields::CLIP_TAKES, Task::Clip),
            clearing: takes(&fields::CLEARING_TAKES, Task::Clearing),
            calibrating: takes(&fields::CALIBRATING_TAKES, Task::Calibrate),
            load,
            tank: tank.cloned(),
            total,
            day,
            shelf: match day == today {
                true => shelf.clone(),
                false => Shelf::fold(shelf.events.clone(), day),
            },
            not_picked,
            picked,
            spare: spare.unwrap_or(1),
            thermometer_on,
            at_fault: form.faults().len() > foreign,
        }
    }
}

/// The day of the job; today where the field is blank or wrong.
fn day(form: &mut Form, today: Day) -> Day {
    let day = form.read(&fields::JOB_DAY).unwrap_or(today);
    let clause = match day - today {
        0..=AHEAD => return day,
        ..0 => "that day is over",
        _ => "so far ahead nobody knows what happens to a bottle; write a day within a year",
    };
    form.fault("job_day", clause);
    today
}

/// How long a test takes, in minutes (common practice, no source).
fn usual(task: Task) -> Guess {
    let (value, least, most, why) = match task {
        Task::Clip => (
            10.0,
            5.0,
            20.0,
            "a developing time, and a look at the clip (common practice, no source)",
        ),
        Task::Clearing => (
            5.0,
            2.0,
            10.0,
            "twice the clearing time, and the clock at hand (common practice, no source)",
        ),
        Task::Look | Task::Get | Task::Calibrate => (
            20.0,
            10.0,
            40.0,
            "ten weighings, or three baths (common practice, no source)",
        ),
    };
    Guess {
        value,
        least,
        most,
        why,
    }
}
