//! The bottle that a form picked, as far as the shelf and the kit know it, and where it stands.

use super::assumption_of;
use crate::chemistry::{Class, Guess};
use crate::darkroom::Darkroom;
use crate::development::Parameter;
use crate::fields::{self, AnyField, Field, Form, Names};
use crate::kit::{self, Climate};
use crate::ledger::{self, Shelf};
use crate::proof::TestKind;
use crate::quantity::{Temperature, Units, Volume};
use crate::sheet::{Figure, Item};

/// A bottle that was picked, or none.
pub struct Picked<'a> {
    /// With its life, where the shelf has it.
    pub bottle: Option<&'a ledger::Bottle>,
    /// Its label.
    pub label: Option<&'a kit::Bottle>,
}

/// How warm a bottle stands where nobody said (an assumption), in degrees Celsius.
const ROOM: Guess = Guess {
    value: 20.0,
    least: 15.0,
    most: 26.0,
    why: "nobody said how warm it stands; a room",
};

/// The same as a place.
pub(super) const ELSEWHERE: Climate = Climate::Steady(Temperature::from_celsius(ROOM.value));

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

    /// The bottle, if that test says something of what is in it; a fault if it does not.
    pub fn tested(&self, test: TestKind, form: &mut Form) -> Option<&'a ledger::Bottle> {
        let bottle = self.bottle?;
        let class = bottle.is.label.class;
        if !test.is_for(class) {
            let (test, class) = (test.name(), class.name());
            form.fault("bottle", &["this test (", test, ") says nothing of ", class].concat());
            return None;
        }
        Some(bottle)
    }

    /// Whether it is poured into the tank as it is: a bath that was mixed here, or one that is sold so.
    pub fn is_ready_to_use(&self) -> bool {
        let sold_so = || self.label.is_some_and(|label| label.class == Class::WorkingDeveloper);
        self.bottle.map_or_else(sold_so, is_ready_to_use)
    }

    /// The class that was typed, or else its own.
    pub fn class(&self, form: &mut Form) -> Option<Class> {
        form.read(&fields::CLASS).or(self.label.map(|label| label.class))
    }

    /// Its product, or what its class is called.
    pub fn name(&self, class: Class) -> String {
        match self.label {
            Some(label) => label.product.clone(),
            None => class.name().to_owned(),
        }
    }

    /// How warm its place was noted to be.
    pub fn noted_climate(&self, darkroom: &Darkroom) -> Option<Climate> {
        let place = &darkroom.shelf.places[self.bottle?.now.place?];
        place.on(darkroom.today())?.climate
    }
}

/// The bottle of the shelf that a field picks. One that is nowhere, or of another kind of bath, is a fault.
pub(super) fn bottle_of<'a>(
    form: &mut Form,
    field: &Field<Names>,
    wanted: &str,
    is_wanted: impl Fn(Class) -> bool,
    shelf: &'a Shelf,
) -> Option<&'a ledger::Bottle> {
    let id = form.read(field)?;
    match shelf.bottle(&id) {
        Some(bottle) if is_wanted(bottle.is.label.class) => Some(bottle),
        Some(bottle) => {
            let clause = format!("{} is no {wanted}; pick another bottle", bottle.is.label.product);
            form.fault(field.name(), &clause);
            None
        }
        None => {
            form.fault(field.name(), "there is no such bottle on the shelf");
            None
        }
    }
}

/// Whether a bottle is poured into the tank as it is: a bath that was mixed here, or one that is sold so. A stock from powder has
/// its water, and is diluted all the same.
pub(super) fn is_ready_to_use(bottle: &ledger::Bottle) -> bool {
    match bottle.is.label.class {
        Class::WorkingDeveloper => true,
        Class::PowderStock => false,
        _ => bottle.water > Volume::ZERO,
    }
}

/// That a bottle is taken to stand in a room, where neither form nor shelf say how warm.
pub(super) fn room_assumed(known: Option<Climate>, units: Units) -> Option<Item> {
    if known.is_some() {
        return None;
    }
    let room = Parameter::given_or(None, ROOM);
    let show = |celsius| units.temperature(Temperature::from_celsius(celsius));
    let figure = Figure::temperature(
        "assumed_climate",
        "How warm it stands",
        Temperature::from_celsius(room.value),
        units,
    );
    assumption_of(figure, room, "climate", &show)
}
