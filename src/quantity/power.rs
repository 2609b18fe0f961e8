//! Powers of positive numbers, by what the page has anyway. The library's own weighs a kilobyte after compression.

/// `base` to the power `exponent`, for a base above 0; to some 1e-15 of itself for each unit of the exponent times ln base.
pub(crate) fn power(base: f64, exponent: f64) -> f64 {
    (exponent * base.ln()).exp()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Against the standard library.
    #[test]
    fn it_is_the_librarys_power() {
        for base in [0.01, 0.5, 1.0, 1.9, 3.8, 100.0] {
            for exponent in [-3.0, -0.1, 0.0, 0.5, 1.0, 2.5] {
                let exact = f64::powf(base, exponent);
                assert!(
                    (power(base, exponent) / exact - 1.0).abs() < 1e-14,
                    "{base}, {exponent}"
                );
            }
        }
    }
}
