//! A curve through the readings themselves, where no shape fits: the nearest densities that never fall, joined by a cubic that
//! never falls either.

use crate::quantity::held::held;

/// Densities that never fall, at rising exposures, with the slope at each.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Pieces {
    exposures: Vec<f64>,
    densities: Vec<f64>,
    slopes: Vec<f64>,
    /// Base + fog, where it was measured by itself.
    base: Option<f64>,
}

impl Pieces {
    /// Through these readings, in the order of exposure; at least two.
    pub fn new(readings: &[(f64, f64)], base: Option<f64>) -> Self {
        let exposures: Vec<f64> = readings.iter().map(|(exposure, _)| *exposure).collect();
        let densities = never_falling(readings.iter().map(|(_, density)| *density));
        let slopes = slopes(&exposures, &densities);
        Self {
            exposures,
            densities,
            slopes,
            base,
        }
    }

    /// Base + fog: as measured, or that of the first step.
    pub fn base(&self) -> f64 {
        self.base.unwrap_or(self.densities[0])
    }

    /// Density at a log exposure; beyond the ends that of the end.
    pub fn density(&self, exposure: f64) -> f64 {
        let last = self.exposures.len() - 1;
        let exposure = held(exposure, self.exposures[0], self.exposures[last]);
        let next = self
            .exposures
            .iter()
            .position(|&one| one > exposure)
            .unwrap_or(last)
            .max(1);
        let (from, wide) = (
            self.exposures[next - 1],
            self.exposures[next] - self.exposures[next - 1],
        );
        let t = (exposure - from) / wide;
        let s = 1.0 - t;
        self.densities[next - 1] * s * s * (1.0 + 2.0 * t)
            + self.densities[next] * t * t * (3.0 - 2.0 * t)
            + wide * t * s * (self.slopes[next - 1] * s - self.slopes[next] * t)
    }
}

/// The nearest values that never fall: neighbours that fall share their mean (isotonic regression by pooling, Ayer and others 1955).
fn never_falling(values: impl Iterator<Item = f64>) -> Vec<f64> {
    let mut pools: Vec<(f64, usize)> = Vec::new();
    for value in values {
        pools.push((value, 1));
        while let [.., (low, few), (high, more)] = pools[..] {
            if low <= high {
                break;
            }
            let count = few + more;
            let mean = (low * few as f64 + high * more as f64) / count as f64;
            pools.truncate(pools.len() - 2);
            pools.push((mean, count));
        }
    }
    pools
        .into_iter()
        .flat_map(|(mean, count)| std::iter::repeat_n(mean, count))
        .collect()
}

/// Slopes with which the cubic between two points never falls: weighted harmonic means (Fritsch and Butland 1984), at the ends by
/// three points.
fn slopes(x: &[f64], y: &[f64]) -> Vec<f64> {
    let wide: Vec<f64> = x.windows(2).map(|pair| pair[1] - pair[0]).collect();
    let chord: Vec<f64> = y
        .windows(2)
        .zip(&wide)
        .map(|(pair, wide)| (pair[1] - pair[0]) / wide)
        .collect();
    let count = x.len();
    if count == 2 {
        return vec![chord[0]; 2];
    }
    let end = |near: usize, far: usize| {
        let (h0, h1, m0, m1) = (wide[near], wide[far], chord[near], chord[far]);
        held(
            ((2.0 * h0 + h1) * m0 - h0 * m1) / (h0 + h1),
            0.0,
            if m1 > 0.0 { f64::INFINITY } else { 3.0 * m0 },
        )
    };
    let mut slopes = vec![end(0, 1)];
    for at in 1..count - 1 {
        let (before, after) = (chord[at - 1], chord[at]);
        let (w1, w2) = (2.0 * wide[at] + wide[at - 1], wide[at] + 2.0 * wide[at - 1]);
        slopes.push(match before > 0.0 && after > 0.0 {
            true => (w1 + w2) / (w1 / before + w2 / after),
            false => 0.0,
        });
    }
    slopes.push(end(count - 2, count - 3));
    slopes
}
