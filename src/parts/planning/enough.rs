//! Whether a day's baths are enough, what falls short, and the ways out.

use super::super::counted;
use super::{Fills, Pool, text};
use crate::kit::{Batch, Limits, Load, thriftiest};
use crate::proof::still_takes;
use crate::quantity::{Dilution, Units, Volume};
use crate::sheet::{Figure, Item};

/// Whether there is enough of it all; the worse stands later.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Enough {
    Yes,
    NoSpare,
    NotKnown,
    NotForAll,
    No,
}

impl Enough {
    pub fn words(self) -> &'static str {
        match self {
            Self::Yes => "yes",
            Self::NoSpare => "yes, but nothing to spare",
            Self::NotKnown => "not known",
            Self::NotForAll => "not for all films",
            Self::No => "no",
        }
    }
}

impl Fills<'_> {
    /// Of developer, fixer and stop bath.
    pub(super) fn enough(&self, units: Units) -> (Enough, Vec<Item>) {
        let (mut answer, mut items) = self.developer(units);
        if !self.plan.left_out.is_empty() {
            answer = answer.max(Enough::NotForAll);
        }
        for pool in [&self.planning.fixer, &self.planning.stop] {
            let (of_pool, said) = self.pool(pool, units);
            answer = answer.max(of_pool);
            items.extend(said);
        }
        let silent = [&self.planning.fixer, &self.planning.stop];
        let silent: Vec<&str> = silent
            .iter()
            .filter(|pool| pool.is_silent())
            .map(|pool| pool.name)
            .collect();
        if !silent.is_empty() {
            items.push(Item::Text(format!(
                "Of {} nothing is said here: type how much is ready and how many films it still takes.",
                silent.join(" and ")
            )));
        }
        (answer, items)
    }

    fn developer(&self, units: Units) -> (Enough, Vec<Item>) {
        let planning = self.planning;
        let Some(all) = planning.first(self.total()) else {
            return (
                Enough::NotKnown,
                vec![text(
                    "Whether the developer is enough is not known here: that takes a dilution by volume.",
                )],
            );
        };
        let largest = self
            .plan
            .fills
            .iter()
            .filter_map(|fill| planning.first(fill.total))
            .fold(Volume::ZERO, Volume::max);
        let wanted = all + largest * f64::from(planning.spare);
        let label = match planning.spare {
            0 => "All fills take",
            1 => "With the spare fill",
            _ => "With the spare fills",
        };
        let mut items = vec![Item::Figure(Figure::volume("wanted", label, wanted, units))];
        let Some(left) = planning.left else {
            items.push(Item::Text(format!(
                "Look how much {} is left, and type it: {} must be there.",
                planning.name,
                units.volume(wanted)
            )));
            return (Enough::NotKnown, items);
        };
        items.push(Item::Figure(Figure::volume("left", "Left in the bottle", left, units)));
        let second = planning.concentrates(self.total()).get(1).copied();
        if let Some(second) = second {
            items.push(Item::Text(format!(
                "Look whether the second part is enough, too: {} without a spare.",
                units.volume(second)
            )));
        }
        // Of the second part nobody says how much there is.
        let known = |answer| if second.is_some() { Enough::NotKnown } else { answer };
        if left.reaches(wanted) {
            items.push(Item::Text(format!(
                "Enough {}: {} stay in the bottle after {}.",
                planning.name,
                units.volume((left - all).max(Volume::ZERO)),
                fills(self.plan.fills.len())
            )));
            return (known(Enough::Yes), items);
        }
        if left.reaches(all) {
            items.push(Item::Caution(format!(
                "Enough {} for {}, but nothing to spare: {} more must be there.",
                planning.name,
                fills(self.plan.fills.len()),
                units.volume(wanted - left)
            )));
            return (known(Enough::NoSpare), items);
        }
        let count = self.plan.fills.len();
        items.push(Item::Caution(format!(
            "Short of {}: {} for {} that {} {}. These are the ways out.",
            planning.name,
            units.volume(left),
            fills(count),
            take(count),
            units.volume(all)
        )));
        items.push(Item::Figure(Figure::volume(
            "way_out_more",
            "Get so much more",
            wanted - left,
            units,
        )));
        items.push(self.those_it_reaches_for(left, units));
        items.extend(self.thriftier(left, units));
        items.extend(self.thinner(left));
        (Enough::No, items)
    }

    /// The first fills, as long as it lasts.
    fn those_it_reaches_for(&self, left: Volume, units: Units) -> Item {
        let (mut sum, mut reached) = (Volume::ZERO, Vec::new());
        for fill in self.in_order() {
            let concentrate = self.planning.first(fill.total).unwrap_or_default();
            if !left.reaches(sum + concentrate) {
                break;
            }
            sum = sum + concentrate;
            reached.push(fill);
        }
        let load: Load = reached.iter().map(|fill| fill.load).sum();
        Item::Text(match reached.len() {
            0 => "It does not even reach for the first fill.".to_owned(),
            count => format!(
                "Fewer films: it reaches for the first {} with {}, which {} {}.",
                match count {
                    1 => "fill".to_owned(),
                    count => fills(count),
                },
                load.words(),
                take(count),
                units.volume(sum)
            ),
        })
    }

    /// More fills that take less together.
    fn thriftier(&self, left: Volume, units: Units) -> Vec<Item> {
        let planning = self.planning;
        let Some(plan) = thriftiest(&planning.films(), &planning.limits) else {
            return Vec::new();
        };
        let total: Volume = plan.fills.iter().map(|fill| fill.total).sum();
        if total.reaches(self.total()) {
            return vec![text("More or smaller fills would not take less.")];
        }
        let all = planning.first(total).unwrap_or_default();
        let enough = if left.reaches(all) {
            "which is there"
        } else {
            "which is still more than there is"
        };
        let figure = Figure::volume("way_out_fills", "More fills would take", all, units);
        let words = Item::Text(format!(
            "With {} it is the least, {enough}. {}",
            fills(plan.fills.len()),
            self.said(&plan.fills)
        ));
        vec![Item::Figure(figure), words]
    }

    /// Which films go into which tank, in a sentence.
    fn said(&self, fills: &[Batch]) -> String {
        let mut alike: Vec<(String, usize)> = Vec::new();
        for fill in fills {
            let words = format!("{} in the {}", fill.load.words(), self.tank(fill));
            match alike.iter_mut().find(|(other, _)| *other == words) {
                Some((_, times)) => *times += 1,
                None => alike.push((words, 1)),
            }
        }
        let said = alike.into_iter().map(|(words, times)| match times {
            1 => words,
            _ => format!("{times} times {words}"),
        });
        format!("That is {}.", said.collect::<Vec<_>>().join(", "))
    }

    /// The same fills with so much more water that the bottle reaches, if each still holds the least for its film.
    fn thinner(&self, left: Volume) -> Option<Item> {
        let planning = self.planning;
        let (Some(Dilution::Parts(parts)), Some(least)) = (&planning.dilution, planning.least) else {
            return None;
        };
        let dilution = Dilution::Parts(*parts);
        let (second, water) = (parts.second_to_one(), parts.water_to_one());
        let reaches = |more: &u32| {
            let parts = 1.0 + second + f64::from(*more);
            let limits = Limits {
                per_unit: least * parts,
                ..planning.limits.clone()
            };
            let total = |fill: &Batch| limits.total(fill.tank, &fill.load);
            let totals: Option<Vec<Volume>> = self.plan.fills.iter().map(total).collect();
            totals.is_some_and(|totals| totals.into_iter().sum::<Volume>() / parts <= left)
        };
        // More than twice the water makes another developer of it.
        let found = (water.floor() as u32 + 1..=(water * 2.0) as u32).find(reaches)?;
        let thinner = dilution.with_first_share(1.0 / (1.0 + second + f64::from(found)))?;
        Some(Item::Text(format!(
            "Thinner: at {thinner} it reaches, and holds the least for every film. Its times are others: only by the data sheet."
        )))
    }

    /// A bath that is poured back: whether it covers every fill's film, and takes all of it.
    fn pool(&self, pool: &Pool, units: Units) -> (Enough, Vec<Item>) {
        let mut items = Vec::new();
        let mut answer = Enough::Yes;
        let most = self
            .plan
            .fills
            .iter()
            .map(|fill| fill.cover)
            .fold(Volume::ZERO, Volume::max);
        match pool.volume {
            Some(volume) if !volume.reaches(most) => {
                answer = Enough::No;
                items.push(Item::Caution(format!(
                    "{} of {} does not cover every fill: make it {}.",
                    units.volume(volume),
                    pool.name,
                    units.volume(most)
                )));
            }
            _ => {}
        }
        let film = self.load().units();
        match pool.films {
            Some(films) if !still_takes(f64::from(films), film) => {
                answer = Enough::No;
                let mut through = 0.0;
                let lasts = self.in_order().take_while(|fill| {
                    through += fill.load.units();
                    still_takes(f64::from(films), through)
                });
                items.push(Item::Caution(format!(
                    "The {} takes {} more, and {} come: mix it afresh before fill {}.",
                    pool.name,
                    counted(films as usize, "film"),
                    units.number(film, 2),
                    lasts.count() + 1
                )));
            }
            _ => {}
        }
        if items.is_empty() && !pool.is_silent() {
            match (pool.volume, pool.films) {
                (Some(_), Some(_)) => items.push(Item::Text(format!("The {} is enough.", pool.name))),
                (Some(_), None) => items.push(Item::Text(format!(
                    "The {} covers every fill. Type how many films it still takes: {} come.",
                    pool.name,
                    units.number(film, 2)
                ))),
                _ => items.push(Item::Text(format!(
                    "The {} takes the film. Type how much of it there is: {} must be there.",
                    pool.name,
                    units.volume(most)
                ))),
            }
            if pool.volume.is_none() || pool.films.is_none() {
                answer = Enough::NotKnown;
            }
        }
        (answer, items)
    }
}

impl Pool {
    fn is_silent(&self) -> bool {
        self.volume.is_none() && self.films.is_none()
    }
}

fn take(fills: usize) -> &'static str {
    if fills == 1 { "takes" } else { "take" }
}

fn fills(count: usize) -> String {
    match count {
        1 => "one fill".to_owned(),
        count => format!("{count} fills"),
    }
}
