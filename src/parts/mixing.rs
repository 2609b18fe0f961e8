//! A bath made up: what is measured of each concentrate and of the water, in which order, how well, and what a mark would gain.

use super::Conditions;
use super::measuring::{draws_text, measure, pictures, poured, way_items};
use super::slips::{MeasuredVolume, Precision};
use super::weighing_out::on_balance;
use crate::kit::{Kit, Measured, OnMark, VolumeErrors, Way, on_mark};
use crate::quantity::{Day, Dilution, Mass, Units, Volume};
use crate::sheet::{Figure, Item, Sheet};

/// In which way the water comes to the concentrate.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Method {
    /// Water up to the mark of the total.
    MadeUp,
    /// Water measured by itself.
    Added,
}

/// A bath that is to be made up.
#[derive(Clone, Copy)]
pub struct Mixing<'a> {
    /// With what it is measured.
    pub kit: &'a Kit,
    /// From what it is made.
    pub dilution: &'a Dilution,
    /// How much of it.
    pub total: Volume,
    /// How the water comes to it, where that can be done.
    pub method: Method,
    /// Whether the concentrate is an acid.
    pub is_acid: bool,
    /// Of the concentrate; there is room for all of the water.
    pub conditions: Conditions,
    /// For the age of a calibration.
    pub today: Day,
}

/// A bath as it is made up.
pub struct Mixed<'a> {
    /// The measuring plan.
    pub items: Vec<Item>,
    /// How well its strength is met; `None` where nothing is mixed, or the kit cannot measure it.
    pub precision: Option<Precision>,
    /// The best way to the first concentrate.
    first: Option<Measured<'a>>,
}

/// The total, or the water, and every way to it.
struct Whole<'a> {
    method: Method,
    ways: Result<Vec<Measured<'a>>, String>,
}

const STRENGTH: &str = "Strength of the bath, standard uncertainty";

/// A mark is worth a detour only where it measures the concentrate about as well as the best way.
const WORTH_A_MARK: f64 = 1.5;

impl<'a> Mixing<'a> {
    /// Tells the volumes at the head of the sheet, and plans how they are measured.
    pub fn plan(&self, sheet: &mut Sheet) -> Mixed<'a> {
        let units = self.conditions.units;
        let mut mixed = Mixed {
            items: Vec::new(),
            precision: None,
            first: None,
        };
        if let Dilution::Weighed(per_volume) = self.dilution {
            let mass = *per_volume * self.total;
            sheet.headline.push(Figure::mass("mass", "Weigh", mass, units));
            sheet
                .headline
                .push(Figure::volume("total", "Make up to", self.total, units));
            mixed.items = weighing(mass, self.kit, units);
            return mixed;
        }
        let to_add = self.concentrates(sheet, &mut mixed);
        let water = self.water();
        if water <= Volume::ZERO {
            return mixed;
        }
        sheet.headline.push(Figure::volume("water", "Water", water, units));
        if to_add < water {
            sheet
                .headline
                .push(Figure::volume("water_left", "Of that, still to add", to_add, units));
        }
        self.whole(&mut mixed, to_add);
        mixed
    }

    /// The concentrates, each with its ways; gives the water that then is still to be added. A first dilution brings some of it along.
    fn concentrates(&self, sheet: &mut Sheet, mixed: &mut Mixed<'a>) -> Volume {
        let units = self.conditions.units;
        let volumes = self.dilution.concentrates(self.total);
        let mut to_add = self.water();
        for (index, &volume) in volumes.iter().enumerate() {
            let (name, label) = match (index, volumes.len()) {
                (_, 1) => ("concentrate", "Concentrate"),
                (0, _) => ("concentrate", "Concentrate A"),
                _ => ("concentrate_b", "Concentrate B"),
            };
            let mut figure = Figure::volume(name, label, volume, units);
            let mut diluted = None;
            let room = Some(volume + to_add);
            match measure(
                self.kit,
                volume,
                Conditions {
                    room,
                    ..self.conditions
                },
            ) {
                Ok(ways) => {
                    let best = &ways[0];
                    figure = figure.measured_to(best.standard_uncertainty(), units);
                    if let Way::Predilute { take, .. } = &best.way {
                        let label = format!("{label}, as so much of a first dilution");
                        diluted = Some(Figure::volume(format!("{name}_diluted"), label, take.volume(), units));
                        to_add = to_add - (take.volume() - volume);
                    }
                    if volumes.len() > 1 {
                        mixed.items.push(Item::Text(format!("{label}:")));
                    }
                    mixed.items.extend(pictures(best, units));
                    let names = if index == 0 { "way" } else { "way_b" };
                    mixed.items.extend(way_items(names, &ways, units, self.today));
                    if index == 0 {
                        mixed.first = ways.into_iter().next();
                    }
                }
                Err(sentence) => mixed.items.push(Item::Caution(sentence)),
            }
            sheet.headline.push(figure);
            sheet.headline.extend(diluted);
        }
        to_add
    }

    /// The total or the water, and how well the strength is met.
    fn whole(&self, mixed: &mut Mixed, to_add: Volume) {
        let units = self.conditions.units;
        let whole = self.measure_whole(to_add);
        let best = match &whole.ways {
            Ok(ways) => poured(ways),
            Err(sentence) => return mixed.items.push(Item::Caution(sentence.clone())),
        };
        let Some(best) = best else { return };
        mixed.items.extend(pictures(best, units));
        let label = match whole.method {
            Method::MadeUp => "Total",
            Method::Added => "Water, measured",
        };
        let figure = Figure::volume("whole", label, best.volume, units);
        mixed
            .items
            .push(Item::Figure(figure.measured_to(best.standard_uncertainty(), units)));
        mixed.items.push(Item::Text(self.order(whole.method, best)));
        let Some(first) = &mixed.first else { return };
        let precision = self.precision(of(first), whole.method, to_add, of(best));
        let what = match self.dilution.concentrates(self.total).len() {
            1 => STRENGTH,
            _ => "Concentrate A in the bath, standard uncertainty",
        };
        let relative = precision.relative_uncertainty();
        mixed.items.push(Item::Figure(Figure::percent(
            "concentration_uncertainty",
            what,
            relative,
            units,
        )));
        mixed.precision = Some(precision);
    }

    /// How the whole is measured. In a total of several fills the concentrate goes into the first: where that does not hold it, the
    /// water is measured by itself.
    fn measure_whole(&self, to_add: Volume) -> Whole<'a> {
        let goes_in = (self.total - to_add) * if self.is_acid { 2.0 } else { 1.0 };
        let whole = self.measure_by(self.method, to_add);
        let ways = whole.ways.as_deref().unwrap_or_default();
        match poured(ways).map(|best| &best.way) {
            Some(Way::Draw(draws)) if self.method == Method::MadeUp && goes_in > draws[0].to => {
                self.measure_by(Method::Added, to_add)
            }
            _ => whole,
        }
    }

    fn measure_by(&self, method: Method, to_add: Volume) -> Whole<'a> {
        let volume = match method {
            Method::MadeUp => self.total,
            Method::Added => to_add,
        };
        let plain = Conditions {
            density: None,
            room: None,
            ..self.conditions
        };
        let ways = match volume > Volume::ZERO {
            true => measure(self.kit, volume, plain),
            false => Ok(Vec::new()),
        };
        Whole { method, ways }
    }

    fn water(&self) -> Volume {
        self.total - self.dilution.concentrates(self.total).into_iter().sum()
    }

    fn precision(&self, first: MeasuredVolume, method: Method, to_add: Volume, whole: MeasuredVolume) -> Precision {
        match method {
            Method::MadeUp => Precision::made_up(first, whole),
            Method::Added => Precision::added(first, self.total - to_add - first.0, whole),
        }
    }

    /// What is poured when.
    fn order(&self, method: Method, whole: &Measured) -> String {
        let acid = self.is_acid;
        let order = match (method, whole.steps()) {
            (Method::Added, _) if acid => "Pour this water first, then the concentrate into it.",
            (Method::Added, _) => "Measure the water:",
            (Method::MadeUp, 1) if acid => "Most of the water first, then the concentrate, then water up to the total.",
            (Method::MadeUp, 1) => "Concentrate first, then water up to the total.",
            (Method::MadeUp, _) if acid => {
                "It takes several fills, all into one mixing jug: half of the first with water, then the concentrate into it, then \
                 the rest."
            }
            (Method::MadeUp, _) => {
                "It takes several fills, all into one mixing jug: the concentrate goes into the first."
            }
        };
        let acid = match acid {
            true => "Acid goes into water, never water onto acid. ",
            false => "",
        };
        let mut text = format!("{acid}{order}");
        if let Way::Draw(draws) = &whole.way {
            for draws in draws {
                text.push(' ');
                text.push_str(&draws_text(draws, self.conditions.units));
            }
        }
        text
    }

    /// The nearest total in this range that puts the concentrate on a mark, and what that does to the strength of the bath.
    pub fn on_mark(&self, mixed: &Mixed, range: (Volume, Volume)) -> Option<Vec<Item>> {
        let (now, first) = (mixed.precision.as_ref()?, mixed.first.as_ref()?);
        let share = self.dilution.first_share().filter(|share| *share < 1.0)?;
        let from_20 = self.conditions.from_20;
        let found = on_mark(self.kit, self.total, share, range, from_20)?;
        if found.after >= first.relative_uncertainty() * WORTH_A_MARK {
            return None;
        }
        let then = Self {
            total: found.total,
            ..*self
        };
        let to_add = then.water();
        let errors = VolumeErrors::of(&found.draws, from_20);
        let whole = then.measure_whole(to_add);
        let best = poured(whole.ways.as_deref().unwrap_or_default())?;
        let after = then.precision((found.draws.volume(), &errors), whole.method, to_add, of(best));
        Some(self.mark_items(&found, now.relative_uncertainty(), after.relative_uncertainty()))
    }

    fn mark_items(&self, found: &OnMark, before: f64, after: f64) -> Vec<Item> {
        let units = self.conditions.units;
        let more = found.total > self.total;
        let gain = match after > before {
            true => " It reads more easily; the plan above is more exact.",
            false => "",
        };
        vec![
            Item::Figure(Figure::volume("on_mark_total", "Total instead", found.total, units)),
            Item::Figure(Figure::volume(
                "on_mark_concentrate",
                "Concentrate then",
                found.draws.volume(),
                units,
            )),
            Item::Figure(Figure::percent("on_mark_before", STRENGTH, before, units)),
            Item::Figure(Figure::percent("on_mark_after", "On the mark", after, units)),
            Item::Text(format!(
                "{} Make {} {} than planned, and the concentrate falls exactly on a mark.{gain}",
                draws_text(&found.draws, units),
                units.volume((found.total - self.total) * if more { 1.0 } else { -1.0 }),
                if more { "more" } else { "less" },
            )),
        ]
    }
}

fn of<'a>(way: &'a Measured) -> MeasuredVolume<'a> {
    (way.volume, &way.errors)
}

fn weighing(mass: Mass, kit: &Kit, units: Units) -> Vec<Item> {
    let Some(weight) = kit.weigh_out(mass) else {
        return vec![Item::Caution(format!(
            "No balance of the kit weighs {}.",
            units.mass(mass)
        ))];
    };
    vec![
        Item::Figure(on_balance("weighed", "On the balance", mass, &weight, units)),
        Item::Figure(Figure::percent(
            "mass_uncertainty",
            "Standard uncertainty",
            weight.uncertainty / mass,
            units,
        )),
        Item::Text(format!(
            "Weigh on the {}, dissolve in three quarters of the water, and make up to the total.",
            weight.balance.name
        )),
    ]
}
