//! From the written form to an event. Whatever somebody wrote is checked on this way, and nowhere else.

use super::check;
use super::{CLASSES, COLOURS, LIGHTS, MATERIALS, TESTS};
use crate::development::SheetTime;
use crate::keeping::SheetLives;
use crate::kit::{Bottle, Climate, Treatment};
use crate::ledger::description::{ContainerNote, Description, Opened, Price, TestResult};
use crate::ledger::event::{Bath, Filled, Portion, What};
use crate::store::reading::{Fields, no_such, short, value, value_if};

/// What happened: the kind, and whatever goes with it.
pub(super) fn what(of: &mut Fields) -> What {
    match of.word("what") {
        "added" => What::Added {
            bottle: check::bottle(of, "bottle"),
            is: description(of),
            filled: check::volume_if(of, "filled_ul"),
            opened: opened(of),
        },
        "opened" => What::Opened {
            bottle: check::bottle(of, "bottle"),
        },
        "drawn" => What::Drawn {
            bottle: check::bottle(of, "bottle"),
            volume: check::some(of, "volume_ul"),
            bath: check::volume_if(of, "bath_ul"),
            dilution: check::dilution_if(of, "dilution"),
            purpose: check::note_if(of, "purpose"),
        },
        "decanted" => What::Decanted {
            from: check::bottle(of, "from"),
            into: at_least_one(of, "into", filled),
        },
        "treated" => What::Treated {
            bottle: check::bottle(of, "bottle"),
            how: treatment(of),
        },
        "mixed" => What::Mixed {
            from: at_least_one(of, "from", portion),
            water: check::volume(of, "water_ul"),
            dilution: check::dilution_if(of, "dilution"),
            into: bath(of),
        },
        "tested" => What::Tested {
            bottle: check::bottle(of, "bottle"),
            test: value(of, "test", &TESTS),
            result: result(of),
            note: check::note_if(of, "note"),
        },
        "films_through" => What::FilmsThrough {
            bottle: check::bottle(of, "bottle"),
            units: check::thousandths(of, "units_thousandths"),
            films: check::name_if(of, "films"),
        },
        "developed" => What::Developed {
            text: check::session(of, "session"),
        },
        "topped_up" => What::ToppedUp {
            bottle: check::bottle(of, "bottle"),
            volume: check::some(of, "volume_ul"),
            from: check::bottle_if(of, "from"),
        },
        "moved" => What::Moved {
            bottle: check::bottle(of, "bottle"),
            place: check::name(of, "place"),
        },
        "place_noted" => What::PlaceNoted {
            place: check::name(of, "place"),
            climate: climate(of),
            light: value_if(of, "light", &LIGHTS),
        },
        "place_dropped" => What::PlaceDropped {
            place: check::name(of, "place"),
        },
        "content_noted" => What::ContentNoted {
            bottle: check::bottle(of, "bottle"),
            left: check::volume(of, "left_ul"),
        },
        "bottle_noted" => What::BottleNoted {
            bottle: check::bottle(of, "bottle"),
            is: description(of),
        },
        "discarded" => What::Discarded {
            bottle: check::bottle(of, "bottle"),
            reason: check::note_if(of, "reason"),
        },
        "corrected" => What::Corrected {
            event: check::event_id(of, "event"),
        },
        "note" => What::Note {
            bottle: check::bottle_if(of, "bottle"),
            text: check::note(of, "text"),
        },
        later => {
            of.wrong(format!(
                "it is an event of the kind “{}”, which came later",
                short(later)
            ));
            What::Note {
                bottle: None,
                text: String::new(),
            }
        }
    }
}

fn at_least_one<T>(of: &mut Fields, name: &str, read: fn(&mut Fields) -> T) -> Vec<T> {
    let parts = check::parts(of, name, read);
    if parts.is_empty() {
        of.wrong(format!("“{name}” has no parts"));
    }
    parts
}

fn filled(of: &mut Fields) -> Filled {
    let mut inner = of.object("container");
    let container = container(&mut inner);
    of.close(inner);
    Filled {
        bottle: check::bottle(of, "bottle"),
        container,
        volume: check::some(of, "volume_ul"),
    }
}

fn portion(of: &mut Fields) -> Portion {
    Portion {
        bottle: check::bottle(of, "bottle"),
        volume: check::some(of, "volume_ul"),
    }
}

fn treatment(of: &mut Fields) -> Treatment {
    let (word, mut inner) = of.choice("how");
    let how = match word {
        "plain" => Treatment::Plain,
        "squeezed" => Treatment::Squeezed,
        "beads" => Treatment::Beads(None),
        "beads_ul" => Treatment::Beads(Some(check::volume(&mut inner, word))),
        "inert_gas" => Treatment::InertGas,
        _ => {
            no_such(of, word);
            Treatment::Plain
        }
    };
    of.close(inner);
    how
}

fn opened(of: &mut Fields) -> Opened {
    let (word, mut inner) = of.choice("opened");
    let opened = match word {
        "never" => Opened::Never,
        "on" => Opened::On(check::day(&mut inner, word)),
        "some_day" => Opened::SomeDay,
        "not_known" => Opened::NotKnown,
        _ => {
            no_such(of, word);
            Opened::NotKnown
        }
    };
    of.close(inner);
    opened
}

fn bath(of: &mut Fields) -> Bath {
    let (word, mut inner) = of.choice("into");
    let mut says = inner.object(word);
    let bath = match word {
        "kept" => Bath::Kept {
            bottle: check::bottle(&mut says, "bottle"),
            is: description(&mut says),
        },
        _ => Bath::Used {
            purpose: check::note_if(&mut says, "purpose"),
        },
    };
    if !matches!(word, "kept" | "used") {
        no_such(of, word);
    }
    inner.close(says);
    of.close(inner);
    bath
}

fn result(of: &mut Fields) -> TestResult {
    let (word, mut inner) = of.choice("result");
    let result = match word {
        "passed" => TestResult::Passed,
        "seen" => TestResult::Seen,
        "failed" => TestResult::Failed,
        "strength" => {
            let mut says = inner.object(word);
            let (strength, uncertainty) = (says.integer("thousandths"), says.integer_if("uncertainty_thousandths"));
            inner.close(says);
            TestResult::Strength {
                strength: check::strength(&mut inner, strength),
                uncertainty: uncertainty.map(|uncertainty| check::strength(&mut inner, uncertainty)),
            }
        }
        _ => {
            no_such(of, word);
            TestResult::Failed
        }
    };
    of.close(inner);
    result
}

fn climate(of: &mut Fields) -> Option<Climate> {
    let mut inner = of.object_if("climate")?;
    let word = inner.first_name();
    let mut says = inner.object(word);
    let climate = match word {
        "steady" => Climate::Steady(check::temperature(&mut says, "mc")),
        "between" => {
            let (low, high) = check::two_temperatures(&mut says);
            Climate::Between(low, high)
        }
        _ => {
            let (low, high) = check::two_temperatures(&mut says);
            let warmest = check::day_of_year(&mut says, "warmest_day");
            Climate::Seasonal { low, high, warmest }
        }
    };
    if !matches!(word, "steady" | "between" | "seasonal") {
        no_such(of, word);
    }
    inner.close(says);
    of.close(inner);
    Some(climate)
}

fn description(of: &mut Fields) -> Box<Description> {
    let mut is = of.object("is");
    let label = Bottle {
        product: check::name(&mut is, "product"),
        class: value(&mut is, "class", &CLASSES),
        density: check::density_if(&mut is, "density_ug_per_ml"),
        dilutions: check::dilutions_if(&mut is, "dilution"),
        least_per_film: check::volume_if(&mut is, "least_per_film_ul"),
        times: check::parts(&mut is, "times", time),
        exponent: check::exponent_if(&mut is, "exponent_thousandths"),
    };
    let mut inner = is.object_if("container").unwrap_or_default();
    let container = container(&mut inner);
    is.close(inner);
    let (cents, currency) = (is.integer_if("price_cents"), check::name_if(&mut is, "currency"));
    if cents.is_none() && !currency.is_empty() {
        is.wrong("it has a currency and no price".to_owned());
    }
    let description = Description {
        label,
        container,
        price: cents.map(|cents| Price {
            cents: check::whole(&mut is, cents).0,
            currency,
        }),
        lives: SheetLives {
            unopened: check::life_if(&mut is, "unopened_days"),
            full: check::life_if(&mut is, "full_days"),
            half_full: check::life_if(&mut is, "half_full_days"),
        },
        films_per_litre: is
            .integer_if("films_per_litre_thousandths")
            .map(|films| check::whole(&mut is, films)),
    };
    of.close(is);
    Box::new(description)
}

fn container(of: &mut Fields) -> ContainerNote {
    ContainerNote {
        name: check::name_if(of, "name"),
        brimful: check::some_if(of, "brimful_ul"),
        nominal: check::some_if(of, "nominal_ul"),
        material: value_if(of, "material", &MATERIALS),
        wall_area: check::wall_area_if(of, "wall_area_mm2"),
        thickness: check::thickness_if(of, "thickness_um"),
        colour: value_if(of, "colour", &COLOURS),
    }
}

fn time(of: &mut Fields) -> SheetTime {
    SheetTime {
        time: check::span(of, "time_ms"),
        temperature: check::temperature(of, "temperature_mc"),
        dilution: check::dilution_if(of, "dilution"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::ledger::written::KINDS;

    #[test]
    fn every_kind_is_known() {
        let wrong = |kind: &str| {
            let json = format!(r#"{{"what":"{kind}"}}"#);
            let mut fields = Fields::of(&json);
            what(&mut fields);
            fields.end()
        };
        for kind in KINDS {
            let said = wrong(kind).err().unwrap_or_default();
            assert!(!said.contains("came later"), "{kind}: {said}");
        }
        let said = "it is an event of the kind “frozen”, which came later";
        assert_eq!(wrong("frozen"), Err(said.to_owned()));
    }
}
