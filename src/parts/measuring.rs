//! The measuring plan as parts of a sheet: the ways, their steps, their drawings, and the total that lands on a mark.

use std::cmp::Ordering;

use crate::kit::{Draws, Instrument, InstrumentKind, Kit, MOST_DRAWS, Measured, Way, ways};
use crate::quantity::text::joined;
use crate::quantity::{Day, MassDensity, TemperatureDifference, Units, Volume, VolumeUnit};
use crate::sheet::{self, Figure, Item, Picture};

/// Under which a volume is measured.
#[derive(Clone, Copy)]
pub struct Conditions {
    /// Density of the liquid, where it is known.
    pub density: Option<MassDensity>,
    /// The most that may be taken of a first dilution; `None` where there is no bath to hold it.
    pub room: Option<Volume>,
    /// How far it is from 20 °C.
    pub from_20: TemperatureDifference,
    /// The user's units.
    pub units: Units,
}

/// A whole is measured well enough at this relative uncertainty: next to the concentrate's it hardly shows.
const WHOLE_ENOUGH: f64 = 0.01;
/// Another fill is worth it only if it brings the uncertainty down by this factor.
const WORTH_A_POUR: f64 = 1.5;
/// How many ways a sheet lists.
const LISTED: usize = 5;

/// The ways to a volume, best first, or a sentence that says why there are none.
pub fn measure<'a>(kit: &'a Kit, wanted: Volume, conditions: Conditions) -> Result<Vec<Measured<'a>>, String> {
    let mut found = ways(kit, wanted, conditions.density, conditions.from_20);
    found.retain(|way| match (&way.way, conditions.room) {
        (Way::Predilute { take, .. }, Some(room)) => take.volume() <= room,
        _ => true,
    });
    if !found.is_empty() {
        return Ok(found);
    }
    let units = conditions.units;
    let smallest = kit
        .instruments
        .iter()
        .map(|kept| kept.item.graduation)
        .reduce(Volume::min);
    let largest = kit
        .instruments
        .iter()
        .map(|kept| kept.item.capacity)
        .reduce(Volume::max);
    let wanted_text = units.volume(wanted);
    Err(match (smallest, largest) {
        (Some(smallest), _) if wanted < smallest * 2.0 => format!(
            "{wanted_text} is less than any instrument of the kit can measure: its finest mark is {}. Make a larger total, \
             weigh the concentrate (type its density), or add a finer syringe.",
            units.volume(smallest)
        ),
        (_, Some(largest)) if wanted > largest * f64::from(MOST_DRAWS) => format!(
            "{wanted_text} is more than {MOST_DRAWS} fills of the largest instrument of the kit ({}). Add a larger one.",
            units.volume(largest)
        ),
        (Some(_), _) => format!(
            "No instrument of the kit measures {wanted_text} with an error below half of it. Add a finer one, or make a \
             larger total."
        ),
        (None, _) => "There is no instrument in the kit. Add one, and the measuring plan appears.".to_owned(),
    })
}

/// The way with the fewest fills that measures the whole well enough; nobody weighs or predilutes a whole bath.
pub fn poured<'a, 'k>(ways: &'a [Measured<'k>]) -> Option<&'a Measured<'k>> {
    let pours = || ways.iter().filter(|way| matches!(way.way, Way::Draw(_)));
    let best = pours().map(Measured::relative_uncertainty).next()?;
    let enough = (best * WORTH_A_POUR).max(WHOLE_ENOUGH);
    pours()
        .filter(|way| way.relative_uncertainty() <= enough)
        .min_by_key(|way| way.steps())
}

/// The best few ways as items, the first marked as such.
///
/// Their figures are called `NAMES_1_volume` and so on.
pub fn way_items(names: &str, ways: &[Measured], units: Units, today: Day) -> Vec<Item> {
    let listed = ways.iter().take(LISTED).enumerate();
    let mut items: Vec<Item> = listed
        .map(|(rank, way)| Item::Way(way_item(&format!("{names}_{}", rank + 1), rank == 0, way, units)))
        .collect();
    if let Some(Way::Draw(draws)) = ways.first().map(|best| &best.way) {
        notes(&mut items, draws, units, today);
    }
    let more = ways.len().saturating_sub(LISTED);
    if more > 0 {
        items.push(Item::Text(match more {
            1 => "One more way measures less well.".to_owned(),
            _ => format!("{more} more ways measure less well."),
        }));
    }
    items
}

/// The drawings of a way's instruments at their marks.
pub fn pictures(way: &Measured, units: Units) -> Vec<Item> {
    let draws: Vec<&Draws> = match &way.way {
        Way::Draw(draws) => draws.iter().collect(),
        Way::Predilute { concentrate, take, .. } => vec![concentrate, take],
        Way::Weigh { .. } => Vec::new(),
    };
    let mut items = Vec::new();
    for draws in draws {
        pictures_of(&mut items, draws, units);
    }
    items
}

/// Adds the drawings of one instrument at its mark, or its two.
pub(super) fn pictures_of(items: &mut Vec<Item>, draws: &Draws, units: Units) {
    let mut add = |volume, times| items.push(Item::Picture(picture(draws.instrument, volume, times, units)));
    add(draws.to, draws.fills);
    if let Some(rest) = draws.rest {
        add(rest, 1);
    }
}

fn way_item(name: &str, best: bool, way: &Measured, units: Units) -> sheet::Way {
    let name = |what: &str| format!("{name}_{what}");
    let mut figures = vec![
        Figure::volume(name("volume"), "Volume", way.volume, units).measured_to(way.standard_uncertainty(), units),
        Figure::percent(
            name("relative_uncertainty"),
            "Standard uncertainty",
            way.relative_uncertainty(),
            units,
        ),
        Figure::number(name("steps"), "Steps", f64::from(way.steps()), 0, units),
    ];
    if let Way::Predilute { waste, .. } = &way.way {
        figures.push(Figure::volume(name("waste"), "Concentrate left over", *waste, units));
    }
    sheet::Way {
        title: title(way),
        steps: steps(way, units),
        figures,
        best,
    }
}

fn title(way: &Measured) -> String {
    match &way.way {
        Way::Draw(draws) => {
            let names: Vec<_> = draws.iter().map(|draws| draws.instrument.name.as_str()).collect();
            joined(&names, " and ")
        }
        Way::Weigh { balance, .. } => format!("{}, by weight", balance.name),
        Way::Predilute {
            concentrate, vessel, ..
        } => {
            format!("{} and {}, diluted first", concentrate.instrument.name, vessel.name)
        }
    }
}

fn steps(way: &Measured, units: Units) -> Vec<String> {
    match &way.way {
        Way::Draw(draws) => draws.iter().map(|draws| draws_text(draws, units)).collect(),
        Way::Weigh { mass, density, .. } => vec![format!(
            "Set the balance to zero under the vessel and pour {} ({} at {} g/ml, taken as good to 0.005).",
            units.mass(*mass),
            units.volume(way.volume),
            units.number(density.grams_per_millilitre(), 3)
        )],
        Way::Predilute {
            concentrate,
            vessel,
            made_up,
            take,
            waste,
        } => vec![
            draws_text(concentrate, units),
            format!(
                "Make it up with water to {} in the {}, pour it into a clean jug and stir until no streaks are seen. Rinse what \
                 you measured with into the sink.",
                mark(vessel, *made_up, units),
                vessel.name
            ),
            format!(
                "Of this take {}: {}",
                units.volume(take.volume()),
                draws_text(take, units)
            ),
            format!(
                "The rest holds {} of concentrate and does not keep: use it at once.",
                units.volume(*waste)
            ),
        ],
    }
}

/// A syringe that is rinsed into the bath delivers its dead space too; one that was weighed long ago wants weighing again.
fn notes(items: &mut Vec<Item>, draws: &[Draws], units: Units, today: Day) {
    let mut dead = Volume::ZERO;
    let mut volume = Volume::ZERO;
    for draws in draws {
        dead = dead + draws.instrument.dead_space;
        volume = volume + draws.volume();
        if draws.instrument.is_calibrated_long_ago(today) {
            items.push(Item::Text(format!(
                "The calibration of the {} is over a year old: weigh it again.",
                draws.instrument.name
            )));
        }
    }
    if dead > Volume::ZERO && dead > volume * 0.002 {
        items.push(Item::Text(format!(
            "Do not rinse a syringe into the bath: that would add up to {} from the nozzle.",
            units.volume(dead)
        )));
    }
}

/// The units with the instrument's own unit of volume, the one in which its graduation is the shorter number: nobody finds
/// 0.338 fl oz on a scale in millilitres.
fn as_marked(instrument: &Instrument, units: Units) -> Units {
    let with = |volume| Units { volume, ..units };
    let length = |units: Units| units.number(instrument.graduation / units.volume_unit(), 3).len();
    let (metric, us) = (with(VolumeUnit::Millilitre), with(VolumeUnit::UsFluidOunce));
    match length(metric).cmp(&length(us)) {
        Ordering::Less => metric,
        Ordering::Greater => us,
        Ordering::Equal => units,
    }
}

/// The mark at which the instrument holds so much, in its own unit.
pub(super) fn mark(instrument: &Instrument, volume: Volume, units: Units) -> String {
    as_marked(instrument, units).volume(instrument.mark_for(volume))
}

/// How often to fill the instrument, and to which marks.
pub(super) fn draws_text(draws: &Draws, units: Units) -> String {
    let instrument = draws.instrument;
    let units = as_marked(instrument, units);
    let to = |volume: Volume| {
        let mark = instrument.mark_for(volume);
        let between = match instrument.on_mark(volume) {
            true => String::new(),
            false => {
                let below = instrument.graduation * (mark / instrument.graduation).floor();
                format!(
                    " (between the marks {} and {})",
                    units.volume(below),
                    units.volume(below + instrument.graduation)
                )
            }
        };
        format!("{}{between}", units.volume(mark))
    };
    let times = match draws.fills {
        1 => "once".to_owned(),
        2 => "twice".to_owned(),
        many => format!("{many} times"),
    };
    let rest = draws.rest.map(|rest| format!(", then once to {}", to(rest)));
    format!(
        "Fill the {} {times} to {}{}.",
        instrument.name,
        to(draws.to),
        rest.unwrap_or_default()
    )
}

fn picture(instrument: &Instrument, volume: Volume, times: u32, units: Units) -> Picture {
    let units = as_marked(instrument, units);
    let unit = units.volume_unit();
    let mark = instrument.mark_for(volume);
    let shown = units.volume(mark);
    let repeated = if times > 1 {
        format!(", {times} times")
    } else {
        String::new()
    };
    let caption = format!("{}, filled to {shown}{repeated}", instrument.name);
    let (capacity, graduation, level) = (instrument.capacity / unit, instrument.graduation / unit, mark / unit);
    match instrument.kind {
        InstrumentKind::Syringe => Picture::Syringe {
            caption,
            capacity,
            graduation,
            level,
            shown,
        },
        _ => Picture::Cylinder {
            caption,
            capacity,
            graduation,
            level,
            shown,
        },
    }
}
