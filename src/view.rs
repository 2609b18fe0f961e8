//! A sheet to plain text, to HTML and SVG, and to data. Pure; tested on the host.
//!
//! ```
//! use meniscus::{calculators::calculate, darkroom::Darkroom, fields::Named, quantity::Day, view};
//!
//! let today: Day = "2026-03-01".parse().expect("a day");
//! let named = Named::from([("total".to_owned(), "<script>".to_owned())]);
//! let answer = calculate("mix", &named, &Darkroom::starter(today)).expect("mix is in the list");
//! assert!(!view::sheet(&answer).contains("<script>"));
//! ```

mod changes;
mod copies;
mod data;
mod html;
#[cfg(any(not(target_arch = "wasm32"), feature = "annex"))]
mod label;
#[cfg(any(not(target_arch = "wasm32"), feature = "annex"))]
mod log;
mod notices;
#[cfg(any(not(target_arch = "wasm32"), feature = "annex"))]
mod onward;
mod picture;
mod shelf;
mod text;

pub use changes::{Change, changes};
pub use copies::{Copies, copies, read_in, taken_in, unkept, written_down};
pub use data::{AssumptionData, Data, FigureData, data};
pub use html::{Block, headline, parts, sheet};
#[cfg(any(not(target_arch = "wasm32"), feature = "annex"))]
pub use label::label;
#[cfg(any(not(target_arch = "wasm32"), feature = "annex"))]
pub use log::{life_csv, log_csv, log_entry, log_list, log_markdown, log_text, log_without};
pub use notices::{Thing, dilutions, options, take_back, things, trouble, undo};
pub use shelf::{bottles, life_record, place_list, places, record_head, standing, verdict};
pub use text::text;
