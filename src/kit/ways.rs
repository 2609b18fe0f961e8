//! The measuring plan: every sensible way to a volume with the user's own kit, best first.
//!
//! One instrument in up to four draws; two instruments; by weight where the density is known; by a dilution made first,
//! of which more can be drawn than of the concentrate, at the cost of what is left of it.

use super::instrument::EXPANSION;
use super::{Balance, Draws, Instrument, InstrumentKind, Kit, VolumeErrors, Weight};
use crate::quantity::sorted::sort;
use crate::quantity::{Mass, MassDensity, TemperatureDifference, Volume};

/// The most draws that a way may take.
pub const MOST_DRAWS: u32 = 4;

/// A way to measure a volume.
#[derive(Clone, Debug, PartialEq)]
pub enum Way<'a> {
    /// With one or two instruments.
    Draw(Vec<Draws<'a>>),
    /// On a balance.
    Weigh {
        /// Which.
        balance: &'a Balance,
        /// What it should gain, to its own step.
        mass: Mass,
        /// What the volume was multiplied by.
        density: MassDensity,
    },
    /// From a dilution that is made first.
    Predilute {
        /// Concentrate for it.
        concentrate: Draws<'a>,
        /// In what it is made up.
        vessel: &'a Instrument,
        /// To which volume.
        made_up: Volume,
        /// How much of it to take.
        take: Draws<'a>,
        /// Concentrate that is left in what is not taken.
        waste: Volume,
    },
}

/// A way, and how well it measures.
#[derive(Clone, Debug, PartialEq)]
pub struct Measured<'a> {
    /// What is done.
    pub way: Way<'a>,
    /// The volume that it aims at.
    pub volume: Volume,
    /// What is uncertain about the volume, in millilitres.
    pub errors: VolumeErrors<'a>,
}

/// Half-width of a density as it is usually stated, to two decimals (JCGM 100, F.2.2.1).
const DENSITY_HALF_WIDTH: f64 = 0.005;
/// A dilution made first is offered only when it brings the uncertainty below this share of the best direct way's.
const WORTH_PREDILUTING: f64 = 0.8;
/// It is not looked for when the best direct way is already this good.
const GOOD_ENOUGH: f64 = 0.03;
/// Above this, concentrate may be wasted for the sake of measuring at all: a first dilution from any mark is looked for.
const POOR: f64 = 0.05;
/// Ways this many times worse than the best are not told, unless they are good to a tenth.
const HOPELESS: f64 = 3.0;
/// Below this the best way counts as this good, so that a balance does not drive out the syringes.
const NEVER_HOPELESS: f64 = 0.033;
/// How far the first dilution goes.
const PREDILUTIONS: [f64; 4] = [2.0, 5.0, 10.0, 20.0];
/// The most concentrate that a first dilution may waste, as a multiple of what is wanted.
const MOST_WASTE: f64 = 4.0;

impl Measured<'_> {
    /// Standard uncertainty of the volume.
    pub fn standard_uncertainty(&self) -> Volume {
        Volume::from_millilitres(self.errors.combined())
    }

    /// Standard uncertainty as a share of the volume.
    pub fn relative_uncertainty(&self) -> f64 {
        self.standard_uncertainty() / self.volume
    }

    /// How many times something is drawn, made up or weighed.
    pub fn steps(&self) -> u32 {
        match &self.way {
            Way::Draw(draws) => draws.iter().map(Draws::count).sum(),
            Way::Weigh { .. } => 2,
            Way::Predilute { concentrate, take, .. } => concentrate.count() + 1 + take.count(),
        }
    }
}

/// Ways to measure `wanted`, by relative uncertainty to a tenth of a percent, then by fewest steps; empty if the kit cannot.
///
/// `from_20` is how far the liquid is from 20 °C, at which instruments are marked.
pub fn ways(
    kit: &Kit,
    wanted: Volume,
    density: Option<MassDensity>,
    from_20: TemperatureDifference,
) -> Vec<Measured<'_>> {
    let instruments: Vec<&Instrument> = kit.instruments.iter().map(|kept| &kept.item).collect();
    let single: Vec<Draws> = instruments
        .iter()
        .filter_map(|instrument| one_instrument(instrument, wanted, from_20))
        .collect();
    let mut all: Vec<Measured> = single
        .iter()
        .map(|draws| measured(vec![*draws], from_20))
        .chain(two_instruments(&instruments, wanted, from_20))
        .collect();
    if let Some(density) = density {
        all.extend(
            kit.balances
                .iter()
                .filter_map(|kept| weighed(&kept.item, wanted, density, from_20)),
        );
    }
    let best = all
        .iter()
        .map(Measured::relative_uncertainty)
        .fold(f64::INFINITY, f64::min);
    if best > GOOD_ENOUGH {
        all.extend(
            prediluted(&instruments, wanted, from_20, best > POOR)
                .filter(|way| way.relative_uncertainty() < best * WORTH_PREDILUTING || best.is_infinite()),
        );
    }
    let alone: Vec<(&Instrument, f64)> = single
        .iter()
        .map(|draws| (draws.instrument, draws.relative_uncertainty(from_20)))
        .collect();
    let hopeless = HOPELESS * best.max(NEVER_HOPELESS);
    all.retain(|way| !is_needless(way, &alone) && way.relative_uncertainty() <= hopeless);
    put_in_order(&mut all);
    all
}

/// By relative uncertainty to a tenth of a percent, then by fewest steps, then finer.
fn put_in_order(all: &mut [Measured]) {
    let tenths = |way: &Measured| (way.relative_uncertainty() * 1000.0).round();
    let before = |a: &Measured, b: &Measured| {
        let finer = a.relative_uncertainty().total_cmp(&b.relative_uncertainty());
        let order = tenths(a)
            .total_cmp(&tenths(b))
            .then(a.steps().cmp(&b.steps()))
            .then(finer);
        order.is_lt()
    };
    sort(all, before);
}

/// Whether two instruments are used where one of them measures as well by itself.
fn is_needless(way: &Measured, alone: &[(&Instrument, f64)]) -> bool {
    let Way::Draw(draws) = &way.way else {
        return false;
    };
    let one_does = |draws: &Draws| {
        let own = alone
            .iter()
            .find(|(instrument, _)| std::ptr::eq(*instrument, draws.instrument));
        own.is_some_and(|(_, relative)| *relative <= way.relative_uncertainty())
    };
    draws.len() > 1 && draws.iter().any(one_does)
}

/// The best split over the fewest draws of one instrument: equal draws on a mark and a last one for the rest.
pub(super) fn one_instrument(
    instrument: &Instrument,
    wanted: Volume,
    from_20: TemperatureDifference,
) -> Option<Draws<'_>> {
    let most = instrument.delivered_at(instrument.capacity);
    let count = (wanted / most - 1e-9).ceil().max(1.0);
    if count > f64::from(MOST_DRAWS) {
        return None;
    }
    let fills = count as u32 - 1;
    if fills == 0 {
        return instrument.can_draw(wanted).then_some(Draws::once(instrument, wanted));
    }
    marks(instrument)
        .filter_map(|to| split(instrument, wanted, fills, to))
        .map(|draws| (combined(&draws, from_20), draws))
        .reduce(lesser)
        .map(|(_, draws)| draws)
}

fn split(instrument: &Instrument, wanted: Volume, fills: u32, to: Volume) -> Option<Draws<'_>> {
    let rest = wanted - to * f64::from(fills);
    if !instrument.can_draw(to) || !instrument.can_draw(rest) {
        return None;
    }
    // Of two different draws the larger comes first.
    let (to, rest) = match fills == 1 && rest > to {
        true => (rest, to),
        false => (to, rest),
    };
    let same = (rest - to).millilitres().abs() < 1e-9;
    Some(Draws {
        instrument,
        fills: if same { fills + 1 } else { fills },
        to,
        rest: (!same).then_some(rest),
    })
}

/// For each pair the best split: draws on a mark of one, one draw of the other for the rest; the larger volume first.
fn two_instruments<'a>(
    instruments: &[&'a Instrument],
    wanted: Volume,
    from_20: TemperatureDifference,
) -> Vec<Measured<'a>> {
    let useful: Vec<&Instrument> = instruments
        .iter()
        .copied()
        .filter(|instrument| instrument.kind != InstrumentKind::Jug)
        .collect();
    let mut best = Vec::new();
    for (index, &one) in useful.iter().enumerate() {
        for &other in &useful[index + 1..] {
            let splits = [(one, other), (other, one)].into_iter().flat_map(|(first, second)| {
                (1..MOST_DRAWS).flat_map(move |fills| likely_marks(first, second, wanted, fills))
            });
            let split = splits
                .map(|pair| (pair_combined(&pair, from_20), pair))
                .reduce(lesser)
                .map(|(_, pair)| pair);
            best.extend(split.map(|mut split| {
                if split[0].volume() < split[1].volume() {
                    split.swap(0, 1);
                }
                measured(split.to_vec(), from_20)
            }));
        }
    }
    best
}

/// Splits at the three highest and the three lowest marks that leave something the second instrument can draw, and where one
/// of the two is half full: the best split leaves as much as possible to one of the two, or stands where a syringe's limit
/// bends.
fn likely_marks<'a>(
    first: &'a Instrument,
    second: &'a Instrument,
    wanted: Volume,
    fills: u32,
) -> impl Iterator<Item = [Draws<'a>; 2]> {
    let times = f64::from(fills);
    let step = first.graduation;
    let most = first.capacity.min(first.mark_for((wanted - second.graduation) / times));
    let least = first.mark_for((wanted - second.capacity) / times).max(step);
    let (low, high) = ((least / step - 1e-9).ceil(), (most / step + 1e-9).floor());
    let half = (first.capacity / 2.0 / step).floor();
    let other_half = (first.mark_for((wanted - second.capacity / 2.0) / times) / step).floor();
    let numbers = [
        [high, high - 1.0, high - 2.0],
        [low, low + 1.0, low + 2.0],
        [half, other_half, other_half + 1.0],
    ]
    .concat();
    numbers
        .into_iter()
        .filter(move |&number| number >= low.max(1.0) && number <= high)
        .filter_map(move |number| {
            let to = first.delivered_at(step * number);
            let rest = wanted - to * times;
            (first.can_draw(to) && second.can_draw(rest)).then_some([
                Draws {
                    instrument: first,
                    fills,
                    to,
                    rest: None,
                },
                Draws::once(second, rest),
            ])
        })
}

fn weighed<'a>(
    balance: &'a Balance,
    wanted: Volume,
    density: MassDensity,
    from_20: TemperatureDifference,
) -> Option<Measured<'a>> {
    let mass = density * wanted;
    if mass > balance.capacity || mass < balance.readability * 2.0 {
        return None;
    }
    let weight = Weight::on(balance, mass)?;
    let rho = density.grams_per_millilitre();
    let limit = |relative: f64| wanted.millilitres() * relative / 3f64.sqrt();
    Some(Measured {
        way: Way::Weigh {
            balance,
            mass: weight.portion,
            density,
        },
        volume: wanted,
        errors: VolumeErrors::alone(&[
            ("the balance's steps", weight.uncertainty.grams() / rho),
            ("the density", limit(DENSITY_HALF_WIDTH / rho)),
            // A density is stated at 20 °C, so that here the temperature errs by itself.
            ("the temperature", limit(EXPANSION * from_20.kelvins().abs())),
        ]),
    })
}

/// The best first dilution made up on a mark of a cylinder: from a full instrument, a half one or, with `any_mark`, as much as
/// may be wasted; taken with any instrument.
fn prediluted<'a>(
    instruments: &[&'a Instrument],
    wanted: Volume,
    from_20: TemperatureDifference,
    any_mark: bool,
) -> impl Iterator<Item = Measured<'a>> {
    let takes = PREDILUTIONS.map(|times| {
        let one = |instrument: &&'a Instrument| one_instrument(instrument, wanted * times, from_20);
        (times, instruments.iter().filter_map(one).collect::<Vec<_>>())
    });
    let mut best: Option<Measured> = None;
    for &vessel in instruments.iter().filter(|i| i.kind == InstrumentKind::Cylinder) {
        for &first in instruments {
            let affordable = first.mark_for(wanted * (1.0 + MOST_WASTE)) / first.graduation;
            let affordable = first.graduation * (affordable + 1e-9).floor();
            let marks = [
                Some(first.capacity),
                Some(first.capacity / 2.0),
                any_mark.then_some(affordable),
            ];
            for volume in marks.into_iter().flatten().map(|mark| first.delivered_at(mark)) {
                for (times, takes) in &takes {
                    let Some(made) = made_first(first, volume, vessel, volume * *times, wanted) else {
                        continue;
                    };
                    for take in takes {
                        let way = predilution(made, vessel, *take, wanted, from_20);
                        if best
                            .as_ref()
                            .is_none_or(|best| way.relative_uncertainty() < best.relative_uncertainty())
                        {
                            best = Some(way);
                        }
                    }
                }
            }
        }
    }
    best.into_iter()
}

/// The concentrate for a first dilution, and its volume; `None` where it cannot be measured so, or wastes too much.
fn made_first<'a>(
    first: &'a Instrument,
    volume: Volume,
    vessel: &Instrument,
    made_up: Volume,
    wanted: Volume,
) -> Option<(Draws<'a>, Volume)> {
    let waste = volume - wanted;
    let fits = first.can_draw(volume) && vessel.can_draw(made_up) && vessel.on_mark(made_up);
    let sparing = waste >= Volume::ZERO && waste <= wanted * (MOST_WASTE + 1e-9);
    (fits && sparing).then_some((Draws::once(first, volume), made_up))
}

fn predilution<'a>(
    (concentrate, made_up): (Draws<'a>, Volume),
    vessel: &'a Instrument,
    take: Draws<'a>,
    wanted: Volume,
    from_20: TemperatureDifference,
) -> Measured<'a> {
    let ml = wanted.millilitres();
    let part = |draws: &Draws<'a>| (ml / draws.volume().millilitres(), VolumeErrors::of(draws, from_20));
    let (of_concentrate, concentrate_errors) = part(&concentrate);
    let (of_vessel, vessel_errors) = part(&Draws::once(vessel, made_up));
    let (of_take, take_errors) = part(&take);
    Measured {
        volume: wanted,
        errors: VolumeErrors::default()
            .and(of_concentrate, &concentrate_errors)
            .and(-of_vessel, &vessel_errors)
            .and(of_take, &take_errors),
        way: Way::Predilute {
            waste: concentrate.volume() - wanted,
            concentrate,
            vessel,
            made_up,
            take,
        },
    }
}

fn measured(draws: Vec<Draws<'_>>, from_20: TemperatureDifference) -> Measured<'_> {
    let all = draws.iter().map(|draws| VolumeErrors::of(draws, from_20));
    Measured {
        volume: draws.iter().map(Draws::volume).sum(),
        errors: all.fold(VolumeErrors::default(), |sum, errors| sum.and(1.0, &errors)),
        way: Way::Draw(draws),
    }
}

/// The one with the smaller number before it; of equals the first.
fn lesser<T>(a: (f64, T), b: (f64, T)) -> (f64, T) {
    if b.0 < a.0 { b } else { a }
}

/// From the highest down, so that of equally good splits the one with the fullest draws is found first.
fn marks(instrument: &Instrument) -> impl Iterator<Item = Volume> {
    let count = (instrument.capacity / instrument.graduation + 1e-9).floor() as u32;
    (1..=count)
        .rev()
        .map(move |number| instrument.delivered_at(instrument.graduation * f64::from(number)))
}

fn combined(draws: &Draws, from_20: TemperatureDifference) -> f64 {
    draws.spread(from_20).combined().millilitres()
}

fn pair_combined(pair: &[Draws; 2], from_20: TemperatureDifference) -> f64 {
    pair[0]
        .spread(from_20)
        .and(pair[1].spread(from_20))
        .combined()
        .millilitres()
}
