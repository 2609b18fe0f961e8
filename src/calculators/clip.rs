//! Clip: whether a developer is strong enough, by a piece of film: by eye, by a meter, or by the time that it takes to blacken.
//!
//! Worked example: a leader that was black after 40 s in fresh bath and takes 50 s now is a strength of 40/50 = 80 %. A grey patch
//! that lets two thirds of the density through that fresh bath gives, at k t = 1.386 (contrast 0.60 at half the time of 0.90), is
//! a strength of 50 %.

use super::Calculator;
use crate::darkroom::Darkroom;
use crate::fields::{self, Form};
use crate::parts::{self, Clip};
use crate::sheet::Sheet;

pub(super) const CLIP: Calculator = Calculator {
    name: "clip",
    title: "Whether a developer is strong enough, by a piece of film",
    fields: &[
        &fields::BOTTLE,
        &fields::JUDGED,
        &fields::LEADER_SEEN,
        &fields::REST_SEEN,
        &fields::FILM_EXPIRED,
        &fields::BLACK_FRESH,
        &fields::WARM_FRESH,
        &fields::BLACK_NOW,
        &fields::TEMPERATURE,
        &fields::SCALE,
        &fields::PATCH,
        &fields::REFERENCE,
        &fields::READING_NOW,
        &fields::METER_STEP,
        &fields::CLASS,
        &fields::TIMES,
        &fields::Q10,
        &fields::PROGRESS,
        &fields::EYE_SEES,
        &fields::LEADER_IS,
    ],
    examples: &[],
    run,
};

fn run(form: &mut Form, darkroom: &Darkroom) -> Sheet {
    let units = form.units();
    let mut sheet = Sheet {
        title: "Clip test".to_owned(),
        ..Sheet::default()
    };
    if let Some(clip) = Clip::read(form, darkroom) {
        parts::clip(&mut sheet, &clip, units);
    }
    sheet
}
