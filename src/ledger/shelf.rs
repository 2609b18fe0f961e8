//! The shelf: what the ledger says of every bottle and place on a given day.

use super::description::{Description, Opened, TestResult, Thousandths};
use super::event::{Event, What};
use super::id::{BottleId, EventId};
use super::order;
use super::problem::Problem;
use super::written::session::session_from_text;
use crate::kit::{self, Climate, Kept, Light, Treatment};
use crate::proof::TestKind;
use crate::quantity::{Day, Volume};
use crate::session::Session;

/// Every bottle and place that the ledger knows of.
#[derive(Clone, Debug, PartialEq)]
pub struct Shelf {
    /// The day for which it was worked out.
    pub today: Day,
    /// Bottles in the order in which they came.
    pub bottles: Vec<Bottle>,
    /// Places in the order in which they were first named.
    pub places: Vec<Place>,
    /// What did not fit together, in the order of the events.
    pub problems: Vec<Problem>,
    /// The events, each once, in the order in which they happened.
    pub events: Vec<Event>,
    pub(super) developed: Vec<usize>,
    pub(super) bottles_by_name: Vec<usize>,
    pub(super) events_by_name: Vec<usize>,
}

/// One vessel with its content and its life.
#[derive(Clone, Debug, PartialEq)]
pub struct Bottle {
    /// Its name.
    pub id: BottleId,
    /// What it is.
    pub is: Description,
    /// The day on which it came.
    pub since: Day,
    /// Whether and when it was opened; perhaps before it came.
    pub opened: Opened,
    /// How it stands now, or stood last.
    pub now: Stood,
    /// How it stood when it came, in the first place that is known.
    pub came: Stood,
    /// How it stood through its life, without gaps; no span while it was empty.
    pub life: Vec<Segment>,
    /// Every day on which air came in.
    pub openings: Vec<Opening>,
    /// What was taken to be used.
    pub draws: Vec<Draw>,
    /// Its tests.
    pub tests: Vec<Tested>,
    /// Film that went through it.
    pub films: Vec<Films>,
    /// From which bottles its content came.
    pub from: Vec<Source>,
    /// Water that it was mixed with.
    pub water: Volume,
    /// Whether it was poured over whole from another bottle, and so goes on with that one's life.
    pub decanted: bool,
    /// Where every microlitre went.
    pub account: Account,
    /// When and why it was discarded.
    pub discarded: Option<Discarded>,
    /// Its events, in the order in which they were counted.
    pub entries: Vec<Entry>,
}

/// How a bottle stands from one event to the next.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stood {
    /// Liquid in it; `None` where nobody knows.
    pub content: Option<Volume>,
    /// What was done to the air over it when it was closed last.
    pub treatment: Treatment,
    /// Whether it was opened yet; `None` where nobody knows.
    pub open: Option<bool>,
    /// Index of its place among [`Shelf::places`].
    pub place: Option<usize>,
}

/// A span of days in which nothing changed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Segment {
    /// First day.
    pub from: Day,
    /// The day on which something changed, later than the first.
    pub to: Day,
    /// How it stood.
    pub stood: Stood,
}

/// A day on which air came in.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Opening {
    /// The day.
    pub day: Day,
    /// How often on that day.
    pub times: u32,
    /// How it stood when it was put away that day.
    pub stood: Stood,
}

/// What was taken to be used.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Draw {
    /// The day, as written.
    pub day: Day,
    /// How much, as written, to the microlitre.
    pub volume: Volume,
    /// The event that says so.
    pub event: EventId,
}

/// A test.
#[derive(Clone, Debug, PartialEq)]
pub struct Tested {
    /// The day, as written.
    pub day: Day,
    /// Which test.
    pub test: TestKind,
    /// What it showed.
    pub result: TestResult,
    /// The user's words.
    pub note: String,
    /// The event that says so.
    pub event: EventId,
}

/// Film that went through a bath.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Films {
    /// The day, as written.
    pub day: Day,
    /// Film units.
    pub units: Thousandths,
    /// The event that says so.
    pub event: EventId,
}

/// Where content came from.
#[derive(Clone, Debug, PartialEq)]
pub struct Source {
    /// The day, as written.
    pub day: Day,
    /// From which bottle.
    pub bottle: BottleId,
    /// How much.
    pub volume: Volume,
    /// The event that says so.
    pub event: EventId,
}

/// Why a bottle is gone.
#[derive(Clone, Debug, PartialEq)]
pub struct Discarded {
    /// The day, as written.
    pub day: Day,
    /// The user's words.
    pub reason: String,
    /// The event that says so.
    pub event: EventId,
}

/// Where every microlitre of a bottle came from and went:
/// came + topped up + noted = left + drawn + decanted + discarded, wherever what is left is known.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Account {
    /// In it when it came; 0 where nobody knew.
    pub came: Volume,
    /// Poured in later.
    pub topped_up: Volume,
    /// Found by looking beyond what should have been there; negative where it was less.
    pub noted: Volume,
    /// Taken to be used, as far as it was there.
    pub drawn: Volume,
    /// Poured into other bottles, as far as it was there.
    pub decanted: Volume,
    /// In it when it was discarded.
    pub discarded: Volume,
}

/// An event in the life of a bottle.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Entry {
    /// Index among [`Shelf::events`].
    pub event: usize,
    /// Whether it counts.
    pub counts: Counts,
    /// What was left after it, if it changed that.
    pub left: Option<Volume>,
}

/// Whether an event counts.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Counts {
    /// It does.
    Yes,
    /// It was taken back.
    TakenBack,
    /// It does not fit what came before.
    No,
}

/// Where bottles stand.
#[derive(Clone, Debug, PartialEq)]
pub struct Place {
    /// Its name.
    pub name: String,
    /// What was noted of it, in the order of the events.
    pub notes: Vec<PlaceNote>,
    /// Whether it was taken off the list, and nothing was put there or noted of it since.
    pub dropped: bool,
}

/// What a place is like from a day on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PlaceNote {
    /// The day, as written.
    pub day: Day,
    /// How warm it is.
    pub climate: Option<Climate>,
    /// How light it is.
    pub light: Option<Light>,
    /// The event that says so.
    pub event: EventId,
}

/// What the shelf would like to know of a bottle.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Missing {
    /// How much is in it.
    Content,
    /// How big the bottle is.
    Capacity,
    /// What its wall is made of.
    Wall,
    /// Whether it was opened.
    Opened,
    /// Where it stands.
    Place,
}

impl Shelf {
    /// Whether the record of a bottle has that volume taken out of it on that day, to the hundredth of a millilitre.
    pub fn has_drawn(&self, bottle: &str, wanted: Volume, day: Day) -> bool {
        let entries = self
            .bottle(bottle)
            .map(|bottle| bottle.entries.as_slice())
            .unwrap_or_default();
        let is_wanted = |volume: &Volume| (volume.millilitres() - wanted.millilitres()).abs() < 0.01;
        let mut counted = entries.iter().filter(|entry| entry.counts == Counts::Yes);
        counted.any(|entry| {
            let event = &self.events[entry.event];
            let is_it = match &event.what {
                What::Drawn {
                    bottle: own, volume, ..
                } => own.as_str() == bottle && is_wanted(volume),
                What::Mixed { from, .. } => from
                    .iter()
                    .any(|portion| portion.bottle.as_str() == bottle && is_wanted(&portion.volume)),
                _ => false,
            };
            event.day == day && is_it
        })
    }

    /// One on which nothing stands.
    pub const fn empty(today: Day) -> Self {
        Self {
            today,
            bottles: Vec::new(),
            places: Vec::new(),
            problems: Vec::new(),
            events: Vec::new(),
            developed: Vec::new(),
            bottles_by_name: Vec::new(),
            events_by_name: Vec::new(),
        }
    }

    /// The bottle of that name.
    pub fn bottle(&self, id: &str) -> Option<&Bottle> {
        let names = &self.bottles_by_name;
        let found = names
            .binary_search_by(|&at| self.bottles[at].id.as_str().cmp(id))
            .ok()?;
        Some(&self.bottles[names[found]])
    }

    /// The event of that name.
    pub fn event(&self, id: EventId) -> Option<&Event> {
        self.position(id).map(|at| &self.events[at])
    }

    /// Which of the events, in the order in which they happened, has that name.
    pub fn position(&self, id: EventId) -> Option<usize> {
        order::find(&self.events, &self.events_by_name, id)
    }

    /// The place of that name.
    pub fn place(&self, name: &str) -> Option<&Place> {
        self.places.iter().find(|place| place.name == name)
    }

    /// The places that are in use, each with how many bottles stand there. One that was dropped while another device put a bottle
    /// there is in use.
    pub fn places_in_use(&self) -> impl Iterator<Item = (&Place, usize)> {
        let stands_in = |index| self.standing().filter(move |bottle| bottle.now.place == Some(index));
        let counted = self
            .places
            .iter()
            .enumerate()
            .map(move |(index, place)| (place, stands_in(index).count()));
        counted.filter(|(place, bottles)| !place.dropped || *bottles > 0)
    }

    /// Bottles that are not discarded.
    pub fn standing(&self) -> impl Iterator<Item = &Bottle> {
        self.bottles.iter().filter(|bottle| bottle.discarded.is_none())
    }

    /// What label and data sheet say of the bottles that stand here and are not empty, as calculators take it.
    pub fn labels(&self) -> Vec<Kept<kit::Bottle>> {
        self.standing()
            .filter(|bottle| !bottle.is_empty())
            .map(|bottle| Kept {
                id: bottle.id.to_string(),
                item: bottle.is.label.clone(),
            })
            .collect()
    }

    /// The developings that were not taken back, as their events have them and as they went, the last first; why it cannot be read
    /// where that is so.
    pub fn sessions(&self) -> impl Iterator<Item = (&Event, Result<Session, String>)> {
        self.developed.iter().rev().filter_map(|&at| {
            let event = &self.events[at];
            match &event.what {
                What::Developed { text } => Some((event, session_from_text(text))),
                _ => None,
            }
        })
    }

    /// The bottle that the whole content of this one was poured from, if it was decanted. One is always begun after the other, so
    /// that going back ends.
    pub fn decanted_from(&self, bottle: &Bottle) -> Option<&Bottle> {
        let source = bottle.from.first().filter(|_| bottle.decanted)?;
        self.bottle(source.bottle.as_str())
    }

    /// The bottles that its content stood in, from this one back to the one in which it came to the shelf.
    pub fn stood_in<'a>(&'a self, bottle: &'a Bottle) -> impl Iterator<Item = &'a Bottle> {
        std::iter::successors(Some(bottle), |bottle| self.decanted_from(bottle))
    }

    /// Film units that went through what is in a bottle, in those that it was decanted from too.
    pub fn films_through(&self, bottle: &Bottle) -> f64 {
        self.stood_in(bottle).map(Bottle::film_units).sum()
    }

    /// Tests that say something of what is in a bottle, made in it or in those that it was decanted from, the last first.
    pub fn tests_of<'a>(&'a self, bottle: &'a Bottle) -> Vec<&'a Tested> {
        let mut all: Vec<&Tested> = bottle.telling_tests().rev().collect();
        let mut stood_in = bottle;
        while let Some(before) = self.decanted_from(stood_in) {
            // A test of what stayed behind says nothing of what was poured off before it.
            let poured = stood_in.from.first().map(|source| self.position(source.event));
            let earlier = |test: &&Tested| Some(self.position(test.event)) < poured;
            all.extend(before.telling_tests().rev().filter(earlier));
            stood_in = before;
        }
        all
    }

    /// The strength of what is in a bottle, 1 as fresh, if the last test on it, but by eye, measured one that differs from fresh by more than
    /// that test could be wrong (k = 2).
    pub fn measured_strength(&self, bottle: &Bottle) -> Option<f64> {
        let tests = self.tests_of(bottle);
        let last = tests.iter().find(|test| test.result != TestResult::Seen)?;
        let TestResult::Strength { strength, uncertainty } = last.result else {
            return None;
        };
        let (strength, uncertainty) = (strength.number(), uncertainty.map_or(0.0, Thousandths::number));
        ((strength - 1.0).abs() > 2.0 * uncertainty).then_some(strength)
    }
}

impl Bottle {
    /// The tests made in it that say something of its content, in order; what a wash left in film says nothing.
    pub fn telling_tests(&self) -> impl DoubleEndedIterator<Item = &Tested> {
        let class = self.is.label.class;
        let tells = move |test: &&Tested| test.test != TestKind::ResidualThiosulfate && test.test.is_for(class);
        self.tests.iter().filter(tells)
    }

    /// Room over the liquid, whatever was done to the air in it; `None` where content or capacity to the brim is not known.
    pub fn headspace(&self, stood: &Stood) -> Option<Volume> {
        let room = self.is.container.brimful? - stood.content?;
        Some(room.max(Volume::ZERO))
    }

    /// What is left in it; `None` where nobody knows.
    pub fn left(&self) -> Option<Volume> {
        self.now.content
    }

    /// Whether it is known to be empty.
    pub fn is_empty(&self) -> bool {
        self.now.content == Some(Volume::ZERO)
    }

    /// Film units that went through it in all.
    pub fn film_units(&self) -> f64 {
        self.films.iter().map(|films| films.units.number()).sum()
    }

    /// What the shelf would like to know of it; nothing once it is discarded.
    pub fn missing(&self) -> Vec<Missing> {
        if self.discarded.is_some() {
            return Vec::new();
        }
        let container = &self.is.container;
        let questions = [
            (Missing::Content, self.now.content.is_none()),
            (
                Missing::Capacity,
                container.brimful.is_none() && container.nominal.is_none(),
            ),
            (Missing::Wall, container.material.is_none()),
            (Missing::Opened, self.opened == Opened::NotKnown),
            (Missing::Place, self.now.place.is_none()),
        ];
        let open = questions.into_iter().filter(|(_, open)| *open);
        open.map(|(missing, _)| missing).collect()
    }
}

impl Place {
    /// What it was like on a day: the last note up to it, or else the first.
    pub fn on(&self, day: Day) -> Option<&PlaceNote> {
        let until = self.notes.iter().rev().find(|note| note.day <= day);
        until.or(self.notes.first())
    }
}

impl Missing {
    /// The question for the user.
    pub fn question(self) -> &'static str {
        match self {
            Self::Content => "How much is left in it?",
            Self::Capacity => "How big is the bottle?",
            Self::Wall => "What is the bottle made of?",
            Self::Opened => "Was it ever opened?",
            Self::Place => "Where does it stand?",
        }
    }
}
