//! The shelf as it is shown: every bottle and what can be done with it.

use std::rc::Rc;

use super::App;

/// Listens to the shelf.
pub fn start(_app: &Rc<App>) {}

/// Shows the shelf as it stands.
pub fn show(_app: &Rc<App>) {}
