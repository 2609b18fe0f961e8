//! A day's films over the tanks at hand: the fills in order, what to mix for each, whether there is enough, and how long it takes.

mod enough;
mod onward;
mod reading;

use super::capacity::tank_picture;
use super::{assumption_of, text};
use crate::development::Parameter;
use crate::fields::FilmLine;
use crate::kit::{Alike, Batch, Film, Hands, InTurn, LeftOut, Limits, Load, Plan, Tank, in_turn, plan};
use crate::quantity::{Dilution, Mass, Span, Units, Volume};
use crate::sheet::{Bar, Figure, Item, Picture, Sheet, Table};

/// A day as the form tells it.
pub struct Planning<'a> {
    /// In order of time, format and name.
    lines: Vec<FilmLine>,
    limits: Limits<'a>,
    /// What the kit calls each of its tanks.
    tank_ids: Vec<&'a str>,
    /// The developer's bottle as the form picks it; empty where it picks none.
    bottle: String,
    /// What the developer is called.
    name: String,
    dilution: Option<Dilution>,
    /// Least concentrate for a film unit.
    least: Option<Volume>,
    /// In the developer's bottle.
    left: Option<Volume>,
    /// Fills that must be over.
    spare: u32,
    fixer: Pool,
    stop: Pool,
    most_4x5: Parameter,
    most_8x10: Parameter,
    /// In minutes, these three.
    loading: Parameter,
    other_steps: Parameter,
    reels_dry: Parameter,
}

/// A bath that is poured back, and so serves all fills.
struct Pool {
    name: &'static str,
    volume: Option<Volume>,
    /// Film units that it still takes.
    films: Option<u32>,
}

/// Fills in their order, and what it all comes to.
struct Fills<'a> {
    planning: &'a Planning<'a>,
    plan: Plan,
    /// One after another.
    turns: InTurn,
}

/// So many different fills are drawn.
const MOST_PICTURES: usize = 3;

/// The whole answer.
pub fn planning(planning: &Planning, units: Units) -> Sheet {
    let films = planning.films();
    let plan = plan(&films, &planning.limits);
    let turns = in_turn(&plan.fills, &planning.hands(|takes| takes.value));
    let fills = Fills { planning, plan, turns };
    let mut sheet = Sheet {
        title: match fills.plan.fills.len() {
            0 => "A day at the sink".to_owned(),
            1 => format!("One fill for {}", fills.load().words()),
            count => format!("{count} fills for {}", fills.load().words()),
        },
        ..Sheet::default()
    };
    if planning.limits.tanks.is_empty() {
        sheet.part(
            "The fills",
            vec![text("There is no tank to plan with. Name one here, or add one in Kit.")],
        );
        return sheet;
    }
    let left_out = fills.left_out(units);
    sheet.alert(&left_out);
    sheet.part("Not planned", left_out);
    if fills.plan.fills.is_empty() {
        return sheet;
    }
    let (answer, mut enough) = fills.enough(units);
    sheet.alert(&enough);
    sheet.headline.push(Figure::number(
        "fills",
        "Fills",
        fills.plan.fills.len() as f64,
        0,
        units,
    ));
    sheet.headline.extend(fills.sums(units));
    sheet
        .headline
        .push(Figure::word("enough", "Enough", answer as usize, answer.words()));
    sheet.headline.push(fills.takes(units));
    sheet.part("The fills, in this order", fills.table(units));
    if planning.least.is_none() && planning.first_share().is_some() {
        enough.push(text(
            "Whether each fill holds enough for its film only the data sheet can say: type its least concentrate per film.",
        ));
    }
    sheet.part("Is there enough", enough);
    sheet.part("How long it takes", fills.day(units));
    sheet.background("How it is planned", fills.rules(units));
    sheet.background("Nobody measured this", fills.assumed(units));
    sheet
}

impl Planning<'_> {
    fn films(&self) -> Vec<Alike> {
        let alike = |line: &FilmLine| Alike {
            film: line.film,
            count: line.count,
            time: line.time,
        };
        self.lines.iter().map(alike).collect()
    }

    /// The same hands throughout, with each of their times as `which` takes it.
    fn hands(&self, which: impl Fn(Parameter) -> f64) -> Hands {
        Hands {
            loading: Span::from_minutes(which(self.loading)),
            steps: Span::from_minutes(which(self.other_steps)),
            drying: Span::from_minutes(which(self.reels_dry)),
        }
    }

    /// The concentrates of a bath, one or two; none for a solid, or where no dilution is known.
    fn concentrates(&self, total: Volume) -> Vec<Volume> {
        self.dilution
            .as_ref()
            .map_or(Vec::new(), |dilution| dilution.concentrates(total))
    }

    /// Volume share of the first concentrate; nothing for a solid, or where no dilution is known.
    fn first_share(&self) -> Option<f64> {
        self.dilution.as_ref().and_then(Dilution::first_share)
    }

    /// The first concentrate of a bath.
    fn first(&self, total: Volume) -> Option<Volume> {
        self.first_share().map(|share| total * share)
    }

    /// Whether the bath is what is in the bottle.
    fn is_undiluted(&self) -> bool {
        self.dilution == Some(Dilution::Stock)
    }

    /// The solid of a bath, where one is weighed.
    fn solid(&self, total: Volume) -> Option<Mass> {
        match self.dilution {
            Some(Dilution::Weighed(per_volume)) => Some(per_volume * total),
            _ => None,
        }
    }
}

impl Fills<'_> {
    fn in_order(&self) -> impl Iterator<Item = &Batch> {
        self.turns.order.iter().map(|&at| &self.plan.fills[at])
    }

    fn load(&self) -> Load {
        self.plan.fills.iter().map(|fill| fill.load).sum()
    }

    fn total(&self) -> Volume {
        self.plan.fills.iter().map(|fill| fill.total).sum()
    }

    fn tank(&self, fill: &Batch) -> &str {
        &self.planning.limits.tanks[fill.tank].name
    }

    /// What the films of a fill are: `2 × 135 harbour and 1 × 120`.
    fn films(&self, fill: &Batch) -> String {
        let film = |&(at, count): &(usize, u32)| {
            let line = &self.planning.lines[at];
            let words = [Load::of(line.film, count).words(), line.name.clone()];
            words.join(" ").trim_end().to_owned()
        };
        fill.films.iter().map(film).collect::<Vec<_>>().join(" and ")
    }

    fn left_out(&self, units: Units) -> Vec<Item> {
        let caution = |&(at, why): &(usize, LeftOut)| {
            let line = &self.planning.lines[at];
            let films = Load::of(line.film, line.count).words();
            Item::Caution(match why {
                LeftOut::NoTank => format!(
                    "No tank takes {} film, so {films} {} not planned. Choose another tank, or say in Kit what covers it.",
                    line.film.label(),
                    if line.count == 1 { "is" } else { "are" }
                ),
                LeftOut::PastTheBrim => format!(
                    "Not even one {} goes into a tank: its bath would be {}, past every brim. Take a larger tank or a richer dilution.",
                    line.film.label(),
                    units.volume(self.planning.limits.per_unit * line.film.units())
                ),
            })
        };
        self.plan.left_out.iter().map(caution).collect()
    }

    /// All that is mixed.
    fn sums(&self, units: Units) -> Vec<Figure> {
        let total = self.total();
        if let Some(solid) = self.planning.solid(total) {
            return vec![
                Figure::mass("solid", "To weigh in all", solid, units),
                Figure::volume("baths", "Baths in all", total, units),
            ];
        }
        let concentrates = self.planning.concentrates(total);
        let Some(&first) = concentrates.first() else {
            return vec![Figure::volume("baths", "Baths in all", total, units)];
        };
        if self.planning.is_undiluted() {
            return vec![Figure::volume("concentrate", "Developer in all", first, units)];
        }
        let mut figures = vec![Figure::volume("concentrate", "Concentrate in all", first, units)];
        figures.extend(
            concentrates
                .get(1)
                .map(|&second| Figure::volume("concentrate_b", "Second concentrate", second, units)),
        );
        let water = total - concentrates.into_iter().sum();
        figures.push(Figure::volume("water", "Water in all", water, units));
        figures
    }

    fn table(&self, units: Units) -> Vec<Item> {
        let planning = self.planning;
        let (mut heads, mut rows) = (vec!["Fill".to_owned()], Vec::new());
        for (at, fill) in self.in_order().enumerate() {
            let mut figures = vec![Figure::volume("fill_total", "Total", fill.total, units)];
            let concentrates = planning.concentrates(fill.total);
            let labels = [("fill_concentrate", "Concentrate"), ("fill_concentrate_b", "Second")];
            let is_mixed = !planning.is_undiluted();
            for ((name, label), &volume) in labels.into_iter().zip(&concentrates).filter(|_| is_mixed) {
                figures.push(Figure::volume(name, label, volume, units));
            }
            if let Some(solid) = planning.solid(fill.total) {
                figures.push(Figure::mass("fill_solid", "Weigh", solid, units));
            }
            if is_mixed && !concentrates.is_empty() {
                let water = fill.total - concentrates.into_iter().sum();
                figures.push(Figure::volume("fill_water", "Water", water, units));
            }
            figures.push(match (fill.time(), fill.times) {
                (Some(time), Some((shortest, longest))) => Figure::span("fill_time", "Develop", time, units)
                    .between(&units.span(shortest), &units.span(longest)),
                _ => Figure::word("fill_time", "Develop", 0, "not given"),
            });
            if at == 0 {
                heads.extend(figures.iter().map(|figure| figure.label.to_string()));
            }
            rows.push((
                format!("{}. {}: {}", at + 1, self.tank(fill), self.films(fill)),
                figures,
            ));
        }
        let mut items = vec![Item::Table(Table { heads, rows })];
        items.extend(self.mixed_times(units));
        items.extend(self.used_again());
        items.extend(self.pictures(units));
        items.extend(self.onward(units));
        items
    }

    /// How far films are off where their times differ in a fill.
    fn mixed_times(&self, units: Units) -> Option<Item> {
        let off = |fill: &Batch| {
            fill.time()
                .zip(fill.times)
                .map_or(0.0, |(time, (shortest, _))| time / shortest - 1.0)
        };
        let worst = self.plan.fills.iter().map(off).fold(0.0, f64::max);
        (worst > 0.0).then(|| {
            Item::Caution(format!(
                "Where times differ in a fill, it is developed for the time halfway between: a film is up to {} off its own.",
                units.percent(worst)
            ))
        })
    }

    fn used_again(&self) -> Vec<Item> {
        let sentence = |(at, tank): (usize, &&Tank)| {
            let own = || self.plan.fills.iter().filter(|fill| fill.tank == at);
            let times = own().count();
            let rolls = own().any(|fill| {
                let there = |film: Film| fill.load.count(film) > 0;
                Film::ALL.into_iter().any(|film| !film.is_sheet() && there(film))
            });
            let dry = match rolls {
                true => "Its reels must be dry each time: on a wet reel film sticks.",
                false => "It must be dry inside each time.",
            };
            (times > 1).then(|| Item::Text(format!("The {} is loaded {times} times. {dry}", tank.name)))
        };
        self.planning
            .limits
            .tanks
            .iter()
            .enumerate()
            .filter_map(sentence)
            .collect()
    }

    /// The first few fills that differ.
    fn pictures(&self, units: Units) -> Vec<Item> {
        let mut drawn: Vec<&Batch> = Vec::new();
        for fill in self.in_order() {
            let same = |other: &&Batch| (other.tank, other.load, other.total) == (fill.tank, fill.load, fill.total);
            if drawn.len() < MOST_PICTURES && !drawn.iter().any(same) {
                drawn.push(fill);
            }
        }
        let picture = |fill: &Batch| {
            let tank = self.planning.limits.tanks[fill.tank];
            Item::Picture(tank_picture(tank, &fill.load, fill.total, Some(fill.cover), units))
        };
        drawn.into_iter().map(picture).collect()
    }

    /// How long the day takes.
    fn takes(&self, units: Units) -> Figure {
        let planning = self.planning;
        let span = |which: fn(Parameter) -> f64| self.turns.with(&self.plan.fills, &planning.hands(which)).takes;
        let assumed = [planning.loading, planning.other_steps, planning.reels_dry];
        let figure = Figure::span("day", "The day takes", self.turns.takes, units)
            .between(
                &units.span(span(|takes| takes.least)),
                &units.span(span(|takes| takes.most)),
            )
            .assumed_if(assumed.iter().any(|takes| takes.is_assumed()));
        match self.untimed() {
            0 => figure,
            _ => Figure {
                shown: format!("{} or more", figure.shown),
                band: None,
                ..figure
            },
        }
    }

    /// Fills of which nobody says the time.
    fn untimed(&self) -> usize {
        self.plan.fills.iter().filter(|fill| fill.times.is_none()).count()
    }

    fn day(&self, units: Units) -> Vec<Item> {
        let fills = &self.plan.fills;
        let hands = self.planning.hands(|takes| takes.value);
        let pieces: u32 = fills.iter().map(|fill| fill.load.pieces()).sum();
        let parts = [
            ("loading", hands.loading * f64::from(pieces)),
            ("developing", fills.iter().filter_map(Batch::time).sum()),
            ("other steps", hands.steps * fills.len() as f64),
            ("waiting for dry reels", self.turns.waits),
        ];
        let mut items = Vec::new();
        if self.turns.takes > Span::ZERO {
            let bar = |(label, span): &(&str, Span)| Bar {
                label: (*label).to_owned(),
                share: *span / self.turns.takes,
                shown: units.span(*span),
            };
            items.push(Item::Picture(Picture::Bars {
                caption: "Where the day goes".to_owned(),
                bars: parts.iter().filter(|(_, span)| *span > Span::ZERO).map(bar).collect(),
            }));
        }
        if self.turns.waits > Span::ZERO {
            items.push(text("A second tank, or more reels, would save waiting."));
        }
        items.push(text(
            "Fills come one after another, by one pair of hands. Until the last film is dry some hours more go by.",
        ));
        match self.untimed() {
            0 => {}
            1 => items.push(text(
                "One fill has no developing time, which is not counted: write it behind its films.",
            )),
            count => items.push(Item::Text(format!(
                "{count} fills have no developing time, which is not counted: write it behind their films."
            ))),
        }
        items
    }

    fn rules(&self, units: Units) -> Vec<Item> {
        let plan = &self.plan;
        let count = plan.fills.len();
        let mut items = vec![Item::Text(match (plan.at_least == count, plan.is_least_bath) {
            (true, true) => "No plan has fewer fills, and none of as many takes less bath.".to_owned(),
            (true, false) => {
                "No plan has fewer fills. That none of as many takes less bath is not proved: there are too many films to look through."
                    .to_owned()
            }
            (false, _) => format!(
                "It is not proved that this is the fewest: at least {} fills are needed, and these are {count}.",
                plan.at_least
            ),
        })];
        items.push(text(
            "Every fill covers its film, stays below the brim, and is of one developing time. Its bath is used once and poured away.",
        ));
        if self.planning.limits.step > Volume::ZERO {
            items.push(Item::Text(format!(
                "Totals go up to the next {}.",
                units.volume(self.planning.limits.step)
            )));
        }
        items.push(text(
            "A roll of 135 or 120 counts as one film, a 220 as two, four 4×5 in sheets as one.",
        ));
        items
    }

    fn assumed(&self, units: Units) -> Vec<Item> {
        let planning = self.planning;
        let minutes = |end: f64| units.span(Span::from_minutes(end));
        let whole = |end: f64| units.number(end, 0);
        let span = |name: &'static str, label: &'static str, takes: Parameter, field: &'static str| {
            let figure = Figure::span(name, label, Span::from_minutes(takes.value), units);
            assumption_of(figure, takes, field, &minutes)
        };
        let sheets = |name: &'static str, label: &'static str, most: Parameter, field: &'static str, film: Film| {
            let figure = Figure::number(name, label, most.value, 0, units);
            assumption_of(figure, most, field, &whole).filter(|_| self.load().count(film) > 0)
        };
        let is_again = self.plan.fills.iter().enumerate().any(|(at, fill)| {
            let mut before = self.plan.fills[..at].iter();
            before.any(|other| other.tank == fill.tank)
        });
        [
            span("assumed_loading", "Loading one film takes", planning.loading, "loading"),
            span(
                "assumed_other_steps",
                "The other steps of a fill take",
                planning.other_steps,
                "other_steps",
            ),
            span(
                "assumed_reels_dry",
                "Reels are dry after",
                planning.reels_dry,
                "reels_dry",
            )
            .filter(|_| is_again),
            sheets(
                "assumed_most_4x5",
                "4×5 in sheets in a fill, at most",
                planning.most_4x5,
                "most_4x5",
                Film::Sheet4x5,
            ),
            sheets(
                "assumed_most_8x10",
                "8×10 in sheets in a fill, at most",
                planning.most_8x10,
                "most_8x10",
                Film::Sheet8x10,
            ),
        ]
        .into_iter()
        .flatten()
        .collect()
    }
}
