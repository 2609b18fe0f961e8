//! Densities from a scan: no brightness changes them, an inverted picture says the same, and steps add up.

use meniscus::proof::sampling::{Area, Coding, Density, Light, Sampler, Writing};
use proptest::prelude::*;

use super::{close, tries};

const SIDE: usize = 40;

fn light(values: &[u16], writing: Writing) -> Light {
    let mut sampler = Sampler::new(SIDE, SIDE, writing).expect("it is large enough");
    for (row, values) in values.chunks_exact(SIDE).enumerate() {
        sampler.row(row, values, 1);
    }
    sampler.light().expect("it is not clipped")
}

fn writing(coding: Coding) -> Writing {
    Writing {
        coding,
        inverted: false,
        full: u16::MAX,
    }
}

fn values(least: u16, most: u16) -> impl Strategy<Value = Vec<u16>> {
    prop::collection::vec(least..most, SIDE * SIDE)
}

fn coding() -> impl Strategy<Value = Coding> {
    let gamma = (1.0f64..=3.0).prop_map(|gamma| Coding::gamma(gamma).expect("in its range"));
    prop_oneof![Just(Coding::Linear), Just(Coding::Srgb), gamma]
}

proptest! {
    #![proptest_config(tries(100))]

    #[test]
    fn brightness_on_everything_changes_no_density(base in values(8_000, 9_000), patch in values(1_000, 3_000), factor in 2u16..7) {
        let density = |factor: u16| {
            let of = |values: &[u16]| {
                let brighter: Vec<u16> = values.iter().map(|value| value * factor).collect();
                light(&brighter, writing(Coding::Linear))
            };
            (Density::between(&of(&base), &of(&patch)).expect("a density"), of(&patch))
        };
        let ((one, patch), (other, brighter)) = (density(1), density(factor));
        prop_assert!(close(one.value, other.value, 1e-12));
        prop_assert!(close(patch.scatter() * f64::from(factor), brighter.scatter(), 1e-9));
    }

    /// A power law forgives a factor on the code as well.
    #[test]
    fn nor_does_a_factor_on_values_under_a_power_law(base in values(8_000, 9_000), patch in values(1_000, 3_000), gamma in 1.0f64..3.0) {
        let coding = Coding::gamma(gamma).expect("in its range");
        let density = |factor: u16| {
            let of = |values: &[u16]| {
                light(&values.iter().map(|value| value * factor).collect::<Vec<_>>(), writing(coding))
            };
            Density::between(&of(&base), &of(&patch)).expect("a density").value
        };
        prop_assert!(close(density(1), density(7), 1e-9));
    }

    #[test]
    fn an_inverted_picture_says_the_same(values in values(100, 65_000), coding in coding()) {
        let turned: Vec<u16> = values.iter().map(|value| u16::MAX - value).collect();
        let inverted = Writing { inverted: true, ..writing(coding) };
        prop_assert_eq!(light(&values, writing(coding)), light(&turned, inverted));
    }

    #[test]
    fn steps_add_up(base in values(50_000, 60_000), middle in values(20_000, 30_000), dark in values(500, 5_000), coding in coding()) {
        let [base, middle, dark] = [base, middle, dark].map(|values| light(&values, writing(coding)));
        let step = |one, other| Density::between(one, other).expect("a density").value;
        prop_assert!(close(step(&base, &middle) + step(&middle, &dark), step(&base, &dark), 1e-9));
    }

    #[test]
    fn more_value_is_more_light(coding in coding(), value in 0.0f64..0.999) {
        prop_assert!(coding.light(value) < coding.light(value + 0.001));
        prop_assert!((0.0..=1.0).contains(&coding.light(value)));
    }

    #[test]
    fn areas_stay_in_the_picture(left in 0.0f64..=100.0, top in 0.0f64..=100.0, width in 0.0f64..=100.0, height in 0.0f64..=100.0,
        columns in 1u32..20_000, rows in 1u32..20_000) {
        let area = Area::of_percent([left, top, width, height], (columns, rows));
        prop_assert!(area.left + area.width <= columns && area.top + area.height <= rows);
    }
}
