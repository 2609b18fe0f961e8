//! The developing time that is worked out: by the law, longer for the film that the developer had before, and right for a bath that
//! the room cools or warms.

use super::super::drifting::{half_assumption, leaves, tau_assumption};
use super::super::given;
use super::super::thermometer::degrees;
use super::super::timing::Timed;
use super::Steps;
use super::reuse::{Role, film_units};
use crate::development::Parameter;
use crate::development::drift::{Course, Onward, Plan};
use crate::fields::{self, Form};
use crate::kit::Kit;
use crate::quantity::{Span, Temperature, Units, Volume};
use crate::sheet::{Figure, Item};
use crate::uncertainty::{Distribution, Estimate, Input};

/// A developing time, and where it comes from.
pub(super) struct Developing {
    pub figure: Figure,
    /// What alters the time of the law, and by how much; nothing of it holds for a time of the user's own.
    pub altered: Vec<Item>,
    /// Why the law says so, and what speaks against it.
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
    /// Whether the tank stands in water.
    pub has_jacket: bool,
}

/// A room is meant, and not known.
pub(super) struct Unreadable;

impl Room {
    /// Reads the form; `None` where no room is typed, and so the bath is kept as warm as it is. What belongs to a room that is not
    /// typed is a fault.
    ///
    /// # Errors
    /// Where a room is meant that cannot be known: then no time is right for it.
    pub fn read(form: &mut Form, kit: &Kit, total: Option<Volume>) -> Result<Option<Self>, Unreadable> {
        let at = form.read(&fields::LEFT_TO_ROOM).map(|shown| kit.corrected(shown));
        let half = form.read(&fields::HALF_WAY);
        let jacket = form.read(&fields::JACKET).filter(|jacket| *jacket > Volume::ZERO);
        if (half.is_some() || jacket.is_some()) && at.is_none() && !form.at_fault("room") {
            form.fault(
                "room",
                "how warm is the room? What the tank does in it says nothing alone",
            );
        }
        if ["room", "half", "jacket"].iter().any(|field| form.at_fault(field)) {
            return Err(Unreadable);
        }
        let Some(at) = at else { return Ok(None) };
        let tau = match (half, total) {
            (Some(half), _) => given(half.seconds() / std::f64::consts::LN_2),
            (None, Some(total)) => tau_assumption(total + jacket.unwrap_or(Volume::ZERO)),
            (None, None) => return Err(Unreadable),
        };
        let has_jacket = jacket.is_some();
        Ok(Some(Self { at, tau, has_jacket }))
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
    bath: Timed<'a>,
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

    /// In a bath that is kept as warm.
    fn at_rest(&self, begins: Temperature) -> Span {
        self.bath.predicted(begins).time * self.longer
    }

    fn time(&self) -> Span {
        let begins = self.bath.temperature;
        let at_rest = self.at_rest(begins);
        self.room.map_or(at_rest, |room| {
            self.ends(
                at_rest,
                self.bath.law.activation().value,
                begins,
                room.at,
                room.tau.value,
            )
        })
    }

    /// Over the ends of every assumption: of the law's, and of how fast the tank follows the room.
    fn band(&self) -> (Span, Span) {
        let Timed {
            law,
            temperature: begins,
            strength,
            bottle,
            ..
        } = self.bath;
        let taus = self.room.map_or([0.0; 2], |room| [room.tau.least, room.tau.most]);
        let mut band = (Span::from_seconds(f64::INFINITY), Span::ZERO);
        for corner in law.corners() {
            let at_rest = law.time_with(corner, begins, strength, bottle) * self.longer;
            for tau in taus {
                let end = self
                    .room
                    .map_or(at_rest, |room| self.ends(at_rest, corner[0], begins, room.at, tau));
                band = (band.0.min(end), band.1.max(end));
            }
        }
        band
    }

    /// Standard uncertainty in seconds: of the data sheet's times, and of the thermometer, which errs alike in bath and room.
    fn uncertainty(&self, kit: &Kit) -> Option<f64> {
        let begins = self.bath.temperature;
        let sigma = self.bath.predicted(begins).relative_uncertainty;
        let mut inputs = vec![
            Input::new("the data sheet", 1.0, Distribution::Normal { sigma }),
            degrees("the bath", begins, kit),
        ];
        inputs.extend(self.room.map(|room| degrees("the room", room.at, kit)));
        let model = |x: &[f64]| {
            let begins = Temperature::from_celsius(x[1]);
            let at_rest = self.at_rest(begins) * x[0];
            let end = self.room.map_or(at_rest, |room| {
                let at = Temperature::from_celsius(x[2]);
                self.ends(at_rest, self.bath.law.activation().value, begins, at, room.tau.value)
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

    /// The time by the law; nothing where the data sheet's times, how the bath is, or a room that is meant, is not known.
    pub(super) fn developing(&self, kit: &Kit) -> Option<Developing> {
        let units = kit.house.units;
        let room = self.room.as_ref().ok()?.as_ref();
        let begins = self.warmth()?;
        let bath = self.bath.timed(self.law.as_ref()?, begins)?;
        let (at_rest, mut why) = bath.worked_out(kit);
        let share = self.developing_share();
        let longer = 1.0 + share.unwrap_or(0.0);
        let asked = Asked { bath, longer, room };
        let (time, band) = (asked.time(), asked.band());
        why.extend(bath.warnings(time, units));
        let mut altered = Vec::new();
        if share.is_none() && room.is_none() {
            return Some(Developing {
                figure: at_rest,
                altered,
                why,
                band,
            });
        }
        let figure = Figure::span("time", "Develop for", time, units);
        let figure = match asked.uncertainty(kit) {
            Some(u) => figure.uncertain(u, |spread| units.seconds(Span::from_seconds(spread))),
            None => figure,
        };
        if let Some(share) = share {
            let by_law = Span::from_seconds(at_rest.value);
            altered.extend(self.lengthened(by_law * share, "the data sheet's law", by_law, units));
        }
        if let Some(room) = room {
            let label = format!("Kept at {}, it would be", units.temperature(begins));
            let steady = Figure::span("steady", label, asked.at_rest(begins), units);
            altered.push(Item::Figure(steady.assumed_if(at_rest.band.is_some())));
            altered.extend(room.meanwhile(begins, time, band.0 != band.1, units));
        }
        Some(Developing {
            figure: figure.banded(&units.span(band.0), &units.span(band.1)),
            altered,
            why,
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

impl Room {
    /// What it does to a bath that begins so warm and develops for so long; `is_assumed` tells whether that time is.
    pub fn meanwhile(&self, begins: Temperature, time: Span, is_assumed: bool, units: Units) -> Vec<Item> {
        let Some(course) = Course::drifting(begins, self.at, Span::from_seconds(self.tau.value)) else {
            return Vec::new();
        };
        let ends_at = Figure::temperature("ends_at", "In this room it ends at", course.temperature(time), units);
        let mut items = vec![Item::Figure(ends_at.assumed_if(is_assumed || self.tau.is_assumed()))];
        items.extend(leaves(&course, begins, time, units));
        if self.has_jacket {
            let mut text = "The water around the tank is taken to be as warm as the bath.".to_owned();
            if !self.tau.is_assumed() {
                text += " The time to half way is taken to be that of the tank as it stands in it.";
            }
            items.push(Item::Text(text));
        }
        items
    }
}
