//! What a bottle is judged by, read from the form and from the shelf: stated lives, tests, limits, pace of use, light.

use super::trust::Grounds;
use super::vessel::{ELSEWHERE, Vessel, known};
use crate::darkroom::Darkroom;
use crate::development::Parameter;
use crate::fields::{self, Field, Form, Kind};
use crate::keeping::{Limits, Lives, LivesError, Pace, SheetLives, Tested};
use crate::kit::{Colour, Light};
use crate::ledger::Opened;
use crate::quantity::Volume;

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

/// How a bottle is used, and how that is known.
pub enum Use {
    /// Not at all: it only stands.
    Stands,
    /// As the form says.
    Stated(Pace),
    /// As its draws tell, or its openings and what is gone.
    FromPast(Pace),
    /// Nobody said.
    Assumed(Pace),
    /// The form cannot be read.
    Unread,
}

/// How many draws at random a pace weighs that the user states (an assumption).
const STATED_WEIGHS: usize = 8;
/// A usual draw where nobody says (an assumption).
const USUAL_DRAW: Volume = Volume::from_millilitres(20.0);

impl Judging {
    /// Reads them, and gives the vessel the lives that the data sheet states. What contradicts itself is a fault.
    pub fn read(form: &mut Form, vessel: &mut Vessel, darkroom: &Darkroom) -> Self {
        let typed = last_test(form, darkroom);
        let paid = form.read(&fields::PAID).unwrap_or(false);
        read_lives(form, vessel);
        let use_of_it = read_use(form, vessel, darkroom);
        let light = form.read(&fields::LIGHT);
        let colour = form.read(&fields::COLOUR);
        if let Some(per_ten) = form.read(&fields::PER_TEN) {
            vessel.assumptions.per_ten = known(per_ten);
        }
        let shelf = &darkroom.shelf;
        let elsewhere = vessel.climate.unwrap_or(ELSEWHERE);
        let mut grounds = match vessel.bottle {
            Some(bottle) => Grounds::on_shelf(shelf, bottle, &vessel.assumptions, elsewhere),
            None => Grounds::nothing(),
        };
        grounds.tests.extend(typed);
        grounds.limits = read_limits(form);
        let on_record = vessel.bottle.filter(|_| vessel.is_on_record());
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

impl Use {
    /// The pace, if it is used at all.
    pub fn pace(&self) -> Option<&Pace> {
        match self {
            Self::Stated(pace) | Self::FromPast(pace) | Self::Assumed(pace) => Some(pace),
            Self::Stands | Self::Unread => None,
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
        (Some(day), Some(passed)) => Some(Tested { day, passed }),
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

fn read_lives(form: &mut Form, vessel: &mut Vessel) {
    let record = vessel.bottle.map_or(SheetLives::default(), |bottle| bottle.is.lives);
    let sheet = SheetLives {
        unopened: form.read(&fields::LIFE_UNOPENED).or(record.unopened),
        full: form.read(&fields::LIFE_FULL).or(record.full),
        half_full: form.read(&fields::LIFE_HALF).or(record.half_full),
    };
    match Lives::new(sheet, vessel.class) {
        Ok(lives) => vessel.assumptions.lives = lives,
        Err(error) => {
            let field = match error {
                LivesError::HalfKeepsLonger => "life_half",
                LivesError::NoLife => "life_full",
            };
            form.fault(field, &error.to_string());
        }
    }
}

fn read_use(form: &mut Form, vessel: &Vessel, darkroom: &Darkroom) -> Use {
    let draw = form.read(&fields::DRAW);
    let every = form.read(&fields::EVERY);
    if form.at_fault("draw") || form.at_fault("every") {
        return Use::Unread;
    }
    if draw == Some(Volume::ZERO) {
        return Use::Stands;
    }
    let past = vessel.used();
    let usual = draw.or(past.map(|(.., each)| each)).unwrap_or(USUAL_DRAW);
    if let Some(days) = every {
        return Use::Stated(Pace::stated(days, usual, STATED_WEIGHS));
    }
    if let Some((interval, openings, _)) = past {
        return Use::FromPast(Pace::stated(interval, usual, openings as usize));
    }
    let today = darkroom.today();
    let Some(bottle) = vessel.bottle.filter(|_| vessel.is_on_record()) else {
        return Use::Assumed(Pace::from_draws(&[], today, today, usual));
    };
    let since = match bottle.opened {
        Opened::On(day) => day,
        _ => bottle.since,
    };
    let draws: Vec<_> = bottle.draws.iter().map(|draw| (draw.day, draw.volume)).collect();
    let pace = Pace::from_draws(&draws, since, today, usual);
    match pace.draws() {
        0 => Use::Assumed(pace),
        _ => Use::FromPast(pace),
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
    form.read(field).map_or(assumed, |value| known(value * scale))
}
