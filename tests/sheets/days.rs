//! Which sheets of a day's plan and of its steps are kept.

use meniscus::kit::Kit;

use super::{Sheet, us_with_comma, well_kept};

/// Name, calculator, what is typed, with which kit.
pub const DAYS: &[Sheet] = &[
    ("plan-first-visit", "plan", &[], Kit::starter),
    (
        "plan-short",
        "plan",
        &[
            (
                "films",
                "3 x 135 8:30 harbour\n2 x 120 11:00 portraits\n1 x 220 11:00\n5 x 4x5 9:00",
            ),
            ("least_per_film", "5 ml"),
            ("left", "50 ml"),
            ("fixer", "500 ml"),
            ("fixer_films", "4"),
            ("stop", "1 l"),
            ("stop_films", "20"),
        ],
        well_kept,
    ),
    (
        "plan-us-comma",
        "plan",
        &[
            ("films", "2 x 135 8:30; 2 x 135 9:00; 120"),
            ("within", "0:30"),
            ("left", "10 fl oz"),
            ("dilution", "1+1+50"),
            ("spare", "0"),
        ],
        us_with_comma,
    ),
    (
        "plan-faults",
        "plan",
        &[
            ("films", "2 x 135 8:30 9:00"),
            ("tanks", "bathtub"),
            ("dilution", "thin"),
            ("left", "some"),
            ("spare", "many"),
            ("within", "an hour"),
            ("reels_dry", "soon"),
        ],
        Kit::starter,
    ),
    ("steps-first-visit", "steps", &[], Kit::starter),
    (
        "steps-whole",
        "steps",
        &[
            ("bottle", "own"),
            ("dilution", ""),
            ("temperature", "21.5"),
            ("clearing", "1:10"),
            (
                "recipe",
                "prewet 1:00\ndevelop, first 30 s, 10 s every 1:00\nstop 0:30\nfix\nrinse 1:00\nwash 10:00 at 14 C\nwetting agent 1:00",
            ),
        ],
        well_kept,
    ),
    (
        "steps-us-comma",
        "steps",
        &[
            ("total", "20"),
            ("temperature", "70"),
            ("times", "6:45 at 68 F"),
            (
                "recipe",
                "develop 4,5 min, 10 s every 0:30\nfix 5\nfix 2 5 at 60 F\nwash 20",
            ),
        ],
        us_with_comma,
    ),
    (
        "steps-out-of-order",
        "steps",
        &[
            ("recipe", "stop 0:30; wash 5:00; fix 20:00; develop 9:00; develop 3:00"),
            ("clearing", "3:30"),
            ("capacity", "1"),
            ("longer", "5 %"),
        ],
        Kit::starter,
    ),
    (
        "steps-faults",
        "steps",
        &[
            (
                "recipe",
                "prewet\ndevelop 1+31 6:45\nstop -1\n5:00\nfix 5:00, 10 every 1\nwash at the tap\nrinse 1:00, 2:00\nfix 0:20, first 30 s",
            ),
            ("fixer", "nowhere"),
            ("longer", "10: 5 %; 5: 10 %"),
            ("clearing", "soon"),
        ],
        Kit::starter,
    ),
];
