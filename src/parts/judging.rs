//! What a bottle is judged by, read from the form and from the shelf: stated lives, tests, limits, pace of use, light.

use super::given;
use super::lives::read_lives;
use super::trust::Grounds;
use super::usage::Use;
use super::vessel::Vessel;
use crate::darkroom::Darkroom;
use crate::development::Parameter;
use crate::fields::{self, Field, Form, Kind};
use crate::keeping::{Limits, Tested};
use crate::kit::{Colour, Light};

/// What a bottle is judged by, but for its life, and how it is used.
pub struct Judging {
    /// Its tests, how far its product is trusted, and from where on a voice asks.
    pub grounds: Grounds,
    /// How it is used.
    pub use_of_it: Use,
    /// How light its place is, as far as that is known.
    pub light: Option<Light>,
    /// How the bottle stands to light, as far as that is known.
    pub colour: Option<Colour>,
    /// Whether it is wanted for paid work.
    pub paid: bool,
}

impl Judging {
    /// Reads them, and gives the vessel the lives that the data sheet states. What contradicts itself is a fault.
    pub fn read(form: &mut Form, vessel: &mut Vessel, darkroom: &Darkroom) -> Self {
        let typed = last_test(form, darkroom);
        let paid = form.read(&fields::PAID).unwrap_or(false);
        read_lives(form, vessel.bottle, vessel.class, &mut vessel.assumptions);
        let use_of_it = Use::read(form, vessel.bottle, vessel.used(), darkroom);
        let light = form.read(&fields::LIGHT);
        let colour = form.read(&fields::COLOUR);
        let shelf = &darkroom.shelf;
        let mut grounds = match vessel.bottle {
            Some(bottle) => Grounds::on_shelf(shelf, bottle, &vessel.assumptions, vessel.elsewhere),
            None => Grounds::nothing(),
        };
        grounds.tests.extend(typed);
        grounds.limits = read_limits(form);
        let on_record = vessel.bottle.filter(|_| vessel.is_on_record());
        if on_record.is_some() {
            form.pass_over(&["light", "colour"]);
        }
        let place = on_record.and_then(|bottle| bottle.now.place);
        let note = place.and_then(|place| shelf.places[place].on(darkroom.today()));
        Self {
            grounds,
            use_of_it,
            light: match on_record {
                Some(_) => note.and_then(|note| note.light),
                None => light,
            },
            colour: match on_record {
                Some(bottle) => bottle.is.container.colour,
                None => colour,
            },
            paid,
        }
    }
}

fn last_test(form: &mut Form, darkroom: &Darkroom) -> Option<Tested> {
    let day = form.read(&fields::TESTED);
    let passed = form.read(&fields::RESULT);
    match (day, passed) {
        (Some(day), _) if day > darkroom.today() => {
            form.fault("tested", "that day is still to come");
            None
        }
        (Some(day), Some(passed)) => Some(Tested {
            day,
            passed,
            sure: true,
        }),
        (Some(_), None) if !form.at_fault("result") => {
            form.fault("result", "say whether it passed");
            None
        }
        (None, Some(_)) if !form.at_fault("tested") => {
            form.fault("tested", "say on which day it was tested");
            None
        }
        _ => None,
    }
}

fn read_limits(form: &mut Form) -> Limits {
    let Limits {
        agent,
        sulfite,
        hot_days,
        recent_days,
        life_since,
        air_since,
    } = Limits::default();
    Limits {
        agent: own(form, &fields::LIMIT_AGENT, 0.01, agent),
        sulfite: own(form, &fields::LIMIT_SULFITE, 0.01, sulfite),
        hot_days: own(form, &fields::LIMIT_HOT, 1.0, hot_days),
        recent_days: own(form, &fields::LIMIT_PROOF, 1.0, recent_days),
        life_since: own(form, &fields::LIMIT_LIFE, 0.01, life_since),
        air_since: own(form, &fields::LIMIT_AIR, 0.01, air_since),
    }
}

/// What is typed, in this scale, or else what is assumed.
fn own<K: Kind<Value = f64>>(form: &mut Form, field: &Field<K>, scale: f64, assumed: Parameter) -> Parameter {
    form.read(field).map_or(assumed, |value| given(value * scale))
}
