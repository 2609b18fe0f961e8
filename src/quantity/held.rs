//! A number held between two others. The standard library's clamp can stop with a message that shows numbers, and so brings all
//! of its code for that to the page.

/// The value, or the nearer end if it lies outside. What is no number stays so.
pub(crate) fn held(value: f64, least: f64, most: f64) -> f64 {
    match value {
        low if low < least => least,
        high if high > most => most,
        within => within,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Against the standard library.
    #[test]
    fn it_is_the_clamp() {
        for value in [f64::NEG_INFINITY, -1.0, -0.0, 0.0, 0.3, 1.0, 1.5, f64::INFINITY] {
            assert_eq!(held(value, 0.0, 1.0), value.clamp(0.0, 1.0), "{value}");
        }
        assert!(held(f64::NAN, 0.0, 1.0).is_nan());
    }
}
