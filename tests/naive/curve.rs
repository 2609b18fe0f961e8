//! The uncertainties of a curve's figures by brute force: the film is read again and again, each time with errors of its own, and
//! fitted anew; the figures must scatter as was said. And k from two times, by trying.

use meniscus::development::FirstOrder;
use meniscus::proof::{CharacteristicCurve, ReadOff};
use meniscus::quantity::Span;
use meniscus::uncertainty::Random;

const READING: f64 = 0.02;
const TIMES: usize = 1_000;

fn spread(values: &[f64]) -> f64 {
    let count = values.len() as f64;
    let mean = values.iter().sum::<f64>() / count;
    (values.iter().map(|value| (value - mean).powi(2)).sum::<f64>() / (count - 1.0)).sqrt()
}

type Figure = fn(&CharacteristicCurve) -> Option<ReadOff>;

const FIGURES: [(&str, Figure); 5] = [
    ("base + fog", CharacteristicCurve::base),
    ("gamma", CharacteristicCurve::gamma),
    ("speed point", CharacteristicCurve::speed_point),
    ("criterion", CharacteristicCurve::criterion),
    ("contrast index", CharacteristicCurve::contrast_index),
];

/// The spread of 1000 is itself good to 2.2 %; to first order the rest is within a tenth.
#[test]
fn figures_scatter_as_is_said() {
    // Log exposures with densities of a toe of softness 0.12 at 0.5, a line of 0.65, and a shoulder at `to`.
    for (count, to) in [(18, 9.0), (22, 2.3)] {
        let bend = |x: f64| 0.12 * (x / 0.12).exp().ln_1p();
        let density = |at: f64| 0.2 + 0.65 * (bend(at - 0.5) - bend(at - to));
        let exact: Vec<(f64, f64)> = (0..count)
            .map(|step| (0.15 * f64::from(step), density(0.15 * f64::from(step))))
            .collect();
        let said = CharacteristicCurve::fit(&exact, None, READING).expect("a curve");
        let mut random = Random::new(5);
        let mut found = vec![Vec::new(); FIGURES.len()];
        for _ in 0..TIMES {
            let read: Vec<_> = exact
                .iter()
                .map(|(at, is)| (*at, is + READING * random.normal()))
                .collect();
            // Another shape is another question; and one reading in some ten thousand is so far off that it is asked for again.
            if let Ok(curve) = CharacteristicCurve::fit(&read, None, READING)
                && curve.form() == said.form()
            {
                for (all, (_, of)) in found.iter_mut().zip(FIGURES) {
                    all.extend(of(&curve).map(|read| read.value));
                }
            }
        }
        for (all, (name, of)) in found.iter().zip(FIGURES) {
            assert!(all.len() > TIMES * 3 / 4, "{name}: only {}", all.len());
            let said = of(&said).and_then(|read| read.standard_uncertainty()).expect(name);
            let ratio = spread(all) / said;
            assert!(
                (0.85..1.15).contains(&ratio),
                "{name} of {count} steps: {ratio} of what was said, {said}"
            );
        }
    }
}

/// k by walking up from nothing in small steps until the ratio of the contrasts is reached.
#[test]
fn the_law_of_two_times_by_trying() {
    for (short, long, least, most) in [
        (4.0, 8.0, 0.60, 0.90),
        (5.0, 12.0, 0.52, 0.83),
        (7.0, 8.0, 0.600, 0.631),
    ] {
        let ratio = |k: f64| (1.0 - (-k * short).exp()) / (1.0 - (-k * long).exp());
        let mut k = 1e-6;
        while ratio(k) < least / most {
            k += 1e-6;
        }
        let found = FirstOrder::from_two((Span::from_minutes(short), least), (Span::from_minutes(long), most));
        let found = found.expect("rising, and flattening");
        super::near("k", found.rate, k, 2e-6);
        super::near("the limit", found.limit, most / (1.0 - (-k * long).exp()), 1e-4);
    }
}
