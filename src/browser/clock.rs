//! The only reader of the clock.

use crate::quantity::Day;

/// Milliseconds since 1970-01-01 UTC.
pub fn now() -> u64 {
    js_sys::Date::now() as u64
}

/// The day that the user's own calendar shows.
pub fn today() -> Day {
    let now = js_sys::Date::new_0();
    let year = i32::try_from(now.get_full_year()).unwrap_or(1970);
    Day::from_date(year, now.get_month() + 1, now.get_date()).unwrap_or(Day::from_days(0))
}

/// Milliseconds since the page was loaded, by a clock that nobody can set; 0 where the browser has none. On many devices it stands
/// while they sleep.
pub fn since_loaded() -> f64 {
    let performance = web_sys::window().and_then(|window| window.performance());
    performance.map_or(0.0, |performance| performance.now())
}
