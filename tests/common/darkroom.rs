//! Darkrooms for tests: a kit, the bottles that events put on the shelf, on a day in spring.

use meniscus::darkroom::Darkroom;
use meniscus::kit::Kit;
use meniscus::ledger::{Event, Shelf};
use meniscus::quantity::Day;

/// The day on which these tests play.
pub fn today() -> Day {
    "2026-03-01".parse().expect("a day")
}

/// A darkroom with this kit, and no bottle with a life.
#[allow(dead_code)]
pub fn with(kit: Kit) -> Darkroom {
    Darkroom::with(kit, today())
}

/// A darkroom with the starter kit.
#[allow(dead_code)]
pub fn starter() -> Darkroom {
    with(Kit::starter())
}

/// A darkroom with this kit, and the shelf of these events: JSON objects as they are kept, without `id` and `at`; each
/// happens after the one before it.
#[allow(dead_code)]
#[track_caller]
pub fn with_events(kit: Kit, events: &[String]) -> Darkroom {
    let event = |(index, json): (usize, &String)| {
        let at = 1_500_000_000_000_u64 + index as u64;
        let rest = json.trim().strip_prefix('{').expect("an object");
        let (head, tail) = (at >> 16, at & 0xffff);
        let json = format!(r#"{{"id":"{head:08x}-{tail:04x}-7000-8000-{index:012x}","at":{at},{rest}"#);
        let text = format!("1 {:08x} {json}", crc32(json.as_bytes()));
        Event::from_text(&text).unwrap_or_else(|error| panic!("{json}: {error}"))
    };
    let events: Vec<Event> = events.iter().enumerate().map(event).collect();
    let shelf = Shelf::fold(events, today());
    assert_eq!(shelf.problems, []);
    let mut kit = kit;
    kit.bottles.extend(shelf.labels());
    Darkroom { kit, shelf }
}

/// CRC-32 bit by bit (ISO 3309).
fn crc32(bytes: &[u8]) -> u32 {
    let byte = |crc: u32, byte: &u8| {
        (0..8).fold(crc ^ u32::from(*byte), |crc, _| {
            (crc >> 1) ^ (0xEDB8_8320 & (crc & 1).wrapping_neg())
        })
    };
    !bytes.iter().fold(!0, byte)
}
