//! Darkrooms for tests that are not about the shelf: a kit, no bottle with a life, on a day in spring.

use meniscus::darkroom::Darkroom;
use meniscus::kit::Kit;
use meniscus::quantity::Day;

/// The day on which these tests play.
pub fn today() -> Day {
    "2026-03-01".parse().expect("a day")
}

/// A darkroom with this kit.
#[allow(dead_code)]
pub fn with(kit: Kit) -> Darkroom {
    Darkroom::with(kit, today())
}

/// A darkroom with the starter kit.
#[allow(dead_code)]
pub fn starter() -> Darkroom {
    with(Kit::starter())
}
