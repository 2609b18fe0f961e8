//! Laws of calibrating: the order tells nothing, more weighings narrow, a bias that is moved moves with it, and what is kept is what
//! Mix and Time then use.

use meniscus::calculators::calculate;
use meniscus::chemistry::Guess;
use meniscus::development::Parameter;
use meniscus::fields::Named;
use meniscus::kit::{Comparison, Kit, Weighing};
use meniscus::quantity::{Day, Mass, Temperature, TemperatureDifference, Volume};
use proptest::collection::vec;
use proptest::prelude::*;

use super::{darkroom, tries};

fn about(value: f64) -> Parameter {
    let guess = Guess {
        value,
        least: value * 0.8,
        most: value * 1.2,
        why: "a guess",
    };
    Parameter::given_or(None, guess)
}

fn weighing(grams: &[f64], water: f64) -> Weighing {
    Weighing {
        marked: Volume::from_millilitres(10.0),
        masses: grams.iter().copied().map(Mass::from_grams).collect(),
        water: Temperature::from_celsius(water),
        water_uncertainty: TemperatureDifference::from_kelvins(0.3),
        pressure: about(1000.0),
        expansion: about(3e-4),
        balance_step: Mass::from_grams(0.01),
        balance_error: about(0.001),
        evaporated: about(0.003),
    }
}

fn near(got: f64, wanted: f64) -> Result<(), TestCaseError> {
    prop_assert!(
        (got - wanted).abs() <= 1e-9 * wanted.abs().max(1.0),
        "{got} is not {wanted}"
    );
    Ok(())
}

proptest! {
    #![proptest_config(tries(200))]

    #[test]
    fn the_order_of_weighings_tells_nothing(grams in vec(8.5f64..11.5, 2..20), water in 10.0f64..40.0) {
        let found = weighing(&grams, water).found().expect("two or more");
        let back: Vec<f64> = grams.iter().rev().copied().collect();
        let other = weighing(&back, water).found().expect("two or more");
        near(found.bias.millilitres(), other.bias.millilitres())?;
        near(found.uncertainty.millilitres(), other.uncertainty.millilitres())?;
        near(found.scatter.millilitres(), other.scatter.millilitres())?;
        near(found.repeatability.millilitres(), other.repeatability.millilitres())?;
    }

    /// Never below what the balance leaves, and less with each doubling.
    #[test]
    fn weighing_twice_as_often_narrows(grams in vec(8.5f64..11.5, 2..20), water in 10.0f64..40.0) {
        let few = weighing(&grams, water).found().expect("two or more");
        let twice = [grams.clone(), grams].concat();
        let many = weighing(&twice, water).found().expect("two or more");
        near(few.bias.millilitres(), many.bias.millilitres())?;
        prop_assert!(many.uncertainty < few.uncertainty);
        prop_assert!(many.scatter <= few.scatter);
        prop_assert!(many.repeatability <= few.repeatability);
        prop_assert!(many.uncertainty.millilitres() > 0.01 / 6f64.sqrt());
    }

    /// Two readings of a step d each leave d/sqrt(6) (JCGM 100, F.2.2.1): of the mean, and of what may be hidden of the scatter.
    #[test]
    fn the_same_weight_always_leaves_the_balance(grams in 8.5f64..11.5, count in 2usize..30, water in 10.0f64..40.0) {
        let found = weighing(&vec![grams; count], water).found().expect("two or more");
        prop_assert!(found.scatter.millilitres() < 1e-9);
        let step = weighing(&[], water).volume_of(Mass::from_grams(0.01 / 6f64.sqrt()));
        near(found.repeatability.millilitres(), step.millilitres())?;
        prop_assert!(found.uncertainty.millilitres() >= 0.01 / 6f64.sqrt());
    }

    /// What is kept of how well it is repeated is never better than what was seen, nor than what the steps could hide.
    #[test]
    fn no_repeatability_is_kept_that_was_not_seen(grams in vec(9.9f64..10.1, 2..12), step in 0.0001f64..0.2) {
        let mut weighing = weighing(&grams, 20.0);
        weighing.balance_step = Mass::from_grams(step);
        let found = weighing.found().expect("two or more");
        prop_assert!(found.repeatability >= found.scatter);
        prop_assert!(found.repeatability.millilitres() >= step / 6f64.sqrt());
    }

    /// An instrument with that tolerance delivers the mark that was weighed as it was found.
    #[test]
    fn what_is_kept_is_what_was_found(grams in vec(9.0f64..11.0, 2..12), water in 10.0f64..40.0) {
        let found = weighing(&grams, water).found().expect("two or more");
        let mut syringe = Kit::starter().instruments.remove(0).item;
        syringe.tolerance = found.tolerance();
        let delivered = syringe.delivered_at(Volume::from_millilitres(10.0)).millilitres();
        prop_assert!((delivered - found.delivered.value()).abs() <= 0.000_51, "{delivered}");
    }

    /// A thermometer that is off by so much more is put right by so much more, and the order of the pairs tells nothing.
    #[test]
    fn a_thermometer_is_put_right(pairs in vec((10.0f64..40.0, -0.5f64..0.5), 1..12), more in -2.0f64..2.0, shown in 10.0f64..40.0) {
        let found = |pairs: &[(f64, f64)]| {
            let celsius = Temperature::from_celsius;
            let comparison = Comparison {
                readings: pairs.iter().map(|&(t, b)| (celsius(t), celsius(t + b))).collect(),
                reference: about(0.1),
                step: TemperatureDifference::from_kelvins(0.1),
                drift: about(0.01),
            };
            comparison.found(Day::from_days(20_000)).expect("a pair").line
        };
        let shown = Temperature::from_celsius(shown);
        let line = found(&pairs);
        let back: Vec<_> = pairs.iter().rev().copied().collect();
        near(found(&back).corrected(shown).celsius(), line.corrected(shown).celsius())?;
        let off: Vec<_> = pairs.iter().map(|(t, b)| (*t, b + more)).collect();
        near(found(&off).corrected(shown).celsius(), line.corrected(shown).celsius() + more)?;
        near(found(&off).standard_uncertainty(shown).kelvins(), line.standard_uncertainty(shown).kelvins())?;
        // What it shows is what is put right again.
        near(line.shows(line.corrected(shown)).celsius(), shown.celsius())?;
        near(line.corrected(line.shows(shown)).celsius(), shown.celsius())?;
        // No better than the better one, one reading's step and the drift leave it.
        prop_assert!(line.standard_uncertainty(shown).kelvins() > (0.01f64 / 3.0 + 0.01 / 12.0).sqrt());
        // The kit puts right what is typed.
        let kit = Kit { thermometer: Some(line), ..Kit::starter() };
        prop_assert_eq!(kit.corrected(shown), line.corrected(shown));
        prop_assert_eq!(Kit::starter().corrected(shown), shown);
    }

    /// What is kept is a gain: one draw by it is better than by the limit, or the limit is not kept at all.
    #[test]
    fn nothing_is_kept_that_makes_it_worse(
        grams in vec(9.0f64..11.0, 2..12),
        pairs in vec((15.0f64..25.0, -0.3f64..0.3), 1..6),
    ) {
        let list = |texts: Vec<String>| texts.join("; ");
        let masses = list(grams.iter().map(|grams| format!("{grams:.2}")).collect());
        let readings = list(pairs.iter().map(|(t, b)| format!("{t:.1} {:.1}", t + b)).collect());
        for (what, field, text) in [("volume", "masses", masses), ("thermometer", "readings", readings)] {
            let named = Named::from([("what", what), (field, &text)].map(|(name, text)| (name.to_owned(), text.to_owned())));
            let answer = calculate("calibrate", &named, &darkroom::with_events(Kit::starter(), &[])).expect("calibrate");
            let figure = |name| answer.sheet.figure(name).map(|figure| figure.value);
            // Pairs that contradict one another find nothing.
            let Some((before, after)) = figure("before_u").zip(figure("after_u")) else {
                prop_assert_eq!(answer.sheet.calibration, None);
                continue;
            };
            let is_gain = after < before || figure("verdict") == Some(1.0);
            prop_assert_eq!(answer.sheet.calibration.is_some(), is_gain, "{}", text);
        }
    }
}
