//! Money, in whatever currency the user writes.

use crate::quantity::Units;
use crate::sheet::{Figure, Text};

/// An amount of money as a figure; its value is in that money, its unit is empty.
pub fn money(name: impl Into<Text>, label: impl Into<Text>, value: f64, currency: &str, units: Units) -> Figure {
    Figure {
        shown: show_money(value, currency, units),
        ..Figure::number(name, label, value, 2, units)
    }
}

/// To the hundredth, both decimals written, but for nothing at all.
pub fn show_money(value: f64, currency: &str, units: Units) -> String {
    let text = match value {
        nothing if nothing <= 1e-9 => "0".to_owned(),
        less if less < 0.005 => format!("less than {}", units.number(0.01, 2)),
        value => units.hundredths((value * 100.0).round() as u64),
    };
    match currency.is_empty() {
        true => text,
        false => format!("{text} {currency}"),
    }
}
