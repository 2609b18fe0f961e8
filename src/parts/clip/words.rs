//! The sentences of a clip test.

use super::{Clip, Verdict};
use crate::fields::{JudgedBy, Through};
use crate::parts::text;
use crate::proof::{Leader, Measured, Rest, STOP, TestKind, Timed};
use crate::quantity::Units;
use crate::sheet::{Figure, Item};

/// The verdict as a figure.
pub fn verdict(verdict: Verdict, is_measured: bool) -> Figure {
    let word = match (verdict, is_measured) {
        (Verdict::Passed, _) => "passed",
        (Verdict::Failed, true) => "weak",
        (Verdict::Failed, false) => "failed",
        (Verdict::CannotTell, _) => "cannot tell yet",
    };
    Figure::word("verdict", "The developer", verdict as usize, word)
}

/// What to do, first of all.
pub fn next(clip: &Clip, measured: Option<&Measured>, verdict: Option<Verdict>, units: Units) -> Vec<Item> {
    match (clip.judged, verdict, measured) {
        (JudgedBy::ByEye, _, _) => by_eye(clip),
        (_, None, _) => vec![text(still_needed(clip))],
        (_, _, None) => vec![caution(TOO_DENSE)],
        (_, Some(verdict), Some(measured)) => by_number(clip, measured, verdict, units),
    }
}

const TOO_DENSE: &str = "This clip reads so much darker than the reference that no strength explains it. Exchange the two if they \
     were mixed up; else the clips had unlike light, unlike time or unlike film.";

fn by_eye(clip: &Clip) -> Vec<Item> {
    let (leader, rest) = match (clip.leader, clip.rest) {
        (Some(leader), Some(rest)) => (leader, rest),
        (None, None) => {
            return vec![text(
                "Make a clip, lay it beside your reference on something bright, and say above how the leader and the rest look. \
                 Without a reference, make one now with fresh developer and keep it.",
            )];
        }
        (Some(_), None) => return vec![text("Now say how the rest looks, where no light fell.")],
        (None, Some(_)) => return vec![text("Now say how the leader looks beside the reference.")],
    };
    let mut items = match (leader, rest) {
        (Leader::Black, Rest::Clear) => vec![text(
            "Nothing gross is wrong with it. The eye sees no more than that: before paid work time a leader as well.",
        )],
        (Leader::Grey, _) => vec![
            caution("Do not use it: a grey leader is a developer that is weak or dead. Take fresh."),
            text(
                "If that surprises you, make one more clip first: with film that is surely fresh, in a bath that is surely warm \
                 enough, made up anew.",
            ),
        ],
        (Leader::Thinner, _) => vec![text(
            "By eye that is no answer. Time how long a leader takes to blacken in this bath and in fresh, or read a grey patch with \
             a meter, and choose that above. Until then do not use it for film that matters.",
        )],
        (Leader::Black, Rest::Veiled) => Vec::new(),
    };
    if rest == Rest::Veiled {
        items.push(text(match clip.expired {
            true => "Old film veils by itself, so the veil says nothing of the bath. Take fresh film for the clip.",
            false => {
                "A veil where no light fell: the film saw light, the bath was too warm, or something got into it. Make one more clip, \
                 cut in full darkness; if it is veiled again, take fresh developer."
            }
        }));
    }
    items
}

/// So near the limit that no repeating and no finer meter would tell.
const CLOSE: std::ops::RangeInclusive<f64> = 0.85..=0.95;

/// What the form lacks.
fn still_needed(clip: &Clip) -> &'static str {
    match clip.judged {
        JudgedBy::ByTime => {
            "With the light on, drop a light-struck leader into the bath, agitate, and stop the watch when it gets no blacker. Do it in \
             fresh bath and in this one, three times each, and type the times above."
        }
        _ => {
            "Against a bright, even surface, read through the clear part and through the same patch, in the reference and in this clip. \
             Type above by how much the patch is darker, for each."
        }
    }
}

fn by_number(clip: &Clip, measured: &Measured, verdict: Verdict, units: Units) -> Vec<Item> {
    if measured.is_beyond_fresh() {
        return vec![caution(
            "It reads stronger than fresh, which cannot be. Were the two exchanged, was one bath warmer than noted, or was the bath \
             of the reference tired itself?",
        )];
    }
    match verdict {
        Verdict::Passed => vec![text("It is strong enough. Use it as fresh.")],
        Verdict::Failed => vec![
            caution("It is weak. Do not use it for film that matters: take fresh."),
            text(
                "For film that does not matter, type this strength on the page of developing times: it makes up by a longer time what \
                 can be made up.",
            ),
        ],
        Verdict::CannotTell => {
            let range = format!(
                "It cannot be told yet whether {} of it is left: only {} is certain.",
                units.percent(TestKind::Clip.enough()),
                units.percent(measured.surely.0)
            );
            let more = match (clip.judged, clip.repeats()) {
                (JudgedBy::ByTime, Some(count)) => {
                    format!("Time each {} over, and type all of them.", times(count))
                }
                (_, Some(count)) => format!("Read {} of each, and type all of them.", clips(count)),
                (JudgedBy::ByMeter, None) if clip.through == Through::Leader => {
                    "A black leader hides weakness: read a grey patch, or time a leader instead.".to_owned()
                }
                (JudgedBy::ByMeter, None) if !(CLOSE.contains(&measured.strength.value)) => {
                    "The meter's step is too coarse for it: take a finer one, or time a leader instead.".to_owned()
                }
                (_, None) => "It lies too near the limit for this test. Count it as weak.".to_owned(),
            };
            vec![
                Item::Text(format!("{range} {more}")),
                text("Until then take fresh for film that matters."),
            ]
        }
    }
}

fn times(count: u32) -> String {
    match count {
        2 => "twice".to_owned(),
        count => format!("{count} times"),
    }
}

fn clips(count: u32) -> String {
    format!("{count} clips")
}

/// What the test can show at all.
pub fn limits(clip: &Clip, measured: Option<&Measured>, units: Units) -> Vec<Item> {
    let mut items = Vec::new();
    match clip.judged {
        JudgedBy::ByEye => {
            let loss = clip.unseen_by_eye();
            items.push(Item::Text(format!(
                "The eye finds only gross weakness. Of a leader that is nearly all developed, a bath that has lost {} still makes one \
                 that looks as black; it may be {} or {}, as your eye and your film are.",
                units.percent(loss.value),
                units.percent(loss.least),
                units.percent(loss.most)
            )));
        }
        JudgedBy::ByMeter => {
            if let Some(measured) = measured {
                items.push(Item::Text(format!(
                    "A loss below {} would not have shown: the meter's step, your thermometer and what a hand does not repeat hide \
                     it.",
                    units.percent(measured.unseen.value)
                )));
            }
            items.push(text(match clip.through {
                Through::Leader => {
                    "A black leader hides weakness: nearly all of it is developed, in a weak bath too. A grey patch, struck by light \
                     for a moment only, shows more."
                }
                Through::Grey => {
                    "A grey patch shows more than a black leader, but only if both clips had the same light."
                }
            }));
            items.push(Item::Text(format!(
                "One stop darker is {} in density.",
                units.number(STOP, 3)
            )));
        }
        JudgedBy::ByTime => {
            if let Some(measured) = measured {
                let hand = match clip.is_repeated() {
                    true => "how your own times scatter",
                    false => "how well one time is repeated",
                };
                items.push(Item::Text(format!(
                    "A loss below {} would not have shown: {hand}, and your thermometer, hide it.",
                    units.percent(measured.unseen.value)
                )));
            }
            items.push(text(
                "This times how fast it works, which is what a weak developer loses. What it does in the thin parts of a negative it \
                 does not show.",
            ));
        }
    }
    items.push(text(
        "A clip proves strength, not cleanliness: a bath that is dirty, or has fixer in it, can still blacken a leader.",
    ));
    match clip.expired {
        true => items.push(caution(
            "Never judge by the edge marks of film that is past its date: they fade with the film.",
        )),
        false => items.push(text(
            "The edge marks count only because this film is fresh; on film past its date they prove nothing.",
        )),
    }
    items
}

/// How the clip is made.
pub fn how(clip: &Clip) -> Vec<Item> {
    let mut items = vec![
        text(
            "Same film, same light, same temperature, same time as the reference. One difference is enough to spoil the test.",
        ),
        text("Cut the leader off a roll in the dark, so that half of the piece has seen light and half has not."),
    ];
    items.push(text(match clip.judged {
        JudgedBy::ByTime => {
            "Only the leader is timed, so the light may be on. Put in the whole piece at once, keep it moving, and look for the same \
             moment each time: when it gets no blacker."
        }
        _ => "Develop it as you develop film. Stop it, fix it until it is clear and as long again, wash it for a minute, dry it.",
    }));
    if clip.judged == JudgedBy::ByMeter {
        items.push(text(
            "For a grey patch give part of the piece a short, always equal flash of light, such as one frame of an even wall at the \
             metered exposure.",
        ));
    }
    items.push(text(
        "Keep a clip from fresh developer as the reference, with film, date, temperature and time written on it, in the dark.",
    ));
    items
}

/// The figures behind it, in a few words.
pub fn remark(clip: &Clip, units: Units) -> String {
    match clip.judged {
        JudgedBy::ByEye => {
            let leader = match clip.leader {
                Some(Leader::Grey) => "grey leader",
                Some(Leader::Thinner) => "leader a little thin",
                _ => "black leader",
            };
            let rest = match clip.rest {
                Some(Rest::Veiled) => "rest veiled",
                _ => "rest clear",
            };
            format!("by eye: {leader}, {rest}")
        }
        JudgedBy::ByMeter => {
            let ratio = clip.by_density().and_then(|density| density.ratio());
            format!("density {} of the reference's", units.percent(ratio.unwrap_or(1.0)))
        }
        JudgedBy::ByTime => {
            let now = clip.timed().as_ref().and_then(Timed::now);
            format!("black after {}", now.map(|now| units.span(now)).unwrap_or_default())
        }
    }
}

fn caution(text: &str) -> Item {
    Item::Caution(text.to_owned())
}
