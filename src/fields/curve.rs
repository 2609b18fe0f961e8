//! The fields of a characteristic curve: the densities of its steps, their exposures, developing times, and what is wanted.

use super::kinds::{Choice, Numbers, Spans};
use super::{Field, Kind};
use crate::proof::MOST_STEPS;
use crate::quantity::{Bounds, Units, bounds, read};

/// A density, or that of base + fog.
const DENSITY: Bounds = Bounds {
    what: "the density",
    least: 0.0,
    most: 5.0,
    why: "no densitometer reads more",
};
/// A decimal logarithm of an exposure.
const EXPOSURE: Bounds = Bounds {
    what: "the log exposure",
    least: -8.0,
    most: 8.0,
    why: "as film is exposed",
};
const STEP_BOUNDS: Bounds = Bounds {
    what: "the step",
    least: 0.02,
    most: 1.0,
    why: "as step wedges are made",
};
const READING_BOUNDS: Bounds = Bounds {
    what: "the error of a reading",
    least: 0.001,
    most: 0.2,
    why: "more would be no reading",
};
const CONTRAST: Bounds = Bounds {
    what: "the contrast",
    least: 0.1,
    most: 5.0,
    why: "as films are developed",
};

/// Which figure is taken for contrast.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ContrastAs {
    /// The steepest slope.
    Gamma,
    /// Over 1.30 from the speed point.
    AverageGradient,
    /// Between the two arcs.
    ContrastIndex,
}

/// Densities of the first film.
pub const STEPS: Field<StepLists> = Field::new("steps", "Densities, least exposure first", StepLists)
    .initial("0.22 0.23 0.24 0.25 0.30 0.36 0.46 0.55 0.66 0.73 0.86 0.95 1.05 1.14 1.24 1.34 1.44 1.53");
/// Log exposure from step to step.
pub const STEP: Field<Numbers> = Field::number("step", "Log exposure of a step", &STEP_BOUNDS).initial("0.15");
/// Developing time of the first film.
pub const DEVELOPED: Field<Spans> = Field::span("time", "Developed for", &bounds::TIME);
/// Densities of the second film.
pub const OTHER: Field<StepLists> = Field::new("other", "Second film, the same steps", StepLists);
/// Developing time of the second film.
pub const OTHER_DEVELOPED: Field<Spans> = Field::span("other_time", "Second film developed for", &bounds::TIME);
/// What is wanted.
pub const WANTED: Field<Numbers> = Field::number("wanted", "Contrast wanted", &CONTRAST);
/// Which contrast that is.
pub const CONTRAST_AS: Field<Choice<ContrastAs>> = Field::new(
    "contrast",
    "Contrast is taken as",
    Choice(&[
        ("gamma", "gamma, the steepest slope", ContrastAs::Gamma),
        ("average", "average gradient", ContrastAs::AverageGradient),
        ("index", "contrast index", ContrastAs::ContrastIndex),
    ]),
)
.starting("gamma");
/// Log exposure of the first step in lx s.
pub const FIRST_EXPOSURE: Field<Numbers> = Field::number("first_exposure", "Log exposure of step 1, lx s", &EXPOSURE);
/// Base + fog of the first film; from the toe where nothing is said.
pub const BASE_FOG: Field<Numbers> = Field::number("base", "Base + fog, read beside", &DENSITY);
/// Base + fog of the second film.
pub const OTHER_BASE_FOG: Field<Numbers> = Field::number("other_base", "Second film, base + fog", &DENSITY);
/// Standard uncertainty of a reading of density.
pub const READING: Field<Numbers> = Field::number("reading", "A reading's standard uncertainty", &READING_BOUNDS);

/// Steps as they were typed.
#[derive(Clone, Debug, PartialEq)]
pub enum TypedSteps {
    /// Densities alone, in the order of exposure.
    Densities(Vec<f64>),
    /// Log exposures, each with its density.
    Pairs(Vec<(f64, f64)>),
}

/// A field for the densities of steps, or for pairs of log exposure and density.
///
/// ```
/// use meniscus::fields::Kind;
/// use meniscus::fields::curve::{StepLists, TypedSteps};
/// use meniscus::quantity::Units;
///
/// let read = |text| StepLists.read(text, Units::default());
/// assert_eq!(read("0.12 0,15\n0.21"), Ok(TypedSteps::Densities(vec![0.12, 0.15, 0.21])));
/// assert_eq!(read("-2.4 0.12\n-2.1 0.15"), Ok(TypedSteps::Pairs(vec![(-2.4, 0.12), (-2.1, 0.15)])));
/// assert_eq!(read("0.12 dense"), Err("step 2: “dense” is not a number".to_owned()));
/// ```
#[derive(Clone, Copy)]
pub struct StepLists;

impl Kind for StepLists {
    type Value = TypedSteps;

    fn read(&self, text: &str, units: Units) -> Result<TypedSteps, String> {
        let words = |line: &str| {
            let words = line
                .split_whitespace()
                .map(|word| word.trim_end_matches(',').to_owned());
            words.filter(|word| !word.is_empty()).collect::<Vec<_>>()
        };
        let lines: Vec<Vec<String>> = text
            .split(['\n', ';'])
            .map(words)
            .filter(|words| !words.is_empty())
            .collect();
        let number = |step: usize, word: &str, bounds| {
            let found = read::number(word, bounds, units);
            found.map_err(|error| format!("step {}: {error}", step + 1))
        };
        let in_pairs = lines.len() > 1 && lines.iter().all(|line| line.len() == 2);
        let count = if in_pairs {
            lines.len()
        } else {
            lines.iter().map(Vec::len).sum()
        };
        if count > MOST_STEPS {
            return Err(format!("a list takes up to {MOST_STEPS} steps"));
        }
        match in_pairs {
            true => {
                let pair = |(step, line): (usize, &Vec<String>)| {
                    Ok((number(step, &line[0], &EXPOSURE)?, number(step, &line[1], &DENSITY)?))
                };
                lines
                    .iter()
                    .enumerate()
                    .map(pair)
                    .collect::<Result<_, String>>()
                    .map(TypedSteps::Pairs)
            }
            false => {
                let all = lines.iter().flatten().enumerate();
                let densities = all.map(|(step, word)| number(step, word, &DENSITY));
                densities.collect::<Result<_, String>>().map(TypedSteps::Densities)
            }
        }
    }

    fn takes(&self, units: Units) -> String {
        let show = |density| units.number(density, 2);
        format!(
            "{} {} {} and so on; or a log exposure and a density a line",
            show(0.12),
            show(0.15),
            show(0.21)
        )
    }
}
