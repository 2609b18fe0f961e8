//! Comparing two negatives: exchanged, they give the mirrored verdict; what both have in common changes nothing.

use meniscus::proof::comparison::{Comparison, Readings, Strip, Verdict};
use proptest::prelude::*;

use super::{close, tries};

fn strip(count: impl Into<prop::collection::SizeRange>) -> impl Strategy<Value = Strip> {
    let values = prop::collection::vec(0.1f64..2.5, count);
    (
        values,
        0.0f64..0.1,
        prop::sample::select(vec![0.0, 0.001, 0.01]),
        1u32..4,
        0.0f64..0.1,
    )
        .prop_map(|(values, own, step, rolls, repeat)| Strip {
            rolls: rolls.min(values.len() as u32),
            readings: Readings {
                uncertainties: vec![own; values.len()],
                ..Readings::new(values, step)
            },
            base: None,
            repeat,
        })
}

/// Two strips, paired or not.
fn two() -> impl Strategy<Value = (Strip, Strip, bool)> {
    let pairs = (1usize..8).prop_flat_map(|count| (strip(count), strip(count), Just(true)));
    prop_oneof![pairs, (strip(1..8), strip(1..8), Just(false))]
}

fn mirrored(verdict: Verdict) -> Verdict {
    match verdict {
        Verdict::Weaker => Verdict::Stronger,
        Verdict::Stronger => Verdict::Weaker,
        other => other,
    }
}

fn changed(strip: &Strip, change: impl Fn(&[f64]) -> Vec<f64>) -> Strip {
    let mut strip = strip.clone();
    strip.readings.values = change(&strip.readings.values);
    strip.readings.uncertainties = vec![strip.readings.uncertainties[0]; strip.readings.values.len()];
    strip
}

proptest! {
    #![proptest_config(tries(1000))]

    #[test]
    fn exchanged_strips_give_the_mirrored_verdict((first, second, paired) in two(), margin in 0.001f64..1.0) {
        let one = Comparison::new(&first, &second, paired, margin);
        let other = Comparison::new(&second, &first, paired, margin);
        prop_assert_eq!(one.verdict(), mirrored(other.verdict()));
        prop_assert!(close(one.difference, -other.difference, 1e-12));
        prop_assert!(close(one.uncertainty, other.uncertainty, 1e-12));
    }

    #[test]
    fn a_base_that_both_have_changes_nothing((first, second, paired) in two(), margin in 0.001f64..1.0, base in 0.0f64..1.0) {
        let plain = Comparison::new(&first, &second, paired, margin);
        let raised = |strip: &Strip| changed(strip, |values| values.iter().map(|value| value + base).collect());
        let on_base = Comparison::new(&raised(&first), &raised(&second), paired, margin);
        prop_assert!(close(plain.interval.low, on_base.interval.low, 1e-9));
        prop_assert!(close(plain.interval.high, on_base.interval.high, 1e-9));
        let taken_off = |strip: &Strip| Strip { base: Some(Readings::new(vec![base], 0.0)), ..raised(strip) };
        let found = Comparison::new(&taken_off(&first), &taken_off(&second), paired, margin);
        prop_assert!(close(plain.interval.low, found.interval.low, 1e-9));
        prop_assert!(close(plain.means[0], found.means[0], 1e-9));
    }

    /// The same readings over again, of the same rolls.
    #[test]
    fn more_readings_never_widen_it((first, second, paired) in two(), times in 2usize..5) {
        // Where each is of a roll of its own, more readings would be more rolls.
        let one_roll = |strip: &Strip| Strip { rolls: 1, ..strip.clone() };
        let (first, second) = (one_roll(&first), one_roll(&second));
        let again = |strip: &Strip| changed(strip, |values| values.repeat(times));
        let few = Comparison::new(&first, &second, paired, 0.1);
        let many = Comparison::new(&again(&first), &again(&second), paired, 0.1);
        let width = |found: &Comparison| found.interval.high - found.interval.low;
        let known = first.readings.values.len() > 1 && second.readings.values.len() > 1;
        prop_assert!(!known || width(&many) <= width(&few) * (1.0 + 1e-9), "{} {}", width(&many), width(&few));
        prop_assert!(few.stays() <= few.uncertainty * (1.0 + 1e-12));
    }

    #[test]
    fn a_wider_margin_never_makes_two_that_are_alike_differ((first, second, paired) in two(), margin in 0.001f64..1.0, more in 1.0f64..3.0) {
        let narrow = Comparison::new(&first, &second, paired, margin).verdict();
        let wide = Comparison::new(&first, &second, paired, margin * more).verdict();
        prop_assert!(narrow != Verdict::Within || wide == Verdict::Within);
        prop_assert!(!matches!(wide, Verdict::Weaker | Verdict::Stronger) || narrow == wide);
    }

    /// Readings and rolls that are asked for are more than there are, and no more than can be asked for.
    #[test]
    fn what_is_asked_for_is_more_than_there_is((first, second, paired) in two(), margin in 0.001f64..1.0) {
        let plan = Comparison::new(&first, &second, paired, margin).plan();
        let fewest = first.readings.values.len().min(second.readings.values.len()) as u32;
        prop_assert!(plan.readings.is_none_or(|readings| readings > fewest && readings <= 100));
        prop_assert!(plan.rolls.is_none_or(|rolls| rolls > first.rolls.min(second.rolls) && rolls <= 100));
    }
}
