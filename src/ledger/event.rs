//! Events: what can happen to a bottle or a place.

use super::description::{ContainerNote, Description, Opened, TestResult, Thousandths};
use super::id::{BottleId, EventId, Moment};
use crate::kit::{Climate, Light, Treatment};
use crate::proof::TestKind;
use crate::quantity::{Day, Dilution, Volume};

/// One thing that happened. Never changed once written; taken back by another event.
///
/// Amounts are kept to whole microlitres: what is finer than that does not survive the writing.
#[derive(Clone, Debug, PartialEq)]
pub struct Event {
    /// Its name. Version 7 names also tell when it was written down, which may be long after it happened.
    pub id: EventId,
    /// When it happened: what events are ordered by.
    pub at: Moment,
    /// The calendar day that the user saw when it happened. Kept as written, whatever zone the device moves to.
    pub day: Day,
    /// What happened.
    pub what: What,
}

/// What happened.
#[derive(Clone, Debug, PartialEq)]
pub enum What {
    /// A bottle came to the shelf. To say anew how it came, this is taken back and the bottle added again under its name.
    Added {
        /// Its name.
        bottle: BottleId,
        /// What it is.
        is: Box<Description>,
        /// How much is in it; `None` where nobody knows yet.
        filled: Option<Volume>,
        /// Whether and when it was opened before it came.
        opened: Opened,
    },
    /// A bottle was opened, for the first time or once more, and nothing taken.
    Opened {
        /// Which.
        bottle: BottleId,
    },
    /// Liquid was taken from a bottle.
    Drawn {
        /// Which.
        bottle: BottleId,
        /// How much.
        volume: Volume,
        /// For a bath of this volume.
        bath: Option<Volume>,
        /// At this dilution.
        dilution: Option<Dilution>,
        /// What for, in the user's words; may be empty.
        purpose: String,
    },
    /// Liquid was poured from a bottle into empty containers, which are bottles from now on.
    Decanted {
        /// From which.
        from: BottleId,
        /// Into which.
        into: Vec<Filled>,
    },
    /// Something was done about the air over the liquid. The bottle was open for it; the next opening undoes it, but for beads of
    /// a known volume, which stay.
    Treated {
        /// Which bottle.
        bottle: BottleId,
        /// What was done.
        how: Treatment,
    },
    /// A bath was mixed from bottles and water.
    Mixed {
        /// From which, and how much.
        from: Vec<Portion>,
        /// Water, or anything else that came from no bottle.
        water: Volume,
        /// The dilution that was wanted.
        dilution: Option<Dilution>,
        /// What became of it.
        into: Bath,
    },
    /// The content was tested.
    Tested {
        /// Which bottle.
        bottle: BottleId,
        /// By which test.
        test: TestKind,
        /// What it showed.
        result: TestResult,
        /// The user's words; may be empty.
        note: String,
    },
    /// Film went through the content.
    FilmsThrough {
        /// Which bottle.
        bottle: BottleId,
        /// How much, in film units.
        units: Thousandths,
        /// Which film, in words; may be empty.
        films: String,
    },
    /// Film was developed, from the first bath to the last. What was drawn, mixed and used for it are events of their own.
    Developed {
        /// The session as it went, in the written form of [`session_to_text`](super::session_to_text), which nothing but the log
        /// reads.
        text: String,
    },
    /// Liquid was poured into a bottle that has some.
    ToppedUp {
        /// Which.
        bottle: BottleId,
        /// How much.
        volume: Volume,
        /// Out of which bottle, if it came from one.
        from: Option<BottleId>,
    },
    /// A bottle was put in another place.
    Moved {
        /// Which.
        bottle: BottleId,
        /// The place's name.
        place: String,
    },
    /// What a place is like.
    PlaceNoted {
        /// The place's name.
        place: String,
        /// How warm it is.
        climate: Option<Climate>,
        /// How light it is.
        light: Option<Light>,
    },
    /// A place is no longer used: it goes off the list, until something is put there or noted of it again. What was noted of it
    /// holds for the time that bottles stood there.
    PlaceDropped {
        /// The place's name.
        place: String,
    },
    /// Somebody looked, or weighed: so much is left.
    ContentNoted {
        /// In which bottle.
        bottle: BottleId,
        /// How much.
        left: Volume,
    },
    /// What a bottle is, said anew: holds from the beginning of its life.
    BottleNoted {
        /// Which.
        bottle: BottleId,
        /// What it is.
        is: Box<Description>,
    },
    /// A bottle was emptied out, or put away for good.
    Discarded {
        /// Which.
        bottle: BottleId,
        /// Why, in the user's words; may be empty.
        reason: String,
    },
    /// Another event is taken back. To take back the taking back restores it.
    Corrected {
        /// Which.
        event: EventId,
    },
    /// A note.
    Note {
        /// On which bottle, or on none.
        bottle: Option<BottleId>,
        /// What it says.
        text: String,
    },
}

/// A container that was filled, and is a bottle from now on.
#[derive(Clone, Debug, PartialEq)]
pub struct Filled {
    /// Its name as a bottle.
    pub bottle: BottleId,
    /// The container.
    pub container: ContainerNote,
    /// How much went in.
    pub volume: Volume,
}

/// So much from a bottle.
#[derive(Clone, Debug, PartialEq)]
pub struct Portion {
    /// From which.
    pub bottle: BottleId,
    /// How much.
    pub volume: Volume,
}

/// What became of what was mixed.
#[derive(Clone, Debug, PartialEq)]
pub enum Bath {
    /// It is kept, as a bottle of its own.
    Kept {
        /// Its name.
        bottle: BottleId,
        /// What it is.
        is: Box<Description>,
    },
    /// It was used at once.
    Used {
        /// What for, in the user's words; may be empty.
        purpose: String,
    },
}

impl Event {
    /// What happened, for whoever gives it a name and a moment of its own.
    pub fn of_no_moment(what: What) -> Self {
        let day = Day::from_days(0);
        Self {
            id: EventId::derived("no moment"),
            at: Moment::noon(day),
            day,
            what,
        }
    }
}

impl What {
    /// The bottles that it begins.
    pub fn begins(&self) -> impl Iterator<Item = &BottleId> {
        let (one, many) = match self {
            Self::Added { bottle, .. }
            | Self::Mixed {
                into: Bath::Kept { bottle, .. },
                ..
            } => (Some(bottle), &[][..]),
            Self::Decanted { into, .. } => (None, &into[..]),
            _ => (None, &[][..]),
        };
        one.into_iter().chain(many.iter().map(|filled| &filled.bottle))
    }

    /// The bottles that must be there before it.
    pub fn needs(&self) -> impl Iterator<Item = &BottleId> {
        let (one, other, many) = match self {
            Self::Added { .. }
            | Self::Developed { .. }
            | Self::PlaceNoted { .. }
            | Self::PlaceDropped { .. }
            | Self::Corrected { .. } => (None, None, &[][..]),
            Self::Mixed { from, .. } => (None, None, &from[..]),
            Self::ToppedUp { bottle, from, .. } => (Some(bottle), from.as_ref(), &[][..]),
            Self::Note { bottle, .. } => (bottle.as_ref(), None, &[][..]),
            Self::Opened { bottle }
            | Self::Drawn { bottle, .. }
            | Self::Decanted { from: bottle, .. }
            | Self::Treated { bottle, .. }
            | Self::Tested { bottle, .. }
            | Self::FilmsThrough { bottle, .. }
            | Self::Moved { bottle, .. }
            | Self::ContentNoted { bottle, .. }
            | Self::BottleNoted { bottle, .. }
            | Self::Discarded { bottle, .. } => (Some(bottle), None, &[][..]),
        };
        let portions = many.iter().map(|portion| &portion.bottle);
        one.into_iter().chain(other).chain(portions)
    }
}
