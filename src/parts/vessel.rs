//! The bottle that is judged: one of the shelf with its record, or one that the form describes.

use super::against_air::read_assumptions;
use super::given;
use super::held::Held;
use super::picked::{ELSEWHERE, Picked};
use crate::chemistry::{Class, Formula, Guess};
use crate::darkroom::Darkroom;
use crate::development::Parameter;
use crate::fields::{self, Form};
use crate::keeping::{Assumptions, Exposure, Lean, Life, Ranged, Seal, Stretch, at, exposure};
use crate::kit::{Climate, Container, Treatment};
use crate::ledger::{self, ContentLife, Missing};
use crate::quantity::{Day, Temperature, Volume};

/// A bottle as far as form and shelf tell of it.
pub struct Vessel<'a> {
    /// The bottle of the shelf, where one was picked.
    pub bottle: Option<&'a ledger::Bottle>,
    /// What it is called: its product, or the class of its content.
    pub name: String,
    /// Class of solution.
    pub class: Class,
    /// What is assumed of it and of the air.
    pub assumptions: Assumptions,
    /// The published formula that its reserve follows from.
    pub formula: Option<&'static Formula>,
    /// Liquid in it now.
    pub left: Option<Volume>,
    /// What it holds to the brim.
    pub brimful: Option<Parameter>,
    /// Liquid in it when it was first opened, where no record tells.
    pub began: Option<Parameter>,
    /// Water that it was mixed with, where no record tells.
    pub water: Option<Parameter>,
    /// How warm it stands, by the form or the shelf; `None` where nobody said.
    pub climate: Option<Climate>,
    /// How warm the places of its record were of which nobody noted it.
    pub elsewhere: Climate,
    /// What is done to the air in it.
    pub treatment: Treatment,
    told: Option<Told>,
    today: Day,
}

/// How its life is known.
enum Told {
    Record(ContentLife),
    Described(Box<Described>),
}

struct Described {
    /// What holds the least, the usual and the most that it may.
    containers: Ranged<Container>,
    /// Days closed, and days since it was first opened.
    closed: i32,
    opened: i32,
    openings: u32,
    left: Volume,
    climate: Climate,
}

/// What of a bottle sold as so much is in it at the least (an assumption).
const FILLED_AT_LEAST: f64 = 0.97;

/// The fields that a record tells better.
const TOLD: [&str; 11] = [
    "left",
    "brimful",
    "nominal",
    "material",
    "wall_area",
    "opened",
    "openings",
    "treatment",
    "began",
    "unopened",
    "water",
];

/// What the form says of the life of a bottle.
struct Typed {
    opened: Option<f64>,
    openings: Option<u32>,
    treatment: Option<Treatment>,
    climate: Option<Climate>,
    began: Option<Volume>,
    unopened: Option<f64>,
    water: Option<Volume>,
}

impl<'a> Vessel<'a> {
    /// Reads the fields that a bottle has. An unknown bottle, or one that cannot be as described, is a fault.
    pub fn read(form: &mut Form, darkroom: &'a Darkroom) -> Self {
        let picked = Picked::read(form, darkroom);
        let bottle = picked.bottle;
        let class = picked.class(form);
        let held = Held::read(form, bottle);
        let typed = Typed {
            opened: form.read(&fields::OPENED),
            openings: form.read(&fields::OPENINGS),
            treatment: form.read(&fields::TREATMENT),
            climate: form.read(&fields::CLIMATE),
            began: form.read(&fields::BEGAN),
            unopened: form.read(&fields::UNOPENED),
            water: form.read(&fields::WATER),
        };
        let formula = form.read(&fields::FORMULA);
        let class = class.or(formula.map(|formula| formula.class)).unwrap_or(Class::Syrup);
        let mut vessel = Self {
            bottle,
            name: picked.name(class),
            class,
            assumptions: read_assumptions(form, class, formula),
            formula,
            left: None,
            brimful: held.to_the_brim(),
            began: None,
            water: None,
            climate: typed.climate.or(picked.noted_climate(darkroom)),
            elsewhere: typed.climate.unwrap_or(ELSEWHERE),
            treatment: typed.treatment.unwrap_or(Treatment::Plain),
            told: None,
            today: darkroom.today(),
        };
        if let Some(bottle) = bottle {
            vessel.take_record(bottle, darkroom);
        }
        match vessel.is_on_record() || vessel.is_empty_on_shelf() {
            true => form.pass_over(&TOLD),
            false => vessel.describe(form, &held, &typed),
        }
        vessel
    }

    /// Whether the shelf says that nothing is in it.
    pub fn is_empty_on_shelf(&self) -> bool {
        self.bottle
            .is_some_and(|bottle| bottle.is_empty() && bottle.discarded.is_none())
    }

    /// Whether its life is told by the shelf.
    pub fn is_on_record(&self) -> bool {
        matches!(self.told, Some(Told::Record(_)))
    }

    /// What the shelf would have to know of it to tell its life; nothing where it does, or where no bottle was picked.
    pub fn missing(&self) -> Vec<Missing> {
        let Some(bottle) = self.bottle.filter(|_| !self.is_on_record()) else {
            return Vec::new();
        };
        let mut missing = bottle.missing();
        missing.retain(|one| matches!(one, Missing::Content | Missing::Capacity | Missing::Wall));
        missing
    }

    /// Its life until today: as usually taken, and with what nobody measured of the bottle at the ends of its range.
    pub fn lives(&self) -> Option<Ranged<Life<'_>>> {
        Some(Ranged {
            value: self.life(0.0)?,
            least: self.life(-1.0)?,
            most: self.life(1.0)?,
        })
    }

    /// What the air could have done in these lives, with every assumption at its value and at its ends.
    pub fn air(&self, lives: &Ranged<Life>) -> Ranged<Exposure> {
        let of = |life, lean| exposure(life, &self.assumptions, &lean, None);
        Ranged {
            value: of(&lives.value, Lean::USUAL),
            least: of(&lives.least, Lean::GENTLE),
            most: of(&lives.most, Lean::HARSH),
        }
    }

    /// Room above the liquid, by what it may hold to the brim.
    pub fn headspace(&self) -> Option<Ranged<Volume>> {
        let (brimful, left) = (self.brimful?, self.left?);
        let above = |brimful| (Volume::from_millilitres(brimful) - left).max(Volume::ZERO);
        Some(Ranged {
            value: above(brimful.value),
            least: above(brimful.least),
            most: above(brimful.most),
        })
    }

    /// Days from one opening to the next, how many there were, and what each took, as the form tells; `None` where it tells of no
    /// use.
    pub fn used(&self) -> Option<(f64, u32, Volume)> {
        let Some(Told::Described(described)) = &self.told else {
            return None;
        };
        let openings = f64::from(described.openings);
        let taken = self.began?.value - described.left.millilitres();
        (openings > 0.0 && described.opened > 0 && taken > 0.0).then(|| {
            let each = Volume::from_millilitres(taken / openings);
            (f64::from(described.opened) / openings, described.openings, each)
        })
    }

    fn take_record(&mut self, bottle: &ledger::Bottle, darkroom: &Darkroom) {
        let Some(record) = darkroom.shelf.life(bottle.id.as_str(), self.elsewhere) else {
            return;
        };
        self.left = bottle.left();
        self.treatment = bottle.now.treatment;
        self.told = Some(Told::Record(record));
    }

    /// As the form describes it, as far as that can be.
    fn describe(&mut self, form: &mut Form, held: &Held, typed: &Typed) {
        self.brimful = None;
        let Some((left, brimful)) = held.fits(form) else { return };
        self.left = Some(left);
        self.brimful = Some(brimful);
        let Some(began) = began(form, held, typed, brimful, left) else {
            return;
        };
        self.began = Some(began);
        self.water = water(form, typed, self.class, began);
        let Some((opened, openings)) = typed.opened.zip(typed.openings) else {
            return;
        };
        let containers = [brimful.value, brimful.least, brimful.most].map(|brimful| held.container(brimful));
        let [Some(value), Some(least), Some(most)] = containers else {
            return;
        };
        if form.at_fault("climate") {
            return;
        }
        self.told = Some(Told::Described(Box::new(Described {
            containers: Ranged { value, least, most },
            closed: typed.unopened.unwrap_or(0.0).round() as i32,
            opened: opened.round() as i32,
            openings,
            left,
            climate: self.climate.unwrap_or(ELSEWHERE),
        })));
    }

    /// `wear` is -1 where what nobody measured of the bottle costs least, 1 where it costs most.
    fn life(&self, wear: f64) -> Option<Life<'_>> {
        let described = match self.told.as_ref()? {
            Told::Record(record) => return record.life().ok(),
            Told::Described(described) => described,
        };
        let container = match wear {
            gentle if gentle < 0.0 => &described.containers.least,
            harsh if harsh > 0.0 => &described.containers.most,
            _ => &described.containers.value,
        };
        let began = Volume::from_millilitres(at(&self.began?, -wear)).min(container.brimful);
        let first_opened = self.today + -described.opened;
        let closed = Stretch {
            from: first_opened + -described.closed,
            to: first_opened,
            content: began,
            seal: Seal::Unopened,
            treatment: Treatment::Plain,
            container,
            climate: described.climate,
        };
        let stretches = match described.openings {
            0 => vec![Stretch {
                to: self.today,
                content: described.left,
                ..closed
            }],
            openings => {
                let opened = Stretch {
                    from: first_opened,
                    to: self.today,
                    seal: Seal::Opened,
                    treatment: self.treatment,
                    ..closed
                };
                let used = Life::used_evenly(opened, described.left, openings).ok()?;
                let before = (described.closed > 0).then_some(closed);
                before.into_iter().chain(used.stretches().iter().copied()).collect()
            }
        };
        let life = Life::new(stretches).ok()?;
        let water = self.water.map_or(0.0, |water| at(&water, wear));
        Some(match water > 0.0 {
            true => life.mixed_with(Volume::from_millilitres(water), Temperature::from_celsius(MIXED_AT)),
            false => life,
        })
    }
}

/// Degrees Celsius of the water that a bath is mixed with; warmer water brings less oxygen.
const MIXED_AT: f64 = 20.0;

/// What it held at first: as it is sold, full.
fn began(form: &mut Form, held: &Held, typed: &Typed, brimful: Parameter, left: Volume) -> Option<Parameter> {
    let Some(began) = typed.began else {
        if form.at_fault("began") {
            return None;
        }
        let full = match (held.brimful, held.nominal) {
            (None, Some(nominal)) => nominal.millilitres(),
            _ => brimful.value / Container::brimful_of(Volume::from_millilitres(1.0)).value,
        };
        let guess = Guess {
            value: full,
            least: full * FILLED_AT_LEAST,
            most: brimful.most,
            why: "a bottle is taken to have been full when it was first opened",
        };
        return Some(at_least(Parameter::given_or(None, guess), left.millilitres()));
    };
    let units = form.units();
    if began < left {
        form.fault("began", "it cannot have held less at first than is left in it now");
        return None;
    }
    if began.millilitres() > brimful.most + 1e-6 {
        let most = units.volume(Volume::from_millilitres(brimful.most));
        form.fault("began", &format!("the bottle holds {most} at the most"));
        return None;
    }
    Some(given(began.millilitres()))
}

/// Water that it was mixed with: all of it, for what is mixed at home.
fn water(form: &mut Form, typed: &Typed, class: Class, began: Parameter) -> Option<Parameter> {
    match typed.water {
        Some(water) if water.millilitres() > began.most + 1e-6 => {
            form.fault("water", "that is more water than the bottle held at first");
            None
        }
        Some(water) => Some(given(water.millilitres())),
        None if form.at_fault("water") => None,
        None => matches!(class, Class::PowderStock | Class::WorkingDeveloper).then(|| {
            let guess = Guess {
                value: began.value,
                least: 0.0,
                most: began.most,
                why: "what is mixed at home is nearly all water, fresh from the tap or boiled",
            };
            Parameter::given_or(None, guess)
        }),
    }
}

/// An assumption that must not fall below a number.
fn at_least(parameter: Parameter, least: f64) -> Parameter {
    parameter.map(|value| value.max(least))
}
