//! What a developing did to the bottles, for the ledger.

use super::words;
use crate::ledger::{self, Bath as MixedBath, BottleId, Portion, Thousandths, What};
use crate::quantity::{Units, Volume};
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

impl Deed {
    /// Holds it against the record: what was taken out there already today is not proposed once more; and where less was left than was
    /// taken out, another page may have taken some.
    pub fn compare(
        &mut self,
        left: impl Fn(&BottleId) -> Option<Volume>,
        is_drawn: impl Fn(&BottleId, Volume) -> bool,
        units: Units,
    ) {
        let What::Mixed { from, .. } = &self.what else { return };
        for portion in from {
            if is_drawn(&portion.bottle, portion.volume) {
                self.proposed = false;
                self.sentence +=
                    " The record has so much taken out of it today already: tick this only if it was taken twice.";
                continue;
            }
            if let Some(left) = left(&portion.bottle).filter(|left| *left < portion.volume) {
                self.sentence += &format!(
                    " By its record only {} were left: look whether it was written down already.",
                    units.volume(left)
                );
            }
        }
    }
}

/// What was drawn and mixed, the film that each bath has had, what may be poured away, and the developing itself, which comes
/// last. A bath that was never reached is left out.
pub fn deeds(session: &Session, units: Units) -> Vec<Deed> {
    let recipe = &session.recipe;
    let mut deeds = Vec::new();
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
                    "{}: {} taken out of its bottle, for {} of bath.",
                    words::title(&bath.words),
                    units.volume(*concentrate),
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
                    sentence: format!("{}: {} went through it.", words::title(&bath.words), recipe.films),
                    proposed: true,
                    what: What::FilmsThrough {
                        bottle: bottle.clone(),
                        units: Thousandths::nearest(recipe.units),
                        films: recipe.films.clone(),
                    },
                });
                deeds.push(Deed {
                    sentence: format!("{}: poured away.", words::title(&bath.words)),
                    proposed: false,
                    what: What::Discarded {
                        bottle,
                        reason: String::new(),
                    },
                });
            }
        }
    }
    deeds.push(Deed {
        sentence: format!("{}: into the log, with every step as it went.", recipe.title),
        proposed: true,
        what: What::Developed {
            text: ledger::session_to_text(session),
        },
    });
    deeds
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::Span;
    use crate::session::{Recipe, Step, StepKind, Went};

    fn session(reached: usize) -> Session {
        let step = |kind: StepKind| Step {
            kind,
            name: kind.word().to_owned(),
            time: Span::from_minutes(1.0),
            temperature: None,
            agitation: None,
        };
        let went = |step: usize| Went {
            step,
            began: Span::from_minutes(step as f64),
            lasted: Span::from_minutes(1.0),
            due: Span::from_minutes(1.0),
            paused: Span::ZERO,
            readings: Vec::new(),
        };
        let mixed = Made::Mixed {
            concentrate: Volume::from_millilitres(18.75),
            water: Volume::from_millilitres(581.25),
            dilution: "1+31".parse().expect("a dilution"),
        };
        let bath = |kind, bottle: &str, made| Bath {
            kind,
            bottle: bottle.to_owned(),
            words: format!("bath of {bottle}"),
            made,
        };
        Session {
            recipe: Recipe {
                title: "2 × 135 in Blue 1+31".to_owned(),
                films: "2 × 135".to_owned(),
                units: 2.0,
                steps: [StepKind::Develop, StepKind::Stop, StepKind::Fix].map(step).to_vec(),
                baths: vec![
                    bath(StepKind::Develop, "blue-1", mixed),
                    bath(StepKind::Stop, "", Made::Reused),
                    bath(StepKind::Fix, "fix-1", Made::Reused),
                ],
                ..Recipe::default()
            },
            began: 0,
            steps: (0..reached).map(went).collect(),
            doubts: Vec::new(),
            note: String::new(),
        }
    }

    #[test]
    fn each_bath_of_the_shelf_that_was_reached_is_written_down() {
        let all = deeds(&session(3), Units::default());
        let [drawn, films, away, log] = &all[..] else {
            panic!("{all:?}")
        };
        assert!(matches!(log.what, What::Developed { .. }));
        assert!(
            matches!(&drawn.what, What::Mixed { from, water, .. }
                if from[0].volume.microlitres() == 18_750 && water.microlitres() == 581_250),
            "{drawn:?}"
        );
        assert_eq!(
            drawn.sentence,
            "Bath of blue-1: 18.75 ml taken out of its bottle, for 600 ml of bath."
        );
        assert!(matches!(&films.what, What::FilmsThrough { bottle, units, .. }
            if bottle.as_str() == "fix-1" && units.0 == 2_000));
        assert!(!away.proposed && matches!(away.what, What::Discarded { .. }));
        assert!([drawn, films, log].iter().all(|deed| deed.proposed));
    }

    #[test]
    fn what_is_in_the_record_is_not_proposed_again() {
        let mut drawn = deeds(&session(3), Units::default()).remove(0);
        assert!(drawn.proposed);
        let so_much = |_: &BottleId, volume: Volume| volume == Volume::from_millilitres(18.75);
        drawn.compare(|_| None, so_much, Units::default());
        assert!(!drawn.proposed && drawn.sentence.contains("today already"));
    }

    #[test]
    fn a_bottle_with_less_than_was_taken_is_told() {
        for (left, said) in [(Some(10.0), true), (Some(18.75), false), (None, false)] {
            let mut drawn = deeds(&session(3), Units::default()).swap_remove(0);
            drawn.compare(|_| left.map(Volume::from_millilitres), |_, _| false, Units::default());
            assert_eq!(drawn.sentence.contains("only 10 ml were left"), said, "{left:?}");
        }
    }

    #[test]
    fn a_bath_that_was_never_reached_is_left_out() {
        assert_eq!(deeds(&session(1), Units::default()).len(), 2);
        assert_eq!(deeds(&session(0), Units::default()).len(), 1);
    }
}
