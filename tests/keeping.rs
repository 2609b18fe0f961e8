//! Substances and keeping against published figures, against naive second derivations, and against their own laws.
#![cfg(not(target_arch = "wasm32"))]

use meniscus::chemistry::Class;
use meniscus::kit::{Climate, Colour, Container, Material};
use meniscus::quantity::{Temperature, Volume};

#[path = "keeping/air.rs"]
mod air;
#[path = "keeping/cases.rs"]
mod cases;
#[path = "keeping/chemistry.rs"]
mod chemistry;
#[path = "keeping/laws.rs"]
mod laws;
#[path = "keeping/lives.rs"]
mod lives;
#[path = "keeping/outlook.rs"]
mod outlook;
#[path = "keeping/plans.rs"]
mod plans;
#[path = "keeping/states.rs"]
mod states;

#[track_caller]
fn near(what: &str, got: f64, wanted: f64, tolerance: f64) {
    assert!(
        (got - wanted).abs() <= tolerance,
        "{what}: {got} is not {wanted} within {tolerance}"
    );
}

fn millilitres(value: f64) -> Volume {
    Volume::from_millilitres(value)
}

fn celsius(value: f64) -> Temperature {
    Temperature::from_celsius(value)
}

fn steady(value: f64) -> Climate {
    Climate::Steady(celsius(value))
}

fn bottle(material: Material, brimful: f64) -> Container {
    Container {
        name: format!("{} {brimful}", material.name()),
        brimful: millilitres(brimful),
        nominal: None,
        material,
        wall_area: None,
        thickness: None,
        colour: Colour::Amber,
    }
}

fn material(word: &str) -> Material {
    let found = Material::ALL.iter().find(|(known, _, _)| *known == word);
    found.unwrap_or_else(|| panic!("no material {word}")).2
}

fn class(word: &str) -> Class {
    let found = Class::ALL.iter().find(|(known, _, _)| *known == word);
    found.unwrap_or_else(|| panic!("no class {word}")).2
}
