//! Which sheets of weighing out and of washing are kept.

use meniscus::kit::Kit;

use super::{Sheet, us_with_comma, well_kept};

/// The starter kit without its balance.
fn no_balance() -> Kit {
    Kit {
        balances: Vec::new(),
        ..Kit::starter()
    }
}

/// Name, calculator, what is typed, with which kit.
pub const POWDERS: &[Sheet] = &[
    ("weigh-first-visit", "weigh", &[], Kit::starter),
    (
        "weigh-own-lines",
        "weigh",
        &[
            ("formula", "own"),
            (
                "lines",
                "borax 2 g\nhydroquinone 5 g\nmetol 2\nsulphite 100 g/l\nphenidone 20 mg\npyro 0.3\nbromide 0.2 g",
            ),
            ("volume", "500 ml"),
            ("forms", "borax penta; carbonate mono"),
            ("prices", "metol 100 g 24.50; sulfite 1 kg 8"),
            ("currency", "EUR"),
        ],
        Kit::starter,
    ),
    (
        "weigh-solution",
        "weigh",
        &[("formula", "mq-carbonate"), ("volume", "250 ml"), ("good_to", "8 %")],
        Kit::starter,
    ),
    (
        "weigh-fine-balance",
        "weigh",
        &[("formula", "mq-borax-buffered"), ("volume", "300 ml"), ("good_to", "1")],
        well_kept,
    ),
    (
        "weigh-us-comma",
        "weigh",
        &[("formula", "mq-1900"), ("volume", "32"), ("forms", "sulfite anhydrous")],
        us_with_comma,
    ),
    (
        "weigh-acid-fixer",
        "weigh",
        &[
            ("formula", "own"),
            ("lines", "acetic acid 13 g; hypo 240 g; sulfite 15 g; boric acid 7,5 g"),
            ("volume", "5 l"),
        ],
        Kit::starter,
    ),
    ("weigh-stop", "weigh", &[("formula", "citric-stop")], Kit::starter),
    (
        "weigh-no-balance",
        "weigh",
        &[("formula", "metol-bisulfite")],
        no_balance,
    ),
    (
        "weigh-faults",
        "weigh",
        &[
            ("formula", "own"),
            ("lines", "metol 2 g; plenty"),
            ("forms", "metol"),
            ("prices", "metol"),
        ],
        Kit::starter,
    ),
    ("wash-first-visit", "wash", &[], Kit::starter),
    (
        "wash-measured",
        "wash",
        &[
            ("fresh", "280 ml"),
            ("carried", "10 ml"),
            ("one_in", "10000"),
            ("soak", "1:30"),
            ("aid", "fresh"),
        ],
        Kit::starter,
    ),
    (
        "wash-cold-us-comma",
        "wash",
        &[("fresh", "16"), ("temperature", "46"), ("films", "1")],
        us_with_comma,
    ),
    (
        "wash-little-water",
        "wash",
        &[("fresh", "200 ml"), ("films", "5"), ("temperature", "30 C")],
        Kit::starter,
    ),
    (
        "wash-faults",
        "wash",
        &[("fresh", "1 ml"), ("films", "none"), ("runs", "long")],
        Kit::starter,
    ),
];
