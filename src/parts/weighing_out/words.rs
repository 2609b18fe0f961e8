//! The sentences of weighing out: the order and why, what a formula rests on, what can hurt.

use super::super::measuring::{draws_text, mark};
use super::super::{care as usual_care, numbered};
use super::{COOL, Weighed, WeighingOut, develops, to_step};
use crate::chemistry::{Class, FIRST_WATER, Line, Role};
use crate::kit::Solution;
use crate::quantity::text::capital;
use crate::quantity::{MassDensity, Units, Volume};
use crate::sheet::{Figure, Item};
use crate::uncertainty::COVERAGE;

/// What to do, in order, and why.
pub fn order(bath: &WeighingOut, units: Units) -> Vec<Item> {
    let recipe = &bath.recipe;
    let water = units.temperature(recipe.water());
    let mut steps = vec![format!(
        "Weigh all of it first, each into a cup of its own. Pour {} of water at about {water} into a jug that never holds food.",
        units.volume(bath.volume * FIRST_WATER)
    )];
    if recipe.wants_a_pinch() {
        steps.push(
            "A pinch of the sulfite, out of its cup: it takes up the oxygen of the water, which would brown the metol."
                .to_owned(),
        );
    }
    let mut said = None;
    for (line, one) in recipe.lines().iter().zip(&bath.weighed) {
        let name = line.name();
        let amount = match &one.solution {
            Some(solution) => {
                let (volume, percent) = (units.volume(solution.taken.to), units.number(solution.percent, 1));
                format!("{volume} of the {percent} % solution of {name}")
            }
            None => format!("{name}, {}", one.shown(units)),
        };
        let rest = match line.role() {
            Some(Role::Sulfite) if recipe.wants_a_pinch() => ", the rest of it",
            _ => "",
        };
        // Of several with one reason the first says it.
        let why = Some(why(line, bath)).filter(|why| said != Some(*why));
        said = why.or(said);
        let why = why.map(|why| format!(": {why}")).unwrap_or_default();
        steps.push(format!("{}{rest}{why}.", capital(&amount)));
    }
    steps.push(format!(
        "Stir until each is clear before the next goes in. Let it cool to {}, and fill up with water to {}.",
        units.temperature(COOL),
        units.volume(bath.volume)
    ));
    let shrinks = bath.shrinks();
    if shrinks > 0.001 {
        let percent = units.percent(shrinks);
        steps.push(format!(
            "Not before it is cool: filled up at {water} it would be {percent} short."
        ));
    }
    steps.push("Write on the bottle what it is, that it is poison, and today’s date.".to_owned());
    let pinch = bath.pinch().filter(|_| recipe.wants_a_pinch());
    let pinch = pinch.map(|pinch| Figure::milligrams("pinch", "A pinch is enough from", pinch, units));
    numbered(steps).into_iter().chain(pinch.map(Item::Figure)).collect()
}

/// Why a substance comes where it comes (common practice, no source).
fn why(line: &Line, bath: &WeighingOut) -> &'static str {
    let Some(role) = line.role() else {
        return "not known here, so it stays behind what it was typed after";
    };
    match role {
        Role::Fixing => "stir well, it makes the water cold",
        Role::Metol if bath.recipe.has(Role::Sulfite) => "before the sulfite, in which it hardly dissolves",
        Role::Metol => "it dissolves best in plain water",
        Role::Sulfite => "a little at a time; it keeps the air from what follows",
        Role::Bisulfite => "now that the rest is sulfite already",
        Role::Agent if bath.recipe.has(Role::Sulfite) => "behind the sulfite, which keeps it from the air",
        Role::Agent => "stir gently, so that little air gets in",
        Role::Alkali if develops(bath) => "behind agents and sulfite: what is alkaline takes up air fastest",
        Role::Alkali => "a little at a time, or it cakes",
        Role::Caustic => "by itself in a cup of cold water, slowly, for it heats up and spits; then pour it in",
        Role::Buffer => "behind the alkali, which it holds where it is",
        Role::Restrainer => "it dissolves at any time",
        Role::Acid if bath.recipe.has_sulfur() => "last of all, thinned with water, a little at a time",
        Role::Acid => "into the water, never water onto it",
        Role::Other => "where there is room for it",
    }
}

/// Why a weight is too little for the balance.
pub fn too_coarse(line: &Line, one: &Weighed, good_to: f64, units: Units) -> String {
    let name = capital(line.name());
    let wanted = match one.wanted.grams() < 1.0 {
        true => units.milligrams(one.wanted),
        false => units.mass(one.wanted),
    };
    let how = match one.weight {
        Some(weight) => {
            let share = units.percent(COVERAGE * (weight.uncertainty / one.wanted));
            format!("on the {} is good to ± {share} only", weight.balance.name)
        }
        None => "is less than any balance of the kit shows".to_owned(),
    };
    let help = match one.solution {
        Some(solution) if solution.is_good_to(good_to / COVERAGE) => "Make a solution of more, and draw from that.",
        Some(_) => "A solution of more is better, if not as good as you want.",
        None => "No solution that the kit can weigh and measure is far better.",
    };
    format!("{name}: {wanted} {how}. {help}")
}

/// A solution and what is drawn, in a line.
pub fn solution_title(line: &Line, solution: &Solution, units: Units) -> String {
    format!(
        "{}: make {} of a {} % solution and draw {}",
        capital(line.name()),
        units.volume(solution.made_up.to),
        units.number(solution.percent, 1),
        units.volume(solution.taken.to)
    )
}

/// How it is made and used.
pub fn solution_steps(line: &Line, solution: &Solution, units: Units) -> Vec<String> {
    let weight = &solution.weight;
    let portions = match weight.portions {
        1 => String::new(),
        many => format!("{many} × "),
    };
    let vessel = solution.made_up.instrument;
    let mut steps = vec![
        format!(
            "Weigh {portions}{} of {} on the {}, and make it up with water to {} in the {}.",
            to_step(weight.portion, weight, units),
            line.name(),
            weight.balance.name,
            mark(vessel, solution.made_up.to, units),
            vessel.name
        ),
        format!(
            "Of this take {}, in the place where the powder would go in: {}",
            units.volume(solution.taken.to),
            draws_text(&solution.taken, units)
        ),
    ];
    steps.push(
        match line.role() {
            Some(Role::Metol | Role::Agent) => {
                "Use it today, and throw the rest away: without sulfite it does not keep."
            }
            Some(Role::Sulfite | Role::Bisulfite) => "Throw the rest away: so thin, the air uses it up within days.",
            Some(_) => "Label the rest; closed, it keeps.",
            None => "Whether the rest keeps is not known here, nor whether so much dissolves: look it up.",
        }
        .to_owned(),
    );
    steps
}

/// What the formula rests on, and what was taken as what.
pub fn formula(bath: &WeighingOut, units: Units) -> Vec<Item> {
    let mut items = Vec::new();
    let mut say = |text: String| items.push(Item::Text(text));
    if let Some(formula) = bath.formula {
        say(format!("{}. {}", formula.source, formula.known.sentence()));
    }
    let litre = Volume::from_millilitres(1000.0);
    for line in bath.recipe.lines() {
        if let Some((named, content)) = line.instead_of {
            let grams = |content: MassDensity| units.mass_about(content * litre);
            say(format!(
                "You have another form: {} of {} hold as much as the formula’s {} of {}, to the litre.",
                grams(line.content),
                line.name(),
                grams(content),
                named.name
            ));
        } else if line.usual_form {
            say(format!(
                "Taken as {}, since its form was not written. If the formula means another, write which.",
                line.name()
            ));
        } else if line.substance().is_none() {
            say(format!(
                "{} is not known here: it is weighed as typed.",
                capital(line.name())
            ));
        }
    }
    if !bath.unused.is_empty() {
        say(format!("Not in this formula: {}.", bath.unused.join("; ")));
    }
    items
}

/// What can hurt before anything is opened.
pub fn dangers(bath: &WeighingOut) -> Vec<Item> {
    let caution = |text: &str| Item::Caution(text.to_owned());
    let mut items = Vec::new();
    if bath.recipe.has_acid() && bath.recipe.has_sulfur() {
        items.push(caution(
            "Acid and sulfite or thiosulfate in one bath: dry together, or the acid too early, they give off sulfur dioxide, which \
             asthmatics cannot stand. Acid last, thinned, window open.",
        ));
    }
    if bath.recipe.has(Role::Caustic) {
        items.push(caution(
            "Sodium hydroxide burns skin and eyes: goggles and gloves before the lid is off, into cold water only.",
        ));
    }
    items
}

/// The usual cautions, and what is known of each substance.
pub fn care(bath: &WeighingOut) -> Vec<Item> {
    let class = bath.recipe.class();
    let mut items = Vec::new();
    let mut known = false;
    for line in bath.recipe.lines() {
        let Some(substance) = line.substance() else {
            items.push(Item::Caution(format!(
                "{}: not known here; read its data sheet before you open it.",
                capital(line.name())
            )));
            continue;
        };
        if substance.hazards.is_empty() {
            continue;
        }
        let words: Vec<&str> = substance.hazards.iter().map(|hazard| hazard.words()).collect();
        known = true;
        items.push(Item::Caution(format!(
            "{}: {}.",
            capital(substance.name),
            words.join(", ")
        )));
    }
    items.push(Item::Caution(match known {
        true => "These are statements of labels, mostly from memory, and of the others none is known here: check the data sheet of each.",
        false => "No statement of a label is known here for any of it: check the data sheet of each.",
    }
    .to_owned()));
    if bath.recipe.has_sulfur() && class != Class::Fixer {
        items.push(Item::Caution(
            "Keep it and its powders away from acid: sulfite with acid gives off sulfur dioxide.".to_owned(),
        ));
    }
    items.extend(usual_care(class, true));
    items
}

/// What the half-widths hold, and what they leave out.
pub fn covers(bath: &WeighingOut, units: Units) -> Vec<Item> {
    let good_to = units.percent(bath.good_to);
    let sentences = [
        "Two readings of the balance to its step, and what the step keeps each weight from what is wanted.".to_owned(),
        format!("A weight that is not good to ± {good_to} is called too little; the field says how good you want it."),
        "Not counted: how pure a powder is (photographic grades mostly 97 % or better, from memory), water that it took up from the \
         air, and dust that stays in the cup."
            .to_owned(),
    ];
    sentences.into_iter().map(Item::Text).collect()
}
