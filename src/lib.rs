//! Meniscus makes small volumes of photographic chemistry trustworthy: how much to draw with which instrument and how
//! exactly, how long to develop, whether the tank holds enough.
//!
//! The modules in reading order; each names only those before it.
//!
//! ```
//! use meniscus::{calculators::calculate, darkroom::Darkroom, fields::Named, quantity::Day, view};
//!
//! let today: Day = "2026-03-01".parse().expect("a day");
//! let answer = calculate("mix", &Named::new(), &Darkroom::starter(today)).expect("mix is in the list");
//! assert!(view::text(&answer).contains("18.75 ml"));
//! ```

pub mod quantity;
pub mod uncertainty;
pub mod chemistry;
pub mod development;
pub mod kit;
pub mod keeping;
pub mod proof;
pub mod session;
pub mod sheet;
pub mod fields;
pub mod store;
pub mod ledger;
pub mod darkroom;
pub mod example;
pub mod parts;
pub mod calculators;
pub mod entries;
pub mod view;
#[cfg(target_arch = "wasm32")]
pub mod browser;
#[cfg(any(test, feature = "scan"))]
pub mod scan;
#[cfg(any(not(target_arch = "wasm32"), feature = "day"))]
pub mod day;
#[cfg(all(target_arch = "wasm32", feature = "annex"))]
pub mod annex;
#[cfg(all(
    target_arch = "wasm32",
    not(any(feature = "annex", feature = "day", feature = "scan"))
))]
pub mod page;
