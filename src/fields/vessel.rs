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
pub const NOMINAL: Field<Volumes> = Field::volume("nominal", "Sold as", &bounds::SIZE).starting("1 l");
/// Liquid in it now.
pub const LEFT: Field<Volumes> = Field::volume("left", "Left in it", &bounds::IN_BOTTLE).initial("500 ml");
/// How long ago it was opened first.
pub const OPENED: Field<Periods> = Field::period("opened", "Opened how long ago", &bounds::AGE).initial("6 months");
/// How often it was opened since; 0 for a bottle that stands as it came.
pub const OPENINGS: Field<Counts> = Field::count("openings", "Opened how often", &bounds::OPENINGS).initial("10");
/// What is done to the air when it is closed.
pub const TREATMENT: Field<Choice<Treatment>> =
    Field::new("treatment", "Air in it", Choice(&TREATMENTS)).initial("plain");
/// How warm it stands, where no record tells; a room, where nothing is said.
pub const CLIMATE: Field<Climates> = Field::new("climate", "How warm it stands", Climates);
/// What it holds to the brim, measured.
pub const BRIMFUL: Field<Volumes> = Field::volume("brimful", "Holds to the brim", &TO_THE_BRIM);
/// Liquid in it when it was opened first.
pub const BEGAN: Field<Volumes> = Field::volume("began", "Held at first", &bounds::IN_BOTTLE);
/// How long it stood closed before it was opened.
pub const UNOPENED: Field<Periods> = Field::period("unopened", "Closed before that", &bounds::AGE);
/// Water that its content was mixed with.
pub const WATER: Field<Volumes> = Field::volume("water", "Water mixed in", &bounds::IN_BOTTLE);
/// Published formula of its content.
pub const FORMULA: Field<Choice<&Formula>> = Field::new("formula", "Published formula", Choice(&FORMULAS));
/// Developing agents together, in grams to the litre: what recipes and data sheets give.
pub const AGENT: Field<Numbers> = Field::number("agent", "Developing agent, g/l", &bounds::CONTENT);
/// Sulfite in any form, in grams to the litre as sodium sulfite.
pub const SULFITE: Field<Numbers> = Field::number("sulfite", "Sulfite, g/l", &bounds::CONTENT);
/// Thickness of a wall that lets oxygen through.
pub const THICKNESS: Field<Numbers> = Field::number("thickness", "Plastic wall, mm", &OF_WALL);
/// Area of the wall.
pub const WALL_AREA: Field<Numbers> = Field::number("wall_area", "Plastic wall, cm²", &AREA_OF_WALL);
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
