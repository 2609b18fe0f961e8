//! Decanting: the job as the form and the shelf tell it, and what to do, said in the parts of a sheet.

mod walls;
mod ways;

use super::against_air::{air_assumed, read_assumptions};
use super::held::Held;
use super::holding::{air_left_assumed, volume_assumed};
use super::picked::{ELSEWHERE, room_assumed};
use super::usage::{How, USUAL_DRAW, Use};
use super::{Picked, care, text};
use crate::chemistry::{Class, Substance};
use crate::darkroom::Darkroom;
use crate::fields::{self, Form, containers_text};
use crate::keeping::{Advice, Assumptions, Fill, HARDLY, Job, MARGIN, Pace, Plan, decant, even_times, oxygen_within};
use crate::kit::{Climate, Container, Treatment};
use crate::quantity::{Amount, Mass, Units, Volume};
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
    /// How its pace is known.
    how: How,
    /// On how many draws it rests.
    draws: usize,
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
        let held = Held::read(form, picked.bottle);
        let mut at_hand = form.read(&fields::AT_HAND).unwrap_or_default();
        let mut usage = Use::read(form, picked.bottle, None, darkroom);
        let used_up_in = form.read(&fields::USED_UP_IN);
        if used_up_in.is_some() && usage.how != How::Unread {
            usage.how = How::Stated;
        }
        let known = form.read(&fields::CLIMATE).or(picked.noted_climate(darkroom));
        let class = picked.class(form).unwrap_or(Class::Syrup);
        let assumptions = read_assumptions(form, class, None);
        // Without what is at hand the advice would be to leave it.
        if form.at_fault("at_hand") {
            return None;
        }
        let (content, brimful) = held.fits(form)?;
        let container = held.container(brimful.value)?;
        at_hand.iter_mut().for_each(|one| one.thickness = held.typed_thickness);
        if class == Class::StopBath {
            at_hand.clear();
        }
        let treatment = picked.bottle.map_or(Treatment::Plain, |bottle| bottle.now.treatment);
        // Of what develops only the agent counts here, of all else only the sulfite.
        let counted = match class.is_developer() {
            true => Assumptions {
                sulfite: None,
                ..assumptions
            },
            false => Assumptions {
                agent: None,
                ..assumptions
            },
        };
        let mut assumed = usage.assumed(units);
        assumed.extend(air_assumed(&counted, units));
        assumed.extend(room_assumed(known, units));
        assumed.extend(volume_assumed(
            "assumed_brimful",
            "Holds to the brim",
            Some(brimful),
            "brimful",
            units,
        ));
        walls::assumed(&container, &at_hand, units, &mut assumed);
        assumed.extend(air_left_assumed(treatment, None, "bottle", units));
        let pace = match (usage.how, usage.pace) {
            (_, Some(pace)) => pace,
            (How::Unread, None) => return None,
            (_, None) => Pace::unknown().taking(Volume::from_millilitres(USUAL_DRAW.value)),
        };
        // The last of it is drawn at once, however little there is.
        let draw = pace.volume().min(content.max(Volume::from_microlitres(1)));
        Some(Self {
            name: picked.name(class),
            class,
            content,
            container,
            treatment,
            at_hand,
            draw,
            interval: used_up_in.map_or(pace.interval(), |days| days * (draw / content.max(draw))),
            how: usage.how,
            draws: pace.draws(),
            in_time: used_up_in.is_some(),
            climate: known.unwrap_or(ELSEWHERE),
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
    if let Some(impossible) = impossible(&job, decanting.how, units) {
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
    sheet.part("Take care", care(decanting.class, false));
    sheet.background("Nobody measured this", decanting.assumed);
}

/// The containers to fill, as the form of a decanting takes them; an empty text where it is to be left as it is, `None` where
/// nothing can be said.
pub fn advised_containers(form: &mut Form, darkroom: &Darkroom) -> Option<String> {
    let units = form.units();
    let decanting = Decanting::read(form, darkroom)?;
    let job = decanting.job();
    if !form.faults().is_empty() || impossible(&job, decanting.how, units).is_some() {
        return None;
    }
    if decanting.content <= Volume::ZERO {
        return Some(String::new());
    }
    let plan = decant(&job).advised;
    // The form fills each to the brim and the last as far as it goes, whichever is used first.
    let (full, part): (Vec<&Fill>, Vec<&Fill>) = plan.fills.iter().partition(|fill| fill.brimful);
    let filled = full.into_iter().chain(part);
    let filled = filled.filter_map(|fill| decanting.at_hand.get(fill.container?));
    let filled: Vec<Container> = filled.cloned().collect();
    Some(containers_text(&filled, units))
}

/// Why nothing can be said.
fn impossible(job: &Job, how: How, units: Units) -> Option<String> {
    if how == How::Stands {
        return Some("It only stands: say how much is taken at a time, or in what time it is used up.".to_owned());
    }
    let days = job.days();
    (days > CENTURY).then(|| {
        let lasts = units.period(days);
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
    let pace = format!(
        "{} every {}",
        units.volume(decanting.draw),
        units.period(decanting.interval)
    );
    let pace = match decanting.how {
        _ if decanting.in_time => "Used up evenly in the time that you typed.".to_owned(),
        How::FromPast if decanting.draws == 1 => format!("By your one draw of it: {pace} or so."),
        How::FromPast => format!("As your own {} draws of it go: {pace} or so.", decanting.draws),
        How::Assumed => format!("At {pace}, as nobody said otherwise."),
        _ => format!("At {pace}."),
    };
    vec![
        Item::Picture(Picture::Curves {
            caption: format!("Oxygen met until it is used up: {}", ends.join(", ")),
            axes: ["time".to_owned(), "oxygen met".to_owned()],
            curves,
            ends: [
                "today".to_owned(),
                units.period(days),
                "0".to_owned(),
                milligrams(highest, units),
            ],
        }),
        Item::Figure(Figure::period("lasts", "It lasts", days, units).assumed_if(decanting.how != How::Stated)),
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
        given: Vec::new(),
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
        false => units.mass_about(Mass::from_grams(value / 1000.0)),
    }
}
