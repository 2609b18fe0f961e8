//! Classes of solution, as a user can tell them by looking, and the assumptions that go with each.

/// A class of solution.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Class {
    /// A thick concentrate, mostly without water.
    Syrup,
    /// A thin concentrate in water.
    LiquidConcentrate,
    /// A stock made from powder.
    PowderStock,
    /// A developer at the strength of use.
    WorkingDeveloper,
    /// A stop bath.
    StopBath,
    /// A fixer.
    Fixer,
    /// Anything else: wash aid, wetting agent, toner.
    Other,
}

/// A number that nobody measured: what is taken, and the range it lies in.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Guess {
    /// What is taken.
    pub value: f64,
    /// The least that it may be.
    pub least: f64,
    /// The most that it may be.
    pub most: f64,
    /// Why.
    pub why: &'static str,
}

impl Class {
    /// Every class, with its word in forms and files, and its name.
    pub const ALL: [(&'static str, &'static str, Self); 7] = [
        ("syrup", "developer, syrup concentrate", Self::Syrup),
        ("liquid", "developer, liquid concentrate", Self::LiquidConcentrate),
        ("powder", "developer, stock from powder", Self::PowderStock),
        ("working", "developer, ready to use", Self::WorkingDeveloper),
        ("stop", "stop bath", Self::StopBath),
        ("fixer", "fixer", Self::Fixer),
        ("other", "another bath", Self::Other),
    ];

    /// Whether its strength shows in the contrast of the negative.
    pub fn is_developer(self) -> bool {
        !matches!(self, Self::StopBath | Self::Fixer | Self::Other)
    }

    /// Its name for people.
    pub fn name(self) -> &'static str {
        Self::ALL[self as usize].1
    }

    /// How the rate of development follows the concentration: the exponent n of C^n. Dissolved oxygen in the water and a
    /// falling pH make thin baths slower than in proportion to their time, others follow less than in proportion
    /// (common practice, no source).
    pub fn exponent(self) -> Guess {
        match self {
            Self::PowderStock | Self::WorkingDeveloper => Guess {
                value: 0.65,
                least: 0.5,
                most: 0.9,
                why: "well buffered developers lose less than in proportion when thinned",
            },
            _ => Guess {
                value: 0.75,
                least: 0.5,
                most: 1.0,
                why: "between a half and in proportion, for developers in use",
            },
        }
    }

    /// How much faster development is at 30 °C than at 20 °C. Two official tables for one job differ from 1.9 to
    /// 3.8 (USAF T.O. 33B-1-1 table 6-16; North Dakota Administrative Code 33.1-10-06 appendix D).
    pub fn q10(self) -> Guess {
        Guess {
            value: 2.5,
            least: 1.9,
            most: 3.8,
            why: "official tables for one and the same job differ from 1.9 to 3.8",
        }
    }
}

/// How far development usually goes, x = k t of the first-order law: the range of ordinary negatives.
pub const PROGRESS: Guess = Guess {
    value: 1.0,
    least: 0.7,
    most: 1.5,
    why: "ordinary contrast is reached between 50 % and 78 % of the most a film can give",
};
