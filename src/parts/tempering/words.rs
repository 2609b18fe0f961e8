//! What is said of a bath that is tempered: the order of pouring, why it cannot be, what the room does.

use super::{SCALDS, STANDS, Tempered, text};
use crate::development::drift::{Course, INTO_AIR, tau_assumed};
use crate::development::tempering::{Poured, Short};
use crate::kit::Kit;
use crate::quantity::bounds::BATH_TEMPERATURE;
use crate::quantity::show::range;
use crate::quantity::{Mass, Temperature, TemperatureDifference, Units, Volume};
use crate::sheet::{Figure, Item, Way};

/// Why the wanted temperature cannot be had, and what then; nothing where it can.
pub(super) fn cannot(tempered: &Tempered, poured: &Poured, units: Units) -> Vec<Item> {
    let bath = &tempered.bath;
    let (wanted, nearest) = (units.temperature(bath.wanted), units.temperature(poured.comes_to));
    let Some(short) = poured.short else {
        return Vec::new();
    };
    let (sentence, then) = match (short, bath.ice_at_hand) {
        (Short::NoWater, _) => {
            let sentence = format!(
                "This bath is all concentrate: there is no water to temper it with. Stand its bottle in a basin of warm or cold water, \
                 turn it now and then, and wait until it is at {wanted}."
            );
            return vec![Item::Caution(sentence)];
        }
        (Short::HotTap, _) => (
            format!("The hot tap is not warm enough for {wanted}. Nothing but hot water comes to {nearest}."),
            "For more, boil some water, and type the kettle’s temperature as the hot tap.",
        ),
        (Short::Ice, Some(ice)) if ice > Mass::ZERO => (
            format!("That ice is too little for {wanted}. All of it in cold water comes to {nearest}."),
            "For less, get more ice, or stand the jug in cold water for a while.",
        ),
        (Short::Ice, Some(_)) => (
            format!(
                "The cold tap is too warm for {wanted}, and there is no ice. Nothing but cold water comes to {nearest}."
            ),
            "For less, get ice, or keep a bottle of water in the refrigerator and type its temperature as the cold tap.",
        ),
        (Short::Ice, None) => (
            format!("This bath has too little water for {wanted}: ice in place of all of it comes to {nearest}."),
            "Cool the concentrate first.",
        ),
    };
    let mut items = vec![Item::Caution(sentence)];
    if BATH_TEMPERATURE.holds(poured.comes_to.celsius()) {
        items.push(Item::Text(format!(
            "A developer need not be at {wanted}: the time can follow the temperature. Pour it as above, measure it, and Time says how \
             long at {nearest}."
        )));
    }
    items.push(Item::Text(then.to_owned()));
    items
}

/// What to pour, one after the other.
pub(super) fn order(tempered: &Tempered, poured: &Poured, kit: &Kit) -> Way {
    let units = kit.house.units;
    let bath = &tempered.bath;
    let about = |volume| units.volume_about(volume);
    let mut steps = Vec::new();
    if poured.cold > Volume::ZERO {
        steps.push(format!(
            "Let the cold tap run until it stays at {}. {} into the jug.",
            units.temperature(bath.cold),
            about(poured.cold)
        ));
    }
    if poured.hot > Volume::ZERO {
        let into = if poured.cold > Volume::ZERO {
            "into it"
        } else {
            "into the jug"
        };
        steps.push(format!(
            "Let the hot tap run until it stays at {}. {} {into}.",
            units.temperature(bath.hot),
            about(poured.hot)
        ));
    }
    if poured.ice > Mass::ZERO {
        steps.push(format!(
            "{} of ice into it. Stir until all of it is gone.",
            units.mass_about(poured.ice)
        ));
    }
    let alone = bath.water_alone(poured);
    let (before, after) = (reads(alone, kit), reads(poured.comes_to, kit));
    steps.push(match before == after {
        true => format!("Stir, and measure: {after}."),
        false => format!("Stir, and measure: {before} now, {after} once the concentrate is in."),
    });
    let all: Vec<String> = tempered
        .concentrates
        .iter()
        .map(|volume| units.volume(*volume))
        .collect();
    if !all.is_empty() {
        steps.push(format!(
            "{} of concentrate, then water of the same temperature up to {}. Stir.",
            all.join(" and "),
            units.volume(bath.total)
        ));
    }
    Way {
        title: match poured.hot > Volume::ZERO && poured.cold > Volume::ZERO {
            true => "Hot into cold, never cold into hot".to_owned(),
            false => "Water first".to_owned(),
        },
        steps,
        figures: vec![Figure::temperature("water_alone", "The water alone", alone, units)],
        best: false,
    }
}

/// What a thermometer shows at this temperature.
fn reads(at: Temperature, kit: &Kit) -> String {
    let units = kit.house.units;
    let Some(line) = kit.thermometer else {
        return units.temperature(at);
    };
    format!(
        "{} (your thermometer shows {})",
        units.temperature(at),
        units.temperature(line.shows(at))
    )
}

/// What could hurt or go wrong on the way.
pub(super) fn cautions(tempered: &Tempered, poured: &Poured, kit: &Kit) -> Vec<Item> {
    let mut items = Vec::new();
    if poured.hot > Volume::ZERO && tempered.bath.hot >= SCALDS {
        let units = kit.house.units;
        items.push(Item::Caution(format!(
            "Water of {} scalds within seconds. Keep your hands out of the stream.",
            units.temperature(tempered.bath.hot)
        )));
    }
    if poured.hot > Volume::ZERO {
        items.push(text(
            "Hot water loses a degree or two in a cold jug: measure it where you pour it from, at the last moment.",
        ));
    }
    if tempered.is_powder {
        items.push(text(
            "Powder cools or warms the water as it dissolves, and nobody can say by how much: measure once more when it is dissolved.",
        ));
    }
    items
}

/// How far the room moves the bath while it stands.
pub(super) fn room(tempered: &Tempered, poured: &Poured, units: Units) -> Vec<Item> {
    let bath = &tempered.bath;
    let away = bath.room - poured.comes_to;
    let moved = |watts: f64| {
        let course = Course::drifting(poured.comes_to, bath.room, tau_assumed(bath.total, watts));
        course.map_or(0.0, |course| {
            (course.temperature(STANDS) - poured.comes_to).kelvins().abs()
        })
    };
    let most = moved(INTO_AIR.most);
    if most < 0.05 {
        return vec![text(
            "The bath is about as warm as the room, which takes next to nothing from it.",
        )];
    }
    let [least, most] = [moved(INTO_AIR.least), most]
        .map(|kelvins| units.temperature_difference(TemperatureDifference::from_kelvins(kelvins)));
    let moved = range(&least, &most).unwrap_or(most);
    let way = if away > TemperatureDifference::ZERO {
        "warmer"
    } else {
        "colder"
    };
    vec![Item::Text(format!(
        "In {} the room makes it {moved} {way}. That is not counted above: use it soon. Drift says what that does to the \
         developing time.",
        units.span(STANDS)
    ))]
}
