//! A bottle of the shelf, judged from its record; and the shelf in the order of what needs attention.

use crate::darkroom::Darkroom;
use crate::keeping::{
    Assumptions, Case, Lean, Life, Limits, Lives, Reason, State, Tested, Trusted, Verdict, judge, share_used,
};
use crate::kit::Climate;
use crate::ledger::{Bottle, ContentLife, Shelf, TestKind, TestResult};
use crate::quantity::{Day, Temperature};

/// How warm a place is of which nobody noted it (an assumption: a room).
pub const ELSEWHERE: Climate = Climate::Steady(Temperature::from_celsius(20.0));
/// A measured strength below this has failed: a tenth less developer changes contrast by some 3 to 5 % (common practice, no
/// source).
const STRONG_ENOUGH: f64 = 0.9;

/// A bottle and what is to be thought of it.
#[derive(Clone, Debug)]
pub struct Judged<'a> {
    /// The bottle.
    pub bottle: &'a Bottle,
    /// Its state and who says so; `None` where the shelf knows too little of it.
    pub verdict: Option<Verdict>,
}

/// Everything on record that its judgement rests on.
pub struct Record {
    life: ContentLife,
    /// What is assumed of it.
    pub assumptions: Assumptions,
    /// Tests of its content, in this bottle and in those that it was decanted from.
    pub tests: Vec<Tested>,
    /// How far its product is trusted.
    pub trusted: Trusted,
}

impl Record {
    /// The record of a bottle; `None` where the shelf knows too little of it, or it is empty.
    pub fn of(shelf: &Shelf, bottle: &Bottle) -> Option<Self> {
        let life = shelf.life(bottle.id.as_str(), ELSEWHERE)?;
        Some(Self {
            life,
            assumptions: assumptions(bottle),
            tests: tests(shelf, bottle),
            trusted: trusted(shelf, &bottle.is.label.product),
        })
    }

    /// Its life until today.
    pub fn life(&self) -> Option<Life<'_>> {
        self.life.life().ok()
    }

    /// Its state and who says so.
    pub fn verdict(&self, limits: &Limits) -> Option<Verdict> {
        let life = self.life()?;
        Some(judge(&Case {
            life: &life,
            assumptions: &self.assumptions,
            tests: &self.tests,
            trusted: self.trusted,
            limits,
        }))
    }
}

impl Judged<'_> {
    /// Its state.
    pub fn state(&self) -> State {
        self.verdict.as_ref().map_or(State::Unknown, |verdict| verdict.state)
    }

    /// What decides it, and who says so.
    pub fn deciding(&self) -> Vec<&Reason> {
        self.verdict.as_ref().map(Verdict::deciding).unwrap_or_default()
    }

    /// How soon it wants to be looked at: the least first.
    fn rank(&self) -> u8 {
        match self.state() {
            _ if self.bottle.is_empty() => 5,
            State::TestFirst => 0,
            State::Failed => 1,
            State::Unknown => 2,
            State::InDate => 3,
            State::Proved => 4,
        }
    }
}

/// The bottles that stand on the shelf, what needs attention first; among equals in the order in which they came.
pub fn bottles(darkroom: &Darkroom) -> Vec<Judged<'_>> {
    let shelf = &darkroom.shelf;
    let limits = Limits::default();
    let judge = |bottle| Judged {
        bottle,
        verdict: Record::of(shelf, bottle).and_then(|record| record.verdict(&limits)),
    };
    let mut all: Vec<Judged> = Vec::new();
    for judged in shelf.standing().map(judge) {
        let at = all.partition_point(|other| other.rank() <= judged.rank());
        all.insert(at, judged);
    }
    all
}

/// What is assumed of the content of a bottle, with the lives that its data sheet states.
fn assumptions(bottle: &Bottle) -> Assumptions {
    let class = bottle.is.label.class;
    let assumptions = Assumptions::of_class(class);
    match Lives::new(bottle.is.lives, class) {
        Ok(Some(lives)) => assumptions.with_lives(Some(lives)),
        _ => assumptions,
    }
}

fn tests(shelf: &Shelf, bottle: &Bottle) -> Vec<Tested> {
    let mut tests = own_tests(bottle);
    let content = shelf.content_life(bottle.id.as_str());
    let before = content.iter().filter(|(stood_in, _)| stood_in.id != bottle.id);
    let mut known: Vec<&str> = Vec::new();
    for (stood_in, _) in before {
        if known.contains(&stood_in.id.as_str()) {
            continue;
        }
        known.push(stood_in.id.as_str());
        tests.extend(own_tests(stood_in).into_iter().filter(|test| test.day <= bottle.since));
    }
    tests
}

fn own_tests(bottle: &Bottle) -> Vec<Tested> {
    let of_the_bath = bottle
        .tests
        .iter()
        .filter(|tested| tested.test != TestKind::ResidualThiosulfate);
    let test = |tested: &crate::ledger::Tested| Tested {
        day: tested.day,
        passed: match tested.result {
            TestResult::Passed => true,
            TestResult::Failed => false,
            TestResult::Strength { strength, .. } => strength.number() >= STRONG_ENOUGH,
        },
    };
    of_the_bath.map(test).collect()
}

/// From every test on every bottle of the product, those that are gone too.
fn trusted(shelf: &Shelf, product: &str) -> Trusted {
    let (mut passed, mut failed) = (Vec::new(), Vec::new());
    for bottle in shelf.bottles.iter().filter(|bottle| bottle.is.label.product == product) {
        for test in own_tests(bottle) {
            if let Some(share) = share_at(shelf, bottle, test.day) {
                let list = if test.passed { &mut passed } else { &mut failed };
                list.push(share);
            }
        }
    }
    Trusted::from_tests(&passed, &failed)
}

/// The multiple of its stated life that a bottle had used on a day.
fn share_at(shelf: &Shelf, bottle: &Bottle, day: Day) -> Option<f64> {
    let content = shelf.life(bottle.id.as_str(), ELSEWHERE)?;
    let life = content.life().ok()?;
    let assumptions = assumptions(bottle);
    let used = |since| share_used(&life, &assumptions, &Lean::USUAL, since);
    Some(used(None)? - used(Some(day))?)
}
