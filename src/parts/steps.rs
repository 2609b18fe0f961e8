//! A developing step by step: how long each step takes, what stands ready for it, what reuse asks for, and what speaks against it.

mod baths;
mod notices;
mod recipe;
mod reuse;

use super::timing::speaks_against;
use super::{Bath, law_assumptions, load, text, timing, without_times};
use crate::darkroom::Darkroom;
use crate::development::RateLaw;
use crate::fields::{self, Form};
use crate::kit::{Kit, Load, Tank};
use crate::proof::{LONGEST, Longer, SOUND_WITHIN, fixing_time, is_longer};
use crate::quantity::{Span, Temperature, Units, Volume};
use crate::session::{Line, STEP, StepKind};
use crate::sheet::{Bar, Figure, Item, Picture, Sheet, Table};
use reuse::{Reused, Role};

/// A developing as far as the form could be read.
pub struct Steps<'a> {
    load: Load,
    tank: Option<&'a Tank>,
    bath: Bath<'a>,
    total: Option<Volume>,
    law: Option<RateLaw>,
    /// The steps that could be read, each with the number of its line.
    lines: Vec<(usize, Line)>,
    /// Baths that are poured back, in the order of their steps.
    reused: Vec<Reused<'a>>,
    longer: Option<Longer>,
    clears_in: Option<Span>,
}

/// How long the steps take, as far as that is known.
struct Times {
    /// Of each line.
    all: Vec<Option<Span>>,
    /// What is worked out for developing, with its explanation; nothing where nothing can be.
    developing: Option<(Figure, Vec<Item>)>,
    /// Shortest and longest developing that assumptions allow; the same where nothing is assumed.
    band: (Span, Span),
    /// What is added to the first fixing for the film that was fixed before.
    fixed_longer: Option<Span>,
}

/// How many times its clearing time film is fixed (NAVEDTRA 14209, chapter 10).
const TIMES_CLEARING: f64 = 2.0;
/// Steps that can still be told apart in a drawing.
const MOST_BARS: usize = 12;

impl<'a> Steps<'a> {
    /// Reads the form. Lines that are no steps, and steps of which nobody says how long they take, are faults of the lines.
    pub fn read(form: &mut Form, darkroom: &'a Darkroom) -> Self {
        let kit = &darkroom.kit;
        let (load, tank) = load(form, kit);
        let bath = Bath::read(form, kit);
        if !bath.class.is_developer() {
            let typed = !form.at_fault("class") && form.read(&fields::CLASS).is_some();
            let field = if typed { "class" } else { "bottle" };
            form.fault(field, "only a developer develops; pick another bottle");
        }
        let total = form.read(&fields::TOTAL);
        let lines = form.read(&fields::RECIPE).unwrap_or_default();
        for fault in &lines.faults {
            form.fault("recipe", &fault.to_string());
        }
        let developer = bath.id.as_deref().and_then(|id| darkroom.shelf.bottle(id));
        let reused = reuse::read(form, developer, darkroom);
        let longer = form.read(&fields::LONGER);
        let clears_in = form.read(&fields::CLEARS_IN);
        bath.dilution_needed(form);
        let law = bath.law(form);
        let steps = Self {
            load,
            tank,
            bath,
            total,
            law,
            lines: lines.lines,
            reused,
            longer,
            clears_in,
        };
        for clause in steps.without_time() {
            form.fault("recipe", &clause);
        }
        steps
    }

    /// The steps of which a line must say how long they take, and does not.
    fn without_time(&self) -> Vec<String> {
        let worked_out = [StepKind::Develop, StepKind::Fix].map(|kind| self.first(kind));
        let asks = |(place, (number, line)): (usize, &(usize, Line))| {
            let asks = line.time.is_none() && !worked_out.contains(&Some(place));
            let name = &line.name;
            asks.then(|| match line.kind {
                StepKind::Develop | StepKind::Fix => format!(
                    "line {number}: how long? Only the first step of its kind is worked out; write {name} 5:00"
                ),
                _ => format!("line {number}: how long? Write {name} 1:00"),
            })
        };
        self.lines.iter().enumerate().filter_map(asks).collect()
    }

    /// Which of the steps is the first of a kind.
    fn first(&self, kind: StepKind) -> Option<usize> {
        self.lines.iter().position(|(_, line)| line.kind == kind)
    }

    fn line(&self, place: usize) -> &Line {
        &self.lines[place].1
    }

    /// How warm the developer is: as its line says, or else as the thermometer does.
    fn warmth(&self) -> Option<Temperature> {
        let said = self.first(StepKind::Develop).and_then(|at| self.line(at).temperature);
        said.or(self.bath.temperature)
    }

    /// The product, or what it is.
    fn product(&self) -> &str {
        self.bath.bottle.map_or("developer", |bottle| bottle.product.as_str())
    }

    fn reused(&self, role: Role) -> Option<&Reused<'a>> {
        self.reused.iter().find(|reused| reused.role == role)
    }

    fn times(&self, kit: &Kit) -> Times {
        let mut all: Vec<Option<Span>> = self.lines.iter().map(|(_, line)| line.time).collect();
        let mut band = (Span::from_seconds(0.0), Span::from_seconds(0.0));
        let conditions = self.warmth().zip(self.bath.strength).zip(self.bath.dilution.as_ref());
        let developing = conditions.zip(self.law.as_ref()).map(|(conditions, law)| {
            let ((temperature, strength), dilution) = conditions;
            band = law.time(temperature, dilution.strength(), strength).band;
            timing(law, temperature, dilution.strength(), strength, &self.bath.times, kit)
        });
        if let (Some(at), Some((figure, _))) = (self.first(StepKind::Develop), &developing) {
            // What no step can take is not a time to work by.
            all[at] = all[at].or(STEP.holds(figure.value).then(|| Span::from_seconds(figure.value)));
        }
        let mut fixed_longer = None;
        if let Some(at) = self.first(StepKind::Fix) {
            let through = self.reused(Role::Fixer).and_then(|fixer| fixer.through);
            match (all[at], self.clears_in) {
                (Some(time), _) => {
                    let share = self.longer.as_ref().zip(through).map(|(longer, films)| longer.share(films));
                    fixed_longer = share.filter(|share| *share > 0.0).map(|share| time * share);
                    all[at] = Some(fixed_longer.map_or(time, |more| time + more));
                }
                (None, Some(clears_in)) => all[at] = Some(fixing_time(clears_in, TIMES_CLEARING)),
                (None, None) => {}
            }
        }
        Times {
            all,
            developing,
            band,
            fixed_longer,
        }
    }
}

/// The sheet of a developing, and its recipe where the form is sound and nothing is missing.
pub fn steps(sheet: &mut Sheet, steps: &Steps, form: &Form, darkroom: &Darkroom) {
    let units = form.units();
    let times = steps.times(&darkroom.kit);
    sheet.title = steps.title();
    sheet.headline = headline(steps, &times, units);
    let needed = still_needed(steps, &times, units);
    let is_whole = needed.is_empty() && !steps.lines.is_empty() && times.all.iter().all(Option::is_some);
    sheet.part("What is still needed", needed);
    let (grave, light) = notices::notices(steps, &times, units);
    sheet.alert(&grave);
    let bottles = baths::bottles(steps, darkroom, units);
    sheet.alert(&bottles);
    let (used, resting_on) = reuse::reuse(steps, units);
    sheet.alert(&used);
    sheet.part("Step by step", table(steps, &times, units));
    sheet.part("Look at this", [grave, light].concat());
    sheet.part("Ready before the film is wet", baths::ready(steps, darkroom, units));
    sheet.part("The bottles", bottles);
    sheet.part("Baths used again", used);
    let fits = baths::fits(steps, units);
    sheet.alert(&fits);
    sheet.part("Does it fit, and is it enough", fits);
    sheet.part("How long to develop", how_long(steps, &times, darkroom, units));
    sheet.part("How long to fix", how_long_to_fix(steps, &times, units));
    let assumed = steps.law.as_ref().map(|law| law_assumptions(law, units));
    let assumed = assumed.into_iter().flatten().chain(resting_on).collect();
    sheet.part("Nobody measured this", assumed);
    sheet.part("Take care", notices::care_of_all(steps));
    if is_whole && form.faults().is_empty() {
        sheet.recipe = Some(recipe::recipe(steps, &times, sheet, form));
    }
}

fn headline(steps: &Steps, times: &Times, units: Units) -> Vec<Figure> {
    let sum: Span = times.all.iter().flatten().copied().sum();
    let label = match times.all.iter().all(Option::is_some) {
        true => "In all",
        false => "In all, without what is still asked",
    };
    let mut length = Figure::span("length", label, sum, units);
    let mut figures = Vec::new();
    if let Some(at) = steps.first(StepKind::Develop) {
        match (steps.line(at).time, &times.developing) {
            (Some(own), _) => figures.push(Figure::span("time", "Develop for", own, units)),
            (None, Some((figure, _))) if times.all[at].is_some() => {
                length = like(length, figure, sum - Span::from_seconds(figure.value), times, units);
                figures.push(figure.clone());
            }
            _ => {}
        }
    }
    figures.insert(0, length);
    if let Some(time) = steps.first(StepKind::Fix).and_then(|at| times.all[at]) {
        figures.push(Figure::span("fix", "Fix for", time, units));
    }
    figures
}

/// As uncertain as the developing in it, whose band is moved up by all other steps.
fn like(length: Figure, developing: &Figure, others: Span, times: &Times, units: Units) -> Figure {
    let length = match developing.standard_uncertainty {
        Some(u) => length.uncertain(u, |spread| units.seconds(Span::from_seconds(spread))),
        None => length,
    };
    let (shortest, longest) = times.band;
    match shortest == longest {
        true => length,
        false => length
            .between(&units.span(others + shortest), &units.span(others + longest))
            .assumed(),
    }
}

fn still_needed(steps: &Steps, times: &Times, units: Units) -> Vec<Item> {
    let mut items = Vec::new();
    if steps.load.is_empty() {
        items.push(text("Say how much film is in the tank."));
    }
    let open = |kind| steps.first(kind).filter(|at| times.all[*at].is_none());
    if let Some(at) = open(StepKind::Develop) {
        let name = &steps.line(at).name;
        match &times.developing {
            Some((figure, _)) => items.push(Item::Caution(format!(
                "By the times of the data sheet it would take {}: no developing. Look at the times, the dilution and the strength.",
                units.span(Span::from_seconds(figure.value))
            ))),
            None if steps.bath.times.is_empty() => {
                items.push(Item::Text(format!(
                    "How long to develop nobody has said yet. If you know it, write it behind the step: {name} 6:45."
                )));
                items.extend(without_times(steps.bath.assumed_q10(), units));
            }
            None => {}
        }
    }
    if let Some(at) = open(StepKind::Fix) {
        items.push(Item::Text(format!(
            "How long to fix? Type how long a fresh leader takes to clear in this fixer, or write the time behind the step: {} 5:00.",
            steps.line(at).name
        )));
    }
    items
}

/// Each step with its time, and where the clock stands when it is done.
fn table(steps: &Steps, times: &Times, units: Units) -> Vec<Item> {
    let mut end = Some(Span::from_seconds(0.0));
    let developing = steps.first(StepKind::Develop);
    let mut rests_on_assumption = false;
    let row = |(place, (_, line)): (usize, &(usize, Line))| {
        let time = times.all[place];
        let worked_out = line.time.is_none() && Some(place) == developing && times.band.0 != times.band.1;
        rests_on_assumption |= worked_out;
        end = end.zip(time).map(|(end, time)| end + time);
        let span = |name: &'static str, label: &'static str, span: Option<Span>| match span {
            Some(span) => Figure::span(name, label, span, units),
            None => Figure::word(name, label, 0, "still asked"),
        };
        let warm = line.temperature.or(steps.bath.temperature.filter(|_| line.kind == StepKind::Develop));
        let warm = match warm {
            Some(warm) => temperature("row_at", "at", warm, units),
            None => Figure::word("row_at", "at", 0, "–"),
        };
        let agitation = line.agitation.map(|agitation| agitation.text(|span| agitated(span, units)));
        let figures = vec![
            span("row_time", "time", time).assumed_if(worked_out),
            warm,
            Figure::word("row_agitate", "agitate", 0, agitation.as_deref().unwrap_or("–")),
            span("row_end", "done at", end).assumed_if(rests_on_assumption && end.is_some()),
        ];
        (line.name.clone(), figures)
    };
    let rows: Vec<_> = steps.lines.iter().enumerate().map(row).collect();
    if rows.is_empty() {
        return Vec::new();
    }
    let mut items = vec![Item::Table(Table {
        heads: ["Step", "time", "at", "agitate", "done at"].map(str::to_owned).to_vec(),
        rows,
    })];
    items.extend(bars(steps, times, units).map(Item::Picture));
    items
}

/// A short time in seconds, a long one as the clock shows it.
fn agitated(span: Span, units: Units) -> String {
    match span.seconds() < 60.0 {
        true => units.seconds(span),
        false => units.span(span),
    }
}

/// A temperature as a figure.
fn temperature(name: &'static str, label: &'static str, warm: Temperature, units: Units) -> Figure {
    Figure {
        unit: "°C",
        shown: units.temperature(warm),
        ..Figure::number(name, label, warm.celsius(), 1, units)
    }
}

/// How long each step takes, of the whole.
fn bars(steps: &Steps, times: &Times, units: Units) -> Option<Picture> {
    let all: Vec<Span> = times.all.iter().copied().collect::<Option<_>>()?;
    let whole: Span = all.iter().copied().sum();
    let bar = |(time, (_, line)): (&Span, &(usize, Line))| Bar {
        label: line.name.clone(),
        share: *time / whole,
        shown: units.span(*time),
    };
    (2..=MOST_BARS).contains(&all.len()).then(|| Picture::Bars {
        caption: format!("How long each step takes, of {} in all", units.span(whole)),
        bars: all.iter().zip(&steps.lines).map(bar).collect(),
    })
}

/// How the developing time comes about, or how the user's own compares.
fn how_long(steps: &Steps, times: &Times, darkroom: &Darkroom, units: Units) -> Vec<Item> {
    let mut items = Vec::new();
    let Some(at) = steps.first(StepKind::Develop) else {
        return items;
    };
    let own = steps.line(at).time;
    let warm = steps.warmth();
    if let Some((figure, why)) = &times.developing {
        let why = why.iter().cloned();
        match own {
            None => items.extend(why),
            Some(own) => {
                let worked_out = Span::from_seconds(figure.value);
                let label = "By the data sheet's times it would be";
                items.push(Item::Text(compared(own, worked_out, units)));
                items.push(Item::Figure(Figure {
                    name: "sheet_time".into(),
                    label: label.into(),
                    ..figure.clone()
                }));
                // What speaks against the time that was worked out says nothing of the user's own.
                let against = warm.map(|warm| speaks_against(warm, worked_out, units)).unwrap_or_default();
                items.extend(why.filter(|item| !matches!(item, Item::Caution(text) if against.contains(text))));
            }
        }
    } else if own.is_some() {
        items.push(text(
            "The time is yours. With the data sheet's times typed too, this says how it compares, and the time can follow the temperature.",
        ));
    }
    if let Some((own, warm)) = own.zip(warm) {
        items.extend(speaks_against(warm, own, units).into_iter().map(Item::Caution));
    }
    if !items.is_empty() && steps.line(at).temperature.is_none() {
        let kit = &darkroom.kit;
        steps.bath.say_thermometer(&mut items, kit, darkroom.today());
    }
    items
}

/// The user's own time beside the one that was worked out.
fn compared(own: Span, worked_out: Span, units: Units) -> String {
    let ratio = own / worked_out;
    let (own, worked_out) = (units.span(own), units.span(worked_out));
    match ratio {
        _ if own == worked_out => format!("{own} is yours, and just what the data sheet's times come to."),
        longer if longer > 1.0 => format!(
            "{own} is yours: {} longer than the {worked_out} that the data sheet's times come to.",
            units.percent(longer - 1.0)
        ),
        shorter => format!(
            "{own} is yours: {} shorter than the {worked_out} that the data sheet's times come to.",
            units.percent(1.0 - shorter)
        ),
    }
}

/// Where the fixing time comes from, and what speaks against it.
fn how_long_to_fix(steps: &Steps, times: &Times, units: Units) -> Vec<Item> {
    let mut items = Vec::new();
    let Some((at, time)) = steps.first(StepKind::Fix).and_then(|at| Some((at, times.all[at]?))) else {
        return items;
    };
    let mut say = |text: String| items.push(Item::Text(text));
    let own = steps.line(at).time;
    let half = units.span(time * (1.0 / TIMES_CLEARING));
    let shown = units.span(time);
    match (own, steps.clears_in) {
        (None, _) => say(format!("Twice the {half} in which a fresh leader clears.")),
        (Some(_), None) => say(format!(
            "{shown} is enough for film that clears within {half}. Try it with a piece of leader, and type how long it takes."
        )),
        (Some(_), Some(_)) => {}
    }
    if let (Some(more), Some(own)) = (times.fixed_longer, own) {
        let films = steps.reused(Role::Fixer).and_then(|fixer| fixer.through);
        say(format!(
            "{} longer than the {} of the line, since {} film units were fixed in it before.",
            units.span(more),
            units.span(own),
            units.number(films.unwrap_or(0.0), 2)
        ));
        items.push(Item::Figure(Figure::span(
            "fix_longer",
            "Longer, for the film before",
            more,
            units,
        )));
    } else if steps.longer.is_some() && own.is_none() {
        say("How long film takes to clear says already what the film before asks for: nothing is added.".to_owned());
    } else if steps.longer.is_some() && steps.reused(Role::Fixer).and_then(|fixer| fixer.through).is_none() {
        say("How much film was fixed in it before is not known: pick the bottle of the bath, and the time follows.".to_owned());
    }
    let mut warn = |text: String| items.push(Item::Caution(text));
    if let (Some(_), Some(clears_in)) = (own, steps.clears_in) {
        let least = fixing_time(clears_in, TIMES_CLEARING);
        match is_longer(least, time) {
            true => warn(format!(
                "{shown} is too short: film that clears in {} wants {}, twice as long.",
                units.span(clears_in),
                units.span(least)
            )),
            false => items.push(Item::Text(format!(
                "{shown} is enough: film that clears in {} wants {}, twice as long.",
                units.span(clears_in),
                units.span(least)
            ))),
        }
    }
    let mut warn = |text: String| items.push(Item::Caution(text));
    if steps.clears_in.is_some_and(|clears_in| is_longer(clears_in, SOUND_WITHIN)) {
        warn(format!(
            "A fresh leader should clear within {}. Hold this fixer against fresh: it may be spent.",
            units.span(SOUND_WITHIN)
        ));
    }
    if is_longer(time, LONGEST) {
        warn(format!(
            "Film that stays in the fixer for longer than {} is bleached. Take fresh fixer.",
            units.span(LONGEST)
        ));
    }
    items
}
