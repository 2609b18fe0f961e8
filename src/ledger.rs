//! The ledger: what happened to every bottle, written down once and never changed; and the shelf that follows from it.
//!
//! An event is taken back by another event. Events in any order, from one device or from several, fold to the same [`Shelf`];
//! what does not fit is told as a [`Problem`], what cannot be read is kept as it is.
//!
//! ```
//! use meniscus::chemistry::Class;
//! use meniscus::kit::Bottle;
//! use meniscus::ledger::{BottleId, Description, Event, EventId, Moment, Opened, Shelf, What};
//! use meniscus::quantity::{Day, Units, Volume};
//!
//! let bottle = BottleId::new("blue-1")?;
//! let label = Bottle {
//!     product: "Blue Syrup".into(),
//!     class: Class::Syrup,
//!     density: None,
//!     dilutions: vec![],
//!     least_per_film: None,
//!     times: vec![],
//!     exponent: None,
//! };
//! let added = What::Added {
//!     bottle: bottle.clone(),
//!     is: Box::new(Description::of(label)),
//!     filled: Some(Volume::from_millilitres(250.0)),
//!     opened: Opened::Never,
//! };
//! let drawn = What::Drawn {
//!     bottle,
//!     volume: Volume::from_millilitres(18.75),
//!     bath: Some(Volume::from_millilitres(600.0)),
//!     dilution: "1+31".parse().ok(),
//!     purpose: String::new(),
//! };
//! let day: Day = "2026-03-01".parse().expect("a day");
//! let event = |after: i32, what| {
//!     let at = Moment::noon(day + after);
//!     Event { id: EventId::new(at, 1), at, day: day + after, what }
//! };
//!
//! let shelf = Shelf::fold(vec![event(1, drawn), event(0, added)], day + 30);
//! let record = shelf.life_record("blue-1", Units::default());
//! assert_eq!(record[1].to_string(), "2026-03-02 drew 18.75 ml for 600 ml at 1+31; 231.25 ml left");
//! # Ok::<(), meniscus::ledger::IdError>(())
//! ```

mod id;
mod description;
mod event;
mod order;
mod shelf;
mod problem;
mod corrections;
mod fold;
mod life;
mod words;
mod written;
mod record;
mod merge;
mod file;
mod keep;
mod usage;
pub mod migrate;

pub use description::{ContainerNote, Description, Opened, Price, TestResult, Thousandths};
pub use event::{Bath, Event, Filled, Portion, What};
pub use file::{Complaint, Import, LARGEST, Rejected, export, import};
pub use id::{BottleId, EventId, IdError, Moment};
pub use keep::{KeepError, Loaded, TakenIn, append, load_all, read_all, take_in};
pub use life::ContentLife;
pub use merge::{Ledger, added};
pub use order::sort_texts;
pub use problem::{Problem, Trouble};
pub use record::read;
pub use shelf::{
    Account, Bottle, Counts, Discarded, Draw, Entry, Films, Missing, Opening, Place, PlaceNote, Segment, Shelf, Source,
    Stood, Tested,
};
pub use usage::{ROOM, Usage};
pub use words::Line;
pub use written::session::{recipe_from_text, recipe_to_text, session_from_text, session_to_text};

/// The word of every kind of event, as it stands in the store.
pub const KINDS: [&str; 18] = written::KINDS;
