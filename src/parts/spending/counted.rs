//! Counting what the ledger says of each product between two days.

use crate::keeping::{Case, Limits, State, Tested, Trusted, judge, stated};
use crate::kit::Climate;
use crate::ledger::{Bottle, Draw, Shelf, What};
use crate::parts::lives::by_label;
use crate::parts::trust::tests;
use crate::quantity::{Day, Volume};

/// What was spent of a product.
#[derive(Clone)]
pub struct Row {
    pub product: String,
    pub is_developer: bool,
    /// Whether it was mixed from other bottles, and so is counted with them already.
    pub is_mixed: bool,
    pub used: Volume,
    pub thrown: Volume,
    pub saved: Volume,
    /// Film units that went through it.
    pub films: f64,
    /// All that in money, where it is known.
    pub worth: Option<Worth>,
    /// Whether some of it has no price.
    pub unpriced: bool,
    /// Whether what was saved rests on a life that is only assumed.
    pub assumed: bool,
}

/// The same in money.
#[derive(Clone, Default)]
pub struct Worth {
    pub currency: String,
    pub used: f64,
    pub thrown: f64,
    pub saved: f64,
}

/// A row for each product that something was used or thrown away of, or film went through, in the order in which they came.
pub fn rows(shelf: &Shelf, from: Day, to: Day, room: Climate) -> Vec<Row> {
    let within = |day: Day| (from..=to).contains(&day);
    let mut rows: Vec<Row> = Vec::new();
    for bottle in &shelf.bottles {
        let draws: Vec<&Draw> = bottle.draws.iter().filter(|draw| within(draw.day)).collect();
        let used: Volume = draws.iter().map(|draw| draw.volume).sum();
        let discarded = bottle.discarded.as_ref().filter(|discarded| within(discarded.day));
        let thrown = discarded.map_or(Volume::ZERO, |_| bottle.account.discarded);
        let films = bottle.films.iter().filter(|films| within(films.day));
        let films: f64 = films.map(|films| films.units.number()).sum();
        if used + thrown <= Volume::ZERO && films <= 0.0 {
            continue;
        }
        let (saved, assumed) = saved(shelf, bottle, &draws, room);
        let root = root(shelf, bottle);
        let is_mixed = is_mixed(shelf, root);
        let per_millilitre = if is_mixed { None } else { unit_price(root) };
        let one = Row {
            product: bottle.is.label.product.clone(),
            is_developer: bottle.is.label.class.is_developer(),
            is_mixed,
            used,
            thrown,
            saved,
            films,
            worth: per_millilitre.map(|(price, currency)| Worth {
                currency: currency.to_owned(),
                used: used.millilitres() * price,
                thrown: thrown.millilitres() * price,
                saved: saved.millilitres() * price,
            }),
            unpriced: per_millilitre.is_none() && !is_mixed && used + thrown > Volume::ZERO,
            assumed,
        };
        match rows.iter_mut().find(|row| same(row, &one)) {
            Some(row) => row.add(&one),
            None => rows.push(one),
        }
    }
    rows
}

/// Everything together: what was mixed is not counted twice, a film is counted once however many baths it went through.
pub fn whole(rows: &[Row]) -> Row {
    let mut whole = Row {
        product: String::new(),
        is_developer: true,
        is_mixed: false,
        used: Volume::ZERO,
        thrown: Volume::ZERO,
        saved: Volume::ZERO,
        films: 0.0,
        worth: None,
        unpriced: false,
        assumed: false,
    };
    for row in rows.iter().filter(|row| !row.is_mixed) {
        whole.add(&Row {
            films: 0.0,
            ..row.clone()
        });
    }
    let priced = || rows.iter().filter_map(|row| row.worth.as_ref());
    if priced().any(|worth| priced().any(|other| other.currency != worth.currency)) {
        whole.worth = None;
    }
    let developed: f64 = rows.iter().filter(|row| row.is_developer).map(|row| row.films).sum();
    whole.films = match developed > 0.0 {
        true => developed,
        false => rows.iter().map(|row| row.films).fold(0.0, f64::max),
    };
    whole
}

impl Row {
    fn add(&mut self, other: &Self) {
        self.used = self.used + other.used;
        self.thrown = self.thrown + other.thrown;
        self.saved = self.saved + other.saved;
        self.films += other.films;
        self.unpriced |= other.unpriced;
        self.assumed |= other.assumed;
        if let Some(worth) = &other.worth {
            let own = self.worth.get_or_insert_with(|| Worth {
                currency: worth.currency.clone(),
                ..Worth::default()
            });
            own.used += worth.used;
            own.thrown += worth.thrown;
            own.saved += worth.saved;
        }
    }
}

/// Whether two are counted together: of one product, and in one currency where both have a price.
fn same(row: &Row, other: &Row) -> bool {
    let currency = |row: &Row| row.worth.as_ref().map(|worth| worth.currency.clone());
    let in_one = match (currency(row), currency(other)) {
        (Some(one), Some(another)) => one == another,
        _ => true,
    };
    row.product == other.product && row.is_mixed == other.is_mixed && in_one
}

/// The bottle in which its content came to the shelf.
fn root<'a>(shelf: &'a Shelf, bottle: &'a Bottle) -> &'a Bottle {
    shelf.stood_in(bottle).last().unwrap_or(bottle)
}

fn is_mixed(shelf: &Shelf, bottle: &Bottle) -> bool {
    let begun = bottle.entries.first().map(|entry| &shelf.events[entry.event].what);
    matches!(begun, Some(What::Mixed { .. }))
}

/// What a millilitre cost, and in which currency: the price over what it was sold as, or else over what was in it when it came.
fn unit_price(bottle: &Bottle) -> Option<(f64, &str)> {
    let price = bottle.is.price.as_ref()?;
    let bought = bottle.is.container.nominal.unwrap_or(bottle.account.came);
    let each = f64::from(price.cents) / 100.0 / bought.millilitres();
    each.is_finite().then_some((each, price.currency.as_str()))
}

/// What of the draws was used after the stated life was over, or since a test proved it that its state had asked for; and whether
/// that rests on a life that is only assumed.
fn saved(shelf: &Shelf, bottle: &Bottle, draws: &[&Draw], room: Climate) -> (Volume, bool) {
    let assumptions = by_label(bottle);
    let share = |day: Day| {
        let life = shelf.life_until(bottle.id.as_str(), day, room)?;
        Some(stated(&life.life().ok()?, &assumptions)?.value)
    };
    let tests = tests(shelf, bottle);
    let asked_for = |day: Day| {
        let before: Vec<Tested> = tests.iter().filter(|test| test.day < day).copied().collect();
        let Some(told) = shelf.life_until(bottle.id.as_str(), day, room) else {
            return false;
        };
        let state = told.life().map(|life| {
            let case = Case {
                life: &life,
                assumptions: &assumptions,
                tests: &before,
                trusted: Trusted::STATED,
                limits: &Limits::default(),
            };
            judge(&case).state
        });
        matches!(state, Ok(State::TestFirst | State::Unknown | State::Failed))
    };
    let proofs: Vec<Day> = tests
        .iter()
        .filter(|test| test.passed && asked_for(test.day))
        .map(|test| test.day)
        .collect();
    // A life only grows, so that the last draw tells whether any was past it.
    let last = draws.iter().map(|draw| draw.day).max();
    let any_past = last.is_some_and(|day| share(day).is_some_and(|share| share > 1.0));
    let is_saved = |draw: &&&Draw| {
        let last_test = tests
            .iter()
            .filter(|test| test.day <= draw.day)
            .max_by_key(|test| test.day);
        let failed = last_test.is_some_and(|test| !test.passed);
        let proved = proofs.iter().any(|day| *day <= draw.day);
        !failed && (proved || (any_past && share(draw.day).is_some_and(|share| share > 1.0)))
    };
    let volume: Volume = draws.iter().filter(is_saved).map(|draw| draw.volume).sum();
    let assumed = assumptions.lives.is_some_and(|lives| lives.assumed()) || bottle.now.place.is_none();
    (volume, volume > Volume::ZERO && assumed)
}
