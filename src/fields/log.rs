//! The fields by which the log is searched; its days are those of [`FROM`](super::FROM) and [`TO`](super::TO).

use super::kinds::{Names, Notes};
use super::{AnyField, BOTTLE, FROM, Field, TO};

/// Words that all must occur in a session.
pub const LOG_WORDS: Field<Notes> = Field::new("words", "Words of film, bath, remark", Notes);
/// The one session that is meant, by the name of its event.
pub const LOG_SESSION: Field<Names> = Field::new("session", "Session", Names);

/// The form of the search.
pub const LOG_FORM: &str = "log-search";
/// Its fields, in the order of the form.
pub const LOG_FIELDS: &[&dyn AnyField] = &[&LOG_WORDS, &FROM, &TO, &BOTTLE];
