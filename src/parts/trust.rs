//! What tests say on the shelf: of the content of a bottle, and how far they let a product be trusted.

use crate::keeping::{Assumptions, Case, Lean, Life, Limits, Tested, Trusted, Verdict, judge, share_used};
use crate::kit::Climate;
use crate::ledger::{self, Bottle, Shelf, TestResult};
use crate::proof::TestKind;
use crate::quantity::Day;

/// From this strength on, of 1 for fresh, a measured test has passed: a tenth less developer changes contrast by some 3 to 5 %
/// (common practice, no source).
pub(super) const STRONG_ENOUGH: f64 = 0.9;

/// What a bottle is judged on, besides its life and what is assumed of it.
pub struct Grounds {
    /// Tests of its content, in any order.
    pub tests: Vec<Tested>,
    /// How far its product is trusted.
    pub trusted: Trusted,
    /// From where on a voice asks.
    pub limits: Limits,
}

impl Grounds {
    /// No test, and the usual limits.
    pub fn nothing() -> Self {
        Self {
            tests: Vec::new(),
            trusted: Trusted::STATED,
            limits: Limits::default(),
        }
    }

    /// What the shelf says of a bottle, with the usual limits. Where nobody noted how warm a place is, `elsewhere` is taken.
    pub fn on_shelf(shelf: &Shelf, bottle: &Bottle, assumptions: &Assumptions, elsewhere: Climate) -> Self {
        Self {
            tests: tests(shelf, bottle),
            trusted: trusted(shelf, bottle, assumptions, elsewhere),
            ..Self::nothing()
        }
    }

    /// The bottle as it is judged.
    pub fn case<'a>(&'a self, life: &'a Life<'a>, assumptions: &'a Assumptions) -> Case<'a> {
        Case {
            life,
            assumptions,
            tests: &self.tests,
            trusted: self.trusted,
            limits: &self.limits,
        }
    }

    /// Its state and who says so.
    pub fn verdict(&self, life: &Life, assumptions: &Assumptions) -> Verdict {
        judge(&self.case(life, assumptions))
    }
}

/// Tests of what is in a bottle, made in it or in those that it was decanted from.
pub fn tests(shelf: &Shelf, bottle: &Bottle) -> Vec<Tested> {
    let mut all: Vec<Tested> = own_tests(bottle).map(judged).collect();
    let mut stood_in = bottle;
    while let Some(before) = shelf.decanted_from(stood_in) {
        // A test of what stayed behind says nothing of what was poured off before it.
        let poured = stood_in.from.first().map(|source| shelf.position(source.event));
        let earlier = |test: &&ledger::Tested| Some(shelf.position(test.event)) < poured;
        all.extend(own_tests(before).filter(earlier).map(judged));
        stood_in = before;
    }
    all
}

/// To what multiple of its stated life a bottle's product is trusted: by all tests of its product and class, those of bottles
/// that are gone too. Their lives are measured by what is assumed of this bottle.
pub fn trusted(shelf: &Shelf, bottle: &Bottle, assumptions: &Assumptions, elsewhere: Climate) -> Trusted {
    let (mut passed, mut failed) = (Vec::new(), Vec::new());
    for other in of_product(shelf, bottle) {
        for test in own_tests(other).map(judged) {
            if let Some(share) = share_at(shelf, other, test.day, assumptions, elsewhere) {
                let list = if test.passed { &mut passed } else { &mut failed };
                list.push(share);
            }
        }
    }
    Trusted::from_tests(&passed, &failed)
}

/// The bottles of the same product and class, gone or not, itself among them.
pub fn of_product<'a>(shelf: &'a Shelf, bottle: &'a Bottle) -> impl Iterator<Item = &'a Bottle> {
    let label = &bottle.is.label;
    let same = move |other: &&Bottle| other.is.label.product == label.product && other.is.label.class == label.class;
    shelf.bottles.iter().filter(same)
}

/// The tests made in a bottle that say something of its content; what a wash left in film says nothing.
fn own_tests(bottle: &Bottle) -> impl Iterator<Item = &ledger::Tested> {
    let tests = bottle.tests.iter();
    tests.filter(|test| test.test != TestKind::ResidualThiosulfate)
}

/// Whether it passed.
fn judged(test: &ledger::Tested) -> Tested {
    Tested {
        day: test.day,
        passed: match test.result {
            TestResult::Passed => true,
            TestResult::Failed => false,
            TestResult::Strength { strength, .. } => strength.number() >= STRONG_ENOUGH,
        },
    }
}

/// The multiple of its stated life that a bottle's content had used on a day.
fn share_at(shelf: &Shelf, bottle: &Bottle, day: Day, assumptions: &Assumptions, elsewhere: Climate) -> Option<f64> {
    let id = bottle.id.as_str();
    // On the day on which it came it may have been open for years.
    let told = shelf
        .life_until(id, day, elsewhere)
        .or_else(|| shelf.life(id, elsewhere))?;
    share_used(&told.life().ok()?.until(day), assumptions, &Lean::USUAL, None)
}
