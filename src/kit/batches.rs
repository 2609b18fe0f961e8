//! Films into fills: which go together into which tank, so that there are as few fills as can be, and then as little bath.
//!
//! A fill covers what is in it, does not pass the brim, holds enough for its film, and has one developing time. Every bath is made
//! for its fill and poured away after it. Films of one format and one time are alike, so it is numbers of films that are divided, and
//! not films: that is bin packing with few kinds of things, which a table over all that may still be left solves exactly
//! ([`packing`]), for a home's day and mostly far beyond. Where that table would be too large, most of the fills follow from the
//! linear relaxation (Gilmore and Gomory, *A linear programming approach to the cutting-stock problem*, Operations Research 9, 1961),
//! the rest from the table, and the relaxation tells how many fills there must be at the least ([`relaxation`]).
//!
//! ```
//! use meniscus::kit::{Alike, Film, Kit, Limits, plan};
//! use meniscus::quantity::{Span, Volume};
//!
//! let kit = Kit::starter();
//! let films = [Alike { film: Film::Roll135, count: 5, time: Some(Span::from_minutes(8.5)) }];
//! let plan = plan(&films, &Limits::of(&kit));
//! // Two reels of 290 ml go into a tank of 650 ml.
//! assert_eq!(plan.fills.iter().map(|fill| fill.load.pieces()).collect::<Vec<_>>(), [2, 2, 1]);
//! assert_eq!(plan.fills[0].total, Volume::from_millilitres(580.0));
//! assert_eq!(plan.at_least, 3);
//! ```

mod day;
mod many;
mod packing;
mod relaxation;

pub use day::{Hands, InTurn, in_turn};

use super::{Cover, Film, Kit, Load, Tank};
use crate::quantity::sorted::sort;
use crate::quantity::{Span, Volume};
use many::solve;
use packing::{Cost, Kind, Packing, exact};

/// Films that are alike: of one format and one developing time.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Alike {
    /// Their format.
    pub film: Film,
    /// How many.
    pub count: u32,
    /// How long they are developed; those of which nobody says it go together.
    pub time: Option<Span>,
}

/// What binds a fill.
#[derive(Clone, Debug, PartialEq)]
pub struct Limits<'a> {
    /// The tanks at hand; each is used as often as it is wanted.
    pub tanks: Vec<&'a Tank>,
    /// The least bath for one film unit, so that it holds enough concentrate; zero where nobody says.
    pub per_unit: Volume,
    /// Totals go up to the next multiple of this, though never over the brim; zero for exact totals.
    pub step: Volume,
    /// How far apart the times of films may lie that are developed together.
    pub within: Span,
    /// Most sheets of 4 x 5 in that go into a fill.
    pub most_4x5: u32,
    /// Most sheets of 8 x 10 in that go into a fill.
    pub most_8x10: u32,
}

/// One fill.
#[derive(Clone, Debug, PartialEq)]
pub struct Batch {
    /// Which of the tanks.
    pub tank: usize,
    /// Which of the films, by their place in what was given, and how many of them.
    pub films: Vec<(usize, u32)>,
    /// The same by format.
    pub load: Load,
    /// The least volume that covers them.
    pub cover: Volume,
    /// The bath.
    pub total: Volume,
    /// Shortest and longest time of its films; `None` where nobody says.
    pub times: Option<(Span, Span)>,
}

/// Why films are in no fill.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LeftOut {
    /// No tank takes the format.
    NoTank,
    /// One takes the format, but not even one film of it: its bath would pass the brim.
    PastTheBrim,
}

/// The fills of a day.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Plan {
    /// The fills; their order says nothing yet.
    pub fills: Vec<Batch>,
    /// Which of the films are in no fill, and why.
    pub left_out: Vec<(usize, LeftOut)>,
    /// So many fills there must be, whoever plans. As many as there are: none can be saved.
    pub at_least: usize,
    /// Whether no plan of as many fills takes less bath.
    pub is_least_bath: bool,
}

impl<'a> Limits<'a> {
    /// All tanks of a kit, exact totals and times, and no least for a film unit.
    pub fn of(kit: &'a Kit) -> Self {
        Self {
            tanks: kit.tanks.iter().map(|kept| &kept.item).collect(),
            per_unit: Volume::ZERO,
            step: Volume::ZERO,
            within: Span::ZERO,
            most_4x5: u32::MAX,
            most_8x10: u32::MAX,
        }
    }

    /// The least bath for a load in one of the tanks; `None` if it does not go in.
    pub fn total(&self, tank: usize, load: &Load) -> Option<Volume> {
        let bath = self.bath(self.tanks.get(tank)?, load, load.units())?;
        Some(Volume::from_microlitres(bath as i64))
    }

    /// The least bath for a load in one tank, in microlitres; `None` if it does not go in.
    fn bath(&self, tank: &Tank, load: &Load, film_units: f64) -> Option<u64> {
        let Cover::From(cover) = tank.cover(load) else {
            return None;
        };
        // A thousandth of a microlitre is what sums in binary may be off by.
        let up = |volume: Volume| (volume.millilitres() * 1e3 - 1e-3).ceil().max(0.0) as u64;
        let least = up(cover.max(self.per_unit * film_units));
        let brim = (tank.brim.millilitres() * 1e3 + 1e-3).floor() as u64;
        let step = self.step.millilitres() * 1e3;
        let total = match step > 0.0 {
            true => ((least as f64 / step - 1e-9).ceil() * step - 1e-3).ceil() as u64,
            false => least,
        };
        (least <= brim).then_some(total.max(least).min(brim))
    }

    /// The least bath for a load, in microlitres, and its tank, the first of those that take as little; `None` if no tank takes it.
    fn fit(&self, load: &Load) -> Option<(u64, usize)> {
        if load.count(Film::Sheet4x5) > self.most_4x5 || load.count(Film::Sheet8x10) > self.most_8x10 {
            return None;
        }
        let baths = self.tanks.iter().enumerate();
        let film_units = load.units();
        baths
            .filter_map(|(at, tank)| Some((self.bath(tank, load, film_units)?, at)))
            .min()
    }

    /// Why one film of a format goes into no tank; `None` if it does.
    fn refuses(&self, film: Film) -> Option<LeftOut> {
        let one = Load::of(film, 1);
        if self.fit(&one).is_some() {
            return None;
        }
        let takes = |tank: &&Tank| !matches!(tank.cover(&one), Cover::NotThisFilm(_));
        Some(match self.tanks.iter().any(takes) {
            true => LeftOut::PastTheBrim,
            false => LeftOut::NoTank,
        })
    }
}

/// As few fills as can be, and of these plans the one with the least bath, as far as that can be proved in the time of a key press:
/// [`Plan::at_least`] and [`Plan::is_least_bath`] say how far. The same films in another order give the same fills.
pub fn plan(films: &[Alike], limits: &Limits) -> Plan {
    planned(films, limits, &|packing| Some(solve(packing))).unwrap_or_default()
}

/// The plan that takes the least bath, whatever the number of fills; `None` where that cannot be proved.
pub fn thriftiest(films: &[Alike], limits: &Limits) -> Option<Plan> {
    planned(films, limits, &|packing| {
        let patterns = packing.patterns()?;
        Some(Packed {
            fills: exact(&packing.counts(), &patterns, &Cost::LEAST_BATH)?,
            at_least: 0,
            is_least_bath: true,
        })
    })
}

/// The fills of one packing.
struct Packed {
    fills: Vec<packing::Pattern>,
    at_least: usize,
    is_least_bath: bool,
}

fn planned(films: &[Alike], limits: &Limits, solve: &dyn Fn(&Packing) -> Option<Packed>) -> Option<Plan> {
    let mut plan = Plan {
        is_least_bath: true,
        ..Plan::default()
    };
    let mut order: Vec<usize> = Vec::new();
    for (at, alike) in films.iter().enumerate() {
        match limits.refuses(alike.film) {
            _ if alike.count == 0 => {}
            Some(why) => plan.left_out.push((at, why)),
            None => order.push(at),
        }
    }
    let key = |at: usize| (time(&films[at]), films[at].film as usize);
    sort(&mut order, |&one, &other| key(one) < key(other));
    // Films whose times lie too far apart, with none between that leads from one to the other, never meet.
    let within = milliseconds(limits.within);
    let near = |one: &usize, other: &usize| {
        let times = (time(&films[*one]), time(&films[*other]));
        times.0 == times.1 || matches!(times, (Some(one), Some(other)) if other - one <= within)
    };
    for group in order.chunk_by(near) {
        let (packing, lines) = packing(films, group, limits);
        let packed = solve(&packing)?;
        plan.at_least += packed.at_least;
        plan.is_least_bath &= packed.is_least_bath;
        plan.fills.extend(dealt(films, &packing, lines, packed.fills));
    }
    Some(plan)
}

fn time(films: &Alike) -> Option<i64> {
    films.time.map(milliseconds)
}

fn milliseconds(span: Span) -> i64 {
    (span.seconds() * 1e3).round() as i64
}

/// The kinds of a group of films, sorted by time and format, and which films are of each kind.
fn packing<'a>(films: &[Alike], group: &[usize], limits: &'a Limits<'a>) -> (Packing<'a>, Vec<Vec<usize>>) {
    let within = milliseconds(limits.within);
    let mut times: Vec<i64> = group.iter().filter_map(|&at| time(&films[at])).collect();
    times.dedup();
    // Times that go with the same others can stand for each other: they are one class.
    let goes_with = |time: i64| {
        let mut with = times.iter().filter(|&&other| (other - time).abs() <= within);
        let first = with.next().copied().unwrap_or(time);
        (first, with.next_back().copied().unwrap_or(first))
    };
    let classes: Vec<&[i64]> = times
        .chunk_by(|&one, &other| goes_with(one) == goes_with(other))
        .collect();
    let class_of = |at: usize| match time(&films[at]) {
        Some(time) => classes.iter().position(|class| class.contains(&time)).unwrap_or(0),
        None => 0,
    };
    let reach = classes.iter().map(|class| {
        let goes = |other: &&[i64]| other[0] - class[0] <= within;
        classes.iter().rposition(goes).unwrap_or(0)
    });
    let reach: Vec<usize> = if classes.is_empty() { vec![0] } else { reach.collect() };
    let (mut kinds, mut lines): (Vec<Kind>, Vec<Vec<usize>>) = (Vec::new(), Vec::new());
    for class in 0..reach.len() {
        for film in Film::ALL {
            let own = |at: &usize| films[*at].film == film && class_of(*at) == class;
            let own: Vec<usize> = group.iter().copied().filter(own).collect();
            if !own.is_empty() {
                kinds.push(Kind {
                    film,
                    class,
                    count: own.iter().map(|&at| films[at].count).sum(),
                });
                lines.push(own);
            }
        }
    }
    (Packing { kinds, reach, limits }, lines)
}

/// The fills with their films: of each kind those of the shortest time first.
fn dealt(films: &[Alike], packing: &Packing, lines: Vec<Vec<usize>>, mut fills: Vec<packing::Pattern>) -> Vec<Batch> {
    sort(&mut fills, |one, other| one.counts > other.counts);
    let mut left: Vec<Vec<(usize, u32)>> = lines
        .into_iter()
        .map(|own| own.into_iter().map(|at| (at, films[at].count)).collect())
        .collect();
    let mut batches = Vec::new();
    for fill in fills {
        let mut batch: Vec<(usize, u32)> = Vec::new();
        for (own, &count) in left.iter_mut().zip(&fill.counts) {
            let mut wanted = count;
            for (at, there) in own.iter_mut().filter(|(_, there)| *there > 0) {
                let taken = wanted.min(*there);
                if taken == 0 {
                    break;
                }
                *there -= taken;
                wanted -= taken;
                batch.push((*at, taken));
            }
        }
        let times = || batch.iter().filter_map(|&(at, _)| films[at].time);
        let shortest = times().reduce(Span::min);
        let load = packing.load(&fill.counts);
        let cover = match packing.limits.tanks[fill.tank].cover(&load) {
            Cover::From(cover) => cover,
            _ => Volume::ZERO,
        };
        batches.push(Batch {
            tank: fill.tank,
            load,
            cover,
            total: Volume::from_microlitres(fill.bath as i64),
            times: shortest.zip(times().reduce(Span::max)),
            films: batch,
        });
    }
    batches
}

impl Batch {
    /// How long it is developed: halfway between the shortest and the longest time of its films.
    pub fn time(&self) -> Option<Span> {
        self.times.map(|(shortest, longest)| (shortest + longest) / 2.0)
    }
}
