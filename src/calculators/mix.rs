//! Mix: how much concentrate and water, measured with what, how exactly, whether it suffices, and how long to develop.
//!
//! Worked example: 600 ml at 1+31 is 600 / 32 = 18.75 ml of concentrate and 581.25 ml of water.

use super::Calculator;
use crate::chemistry::Class;
use crate::darkroom::Darkroom;
use crate::fields::{self, Choice, Field, Form};
use crate::kit::{Kit, Measured, Way, on_mark};
use crate::parts::{self, Bath, Conditions, Fill, Precision};
use crate::quantity::{Day, Dilution, Notation, Span, Units, Volume};
use crate::sheet::{Figure, Item, Sheet};

/// A mark is worth a detour only where it measures about as well as the best way.
const WORTH_A_MARK: f64 = 1.5;

/// In which way the water comes to the concentrate.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Method {
    /// Water up to the mark of the total.
    MadeUp,
    /// Water measured by itself.
    Added,
}

const METHOD: Field<Choice<Method>> = Field::new(
    "method",
    "The water is",
    Choice(&[
        ("made_up", "filled up to the total", Method::MadeUp),
        ("added", "measured by itself", Method::Added),
    ]),
)
.starting("made_up");

pub(super) const MIX: Calculator = Calculator {
    name: "mix",
    title: "How much concentrate and water, measured how, and how exactly",
    fields: &[
        &fields::BOTTLE,
        &fields::DILUTION,
        &fields::TOTAL,
        &fields::TEMPERATURE,
        &fields::TANK,
        &fields::FILMS_135,
        &fields::FILMS_120,
        &fields::FILMS_220,
        &fields::SHEETS_4X5,
        &fields::SHEETS_8X10,
        &fields::TIMES,
        &fields::LEAST_PER_FILM,
        &fields::CLASS,
        &fields::DENSITY,
        &fields::STRENGTH,
        &METHOD,
        &fields::EXPONENT,
        &fields::Q10,
        &fields::PROGRESS,
    ],
    examples: &[],
    run,
};

fn run(form: &mut Form, Darkroom { kit, shelf }: &Darkroom) -> Sheet {
    let units = form.units();
    let bath = Bath::read(form, kit);
    let bottle = bath.id.as_deref().and_then(|id| shelf.bottle(id));
    let total = form.read(&fields::TOTAL);
    let (load, tank) = parts::load(form, kit);
    let least_per_film = bath.least_per_film(form);
    let density = bath.density(form);
    let method = form.read(&METHOD).unwrap_or(Method::MadeUp);
    let progress = form.read(&fields::PROGRESS);
    let law = bath.law(form);

    let mut sheet = Sheet::default();
    let Some(dilution) = bath.dilution_needed(form) else {
        sheet.title = "A bath of unknown dilution".to_owned();
        sheet
            .headline
            .extend(total.map(|total| Figure::volume("total", "Total", total, units)));
        sheet.part("Does it fit", parts::filling(total, &load, tank, units));
        return sheet;
    };
    let timed = law.as_ref().zip(bath.temperature);
    let timed = timed.and_then(|(law, temperature)| bath.timed(law, temperature));
    let timed = timed.map(|timed| timed.timing(kit));
    let Some(total) = total else {
        sheet.title = format!("A bath of {dilution}");
        if let Some((figure, items)) = timed {
            sheet.headline.push(figure);
            sheet.part("How long", items);
        }
        sheet.part("Does it fit", parts::filling(None, &load, tank, units));
        return sheet;
    };

    let product = bath.bottle.map_or("bath", |bottle| bottle.product.as_str());
    let total_text = units.volume(total);
    sheet.title = match dilution {
        Dilution::Stock => format!("{total_text} of {product}, undiluted"),
        _ => format!("{total_text} of {product} at {dilution}"),
    };
    let conditions = Conditions {
        density,
        room: None,
        from_20: bath.from_20(),
        units,
    };
    let time_shown = timed.as_ref().map(|(figure, _)| figure.clone());
    let time = time_shown.as_ref().map(|figure| Span::from_seconds(figure.value));
    let mut plan = volumes(
        &mut sheet,
        dilution,
        total,
        (method, bath.class),
        kit,
        conditions,
        shelf.today,
    );
    sheet.headline.extend(time_shown);
    sheet.part("How it is read", reading(dilution, total, units));
    let doubts = parts::doubts(bottle, dilution.concentrates(total).first().copied(), units);
    sheet.alert(&doubts);
    sheet.part("The bottle", doubts);
    bath.say_thermometer(&mut plan.items, kit, shelf.today);
    sheet.alert(&plan.items);
    sheet.part("Measure it", plan.items);

    let fill = Fill {
        total,
        dilution,
        load: &load,
        tank,
        least_per_film,
        law: law.as_ref(),
        exponent: bath.slip_law(law.as_ref(), None, progress).exponent,
        temperature: bath.temperature,
        strength: bath.strength,
        is_developer: bath.class.is_developer(),
    };
    let share = dilution.first_share().filter(|_| bath.class.is_developer());
    if let Some(share) = share.filter(|_| plan.precision.is_some()) {
        let found = on_mark(kit, total, share, fill.range(), bath.from_20());
        if let Some(found) = found.filter(|found| share < 1.0 && found.after < plan.best * WORTH_A_MARK) {
            sheet.part("On a mark", parts::mark_part(&found, total, units));
        }
    }
    let mut fits = parts::filling(Some(total), &load, tank, units);
    if bath.class.is_developer() {
        fits.extend(parts::capacity(&fill, units));
    }
    sheet.alert(&fits);
    sheet.part("Does it fit, and is it enough", fits);
    match timed {
        Some((_, items)) => sheet.part("How long", items),
        None if bath.class.is_developer() && bath.times.is_empty() => {
            sheet.part("How long", parts::without_times(bath.assumed_q10(), units))
        }
        None => {}
    }
    let mut assumptions = law
        .as_ref()
        .map(|law| parts::law_assumptions(law, units))
        .unwrap_or_default();
    if let Some(precision) = plan.precision.filter(|_| bath.class.is_developer()) {
        let slip_law = bath.slip_law(law.as_ref(), time, progress);
        let (items, resting_on) = parts::slips(&slip_law, &precision, kit);
        sheet.part("What a slip does to the negative", items);
        if law.is_none() {
            assumptions.extend(parts::exponent_assumption(slip_law.exponent, units));
            assumptions.extend(parts::q10_assumption(bath.assumed_q10(), units));
        }
        assumptions.extend(resting_on);
    }
    sheet.part("Nobody measured this", assumptions);
    sheet.part("Take care", parts::care(bath.class, dilution.is_weighed()));
    sheet
}

/// The measuring plan, and how well the bath is measured by the best way.
struct Plan {
    items: Vec<Item>,
    /// Relative uncertainty of the best way to the concentrate.
    best: f64,
    precision: Option<Precision>,
}

fn volumes(
    sheet: &mut Sheet,
    dilution: &Dilution,
    total: Volume,
    (method, class): (Method, Class),
    kit: &Kit,
    conditions: Conditions,
    today: Day,
) -> Plan {
    let units = conditions.units;
    if let Dilution::Weighed(per_volume) = dilution {
        let mass = *per_volume * total;
        sheet.headline.push(Figure::mass("mass", "Weigh", mass, units));
        sheet.headline.push(Figure::volume("total", "Make up to", total, units));
        return Plan {
            items: weighing(mass, kit, units),
            best: 0.0,
            precision: None,
        };
    }
    let concentrates = dilution.concentrates(total);
    let water = total - concentrates.iter().copied().sum();
    let mut items = Vec::new();
    let mut poured_in = Vec::new();
    let mut taken = Volume::ZERO;
    for (index, &volume) in concentrates.iter().enumerate() {
        let (name, label) = match (index, concentrates.len()) {
            (_, 1) => ("concentrate", "Concentrate"),
            (0, _) => ("concentrate", "Concentrate A"),
            _ => ("concentrate_b", "Concentrate B"),
        };
        let mut figure = Figure::volume(name, label, volume, units);
        let room = Some(volume + water);
        let mut diluted = None;
        match parts::measure(kit, volume, Conditions { room, ..conditions }) {
            Ok(ways) => {
                let best = &ways[0];
                figure = with_error(figure, best, units);
                poured_in.push(of(best));
                if let Way::Predilute { take, .. } = &best.way {
                    let label = format!("{label}, as so much of a first dilution");
                    diluted = Some(Figure::volume(format!("{name}_diluted"), label, take.volume(), units));
                    taken = taken + take.volume();
                } else {
                    taken = taken + volume;
                }
                if concentrates.len() > 1 {
                    items.push(Item::Text(format!("{label}:")));
                }
                items.extend(parts::pictures(best, units));
                let names = if index == 0 { "way" } else { "way_b" };
                items.extend(parts::way_items(names, &ways, units, today));
            }
            Err(sentence) => {
                taken = taken + volume;
                items.push(Item::Caution(sentence));
            }
        }
        sheet.headline.push(figure);
        sheet.headline.extend(diluted);
    }
    let first = poured_in.first().copied();
    let best = first.map_or(f64::INFINITY, |(volume, u)| u / volume);
    if water <= Volume::ZERO {
        return Plan {
            items,
            best,
            precision: None,
        };
    }
    sheet.headline.push(Figure::volume("water", "Water", water, units));
    // A first dilution brings some of the water along.
    let to_add = total - taken;
    if to_add < water {
        sheet
            .headline
            .push(Figure::volume("water_left", "Of that, still to add", to_add, units));
    }
    let (whole, label) = match method {
        Method::MadeUp => (total, "Total"),
        Method::Added => (to_add, "Water, measured"),
    };
    let plain = Conditions {
        density: None,
        ..conditions
    };
    let mut whole_measured = None;
    let mut figure = Figure::volume("whole", label, whole, units);
    if whole > Volume::ZERO {
        match parts::measure(kit, whole, plain) {
            Ok(ways) => {
                if let Some(best) = parts::poured(&ways) {
                    whole_measured = Some(of(best));
                    figure = with_error(figure, best, units);
                    items.extend(parts::pictures(best, units));
                    items.push(Item::Figure(figure));
                    let steps = parts::way_items("whole", std::slice::from_ref(best), units, today);
                    items.push(Item::Text(whole_text(method, class, best, &steps)));
                }
            }
            Err(sentence) => items.push(Item::Caution(sentence)),
        }
    }
    let precision = first.zip(whole_measured).and_then(|(first, whole)| match method {
        Method::MadeUp => Precision::made_up(first, whole),
        Method::Added => Precision::added(first, taken - first.0, whole),
    });
    if let Some(precision) = &precision {
        let what = match concentrates.len() {
            1 => "Strength of the bath, standard uncertainty",
            _ => "Concentrate A in the bath, standard uncertainty",
        };
        let relative = precision.relative_uncertainty();
        items.push(Item::Figure(Figure::percent(
            "concentration_uncertainty",
            what,
            relative,
            units,
        )));
    }
    Plan { items, best, precision }
}

fn of(way: &Measured) -> (Volume, Volume) {
    (way.volume, way.standard_uncertainty())
}

fn with_error(figure: Figure, way: &Measured, units: Units) -> Figure {
    figure.uncertain(way.standard_uncertainty().millilitres(), |spread| {
        units.volume_error(Volume::from_millilitres(spread))
    })
}

fn whole_text(method: Method, class: Class, best: &Measured, items: &[Item]) -> String {
    let steps = items.iter().find_map(|item| match item {
        Item::Way(way) => Some(way.steps.join(" ")),
        _ => None,
    });
    let steps = steps.unwrap_or_default();
    let acid = class == Class::StopBath;
    let order = match (method, best.steps()) {
        (Method::Added, _) if acid => "Pour this water first, then the concentrate into it.",
        (Method::Added, _) => "Measure the water:",
        (Method::MadeUp, 1) if acid => "Most of the water first, then the concentrate, then water up to the total.",
        (Method::MadeUp, 1) => "Concentrate first, then water up to the total.",
        (Method::MadeUp, _) if acid => {
            "It takes several fills, all into one mixing jug: half of the first with water, then the concentrate into it, then the \
             rest."
        }
        (Method::MadeUp, _) => "It takes several fills, all into one mixing jug: the concentrate goes into the first.",
    };
    let acid = match acid {
        true => "Acid goes into water, never water onto acid. ",
        false => "",
    };
    format!("{acid}{order} {steps}")
}

fn weighing(mass: crate::quantity::Mass, kit: &Kit, units: Units) -> Vec<Item> {
    let suitable = kit
        .balances
        .iter()
        .map(|kept| &kept.item)
        .filter(|balance| mass <= balance.capacity && mass >= balance.readability);
    let Some(balance) = suitable.min_by(|a, b| a.readability.grams().total_cmp(&b.readability.grams())) else {
        return vec![Item::Caution(format!(
            "No balance of the kit weighs {}.",
            units.mass(mass)
        ))];
    };
    let u = balance.standard_uncertainty();
    vec![
        Item::Figure(
            Figure::mass("weighed", "On the balance", mass, units).uncertain(u.grams(), |spread| {
                units.mass(crate::quantity::Mass::from_grams(spread))
            }),
        ),
        Item::Figure(Figure::percent(
            "mass_uncertainty",
            "Standard uncertainty",
            u / mass,
            units,
        )),
        Item::Text(format!(
            "Weigh on the {}, dissolve in three quarters of the water, and make up to the total.",
            balance.name
        )),
    ]
}

/// How the dilution was taken, and what the other reading would have given.
fn reading(dilution: &Dilution, total: Volume, units: Units) -> Vec<Item> {
    let Dilution::Parts(parts) = dilution else {
        if let Dilution::TwoStep { stock, bath } = dilution {
            let of_stock = total * bath.share();
            return vec![
                Item::Figure(Figure::volume("stock", "Stock that the bath takes", of_stock, units)),
                Item::Text(format!(
                    "First {stock} for the stock: {} of concentrate make {} of it. Then {bath} for the bath.",
                    units.volume(of_stock * stock.share()),
                    units.volume(of_stock)
                )),
            ];
        }
        return Vec::new();
    };
    if parts.is_two() {
        return Vec::new();
    }
    let n = parts.water_to_one();
    let number = |value: f64| units.number(value, 2);
    match dilution.notation() {
        Some(Notation::Colon) => vec![
            Item::Text(format!(
                "1:{0} is read as 1+{0}: one part of concentrate and {0} parts of water.",
                number(n)
            )),
            Item::Figure(Figure::volume(
                "one_in",
                format!("1 in {} would have been", number(n)),
                total / n.max(1.0),
                units,
            )),
        ],
        Some(Notation::In) => vec![Item::Text(format!(
            "1 in {} is 1+{}: one part of concentrate in {0} parts of bath.",
            number(n + 1.0),
            number(n)
        ))],
        Some(Notation::Percent) => vec![Item::Text(format!(
            "By volume, {} of concentrate in the bath, which is 1+{}.",
            units.percent(parts.share()),
            number(n)
        ))],
        _ => Vec::new(),
    }
}
