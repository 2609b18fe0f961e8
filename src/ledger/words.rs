//! Events in words, for the life record of a bottle and for the log.

mod parts;

use std::fmt;

use super::event::{Bath, Event, Filled, Portion, What};
use super::id::{BottleId, EventId};
use super::shelf::{Bottle, Counts, Entry, Shelf};
use super::written::session::session_from_text;
use crate::kit::{Light, Treatment};
use crate::quantity::{Day, Dilution, Units, Volume};
use parts::{added, after, bath_words, climate_words, container_words, described, listed, result_words};

/// A line of a record: its display is the day, what happened, and what was left.
#[derive(Clone, Debug, PartialEq)]
pub struct Line {
    /// The event.
    pub event: EventId,
    /// Its day, as written.
    pub day: Day,
    /// What happened, and what was left.
    pub words: String,
    /// Whether it counts.
    pub counts: Counts,
}

impl Bottle {
    /// What tells it from others of its product: `Blue Syrup, 100 ml glass, 81.25 ml left`.
    pub fn in_short(&self, units: Units) -> String {
        let left = self
            .left()
            .map(|left| [units.volume(left), "left".to_owned()].join(" "));
        let parts = [Some(self.is.label.product.clone()), self.vessel_in_short(units), left];
        parts.into_iter().flatten().collect::<Vec<_>>().join(", ")
    }

    /// Its size and what it is made of, as far as that is known.
    pub fn vessel_in_short(&self, units: Units) -> Option<String> {
        let container = &self.is.container;
        let size = container.nominal.or(container.brimful).map(|size| units.volume(size));
        let material = container.material.map(|material| {
            let name = material.name();
            // Those with a short name carry it in brackets.
            let short = name.rsplit_once('(').map(|(_, short)| short.trim_end_matches(')'));
            short.unwrap_or(name).to_owned()
        });
        let known: Vec<String> = size.into_iter().chain(material).collect();
        (!known.is_empty()).then(|| known.join(" "))
    }
}

impl Shelf {
    /// The life of a bottle, first to last; nothing if there is no such bottle.
    pub fn life_record(&self, bottle: &str, units: Units) -> Vec<Line> {
        let entries = self.bottle(bottle).map(|bottle| bottle.entries.as_slice());
        let line = |entry: &Entry| {
            let event = &self.events[entry.event];
            // How it came and what somebody saw tells what is left already.
            let tells = matches!(event.what, What::ContentNoted { .. })
                || event.what.begins().any(|begun| begun.as_str() == bottle);
            let left = entry.left.filter(|_| !tells);
            let left = left.map(|left| format!("; {} left", units.volume(left)));
            Line {
                event: event.id,
                day: event.day,
                words: self.words(event, Some(bottle), units) + &left.unwrap_or_default(),
                counts: entry.counts,
            }
        };
        entries.unwrap_or_default().iter().map(line).collect()
    }

    /// What happened, in words: for the record of one bottle, or naming the bottle where there is none.
    pub fn words(&self, event: &Event, about: Option<&str>, units: Units) -> String {
        let volume = |volume: Volume| units.volume(volume);
        // In its own record a bottle needs no name.
        let it = |bottle: &BottleId| match about {
            Some(own) if own == bottle.as_str() => "it".to_owned(),
            _ => self.name(bottle),
        };
        let named = |word: &str, bottle: &BottleId| match about {
            Some(own) if own == bottle.as_str() => String::new(),
            _ => format!(" {word} {}", self.name(bottle)),
        };
        match &event.what {
            What::Added { is, filled, opened, .. } => added(is, *filled, *opened, units),
            What::Opened { bottle } => format!("opened{}", self.object(about, bottle)),
            What::Drawn {
                bottle,
                volume: drawn,
                bath,
                dilution,
                purpose,
            } => {
                let bath = bath_words(*bath, dilution.as_ref(), units);
                let purpose = after(", ", purpose);
                format!("drew {}{}{bath}{purpose}", volume(*drawn), named("from", bottle))
            }
            What::Decanted { from, into } => self.decanted(from, into, about, units),
            What::Treated { bottle, how } => match how {
                Treatment::Plain => format!("left the air in {} as it is", it(bottle)),
                Treatment::Squeezed => format!("pressed the air out{}", named("of", bottle)),
                Treatment::Beads(None) => format!("put beads into {}, up to the neck", it(bottle)),
                Treatment::Beads(Some(beads)) => format!("put beads into {}: {} in all", it(bottle), volume(*beads)),
                Treatment::InertGas => format!("let inert gas into {}", it(bottle)),
            },
            What::Mixed {
                from,
                water,
                dilution,
                into,
            } => self.mixed(from, *water, dilution.as_ref(), into, about, units),
            What::Tested {
                bottle,
                test,
                result,
                note,
            } => {
                let result = result_words(*result, units);
                format!("{}{}: {result}{}", test.name(), named("of", bottle), after(", ", note))
            }
            What::FilmsThrough {
                bottle,
                units: films,
                films: which,
            } => {
                let count = units.number(films.number(), 3);
                let plural = if films.0 == 1000 { "film unit" } else { "film units" };
                let which = if which.is_empty() {
                    String::new()
                } else {
                    format!(" ({which})")
                };
                format!("{count} {plural} through {}{which}", it(bottle))
            }
            What::Developed { text } => match session_from_text(text) {
                Ok(session) => format!("developed{}", after(": ", &session.recipe.title)),
                Err(why) => format!("developed; how cannot be read: {why}"),
            },
            What::ToppedUp {
                bottle,
                volume: poured,
                from,
            } => match from {
                Some(from) if about == Some(from.as_str()) => {
                    format!("poured {} into {}", volume(*poured), self.name(bottle))
                }
                Some(from) => format!(
                    "topped up{} with {} from {}",
                    self.object(about, bottle),
                    volume(*poured),
                    self.name(from)
                ),
                None => format!("topped up{} with {}", self.object(about, bottle), volume(*poured)),
            },
            What::Moved { bottle, place } => format!("moved{} to “{place}”", self.object(about, bottle)),
            What::PlaceNoted { place, climate, light } => {
                let climate = climate.map(|climate| climate_words(climate, units));
                let light = light.map(|light| match light {
                    Light::Dark => "dark".to_owned(),
                    Light::Lit => "light".to_owned(),
                });
                let said: Vec<String> = climate.into_iter().chain(light).collect();
                match said.is_empty() {
                    true => format!("place “{place}”: nothing known"),
                    false => format!("place “{place}”: {}", said.join(", ")),
                }
            }
            What::PlaceDropped { place } => format!("took the place “{place}” off the list"),
            What::ContentNoted { bottle, left } => {
                format!("looked{}: {} in it", named("at", bottle), volume(*left))
            }
            What::BottleNoted { is, .. } => format!("label: {}", described(is, units)),
            What::Discarded { bottle, reason } => {
                format!("discarded{}{}", self.object(about, bottle), after(": ", reason))
            }
            What::Corrected { event } => self.corrected(*event, about, units),
            What::Note { bottle, text } => {
                let on = bottle.as_ref().map(|bottle| named("on", bottle));
                format!("note{}: {text}", on.unwrap_or_default())
            }
        }
    }

    /// However often something was taken back and counted again: what it is, and what this does to it.
    fn corrected(&self, event: EventId, about: Option<&str>, units: Units) -> String {
        let mut done = ["took back", "counts again"];
        let mut other = self.event(event);
        // Corrections in a circle would never end.
        for _ in &self.events {
            let Some(What::Corrected { event }) = other.map(|other| &other.what) else {
                break;
            };
            other = self.event(*event);
            done.reverse();
        }
        match other {
            Some(Event {
                what: What::Corrected { .. },
                ..
            }) => "takes back an entry that takes back this one".to_owned(),
            Some(other) => format!("{}: {} ({})", done[0], self.words(other, about, units), other.day),
            None => format!("{}: an event that is not here", done[0]),
        }
    }

    fn decanted(&self, from: &BottleId, into: &[Filled], about: Option<&str>, units: Units) -> String {
        if let Some(own) = into.iter().find(|filled| about == Some(filled.bottle.as_str())) {
            return format!("filled with {} from {}", units.volume(own.volume), self.name(from));
        }
        let parts: Vec<_> = into
            .iter()
            .map(|filled| {
                let volume = units.volume(filled.volume);
                format!("{volume} into {}", container_words(&filled.container, units))
            })
            .collect();
        match self.object(about, from).as_str() {
            "" => format!("decanted {}", listed(&parts)),
            from => format!("decanted{from}: {}", listed(&parts)),
        }
    }

    fn mixed(
        &self,
        from: &[Portion],
        water: Volume,
        dilution: Option<&Dilution>,
        into: &Bath,
        about: Option<&str>,
        units: Units,
    ) -> String {
        let all = from.iter().map(|portion| portion.volume).sum::<Volume>() + water;
        let own: Volume = from
            .iter()
            .filter(|portion| about == Some(portion.bottle.as_str()))
            .map(|portion| portion.volume)
            .sum();
        if own > Volume::ZERO {
            let drawn = units.volume(own);
            return match into {
                Bath::Kept { is, .. } => {
                    let bath = bath_words(Some(all), None, units);
                    let at = bath_words(None, dilution, units);
                    format!("drew {drawn}{bath} of “{}”{at}", is.label.product)
                }
                Bath::Used { purpose } => {
                    let bath = bath_words(Some(all), dilution, units);
                    format!("drew {drawn}{bath}{}", after(", ", purpose))
                }
            };
        }
        let mut parts: Vec<_> = from
            .iter()
            .map(|portion| format!("{} of {}", units.volume(portion.volume), self.name(&portion.bottle)))
            .collect();
        if water > Volume::ZERO {
            parts.push(format!("{} of water", units.volume(water)));
        }
        let at = bath_words(None, dilution, units);
        let became = match into {
            Bath::Kept { is, .. } => format!(" for {}", described(is, units)),
            Bath::Used { purpose } => after(", ", purpose),
        };
        format!("mixed {}{at} from {}{became}", units.volume(all), listed(&parts))
    }

    /// A bottle's name for people: what its label says.
    fn name(&self, bottle: &BottleId) -> String {
        match self.bottle(bottle.as_str()) {
            Some(bottle) => format!("“{}”", bottle.is.label.product),
            None => "a bottle that is not here".to_owned(),
        }
    }

    fn object(&self, about: Option<&str>, bottle: &BottleId) -> String {
        match about {
            Some(own) if own == bottle.as_str() => String::new(),
            _ => format!(" {}", self.name(bottle)),
        }
    }
}

impl fmt::Display for Line {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} {}", self.day, self.words)?;
        f.write_str(match self.counts {
            Counts::Yes => "",
            Counts::TakenBack => " (taken back)",
            Counts::No => " (does not count)",
        })
    }
}
