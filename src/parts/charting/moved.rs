//! Whether a series has moved, a sentence for each sign of it, and what to do.

use super::{Charting, ENOUGH, PLACES, State, text};
use crate::proof::control::{Measure, Rule, Signal};
use crate::quantity::Units;
use crate::sheet::Item;

/// What to do.
pub(super) fn advice(charting: &Charting, state: State) -> Vec<Item> {
    let is_strength = charting.measure.density_limit().is_none();
    let mut items = vec![match (state, is_strength) {
        (State::PastTheLimit, true) => Item::Caution(
            "It is past the limit: no film in it now. Test once more with care; if the second test agrees, take fresh.".to_owned(),
        ),
        (State::PastTheLimit, false) => Item::Caution(
            "It is past the limit: no film now. Run a second strip; if it agrees, look at temperature first, then time, agitation, \
             dilution and the bath."
                .to_owned(),
        ),
        (State::Changing, true) => text(
            "It has moved, though the last test is within the limit. Test again before the next film that matters, beside a kept strip.",
        ),
        (State::Changing, false) => text(
            "It has moved, though the last test is within the limit. Run another strip before the next film that matters, and note what is new: \
             bottle, water, thermometer, film.",
        ),
        (State::Steady, _) => text("Nothing to do: nothing says that it has moved. Go on testing."),
        (State::CannotTell, _) => Item::Text(format!(
            "Too few tests to tell. Go on testing: from {ENOUGH} on, their own scatter is known."
        )),
    }];
    let room = charting
        .edges
        .iter()
        .map(|edge| (edge.at - charting.control.level).abs())
        .fold(f64::INFINITY, f64::min);
    if room < 2.0 * charting.control.sigma {
        items.push(text(
            "One test scatters by more than half of the way to the limit, so a single one says little: make two, and take their mean.",
        ));
    }
    items
}

/// A sentence for each sign.
pub(super) fn signals(charting: &Charting, signals: &[Signal], units: Units) -> Vec<Item> {
    let sentence = |signal: &Signal| Item::Text(sentence(charting, signal, units));
    signals.iter().map(sentence).collect()
}

fn sentence(charting: &Charting, signal: &Signal, units: Units) -> String {
    let Signal { from, to, above, .. } = *signal;
    let show = |value| units.number(value, PLACES);
    let level = show(charting.control.level);
    let name = |at| charting.series.name(at);
    let side = if above { "above" } else { "below" };
    let count = to + 1 - from;
    let tests = match count {
        1 => "one test".to_owned(),
        count => format!("{count} tests"),
    };
    let stands = to + 1 == charting.values.len();
    let stretch = match (stands, from == to) {
        (true, _) => format!("Since {}", name(from)),
        (false, true) => format!("At {}", name(from)),
        (false, false) => format!("From {} to {}", name(from), name(to)),
    };
    let moved = match (charting.measure, above) {
        (Measure::BaseFog | Measure::MidDensity | Measure::Difference, true) => "rising",
        (Measure::BaseFog | Measure::MidDensity | Measure::Difference, false) => "falling",
        (_, true) => "getting stronger",
        (_, false) => "getting weaker",
    };
    let mut sentence = match signal.rule {
        Rule::Beyond => format!(
            "{}: {} is too far {side} {level} for chance alone.",
            name(to),
            show(charting.values[to])
        ),
        Rule::Run => format!("{stretch}, {tests} in a row lie {side} {level}: it has shifted."),
        Rule::Smoothed => {
            format!("{stretch}, the smoothed line lies further {side} {level} than chance leaves it: a slow move.")
        }
        Rule::Sum => {
            let tense = if stands { "it has been" } else { "it was" };
            format!(
                "{stretch}, {tense} {moved}: {tests}, on the mean {} {side} {level}.",
                show((signal.mean - charting.control.level).abs())
            )
        }
    };
    if !stands {
        sentence.push_str(" Later tests no longer say so.");
    }
    sentence
}
