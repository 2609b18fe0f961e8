//! Which sheets of tempering and of drift are kept.

use meniscus::kit::Kit;

use super::{Sheet, compared_and_old, us_with_comma};

/// Name, calculator, what is typed, with which kit.
pub const BATHS: &[Sheet] = &[
    ("temper-first-visit", "temper", &[], Kit::starter),
    (
        "temper-us-comma",
        "temper",
        &[
            ("total", "32"),
            ("wanted", "100"),
            ("cold", "55"),
            ("hot", "125"),
            ("room", "64"),
        ],
        us_with_comma,
    ),
    (
        "temper-ice",
        "temper",
        &[
            ("cold", "27 C"),
            ("room", "30 C"),
            ("vessel", "steel"),
            ("dilution", "1+4"),
        ],
        Kit::starter,
    ),
    (
        "temper-too-little-ice",
        "temper",
        &[("cold", "27 C"), ("ice_at_hand", "15 g"), ("ice", "-18 C")],
        Kit::starter,
    ),
    (
        "temper-hot-tap",
        "temper",
        &[("hot", "34 C"), ("wanted", "38 C")],
        Kit::starter,
    ),
    (
        "temper-powder",
        "temper",
        &[("hot", "62 C"), ("wanted", "50 C"), ("dilution", "60 g/l")],
        Kit::starter,
    ),
    ("temper-stock", "temper", &[("dilution", "stock")], Kit::starter),
    (
        "temper-calibrated",
        "temper",
        &[("wanted", "24 C"), ("dilution", "")],
        compared_and_old,
    ),
    (
        "temper-faults",
        "temper",
        &[("wanted", "hot"), ("hot", "120 C"), ("total", "0"), ("ice", "5 C")],
        Kit::starter,
    ),
    ("drift-first-visit", "drift", &[], Kit::starter),
    (
        "drift-measured",
        "drift",
        &[
            ("times", "8 at 18 C; 6:45 at 20 C; 5 at 24 C"),
            ("time", "6:45"),
            ("temperature", "21 C"),
            ("room", "12 C"),
            ("jacket", "3 l"),
            ("first", "40 C"),
            ("second", "34 C"),
            ("between", "30:00"),
            ("room_then", "20 C"),
            ("read_to", "0.1 C"),
        ],
        Kit::starter,
    ),
    (
        "drift-out-of-range",
        "drift",
        &[("time", "25:00"), ("temperature", "18.5 C"), ("room", "8 C")],
        Kit::starter,
    ),
    (
        "drift-us-comma",
        "drift",
        &[
            ("time", "12:00"),
            ("time_at", "68"),
            ("temperature", "73"),
            ("room", "93"),
            ("total", "16"),
        ],
        us_with_comma,
    ),
    ("drift-equal", "drift", &[("room", "20 C")], compared_and_old),
    (
        "drift-unclear",
        "drift",
        &[("first", "24 C"), ("second", "23.8 C"), ("between", "2:00")],
        Kit::starter,
    ),
    (
        "drift-faults",
        "drift",
        &[
            ("room", "outside"),
            ("first", "30 C"),
            ("second", "31 C"),
            ("between", "10:00"),
            ("time", "1 s"),
        ],
        Kit::starter,
    ),
];
