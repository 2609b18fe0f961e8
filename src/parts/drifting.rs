//! A bath that drifts, as a sheet: how long to develop, how warm it is meanwhile, what a water jacket is worth, and what to do where it
//! leaves the usual range.

mod onward;
mod tank;
mod words;

pub(super) use tank::{half_assumption, tau_assumption};
pub(super) use words::leaves;

use super::thermometer::degrees;
use super::timing::by_temperature;
use super::{Bath, q10_assumption};
use crate::development::drift::{Course, INTO_AIR, Plan, tau_assumed};
use crate::development::{Parameter, USUAL};
use crate::fields::{self, Form};
use crate::kit::Kit;
use crate::quantity::{Day, Span, Temperature, TemperatureDifference, Units, Volume};
use crate::sheet::{Figure, Item, Picture, Sheet, Table};
use crate::uncertainty::{Distribution, Estimate, Input};
use onward::onward;
use tank::{Tau, half_figure, half_minutes, measured};

/// A developing in a bath that drifts, as it was read.
pub struct Drifting<'a> {
    bath: Bath<'a>,
    time: Span,
    time_at: Temperature,
    begins: Temperature,
    room: Temperature,
    total: Volume,
    /// Water around the tank; nothing in air.
    jacket: Volume,
    tau: Tau,
    /// J/mol.
    activation: Parameter,
    /// Its standard uncertainty where it was fitted, J/mol.
    activation_uncertainty: f64,
    /// The factor per 10 degrees that it stands for.
    q10: Parameter,
}

/// Jackets that are compared where there is none, in millilitres.
const JACKETS: [f64; 3] = [2_000.0, 5_000.0, 10_000.0];
/// Points of the drawn curve.
const STEPS: u32 = 24;

impl<'a> Drifting<'a> {
    /// Reads the form. What cannot be is a fault; `None` where too little could be read, or the bath is no developer.
    pub fn read(form: &mut Form, kit: &'a Kit) -> Option<Self> {
        let bath = Bath::read(form, kit);
        let time = form.read(&fields::DEVELOPED);
        let time_at = form.read(&fields::TIME_AT);
        let room = form.read(&fields::COOLER_ROOM).map(|room| kit.corrected(room));
        let total = form.read(&fields::TOTAL);
        let jacket = form.read(&fields::JACKET).unwrap_or(Volume::ZERO);
        let measured = measured(form, kit, room);
        if !bath.class.is_developer() {
            form.fault("class", "only a developer has a developing time");
            return None;
        }
        let law = bath.law(form);
        // What is typed wrongly is not silently replaced.
        if form.at_fault("times") || form.at_fault("dilution") {
            return None;
        }
        let total = total?;
        let q10 = law.as_ref().map_or(bath.assumed_q10(), |law| law.q10());
        Some(Self {
            time: time?,
            time_at: time_at?,
            begins: bath.temperature?,
            room: room?,
            total,
            jacket,
            tau: Tau::of(measured, total + jacket),
            activation: bath.activation(law.as_ref()),
            activation_uncertainty: law.as_ref().map_or(0.0, |law| law.activation_uncertainty()),
            q10,
            bath,
        })
    }

    fn plan(&self, activation: f64) -> Plan {
        Plan {
            time: self.time,
            at: self.time_at,
            activation,
        }
    }

    fn course(&self, seconds: f64) -> Option<Course> {
        Course::drifting(self.begins, self.room, Span::from_seconds(seconds))
    }

    /// The least and the most of something over the ends of both assumptions.
    fn corners(&self, of: &dyn Fn(f64, f64) -> Option<f64>) -> Option<[f64; 2]> {
        let mut found = [f64::INFINITY, f64::NEG_INFINITY];
        for activation in [self.activation.least, self.activation.most] {
            for tau in [self.tau.seconds.least, self.tau.seconds.most] {
                let one = of(activation, tau)?;
                found = [found[0].min(one), found[1].max(one)];
            }
        }
        Some(found)
    }

    /// Standard uncertainty of something that follows from the course: the thermometer in the bath and in the room, the readings of the
    /// tank, and the data sheet's times.
    fn uncertainty(&self, kit: &Kit, of: &dyn Fn(&Plan, &Course) -> f64) -> Option<f64> {
        let tau = self.tau.seconds.value;
        let normal = |name: &str, value: f64, sigma: f64| Input::new(name, value, Distribution::Normal { sigma });
        let inputs = [
            degrees("the bath", self.begins, kit),
            degrees("the room", self.room, kit),
            normal("the tank", tau, self.tau.relative * tau),
            normal("the data sheet", self.activation.value, self.activation_uncertainty),
        ];
        let model = |x: &[f64]| {
            let [begins, room] = [x[0], x[1]].map(Temperature::from_celsius);
            let course = Course::drifting(begins, room, Span::from_seconds(x[2]));
            course.map_or(f64::NAN, |course| of(&self.plan(x[3]), &course))
        };
        Estimate::uncertainty_of(&inputs, model)
    }
}

/// The sheet of a developing in a bath that drifts.
pub fn drifting(sheet: &mut Sheet, drifting: &Drifting, form: &Form, kit: &Kit, today: Day) {
    let units = kit.house.units;
    let [at, room] = [drifting.time_at, drifting.room].map(|at| units.temperature(at));
    sheet.title = format!("{} at {at}, in a room of {room}", units.span(drifting.time));
    let tau = drifting.tau.seconds.value;
    let Some(course) = drifting.course(tau) else {
        return;
    };
    let plan = drifting.plan(drifting.activation.value);
    let (time, steady) = (plan.ends(&course), plan.time_at(drifting.begins));
    sheet.headline = headline(drifting, &course, time, kit);
    let next = words::next(drifting, &course, time, time - steady, units);
    sheet.alert(&next);
    let mut items = next;
    items.extend(begin_at(drifting, units));
    items.push(onward(drifting, time, form, units));
    sheet.part("What to do", items);
    let mut meanwhile = vec![Item::Picture(curve(drifting, time, units))];
    meanwhile.push(Item::Figure(
        Figure::temperature("mean", "Develops as if held at", plan.mean(time), units)
            .assumed_if(drifting.tau.seconds.is_assumed()),
    ));
    let label = format!("Without drift, at {}", units.temperature(drifting.begins));
    let is_assumed = drifting.activation.is_assumed() && drifting.begins != drifting.time_at;
    meanwhile.push(Item::Figure(
        Figure::span("steady", label, steady, units).assumed_if(is_assumed),
    ));
    meanwhile.push(Item::Figure(half(drifting, units)));
    drifting.bath.say_thermometer(&mut meanwhile, kit, today);
    sheet.part("While it develops", meanwhile);
    let mut jackets = vec![jackets(drifting, steady, units)];
    jackets.extend(words::jacket(drifting, units));
    sheet.part("What water around the tank is worth", jackets);
    if drifting.tau.seconds.is_assumed() {
        let readings = words::readings(drifting, units);
        sheet.alert(&readings);
        sheet.background("How fast your tank follows the room", readings);
    }
    sheet.background("How the rate follows the temperature", law(drifting, units));
    sheet.background("Nobody measured this", assumptions(drifting, units));
}

fn headline(drifting: &Drifting, course: &Course, time: Span, kit: &Kit) -> Vec<Figure> {
    let units = kit.house.units;
    let begins = Span::ZERO;
    let cost_of = |plan: &Plan, course: &Course| {
        let steady = plan.time_at(course.temperature(begins));
        (plan.ends(course) - steady).seconds()
    };
    let cost = cost_of(&drifting.plan(drifting.activation.value), course);
    let label = if cost < -0.05 {
        "The drift saves"
    } else {
        "The drift costs"
    };
    let size = Span::from_seconds(cost.abs());
    let costs = Figure {
        value: cost,
        ..Figure::seconds("cost", label, size, units)
    };
    let seconds = |seconds: f64| units.seconds(Span::from_seconds(seconds));
    let kelvins = |kelvins| units.temperature_difference(TemperatureDifference::from_kelvins(kelvins));
    let of = |figure: Figure,
              of: &dyn Fn(&Plan, &Course) -> f64,
              spread: &dyn Fn(f64) -> String,
              end: &dyn Fn(f64) -> String| {
        let figure = match drifting.uncertainty(kit, of) {
            Some(u) => figure.uncertain(u, spread),
            None => figure,
        };
        let at = |activation, tau| Some(of(&drifting.plan(activation), &drifting.course(tau)?));
        let Some(range) = drifting.corners(&at) else {
            return figure;
        };
        // What is saved is shown as what it is, without its sign.
        let [low, high] = if range[1] < 0.0 { [range[1], range[0]] } else { range };
        figure.banded(&end(low), &end(high))
    };
    vec![
        of(
            Figure::span("time", "Develop for", time, units),
            &|plan, course| plan.ends(course).seconds(),
            &seconds,
            &|end| units.span(Span::from_seconds(end)),
        ),
        of(costs, &cost_of, &seconds, &|cost| seconds(cost.abs())),
        of(
            Figure::temperature("ends_at", "It ends at", course.temperature(time), units),
            &|plan, course| course.temperature(plan.ends(course)).celsius(),
            &kelvins,
            &|end| units.temperature(Temperature::from_celsius(end)),
        ),
    ]
}

/// The temperature to begin with so that the planned time holds; nothing where it is the one there is, or no developer works there.
fn begin_at(drifting: &Drifting, units: Units) -> Option<Item> {
    let tau = Span::from_seconds(drifting.tau.seconds.value);
    let at = drifting.plan(drifting.activation.value).begin_at(drifting.room, tau)?;
    let differs = units.temperature(at) != units.temperature(drifting.begins);
    if !differs || at < USUAL[0] || at > USUAL[1] {
        return None;
    }
    let label = format!("Or keep to {}, and begin at", units.span(drifting.time));
    Some(Item::Figure(
        Figure::temperature("begin_at", label, at, units).assumed_if(drifting.tau.seconds.is_assumed()),
    ))
}

/// In which time half of the difference to the room is gone.
fn half(drifting: &Drifting, units: Units) -> Figure {
    let minutes = half_minutes(drifting.tau.seconds);
    let figure = half_figure("half", minutes, units);
    match minutes.is_assumed() {
        true => figure
            .between(&units.about(minutes.least), &units.about(minutes.most))
            .assumed(),
        false => figure.uncertain(minutes.value * drifting.tau.relative, |spread| units.about(spread)),
    }
}

/// The temperature over the developing, over the lowest that it could come to.
fn curve(drifting: &Drifting, time: Span, units: Units) -> Picture {
    let [fast, slow] = drifting.tau.range();
    let celsius = |tau: f64, at: Span| {
        let course = drifting.course(tau);
        course.map_or(f64::NAN, |course| course.temperature(at).celsius())
    };
    let points: Vec<[f64; 4]> = (0..=STEPS)
        .map(|step| {
            let at = time * (f64::from(step) / f64::from(STEPS));
            let ends = [fast, slow].map(|tau| celsius(tau, at));
            let middle = celsius(drifting.tau.seconds.value, at);
            [at.minutes(), ends[0].min(ends[1]), middle, ends[0].max(ends[1])]
        })
        .collect();
    let lowest = points.iter().map(|point| point[1]).fold(f64::INFINITY, f64::min);
    let highest = points.iter().map(|point| point[3]).fold(f64::NEG_INFINITY, f64::max);
    let floor = lowest - ((highest - lowest) / 4.0).max(0.2);
    let end = celsius(drifting.tau.seconds.value, time);
    let [from, to] =
        [drifting.begins.celsius(), end].map(|celsius| units.temperature(Temperature::from_celsius(celsius)));
    Picture::Curve {
        caption: format!(
            "The bath while it develops: from {from} to {to} in {}",
            units.span(time)
        ),
        axes: ["time".to_owned(), "temperature of the bath".to_owned()],
        points: points
            .into_iter()
            .map(|[at, low, middle, high]| [at, low - floor, middle - floor, high - floor])
            .collect(),
        mark: (time.minutes(), end - floor),
        ends: [
            "0:00".to_owned(),
            units.span(time),
            units.temperature(Temperature::from_celsius(floor)),
            units.temperature(Temperature::from_celsius(highest)),
        ],
        given: Vec::new(),
    }
}

/// The same developing with other water around the tank.
fn jackets(drifting: &Drifting, steady: Span, units: Units) -> Item {
    // By its size alone: whatever passes into the air for a kelvin.
    let keeps = |jacket: Volume| tau_assumed(drifting.total + jacket, INTO_AIR.value);
    let volumes = match drifting.jacket > Volume::ZERO {
        true => vec![Volume::ZERO, drifting.jacket, drifting.jacket * 2.0],
        false => [0.0, JACKETS[0], JACKETS[1], JACKETS[2]]
            .map(Volume::from_millilitres)
            .to_vec(),
    };
    let plan = drifting.plan(drifting.activation.value);
    let row = |name: String, time: Span, end: Temperature, is_assumed: bool| {
        let figures = [
            Figure::span("row_time", "Develop for", time, units),
            Figure::seconds("row_cost", "Drift", time - steady, units),
            Figure::temperature("row_ends_at", "Ends at", end, units),
        ];
        (name, figures.map(|figure| figure.assumed_if(is_assumed)).to_vec())
    };
    let mut rows = Vec::new();
    for volume in volumes {
        let tau = drifting.tau.seconds.value * (keeps(volume) / keeps(drifting.jacket));
        let Some(course) = drifting.course(tau) else { continue };
        let time = plan.ends(&course);
        let name = if volume > Volume::ZERO {
            units.volume(volume)
        } else {
            "none".to_owned()
        };
        // What more or less water does nobody measured.
        let is_assumed = drifting.tau.seconds.is_assumed() || volume != drifting.jacket;
        rows.push(row(name, time, course.temperature(time), is_assumed));
    }
    rows.push(row("kept as warm".to_owned(), steady, drifting.begins, false));
    let heads = ["Water around it", "Develop for", "Drift", "Ends at"];
    Item::Table(Table {
        heads: heads.map(str::to_owned).to_vec(),
        rows,
    })
}

fn law(drifting: &Drifting, units: Units) -> Vec<Item> {
    let mut items = Vec::new();
    by_temperature(&mut items, drifting.activation, drifting.q10, units);
    items.push(Item::Text(format!("Temperature: {}.", drifting.activation.origin)));
    items
}

fn assumptions(drifting: &Drifting, units: Units) -> Vec<Item> {
    let half = half_assumption(drifting.tau.seconds, "second", units);
    half.into_iter().chain(q10_assumption(drifting.q10, units)).collect()
}
