//! Job: before paid work, whether every bath is proved and enough, whether a fill covers the film, whether what measures was
//! calibrated, and what remains to be done.
//!
//! Worked example: 600 ml at 1+31 take 18.75 ml; with one more fill to spare 37.5 ml must be in the bottle. Where nobody noted how
//! much is left, the answer is not yes.

use super::Calculator;
use crate::darkroom::Darkroom;
use crate::fields::{self, Form};
use crate::parts::{self, Job};
use crate::sheet::Sheet;

pub(super) const JOB: Calculator = Calculator {
    name: "job",
    title: "Whether all is ready for a job, and what is still to be done",
    fields: &[
        &fields::FILMS_135,
        &fields::FILMS_120,
        &fields::FILMS_220,
        &fields::SHEETS_4X5,
        &fields::SHEETS_8X10,
        &fields::TANK,
        &fields::DEVELOPER_BOTTLE,
        &fields::JOB_DILUTION,
        &fields::TOTAL,
        &fields::LEAST_PER_FILM,
        &fields::FIXER_BOTTLE,
        &fields::FIXER_DILUTION,
        &fields::FIXER_FILMS,
        &fields::STOP_BOTTLE,
        &fields::STOP_DILUTION,
        &fields::SPARE,
        &fields::JOB_DAY,
        &fields::THERMOMETER_ON,
        &fields::CLIP_TAKES,
        &fields::CLEARING_TAKES,
        &fields::CALIBRATING_TAKES,
    ],
    examples: &[],
    run,
};

fn run(form: &mut Form, darkroom: &Darkroom) -> Sheet {
    let units = form.units();
    let job = Job::read(form, darkroom);
    parts::job(&job, darkroom, units)
}
