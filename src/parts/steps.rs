//! A developing step by step: how long each step takes, what stands ready for it, what reuse asks for, and what speaks against it.

mod baths;
mod developing;
mod how_long;
mod notices;
mod recipe;
mod reuse;

use super::{Bath, law_assumptions, load, text, without_times};
use crate::darkroom::Darkroom;
use crate::development::RateLaw;
use crate::fields::{self, Form};
use crate::kit::{Kit, Load, Tank};
use crate::proof::{Longer, fixing_time};
use crate::quantity::{Dilution, Span, Temperature, Units, Volume};
use crate::session::{Line, STEP, StepKind};
use crate::sheet::{Bar, Figure, Item, Picture, Sheet, Table};
use developing::{Developing, Room, Unreadable};
use notices::{care_of_all, notices};
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
    /// Whether these are all of them.
    all_read: bool,
    /// Baths that are poured back, in the order of their steps.
    reused: Vec<Reused<'a>>,
    developing_longer: Option<Longer>,
    fixing_longer: Option<Longer>,
    clears_in: Option<Span>,
    /// The room, where the developer is left to it.
    room: Result<Option<Room>, Unreadable>,
}

/// How long the steps take, as far as that is known.
struct Times {
    /// Of each line.
    all: Vec<Option<Span>>,
    /// What is worked out for developing; nothing where nothing can be.
    developing: Option<Developing>,
    /// What is added to the first developing of the user's own, and to the first fixing, for the film before.
    developed_longer: Option<Span>,
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
        let mut bath = Bath::read(form, kit);
        if !bath.class.is_developer() {
            let typed = !form.at_fault("class") && form.read(&fields::CLASS).is_some();
            let field = if typed { "class" } else { "bottle" };
            form.fault(field, "only a developer develops; pick another bottle");
        }
        let total = form.read(&fields::TOTAL);
        let mut lines = form.read(&fields::RECIPE).unwrap_or_default();
        for fault in &lines.faults {
            form.fault("recipe", &fault.to_string());
        }
        let own = form.read(&fields::DEVELOP_FOR);
        let develops = lines.lines.iter_mut().find(|(_, line)| line.kind == StepKind::Develop);
        match develops {
            Some((_, line)) if own.is_some() && line.time.is_some() => {
                form.fault(
                    "develop_for",
                    "the developing step says how long already; leave one of the two out",
                );
            }
            Some((_, line)) => line.time = line.time.or(own),
            None if own.is_some() && lines.faults.is_empty() => form.fault("develop_for", "no step develops"),
            None => {}
        }
        let developer = bath.id.as_deref().and_then(|id| darkroom.shelf.bottle(id));
        let reused = reuse::read(form, developer, darkroom);
        if let Some(bottle) = bath
            .bottle
            .filter(|_| reused.iter().any(|reused| reused.role == Role::Developer))
        {
            // It goes into the tank as it is.
            form.pass_over(&["dilution"]);
            bath.dilution = Some(bottle.dilutions.first().cloned().unwrap_or(Dilution::Stock));
        }
        let developing_longer = form.read(&fields::DEVELOP_LONGER);
        let fixing_longer = form.read(&fields::LONGER);
        let room = Room::read(form, kit, total);
        let clears_in = form.read(&fields::CLEARS_IN);
        bath.dilution_needed(form);
        let law = bath.law(form);
        let steps = Self {
            load,
            tank,
            bath,
            total,
            law,
            all_read: lines.faults.is_empty(),
            lines: lines.lines,
            reused,
            developing_longer,
            fixing_longer,
            clears_in,
            room,
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
                StepKind::Develop | StepKind::Fix => {
                    format!("line {number}: how long? Only the first step of its kind is worked out; write {name} 5:00")
                }
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

    /// How warm the bath of a step is, where its line says it, or the thermometer.
    fn warmth_of(&self, line: &Line) -> Option<Temperature> {
        let developer = self.bath.temperature.filter(|_| line.kind == StepKind::Develop);
        line.temperature.or(developer)
    }

    /// The product, or what it is.
    fn product(&self) -> &str {
        self.bath.bottle.map_or("developer", |bottle| bottle.product.as_str())
    }

    fn reused(&self, role: Role) -> Option<&Reused<'a>> {
        self.reused.iter().find(|reused| reused.role == role)
    }

    /// Which step it is of which the time is worked out from the law, and that time.
    fn worked_out<'t>(&self, times: &'t Times) -> Option<(usize, &'t Developing)> {
        let at = self.first(StepKind::Develop)?;
        let developing = times.developing.as_ref()?;
        let is_so = self.line(at).time.is_none() && times.all[at].is_some();
        is_so.then_some((at, developing))
    }

    /// Whether there is a step for it.
    fn uses(&self, role: Role) -> bool {
        self.first(role.kind()).is_some()
    }

    /// The baths that are poured back, as far as there is a step for them.
    fn in_use(&self) -> impl Iterator<Item = &Reused<'a>> {
        self.reused.iter().filter(|reused| self.uses(reused.role))
    }

    /// The room, where the developer is left to one that is known.
    fn room(&self) -> Option<&Room> {
        self.room.as_ref().ok()?.as_ref()
    }

    fn times(&self, kit: &Kit) -> Times {
        let mut all: Vec<Option<Span>> = self.lines.iter().map(|(_, line)| line.time).collect();
        let developing = self.developing(kit);
        let mut developed_longer = None;
        if let Some(at) = self.first(StepKind::Develop) {
            let worked_out = developing.as_ref().map(|developing| developing.figure.value);
            // What no step can take is not a time to work by.
            let worked_out = worked_out
                .filter(|seconds| STEP.holds(*seconds))
                .map(Span::from_seconds);
            developed_longer = all[at].zip(self.developing_share()).map(|(own, share)| own * share);
            let own = all[at].map(|own| own + developed_longer.unwrap_or(Span::ZERO));
            all[at] = own.or(worked_out);
        }
        let mut fixed_longer = None;
        if let Some(at) = self.first(StepKind::Fix) {
            let through = self.reused(Role::Fixer).and_then(|fixer| fixer.through);
            match (all[at], self.clears_in) {
                (Some(time), _) => {
                    let share = self
                        .fixing_longer
                        .as_ref()
                        .zip(through)
                        .map(|(longer, films)| longer.share(films));
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
            developed_longer,
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
    let (mut spoken, light) = notices(steps, &times, units);
    sheet.alert(&spoken);
    spoken.extend(light);
    let bottles = baths::bottles(steps, darkroom, units);
    sheet.alert(&bottles);
    let (used, resting_on) = reuse::reuse(steps, units);
    sheet.alert(&used);
    sheet.part("Step by step", table(steps, &times, units));
    sheet.part("Look at this", spoken);
    sheet.part("Ready before the film is wet", baths::ready(steps, darkroom, units));
    sheet.part("The bottles", bottles);
    sheet.part("Baths used again", used);
    let fits = baths::fits(steps, units);
    sheet.alert(&fits);
    sheet.part("Does it fit, and is it enough", fits);
    sheet.part(
        "How long to develop",
        how_long::how_long(steps, &times, darkroom, units),
    );
    sheet.part("How long to fix", how_long::how_long_to_fix(steps, &times, units));
    let assumed = steps.law.as_ref().map(|law| law_assumptions(law, units));
    let room = steps.room().and_then(|room| room.assumption(units));
    let assumed = assumed.into_iter().flatten().chain(room).chain(resting_on).collect();
    sheet.part("Nobody measured this", assumed);
    sheet.part("Take care", care_of_all(steps));
    if is_whole && form.faults().is_empty() {
        sheet.recipe = Some(Box::new(recipe::recipe(steps, &times, sheet, form)));
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
    match steps.worked_out(times) {
        Some((_, developing)) => {
            length = like(length, developing, sum, units);
            figures.push(developing.figure.clone());
        }
        None => {
            let own = steps.first(StepKind::Develop).and_then(|at| times.all[at]);
            figures.extend(own.map(|own| Figure::span("time", "Develop for", own, units)));
        }
    }
    figures.insert(0, length);
    if let Some(time) = steps.first(StepKind::Fix).and_then(|at| times.all[at]) {
        figures.push(Figure::span("fix", "Fix for", time, units));
    }
    figures
}

/// So long in all, as uncertain as the developing in it, whose band is moved up by all other steps.
fn like(length: Figure, developing: &Developing, all: Span, units: Units) -> Figure {
    let others = all - Span::from_seconds(developing.figure.value);
    let length = match developing.figure.standard_uncertainty {
        Some(u) => length.uncertain(u, |spread| units.seconds(Span::from_seconds(spread))),
        None => length,
    };
    let (shortest, longest) = developing.band;
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
            Some(developing) => items.push(Item::Caution(format!(
                "By the times of the data sheet it would take {}: no developing. Look at the times, the dilution and the strength.",
                units.span(Span::from_seconds(developing.figure.value))
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
    let mut end = Some(Span::ZERO);
    let worked_out = steps.worked_out(times);
    let row = |(place, (_, line)): (usize, &(usize, Line))| {
        let time = times.all[place];
        end = end.zip(time).map(|(end, time)| end + time);
        let span = |name: &'static str, label: &'static str, span: Option<Span>, open: &str| match span {
            Some(span) => Figure::span(name, label, span, units),
            None => Figure::word(name, label, 0, open),
        };
        let warm = match steps.warmth_of(line) {
            Some(warm) => Figure::temperature("row_at", "at", warm, units),
            None => Figure::word("row_at", "at", 0, "–"),
        };
        let agitation = line
            .agitation
            .map(|agitation| agitation.clauses(|span| units.brief(span)).join(", "));
        let row_time = match worked_out {
            Some((at, developing)) if at == place => Figure {
                name: "row_time".into(),
                label: "time".into(),
                ..developing.figure.clone()
            },
            _ => span("row_time", "time", time, "still asked"),
        };
        let after = worked_out.is_some_and(|(at, developing)| at <= place && developing.figure.band.is_some());
        let row_end = span("row_end", "done at", end, "not known yet").assumed_if(after && end.is_some());
        let figures = vec![
            row_time,
            warm,
            Figure::word("row_agitate", "agitate", 0, agitation.as_deref().unwrap_or("–")),
            row_end,
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
