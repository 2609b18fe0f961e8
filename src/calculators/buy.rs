//! Buy: which size costs least per film once what will be past its trust is counted, and when to order.
//!
//! Worked example: 500 ml for 19 make 500/9.4 = 53.2 films at 0.357 each, if all of it is used in time. At four films a month that
//! takes 13 months; where it is trusted for six, a good half of it wants a test first, and the bottle of 250 ml is the cheaper.

use super::Calculator;
use crate::darkroom::Darkroom;
use crate::fields::{self, Form};
use crate::parts::{self, Buying};
use crate::sheet::Sheet;

pub(super) const BUY: Calculator = Calculator {
    name: "buy",
    title: "Which size to buy, and when",
    fields: &[
        &fields::BOTTLE,
        &fields::OFFERS,
        &fields::CURRENCY,
        &fields::FILMS_A_MONTH,
        &fields::PER_FILM,
        &fields::IN_STOCK,
        &fields::LEAD,
        &fields::KEPT,
        &fields::CLASS,
        &fields::LIFE_UNOPENED,
        &fields::LIFE_FULL,
        &fields::LIFE_HALF,
        &fields::TRUSTED,
        &fields::CLIMATE,
        &fields::PER_TEN,
    ],
    examples: &[],
    run,
};

fn run(form: &mut Form, darkroom: &Darkroom) -> Sheet {
    let units = form.units();
    let mut sheet = Sheet {
        title: "Which size to buy".to_owned(),
        ..Sheet::default()
    };
    if let Some(buying) = Buying::read(form, darkroom) {
        parts::buying(&mut sheet, buying, darkroom.today(), units);
    }
    sheet
}
