//! On a mark: since the total may lie anywhere between covering the film and the brim, the nearest total for which the
//! concentrate falls exactly on a mark.

use super::ways::one_instrument;
use super::{Draws, Instrument, InstrumentKind, Kit};
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
    let scales = kit
        .instruments
        .iter()
        .map(|kept| &kept.item)
        .filter(|instrument| !matches!(instrument.kind, InstrumentKind::Jug | InstrumentKind::SingleMarkPipette));
    let mut near = Vec::new();
    for instrument in scales {
        let Some(now) = one_instrument(instrument, wanted, from_20) else {
            continue;
        };
        let before = relative(&now, from_20);
        for concentrate in marks_beside(instrument, wanted, now.count()) {
            let total = concentrate / share;
            let Some(draws) = one_instrument(instrument, concentrate, from_20) else {
                continue;
            };
            let after = relative(&draws, from_20);
            if total >= least && total <= most && after < before {
                near.push(OnMark {
                    total,
                    draws,
                    before,
                    after,
                });
            }
        }
    }
    let distance = |found: &OnMark| (found.total - total).millilitres().abs();
    near.into_iter().min_by(|a, b| {
        let nearer = (distance(a) * 100.0).round().total_cmp(&(distance(b) * 100.0).round());
        let larger = b.total.millilitres().total_cmp(&a.total.millilitres());
        let fewer = a.draws.count().cmp(&b.draws.count());
        nearer.then(larger).then(fewer).then(a.after.total_cmp(&b.after))
    })
}

/// The sums of marks just below and just above, for so many draws; none where the volume is on a mark itself.
fn marks_beside(instrument: &Instrument, wanted: Volume, draws: u32) -> Vec<Volume> {
    let bias = instrument.delivered_at(Volume::ZERO) * f64::from(draws);
    let steps = (wanted - bias) / instrument.graduation;
    if (steps - steps.round()).abs() < 1e-6 {
        return Vec::new();
    }
    [steps.floor(), steps.ceil()]
        .map(|steps| bias + instrument.graduation * steps)
        .to_vec()
}

fn relative(draws: &Draws, from_20: TemperatureDifference) -> f64 {
    draws.spread(from_20).combined() / draws.volume()
}
