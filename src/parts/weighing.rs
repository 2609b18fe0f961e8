//! An instrument weighed with water: what the form and the kit say of it, and what it comes to.

use super::{assumption_of, text};
use crate::chemistry::{Guess, water_density};
use crate::development::Parameter;
use crate::fields::{self, Form, Stuff};
use crate::kit::{
    Calibration, Draws, Grade, Instrument, InstrumentKind, Kept, Kit, Tolerance, Verdict, Weighed, Weighing, verdict,
    z_factor,
};
use crate::quantity::{Day, Mass, Temperature, TemperatureDifference, Units, Volume, bounds};
use crate::sheet::{Bar, Figure, Item, Picture, Sheet, Table};

/// An instrument of the kit, weighed.
pub struct WeighedInstrument {
    kept: Kept<Instrument>,
    weighing: Weighing,
    /// The balance's steps are those of a balance of the kit.
    balance: Option<String>,
}

/// So far from the mark no instrument is: the weight or the mark is another.
const FAR: f64 = 0.2;
/// So many weighings are worth doing; ISO 8655-6 asks for ten.
const ENOUGH: usize = 10;
/// No one weighs more often than this.
const MOST: usize = 50;

const BALANCE_ERROR: Guess = Guess {
    value: 0.1,
    least: 0.02,
    most: 0.5,
    why: "as cheap balances are that nobody checked with a weight (common practice, no source)",
};
const PRESSURE: Guess = Guess {
    value: 1013.0,
    least: 800.0,
    most: 1040.0,
    why: "from a town at 2000 m to a fine day by the sea",
};
const EVAPORATED: Guess = Guess {
    value: 0.003,
    least: 0.0,
    most: 0.01,
    why: "still water in a cup loses some milligrams in a minute (from memory)",
};

/// Growth of the volume for a kelvin: of plastics as of polypropylene and polyethylene, and of two glasses (ISO 4787, from
/// memory).
fn expansion(stuff: Stuff) -> Guess {
    let (value, least, most) = match stuff {
        Stuff::Plastic => (3.0e-4, 2.0e-4, 4.5e-4),
        Stuff::Borosilicate => (9.9e-6, 9.0e-6, 1.1e-5),
        Stuff::SodaLime => (2.7e-5, 2.4e-5, 3.0e-5),
    };
    let why = "plastics and glasses differ in it (ISO 4787, from memory)";
    Guess {
        value,
        least,
        most,
        why,
    }
}

impl WeighedInstrument {
    /// What the form says, and the kit; `None` where that does not suffice.
    pub fn read(form: &mut Form, kit: &Kit) -> Option<Self> {
        let id = form.read(&fields::INSTRUMENT);
        let kept = match &id {
            Some(id) => kit.instruments.iter().find(|kept| kept.id == *id),
            None => kit.instruments.first(),
        };
        match (&id, kept) {
            (Some(_), None) => form.fault("instrument", "there is no such instrument in the kit"),
            (None, None) => form.fault("instrument", "there is no instrument in the kit; add one there first"),
            _ => {}
        }
        let typed_mark = form.read(&fields::MARKED);
        let masses = form.read(&fields::WATER_MASSES);
        let water = form.read(&fields::WATER_TEMPERATURE);
        let typed_step = form.read(&fields::BALANCE_STEP);
        let stuff = form.read(&fields::STUFF);
        let pressure = Parameter::given_or(form.read(&fields::PRESSURE), PRESSURE);
        let balance_error = Parameter::given_or(form.read(&fields::BALANCE_ERROR), BALANCE_ERROR);
        let evaporated = form.read(&fields::EVAPORATED).map(Mass::grams);
        let kept = kept?.clone();
        let item = &kept.item;
        let marked = typed_mark.unwrap_or(item.capacity);
        let units = form.units();
        if marked > item.capacity {
            form.fault(
                "marked",
                &format!(
                    "the highest mark of the {} is {}",
                    item.name,
                    units.volume(item.capacity)
                ),
            );
            return None;
        }
        let (masses, water) = (masses?, water?);
        let heaviest = masses.iter().copied().fold(Mass::ZERO, Mass::max);
        let balances = kit.balances.iter().map(|kept| &kept.item);
        let able = balances.filter(|balance| balance.capacity >= heaviest);
        let finest = able.min_by(|a, b| a.readability.grams().total_cmp(&b.readability.grams()));
        let balance_step = typed_step.or(finest.map(|balance| balance.readability));
        if balance_step.is_none() && !form.at_fault("balance_step") {
            form.fault(
                "balance_step",
                "no balance of the kit weighs so much; type the smallest step that yours shows",
            );
        }
        let stuff_or_usual = stuff.unwrap_or(match item.kind {
            InstrumentKind::Syringe | InstrumentKind::Cylinder | InstrumentKind::Jug => Stuff::Plastic,
            _ => Stuff::Borosilicate,
        });
        let expansion = Parameter::given_or(None, expansion(stuff_or_usual));
        let weighing = Weighing {
            marked,
            masses,
            water: kit.corrected(water),
            water_uncertainty: kit.thermometer_limit(water) / 3f64.sqrt(),
            pressure,
            expansion,
            balance_step: balance_step?,
            balance_error: balance_error.map(|percent| percent / 100.0),
            evaporated: Parameter::given_or(evaporated, EVAPORATED),
        };
        let one = Self {
            balance: finest
                .filter(|_| typed_step.is_none())
                .map(|balance| balance.name.clone()),
            kept,
            weighing,
        };
        one.plausible(form).then_some(one)
    }

    /// Whether these masses can be what was delivered to that mark; else a fault says which cannot.
    fn plausible(&self, form: &mut Form) -> bool {
        let units = form.units();
        let marked = self.weighing.marked;
        let far = |mass: &&Mass| (self.weighing.volume_of(**mass) / marked - 1.0).abs() > FAR;
        if let Some(mass) = self.weighing.masses.iter().find(far) {
            form.fault(
                "masses",
                &format!(
                    "{} of water is no {}: is the mark right, was the empty cup taken off, are these grams?",
                    units.mass(*mass),
                    units.volume(marked)
                ),
            );
            return false;
        }
        if self.weighing.masses.len() < 2 {
            form.fault(
                "masses",
                "one weighing cannot tell how well you repeat it; weigh at least twice, better ten times",
            );
            return false;
        }
        true
    }

    fn item(&self) -> &Instrument {
        &self.kept.item
    }

    /// The limit of error that its kind has without a calibration.
    fn standard(&self) -> Tolerance {
        match self.item().tolerance {
            Tolerance::Calibrated { .. } => {
                Tolerance::by_standard(self.item().kind, Grade::B).unwrap_or(Tolerance::GUIDE)
            }
            limit => limit,
        }
    }
}

/// What the weighing found, and what the kit keeps of it.
pub fn weighing(sheet: &mut Sheet, one: &WeighedInstrument, today: Day, units: Units) {
    let WeighedInstrument { weighing, .. } = one;
    let item = one.item();
    let marked = weighing.marked;
    let Some(found) = weighing.found() else { return };
    let mut better = item.clone();
    better.tolerance = found.tolerance();
    let standard = one.standard();
    let limit = standard.half_width(item.capacity, marked);
    let verdict = found.against(limit);

    let delivered = Volume::from_millilitres(found.delivered.value());
    let u = found.uncertainty;
    let aim = Some(better.mark_for(marked));
    sheet.title = format!("The {} at {}", item.name, units.volume(marked));
    sheet.headline = vec![
        Figure::volume("delivered", "It delivers", delivered, units)
            .measured_to(u, units)
            .assumed(),
        Figure {
            shown: units.volume_error(found.bias),
            ..Figure::volume("bias", "Delivered less marked", found.bias, units)
        }
        .measured_to(u, units)
        .assumed(),
        Figure::word("verdict", "Its limit of error", verdict as usize, word(verdict)),
    ];
    let by_limit = Instrument {
        tolerance: standard,
        ..item.clone()
    };
    let [before, after] = [&by_limit, &better].map(|instrument| of_one_draw(instrument, marked));
    // A limit that it does not keep is no better figure, however narrow it is.
    let is_better = after < before || verdict == Verdict::Outside;
    let mut to_do = advice(one, &found, limit, aim.filter(|_| is_better), units);
    if !is_better {
        let error = |u: Volume| units.volume_error(u * 2.0);
        to_do.push(Item::Caution(format!(
            "Its limit of error is the better figure: by it one draw is good to ± {}, and by these weighings to ± {}. So nothing is \
             kept of them. Weigh more often, ten times if you can, or on a finer balance.",
            error(before),
            error(after)
        )));
    }
    sheet.part("What to do", to_do);
    sheet.part("What it gains", gains(before, after, marked, units));
    sheet.part("What was weighed", weighed(one, &found, units));
    sheet.background("What makes it uncertain", budget(&found, units));
    sheet.background("How to weigh", vec![text(HOW)]);
    sheet.background("Nobody measured this", unmeasured(one, units));
    if is_better && bounds::BIAS.holds(found.bias.millilitres()) {
        sheet.calibration = Some(Calibration::Instrument {
            id: one.kept.id.clone(),
            tolerance: found.tolerance(),
            on: today,
        });
    }
}

/// How it is done, where there is nothing to tell yet.
pub fn how_to_weigh(sheet: &mut Sheet) {
    sheet.part("How to weigh", vec![text(HOW)]);
}

const HOW: &str = "Let water and instrument stand in the room for an hour. Set an empty cup on the balance to zero, fill the \
                   instrument to the mark as you always do, empty it into the cup, and write down what the balance shows. Empty \
                   and dry the cup, or set it to zero again as it is. Do not rinse the nozzle. Ten times is enough.";

fn word(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::Within => "kept",
        Verdict::Outside => "not kept",
        Verdict::CannotTell => "cannot tell yet",
    }
}

/// Standard uncertainty of one draw to that mark.
fn of_one_draw(instrument: &Instrument, marked: Volume) -> Volume {
    Draws::once(instrument, marked)
        .spread(TemperatureDifference::ZERO)
        .combined()
}

/// `aim` is where to fill to, if what was found is to be used.
fn advice(one: &WeighedInstrument, found: &Weighed, limit: Volume, aim: Option<Volume>, units: Units) -> Vec<Item> {
    let weighing = &one.weighing;
    let marked = units.volume(weighing.marked);
    let mut items = Vec::new();
    if let Some(aim) = aim {
        items.push(Item::Figure(
            Figure::volume("fill_to", format!("For {marked}, fill to"), aim, units).assumed(),
        ));
    }
    let limit_shown = units.volume_error(limit);
    items.push(Item::Text(match found.against(limit) {
        Verdict::Within if aim.is_none() => format!("It keeps its limit of ± {limit_shown}."),
        Verdict::Within => format!("It keeps its limit of ± {limit_shown}. Use what you found all the same: it is nearer."),
        Verdict::Outside => format!(
            "It does not keep its limit of ± {limit_shown}. Use what you found from now on, or put it away and take another."
        ),
        Verdict::CannotTell => match enough(one, found, limit) {
            Some(count) => format!(
                "Whether it keeps its limit of ± {limit_shown} cannot be told yet. If it goes on like this, {count} weighings in all \
                 will tell."
            ),
            None => format!(
                "Whether it keeps its limit of ± {limit_shown} cannot be told with this balance, however often you weigh: the \
                 error lies too near the limit."
            ),
        },
    }));
    if weighing.masses.len() < ENOUGH {
        items.push(Item::Text(format!(
            "{} weighings say little of how well you repeat it; ten say enough.",
            weighing.masses.len()
        )));
    }
    items.push(Item::Text(format!(
        "This was found at {marked}. The kit takes the same error for every mark, so weigh the mark that you use most. Weigh it \
         again in a year, or when the print wears."
    )));
    if !bounds::BIAS.holds(found.bias.millilitres()) {
        items.push(text("So large an error is not kept: use another instrument."));
    }
    items
}

/// How many weighings like these would tell; `None` where none would.
fn enough(one: &WeighedInstrument, found: &Weighed, limit: Volume) -> Option<usize> {
    (one.weighing.masses.len() + 1..=MOST).find(|&count| {
        let u = one.weighing.uncertainty_of(count);
        u.is_some_and(|u| verdict(found.bias, u, limit) != Verdict::CannotTell)
    })
}

fn gains(before: Volume, after: Volume, marked: Volume, units: Units) -> Vec<Item> {
    let row = |name: &str, label: &str, u: Volume| {
        let figure = Figure::volume(format!("{name}_u"), "± (95 %)", u * 2.0, units);
        let figure = Figure {
            shown: units.volume_error(u * 2.0),
            ..figure
        };
        let share = Figure::percent(format!("{name}_share"), "of it", u * 2.0 / marked, units);
        (label.to_owned(), vec![figure, share])
    };
    let heads = ["One draw", "± (95 %)", "of it"];
    vec![Item::Table(Table {
        heads: heads.map(str::to_owned).to_vec(),
        rows: vec![
            row("before", "by its limit of error", before),
            row("after", "by your weighing", after),
        ],
    })]
}

fn weighed(one: &WeighedInstrument, found: &Weighed, units: Units) -> Vec<Item> {
    let weighing = &one.weighing;
    let count = weighing.masses.len();
    let mean = weighing.masses.iter().copied().sum::<Mass>() / count as f64;
    let number = |name: &'static str, label: &'static str, value: f64, places| {
        Item::Figure(Figure::number(name, label, value, places, units))
    };
    let z = z_factor(weighing.water, weighing.pressure.value);
    let mut items = vec![
        number("count", "Weighings", count as f64, 0),
        Item::Figure(Figure {
            shown: format!("{} g", units.number(mean.grams(), 3)),
            ..Figure::mass("mean", "Mean weight", mean, units)
        }),
        Item::Figure(Figure {
            shown: units.volume_error(found.scatter),
            ..Figure::volume("scatter", "You repeat it to (standard deviation)", found.scatter, units)
        }),
        Item::Figure(Figure {
            shown: units.volume_error(found.repeatability),
            ..Figure::volume(
                "repeatability",
                "Kept as, for so many weighings and such steps",
                found.repeatability,
                units,
            )
        }),
        number(
            "density",
            "Density of the water, kg/m³",
            water_density(weighing.water),
            2,
        ),
        number("z", "Millilitres to a gram (Z)", z, 4),
    ];
    if let Some(name) = &one.balance {
        items.push(Item::Text(format!(
            "The balance's steps of {} g are those of the {name}.",
            units.number(weighing.balance_step.grams(), 4)
        )));
    }
    let step = weighing.balance_step.grams();
    let off_step = |mass: &Mass| (mass.grams() / step - (mass.grams() / step).round()).abs() > 0.01;
    if weighing.masses.iter().any(off_step) {
        items.push(text(
            "Some weights are written finer than those steps: say in “Your balance shows steps of” which balance it was.",
        ));
    }
    if found.scatter == Volume::ZERO {
        items.push(text(
            "All weighings are the same: your balance's steps hide how well you repeat it. A finer balance would tell more.",
        ));
    }
    items
}

fn budget(found: &Weighed, units: Units) -> Vec<Item> {
    let bars = found.delivered.contributions().iter().map(|line| Bar {
        label: line.name.clone(),
        share: line.share,
        shown: units.percent(line.share),
    });
    vec![Item::Picture(Picture::Bars {
        caption: "What makes the mean uncertain: shares of its variance".to_owned(),
        bars: bars.collect(),
    })]
}

fn unmeasured(one: &WeighedInstrument, units: Units) -> Vec<Item> {
    let weighing = &one.weighing;
    let number =
        |name: &'static str, label: &'static str, value: f64, places| Figure::number(name, label, value, places, units);
    let percent = weighing.balance_error.map(|share| share * 100.0);
    let percent_shown = |value: f64| format!("{} %", units.number(value, 2));
    let milligrams = |grams: f64| units.milligrams(Mass::from_grams(grams));
    let hpa = |value: f64| format!("{} hPa", units.number(value, 0));
    let per_kelvin = |value: f64| format!("{} %", units.number(value * 1000.0, 3));
    let shown = |figure: Figure, shown: String| Figure { shown, ..figure };
    let far = (weighing.water - Temperature::from_celsius(20.0)).kelvins().abs() >= 0.5;
    [
        assumption_of(
            shown(
                number("assumed_balance_error", "Your balance is right to, ±", percent.value, 2),
                percent_shown(percent.value),
            ),
            percent,
            "balance_error",
            &percent_shown,
        ),
        assumption_of(
            Figure::milligrams(
                "assumed_evaporated",
                "Lost to the air each time",
                Mass::from_grams(weighing.evaporated.value),
                units,
            ),
            weighing.evaporated,
            "evaporated",
            &milligrams,
        ),
        assumption_of(
            shown(
                number("assumed_pressure", "Air pressure", weighing.pressure.value, 0),
                hpa(weighing.pressure.value),
            ),
            weighing.pressure,
            "pressure",
            &hpa,
        ),
        assumption_of(
            shown(
                number(
                    "assumed_expansion",
                    "It grows, for 10 °C, by",
                    weighing.expansion.value,
                    6,
                ),
                per_kelvin(weighing.expansion.value),
            ),
            weighing.expansion,
            "stuff",
            &per_kelvin,
        )
        .filter(|_| far),
    ]
    .into_iter()
    .flatten()
    .collect()
}
