//! A span of time at the sink.

linear! {
    /// A duration, in seconds.
    Span, from_seconds, seconds, "seconds"
}

impl Span {
    /// From minutes.
    pub const fn from_minutes(minutes: f64) -> Self {
        Self(minutes * 60.0)
    }

    /// From milliseconds, as stored.
    pub const fn from_milliseconds(value: i64) -> Self {
        Self(value as f64 / 1000.0)
    }

    /// To the nearest millisecond, as stored.
    pub fn milliseconds(self) -> i64 {
        (self.0 * 1000.0).round() as i64
    }

    /// In minutes.
    pub const fn minutes(self) -> f64 {
        self.0 / 60.0
    }
}
