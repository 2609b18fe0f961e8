//! The clip test of a developer as a sheet: what the eye, the meter or the stop-watch says, how well, what it could not have
//! shown, and what to do next.

mod figures;
mod words;

use super::picked::Picked;
use super::{care, given, warm};
use crate::chemistry::{Class, Guess, PROGRESS};
use crate::darkroom::Darkroom;
use crate::development::{Band, Parameter, RateLaw, SheetTime, activation_from_q10};
use crate::fields::{self, Form, JudgedBy, Scale, Through};
use crate::proof::{
    Against, ByDensity, EYE, Finding, LEADER, LEADER_PROGRESS, Leader, Measured, Outcome, Rest, STOP, Seen, TestKind,
    Timed, Warmth, WarmthLaw, unseen_by_eye,
};
use crate::quantity::{Span, Units};
use crate::sheet::{Figure, Item, Sheet};

/// A clip test as far as the form could be read.
pub struct Clip {
    name: String,
    class: Class,
    is_of_shelf: bool,
    judged: JudgedBy,
    leader: Option<Leader>,
    rest: Option<Rest>,
    expired: bool,
    /// Times to blacken.
    fresh: Vec<Span>,
    now: Vec<Span>,
    /// Densities over the clear part.
    density_fresh: Vec<f64>,
    density_now: Vec<f64>,
    scale: Scale,
    through: Through,
    /// Steps of the meter, on its own scale.
    step: Parameter,
    hand: f64,
    /// How the two baths were warm; `None` where that could not be read.
    warmth: Option<Warmth>,
    /// What is said of the thermometer that told it.
    thermometer: Vec<Item>,
    q10: Parameter,
    progress: Parameter,
    eye: Parameter,
    leader_density: Parameter,
}

/// Step of a meter nobody described, in stops (an assumption).
const STEP_IN_STOPS: Guess = Guess {
    value: 1.0 / 3.0,
    least: 0.1,
    most: 0.5,
    why: "cameras step in thirds of a stop, meters in tenths or halves",
};

/// The same in densities (an assumption).
const STEP_IN_DENSITY: Guess = Guess {
    value: 0.01,
    least: 0.01,
    most: 0.05,
    why: "densitometers show hundredths",
};

/// No film is so black.
const BLACKEST: f64 = 5.0;

/// What the test comes to.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Verdict {
    Passed,
    Failed,
    CannotTell,
}

impl Clip {
    /// Reads the form. What cannot be is a fault; `None` where it is no developer.
    pub fn read(form: &mut Form, darkroom: &Darkroom) -> Option<Self> {
        let picked = Picked::read(form, darkroom);
        let typed_class = form.read(&fields::CLASS);
        let class = typed_class.or(picked.label.map(|label| label.class));
        let class = class.unwrap_or(Class::Syrup);
        if !class.is_developer() {
            let field = if typed_class.is_some() { "class" } else { "bottle" };
            form.fault(
                field,
                "a clip test proves a developer; for a fixer time how long film takes to clear",
            );
            return None;
        }
        let times = form.read(&fields::TIMES);
        let of_label = || picked.label.map(|label| label.times.clone()).unwrap_or_default();
        let times = times.unwrap_or_else(|| if form.at_fault("times") { Vec::new() } else { of_label() });
        let q10 = Parameter::given_or(form.read(&fields::Q10), class.q10());
        let activation = activation(form, &times, q10, class);
        let temperatures = form.read(&fields::WARM_FRESH).zip(form.read(&fields::TEMPERATURE));
        let warmth = temperatures.map(|(fresh, now)| warm(fresh, now, WarmthLaw::Activation(activation), darkroom));
        let (warmth, thermometer) = warmth.unzip();
        let scale = form.read(&fields::SCALE).unwrap_or(Scale::Stops);
        let through = form.read(&fields::PATCH).unwrap_or(Through::Grey);
        let usual_step = match scale {
            Scale::Stops => STEP_IN_STOPS,
            Scale::Densities => STEP_IN_DENSITY,
        };
        let judged = form.read(&fields::JUDGED).unwrap_or(JudgedBy::ByEye);
        let usual_progress = match (judged, through) {
            (JudgedBy::ByMeter, Through::Grey) => PROGRESS,
            _ => LEADER_PROGRESS,
        };
        let clip = Self {
            name: picked.name(class),
            class,
            is_of_shelf: picked.bottle.is_some(),
            judged,
            leader: form.read(&fields::LEADER_SEEN),
            rest: form.read(&fields::REST_SEEN),
            expired: form.read(&fields::FILM_EXPIRED).unwrap_or(false),
            fresh: form.read(&fields::BLACK_FRESH).unwrap_or_default(),
            now: form.read(&fields::BLACK_NOW).unwrap_or_default(),
            density_fresh: densities(form, &fields::REFERENCE, "reference", scale),
            density_now: densities(form, &fields::READING_NOW, "reading", scale),
            scale,
            through,
            step: Parameter::given_or(form.read(&fields::METER_STEP), usual_step),
            hand: darkroom.kit.house.hand / 100.0,
            warmth,
            thermometer: thermometer.unwrap_or_default(),
            q10: match activation.is_assumed() {
                true => q10,
                false => given(q10.value),
            },
            progress: Parameter::given_or(form.read(&fields::PROGRESS), usual_progress),
            eye: Parameter::given_or(form.read(&fields::EYE_SEES), EYE),
            leader_density: Parameter::given_or(form.read(&fields::LEADER_IS), LEADER),
        };
        form.pass_over(match judged {
            _ if form.at_fault("judged") => &[],
            JudgedBy::ByEye => &[
                "black_fresh",
                "warm_fresh",
                "black_now",
                "temperature",
                "scale",
                "patch",
                "reference",
                "reading",
                "step",
            ],
            JudgedBy::ByMeter => &["leader", "rest", "black_fresh", "black_now"],
            JudgedBy::ByTime => &["leader", "rest", "scale", "patch", "reference", "reading", "step"],
        });
        Some(clip)
    }

    fn timed(&self) -> Option<Timed<'_>> {
        Some(Timed::by_hand(&self.fresh, &self.now, self.warmth?))
    }

    fn by_density(&self) -> Option<ByDensity<'_>> {
        Some(ByDensity {
            fresh: &self.density_fresh,
            now: &self.density_now,
            step: self.in_density(self.step.value),
            progress: self.progress,
            hand: self.hand,
            warmth: self.warmth?,
        })
    }

    /// A step of the meter as density.
    fn in_density(&self, step: f64) -> f64 {
        match self.scale {
            Scale::Stops => step * STOP,
            Scale::Densities => step,
        }
    }

    /// What was measured, in a test that measures.
    fn measured(&self) -> Option<Measured> {
        match self.judged {
            JudgedBy::ByEye => None,
            JudgedBy::ByMeter => self.by_density()?.strength(),
            JudgedBy::ByTime => self.timed()?.strength(),
        }
    }

    /// What the eye said; `None` where it was not asked, or has not looked at both.
    fn seen(&self) -> Option<Seen> {
        let asked = self.judged == JudgedBy::ByEye;
        let (leader, rest) = self.leader.zip(self.rest).filter(|_| asked)?;
        Some(Seen::of(leader, rest))
    }

    /// The smallest loss that would have been seen by eye.
    fn unseen_by_eye(&self) -> Band {
        unseen_by_eye(self.eye, self.leader_density, self.progress)
    }

    /// How often each would have to be done for it to be told.
    fn repeats(&self) -> Option<u32> {
        let limit = TestKind::Clip.enough();
        match self.judged {
            JudgedBy::ByEye => None,
            JudgedBy::ByMeter => self.by_density()?.repeats(limit),
            JudgedBy::ByTime => self.timed()?.repeats(limit),
        }
    }

    /// What it found, to be written down; nothing where it cannot tell.
    fn finding(&self, verdict: Option<Verdict>, measured: Option<&Measured>, units: Units) -> Option<Finding> {
        let outcome = match (verdict?, measured) {
            (Verdict::CannotTell, _) => return None,
            (Verdict::Passed, None) => Outcome::Seen,
            (Verdict::Failed, None) => Outcome::Failed,
            (_, Some(measured)) => Outcome::Strength {
                strength: measured.strength.value,
                uncertainty: measured.uncertainty_with_band(),
            },
        };
        Some(Finding {
            test: TestKind::Clip,
            outcome,
            remark: words::remark(self, units),
        })
    }
}

/// The activation energy by the data sheet's times, where they are of two temperatures; else by the factor for ten degrees.
fn activation(form: &mut Form, times: &[SheetTime], q10: Parameter, class: Class) -> Parameter {
    // Times at another dilution would have to be brought to this one first.
    let first = times.first().and_then(|time| time.dilution.as_ref());
    let alike: Vec<SheetTime> = times
        .iter()
        .filter(|time| time.dilution.as_ref() == first)
        .cloned()
        .collect();
    let own = (!q10.is_assumed()).then_some(q10.value);
    match RateLaw::new(&alike, 1.0, None, own, class) {
        Ok(law) => law.activation(),
        Err(error) => {
            if !alike.is_empty() {
                form.fault("times", &error.to_string());
            }
            q10.map(activation_from_q10)
        }
    }
}

/// Readings as densities; what no film can be is a fault.
fn densities(form: &mut Form, field: &fields::Field<fields::NumberLists>, name: &str, scale: Scale) -> Vec<f64> {
    let readings = form.read(field).unwrap_or_default();
    let stop = match scale {
        Scale::Stops => STOP,
        Scale::Densities => 1.0,
    };
    let densities: Vec<f64> = readings.into_iter().map(|reading| reading * stop).collect();
    if densities.iter().any(|&density| density > BLACKEST) {
        form.fault(name, "no film is blacker than a density of 5; are these stops?");
        return Vec::new();
    }
    densities
}

/// The sheet of a clip test.
pub fn clip(sheet: &mut Sheet, clip: &Clip, units: Units) {
    let measured = clip.measured();
    let verdict = verdict(clip, measured.as_ref());
    sheet.title = format!("Clip test: {}", clip.name);
    sheet.headline = headline(clip, measured.as_ref(), verdict, units);
    let next = words::next(clip, measured.as_ref(), verdict, units);
    sheet.alert(&next);
    sheet.part("What to do", next);
    sheet.part_if(
        clip.judged != JudgedBy::ByTime,
        "What to expect",
        figures::expected(clip, units),
    );
    if let Some(measured) = &measured {
        sheet.part("What was measured", figures::measured(clip, measured, units));
    }
    sheet.part("What this test can show", words::limits(clip, measured.as_ref(), units));
    sheet.background("How to make the clip", words::how(clip));
    sheet.part("Take care", care(clip.class, false));
    sheet.background("Nobody measured this", figures::assumptions(clip, units));
    sheet.finding = clip
        .finding(verdict, measured.as_ref(), units)
        .filter(|_| clip.is_of_shelf);
}

/// What the test comes to; `None` where nothing was seen or measured yet.
fn verdict(clip: &Clip, measured: Option<&Measured>) -> Option<Verdict> {
    if let Some(seen) = clip.seen() {
        return Some(match seen {
            Seen::Passed => Verdict::Passed,
            Seen::Failed => Verdict::Failed,
            Seen::CannotTell => Verdict::CannotTell,
        });
    }
    let measured = match measured {
        Some(measured) => measured,
        None => return is_too_dense(clip).then_some(Verdict::CannotTell),
    };
    Some(match measured.against(TestKind::Clip.enough()) {
        _ if measured.is_beyond_fresh() => Verdict::CannotTell,
        Against::Above => Verdict::Passed,
        Against::Below => Verdict::Failed,
        Against::Open => Verdict::CannotTell,
    })
}

/// Whether both were read, and the clip is denser than the law lets any developer make it.
fn is_too_dense(clip: &Clip) -> bool {
    clip.judged == JudgedBy::ByMeter
        && clip
            .by_density()
            .is_some_and(|density| density.ratio().is_some() && density.strength().is_none())
}

fn headline(clip: &Clip, measured: Option<&Measured>, verdict: Option<Verdict>, units: Units) -> Vec<Figure> {
    let mut figures = Vec::new();
    if let Some(measured) = measured {
        figures.push(figures::strength(measured, clip.assumes(), units));
    }
    figures.extend(verdict.map(|verdict| words::verdict(verdict, measured.is_some())));
    figures.push(figures::unseen(clip, measured, units));
    figures
}

impl Clip {
    /// Whether the strength rests on an assumption.
    fn assumes(&self) -> bool {
        let by_progress = self.judged == JudgedBy::ByMeter && self.progress.is_assumed();
        by_progress || self.warmth.is_some_and(|warmth| warmth.is_assumed())
    }

    /// Whether some time was taken more than once.
    fn is_repeated(&self) -> bool {
        self.timed().is_some_and(|timed| timed.is_repeated())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The verdict's words and the outcome go together: what cannot tell is never written down.
    #[test]
    fn what_cannot_tell_finds_nothing() {
        let darkroom = Darkroom::starter("2026-03-01".parse().expect("a day"));
        let named = fields::Named::from(
            [("leader", "thinner"), ("rest", "clear")].map(|(name, text)| (name.to_owned(), text.to_owned())),
        );
        let mut form = Form::new(&named, Units::default());
        let clip = Clip::read(&mut form, &darkroom).expect("a developer");
        let found = clip.finding(verdict(&clip, None), None, Units::default());
        assert!(found.is_none());
    }
}
