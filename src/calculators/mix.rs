//! Mix: how much concentrate and water, measured with what, how exactly, whether it suffices, and how long to develop.
//!
//! Worked example: 600 ml at 1+31 is 600 / 32 = 18.75 ml of concentrate and 581.25 ml of water.

use super::Calculator;
use crate::chemistry::Class;
use crate::darkroom::Darkroom;
use crate::fields::{self, Choice, Field, Form};
use crate::parts::{self, Bath, Conditions, Fill, Method, Mixing};
use crate::quantity::{Dilution, Notation, Span, Units, Volume};
use crate::sheet::{Figure, Item, Sheet};

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
    let mixing = Mixing {
        kit,
        dilution,
        total,
        method,
        is_acid: bath.class == Class::StopBath,
        conditions: Conditions {
            density,
            room: None,
            from_20: bath.from_20(),
            units,
        },
        today: shelf.today,
    };
    let time_shown = timed.as_ref().map(|(figure, _)| figure.clone());
    let time = time_shown.as_ref().map(|figure| Span::from_seconds(figure.value));
    let mut mixed = mixing.plan(&mut sheet);
    sheet.headline.extend(time_shown);
    sheet.part("How it is read", reading(dilution, total, units));
    let doubts = parts::doubts(bottle, dilution.concentrates(total).first().copied(), units);
    sheet.alert(&doubts);
    sheet.part("The bottle", doubts);
    bath.say_thermometer(&mut mixed.items, kit, shelf.today);
    sheet.alert(&mixed.items);
    sheet.part("Measure it", std::mem::take(&mut mixed.items));

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
    if bath.class.is_developer()
        && let Some(items) = mixing.on_mark(&mixed, fill.range())
    {
        sheet.part("On a mark", items);
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
    if let Some(precision) = mixed.precision.filter(|_| bath.class.is_developer()) {
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

/// How the dilution was taken, and what the other reading would have given.
fn reading(dilution: &Dilution, total: Volume, units: Units) -> Vec<Item> {
    let number = |value: f64| units.number(value, 2);
    let notation = dilution.notation();
    let mut items = Vec::new();
    if notation == Some(Notation::Colon) {
        items.push(Item::Text(format!("A colon is read as a plus: {dilution}.")));
    }
    match dilution {
        Dilution::TwoStep { stock, bath } => {
            let of_stock = total * bath.share();
            items.push(Item::Figure(Figure::volume(
                "stock",
                "Stock that the bath takes",
                of_stock,
                units,
            )));
            items.push(Item::Text(format!(
                "First {stock} for the stock: {} of concentrate make {} of it. Then {bath} for the bath.",
                units.volume(of_stock * stock.share()),
                units.volume(of_stock)
            )));
        }
        Dilution::Parts(parts) if !parts.is_two() => {
            let n = parts.water_to_one();
            match notation {
                Some(Notation::Colon) if n > 1.0 => {
                    let label = format!("1 in {} would have been", number(n));
                    items.push(Item::Figure(Figure::volume("one_in", label, total / n, units)));
                }
                Some(Notation::In) => items.push(Item::Text(format!(
                    "1 in {} is 1+{}: one part of concentrate in {0} parts of bath.",
                    number(n + 1.0),
                    number(n)
                ))),
                Some(Notation::Percent) => items.push(Item::Text(format!(
                    "By volume, {} of concentrate in the bath, which is 1+{}.",
                    units.percent(parts.share()),
                    number(n)
                ))),
                _ => {}
            }
        }
        _ => {}
    }
    items
}
