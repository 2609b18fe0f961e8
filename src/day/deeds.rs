//! What a developing did to the bottles, for the ledger.

use crate::ledger::{self, Bath as MixedBath, BottleId, Portion, Thousandths, What};
use crate::quantity::Units;
use crate::session::{Bath, Made, Session};

/// One thing to be written down, which the user may leave out.
#[derive(Clone, Debug, PartialEq)]
pub struct Deed {
    /// What it is, in a sentence.
    pub sentence: String,
    /// Whether it is proposed: pouring a bath away is not.
    pub proposed: bool,
    /// What the ledger writes down.
    pub what: What,
}

/// What was drawn and mixed, the film that each bath has had, what may be poured away, and the developing itself, which comes
/// first. A bath that was never reached is left out.
pub fn deeds(session: &Session, units: Units) -> Vec<Deed> {
    let recipe = &session.recipe;
    let mut deeds = vec![Deed {
        sentence: format!("{}: into the log, step by step.", recipe.title),
        proposed: true,
        what: What::Developed {
            text: ledger::session_to_text(session),
        },
    }];
    let reached = |bath: &&Bath| {
        let of_kind = |step: usize| recipe.steps.get(step).is_some_and(|step| step.kind == bath.kind);
        session.steps.iter().any(|went| of_kind(went.step))
    };
    for bath in recipe.baths.iter().filter(reached) {
        let Ok(bottle) = BottleId::new(&bath.bottle) else {
            continue;
        };
        match &bath.made {
            Made::Mixed {
                concentrate,
                water,
                dilution,
            } => deeds.push(Deed {
                sentence: format!(
                    "{} out of the bottle of {}, for {} of bath.",
                    units.volume(*concentrate),
                    bath.words,
                    units.volume(*concentrate + *water)
                ),
                proposed: true,
                what: What::Mixed {
                    from: vec![Portion {
                        bottle,
                        volume: *concentrate,
                    }],
                    water: *water,
                    dilution: Some(dilution.clone()),
                    into: MixedBath::Used {
                        purpose: recipe.title.clone(),
                    },
                },
            }),
            Made::Reused => {
                deeds.push(Deed {
                    sentence: format!("{} through {}.", recipe.films, bath.words),
                    proposed: true,
                    what: What::FilmsThrough {
                        bottle: bottle.clone(),
                        units: Thousandths::nearest(recipe.units),
                        films: recipe.films.clone(),
                    },
                });
                deeds.push(Deed {
                    sentence: format!("{} was poured away.", bath.words),
                    proposed: false,
                    what: What::Discarded {
                        bottle,
                        reason: String::new(),
                    },
                });
            }
        }
    }
    deeds
}
