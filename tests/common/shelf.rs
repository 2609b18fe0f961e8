//! A shelf with a year behind it: a syrup that outlived its stated life and was proved, a bath mixed from it and thrown away, a
//! fixer of which some was thrown away, a stop bath without a price.

use meniscus::chemistry::Class;
use meniscus::darkroom::Darkroom;
use meniscus::keeping::SheetLives;
use meniscus::kit::{Bottle, Climate, Kit, Material};
use meniscus::ledger::{
    Bath, BottleId, ContainerNote, Description, Event, EventId, Moment, Opened, Portion, Price, Shelf, TestKind,
    TestResult, Thousandths, What,
};
use meniscus::quantity::{Day, Temperature, Volume};

use super::darkroom;

fn day(text: &str) -> Day {
    text.parse().expect("a day")
}

fn id(name: &str) -> BottleId {
    BottleId::new(name).expect("a name")
}

fn ml(value: f64) -> Volume {
    Volume::from_millilitres(value)
}

fn described(product: &str, class: Class, price: Option<u32>, full: f64, size: f64) -> Description {
    let label = Bottle {
        product: product.to_owned(),
        class,
        density: None,
        dilutions: vec!["1+31".parse().expect("a dilution")],
        least_per_film: None,
        times: vec![],
        exponent: None,
    };
    Description {
        price: price.map(|cents| Price {
            cents,
            currency: "EUR".to_owned(),
        }),
        lives: SheetLives {
            unopened: Some(730.0),
            full: Some(full),
            half_full: Some(full),
        },
        container: ContainerNote {
            brimful: Some(ml(size * 1.04)),
            nominal: Some(ml(size)),
            material: Some(Material::Glass),
            ..ContainerNote::default()
        },
        ..Description::of(label)
    }
}

/// What happened, in order.
pub fn events() -> Vec<Event> {
    let blue = described("Blue Syrup", Class::Syrup, Some(2000), 180.0, 500.0);
    let grey = described("Grey Fixer", Class::Fixer, Some(1500), 730.0, 1000.0);
    let stop = described("Sour Stop", Class::StopBath, None, 3650.0, 1000.0);
    let bath = described("Blue bath", Class::WorkingDeveloper, None, 7.0, 640.0);
    let mut all: Vec<(&str, What)> = Vec::new();
    let added = |bottle: &str, is: Description, filled: f64, opened| What::Added {
        bottle: id(bottle),
        is: Box::new(is),
        filled: Some(ml(filled)),
        opened,
    };
    let drawn = |bottle: &str, volume: f64| What::Drawn {
        bottle: id(bottle),
        volume: ml(volume),
        bath: None,
        dilution: None,
        purpose: String::new(),
    };
    let films = |bottle: &str, units: u32| What::FilmsThrough {
        bottle: id(bottle),
        units: Thousandths(units * 1000),
        films: String::new(),
    };
    all.push((
        "2025-02-01",
        What::PlaceNoted {
            place: "cupboard".to_owned(),
            climate: Some(Climate::Steady(Temperature::from_celsius(20.0))),
            light: None,
        },
    ));
    all.push(("2025-02-01", added("blue-1", blue, 500.0, Opened::Never)));
    all.push((
        "2025-02-01",
        What::Moved {
            bottle: id("blue-1"),
            place: "cupboard".to_owned(),
        },
    ));
    for first in [
        "2025-03-01",
        "2025-04-01",
        "2025-05-01",
        "2025-06-01",
        "2025-07-01",
        "2025-08-01",
        "2025-09-01",
        "2025-10-01",
    ] {
        all.push((first, drawn("blue-1", 20.0)));
        all.push((first, films("blue-1", 2)));
    }
    all.push((
        "2025-04-01",
        added("grey-1", grey, 1000.0, Opened::On(day("2025-04-01"))),
    ));
    for first in ["2025-04-02", "2025-05-02", "2025-06-02"] {
        all.push((first, drawn("grey-1", 200.0)));
        all.push((first, films("grey-1", 4)));
    }
    all.push(("2025-06-01", added("sour-1", stop, 1000.0, Opened::SomeDay)));
    all.push(("2025-06-01", drawn("sour-1", 50.0)));
    all.push((
        "2025-10-15",
        What::Tested {
            bottle: id("blue-1"),
            test: TestKind::Clip,
            result: TestResult::Passed,
            note: String::new(),
        },
    ));
    for first in ["2025-11-01", "2025-12-01", "2026-01-01", "2026-02-01"] {
        all.push((first, drawn("blue-1", 20.0)));
        all.push((first, films("blue-1", 2)));
    }
    all.push((
        "2025-12-01",
        What::Discarded {
            bottle: id("grey-1"),
            reason: "clears slowly".to_owned(),
        },
    ));
    all.push((
        "2026-01-10",
        What::Mixed {
            from: vec![Portion {
                bottle: id("blue-1"),
                volume: ml(20.0),
            }],
            water: ml(620.0),
            dilution: None,
            into: Bath::Kept {
                bottle: id("bath-1"),
                is: Box::new(bath),
            },
        },
    ));
    all.push((
        "2026-01-20",
        What::Discarded {
            bottle: id("bath-1"),
            reason: "brown".to_owned(),
        },
    ));
    let event = |(index, (on, what)): (usize, (&str, What))| {
        let at = Moment::noon(day(on));
        Event {
            id: EventId::new(at, index as u128 + 1),
            at,
            day: day(on),
            what,
        }
    };
    all.into_iter().enumerate().map(event).collect()
}

/// A darkroom with that shelf.
pub fn darkroom() -> Darkroom {
    Darkroom {
        kit: Kit::starter(),
        shelf: Shelf::fold(events(), darkroom::today()),
    }
}
