//! The only reader of the clock.

/// Milliseconds since 1970-01-01 UTC.
pub fn now() -> u64 {
    js_sys::Date::now() as u64
}
