//! The clearing test of a fixer as a sheet: how long to fix, how far the bath is from spent, and how many films it still takes.

mod words;

use super::picked::Picked;
use super::strip::strip;
use super::{assumption, care, q10_assumption, scatter_assumption, warm};
use crate::chemistry::Class;
use crate::darkroom::Darkroom;
use crate::development::Parameter;
use crate::fields::{self, Baths, Form};
use crate::ledger;
use crate::proof::{
    CLEARS_FASTER, FILMS_A_LITRE, Finding, Fixer, Measured, Outcome, SOUND_WITHIN, TestKind, Timed, Warmth, WarmthLaw,
    capacity, fixing_time, is_longer, way_to_spent,
};
use crate::quantity::{Span, Temperature, Units, Volume};
use crate::sheet::{Bar, Figure, Item, Picture, Sheet, Table};

/// A clearing test as far as the form could be read.
pub struct Clearing {
    name: String,
    is_of_shelf: bool,
    now: Vec<Span>,
    fresh: Vec<Span>,
    /// How warm the two baths were; `None` where that could not be read.
    warmth: Option<Warmth>,
    /// What is said of the thermometer that told it.
    thermometer: Vec<Item>,
    q10: Parameter,
    /// How many times the clearing time film is fixed.
    fix: f64,
    baths: Baths,
    through: Option<f64>,
    bath: Option<Volume>,
    per_litre: Parameter,
    to_come: Option<f64>,
}

/// What the test comes to.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Verdict {
    /// Against fresh bath.
    Measured(Fixer),
    /// It clears within what is common for sound bath, and no time in fresh bath is known.
    SoundByRule,
    /// It takes longer than is common, and no time in fresh bath is known.
    CannotTell,
    /// It clears faster than fresh bath, which something else must explain.
    TooFast,
}

/// Where the rule of the trade for sound bath is taken to hold.
const USUAL: Temperature = Temperature::from_celsius(20.0);

impl Clearing {
    /// Reads the form. What cannot be is a fault; `None` where the bottle is no fixer.
    pub fn read(form: &mut Form, darkroom: &Darkroom) -> Option<Self> {
        let picked = Picked::read(form, darkroom);
        if picked.label.is_some_and(|label| label.class != Class::Fixer) {
            form.fault("bottle", "a clearing test proves a fixer, and this is none");
            return None;
        }
        let bottle = picked.bottle;
        let now = form.read(&fields::CLEAR_NOW).unwrap_or_default();
        let fresh = form.read(&fields::CLEAR_FRESH).unwrap_or_default();
        let temperatures = form.read(&fields::TEMPERATURE).zip(form.read(&fields::WARM_FRESH));
        let q10 = Parameter::given_or(form.read(&fields::Q10), CLEARS_FASTER);
        let warmth = temperatures.map(|(now, fresh)| warm(fresh, now, WarmthLaw::PerTen(q10), darkroom));
        let (warmth, thermometer) = warmth.unzip();
        // A bottle that nothing is drawn from, and that film went through, is the bath itself.
        let is_bath = |bottle: &&ledger::Bottle| bottle.draws.is_empty() && bottle.film_units() > 0.0;
        let recorded = bottle.filter(is_bath);
        let left = recorded
            .and_then(|bottle| bottle.left())
            .filter(|left| *left > Volume::ZERO);
        let stated = bottle.and_then(|bottle| bottle.is.films_per_litre);
        let per_litre = form.read(&fields::FILMS_PER_LITRE);
        Some(Self {
            name: picked.name(Class::Fixer),
            is_of_shelf: bottle.is_some(),
            now,
            fresh,
            warmth,
            thermometer: thermometer.unwrap_or_default(),
            q10,
            fix: form.read(&fields::FIX_FOR).unwrap_or(2.0),
            baths: form.read(&fields::BATHS).unwrap_or(Baths::One),
            through: form.read(&fields::FIXED).or(recorded.map(|bottle| bottle.film_units())),
            bath: form.read(&fields::FIXING_BATH).or(left),
            per_litre: Parameter::given_or(per_litre.or(stated.map(|films| films.number())), FILMS_A_LITRE),
            to_come: form.read(&fields::FILMS_TO_COME).map(f64::from),
        })
    }

    fn timed(&self) -> Option<Timed<'_>> {
        Some(Timed::by_hand(&self.fresh, &self.now, self.warmth?))
    }

    /// How long film takes to clear in it, as it is.
    fn clears_in(&self) -> Option<Span> {
        self.timed()?.now()
    }

    /// How long it would take at 20 °C.
    fn clears_in_at_20(&self) -> Option<Span> {
        let at_20 = Warmth {
            fresh: USUAL,
            ..self.warmth?
        };
        let [raise, ..] = at_20.raise();
        self.clears_in().map(|time| time * (-raise).exp())
    }

    fn verdict(&self, speed: Option<&Measured>) -> Option<Verdict> {
        match speed {
            Some(speed) if speed.is_beyond_fresh() => Some(Verdict::TooFast),
            Some(speed) => Some(Verdict::Measured(Fixer::of(speed))),
            None => self.clears_in_at_20().map(|time| match is_longer(time, SOUND_WITHIN) {
                false => Verdict::SoundByRule,
                true => Verdict::CannotTell,
            }),
        }
    }

    /// Film units that the bath takes in all, with the assumption at its value and at its ends; `None` where its volume is not
    /// known.
    fn takes(&self) -> Option<Parameter> {
        let bath = self.bath?;
        Some(self.per_litre.map(|films| capacity(bath, films)))
    }

    /// Film units that it still takes.
    fn still_takes(&self) -> Option<Parameter> {
        let through = self.through?;
        Some(self.takes()?.map(|takes| (takes - through).max(0.0)))
    }

    /// Whether as many films went through it as it takes.
    fn is_full(&self) -> bool {
        self.still_takes().is_some_and(|left| left.value <= 0.0)
    }

    /// What it found, to be written down; nothing where it cannot tell.
    fn finding(&self, verdict: Option<Verdict>, speed: Option<&Measured>, units: Units) -> Option<Finding> {
        let outcome = match (verdict?, speed) {
            (Verdict::Measured(Fixer::Spent), _) => Outcome::Failed,
            (Verdict::Measured(Fixer::Sound), Some(speed)) => Outcome::Strength {
                strength: speed.strength.value,
                uncertainty: speed.uncertainty_with_band(),
            },
            (Verdict::SoundByRule, _) => Outcome::Seen,
            _ => return None,
        };
        Some(Finding {
            test: TestKind::Clearing,
            outcome,
            remark: words::remark(self, units),
        })
    }
}

/// The sheet of a clearing test.
pub fn clearing(sheet: &mut Sheet, clearing: &Clearing, units: Units) {
    let speed = clearing.timed().and_then(|timed| timed.strength());
    let speed = speed.as_ref();
    let verdict = clearing.verdict(speed);
    sheet.title = format!("Clearing test: {}", clearing.name);
    sheet.headline = headline(clearing, speed, verdict, units);
    let next = words::next(clearing, speed, verdict, units);
    sheet.alert(&next);
    sheet.part("What to do", next);
    if clearing.now.is_empty() {
        let expected = strip(
            "A piece of undeveloped film against the light, in sound fixer",
            [
                ("at first", 0.9, "milky"),
                ("half way", 0.4, "patchy"),
                ("stop the watch", 0.0, "clear"),
            ],
        );
        sheet.part("What to expect", vec![expected]);
        sheet.part("How long to fix", usual_times(units));
    }
    sheet.part("How far it is", how_far(clearing, speed, units));
    sheet.part("Films through it", films(clearing, units));
    sheet.part_if(
        clearing.baths != Baths::One,
        "One bath or two",
        words::two_baths(clearing, verdict, units),
    );
    sheet.background("How to do it", words::how());
    sheet.background("The iodide test", words::iodide());
    sheet.part("Take care", care(Class::Fixer, false));
    sheet.background("Nobody measured this", assumptions(clearing, speed, units));
    sheet.finding = clearing.finding(verdict, speed, units).filter(|_| clearing.is_of_shelf);
}

fn headline(clearing: &Clearing, speed: Option<&Measured>, verdict: Option<Verdict>, units: Units) -> Vec<Figure> {
    let mut figures = Vec::new();
    if clearing.now.is_empty() {
        let times = match clearing.fix {
            three if three > 2.0 => "three times the clearing time",
            _ => "twice the clearing time",
        };
        figures.push(Figure::word("fix_for", "Fix for", 0, times));
        figures.push(Figure::word("spent_when", "Spent when", 0, "that has doubled"));
    }
    let is_spent = verdict == Some(Verdict::Measured(Fixer::Spent));
    if let Some(clears_in) = clearing.clears_in().filter(|_| !is_spent) {
        // What clears faster than fresh bath was timed wrongly: the longer of the two is safe.
        let fresh = clearing
            .timed()
            .and_then(|timed| timed.fresh())
            .filter(|_| verdict == Some(Verdict::TooFast));
        let clears_in = fresh.map_or(clears_in, |fresh| fresh.max(clears_in));
        let time = fixing_time(clears_in, clearing.fix);
        figures.push(Figure::span("fix", "Fix for", time, units));
    }
    figures.extend(verdict.map(words::verdict));
    if let Some(speed) = speed {
        let times = 1.0 / speed.strength.value;
        let spread = times * speed.uncertainty / speed.strength.value;
        let way = Figure::percent("way", "On the way to spent", way_to_spent(times), units)
            .uncertain(spread * 100.0, |spread| units.percent(spread / 100.0))
            .assumed_if(assumes(clearing));
        figures.push(way);
    }
    figures
}

/// Whether what was measured rests on what warmth is assumed to do.
fn assumes(clearing: &Clearing) -> bool {
    clearing.warmth.is_some_and(|warmth| warmth.is_assumed())
}

/// What a time to clear comes to, for those who have none yet.
fn usual_times(units: Units) -> Vec<Item> {
    let row = |seconds: f64| {
        let clears_in = Span::from_seconds(seconds);
        let figure = |name: &'static str, label: &'static str, times: f64| {
            Figure::span(name, label, fixing_time(clears_in, times), units)
        };
        let figures = vec![
            figure("row_twice", "fix for twice that", 2.0),
            figure("row_thrice", "three times", 3.0),
        ];
        (units.span(clears_in), figures)
    };
    let heads = ["Clear after", "fix for twice that", "three times"];
    vec![Item::Table(Table {
        heads: heads.map(str::to_owned).to_vec(),
        rows: [45.0, 60.0, 90.0, 120.0, 180.0].map(row).to_vec(),
    })]
}

fn how_far(clearing: &Clearing, speed: Option<&Measured>, units: Units) -> Vec<Item> {
    let mut items = Vec::new();
    let Some(clears_in) = clearing.clears_in() else {
        return items;
    };
    items.push(Item::Figure(Figure::span(
        "clears_in",
        "Film clears in",
        clears_in,
        units,
    )));
    if let Some(speed) = speed {
        let times = 1.0 / speed.strength.value;
        let figure = Figure::number("times", "That is so many times as long as fresh", times, 2, units)
            .uncertain(times * speed.uncertainty / speed.strength.value, |spread| {
                units.number(spread, 2)
            });
        let (least, most) = (1.0 / speed.strength.most, 1.0 / speed.strength.least);
        let figure = figure
            .between(&units.number(least, 2), &units.number(most, 2))
            .assumed_if(assumes(clearing));
        items.push(Item::Figure(figure));
        let speed_figure = Figure::percent("speed", "Speed against fresh", speed.strength.value, units)
            .uncertain(speed.uncertainty * 100.0, |spread| units.percent(spread / 100.0))
            .assumed_if(assumes(clearing));
        items.push(Item::Figure(speed_figure));
        items.push(Item::Figure(Figure::percent(
            "unseen",
            "A smaller loss of speed would not show",
            speed.unseen.value,
            units,
        )));
        items.push(Item::Picture(bars(clearing, times, units)));
    } else if let Some(at_20) = clearing.clears_in_at_20().filter(|_| assumes_20(clearing)) {
        let label = format!("At {} that would be", units.temperature(USUAL));
        let figure = Figure::span("clears_in_at_20", label, at_20, units);
        items.push(Item::Figure(figure.assumed_if(clearing.q10.is_assumed())));
    }
    items.extend(clearing.thermometer.iter().cloned());
    items
}

/// Whether the bath is not at the temperature for which the rule of the trade is taken.
fn assumes_20(clearing: &Clearing) -> bool {
    clearing.warmth.is_some_and(|warmth| warmth.now != USUAL)
}

/// How far on the way to spent, by the clearing time and by the films.
fn bars(clearing: &Clearing, times: f64, units: Units) -> Picture {
    let bar = |label: &str, share: f64| Bar {
        label: label.to_owned(),
        share: share.min(1.0),
        shown: units.percent(share),
    };
    let mut bars = vec![bar("by clearing", way_to_spent(times))];
    if let Some((through, takes)) = clearing.through.zip(clearing.takes()) {
        bars.push(bar("by films", through / takes.value));
    }
    Picture::Bars {
        caption: "On the way from fresh to spent".to_owned(),
        bars,
    }
}

/// Films through it against what it takes.
fn films(clearing: &Clearing, units: Units) -> Vec<Item> {
    let mut items = Vec::new();
    if let Some(through) = clearing.through {
        items.push(Item::Figure(Figure::number(
            "through",
            "Film units through it",
            through,
            1,
            units,
        )));
    }
    if let Some(takes) = clearing.takes() {
        items.push(films_figure("takes", "It takes in all", takes, units));
        if let Some(left) = clearing.still_takes() {
            items.push(films_figure("still_takes", "It still takes", left, units));
        }
    }
    items.extend(words::films(clearing, units));
    items
}

fn films_figure(name: &'static str, label: &'static str, films: Parameter, units: Units) -> Item {
    let show = |films: f64| units.number(films, usize::from(films < 9.95));
    let figure = Figure::number(name, label, films.value, usize::from(films.value < 9.95), units);
    Item::Figure(
        figure
            .between(&show(films.least), &show(films.most))
            .assumed_if(films.is_assumed()),
    )
}

fn assumptions(clearing: &Clearing, speed: Option<&Measured>, units: Units) -> Vec<Item> {
    let mut items = Vec::new();
    if let (Some(timed), Some(_)) = (clearing.timed(), speed)
        && !timed.is_repeated()
    {
        items.extend(scatter_assumption("clear_now", units));
    }
    let by_rule = speed.is_none() && !clearing.now.is_empty() && assumes_20(clearing);
    if by_rule || (speed.is_some() && assumes(clearing)) {
        items.extend(q10_assumption(clearing.q10, units));
    }
    if clearing.bath.is_some() {
        let figure = Figure::number(
            "assumed_per_litre",
            "Films a litre takes",
            clearing.per_litre.value,
            0,
            units,
        );
        items.extend(assumption(figure, clearing.per_litre, "per_litre", units));
    }
    items
}
