//! The time that has passed since a run began, from two clocks that can each be wrong.
//!
//! The device's clock (milliseconds since 1970) goes on while the device sleeps and the page is closed, but can be set. The page's
//! own (milliseconds since it was loaded) cannot be set, but on many devices stands while they sleep. Where both agree, the page's
//! own counts. Where the device's has gone further, the device slept, or was put forward: nobody can tell which, so it is counted,
//! and said. Where it has gone less far, it was put back: that does not count.
//!
//! ```
//! use meniscus::day::{Clock, Jump};
//!
//! let mut clock = Clock::begin(1_000_000.0, 50.0);
//! assert_eq!(clock.read(1_002_000.0, 2_050.0), None);
//! assert_eq!(clock.elapsed(), 2_000);
//! // A minute of sleep.
//! assert_eq!(clock.read(1_063_000.0, 3_050.0), Some(Jump::Forward(60_000)));
//! assert_eq!(clock.elapsed(), 63_000);
//! // Put back by an hour.
//! assert_eq!(clock.read(-2_536_000.0, 4_050.0), Some(Jump::Back(3_600_000)));
//! assert_eq!(clock.elapsed(), 64_000);
//! ```

/// The two clocks may drift apart by so many milliseconds between two looks: a clock that is put right little by little moves by
/// less than a thousandth, and the page looks at least once a minute.
const SLACK: f64 = 500.0;

/// The time since a run began.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Clock {
    /// Milliseconds, as far as they are known.
    elapsed: f64,
    /// The device's clock when it was last looked at.
    device: f64,
    /// The page's own clock then.
    page: f64,
}

/// The device's clock has jumped against the page's own, by so many milliseconds.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Jump {
    /// The device slept, or its clock was put forward.
    Forward(i64),
    /// The device's clock was put back.
    Back(i64),
}

impl Clock {
    /// A run begins now.
    pub fn begin(device: f64, page: f64) -> Self {
        Self {
            elapsed: 0.0,
            device,
            page,
        }
    }

    /// A run goes on in a page that was loaded since: `elapsed` milliseconds had passed when the device's clock showed `then`.
    /// Where that clock is behind `then`, it was put back, and the time in between is not known.
    pub fn resume(elapsed: i64, then: f64, device: f64, page: f64) -> (Self, Option<Jump>) {
        let away = device - then;
        let clock = Self {
            elapsed: elapsed as f64 + away.max(0.0),
            device,
            page,
        };
        let jump = (away < -SLACK).then_some(Jump::Back(-away.round() as i64));
        (clock, jump)
    }

    /// Looks at both clocks.
    pub fn read(&mut self, device: f64, page: f64) -> Option<Jump> {
        let by_page = (page - self.page).max(0.0);
        let apart = device - self.device - by_page;
        self.device = device;
        self.page = page;
        self.elapsed += by_page;
        if apart > SLACK {
            self.elapsed += apart;
            return Some(Jump::Forward(apart.round() as i64));
        }
        (apart < -SLACK).then_some(Jump::Back(-apart.round() as i64))
    }

    /// Milliseconds since the run began, as of the last look.
    pub fn elapsed(&self) -> i64 {
        self.elapsed.round() as i64
    }

    /// What the device's clock showed at the last look.
    pub fn device(&self) -> f64 {
        self.device
    }

    /// It was the clock that was put forward, and no time has passed: takes it off again.
    pub fn take_off(&mut self, milliseconds: i64) {
        self.elapsed = (self.elapsed - milliseconds as f64).max(0.0);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_hour_of_seconds_adds_up() {
        let mut clock = Clock::begin(0.0, 0.0);
        for second in 1..=3600 {
            let at = f64::from(second) * 1000.3;
            assert_eq!(clock.read(at, at), None);
        }
        assert_eq!(clock.elapsed(), 3_601_080);
    }

    #[test]
    fn a_clock_that_is_put_right_little_by_little_changes_nothing() {
        let mut clock = Clock::begin(0.0, 0.0);
        for second in 1..=3600 {
            let at = f64::from(second) * 1000.0;
            assert_eq!(clock.read(at * 1.0005, at), None);
        }
        assert_eq!(clock.elapsed(), 3_600_000);
    }

    #[test]
    fn what_passed_while_the_page_was_away_is_counted() {
        let (clock, jump) = Clock::resume(60_000, 1_000_000.0, 1_030_000.0, 12.0);
        assert_eq!((clock.elapsed(), jump), (90_000, None));
        let (clock, jump) = Clock::resume(60_000, 1_000_000.0, 400_000.0, 12.0);
        assert_eq!((clock.elapsed(), jump), (60_000, Some(Jump::Back(600_000))));
    }

    #[test]
    fn a_clock_that_was_put_forward_can_be_taken_off() {
        let mut clock = Clock::begin(0.0, 0.0);
        assert_eq!(clock.read(3_601_000.0, 1_000.0), Some(Jump::Forward(3_600_000)));
        clock.take_off(3_600_000);
        assert_eq!(clock.elapsed(), 1_000);
    }
}
