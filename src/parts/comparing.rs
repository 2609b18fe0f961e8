//! Two negatives as a form describes them: what was read of each, what each was developed with, and what the comparison says.

mod causes;
mod told;
mod written;

use super::sessions::MARGIN;
use super::{Developing, Recipe};
use crate::chemistry::Guess;
use crate::development::{Band, Parameter, SameAs};
use crate::fields::{self, AnyField, DensityReadings, Field, Form, Measured};
use crate::kit::{Bottle, Kit};
use crate::proof::comparison::{Comparison, Readings, Strip, Verdict};
use crate::proof::{Finding, Outcome, TestKind};
use crate::quantity::{Day, Units};
use crate::sheet::{Item, Sheet};

/// Density of clear film with its fog, where nobody read it.
const BASE: Guess = Guess {
    value: 0.30,
    least: 0.15,
    most: 0.45,
    why: "as clear film with its fog mostly reads; 0 if your meter was set to zero on it",
};
/// What careful and less careful hands repeat contrast to, in percent.
const HANDS: [f64; 2] = [1.0, 4.0];

/// A comparison as far as the form could be read.
pub struct Comparing<'a> {
    recipe: Recipe<'a>,
    /// The bottle that stands as fresh.
    beside: Option<&'a Bottle>,
    /// How the one under test was developed, and how the fresh one.
    developings: [Developing; 2],
    /// What was read of each, with a base where there is one.
    strips: Option<[Strip; 2]>,
    /// Whether the base is nobody's reading.
    base_assumed: bool,
    paired: bool,
    repeat: Option<f64>,
    margin: Option<f64>,
    /// Whether these two could not be read, so that nothing stands in for them.
    spoilt: bool,
}

/// What it would come to with each of the usual hands, where nobody measured how well this one repeats.
type ByHands = [Option<Compared>; 2];

/// What comes out of it.
struct Compared {
    found: Comparison,
    repeats: [f64; 2],
    /// Change of contrast against the fresh one.
    contrast: f64,
    /// What else would change it so.
    same: Option<SameAs>,
    /// Standard uncertainty of the strength, without what the assumptions leave.
    strength_uncertainty: f64,
    /// It is at least so strong, with 95 % certainty and with the assumptions as unkind as they may be; nothing where the law
    /// knows no such strength.
    at_least: Option<f64>,
}

impl Compared {
    /// Whether it is surely as strong as a bottle that passes has to be.
    fn is_strong_enough(&self) -> bool {
        self.at_least
            .is_some_and(|least| least >= TestKind::Comparison.enough())
    }
}

impl<'a> Comparing<'a> {
    /// Reads the form.
    pub fn read(form: &mut Form, kit: &'a Kit) -> Self {
        let recipe = Recipe::read(form, kit);
        let mut beside = None;
        if let Some(against) = form.read(&fields::AGAINST) {
            beside = kit.bottle(&against);
            if beside.is_none() {
                form.fault("against", "there is no such bottle in the kit");
            } else if recipe.bath.id.as_ref() == Some(&against) {
                form.fault(
                    "against",
                    "a bottle is not compared with itself; pick the fresh one here",
                );
            }
        }
        let readings = [form.read(&fields::FIRST), form.read(&fields::SECOND)];
        let bases = [form.read(&fields::FIRST_BASE), form.read(&fields::SECOND_BASE)];
        let measured = form.read(&fields::MEASURED);
        let paired = form.read(&fields::PAIRS);
        let rolls = [form.read(&fields::FIRST_ROLLS), form.read(&fields::SECOND_ROLLS)];
        let repeat = form.read(&fields::REPEAT);
        let margin = form.read(&fields::MARGIN);
        let tested = Developing::read(form, &recipe, kit, &fields::ERRORS, None);
        let fresh = Developing::read(form, &recipe, kit, &fields::ERRORS_OF_FRESH, Some(&tested));
        let bases = match measured {
            Some(Measured::Contrast) => {
                form.pass_over(&["first_base", "second_base"]);
                [None, None]
            }
            _ => bases,
        };
        let base_assumed = measured == Some(Measured::Tone) && bases == [None, None];
        let strips = match (readings, rolls, measured, paired) {
            ([Some(first), Some(second)], [Some(one), Some(other)], Some(_), Some(paired)) => {
                strips(form, [first, second], bases, [one, other], base_assumed, paired)
            }
            _ => None,
        };
        Self {
            beside,
            spoilt: form.at_fault("repeat") || form.at_fault("margin"),
            developings: [tested, fresh],
            paired: paired.unwrap_or(false),
            recipe,
            strips,
            base_assumed,
            repeat,
            margin,
        }
    }

    /// The sheet, as far as it goes.
    pub fn fill(&self, sheet: &mut Sheet, today: Day, units: Units) {
        let compared = self.compared(None);
        let by_hands = self
            .repeat
            .is_none()
            .then(|| HANDS.map(|hand| self.compared(Some(hand))));
        if let Some(compared) = &compared {
            sheet.title = self.title(units);
            sheet.headline = self.headline(compared, units);
            sheet.part("What to do", self.to_do(compared, units));
            sheet.part("The difference", self.difference(compared, by_hands.as_ref(), units));
            sheet.part_if(
                compared.found.verdict() != Verdict::Within,
                "What would do the same",
                self.would_do_the_same(compared, units),
            );
            sheet.finding = self.finding(compared, units);
        } else if self.strips.is_some() && !self.spoilt {
            let mut needed: Vec<Item> = self.developings[0].cautions().collect();
            if !needed.is_empty() {
                needed.push(super::text("Or type what your rolls repeat to."));
            }
            sheet.part("What is still needed", needed);
        }
        sheet.background("What was compared", written::up(self, today, units));
        let contrast = compared.as_ref().map(|compared| compared.contrast);
        sheet.part("Could it be the hand?", self.causes(contrast, units));
        sheet.background(
            "Nobody measured this",
            self.unmeasured(compared.as_ref(), by_hands.as_ref(), units),
        );
    }

    /// The comparison; with another hand than the form's, in percent, where one is given.
    fn compared(&self, hand: Option<f64>) -> Option<Compared> {
        let strips = self.strips.as_ref().filter(|_| !self.spoilt)?;
        let mut strips = strips.clone();
        for (strip, developing) in strips.iter_mut().zip(&self.developings) {
            strip.repeat = match (self.repeat, hand) {
                (Some(repeat), _) => repeat,
                (None, None) => developing.budget.as_ref()?.combined() * strip.mean(),
                (None, Some(hand)) => developing.with_hand(&self.recipe, hand)?.combined() * strip.mean(),
            };
        }
        let [first, second] = &strips;
        let repeats = [first.repeat, second.repeat];
        let margin = self
            .margin
            .unwrap_or(MARGIN * (repeats[0].hypot(repeats[1]) / std::f64::consts::SQRT_2));
        let found = Comparison::new(first, second, self.paired, margin);
        let contrast = found.difference / found.means[1];
        let same = self.same(&found, found.difference);
        // Of a ratio below 1 the low end lies no lower than this (Fieller 1954).
        let at_least = self
            .same(&found, found.interval.low)
            .map(|lowest| lowest.strength.least);
        let relative = 2.0 * found.uncertainty / (found.means[0] + found.means[1]);
        Some(Compared {
            repeats,
            contrast,
            strength_uncertainty: same.map_or(0.0, |same| same.slope * relative),
            same,
            at_least,
            found,
        })
    }

    /// What would make such a difference of density. Where the base is assumed, its range widens that of the strength.
    fn same(&self, found: &Comparison, difference: f64) -> Option<SameAs> {
        let mut same = self.recipe.law.same_as(difference / found.means[1])?;
        if self.base_assumed {
            for base in [BASE.least, BASE.most] {
                let above = found.means[1] + BASE.value - base;
                let other = self.recipe.law.same_as(difference / above)?;
                let wider = |one: Band, other: Band| Band {
                    least: one.least.min(other.least),
                    most: one.most.max(other.most),
                    ..one
                };
                same.strength = wider(same.strength, other.strength);
                same.concentration = wider(same.concentration, other.concentration);
                same.kelvins = same.kelvins.zip(other.kelvins).map(|(one, other)| wider(one, other));
                same.seconds = same.seconds.zip(other.seconds).map(|(one, other)| wider(one, other));
            }
        }
        Some(same)
    }

    /// What goes into the bottle's record; nothing where nothing can be told, too little for a bottle that is to pass, or what no
    /// developer does by itself.
    fn finding(&self, compared: &Compared, units: Units) -> Option<Finding> {
        self.recipe.bath.bottle?;
        let outcome = match compared.found.verdict() {
            Verdict::Within if compared.is_strong_enough() => Outcome::Passed,
            Verdict::Within | Verdict::Stronger | Verdict::CannotTell => return None,
            Verdict::Weaker => {
                let same = compared.same?;
                let open = (same.strength.most - same.strength.least) / 12f64.sqrt();
                Outcome::Strength {
                    strength: same.strength.value,
                    uncertainty: compared.strength_uncertainty.hypot(open),
                }
            }
        };
        Some(Finding {
            test: TestKind::Comparison,
            outcome,
            remark: format!(
                "density {} ± {} against fresh, {} may pass",
                units.number(compared.found.difference, 3),
                units.number(2.0 * compared.found.uncertainty, 3),
                units.number(compared.found.margin, 3)
            ),
        })
    }

    fn base(&self) -> Option<Parameter> {
        self.base_assumed.then(|| Parameter::given_or(None, BASE))
    }
}

/// The two strips, unless what was typed contradicts itself.
fn strips(
    form: &mut Form,
    readings: [Readings; 2],
    [first, second]: [Option<Readings>; 2],
    rolls: [u32; 2],
    base_assumed: bool,
    paired: bool,
) -> Option<[Strip; 2]> {
    const BASES: [&Field<DensityReadings>; 2] = [&fields::FIRST_BASE, &fields::SECOND_BASE];
    let counts = [0, 1].map(|side| readings[side].values.len());
    let mut sound = !form.at_fault("first_base") && !form.at_fault("second_base");
    if paired && counts[0] != counts[1] {
        let clause = format!(
            "paired lists are of one length; there are {} and {}",
            counts[0], counts[1]
        );
        form.fault("second", &clause);
        sound = false;
    }
    for (side, field) in ["first_rolls", "second_rolls"].into_iter().enumerate() {
        if rolls[side] as usize > counts[side] {
            let clause = format!(
                "there cannot be more rolls than readings; there {} {}",
                if counts[side] == 1 { "is" } else { "are" },
                counts[side]
            );
            form.fault(field, &clause);
            sound = false;
        }
    }
    let bases = match base_assumed {
        true => [0, 1].map(|_| Some(Readings::new(vec![BASE.value], 0.0))),
        false => [first.clone().or(second.clone()), second.or(first)],
    };
    let strips = [0, 1].map(|side| Strip {
        readings: readings[side].clone(),
        base: bases[side].clone(),
        rolls: rolls[side],
        repeat: 0.0,
    });
    for (side, strip) in strips.iter().enumerate() {
        let least = if base_assumed { BASE.most - BASE.value } else { 0.0 };
        if strip.mean() <= least {
            let field = BASES[side];
            match (base_assumed, strip.base.is_some()) {
                (true, _) => form.fault(
                    field.name(),
                    "so thin a tone needs its clear base here; 0 if the meter was set to zero on it",
                ),
                (_, true) => form.fault(field.name(), "the clear base cannot be as dense as what is on it"),
                _ => form.fault(["first", "second"][side], "a contrast of nothing tells nothing"),
            }
            sound = false;
        }
    }
    Some(strips).filter(|_| sound)
}
