//! What speaks against the steps as they stand, and what to take care of.

use super::super::care;
use super::{Steps, Times};
use crate::chemistry::Class;
use crate::quantity::{Dilution, TemperatureDifference, Units};
use crate::session::StepKind;
use crate::sheet::Item;

/// A bath or water this much warmer or colder than the developer may wrinkle the emulsion (common practice, no source).
const JUMP: TemperatureDifference = TemperatureDifference::from_kelvins(3.0);

/// The kinds of step of which the first belongs behind the second, and why.
const ORDER: [(StepKind, StepKind, &str); 5] = [
    (
        StepKind::Develop,
        StepKind::Fix,
        "Fixed before it is developed, film has no image left to develop.",
    ),
    (
        StepKind::Develop,
        StepKind::Stop,
        "A stop bath before the developer weakens the developer.",
    ),
    (
        StepKind::Stop,
        StepKind::Fix,
        "A stop bath comes between developer and fixer.",
    ),
    (
        StepKind::Fix,
        StepKind::Wash,
        "The wash that counts comes after the fixer.",
    ),
    (
        StepKind::Fix,
        StepKind::WettingAgent,
        "The wetting agent comes last, or it is washed out again.",
    ),
];

/// What spoils film, and what is merely worth a look.
pub(super) fn notices(steps: &Steps, times: &Times, units: Units) -> (Vec<Item>, Vec<Item>) {
    // What a line that cannot be read would have done nobody knows.
    if steps.lines.is_empty() || !steps.all_read {
        return (Vec::new(), Vec::new());
    }
    let (mut grave, mut light): (Vec<String>, Vec<String>) = (Vec::new(), Vec::new());
    let (develop, fix) = (steps.first(StepKind::Develop), steps.first(StepKind::Fix));
    let name = |at: usize| &steps.line(at).name;
    if develop.is_none() {
        grave.push("No step develops. That is right only for film that was developed before.".to_owned());
    }
    if develop.is_some() && fix.is_none() {
        grave.push("No step fixes: light will spoil the film afterwards.".to_owned());
    }
    for (earlier, later, why) in ORDER {
        if let (Some(first), Some(second)) = (steps.first(later), steps.first(earlier))
            && first < second
        {
            let sentence = format!("“{}” stands before “{}”. {why}", name(first), name(second));
            let is_grave = earlier == StepKind::Develop;
            if is_grave { &mut grave } else { &mut light }.push(sentence);
        }
    }
    let count = |kind| steps.lines.iter().filter(|(_, line)| line.kind == kind).count();
    if count(StepKind::Develop) > 1 {
        light.push(
            "More than one step develops. That is right for a developer in two baths; the time is worked out for the first alone, \
             and only its bath is counted."
                .to_owned(),
        );
    }
    if count(StepKind::Fix) > 1 {
        light.push("More than one step fixes: the bottle that is picked is taken for the first.".to_owned());
    }
    if let (Some(develop), Some(fix)) = (develop, fix)
        && develop < fix
    {
        let between = &steps.lines[develop + 1..fix];
        let stops = |kind: StepKind| matches!(kind, StepKind::Stop | StepKind::Rinse | StepKind::Wash);
        if !between.iter().any(|(_, line)| stops(line.kind)) {
            light.push(
                "Nothing stops development: it goes on until the fixer has taken over, and developer is carried into the \
                 fixer. Write stop 0:30 before it; plain water does."
                    .to_owned(),
            );
        }
    }
    if let Some(fix) = fix
        && !steps.lines[fix..].iter().any(|(_, line)| line.kind == StepKind::Wash)
    {
        light.push("No wash after the fixer: what it leaves in the film makes it fade.".to_owned());
    }
    light.extend(jumps(steps, units));
    for (time, (_, line)) in times.all.iter().zip(&steps.lines) {
        if let (Some(time), Some(agitation)) = (time, line.agitation)
            && agitation.first > *time
        {
            light.push(format!(
                "The first agitation of “{}” is longer than the step, {}.",
                line.name,
                units.span(*time)
            ));
        }
    }
    let cautions = |texts: Vec<String>| texts.into_iter().map(Item::Caution).collect();
    (cautions(grave), cautions(light))
}

/// Steps that are much colder or warmer than the developer.
fn jumps(steps: &Steps, units: Units) -> Vec<String> {
    let Some(developer) = steps.warmth() else {
        return Vec::new();
    };
    let far = |(_, line): &(usize, crate::session::Line)| {
        let warm = line.temperature.filter(|_| line.kind != StepKind::Develop)?;
        let off = warm - developer;
        let (size, word) = match off.kelvins() < 0.0 {
            true => (off * -1.0, "colder"),
            false => (off, "warmer"),
        };
        (size > JUMP + TemperatureDifference::from_kelvins(1e-9)).then(|| {
            format!(
                "“{}” at {} is {} {word} than the developer: a jump like that can wrinkle the film. Keep all baths and the water \
                 within {}.",
                line.name,
                units.temperature(warm),
                units.temperature_difference(size),
                units.temperature_difference(JUMP)
            )
        })
    };
    steps.lines.iter().filter_map(far).collect()
}

/// What to take care of with all of the baths, each sentence once.
pub(super) fn care_of_all(steps: &Steps) -> Vec<Item> {
    let has = |kind| steps.first(kind).is_some();
    let developer = has(StepKind::Develop)
        .then_some(steps.bath.class)
        .filter(|class| class.is_developer());
    let classes = [
        developer,
        has(StepKind::Stop).then_some(Class::StopBath),
        has(StepKind::Fix).then_some(Class::Fixer),
    ];
    let is_powder = steps.bath.dilution.as_ref().is_some_and(Dilution::is_weighed);
    let baths = classes.into_iter().flatten();
    let baths: Vec<_> = baths.map(|class| (class, is_powder && class.is_developer())).collect();
    care::care_of_all(&baths)
}
