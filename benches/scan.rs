//! The bench of scans.
fn main() {}
