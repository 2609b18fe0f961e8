//! The fold: events in any order to the one shelf that follows from them.
//!
//! Events are ordered by moment, then by name. An event that is dated before its bottle came waits for it, so that a clock set
//! back loses nothing; what does not fit is told as a problem.

mod distinct;
mod index;
mod named;
mod vessel;

use super::corrections::{Corrections, Force};
use super::description::Description;
use super::event::{Bath, Event, Filled, Portion, What};
use super::id::BottleId;
use super::order::{order, put_in_order};
use super::problem::{Problem, Trouble};
use super::shelf::{Bottle, Counts, Place, PlaceNote, Shelf, Source};
use crate::quantity::{Day, Volume};
use distinct::Distinct;
use named::{Brought, Named, Number};
use vessel::{Outflow, Vessel};

impl Shelf {
    /// The shelf on a day. The same for the same events, in whatever order they are given, however often each.
    pub fn fold(events: Vec<Event>, today: Day) -> Self {
        let Distinct {
            events,
            by_name,
            conflicts,
        } = Distinct::of(events);
        let corrections = Corrections::of(&events, &by_name);
        let named = Named::of(&events, &corrections);
        let mut fold = Fold::new(&events, &named, &corrections, today);
        for at in conflicts {
            fold.trouble(at, None, Trouble::TwoRecords);
        }
        for at in 0..events.len() {
            fold.take(at);
        }
        let developed = std::mem::take(&mut fold.developed);
        let (bottles, places, problems) = fold.finish();
        let by_id = |one: usize, other: usize| bottles[one].id.cmp(&bottles[other].id);
        Self {
            bottles_by_name: order(bottles.len(), &by_id),
            today,
            bottles,
            places,
            problems,
            developed,
            events,
            events_by_name: by_name,
        }
    }
}

struct Fold<'a> {
    events: &'a [Event],
    named: &'a Named,
    corrections: &'a Corrections,
    today: Day,
    vessels: Vec<Vessel>,
    /// The bottle of each name, once it came.
    came: Vec<Option<usize>>,
    places: Vec<Place>,
    problems: Vec<(usize, Problem)>,
    /// The events that tell of a developing.
    developed: Vec<usize>,
    /// Events that wait for a bottle.
    waiting: Vec<Vec<usize>>,
}

impl<'a> Fold<'a> {
    fn new(events: &'a [Event], named: &'a Named, corrections: &'a Corrections, today: Day) -> Self {
        Self {
            events,
            named,
            corrections,
            today,
            vessels: Vec::new(),
            came: vec![None; named.names.len()],
            places: Vec::new(),
            problems: Vec::new(),
            developed: Vec::new(),
            waiting: vec![Vec::new(); named.names.len()],
        }
    }

    /// Takes the next event, and after it those that waited for it.
    fn take(&mut self, at: usize) {
        match self.corrections.force(at) {
            Force::Counts => self.try_apply(at, false),
            Force::TakenBack => self.list(at, Counts::TakenBack),
            Force::Circle => self.trouble(at, None, Trouble::Circle),
        }
        let mut due = self.released(at);
        let mut next = 0;
        while let Some(&waited) = due.get(next) {
            next += 1;
            self.try_apply(waited, true);
            due.extend(self.released(waited));
        }
    }

    /// The events that waited for the bottles that an event began.
    fn released(&mut self, at: usize) -> Vec<usize> {
        let mut released = Vec::new();
        for bottle in self.named.begins(at) {
            if self.came[bottle].is_some() {
                released.append(&mut self.waiting[bottle]);
            }
        }
        released
    }

    /// Applies an event, or lets it wait for a bottle that comes later.
    fn try_apply(&mut self, at: usize, waited: bool) {
        let comes =
            |&bottle: &Number| self.came[bottle].is_none() && self.named.names[bottle].brought == Brought::Counts;
        if let Some(bottle) = self.named.needs(at).find(comes) {
            self.waiting[bottle].push(at);
            return;
        }
        if waited {
            let latest = self.named.needs(at).filter_map(|bottle| self.came[bottle]).max();
            if let Some(bottle) = latest {
                let since = self.vessels[bottle].since();
                self.trouble(at, Some(bottle), Trouble::BeforeItCame(since));
            }
        }
        self.apply(at, &self.events[at]);
    }

    fn apply(&mut self, at: usize, event: &'a Event) {
        // A device further east may be a day ahead.
        if event.day > self.today + 1 {
            self.trouble(at, None, Trouble::Future);
        }
        let (day, named) = (event.day, self.named);
        match &event.what {
            What::Added {
                bottle,
                is,
                filled,
                opened,
            } => {
                let new = Vessel::new(bottle.clone(), (**is).clone(), day, *filled, *opened);
                self.begin_all(at, vec![new]);
            }
            What::Opened { .. } => self.with_its(at, &mut |vessel| vessel.open_on_purpose(day)),
            What::Drawn { volume, .. } => self.pour_out(at, &mut named.needs(at).zip([*volume]), Outflow::Used),
            What::Decanted { from, into } => self.decant(at, from, into),
            What::Treated { how, .. } => self.with_its(at, &mut |vessel| vessel.treat(day, *how)),
            What::Mixed { from, water, into, .. } => self.mix(at, from, *water, into),
            What::Tested { test, result, note, .. } => {
                self.with_its(at, &mut |vessel| vessel.test(event, *test, *result, note));
            }
            What::FilmsThrough { units, .. } => self.with_its(at, &mut |vessel| vessel.films(event, *units)),
            What::Developed { .. } => self.developed.push(at),
            What::ToppedUp { volume, from, .. } => self.top_up(at, *volume, from.as_ref()),
            What::Moved { place, .. } => {
                let place = self.place(place);
                self.with_its(at, &mut |vessel| vessel.move_to(day, Some(place)));
            }
            What::PlaceNoted { place, climate, light } => {
                let place = self.place(place);
                self.places[place].notes.push(PlaceNote {
                    day,
                    climate: *climate,
                    light: *light,
                    event: event.id,
                });
            }
            What::PlaceDropped { place } => {
                if let Some(place) = self.places.iter_mut().find(|known| known.name == *place) {
                    place.dropped = true;
                }
            }
            What::ContentNoted { left, .. } => self.with_its(at, &mut |vessel| vessel.note_content(at, day, *left)),
            What::BottleNoted { is, .. } => self.about_its(at, &mut |vessel| vessel.describe((**is).clone())),
            What::Discarded { reason, .. } => self.with_its(at, &mut |vessel| vessel.discard(event, reason)),
            What::Corrected { .. } => match self.corrections.has_target(at) {
                true => self.list(at, Counts::Yes),
                false => self.trouble(at, None, Trouble::NothingToTakeBack),
            },
            What::Note { .. } => self.about_its(at, &mut |_| ()),
        }
    }

    /// Pours so much out of each of these bottles.
    fn pour_out(&mut self, at: usize, portions: &mut dyn Iterator<Item = (Number, Volume)>, to: Outflow) {
        let event = &self.events[at];
        for (bottle, volume) in portions {
            let mut short = None;
            self.with(at, bottle, &mut |vessel| short = vessel.pour_out(event, volume, to));
            if let Some(trouble) = short {
                self.trouble(at, self.came[bottle], trouble);
            }
        }
    }

    fn decant(&mut self, at: usize, from: &BottleId, into: &[Filled]) {
        let event = &self.events[at];
        let named = self.named;
        let all = into.iter().map(|filled| filled.volume).sum();
        self.pour_out(at, &mut named.needs(at).zip([all]), Outflow::Decanted);
        let Some(found) = named.needs(at).find_map(|bottle| self.came[bottle]) else {
            return;
        };
        let (label, place) = (self.vessels[found].description().clone(), self.vessels[found].place());
        let new = into.iter().map(|filled| {
            let is = Description {
                container: filled.container.clone(),
                price: None,
                ..label.clone()
            };
            let source = source(event, from, filled.volume);
            Vessel::decanted(filled.bottle.clone(), is, source, place)
        });
        self.begin_all(at, new.collect());
    }

    fn mix(&mut self, at: usize, from: &[Portion], water: Volume, into: &Bath) {
        let event = &self.events[at];
        let named = self.named;
        let volumes = from.iter().map(|portion| portion.volume);
        self.pour_out(at, &mut named.needs(at).zip(volumes), Outflow::Used);
        if let Bath::Kept { bottle, is } = into {
            let sources = from
                .iter()
                .map(|portion| source(event, &portion.bottle, portion.volume));
            let new = Vessel::mixed(bottle.clone(), (**is).clone(), event.day, water, sources.collect());
            self.begin_all(at, vec![new]);
        }
    }

    fn top_up(&mut self, at: usize, volume: Volume, from: Option<&BottleId>) {
        let event = &self.events[at];
        let named = self.named;
        // The second bottle that it needs is the one that it came from.
        self.pour_out(at, &mut named.needs(at).skip(1).zip([volume]), Outflow::Decanted);
        let source = from.map(|from| source(event, from, volume));
        self.with_its(at, &mut |vessel| vessel.pour_in(at, event.day, volume, source.clone()));
    }

    /// Begins the bottles that an event begins, unless there are such already.
    fn begin_all(&mut self, at: usize, new: Vec<Vessel>) {
        let named = self.named;
        for (bottle, mut vessel) in named.begins(at).zip(new) {
            if let Some(before) = self.came[bottle] {
                let since = self.vessels[before].since();
                self.vessels[before].list(at, Counts::No, false);
                self.trouble(at, Some(before), Trouble::CameBefore(since));
                continue;
            }
            self.came[bottle] = Some(self.vessels.len());
            vessel.expect(named.names[bottle].times);
            vessel.filled_by(at);
            vessel.list(at, Counts::Yes, true);
            self.vessels.push(vessel);
        }
    }

    /// Does something to the bottle that an event is about.
    fn with_its(&mut self, at: usize, act: &mut dyn FnMut(&mut Vessel)) {
        if let Some(bottle) = self.named.needs(at).next() {
            self.with(at, bottle, act);
        }
    }

    /// Does something to a bottle and lists the event with it, if the bottle is still here.
    fn with(&mut self, at: usize, bottle: Number, act: &mut dyn FnMut(&mut Vessel)) {
        let Some(found) = self.find(at, bottle) else {
            return;
        };
        let vessel = &mut self.vessels[found];
        if let Some(day) = vessel.discarded_on() {
            vessel.list(at, Counts::No, false);
            self.trouble(at, Some(found), Trouble::AfterDiscarded(day));
            return;
        }
        let before = vessel.left();
        act(vessel);
        let changed = vessel.left() != before;
        vessel.list(at, Counts::Yes, changed);
    }

    /// Says something of the bottle that an event is about, which may be gone.
    fn about_its(&mut self, at: usize, say: &mut dyn FnMut(&mut Vessel)) {
        let bottle = self.named.needs(at).next();
        if let Some(found) = bottle.and_then(|bottle| self.find(at, bottle)) {
            say(&mut self.vessels[found]);
            self.vessels[found].list(at, Counts::Yes, false);
        }
    }

    /// The bottle of that name; that there is none is told.
    fn find(&mut self, at: usize, bottle: Number) -> Option<usize> {
        let found = self.came[bottle];
        if found.is_none() {
            let trouble = match self.named.names[bottle].brought {
                Brought::TakenBack => Trouble::BottleTakenBack,
                Brought::Never | Brought::Counts => Trouble::NoSuchBottle,
            };
            self.trouble(at, None, trouble);
        }
        found
    }

    /// The place of that name, which is used again if it was dropped.
    fn place(&mut self, name: &str) -> usize {
        let found = self.places.iter().position(|place| place.name == name);
        let index = found.unwrap_or_else(|| {
            self.places.push(Place {
                name: name.to_owned(),
                notes: Vec::new(),
                dropped: false,
            });
            self.places.len() - 1
        });
        self.places[index].dropped = false;
        index
    }

    /// Lists an event that changes nothing with the bottles that it, or what it takes back in the end, is about.
    fn list(&mut self, at: usize, counts: Counts) {
        for bottle in self.named.all(self.corrections.root(at)) {
            if let Some(found) = self.came[bottle] {
                self.vessels[found].list(at, counts, false);
            }
        }
    }

    fn trouble(&mut self, at: usize, bottle: Option<usize>, trouble: Trouble) {
        let event = &self.events[at];
        let bottle = bottle.map(|bottle| self.vessels[bottle].id().clone());
        let problem = Problem {
            event: event.id,
            day: event.day,
            bottle: bottle.or_else(|| event.what.needs().next().cloned()),
            trouble,
        };
        self.problems.push((at, problem));
    }

    fn finish(mut self) -> (Vec<Bottle>, Vec<Place>, Vec<Problem>) {
        let still_waiting = std::mem::take(&mut self.waiting).into_iter().flatten();
        for at in still_waiting {
            self.trouble(at, None, Trouble::NoSuchBottle);
        }
        for found in 0..self.vessels.len() {
            for (at, trouble) in self.vessels[found].over_the_brim() {
                self.trouble(at, Some(found), trouble);
            }
        }
        // Several problems of one event keep the order in which they were found.
        let by_event = |one: usize, other: usize| self.problems[one].0.cmp(&self.problems[other].0);
        let by_event = order(self.problems.len(), &by_event);
        put_in_order(&mut self.problems, by_event);
        let problems = self.problems.into_iter().map(|(_, problem)| problem).collect();
        let today = self.today;
        let bottles = self.vessels.into_iter().map(|vessel| vessel.finish(today)).collect();
        (bottles, self.places, problems)
    }
}

fn source(event: &Event, bottle: &BottleId, volume: Volume) -> Source {
    Source {
        day: event.day,
        bottle: bottle.clone(),
        volume: Volume::from_microlitres(volume.microlitres()),
        event: event.id,
    }
}
