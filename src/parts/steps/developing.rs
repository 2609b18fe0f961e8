//! The developing time that is worked out: by the law, longer for the film that the developer had before, and right for a bath that
//! the room cools or warms.

use super::super::drifting::{half_assumption, leaves, tau_assumption};
use super::super::given;
use super::super::thermometer::degrees;
use super::super::timing::{warnings, worked_out};
use super::Steps;
use super::reuse::{Role, film_units};
use crate::development::drift::{Course, Onward, Plan};
use crate::development::{Parameter, RateLaw};
use crate::fields::{self, Form};
use crate::kit::Kit;
use crate::quantity::{Span, Temperature, Units, Volume};
use crate::sheet::{Figure, Item};
use crate::uncertainty::{Distribution, Estimate, Input};

/// A developing time, and where it comes from.
pub(super) struct Developing {
    pub figure: Figure,
    /// Why it is so, and what speaks against it.
    pub why: Vec<Item>,
    /// Shortest and longest that assumptions allow; the same where nothing is assumed.
    pub band: (Span, Span),
}

/// The room that the developer is left to.
pub(super) struct Room {
    /// How warm it is.
    pub at: Temperature,
    /// In so many seconds the difference falls to 1/e of itself.
    pub tau: Parameter,
}

impl Room {
    /// Reads the form; nothing where the bath is kept as warm as it is.
    pub fn read(form: &mut Form, kit: &Kit, total: Option<Volume>) -> Option<Self> {
        let at = form.read(&fields::LEFT_TO_ROOM).map(|shown| kit.corrected(shown));
        let half = form.read(&fields::HALF_WAY);
        let jacket = form.read(&fields::JACKET).unwrap_or(Volume::ZERO);
        if half.is_some() && at.is_none() && !form.at_fault("room") {
            form.fault("room", "how warm is the room? Half of the way to it says nothing alone");
        }
        let tau = match half {
            Some(half) => given(half.seconds() / std::f64::consts::LN_2),
            None if form.at_fault("half") => return None,
            None => tau_assumption(total? + jacket),
        };
        Some(Self { at: at?, tau })
    }

    /// Where a bath goes that is left to it.
    pub fn onward(&self) -> Onward {
        Onward::Towards {
            room: self.at,
            tau: Span::from_seconds(self.tau.value),
        }
    }

    /// What is assumed of it.
    pub fn assumption(&self, units: Units) -> Option<Item> {
        half_assumption(self.tau, "half", units)
    }
}

/// A developing that the law is asked for: its bath, and what alters the time of the data sheet.
struct Asked<'a> {
    law: &'a RateLaw,
    begins: Temperature,
    strength: f64,
    bottle: f64,
    /// How many times as long, for the film before.
    longer: f64,
    room: Option<&'a Room>,
}

impl Asked<'_> {
    /// When a bath that begins and drifts so has developed as much as one that stays as warm does in that time.
    fn ends(&self, at_rest: Span, activation: f64, begins: Temperature, room: Temperature, tau: f64) -> Span {
        let plan = Plan {
            time: at_rest,
            at: begins,
            activation,
        };
        let course = Course::drifting(begins, room, Span::from_seconds(tau));
        course.map_or(at_rest, |course| plan.ends(&course))
    }

    fn time(&self) -> Span {
        let at_rest = self.law.time(self.begins, self.strength, self.bottle).time * self.longer;
        self.room.map_or(at_rest, |room| {
            self.ends(
                at_rest,
                self.law.activation().value,
                self.begins,
                room.at,
                room.tau.value,
            )
        })
    }

    /// Over the ends of every assumption: of the law's, and of how fast the tank follows the room.
    fn band(&self) -> (Span, Span) {
        let (shortest, longest) = self.law.time(self.begins, self.strength, self.bottle).band;
        let (shortest, longest) = (shortest * self.longer, longest * self.longer);
        let Some(room) = self.room else {
            return (shortest, longest);
        };
        let activation = self.law.activation();
        let mut band = (Span::from_seconds(f64::INFINITY), Span::ZERO);
        for at_rest in [shortest, longest] {
            for activation in [activation.least, activation.most] {
                for tau in [room.tau.least, room.tau.most] {
                    let end = self.ends(at_rest, activation, self.begins, room.at, tau);
                    band = (band.0.min(end), band.1.max(end));
                }
            }
        }
        band
    }

    /// Standard uncertainty in seconds: of the data sheet's times, and of the thermometer, which errs alike in bath and room.
    fn uncertainty(&self, kit: &Kit) -> Option<f64> {
        let sigma = self
            .law
            .time(self.begins, self.strength, self.bottle)
            .relative_uncertainty;
        let mut inputs = vec![
            Input::new("the data sheet", 1.0, Distribution::Normal { sigma }),
            degrees("the bath", self.begins, kit),
        ];
        inputs.extend(self.room.map(|room| degrees("the room", room.at, kit)));
        let model = |x: &[f64]| {
            let begins = Temperature::from_celsius(x[1]);
            let at_rest = self.law.time(begins, self.strength, self.bottle).time * (self.longer * x[0]);
            let end = self.room.map_or(at_rest, |room| {
                let at = Temperature::from_celsius(x[2]);
                self.ends(at_rest, self.law.activation().value, begins, at, room.tau.value)
            });
            end.seconds()
        };
        Estimate::uncertainty_of(&inputs, model)
    }
}

impl Steps<'_> {
    /// How much longer to develop, as a share, for the film that went through the developer before.
    pub(super) fn developing_share(&self) -> Option<f64> {
        let through = self.reused(Role::Developer)?.through?;
        let share = self.developing_longer.as_ref()?.share(through);
        (share > 0.0).then_some(share)
    }

    /// The time by the law; nothing where the data sheet's times, or how the bath is, is not known.
    pub(super) fn developing(&self, kit: &Kit) -> Option<Developing> {
        let units = kit.house.units;
        let law = self.law.as_ref()?;
        let (begins, bottle) = (self.warmth()?, self.bath.strength?);
        let strength = self.bath.dilution.as_ref()?.strength();
        let (at_rest, mut why) = worked_out(law, begins, strength, bottle, &self.bath.times, kit);
        let share = self.developing_share();
        let asked = Asked {
            law,
            begins,
            strength,
            bottle,
            longer: 1.0 + share.unwrap_or(0.0),
            room: self.room.as_ref(),
        };
        let (time, band) = (asked.time(), asked.band());
        why.extend(warnings(law, begins, time, units));
        if share.is_none() && self.room.is_none() {
            return Some(Developing {
                figure: at_rest,
                why,
                band,
            });
        }
        let figure = Figure::span("time", "Develop for", time, units);
        let figure = match asked.uncertainty(kit) {
            Some(u) => figure.uncertain(u, |spread| units.seconds(Span::from_seconds(spread))),
            None => figure,
        };
        let mut altered = Vec::new();
        if let Some(share) = share {
            let more = Span::from_seconds(at_rest.value) * share;
            altered.extend(self.lengthened(more, "the data sheet's law", Span::from_seconds(at_rest.value), units));
        }
        if let Some(room) = &self.room {
            altered.extend(in_room(&asked, room, time, at_rest.band.is_some(), units));
        }
        altered.extend(why);
        Some(Developing {
            figure: figure.banded(&units.span(band.0), &units.span(band.1)),
            why: altered,
            band,
        })
    }

    /// What the film before costs, of the time that somebody says.
    pub(super) fn lengthened(&self, more: Span, of: &str, time: Span, units: Units) -> [Item; 2] {
        let films = self.reused(Role::Developer).and_then(|developer| developer.through);
        [
            Item::Text(format!(
                "{} longer than the {} of {of}, since {} went through it before.",
                units.span(more),
                units.span(time),
                film_units(films.unwrap_or(0.0), units)
            )),
            Item::Figure(Figure::span(
                "develop_longer",
                "Longer, for the film before",
                more,
                units,
            )),
        ]
    }
}

/// What the room does to a bath that is left to it; `is_assumed` tells whether the law at one temperature is.
fn in_room(asked: &Asked, room: &Room, time: Span, is_assumed: bool, units: Units) -> Vec<Item> {
    let Some(course) = Course::drifting(asked.begins, room.at, Span::from_seconds(room.tau.value)) else {
        return Vec::new();
    };
    let at_rest = Asked { room: None, ..*asked }.time();
    let begins = units.temperature(asked.begins);
    let steady = Figure::span("steady", format!("Kept at {begins}, it would be"), at_rest, units);
    let ends_at = Figure::temperature("ends_at", "In this room it ends at", course.temperature(time), units);
    let mut items = vec![
        Item::Figure(steady.assumed_if(is_assumed)),
        Item::Figure(ends_at.assumed_if(room.tau.is_assumed())),
    ];
    items.extend(leaves(&course, asked.begins, time, units));
    items
}
