//! One bottle while its events are taken in: whole microlitres, and days that only go forward.

use crate::kit::Treatment;
use crate::ledger::description::{Description, Opened, TestResult, Thousandths};
use crate::ledger::event::Event;
use crate::ledger::id::BottleId;
use crate::ledger::problem::Trouble;
use crate::ledger::shelf::{
    Account, Bottle, Counts, Discarded, Draw, Entry, Films, Opening, Segment, Source, Stood, Tested,
};
use crate::proof::TestKind;
use crate::quantity::{Day, Volume};

/// A bottle in the making.
pub(super) struct Vessel {
    bottle: Bottle,
    /// Whole microlitres, so that sums are exact.
    left: Option<i64>,
    came: i64,
    topped_up: i64,
    noted: i64,
    drawn: i64,
    decanted: i64,
    discarded: i64,
    /// Since when it stands as it does.
    start: Day,
    /// The latest day so far: a life goes forward, whatever the clock did.
    last: Day,
    /// What was in it after each event that put something in.
    fills: Vec<(usize, i64)>,
}

/// Where liquid goes.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Outflow {
    /// To be used.
    Used,
    /// Into other bottles.
    Decanted,
}

impl Vessel {
    pub(super) fn new(id: BottleId, is: Description, since: Day, filled: Option<Volume>, opened: Opened) -> Self {
        let left = filled.map(Volume::microlitres);
        let now = Stood {
            content: left.map(Volume::from_microlitres),
            treatment: Treatment::Plain,
            open: match opened {
                Opened::Never => Some(false),
                Opened::On(_) | Opened::SomeDay => Some(true),
                Opened::NotKnown => None,
            },
            place: None,
        };
        Self {
            bottle: Bottle {
                id,
                is,
                since,
                opened,
                now,
                came: now,
                life: Vec::new(),
                openings: Vec::new(),
                draws: Vec::new(),
                tests: Vec::new(),
                films: Vec::new(),
                from: Vec::new(),
                water: Volume::ZERO,
                decanted: false,
                account: Account::default(),
                discarded: None,
                entries: Vec::new(),
            },
            left,
            came: left.unwrap_or_default(),
            topped_up: 0,
            noted: 0,
            drawn: 0,
            decanted: 0,
            discarded: 0,
            start: since,
            last: since,
            fills: Vec::new(),
        }
    }

    /// A bottle that was filled from another one.
    pub(super) fn decanted(id: BottleId, is: Description, from: Source, place: Option<usize>) -> Self {
        let mut vessel = Self::filled_here(id, is, from.day, from.volume);
        vessel.move_to(from.day, place);
        vessel.bottle.decanted = true;
        vessel.bottle.from.push(from);
        vessel
    }

    /// A bottle that holds what was mixed.
    pub(super) fn mixed(id: BottleId, is: Description, day: Day, water: Volume, from: Vec<Source>) -> Self {
        let all = from.iter().map(|source| source.volume).sum::<Volume>() + water;
        let mut vessel = Self::filled_here(id, is, day, all);
        vessel.bottle.from = from;
        vessel.bottle.water = Volume::from_microlitres(water.microlitres());
        vessel
    }

    /// Filled by hand, and so in the air.
    fn filled_here(id: BottleId, is: Description, day: Day, volume: Volume) -> Self {
        let mut vessel = Self::new(id, is, day, Some(volume), Opened::Never);
        vessel.open(day);
        vessel
    }

    /// Makes room for as many events.
    pub(super) fn expect(&mut self, events: usize) {
        self.bottle.entries.reserve(events);
        self.bottle.life.reserve(events);
        self.bottle.openings.reserve(events);
    }

    pub(super) fn id(&self) -> &BottleId {
        &self.bottle.id
    }

    pub(super) fn since(&self) -> Day {
        self.bottle.since
    }

    pub(super) fn description(&self) -> &Description {
        &self.bottle.is
    }

    pub(super) fn place(&self) -> Option<usize> {
        self.bottle.now.place
    }

    pub(super) fn left(&self) -> Option<i64> {
        self.left
    }

    pub(super) fn discarded_on(&self) -> Option<Day> {
        self.bottle.discarded.as_ref().map(|discarded| discarded.day)
    }

    /// Lists an event with it, once.
    pub(super) fn list(&mut self, at: usize, counts: Counts, changed: bool) {
        let left = self.bottle.now.content.filter(|_| changed);
        match self.bottle.entries.last_mut() {
            Some(last) if last.event == at => last.left = left.or(last.left),
            _ => self.bottle.entries.push(Entry {
                event: at,
                counts,
                left,
            }),
        }
    }

    pub(super) fn open_on_purpose(&mut self, day: Day) {
        if self.bottle.opened == Opened::NotKnown {
            self.bottle.opened = Opened::On(day);
        }
        self.open(day);
    }

    /// Opens it and pours out. What is not there is told, and not counted.
    pub(super) fn pour_out(&mut self, event: &Event, volume: Volume, to: Outflow) -> Option<Trouble> {
        self.open(event.day);
        let wanted = volume.microlitres();
        let counted = self.left.map_or(wanted, |left| wanted.min(left));
        match to {
            Outflow::Used => {
                self.drawn += counted;
                self.bottle.draws.push(Draw {
                    day: event.day,
                    volume: Volume::from_microlitres(wanted),
                    event: event.id,
                });
            }
            Outflow::Decanted => self.decanted += counted,
        }
        self.set_left(event.day, self.left.map(|left| left - counted));
        (counted < wanted).then_some(Trouble::TooLittle {
            wanted: Volume::from_microlitres(wanted),
            there: Volume::from_microlitres(counted),
        })
    }

    pub(super) fn pour_in(&mut self, at: usize, day: Day, volume: Volume, from: Option<Source>) {
        self.open(day);
        self.topped_up += volume.microlitres();
        self.set_left(day, self.left.map(|left| left + volume.microlitres()));
        self.bottle.from.extend(from);
        self.filled_by(at);
    }

    pub(super) fn note_content(&mut self, at: usize, day: Day, left: Volume) {
        let left = left.microlitres();
        self.noted = left + self.drawn + self.decanted - self.came - self.topped_up;
        self.set_left(day, Some(left));
        self.filled_by(at);
    }

    pub(super) fn treat(&mut self, day: Day, how: Treatment) {
        self.open(day);
        self.change(day, |stood| stood.treatment = how);
    }

    pub(super) fn move_to(&mut self, day: Day, place: Option<usize>) {
        if day == self.bottle.since {
            self.bottle.came.place = self.bottle.came.place.or(place);
        }
        self.change(day, |stood| stood.place = place);
    }

    pub(super) fn test(&mut self, event: &Event, test: TestKind, result: TestResult, note: &str) {
        self.bottle.tests.push(Tested {
            day: event.day,
            test,
            result,
            note: note.to_owned(),
            event: event.id,
        });
    }

    pub(super) fn films(&mut self, event: &Event, units: Thousandths) {
        self.bottle.films.push(Films {
            day: event.day,
            units,
            event: event.id,
        });
    }

    pub(super) fn describe(&mut self, is: Description) {
        self.bottle.is = is;
    }

    pub(super) fn discard(&mut self, event: &Event, reason: &str) {
        self.last = self.last.max(event.day);
        self.close(self.last);
        self.discarded = self.left.unwrap_or_default();
        self.set_left(event.day, self.left.map(|_| 0));
        self.bottle.discarded = Some(Discarded {
            day: event.day,
            reason: reason.to_owned(),
            event: event.id,
        });
    }

    /// Remembers that an event put in what is in it now.
    pub(super) fn filled_by(&mut self, at: usize) {
        if let Some(left) = self.left {
            self.fills.push((at, left));
        }
    }

    /// The events after which there would be more in it than it holds.
    pub(super) fn over_the_brim(&self) -> Vec<(usize, Trouble)> {
        let Some(brimful) = self.bottle.is.container.brimful else {
            return Vec::new();
        };
        let over = self.fills.iter().filter(|(_, left)| *left > brimful.microlitres());
        over.map(|&(at, left)| {
            let content = Volume::from_microlitres(left);
            (at, Trouble::OverTheBrim { content, brimful })
        })
        .collect()
    }

    pub(super) fn finish(mut self, today: Day) -> Bottle {
        if self.bottle.discarded.is_none() {
            self.close(today);
        }
        let volume = Volume::from_microlitres;
        self.bottle.account = Account {
            came: volume(self.came),
            topped_up: volume(self.topped_up),
            noted: volume(self.noted),
            drawn: volume(self.drawn),
            decanted: volume(self.decanted),
            discarded: volume(self.discarded),
        };
        self.bottle
    }

    /// Air comes in, and what was done against it is undone.
    fn open(&mut self, day: Day) {
        self.last = self.last.max(day);
        match self.bottle.opened {
            Opened::Never => self.bottle.opened = Opened::On(day),
            Opened::NotKnown => self.bottle.opened = Opened::SomeDay,
            Opened::On(_) | Opened::SomeDay => {}
        }
        match self.bottle.openings.last_mut() {
            Some(opening) if opening.day == self.last => opening.times += 1,
            _ => self.bottle.openings.push(Opening {
                day: self.last,
                times: 1,
                stood: self.bottle.now,
            }),
        }
        self.change(day, |stood| {
            stood.open = Some(true);
            if !matches!(stood.treatment, Treatment::Beads(Some(_))) {
                stood.treatment = Treatment::Plain;
            }
        });
    }

    fn set_left(&mut self, day: Day, left: Option<i64>) {
        self.left = left;
        self.change(day, |stood| stood.content = left.map(Volume::from_microlitres));
    }

    /// Changes how it stands from that day on; how an opened bottle is put away is how it stands at the end of the day.
    fn change(&mut self, day: Day, change: impl FnOnce(&mut Stood)) {
        self.last = self.last.max(day);
        let mut stood = self.bottle.now;
        change(&mut stood);
        if stood != self.bottle.now {
            self.close(self.last);
            self.bottle.now = stood;
        }
        if let Some(opening) = self.bottle.openings.last_mut()
            && opening.day == self.last
        {
            opening.stood = stood;
        }
    }

    /// Ends the span in which nothing changed. An empty bottle has no life.
    fn close(&mut self, day: Day) {
        let stood = self.bottle.now;
        let (from, to) = (self.start, day);
        self.start = self.start.max(day);
        if from >= to || stood.content == Some(Volume::ZERO) {
            return;
        }
        match self.bottle.life.last_mut() {
            Some(last) if last.to == from && last.stood == stood => last.to = to,
            _ => self.bottle.life.push(Segment { from, to, stood }),
        }
    }
}
