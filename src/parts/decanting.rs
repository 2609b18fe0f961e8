//! Decanting: the job as the form and the shelf tell it, and what to do, said in the parts of a sheet.

mod assumed;
mod ways;

use super::{Picked, care, period};
use crate::chemistry::{Class, Substance};
use crate::darkroom::Darkroom;
use crate::fields::{self, Form};
use crate::keeping::{Advice, Assumptions, HARDLY, Job, MARGIN, Plan, decant, even_times, oxygen_within};
use crate::kit::{Climate, Colour, Container, Treatment};
use crate::quantity::{Amount, Units, Volume, read};
use crate::sheet::{Figure, Item, NamedCurve, Picture, Sheet};

/// What is to be decanted, as it was read.
pub struct Decanting {
    /// What it is called.
    name: String,
    class: Class,
    content: Volume,
    container: Container,
    treatment: Treatment,
    at_hand: Vec<Container>,
    draw: Volume,
    interval: f64,
    /// On how many draws of the shelf the pace rests; `None` where it was typed.
    draws: Option<usize>,
    /// Whether it is to be used up in a time that was typed.
    in_time: bool,
    climate: Climate,
    assumptions: Assumptions,
    /// What was assumed on the way.
    assumed: Vec<Item>,
}

/// In days: longer than this nobody plans.
const CENTURY: f64 = 36_524.25;

impl Decanting {
    /// What the shelf knows of the picked bottle, and for the rest what the form says; `None` where that does not suffice.
    pub fn read(form: &mut Form, darkroom: &Darkroom) -> Option<Self> {
        let units = form.units();
        let picked = Picked::read(form, darkroom);
        let left = form.read(&fields::shelf::LEFT);
        let holds = form.read(&fields::shelf::HOLDS);
        let material = form.read(&fields::shelf::MATERIAL);
        let mut at_hand = form.read(&fields::shelf::AT_HAND).unwrap_or_default();
        let draw = form.read(&fields::shelf::DRAW);
        let interval = form.read(&fields::shelf::INTERVAL);
        let used_up_in = form.read(&fields::shelf::USED_UP_IN);
        let (climate, assumed_place) = picked.climate(form, darkroom);
        let class = picked.class(form);
        let mut assumed = Vec::new();
        let assumptions = assumed::assumptions(form, class, &mut assumed);
        let wall = form.read(&fields::shelf::WALL);
        assumed.extend(assumed_place);

        let noted = picked.bottle.map(|bottle| &bottle.is.container);
        let content = picked.bottle.and_then(|bottle| bottle.left());
        let content = content.or(left)?;
        let brimful = match noted.map(|note| (note.brimful, note.nominal)) {
            Some((Some(brimful), _)) => brimful,
            Some((None, Some(nominal))) => assumed::brimful(nominal, units, &mut assumed),
            _ => holds?,
        };
        let container = Container {
            name: String::new(),
            brimful,
            nominal: None,
            material: noted.and_then(|note| note.material).or(material)?,
            wall_area: noted.and_then(|note| note.wall_area),
            thickness: noted.and_then(|note| note.thickness).or(wall),
            colour: Colour::Opaque,
        };
        at_hand.iter_mut().for_each(|one| one.thickness = wall);
        if class == Class::StopBath {
            at_hand.clear();
        }
        assumed::walls(&container, &at_hand, units, &mut assumed);
        let treatment = picked.bottle.map_or(Treatment::Plain, |bottle| bottle.now.treatment);
        assumed::air_left(treatment, units, &mut assumed);
        let pace = picked.pace(darkroom);
        let (draw, interval) = match &pace {
            Some(pace) => (pace.volume(), pace.interval()),
            None => (draw?, interval?),
        };
        // The last of it is drawn at once, however little there is.
        let draw = draw.min(content.max(Volume::from_microlitres(1)));
        Some(Self {
            name: picked.name(class),
            class,
            content,
            container,
            treatment,
            at_hand,
            draw,
            interval: used_up_in.map_or(interval, |days| days * (draw / content.max(draw))),
            in_time: used_up_in.is_some(),
            draws: pace.filter(|_| used_up_in.is_none()).map(|pace| pace.draws()),
            climate,
            assumptions,
            assumed,
        })
    }

    fn job(&self) -> Job<'_> {
        Job {
            content: self.content,
            container: &self.container,
            treatment: self.treatment,
            at_hand: &self.at_hand,
            draw: self.draw,
            interval: self.interval,
            climate: self.climate,
            assumptions: &self.assumptions,
        }
    }
}

/// Which containers to fill and what that gains.
pub fn decanting(sheet: &mut Sheet, decanting: Decanting, units: Units) {
    let content = decanting.content;
    sheet.title = format!("{}: {} left", decanting.name, units.volume(content));
    if content <= Volume::ZERO {
        sheet.part(
            "What to do",
            vec![text("Nothing is left, so there is nothing to decant.")],
        );
        return;
    }
    let job = decanting.job();
    if let Some(impossible) = impossible(&job, units) {
        let items = vec![Item::Caution(impossible)];
        sheet.alert(&items);
        sheet.part("What to do", items);
        return;
    }
    let advice = decant(&job);
    let poured = advice.advised.poured();
    sheet.headline.push(Figure::number(
        "containers",
        "Containers to fill",
        poured as f64,
        0,
        units,
    ));
    let less = 1.0 - advice.advised.oxygen.millimoles() / advice.leave.oxygen.millimoles();
    if poured > 0 {
        let figure = Figure::percent("less_oxygen", "Less oxygen, by", less, units);
        sheet.headline.push(figure.assumed());
    }
    let mut what = ways::ways(&job, &advice, decanting.class, units);
    what.extend(reasons(&decanting, &advice, units).into_iter().map(Item::Text));
    sheet.part("What to do", what);
    sheet.part("Until it is used up", over_time(&decanting, &advice, units));
    sheet.part("Take care", care(decanting.class, None));
    sheet.part("Nobody measured this", decanting.assumed);
}

/// Why nothing can be said.
fn impossible(job: &Job, units: Units) -> Option<String> {
    let holds = job.container.brimful;
    if job.content > holds {
        return Some(format!(
            "{} do not go into a bottle that holds {} to the brim: one of the two is wrong.",
            units.volume(job.content),
            units.volume(holds)
        ));
    }
    let days = job.days();
    (days > CENTURY).then(|| {
        let lasts = read::show_period(days, units);
        format!("At this pace it lasts {lasts}, which nobody plans: say more at a time, or more often.")
    })
}

/// Why this and not another plan.
fn reasons(decanting: &Decanting, advice: &Advice, units: Units) -> Vec<String> {
    let mut texts = Vec::new();
    match decanting.class {
        Class::StopBath => texts.push("Air does a stop bath no harm that is known: leave it where it is.".to_owned()),
        Class::Other => texts.push(
            "Nothing is known of what air costs such a bath; this only counts the oxygen that comes to it.".to_owned(),
        ),
        _ => {}
    }
    if decanting.at_hand.is_empty() && decanting.class != Class::StopBath {
        texts.push("Write which containers are at hand to see what they would gain.".to_owned());
    }
    texts.extend(ways::gain(&decanting.job(), advice, decanting.class, units));
    if advice.advised.poured() < advice.least.poured() {
        texts.push(format!(
            "More containers would gain hardly anything: less than {} of what leaving it meets, or than what could cost {} of \
             what it holds against the air. Fewer to label and to wash is better.",
            units.percent(MARGIN),
            units.percent(HARDLY)
        ));
    }
    if !advice.exhaustive {
        texts.push("There are more ways than could be tried; another may be a little better.".to_owned());
    }
    if !decanting.at_hand.is_empty() {
        texts.push(
            "Sizes are taken to the brim, not as sold: fill one with water to know. Fill when the liquid is as warm as it \
             will get: a bottle that is full to the brim and warms up leaks or cracks."
                .to_owned(),
        );
    }
    texts
}

/// Both courses as curves, and how long it lasts.
fn over_time(decanting: &Decanting, advice: &Advice, units: Units) -> Vec<Item> {
    let job = decanting.job();
    let days = job.days();
    let times: Vec<f64> = even_times(days).collect();
    let other = match advice.advised.poured() {
        0 => &advice.least,
        _ => &advice.advised,
    };
    let both = [(&advice.leave, "left as it is"), (other, "decanted")];
    let plans = &both[..if other.poured() > 0 { 2 } else { 1 }];
    let curves: Vec<NamedCurve> = plans
        .iter()
        .map(|(plan, label)| curve(&job, plan, label, &times))
        .collect();
    let highest = curves.iter().flat_map(|curve| &curve.points).map(|point| point[3]);
    let highest = highest.fold(0.0, f64::max);
    let ends: Vec<String> = plans
        .iter()
        .map(|(plan, label)| format!("{label} {}", show_oxygen(plan.oxygen, units)))
        .collect();
    let pace = match decanting.draws {
        Some(draws) => format!(
            "As your own {draws} draws of it go: {} every {} or so.",
            units.volume(decanting.draw),
            read::show_period(decanting.interval, units)
        ),
        None if decanting.in_time => "Used up evenly in the time that you typed.".to_owned(),
        None => format!(
            "At {} every {}.",
            units.volume(decanting.draw),
            read::show_period(decanting.interval, units)
        ),
    };
    vec![
        Item::Picture(Picture::Curves {
            caption: format!("Oxygen met until it is used up: {}", ends.join(", ")),
            axes: ["time".to_owned(), "oxygen met".to_owned()],
            curves,
            ends: [
                "today".to_owned(),
                read::show_period(days, units),
                "0".to_owned(),
                milligrams(highest, units),
            ],
        }),
        Item::Figure(period("lasts", "It lasts", days, units).assumed_if(decanting.draws.is_some())),
        text(&pace),
    ]
}

/// In milligrams of oxygen over days.
fn curve(job: &Job, plan: &Plan, label: &str, times: &[f64]) -> NamedCurve {
    let met = oxygen_within(job, plan, times);
    let points = times.iter().zip(met).map(|(&days, met)| {
        let [least, value, most] = [met.least, met.value, met.most].map(milligrams_of);
        [days, least, value, most]
    });
    NamedCurve {
        label: label.to_owned(),
        points: points.collect(),
    }
}

fn milligrams_of(oxygen: Amount) -> f64 {
    Substance::OXYGEN.mass(oxygen).grams() * 1000.0
}

fn show_oxygen(oxygen: Amount, units: Units) -> String {
    milligrams(milligrams_of(oxygen), units)
}

fn milligrams(value: f64, units: Units) -> String {
    match value < 1000.0 {
        true => format!("{} mg", units.about(value)),
        false => format!("{} g", units.about(value / 1000.0)),
    }
}

fn text(text: &str) -> Item {
    Item::Text(text.to_owned())
}
