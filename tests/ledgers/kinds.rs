//! One ledger with every kind of event in every shape, as format 1 writes it.

use meniscus::chemistry::Class;
use meniscus::development::SheetTime;
use meniscus::keeping::SheetLives;
use meniscus::kit::{Bottle, Climate, Colour, Light, Material, Treatment};
use meniscus::ledger::{
    Bath, ContainerNote, Description, Event, Filled, Opened, Portion, Price, TestResult, Thousandths, What,
};
use meniscus::proof::TestKind;
use meniscus::quantity::{Area, MassDensity, Span, Temperature};

use crate::generator::{bottle, day, event, ml};

const SYRUP: &str = "01956a00-0000-7000-8000-00000000000a";
const STOCK: &str = "01956a00-0000-7000-8000-00000000000b";
const SMALL: &str = "01956a00-0000-7000-8000-00000000000c";
const BATH: &str = "01956a00-0000-7000-8000-00000000000d";

/// Every kind and every shape.
pub fn every_kind() -> Vec<Event> {
    let celsius = Temperature::from_celsius;
    let plain = |product: &str, class| {
        Description::of(Bottle {
            product: product.to_owned(),
            class,
            density: None,
            dilutions: vec![],
            least_per_film: None,
            times: vec![],
            exponent: None,
        })
    };
    let mut full = plain("Blue Syrup “500”", Class::Syrup);
    full.label = Bottle {
        density: Some(MassDensity::from_grams_per_millilitre(1.283)),
        dilutions: vec!["1+31".parse().expect("a dilution")],
        least_per_film: Some(ml(6.0)),
        times: vec![
            SheetTime {
                time: Span::from_seconds(405.0),
                temperature: celsius(20.0),
                dilution: "1+31".parse().ok(),
            },
            SheetTime {
                time: Span::from_seconds(330.0),
                temperature: celsius(22.5),
                dilution: None,
            },
        ],
        exponent: Some(0.75),
        ..full.label
    };
    full.container = ContainerNote {
        name: "square brown".to_owned(),
        brimful: Some(ml(530.0)),
        nominal: Some(ml(500.0)),
        material: Some(Material::Hdpe),
        wall_area: Some(Area::from_square_centimetres(412.5)),
        thickness: Some(0.85),
        colour: Some(Colour::Amber),
    };
    full.price = Some(Price {
        cents: 2490,
        currency: "EUR".to_owned(),
    });
    full.lives = SheetLives {
        unopened: Some(1460.0),
        full: Some(730.0),
        half_full: Some(365.0),
    };
    full.films_per_litre = Some(Thousandths(66_667));
    let container = |nominal: f64, material, colour| ContainerNote {
        brimful: Some(ml(nominal + 3.5)),
        nominal: Some(ml(nominal)),
        material: Some(material),
        colour: Some(colour),
        ..ContainerNote::default()
    };
    let beginning = |name: &str, is: Description, filled, opened| What::Added {
        bottle: bottle(name),
        is: Box::new(is),
        filled,
        opened,
    };
    let tested = |test, result, note: &str| What::Tested {
        bottle: bottle(SYRUP),
        test,
        result,
        note: note.to_owned(),
    };
    let treated = |how| What::Treated {
        bottle: bottle(SYRUP),
        how,
    };
    let placed = |place: &str, climate, light| What::PlaceNoted {
        place: place.to_owned(),
        climate,
        light,
    };
    let of_every_material = Material::ALL.map(|(word, _, material)| Filled {
        bottle: bottle(word),
        container: ContainerNote {
            material: Some(material),
            ..ContainerNote::default()
        },
        volume: ml(1.0),
    });
    let whats = vec![
        placed(
            "cellar",
            Some(Climate::Seasonal {
                low: celsius(9.0),
                high: celsius(17.5),
                warmest: 220,
            }),
            Some(Light::Dark),
        ),
        placed(
            "kitchen",
            Some(Climate::Between(celsius(18.0), celsius(26.0))),
            Some(Light::Lit),
        ),
        placed("fridge", Some(Climate::Steady(celsius(5.0))), None),
        placed("attic", None, None),
        beginning(SYRUP, full.clone(), Some(ml(500.0)), Opened::Never),
        beginning(
            STOCK,
            plain("Kitchen Stock", Class::PowderStock),
            None,
            Opened::On(day("2025-01-12")),
        ),
        beginning(
            "starter bottle",
            plain("Sour Stop", Class::StopBath),
            Some(ml(0.0)),
            Opened::SomeDay,
        ),
        beginning("bottle 4", plain("Clear Fix", Class::Fixer), None, Opened::NotKnown),
        What::Opened { bottle: bottle(SYRUP) },
        What::Drawn {
            bottle: bottle(SYRUP),
            volume: ml(18.75),
            bath: Some(ml(600.0)),
            dilution: "1+31".parse().ok(),
            purpose: "two rolls, flat light".to_owned(),
        },
        What::Drawn {
            bottle: bottle(STOCK),
            volume: ml(300.0),
            bath: None,
            dilution: None,
            purpose: String::new(),
        },
        What::Decanted {
            from: bottle(SYRUP),
            into: vec![
                Filled {
                    bottle: bottle(SMALL),
                    container: container(100.0, Material::Glass, Colour::Clear),
                    volume: ml(103.5),
                },
                Filled {
                    bottle: bottle("01956a00-0000-7000-8000-00000000000e"),
                    container: ContainerNote::default(),
                    volume: ml(250.001),
                },
            ],
        },
        What::Decanted {
            from: bottle(SYRUP),
            into: of_every_material.to_vec(),
        },
        treated(Treatment::Squeezed),
        treated(Treatment::Beads(Some(ml(40.0)))),
        treated(Treatment::Beads(None)),
        treated(Treatment::InertGas),
        treated(Treatment::Plain),
        What::Mixed {
            from: vec![Portion {
                bottle: bottle(STOCK),
                volume: ml(500.0),
            }],
            water: ml(500.0),
            dilution: "1+1".parse().ok(),
            into: Bath::Kept {
                bottle: bottle(BATH),
                is: Box::new(plain("Working bath", Class::WorkingDeveloper)),
            },
        },
        What::Mixed {
            from: vec![
                Portion {
                    bottle: bottle(SYRUP),
                    volume: ml(5.0),
                },
                Portion {
                    bottle: bottle(SMALL),
                    volume: ml(6.0),
                },
            ],
            water: ml(589.0),
            dilution: None,
            into: Bath::Used {
                purpose: "one roll".to_owned(),
            },
        },
        tested(TestKind::Clip, TestResult::Passed, "pitch black"),
        tested(TestKind::Clearing, TestResult::Failed, ""),
        tested(
            TestKind::Comparison,
            TestResult::Strength {
                strength: Thousandths(962),
                uncertainty: Some(Thousandths(25)),
            },
            "",
        ),
        tested(
            TestKind::Other,
            TestResult::Strength {
                strength: Thousandths(1000),
                uncertainty: None,
            },
            "",
        ),
        tested(TestKind::Indicator, TestResult::Passed, ""),
        tested(TestKind::ResidualSilver, TestResult::Passed, ""),
        tested(TestKind::ResidualThiosulfate, TestResult::Passed, ""),
        What::FilmsThrough {
            bottle: bottle(BATH),
            units: Thousandths(1000),
            films: "1 × 120".to_owned(),
        },
        What::FilmsThrough {
            bottle: bottle(BATH),
            units: Thousandths(2250),
            films: String::new(),
        },
        What::ToppedUp {
            bottle: bottle(BATH),
            volume: ml(70.0),
            from: Some(bottle(STOCK)),
        },
        What::ToppedUp {
            bottle: bottle(BATH),
            volume: ml(5.0),
            from: None,
        },
        What::Moved {
            bottle: bottle(SYRUP),
            place: "cellar".to_owned(),
        },
        What::ContentNoted {
            bottle: bottle(STOCK),
            left: ml(130.0),
        },
        What::BottleNoted {
            bottle: bottle(STOCK),
            is: Box::new(Description {
                container: container(1000.0, Material::Pet, Colour::Opaque),
                ..plain("Kitchen Stock No. 3", Class::PowderStock)
            }),
        },
        What::Discarded {
            bottle: bottle(BATH),
            reason: "brown".to_owned(),
        },
        What::Discarded {
            bottle: bottle("starter bottle"),
            reason: String::new(),
        },
        What::Note {
            bottle: Some(bottle(SYRUP)),
            text: "cap replaced,\nnew liner".to_owned(),
        },
        What::Note {
            bottle: None,
            text: "tap water 11 °C".to_owned(),
        },
    ];
    let first = day("2026-02-27");
    let mut events: Vec<Event> = (0..)
        .zip(whats)
        .map(|(n, what)| event(n, first + n as i32 / 12, n as i64 * 60_000, what))
        .collect();
    let last = events.len() as u128;
    let taken_back = events.iter().find(|event| matches!(event.what, What::Discarded { .. }));
    let taken_back = What::Corrected {
        event: taken_back.expect("a bottle is discarded").id,
    };
    events.push(event(last, day("2026-03-04"), 0, taken_back));
    // What came to the format later stands last: what was written before it stays as it was.
    let dropped = What::PlaceDropped {
        place: "fridge".to_owned(),
    };
    events.push(event(last + 1, day("2026-03-05"), 0, dropped));
    events
}
