//! A label to print and stick on a bottle: what is in it, since when, and a code that opens the page at its record.

use maud::{Markup, html};
use qrcodegen::{QrCode, QrCodeEcc, QrSegment, Version};

use crate::ledger::{Bottle, Opened, Shelf};
use crate::quantity::Units;

/// Modules that stay light on every side of the code (ISO/IEC 18004: four).
const QUIET: i32 = 4;
/// The largest code that is drawn: 57 modules a side, 65 with its quiet zone, which are a third of a millimetre each on a label.
/// A phone reads hardly less (common practice, no source).
const LARGEST: u8 = 10;

/// The label of a bottle. `address` is that of its record, with the page's own before it; one of more than 213 bytes makes no
/// code that could be read so small, and the label then goes without.
pub fn label(bottle: &Bottle, shelf: &Shelf, address: &str, units: Units) -> Markup {
    let label = &bottle.is.label;
    let dilutions: Vec<String> = label.dilutions.iter().map(ToString::to_string).collect();
    let place = bottle.now.place.map(|place| shelf.places[place].name.as_str());
    let opened = match bottle.opened {
        // What was filled here was open that day.
        Opened::On(day) if day == bottle.since => None,
        Opened::On(day) => Some(day.to_string()),
        Opened::SomeDay => Some("nobody knows when".to_owned()),
        // Room to write it.
        Opened::Never | Opened::NotKnown => Some(String::new()),
    };
    let rows = [
        (came(bottle), Some(bottle.since.to_string())),
        ("Opened", opened),
        ("Dilution", (!dilutions.is_empty()).then(|| dilutions.join(", "))),
        ("Place", place.map(str::to_owned)),
    ];
    html! {
        article.label {
            div.says-what {
                p.product { (label.product) }
                p {
                    (label.class.name())
                    @if let Some(size) = bottle.is.container.nominal { ", " (units.volume(size)) }
                }
                dl {
                    @for (name, words) in &rows {
                        @if let Some(words) = words {
                            div { dt { (name) } dd.by-hand[words.is_empty()] { (words) } }
                        }
                    }
                }
            }
            @if let Some(code) = code(address) { (code) }
            p.by-hand {}
            p.caution { "Follow the safety data sheet. Keep it from children." }
        }
    }
}

/// What its first day is the day of.
fn came(bottle: &Bottle) -> &'static str {
    match (bottle.decanted, bottle.from.is_empty()) {
        (true, _) => "Filled",
        (false, false) => "Mixed",
        (false, true) => "Came",
    }
}

/// Black on white whatever the page looks like, since readers ask for contrast; every run of dark modules is one piece of the path.
fn code(address: &str) -> Option<Markup> {
    let bytes = [QrSegment::make_bytes(address.as_bytes())];
    let code = QrCode::encode_segments_advanced(
        &bytes,
        QrCodeEcc::Medium,
        Version::MIN,
        Version::new(LARGEST),
        None,
        true,
    )
    .ok()?;
    let size = code.size();
    let side = size + 2 * QUIET;
    let mut path = String::new();
    for y in 0..size {
        let mut x = 0;
        while x < size {
            let from = x;
            // Beyond its edge every module is light.
            while code.get_module(x, y) {
                x += 1;
            }
            if x > from {
                let run = x - from;
                path += &format!("M{} {}h{run}v1h-{run}z", from + QUIET, y + QUIET);
            }
            x += 1;
        }
    }
    Some(html! {
        svg viewBox={ "0 0 " (side) " " (side) } role="img" shape-rendering="crispEdges" {
            title { "A code that opens the page at this bottle" }
            rect width=(side) height=(side) fill="#fff" {}
            path fill="#000" d=(path) {}
        }
    })
}
