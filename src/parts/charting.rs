//! A control chart as the form and the shelf tell it, and what it says: has it moved, where is it going, what to do.

mod moved;
mod picture;
mod series;
mod trend;

use super::{Picked, assumption_of, given, text};
use crate::chemistry::Class;
use crate::darkroom::Darkroom;
use crate::development::Parameter;
use crate::fields::{self, Form};
use crate::proof::control::{Control, Edge, Measure, RUN, Signal, Smoothed, sigma_by_ranges};
use crate::quantity::{Day, Units};
use crate::sheet::{Figure, Item, Sheet, Table};
use series::Series;

/// A series and what it is held against.
pub struct Charting {
    measure: Measure,
    series: Series,
    values: Vec<f64>,
    control: Control,
    /// The scatter of one value, and its standard uncertainty where the values themselves tell it.
    sigma: Parameter,
    sigma_uncertainty: Option<f64>,
    /// The level, where it is the mean of so many first values.
    level_of_first: Option<usize>,
    limit: f64,
    /// What is not to be passed; nothing where limit and target contradict each other.
    edges: Vec<Edge>,
}

/// What is to be thought of the series.
#[derive(Clone, Copy, PartialEq)]
enum State {
    Steady,
    Changing,
    PastTheLimit,
    CannotTell,
}

/// What stands in the fields of the chart at first: what is held against where one of them cannot be read. The handbook names weights
/// of 0.2 to 0.3, a slack of a half and sums of 4 or 5.
const USUAL: Control = Control {
    level: 1.0,
    sigma: 1.0,
    lambda: 0.2,
    k: 0.5,
    h: 4.0,
};
/// Values from which on their own scatter is taken.
const ENOUGH: usize = 8;
/// The first values whose mean is the operating level of a density (five days, as such levels are usually set; from memory).
const FIRST: usize = 5;
/// Below this many values nothing is called steady.
const LEAST: usize = 4;
/// Rows of the table of values.
const ROWS: usize = 30;
/// Decimals of a value.
const PLACES: usize = 3;

impl Charting {
    /// What the form says, and the tests of a picked bottle's product; `None` where that does not suffice, with what is missing on
    /// the sheet.
    pub fn read(form: &mut Form, darkroom: &Darkroom, sheet: &mut Sheet) -> Option<Self> {
        let picked = Picked::read(form, darkroom);
        let is_fixer = picked.label.is_some_and(|label| label.class == Class::Fixer);
        let usual = if is_fixer { Measure::Clearing } else { Measure::Clip };
        let measure = form.read(&fields::MEASURE).unwrap_or(usual);
        let series = Series::read(form, darkroom, &picked, measure);
        let target = form.read(&fields::TARGET);
        let typed_limit = form.read(&fields::EDGE);
        let typed_sigma = form.read(&fields::SIGMA);
        let lambda = form.read(&fields::LAMBDA);
        let k = form.read(&fields::CUSUM_K);
        let h = form.read(&fields::CUSUM_H);
        sheet.title = series.title(measure);
        let values: Vec<f64> = series.values();
        if values.len() < 2 {
            let wanting = series.wanting(measure, form.units());
            if !series.from_shelf && !form.at_fault("values") {
                form.fault("values", "a chart takes two values at least");
            }
            sheet.part("What is still needed", vec![Item::Text(wanting)]);
            return None;
        }
        let first = &values[..values.len().min(FIRST)];
        let own_level = measure
            .density_limit()
            .map(|_| first.len())
            .filter(|_| target.is_none());
        let level = target.unwrap_or(match own_level {
            Some(count) => first.iter().sum::<f64>() / count as f64,
            None => 1.0,
        });
        let measured = sigma_by_ranges(&values).filter(|_| values.len() >= ENOUGH && typed_sigma.is_none());
        if values.len() >= ENOUGH && typed_sigma.is_none() && measured.is_none() && !form.at_fault("sigma") {
            form.fault(
                "sigma",
                "all values are the same, so they do not tell how far a test scatters; type it",
            );
        }
        let sigma = match (typed_sigma, measured) {
            (Some(sigma), _) | (None, Some((sigma, _))) => given(sigma),
            (None, None) => Parameter::given_or(None, measure.scatter(darkroom.kit.house.hand / 100.0)),
        };
        let limit = typed_limit.unwrap_or(measure.usual_limit());
        let mut edges = measure.edges(level, limit);
        if edges.iter().any(|edge| edge.above == (edge.at <= level)) {
            let units = form.units();
            let show = |value| units.number(value, PLACES);
            let field = if typed_limit.is_none() { "target" } else { "limit" };
            let clause = format!(
                "a target of {} would be past the limit of {}; change one of them",
                show(level),
                show(limit)
            );
            form.fault(field, &clause);
            edges.clear();
        }
        Some(Self {
            measure,
            control: Control {
                level,
                sigma: sigma.value,
                lambda: lambda.unwrap_or(USUAL.lambda),
                k: k.unwrap_or(USUAL.k),
                h: h.unwrap_or(USUAL.h),
            },
            series,
            values,
            sigma,
            sigma_uncertainty: measured.map(|(_, uncertainty)| uncertainty),
            level_of_first: own_level,
            limit,
            edges,
        })
    }

    /// The last value.
    fn last(&self) -> f64 {
        self.values[self.values.len() - 1]
    }

    /// The last test says whether the limit is passed: the smoothed line still follows the bath before, when fresh was taken.
    fn state(&self, signals: &[Signal]) -> State {
        let last = self.last();
        let past = |edge: &Edge| if edge.above { last > edge.at } else { last < edge.at };
        if self.edges.iter().any(past) {
            return State::PastTheLimit;
        }
        let stands = |signal: &Signal| signal.to + 1 == self.values.len();
        match (signals.iter().any(stands), self.values.len() < LEAST) {
            (true, _) => State::Changing,
            (false, true) => State::CannotTell,
            (false, false) => State::Steady,
        }
    }
}

impl State {
    fn word(self) -> &'static str {
        match self {
            Self::Steady => "steady",
            Self::Changing => "changing",
            Self::PastTheLimit => "past the limit",
            Self::CannotTell => "cannot tell yet",
        }
    }
}

/// What the chart says.
pub fn charting(sheet: &mut Sheet, charting: &Charting, today: Day, units: Units) {
    let Charting { values, control, .. } = charting;
    let show = |value: f64| units.number(value, PLACES);
    let smoothed = control.smoothed(values);
    let signals = control.signals(values);
    let state = charting.state(&signals);
    let assumed = charting.sigma.is_assumed();
    let headline = [
        Figure::word("state", "It is", state as usize, state.word())
            .assumed_if(assumed && state != State::PastTheLimit),
        Figure::number("last", "Last test", charting.last(), PLACES, units),
    ];
    sheet.headline.extend(headline);
    let trend = trend::Course::of(charting, today);
    sheet.headline.extend(trend.headline(today));

    let mut next = moved::advice(charting, state);
    next.extend(moved::signals(charting, &signals, units));
    sheet.alert(&next);
    sheet.part("What to do", next);
    sheet.part(
        "The chart",
        vec![Item::Picture(picture::chart(charting, &smoothed, units))],
    );
    sheet.part("Where it is going", trend.items(charting, today, units));
    sheet.background(
        "What it is held against",
        held_against(charting, &smoothed, &show, units),
    );
    sheet.background("Every value", every_value(charting, &smoothed, units));
    let figure = Figure::number(
        "assumed_sigma",
        "One test scatters by",
        charting.sigma.value,
        PLACES,
        units,
    );
    let unmeasured = assumption_of(figure, charting.sigma, "sigma", &show);
    sheet.background("Nobody measured this", unmeasured.into_iter().collect());
}

/// Level, scatter and limits, and where they come from.
fn held_against(charting: &Charting, smoothed: &[Smoothed], show: &dyn Fn(f64) -> String, units: Units) -> Vec<Item> {
    let control = &charting.control;
    let number =
        |name: &'static str, label: &'static str, value: f64| Figure::number(name, label, value, PLACES, units);
    let (low, high) = control.limits();
    let assumed = charting.sigma.is_assumed();
    let level = number("target", "Target", control.level);
    let level = match charting.level_of_first {
        Some(count) => level.uncertain(control.sigma / (count as f64).sqrt(), show),
        None => level,
    };
    let sigma = number("sigma", "One test scatters by (standard deviation)", control.sigma);
    let sigma = match charting.sigma_uncertainty {
        Some(uncertainty) => sigma.uncertain(uncertainty, show),
        None => sigma.assumed_if(assumed),
    };
    let mut figures = vec![
        level.assumed_if(assumed && charting.level_of_first.is_some()),
        sigma,
        number("usual_low", "By chance, down to", low).assumed_if(assumed),
        number("usual_high", "By chance, up to", high).assumed_if(assumed),
        number("limit", "Limit", charting.limit),
    ];
    if let Some(last) = smoothed.last() {
        figures.extend([
            number("smoothed", "Smoothed, now", last.value),
            number("smoothed_low", "Smoothed, by chance down to", last.low).assumed_if(assumed),
            number("smoothed_high", "Smoothed, by chance up to", last.high).assumed_if(assumed),
        ]);
    }
    if let Some(last) = control.sums(&charting.values).last() {
        let sum =
            |name, label, sum: f64| Figure::number(name, label, sum / control.sigma, 2, units).assumed_if(assumed);
        figures.push(sum("sum_below", "Sum of what lies below, in scatters", last.below));
        figures.push(sum("sum_above", "Sum of what lies above, in scatters", last.above));
    }
    let mut items: Vec<Item> = figures.into_iter().map(Item::Figure).collect();
    let level = match charting.level_of_first {
        Some(count) => format!("The target is the mean of the first {count} values."),
        None => "The target is where it should be by itself, or as typed.".to_owned(),
    };
    let scatter = match charting.sigma_uncertainty {
        Some(_) => "The scatter is that from one test to the next (mean moving range over 1.128).",
        None if assumed => "The scatter is assumed until there are eight tests.",
        None => "The scatter is what you typed.",
    };
    items.push(Item::Text(format!(
        "{level} {scatter} A single test beyond three scatters, {RUN} in a row on one side, a smoothed line beyond its limits and a \
         sum over {} scatters are what chance hardly does: individuals, EWMA and CUSUM of ISO 7870.",
        units.number(control.h, 2)
    )));
    items
}

/// The newest values, one a row.
fn every_value(charting: &Charting, smoothed: &[Smoothed], units: Units) -> Vec<Item> {
    let count = charting.values.len();
    let row = |at: usize| {
        let Smoothed { value, low, high } = smoothed[at];
        let number = |name: &'static str, label: &'static str, value| Figure::number(name, label, value, PLACES, units);
        let assumed = charting.sigma.is_assumed();
        let figures = vec![
            number("value", "Value", charting.values[at]),
            number("row_smoothed", "Smoothed", value),
            number("row_low", "Chance down to", low).assumed_if(assumed),
            number("row_high", "Chance up to", high).assumed_if(assumed),
        ];
        (charting.series.name(at), figures)
    };
    let heads = ["Test", "Value", "Smoothed", "Chance down to", "Chance up to"];
    let mut items = vec![Item::Table(Table {
        heads: heads.map(str::to_owned).to_vec(),
        rows: (count.saturating_sub(ROWS)..count).map(row).collect(),
    })];
    if count > ROWS {
        items.push(text("These are the last thirty; the chart counts all."));
    }
    items
}
