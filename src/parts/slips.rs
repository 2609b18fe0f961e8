//! What a slip of the concentrate does to the negative, beside what the hand repeats anyway, and the error budget.

use super::{assumption, progress_assumption};
use crate::chemistry::Guess;
use crate::development::{Band, Cause, ErrorBudget, Parameter, Slip, SlipLaw, Uncertain};
use crate::kit::{House, Kit, VolumeErrors};
use crate::quantity::{Span, TemperatureDifference, Units, Volume};
use crate::sheet::{Bar, Figure, Item, Picture, Table};

/// How well the bath is measured.
pub struct Precision {
    /// Volume of concentrate.
    pub concentrate: Volume,
    /// Standard uncertainty of the concentration by volume as a share of it, by what is measured: the concentrate, the whole.
    parts: [f64; 2],
    /// Relative change of the concentration with the concentrate, per millilitre.
    slope: f64,
}

/// A volume that was measured, and what is uncertain about it.
pub type MeasuredVolume<'a> = (Volume, &'a VolumeErrors<'a>);

impl Precision {
    /// Water filled up to the total: c = concentrate / total.
    pub fn made_up((concentrate, errors): MeasuredVolume, (total, of_total): MeasuredVolume) -> Self {
        let (a, t) = (concentrate.millilitres(), total.millilitres());
        Self::new(concentrate, (1.0 / a, errors), (-1.0 / t, of_total))
    }

    /// Water measured by itself: c = concentrate / (concentrate + what else was poured in + water). What else was poured in, a
    /// second concentrate or the water of a first dilution, is taken as exact.
    pub fn added((concentrate, errors): MeasuredVolume, other: Volume, (water, of_water): MeasuredVolume) -> Self {
        let (a, all) = (concentrate.millilitres(), (concentrate + other + water).millilitres());
        Self::new(concentrate, (1.0 / a - 1.0 / all, errors), (-1.0 / all, of_water))
    }

    /// Standard uncertainty of the concentration, relative.
    pub fn relative_uncertainty(&self) -> f64 {
        self.parts[0].hypot(self.parts[1])
    }

    /// From the slopes of the logarithm of the concentration. What errs alike in both cancels, and takes its share of both.
    fn new(
        concentrate: Volume,
        (slope, errors): (f64, &VolumeErrors),
        (of_whole, whole): (f64, &VolumeErrors),
    ) -> Self {
        let relative = |slope: f64, errors| VolumeErrors::default().and(slope, errors);
        let first = relative(slope, errors);
        let parts = [first.combined(), relative(of_whole, whole).combined()];
        let apart = parts[0].hypot(parts[1]);
        let together = first.and(of_whole, whole).combined();
        let share = if apart > 0.0 { together / apart } else { 0.0 };
        Self {
            concentrate,
            parts: parts.map(|part| part * share),
            slope,
        }
    }

    /// Relative contribution of the concentrate (0) or of the whole (1) to the uncertainty of the concentration.
    fn part(&self, index: usize) -> f64 {
        self.parts[index]
    }

    /// Relative change of the concentration when the concentrate is off by a volume.
    fn change(&self, volume: Volume) -> f64 {
        self.slope * volume.millilitres()
    }
}

/// Where the change of contrast becomes noticeable in a negative (photographic practice, from memory): 5 %.
const NOTICEABLE: f64 = 0.05;

/// The table of slips, the verdict and the budget; and the assumptions that they rest on.
pub fn slips(law: &SlipLaw, precision: &Precision, kit: &Kit) -> (Vec<Item>, Vec<Item>) {
    let house = &kit.house_at(law.temperature);
    let units = house.units;
    let one = units.volume_unit()
        * if units.volume_unit().millilitres() > 1.0 {
            0.05
        } else {
            1.0
        };
    let by_hand = 2.0 * precision.part(0);
    let by_one = precision.change(one);
    let mut found = Vec::new();
    for (name, label, error) in [
        ("slip_one", format!("{} of concentrate", units.volume(one)), by_one),
        ("slip_plan", "the best way's ± (95 %)".to_owned(), by_hand),
    ] {
        if error > 0.0 && error < 1.0 {
            found.push((name, label, law.slip(error)));
        }
    }
    // A column is full or absent.
    let by_temperature = found.iter().all(|(_, _, slip)| slip.kelvins.is_some());
    let rows = found
        .into_iter()
        .map(|(name, label, mut slip)| {
            slip.kelvins = slip.kelvins.filter(|_| by_temperature);
            (label, slip_figures(name, &slip, units))
        })
        .collect();
    let one_slip = law.slip(by_one.min(0.99));
    let mut items = vec![Item::Table(Table {
        heads: ["Off by", "strength", "as time", "as temperature", "contrast"]
            .into_iter()
            .filter(|head| law.time.is_some() || *head != "as time")
            .filter(|head| by_temperature || *head != "as temperature")
            .map(str::to_owned)
            .collect(),
        rows,
    })];
    if by_one < 1.0 {
        items.push(Item::Text(verdict(&one_slip, one, house)));
    }
    items.extend(budget(&error_budget(law, precision, house), units));
    (items, unmeasured(law, house))
}

/// The error budget of a bath that is measured so well, in a house that develops so well.
pub(super) fn error_budget(law: &SlipLaw, precision: &Precision, house: &House) -> ErrorBudget {
    let uncertain = Uncertain {
        concentrate: precision.part(0),
        total: precision.part(1),
        temperature: house.thermometer / 3f64.sqrt(),
        time: house.timing / 3f64.sqrt(),
        hand: house.hand / 100.0,
    };
    ErrorBudget::new(law, &uncertain)
}

fn slip_figures(name: &str, slip: &Slip, units: Units) -> Vec<Figure> {
    let banded = |band: Band, make: &dyn Fn(f64) -> Figure| match band.least == band.most {
        true => make(band.value),
        false => make(band.value)
            .between(&make(band.least).shown, &make(band.most).shown)
            .assumed(),
    };
    let percent = Figure::percent(format!("{name}_percent"), "strength", slip.concentration, units);
    let seconds = |value| Figure::seconds(format!("{name}_seconds"), "as time", Span::from_seconds(value), units);
    let degrees = |value| {
        let difference = TemperatureDifference::from_kelvins(value);
        Figure::temperature_difference(format!("{name}_degrees"), "as temperature", difference, units)
    };
    let contrast = |value| Figure::percent(format!("{name}_contrast"), "contrast", value, units);
    [
        Some(percent),
        slip.seconds.map(|band| banded(band, &seconds)),
        slip.kelvins.map(|band| banded(band, &degrees)),
        Some(banded(slip.contrast, &contrast)),
    ]
    .into_iter()
    .flatten()
    .collect()
}

/// The slip of one unit, in words: beside what the hand repeats, and what an eye notices.
fn verdict(slip: &Slip, one: Volume, house: &House) -> String {
    let units = house.units;
    let hand = house.hand / 100.0;
    let contrast = slip.contrast;
    let amount = units.volume(one);
    let repeats = units.percent(hand);
    if contrast.most < hand {
        format!("{amount} more or less is lost in what a hand process repeats anyway ({repeats} of contrast).")
    } else if contrast.least > NOTICEABLE {
        format!("{amount} more or less shows plainly: it is well beyond what the hand repeats ({repeats} of contrast).")
    } else if contrast.value > hand {
        format!(
            "{amount} more or less can be seen on the negative, laid beside one without it: it is more than the hand repeats ({repeats} \
             of contrast)."
        )
    } else {
        format!("{amount} more or less may show: it is about what the hand repeats ({repeats} of contrast).")
    }
}

fn budget(budget: &ErrorBudget, units: Units) -> Vec<Item> {
    let mut items = vec![
        Item::Figure(repeats(budget, units)),
        Item::Picture(shares_drawn(
            budget,
            "What makes two negatives differ: shares of the error budget",
            units,
        )),
    ];
    items.extend(worth_mending(budget).map(Item::Text));
    items
}

/// What contrast repeats to.
pub(super) fn repeats(budget: &ErrorBudget, units: Units) -> Figure {
    Figure::percent(
        "contrast_uncertainty",
        "Contrast repeats to (standard uncertainty)",
        budget.combined(),
        units,
    )
    .assumed()
}

/// Each cause's share of the budget.
pub(super) fn shares_drawn(budget: &ErrorBudget, caption: &str, units: Units) -> Picture {
    let shares = budget.shares();
    let bars = shares.iter().map(|&(cause, share)| Bar {
        label: label(cause).to_owned(),
        share,
        shown: units.percent(share),
    });
    Picture::Bars {
        caption: caption.to_owned(),
        bars: bars.collect(),
    }
}

/// What to mend first.
pub(super) fn worth_mending(budget: &ErrorBudget) -> Option<String> {
    let (cause, share) = budget.worth_mending()?;
    let hand = budget.shares().into_iter().find(|(cause, _)| *cause == Cause::Hand);
    Some(match share > hand.map_or(0.0, |(_, share)| share) {
        true => format!("Worth mending first: {}. {}", label(cause), advice(cause)),
        false => format!(
            "Nothing measured is worth mending: the hand itself is the largest part. Next would be {}.",
            label(cause)
        ),
    })
}

/// A cause, in words.
pub(super) fn label(cause: Cause) -> &'static str {
    match cause {
        Cause::Concentrate => "the concentrate",
        Cause::Total => "the total",
        Cause::Temperature => "the thermometer",
        Cause::Time => "starting and stopping",
        Cause::Hand => "the hand",
    }
}

/// What to do about it.
pub(super) fn advice(cause: Cause) -> &'static str {
    match cause {
        Cause::Concentrate => "Measure it in a better way, put it on a mark, or weigh it.",
        Cause::Total => "Measure the total in a cylinder that just holds it.",
        Cause::Temperature => "Compare your thermometer with a better one, and say in Kit how good it is.",
        Cause::Time => "Pour the same way each time, or take a thinner dilution with a longer time.",
        Cause::Hand => "Agitate by the clock, always alike.",
    }
}

/// What the budget rests on that nobody measured.
pub(super) fn unmeasured(law: &SlipLaw, house: &House) -> Vec<Item> {
    let units = house.units;
    let default = House::default();
    let thermometer = house.thermometer.kelvins();
    let timing = house.timing.seconds();
    [
        progress_assumption(law.progress, units),
        hand_assumption(house),
        assumption(
            Figure::number(
                "assumed_thermometer",
                "The thermometer is good to, ± °C",
                thermometer,
                2,
                units,
            ),
            limit(
                house.thermometer == default.thermometer,
                thermometer,
                0.1,
                1.0,
                "as darkroom thermometers are; set yours in Kit",
            ),
            "thermometer",
            units,
        ),
        assumption(
            Figure::number(
                "assumed_timing",
                "Starting and stopping are good to, ± s",
                timing,
                1,
                units,
            ),
            limit(
                house.timing == default.timing,
                timing,
                5.0,
                20.0,
                "a small tank takes 10 to 20 s to fill; set yours in Kit",
            ),
            "timing",
            units,
        )
        .filter(|_| law.time.is_some()),
    ]
    .into_iter()
    .flatten()
    .collect()
}

/// What the hand repeats contrast to, where it stands as it stood at first.
pub(super) fn hand_assumption(house: &House) -> Option<Item> {
    let units = house.units;
    assumption(
        Figure::number("assumed_hand", "The hand repeats contrast to, %", house.hand, 1, units),
        limit(
            house.hand == House::default().hand,
            house.hand,
            1.0,
            4.0,
            "what careful hands repeat, in percent of contrast; set it in Kit",
        ),
        "hand",
        units,
    )
}

/// A limit of the house: assumed as long as it is the first one.
fn limit(is_default: bool, value: f64, least: f64, most: f64, why: &'static str) -> Parameter {
    let guess = Guess {
        value,
        least,
        most,
        why,
    };
    Parameter::given_or((!is_default).then_some(value), guess)
}
