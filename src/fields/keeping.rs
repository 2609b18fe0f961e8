//! The fields that say how a bottle keeps: its data sheet, its tests, its use, and from where on a voice asks.

use super::Field;
use super::kinds::{Choice, Days, Numbers, Percents, Periods, Volumes};
use crate::kit::{Colour, Light};
use crate::quantity::bounds;

/// The day of the last test.
pub const TESTED: Field<Days> = Field::new("tested", "Last test on", Days);
/// Whether it passed.
pub const RESULT: Field<Choice<bool>> = Field::new("result", "What it showed", Choice(&RESULTS));
/// Whether the work is paid.
pub const PAID: Field<Choice<bool>> = Field::new("paid", "For paid work", Choice(&PAID_WORK)).initial("no");
/// How long the data sheet says that it keeps unopened.
pub const LIFE_UNOPENED: Field<Periods> = Field::period("life_unopened", "Keeps unopened", &bounds::LIFE);
/// How long the data sheet says that it keeps opened and full.
pub const LIFE_FULL: Field<Periods> = Field::period("life_full", "Keeps opened, full", &bounds::LIFE);
/// How long the data sheet says that it keeps half full.
pub const LIFE_HALF: Field<Periods> = Field::period("life_half", "Keeps half full", &bounds::LIFE);
/// What is usually taken from it at a time; 0 where it only stands. As the shelf tells, where nothing is said.
pub const DRAW: Field<Volumes> = Field::volume("draw", "Taken at a time", &bounds::DRAW);
/// How long it is from one draw to the next; as the shelf tells, where nothing is said.
pub const EVERY: Field<Periods> = Field::period("every", "Taken once in", &bounds::EVERY);
/// How light its place is.
pub const LIGHT: Field<Choice<Light>> = Field::new("light", "Its place is", Choice(&LIGHTS)).initial("dark");
/// How the bottle stands to light.
pub const COLOUR: Field<Choice<Colour>> = Field::new("colour", "The bottle is", Choice(&COLOURS)).initial("opaque");
/// How many times faster a stated life runs ten degrees warmer.
pub const PER_TEN: Field<Numbers> = Field::number("per_ten", "Ages faster by, for 10 °C", &bounds::PER_TEN);
/// Share of the agent from which on the air asks for a test.
pub const LIMIT_AGENT: Field<Percents> = Field::percent("limit_agent", "Air: agent lost", &bounds::LIMIT_SHARE);
/// Share of the preservative from which on the air asks for a test.
pub const LIMIT_SULFITE: Field<Percents> =
    Field::percent("limit_sulfite", "Air: preservative used", &bounds::LIMIT_SHARE);
/// Days in the heat from which on a test is asked for.
pub const LIMIT_HOT: Field<Periods> = Field::period("limit_hot", "Time above 25 °C", &bounds::LIMIT_DAYS);
/// How long a passed test proves a bottle at the most.
pub const LIMIT_PROOF: Field<Periods> = Field::period("limit_proof", "A test proves it for", &bounds::LIMIT_DAYS);
/// Share of the stated life after which a passed test proves it no longer.
pub const LIMIT_LIFE: Field<Percents> = Field::percent("limit_life", "Or for, of its life", &bounds::LIMIT_SHARE);
/// Share of the first two limits after which a passed test proves it no longer.
pub const LIMIT_AIR: Field<Percents> = Field::percent("limit_air", "Or for, of the air's limit", &bounds::LIMIT_SHARE);

const RESULTS: [(&str, &str, bool); 2] = [("passed", "passed", true), ("failed", "failed", false)];

const PAID_WORK: [(&str, &str, bool); 2] = [("no", "no", false), ("yes", "yes", true)];

pub(crate) const LIGHTS: [(&str, &str, Light); 2] =
    [("dark", "dark", Light::Dark), ("lit", "lit for hours", Light::Lit)];

pub(crate) const COLOURS: [(&str, &str, Colour); 3] = [
    ("opaque", "opaque", Colour::Opaque),
    ("amber", "brown", Colour::Amber),
    ("clear", "clear", Colour::Clear),
];
