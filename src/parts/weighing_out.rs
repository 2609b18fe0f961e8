//! A bath from powders, said as a sheet: what to weigh in which order, what is too little for the balance, what it costs.

mod words;

use super::measuring::pictures_of;
use super::{Conditions, measure, money, poured, text};
use crate::chemistry::{Class, FIRST_WATER, Formula, Line, Recipe, SULFITE_PER_OXYGEN, Substance, What, water_density};
use crate::fields::{self, Form, PackPrice};
use crate::keeping::{ONE_ATMOSPHERE, dissolved};
use crate::kit::{Kit, Solution, Weight};
use crate::quantity::text::capital;
use crate::quantity::{Mass, Temperature, TemperatureDifference, Units, Volume};
use crate::sheet::{self, Figure, Item, Sheet, Table, Text};
use crate::uncertainty::COVERAGE;

/// A bath to be made from powders, as far as the form could be read.
pub struct WeighingOut<'a> {
    formula: Option<&'static Formula>,
    recipe: Recipe,
    volume: Volume,
    /// The 95 % half-width that each weight may have, as a share of it.
    good_to: f64,
    prices: Vec<PackPrice>,
    currency: String,
    /// Forms at hand that the recipe has no use for.
    unused: Vec<&'static str>,
    weighed: Vec<Weighed<'a>>,
}

/// One line of the recipe on the user's balance.
struct Weighed<'a> {
    wanted: Mass,
    weight: Option<Weight<'a>>,
    /// Whether no balance of the kit weighs it as exactly as it is wanted.
    too_coarse: bool,
    /// What helps then.
    solution: Option<Solution<'a>>,
}

/// What stands in the field at first, where it could not be read.
const GOOD_TO: f64 = 5.0;
/// The least share of the bath that is left for what is drawn from solutions.
const REST: f64 = 1.0 - FIRST_WATER;
/// At which temperature a bath is made up, and water comes from a tap.
const COOL: Temperature = Temperature::from_celsius(20.0);
/// Head of what is weighed, or drawn of a solution.
const WEIGH: &str = "weigh or draw";
/// Most weights that stand in the head of the sheet.
const FEW: usize = 6;
/// Steps and the most of a larger bath that is advised.
const STEP: Volume = Volume::from_millilitres(100.0);
const MOST_STEPS: u32 = 200;

impl<'a> WeighingOut<'a> {
    /// Reads the form. What cannot be is a fault; `None` where nothing is left to weigh.
    pub fn read(form: &mut Form, kit: &'a Kit) -> Option<Self> {
        let formula = form.read(&fields::PUBLISHED);
        let own = match formula {
            Some(None) => form.read(&fields::LINES),
            _ => {
                form.pass_over(&["lines"]);
                None
            }
        };
        let volume = form.read(&fields::MADE);
        let forms = form.read(&fields::FORMS).unwrap_or_default();
        let good_to = form.read(&fields::WEIGHT_GOOD_TO).unwrap_or(GOOD_TO) / 100.0;
        let prices = form.read(&fields::PRICES).unwrap_or_default();
        let currency = form.read(&fields::PRICES_IN).unwrap_or_default();
        let formula = formula?;
        let recipe = match formula {
            Some(formula) => Recipe::published(formula),
            None => Recipe::new(own?),
        };
        let volume = volume?;
        let has_salt_of = |form: &Substance| {
            let known = recipe.lines().iter().filter_map(|line| line.substance());
            known.into_iter().any(|substance| substance.is_salt_of(form))
        };
        let unused = forms.iter().filter(|form| !has_salt_of(form)).map(|form| form.name);
        let unused = unused.collect();
        let recipe = recipe.in_forms(&forms);
        let mut weighed: Vec<Weighed> = recipe
            .lines()
            .iter()
            .map(|line| Weighed::of(line.mass(volume), good_to, kit))
            .collect();
        let coarse = weighed.iter().filter(|one| one.too_coarse).count().max(1);
        for (one, line) in weighed.iter_mut().zip(recipe.lines()).filter(|(one, _)| one.too_coarse) {
            let dissolves = line.substance().map_or(1.0, |substance| substance.dissolves);
            one.solution = kit.solution(
                one.wanted,
                dissolves,
                good_to / COVERAGE,
                volume * (REST / coarse as f64),
            );
        }
        Some(Self {
            formula,
            recipe,
            volume,
            good_to,
            prices,
            currency,
            unused,
            weighed,
        })
    }

    /// The smallest larger bath, in steps, of which every weight is good enough.
    fn large_enough(&self, kit: &Kit) -> Option<Volume> {
        let larger = (1..=MOST_STEPS).map(|steps| STEP * f64::from(steps));
        let mut larger = larger.filter(|volume| *volume > self.volume);
        larger.find(|&volume| {
            let mut lines = self.recipe.lines().iter();
            lines.all(|line| {
                let one = Weighed::of(line.mass(volume), self.good_to, kit);
                one.weight.is_some() && !one.too_coarse
            })
        })
    }

    /// The mark of warm water that is short once it is cold, as a share of the volume.
    fn shrinks(&self) -> f64 {
        1.0 - water_density(self.recipe.water()) / water_density(COOL)
    }

    /// Sulfite that takes up all oxygen of the first water, as it comes from the tap.
    fn pinch(&self) -> Option<Mass> {
        let oxygen = dissolved(COOL, ONE_ATMOSPHERE)? * (self.volume * FIRST_WATER);
        Some(Substance::SULFITE.mass(Substance::OXYGEN.amount(oxygen) * SULFITE_PER_OXYGEN))
    }
}

impl<'a> Weighed<'a> {
    fn of(wanted: Mass, good_to: f64, kit: &'a Kit) -> Self {
        let weight = kit.weigh_out(wanted);
        let is_good = weight.is_some_and(|weight| COVERAGE * (weight.uncertainty / wanted) <= good_to + 1e-9);
        let lightest = kit.balances.iter().map(|kept| kept.item.readability).reduce(Mass::min);
        let too_light = weight.is_none() && lightest.is_some_and(|lightest| wanted < lightest);
        Self {
            wanted,
            weight,
            too_coarse: too_light || (weight.is_some() && !is_good),
            solution: None,
        }
    }

    /// Relative standard uncertainty of what goes in: drawn of the solution where there is one.
    fn relative_uncertainty(&self) -> Option<f64> {
        let weighed = self.weight.map(|weight| weight.uncertainty / self.wanted);
        self.solution.map(|solution| solution.relative_uncertainty).or(weighed)
    }

    /// What to weigh, as the balance shows it.
    fn shown(&self, units: Units) -> String {
        match self.weight {
            Some(weight) => portions(&weight, units),
            None if self.wanted.grams() < 1.0 => units.milligrams(self.wanted),
            None => units.mass(self.wanted),
        }
    }

    fn figure(&self, name: String, label: String, units: Units) -> Figure {
        match self.weight {
            Some(weight) => on_balance(name, label, self.wanted, &weight, units),
            None => Figure {
                shown: self.shown(units),
                ..Figure::mass(name, label, self.wanted, units)
            },
        }
    }
}

/// The sheet of a bath from powders.
pub fn weighing_out(sheet: &mut Sheet, bath: &WeighingOut, kit: &Kit, units: Units) {
    let name = bath.formula.map_or("my own lines", |formula| formula.name);
    sheet.title = format!("{} of {name}", units.volume(bath.volume));
    let first = bath.volume * FIRST_WATER;
    let label = format!("Water first, at {}", units.temperature(bath.recipe.water()));
    sheet.headline.push(Figure::volume("first_water", label, first, units));
    let all = bath.recipe.lines().iter().zip(&bath.weighed).enumerate();
    let weights: Vec<Figure> = all.map(|(at, (line, one))| to_weigh(at, line, one, units)).collect();
    let mut listed = Vec::new();
    match weights.len() <= FEW {
        true => sheet.headline.extend(weights),
        // More would cover what stands below.
        false => {
            let count = Figure::number("powders", "Powders, see below", weights.len() as f64, 0, units);
            sheet.headline.push(count);
            listed.extend(weights.into_iter().map(Item::Figure));
        }
    }
    sheet.headline.push(made_up(bath, kit, units));
    let coarse = too_little(bath, kit, units);
    sheet.alert(&coarse);
    let dangers = words::dangers(bath);
    sheet.alert(&dangers);
    listed.extend(words::order(bath, units));
    sheet.part("In this order", listed);
    sheet.part("Too little for the balance", coarse);
    sheet.part("What to weigh", table(bath, units));
    sheet.part("What it costs", costs(bath, units));
    sheet.part("The formula", words::formula(bath, units));
    sheet.part("Take care", [dangers, words::care(bath)].concat());
    sheet.background("What ± covers", words::covers(bath, units));
}

/// What is weighed of one substance, or drawn of a solution of it.
fn to_weigh(at: usize, line: &Line, one: &Weighed, units: Units) -> Figure {
    let name = format!("weigh_{}", at + 1);
    match one.solution {
        Some(solution) => {
            let percent = units.number(solution.percent, 1);
            let label = format!("{}, {percent} % solution", capital(line.name()));
            drawn(name, label, &solution, units)
        }
        None => one.figure(name, capital(line.name()), units),
    }
}

/// What is drawn of a solution, as well as the instrument measures it.
fn drawn(name: String, label: String, solution: &Solution, units: Units) -> Figure {
    let drawn = solution.taken.to;
    let relative = solution.taken.relative_uncertainty(TemperatureDifference::ZERO);
    Figure::volume(name, label, drawn, units).measured_to(drawn * relative, units)
}

fn made_up(bath: &WeighingOut, kit: &Kit, units: Units) -> Figure {
    let figure = Figure::volume("total", "Then up to", bath.volume, units);
    let conditions = Conditions {
        density: None,
        room: None,
        from_20: TemperatureDifference::ZERO,
        units,
    };
    let ways = measure(kit, bath.volume, conditions).unwrap_or_default();
    match poured(&ways) {
        Some(way) => figure.measured_to(way.standard_uncertainty(), units),
        None => figure,
    }
}

/// Weights that are coarser than wanted, and what helps.
fn too_little(bath: &WeighingOut, kit: &Kit, units: Units) -> Vec<Item> {
    let mut items = Vec::new();
    if kit.balances.is_empty() {
        items.push(text(
            "There is no balance in the kit. Add yours, and each weight says how exact it is.",
        ));
    }
    for (line, one) in bath.recipe.lines().iter().zip(&bath.weighed) {
        if one.weight.is_none() && !one.too_coarse && !kit.balances.is_empty() {
            let name = capital(line.name());
            items.push(Item::Caution(format!(
                "{name}: {} are more than any balance of the kit weighs in 20 portions. Make less at once.",
                units.mass(one.wanted)
            )));
        }
    }
    let coarse = || {
        let all = bath.recipe.lines().iter().zip(&bath.weighed).enumerate();
        all.filter(|(_, (_, one))| one.too_coarse)
    };
    let without: Vec<String> = coarse()
        .filter(|(_, (_, one))| one.solution.is_none())
        .map(|(_, (line, _))| line.name().to_owned())
        .collect();
    if !without.is_empty() {
        items.push(Item::Caution(format!(
            "Not weighed as exactly as you want: {}. Make more at once, or take a finer balance.",
            without.join("; ")
        )));
    }
    for (at, (line, one)) in coarse() {
        items.push(Item::Text(words::too_coarse(line, one, bath.good_to, units)));
        let Some(solution) = &one.solution else { continue };
        pictures_of(&mut items, &solution.taken, units);
        items.push(Item::Way(sheet::Way {
            title: words::solution_title(line, solution, units),
            steps: words::solution_steps(line, solution, units),
            figures: vec![Figure::percent(
                format!("solution_{}", at + 1),
                "Good to, ±",
                solution.relative_uncertainty * COVERAGE,
                units,
            )],
            best: false,
        }));
    }
    if coarse().next().is_some() {
        match bath.large_enough(kit) {
            Some(volume) => {
                let label = "Or make so much at once: every weight is good enough";
                items.push(Item::Figure(Figure::volume("make_at_least", label, volume, units)));
            }
            None => items.push(text(
                "No bath up to 20 l makes every weight good enough: a finer balance would.",
            )),
        }
    }
    items
}

fn table(bath: &WeighingOut, units: Units) -> Vec<Item> {
    let litre = Volume::from_millilitres(1000.0);
    let row = |(line, one): (&Line, &Weighed)| {
        let per_litre = line.mass(litre);
        let (name, label) = ("weight".to_owned(), WEIGH.to_owned());
        let weight = match &one.solution {
            Some(solution) => {
                let drawn = drawn(name, label, solution, units);
                let percent = units.number(solution.percent, 1);
                Figure {
                    shown: format!("{} of {percent} %", drawn.shown),
                    ..drawn
                }
            }
            None => one.figure(name, label, units),
        };
        let share = match one.relative_uncertainty() {
            Some(relative) => Figure::percent("share", "± of it", COVERAGE * relative, units),
            None => Figure::word("share", "± of it", 0, "cannot be told"),
        };
        let figures = vec![
            Figure {
                shown: units.mass_about(per_litre),
                ..Figure::mass("per_litre", "to the litre", per_litre, units)
            },
            Figure {
                shown_spread: None,
                ..weight
            },
            share,
        ];
        (line.name().to_owned(), figures)
    };
    let heads = ["In this order", "to the litre", WEIGH, "± of it"];
    vec![Item::Table(Table {
        heads: heads.map(str::to_owned).to_vec(),
        rows: bath.recipe.lines().iter().zip(&bath.weighed).map(row).collect(),
    })]
}

fn costs(bath: &WeighingOut, units: Units) -> Vec<Item> {
    if bath.prices.is_empty() {
        return Vec::new();
    }
    let lines = || bath.recipe.lines().iter().zip(&bath.weighed);
    let price_of = |what: &What| bath.prices.iter().find(|price| same(&price.what, what));
    let cost = |what: &What, mass: Mass| price_of(what).map(|price| price.price * (mass / price.pack));
    let priced: Vec<(&str, f64)> = lines()
        .filter_map(|(line, one)| Some((line.name(), cost(&line.what, one.wanted)?)))
        .collect();
    let missing: Vec<&str> = lines()
        .filter(|(line, _)| price_of(&line.what).is_none())
        .map(|(line, _)| line.name())
        .collect();
    let sum: f64 = priced.iter().map(|(_, cost)| cost).sum();
    let litres = bath.volume.millilitres() / 1000.0;
    let currency = &bath.currency;
    let mut items = Vec::new();
    if !priced.is_empty() {
        let label = match missing.is_empty() {
            true => "All of it",
            false => "What has a price",
        };
        let rows = priced.iter().map(|&(name, value)| {
            let figure = money("line_cost", "costs", value, currency, units);
            (name.to_owned(), vec![figure])
        });
        items = vec![
            Item::Figure(money("cost", label, sum, currency, units)),
            Item::Figure(money("cost_per_litre", "For a litre", sum / litres, currency, units)),
            Item::Table(Table {
                heads: ["Of it", "costs"].map(str::to_owned).to_vec(),
                rows: rows.collect(),
            }),
        ];
    }
    if !missing.is_empty() {
        items.push(Item::Text(format!("No price is written for {}.", missing.join(", "))));
    }
    if bath.weighed.iter().any(|one| one.solution.is_some()) {
        items.push(text("What is left of a solution is not counted."));
    }
    items
}

/// Whether both are one substance in one form.
fn same(one: &What, other: &What) -> bool {
    match (one, other) {
        (What::Known(one), What::Known(other)) => one == other,
        (What::Unknown(one), What::Unknown(other)) => one.eq_ignore_ascii_case(other),
        _ => false,
    }
}

/// What is wanted, as its balance shows it, and how exactly.
pub(super) fn on_balance(
    name: impl Into<Text>,
    label: impl Into<Text>,
    wanted: Mass,
    weight: &Weight,
    units: Units,
) -> Figure {
    let figure = Figure {
        shown: portions(weight, units),
        ..Figure::mass(name, label, wanted, units)
    };
    figure.uncertain(weight.uncertainty.grams(), |grams| {
        units.mass_error(Mass::from_grams(grams))
    })
}

/// Each portion to the step of its balance, and how many.
fn portions(weight: &Weight, units: Units) -> String {
    let portion = to_step(weight.portion, weight, units);
    match weight.portions {
        1 => portion,
        many => format!("{many} × {portion}"),
    }
}

fn to_step(mass: Mass, weight: &Weight, units: Units) -> String {
    let step = weight.balance.readability.grams();
    let places = (0..4).find(|places| {
        let scaled = step * 10f64.powi(*places);
        (scaled - scaled.round()).abs() < 1e-6
    });
    format!("{} g", units.number(mass.grams(), places.unwrap_or(4) as usize))
}

/// Whether it is made to develop.
fn develops(bath: &WeighingOut) -> bool {
    bath.recipe.class() == Class::PowderStock
}
