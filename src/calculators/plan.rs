//! Plan: how many fills a day's films want, in which tank each goes, what to mix for it, whether there is enough, and how long it takes.
//!
//! Worked example: three 135 and two 120 of another time, with a tank for two 135 or one 120: two fills and two more. 580, 290 and twice
//! 500 ml at 1+31 take 18.13 + 9.06 + 2 x 15.63 = 58.44 ml of concentrate.

use super::Calculator;
use crate::darkroom::Darkroom;
use crate::fields::{self, Form};
use crate::parts::{self, Planning};
use crate::sheet::Sheet;

pub(super) const PLAN: Calculator = Calculator {
    name: "plan",
    title: "How many fills, in which order, and is there enough",
    fields: &[
        &fields::PLAN_FILMS,
        &fields::ONLY_TANKS,
        &fields::PLAN_BOTTLE,
        &fields::DILUTION,
        &fields::LEAST_PER_FILM,
        &fields::DEVELOPER_LEFT,
        &fields::SPARE,
        &fields::FIXER_AT_HAND,
        &fields::FIXER_TAKES,
        &fields::STOP_AT_HAND,
        &fields::STOP_TAKES,
        &fields::WITHIN,
        &fields::STEP,
        &fields::MOST_4X5,
        &fields::MOST_8X10,
        &fields::LOADING,
        &fields::OTHER_STEPS,
        &fields::REELS_DRY,
    ],
    examples: &["films"],
    run,
};

fn run(form: &mut Form, darkroom: &Darkroom) -> Sheet {
    let units = form.units();
    let planning = Planning::read(form, darkroom);
    parts::planning(&planning, units)
}
