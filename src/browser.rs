//! wasm only: what the page and its later modules ask of a browser: the document, forms, the store, the clock.

pub mod address;
pub mod clock;
mod door;
pub mod dom;
pub mod forms;
pub mod handed_out;

pub use door::door;

/// What the page tells its later modules by an event of the document: the ledger has changed.
pub const LEDGER_CHANGED: &str = "ledger-changed";
