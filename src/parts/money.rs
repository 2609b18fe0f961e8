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

/// To the hundredth; three figures below a tenth.
pub fn show_money(value: f64, currency: &str, units: Units) -> String {
    let mut text = match value < 0.095 {
        true => units.about(value),
        false => units.number(value, 2),
    };
    if let Some(mark) = text.find(['.', ','])
        && text.len() == mark + 2
    {
        text.push('0');
    }
    match currency.is_empty() {
        true => text,
        false => format!("{text} {currency}"),
    }
}
