//! What is said of a bath that drifts: what to do where it leaves the usual range, what water around it does, how to measure a tank.

use super::super::text;
use super::super::timing::outside;
use super::Drifting;
use crate::development::USUAL;
use crate::development::drift::Course;
use crate::quantity::{Span, Temperature, Units, Volume};
use crate::sheet::Item;

/// A drift that costs fewer seconds than this is not worth a second look (an assumption: hands pour no better).
const NOTHING: f64 = 5.0;

/// What to do, cautions first. `cost` is what the drift adds to the time, or takes from it.
pub(super) fn next(drifting: &Drifting, course: &Course, time: Span, cost: Span, units: Units) -> Vec<Item> {
    let [coldest, warmest] = USUAL.map(|limit| units.temperature(limit));
    let end = course.temperature(time);
    let mut items = Vec::new();
    match outside(drifting.begins) {
        Some(why) => items.push(Item::Caution(format!(
            "{} is outside the usual {coldest} to {warmest}: {why}. Temper the bath first.",
            units.temperature(drifting.begins)
        ))),
        None => items.extend(leaves(course, drifting.begins, time, units)),
    }
    let size = cost.seconds().abs();
    items.push(Item::Text(match size < NOTHING {
        true => "The drift is worth less than pouring in and out. Take no notice of it.".to_owned(),
        false => {
            let way = if drifting.room < drifting.begins { "cools" } else { "warms" };
            let than = if cost > Span::ZERO { "more" } else { "less" };
            format!(
                "The bath {way} while it develops: give it {} {than} than without. Measure the bath as you pour it out. \
                 If it is not near {}, type what it was at the beginning and is now as two readings of this tank.",
                units.seconds(Span::from_seconds(size)),
                units.temperature(end)
            )
        }
    }));
    items
}

/// When a bath that began within the usual range leaves it, before so much time is over.
pub(in super::super) fn leaves(course: &Course, begins: Temperature, time: Span, units: Units) -> Option<Item> {
    let end = course.temperature(time);
    let why = outside(end).filter(|_| outside(begins).is_none())?;
    let (limit, word) = match end < begins {
        true => (USUAL[0], "warm"),
        false => (USUAL[1], "cool"),
    };
    let when = course.passes(limit).unwrap_or(time);
    Some(Item::Caution(format!(
        "After {} the bath passes {}: {why}. Stand the tank in water that is as warm as the bath, or {word} the room.",
        units.span(when),
        units.temperature(limit)
    )))
}

/// What water around a tank does.
pub(super) fn jacket(drifting: &Drifting, units: Units) -> Vec<Item> {
    let mut texts = vec![format!(
        "Fill a basin with water of {}, up to the lid, and put the tank back into it between the agitations. The more water, the slower \
         all of it cools; a dash of hot water now and then keeps it as warm.",
        units.temperature(drifting.begins)
    )];
    if drifting.jacket > Volume::ZERO && !drifting.tau.seconds.is_assumed() {
        texts.push("The two readings are taken to be those of the tank as it stands in that water.".to_owned());
    }
    texts.into_iter().map(Item::Text).collect()
}

/// How two readings tell how fast a tank follows the room.
pub(super) fn readings(drifting: &Drifting, units: Units) -> Vec<Item> {
    let mut items = Vec::new();
    if drifting.tau.unclear {
        items.push(Item::Caution(
            "The two readings lie too close together, or too close to the room, to tell how fast the tank follows it. What is assumed is used \
             instead. Wait longer, or begin warmer."
                .to_owned(),
        ));
    }
    let warm = Temperature::from_celsius(40.0);
    items.push(Item::Text(format!(
        "Once is enough: fill the tank with water of about {}, close it, read it, turn it as you always do, and read it again after half an \
         hour. Type both readings, the time between them, and how warm the room was.",
        units.temperature(warm)
    )));
    items.push(text(
        "One thermometer errs alike in both readings. If you read it to a tenth of a degree, say so under “each is read to”: that tells \
         more.",
    ));
    items
}
