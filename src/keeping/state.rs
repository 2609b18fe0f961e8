//! The state of a bottle, from all three voices.

use super::{Assumptions, Exposure, Lean, Life, Ranged, Reason, Stale, Tested, Trusted, Voice};
use super::{air, exposure, share_used, stated};
use crate::chemistry::Guess;
use crate::development::Parameter;
use crate::quantity::Day;

/// What may be done with a bottle. There is no state for age alone.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum State {
    /// Within its stated life, and no voice asks for more.
    InDate,
    /// A voice asks for a test before use.
    TestFirst,
    /// A recent test passed, and nothing large has happened since.
    Proved,
    /// Its last test failed.
    Failed,
    /// Too little is known to say.
    Unknown,
}

/// From where on a voice asks for a test, and how long a test proves a bottle; every one may be changed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Limits {
    /// Share of the agent that the air could have cost.
    pub agent: Parameter,
    /// Share of the preservative that the air has used.
    pub sulfite: Parameter,
    /// Days hotter than 25 °C.
    pub hot_days: Parameter,
    /// Days that a passed test proves a bottle at the most.
    pub recent_days: Parameter,
    /// Share of the stated life that may go by after a test.
    pub life_since: Parameter,
    /// Share of the first two limits that the air may take up after a test.
    pub air_since: Parameter,
}

impl Default for Limits {
    fn default() -> Self {
        let assumed = |value, least, most, why| {
            Parameter::given_or(
                None,
                Guess {
                    value,
                    least,
                    most,
                    why,
                },
            )
        };
        Self {
            agent: assumed(
                0.2,
                0.1,
                0.4,
                "a fifth less developer changes contrast by 5 to 10 %, which can be seen",
            ),
            sulfite: assumed(
                0.5,
                0.3,
                0.8,
                "a solution browns and falls fast once its preservative runs low",
            ),
            hot_days: assumed(30.0, 7.0, 90.0, "a few hot days are nothing, a hot month is"),
            recent_days: assumed(
                92.0,
                30.0,
                183.0,
                "a rule for X-ray departments lets no bath work longer than three months (NM 20.3.6.612)",
            ),
            life_since: assumed(0.25, 0.1, 0.5, "a quarter of a life later it is another bottle"),
            air_since: assumed(0.5, 0.25, 1.0, "half of what would ask for a test"),
        }
    }
}

/// A bottle to be judged.
#[derive(Clone, Copy, Debug)]
pub struct Case<'a> {
    /// Its life, told up to today.
    pub life: &'a Life<'a>,
    /// What is assumed of it.
    pub assumptions: &'a Assumptions,
    /// Tests of this very bottle, in any order.
    pub tests: &'a [Tested],
    /// How far its product is trusted.
    pub trusted: Trusted,
    /// From where on a voice asks.
    pub limits: &'a Limits,
}

/// A state and who says so.
#[derive(Clone, Debug, PartialEq)]
pub struct Verdict {
    /// What may be done with it.
    pub state: State,
    /// What each voice says: the air, the sheet (once more where it stood in the heat), the tests.
    pub reasons: Vec<Reason>,
    /// Whether it may be used for paid work: proved, and not by eye alone; or in date with all voices quiet even where the assumptions are at
    /// their worst, and within the stated life itself, however far tests would stretch it.
    pub paid: bool,
    /// What the air could have done.
    pub air: Ranged<Exposure>,
    /// Multiple of the stated life used.
    pub share: Option<Ranged<f64>>,
}

impl State {
    /// Every state, with its word in forms and files, and its name.
    pub const ALL: [(&'static str, &'static str, Self); 5] = [
        ("in-date", "in date", Self::InDate),
        ("test-first", "test first", Self::TestFirst),
        ("proved", "proved", Self::Proved),
        ("failed", "failed", Self::Failed),
        ("unknown", "unknown", Self::Unknown),
    ];

    /// Its name for people.
    pub fn name(self) -> &'static str {
        Self::ALL[self as usize].1
    }
}

impl Verdict {
    /// The reasons that decide the state: those that ask for a test, the test that proves or fails it, or all of them.
    pub fn deciding(&self) -> Vec<&Reason> {
        let decides = |reason: &&Reason| match self.state {
            State::TestFirst => reason.asks(),
            State::Proved | State::Failed => reason.voice() == Voice::Tests,
            State::Unknown => matches!(reason, Reason::NoLife),
            State::InDate => reason.voice() == Voice::Sheet,
        };
        self.reasons.iter().filter(decides).collect()
    }
}

/// The state of a bottle: a failed test fails it; a passed one proves it while recent; else any voice may ask for a
/// test; and without a life to measure by it is unknown.
pub fn judge(case: &Case) -> Verdict {
    let air = air(case.life, case.assumptions);
    let share = stated(case.life, case.assumptions);
    let tests = tests(case);
    let reasons: Vec<Reason> = [air_reason(&air, case.limits), life_reason(share, case)]
        .into_iter()
        .chain(heat(case))
        .chain([tests])
        .collect();
    let state = match tests {
        Reason::Failure { .. } => State::Failed,
        Reason::Proof { .. } => State::Proved,
        _ if reasons.iter().any(Reason::asks) => State::TestFirst,
        _ if share.is_none() => State::Unknown,
        _ => State::InDate,
    };
    let paid = match state {
        State::Proved => matches!(tests, Reason::Proof { sure: true, .. }),
        State::InDate => {
            let limits = case.limits;
            let quiet = |most: Option<f64>, limit: Parameter| most.is_none_or(|most| most <= limit.value);
            share.is_some_and(|share| share.most <= case.trusted.share.min(1.0))
                && quiet(air.most.agent, limits.agent)
                && quiet(air.most.sulfite, limits.sulfite)
        }
        _ => false,
    };
    Verdict {
        state,
        reasons,
        paid,
        air,
        share,
    }
}

/// The test of a bottle, up to its today, that speaks for it: the last sure one; but where that is a pass that proves it no longer,
/// or there is none, the last one by eye since. Of two on one day the later in the list.
pub(super) fn last_test(case: &Case) -> Option<Tested> {
    let today = case.life.today();
    let last = |sure: bool| {
        let known = case.tests.iter().filter(|test| test.day <= today && test.sure == sure);
        known.max_by_key(|test| test.day).copied()
    };
    let (sure, seen) = (last(true), last(false));
    let Some(sure) = sure else { return seen };
    let fades = |test: &Tested| stale(case, test.day, today - test.day).is_some();
    let later = seen.filter(|seen| seen.day >= sure.day && sure.passed && fades(&sure));
    Some(later.unwrap_or(sure))
}

fn tests(case: &Case) -> Reason {
    let Some(Tested { day, passed, sure }) = last_test(case) else {
        return Reason::NoTest;
    };
    if !passed {
        return Reason::Failure { day };
    }
    let ago = case.life.today() - day;
    let stale = stale(case, day, ago);
    stale.map_or(Reason::Proof { day, ago, sure }, |stale| Reason::OldProof {
        day,
        stale,
    })
}

fn stale(case: &Case, day: Day, ago: i32) -> Option<Stale> {
    let limits = case.limits;
    if f64::from(ago) > limits.recent_days.value {
        return Some(Stale::LongAgo(ago));
    }
    let since = exposure(case.life, case.assumptions, &Lean::USUAL, Some(day));
    let large = |used: Option<f64>, limit: Parameter| used.filter(|used| *used > limit.value * limits.air_since.value);
    if let Some(share) = large(since.agent, limits.agent).or(large(since.sulfite, limits.sulfite)) {
        return Some(Stale::Air(share));
    }
    let gone = share_used(case.life, case.assumptions, &Lean::USUAL, Some(day))?;
    (gone > limits.life_since.value).then_some(Stale::Life(gone))
}

fn air_reason(air: &Ranged<Exposure>, limits: &Limits) -> Reason {
    let agent = air.map_some(|exposure| exposure.agent);
    let sulfite = air.map_some(|exposure| exposure.sulfite);
    if agent.is_none() && sulfite.is_none() {
        return Reason::NoReserve;
    }
    let over = |used: Option<Ranged<f64>>, limit: Parameter| used.is_some_and(|used| used.value > limit.value);
    Reason::Air {
        agent,
        sulfite,
        asks: over(agent, limits.agent) || over(sulfite, limits.sulfite),
    }
}

fn life_reason(share: Option<Ranged<f64>>, case: &Case) -> Reason {
    let Some(share) = share else {
        return Reason::NoLife;
    };
    Reason::Life {
        share,
        trusted: case.trusted.share,
        assumed: case.assumptions.lives.is_some_and(|lives| lives.assumed()),
        asks: share.value > case.trusted.share,
    }
}

fn heat(case: &Case) -> Option<Reason> {
    let stretches = case.life.stretches().iter();
    let days: f64 = stretches
        .map(|stretch| stretch.climate.hot_days(stretch.from, stretch.to))
        .sum();
    (days > case.limits.hot_days.value).then_some(Reason::Heat { days })
}
