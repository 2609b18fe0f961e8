//! What contrast and developing time say of each other: from two times the user's own law, from one the assumed one.

use super::{Curves, Film, number};
use crate::development::FirstOrder;
use crate::parts::slips::hand_assumption;
use crate::parts::{progress_assumption, text};
use crate::proof::ReadOff;
use crate::quantity::{Span, Units, bounds};
use crate::sheet::{Figure, Item};
use crate::uncertainty::{Distribution, Estimate, Input};

/// Where k is known no better than this share of itself, its numbers are hardly worth writing down.
const HARDLY: f64 = 0.4;

/// What is said of developing.
#[derive(Default)]
pub(super) struct Developing {
    /// The time for the wanted contrast.
    pub time: Option<Figure>,
    /// What to do, in sentences.
    pub to_do: Vec<Item>,
    /// The second film against the first.
    pub difference: Vec<Item>,
    /// The user's own law.
    pub law: Vec<Item>,
    /// What nobody measured.
    pub unmeasured: Vec<Item>,
}

/// A contrast and how well it is known.
#[derive(Clone, Copy)]
struct Contrast {
    value: f64,
    /// Its standard uncertainty; `None` where nobody can tell.
    uncertainty: Option<f64>,
}

impl Contrast {
    /// The same relative to it.
    fn relative(&self) -> Option<f64> {
        Some(self.uncertainty? / self.value)
    }

    fn of(read: &ReadOff) -> Self {
        Self {
            value: read.value,
            uncertainty: read.standard_uncertainty(),
        }
    }
}

/// All that can be said.
pub(super) fn developing(curves: &Curves, units: Units) -> Developing {
    let mut said = Developing::default();
    let Some(first) = &curves.first else { return said };
    let Some(contrast) = curves.contrast(first) else {
        said.to_do.push(Item::Text(format!(
            "The {} cannot be had from these steps; take gamma, or give more exposure.",
            curves.contrast_name()
        )));
        return said;
    };
    let contrast = Contrast::of(&contrast);
    let other = curves
        .other
        .as_ref()
        .and_then(|film| Some((film, Contrast::of(&curves.contrast(film)?))));
    if let Some((_, other)) = other {
        said.difference.push(Item::Figure(difference(contrast, other, units)));
    }
    let times = first.time.zip(other.and_then(|(film, _)| film.time));
    match (times, other) {
        (Some((time, other_time)), Some((_, other))) if time != other_time => {
            two_times(curves, [(time, contrast), (other_time, other)], &mut said, units);
        }
        (_, other) => {
            if let Some((_, other)) = other {
                said.difference.push(verdict(curves, contrast, other, units));
            }
            one_time(curves, first, contrast, other, &mut said, units);
        }
    }
    said
}

fn difference(first: Contrast, other: Contrast, units: Units) -> Figure {
    let share = other.value / first.value - 1.0;
    let figure = Figure::percent(
        "contrast_difference",
        "The second film has more contrast by",
        share,
        units,
    );
    match other.relative().zip(first.relative()) {
        Some((other, first)) => {
            let u = other.hypot(first) * (1.0 + share);
            figure.uncertain(u * 100.0, |spread| units.percent(spread / 100.0))
        }
        None => figure,
    }
}

fn verdict(curves: &Curves, first: Contrast, other: Contrast, units: Units) -> Item {
    let off = (other.value - first.value).abs();
    let Some((one, another)) = first.uncertainty.zip(other.uncertainty) else {
        return text(
            "Cannot tell whether the two differ: these steps do not show how well the contrast is known. Take more steps.",
        );
    };
    let explained = 2.0 * one.hypot(another);
    let hand = 2.0 * 2f64.sqrt() * curves.house.hand / 100.0;
    Item::Text(match off {
        off if off <= explained => {
            "Cannot tell yet whether the two differ: reading explains as much. Take more steps, or read each one several times."
                .to_owned()
        }
        off if off <= hand * first.value => format!(
            "The two differ, though by no more than two films by hand do anyway ({}).",
            units.percent(hand)
        ),
        _ => "The two differ by more than reading and the hand explain.".to_owned(),
    })
}

/// The user's own law, from two films of one batch.
fn two_times(curves: &Curves, films: [(Span, Contrast); 2], said: &mut Developing, units: Units) {
    let [(time, contrast), (other_time, other)] = films;
    let Some(law) = FirstOrder::from_two((time, contrast.value), (other_time, other.value)) else {
        let (least, most) = if time < other_time {
            (contrast, other)
        } else {
            (other, contrast)
        };
        said.law.push(Item::Caution(match least.value >= most.value {
            true => "The film with the longer time has no more contrast, so no law follows from the two. Look whether the times are \
                     exchanged; else the film gives no more, or the readings are too rough."
                .to_owned(),
            false => "The contrast grew as fast as the time or faster, so the two do not show where it ends. Take a third film of a \
                      much longer time in place of the shorter one."
                .to_owned(),
        }));
        return;
    };
    // How each follows the two contrasts.
    let input = |name, contrast: Contrast| {
        // Two films of one kind differ by what the hand repeats, whatever is read.
        let sigma = contrast.uncertainty?.hypot(curves.house.hand / 100.0 * contrast.value);
        Some(Input::new(name, contrast.value, Distribution::Normal { sigma }))
    };
    let inputs = input("first", contrast)
        .zip(input("second", other))
        .map(<[Input; 2]>::from);
    let uncertainty = |of: &dyn Fn(&FirstOrder) -> f64| {
        let model = |values: &[f64]| {
            let law = FirstOrder::from_two((time, values[0]), (other_time, values[1]));
            law.map_or(f64::NAN, |law| of(&law))
        };
        Estimate::uncertainty_of(inputs.as_ref()?, model)
    };
    let k = uncertainty(&|law| law.rate);
    said.law
        .push(Item::Figure(number("rate", "k, each minute", law.rate, k, units)));
    let limit = uncertainty(&|law| law.limit);
    said.law.push(Item::Figure(number(
        "limit",
        format!("The most that development would give ({})", curves.contrast_name()),
        law.limit,
        limit,
        units,
    )));
    let wanted = curves.wanted.map(|wanted| (wanted, law.time_to(wanted)));
    if let Some((_, Some(found))) = wanted {
        let seconds = |law: &FirstOrder| {
            curves
                .wanted
                .and_then(|wanted| law.time_to(wanted))
                .map_or(f64::NAN, Span::seconds)
        };
        let figure = Figure::span("wanted_time", "Develop for", found, units);
        said.time = Some(match uncertainty(&seconds) {
            Some(u) => figure.uncertain(u, |spread| units.seconds(Span::from_seconds(spread))),
            None => figure,
        });
        let (short, long) = if time < other_time {
            (time, other_time)
        } else {
            (other_time, time)
        };
        if found < short * 0.7 || found > long * 1.5 {
            said.law.push(Item::Caution(
                "The wanted time lies well beyond the two that were tried; try it before it matters.".to_owned(),
            ));
        }
    }
    if let Some((wanted, None)) = wanted {
        said.to_do.push(Item::Text(format!(
            "This film does not reach a {} of {} in this developer, however long.",
            curves.contrast_name(),
            units.number(wanted, 2)
        )));
    }
    let at = wanted.and_then(|(_, found)| found).unwrap_or(time);
    let progress = law.rate * at.minutes();
    let u = k.map(|k| k * at.minutes());
    let label = format!("How far development goes in {} (k t)", units.span(at));
    said.law
        .push(Item::Figure(number("progress", label, progress, u, units)));
    match k.is_none_or(|k| k > HARDLY * law.rate) {
        true => {
            said.law.push(Item::Caution(
                "The two contrasts lie too close for what reading explains, so k is hardly known.".to_owned(),
            ));
            said.to_do.push(text(
                "Take two films of times that differ more, such as half and double. The law of these two is too rough to be used \
                 elsewhere.",
            ));
        }
        false => carry_over(curves, progress, at, wanted, said, units),
    }
    said.law.push(text(
        "It holds for this film, this developer at this dilution, temperature and way of agitation, both films from one batch. The \
         ± hold what reading and the hand leave open.",
    ));
    said.unmeasured.extend(hand_assumption(&curves.house));
}

/// Where the user's own law goes: k t into Mix, the time for the wanted contrast into Time.
fn carry_over(
    curves: &Curves,
    progress: f64,
    at: Span,
    wanted: Option<(f64, Option<Span>)>,
    said: &mut Developing,
    units: Units,
) {
    said.to_do.push(Item::Text(match bounds::PROGRESS.holds(progress) {
        true => format!(
            "In Mix, write {} into “How far development goes (k t)”: it then stands in place of the assumption, for {}.",
            units.number(progress, 2),
            units.span(at)
        ),
        false => format!(
            "k t is {} for {}, outside what Mix takes ({} to {}); leave its field blank.",
            units.number(progress, 2),
            units.span(at),
            units.number(bounds::PROGRESS.least, 1),
            units.number(bounds::PROGRESS.most, 1)
        ),
    }));
    if let Some((wanted, Some(found))) = wanted {
        said.to_do.push(Item::Text(format!(
            "In Time, type {} with the temperature and the dilution of these films as a time of the data sheet: it is then your own \
             time for a {} of {}, and Time carries it to other temperatures.",
            units.span(found),
            curves.contrast_name(),
            units.number(wanted, 2)
        )));
    }
}

/// One time, or two films of the same: seconds by the assumed progress.
fn one_time(
    curves: &Curves,
    first: &Film,
    contrast: Contrast,
    other: Option<(&Film, Contrast)>,
    said: &mut Developing,
    units: Units,
) {
    let progress = curves.progress;
    let mut rests = false;
    if let Some(time) = first.time {
        // The time that brings this contrast, with each value that the progress may have; endless where it is never reached.
        let time_to = |wanted: f64, progress: f64| FirstOrder::through(time, contrast.value, progress).time_to(wanted);
        let ends = [progress.least, progress.most];
        // What both contrasts are good to, by how the time follows their ratio.
        let good_to = |value: f64, uncertainty: Option<f64>| {
            let by = 1e-4 * value;
            let at = |value| time_to(value, progress.value).map(Span::seconds);
            let slope = (at(value + by)? - at(value - by)?) / (2.0 * by);
            Some(slope * uncertainty?.hypot(contrast.relative()? * value))
        };
        let told = |figure: Figure, of: (f64, Option<f64>), less: Span, show: &dyn Fn(Span) -> String| {
            let [one, other] = ends.map(|end| time_to(of.0, end).map(|found| show(found - less)));
            let figure = match good_to(of.0, of.1) {
                Some(u) => figure.uncertain(u, |spread| units.seconds(Span::from_seconds(spread))),
                None => figure,
            };
            // The further development goes, the more time a contrast beyond it takes, and the less one before it.
            match (one, other) {
                (Some(one), Some(other)) if of.0 > contrast.value => figure.between(&one, &other),
                (Some(one), Some(other)) => figure.between(&other, &one),
                _ => figure,
            }
            .assumed_if(progress.is_assumed())
        };
        if let Some(wanted) = curves.wanted {
            rests = true;
            match time_to(wanted, progress.value) {
                Some(found) => {
                    let figure = Figure::span("wanted_time", "Develop for", found, units);
                    said.time = Some(told(figure, (wanted, Some(0.0)), Span::ZERO, &|span| units.span(span)));
                    if time_to(wanted, progress.most).is_none() {
                        said.to_do.push(text(
                            "If development has gone as far as it may have, that contrast is never reached; a second film of \
                             another time would tell.",
                        ));
                    }
                }
                None => said.to_do.push(Item::Text(format!(
                    "A {} of {} is more than this film gives, as development usually goes.",
                    curves.contrast_name(),
                    units.number(wanted, 2)
                ))),
            }
        }
        if let Some((_, other)) = other {
            rests = true;
            said.difference.push(match time_to(other.value, progress.value) {
                Some(found) => {
                    let figure = Figure::seconds("as_time", "As if developed longer by", found - time, units);
                    let of = (other.value, other.uncertainty);
                    Item::Figure(told(figure, of, time, &|span| units.seconds(span)))
                }
                None => text("No developing time would bring the first film to that contrast."),
            });
        }
    } else {
        said.to_do.push(text(match curves.wanted {
            Some(_) => "Type how long it was developed, to have the time for the contrast you want.",
            None => "Type how long it was developed and what contrast you want, to have the time for it.",
        }));
    }
    said.to_do.push(text(match other {
        None => {
            "For your own law of developing: expose a second film to the same steps, develop it half as long or twice as long from the \
             same batch, and type it too."
        }
        Some(_) => "Two films of different developing times from one batch would give your own law of developing.",
    }));
    if rests {
        said.unmeasured.extend(progress_assumption(progress, units));
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// What nobody can tell stays untold, and is not taken for nothing (JCGM 100, 5.1.2: each uncertainty has its part in the sum).
    #[test]
    fn unknown_is_not_nothing() {
        let contrast = |value, uncertainty| Contrast { value, uncertainty };
        let (known, unknown) = (contrast(0.5, Some(0.01)), contrast(0.6, None));
        let told = |first, other| difference(first, other, Units::default()).standard_uncertainty;
        assert_eq!(told(known, unknown), None);
        assert_eq!(told(unknown, known), None);
        // By hand: 20 % more, each good to 2 %: 120 % of 0.02 times the root of 2.
        let both = told(known, contrast(0.6, Some(0.012))).expect("both are known");
        assert!((both - 120.0 * 0.02 * 2f64.sqrt()).abs() < 1e-9, "{both}");
    }
}
