//! The verdict on a bottle, said: its state, three voices that are never mixed, and what to do next.

use super::airing::{bounds, usual};
use super::judging::Judging;
use super::text;
use super::vessel::Vessel;
use crate::chemistry::Class;
use crate::keeping::{Exposure, Life, Lives, Ranged, Reason, Seal, State, Verdict, Voice};
use crate::kit::{Climate, Colour, Light, Treatment, Warmth};
use crate::quantity::{Day, Temperature, Units, Volume};
use crate::sheet::{Figure, Item};

/// Share of the brim from which on a headspace is worth doing something about (common practice, no source).
const MUCH_AIR: f64 = 0.25;

/// The verdict on a bottle in its usual life.
pub fn verdict(vessel: &Vessel, judging: &Judging, life: &Life) -> Verdict {
    judging.grounds.verdict(life, &vessel.assumptions)
}

/// The state and who says so, as a title.
pub fn judged(vessel: &Vessel, verdict: &Verdict) -> String {
    let usual = vessel.assumptions.lives.is_some_and(|lives| lives.full.is_assumed());
    let mut voices: Vec<&str> = Vec::new();
    for reason in verdict.deciding() {
        let voice = match (reason, reason.voice()) {
            (Reason::NoLife, _) => continue,
            (Reason::Heat { .. }, _) => "the heat",
            (_, Voice::Air) => "the air",
            (_, Voice::Sheet) if usual => "the usual life of its class",
            (_, Voice::Sheet) => "the data sheet",
            (_, Voice::Tests) => "your test",
        };
        voices.push(voice);
    }
    let (name, state) = (&vessel.name, verdict.state.name());
    match voices[..] {
        [] => format!("{name}: {state}"),
        [one] => format!("{name}: {state}, says {one}"),
        [ref before @ .., last] => format!("{name}: {state}, say {} and {last}", before.join(", ")),
    }
}

/// The state, and whether it may touch paid work.
pub fn state_figures(verdict: &Verdict) -> Vec<Figure> {
    let paid = if verdict.paid { "yes" } else { "no" };
    vec![
        Figure::word("state", "State", verdict.state as usize, verdict.state.name()),
        Figure::word("paid", "For paid work", usize::from(verdict.paid), paid),
    ]
}

/// Whether a voice says something to be acted on.
pub fn voice_asks(verdict: &Verdict, voice: Voice) -> bool {
    let says = |reason: &&Reason| reason.voice() == voice;
    let acts = |reason: &Reason| reason.asks() || matches!(reason, Reason::Failure { .. });
    verdict.reasons.iter().filter(says).any(acts)
}

/// What to do next.
pub fn next(vessel: &Vessel, judging: &Judging, verdict: &Verdict, units: Units) -> Vec<Item> {
    if vessel.left.is_some_and(|left| left <= Volume::ZERO) {
        return vec![text("Nothing is left in it to use.")];
    }
    let mut items = Vec::new();
    if judging.paid {
        items.push(match verdict.paid {
            true => text("It may be used for paid work."),
            false => Item::Caution(
                "Not for paid work as it stands: that takes a recent test that passed, or a bottle in date of which no voice \
                 speaks up even at its worst. Take fresh, or test it."
                    .to_owned(),
            ),
        });
    }
    let what = match verdict.state {
        State::TestFirst => format!("Test it before film that matters. {}", how_to_test(vessel.class)),
        State::InDate => "Nothing asks for a test: use it.".to_owned(),
        State::Proved => proof(judging, units),
        State::Failed => failed(vessel.class).to_owned(),
        State::Unknown => format!(
            "Type how long its data sheet says that it keeps, or test it. {}",
            how_to_test(vessel.class)
        ),
    };
    items.push(Item::Text(what));
    if let (State::InDate, false, Some(used)) = (verdict.state, verdict.paid, verdict.share) {
        items.push(Item::Text(format!(
            "For paid work test it first: at the worst of what is assumed it has used {} times its life.",
            units.times(used.most)
        )));
    }
    let reserve = vessel.assumptions.agent.or(vessel.assumptions.sulfite);
    let open = vessel.headspace().zip(vessel.brimful);
    let much_air = open.is_some_and(|(above, brimful)| above.value.millilitres() > MUCH_AIR * brimful.value);
    if reserve.is_some() && much_air && vessel.treatment == Treatment::Plain && verdict.state != State::Failed {
        items.push(text("Before it goes back on the shelf, pour it into bottles that it fills, or press the air out, or use it up soon."));
    }
    items
}

/// The first voice: what the air could have done.
pub fn air_voice(verdict: &Verdict, air: &Ranged<Exposure>, judging: &Judging, units: Units) -> Vec<Item> {
    let (agent, sulfite) = (air.map_some(|one| one.agent), air.map_some(|one| one.sulfite));
    let mut items: Vec<Item> = verdict
        .reasons
        .iter()
        .filter(|reason| reason.voice() == Voice::Air)
        .map(|reason| match *reason {
            Reason::Air { asks, .. } => Reason::Air { agent, sulfite, asks },
            other => other,
        })
        .map(|reason| Item::Text(reason.sentence(units)))
        .collect();
    items.extend(bounds(air, units).into_iter().map(Item::Figure));
    items.extend(usual(air, units));
    let limits = [
        (
            agent.is_some(),
            limits_of(judging.grounds.limits.agent.value, "agent", units),
        ),
        (
            sulfite.is_some(),
            limits_of(judging.grounds.limits.sulfite.value, "preservative", units),
        ),
    ];
    let limits: Vec<String> = limits
        .into_iter()
        .filter(|(there, _)| *there)
        .map(|(_, limit)| limit)
        .collect();
    if !limits.is_empty() {
        items.push(Item::Text(format!(
            "It asks for a test from {} on, as usually assumed.",
            limits.join(" or ")
        )));
    }
    items
}

/// The second voice: the data sheet's own clock.
pub fn sheet_voice(vessel: &Vessel, life: &Life, verdict: &Verdict, units: Units) -> Vec<Item> {
    let only_assumed = vessel
        .assumptions
        .lives
        .is_some_and(|lives| rests_on_assumed(&lives, life));
    let mut items = sentences(verdict, Voice::Sheet, only_assumed, units);
    if let Some(used) = verdict.share {
        items.push(Item::Figure(
            Figure::number("life_used", "Times its life", used.value, 2, units)
                .between(&units.times(used.least), &units.times(used.most))
                .assumed(),
        ));
    }
    if let Some(lives) = vessel.assumptions.lives {
        let half = lives.full.value * lives.half_full.value;
        let half_assumed = lives.full.is_assumed() || lives.half_full.is_assumed();
        let kept = [
            (
                "life_unopened",
                "Keeps unopened",
                lives.unopened.value,
                lives.unopened.is_assumed(),
            ),
            (
                "life_full",
                "Keeps opened, full",
                lives.full.value,
                lives.full.is_assumed(),
            ),
            ("life_half", "Keeps half full", half, half_assumed),
        ];
        items.extend(kept.map(|(name, label, days, assumed)| {
            Item::Figure(Figure::period(name, label, days, units).assumed_if(assumed))
        }));
    }
    items
}

/// The third voice: tests of it, and of others of its product.
pub fn tests_voice(judging: &Judging, verdict: &Verdict, today: Day, units: Units) -> Vec<Item> {
    let mut items = sentences(verdict, Voice::Tests, false, units);
    let last = judging
        .grounds
        .tests
        .iter()
        .map(|test| test.day)
        .filter(|day| *day <= today)
        .max();
    items.extend(last.map(|day| Item::Figure(Figure::day("last_test", "Last test", day, today))));
    let trusted = judging.grounds.trusted;
    let figures = [
        (
            "longest_passed",
            "Longest of its product passed at, times its life",
            trusted.longest_passed,
        ),
        (
            "shortest_failed",
            "Earliest of its product failed at, times its life",
            trusted.shortest_failed,
        ),
    ];
    for (name, label, multiple) in figures {
        let figure = multiple.map(|multiple| Figure::number(name, label, multiple, 2, units).assumed());
        items.extend(figure.map(Item::Figure));
    }
    items.push(Item::Figure(
        Figure::number(
            "trusted",
            "Trusted without a test to, times its life",
            trusted.share,
            2,
            units,
        )
        .assumed_if(trusted.share != 1.0),
    ));
    items
}

/// What light and warmth mean for it.
pub fn surroundings(judging: &Judging, climate: Climate, units: Units) -> Vec<Item> {
    let (low, high) = climate.extremes();
    let degrees = |celsius| units.temperature(Temperature::from_celsius(celsius));
    let mut items = Vec::new();
    items.push(match Warmth::of(high) {
        Warmth::Hot => Item::Caution(format!(
            "Up to {} is too warm to keep anything: find it a place of {} to {}.",
            units.temperature(high),
            degrees(10.0),
            degrees(20.0)
        )),
        Warmth::Tolerable => Item::Text(format!(
            "Up to {} is tolerable; {} to {} would be better.",
            units.temperature(high),
            degrees(10.0),
            degrees(20.0)
        )),
        Warmth::Quiet | Warmth::Cold => text("It stands cool enough."),
    });
    if Warmth::of(low) == Warmth::Cold {
        items.push(Item::Caution(format!(
            "Below {} something may crystallise: warm it and shake it clear before it is measured.",
            degrees(4.0)
        )));
    }
    items.push(match (judging.light, judging.colour) {
        (Some(Light::Lit), Some(Colour::Clear)) => {
            Item::Caution("Light comes to it: put it in the dark, or into a brown or opaque bottle.".to_owned())
        }
        (Some(Light::Lit), None) | (None, Some(Colour::Clear)) | (None, None) => {
            text("Whether light comes to it is not known; keep it dark.")
        }
        _ => text("Light does not come to it."),
    });
    items
}

/// `only_assumed` says whether the life that was lived rests on a stated life that nobody stated.
fn sentences(verdict: &Verdict, voice: Voice, only_assumed: bool, units: Units) -> Vec<Item> {
    let reasons = verdict.reasons.iter().filter(|reason| reason.voice() == voice);
    let said = reasons.map(|reason| match *reason {
        Reason::Life {
            share, trusted, asks, ..
        } => Reason::Life {
            share,
            trusted,
            assumed: only_assumed,
            asks,
        },
        other => other,
    });
    said.map(|reason| Item::Text(reason.sentence(units))).collect()
}

/// Whether any of the stated lives that this life has drawn on is only assumed.
fn rests_on_assumed(lives: &Lives, life: &Life) -> bool {
    let lived = |unopened| {
        let mut stretches = life.stretches().iter();
        stretches.any(|stretch| (stretch.seal == Seal::Unopened) == unopened && stretch.days() > 0.0)
    };
    lived(true) && lives.unopened.is_assumed()
        || lived(false) && (lives.full.is_assumed() || lives.half_full.is_assumed())
}

fn limits_of(share: f64, what: &str, units: Units) -> String {
    format!("{} of the {what}", units.percent(share))
}

fn proof(judging: &Judging, units: Units) -> String {
    let last = judging.grounds.tests.iter().map(|test| test.day).max();
    let days = judging.grounds.limits.recent_days.value;
    match last {
        Some(day) => format!(
            "Use it. The test proves it until {} at the most ({}).",
            day + days.round() as i32,
            units.period(days)
        ),
        None => "Use it.".to_owned(),
    }
}

fn failed(class: Class) -> &'static str {
    match class.is_developer() {
        true => {
            "Take fresh for film that matters. A weak developer leaves negatives underdeveloped; more time may help, or none \
             will. A later test that passes overrules this one."
        }
        false => "Take fresh. A later test that passes overrules this one.",
    }
}

/// How a bath of that class is tested.
fn how_to_test(class: Class) -> &'static str {
    match class {
        Class::Fixer => {
            "Clear a fresh leader in it, and another in a fresh bath: at twice the time of the fresh one it is spent."
        }
        Class::StopBath => "Look at its indicator, or hold a pH strip to it: near 5.5 to 6 it is spent.",
        Class::Other => "Try it on film that does not matter.",
        _ => {
            "Develop a piece of fresh film in it as always, half of it struck by light: that half must come out pitch black, \
             the rest clear."
        }
    }
}
