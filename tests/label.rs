//! The label of a bottle: what stands on it, and that its code says the address when another library reads it.
#![cfg(not(target_arch = "wasm32"))]

use meniscus::example;
use meniscus::ledger::{Event, EventId, Moment, Shelf, What};
use meniscus::quantity::{Day, Units, VolumeUnit};
use meniscus::view::label;

const ADDRESS: &str = "https://darkroom.example/meniscus/#record/017f22e2-79b0-7cc3-98c4-dc0c0c07398f";

fn today() -> Day {
    "2026-03-01".parse().expect("a day")
}

fn shelf() -> Shelf {
    Shelf::fold(example::events(today()), today())
}

fn drawn(bottle: &str, address: &str) -> String {
    let shelf = shelf();
    let bottle = shelf.bottle(bottle).expect("there");
    label(bottle, &shelf, address, Units::default()).into_string()
}

/// The code of a label as pixels, dark or light, so many to a module.
struct Raster {
    side: usize,
    dark: Vec<bool>,
}

/// Pixels to a module.
const EACH: usize = 6;
/// Light modules around a code: four on every side (ISO/IEC 18004, quiet zone).
const QUIET: usize = 4;

/// Draws the one path of a label's code: runs of dark modules, each a rectangle of its own.
fn raster(label: &str) -> Raster {
    let after = |text: &str, start: &str| {
        let at = text.find(start).unwrap_or_else(|| panic!("{start} in {text}"));
        text[at + start.len()..].to_owned()
    };
    let until_quote = |text: String| text.split('"').next().unwrap_or_default().to_owned();
    let view = until_quote(after(label, "viewBox=\"0 0 "));
    let (width, height) = view.split_once(' ').expect("two numbers");
    assert_eq!(width, height);
    let modules: usize = width.parse().expect("a number");
    let side = modules * EACH;
    let mut dark = vec![false; side * side];
    assert_eq!(label.matches("<path").count(), 1);
    for run in until_quote(after(label, " d=\"")).split_terminator('z') {
        let (x, rest) = run[1..].split_once(' ').expect("where it begins");
        let (y, rest) = rest.split_once('h').expect("how long it is");
        let (long, back) = rest.split_once("v1h-").expect("one module high");
        assert!(run.starts_with('M') && long == back, "{run}");
        let [x, y, long] = [x, y, long].map(|number| number.parse::<usize>().expect("a number"));
        for row in y * EACH..(y + 1) * EACH {
            dark[row * side + x * EACH..row * side + (x + long) * EACH].fill(true);
        }
    }
    Raster { side, dark }
}

impl Raster {
    fn module(&self, x: usize, y: usize) -> bool {
        self.dark[(y * self.side + x) * EACH]
    }

    /// What another library reads: the text and how its errors are corrected.
    fn read(&self) -> (String, u16) {
        let grey = |x: usize, y: usize| if self.dark[y * self.side + x] { 0 } else { 255 };
        let mut image = rqrr::PreparedImage::prepare_from_greyscale(self.side, self.side, grey);
        let grids = image.detect_grids();
        assert_eq!(grids.len(), 1);
        let (meta, text) = grids[0].decode().expect("a code that can be read");
        (text, meta.ecc_level)
    }
}

/// The level bits of ISO/IEC 18004 for the weakest correction, L.
const WEAKEST: u16 = 0b01;

#[test]
fn another_library_reads_the_address() {
    let long = format!("{ADDRESS}{}", "x".repeat(213 - ADDRESS.len()));
    let texts = [
        "https://a.example/#record/1",
        ADDRESS,
        "https://a.example/#record/Blaue%20Flasche",
        &long,
    ];
    for text in texts {
        let code = raster(&drawn("example-blue", text));
        let (read, correction) = code.read();
        assert_eq!(read, text);
        assert_ne!(correction, WEAKEST, "{text}");
    }
}

/// The pattern in three corners that readers look for, 7 modules a side: a dark ring, a light one, a dark square of 3 (ISO/IEC
/// 18004, finder pattern), with nothing dark around it for four modules outwards.
#[test]
fn the_code_has_its_corners_and_its_quiet_zone() {
    let code = raster(&drawn("example-blue", ADDRESS));
    let modules = code.side / EACH;
    let last = modules - QUIET - 7;
    for (left, top) in [(QUIET, QUIET), (last, QUIET), (QUIET, last)] {
        for y in 0..7_usize {
            for x in 0..7_usize {
                let from_middle = x.abs_diff(3).max(y.abs_diff(3));
                assert_eq!(code.module(left + x, top + y), from_middle != 2, "{x} {y}");
            }
        }
    }
    for along in 0..modules {
        for edge in (0..QUIET).chain(modules - QUIET..modules) {
            assert!(!code.module(along, edge) && !code.module(edge, along));
        }
    }
}

#[test]
fn the_code_is_black_on_white_whatever_the_page_looks_like() {
    let label = drawn("example-blue", ADDRESS);
    assert!(label.contains("fill=\"#fff\"") && label.contains("fill=\"#000\""));
    assert!(label.contains("<title>A code that opens the page at this bottle</title>"));
}

/// Version 10 holds 213 bytes with medium correction (ISO/IEC 18004, table of capacities); from there on the modules would be
/// too small for a label.
#[test]
fn an_address_that_is_too_long_leaves_the_code_out() {
    let of = |bytes: usize| drawn("example-blue", &"a".repeat(bytes));
    assert!(of(213).contains("<svg"));
    for bytes in [214, 2_331, 2_332, 100_000] {
        let label = of(bytes);
        assert!(!label.contains("<svg") && label.contains("Blue Syrup"), "{bytes}");
    }
}

#[test]
fn it_says_what_is_in_the_bottle() {
    let told = [
        (
            "example-blue",
            "Blue Syrup|developer, syrup concentrate, 500 ml|Came|2024-02-25|Opened|2022-03-02|Dilution|1+31|Place|cellar (example)",
        ),
        // There is room to write when it is opened.
        (
            "example-blue-spare",
            "Blue Syrup|developer, syrup concentrate, 500 ml|Came|2025-08-13|Opened|Dilution|1+31|Place|cellar (example)",
        ),
        (
            "example-fix-bath",
            "Clear Fix bath 1+4|fixer, 1000 ml|Mixed|2026-01-15|Dilution|1+4|Place|cupboard (example)",
        ),
        (
            "example-honey-2",
            "Honey Syrup|developer, syrup concentrate, 100 ml|Filled|2025-10-02|Dilution|1+19|Place|cellar (example)",
        ),
        (
            "example-nameless",
            "Brown bottle, no label|another bath|Came|2024-09-27|Opened",
        ),
    ];
    for (bottle, words) in told {
        let label = drawn(bottle, &"a".repeat(300));
        let wanted = format!("{words}|Follow the safety data sheet. Keep it from children.");
        assert_eq!(texts(&label), wanted, "{bottle}");
        let blank = usize::from(words.contains("Opened") && !words.contains("Opened|2"));
        assert_eq!(label.matches("class=\"by-hand\"").count(), 1 + blank, "{bottle}");
    }
    let shelf = shelf();
    let ounces = Units {
        volume: VolumeUnit::UsFluidOunce,
        ..Units::default()
    };
    // 500 / 29.5735 = 16.907.
    let bottle = shelf.bottle("example-blue").expect("there");
    let label = label(bottle, &shelf, ADDRESS, ounces).into_string();
    assert!(label.contains("16.9"), "{label}");
}

/// Everything between tags, in order.
fn texts(html: &str) -> String {
    let pieces = html.split('<').filter_map(|piece| piece.split_once('>'));
    let words: Vec<_> = pieces.map(|(_, text)| text).filter(|text| !text.is_empty()).collect();
    words.join("|")
}

#[test]
fn what_a_user_typed_stays_text() {
    let mut events = example::events(today());
    let at = Moment::noon(today());
    let named = events.iter().find_map(|event| match &event.what {
        What::Added { bottle, is, .. } => Some((bottle.clone(), is.clone())),
        _ => None,
    });
    let (bottle, mut is) = named.expect("one came");
    is.label.product = "<script>&\"".to_owned();
    events.push(Event {
        id: EventId::new(at, 1),
        at,
        day: today(),
        what: What::BottleNoted {
            bottle: bottle.clone(),
            is,
        },
    });
    let shelf = Shelf::fold(events, today());
    let bottle = shelf.bottle(bottle.as_str()).expect("there");
    let label = label(bottle, &shelf, "#\"><b>", Units::default()).into_string();
    assert!(label.contains("&lt;script&gt;&amp;&quot;") && !label.contains("<script") && !label.contains("<b>"));
    assert_eq!(raster(&label).read().0, "#\"><b>");
}
