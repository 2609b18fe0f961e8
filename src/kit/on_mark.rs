//! On a mark: since the total may lie anywhere between covering the film and the brim, the nearest total for which the
//! concentrate falls exactly on a mark.

use super::ways::one_instrument;
use super::{Draws, InstrumentKind, Kit};
use crate::quantity::held::held;
use crate::quantity::{TemperatureDifference, Volume};

/// A total that puts the concentrate on a mark.
#[derive(Clone, Debug, PartialEq)]
pub struct OnMark<'a> {
    /// The new total.
    pub total: Volume,
    /// The concentrate in it, all on marks.
    pub draws: Draws<'a>,
    /// Relative standard uncertainty with the same instrument at the wanted total.
    pub before: f64,
    /// And at the new total.
    pub after: f64,
}

/// An instrument is worth considering when it measures the wanted volume no worse than this many times the best one.
const SENSIBLE: f64 = 1.5;

/// The nearest total between `least` and `most` for which `share` of it falls on a mark, and measures better than now;
/// of two equally near the larger. `None` if the wanted total is on a mark already, or no other is in reach.
pub fn on_mark(
    kit: &Kit,
    total: Volume,
    share: f64,
    (least, most): (Volume, Volume),
    from_20: TemperatureDifference,
) -> Option<OnMark<'_>> {
    let wanted = total * share;
    let reach = (least * share, most * share);
    let scales = kit
        .instruments
        .iter()
        .map(|kept| &kept.item)
        .filter(|instrument| !matches!(instrument.kind, InstrumentKind::Jug | InstrumentKind::SingleMarkPipette));
    let now: Vec<Draws> = scales
        .filter_map(|instrument| one_instrument(instrument, wanted, from_20))
        .collect();
    let best = now
        .iter()
        .map(|draws| draws.relative_uncertainty(from_20))
        .fold(f64::INFINITY, f64::min);
    let near = now.iter().flat_map(|now| {
        marks_beside(now, wanted, reach).into_iter().filter_map(|concentrate| {
            let draws = one_instrument(now.instrument, concentrate, from_20)?;
            let on_marks = [Some(draws.to), draws.rest]
                .into_iter()
                .flatten()
                .all(|volume| now.instrument.on_mark(volume));
            if !on_marks {
                return None;
            }
            let (before, after) = (now.relative_uncertainty(from_20), draws.relative_uncertainty(from_20));
            (after < before && before < best * SENSIBLE).then_some(OnMark {
                total: concentrate / share,
                draws,
                before,
                after,
            })
        })
    });
    let distance = |found: &OnMark| (found.total - total).millilitres().abs();
    near.min_by(|a, b| {
        let nearer = (distance(a) * 100.0).round().total_cmp(&(distance(b) * 100.0).round());
        let larger = b.total.millilitres().total_cmp(&a.total.millilitres());
        let fewer = a.draws.count().cmp(&b.draws.count());
        nearer.then(larger).then(fewer).then(a.after.total_cmp(&b.after))
    })
}

/// The sums of marks nearest to the volume from below and from above that lie in reach; none where the volume itself is in
/// reach and on a mark.
fn marks_beside(now: &Draws, wanted: Volume, (least, most): (Volume, Volume)) -> Vec<Volume> {
    let instrument = now.instrument;
    let bias = instrument.delivered_at(Volume::ZERO) * f64::from(now.count());
    let steps = |volume: Volume| (volume - bias) / instrument.graduation;
    let (lowest, highest) = ((steps(least) - 1e-6).ceil(), (steps(most) + 1e-6).floor());
    let here = steps(wanted);
    let on_mark = (here - here.round()).abs() < 1e-6 && here.round() >= lowest && here.round() <= highest;
    if on_mark || lowest > highest {
        return Vec::new();
    }
    [here.floor(), here.ceil()]
        .map(|steps| bias + instrument.graduation * held(steps, lowest, highest))
        .to_vec()
}
