//! A characteristic curve, or two: what was typed, the figures of each film, and what the two say of each other.

mod developing;
mod films;

use crate::chemistry::{Guess, PROGRESS};
use crate::development::Parameter;
use crate::fields::curve::{
    BASE_FOG, CONTRAST_AS, ContrastAs, DEVELOPED, FIRST_EXPOSURE, OTHER, OTHER_BASE_FOG, OTHER_DEVELOPED, READING,
    STEP, STEPS, TypedSteps, WANTED,
};
use crate::fields::{self, Form};
use crate::kit::House;
use crate::proof::{CharacteristicCurve, CurveError, FEWEST_STEPS, ReadOff, check_steps};
use crate::quantity::{Span, Units};
use crate::sheet::{Figure, Sheet, Text};

/// How well a density is read.
const READ: Guess = Guess {
    value: 0.02,
    least: 0.01,
    most: 0.05,
    why: "a good densitometer repeats to 0.01, a scanner or a meter at an enlarger to 0.05 (common practice, no source); the ± go \
          with it",
};

/// One film.
struct Film {
    steps: Vec<(f64, f64)>,
    curve: CharacteristicCurve,
    time: Option<Span>,
    /// How many steps were left out, from the first that falls on.
    left_out: usize,
    /// Whether base + fog was read by itself.
    base_read: bool,
}

/// One film or two, and what is wanted.
pub struct Curves {
    first: Option<Film>,
    other: Option<Film>,
    reading: Parameter,
    progress: Parameter,
    wanted: Option<f64>,
    contrast_as: ContrastAs,
    /// Whether exposures are in lx s.
    absolute: bool,
    /// What a hand repeats contrast to, among others.
    house: House,
}

impl Curves {
    /// Reads the form; whatever is wrong with a film is a fault of its field, and the other still stands.
    pub fn read(form: &mut Form, house: &House) -> Self {
        let typed = form.read(&STEPS);
        let step = form.read(&STEP);
        let time = form.read(&DEVELOPED);
        let typed_other = form.read(&OTHER);
        let other_time = form.read(&OTHER_DEVELOPED);
        let wanted = form.read(&WANTED);
        let contrast_as = form.read(&CONTRAST_AS).unwrap_or(ContrastAs::Gamma);
        let first_exposure = form.read(&FIRST_EXPOSURE);
        let base = form.read(&BASE_FOG);
        let other_base = form.read(&OTHER_BASE_FOG);
        let reading = Parameter::given_or(form.read(&READING), READ);
        let progress = Parameter::given_or(form.read(&fields::PROGRESS), PROGRESS);

        let start = first_exposure.unwrap_or(0.0);
        let exposures = match &typed {
            Some(TypedSteps::Pairs(pairs)) => Some(pairs.iter().map(|pair| pair.0).collect::<Vec<_>>()),
            _ => None,
        };
        // Pairs have a beginning of their own, unless another is typed.
        let moved = match (&exposures, first_exposure) {
            (Some(exposures), Some(first)) => first - exposures.first().copied().unwrap_or(first),
            _ => 0.0,
        };
        let count = typed.as_ref().map(TypedSteps::count);
        if let (Some(first), Some(TypedSteps::Densities(other))) = (count, &typed_other)
            && first != other.len()
        {
            let counts = format!("the first film has {first} steps and the second {}", other.len());
            form.fault(
                "other",
                &format!("{counts}; type the same steps of both, least exposure first"),
            );
        }
        let placed = |typed: TypedSteps| match typed {
            TypedSteps::Pairs(pairs) => Some(pairs.into_iter().map(|(at, density)| (at + moved, density)).collect()),
            TypedSteps::Densities(densities) => match &exposures {
                Some(exposures) => Some(exposures.iter().map(|at| at + moved).zip(densities).collect()),
                None => step.map(|step| {
                    let placed = densities.into_iter().enumerate();
                    placed
                        .map(|(index, density)| (start + step * index as f64, density))
                        .collect()
                }),
            },
        };
        let typed_other = typed_other.filter(|_| !form.at_fault("other"));
        let (steps, other_steps) = (typed.and_then(placed), typed_other.and_then(placed));
        let reads = reading.value;
        let first = steps.and_then(|steps| film(form, ["steps", "base"], steps, base, time, reads));
        let other =
            other_steps.and_then(|steps| film(form, ["other", "other_base"], steps, other_base, other_time, reads));
        Self {
            first,
            other,
            reading,
            progress,
            wanted,
            contrast_as,
            absolute: first_exposure.is_some(),
            house: *house,
        }
    }

    fn contrast(&self, film: &Film) -> Option<ReadOff> {
        match self.contrast_as {
            ContrastAs::Gamma => film.curve.gamma(),
            ContrastAs::AverageGradient => film.curve.average_gradient(),
            ContrastAs::ContrastIndex => film.curve.contrast_index(),
        }
    }

    fn contrast_name(&self) -> &'static str {
        match self.contrast_as {
            ContrastAs::Gamma => "gamma",
            ContrastAs::AverageGradient => "average gradient",
            ContrastAs::ContrastIndex => "contrast index",
        }
    }
}

impl TypedSteps {
    fn count(&self) -> usize {
        match self {
            Self::Densities(densities) => densities.len(),
            Self::Pairs(pairs) => pairs.len(),
        }
    }
}

/// A film, as far as its steps make a curve.
fn film(
    form: &mut Form,
    [field, base_field]: [&str; 2],
    mut steps: Vec<(f64, f64)>,
    base: Option<f64>,
    time: Option<Span>,
    reading: f64,
) -> Option<Film> {
    let all = steps.len();
    if let Err(error) = check_steps(&steps, reading) {
        form.fault(field, &error.to_string());
        match error {
            CurveError::Falls(step) if step > FEWEST_STEPS => steps.truncate(step - 1),
            _ => return None,
        }
    }
    let lowest = steps.iter().map(|step| step.1).fold(f64::INFINITY, f64::min);
    let is_denser = |base: &f64| *base > lowest + 4.0 * reading;
    if base.as_ref().is_some_and(is_denser) {
        form.fault(
            base_field,
            "base + fog is denser than a step of the film, by more than reading explains; read both again",
        );
    }
    let base = base.filter(|base| !is_denser(base));
    Some(Film {
        curve: CharacteristicCurve::fit(&steps, base, reading).ok()?,
        left_out: all - steps.len(),
        steps,
        time,
        base_read: base.is_some(),
    })
}

/// The whole sheet of a curve, or of two.
pub fn curves(sheet: &mut Sheet, curves: &Curves, units: Units) {
    if let Some(first) = &curves.first {
        sheet.title = match &curves.other {
            Some(_) => "Two films over the same steps".to_owned(),
            None => format!("A film of {} steps", first.steps.len()),
        };
        let developing = developing::developing(curves, units);
        sheet.headline.extend(developing.time);
        sheet.headline.extend(films::headline(curves, first, units));
        sheet.alert(&developing.law);
        sheet.part("What to do", developing.to_do);
        sheet.part("The curve", films::drawn(curves, units));
        sheet.part("Speed", films::speed(curves, first, units));
        if let Some(other) = &curves.other {
            sheet.part("The second film", films::second(other, units));
            sheet.part("The second against the first", developing.difference);
        }
        sheet.part("Your law of developing", developing.law);
        sheet.background("How the curve was found", films::fitted(first, units));
        let mut unmeasured = films::reading_assumption(curves.reading, units);
        unmeasured.extend(developing.unmeasured);
        sheet.background("Nobody measured this", unmeasured);
    } else if let Some(other) = &curves.other {
        sheet.title = "The second film alone".to_owned();
        sheet.part("The second film", films::second(other, units));
    }
}

/// What is read off a curve, as a figure.
fn read_off(name: impl Into<Text>, label: impl Into<Text>, value: &ReadOff, units: Units) -> Figure {
    number(name, label, value.value, value.standard_uncertainty(), units)
}

/// A number to the hundredth, with what it is good to where that is known.
fn number(name: impl Into<Text>, label: impl Into<Text>, value: f64, uncertainty: Option<f64>, units: Units) -> Figure {
    let figure = Figure::number(name, label, value, 2, units);
    match uncertainty {
        Some(u) => figure.uncertain(u, |spread| units.number(spread, if spread < 0.1 { 3 } else { 2 })),
        None => figure,
    }
}
