//! What is uncertain about a measured volume, kept apart by what errs alike.
//!
//! One mark of one instrument is off by the same volume every time (JCGM 100, 5.2.4, from memory): it adds up over draws, and
//! cancels where it stands above and below a fraction bar. How alike two marks of one instrument err nobody knows, so what makes the
//! result worse is taken: they add up, and cancel nothing. The liquid's temperature is one and the same everywhere. Readings and
//! repeats are independent.

use super::{Draws, Instrument};
use crate::quantity::{TemperatureDifference, Volume};

/// Standard uncertainties by their source, in millilitres or, as shares of a result, without a unit. One of them is negative where
/// the result is too small when what it comes from is too large.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct VolumeErrors<'a>(Vec<(Source<'a>, f64)>);

#[derive(Clone, Copy, Debug, PartialEq)]
enum Source<'a> {
    /// One mark of an instrument.
    Mark(&'a Instrument, Volume),
    /// The liquid not being at 20 °C.
    Temperature,
    /// What is independent of everything else, by its cause.
    Alone(&'static str),
}

impl<'a> VolumeErrors<'a> {
    /// Those of draws, in millilitres, for a liquid so far from 20 °C.
    pub fn of(draws: &Draws<'a>, from_20: TemperatureDifference) -> Self {
        let instrument = draws.instrument;
        let spread = draws.spread(from_20);
        let mut errors = Self::default();
        let marks = [(f64::from(draws.fills), Some(draws.to)), (1.0, draws.rest)];
        for (times, to) in marks {
            if let Some(to) = to {
                let limit = instrument.tolerance.half_width(instrument.capacity, to);
                errors.add(Source::Mark(instrument, to), times * limit.millilitres() / 3f64.sqrt());
            }
        }
        errors.add(Source::Alone("reading its marks"), spread.reading.millilitres());
        errors.add(Source::Alone("the hand, repeated"), spread.repeatability.millilitres());
        errors.add(Source::Temperature, spread.temperature.millilitres());
        errors
    }

    /// Those that are independent of everything else, each with its cause.
    pub fn alone(causes: &[(&'static str, f64)]) -> Self {
        Self(causes.iter().map(|&(cause, u)| (Source::Alone(cause), u)).collect())
    }

    /// These, and `slope` times the others, of a result that changes so much with what the others belong to.
    pub fn and(mut self, slope: f64, others: &Self) -> Self {
        for (source, u) in &others.0 {
            self.add(*source, slope * u);
        }
        self
    }

    /// All of them together.
    pub fn combined(&self) -> f64 {
        let square = |one: &(Source, f64)| {
            let alike = self.0.iter().filter(|other| is_alike(one, other));
            one.1 * alike.map(|other| other.1).sum::<f64>()
        };
        self.0.iter().map(square).sum::<f64>().sqrt()
    }

    /// Each cause with its part.
    pub fn causes(&self) -> Vec<(&'static str, f64)> {
        let mut causes: Vec<(&'static str, Self)> = Vec::new();
        for one in &self.0 {
            let name = one.0.cause();
            match causes.iter_mut().find(|(known, _)| *known == name) {
                Some((_, errors)) => errors.0.push(*one),
                None => causes.push((name, Self(vec![*one]))),
            }
        }
        let parts = causes.iter().map(|(name, errors)| (*name, errors.combined()));
        parts.filter(|(_, u)| *u > 0.0).collect()
    }

    fn add(&mut self, source: Source<'a>, u: f64) {
        match self.0.iter_mut().find(|(known, _)| is_same(known, &source)) {
            Some((Source::Alone(_), known)) => *known = known.hypot(u),
            Some((_, known)) => *known += u,
            None => self.0.push((source, u)),
        }
    }
}

impl Source<'_> {
    fn cause(self) -> &'static str {
        match self {
            Self::Mark(..) => "the instrument",
            Self::Temperature => "the temperature",
            Self::Alone(cause) => cause,
        }
    }
}

fn is_same(one: &Source, other: &Source) -> bool {
    match (one, other) {
        (Source::Mark(one, to), Source::Mark(other, mark)) => std::ptr::eq(*one, *other) && to == mark,
        (Source::Temperature, Source::Temperature) => true,
        (Source::Alone(one), Source::Alone(other)) => one == other,
        _ => false,
    }
}

/// Whether two errors add up: one and the same, or of two marks of one instrument that act in the same direction.
fn is_alike((one, u): &(Source, f64), (other, v): &(Source, f64)) -> bool {
    match (one, other) {
        (Source::Mark(one, _), Source::Mark(other, _)) => std::ptr::eq(*one, *other) && u * v >= 0.0,
        _ => is_same(one, other),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::kit::Kit;

    const AT_20: TemperatureDifference = TemperatureDifference::ZERO;

    fn ml(volume: f64) -> Volume {
        Volume::from_millilitres(volume)
    }

    /// By hand, class B of ISO 4788 (from memory): 1 ml at every mark of 100 ml, read to 0.2 ml on a mark.
    #[test]
    fn one_mark_cancels_and_two_do_not() {
        let kit = Kit::starter();
        let cylinder = kit
            .instruments
            .iter()
            .map(|kept| &kept.item)
            .find(|one| one.capacity == ml(100.0));
        let cylinder = cylinder.expect("a cylinder of 100 ml");
        let errors = |to: f64| VolumeErrors::of(&Draws::once(cylinder, ml(to)), AT_20);
        let (limit, reading) = (1.0 / 3f64.sqrt(), 0.2 / 3f64.sqrt());
        let check = |found: VolumeErrors, limits: f64, readings: f64| {
            let wanted = (limit * limits).hypot(reading * readings);
            assert!(
                (found.combined() - wanted).abs() < 1e-12,
                "{found:?}: {} for {wanted}",
                found.combined()
            );
        };
        check(errors(100.0), 1.0, 1.0);
        check(errors(100.0).and(-1.0, &errors(100.0)), 0.0, 2f64.sqrt());
        check(errors(100.0).and(1.0, &errors(100.0)), 2.0, 2f64.sqrt());
        check(errors(100.0).and(1.0, &errors(50.0)), 2.0, 2f64.sqrt());
        check(errors(100.0).and(-1.0, &errors(50.0)), 2f64.sqrt(), 2f64.sqrt());
        let fills = Draws {
            fills: 3,
            ..Draws::once(cylinder, ml(100.0))
        };
        check(VolumeErrors::of(&fills, AT_20), 3.0, 3f64.sqrt());
    }
}
