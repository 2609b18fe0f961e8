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
    /// From the contrast at two times: k by halving, from contrast / other = (1 - exp(-k t)) / (1 - exp(-k t_other)). `None`
    /// unless the longer time gives more contrast, and less than in proportion to the time. Where one time is twice the other it
    /// is k = ln(gamma_1 / (gamma_2 - gamma_1)) / t_1 (Sheppard and Mees).
    ///
    /// ```
    /// use meniscus::development::FirstOrder;
    /// use meniscus::quantity::Span;
    ///
    /// let four = (Span::from_minutes(4.0), 0.60);
    /// let law = FirstOrder::from_two(four, (Span::from_minutes(8.0), 0.90)).expect("rising, and flattening");
    /// assert!((law.rate - 0.1732868).abs() < 1e-6);
    /// assert_eq!(FirstOrder::from_two(four, (Span::from_minutes(8.0), 1.30)), None);
    /// ```
    pub fn from_two(one: (Span, f64), other: (Span, f64)) -> Option<Self> {
        let ((short, least), (long, most)) = if one.0 < other.0 { (one, other) } else { (other, one) };
        let slower = short.seconds() / long.seconds();
        if !(short > Span::ZERO && least > 0.0 && least < most && least > most * slower) {
            return None;
        }
        // The ratio rises with k, from that of the times to 1.
        let ratio = |rate: f64| (-rate * short.minutes()).exp_m1() / (-rate * long.minutes()).exp_m1();
        let (mut low, mut high) = (1e-9f64.ln(), 1e9f64.ln());
        for _ in 0..100 {
            let middle = (low + high) / 2.0;
            match ratio(middle.exp() / long.minutes()) < least / most {
                true => low = middle,
                false => high = middle,
            }
        }
        let progress = ((low + high) / 2.0).exp();
        Some(Self::through(long, most, progress))
    }

    /// From the contrast at a time, and how far development has gone by then: x = k t.
    pub fn through(time: Span, contrast: f64, progress: f64) -> Self {
        Self {
            rate: progress / time.minutes(),
            limit: contrast / -(-progress).exp_m1(),
        }
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
