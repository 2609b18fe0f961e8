//! The usual cautions where work can hurt someone.

use crate::chemistry::Class;
use crate::sheet::Item;

/// What holds for every bath.
const ALWAYS: [&str; 2] = [
    "Label every bottle. No food or drink vessels, ever. Keep all of it from children and animals.",
    "The product's safety data sheet and your local rules stand above anything said here.",
];

/// What to take care of with this bath. The product's safety data sheet and local rules stand above all of it.
pub fn care(class: Class, is_powder: bool) -> Vec<Item> {
    care_of_all(&[(class, is_powder)])
}

/// The same for several baths, each of its class and as powder or not: every sentence once.
pub(super) fn care_of_all(baths: &[(Class, bool)]) -> Vec<Item> {
    let mut all = Vec::new();
    for (class, is_powder) in baths {
        of_bath(&mut all, *class, *is_powder);
    }
    all.extend_from_slice(&ALWAYS);
    let mut said: Vec<&str> = Vec::new();
    let mut items = Vec::new();
    for text in all {
        if !said.contains(&text) {
            said.push(text);
            items.push(Item::Caution(text.to_owned()));
        }
    }
    items
}

fn of_bath(cautions: &mut Vec<&'static str>, class: Class, is_powder: bool) {
    cautions.push(match class.is_developer() {
        true => "Gloves on, window open. Developers can make the skin allergic for good; wash off splashes at once.",
        false => "Gloves on, eyes guarded, window open. Wash off splashes at once.",
    });
    match class {
        Class::StopBath => {
            cautions.push("Pour acid into water, never water into acid.");
            cautions.push("Keep acid away from fixer and developer stock: with sulfite or thiosulfate it gives off sulfur dioxide.");
        }
        Class::Fixer => {
            cautions
                .push("Never mix fixer with acid in bulk: it gives off sulfur dioxide, which asthmatics cannot stand.");
            cautions.push("Used fixer holds silver: collect it, and hand it in where local rules say so.");
        }
        _ => {}
    }
    if is_powder {
        cautions.push("Do not breathe the dust: weigh slowly, with a mask, away from food.");
    }
}
