//! A thermometer beside a better one: what the form and the kit say of it, and what it comes to.

use super::thermometer::as_read;
use super::timing::top;
use super::{assumption_of, text};
use crate::chemistry::Guess;
use crate::development::Parameter;
use crate::fields::{self, Form};
use crate::kit::{BETWEEN, Calibration, Compared, Comparison, Kit};
use crate::quantity::{Day, Temperature, TemperatureDifference, Units};
use crate::sheet::{Figure, Item, Picture, Sheet, Table};

/// The kit's thermometer, compared.
pub struct ComparedThermometer {
    comparison: Comparison,
    used_at: Temperature,
}

/// So far off no thermometer is: a pair is mistyped or turned about.
const FAR: f64 = 5.0;
/// Where one thermometer rises by so much the other must rise too, in kelvins.
const RISES: f64 = 1.0;
/// Points of the drawn curve.
const STEPS: u32 = 30;

const REFERENCE: Guess = Guess {
    value: 0.2,
    least: 0.05,
    most: 0.5,
    why: "as makers state it for good digital thermometers (common practice, no source)",
};
/// For ten kelvins.
const DRIFT: Guess = Guess {
    value: 0.1,
    least: 0.02,
    most: 0.2,
    why: "how much the error of a sound thermometer changes (common practice, no source); readings that lie apart tell it",
};

impl ComparedThermometer {
    /// What the form says; `None` where that does not suffice.
    pub fn read(form: &mut Form) -> Option<Self> {
        let readings = form.read(&fields::READINGS);
        let step = form.read(&fields::THERMOMETER_STEP);
        let reference = form
            .read(&fields::REFERENCE_GOOD_TO)
            .map(TemperatureDifference::kelvins);
        let drift = form.read(&fields::DRIFT).map(TemperatureDifference::kelvins);
        let used_at = form.read(&fields::USED_AT);
        let readings = readings?;
        if let Some(fault) = contradiction(&readings, form.units()) {
            form.fault("readings", &fault);
            return None;
        }
        Some(Self {
            comparison: Comparison {
                readings,
                reference: Parameter::given_or(reference, REFERENCE),
                step: step?,
                drift: Parameter::given_or(drift, DRIFT).map(|ten| ten / 10.0),
            },
            used_at: used_at?,
        })
    }
}

/// What cannot be among pairs of readings.
fn contradiction(readings: &[(Temperature, Temperature)], units: Units) -> Option<String> {
    let show = |temperature: Temperature| units.temperature(temperature);
    if readings.len() > 1 && readings.iter().all(|pair| *pair == readings[0]) {
        return Some(
            "all pairs are the same, and tell no more than one; read again, or at another temperature".to_owned(),
        );
    }
    let far = |(shown, other): &&(Temperature, Temperature)| (*other - *shown).kelvins().abs() > FAR;
    if let Some((shown, other)) = readings.iter().find(far) {
        return Some(format!(
            "{} and {} lie too far apart for one bath; write yours first, the better one second",
            show(*shown),
            show(*other)
        ));
    }
    for (shown, other) in readings {
        let falls = |(more, less): &&(Temperature, Temperature)| (*more - *shown).kelvins() > RISES && less < other;
        if let Some((warmer, colder)) = readings.iter().find(falls) {
            return Some(format!(
                "yours rises from {} to {}, and the better one falls from {} to {}; check these two pairs",
                show(*shown),
                show(*warmer),
                show(*other),
                show(*colder)
            ));
        }
    }
    None
}

/// What the comparison found, and what the kit keeps of it.
pub fn comparing(sheet: &mut Sheet, one: &ComparedThermometer, kit: &Kit, today: Day) {
    let units = kit.house.units;
    let used_at = one.used_at;
    let Some(found) = one.comparison.found(today) else {
        return;
    };
    let line = found.line;
    let is_assumed = one.comparison.reference.is_assumed() || (!found.is_line && one.comparison.drift.is_assumed());
    let correction = line.correction_at(used_at);
    let u = line.standard_uncertainty(used_at).kelvins();
    sheet.title = format!("Your thermometer at {}", units.temperature(used_at));
    let is = line.corrected(used_at);
    sheet.headline = vec![
        Figure::temperature("is", format!("{} on it is", units.temperature(used_at)), is, units)
            .uncertain(u, |spread| difference(spread, units))
            .assumed_if(is_assumed),
        Figure::temperature_difference("correction", "Add to what it shows", correction, units)
            .uncertain(u, |spread| difference(spread, units))
            .assumed_if(is_assumed),
    ];
    let before = kit.house.thermometer.kelvins() / 3f64.sqrt();
    let is_better = u < before;
    sheet.part(
        "What to do",
        advice(one, &found, (!is_better).then_some([before, u]), units),
    );
    sheet.part("What it gains", gains(before, u, units));
    let mut drawn = vec![Item::Picture(curve(one, &found, units))];
    drawn.extend(figures(one, &found, units));
    sheet.part("Its correction over temperature", drawn);
    sheet.background("How to compare", vec![text(HOW)]);
    sheet.background("Nobody measured this", unmeasured(one, &found, units));
    sheet.calibration = is_better.then_some(Calibration::Thermometer(line));
}

/// How it is done, where there is nothing to tell yet.
pub fn how_to_compare(sheet: &mut Sheet) {
    sheet.part("How to compare", vec![text(HOW)]);
}

const HOW: &str = "Hang both side by side in the middle of a large jug of water, stir for two minutes, and read both at once. \
                   Do it at the temperature of your developer first, then some degrees colder and warmer: 18, 20, 24, 30 and 38 °C make \
                   a good set.";

fn difference(kelvins: f64, units: Units) -> String {
    units.temperature_difference(TemperatureDifference::from_kelvins(kelvins))
}

/// `worse` is the standard uncertainty by the limit and by the comparison, where the limit is the better figure.
fn advice(one: &ComparedThermometer, found: &Compared, worse: Option<[f64; 2]>, units: Units) -> Vec<Item> {
    let mut items = vec![match worse {
        None => Item::Text(format!(
            "{} Use it from now on: you go on typing what yours shows, and the sheets put it right.",
            as_read(&found.line, one.used_at, units, found.line.on)
        )),
        Some([before, after]) => Item::Caution(format!(
            "The limit of error in Kit is the better figure: by it one reading is good to ± {}, and by this comparison to ± {}. So \
             nothing is kept of it. Read more pairs, also near {}, or take a better thermometer beside yours.",
            difference(before * 2.0, units),
            difference(after * 2.0, units),
            units.temperature(one.used_at)
        )),
    }];
    items.push(text(match (one.comparison.readings.len(), found.is_line) {
        (1, _) => "One pair tells its error at that temperature alone. Add pairs some degrees colder and warmer.",
        (2, _) => "Two pairs tell its error between them. A third, some degrees away, lets a line be drawn.",
        (_, false) => "The pairs lie too close together for a line. Add one some degrees colder or warmer.",
        (3 | 4, true) => "So few pairs leave the line rather open; five or more draw it well.",
        _ => "The line is good between the pairs; beyond them it is drawn on, and less sure.",
    }));
    items
}

fn gains(before: f64, after: f64, units: Units) -> Vec<Item> {
    let row = |name: &'static str, label: &str, u: f64| {
        let spread = TemperatureDifference::from_kelvins(u * 2.0);
        let figure = Figure::temperature_difference(name, "± (95 %)", spread, units);
        (label.to_owned(), vec![figure])
    };
    vec![Item::Table(Table {
        heads: ["One reading", "± (95 %)"].map(str::to_owned).to_vec(),
        rows: vec![
            row("before_u", "by the limit in Kit", before),
            row("after_u", "by your comparison", after),
        ],
    })]
}

fn figures(one: &ComparedThermometer, found: &Compared, units: Units) -> Vec<Item> {
    let twenty = Temperature::from_celsius(20.0);
    let exact = |figure: Figure, kelvins: f64| Figure {
        shown: difference(kelvins, units),
        ..figure
    };
    let at = |name: &'static str, label: String, shown: Temperature| {
        let correction = found.line.correction_at(shown);
        let figure = Figure::temperature_difference(name, label, correction, units);
        let alone = found.alone_at(shown).kelvins();
        exact(figure, correction.kelvins()).uncertain(alone, |spread| difference(spread, units))
    };
    let mut items = vec![Item::Figure(Figure::number(
        "count",
        "Pairs",
        one.comparison.readings.len() as f64,
        0,
        units,
    ))];
    if let Some(scatter) = found.scatter {
        items.push(Item::Figure(Figure::temperature_difference(
            "scatter",
            "They scatter by (standard deviation)",
            scatter,
            units,
        )));
    }
    if found.is_line {
        items.push(Item::Figure(at(
            "level",
            format!("The line at {}", units.temperature(twenty)),
            twenty,
        )));
        if one.used_at != twenty {
            items.push(Item::Figure(at(
                "line",
                format!("The line at {}", units.temperature(one.used_at)),
                one.used_at,
            )));
        }
        items.push(Item::Figure(
            Figure::number("slope", "It grows, for a degree, by", found.line.slope, 5, units)
                .uncertain(found.slope_alone, |spread| units.number(spread, 5)),
        ));
        items.push(Item::Figure(Figure::number(
            "correlation",
            format!("How level and slope at {} go together (r)", units.temperature(twenty)),
            found.correlation_at(twenty),
            3,
            units,
        )));
    }
    items
}

fn curve(one: &ComparedThermometer, found: &Compared, units: Units) -> Picture {
    let (from, to) = (BETWEEN.least, BETWEEN.most);
    let points: Vec<[f64; 4]> = (0..=STEPS)
        .map(|step| {
            let celsius = from + (to - from) * f64::from(step) / f64::from(STEPS);
            let shown = Temperature::from_celsius(celsius);
            let middle = found.line.correction_at(shown).kelvins();
            let spread = 2.0 * found.line.standard_uncertainty(shown).kelvins();
            [celsius, middle - spread, middle, middle + spread]
        })
        .collect();
    let given: Vec<(f64, f64)> = one
        .comparison
        .readings
        .iter()
        .map(|(shown, other)| (shown.celsius(), (*other - *shown).kelvins()))
        .collect();
    let lows = points
        .iter()
        .map(|point| point[1])
        .chain(given.iter().map(|point| point.1));
    let lowest = lows.fold(0.0, f64::min);
    let highest = top(&points, &given);
    // The picture begins at nothing below; a correction may lie beneath that.
    let raised = |value: f64| value - lowest;
    let here = found.line.correction_at(one.used_at).kelvins();
    Picture::Curve {
        caption: format!(
            "What to add to what it shows: {} at {}",
            difference(here, units),
            units.temperature(one.used_at)
        ),
        axes: ["what it shows".to_owned(), "to be added".to_owned()],
        points: points
            .iter()
            .map(|[x, low, middle, high]| [*x, raised(*low), raised(*middle), raised(*high)])
            .collect(),
        mark: (one.used_at.celsius(), raised(here)),
        ends: [
            units.temperature(Temperature::from_celsius(from)),
            units.temperature(Temperature::from_celsius(to)),
            difference(lowest, units),
            difference(highest, units),
        ],
        given: given.iter().map(|(x, y)| (*x, raised(*y))).collect(),
    }
}

fn unmeasured(one: &ComparedThermometer, found: &Compared, units: Units) -> Vec<Item> {
    let figure = |name: &'static str, label: &'static str, kelvins: f64| {
        Figure::temperature_difference(name, label, TemperatureDifference::from_kelvins(kelvins), units)
    };
    let show = |kelvins: f64| difference(kelvins, units);
    let reference = one.comparison.reference;
    let drift = one.comparison.drift.map(|one| one * 10.0);
    let mut items: Vec<Item> = assumption_of(
        figure("assumed_reference", "The better one is right to, ±", reference.value),
        reference,
        "reference",
        &show,
    )
    .into_iter()
    .collect();
    if !found.is_line {
        items.extend(assumption_of(
            figure("assumed_drift", "Its error changes, in 10 °C, by ±", drift.value),
            drift,
            "drift",
            &show,
        ));
    }
    items
}
