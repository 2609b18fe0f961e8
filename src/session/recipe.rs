//! What is to be done: steps with their times, temperatures and agitation, the baths, and the film.

use crate::development::drift::{Course, Onward, Plan};
use crate::quantity::{Dilution, Span, Temperature, Volume};

/// The steps of one developing, and all that its record will say.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Recipe {
    /// A line for lists: the film, and what it is developed in.
    pub title: String,
    /// The film, in words.
    pub films: String,
    /// How much film, in film units.
    pub units: f64,
    /// The steps, in order; at least one.
    pub steps: Vec<Step>,
    /// The baths, in the order of their steps.
    pub baths: Vec<Bath>,
    /// How the rate of development follows temperature; none where nothing says so.
    pub rate: Option<Rate>,
    /// Every technical figure of the day, as it was shown: what it is, and how much.
    pub figures: Vec<(String, String)>,
    /// The form that it came from, field by field, so that it can be done again.
    pub form: Vec<(String, String)>,
}

/// One step.
#[derive(Clone, Debug, PartialEq)]
pub struct Step {
    /// What kind it is.
    pub kind: StepKind,
    /// Its name, in the user's words.
    pub name: String,
    /// How long it takes, from the first drop in to the last drop out; more than nothing.
    pub time: Span,
    /// The temperature that the time is for.
    pub temperature: Option<Temperature>,
    /// When to agitate; none where the step stands still or runs.
    pub agitation: Option<Agitation>,
}

/// What a step does to the film.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum StepKind {
    /// Water before the developer.
    Prewet,
    /// The developer.
    Develop,
    /// What ends development: stop bath, or water in its place.
    Stop,
    /// The fixer.
    Fix,
    /// Water between two baths.
    Rinse,
    /// What helps the wash.
    WashAid,
    /// Water that takes the fixer out.
    Wash,
    /// What lets water run off.
    WettingAgent,
    /// Anything else.
    Other,
}

/// When to agitate: at first, and then so long every so often.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Agitation {
    /// From the beginning.
    pub first: Span,
    /// How long each time; nothing where it is only done at first.
    pub each: Span,
    /// From the beginning of one to the beginning of the next; at least `each`.
    pub every: Span,
}

/// How the rate of development follows temperature.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rate {
    /// Activation energy in J/mol; more than nothing.
    pub activation: f64,
    /// The temperature that the developing time is for.
    pub at: Temperature,
}

/// A bath, and where it came from.
#[derive(Clone, Debug, PartialEq)]
pub struct Bath {
    /// The step that it is for.
    pub kind: StepKind,
    /// Name of the bottle on the shelf; empty where it is from none.
    pub bottle: String,
    /// What it is, in words: the product, how it is diluted.
    pub words: String,
    /// Whether it is mixed for this, or used again.
    pub made: Made,
}

/// How a bath comes to be.
#[derive(Clone, Debug, PartialEq)]
pub enum Made {
    /// It is mixed for this developing and poured away after it.
    Mixed {
        /// Out of the bottle.
        concentrate: Volume,
        /// Water, or whatever else is not out of the bottle.
        water: Volume,
        /// The dilution that was wanted.
        dilution: Dilution,
    },
    /// It is in its bottle, is poured back, and has had so much film more.
    Reused,
}

impl Rate {
    /// A developing of so long at its temperature.
    pub fn plan(self, time: Span) -> Plan {
        Plan {
            time,
            at: self.at,
            activation: self.activation,
        }
    }

    /// The temperatures of a developer in which these were read, each so long after its beginning: it began at that of the rate,
    /// and what the room does after the last reading is for the next one to tell. `None` if one of them is no number.
    pub fn course(self, readings: impl Iterator<Item = (Span, Temperature)>) -> Option<Course> {
        let course: Vec<_> = [(Span::ZERO, self.at)].into_iter().chain(readings).collect();
        Course::new(&course, Onward::Held)
    }
}

impl StepKind {
    /// Every kind, in the usual order.
    pub const ALL: [Self; 9] = [
        Self::Prewet,
        Self::Develop,
        Self::Stop,
        Self::Fix,
        Self::Rinse,
        Self::WashAid,
        Self::Wash,
        Self::WettingAgent,
        Self::Other,
    ];

    /// As the trade calls it.
    pub fn word(self) -> &'static str {
        match self {
            Self::Prewet => "prewet",
            Self::Develop => "develop",
            Self::Stop => "stop",
            Self::Fix => "fix",
            Self::Rinse => "rinse",
            Self::WashAid => "wash aid",
            Self::Wash => "wash",
            Self::WettingAgent => "wetting agent",
            Self::Other => "other",
        }
    }
}

impl Recipe {
    /// The time of all steps.
    pub fn length(&self) -> Span {
        self.steps.iter().map(|step| step.time).sum()
    }

    /// The bath of a step, if one is named.
    pub fn bath(&self, kind: StepKind) -> Option<&Bath> {
        self.baths.iter().find(|bath| bath.kind == kind)
    }
}
