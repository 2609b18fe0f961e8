//! A stretch of numbers.

/// From `low` to `high`, both included, in the unit of the value it belongs to.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Interval {
    /// The lower end.
    pub low: f64,
    /// The upper end.
    pub high: f64,
}

impl Interval {
    /// Whether `value` lies within.
    ///
    /// ```
    /// use meniscus::uncertainty::Interval;
    ///
    /// let band = Interval { low: 5.8, high: 6.2 };
    /// assert!(band.contains(6.0) && !band.contains(6.3));
    /// ```
    pub fn contains(self, value: f64) -> bool {
        self.low <= value && value <= self.high
    }
}
