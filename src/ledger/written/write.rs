//! From an event to its written form.

use super::{CLASSES, COLOURS, LIGHTS, MATERIALS, TESTS};
use crate::development::SheetTime;
use crate::kit::{Climate, Treatment};
use crate::ledger::description::{ContainerNote, Description, Opened, TestResult, Thousandths};
use crate::ledger::event::{Bath, Filled, Portion, What};
use crate::ledger::id::BottleId;
use crate::quantity::{Dilution, Temperature, Volume};
use crate::store::object::Object;
use crate::store::reading::word_for;

/// Adds to the head of an event what happened: the kind, and whatever goes with it.
pub(super) fn what(head: Object, what: &What) -> Object {
    let says = head.text("what", what.word());
    match what {
        What::Added {
            bottle,
            is,
            filled,
            opened,
        } => {
            let says = says
                .text("bottle", bottle.as_str())
                .object("is", description(is))
                .integer_if("filled_ul", filled.map(Volume::microlitres));
            match opened {
                Opened::Never => says.text("opened", "never"),
                Opened::On(day) => says.object("opened", Object::new().text("on", &day.to_string())),
                Opened::SomeDay => says.text("opened", "some_day"),
                Opened::NotKnown => says.text("opened", "not_known"),
            }
        }
        What::Opened { bottle } => says.text("bottle", bottle.as_str()),
        What::Drawn {
            bottle,
            volume,
            bath,
            dilution,
            purpose,
        } => says
            .text("bottle", bottle.as_str())
            .integer("volume_ul", volume.microlitres())
            .integer_if("bath_ul", bath.map(Volume::microlitres))
            .text_if("dilution", &shown(dilution.as_ref()))
            .text_if("purpose", purpose),
        What::Decanted { from, into } => says
            .text("from", from.as_str())
            .list_if("into", into.iter().map(filled).collect()),
        What::Treated { bottle, how } => {
            let says = says.text("bottle", bottle.as_str());
            match how {
                Treatment::Plain => says.text("how", "plain"),
                Treatment::Squeezed => says.text("how", "squeezed"),
                Treatment::Beads(None) => says.text("how", "beads"),
                Treatment::Beads(Some(volume)) => {
                    says.object("how", Object::new().integer("beads_ul", volume.microlitres()))
                }
                Treatment::InertGas => says.text("how", "inert_gas"),
            }
        }
        What::Mixed {
            from,
            water,
            dilution,
            into,
        } => says
            .list_if("from", from.iter().map(portion).collect())
            .integer("water_ul", water.microlitres())
            .text_if("dilution", &shown(dilution.as_ref()))
            .object("into", bath(into)),
        What::Tested {
            bottle,
            test,
            result,
            note,
        } => {
            let says = says
                .text("bottle", bottle.as_str())
                .text("test", word_for(&TESTS, *test));
            let says = match result {
                TestResult::Passed => says.text("result", "passed"),
                TestResult::Seen => says.text("result", "seen"),
                TestResult::Failed => says.text("result", "failed"),
                TestResult::Strength { strength, uncertainty } => {
                    let strength = Object::new()
                        .integer("thousandths", i64::from(strength.0))
                        .integer_if("uncertainty_thousandths", thousandths(*uncertainty));
                    says.object("result", Object::new().object("strength", strength))
                }
            };
            says.text_if("note", note)
        }
        What::FilmsThrough { bottle, units, films } => says
            .text("bottle", bottle.as_str())
            .integer("units_thousandths", i64::from(units.0))
            .text_if("films", films),
        What::Developed { text } => says.text("session", text),
        What::ToppedUp { bottle, volume, from } => says
            .text("bottle", bottle.as_str())
            .integer("volume_ul", volume.microlitres())
            .text_if("from", from.as_ref().map(BottleId::as_str).unwrap_or_default()),
        What::Moved { bottle, place } => says.text("bottle", bottle.as_str()).text("place", place),
        What::PlaceNoted { place, climate, light } => {
            let says = says.text("place", place);
            let says = match climate {
                Some(climate) => says.object("climate", self::climate(*climate)),
                None => says,
            };
            says.text_if("light", word(&LIGHTS, *light))
        }
        What::PlaceDropped { place } => says.text("place", place),
        What::ContentNoted { bottle, left } => says
            .text("bottle", bottle.as_str())
            .integer("left_ul", left.microlitres()),
        What::BottleNoted { bottle, is } => says.text("bottle", bottle.as_str()).object("is", description(is)),
        What::Discarded { bottle, reason } => says.text("bottle", bottle.as_str()).text_if("reason", reason),
        What::Corrected { event } => says.text("event", &event.to_string()),
        What::Note { bottle, text } => says
            .text_if("bottle", bottle.as_ref().map(BottleId::as_str).unwrap_or_default())
            .text("text", text),
    }
}

impl What {
    /// The word that its written form has for it.
    pub fn word(&self) -> &'static str {
        match self {
            Self::Added { .. } => "added",
            Self::Opened { .. } => "opened",
            Self::Drawn { .. } => "drawn",
            Self::Decanted { .. } => "decanted",
            Self::Treated { .. } => "treated",
            Self::Mixed { .. } => "mixed",
            Self::Tested { .. } => "tested",
            Self::FilmsThrough { .. } => "films_through",
            Self::Developed { .. } => "developed",
            Self::ToppedUp { .. } => "topped_up",
            Self::Moved { .. } => "moved",
            Self::PlaceNoted { .. } => "place_noted",
            Self::PlaceDropped { .. } => "place_dropped",
            Self::ContentNoted { .. } => "content_noted",
            Self::BottleNoted { .. } => "bottle_noted",
            Self::Discarded { .. } => "discarded",
            Self::Corrected { .. } => "corrected",
            Self::Note { .. } => "note",
        }
    }
}

fn filled(filled: &Filled) -> Object {
    Object::new()
        .text("bottle", filled.bottle.as_str())
        .object("container", container(&filled.container))
        .integer("volume_ul", filled.volume.microlitres())
}

fn portion(portion: &Portion) -> Object {
    Object::new()
        .text("bottle", portion.bottle.as_str())
        .integer("volume_ul", portion.volume.microlitres())
}

fn bath(bath: &Bath) -> Object {
    match bath {
        Bath::Kept { bottle, is } => {
            let kept = Object::new().text("bottle", bottle.as_str());
            Object::new().object("kept", kept.object("is", description(is)))
        }
        Bath::Used { purpose } => Object::new().object("used", Object::new().text_if("purpose", purpose)),
    }
}

fn description(is: &Description) -> Object {
    let label = &is.label;
    let density = label.density.map(|density| density.grams_per_millilitre());
    let price = is.price.as_ref();
    let says = Object::new()
        .text("product", &label.product)
        .text("class", word_for(&CLASSES, label.class))
        .integer_if("density_ug_per_ml", density.map(|density| rounded(density * 1e6)))
        .text_if("dilution", &Dilution::show_list(&label.dilutions))
        .integer_if("least_per_film_ul", label.least_per_film.map(Volume::microlitres))
        .list_if("times", label.times.iter().map(time).collect())
        .integer_if(
            "exponent_thousandths",
            thousandths(label.exponent.map(Thousandths::nearest)),
        );
    let says = match is.container == ContainerNote::default() {
        true => says,
        false => says.object("container", container(&is.container)),
    };
    says.integer_if("price_cents", price.map(|price| i64::from(price.cents)))
        .text_if(
            "currency",
            price.map(|price| price.currency.as_str()).unwrap_or_default(),
        )
        .integer_if("unopened_days", is.lives.unopened.map(rounded))
        .integer_if("full_days", is.lives.full.map(rounded))
        .integer_if("half_full_days", is.lives.half_full.map(rounded))
        .integer_if("films_per_litre_thousandths", thousandths(is.films_per_litre))
}

fn container(container: &ContainerNote) -> Object {
    Object::new()
        .text_if("name", &container.name)
        .integer_if("brimful_ul", container.brimful.map(Volume::microlitres))
        .integer_if("nominal_ul", container.nominal.map(Volume::microlitres))
        .text_if("material", word(&MATERIALS, container.material))
        .integer_if(
            "wall_area_mm2",
            container
                .wall_area
                .map(|area| rounded(area.square_centimetres() * 100.0)),
        )
        .integer_if(
            "thickness_um",
            container.thickness.map(|thickness| rounded(thickness * 1000.0)),
        )
        .text_if("colour", word(&COLOURS, container.colour))
}

fn time(time: &SheetTime) -> Object {
    Object::new()
        .integer("time_ms", rounded(time.time.seconds() * 1000.0))
        .integer("temperature_mc", time.temperature.millidegrees())
        .text_if("dilution", &shown(time.dilution.as_ref()))
}

fn climate(climate: Climate) -> Object {
    let two = |low: Temperature, high: Temperature| {
        Object::new()
            .integer("low_mc", low.millidegrees())
            .integer("high_mc", high.millidegrees())
    };
    match climate {
        Climate::Steady(always) => Object::new().object("steady", Object::new().integer("mc", always.millidegrees())),
        Climate::Between(low, high) => Object::new().object("between", two(low, high)),
        Climate::Seasonal { low, high, warmest } => {
            let says = two(low, high).integer("warmest_day", i64::from(warmest));
            Object::new().object("seasonal", says)
        }
    }
}

/// The word for a value; nothing where there is none.
fn word<T: PartialEq>(words: &[(&'static str, T)], value: Option<T>) -> &'static str {
    value.map_or("", |value| word_for(words, value))
}

fn rounded(value: f64) -> i64 {
    value.round() as i64
}

fn thousandths(value: Option<Thousandths>) -> Option<i64> {
    value.map(|value| i64::from(value.0))
}

/// A dilution is kept as its canonical text, which is exact to four decimals of a part.
fn shown(dilution: Option<&Dilution>) -> String {
    dilution.map(ToString::to_string).unwrap_or_default()
}
