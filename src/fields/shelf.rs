//! The fields of decanting, buying and counting up: what is at hand, what is on offer, what it costs.

use super::Field;
use super::kinds::{Choice, Days, Names, Numbers, Periods, Volumes};
use super::lists::{Containers, Offers};
use crate::keeping::WhileUsed;
use crate::quantity::bounds;

/// Containers at hand.
pub const AT_HAND: Field<Containers> =
    Field::new("at_hand", "Containers at hand", Containers).starting("2 x 250 ml glass; 5 x 100 ml glass; 50 ml PET");
/// Until when all is used, whatever the pace.
pub const USED_UP_IN: Field<Periods> = Field::period("used_up_in", "Or used up in", &bounds::USED_UP_IN);
/// Sizes on offer.
pub const OFFERS: Field<Offers> =
    Field::new("offers", "Sizes and prices", Offers).initial("250 ml 12.50; 500 ml 19; 1 l 29.90");
/// The currency of a price, as the user writes it.
pub const CURRENCY: Field<Names> = Field::new("currency", "Currency", Names);
/// How many films are developed.
pub const FILMS_A_MONTH: Field<Numbers> =
    Field::number("films_a_month", "Films a month", &bounds::FILMS_A_MONTH).initial("4");
/// What one film takes.
pub const PER_FILM: Field<Volumes> = Field::volume("per_film", "One film takes", &bounds::PER_FILM).initial("9.4 ml");
/// What is on the shelf of it.
pub const IN_STOCK: Field<Volumes> =
    Field::volume("in_stock", "On the shelf now", &bounds::IN_BOTTLE).initial("100 ml");
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
/// How far the product is trusted; by its tests on the shelf, or to its stated life, where nothing is said.
pub const TRUSTED: Field<Numbers> = Field::number("trusted", "Trusted to, stated lives", &bounds::TRUSTED);
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
