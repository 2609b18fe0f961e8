//! A day at the sink: the steps from dry film to dry film, and how they went.
//!
//! A [`Recipe`] is what is to be done, a [`Session`] what was done. Both are kept as they are: the words of baths and films stand
//! in them as they were that day, whatever becomes of the bottles.

mod line;
mod recipe;
mod went;
mod run;

pub use line::{Line, LineError, LineFault, Lines, STEP, read_lines};
pub use recipe::{Agitation, Bath, Made, Rate, Recipe, Step, StepKind};
pub use run::{Act, Cue, Leg, Mark, Now, Run};
pub use went::{Session, Went};
