//! Short ways to say what happened, and to say what should be told of it.

use meniscus::chemistry::Class;
use meniscus::kit::{Material, Treatment};
use meniscus::ledger::{ContainerNote, Event, Filled, Opened, Shelf, What};
use meniscus::quantity::{Units, Volume};

use crate::generator::{bottle, day, description, event, ml};

pub const FIRST: &str = "2026-03-01";

/// Events a day apart, from [`FIRST`] on.
pub fn daily(whats: Vec<What>) -> Vec<Event> {
    let at = |n: usize| day(FIRST) + n as i32;
    whats
        .into_iter()
        .enumerate()
        .map(|(n, what)| event(n as u128, at(n), 0, what))
        .collect()
}

pub fn fold(whats: Vec<What>) -> Shelf {
    Shelf::fold(daily(whats), day(FIRST) + 100)
}

pub fn added(name: &str, filled: Option<f64>) -> What {
    What::Added {
        bottle: bottle(name),
        is: Box::new(description("Blue Syrup", Class::Syrup, Some(500.0), Material::Glass)),
        filled: filled.map(ml),
        opened: Opened::Never,
    }
}

pub fn drawn(name: &str, volume: f64) -> What {
    What::Drawn {
        bottle: bottle(name),
        volume: ml(volume),
        bath: None,
        dilution: None,
        purpose: String::new(),
    }
}

pub fn treated(name: &str, how: Treatment) -> What {
    What::Treated {
        bottle: bottle(name),
        how,
    }
}

pub fn noted(name: &str) -> What {
    What::Note {
        bottle: Some(bottle(name)),
        text: "hm".to_owned(),
    }
}

pub fn discarded(name: &str) -> What {
    What::Discarded {
        bottle: bottle(name),
        reason: String::new(),
    }
}

pub fn undo(event: &Event) -> What {
    What::Corrected { event: event.id }
}

pub fn filled(name: &str, volume: f64) -> Filled {
    Filled {
        bottle: bottle(name),
        container: ContainerNote {
            brimful: Some(ml(volume)),
            material: Some(Material::Glass),
            ..ContainerNote::default()
        },
        volume: ml(volume),
    }
}

pub fn decanted(from: &str, into: Vec<Filled>) -> What {
    What::Decanted {
        from: bottle(from),
        into,
    }
}

#[track_caller]
pub fn left(shelf: &Shelf, name: &str) -> Option<i64> {
    shelf
        .bottle(name)
        .expect("the bottle is there")
        .left()
        .map(Volume::microlitres)
}

#[track_caller]
pub fn problems(shelf: &Shelf, expected: &[&str]) {
    let sentences: Vec<_> = shelf
        .problems
        .iter()
        .map(|problem| format!("{} {}", problem.day, problem.sentence(Units::default())))
        .collect();
    assert_eq!(sentences, expected);
}

/// A line of format 1 with its checksum: CRC-32 bit by bit as ITU-T V.42, 8.1.1.6.2 describes it, derived a second time.
pub fn sealed(json: &str) -> String {
    let checksum = |text: &str| {
        let bits = text
            .bytes()
            .flat_map(|byte| (0..8).map(move |bit| u32::from(byte >> bit & 1)));
        !bits.fold(!0_u32, |rest, bit| match (rest ^ bit) & 1 {
            1 => rest >> 1 ^ 0xEDB8_8320,
            _ => rest >> 1,
        })
    };
    // The check value that this checksum is known by.
    assert_eq!(checksum("123456789"), 0xCBF4_3926);
    format!("1 {:08x} {json}", checksum(json))
}
