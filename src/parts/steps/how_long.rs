//! Where the developing time and the fixing time come from, and what speaks against them.

use super::super::text;
use super::super::timing::speaks_against;
use super::reuse::{Role, film_units};
use super::{Developing, Steps, TIMES_CLEARING, Times};
use crate::darkroom::Darkroom;
use crate::proof::{LONGEST, SOUND_WITHIN, fixing_time, is_longer};
use crate::quantity::{Span, Units};
use crate::session::StepKind;
use crate::sheet::{Figure, Item};

/// How the developing time comes about, or how the user's own compares.
pub(super) fn how_long(steps: &Steps, times: &Times, darkroom: &Darkroom, units: Units) -> Vec<Item> {
    let mut items = Vec::new();
    let Some(at) = steps.first(StepKind::Develop) else {
        return items;
    };
    let line = steps.line(at).time;
    // With what the film before asks for.
    let own = line.and(times.all[at]);
    let warm = steps.warmth();
    if let Some((more, line)) = times.developed_longer.zip(line) {
        items.extend(steps.lengthened(more, "your own time", line, units));
    }
    if let Some(Developing {
        figure, altered, why, ..
    }) = &times.developing
    {
        let why = why.iter().cloned();
        match own {
            None => items.extend(altered.iter().cloned().chain(why)),
            Some(own) => {
                let worked_out = Span::from_seconds(figure.value);
                let label = "By the data sheet's times it would be";
                items.push(Item::Text(compared(
                    own,
                    times.developed_longer.is_some(),
                    worked_out,
                    units,
                )));
                items.push(Item::Figure(Figure {
                    name: "sheet_time".into(),
                    label: label.into(),
                    ..figure.clone()
                }));
                // What speaks against the time that was worked out says nothing of the user's own.
                let against = warm
                    .map(|warm| speaks_against(warm, worked_out, units))
                    .unwrap_or_default();
                items.extend(why.filter(|item| !matches!(item, Item::Caution(text) if against.contains(text))));
            }
        }
    } else if own.is_some() {
        items.push(text(
            "The time is yours. With the data sheet's times typed too, this says how it compares, and the time can follow the temperature.",
        ));
    }
    if let Some((own, warm)) = own.zip(warm) {
        if let Some(room) = steps.room() {
            items.push(Item::Text(format!(
                "Your time is taken as right for a bath that begins at {} and is left to a room of {}.",
                units.temperature(warm),
                units.temperature(room.at)
            )));
            items.extend(room.meanwhile(warm, own, false, units));
        }
        items.extend(speaks_against(warm, own, units).into_iter().map(Item::Caution));
    }
    if !items.is_empty() && steps.line(at).temperature.is_none() {
        let kit = &darkroom.kit;
        steps.bath.say_thermometer(&mut items, kit, darkroom.today());
    }
    items
}

/// The user's own time beside the one that was worked out.
fn compared(own: Span, is_lengthened: bool, worked_out: Span, units: Units) -> String {
    let ratio = own / worked_out;
    let (own, worked_out) = (units.span(own), units.span(worked_out));
    let is_yours = match is_lengthened {
        true => "is yours with what the film before asks for",
        false => "is yours",
    };
    match ratio {
        _ if own == worked_out => format!("{own} {is_yours}, and just what the data sheet's times come to."),
        longer if longer > 1.0 => format!(
            "{own} {is_yours}: {} longer than the {worked_out} that the data sheet's times come to.",
            units.percent(longer - 1.0)
        ),
        shorter => format!(
            "{own} {is_yours}: {} shorter than the {worked_out} that the data sheet's times come to.",
            units.percent(1.0 - shorter)
        ),
    }
}

/// Where the fixing time comes from, and what speaks against it.
pub(super) fn how_long_to_fix(steps: &Steps, times: &Times, units: Units) -> Vec<Item> {
    let mut items = Vec::new();
    let Some((at, time)) = steps.first(StepKind::Fix).and_then(|at| Some((at, times.all[at]?))) else {
        return items;
    };
    let mut say = |text: String| items.push(Item::Text(text));
    let own = steps.line(at).time;
    // Rounded down: film that clears a moment later wants longer.
    let half = units.span(Span::from_seconds((time * (1.0 / TIMES_CLEARING)).seconds().floor()));
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
            "{} longer than the {} of the line, since {} went through it before.",
            units.span(more),
            units.span(own),
            film_units(films.unwrap_or(0.0), units)
        ));
        items.push(Item::Figure(Figure::span(
            "fix_longer",
            "Longer, for the film before",
            more,
            units,
        )));
    } else if steps.fixing_longer.is_some() && own.is_none() {
        say("How long film takes to clear says already what the film before asks for: nothing is added.".to_owned());
    } else if steps.fixing_longer.is_some() && steps.reused(Role::Fixer).is_none_or(|fixer| fixer.bottle.is_none()) {
        say(
            "How much film was fixed in it before is not known: pick the bottle of the bath, and the time follows."
                .to_owned(),
        );
    }
    if let (Some(_), Some(clears_in)) = (own, steps.clears_in) {
        let least = fixing_time(clears_in, TIMES_CLEARING);
        let wants = format!(
            "film that clears in {} wants {}, twice as long.",
            units.span(clears_in),
            units.span(least)
        );
        items.push(match is_longer(least, time) {
            true => Item::Caution(format!("{shown} is too short: {wants}")),
            false => Item::Text(format!("{shown} is enough: {wants}")),
        });
    }
    let mut warn = |text: String| items.push(Item::Caution(text));
    if steps
        .clears_in
        .is_some_and(|clears_in| is_longer(clears_in, SOUND_WITHIN))
    {
        warn(format!(
            "A fresh leader should clear within {}. Hold this fixer against fresh: it may be spent.",
            units.span(SOUND_WITHIN)
        ));
    }
    if is_longer(time, LONGEST) {
        warn(format!(
            "No film should stay in the fixer for longer than {}: it bleaches. Where so much is needed, take fresh fixer.",
            units.span(LONGEST)
        ));
    }
    items
}
