//! What the timer writes into the page. What changes with every second has an id, and is written by itself.

use maud::{Markup, html};

use super::deeds::Deed;
use super::kept::{Kept, Uncertain};
use super::words;
use crate::quantity::{Span, Units};
use crate::session::{Leg, Made, Now, Recipe};

/// Milliseconds that a press adds to a step or takes from it.
pub const MORE: i64 = 30_000;

/// Nothing is under way.
pub fn nothing() -> Markup {
    html! {
        p { "Nothing is under way. The steps, their times and their baths are set in "
            a href="#steps" { "Steps" }
            "; its last button brings them here." }
    }
}

/// Before the first step: what stands ready.
pub fn before(recipe: &Recipe, units: Units) -> Markup {
    let first = recipe.steps.first().map(|step| step.name.as_str()).unwrap_or_default();
    html! {
        p.run-what { (recipe.title) }
        h3 { "Before the film is wet" }
        ul {
            @for bath in &recipe.baths { li { (words::title(&bath.words)) (made(&bath.made, units)) } }
            @for step in &recipe.steps {
                @if recipe.bath(step.kind).is_none() { li { (words::step(step, units)) } }
            }
            li { "All of it at its temperature, in reach, and in the order of use. The lid is on." }
        }
        (all_steps(recipe, &[], units))
        p { "A press begins each step: press as the first drop goes in, and again for the next. The times are then those that really \
            were. Leave the page if you must: the time goes on. It makes a sound before each step ends, if this device lets it." }
        p.run-keys {
            button.main type="button" data-act="begin" { "Begin: " (first) }
            button type="button" data-act="leave" { "Not today" }
        }
    }
}

fn made(made: &Made, units: Units) -> String {
    match made {
        Made::Mixed { concentrate, water, .. } => {
            format!(": {} and {} of water", units.volume(*concentrate), units.volume(*water))
        }
        Made::Reused => ", as it stands in its bottle".to_owned(),
    }
}

/// A step under way. `said` is what the last press did.
pub fn running(kept: &Kept, now: &Now, legs: &[Leg], said: &str, units: Units) -> Markup {
    let recipe = &kept.run.recipe;
    let Some(step) = recipe.steps.get(now.leg.step) else {
        return nothing();
    };
    let next = recipe.steps.get(now.leg.step + 1);
    let corrects = recipe.rate_of(step).is_some();
    html! {
        p.run-what {
            "Step " (now.leg.step + 1) " of " (recipe.steps.len()) ": "
            strong { (words::title(&step.name)) }
            @if let Some(temperature) = step.temperature { ", " (units.temperature(temperature)) }
        }
        p.run-left id="run-left" role="timer" aria-live="off" {}
        p.run-cue { strong id="run-cue" {} " " span id="run-cue-left" aria-hidden="true" {} }
        p.run-then id="run-then" {}
        progress id="run-done" max=(now.leg.due.max(1)) value="0" aria-label={ "How far " (step.name) " is" } {}
        p {
            @match next {
                Some(next) => { "Next: " (words::step(next, units)) "." }
                None => { "This is the last step." }
            }
        }
        p.run-keys {
            @match next {
                Some(next) => { button.main type="button" data-act="next" { "Next: " (next.name) } }
                None => { button.main type="button" data-act="end" { "All is done" } }
            }
            @if now.leg.stands {
                button type="button" data-act="resume" { "Go on" }
            } @else {
                button type="button" data-act="pause" { "Pause" }
            }
            button type="button" data-act="longer" { (units.seconds(Span::from_milliseconds(MORE))) " more" }
            button type="button" data-act="shorter" { (units.seconds(Span::from_milliseconds(MORE))) " less" }
            @if now.leg.step > 0 {
                button type="button" data-act="back" { "Back to " (recipe.steps[now.leg.step - 1].name) }
            }
            button type="button" data-act="undo" { "Take back" }
            @if next.is_some() { button type="button" data-act="end" { "End here" } }
        }
        p.run-said id="run-said" role="status" { (said) }
        @if corrects {
            form.run-reading id="reading" novalidate {
                div.field {
                    label for="reading-temperature" { "The developer has now" }
                    input id="reading-temperature" name="temperature" inputmode="decimal" autocomplete="off" aria-describedby="reading-temperature-takes";
                    small id="reading-temperature-takes" { "a thermometer in the tank: the time that is left follows it" }
                }
                button type="submit" { "Correct the time" }
            }
        }
        (doubts(kept, units))
        (all_steps(recipe, legs, units))
    }
}

fn doubts(kept: &Kept, units: Units) -> Markup {
    html! {
        @if !kept.doubts.is_empty() {
            ul.cautions {
                @for (index, doubt) in kept.doubts.iter().enumerate() {
                    li {
                        (words::uncertain(doubt, units))
                        @if let Uncertain::Counted { .. } = doubt {
                            " " button type="button" data-act="take-off" data-doubt=(index) { "It was the clock: take them off" }
                        }
                    }
                }
            }
        }
    }
}

/// Every step: done, under way, or to come.
fn all_steps(recipe: &Recipe, legs: &[Leg], units: Units) -> Markup {
    let last = legs.last().map(|leg| leg.step);
    html! {
        ol.run-list {
            @for (index, step) in recipe.steps.iter().enumerate() {
                @let of_step = legs.iter().filter(|leg| leg.step == index);
                @let took: i64 = of_step.clone().map(|leg| leg.spent).sum();
                @let was = of_step.count() > 0;
                li aria-current=[(last == Some(index)).then_some("step")] {
                    (words::step(step, units))
                    @if let Some(agitation) = words::agitation(step, units) { ", " (agitation) }
                    @if was && last != Some(index) { " · took " (units.span(Span::from_milliseconds(took))) }
                }
            }
        }
    }
}

/// All is done: what is to be written down.
pub fn over(kept: &Kept, legs: &[Leg], deeds: &[Deed], said: &str, units: Units) -> Markup {
    let recipe = &kept.run.recipe;
    html! {
        p.run-what { (recipe.title) }
        @if !said.is_empty() { p.run-said role="status" { (said) } }
        table {
            thead { tr { th scope="col" { "Step" } th scope="col" { "Asked" } th scope="col" { "Took" } } }
            tbody {
                @for leg in legs {
                    @if let Some(step) = recipe.steps.get(leg.step) {
                        tr {
                            th scope="row" { (words::title(&step.name)) }
                            td data-head="Asked" { (units.span(Span::from_milliseconds(leg.due))) }
                            td data-head="Took" { (units.span(Span::from_milliseconds(leg.spent))) }
                        }
                    }
                }
            }
        }
        (doubts(kept, units))
        form id="session-end" novalidate {
            fieldset {
                legend { "To be written down" }
                @for (index, deed) in deeds.iter().enumerate() {
                    p.run-deed {
                        input type="checkbox" id={ "deed-" (index) } name={ "deed-" (index) } checked[deed.proposed];
                        label for={ "deed-" (index) } { (deed.sentence) }
                    }
                }
                p { "Leave out what is in the record already: a bath that you wrote down when you mixed it." }
            }
            div.field.wide {
                label for="session-note" { "Remark" }
                textarea id="session-note" name="note" rows="3" maxlength="2000" {}
            }
            p.run-keys {
                button.main type="submit" { "Write it down" }
                button type="button" data-act="undo" { "Take back" }
                button type="button" data-act="forget" { "Write nothing down" }
            }
            p role="alert" id="session-fault" hidden {}
        }
    }
}
