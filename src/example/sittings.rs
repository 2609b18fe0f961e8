//! The developings of the invented darkroom, as they went.

use super::{NAMES, ml};
use crate::development::drift::Onward;
use crate::ledger::Moment;
use crate::quantity::{Day, Span, Temperature};
use crate::session::{Agitation, Bath, Made, Rate, Recipe, Session, Step, StepKind, Went};

/// A developing at 20 °C.
pub(super) struct Sitting {
    title: &'static str,
    films: &'static str,
    units: f64,
    /// Minutes after noon, universal time.
    began: i64,
    /// Step after step: kind, name, seconds planned, asked and given, and what was read, by seconds and °C.
    steps: &'static [Done],
    baths: &'static [Poured],
    figures: &'static [(&'static str, &'static str)],
    doubts: &'static [&'static str],
    note: &'static str,
}

type Done = (StepKind, &'static str, f64, f64, f64, &'static [(f64, f64)]);

/// Kind, bottle without the beginning that all have, words; concentrate and water in millilitres, and the dilution, of what is mixed.
type Poured = (StepKind, &'static str, &'static str, Option<(f64, f64, &'static str)>);

use StepKind::{Develop, Fix, Prewet, Stop, Wash, WettingAgent};

pub(super) const CHOIR: Sitting = Sitting {
    title: "The choir, Blue Syrup 1+31",
    films: "two rolls, box speed",
    units: 2.0,
    began: 385,
    steps: &[
        (Prewet, "", 60.0, 60.0, 63.0, &[]),
        (
            Develop,
            "",
            450.0,
            438.0,
            441.0,
            &[(30.0, 20.4), (180.0, 20.3), (360.0, 20.1)],
        ),
        (Stop, "", 60.0, 60.0, 60.0, &[]),
        (Fix, "", 300.0, 300.0, 305.0, &[(20.0, 20.8)]),
        (Wash, "", 600.0, 600.0, 640.0, &[(60.0, 18.5)]),
        (WettingAgent, "", 60.0, 60.0, 62.0, &[]),
    ],
    baths: &[
        (Develop, "blue", "Blue Syrup 1+31", Some((18.75, 581.25, "1+31"))),
        (Stop, "stop", "Sour Stop 1+19", Some((50.0, 950.0, "1+19"))),
        (Fix, "fix-bath-old", "Clear Fix bath 1+4", None),
    ],
    figures: &[
        ("Bath", "600 ml"),
        ("Concentrate", "18.75 ml"),
        ("Film covered from", "580 ml"),
    ],
    doubts: &[],
    note: "Even. The candles hold.",
};
pub(super) const PORTRAITS: Sitting = Sitting {
    title: "Portraits, Honey Syrup 1+19",
    films: "two rolls",
    units: 2.0,
    began: 420,
    steps: &[
        (
            Develop,
            "",
            540.0,
            576.0,
            579.0,
            &[(30.0, 19.6), (270.0, 19.4), (480.0, 19.3)],
        ),
        (Stop, "Water", 60.0, 60.0, 70.0, &[]),
        (Fix, "", 360.0, 360.0, 362.0, &[]),
        (Wash, "", 600.0, 600.0, 600.0, &[]),
        (WettingAgent, "", 60.0, 60.0, 55.0, &[]),
    ],
    baths: &[
        (Develop, "honey-1", "Honey Syrup 1+19", Some((30.0, 570.0, "1+19"))),
        (Fix, "fix-bath-old", "Clear Fix bath 1+4", None),
    ],
    figures: &[("Bath", "600 ml"), ("Concentrate", "30 ml")],
    doubts: &[],
    note: "The kitchen was cold. Skin as it should be.",
};
pub(super) const CHILDREN: Sitting = Sitting {
    title: "The children, Blue Syrup 1+31",
    films: "one roll",
    units: 1.0,
    began: 500,
    steps: &[
        (Develop, "", 450.0, 445.0, 452.0, &[(60.0, 20.1)]),
        (Stop, "Water", 60.0, 60.0, 58.0, &[]),
        (Fix, "", 360.0, 360.0, 401.0, &[]),
        (Wash, "", 600.0, 600.0, 600.0, &[]),
    ],
    baths: &[
        (Develop, "blue", "Blue Syrup 1+31", Some((9.375, 290.625, "1+31"))),
        (Fix, "fix-bath", "Clear Fix bath 1+4", None),
    ],
    figures: &[("Bath", "300 ml"), ("Concentrate", "9.375 ml")],
    doubts: &["The device slept while the film was in the fixer; how long that took is good to half a minute."],
    note: "",
};
pub(super) const STREET: Sitting = Sitting {
    title: "The street, Blue bath 1+49 used again",
    films: "two rolls",
    units: 2.0,
    began: 410,
    steps: &[
        (
            Develop,
            "",
            660.0,
            645.0,
            648.0,
            &[(45.0, 20.0), (300.0, 20.2), (600.0, 20.4)],
        ),
        (Stop, "Water", 60.0, 60.0, 64.0, &[]),
        (Fix, "", 360.0, 360.0, 366.0, &[(15.0, 20.6)]),
        (Wash, "", 600.0, 600.0, 610.0, &[]),
        (WettingAgent, "", 60.0, 60.0, 60.0, &[]),
    ],
    baths: &[
        (Develop, "blue-bath", "Blue bath 1+49", None),
        (Fix, "fix-bath", "Clear Fix bath 1+4", None),
    ],
    figures: &[("Bath", "500 ml"), ("Films through it before", "2")],
    doubts: &[],
    note: "Thin. The bath is at its end; test it before anything else goes in.",
};

/// As it went on a day; `None` if a dilution of the table is none.
pub(super) fn session(sitting: &Sitting, day: Day) -> Option<Session> {
    let mut began = Span::ZERO;
    let mut went = Vec::with_capacity(sitting.steps.len());
    for (step, (_, _, _, asked, given, readings)) in sitting.steps.iter().enumerate() {
        let mut read = Vec::new();
        for (at, celsius) in *readings {
            read.push((Span::from_seconds(*at), Temperature::from_celsius(*celsius)));
        }
        went.push(Went {
            step,
            began,
            lasted: Span::from_seconds(*given),
            due: Span::from_seconds(*asked),
            paused: Span::ZERO,
            readings: read,
        });
        // Pouring out, and the next one in.
        began = began + Span::from_seconds(given + 15.0);
    }
    Some(Session {
        recipe: recipe(sitting)?,
        began: Moment::noon(day).milliseconds() + sitting.began * 60_000,
        steps: went,
        doubts: sitting.doubts.iter().map(|doubt| (*doubt).to_owned()).collect(),
        note: sitting.note.to_owned(),
    })
}

fn recipe(sitting: &Sitting) -> Option<Recipe> {
    let at = Temperature::from_celsius(20.0);
    let mut recipe = Recipe {
        title: sitting.title.to_owned(),
        films: sitting.films.to_owned(),
        units: sitting.units,
        steps: Vec::new(),
        baths: Vec::new(),
        rate: Some(Rate {
            activation: 80_000.0,
            is_assumed: Some(true),
            at,
            onward: Onward::Held,
        }),
        figures: Vec::new(),
        form: Vec::new(),
    };
    for (kind, name, planned, ..) in sitting.steps {
        let is_timed = matches!(kind, Develop | Fix);
        recipe.steps.push(Step {
            kind: *kind,
            name: (*name).to_owned(),
            time: Span::from_seconds(*planned),
            temperature: is_timed.then_some(at),
            agitation: is_timed.then(|| Agitation {
                first: Span::from_seconds(30.0),
                each: Span::from_seconds(10.0),
                every: Span::from_seconds(60.0),
            }),
        });
    }
    for (kind, bottle, words, mixed) in sitting.baths {
        let bottle = NAMES.to_owned() + bottle;
        if *kind == Develop {
            recipe.form.push(("bottle".to_owned(), bottle.clone()));
        }
        let mut made = Made::Reused;
        if let Some((concentrate, water, dilution)) = mixed {
            if *kind == Develop {
                recipe.form.push(("dilution".to_owned(), (*dilution).to_owned()));
            }
            made = Made::Mixed {
                concentrate: ml(*concentrate),
                water: ml(*water),
                dilution: dilution.parse().ok()?,
            };
        }
        recipe.baths.push(Bath {
            kind: *kind,
            bottle,
            words: (*words).to_owned(),
            made,
        });
    }
    for (is, shown) in sitting.figures {
        recipe.figures.push(((*is).to_owned(), (*shown).to_owned()));
    }
    Some(recipe)
}
