//! What was done: each step as it really went.

use super::{Rate, Recipe, Step, StepKind};
use crate::development::drift::{Course, Onward};
use crate::quantity::{Span, Temperature};

/// One developing, as it went.
#[derive(Clone, Debug, PartialEq)]
pub struct Session {
    /// What was to be done.
    pub recipe: Recipe,
    /// When it began, in milliseconds since 1970 by the device's clock.
    pub began: i64,
    /// The steps as they went, in order.
    pub steps: Vec<Went>,
    /// What is not certain about it, in sentences; the device slept, say, or its clock was changed.
    pub doubts: Vec<String>,
    /// The user's words; may be empty.
    pub note: String,
}

/// A step as it went.
#[derive(Clone, Debug, PartialEq)]
pub struct Went {
    /// Which step of the recipe, from 0. One that was done again stands twice.
    pub step: usize,
    /// From the beginning of all to the beginning of this.
    pub began: Span,
    /// How long it took, pauses left out.
    pub lasted: Span,
    /// How long it should have taken in the end: the recipe's time, with what was added and what temperature asked for.
    pub due: Span,
    /// How long it stood still.
    pub paused: Span,
    /// Temperatures that were read, each so long after the beginning of the step.
    pub readings: Vec<(Span, Temperature)>,
}

impl Session {
    /// The step of the recipe that this was.
    pub fn step(&self, went: &Went) -> Option<&Step> {
        self.recipe.steps.get(went.step)
    }

    /// From the beginning of the first step to the end of the last, pauses and all.
    pub fn length(&self) -> Span {
        let ends = self.steps.iter().map(|went| went.began + went.lasted + went.paused);
        ends.fold(Span::ZERO, Span::max)
    }

    /// The steps of a kind as they went.
    pub fn of_kind(&self, kind: StepKind) -> impl Iterator<Item = &Went> {
        let is_it = move |went: &&Went| self.step(went).is_some_and(|step| step.kind == kind);
        self.steps.iter().filter(is_it)
    }

    /// How long it should have developed in the end, and how long it did; `None` where nothing was developed.
    pub fn developing(&self) -> Option<(Span, Span)> {
        self.of_kind(StepKind::Develop).next()?;
        let all = |of: fn(&Went) -> Span| self.of_kind(StepKind::Develop).map(of).sum();
        Some((all(|went| went.due), all(|went| went.lasted)))
    }

    /// The steps of the recipe that were never begun, with their places in it.
    pub fn left_out(&self) -> impl Iterator<Item = (usize, &Step)> {
        let all = self.recipe.steps.iter().enumerate();
        all.filter(|(place, _)| !self.steps.iter().any(|went| went.step == *place))
    }

    /// How long developing at the temperature of the rate would have done as much as what was done by the thermometer, by the law of
    /// the rate (Arrhenius); `None` without a rate, or where no temperature was read in the developer. A developer in which none was
    /// read counts as having gone as the rate expects.
    ///
    /// The thermometer's error and that of the activation energy are not in it.
    pub fn worth(&self) -> Option<Span> {
        let rate = self.recipe.rate?;
        let read = |went: &Went| !went.readings.is_empty();
        self.of_kind(StepKind::Develop).any(read).then(|| {
            let worth = self.of_kind(StepKind::Develop).map(|went| went.worth(rate));
            worth.sum()
        })
    }
}

impl Went {
    /// The mean of what was read: straight from reading to reading, and before the first and after the last as it was then; `None`
    /// where nothing was read.
    pub fn mean_temperature(&self) -> Option<Temperature> {
        let course = Course::new(&self.readings, Onward::Held)?;
        Some(course.mean(self.lasted))
    }

    fn worth(&self, rate: Rate) -> Span {
        let readings = self.readings.iter().copied();
        rate.worth(readings, self.lasted).unwrap_or(self.lasted)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn went(lasted: f64, readings: &[(f64, f64)]) -> Went {
        let reading = |(at, celsius): &(f64, f64)| (Span::from_seconds(*at), Temperature::from_celsius(*celsius));
        Went {
            step: 0,
            began: Span::ZERO,
            lasted: Span::from_seconds(lasted),
            due: Span::from_seconds(lasted),
            paused: Span::ZERO,
            readings: readings.iter().map(reading).collect(),
        }
    }

    /// By hand: areas of rectangles and trapezia under the line, over the time.
    #[test]
    fn a_mean_temperature_is_the_area_under_its_line() {
        let check = |lasted, readings: &[(f64, f64)], mean: Option<f64>| {
            let found = went(lasted, readings).mean_temperature().map(Temperature::celsius);
            let near = found.zip(mean).is_none_or(|(found, mean)| (found - mean).abs() < 1e-9);
            assert!(near && found.is_some() == mean.is_some(), "{readings:?}: {found:?}");
        };
        check(100.0, &[], None);
        check(100.0, &[(40.0, 20.0)], Some(20.0));
        // 20 for 20 s, from there to 22 in 60 s, 22 for 20 s.
        check(100.0, &[(20.0, 20.0), (80.0, 22.0)], Some(21.0));
        check(100.0, &[(80.0, 22.0), (20.0, 20.0)], Some(21.0));
        // 20 for 50 s, from there to 21 at the end: 20.5 on the way there.
        check(100.0, &[(50.0, 20.0), (150.0, 22.0)], Some(20.25));
        check(100.0, &[(150.0, 22.0)], Some(22.0));
        check(0.0, &[(5.0, 22.0)], Some(22.0));
        check(
            60.0,
            &[(10.0, 20.0), (10.0, 22.0)],
            Some((10.0 * 20.0 + 50.0 * 22.0) / 60.0),
        );
    }

    /// Against a sum of ten thousand thin slices, and at the temperature of the rate itself.
    #[test]
    fn what_developing_was_worth() {
        let rate = Rate {
            activation: 80_000.0,
            is_assumed: Some(false),
            at: Temperature::from_celsius(20.0),
            onward: Onward::Held,
        };
        assert!((went(400.0, &[(10.0, 20.0), (300.0, 20.0)]).worth(rate).seconds() - 400.0).abs() < 1e-9);
        let falling = went(600.0, &[(0.0, 24.0), (600.0, 19.0)]);
        let slices = (0..10_000).map(|slice| {
            let kelvins = 273.15 + 24.0 - 5.0 * (f64::from(slice) + 0.5) / 10_000.0;
            0.06 * (80_000.0 / 8.314_462_618 * (1.0 / 293.15 - 1.0 / kelvins)).exp()
        });
        let thin: f64 = slices.sum();
        let worth = falling.worth(rate).seconds();
        assert!((worth / thin - 1.0).abs() < 1e-4, "{worth} {thin}");
    }
}
