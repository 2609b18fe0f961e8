//! The life of a bottle as stretches between the days on which something was done to it.

use std::fmt;

use crate::kit::{Climate, Container, Treatment};
use crate::quantity::held::held;
use crate::quantity::{Amount, Day, Temperature, Volume};

/// A stretch of a bottle's life in which nothing is done to it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stretch<'a> {
    /// Its first day.
    pub from: Day,
    /// The day it ends; the same as the first if something is done twice in a day.
    pub to: Day,
    /// Liquid in it.
    pub content: Volume,
    /// How it is closed.
    pub seal: Seal,
    /// What was done to the air above when it was last closed.
    pub treatment: Treatment,
    /// What it is in.
    pub container: &'a Container,
    /// How warm it stands.
    pub climate: Climate,
}

/// How a bottle is closed during a stretch.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Seal {
    /// As it came from the maker: no air of the room has been over it.
    Unopened,
    /// Opened on the first day, so that new air is over it.
    Opened,
    /// Not opened on the first day; the air over it is what was left of the stretch before.
    StillClosed,
}

/// All of a bottle's life, to today.
#[derive(Clone, Debug, PartialEq)]
pub struct Life<'a> {
    stretches: Vec<Stretch<'a>>,
    water: Option<(Volume, Temperature)>,
}

/// Why stretches are not a life.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum LifeError {
    /// There are none.
    Empty,
    /// That stretch, counted from 1, ends before it begins.
    Backwards(usize),
    /// That stretch does not begin on the day on which the one before it ends.
    Gap(usize),
    /// That stretch is unopened although one before it was opened.
    Resealed(usize),
}

impl<'a> Life<'a> {
    /// A life from its stretches, in order, each beginning when the one before it ends; the last ends today.
    ///
    /// # Errors
    /// Without any stretch, or where they do not follow on one another.
    pub fn new(stretches: Vec<Stretch<'a>>) -> Result<Self, LifeError> {
        if stretches.is_empty() {
            return Err(LifeError::Empty);
        }
        for (index, stretch) in stretches.iter().enumerate() {
            if stretch.to < stretch.from {
                return Err(LifeError::Backwards(index + 1));
            }
            let Some(before) = index.checked_sub(1).map(|before| &stretches[before]) else {
                continue;
            };
            if before.to != stretch.from {
                return Err(LifeError::Gap(index + 1));
            }
            if stretch.seal == Seal::Unopened && before.seal != Seal::Unopened {
                return Err(LifeError::Resealed(index + 1));
            }
        }
        Ok(Self::of(stretches))
    }

    /// The life of a bottle opened on a day and drawn from at even times until today, as far as no ledger tells it:
    /// `opened` from that day to today with what was in it when first closed again, `left` after the last of so many
    /// openings (the first included; 1 at the least).
    ///
    /// # Errors
    /// Where it ends before it begins.
    pub fn used_evenly(opened: Stretch<'a>, left: Volume, openings: u32) -> Result<Self, LifeError> {
        let count = openings.max(1);
        let share = |part: u32, of: u32| f64::from(part) / f64::from(of.max(1));
        let day = |opening: u32| opened.from + (opened.days() * share(opening, count)).round() as i32;
        let content = |opening: u32| match count {
            1 => left,
            _ => opened.content + (left - opened.content) * share(opening, count - 1),
        };
        let stretches = (0..count).map(|opening| Stretch {
            from: day(opening),
            to: day(opening + 1),
            content: content(opening),
            seal: Seal::Opened,
            ..opened
        });
        Self::new(stretches.collect())
    }

    /// A life from stretches that follow on one another by the way they were made; at least one.
    pub(super) fn of(stretches: Vec<Stretch<'a>>) -> Self {
        Self { stretches, water: None }
    }

    /// The same life of a solution that was made with so much water of that temperature, whose oxygen it took up.
    pub fn mixed_with(self, water: Volume, temperature: Temperature) -> Self {
        Self {
            water: Some((water, temperature)),
            ..self
        }
    }

    /// The stretches, in order; never empty.
    pub fn stretches(&self) -> &[Stretch<'a>] {
        &self.stretches
    }

    /// The first stretch.
    pub fn first(&self) -> &Stretch<'a> {
        &self.stretches[0]
    }

    /// The stretch that still lasts.
    pub fn last(&self) -> &Stretch<'a> {
        &self.stretches[self.stretches.len() - 1]
    }

    /// The day it is told up to.
    pub fn today(&self) -> Day {
        self.last().to
    }

    /// The same life, told up to an earlier day only; its first day at the least.
    pub fn until(&self, day: Day) -> Self {
        let mut stretches: Vec<_> = self
            .stretches
            .iter()
            .filter(|stretch| stretch.from < day)
            .copied()
            .collect();
        match stretches.last_mut() {
            Some(last) => last.to = last.to.min(day),
            None => stretches.push(Stretch {
                to: self.first().from,
                ..*self.first()
            }),
        }
        Self {
            stretches,
            ..self.clone()
        }
    }

    /// Oxygen that came with the water it was made with.
    pub(super) fn oxygen_of_water(&self, pressure: f64) -> Amount {
        self.water.map_or(Amount::ZERO, |(volume, temperature)| {
            super::oxygen::brought_by_water(volume, temperature, pressure)
        })
    }
}

impl Stretch<'_> {
    /// How many days it lasts.
    pub fn days(&self) -> f64 {
        f64::from(self.to - self.from)
    }

    /// Headspace as a share of what the container holds to the brim, 0 to 1.
    pub fn headspace_share(&self) -> f64 {
        held(
            self.container.headspace(self.content) / self.container.brimful,
            0.0,
            1.0,
        )
    }
}

impl fmt::Display for LifeError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Empty => f.write_str("a life needs at least one stretch"),
            Self::Backwards(place) => write!(f, "stretch {place} ends before it begins"),
            Self::Gap(place) => write!(
                f,
                "stretch {place} must begin on the day on which the one before it ends"
            ),
            Self::Resealed(place) => write!(f, "stretch {place} cannot be unopened: the bottle was opened before it"),
        }
    }
}

impl std::error::Error for LifeError {}
