//! What the timer says: times, cues, and what a press does to the film.

use super::kept::Uncertain;
use crate::development::drift::Onward;
use crate::quantity::{Span, Units};
use crate::session::{Act, Cue, Leg, Now, Rate, Recipe, Step, StepKind};

/// What ends earlier or later than it should by less than this says nothing: pouring takes as long (milliseconds).
const UNSAID: i64 = 5_000;

/// A time that runs down, as a clock shows it: 8:30 for all of its second, and what is over it with a plus.
pub fn clock(milliseconds: i64, units: Units) -> String {
    let seconds = match milliseconds < 0 {
        true => -milliseconds / 1000,
        false => (milliseconds + 999) / 1000,
    };
    let sign = if milliseconds <= -1000 { "+" } else { "" };
    format!("{sign}{}", units.span(Span::from_seconds(seconds as f64)))
}

/// A time as it is said.
fn said(milliseconds: i64, units: Units) -> String {
    units.span(Span::from_seconds((milliseconds.abs() as f64 / 1000.0).round()))
}

/// A name as it begins a sentence.
pub fn title(name: &str) -> String {
    let mut letters = name.chars();
    match letters.next() {
        Some(first) => first.to_uppercase().chain(letters).collect(),
        None => String::new(),
    }
}

/// What is to be done now.
pub fn cue(step: &Step, cue: Cue) -> &'static str {
    let runs = matches!(step.kind, StepKind::Rinse | StepKind::Wash);
    match cue {
        Cue::Agitate => "Agitate",
        Cue::Rest if step.agitation.is_none() && runs => "Water runs, or is changed",
        Cue::Rest => "Let it stand",
        Cue::Ready => "Get ready to pour",
        Cue::Over => "Time is up: pour",
    }
}

/// The same as it stands at this moment.
pub fn now(step: &Step, now: &Now) -> &'static str {
    match now.leg.stands {
        true if step.kind == StepKind::Develop => "Paused; the film develops on",
        true => "Paused",
        false => cue(step, now.cue),
    }
}

/// A step in a line: its name, time, temperature.
pub fn step(step: &Step, units: Units) -> String {
    let mut line = format!("{}, {}", title(&step.name), units.span(step.time));
    if let Some(temperature) = step.temperature {
        line += &format!(", {}", units.temperature(temperature));
    }
    line
}

/// When to agitate.
pub fn agitation(step: &Step, units: Units) -> Option<String> {
    let clauses = step.agitation?.clauses(|span| units.brief(span));
    (!clauses.is_empty()).then(|| format!("agitate {}", clauses.join(", then ")))
}

/// What a press did, and what that means for the film; `leg` is the step that was under way, as it stood.
pub fn after(act: Act, leg: &Leg, recipe: &Recipe, units: Units) -> Option<String> {
    let step = recipe.steps.get(leg.step)?;
    let name = title(&step.name);
    match act {
        Act::Begin(next) if next > leg.step => ended(step, leg, units),
        Act::End => ended(step, leg, units),
        Act::Begin(again) => {
            let again = recipe.steps.get(again)?;
            Some(format!(
                "{} begins anew, with its whole time. What was done before stays in the record.",
                title(&again.name)
            ))
        }
        Act::Pause if step.kind == StepKind::Develop => Some(
            "The time stands, but film in developer goes on developing. Pause only while no developer is in the tank."
                .to_owned(),
        ),
        Act::Pause => Some("The time stands. What is in the tank works on.".to_owned()),
        Act::Resume => None,
        Act::Longer(more) => {
            let word = if more < 0 { "less" } else { "more" };
            Some(format!("{name}: {} {word}.", said(more, units)))
        }
        Act::Read(_) => None,
    }
}

/// What a temperature does to the step: `before` and `after` are its time before and after it was read, in milliseconds. `rate` is
/// the law by which that was worked out, where it was.
pub fn corrected(step: &Step, rate: Option<Rate>, before: i64, after: i64, units: Units) -> String {
    let name = title(&step.name);
    let change = after - before;
    let mut text = match change.abs() < 500 {
        true => format!("{name} stays at {}.", said(after, units)),
        false => format!(
            "{name} takes {} {}: {} in all.",
            said(change, units),
            if change < 0 { "less" } else { "more" },
            said(after, units)
        ),
    };
    let Some(rate) = rate else { return text };
    if let Onward::Towards { room, .. } = rate.onward {
        text += &format!(
            " From here on it is taken to go towards the {} of the room.",
            units.temperature(room)
        );
    }
    if rate.is_assumed == Some(true) {
        text += " How fast developing follows the temperature is assumed.";
    }
    text
}

fn ended(step: &Step, leg: &Leg, units: Units) -> Option<String> {
    let over = leg.spent - leg.due;
    let name = title(&step.name);
    if over.abs() < UNSAID {
        return None;
    }
    let by = said(over, units);
    Some(match (over < 0, step.kind) {
        (true, StepKind::Develop) => {
            format!("{name} ended {by} early: the negative gets thinner and flatter. If that was a slip, take it back.")
        }
        (true, StepKind::Stop) => format!("{name} ended {by} early: development may run on for a moment."),
        (true, StepKind::Fix) => {
            format!("{name} ended {by} early: film that is not fixed through darkens in time. Go back and fix on.")
        }
        (true, StepKind::Wash | StepKind::WashAid | StepKind::Rinse) => {
            format!("{name} ended {by} early: fixer that stays in film fades it in years. A drop test tells.")
        }
        (true, _) => format!("{name} ended {by} early."),
        (false, StepKind::Develop) => format!("{name} took {by} longer: the negative gets denser, with more contrast."),
        (false, _) => format!("{name} took {by} longer."),
    })
}

/// What is not certain about the time, in a sentence.
pub fn uncertain(doubt: &Uncertain, units: Units) -> String {
    match *doubt {
        Uncertain::Counted { time, .. } => format!(
            "{} passed at one stroke: this device slept, or its clock was put forward. They are counted.",
            said(time, units)
        ),
        Uncertain::TakenOff(time) => format!(
            "The clock was put forward by {}: they are not counted.",
            said(time, units)
        ),
        Uncertain::PutBack(time) => format!(
            "The clock of this device was put back by {}. That changed nothing.",
            said(time, units)
        ),
        Uncertain::Lost(time) => format!(
            "The clock of this device was put back by {} or more while the page was away: how long it was away is not known, and is \
             not counted. Go by a watch.",
            said(time, units)
        ),
        Uncertain::NotKept => {
            "The browser does not keep this run: do not leave or reload the page before it is written down.".to_owned()
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_clock_shows_each_second_as_long_as_it_lasts() {
        let shown = [
            510_000, 509_999, 509_001, 509_000, 1, 0, -1, -999, -1_000, -61_000, 3_600_000,
        ];
        let expected = [
            "8:30", "8:30", "8:30", "8:29", "0:01", "0:00", "0:00", "0:00", "+0:01", "+1:01", "1:00:00",
        ];
        assert_eq!(shown.map(|left| clock(left, Units::default())), expected);
    }
}
