//! What a form says of a bath, with the bottle's own figures where the form is silent.

use super::thermometer::readings;
use super::timing::Timed;
use crate::chemistry::{self, Class};
use crate::development::{Parameter, RateLaw, SheetTime, SlipLaw, activation_from_q10};
use crate::fields::{self, Form};
use crate::kit::{Bottle, Kit, Load, Tank};
use crate::quantity::{Day, Dilution, MassDensity, Span, Temperature, TemperatureDifference, Volume};
use crate::sheet::Item;

/// A bath as far as the form could be read.
pub struct Bath<'a> {
    /// The bottle that was picked.
    pub bottle: Option<&'a Bottle>,
    /// Its name on the shelf.
    pub id: Option<String>,
    /// Class of solution.
    pub class: Class,
    /// Dilution.
    pub dilution: Option<Dilution>,
    /// Strength of the bottle, 1 for fresh.
    pub strength: Option<f64>,
    /// Temperature, put right where the thermometer's own error is known.
    pub temperature: Option<Temperature>,
    /// What the thermometer shows.
    pub shown: Option<Temperature>,
    /// Times of the data sheet.
    pub times: Vec<SheetTime>,
    /// The user's own n.
    pub exponent: Option<f64>,
    /// The user's own factor per 10 degrees.
    pub q10: Option<f64>,
}

/// The temperature at which instruments are marked (ASTM E694, 3.2).
const REFERENCE: Temperature = Temperature::from_celsius(20.0);

impl<'a> Bath<'a> {
    /// Reads the fields that every bath has. An unknown bottle is a fault.
    pub fn read(form: &mut Form, kit: &'a Kit) -> Self {
        let id = form.read(&fields::BOTTLE);
        let bottle = id.as_ref().and_then(|id| {
            let found = kit.bottle(id);
            if found.is_none() {
                form.fault("bottle", "there is no such bottle in the kit");
            }
            found
        });
        let class = form.read(&fields::CLASS);
        let dilution = own_dilution(form, bottle);
        let times = form.read(&fields::TIMES);
        let strength = form.read(&fields::STRENGTH);
        let exponent = form.read(&fields::EXPONENT);
        // What is typed wrongly is not silently replaced.
        let (times_at_fault, exponent_at_fault) = (form.at_fault("times"), form.at_fault("exponent"));
        let of_bottle = |at_fault: bool| bottle.filter(|_| !at_fault);
        let shown = form.read(&fields::TEMPERATURE);
        Self {
            class: class.or(bottle.map(|bottle| bottle.class)).unwrap_or(Class::Syrup),
            dilution,
            strength: strength.map(|percent| percent / 100.0),
            temperature: shown.map(|shown| kit.corrected(shown)),
            shown,
            times: times
                .or_else(|| of_bottle(times_at_fault).map(|bottle| bottle.times.clone()))
                .unwrap_or_default(),
            exponent: exponent.or(of_bottle(exponent_at_fault).and_then(|bottle| bottle.exponent)),
            q10: form.read(&fields::Q10),
            bottle,
            id,
        }
    }

    /// The density that was typed, or else the bottle's.
    pub fn density(&self, form: &mut Form) -> Option<MassDensity> {
        form.read(&fields::DENSITY)
            .or(self.bottle.and_then(|bottle| bottle.density))
    }

    /// The least per film that was typed, or else the bottle's; none where it is 0.
    pub fn least_per_film(&self, form: &mut Form) -> Option<Volume> {
        least_per_film(form, self.bottle)
    }

    /// The dilution; none at all is a fault.
    pub fn dilution_needed(&self, form: &mut Form) -> Option<&Dilution> {
        dilution_needed(form, self.dilution.as_ref())
    }

    /// Adds what the thermometer's reading comes to; nothing where it is taken at its word.
    pub fn say_thermometer(&self, items: &mut Vec<Item>, kit: &Kit, today: Day) {
        items.append(&mut readings(self.shown.as_slice(), kit, today));
    }

    /// How far the bath is from the temperature at which instruments are marked.
    pub fn from_20(&self) -> TemperatureDifference {
        self.temperature
            .map_or(TemperatureDifference::ZERO, |temperature| temperature - REFERENCE)
    }

    /// The bath as its law tells the time of it, at this temperature; nothing where its dilution or its strength is not known.
    pub fn timed<'b>(&'b self, law: &'b RateLaw, temperature: Temperature) -> Option<Timed<'b>> {
        Some(Timed {
            law,
            temperature,
            strength: self.dilution.as_ref()?.strength(),
            bottle: self.strength?,
            times: &self.times,
        })
    }

    /// The law of its rate, if there are times. Times that contradict each other are a fault of their field.
    pub fn law(&self, form: &mut Form) -> Option<RateLaw> {
        let dilution = self.dilution.as_ref()?;
        let strength = dilution.strength();
        if self.times.is_empty() || !self.class.is_developer() {
            return None;
        }
        let mut told = self.times.iter().filter_map(|time| time.dilution.as_ref());
        if told.any(|told| told.is_weighed() != dilution.is_weighed()) {
            form.fault(
                "times",
                "a time for a bath by volume tells nothing of one by weight, nor the other way round; leave the dilution out, or \
                 write the bath's own",
            );
            return None;
        }
        match RateLaw::new(&self.times, strength, self.exponent, self.q10, self.class) {
            Ok(law) => Some(law),
            Err(error) => {
                form.fault("times", &error.to_string());
                None
            }
        }
    }

    /// The user's own factor per 10 degrees, or the assumption.
    pub fn assumed_q10(&self) -> Parameter {
        Parameter::given_or(self.q10, self.class.q10())
    }

    /// The activation energy of the law, or else of the user's own factor or the assumption, J/mol.
    pub fn activation(&self, law: Option<&RateLaw>) -> Parameter {
        let assumed = self.assumed_q10().map(activation_from_q10);
        law.map_or(assumed, RateLaw::activation)
    }

    /// What turns a slip of concentration into seconds, degrees and contrast.
    pub fn slip_law(&self, law: Option<&RateLaw>, time: Option<Span>, progress: Option<f64>) -> SlipLaw {
        SlipLaw {
            time,
            temperature: self.temperature.unwrap_or(REFERENCE),
            exponent: law.map_or(
                Parameter::given_or(self.exponent, self.class.exponent()),
                RateLaw::exponent,
            ),
            activation: self.activation(law),
            progress: Parameter::given_or(progress, chemistry::PROGRESS),
        }
    }
}

/// The dilution that was typed, or else the bottle's own; what is typed wrongly is not silently replaced.
pub(super) fn own_dilution(form: &mut Form, bottle: Option<&Bottle>) -> Option<Dilution> {
    let own = bottle.and_then(|bottle| bottle.dilutions.first());
    // A bottle's own dilution stands before the field's first content, though not before what was sent.
    let typed = match own.is_some() && !form.was_sent("dilution") {
        true => None,
        false => form.read(&fields::DILUTION),
    };
    typed.or_else(|| own.filter(|_| !form.at_fault("dilution")).cloned())
}

/// The dilution; none at all is a fault.
pub(super) fn dilution_needed<'a>(form: &mut Form, dilution: Option<&'a Dilution>) -> Option<&'a Dilution> {
    if dilution.is_none() && !form.at_fault("dilution") {
        form.fault("dilution", "a dilution is needed, such as 1+31");
    }
    dilution
}

/// The least per film that was typed, or else the bottle's; none where it is 0.
pub(super) fn least_per_film(form: &mut Form, bottle: Option<&Bottle>) -> Option<Volume> {
    form.read(&fields::LEAST_PER_FILM)
        .or(bottle.and_then(|bottle| bottle.least_per_film))
        .filter(|least| *least > Volume::ZERO)
}

/// What is loaded, and the tank it is loaded into.
pub fn load<'a>(form: &mut Form, kit: &'a Kit) -> (Load, Option<&'a Tank>) {
    let load = Load::new([
        form.read(&fields::FILMS_135).unwrap_or(0),
        form.read(&fields::FILMS_120).unwrap_or(0),
        form.read(&fields::FILMS_220).unwrap_or(0),
        form.read(&fields::SHEETS_4X5).unwrap_or(0),
        form.read(&fields::SHEETS_8X10).unwrap_or(0),
    ]);
    let tank = match form.read(&fields::TANK) {
        None => kit.tanks.first().map(|kept| &kept.item),
        Some(id) if id == "none" => None,
        Some(id) => {
            let found = kit.tank(&id);
            if found.is_none() {
                form.fault("tank", "there is no such tank in the kit");
            }
            found
        }
    };
    (load, tank)
}
