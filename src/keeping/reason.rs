//! What each voice says of a bottle, as figures, and as a sentence.

use super::Ranged;
use crate::kit::container::HOT;
use crate::quantity::{Day, Temperature, Units};

/// Who speaks.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Voice {
    /// What the air could have done.
    Air,
    /// What the data sheet says, or what is assumed in its place.
    Sheet,
    /// What tests have shown.
    Tests,
}

/// What a voice says.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Reason {
    /// Nothing in it is known to suffer from air.
    NoReserve,
    /// The air could have done little, or enough to ask for a test.
    Air {
        /// Share of the developing agent that it could have cost.
        agent: Option<Ranged<f64>>,
        /// Share of the preservative that it has used.
        sulfite: Option<Ranged<f64>>,
        /// Whether it asks for a test.
        asks: bool,
    },
    /// No life is stated, and none can be assumed.
    NoLife,
    /// Part of the stated life, or more than all of it, is used.
    Life {
        /// As a multiple of it.
        share: Ranged<f64>,
        /// To what multiple the product is trusted.
        trusted: f64,
        /// Whether any stated life is only assumed.
        assumed: bool,
        /// Whether it asks for a test.
        asks: bool,
    },
    /// It stood in the heat for so many days, and asks for a test.
    Heat {
        /// Days hotter than 25 °C.
        days: f64,
    },
    /// No test was made.
    NoTest,
    /// A test that still proves it.
    Proof {
        /// When.
        day: Day,
        /// How many days ago.
        ago: i32,
        /// Whether it could have found more than gross weakness.
        sure: bool,
    },
    /// A passed test that no longer proves it.
    OldProof {
        /// When.
        day: Day,
        /// Why not.
        stale: Stale,
    },
    /// It failed its last test.
    Failure {
        /// When.
        day: Day,
    },
}

/// Why a passed test no longer proves a bottle.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Stale {
    /// So many days ago.
    LongAgo(i32),
    /// It has met much air since; the share of the agent, or else of the preservative, that this could have cost.
    Air(f64),
    /// It has used this share of its stated life since.
    Life(f64),
}

impl Reason {
    /// Who says it.
    pub fn voice(&self) -> Voice {
        match self {
            Self::NoReserve | Self::Air { .. } => Voice::Air,
            Self::NoLife | Self::Life { .. } | Self::Heat { .. } => Voice::Sheet,
            Self::NoTest | Self::Proof { .. } | Self::OldProof { .. } | Self::Failure { .. } => Voice::Tests,
        }
    }

    /// Whether it asks for a test.
    pub fn asks(&self) -> bool {
        match self {
            Self::Air { asks, .. } | Self::Life { asks, .. } => *asks,
            Self::Heat { .. } => true,
            _ => false,
        }
    }

    /// In a sentence.
    pub fn sentence(&self, units: Units) -> String {
        match *self {
            Self::NoReserve => "Nothing in it is known to suffer from the air.".to_owned(),
            Self::Air { agent, sulfite, asks } => air(agent, sulfite, asks, units),
            Self::NoLife => {
                "How long it keeps is not stated, and for this kind of bath nothing can be assumed.".to_owned()
            }
            Self::Life {
                share,
                trusted,
                assumed,
                asks,
            } => life(share, trusted, assumed, asks, units),
            Self::Heat { days } => format!(
                "It has stood hotter than {} for {}: test it, and find it a cooler place.",
                units.temperature(Temperature::from_celsius(HOT)),
                units.period(days.round())
            ),
            Self::NoTest => "No test of it is on record.".to_owned(),
            Self::Proof { day, ago, sure: true } => format!(
                "It passed a test on {day}, {}, and nothing large has happened since.",
                days_ago(ago, units)
            ),
            Self::Proof { day, ago, sure: false } => format!(
                "It looked sound on {day}, {}. The eye finds only gross weakness: for paid work, measure it.",
                days_ago(ago, units)
            ),
            Self::OldProof { day, stale } => format!("It passed a test on {day}, but {}.", old(stale, units)),
            Self::Failure { day } => {
                format!(
                    "It failed a test on {day}: not for film. Take fresh, or test it again; only a later test that passes overrules that."
                )
            }
        }
    }
}

fn air(agent: Option<Ranged<f64>>, sulfite: Option<Ranged<f64>>, asks: bool, units: Units) -> String {
    let cost = agent.map(|agent| {
        format!(
            "could have cost {} of its developing agent, at most {}",
            units.percent(agent.value),
            units.percent(agent.most)
        )
    });
    let used = sulfite.map(|sulfite| format!("has used at least {} of its preservative", units.percent(sulfite.least)));
    let both: Vec<String> = cost.into_iter().chain(used).collect();
    let advice = if asks { ": let a test say how strong it is" } else { "" };
    format!("The air {}{advice}.", both.join(", and "))
}

fn life(share: Ranged<f64>, trusted: f64, assumed: bool, asks: bool, units: Units) -> String {
    let whose = if assumed { "assumed" } else { "stated" };
    if !asks {
        let more = match share.value > 1.0 {
            true => format!(
                ", which your tests of this product allow up to {} times",
                units.number(trusted, 1)
            ),
            false => String::new(),
        };
        return format!("It has used {} of its {whose} life{more}.", units.percent(share.value));
    }
    let beyond = match trusted {
        more if more > 1.0 => format!(
            ", and your tests of this product reach to {} times",
            units.number(more, 1)
        ),
        less if less < 1.0 => format!(
            ", and one of this product failed soon after {} of it",
            units.percent(less)
        ),
        _ => String::new(),
    };
    format!(
        "It stands at {} times its {whose} life{beyond}. Age proves nothing: a test does.",
        units.number(share.value, 1)
    )
}

fn old(stale: Stale, units: Units) -> String {
    match stale {
        Stale::LongAgo(days) => format!("that is {}", days_ago(days, units)),
        Stale::Air(share) => format!("the air could have cost {} of it since", units.percent(share)),
        Stale::Life(share) => format!("{} of its stated life has gone by since", units.percent(share)),
    }
}

fn days_ago(days: i32, units: Units) -> String {
    match days {
        0 => "today".to_owned(),
        1 => "yesterday".to_owned(),
        days => format!("{} ago", units.period(f64::from(days))),
    }
}
