//! A module of its own, which the page loads when densities are to be sampled from scans: the pictures of two strips, areas
//! drawn on them, and the densities of those written into a form.
//!
//! The module runs twice over. In the page it draws and listens. In a thread of each picture's own it holds that picture and reads
//! the areas' pixels, so that nothing in the page waits, and the memory is given back whole when the thread is ended: when
//! another picture comes, and when the room is left. Nothing of a picture is stored or sent anywhere.
//!
//! PNG and JPEG of 8 bits are read by the browser, TIFF and PNG of 16 bits by the module.

mod head;
mod pixels;
mod strip;
mod markup;
#[cfg(target_arch = "wasm32")]
mod thread;
#[cfg(target_arch = "wasm32")]
mod room;

pub use head::{Head, Kind, Unreadable, is_whole};
pub use markup::{MOST_PATCHES, areas, drawing, room_of_strips};
pub use pixels::{Pixels, read as read_pixels};
pub use strip::{Found, Spot, Strip};
