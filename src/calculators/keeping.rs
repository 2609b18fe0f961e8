//! Keeping: is this bottle still good enough, by three voices that are never mixed: the air, the data sheet, the tests.
//!
//! Worked example: a stock that keeps 60 days half full has used 1.5 times its stated life after 90 days half full at 20 °C.
//! The sheet then asks for a test; age alone fails nothing.

use super::Calculator;
use crate::darkroom::Darkroom;
use crate::fields::{self, Form};
use crate::keeping::Voice;
use crate::parts::{self, Judging, Vessel};
use crate::sheet::{Item, Sheet};

pub(super) const KEEPING: Calculator = Calculator {
    name: "keeping",
    title: "Whether a bottle is still good enough, and for how long",
    fields: &[
        &fields::BOTTLE,
        &fields::CLASS,
        &fields::MATERIAL,
        &fields::NOMINAL,
        &fields::LEFT,
        &fields::OPENED,
        &fields::OPENINGS,
        &fields::TREATMENT,
        &fields::CLIMATE,
        &fields::TESTED,
        &fields::RESULT,
        &fields::PAID,
        &fields::LIFE_UNOPENED,
        &fields::LIFE_FULL,
        &fields::LIFE_HALF,
        &fields::DRAW,
        &fields::EVERY,
        &fields::LIGHT,
        &fields::COLOUR,
        &fields::BRIMFUL,
        &fields::BEGAN,
        &fields::UNOPENED,
        &fields::WATER,
        &fields::THICKNESS,
        &fields::WALL_AREA,
        &fields::FORMULA,
        &fields::AGENT,
        &fields::SULFITE,
        &fields::AIR_LEFT,
        &fields::UPTAKE,
        &fields::PRESSURE,
        &fields::HUMIDITY,
        &fields::PER_TEN,
        &fields::LIMIT_AGENT,
        &fields::LIMIT_SULFITE,
        &fields::LIMIT_HOT,
        &fields::LIMIT_PROOF,
        &fields::LIMIT_LIFE,
        &fields::LIMIT_AIR,
    ],
    examples: &[],
    run,
};

fn run(form: &mut Form, darkroom: &Darkroom) -> Sheet {
    let units = form.units();
    let today = darkroom.today();
    let mut vessel = Vessel::read(form, darkroom);
    let judging = Judging::read(form, &mut vessel, darkroom);
    let mut sheet = Sheet {
        title: vessel.name.clone(),
        ..Sheet::default()
    };
    let lives = vessel.lives();
    let mut bottle = parts::vessel_record(&vessel);
    sheet.alert(&bottle);
    bottle.extend(parts::headspace(&vessel, units).map(Item::Figure));
    bottle.extend(parts::vessel_drawn(&vessel, units));
    let Some(lives) = lives else {
        sheet.part("The bottle", bottle);
        sheet.part("What it holds against the air", parts::reserves(&vessel, units));
        let mut assumptions = parts::vessel_unmeasured(&vessel, None, units);
        assumptions.extend(parts::unstated(&vessel, &judging, units));
        sheet.background("Nobody measured this", assumptions);
        return sheet;
    };
    let verdict = parts::verdict(&vessel, &judging, &lives.value);
    let forecast = parts::look_ahead(&vessel, &judging, &lives.value);
    sheet.title = parts::judged(&vessel, &verdict);
    sheet.headline = parts::state_figures(&verdict);
    if let Some(forecast) = &forecast {
        sheet
            .headline
            .extend(parts::dates_ahead(forecast, verdict.state, today));
    }
    let next = parts::next(&vessel, &judging, &verdict, units);
    sheet.alert(&next);
    sheet.part("What to do", next);
    let asks = |voice| parts::voice_asks(&verdict, voice);
    sheet.part_if(
        asks(Voice::Air),
        "The first voice: the air",
        parts::air_voice(&verdict, &vessel.air(&lives), &judging, units),
    );
    sheet.part_if(
        asks(Voice::Sheet),
        "The second voice: the data sheet",
        parts::sheet_voice(&vessel, &lives.value, &verdict, units),
    );
    sheet.part_if(
        asks(Voice::Tests),
        "The third voice: your tests",
        parts::tests_voice(&judging, &verdict, today, units),
    );
    if let Some(forecast) = &forecast {
        sheet.background(
            "What lies ahead",
            parts::look_ahead_items(forecast, &lives.value, verdict.state, &judging, units),
        );
    }
    let surroundings = parts::surroundings(&judging, lives.value.last().climate, units);
    sheet.alert(&surroundings);
    sheet.background("Light and warmth", surroundings);
    sheet.background("The bottle", bottle);
    sheet.part("Take care", parts::care(vessel.class, false));
    let mut assumptions = parts::vessel_unmeasured(&vessel, Some(&lives), units);
    assumptions.extend(parts::unstated(&vessel, &judging, units));
    sheet.background("Nobody measured this", assumptions);
    sheet
}
