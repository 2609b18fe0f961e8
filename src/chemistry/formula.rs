//! Published formulas, by what the literature calls them: grams to the litre of stock, in the order of dissolving.

use super::{Class, Reserve, Substance};
use crate::quantity::{Amount, Mass, Volume};

/// A published formula.
///
/// ```
/// use meniscus::chemistry::Formula;
/// use meniscus::quantity::Volume;
///
/// let stock = Formula::find("mq-borax").expect("it is published");
/// let hydroquinone = stock.weights(Volume::from_millilitres(600.0))[2];
/// assert_eq!((hydroquinone.0.name, hydroquinone.1.grams()), ("hydroquinone", 3.0));
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Formula {
    /// Word in forms and files.
    pub word: &'static str,
    /// What the literature calls it.
    pub name: &'static str,
    /// Where it was published.
    pub source: &'static str,
    /// How well its figures are known here.
    pub known: Known,
    /// What it makes.
    pub class: Class,
    /// Grams of each to the litre, in the order of dissolving: metol before sulfite, in which it dissolves badly
    /// (common practice, no source).
    pub grams_per_litre: &'static [(Substance, f64)],
}

/// How well the figures of a formula are known.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Known {
    /// They were read in the source.
    Read,
    /// They are from memory, and every digit is certain.
    VerySure,
    /// They are from memory, and the values are likely.
    Sure,
}

impl Known {
    /// As a sentence for the user.
    pub fn sentence(self) -> &'static str {
        match self {
            Self::Read => "Its figures were read in that source.",
            Self::VerySure => "Its figures are from memory, each of them very sure.",
            Self::Sure => {
                "Its figures are from memory, and likely: compare them with a book before a bath that matters."
            }
        }
    }
}

impl Formula {
    /// Every published formula that is known here.
    pub const ALL: [Self; 8] = [
        Self {
            word: "mq-borax",
            name: "MQ borax, fine grain",
            source: "Carlton and Crabtree, Transactions of the SMPE, 1929",
            known: Known::VerySure,
            class: Class::PowderStock,
            grams_per_litre: &[
                (Substance::METOL, 2.0),
                (Substance::SULFITE, 100.0),
                (Substance::HYDROQUINONE, 5.0),
                (Substance::BORAX, 2.0),
            ],
        },
        Self {
            word: "mq-borax-buffered",
            name: "MQ borax, buffered",
            source: "Common in the literature",
            known: Known::Sure,
            class: Class::PowderStock,
            grams_per_litre: &[
                (Substance::METOL, 2.0),
                (Substance::SULFITE, 100.0),
                (Substance::HYDROQUINONE, 5.0),
                (Substance::BORAX, 8.0),
                (Substance::BORIC_ACID, 8.0),
            ],
        },
        Self {
            word: "metol-sulfite",
            name: "metol and sulfite, single agent",
            source: "published 1944",
            known: Known::VerySure,
            class: Class::PowderStock,
            grams_per_litre: &[(Substance::METOL, 7.5), (Substance::SULFITE, 100.0)],
        },
        Self {
            word: "metol-bisulfite",
            name: "metol, sulfite and bisulfite, extra fine grain",
            source: "Common in the literature",
            known: Known::VerySure,
            class: Class::PowderStock,
            grams_per_litre: &[
                (Substance::METOL, 7.5),
                (Substance::SULFITE, 100.0),
                (Substance::BISULFITE, 15.0),
            ],
        },
        Self {
            word: "mq-carbonate",
            name: "MQ carbonate, print and press",
            source: "Common in the literature",
            known: Known::VerySure,
            class: Class::PowderStock,
            grams_per_litre: &[
                (Substance::METOL, 3.0),
                (Substance::SULFITE, 45.0),
                (Substance::HYDROQUINONE, 12.0),
                (Substance::CARBONATE, 67.5),
                (Substance::BROMIDE, 2.0),
            ],
        },
        Self {
            word: "mq-1900",
            name: "MQ potash, about 1900",
            source: "The Barnet book of photography, about 1900",
            known: Known::Read,
            class: Class::PowderStock,
            grams_per_litre: &[
                (Substance::METOL, 6.0),
                (Substance::SULFITE_HEPTAHYDRATE, 75.0),
                (Substance::HYDROQUINONE, 4.0),
                (Substance::POTASSIUM_CARBONATE, 25.0),
                (Substance::BROMIDE, 1.5),
            ],
        },
        Self {
            word: "citric-stop",
            name: "acid stop, citric",
            source: "Anchell, The Darkroom Cookbook, 3rd ed., p. 268",
            known: Known::Read,
            class: Class::StopBath,
            grams_per_litre: &[(Substance::CITRIC_ACID, 15.0)],
        },
        Self {
            word: "plain-hypo",
            name: "plain hypo, 25 %",
            source: "Jones, Cyclopaedia of Photography, 1911, Fixing",
            known: Known::Read,
            class: Class::Fixer,
            grams_per_litre: &[(Substance::HYPO, 250.0)],
        },
    ];

    /// The formula of that word.
    pub fn find(word: &str) -> Option<&'static Self> {
        const ALL: &[Formula] = &Formula::ALL;
        ALL.iter().find(|formula| formula.word == word)
    }

    /// What to weigh for a volume of stock, in the order of dissolving.
    pub fn weights(&self, stock: Volume) -> Vec<(Substance, Mass)> {
        let litres = stock.millilitres() / 1000.0;
        self.grams_per_litre
            .iter()
            .map(|&(substance, grams)| (substance, Mass::from_grams(grams * litres)))
            .collect()
    }

    /// What the fresh stock holds against the air.
    pub fn reserve(&self) -> Reserve {
        let litre = self.weights(Volume::from_millilitres(1000.0));
        let sum = |of: fn(&Substance, Mass) -> Amount| {
            let all: Amount = litre.iter().map(|(substance, mass)| of(substance, *mass)).sum();
            all.millimoles() / 1000.0
        };
        Reserve {
            agent: sum(Substance::agent),
            sulfite: sum(Substance::sulfite),
        }
    }
}
