//! The bottle that a form picked, as far as the shelf and the kit know it, and where it stands.

use super::assumption_of;
use super::trust::of_product;
use crate::chemistry::{Class, Guess};
use crate::darkroom::Darkroom;
use crate::development::Parameter;
use crate::fields::{self, Form};
use crate::keeping::Pace;
use crate::kit::{self, Climate};
use crate::ledger;
use crate::quantity::{Day, Temperature, Units, Volume, read};
use crate::sheet::{Figure, Item};

/// A bottle that was picked, or none.
pub struct Picked<'a> {
    /// With its life, where the shelf has it.
    pub bottle: Option<&'a ledger::Bottle>,
    /// Its label.
    pub label: Option<&'a kit::Bottle>,
}

/// How warm a bottle stands where nobody said (an assumption).
const ROOM: Guess = Guess {
    value: 20.0,
    least: 15.0,
    most: 26.0,
    why: "nobody said how warm it stands; a room",
};

impl<'a> Picked<'a> {
    /// Reads which bottle. One that is nowhere is a fault.
    pub fn read(form: &mut Form, darkroom: &'a Darkroom) -> Self {
        let id = form.read(&fields::BOTTLE);
        let bottle = id.as_ref().and_then(|id| darkroom.shelf.bottle(id));
        let of_kit = || id.as_ref().and_then(|id| darkroom.kit.bottle(id));
        let label = bottle.map(|bottle| &bottle.is.label).or_else(of_kit);
        if id.is_some() && label.is_none() {
            form.fault("bottle", "there is no such bottle on the shelf");
        }
        Self { bottle, label }
    }

    /// The class that was typed, or else its own, or else a syrup.
    pub fn class(&self, form: &mut Form) -> Class {
        let typed = form.read(&fields::CLASS);
        typed.or(self.label.map(|label| label.class)).unwrap_or(Class::Syrup)
    }

    /// Its product, or what its class is called.
    pub fn name(&self, class: Class) -> String {
        match self.label {
            Some(label) => label.product.clone(),
            None => class.name().to_owned(),
        }
    }

    /// How warm it stands: as typed, as its place was noted, or else as assumed, which is then told.
    pub fn climate(&self, form: &mut Form, darkroom: &Darkroom) -> (Climate, Option<Item>) {
        let units = form.units();
        let noted = |bottle: &ledger::Bottle| {
            let place = &darkroom.shelf.places[bottle.now.place?];
            place.on(darkroom.today())?.climate
        };
        if let Some(known) = form.read(&fields::shelf::PLACE).or_else(|| self.bottle.and_then(noted)) {
            return (known, None);
        }
        assumed_room(units)
    }

    /// The bottles of its product that the shelf knows of, gone or not.
    pub fn of_product(&self, darkroom: &'a Darkroom) -> Vec<&'a ledger::Bottle> {
        let own = self.bottle.into_iter();
        own.flat_map(|bottle| of_product(&darkroom.shelf, bottle)).collect()
    }

    /// How its product is drawn; `None` where it never was.
    pub fn pace(&self, darkroom: &Darkroom) -> Option<Pace> {
        let bottles = self.of_product(darkroom);
        let drawn = bottles.iter().flat_map(|bottle| &bottle.draws);
        let draws: Vec<(Day, Volume)> = drawn.map(|draw| (draw.day, draw.volume)).collect();
        let openings = bottles.iter().flat_map(|bottle| &bottle.openings);
        let days = openings
            .map(|opening| opening.day)
            .chain(draws.iter().map(|draw| draw.0));
        let pace = Pace::from_draws(&draws, days.min()?, darkroom.today(), Volume::ZERO);
        (pace.draws() > 0).then_some(pace)
    }
}

/// How warm a room is where nobody said, and that it is assumed.
pub fn assumed_room(units: Units) -> (Climate, Option<Item>) {
    let room = Parameter::given_or(None, ROOM);
    let show = |celsius| units.temperature(Temperature::from_celsius(celsius));
    let figure = Figure {
        unit: "°C",
        shown: show(room.value),
        ..Figure::number("assumed_place", "How warm it stands", room.value, 1, units)
    };
    let steady = Climate::Steady(Temperature::from_celsius(room.value));
    (steady, assumption_of(figure, room, "place", show))
}

/// A stretch of the calendar as a figure: in days, shown as people say it.
pub fn period(name: &'static str, label: &'static str, days: f64, units: Units) -> Figure {
    Figure {
        shown: read::show_period(days, units),
        ..Figure::number(name, label, days, 0, units)
    }
}
