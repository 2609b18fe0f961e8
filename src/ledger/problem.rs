//! What does not fit together in a ledger. Nothing of it stops the rest.

use super::id::{BottleId, EventId};
use crate::quantity::{Day, Units, Volume};

/// An event that does not fit.
#[derive(Clone, Debug, PartialEq)]
pub struct Problem {
    /// The event.
    pub event: EventId,
    /// Its day, as written.
    pub day: Day,
    /// The bottle that it is about.
    pub bottle: Option<BottleId>,
    /// What does not fit.
    pub trouble: Trouble,
}

/// What does not fit.
#[derive(Clone, Debug, PartialEq)]
pub enum Trouble {
    /// No event brings the bottle that it names.
    NoSuchBottle,
    /// The event that brought its bottle was taken back.
    BottleTakenBack,
    /// It is dated before its bottle came, on that day.
    BeforeItCame(Day),
    /// Its bottle was discarded before, on that day.
    AfterDiscarded(Day),
    /// Its bottle came before, on that day.
    CameBefore(Day),
    /// More was taken than was there.
    TooLittle {
        /// Taken.
        wanted: Volume,
        /// There.
        there: Volume,
    },
    /// The bottle holds more than its brim allows.
    OverTheBrim {
        /// In it.
        content: Volume,
        /// Its brimful capacity.
        brimful: Volume,
    },
    /// The event that it takes back is not here.
    NothingToTakeBack,
    /// It takes back an event that in turn takes it back.
    Circle,
    /// It is dated after today.
    Future,
    /// There are two records of this event that differ.
    TwoRecords,
}

impl Problem {
    /// In a sentence.
    pub fn sentence(&self, units: Units) -> String {
        let volume = |volume: Volume| units.volume(volume);
        match &self.trouble {
            Trouble::NoSuchBottle => {
                "The bottle of this event is not here; import the file of the device that it was written on.".to_owned()
            }
            Trouble::BottleTakenBack => "The coming of this bottle was taken back, so this does not count.".to_owned(),
            Trouble::BeforeItCame(came) => format!(
                "This is dated before its bottle came on {came}, as happens when a clock is set back; it counts as done right \
                 after."
            ),
            Trouble::AfterDiscarded(day) => {
                format!("The bottle was discarded on {day}; this comes after, and changes nothing in it.")
            }
            Trouble::CameBefore(day) => format!("A bottle of this name came on {day} already, so this does not count."),
            Trouble::TooLittle { wanted, there } => format!(
                "{} were taken where {} should have been left; look how much there is, and note it.",
                volume(*wanted),
                volume(*there)
            ),
            Trouble::OverTheBrim { content, brimful } => format!(
                "There would be {} in a bottle that holds {} to the brim; look how much there is, and note it.",
                volume(*content),
                volume(*brimful)
            ),
            Trouble::NothingToTakeBack => "The event that this takes back is not here.".to_owned(),
            Trouble::Circle => "This takes back an event that takes back this one; neither does.".to_owned(),
            Trouble::Future => "This is dated after today; was the clock ahead?".to_owned(),
            Trouble::TwoRecords => {
                "There are two different records of this event; both are kept, and every device counts the same one."
                    .to_owned()
            }
        }
    }
}
