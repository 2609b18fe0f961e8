//! The fields that several forms have in common.

use super::kinds::{Choice, Counts, Densities, Dilutions, Names, Numbers, Percents, SheetTimes, Temperatures, Volumes};
use super::{AnyField, Field};
use crate::chemistry::Class;
use crate::quantity::bounds;

/// Which bottle of the kit.
pub const BOTTLE: Field<Names> = Field::new("bottle", "Bottle", Names);
/// Which tank of the kit; `none` for no tank, the first of the kit where nothing is said.
pub const TANK: Field<Names> = Field::new("tank", "Tank", Names);
/// Class of solution; the bottle's, or a syrup, where nothing is said.
pub const CLASS: Field<Choice<Class>> = Field::new("class", "Kind of bath", Choice(&Class::ALL));
/// Dilution; the bottle's where nothing is said.
pub const DILUTION: Field<Dilutions> = Field::new("dilution", "Dilution", Dilutions).starting("1+31");
/// The whole bath.
pub const TOTAL: Field<Volumes> = Field::volume("total", "Total", &bounds::BATH).initial("600 ml");
/// Rolls of 135.
pub const FILMS_135: Field<Counts> = Field::count("films_135", "135", &bounds::FILMS).starting("2");
/// Rolls of 120.
pub const FILMS_120: Field<Counts> = Field::count("films_120", "120", &bounds::FILMS).starting("0");
/// Rolls of 220.
pub const FILMS_220: Field<Counts> = Field::count("films_220", "220", &bounds::FILMS).starting("0");
/// Sheets of 4 x 5 in.
pub const SHEETS_4X5: Field<Counts> = Field::count("sheets_4x5", "4×5 in", &bounds::FILMS).starting("0");
/// Sheets of 8 x 10 in.
pub const SHEETS_8X10: Field<Counts> = Field::count("sheets_8x10", "8×10 in", &bounds::FILMS).starting("0");
/// Least concentrate for one film unit, by the data sheet.
pub const LEAST_PER_FILM: Field<Volumes> = Field::volume("least_per_film", "Least per film", &bounds::LEAST_PER_FILM);
/// Times of the data sheet.
pub const TIMES: Field<SheetTimes> = Field::new("times", "Times on the data sheet", SheetTimes);
/// Temperature of the bath.
pub const TEMPERATURE: Field<Temperatures> =
    Field::temperature("temperature", "Temperature now", &bounds::BATH_TEMPERATURE).initial("20 C");
/// Strength of the bottle.
pub const STRENGTH: Field<Percents> =
    Field::percent("strength", "Strength of bottle", &bounds::STRENGTH).initial("100 %");
/// Density of the concentrate.
pub const DENSITY: Field<Densities> = Field::density("density", "Density", &bounds::DENSITY);
/// The dilution exponent.
pub const EXPONENT: Field<Numbers> = Field::number("exponent", "How strength speeds it up (n)", &bounds::EXPONENT);
/// The temperature coefficient.
pub const Q10: Field<Numbers> = Field::number("q10", "Faster by, for 10 °C", &bounds::Q10);
/// How far development goes.
pub const PROGRESS: Field<Numbers> = Field::number("progress", "How far development goes (k t)", &bounds::PROGRESS);

/// The five fields that say what is loaded.
pub const LOAD: [&dyn AnyField; 5] = [&FILMS_135, &FILMS_120, &FILMS_220, &SHEETS_4X5, &SHEETS_8X10];
