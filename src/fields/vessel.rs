//! The fields that say what a bottle is, what it has been through, and what it holds against the air.

use super::Field;
use super::kinds::{Choice, Climates, Counts, Numbers, Percents, Periods, Volumes};
use crate::chemistry::Formula;
use crate::kit::container::{BRIMFUL as TO_THE_BRIM, THICKNESS as OF_WALL, WALL_AREA as AREA_OF_WALL};
use crate::kit::{Material, Treatment};
use crate::quantity::bounds;

/// What the wall is made of.
pub const MATERIAL: Field<Choice<Material>> =
    Field::new("material", "Made of", Choice(&Material::ALL)).initial("glass");
/// What the bottle is sold as.
pub const NOMINAL: Field<Volumes> = Field::volume("nominal", "Sold as", &bounds::NOMINAL).starting("1 l");
/// Liquid in it now.
pub const LEFT: Field<Volumes> = Field::volume("left", "Left in it", &bounds::LIQUID).initial("500 ml");
/// How long ago it was opened first.
pub const OPENED: Field<Periods> = Field::period("opened", "Opened how long ago", &bounds::AGE).initial("6 months");
/// How often it was opened since; 0 for a bottle that stands as it came.
pub const OPENINGS: Field<Counts> = Field::count("openings", "Opened how often", &bounds::OPENINGS).initial("10");
/// What is done to the air when it is closed.
pub const TREATMENT: Field<Choice<Treatment>> =
    Field::new("treatment", "Air in it", Choice(&TREATMENTS)).initial("plain");
/// How warm it stands.
pub const CLIMATE: Field<Climates> = Field::new("climate", "How warm it stands", Climates).initial("20 C");
/// What it holds to the brim, measured.
pub const BRIMFUL: Field<Volumes> = Field::volume("brimful", "Holds to the brim", &TO_THE_BRIM);
/// Liquid in it when it was opened first.
pub const BEGAN: Field<Volumes> = Field::volume("began", "Held at first", &bounds::LIQUID);
/// How long it stood closed before it was opened.
pub const UNOPENED: Field<Periods> = Field::period("unopened", "Closed before that", &bounds::AGE);
/// Water that its content was mixed with.
pub const WATER: Field<Volumes> = Field::volume("water", "Water mixed in", &bounds::LIQUID);
/// Published formula of its content.
pub const FORMULA: Field<Choice<&Formula>> = Field::new("formula", "Published formula", Choice(&FORMULAS));
/// Developing agent.
pub const AGENT: Field<Numbers> = Field::number("agent", "Agent, mol/l", &bounds::MOLARITY);
/// Sulfite in any form.
pub const SULFITE: Field<Numbers> = Field::number("sulfite", "Sulfite, mol/l", &bounds::MOLARITY);
/// Thickness of the wall.
pub const THICKNESS: Field<Numbers> = Field::number("thickness", "Wall, mm", &OF_WALL);
/// Area of the wall.
pub const WALL_AREA: Field<Numbers> = Field::number("wall_area", "Wall, cm²", &AREA_OF_WALL);
/// Air that a treatment leaves.
pub const AIR_LEFT: Field<Percents> = Field::percent("air_left", "Air that stays", &bounds::SHARE);
/// Days in which most of the oxygen over it is taken up.
pub const UPTAKE: Field<Periods> = Field::period("uptake", "Oxygen taken up in", &bounds::UPTAKE);
/// Air pressure.
pub const PRESSURE: Field<Numbers> = Field::number("pressure", "Air pressure, hPa", &bounds::PRESSURE);
/// Humidity of the room.
pub const HUMIDITY: Field<Percents> = Field::percent("humidity", "Humidity", &bounds::SHARE);

const TREATMENTS: [(&str, &str, Treatment); 4] = [
    ("plain", "left as it is", Treatment::Plain),
    ("squeezed", "pressed out", Treatment::Squeezed),
    ("beads", "filled up with beads", Treatment::Beads(None)),
    ("gas", "under inert gas", Treatment::InertGas),
];

const FORMULAS: [(&str, &str, &Formula); Formula::ALL.len()] = {
    const ALL: &[Formula] = &Formula::ALL;
    let mut all = [("", "", &ALL[0]); ALL.len()];
    let mut index = 0;
    while index < ALL.len() {
        all[index] = (ALL[index].word, ALL[index].name, &ALL[index]);
        index += 1;
    }
    all
};
