//! A run as the browser keeps it, so that it goes on after the page was reloaded or ended.

use super::clock::Clock;
use crate::fields::Named;
use crate::ledger;
use crate::quantity::Temperature;
use crate::session::{Act, Mark, Run};

/// A run with all that is known of its time.
#[derive(Clone, Debug, PartialEq)]
pub struct Kept {
    /// What was pressed.
    pub run: Run,
    /// When it began, by the device's clock: milliseconds since 1970.
    pub began: i64,
    /// The time that had passed when it was last kept.
    pub elapsed: i64,
    /// What the device's clock showed then.
    pub then: i64,
    /// What is not certain about its time.
    pub doubts: Vec<Uncertain>,
}

/// What is not certain about the time of a run.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Uncertain {
    /// So many milliseconds were counted of which nobody knows whether the device slept or its clock was put forward.
    Counted {
        /// How many.
        time: i64,
        /// When: milliseconds since the beginning of the run.
        at: i64,
    },
    /// They were taken off again: it was the clock.
    TakenOff(i64),
    /// The device's clock was put back by so many milliseconds, which did not count.
    PutBack(i64),
    /// The device's clock was put back by at least so many milliseconds while the page was away: what passed then is not known.
    Lost(i64),
    /// The browser did not keep what was pressed.
    NotKept,
}

const RECIPE: &str = "recipe";
const MARKS: &str = "marks";
const CLOCK: &str = "clock";
const DOUBTS: &str = "doubts";

impl Kept {
    /// A run that has begun.
    pub fn new(run: Run, clock: &Clock) -> Self {
        let began = clock.device() as i64;
        Self {
            run,
            began,
            elapsed: 0,
            then: began,
            doubts: Vec::new(),
        }
    }

    /// It was the clock that was put forward: what was counted then is taken off again, and whatever was pressed or counted since
    /// happened so much earlier. How much that is; nothing if that doubt is none of these.
    pub fn take_off(&mut self, doubt: usize) -> Option<i64> {
        let Uncertain::Counted { time, at } = *self.doubts.get(doubt)? else {
            return None;
        };
        let earlier = |then: &mut i64| {
            if *then > at {
                *then = (*then - time).max(at);
            }
        };
        self.run.marks.iter_mut().for_each(|mark| earlier(&mut mark.at));
        for other in &mut self.doubts {
            if let Uncertain::Counted { at, .. } = other {
                earlier(at);
            }
        }
        self.doubts[doubt] = Uncertain::TakenOff(time);
        Some(time)
    }

    /// The named texts that it is kept as.
    pub fn to_named(&self) -> Named {
        let marks: Vec<String> = self.run.marks.iter().map(mark_to_text).collect();
        let doubts: Vec<String> = self.doubts.iter().map(doubt_to_text).collect();
        Named::from([
            (RECIPE.to_owned(), ledger::recipe_to_text(&self.run.recipe)),
            (MARKS.to_owned(), marks.join(" ")),
            (
                CLOCK.to_owned(),
                format!("{} {} {}", self.began, self.elapsed, self.then),
            ),
            (DOUBTS.to_owned(), doubts.join(" ")),
        ])
    }

    /// From the named texts; none if they are not what was kept.
    pub fn from_named(named: &Named) -> Option<Self> {
        let text = |name: &str| named.get(name).map(|text| text.trim());
        let recipe = ledger::recipe_from_text(text(RECIPE)?).ok()?;
        let marks: Option<Vec<Mark>> = text(MARKS)?.split_whitespace().map(mark_from_text).collect();
        let marks = marks.filter(|marks| !marks.is_empty())?;
        let clock: Result<Vec<i64>, _> = text(CLOCK)?.split_whitespace().map(str::parse).collect();
        let [began, elapsed, then] = clock.ok()?.try_into().ok()?;
        let doubts: Option<Vec<Uncertain>> = text(DOUBTS)?.split_whitespace().map(doubt_from_text).collect();
        Some(Self {
            run: Run { recipe, marks },
            began,
            elapsed,
            then,
            doubts: doubts?,
        })
    }
}

/// `WORD@AT` or `WORD:NUMBER@AT`.
fn mark_to_text(mark: &Mark) -> String {
    let (word, number) = match mark.act {
        Act::Begin(step) => ("begin", Some(step as i64)),
        Act::Pause => ("pause", None),
        Act::Resume => ("resume", None),
        Act::Longer(more) => ("longer", Some(more)),
        Act::Read(temperature) => ("read", Some(temperature.millidegrees())),
        Act::End => ("end", None),
    };
    match number {
        Some(number) => format!("{word}:{number}@{}", mark.at),
        None => format!("{word}@{}", mark.at),
    }
}

fn mark_from_text(text: &str) -> Option<Mark> {
    let (act, at) = text.split_once('@')?;
    let act = match act.split_once(':') {
        None => match act {
            "pause" => Act::Pause,
            "resume" => Act::Resume,
            "end" => Act::End,
            _ => return None,
        },
        Some((word, number)) => {
            let number: i64 = number.parse().ok()?;
            match word {
                "begin" => Act::Begin(usize::try_from(number).ok()?),
                "longer" => Act::Longer(number),
                "read" => Act::Read(Temperature::from_millidegrees(number)),
                _ => return None,
            }
        }
    };
    Some(Mark {
        at: at.parse().ok()?,
        act,
    })
}

fn doubt_to_text(doubt: &Uncertain) -> String {
    match doubt {
        Uncertain::Counted { time, at } => format!("counted:{time}@{at}"),
        Uncertain::TakenOff(number) => format!("taken_off:{number}"),
        Uncertain::PutBack(number) => format!("put_back:{number}"),
        Uncertain::Lost(number) => format!("lost:{number}"),
        Uncertain::NotKept => "not_kept".to_owned(),
    }
}

fn doubt_from_text(text: &str) -> Option<Uncertain> {
    let Some((word, number)) = text.split_once(':') else {
        return (text == "not_kept").then_some(Uncertain::NotKept);
    };
    if word == "counted" {
        let (time, at) = match number.split_once('@') {
            Some((time, at)) => (time, at.parse().ok()?),
            // As it was first kept, without its moment: nothing was pressed after it.
            None => (number, i64::MAX),
        };
        let time = time.parse().ok()?;
        return Some(Uncertain::Counted { time, at });
    }
    let number = number.parse().ok()?;
    Some(match word {
        "taken_off" => Uncertain::TakenOff(number),
        "put_back" => Uncertain::PutBack(number),
        "lost" => Uncertain::Lost(number),
        _ => return None,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::Span;
    use crate::session::{Recipe, Step, StepKind};

    fn kept() -> Kept {
        let step = Step {
            kind: StepKind::Develop,
            name: "develop".to_owned(),
            time: Span::from_minutes(8.5),
            temperature: Some(Temperature::from_celsius(20.5)),
            agitation: None,
        };
        let recipe = Recipe {
            title: "2 × 135".to_owned(),
            films: "2 × 135".to_owned(),
            units: 2.0,
            steps: vec![step],
            ..Recipe::default()
        };
        let acts = [
            Act::Begin(0),
            Act::Pause,
            Act::Resume,
            Act::Longer(-30_000),
            Act::Read(Temperature::from_celsius(20.25)),
            Act::End,
        ];
        let marks = acts.into_iter().zip(0..).map(|(act, at)| Mark { at: at * 1000, act });
        Kept {
            run: Run {
                recipe,
                marks: marks.collect(),
            },
            began: 1_790_000_000_000,
            elapsed: 5_000,
            then: 1_790_000_005_000,
            doubts: vec![
                Uncertain::Counted {
                    time: 60_000,
                    at: 1_500,
                },
                Uncertain::TakenOff(1),
                Uncertain::PutBack(2),
                Uncertain::Lost(3),
                Uncertain::NotKept,
            ],
        }
    }

    #[test]
    fn what_is_kept_is_read_as_it_was() {
        let kept = kept();
        assert_eq!(Kept::from_named(&kept.to_named()), Some(kept));
    }

    /// Arithmetic: a minute that was no minute lies between the first press and the second.
    #[test]
    fn what_was_pressed_after_a_clock_was_put_forward_happened_earlier() {
        let mut kept = kept();
        let at = |kept: &Kept| kept.run.marks.iter().map(|mark| mark.at).collect::<Vec<_>>();
        kept.run.marks[2..].iter_mut().for_each(|mark| mark.at += 60_000);
        kept.doubts.push(Uncertain::Counted { time: 500, at: 62_500 });
        assert_eq!(at(&kept), [0, 1_000, 62_000, 63_000, 64_000, 65_000]);
        assert_eq!(kept.take_off(0), Some(60_000));
        assert_eq!(at(&kept), [0, 1_000, 2_000, 3_000, 4_000, 5_000]);
        assert_eq!(kept.doubts[0], Uncertain::TakenOff(60_000));
        assert_eq!(kept.doubts[5], Uncertain::Counted { time: 500, at: 2_500 });
        assert_eq!(kept.take_off(0), None);
    }

    /// As a doubt was first kept, without its moment.
    #[test]
    fn an_old_doubt_is_still_read() {
        let mut named = kept().to_named();
        named.insert(DOUBTS.to_owned(), "counted:60000".to_owned());
        let mut kept = Kept::from_named(&named).expect("a run");
        let marks = kept.run.marks.clone();
        assert_eq!(kept.take_off(0), Some(60_000));
        assert_eq!(kept.run.marks, marks);
    }

    #[test]
    fn what_is_damaged_is_no_run() {
        for (part, damage) in [
            (RECIPE, "{}"),
            (MARKS, ""),
            (MARKS, "begin:0@0 shout@3"),
            (MARKS, "begin:-1@0"),
            (CLOCK, "1 2"),
            (CLOCK, "1 2 three"),
            (DOUBTS, "perhaps"),
            (DOUBTS, "counted:60000@"),
        ] {
            let mut named = kept().to_named();
            named.insert(part.to_owned(), damage.to_owned());
            assert_eq!(Kept::from_named(&named), None, "{part}: {damage}");
        }
    }
}
