//! Whether a fill covers the film, stays below the brim, and holds enough concentrate; and every way out when it does not.

use super::text;
use crate::development::{Parameter, RateLaw};
use crate::kit::{Cover, Load, Tank, Turning};
use crate::quantity::power::power;
use crate::quantity::{Dilution, Temperature, Units, Volume};
use crate::sheet::{Figure, Item, Picture};

/// A fill, as far as it is known.
pub struct Fill<'a> {
    /// The whole bath.
    pub total: Volume,
    /// How it is made.
    pub dilution: &'a Dilution,
    /// What is loaded.
    pub load: &'a Load,
    /// Into which tank.
    pub tank: Option<&'a Tank>,
    /// Least concentrate for one film unit.
    pub least_per_film: Option<Volume>,
    /// The law of its rate.
    pub law: Option<&'a RateLaw>,
    /// Dilution exponent, law or no law.
    pub exponent: Parameter,
    /// Temperature of the bath.
    pub temperature: Option<Temperature>,
    /// Strength of the bottle, where it is known.
    pub strength: Option<f64>,
    /// Whether it is a developer, whose time follows its strength.
    pub is_developer: bool,
}

/// Whether the total covers the load in the tank and stays below the brim; without a total, what it would have to be.
pub fn filling(total: Option<Volume>, load: &Load, tank: Option<&Tank>, units: Units) -> Vec<Item> {
    let Some(tank) = tank else {
        return vec![text("No tank is chosen, so nothing is said of covering the film.")];
    };
    let cover = tank.cover(load);
    let mut items = Vec::new();
    let drawn = match cover {
        Cover::From(cover) if !load.is_empty() => Some(cover),
        _ => None,
    };
    items.extend(total.map(|total| Item::Picture(tank_picture(tank, load, total, drawn, units))));
    match cover {
        Cover::From(cover) => {
            if !load.is_empty() {
                items.push(Item::Figure(Figure::volume(
                    "cover",
                    "Covers the film from",
                    cover,
                    units,
                )));
            }
            items.push(Item::Figure(Figure::volume("brim", "Brim", tank.brim, units)));
            items.extend(total.map(|total| covering(total, cover, tank, load, units)));
        }
        Cover::NotThisFilm(film) => items.push(Item::Caution(format!(
            "The {} takes no {} film. Choose another tank, or say in Kit what covers it.",
            tank.name,
            film.label()
        ))),
        Cover::TooMany(needed) => items.push(Item::Caution(format!(
            "{} would need {}, and the {} holds {} at the brim. {}",
            load.words(),
            units.volume(needed),
            tank.name,
            units.volume(tank.brim),
            most_that_fit(tank, load)
        ))),
    }
    items
}

/// A tank with so much in it, and how far up that covers the film.
pub(super) fn tank_picture(tank: &Tank, load: &Load, total: Volume, cover: Option<Volume>, units: Units) -> Picture {
    Picture::Tank {
        caption: format!("{} with {}, holding {}", tank.name, load.words(), units.volume(total)),
        fill: total / tank.brim,
        cover: cover.map(|cover| cover / tank.brim),
        shown: [
            units.volume(total),
            cover.map(|cover| units.volume(cover)).unwrap_or_default(),
            units.volume(tank.brim),
        ],
    }
}

/// Whether the concentrate suffices for the film.
pub fn capacity(fill: &Fill, units: Units) -> Vec<Item> {
    let Some(share) = fill.dilution.first_share() else {
        return Vec::new();
    };
    let have = fill.total * share;
    if fill.load.is_empty() {
        return Vec::new();
    }
    let film_units = fill.load.units();
    let mut items = vec![
        Item::Figure(Figure::number(
            "film_units",
            "Film units (a roll of 135 or 120 is one)",
            film_units,
            2,
            units,
        )),
        Item::Figure(Figure::volume(
            "per_film",
            "Concentrate for each",
            have / film_units,
            units,
        )),
    ];
    let Some(least) = fill.least_per_film else {
        items.push(text(
            "Whether that is enough only the product's data sheet can say: type its least concentrate per film.",
        ));
        return items;
    };
    let need = least * film_units;
    items.push(Item::Figure(Figure::volume(
        "need",
        "The data sheet wants",
        need,
        units,
    )));
    // What was read off a sheet, to hundredths, and typed back is no lack.
    if have.reaches(need * 0.999) {
        items.push(Item::Text(match have / need {
            spare if spare < 1.005 => format!("Enough for {}, just.", fill.load.words()),
            spare => format!(
                "Enough: {} times the least for {}.",
                units.number(spare, 2),
                fill.load.words()
            ),
        }));
        return items;
    }
    items.push(Item::Caution(format!(
        "Short of concentrate: {} for {}, where the data sheet wants {}. These are the ways out.",
        units.volume(have),
        fill.load.words(),
        units.volume(need)
    )));
    items.extend(more_volume(fill, need / share, units));
    items.extend(fewer_films(fill, have, least, units));
    items.extend(richer(fill, need, units));
    items
}

impl Fill<'_> {
    /// Least and most total that cover the film, stay below the brim and hold enough; a tenth less or more where no tank says
    /// otherwise.
    pub fn range(&self) -> (Volume, Volume) {
        let need = self.least_per_film.unwrap_or_default() * self.load.units();
        let enough = self.dilution.first_share().map_or(Volume::ZERO, |share| need / share);
        match self.tank.map(|tank| (tank.cover(self.load), tank.brim)) {
            Some((Cover::From(cover), brim)) => (cover.max(enough), brim),
            _ => ((self.total * 0.9).max(enough), self.total * 1.1),
        }
    }
}

fn covering(total: Volume, cover: Volume, tank: &Tank, load: &Load, units: Units) -> Item {
    if !tank.brim.reaches(total) {
        return Item::Caution(format!(
            "{} is {} more than the {} holds. Make {} at most, or take a larger tank.",
            units.volume(total),
            units.volume(total - tank.brim),
            tank.name,
            units.volume(tank.brim)
        ));
    }
    if !total.reaches(cover) {
        return Item::Caution(format!(
            "{} does not cover {}: make at least {}, {} more, at the same dilution.",
            units.volume(total),
            load.words(),
            units.volume(cover),
            units.volume(cover - total)
        ));
    }
    let covered = match tank.turning {
        _ if load.is_empty() => "",
        Turning::Inversion => "the film stands covered, and ",
        Turning::Rotary => "it is enough for a rolling drum, and ",
    };
    Item::Text(format!(
        "It fits: {covered}{} stay free below the brim.",
        units.volume(tank.brim - total)
    ))
}

/// How many of a load's films go in, where they are all of one format.
fn most_that_fit(tank: &Tank, load: &Load) -> String {
    let Some(film) = load.only_format() else {
        return "Load fewer films, or divide them over several fills.".to_owned();
    };
    let most = (1..load.count(film))
        .rev()
        .find(|&count| matches!(tank.cover(&Load::of(film, count)), Cover::From(_)));
    match most {
        Some(count) => format!(
            "At most {} go in; divide them over {} fills.",
            Load::of(film, count).words(),
            load.count(film).div_ceil(count)
        ),
        None => "Not one goes in; choose another tank.".to_owned(),
    }
}

fn more_volume(fill: &Fill, total: Volume, units: Units) -> Vec<Item> {
    let fits = fill.tank.is_none_or(|tank| total <= tank.brim);
    let text = match fits {
        true => "More volume at the same dilution and time.".to_owned(),
        false => {
            "More volume at the same dilution would hold enough, but not in this tank: take a larger one.".to_owned()
        }
    };
    vec![
        Item::Figure(Figure::volume("way_out_total", "Total that holds enough", total, units)),
        Item::Text(text),
    ]
}

fn fewer_films(fill: &Fill, have: Volume, least: Volume, units: Units) -> Vec<Item> {
    let film_units = have / least;
    let mut items = vec![Item::Figure(Figure::number(
        "way_out_film_units",
        "Enough for film units",
        film_units,
        2,
        units,
    ))];
    if let Some(film) = fill.load.only_format() {
        let count = (film_units / film.units() + 1e-9).floor() as u32;
        items.push(Item::Text(match count {
            0 => format!("Not even one {} at this dilution and volume.", film.label()),
            _ => format!("Fewer films: {} at a time.", Load::of(film, count).words()),
        }));
    }
    items
}

fn richer(fill: &Fill, need: Volume, units: Units) -> Vec<Item> {
    let share = need / fill.total;
    let Some(dilution) = fill.dilution.with_first_share(share) else {
        return vec![text(
            "No dilution holds enough in this volume: even undiluted it would be short.",
        )];
    };
    let mut items = vec![Item::Text(format!(
        "A richer dilution: {dilution}, in the same volume."
    ))];
    let strength = dilution.strength();
    if !fill.is_developer {
        return items;
    }
    let conditions = fill.temperature.zip(fill.strength).zip(fill.law);
    let prediction = conditions.map(|((temperature, bottle), law)| law.time(temperature, strength, bottle));
    match prediction {
        Some(prediction) => {
            let figure = Figure::span("way_out_time", "Its time", prediction.time, units);
            items.push(Item::Figure(match prediction.band {
                (shortest, longest) if shortest == longest => figure,
                (shortest, longest) => figure.between(&units.span(shortest), &units.span(longest)).assumed(),
            }));
        }
        None => {
            let factor = |n: f64| power(fill.dilution.strength() / strength, n);
            let n = fill.exponent;
            items.push(Item::Figure(
                Figure::percent(
                    "way_out_time_share",
                    "Its time, of the usual one",
                    factor(n.value),
                    units,
                )
                .between(&units.percent(factor(n.most)), &units.percent(factor(n.least)))
                .assumed_if(n.is_assumed()),
            ));
        }
    }
    items
}
