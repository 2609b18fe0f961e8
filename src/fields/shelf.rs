//! The fields of the calculators that look at the shelf: what stands in a bottle, how it keeps, how it is used, what it costs.
//!
//! What the shelf knows of a picked bottle stands before a field's first content; a field that starts blank stands before the
//! shelf where something is typed.

use super::Field;
use super::kinds::{Choice, Climates, Days, Numbers, Percents, Periods, Volumes};
use super::lists::{Containers, Currencies, Offers};
use crate::keeping::WhileUsed;
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
pub const DRAW: Field<Volumes> = Field::volume("draw", "Taken at a time", &bounds::AT_A_TIME).initial("20 ml");
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
/// Sizes on offer.
pub const OFFERS: Field<Offers> =
    Field::new("offers", "Sizes and prices", Offers).initial("250 ml 12.50; 500 ml 19; 1 l 29.90");
/// The currency of all prices.
pub const CURRENCY: Field<Currencies> = Field::new("currency", "Currency", Currencies);
/// How many films are developed.
pub const FILMS_A_MONTH: Field<Numbers> =
    Field::number("films_a_month", "Films a month", &bounds::FILMS_A_MONTH).initial("4");
/// What one film takes.
pub const PER_FILM: Field<Volumes> = Field::volume("per_film", "One film takes", &bounds::PER_FILM).initial("9.4 ml");
/// What is on the shelf of it.
pub const IN_STOCK: Field<Volumes> = Field::volume("in_stock", "On the shelf now", &bounds::LEFT).initial("100 ml");
/// How long an order takes.
pub const LEAD: Field<Periods> = Field::period("lead", "An order takes", &bounds::LEAD).initial("2 weeks");
/// How it is kept while it is used up.
pub const KEPT: Field<Choice<WhileUsed>> = Field::new(
    "kept",
    "While it is used up",
    Choice(&[
        ("bottle", "in its own bottle", WhileUsed::InItsBottle),
        ("brimful", "decanted, brimful", WhileUsed::Brimful),
    ]),
)
.initial("bottle");
/// Stated life unopened.
pub const UNOPENED: Field<Periods> = Field::period("unopened", "Keeps unopened", &bounds::LIFE);
/// Stated life opened and full.
pub const FULL: Field<Periods> = Field::period("full", "Keeps opened, full", &bounds::LIFE);
/// Stated life half full.
pub const HALF_FULL: Field<Periods> = Field::period("half_full", "Keeps half full", &bounds::LIFE);
/// How far the product is trusted; by its tests on the shelf, or to its stated life, where nothing is said.
pub const TRUSTED: Field<Numbers> = Field::number("trusted", "Trusted to, stated lives", &bounds::TRUSTED);
/// How many times faster a life runs 10 degrees warmer.
pub const PER_TEN: Field<Numbers> = Field::number("per_ten", "Ages faster by, for 10 °C", &bounds::PER_TEN);
/// The first day that counts; a year before the last where nothing is said.
pub const FROM: Field<Days> = Field::new("from", "From", Days);
/// The last day that counts; today where nothing is said.
pub const TO: Field<Days> = Field::new("to", "To", Days);
/// What one bottle cost.
pub const PRICE: Field<Numbers> = Field::number("price", "Price of a bottle", &bounds::PRICE);
/// What is in a bottle when it is bought.
pub const SIZE: Field<Volumes> = Field::volume("size", "What was in it", &bounds::SIZE);
/// What was used.
pub const USED: Field<Volumes> = Field::volume("used", "Used", &bounds::SPENT);
/// What was thrown away.
pub const THROWN: Field<Volumes> = Field::volume("thrown", "Thrown away", &bounds::SPENT);
/// What was used although its stated life was over, or since a test proved it.
pub const SAVED: Field<Volumes> = Field::volume("saved", "Of it used past its life", &bounds::SPENT);
/// How many films it was for.
pub const FILMS: Field<Numbers> = Field::number("films", "Films", &bounds::FILMS_IN_ALL);
