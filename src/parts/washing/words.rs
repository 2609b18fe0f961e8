//! The sentences of a wash: what to do, what the count leaves out, what proves it.

use super::super::numbered;
use super::{COLDEST, WARMEST, Washing, seconds};
use crate::chemistry::{SEQUENCES, slower};
use crate::quantity::{Temperature, TemperatureDifference, Units};
use crate::sheet::Item;

/// What the count is and is not.
pub const IDEAL: &str = "This counts dilution only: each change thins what is carried over, at once and evenly. Fixer that is still in \
                         the gelatin comes out in time, not by pouring: that is what the soak is for, and it is not counted. So it is \
                         the least that must be done.";

/// What running water does.
pub const RUNNING: &str = "Running water is counted as one fill and then as well mixed: what runs out is as thin as what is in the tank. \
                           Film needs its soak there too, so a shorter time than the soak of all changes gains nothing.";

/// What to do, in order.
pub fn what_to_do(wash: &Washing, units: Units) -> Vec<Item> {
    let mut steps = vec![
        "Pour the fixer back, turn the tank over and let it drip for ten seconds: what hangs on is what you wash out."
            .to_owned(),
    ];
    if wash.aid {
        steps.push("A fresh bath of wash aid, as long as its data sheet says. Pour it out and let it drip.".to_owned());
    }
    let stands = seconds(wash.stands().value, units);
    steps.push(format!(
        "Pour in {} of water of about {}. Turn the tank over for half a minute, then a few times a minute, until {stands} are over. Pour \
         it out and let it drip for ten seconds.",
        units.volume(wash.fresh),
        units.temperature(wash.water)
    ));
    steps.push(match wash.to_make() {
        1.0 => "That is all.".to_owned(),
        many => format!(
            "Do that {} times in all. Count aloud: a change that is left out cannot be made up by a long one.",
            units.number(many, 0)
        ),
    });
    steps.push("Test a clear piece of the film, then a wetting agent, and hang it up.".to_owned());
    numbered(steps)
}

/// What speaks against this wash.
pub fn doubts(wash: &Washing, units: Units) -> Vec<Item> {
    let mut items = Vec::new();
    let mut warn = |text: String| items.push(Item::Caution(text));
    if wash.wash().share() > 0.25 {
        warn(
            "Each change thins the fixer to a quarter at the best. Pour in more water, or let the tank drip longer."
                .to_owned(),
        );
    }
    let celsius = wash.water.celsius();
    if celsius < COLDEST {
        warn(format!(
            "Water of {} washes slowly, and gelatin swells less in it, which is not counted. Warm it if you can.",
            units.temperature(wash.water)
        ));
    }
    if celsius > WARMEST {
        warn(format!(
            "Gelatin is soft in water of {}: it scratches and can come off. Cool it.",
            units.temperature(wash.water)
        ));
    }
    items
}

/// What the rows of the washes in use are, and who says so.
pub fn in_use() -> String {
    let sources: Vec<String> = SEQUENCES
        .iter()
        .map(|sequence| format!("{}: {}", sequence.name, sequence.source))
        .collect();
    format!(
        "{}. Running water is counted as one fill and then as well mixed; some film takes 35 min at 8 changes an hour (the same table). \
         Tables that were tested ask for more time than dilution does: the difference is what comes out of the gelatin.",
        sources.join("; ")
    )
}

/// What a wash aid does here.
pub fn aid(wash: &Washing) -> Vec<Item> {
    let counted = match wash.aid {
        true => "The bath of wash aid is counted as one change, no more.",
        false => "A fresh bath of wash aid would be counted as one change, no more.",
    };
    let sentences = [
        counted,
        "It is sulfite, mostly, which drives thiosulfate out of gelatin: with it film is said to wash in half the time or less (from \
         memory, no source). That is not counted, since nobody measured it on your film.",
        "A bath of it that is used again holds fixer from the films before, and then thins less.",
    ];
    sentences.map(|text| Item::Text(text.to_owned())).to_vec()
}

/// What the temperature does.
pub fn how_warm(wash: &Washing, units: Units) -> Vec<Item> {
    let shown = |celsius: f64| units.temperature(Temperature::from_celsius(celsius));
    let (here, at, cold) = (units.temperature(wash.water), shown(20.0), shown(COLDEST));
    let diffusion = match slower(wash.water) {
        same if (same - 1.0).abs() < 0.005 => {
            let more = units.times(slower(Temperature::from_celsius(COLDEST)));
            format!(
                "The soak is that for {at}; at {cold} diffusion takes {more} times as long, by the viscosity of the water."
            )
        }
        more if more > 1.0 => format!(
            "At {here} diffusion takes {} times as long as at {at}, by the viscosity of the water, and the soak is that much longer.",
            units.times(more)
        ),
        less => format!(
            "At {here} diffusion takes {} of the time at {at}, by the viscosity of the water, and the soak is that much shorter.",
            units.percent(less)
        ),
    };
    let jump = units.temperature_difference(TemperatureDifference::from_kelvins(3.0));
    let sentences = [
        diffusion,
        format!(
            "Keep the water within {jump} of the fixer: a jump can wrinkle the gelatin (common practice, no source)."
        ),
    ];
    sentences.map(Item::Text).to_vec()
}

/// That nothing of this proves a wash.
pub fn proof() -> Vec<Item> {
    let sentences = [
        "No count proves a wash. A drop of test solution on a clear piece of the washed film does: in Tests, “Stop, silver, wash”, choose \
         “washing: is fixer left in the film?”.",
        "Film that must last may hold 0.014 g of thiosulfate on a square metre (practice of ISO 18901); only a laboratory can measure so \
         little (ISO 18917).",
    ];
    sentences.map(|text| Item::Text(text.to_owned())).to_vec()
}
