//! Characteristic curves: they never fall, they do not know where densities and exposures begin, and more steps tell more.

use meniscus::proof::{CharacteristicCurve, CurveForm, ReadOff, check_steps};
use meniscus::uncertainty::Random;
use proptest::prelude::*;

use super::{close, tries};

const READING: f64 = 0.02;

/// A film with a toe, a straight line and a shoulder somewhere.
#[derive(Clone, Copy, Debug)]
struct Film {
    fog: f64,
    gamma: f64,
    toe: f64,
    soft: f64,
    line: f64,
}

impl Film {
    fn density(&self, exposure: f64) -> f64 {
        let bend = |from: f64| self.soft * ((exposure - from) / self.soft).exp().ln_1p();
        self.fog + self.gamma * (bend(self.toe) - bend(self.toe + self.line))
    }

    /// Steps over three log units, each read with its own error.
    fn steps(&self, count: usize, seed: u64) -> Vec<(f64, f64)> {
        let mut random = Random::new(seed);
        let exact = self.exact(count).into_iter();
        exact
            .map(|(at, density)| (at, density + READING * random.normal()))
            .collect()
    }

    /// The same, as if read without any.
    fn exact(&self, count: usize) -> Vec<(f64, f64)> {
        let all = (0..count).map(|index| 3.0 * index as f64 / (count - 1) as f64);
        all.map(|at| (at, self.density(at))).collect()
    }
}

fn film() -> impl Strategy<Value = Film> {
    (0.05f64..0.4, 0.4f64..1.2, 0.4f64..1.0, 0.08f64..0.3, 0.8f64..4.0).prop_map(|(fog, gamma, toe, soft, line)| Film {
        fog,
        gamma,
        toe,
        soft,
        line,
    })
}

/// Any densities that are in some order at all, mostly no film's.
fn any_steps() -> impl Strategy<Value = Vec<(f64, f64)>> {
    prop::collection::vec((0.02f64..0.5, -0.02f64..0.6), 6..30).prop_map(|all| {
        let (mut at, mut density) = (0.0, 0.3);
        let next = |(wide, more): (f64, f64)| {
            at += wide;
            density += more;
            (at, density)
        };
        all.into_iter().map(next).collect()
    })
}

fn figures(curve: &CharacteristicCurve) -> [Option<ReadOff>; 5] {
    [
        curve.gamma(),
        curve.criterion(),
        curve.contrast_index(),
        curve.base(),
        curve.speed_point(),
    ]
}

/// The same figure, but for what it is moved by.
fn same(one: &Option<ReadOff>, other: &Option<ReadOff>, by: f64) -> bool {
    match (one, other) {
        (Some(one), Some(other)) => {
            close(other.value - one.value, by, 1e-4)
                && match (one.standard_uncertainty(), other.standard_uncertainty()) {
                    (Some(one), Some(other)) => close(one, other, 1e-3 * one.max(0.01)),
                    (one, other) => one == other,
                }
        }
        (one, other) => one.is_none() && other.is_none(),
    }
}

proptest! {
    #![proptest_config(tries(300))]

    #[test]
    fn the_curve_never_falls(steps in any_steps(), base in prop::option::of(0.0f64..0.3)) {
        prop_assume!(check_steps(&steps, READING).is_ok());
        let curve = CharacteristicCurve::fit(&steps, base, READING).expect("sound steps");
        let (first, last) = curve.ends();
        let mut before = f64::NEG_INFINITY;
        for place in 0..=200 {
            let density = curve.density(first + (last - first) * f64::from(place) / 200.0).expect("a density");
            prop_assert!(density.value >= before - 1e-12, "{curve:?}");
            prop_assert!(density.standard_uncertainty().is_some());
            before = density.value;
        }
        prop_assert!(curve.base().is_some_and(|base| base.value <= curve.density(first).expect("a density").value + 0.3));
    }

    /// A constant on all densities moves base + fog alone; another beginning of the exposures moves the speed alone.
    #[test]
    fn beginnings_do_not_matter(film in film(), seed in any::<u64>(), more in 0.05f64..1.0, later in -3.0f64..3.0) {
        let steps = film.steps(20, seed);
        prop_assume!(check_steps(&steps, READING).is_ok());
        let fit = |density: f64, exposure: f64| {
            let moved: Vec<_> = steps.iter().map(|(at, is)| (at + exposure, is + density)).collect();
            CharacteristicCurve::fit(&moved, None, READING).expect("sound steps")
        };
        let (plain, denser, moved) = (fit(0.0, 0.0), fit(more, 0.0), fit(0.0, later));
        prop_assert_eq!((plain.form(), plain.form()), (denser.form(), moved.form()));
        let (plain, denser, moved) = (figures(&plain), figures(&denser), figures(&moved));
        for figure in 0..5 {
            let (by_density, by_exposure) = (if figure == 3 { more } else { 0.0 }, if figure == 4 { later } else { 0.0 });
            prop_assert!(same(&plain[figure], &denser[figure], by_density), "{} {:?} {:?}", figure, plain, denser);
            prop_assert!(same(&plain[figure], &moved[figure], by_exposure), "{} {:?} {:?}", figure, plain, moved);
        }
    }

    /// Four times as many steps halve, more or less, what is left open of gamma and base + fog, if the shape stays the same.
    #[test]
    fn more_steps_tell_more(film in film()) {
        let fit = |count| CharacteristicCurve::fit(&film.exact(count), None, READING).expect("sound steps");
        let (few, many) = (fit(14), fit(56));
        prop_assume!(few.form() == many.form() && few.form() != CurveForm::ThroughReadings);
        let u = |read: Option<ReadOff>| read.and_then(|read| read.standard_uncertainty()).expect("an uncertainty");
        for (few, many) in [(u(few.gamma()), u(many.gamma())), (u(few.base()), u(many.base()))] {
            prop_assert!((0.3..0.75).contains(&(many / few)), "{film:?}: {many} after {few}");
        }
    }

    /// A film with known numbers is found again, within four of what is said of each figure.
    #[test]
    fn known_numbers_are_found_again(film in film(), seed in any::<u64>()) {
        let steps = film.steps(40, seed);
        prop_assume!(check_steps(&steps, READING).is_ok());
        let curve = CharacteristicCurve::fit(&steps, None, READING).expect("sound steps");
        let steepest = film.gamma * (film.line / 4.0 / film.soft).tanh();
        for (read, known) in [(curve.gamma(), steepest), (curve.base(), film.fog)] {
            // Where the middle of the straight line lies beyond the steps, the steepest slope is not among them.
            if film.toe + film.line / 2.0 > 2.8 {
                continue;
            }
            let read = read.expect("a figure");
            let u = read.standard_uncertainty().expect("an uncertainty");
            // A shape that leaves one number out may be a little off where reading does not show it.
            prop_assert!((read.value - known).abs() < 4.0 * u + 0.01 * known + 0.01, "{film:?}: {known} {} {u}", read.value);
        }
    }
}
