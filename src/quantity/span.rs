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

    /// In minutes.
    pub const fn minutes(self) -> f64 {
        self.0 / 60.0
    }
}
