//! A developing and how well it repeats: its recipe, its instruments, its error budget, and what a comparison could show of it.

use super::slips::{advice, error_budget, label, repeats, shares_drawn, unmeasured, worth_mending};
use super::{Bath, Conditions, Precision, exponent_assumption, measure, poured, q10_assumption};
use crate::development::{Cause, ErrorBudget, SlipLaw};
use crate::fields::{self, Errors, Form};
use crate::kit::{House, Kit, VolumeErrors};
use crate::proof::comparison::smallest_shown;
use crate::quantity::{Units, Volume};
use crate::sheet::{Figure, Item, Sheet, Table};

/// How many times what the process repeats a difference must be before it matters. At three times, single results are out of
/// control by any control chart (ISO 7870-2); and three times the two percent of a careful hand is about where the eye notices.
pub const MARGIN: f64 = 3.0;

/// What was developed with, as far as it could be read.
pub struct Recipe<'a> {
    /// The bath.
    pub bath: Bath<'a>,
    /// Volume of concentrate.
    pub concentrate: Option<Volume>,
    /// The whole bath.
    pub total: Option<Volume>,
    /// What turns errors into contrast.
    pub law: SlipLaw,
}

impl<'a> Recipe<'a> {
    /// Reads it. What is no developer, and more concentrate than bath, are faults.
    pub fn read(form: &mut Form, kit: &'a Kit) -> Self {
        let bath = Bath::read(form, kit);
        if !bath.class.is_developer() {
            let typed = !form.at_fault("class") && form.read(&fields::CLASS).is_some();
            let field = if typed { "class" } else { "bottle" };
            form.fault(field, "only a developer shows in the density of a negative");
        }
        let concentrate = form.read(&fields::CONCENTRATE);
        let total = form.read(&fields::TOTAL);
        let fits = concentrate.zip(total).is_none_or(|(part, whole)| part <= whole);
        if !fits {
            form.fault("concentrate", "the concentrate cannot be more than the total");
        }
        let time = form.read(&fields::DEVELOPED);
        let progress = form.read(&fields::PROGRESS);
        let law = bath.slip_law(None, time, progress);
        Self {
            bath,
            concentrate: concentrate.filter(|_| fits),
            total,
            law,
        }
    }

    /// The numbers of the law that nobody measured.
    pub fn unmeasured(&self, house: &House) -> Vec<Item> {
        let units = house.units;
        let mut items = Vec::new();
        items.extend(exponent_assumption(self.law.exponent, units));
        items.extend(q10_assumption(self.bath.assumed_q10(), units));
        items.extend(unmeasured(&self.law, house));
        items
    }
}

/// How well one developing is done.
#[derive(Clone)]
pub struct Developing {
    /// Standard uncertainty of the concentrate.
    pub concentrate: Option<Volume>,
    /// Standard uncertainty of the total.
    pub total: Option<Volume>,
    /// Thermometer, timing and hand.
    pub house: House,
    /// What of it shows in contrast; `None` where something is missing.
    pub budget: Option<ErrorBudget>,
    /// Why the kit does not measure it.
    pub trouble: Vec<String>,
    /// Whether something of it was typed that cannot be read.
    spoilt: bool,
}

impl Developing {
    /// Reads how well it is done; what is not said is as in the other developing, or else as the kit and the house have it.
    pub fn read(form: &mut Form, recipe: &Recipe, kit: &Kit, errors: &Errors, other: Option<&Self>) -> Self {
        let typed = [&errors.concentrate, &errors.total].map(|field| form.read(field).map(|spread| spread / 2.0));
        let thermometer = form.read(&errors.thermometer);
        let timing = form.read(&errors.timing);
        let hand = form.read(&errors.hand);
        let house = other.map_or(kit.house_at(recipe.law.temperature), |other| other.house);
        let mut developing = Self {
            concentrate: typed[0].or(other.and_then(|other| other.concentrate)),
            total: typed[1].or(other.and_then(|other| other.total)),
            house: House {
                thermometer: thermometer.unwrap_or(house.thermometer),
                timing: timing.unwrap_or(house.timing),
                hand: hand.unwrap_or(house.hand),
                units: form.units(),
            },
            budget: None,
            trouble: Vec::new(),
            spoilt: false,
        };
        if other.is_none() {
            developing.measure(recipe, kit);
        }
        // What is typed wrongly is not silently replaced.
        developing.spoilt =
            other.is_some_and(|other| other.spoilt) || errors.names().iter().any(|name| form.at_fault(name));
        developing.budget = developing.budget_of(recipe, &developing.house);
        developing
    }

    /// The budget as it would be with such a hand, in percent of contrast.
    pub fn with_hand(&self, recipe: &Recipe, hand: f64) -> Option<ErrorBudget> {
        self.budget_of(recipe, &House { hand, ..self.house })
    }

    fn budget_of(&self, recipe: &Recipe, house: &House) -> Option<ErrorBudget> {
        if self.spoilt {
            return None;
        }
        let errors = |u: Volume| VolumeErrors::alone(&[("measuring", u.millilitres())]);
        let (concentrate, total) = (errors(self.concentrate?), errors(self.total?));
        let precision = Precision::made_up((recipe.concentrate?, &concentrate), (recipe.total?, &total));
        Some(error_budget(&recipe.law, &precision, house))
    }

    /// What is not typed, by the best way that the kit has.
    fn measure(&mut self, recipe: &Recipe, kit: &Kit) {
        let conditions = Conditions {
            density: None,
            room: recipe.total,
            from_20: recipe.bath.from_20(),
            units: self.house.units,
        };
        if let (None, Some(volume)) = (self.concentrate, recipe.concentrate) {
            match measure(kit, volume, conditions) {
                Ok(ways) => self.concentrate = Some(ways[0].standard_uncertainty()),
                Err(sentence) => self.trouble.push(sentence),
            }
        }
        if let (None, Some(volume)) = (self.total, recipe.total) {
            match measure(kit, volume, conditions) {
                Ok(ways) => self.total = poured(&ways).map(|way| way.standard_uncertainty()),
                Err(sentence) => self.trouble.push(sentence),
            }
        }
    }

    /// What the kit cannot measure, as cautions.
    pub fn cautions(&self) -> impl Iterator<Item = Item> {
        let ask = |sentence: &String| {
            Item::Caution(format!(
                "{sentence} Or type how well it is measured, and the budget appears."
            ))
        };
        self.trouble.iter().map(ask)
    }

    /// What a cause is off by, as a standard uncertainty.
    fn off_by(&self, cause: Cause) -> Figure {
        let units = self.house.units;
        let volume = |volume: Option<Volume>| {
            let volume = volume.unwrap_or(Volume::ZERO);
            let shown = units.volume_error(volume);
            Figure {
                shown,
                ..Figure::volume("cause_off", "is off by", volume, units)
            }
        };
        let third = 3f64.sqrt();
        match cause {
            Cause::Concentrate => volume(self.concentrate),
            Cause::Total => volume(self.total),
            Cause::Temperature => {
                let off = self.house.thermometer / third;
                Figure::temperature_difference("cause_off", "is off by", off, units)
            }
            Cause::Time => Figure::seconds("cause_off", "is off by", self.house.timing / third, units),
            Cause::Hand => Figure::percent("cause_off", "is off by", self.house.hand / 100.0, units),
        }
    }
}

/// How many rolls of each are told of.
const ROLLS: [u32; 5] = [1, 2, 3, 5, 10];

/// The sheet of one developing's error budget.
pub fn budget_sheet(sheet: &mut Sheet, recipe: &Recipe, developing: &Developing, units: Units) {
    let Some(budget) = &developing.budget else {
        sheet.part("What is still needed", developing.cautions().collect());
        return;
    };
    let combined = budget.combined();
    let two = combined * std::f64::consts::SQRT_2;
    sheet.headline.push(repeats(budget, units));
    sheet
        .headline
        .push(Figure::percent("two_differ", "Two such negatives differ by", two, units).assumed());
    let largest = budget.shares().into_iter().max_by(|a, b| a.1.total_cmp(&b.1));
    if let Some((cause, _)) = largest {
        let place = budget.causes.iter().position(|(other, _)| *other == cause).unwrap_or(0);
        sheet
            .headline
            .push(Figure::word("largest", "Most of it is", place, label(cause)));
        let mut todo: Vec<Item> = worth_mending(budget).map(Item::Text).into_iter().collect();
        let halved = budget.halved(cause).combined();
        todo.push(Item::Text(format!(
            "Were {} only half as far off, contrast would repeat to {} instead of {}.{}",
            label(cause),
            units.percent(halved),
            units.percent(combined),
            match cause {
                Cause::Hand => format!(" {}", advice(cause)),
                _ => String::new(),
            }
        )));
        sheet.part("What to do", todo);
    }
    let shares = shares_drawn(
        budget,
        "What makes two negatives differ: shares of the error budget",
        units,
    );
    sheet.part(
        "Where it comes from",
        vec![
            Item::Picture(shares),
            Item::Table(causes(budget, developing, units)),
            Item::Text("All are standard uncertainties; about one time in three it is more.".to_owned()),
        ],
    );
    sheet.part("What a comparison can show", comparisons(recipe, combined, units));
    sheet.background("Nobody measured this", recipe.unmeasured(&developing.house));
}

fn causes(budget: &ErrorBudget, developing: &Developing, units: Units) -> Table {
    let rows = budget.causes.iter().map(|&(cause, u)| {
        let halved = budget.halved(cause).combined();
        let figures = vec![
            developing.off_by(cause),
            Figure::percent("cause_contrast", "contrast", u, units).assumed(),
            Figure::percent("cause_halved", "halved, contrast repeats to", halved, units).assumed(),
        ];
        (label(cause).to_owned(), figures)
    });
    Table {
        heads: ["From", "is off by", "contrast", "halved, contrast repeats to"]
            .map(str::to_owned)
            .to_vec(),
        rows: rows.collect(),
    }
}

/// The least loss of strength that rolls of each would show to be more than the margin.
fn comparisons(recipe: &Recipe, combined: f64, units: Units) -> Vec<Item> {
    let margin = MARGIN * combined;
    let rows = ROLLS.iter().map(|&rolls| {
        let contrast = smallest_shown(combined, rolls, margin);
        let mut figures = vec![Figure::percent("shows_contrast", "contrast", contrast, units).assumed()];
        let strength = recipe.law.same_as(-contrast).map(|same| same.strength);
        let lost = |strength: f64| units.percent(1.0 - strength);
        figures.push(match strength {
            Some(band) => Figure::percent("shows_strength", "strength lost", 1.0 - band.value, units)
                .between(&lost(band.most), &lost(band.least))
                .assumed(),
            None => Figure::word("shows_strength", "strength lost", 0, "more than all"),
        });
        let label = match rolls {
            1 => "1 roll of each".to_owned(),
            many => format!("{many} rolls of each"),
        };
        (label, figures)
    });
    vec![
        Item::Table(Table {
            heads: ["Compared", "contrast", "strength lost"].map(str::to_owned).to_vec(),
            rows: rows.collect(),
        }),
        Item::Text(format!(
            "The least that is found to be weaker in four cases of five, each roll developed by itself. A difference up to {} of \
             contrast, three times what it repeats, is taken not to matter.",
            units.percent(margin)
        )),
    ]
}
