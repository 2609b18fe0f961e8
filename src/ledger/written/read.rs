//! From the written form to an event. Whatever somebody wrote is checked here, and nowhere else.

use super::fields::{self, Fields, short};
use super::{CLASSES, COLOURS, LIGHTS, MATERIALS, TESTS, check};
use crate::development::SheetTime;
use crate::keeping::SheetLives;
use crate::kit::{Bottle, Climate, Treatment};
use crate::ledger::description::{ContainerNote, Description, Opened, Price, TestResult};
use crate::ledger::event::{Bath, Filled, Portion, What};
use crate::ledger::id::BottleId;
use crate::quantity::{Dilution, Volume};

type Read<T> = Result<T, String>;

/// What happened: the kind, and whatever goes with it.
pub(super) fn what(of: &mut Fields) -> Read<What> {
    let kind = of.word("what")?;
    Ok(match kind {
        "added" => What::Added {
            bottle: bottle(of)?,
            is: description(of)?,
            filled: volume_if(of, "filled_ul")?,
            opened: opened(of)?,
        },
        "opened" => What::Opened { bottle: bottle(of)? },
        "drawn" => What::Drawn {
            bottle: bottle(of)?,
            volume: some(of)?,
            bath: volume_if(of, "bath_ul")?,
            dilution: dilution(of)?,
            purpose: note(of, "purpose")?,
        },
        "decanted" => What::Decanted {
            from: check::bottle(of.text("from")?)?,
            into: parts(of.list("into")?, |of| {
                Ok(Filled {
                    bottle: bottle(of)?,
                    container: container(of.object("container")?)?,
                    volume: some(of)?,
                })
            })?,
        },
        "treated" => What::Treated {
            bottle: bottle(of)?,
            how: match of.choice("how")? {
                ("plain", None) => Treatment::Plain,
                ("squeezed", None) => Treatment::Squeezed,
                ("beads", None) => Treatment::Beads(None),
                ("beads_ul", Some(volume)) => {
                    let beads = fields::integer(volume).ok_or("“beads_ul” is no whole number")?;
                    Treatment::Beads(Some(check::volume(beads)?))
                }
                ("inert_gas", None) => Treatment::InertGas,
                (word, _) => return Err(no_such(word)),
            },
        },
        "mixed" => What::Mixed {
            from: parts(of.list("from")?, |of| {
                Ok(Portion {
                    bottle: bottle(of)?,
                    volume: some(of)?,
                })
            })?,
            water: check::volume(of.integer("water_ul")?)?,
            dilution: dilution(of)?,
            into: bath(of.object("into")?)?,
        },
        "tested" => What::Tested {
            bottle: bottle(of)?,
            test: check::value(&TESTS, of.word("test")?)?,
            result: result(of)?,
            note: note(of, "note")?,
        },
        "films_through" => What::FilmsThrough {
            bottle: bottle(of)?,
            units: check::thousandths(of.integer("units_thousandths")?)?,
            films: check::name(of.text_if("films")?.unwrap_or_default())?,
        },
        "topped_up" => What::ToppedUp {
            bottle: bottle(of)?,
            volume: some(of)?,
            from: of.text_if("from")?.map(check::bottle).transpose()?,
        },
        "moved" => What::Moved {
            bottle: bottle(of)?,
            place: check::needed(of.text("place")?)?,
        },
        "place_noted" => What::PlaceNoted {
            place: check::needed(of.text("place")?)?,
            climate: of.object_if("climate")?.map(climate).transpose()?,
            light: word_if(of, "light", &LIGHTS)?,
        },
        "content_noted" => What::ContentNoted {
            bottle: bottle(of)?,
            left: check::volume(of.integer("left_ul")?)?,
        },
        "bottle_noted" => What::BottleNoted {
            bottle: bottle(of)?,
            is: description(of)?,
        },
        "discarded" => What::Discarded {
            bottle: bottle(of)?,
            reason: note(of, "reason")?,
        },
        "corrected" => What::Corrected {
            event: check::event_id(of.word("event")?)?,
        },
        "note" => What::Note {
            bottle: of.text_if("bottle")?.map(check::bottle).transpose()?,
            text: check::note(of.text("text")?)?,
        },
        _ => {
            return Err(format!(
                "it is an event of the kind “{}”, which came later",
                short(kind)
            ));
        }
    })
}

fn bottle(of: &mut Fields) -> Read<BottleId> {
    check::bottle(of.text("bottle")?)
}

fn some(of: &mut Fields) -> Read<Volume> {
    check::some(of.integer("volume_ul")?)
}

fn volume_if(of: &mut Fields, name: &str) -> Read<Option<Volume>> {
    of.integer_if(name)?.map(check::volume).transpose()
}

fn dilution(of: &mut Fields) -> Read<Option<Dilution>> {
    of.word_if("dilution")?.map(check::dilution).transpose()
}

fn note(of: &mut Fields, name: &str) -> Read<String> {
    check::note(of.text_if(name)?.unwrap_or_default())
}

fn opened(of: &mut Fields) -> Read<Opened> {
    Ok(match of.choice("opened")? {
        ("never", None) => Opened::Never,
        ("some_day", None) => Opened::SomeDay,
        ("not_known", None) => Opened::NotKnown,
        ("on", Some(day)) => Opened::On(check::day(fields::word(day).unwrap_or(day))?),
        (word, _) => return Err(no_such(word)),
    })
}

fn bath(fields: Fields) -> Read<Bath> {
    let (word, says) = fields.only()?;
    let mut of = Fields::of(says)?;
    let bath = match word {
        "kept" => Bath::Kept {
            bottle: bottle(&mut of)?,
            is: description(&mut of)?,
        },
        "used" => Bath::Used {
            purpose: note(&mut of, "purpose")?,
        },
        _ => return Err(no_such(word)),
    };
    of.end()?;
    Ok(bath)
}

fn result(of: &mut Fields) -> Read<TestResult> {
    Ok(match of.choice("result")? {
        ("passed", None) => TestResult::Passed,
        ("failed", None) => TestResult::Failed,
        ("strength", Some(says)) => {
            let mut of = Fields::of(says)?;
            let strength = check::strength(of.integer("thousandths")?)?;
            let uncertainty = of.integer_if("uncertainty_thousandths")?;
            of.end()?;
            TestResult::Strength {
                strength,
                uncertainty: uncertainty.map(check::strength).transpose()?,
            }
        }
        (word, _) => return Err(no_such(word)),
    })
}

fn climate(fields: Fields) -> Read<Climate> {
    let (word, says) = fields.only()?;
    let mut of = Fields::of(says)?;
    let climate = match word {
        "steady" => Climate::Steady(check::temperature(of.integer("mc")?)?),
        "between" => {
            let (low, high) = check::two_temperatures(of.integer("low_mc")?, of.integer("high_mc")?)?;
            Climate::Between(low, high)
        }
        "seasonal" => {
            let (low, high) = check::two_temperatures(of.integer("low_mc")?, of.integer("high_mc")?)?;
            let warmest = check::day_of_year(of.integer("warmest_day")?)?;
            Climate::Seasonal { low, high, warmest }
        }
        _ => return Err(no_such(word)),
    };
    of.end()?;
    Ok(climate)
}

fn description(of: &mut Fields) -> Read<Box<Description>> {
    let mut fields = of.object("is")?;
    let of = &mut fields;
    let label = Bottle {
        product: check::needed(of.text("product")?)?,
        class: check::value(&CLASSES, of.word("class")?)?,
        density: of.integer_if("density_ug_per_ml")?.map(check::density).transpose()?,
        dilution: dilution(of)?,
        least_per_film: volume_if(of, "least_per_film_ul")?,
        times: check::few(of.list("times")?)?
            .into_iter()
            .map(time)
            .collect::<Read<_>>()?,
        exponent: of
            .integer_if("exponent_thousandths")?
            .map(check::exponent)
            .transpose()?,
    };
    let container = match of.object_if("container")? {
        Some(fields) => container(fields)?,
        None => ContainerNote::default(),
    };
    let price = match (of.integer_if("price_cents")?, of.text_if("currency")?) {
        (Some(cents), currency) => Some(Price {
            cents: check::cents(cents)?,
            currency: check::name(currency.unwrap_or_default())?,
        }),
        (None, None) => None,
        (None, Some(_)) => return Err("it has a currency and no price".to_owned()),
    };
    let mut life = |name: &str| of.integer_if(name)?.map(check::life).transpose();
    let lives = SheetLives {
        unopened: life("unopened_days")?,
        full: life("full_days")?,
        half_full: life("half_full_days")?,
    };
    let films = of.integer_if("films_per_litre_thousandths")?;
    fields.end()?;
    Ok(Box::new(Description {
        label,
        container,
        price,
        lives,
        films_per_litre: films.map(check::thousandths).transpose()?,
    }))
}

fn container(mut of: Fields) -> Read<ContainerNote> {
    let container = ContainerNote {
        name: check::name(of.text_if("name")?.unwrap_or_default())?,
        brimful: of.integer_if("brimful_ul")?.map(check::some).transpose()?,
        nominal: of.integer_if("nominal_ul")?.map(check::some).transpose()?,
        material: word_if(&mut of, "material", &MATERIALS)?,
        wall_area: of.integer_if("wall_area_mm2")?.map(check::wall_area).transpose()?,
        thickness: of.integer_if("thickness_um")?.map(check::thickness).transpose()?,
        colour: word_if(&mut of, "colour", &COLOURS)?,
    };
    of.end()?;
    Ok(container)
}

fn word_if<T: Copy>(of: &mut Fields, name: &str, words: &[(&str, T)]) -> Read<Option<T>> {
    let word = of.word_if(name)?;
    word.map(|word| check::value(words, word)).transpose()
}

fn time(json: &str) -> Read<SheetTime> {
    let mut of = Fields::of(json)?;
    let time = SheetTime {
        time: check::span(of.integer("time_ms")?)?,
        temperature: check::temperature(of.integer("temperature_mc")?)?,
        dilution: dilution(&mut of)?,
    };
    of.end()?;
    Ok(time)
}

/// As many parts as one event may have, one at least.
fn parts<T>(list: Vec<&str>, read: impl Fn(&mut Fields) -> Read<T>) -> Read<Vec<T>> {
    if list.is_empty() {
        return Err("it has no parts".to_owned());
    }
    let one = |json: &str| {
        let mut fields = Fields::of(json)?;
        let part = read(&mut fields)?;
        fields.end()?;
        Ok(part)
    };
    check::few(list)?.into_iter().map(one).collect()
}

fn no_such(word: &str) -> String {
    format!("there is no “{}”", short(word))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::ledger::written::KINDS;

    #[test]
    fn every_kind_is_known() {
        let error = |kind: &str| {
            let json = format!(r#"{{"what":"{kind}"}}"#);
            let mut fields = Fields::of(&json).expect("an object");
            what(&mut fields).expect_err("it says nothing more")
        };
        for kind in KINDS {
            assert!(!error(kind).contains("came later"), "{kind}: {}", error(kind));
        }
        assert_eq!(error("frozen"), "it is an event of the kind “frozen”, which came later");
    }
}
