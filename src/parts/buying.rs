//! Buying: what is used and what is on offer, as the form and the shelf tell it; what each size comes to, and when to order.

use super::lives::{lives_assumed, read_lives};
use super::picked::{ELSEWHERE, room_assumed};
use super::trust::{of_product, trusted};
use super::usage::past;
use super::{Picked, money, show_money, text};
use crate::chemistry::Class;
use crate::darkroom::Darkroom;
use crate::fields::{self, Form};
use crate::keeping::{
    Assumptions, Lean, Pace, Purchase, Shopping, Size, Trusted, WhileUsed, at, buy, reorder_point, warmth_factor,
};
use crate::kit::Climate;
use crate::ledger::Bottle;
use crate::quantity::{Day, Units, Volume, YEAR};
use crate::sheet::{Assumption, Figure, Item, Sheet, Table};
use crate::uncertainty::Random;

/// What the shopping is for, as it was read.
pub struct Buying {
    name: String,
    sizes: Vec<Size>,
    currency: String,
    per_film: Volume,
    /// Whether the shelf's films say so.
    per_film_recorded: bool,
    pace: Pace,
    /// Whether the shelf's draws say so.
    pace_recorded: bool,
    in_stock: Volume,
    /// Of how many bottles on the shelf nobody noted how much is left.
    unknown: usize,
    /// How many days an order takes.
    lead: f64,
    kept: WhileUsed,
    assumptions: Assumptions,
    trusted: Trusted,
    climate: Climate,
    /// What was assumed on the way.
    assumed: Vec<Item>,
}

/// Mean length of a month in days (Gregorian calendar; exact).
const MONTH: f64 = YEAR / 12.0;
/// What the rate of twelve draws leaves open: from the least to the most of nine cases in ten, as shares of it (chi-square of 24
/// degrees of freedom over 24, table values 13.848 and 36.415).
const STATED_RANGE: [f64; 2] = [13.848 / 24.0, 36.415 / 24.0];
/// A smaller bottle that costs no more than this share besides is as good (an assumption).
const HARDLY_MORE: f64 = 0.05;
/// Where the numbers of chance begin.
const SEED: u64 = 1;

impl Buying {
    /// What the form says, and the shelf of a picked bottle's product; `None` where that does not suffice.
    pub fn read(form: &mut Form, darkroom: &Darkroom) -> Option<Self> {
        let picked = Picked::read(form, darkroom);
        let class = picked.class(form).unwrap_or(Class::Syrup);
        let sizes = form.read(&fields::OFFERS);
        let currency = form.read(&fields::CURRENCY);
        let films_a_month = form.read(&fields::FILMS_A_MONTH);
        let typed_per_film = form.read(&fields::PER_FILM);
        let typed_stock = form.read(&fields::IN_STOCK);
        let lead = form.read(&fields::LEAD);
        let kept = form.read(&fields::KEPT);
        let mut assumptions = Assumptions::of_class(class);
        read_lives(form, picked.bottle, class, &mut assumptions);
        let known = form.read(&fields::CLIMATE).or(picked.noted_climate(darkroom));
        let climate = known.unwrap_or(ELSEWHERE);
        let of_product = |bottle| of_product(&darkroom.shelf, bottle);
        let bottles: Vec<&Bottle> = picked.bottle.into_iter().flat_map(of_product).collect();
        let trusted = match form.read(&fields::TRUSTED) {
            Some(share) => Trusted {
                share,
                ..Trusted::STATED
            },
            None => picked.bottle.map_or(Trusted::STATED, |bottle| {
                trusted(&darkroom.shelf, bottle, &assumptions, climate)
            }),
        };

        let drawn = |bottle: &&Bottle| bottle.draws.iter().map(|draw| draw.volume).sum::<Volume>();
        let films: f64 = bottles.iter().map(|bottle| bottle.film_units()).sum();
        let recorded = (films > 0.0).then(|| bottles.iter().map(drawn).sum::<Volume>() / films);
        let recorded = recorded.filter(|per_film| *per_film > Volume::ZERO);
        let own_pace = picked.bottle.map(|bottle| past(bottle, darkroom));
        let own_pace = own_pace.filter(|pace| pace.draws() > 0);
        let recorded_too = [
            ("per_film", recorded.is_some()),
            ("films_a_month", own_pace.is_some()),
            ("in_stock", !bottles.is_empty()),
        ];
        form.pass_over_known(&recorded_too);
        let per_film = recorded.or(typed_per_film)?;
        let pace = match own_pace {
            Some(pace) => pace,
            None => Pace::stated(MONTH / films_a_month?, per_film),
        };
        let standing = || bottles.iter().filter(|bottle| bottle.discarded.is_none());
        let stock = standing().filter_map(|bottle| bottle.left()).sum();
        let mut assumed = lives_assumed(&assumptions, form.units());
        assumed.extend(room_assumed(known, form.units()));
        Some(Self {
            name: picked.name(class),
            sizes: sizes?,
            currency: currency.unwrap_or_default(),
            per_film,
            per_film_recorded: recorded.is_some(),
            pace,
            pace_recorded: own_pace.is_some(),
            in_stock: if bottles.is_empty() { typed_stock? } else { stock },
            unknown: standing().filter(|bottle| bottle.left().is_none()).count(),
            lead: lead?,
            kept: kept?,
            assumptions,
            trusted,
            climate,
            assumed,
        })
    }
}

/// What each size comes to, and when to order.
pub fn buying(sheet: &mut Sheet, buying: Buying, today: Day, units: Units) {
    let shopping = Shopping {
        per_film: buying.per_film,
        pace: &buying.pace,
        assumptions: &buying.assumptions,
        trusted: buying.trusted.share,
        climate: buying.climate,
        kept: buying.kept,
        today,
    };
    if shopping.trusted <= 0.0 {
        sheet.title = format!("Which size to buy: {}", buying.name);
        let sentence = "A bottle of it failed a test while it was fresh. Until one passes, none of it is trusted, and no size is \
                        worth its price.";
        sheet.part("Sizes", vec![text(sentence)]);
        return;
    }
    let mut random = Random::new(SEED);
    let purchases = buy(&buying.sizes, &shopping, &mut random);
    sheet.title = format!("Which size to buy: {}", buying.name);
    let Some(best) = purchases.first() else {
        sheet.part(
            "Sizes",
            vec![text(
                "Write the sizes on offer, one a line, each with its price: 500 ml 19.50.",
            )],
        );
        return;
    };
    let size = best.size.volume;
    sheet.headline.push(Figure::volume("buy", "Buy", size, units));
    let per_film = money("costs", "Costs per film", best.per_film.value, &buying.currency, units);
    sheet.headline.push(per_film.assumed());
    let (order, when) = ordering(&buying, &mut random, today, units);
    sheet.headline.push(order);
    sheet.part("What each size comes to", sizes(&buying, &purchases, today, units));
    sheet.part("When to order", when);
    let mut assumed = Vec::new();
    if !buying.pace_recorded {
        assumed.push(stated_pace(&buying, units));
    }
    assumed.extend(buying.assumed);
    sheet.background("Nobody measured this", assumed);
}

fn sizes(buying: &Buying, purchases: &[Purchase], today: Day, units: Units) -> Vec<Item> {
    let currency = &buying.currency;
    let row = |purchase: &Purchase| {
        let Purchase { size, per_film, .. } = *purchase;
        let [least, most] = [per_film.least, per_film.most].map(|cost| show_money(cost, currency, units));
        let films = size.volume * (1.0 - purchase.outlives) / buying.per_film;
        let figures = vec![
            money("price", "Price", size.price, currency, units),
            Figure::period("lasts", "In use for", purchase.days, units).assumed(),
            Figure::number("films", "Films", films, usize::from(films < 9.95), units).assumed(),
            Figure::percent("wasted", "Past its trust", purchase.outlives.max(0.0), units).assumed(),
            money("per_film", "Per film", per_film.value, currency, units)
                .between(&least, &most)
                .assumed(),
        ];
        (units.volume(size.volume), figures)
    };
    let heads = ["Size", "Price", "In use for", "Films", "Past its trust", "Per film"];
    let mut items = vec![Item::Table(Table {
        heads: heads.map(str::to_owned).to_vec(),
        rows: purchases.iter().map(row).collect(),
    })];
    let best = &purchases[0];
    let mut say = |text: String| items.push(Item::Text(text));
    let as_good = |other: &&Purchase| {
        other.size.volume < best.size.volume && other.per_film.value <= best.per_film.value * (1.0 + HARDLY_MORE)
    };
    if let Some(smaller) = purchases[1..].iter().find(as_good) {
        say(format!(
            "{} costs hardly more per film, and less is at stake if you change your mind.",
            units.volume(smaller.size.volume)
        ));
    }
    if best.outlives > 0.01 {
        say("What is past its trust is not lost: it wants a test before it is used.".to_owned());
    }
    say(trust(buying, units));
    if let Some(lives) = buying.assumptions.lives {
        let lean = Lean::USUAL;
        let per_ten = at(&buying.assumptions.per_ten, lean.per_ten);
        let keeps = at(&lives.unopened, lean.unopened) / warmth_factor(buying.climate, per_ten, today, today + 365);
        let more = (keeps / best.days.max(1.0)).floor();
        let figure = Figure::number(
            "at_once",
            "Bottles worth buying at once, at the most",
            1.0 + more,
            0,
            units,
        );
        items.push(Item::Figure(figure.assumed()));
    }
    items
}

/// How far it is trusted, and by what.
fn trust(buying: &Buying, units: Units) -> String {
    let to = match buying.trusted.share {
        1.0 => "its stated life".to_owned(),
        share => format!("{} times its stated life", units.about(share)),
    };
    if buying.assumptions.lives.is_none() {
        return "Nothing is known of how long such a bath keeps, so nothing is counted as past its trust.".to_owned();
    }
    match buying.trusted {
        Trusted {
            longest_passed: None,
            shortest_failed: None,
            ..
        } => format!("It is trusted to {to}; no test on your shelf says otherwise."),
        _ => format!("Your own tests let it be trusted to {to}."),
    }
}

/// When to order, as a figure for the head, and why.
fn ordering(buying: &Buying, random: &mut Random, today: Day, units: Units) -> (Figure, Vec<Item>) {
    let a_day = buying.pace.per_day();
    let reorder = reorder_point(&buying.pace, buying.lead, random);
    let days = ((buying.in_stock - reorder) / a_day).max(0.0).floor();
    let order = match days < 1.0 {
        true => Figure {
            shown: "now".to_owned(),
            ..Figure::period("order_in", "Order", 0.0, units)
        },
        false => Figure::period("order_in", "Order in", days, units).assumed(),
    };
    let films = a_day / buying.per_film * MONTH;
    let whence = match buying.pace_recorded {
        true => format!("The pace is that of {} draws on your shelf.", buying.pace.draws()),
        false => "The pace is that of the fields.".to_owned(),
    };
    let per_film = match buying.per_film_recorded {
        true => "What a film takes is what was drawn over the films that went through.",
        false => "What a film takes is that of the field.",
    };
    let mut items = vec![
        Item::Figure(Figure {
            shown: units.volume_error(reorder),
            ..Figure::volume("reorder_at", "Order when so much is left", reorder, units).assumed()
        }),
        Item::Figure(Figure::volume("in_stock", "On the shelf now", buying.in_stock, units)),
        Item::Figure(Figure::period("runs_out", "That lasts", buying.in_stock / a_day, units).assumed()),
        Item::Figure(Figure::volume("a_month", "Used in a month", a_day * MONTH, units).assumed()),
        Item::Figure(Figure::number("films_a_month", "Films in a month", films, 1, units).assumed()),
    ];
    if (1.0..36_524.0).contains(&days) {
        let on = today + days as i32;
        items.push(Item::Text(format!(
            "Order about {on}, if what is on the shelf stays good: what is left then lasts until the order comes, in nineteen \
             cases of twenty."
        )));
    }
    if buying.unknown > 0 {
        items.push(Item::Text(match buying.unknown {
            1 => "Nobody noted how much is left in one of the bottles; it is not counted.".to_owned(),
            count => format!("Nobody noted how much is left in {count} of the bottles; they are not counted."),
        }));
    }
    items.push(Item::Text(format!("{whence} {per_film}")));
    (order, items)
}

fn stated_pace(buying: &Buying, units: Units) -> Item {
    let films = buying.pace.per_day() / buying.per_film * MONTH;
    let [least, most] = STATED_RANGE.map(|share| units.about(films * share));
    Item::Assumption(Assumption {
        figure: Figure::number("assumed_films_a_month", "Films a month", films, 1, units).assumed(),
        range: format!("{least} to {most}"),
        why: "the field's figure, taken as firm as twelve draws in the ledger would make it".to_owned(),
        field: "films_a_month",
    })
}
