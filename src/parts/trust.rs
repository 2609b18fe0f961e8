//! What tests say on the shelf: of the content of a bottle, and how far they let a product be trusted.

use crate::keeping::{Assumptions, Case, Lean, Life, Limits, Tested, Trusted, Verdict, judge, share_used};
use crate::kit::Climate;
use crate::ledger::{self, Bottle, Shelf, TestResult, Thousandths};
use crate::quantity::Day;

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

/// Tests of what is in a bottle, made in it or in those that it was decanted from, the first first.
pub fn tests(shelf: &Shelf, bottle: &Bottle) -> Vec<Tested> {
    shelf.tests_of(bottle).into_iter().rev().filter_map(judged).collect()
}

/// To what multiple of its stated life a bottle's product is trusted: by all tests of its product and class, those of bottles
/// that are gone too. Their lives are measured by what is assumed of this bottle.
pub fn trusted(shelf: &Shelf, bottle: &Bottle, assumptions: &Assumptions, elsewhere: Climate) -> Trusted {
    let (mut passed, mut failed) = (Vec::new(), Vec::new());
    for other in of_product(shelf, bottle) {
        for test in other.telling_tests().filter_map(judged) {
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

/// How many standard uncertainties a strength must be off what is enough, to be so with 95 % certainty.
const SURE: f64 = 1.645;

/// Whether it passed; nothing where what was measured can be on either side of what is enough.
fn judged(test: &ledger::Tested) -> Option<Tested> {
    let (passed, sure) = match test.result {
        TestResult::Passed => (true, true),
        TestResult::Seen => (true, false),
        TestResult::Failed => (false, true),
        TestResult::Strength { strength, uncertainty } => {
            let over = strength.number() - test.test.enough();
            let spread = SURE * uncertainty.map_or(0.0, Thousandths::number);
            match over {
                over if over >= spread => (true, true),
                over if over < -spread => (false, true),
                _ => return None,
            }
        }
    };
    let day = test.day;
    Some(Tested { day, passed, sure })
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
