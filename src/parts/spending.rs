//! Spending: what the ledger tells of the use of each product between two days, and what the form adds; in volume, in money and
//! per film.

mod counted;

use super::picked::{ELSEWHERE, room_assumed};
use super::{money, text};
use crate::darkroom::Darkroom;
use crate::fields::{self, Form};
use crate::quantity::{Day, Units, Volume};
use crate::sheet::{Figure, Item, Sheet, Table};

use counted::Row;

/// What was spent between two days.
pub struct Spending {
    from: Day,
    to: Day,
    shelf_is_empty: bool,
    rows: Vec<Row>,
    /// How warm it stood where nobody noted it.
    assumed: Option<Item>,
}

/// Days that are counted where nothing is said.
const YEAR: i32 = 365;

impl Spending {
    /// Counts the shelf's ledger between the form's days, and the form's own figures besides; `None` where that does not suffice.
    pub fn read(form: &mut Form, darkroom: &Darkroom) -> Option<Self> {
        let from = form.read(&fields::FROM);
        let to = form.read(&fields::TO).unwrap_or(darkroom.today());
        let from = from.unwrap_or(to + -YEAR);
        let room = form.read(&fields::CLIMATE);
        let typed = typed(form);
        if from > to {
            form.fault("from", "the first day cannot be after the last");
            return None;
        }
        let mut rows = counted::rows(&darkroom.shelf, from, to, room.unwrap_or(ELSEWHERE));
        let counts_on_room = rows.iter().any(|row| row.assumed);
        rows.extend(typed);
        Some(Self {
            from,
            to,
            shelf_is_empty: darkroom.shelf.bottles.is_empty(),
            rows,
            assumed: room_assumed(room, form.units()).filter(|_| counts_on_room),
        })
    }
}

/// The form's own figures as a row; `None` where there are none.
fn typed(form: &mut Form) -> Option<Row> {
    let price = form.read(&fields::PRICE);
    let currency = form.read(&fields::CURRENCY).unwrap_or_default();
    let size = form.read(&fields::SIZE);
    let used = form.read(&fields::USED);
    let thrown = form.read(&fields::THROWN);
    let saved = form.read(&fields::SAVED);
    let films = form.read(&fields::FILMS);
    if price.is_some() && size.is_none() && !form.at_fault("size") {
        form.fault(
            "size",
            "what was in the bottle is needed, to know what a millilitre costs",
        );
    }
    if saved.unwrap_or(Volume::ZERO) > used.unwrap_or(Volume::ZERO) && !form.at_fault("used") {
        form.fault(
            "used",
            "what was used past its life is part of what was used, which cannot be less",
        );
        return None;
    }
    if used.is_none() && thrown.is_none() {
        return None;
    }
    Some(Row {
        product: "as typed".to_owned(),
        is_developer: true,
        is_mixed: false,
        used: used.unwrap_or(Volume::ZERO),
        thrown: thrown.unwrap_or(Volume::ZERO),
        saved: saved.unwrap_or(Volume::ZERO),
        films: films.unwrap_or(0.0),
        worth: price.zip(size).map(|(price, size)| {
            let each = |volume: Option<Volume>| volume.map_or(0.0, |volume| volume / size * price);
            counted::Worth {
                currency,
                used: each(used),
                thrown: each(thrown),
                saved: each(saved),
            }
        }),
        unpriced: false,
        assumed: false,
    })
}

/// What was spent, in all and by product.
pub fn spending(sheet: &mut Sheet, spending: Spending, units: Units) {
    let Spending { from, to, rows, .. } = &spending;
    sheet.title = format!("Spent from {from} to {to}");
    let mut notes = Vec::new();
    if spending.shelf_is_empty {
        notes.push(text(
            "Nothing is on the shelf yet. What you log there is counted here by itself; until then, type the figures of a bottle.",
        ));
    } else if rows.is_empty() {
        notes.push(text("Nothing was used or thrown away between these days."));
    }
    if rows.is_empty() {
        sheet.part("What was spent", notes);
        return;
    }
    let whole = counted::whole(rows);
    let assumed = rows.iter().any(|row| row.assumed);
    match &whole.worth {
        Some(worth) => {
            let show = |name, label, value| money(name, label, value, &worth.currency, units);
            sheet.headline.push(show("money_used", "Used", worth.used));
            sheet.headline.push(show("money_thrown", "Thrown away", worth.thrown));
            sheet
                .headline
                .push(show("money_saved", "Saved", worth.saved).assumed_if(assumed));
        }
        None => {
            sheet.headline.push(Figure::volume("used", "Used", whole.used, units));
            sheet
                .headline
                .push(Figure::volume("thrown", "Thrown away", whole.thrown, units));
            sheet
                .headline
                .push(Figure::volume("saved", "Saved", whole.saved, units).assumed_if(assumed));
        }
    }
    sheet.part("By product", by_product(rows, units));
    sheet.part("In all", in_all(&whole, units));
    notes.extend(remarks(rows, &whole));
    sheet.part("How it is counted", notes);
    sheet.background("Nobody measured this", spending.assumed.into_iter().collect());
}

/// In volume, and where prices are noted in money.
fn by_product(rows: &[Row], units: Units) -> Vec<Item> {
    let in_volume = |row: &Row| {
        let figures = vec![
            Figure::volume("product_used", "Used", row.used, units),
            Figure::volume("product_thrown", "Thrown away", row.thrown, units),
            Figure::volume("product_saved", "Saved", row.saved, units).assumed_if(row.assumed),
            Figure::number("product_films", "Films", row.films, 1, units),
        ];
        (row.product.clone(), figures)
    };
    let in_money = |row: &Row| {
        let worth = row.worth.as_ref()?;
        let show = |name, label, value| money(name, label, value, &worth.currency, units);
        let figures = vec![
            show("product_money_used", "Used", worth.used),
            show("product_money_thrown", "Thrown away", worth.thrown),
            show("product_money_saved", "Saved", worth.saved).assumed_if(row.assumed),
        ];
        Some((row.product.clone(), figures))
    };
    let heads = |heads: &[&str]| heads.iter().map(|head| (*head).to_owned()).collect();
    let mut items = vec![Item::Table(Table {
        heads: heads(&["Product", "Used", "Thrown away", "Saved", "Films"]),
        rows: rows.iter().map(in_volume).collect(),
    })];
    let priced: Vec<_> = rows.iter().filter_map(in_money).collect();
    if !priced.is_empty() {
        items.push(Item::Table(Table {
            heads: heads(&["In money", "Used", "Thrown away", "Saved"]),
            rows: priced,
        }));
    }
    for (index, row) in rows.iter().enumerate().filter(|(_, row)| row.films > 0.0) {
        let product = &row.product;
        // Film goes through a bath that nobody draws from, too.
        if row.used > Volume::ZERO {
            let name = format!("volume_a_film_{}", index + 1);
            let a_film = Figure::volume(name, format!("A film took, {product}"), row.used / row.films, units);
            items.push(Item::Figure(a_film));
        }
        if let Some(worth) = &row.worth {
            let name = format!("money_a_film_{}", index + 1);
            let cost = (worth.used + worth.thrown) / row.films;
            let label = format!("A film cost, {product}");
            items.push(Item::Figure(money(name, label, cost, &worth.currency, units)));
        }
    }
    items
}

fn in_all(whole: &Row, units: Units) -> Vec<Item> {
    let mut items = Vec::new();
    if let Some(worth) = &whole.worth {
        items.push(Item::Figure(Figure::volume("used", "Used", whole.used, units)));
        items.push(Item::Figure(Figure::volume(
            "thrown",
            "Thrown away",
            whole.thrown,
            units,
        )));
        let saved = Figure::volume("saved", "Saved", whole.saved, units).assumed_if(whole.assumed);
        items.push(Item::Figure(saved));
        if whole.films > 0.0 {
            let cost = (worth.used + worth.thrown) / whole.films;
            items.push(Item::Figure(money(
                "cost_a_film",
                "All of it, per film",
                cost,
                &worth.currency,
                units,
            )));
        }
        if worth.used + worth.thrown > 0.0 {
            let share = worth.thrown / (worth.used + worth.thrown);
            items.push(Item::Figure(Figure::percent(
                "thrown_share",
                "Thrown away, of the money",
                share,
                units,
            )));
        }
    }
    items.push(Item::Figure(Figure::number("films", "Films", whole.films, 1, units)));
    items
}

/// What must be known to read it rightly.
fn remarks(rows: &[Row], whole: &Row) -> Vec<Item> {
    let mut texts = vec![
        "Saved is what was used after its stated life was over, or since a test proved it when its state asked for one. Where a \
         label states no life, that of its class is taken.",
        "A film costs what was used and what was thrown away.",
    ];
    if rows.iter().any(|row| row.is_mixed) {
        texts.push("Baths that were mixed from other bottles are not counted once more in all.");
    }
    if rows.iter().any(|row| row.unpriced) {
        texts.push("Bottles without a price, or whose first content nobody noted, are left out of the money.");
    }
    if whole.worth.is_none() && rows.iter().any(|row| row.worth.is_some()) {
        texts.push("The prices are in several currencies, so they are not added up.");
    }
    texts.into_iter().map(text).collect()
}
