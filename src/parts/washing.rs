//! A wash said as a sheet: how often the water is changed, what that leaves by dilution, what is in use beside it, water and time.

mod words;

use super::{assumption_of, given};
use crate::chemistry::{
    CARRIED_PER_FILM, HELD, How, SEQUENCES, SOAK, Sequence, THIOSULFATE, Wash, slower, wanted_share,
};
use crate::development::Parameter;
use crate::fields::{self, Form};
use crate::quantity::held::held;
use crate::quantity::{Span, Temperature, Units, Volume};
use crate::sheet::{Figure, Item, Picture, Sheet, Table};

/// A wash as far as the form could be read.
pub struct Washing {
    fresh: Volume,
    water: Temperature,
    aid: bool,
    /// Carried over from one change to the next, in millilitres.
    carried: Parameter,
    /// How long one change stands at 20 °C, in seconds.
    soak: Parameter,
    /// The share of the fixer that may be left in the water.
    wanted: Parameter,
    /// What that share rests on; `None` where it was said itself.
    level: Option<Level>,
    running: Option<(Volume, Span)>,
}

/// From what is allowed in film to what is allowed in the water.
struct Level {
    residual: f64,
    fixer: Parameter,
    held: Parameter,
}

/// Rows of a table, and changes along a curve, at the most.
const MOST_SHOWN: f64 = 8.0;
/// Parts beyond which a thinning is not told apart.
const MOST_PARTS: f64 = 1e9;
/// Temperature in a room at which nothing is said of it.
const WARMEST: f64 = 27.0;
const COLDEST: f64 = 10.0;

impl Washing {
    /// Reads the form. What cannot be is a fault; `None` where the changes cannot be counted.
    pub fn read(form: &mut Form) -> Option<Self> {
        let fresh = form.read(&fields::WASH_FRESH);
        let films = form.read(&fields::WASH_FILMS);
        let water = form.read(&fields::WASH_WATER);
        let aid = form.read(&fields::WASH_AID).unwrap_or(false);
        let carried = form.read(&fields::WASH_CARRIED).map(Volume::millilitres);
        let soak = form.read(&fields::WASH_SOAK).map(Span::seconds);
        let one_in = form.read(&fields::WASH_ONE_IN);
        let residual = form.read(&fields::WASH_RESIDUAL);
        let fixer = Parameter::given_or(form.read(&fields::WASH_FIXER), THIOSULFATE);
        let held = Parameter::given_or(form.read(&fields::WASH_HELD), HELD);
        let running = form.read(&fields::WASH_FLOW).zip(form.read(&fields::WASH_RUNS));
        form.pass_over_known(&fields::WASH_TO_LEVEL.map(|field| (field, one_in.is_some())));
        form.pass_over_known(&[("films", carried.is_some())]);
        let (wanted, level) = match one_in {
            Some(parts) => (given(1.0 / parts), None),
            None => {
                let level = Level {
                    residual: residual?,
                    fixer,
                    held,
                };
                (level.wanted(), Some(level))
            }
        };
        let carried = match carried {
            Some(carried) => given(carried),
            None => {
                let films = f64::from(films?);
                Parameter::given_or(None, CARRIED_PER_FILM).map(|each| each * films)
            }
        };
        Some(Self {
            fresh: fresh?,
            water: water.unwrap_or(Temperature::from_celsius(20.0)),
            aid,
            carried,
            soak: Parameter::given_or(soak, SOAK),
            wanted,
            level,
            running,
        })
    }

    fn with(&self, carried: f64) -> Wash {
        Wash {
            carried: Volume::from_millilitres(carried),
            fresh: self.fresh,
        }
    }

    fn wash(&self) -> Wash {
        self.with(self.carried.value)
    }

    /// Changes by dilution alone: at the least, as taken, at the most.
    fn changes(&self) -> [f64; 3] {
        let at = |carried, wanted| self.with(carried).whole_changes(wanted).max(1.0);
        [
            at(self.carried.least, self.wanted.most),
            at(self.carried.value, self.wanted.value),
            at(self.carried.most, self.wanted.least),
        ]
    }

    /// Changes of water to make: enough at the bad end of all ranges, and no fewer than are in use. A fresh bath of wash aid is one of
    /// them.
    fn to_make(&self) -> f64 {
        let in_use = match SEQUENCES[0].how {
            How::Changes(inversions) => inversions.len() as f64,
            How::Running(..) => 1.0,
        };
        let all = self.changes()[2].max(in_use);
        if self.aid { (all - 1.0).max(1.0) } else { all }
    }

    /// Changes that count for dilution.
    fn counted(&self) -> f64 {
        self.to_make() + f64::from(u32::from(self.aid))
    }

    /// Of them, how many are told one by one.
    fn shown(&self) -> u32 {
        held(self.counted(), 3.0, MOST_SHOWN) as u32
    }

    /// How long each of them stands in this water, in seconds.
    fn stands(&self) -> Parameter {
        let slower = slower(self.water);
        self.soak.map(|seconds| seconds * slower)
    }

    fn is_assumed(&self) -> bool {
        self.carried.is_assumed() || self.level.as_ref().is_some_and(Level::is_assumed)
    }
}

impl Level {
    fn wanted(&self) -> Parameter {
        let share = |held, fixer| wanted_share(self.residual, held, fixer).min(1.0);
        let assumed = if self.fixer.is_assumed() { self.fixer } else { self.held };
        Parameter {
            value: share(self.held.value, self.fixer.value),
            least: share(self.held.most, self.fixer.most),
            most: share(self.held.least, self.fixer.least),
            origin: assumed.origin,
        }
    }

    fn is_assumed(&self) -> bool {
        self.fixer.is_assumed() || self.held.is_assumed()
    }
}

/// The sheet of a wash.
pub fn washing(sheet: &mut Sheet, wash: &Washing, units: Units) {
    let to_make = wash.to_make();
    sheet.title = format!(
        "Washing with {} at a time, {} carried over",
        units.volume(wash.fresh),
        units.volume(wash.wash().carried)
    );
    let stands = wash.stands();
    let times = if to_make == 1.0 { "once" } else { "times" };
    sheet.headline = vec![
        Figure {
            shown: match times {
                "once" => times.to_owned(),
                _ => format!("{} {times}", units.number(to_make, 0)),
            },
            ..Figure::number("to_make", "Change the water", to_make, 0, units)
        },
        Figure::span("stands", "Each stands", Span::from_seconds(stands.value), units)
            .between(&seconds(stands.least, units), &seconds(stands.most, units))
            .assumed_if(stands.is_assumed()),
        Figure::volume("water", "Water in all", wash.fresh * to_make, units),
        Figure::span("time", "In all", Span::from_seconds(stands.value * to_make), units)
            .assumed_if(stands.is_assumed()),
    ];
    let doubts = words::doubts(wash, units);
    sheet.alert(&doubts);
    sheet.part("What to do", words::what_to_do(wash, units));
    sheet.part("Whether it holds", doubts);
    sheet.part("By dilution alone", by_dilution(wash, units));
    sheet.part("Beside what is in use", in_use(wash, units));
    sheet.part("Poured or running", poured_or_running(wash, units));
    sheet.background("Wash aid", words::aid(wash));
    sheet.background("How warm", words::how_warm(wash, units));
    sheet.part("What proves it", words::proof());
    sheet.background("Nobody measured this", unmeasured(wash, units));
}

fn by_dilution(wash: &Washing, units: Units) -> Vec<Item> {
    let [least, taken, most] = wash.changes();
    let plain = |value: f64| units.number(value, 0);
    let assumed = wash.is_assumed();
    let parts = |name: &'static str, label: &'static str, share: Parameter| {
        one_in(name, label, share.value, units)
            .between(&parts_shown(share.most, units), &parts_shown(share.least, units))
            .assumed_if(share.is_assumed())
    };
    let mut items = vec![
        Item::Figure(
            Figure::number("changes", "Changes that it takes", taken, 0, units)
                .between(&plain(least), &plain(most))
                .assumed_if(assumed),
        ),
        Item::Figure(
            Figure {
                shown: units.about(wash.wash().changes(wash.wanted.value)),
                ..Figure::number(
                    "changes_exactly",
                    "Not rounded up",
                    wash.wash().changes(wash.wanted.value),
                    2,
                    units,
                )
            }
            .assumed_if(assumed),
        ),
        Item::Figure(parts("wanted", "Wanted: fixer thinned to 1 part in", wash.wanted)),
        Item::Text(words::IDEAL.to_owned()),
    ];
    let rows = (1..=wash.shown()).map(|change| {
        let changes = f64::from(change);
        let [thick, middle, thin] = [wash.carried.most, wash.carried.value, wash.carried.least]
            .map(|carried| wash.with(carried).after(changes));
        let figure = one_in("left", "1 part in", middle, units)
            .between(&parts_shown(thick, units), &parts_shown(thin, units))
            .assumed_if(wash.carried.is_assumed());
        (change.to_string(), vec![figure])
    });
    items.push(Item::Table(Table {
        heads: ["After change", "is left, 1 part in"].map(str::to_owned).to_vec(),
        rows: rows.collect(),
    }));
    if wash.aid {
        items.push(super::text("The bath of wash aid is change 1."));
    }
    items.push(Item::Picture(curve(wash, units)));
    items
}

/// Powers of ten by which the fixer is thinned, over the changes.
fn curve(wash: &Washing, units: Units) -> Picture {
    let last = f64::from(wash.shown()) + 1.0;
    let powers = |carried: f64, changes: f64| -changes * wash.with(carried).share().log10();
    let points: Vec<[f64; 4]> = (0..=(last * 2.0) as u32)
        .map(|half| {
            let changes = f64::from(half) / 2.0;
            let at = |carried| powers(carried, changes);
            [
                changes,
                at(wash.carried.most),
                at(wash.carried.value),
                at(wash.carried.least),
            ]
        })
        .collect();
    let highest = points.last().map_or(1.0, |point| point[3]);
    let made = wash.counted().min(last);
    let shown = |value: f64| units.number(value, 1);
    Picture::Curve {
        caption: format!(
            "The fixer thinned, in powers of ten, over the changes: {} after {}",
            shown(powers(wash.carried.value, made)),
            shown(made)
        ),
        axes: ["changes of water".to_owned(), "powers of ten".to_owned()],
        mark: (made, powers(wash.carried.value, made)),
        ends: ["0".to_owned(), shown(last), "0".to_owned(), shown(highest)],
        points,
        given: Vec::new(),
    }
}

fn in_use(wash: &Washing, units: Units) -> Vec<Item> {
    let content = wash.wash().carried + wash.fresh;
    let assumed = wash.carried.is_assumed();
    let row = |sequence: &Sequence| {
        let by_hand = matches!(sequence.how, How::Changes(_));
        let water = if by_hand { wash.fresh } else { content } * sequence.fills();
        let figures = vec![
            Figure::volume("water_of", "water", water, units).assumed_if(assumed && !by_hand),
            Figure::span("time_of", "time", Span::from_minutes(sequence.minutes()), units).assumed_if(by_hand),
            one_in("left", "1 part in", sequence.leaves(&wash.wash()), units).assumed_if(assumed),
        ];
        (sequence.name.to_owned(), figures)
    };
    let heads = ["In use", "water", "time", "leaves 1 part in"];
    vec![
        Item::Table(Table {
            heads: heads.map(str::to_owned).to_vec(),
            rows: SEQUENCES.iter().map(row).collect(),
        }),
        Item::Text(words::in_use()),
    ]
}

fn poured_or_running(wash: &Washing, units: Units) -> Vec<Item> {
    let Some((flow, runs)) = wash.running else {
        return Vec::new();
    };
    let ideal = wash.wash();
    let content = ideal.carried + wash.fresh;
    let contents = flow * runs.minutes() / content;
    let assumed = wash.carried.is_assumed();
    let stands = wash.stands();
    let to_make = wash.to_make();
    let row = |name: &str, water: Volume, time: Figure, left: f64| {
        let figures = vec![
            Figure::volume("water_of", "water", water, units),
            time,
            one_in("left", "1 part in", left, units).assumed_if(assumed),
        ];
        (name.to_owned(), figures)
    };
    let poured = Figure::span("time_of", "time", Span::from_seconds(stands.value * to_make), units);
    let heads = ["The same tank", "water", "time", "leaves 1 part in"];
    let enough = Span::from_minutes(content * ideal.contents(wash.wanted.value) / flow);
    vec![
        Item::Table(Table {
            heads: heads.map(str::to_owned).to_vec(),
            rows: vec![
                row(
                    "poured, as above",
                    wash.fresh * to_make,
                    poured.assumed_if(stands.is_assumed()),
                    ideal.after(wash.counted()),
                ),
                row(
                    "running",
                    content + flow * runs.minutes(),
                    Figure::span("time_of", "time", runs, units),
                    ideal.running(contents),
                ),
            ],
        }),
        Item::Figure(
            Figure::span(
                "running_enough",
                "Running, by dilution alone, it would take",
                enough,
                units,
            )
            .assumed_if(wash.is_assumed()),
        ),
        Item::Text(words::RUNNING.to_owned()),
    ]
}

fn unmeasured(wash: &Washing, units: Units) -> Vec<Item> {
    let volume = |millilitres: f64| units.volume(Volume::from_millilitres(millilitres));
    let number = |value: f64| units.about(value);
    let carried = Figure::volume("assumed_carried", "Carried over each time", wash.wash().carried, units);
    let soak = Figure::span(
        "assumed_soak",
        "Each change stands, at 20 °C",
        Span::from_seconds(wash.soak.value),
        units,
    );
    let mut items: Vec<Item> = [
        assumption_of(carried, wash.carried, "carried", &volume),
        assumption_of(soak, wash.soak, "soak", &|value| seconds(value, units)),
    ]
    .into_iter()
    .flatten()
    .collect();
    if let Some(level) = &wash.level {
        let figure = |name: &'static str, label: &'static str, parameter: Parameter| {
            Figure::number(name, label, parameter.value, 0, units)
        };
        let fixer = figure("assumed_thiosulfate", "Thiosulfate in fixer, g/l", level.fixer);
        let held = figure("assumed_held", "Wet film holds, ml/m²", level.held);
        items.extend(assumption_of(fixer, level.fixer, "thiosulfate", &number));
        items.extend(assumption_of(held, level.held, "held", &number));
    }
    items
}

/// That so much is left, as one part in so many.
fn one_in(name: &'static str, label: &'static str, share: f64, units: Units) -> Figure {
    Figure {
        shown: parts_shown(share, units),
        ..Figure::number(name, label, parts(share), 0, units)
    }
}

fn parts(share: f64) -> f64 {
    (1.0 / share).min(MOST_PARTS)
}

/// Three figures; beyond a thousand million it is all one.
fn parts_shown(share: f64, units: Units) -> String {
    let parts = parts(share);
    if parts >= MOST_PARTS {
        return "more than a thousand million".to_owned();
    }
    let scale = 10f64.powf((parts.log10().floor() - 2.0).max(-1.0));
    units.number((parts / scale).round() * scale, 1)
}

fn seconds(seconds: f64, units: Units) -> String {
    units.span(Span::from_seconds(seconds))
}
