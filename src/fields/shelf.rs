//! The fields of the calculators that look at the shelf: what stands in a bottle, how it keeps, how it is used, what it costs.
//!
//! What the shelf knows of a picked bottle stands before a field's first content; a field that starts blank stands before the
//! shelf where something is typed.

use super::Field;
use super::kinds::{Choice, Climates, Numbers, Percents, Periods, Volumes};
use super::lists::Containers;
use crate::kit::Material;
use crate::kit::container::{BRIMFUL, THICKNESS};
use crate::quantity::bounds;

/// What is left in the bottle.
pub const LEFT: Field<Volumes> = Field::volume("left", "Left in it", &bounds::LEFT).initial("480 ml");
/// What the bottle holds to the brim.
pub const HOLDS: Field<Volumes> = Field::volume("brimful", "Holds to the brim", &BRIMFUL).initial("1040 ml");
/// What the bottle's wall is made of.
pub const MATERIAL: Field<Choice<Material>> =
    Field::new("material", "Made of", Choice(&Material::ALL)).initial("glass");
/// Containers at hand.
pub const AT_HAND: Field<Containers> =
    Field::new("at_hand", "Containers at hand", Containers).starting("2 x 250 ml glass; 5 x 100 ml glass; 50 ml PET");
/// What is taken at a time.
pub const DRAW: Field<Volumes> = Field::volume("draw", "Taken at a time", &bounds::DRAW).initial("20 ml");
/// How often it is taken.
pub const INTERVAL: Field<Periods> = Field::period("interval", "Once in", &bounds::INTERVAL).initial("2 weeks");
/// Until when all is used, whatever the pace.
pub const USED_UP_IN: Field<Periods> = Field::period("used_up_in", "Or used up in", &bounds::USED_UP_IN);
/// How warm it stands; as its place on the shelf, or as a room, where nothing is said.
pub const PLACE: Field<Climates> = Field::new("place", "How warm it stands", Climates);
/// Developing agents together.
pub const AGENT: Field<Numbers> = Field::number("agent", "Developing agent, g/l", &bounds::CONTENT);
/// Sulfite.
pub const SULFITE: Field<Numbers> = Field::number("sulfite", "Sulfite, g/l", &bounds::CONTENT);
/// Days of uptake.
pub const UPTAKE: Field<Periods> = Field::period("uptake", "Takes up the air in", &bounds::UPTAKE);
/// Thickness of the walls that let oxygen through.
pub const WALL: Field<Numbers> = Field::number("thickness", "Plastic wall, mm", &THICKNESS);
/// Air pressure.
pub const PRESSURE: Field<Numbers> = Field::number("pressure", "Air pressure, hPa", &bounds::PRESSURE);
/// Humidity.
pub const HUMIDITY: Field<Percents> = Field::percent("humidity", "Humidity", &bounds::HUMIDITY);
