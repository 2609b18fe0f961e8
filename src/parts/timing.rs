//! How long to develop: the time with its uncertainty and band, the curve over temperature, and what it rests on.

use super::{assumption, text};
use crate::development::{Parameter, Prediction, RateLaw, SheetTime, USUAL};
use crate::kit::Kit;
use crate::quantity::power::power;
use crate::quantity::{Span, Temperature, TemperatureDifference, TemperatureUnit, Units};
use crate::sheet::{Figure, Item, Picture};

/// What is said where the data sheet's times are missing.
const TIMES_WANTED: &str = "Type the data sheet's times, one a line, such as 6:45 at 20 C 1+31. One is enough to begin with; \
     from two temperatures on, the law is fitted to them.";

/// Below this, pouring and stopping are too large a part (common practice, no source).
const SHORT: Span = Span::from_minutes(5.0);
/// Points of the drawn curve.
const STEPS: u32 = 24;

/// What can be said of the time without any time of a data sheet: what a degree does, by the assumption.
pub fn without_times(q10: Parameter, units: Units) -> Vec<Item> {
    let (degree, name) = one_degree(units);
    let shorter = |q10: f64| 1.0 - power(q10, -degree.kelvins() / 10.0);
    let label = format!("{name} warmer shortens it by");
    let figure = Figure::percent("shorter_per_degree", label, shorter(q10.value), units);
    vec![
        Item::Text(TIMES_WANTED.to_owned()),
        Item::Figure(match q10.is_assumed() {
            true => figure
                .between(&units.percent(shorter(q10.least)), &units.percent(shorter(q10.most)))
                .assumed(),
            false => figure,
        }),
    ]
}

/// A bath of which the law tells how long to develop in it.
#[derive(Clone, Copy)]
pub struct Timed<'a> {
    /// The law.
    pub law: &'a RateLaw,
    /// How warm the bath is.
    pub temperature: Temperature,
    /// Its strength, as [`crate::quantity::Dilution::strength`].
    pub strength: f64,
    /// The strength of its bottle; 1 is fresh.
    pub bottle: f64,
    /// The times of the data sheet that the law was made from.
    pub times: &'a [SheetTime],
}

impl Timed<'_> {
    /// What the law says of it at another temperature.
    pub(super) fn predicted(&self, temperature: Temperature) -> Prediction {
        self.law.time(temperature, self.strength, self.bottle)
    }

    /// The time as a figure, and the items that explain it and say what speaks against it.
    pub fn timing(&self, kit: &Kit) -> (Figure, Vec<Item>) {
        let (figure, mut items) = self.worked_out(kit);
        items.extend(self.warnings(Span::from_seconds(figure.value), kit.house.units));
        (figure, items)
    }

    /// The same without what speaks against it.
    pub(super) fn worked_out(&self, kit: &Kit) -> (Figure, Vec<Item>) {
        let units = kit.house.units;
        let (law, temperature) = (self.law, self.temperature);
        let prediction = self.predicted(temperature);
        let time = prediction.time;
        let kelvin = law.activation().value / crate::development::GAS_CONSTANT / temperature.kelvins().powi(2);
        let limit = kit.thermometer_limit(temperature).kelvins();
        let relative = prediction.relative_uncertainty.hypot(limit / 3f64.sqrt() * kelvin);
        let assumed = prediction.band.0 != prediction.band.1;
        let mut figure = Figure::span("time", "Develop for", time, units)
            .uncertain(time.seconds() * relative, |spread| {
                units.seconds(Span::from_seconds(spread))
            })
            .assumed_if(assumed);
        if assumed {
            figure = figure.between(&units.span(prediction.band.0), &units.span(prediction.band.1));
        }
        let (degree, name) = one_degree(units);
        let label = format!("{name} warmer takes off");
        let warmer = self.predicted(temperature + degree).time;
        let mut items = vec![Item::Picture(self.curve(units))];
        items.push(Item::Figure(
            Figure::seconds("seconds_per_degree", label, time - warmer, units)
                .assumed_if(assumed || law.activation().is_assumed()),
        ));
        items.push(Item::Figure(
            Figure::seconds(
                "seconds_by_thermometer",
                "Your thermometer's limit of error is worth",
                time * (limit * kelvin),
                units,
            )
            .assumed_if(assumed || law.activation().is_assumed()),
        ));
        by_temperature(&mut items, law.activation(), law.q10(), units);
        items.push(Item::Figure(
            Figure::number(
                "exponent",
                "How strength speeds it up (n)",
                law.exponent().value,
                2,
                units,
            )
            .assumed_if(law.exponent().is_assumed()),
        ));
        items.push(Item::Text(format!(
            "Temperature: {}. Dilution: {}.",
            law.activation().origin,
            law.exponent().origin
        )));
        if self.times.iter().any(|time| time.dilution.is_none()) {
            items.push(text("Times without a dilution are taken to be for this one."));
        }
        (figure, items)
    }

    /// What speaks against developing for so long in it.
    pub(super) fn warnings(&self, time: Span, units: Units) -> Vec<Item> {
        let (law, temperature) = (self.law, self.temperature);
        let mut texts = speaks_against(temperature, time, units);
        let (coldest, warmest) = law.temperatures();
        if temperature < coldest || temperature > warmest {
            let (cold, warm) = (units.temperature(coldest), units.temperature(warmest));
            texts.push(match coldest == warmest {
                true => format!("The data sheet speaks of {cold} only; another temperature is worked out."),
                false => format!("The data sheet speaks of {cold} to {warm}; beyond that the curve is drawn on."),
            });
        }
        if law.largest_residual() > 0.05 {
            texts.push(format!(
                "The data sheet's times lie up to {} off the fitted law.",
                units.percent(law.largest_residual())
            ));
        }
        if law.entangled() {
            texts.push(
                "In these times temperature and dilution change only together, so the dilution exponent cannot be told from \
                 them. Add a time that changes one alone."
                    .to_owned(),
            );
        }
        texts.into_iter().map(Item::Caution).collect()
    }

    fn curve(&self, units: Units) -> Picture {
        let (law, temperature, strength) = (self.law, self.temperature, self.strength);
        let (coldest, warmest) = law.temperatures();
        let from = coldest.celsius().min(temperature.celsius()).min(USUAL[0].celsius()) - 1.0;
        let to = warmest.celsius().max(temperature.celsius()).max(USUAL[1].celsius()) + 1.0;
        let points: Vec<[f64; 4]> = (0..=STEPS)
            .map(|step| {
                let celsius = from + (to - from) * f64::from(step) / f64::from(STEPS);
                let prediction = self.predicted(Temperature::from_celsius(celsius));
                [
                    celsius,
                    prediction.band.0.minutes(),
                    prediction.time.minutes(),
                    prediction.band.1.minutes(),
                ]
            })
            .collect();
        let here = self.predicted(temperature).time;
        let same = |time: &&SheetTime| {
            let own = time.dilution.as_ref().map_or(strength, |dilution| dilution.strength());
            (own - strength).abs() < 1e-9
        };
        let given: Vec<(f64, f64)> = self
            .times
            .iter()
            .filter(same)
            .map(|time| (time.temperature.celsius(), time.time.minutes()))
            .collect();
        let highest = top(&points, &given);
        Picture::Curve {
            caption: format!(
                "Developing time over temperature: {} at {}",
                units.span(here),
                units.temperature(temperature)
            ),
            axes: ["temperature".to_owned(), "developing time".to_owned()],
            points,
            mark: (temperature.celsius(), here.minutes()),
            ends: [
                units.temperature(Temperature::from_celsius(from)),
                units.temperature(Temperature::from_celsius(to)),
                "0:00".to_owned(),
                units.span(Span::from_minutes(highest)),
            ],
            given,
        }
    }
}

/// How far up a curve with its band, and what it was made from, reach from nothing.
pub(super) fn top(points: &[[f64; 4]], given: &[(f64, f64)]) -> f64 {
    let tops = points.iter().map(|point| point[3]);
    tops.chain(given.iter().map(|point| point.1)).fold(0.0, f64::max)
}

/// Adds how the rate follows the temperature: the activation energy in J/mol, and the factor per 10 degrees that it stands for.
pub(super) fn by_temperature(items: &mut Vec<Item>, activation: Parameter, q10: Parameter, units: Units) {
    let kilojoules = activation.value / 1000.0;
    let mut add = |figure: Figure| items.push(Item::Figure(figure.assumed_if(activation.is_assumed())));
    add(Figure::number(
        "activation_energy",
        "Activation energy, kJ/mol",
        kilojoules,
        1,
        units,
    ));
    add(Figure::number("q10", "Faster by, for 10 °C", q10.value, 2, units));
}

/// The assumptions that a law rests on.
pub fn law_assumptions(law: &RateLaw, units: Units) -> Vec<Item> {
    [
        q10_assumption(law.q10(), units),
        exponent_assumption(law.exponent(), units),
    ]
    .into_iter()
    .flatten()
    .collect()
}

/// The item for a factor per 10 degrees that nobody measured.
pub fn q10_assumption(q10: Parameter, units: Units) -> Option<Item> {
    let figure = Figure::number("assumed_q10", "Faster by, for 10 °C", q10.value, 2, units);
    assumption(figure, q10, "q10", units)
}

/// The item for how far development goes, where nobody measured it.
pub fn progress_assumption(progress: Parameter, units: Units) -> Option<Item> {
    let label = "How far development goes (k t)";
    let figure = Figure::number("assumed_progress", label, progress.value, 2, units);
    assumption(figure, progress, "progress", units)
}

/// The item for a dilution exponent that nobody measured.
pub fn exponent_assumption(n: Parameter, units: Units) -> Option<Item> {
    let figure = Figure::number("assumed_exponent", "How strength speeds it up (n)", n.value, 2, units);
    assumption(figure, n, "exponent", units)
}

/// One degree of the user's scale, and its name at the start of a sentence.
pub(super) fn one_degree(units: Units) -> (TemperatureDifference, &'static str) {
    let (kelvins, name) = match units.temperature {
        TemperatureUnit::Celsius => (1.0, "One degree Celsius"),
        TemperatureUnit::Fahrenheit => (1.0 / 1.8, "One degree Fahrenheit"),
    };
    (TemperatureDifference::from_kelvins(kelvins), name)
}

/// What is wrong with developing at this temperature; nothing within the usual range.
pub(super) fn outside(temperature: Temperature) -> Option<&'static str> {
    match temperature {
        cold if cold < USUAL[0] => Some("so cold, development may stay incomplete"),
        warm if warm > USUAL[1] => Some("so warm, it is hard to pour evenly and to stop in time"),
        _ => None,
    }
}

/// What speaks against so long a developing at such a temperature, whatever the developer.
pub(super) fn speaks_against(temperature: Temperature, time: Span, units: Units) -> Vec<String> {
    let mut texts = Vec::new();
    if let Some(why) = outside(temperature) {
        let [cold, warm] = USUAL.map(|limit| units.temperature(limit));
        let here = units.temperature(temperature);
        texts.push(format!("{here} is outside the usual {cold} to {warm}: {why}."));
    }
    if time < SHORT {
        texts.push(format!(
            "{} is short: below {} pouring in and out makes development uneven. Take a thinner dilution or a cooler bath.",
            units.span(time),
            units.span(SHORT)
        ));
    }
    texts
}
