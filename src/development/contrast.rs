//! The first-order law of development: gamma = gamma_inf (1 - exp(-k t)) (Sheppard and Mees 1907; Nietz 1922).

use crate::quantity::Span;

/// A film and developer at one temperature and dilution.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FirstOrder {
    /// Velocity constant, per minute.
    pub rate: f64,
    /// Contrast that endless development would give.
    pub limit: f64,
}

impl FirstOrder {
    /// From the contrast at a time and at twice that time; `None` unless the second is more than the first and less than
    /// twice it.
    ///
    /// ```
    /// use meniscus::development::FirstOrder;
    /// use meniscus::quantity::Span;
    ///
    /// let law = FirstOrder::from_doubled(Span::from_minutes(4.0), 0.60, 0.90).expect("rising, and flattening");
    /// assert!((law.rate - 0.1732868).abs() < 1e-6);
    /// assert_eq!(FirstOrder::from_doubled(Span::from_minutes(4.0), 0.60, 1.30), None);
    /// ```
    pub fn from_doubled(time: Span, contrast: f64, contrast_at_double: f64) -> Option<Self> {
        let gained = contrast_at_double - contrast;
        (contrast > 0.0 && gained > 0.0 && gained < contrast && time > Span::ZERO).then(|| Self {
            rate: (contrast / gained).ln() / time.minutes(),
            limit: contrast * contrast / (2.0 * contrast - contrast_at_double),
        })
    }

    /// Contrast after so long.
    pub fn contrast(&self, time: Span) -> f64 {
        self.limit * -(-self.rate * time.minutes()).exp_m1()
    }

    /// Time to a contrast; `None` if the film never gets there.
    pub fn time_to(&self, contrast: f64) -> Option<Span> {
        (contrast < self.limit && contrast >= 0.0)
            .then(|| Span::from_minutes(-(-contrast / self.limit).ln_1p() / self.rate))
    }

    /// d ln gamma / d ln t at the progress x = k t: what share of a relative error of rate or time shows as contrast.
    pub fn sensitivity(progress: f64) -> f64 {
        progress * (-progress).exp() / -(-progress).exp_m1()
    }
}
