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

/// How the rate of development follows temperature, and how the temperature is expected to go.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rate {
    /// Activation energy in J/mol; more than nothing.
    pub activation: f64,
    /// Whether nobody measured that; none in records from before that was written down.
    pub is_assumed: Option<bool>,
    /// The temperature that the developer begins at.
    pub at: Temperature,
    /// Where the temperature goes from there, and after each reading; the developing time is right for that.
    pub onward: Onward,
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
    /// What a developing of so long, with the temperatures that are expected, comes to: the plan that every other course is held
    /// against.
    pub fn plan(self, time: Span) -> Plan {
        Plan {
            time: self.worth([].into_iter(), time).unwrap_or(time),
            ..self.at_rest(time)
        }
    }

    /// How long, at the temperature that it begins at, develops as much as so long with these readings, each so long after the
    /// beginning. `None` if one of them is no number.
    pub fn worth(self, readings: impl Iterator<Item = (Span, Temperature)>, lasted: Span) -> Option<Span> {
        let course = self.course(readings)?;
        Some(self.at_rest(lasted).developed(&course, lasted))
    }

    /// The temperatures of a developer in which these were read, each so long after its beginning. `None` if one of them is no
    /// number.
    pub fn course(self, readings: impl Iterator<Item = (Span, Temperature)>) -> Option<Course> {
        let course: Vec<_> = [(Span::ZERO, self.at)].into_iter().chain(readings).collect();
        Course::new(&course, self.onward)
    }

    fn at_rest(self, time: Span) -> Plan {
        Plan {
            time,
            at: self.at,
            activation: self.activation,
        }
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

    /// How a step follows temperature; none where it does not, or nothing says how.
    pub fn rate_of(&self, step: &Step) -> Option<Rate> {
        self.rate.filter(|_| step.kind == StepKind::Develop)
    }

    /// The bath of a step, if one is named.
    pub fn bath(&self, kind: StepKind) -> Option<&Bath> {
        self.baths.iter().find(|bath| bath.kind == kind)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// scipy 1.17.1: quad and brentq, by tests/reference/steps.py. 600 s that are right for a room of 16 °C, and 19 °C read after
    /// 300 s.
    #[test]
    fn a_reading_goes_on_towards_the_room() {
        let celsius = Temperature::from_celsius;
        let rate = Rate {
            activation: 67_704.096_976,
            is_assumed: Some(false),
            at: celsius(20.0),
            onward: Onward::Towards {
                room: celsius(16.0),
                tau: Span::from_seconds(5_998.725_980),
            },
        };
        let plan = rate.plan(Span::from_seconds(600.0));
        assert!((plan.time.seconds() - 589.119_763).abs() < 1e-5);
        let ends = |readings: &[(Span, Temperature)]| {
            let course = rate.course(readings.iter().copied()).expect("a course");
            plan.ends(&course).seconds()
        };
        assert!((ends(&[]) - 600.0).abs() < 1e-6);
        assert!((ends(&[(Span::from_seconds(300.0), celsius(19.0))]) - 635.767_455).abs() < 1e-5);
    }
}
