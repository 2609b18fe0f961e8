//! A module of its own, which the page loads when steps are to be run or the log is opened: the timer of a developing, and the
//! record of those that were done.
//!
//! The timer counts nothing: what was pressed is kept with its time ([`crate::session::Run`]), and what is shown is worked out
//! from that. It is written down again with every press, so that a page that is reloaded, or a phone that ends it, loses nothing.

mod clock;
mod deeds;
mod kept;
pub mod markup;
pub mod words;
#[cfg(target_arch = "wasm32")]
mod host;
#[cfg(target_arch = "wasm32")]
mod log;
#[cfg(target_arch = "wasm32")]
mod room;
#[cfg(target_arch = "wasm32")]
mod sound;

pub use clock::{Clock, Jump};
pub use deeds::{Deed, deeds};
pub use kept::{Kept, Uncertain};
