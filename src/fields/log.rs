//! The fields by which the log is searched; its days are those of [`FROM`](super::FROM) and [`TO`](super::TO).

use super::Field;
use super::kinds::{Names, Notes};

/// Words that all must occur in a session.
pub const LOG_WORDS: Field<Notes> = Field::new("words", "Words", Notes);
/// The one session that is meant, by the name of its event.
pub const LOG_SESSION: Field<Names> = Field::new("session", "Session", Names);
