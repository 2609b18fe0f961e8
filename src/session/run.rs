//! A developing under way: what was pressed, and what follows from it for any moment.
//!
//! Nothing is counted by ticks. A run is its recipe and its marks; where it stands is worked out anew for the moment that is asked
//! for, so that nothing is lost or gained by a page that sleeps.
//!
//! ```
//! use meniscus::quantity::Span;
//! use meniscus::session::{Act, Agitation, Cue, Mark, Recipe, Run, Step, StepKind};
//!
//! let step = Step {
//!     kind: StepKind::Develop,
//!     name: "develop".to_owned(),
//!     time: Span::from_minutes(8.0),
//!     temperature: None,
//!     agitation: Some(Agitation {
//!         first: Span::from_seconds(30.0),
//!         each: Span::from_seconds(10.0),
//!         every: Span::from_seconds(60.0),
//!     }),
//! };
//! let recipe = Recipe { steps: vec![step], ..Recipe::default() };
//! let run = Run { recipe, marks: vec![Mark { at: 0, act: Act::Begin(0) }] };
//! let now = run.at(65_000).expect("it has begun");
//! assert_eq!((now.cue, now.cue_left), (Cue::Agitate, Some(5_000)));
//! assert_eq!(now.left(), 415_000);
//! ```

use super::{Recipe, Session, Step, Went};
use crate::quantity::{Span, Temperature};

/// Milliseconds before the end of a step in which to get ready to pour: emptying a tank takes 10 to 20 s (common practice, no
/// source).
const READY: i64 = 15_000;

/// A developing under way.
#[derive(Clone, Debug, PartialEq)]
pub struct Run {
    /// What is to be done.
    pub recipe: Recipe,
    /// What was pressed, in order.
    pub marks: Vec<Mark>,
}

/// Something that was pressed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Mark {
    /// Milliseconds since the beginning of the run.
    pub at: i64,
    /// What it was.
    pub act: Act,
}

/// What can be pressed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Act {
    /// A step begins, and with it the one before ends.
    Begin(usize),
    /// The time stands.
    Pause,
    /// The time goes on.
    Resume,
    /// The step takes so many milliseconds more, or less.
    Longer(i64),
    /// The bath has this temperature.
    Read(Temperature),
    /// All is done.
    End,
}

/// A step under way or over. All times in milliseconds.
#[derive(Clone, Debug, PartialEq)]
pub struct Leg {
    /// Which step of the recipe.
    pub step: usize,
    /// From the beginning of the run.
    pub began: i64,
    /// How long it has lasted, pauses left out.
    pub spent: i64,
    /// How long it should last, with what was added and what the temperatures ask for.
    pub due: i64,
    /// How long it stood.
    pub paused: i64,
    /// Whether it stands now.
    pub stands: bool,
    /// What was added to its time.
    pub longer: i64,
    /// Temperatures, each so long after its beginning.
    pub readings: Vec<(i64, Temperature)>,
}

/// Where a run stands.
#[derive(Clone, Debug, PartialEq)]
pub struct Now {
    /// The step under way.
    pub leg: Leg,
    /// What is to be done at this moment.
    pub cue: Cue,
    /// For how many milliseconds; none where it goes on until something is pressed.
    pub cue_left: Option<i64>,
    /// What comes after it, if anything does.
    pub then: Option<Cue>,
}

/// What is to be done at a moment of a step.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Cue {
    /// Agitate.
    Agitate,
    /// Let it stand, or run.
    Rest,
    /// Get ready to pour.
    Ready,
    /// The time is up.
    Over,
}

impl Run {
    /// A run that begins with its first step.
    pub fn begin(recipe: Recipe) -> Self {
        let marks = vec![Mark {
            at: 0,
            act: Act::Begin(0),
        }];
        Self { recipe, marks }
    }

    /// Whether all is done.
    pub fn is_over(&self) -> bool {
        self.marks.last().is_some_and(|mark| mark.act == Act::End)
    }

    /// Every step that was begun, as it stands so many milliseconds after the beginning. A mark that names no step of the recipe
    /// says nothing, and none is earlier than the one before it.
    pub fn legs(&self, now: i64) -> Vec<Leg> {
        let mut legs: Vec<Leg> = Vec::new();
        let mut last = 0;
        let over = Mark { at: now, act: Act::End };
        for mark in self.marks.iter().chain([&over]) {
            let at = mark.at.max(last);
            if let Some(leg) = legs.last_mut() {
                match leg.stands {
                    true => leg.paused += at - last,
                    false => leg.spent += at - last,
                }
            }
            last = at;
            if mark.act == Act::End {
                break;
            }
            self.take(&mut legs, at, mark.act);
        }
        for leg in &mut legs {
            leg.due = self.due(leg);
        }
        legs
    }

    fn take(&self, legs: &mut Vec<Leg>, at: i64, act: Act) {
        if let Act::Begin(step) = act
            && step < self.recipe.steps.len()
        {
            legs.push(Leg {
                step,
                began: at,
                spent: 0,
                due: 0,
                paused: 0,
                stands: false,
                longer: 0,
                readings: Vec::new(),
            });
        }
        let Some(leg) = legs.last_mut() else { return };
        match act {
            Act::Pause => leg.stands = true,
            Act::Resume => leg.stands = false,
            Act::Longer(more) => leg.longer += more,
            Act::Read(temperature) => leg.readings.push((leg.spent, temperature)),
            Act::Begin(_) | Act::End => {}
        }
    }

    /// How long a step should last: its time and what was added; for the developer, so long that as much is developed at the
    /// temperatures that were read as would have been at the one that the time is for.
    fn due(&self, leg: &Leg) -> i64 {
        let Some(step) = self.recipe.steps.get(leg.step) else {
            return 0;
        };
        let asked = (step.time.milliseconds() + leg.longer).max(0);
        let Some(rate) = self.recipe.rate_of(step) else {
            return asked;
        };
        if leg.readings.is_empty() {
            return asked;
        }
        let read = leg
            .readings
            .iter()
            .map(|(at, temperature)| (Span::from_milliseconds(*at), *temperature));
        let ends = |course| rate.plan(Span::from_milliseconds(asked)).ends(&course);
        rate.course(read).map_or(asked, |course| ends(course).milliseconds())
    }

    /// Where it stands so many milliseconds after its beginning; none if nothing was begun, or all is done.
    pub fn at(&self, now: i64) -> Option<Now> {
        if self.is_over() {
            return None;
        }
        let leg = self.legs(now).pop()?;
        let step = self.recipe.steps.get(leg.step)?;
        let (cue, left) = cue(step, leg.due, leg.spent);
        let then = left.map(|left| self::cue(step, leg.due, leg.spent + left).0);
        Some(Now {
            leg,
            cue,
            cue_left: left,
            then,
        })
    }

    /// The changes of what is to be done in the time ahead of that moment, unless something is pressed: in so many milliseconds,
    /// that. None while the time stands.
    pub fn ahead(&self, now: &Now, within: i64) -> Vec<(i64, Cue)> {
        let step = self.recipe.steps.get(now.leg.step).filter(|_| !now.leg.stands);
        let Some(step) = step else { return Vec::new() };
        let mut changes = Vec::new();
        let mut at = 0;
        let mut left = now.cue_left;
        while let Some(more) = left {
            at += more;
            if at > within {
                break;
            }
            let (next, its) = cue(step, now.leg.due, now.leg.spent + at);
            changes.push((at, next));
            left = its;
        }
        changes
    }

    /// The record of what was done.
    pub fn session(&self, began: i64, now: i64, doubts: Vec<String>, note: String) -> Session {
        let went = |leg: Leg| Went {
            step: leg.step,
            began: Span::from_milliseconds(leg.began),
            lasted: Span::from_milliseconds(leg.spent),
            due: Span::from_milliseconds(leg.due),
            paused: Span::from_milliseconds(leg.paused),
            readings: leg
                .readings
                .into_iter()
                .map(|(at, read)| (Span::from_milliseconds(at), read))
                .collect(),
        };
        Session {
            recipe: self.recipe.clone(),
            began,
            steps: self.legs(now).into_iter().map(went).collect(),
            doubts,
            note,
        }
    }
}

impl Now {
    /// What is left of the step, in milliseconds; less than nothing where it should be over.
    pub fn left(&self) -> i64 {
        self.leg.due - self.leg.spent
    }
}

/// What is to be done after so many milliseconds of a step, and for how long.
fn cue(step: &Step, due: i64, spent: i64) -> (Cue, Option<i64>) {
    if spent >= due {
        return (Cue::Over, None);
    }
    // In a short step, the last third.
    let ready = due - READY.min(due / 3);
    if spent >= ready {
        return (Cue::Ready, Some(due - spent));
    }
    let until = |end: i64| Some(end.min(ready) - spent);
    let Some(agitation) = step.agitation else {
        return (Cue::Rest, until(ready));
    };
    let [first, each, every] = [agitation.first, agitation.each, agitation.every].map(Span::milliseconds);
    if spent < first {
        return (Cue::Agitate, until(first));
    }
    if each <= 0 || every <= 0 {
        return (Cue::Rest, until(ready));
    }
    // What falls into the first agitation, or follows it without a rest, is a part of it.
    let round = spent / every * every;
    if round > first && spent < round + each {
        return (Cue::Agitate, until(round + each));
    }
    let next = (spent / every + 1).max(first / every + 1) * every;
    (Cue::Rest, until(next))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::development::drift::Onward;
    use crate::session::{Agitation, Rate, StepKind};

    fn step(kind: StepKind, minutes: f64) -> Step {
        Step {
            kind,
            name: kind.word().to_owned(),
            time: Span::from_minutes(minutes),
            temperature: None,
            agitation: None,
        }
    }

    fn agitated(minutes: f64, first: f64, each: f64, every: f64) -> Step {
        let [first, each, every] = [first, each, every].map(Span::from_seconds);
        Step {
            agitation: Some(Agitation { first, each, every }),
            ..step(StepKind::Develop, minutes)
        }
    }

    fn run(steps: Vec<Step>, marks: &[(i64, Act)]) -> Run {
        let recipe = Recipe {
            steps,
            ..Recipe::default()
        };
        let marks = marks.iter().map(|&(at, act)| Mark { at, act }).collect();
        Run { recipe, marks }
    }

    #[test]
    fn agitation_follows_its_rhythm() {
        let run = run(vec![agitated(3.0, 30.0, 10.0, 60.0)], &[(0, Act::Begin(0))]);
        let ahead = run.ahead(&run.at(0).expect("it has begun"), 600_000);
        let expected = [
            (30_000, Cue::Rest),
            (60_000, Cue::Agitate),
            (70_000, Cue::Rest),
            (120_000, Cue::Agitate),
            (130_000, Cue::Rest),
            (165_000, Cue::Ready),
            (180_000, Cue::Over),
        ];
        assert_eq!(ahead, expected);
    }

    #[test]
    fn a_first_agitation_as_long_as_the_rhythm_is_followed_by_a_rest() {
        let run = run(vec![agitated(4.0, 60.0, 10.0, 60.0)], &[(0, Act::Begin(0))]);
        assert_eq!(
            run.ahead(&run.at(0).expect("it has begun"), 130_000),
            [(60_000, Cue::Rest), (120_000, Cue::Agitate), (130_000, Cue::Rest)]
        );
    }

    #[test]
    fn agitation_without_end_is_one_cue_until_the_end() {
        let run = run(vec![agitated(1.0, 3600.0, 0.0, 0.0)], &[(0, Act::Begin(0))]);
        assert_eq!(
            run.ahead(&run.at(0).expect("it has begun"), 100_000),
            [(45_000, Cue::Ready), (60_000, Cue::Over)]
        );
    }

    #[test]
    fn a_pause_is_no_part_of_a_step() {
        let marks = [(0, Act::Begin(0)), (10_000, Act::Pause), (40_000, Act::Resume)];
        let run = run(vec![step(StepKind::Fix, 5.0)], &marks);
        let now = run.at(70_000).expect("under way");
        assert_eq!((now.leg.spent, now.leg.paused, now.left()), (40_000, 30_000, 260_000));
    }

    #[test]
    fn what_is_gone_back_to_is_done_again() {
        let marks = [
            (0, Act::Begin(0)),
            (5_000, Act::Begin(1)),
            (8_000, Act::Begin(0)),
            (20_000, Act::End),
        ];
        let run = run(vec![step(StepKind::Stop, 0.5), step(StepKind::Fix, 5.0)], &marks);
        let legs = run.legs(99_000);
        let spent: Vec<(usize, i64)> = legs.iter().map(|leg| (leg.step, leg.spent)).collect();
        assert_eq!(spent, [(0, 5_000), (1, 3_000), (0, 12_000)]);
        assert_eq!(run.at(99_000), None);
    }

    #[test]
    fn a_colder_bath_develops_longer_and_a_warmer_one_shorter() {
        let at = Temperature::from_celsius(20.0);
        let with = |celsius: f64| {
            let read = Act::Read(Temperature::from_celsius(celsius));
            let mut run = run(
                vec![step(StepKind::Develop, 10.0)],
                &[(0, Act::Begin(0)), (60_000, read)],
            );
            run.recipe.rate = Some(Rate {
                activation: 51_000.0,
                is_assumed: Some(false),
                at,
                onward: Onward::Held,
            });
            run.at(60_000).expect("under way").leg.due
        };
        assert_eq!(with(20.0), 600_000);
        assert!(with(19.0) > 600_000 && with(21.0) < 600_000);
    }

    #[test]
    fn marks_that_name_no_step_or_come_too_early_do_no_harm() {
        let marks = [
            (5_000, Act::Begin(0)),
            (1_000, Act::Longer(30_000)),
            (6_000, Act::Begin(9)),
        ];
        let run = run(vec![step(StepKind::Fix, 1.0)], &marks);
        let now = run.at(7_000).expect("under way");
        assert_eq!((now.leg.step, now.leg.spent, now.leg.due), (0, 2_000, 90_000));
    }
}
