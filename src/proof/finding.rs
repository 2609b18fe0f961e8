//! What a test found: of which kind it was, and what it says of the bottle that was tested.

use crate::chemistry::Class;

/// What a test says of what is in a bottle.
#[derive(Clone, Debug, PartialEq)]
pub struct Finding {
    /// Which test it was.
    pub test: TestKind,
    /// What it showed.
    pub outcome: Outcome,
    /// The figures behind it, in a few words; may be empty.
    pub remark: String,
}

/// What a test showed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Outcome {
    /// As it should be.
    Passed,
    /// As it should be, by eye alone, which finds only gross faults.
    Seen,
    /// Not as it should be.
    Failed,
    /// So strong against fresh.
    Strength {
        /// 1 is as strong as fresh.
        strength: f64,
        /// Its standard uncertainty.
        uncertainty: f64,
    },
}

/// A test on a solution.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TestKind {
    /// A clip of film in the developer.
    Clip,
    /// The time in which a leader clears in the fixer.
    Clearing,
    /// The colour or the pH of a stop bath.
    Indicator,
    /// A spot test for silver that the fixer left.
    ResidualSilver,
    /// A spot test for thiosulfate that the wash left.
    ResidualThiosulfate,
    /// Two strips or negatives side by side.
    Comparison,
    /// Another test.
    Other,
}

impl TestKind {
    /// Every test, with its name.
    pub const ALL: [(&'static str, Self); 7] = [
        ("clip test", Self::Clip),
        ("clearing test", Self::Clearing),
        ("indicator test", Self::Indicator),
        ("residual silver test", Self::ResidualSilver),
        ("residual thiosulfate test", Self::ResidualThiosulfate),
        ("comparison", Self::Comparison),
        ("test", Self::Other),
    ];

    /// Whether it says anything of a solution of that class.
    pub fn is_for(self, class: Class) -> bool {
        match self {
            Self::Clip | Self::Comparison => class.is_developer(),
            Self::Clearing | Self::ResidualSilver => class == Class::Fixer,
            Self::Indicator => class == Class::StopBath,
            Self::ResidualThiosulfate | Self::Other => true,
        }
    }

    /// Its name for people.
    pub fn name(self) -> &'static str {
        Self::ALL[self as usize].0
    }

    /// From this strength on, of 1 for fresh, a measured test has passed. A tenth less developer changes contrast by some 3 to
    /// 5 % (common practice, no source); a fixer is spent when clearing takes twice as long (NAVEDTRA 14209, chapter 10).
    pub fn enough(self) -> f64 {
        match self {
            Self::Clearing => 0.5,
            _ => 0.9,
        }
    }
}
