//! What a comparison says: the verdict, what to do, the difference against what does not matter, and what else would do the same.

use super::super::{assumption, assumption_of, counted, given};
use super::{ByHands, Compared, Comparing, HANDS, MARGIN};
use crate::chemistry::Guess;
use crate::development::{Band, Parameter};
use crate::proof::comparison::{Comparison, Plan, Verdict};
use crate::proof::{STOP, TestKind};
use crate::quantity::{Span, TemperatureDifference, Units};
use crate::sheet::{Figure, Item, Picture};

/// From this change of contrast on an eye sees it for sure (photographic practice, from memory).
const SEEN: f64 = 0.10;

fn density(value: f64, units: Units) -> String {
    units.number(value, 3)
}

/// A density, or a difference of two.
fn figure(name: &'static str, label: &'static str, value: f64, units: Units) -> Figure {
    Figure {
        shown: density(value, units),
        ..Figure::number(name, label, value, 3, units)
    }
}

impl Comparing<'_> {
    pub(super) fn title(&self, units: Units) -> String {
        let product = self
            .recipe
            .bath
            .bottle
            .map_or("The one under test", |bottle| bottle.product.as_str());
        let count = |side: usize| {
            let strip = self.strips.as_ref().map(|strips| &strips[side]);
            strip.map_or(String::new(), |strip| {
                let mean = density(strip.readings.mean(), units);
                format!("{mean} from {}", counted(strip.readings.values.len(), "reading"))
            })
        };
        format!("{product} against fresh: {} and {}", count(0), count(1))
    }

    pub(super) fn headline(&self, compared: &Compared, units: Units) -> Vec<Figure> {
        let found = &compared.found;
        let assumed = self.repeat.is_none();
        let verdict = found.verdict();
        let mut headline = vec![
            Figure::word("verdict", "Verdict", verdict as usize, verdict.words()),
            figure("difference", "Difference of density", found.difference, units)
                .uncertain(found.uncertainty, |spread| density(spread, units))
                .assumed_if(assumed),
        ];
        if let Some(same) = compared.same {
            let show = |share: f64| units.percent(share);
            headline.push(
                Figure::percent("strength", "Strength against fresh", same.strength.value, units)
                    .uncertain(100.0 * compared.strength_uncertainty, |spread| show(spread / 100.0))
                    .between(&show(same.strength.least), &show(same.strength.most))
                    .assumed_if(assumed || same.strength.least != same.strength.most),
            );
        }
        headline
    }

    pub(super) fn to_do(&self, compared: &Compared, units: Units) -> Vec<Item> {
        let found = &compared.found;
        let margin = density(found.margin, units);
        let mut items: Vec<Item> = match found.verdict() {
            Verdict::Within if compared.is_strong_enough() => vec![format!(
                "The two are alike as far as it matters: whatever the difference really is, it is less than {margin}. Nothing \
                 here speaks against the bottle."
            )],
            Verdict::Within => vec![
                format!("Whatever the difference really is, it is less than {margin}, which is taken not to matter."),
                self.not_enough(compared, units),
            ],
            Verdict::Weaker => vec![
                format!("It is weaker by more than {margin}, more than your way of working explains."),
                "For paid work take the fresh one. For the rest, give its strength in Mix and Time, and develop longer."
                    .to_owned(),
            ],
            Verdict::Stronger => vec![
                format!("It is stronger by more than {margin}, more than your way of working explains."),
                "A developer does not grow stronger by itself. Look for too much concentrate, a warmer bath, a longer time, \
                 water gone from an open bottle; or the fresh one is the weak one."
                    .to_owned(),
            ],
            Verdict::CannotTell => self.cannot_tell(found, units),
        }
        .into_iter()
        .map(Item::Text)
        .collect();
        if found.margin > SEEN * found.means[1] {
            items.push(Item::Caution(format!(
                "What is taken not to matter, {margin}, is {} of contrast, and an eye sees less than that. Type a smaller one, or \
                 mend your process first.",
                units.percent(found.margin / found.means[1])
            )));
        }
        items
    }

    /// Why two that differ by no more than may be do not let the bottle pass.
    fn not_enough(&self, compared: &Compared, units: Units) -> String {
        let enough = TestKind::Comparison.enough();
        let looks_strong = compared.same.is_some_and(|same| same.strength.value >= enough);
        let wide = match self.margin.is_some() && !looks_strong {
            true => "What is taken not to matter",
            false => "What your process repeats",
        };
        let least = compared.at_least.map_or(String::new(), |least| {
            format!(
                " It may have as little as {} of its strength; from {} on it would pass.",
                units.percent(least),
                units.percent(enough)
            )
        });
        format!("{wide} is too wide to say that it is strong enough.{least} So nothing is written down.")
    }

    fn cannot_tell(&self, found: &Comparison, units: Units) -> Vec<String> {
        let margin = density(found.margin, units);
        let (low, high) = (density(found.interval.low, units), density(found.interval.high, units));
        let plan = found.plan();
        let strips = self.strips.iter().flatten();
        let of_a_roll = strips
            .map(|strip| strip.readings.values.len() / strip.rolls as usize)
            .max()
            .unwrap_or(1);
        let by_rolls = plan.rolls.map(|rolls| {
            format!(
                "develop {rolls} rolls of each in all, each by itself, and read each {}",
                match of_a_roll {
                    1 => "once".to_owned(),
                    2 => "twice".to_owned(),
                    many => format!("{many} times"),
                }
            )
        });
        let why = match found.differs() {
            true => format!(
                "It differs from fresh, but perhaps by less than matters: by {low} to {high}, and up to {margin} either way does \
                 not matter."
            ),
            false => format!(
                "The difference may be anything from {low} to {high}, and up to {margin} either way does not matter."
            ),
        };
        let todo = match (plan.readings, by_rolls) {
            (Some(readings), Some(rolls)) => {
                format!("Do this: take {readings} readings of each in all, of the same rolls. Or {rolls}.")
            }
            (Some(readings), None) => format!("Do this: take {readings} readings of each in all, of the same rolls."),
            (None, Some(rolls)) => format!(
                "Do this: {rolls}. More readings of the same rolls do not help: what one roll differs from the next stays in them."
            ),
            (None, None) => format!(
                "Not even {} rolls of each would tell. Let the difference that does not matter be larger, or mend your process \
                 first.",
                Plan::MOST
            ),
        };
        let mut texts = vec![todo, why];
        if plan.readings.is_some() || plan.rolls.is_some() {
            texts.push(
                "So many tell two that are alike from two that differ by twice what does not matter, in four cases of five."
                    .to_owned(),
            );
        }
        texts
    }

    pub(super) fn difference(&self, compared: &Compared, by_hands: Option<&ByHands>, units: Units) -> Vec<Item> {
        let found = &compared.found;
        let assumed = self.repeat.is_none();
        let show = |value| density(value, units);
        let margin = show(found.margin);
        let mut items = vec![Item::Picture(Picture::Interval {
            caption: format!(
                "Difference {}, nine times in ten from {} to {}; up to {margin} either way does not matter",
                show(found.difference),
                show(found.interval.low),
                show(found.interval.high)
            ),
            value: found.difference,
            interval: [found.interval.low, found.interval.high],
            band: found.margin,
            names: ["weaker".to_owned(), "stronger".to_owned()],
            shown: [show(found.difference), show(-found.margin), margin],
        })];
        let strips = self.strips.iter().flatten();
        let bare = strips.clone().all(|strip| strip.base.is_none());
        let labels = match bare {
            true => ["Under test", "Fresh"],
            false => ["Under test, above its base", "Fresh, above its base"],
        };
        for ((name, label), mean) in ["first_mean", "second_mean"].into_iter().zip(labels).zip(found.means) {
            items.push(Item::Figure(
                figure(name, label, mean, units).assumed_if(self.base_assumed),
            ));
        }
        items.extend([
            Item::Figure(
                Figure::percent("contrast", "As a change of contrast", compared.contrast, units)
                    .assumed_if(self.base_assumed),
            ),
            Item::Figure(Figure::number(
                "stops",
                "As light through it, in stops",
                found.difference / STOP,
                2,
                units,
            )),
            Item::Figure(figure("low", "Nine times in ten, at least", found.interval.low, units).assumed_if(assumed)),
            Item::Figure(figure("high", "Nine times in ten, at most", found.interval.high, units).assumed_if(assumed)),
            Item::Figure(
                figure("stays", "Of its uncertainty, more readings leave", found.stays(), units).assumed_if(assumed),
            ),
        ]);
        items.push(Item::Text(format!(
            "Both must be of one film and have had the same light: a stop more is worth {} of density, times the contrast.",
            units.number(STOP, 2)
        )));
        let single = strips.filter(|strip| strip.readings.values.len() == 1).count();
        if single > 0 {
            items.push(Item::Caution(
                "There is but one reading of a strip. How well it was read rests on the last digit that you typed, or on the ± with \
                 it; how evenly the strip was developed it cannot tell. Read three more places."
                    .to_owned(),
            ));
        }
        items.extend(by_hands.and_then(|by_hands| with_other_hands(found.verdict(), by_hands, units)));
        items
    }

    pub(super) fn would_do_the_same(&self, compared: &Compared, units: Units) -> Vec<Item> {
        let Some(same) = compared.same else {
            return vec![super::super::text(
                "So large a difference is not told as strength: no developing, however long, gives so much more contrast where it \
                 goes so far already. Say how far yours goes (k t), if you know.",
            )];
        };
        if compared.contrast.abs() < 1e-9 {
            return Vec::new();
        }
        let less = compared.contrast < 0.0;
        let word = |less_word: &'static str, more_word: &'static str| if less { less_word } else { more_word };
        // By its size; the label says which way.
        let sized = |band: Band| match less {
            true => [-band.value, -band.most, -band.least],
            false => [band.value, band.least, band.most],
        };
        let banded = |make: &dyn Fn(f64) -> Figure, band: Band| {
            let [value, least, most] = sized(band);
            make(value).between(&make(least).shown, &make(most).shown).assumed()
        };
        let mut items = Vec::new();
        if let Some(concentrate) = self.recipe.concentrate {
            let make = |share: f64| {
                let label = word("Less concentrate", "More concentrate");
                let volume = concentrate * share;
                Figure {
                    shown: units.volume_error(volume),
                    ..Figure::volume("same_concentrate", label, volume, units)
                }
            };
            items.push(Item::Figure(banded(&make, same.concentration)));
        }
        if let Some(seconds) = same.seconds {
            let make = |seconds: f64| {
                let label = word("Shorter developing", "Longer developing");
                Figure::seconds("same_seconds", label, Span::from_seconds(seconds), units)
            };
            items.push(Item::Figure(banded(&make, seconds)));
        }
        let make = |kelvins: f64| {
            let label = word("Colder bath", "Warmer bath");
            Figure::temperature_difference(
                "same_degrees",
                label,
                TemperatureDifference::from_kelvins(kelvins),
                units,
            )
        };
        items.extend(same.kelvins.map(|kelvins| Item::Figure(banded(&make, kelvins))));
        items.push(super::super::text(match same.kelvins {
            Some(_) => "Any one of these, alone, would make the difference that you see.",
            None => {
                "Any one of these, alone, would make the difference that you see. No temperature at which baths are used would, alone."
            }
        }));
        items
    }

    pub(super) fn unmeasured(
        &self,
        compared: Option<&Compared>,
        by_hands: Option<&ByHands>,
        units: Units,
    ) -> Vec<Item> {
        let show = |value: f64| density(value, units);
        let mut items = Vec::new();
        let middle = |compared: &Compared| (compared.repeats[0] + compared.repeats[1]) / 2.0;
        if let (Some(compared), Some(by_hands)) = (compared, by_hands) {
            let [least, most] = by_hands.each_ref().map(|other| other.as_ref().map_or(0.0, &middle));
            let repeat = Parameter::given_or(
                None,
                Guess {
                    value: middle(compared),
                    least: least.min(middle(compared)),
                    most: most.max(middle(compared)),
                    why: "from the error budget of a developing, with hands that repeat contrast to 1 to 4 %",
                },
            );
            let value = figure(
                "assumed_repeat",
                "Your rolls repeat to, in density",
                repeat.value,
                units,
            );
            items.extend(assumption_of(value, repeat, "repeat", &show));
        }
        if let Some(compared) = compared {
            let margin = match self.margin {
                Some(margin) => given(margin),
                None => Parameter::given_or(
                    None,
                    Guess {
                        value: compared.found.margin,
                        least: compared.found.margin * 2.0 / MARGIN,
                        most: compared.found.margin * 4.0 / MARGIN,
                        why: "three times what your rolls repeat to, two to four; a control chart raises its alarm there, and an \
                              eye about sees it",
                    },
                ),
            };
            let value = figure(
                "assumed_margin",
                "A difference that does not matter",
                margin.value,
                units,
            );
            items.extend(assumption_of(value, margin, "margin", &show));
        }
        if let Some(base) = self.base() {
            let value = figure("assumed_base", "Density of the clear base", base.value, units);
            items.extend(assumption(value, base, "first_base", units));
        }
        items.extend(self.recipe.unmeasured(&self.developings[0].house));
        items
    }
}

/// What it would be if the hand were another.
fn with_other_hands(verdict: Verdict, by_hands: &ByHands, units: Units) -> Option<Item> {
    let [steady, loose] = by_hands.each_ref().map(|other| Some(other.as_ref()?.found.verdict()));
    let (steady, loose) = (steady?, loose?);
    let [least, most] = HANDS.map(|hand| units.percent(hand / 100.0));
    Some(Item::Text(match steady == verdict && loose == verdict {
        true => format!(
            "It comes to the same with a hand that repeats contrast to {least} as with one that repeats it to {most}."
        ),
        false => format!(
            "It depends on how well your hand repeats: at {least} of contrast it is “{}”, at {most} it is “{}”. Develop a few rolls \
             alike, and type what they repeat to.",
            steady.words(),
            loose.words()
        ),
    }))
}
