//! From the record of a bottle to the life that keeping judges.

use super::description::Opened;
use super::order::{order, put_in_order};
use super::shelf::{Bottle, Segment, Shelf, Stood};
use crate::keeping::{Life, LifeError, Seal, Stretch};
use crate::kit::{Climate, Container};
use crate::quantity::{Day, Temperature, Volume};

/// The life of a bottle's content, with all that keeping must know of it.
#[derive(Clone, Debug, PartialEq)]
pub struct ContentLife {
    /// The containers that it stood in.
    containers: Vec<Container>,
    /// One after the other, without gaps.
    spans: Vec<Span>,
    water: Option<(Volume, Temperature)>,
}

#[derive(Clone, Debug, PartialEq)]
struct Span {
    /// Index of the container.
    container: usize,
    climate: Climate,
    segment: Segment,
    seal: Seal,
}

impl Shelf {
    /// The life of what is in a bottle, until today or until it was discarded, for [`crate::keeping`]. It begins on the day on
    /// which the bottle came, or, if it was decanted, on which the first of the bottles that it stood in came; where that one
    /// was opened before it came, then, and as full as it came. It begins anew after the bottle stood empty. Where nobody
    /// noted how warm a place is, `elsewhere` is taken; where nobody knows whether a bottle was opened, that it was.
    ///
    /// `None` if the bottle is not here, or is empty, or if the content, size or material of one that it stood in is not known:
    /// [`Bottle::missing`] says what to ask for.
    pub fn life(&self, id: &str, elsewhere: Climate) -> Option<ContentLife> {
        let last = self.bottle(id)?;
        match last.is_empty() && last.discarded.is_none() {
            true => None,
            false => self.life_in(last, None, elsewhere),
        }
    }

    /// The same told up to an earlier day only, of a bottle that may be empty by now. `None` besides where that day is not later
    /// than the one on which it came.
    pub fn life_until(&self, id: &str, day: Day, elsewhere: Climate) -> Option<ContentLife> {
        self.life_in(self.bottle(id)?, Some(day), elsewhere)
    }

    fn life_in(&self, last: &Bottle, until: Option<Day>, elsewhere: Climate) -> Option<ContentLife> {
        let mut stood_in = vec![(last, until)];
        while let Some((bottle, until)) = stood_in.last().copied().filter(|(bottle, _)| bottle.decanted) {
            let poured = until.map_or(bottle.since, |until| until.min(bottle.since));
            stood_in.push((self.decanted_from(bottle)?, Some(poured)));
        }
        let mut life = ContentLife {
            containers: Vec::new(),
            spans: Vec::new(),
            water: None,
        };
        for (bottle, until) in stood_in.iter().rev() {
            life.containers.push(bottle.is.container.container()?);
            life.add(self, bottle, *until, elsewhere)?;
        }
        let (root, _) = stood_in.last()?;
        let first = life.spans.first()?;
        if root.water > Volume::ZERO && first.container == 0 && first.segment.from == root.since {
            life.water = Some((root.water, first.climate.on(root.since)));
        }
        Some(life)
    }

    fn climate(&self, place: Option<usize>, day: Day, elsewhere: Climate) -> Climate {
        let note = place.and_then(|place| self.places[place].on(day));
        note.and_then(|note| note.climate).unwrap_or(elsewhere)
    }
}

impl ContentLife {
    /// For keeping.
    ///
    /// # Errors
    /// Never for a life that a shelf gave.
    pub fn life(&self) -> Result<Life<'_>, LifeError> {
        let stretch = |span: &Span| Stretch {
            from: span.segment.from,
            to: span.segment.to,
            content: span.segment.stood.content.unwrap_or(Volume::ZERO),
            seal: span.seal,
            treatment: span.segment.stood.treatment,
            container: &self.containers[span.container],
            climate: span.climate,
        };
        let life = Life::new(self.spans.iter().map(stretch).collect())?;
        Ok(match self.water {
            Some((water, temperature)) => life.mixed_with(water, temperature),
            None => life,
        })
    }

    /// Adds the life in one bottle up to a day: a span from every day on which something changed, air came in, or its place was
    /// noted anew.
    fn add(&mut self, shelf: &Shelf, bottle: &Bottle, until: Option<Day>, elsewhere: Climate) -> Option<()> {
        let segments = segments(bottle, until, shelf.today);
        if let Opened::On(opened) = bottle.opened
            && opened < bottle.since
        {
            // What was done to it on the day on which it came changes nothing of what it went through before.
            let first = segments.first().and_then(|first| first.stood.content);
            let stood = Stood {
                content: bottle.came.content.or(first),
                ..bottle.came
            };
            stood.content?;
            let before = Segment {
                from: opened,
                to: bottle.since,
                stood,
            };
            self.push(before, shelf.climate(stood.place, opened, elsewhere), Seal::Opened);
        }
        for segment in segments {
            segment.stood.content?;
            let climate = |day| shelf.climate(segment.stood.place, day, elsewhere);
            let mut days = vec![segment.from];
            let inside = |day: &Day| *day > segment.from && *day < segment.to;
            days.extend(bottle.openings.iter().map(|opening| opening.day).filter(inside));
            if let Some(place) = segment.stood.place {
                days.extend(shelf.places[place].notes.iter().map(|note| note.day).filter(inside));
            }
            let in_order = order(days.len(), &|one, other| days[one].cmp(&days[other]));
            put_in_order(&mut days, in_order);
            days.dedup();
            for (index, &from) in days.iter().enumerate() {
                let to = days.get(index + 1).copied().unwrap_or(segment.to);
                self.opened_on(bottle, Segment { from, to, ..segment }, climate(from));
            }
        }
        Some(())
    }

    /// Adds a span, and before it one of no length for every further opening of its first day.
    fn opened_on(&mut self, bottle: &Bottle, segment: Segment, climate: Climate) {
        let opening = bottle.openings.iter().find(|opening| opening.day == segment.from);
        let times = opening.map_or(0, |opening| opening.times);
        let seal = match segment.stood.open {
            Some(false) => Seal::Unopened,
            _ if times > 0 || self.spans.is_empty() => Seal::Opened,
            _ => Seal::StillClosed,
        };
        for _ in 1..times {
            let to = segment.from;
            self.push(Segment { to, ..segment }, climate, seal);
        }
        self.push(segment, climate, seal);
    }

    /// Adds a span. What was in the bottle before it stood empty is not what is in it now.
    fn push(&mut self, segment: Segment, climate: Climate, seal: Seal) {
        if self.spans.last().is_some_and(|last| last.segment.to != segment.from) {
            self.spans.clear();
        }
        self.spans.push(Span {
            container: self.containers.len() - 1,
            climate,
            segment,
            seal: if self.spans.is_empty() && seal == Seal::StillClosed {
                Seal::Opened
            } else {
                seal
            },
        });
    }
}

/// A bottle's life up to a day, or with how it stands now where something was done to it today.
fn segments(bottle: &Bottle, until: Option<Day>, today: Day) -> Vec<Segment> {
    let cut = bottle.life.iter().map(|segment| Segment {
        to: until.map_or(segment.to, |until| segment.to.min(until)),
        ..*segment
    });
    let mut segments: Vec<Segment> = cut.filter(|segment| segment.from < segment.to).collect();
    let told = segments.last().is_some_and(|last| last.stood == bottle.now);
    let opened_today = bottle.openings.last().is_some_and(|opening| opening.day >= today);
    if until.is_none() && bottle.discarded.is_none() && (!told || opened_today) {
        let now = segments.last().map_or(today, |last| last.to).max(today);
        segments.push(Segment {
            from: now,
            to: now,
            stood: bottle.now,
        });
    }
    segments
}
