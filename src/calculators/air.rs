//! Air: what the oxygen that a bottle has met could have cost, against what its solution holds.
//!
//! Worked example: half a litre of dry air at 20 °C holds 4.354 mmol of oxygen, which takes 8.708 mmol of sulfite, 2.2 %
//! of the 396.7 mmol in half a litre of the published MQ borax stock (100 g/l).

use super::Calculator;
use crate::darkroom::Darkroom;
use crate::fields::{self, Form};
use crate::parts::{self, Vessel};
use crate::sheet::Sheet;

pub(super) const AIR: Calculator = Calculator {
    name: "air",
    title: "What the air could have done to a bottle",
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
    ],
    examples: &[],
    run,
};

fn run(form: &mut Form, darkroom: &Darkroom) -> Sheet {
    let units = form.units();
    let vessel = Vessel::read(form, darkroom);
    let mut sheet = Sheet {
        title: format!("The air over {}", vessel.name),
        ..Sheet::default()
    };
    sheet.headline.extend(parts::headspace(&vessel, units));
    let lives = vessel.lives();
    let air = lives.as_ref().map(|lives| vessel.air(lives));
    if let Some(air) = &air {
        sheet.headline.extend(parts::air_bounds(air, units));
    }
    let mut bottle = parts::vessel_record(&vessel);
    sheet.alert(&bottle);
    bottle.extend(parts::vessel_drawn(&vessel, units));
    if let Some(air) = &air {
        sheet.part("What the air could have cost", parts::air_cost(air, units));
    }
    if let Some(lives) = &lives {
        sheet.part("What would change it", parts::air_ahead(&vessel, lives, units));
    }
    if let Some(air) = &air {
        let mut sources = parts::air_sources(air, units);
        sources.extend(lives.as_ref().and_then(|lives| parts::hot_wall(lives, units)));
        sheet.background("Where the oxygen came from", sources);
    }
    sheet.background("What it holds against the air", parts::reserves(&vessel, units));
    sheet.background("The bottle", bottle);
    sheet.background(
        "At a glance: the same air, three solutions",
        parts::glance_classes(units),
    );
    sheet.background(
        "At a glance: the same bottle, three walls",
        parts::glance_walls(&vessel, units),
    );
    sheet.background(
        "Nobody measured this",
        parts::vessel_unmeasured(&vessel, lives.as_ref(), units),
    );
    sheet
}
