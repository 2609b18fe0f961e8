//! The cosine of a share of a turn. The one for any angle takes much room on the page, for the sake of very large angles.

use std::f64::consts::TAU;

/// The cosine of so many turns, within 1e-9 for as many turns as calendars have years.
pub(crate) fn cosine_of(turns: f64) -> f64 {
    let past_half = (turns - (turns + 0.5).floor()).abs();
    // Beyond a quarter it is the mirror image.
    let (share, sign) = match past_half > 0.25 {
        true => (0.5 - past_half, -1.0),
        false => (past_half, 1.0),
    };
    let square = (TAU * share) * (TAU * share);
    // The power series to the 16th power; the next term is less than 1e-12 at a quarter.
    let series = (1..=8).rev().fold(1.0, |rest, k| {
        let k = f64::from(2 * k);
        1.0 - square / (k * (k - 1.0)) * rest
    });
    sign * series
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Against the standard library.
    #[test]
    fn it_is_the_cosine() {
        for step in -40_000..=40_000 {
            let turns = f64::from(step) / 997.0;
            let theirs = (TAU * turns).cos();
            assert!(
                (cosine_of(turns) - theirs).abs() < 1e-12 * (1.0 + turns.abs()),
                "{turns}"
            );
        }
        for (turns, exact) in [
            (0.0, 1.0),
            (0.25, 0.0),
            (0.5, -1.0),
            (-0.75, 0.0),
            (7.0, 1.0),
            (1e6 + 0.5, -1.0),
        ] {
            assert!((cosine_of(turns) - exact).abs() < 1e-12, "{turns}");
        }
    }
}
