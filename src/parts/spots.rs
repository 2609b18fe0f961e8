//! The tests by a colour, said as a sheet: what to do, what it showed, what it means, how sure that is.

use super::strip::strip;
use super::{Picked, text};
use crate::darkroom::Darkroom;
use crate::fields::{self, Form};
use crate::proof::{Finding, Outcome, Spot, TestKind, by_indicator, by_ph, by_stain};
use crate::sheet::{Figure, Item, Sheet, Way};

/// The place of the verdict that nobody has looked yet: after those of a [`Spot`].
const NOT_LOOKED_AT: usize = 3;

/// Fills the sheet of the test that is chosen.
pub fn spots(sheet: &mut Sheet, form: &mut Form, darkroom: &Darkroom) {
    let picked = Picked::read(form, darkroom);
    let Some(test) = form.read(&fields::SPOT) else { return };
    let tested = picked.tested(test, form);
    let (indicator, ph) = (form.read(&fields::INDICATOR), form.read(&fields::PH));
    let (silver, wash) = (form.read(&fields::STAIN), form.read(&fields::WASH_STAIN));
    let shown = match test {
        TestKind::Indicator => {
            form.pass_over(&["stain", "wash_stain"]);
            let (colour, measured) = (indicator.map(by_indicator), ph.map(by_ph));
            if matches!(
                (colour, measured),
                (Some(Spot::Sound), Some(Spot::Spoilt)) | (Some(Spot::Spoilt), Some(Spot::Sound))
            ) {
                form.fault(
                    "ph",
                    "the colour says otherwise: look again, or measure again; the worse of the two counts meanwhile",
                );
            }
            [measured, colour]
                .into_iter()
                .flatten()
                .max_by_key(|spot| *spot as usize)
        }
        TestKind::ResidualSilver => {
            form.pass_over(&["indicator", "ph", "wash_stain"]);
            silver.map(by_stain)
        }
        _ => {
            form.pass_over(&["indicator", "ph", "stain"]);
            wash.map(by_stain)
        }
    };
    let kind = Kind::of(test);
    kind.title.clone_into(&mut sheet.title);
    let place = shown.map_or(NOT_LOOKED_AT, |spot| spot as usize);
    let verdict = kind.verdicts.get(place).unwrap_or(&"not looked at yet");
    sheet.headline.push(Figure::word("verdict", "It says", place, verdict));
    if let Some(spot) = shown {
        sheet.part("What it means", vec![text(kind.meanings[place])]);
        sheet.finding = tested.and_then(|_| finding(test, spot, ph));
    }
    let way = Way {
        title: kind.in_short.to_owned(),
        steps: kind.steps.iter().map(|step| (*step).to_owned()).collect(),
        figures: Vec::new(),
        best: false,
    };
    sheet.part("What to do", vec![Item::Way(way)]);
    let expected = match test {
        TestKind::Indicator => strip(
            "The bath against white, drawn in greys: the nearer it is to spent, the darker it looks",
            [
                ("acid", 0.1, "yellow"),
                ("soon spent", 0.3, "between"),
                ("spent", 0.8, "purple"),
            ],
        ),
        _ => strip(
            "What a drop leaves, on white paper",
            [
                ("sound", 0.0, "nothing"),
                ("doubtful", 0.12, "hardly seen"),
                ("not sound", 0.6, "plain"),
            ],
        ),
    };
    sheet.part("What to expect", vec![expected]);
    sheet.part(
        "How sure it is",
        kind.sureness.iter().map(|sentence| text(sentence)).collect(),
    );
    let cautions = kind.cautions.iter().chain(&ALWAYS);
    sheet.part(
        "Take care",
        cautions.map(|caution| Item::Caution((*caution).to_owned())).collect(),
    );
}

/// What goes into the record; nothing where it cannot be told.
fn finding(test: TestKind, spot: Spot, ph: Option<f64>) -> Option<Finding> {
    let outcome = match spot {
        // A pH is measured; a colour is seen.
        Spot::Sound if test == TestKind::Indicator && ph.is_some() => Outcome::Passed,
        Spot::Sound => Outcome::Seen,
        Spot::Doubtful => return None,
        Spot::Spoilt => Outcome::Failed,
    };
    let remark = match (test, ph) {
        (TestKind::Indicator, Some(_)) => "by its pH",
        (TestKind::Indicator, None) => "by its colour",
        _ => "by the stain of a drop",
    };
    Some(Finding {
        test,
        outcome,
        remark: remark.to_owned(),
    })
}

/// What is said of one of the tests; what a colour says stands in the order of [`Spot`].
struct Kind {
    title: &'static str,
    in_short: &'static str,
    steps: &'static [&'static str],
    verdicts: [&'static str; 3],
    meanings: [&'static str; 3],
    sureness: &'static [&'static str],
    cautions: &'static [&'static str],
}

const ALWAYS: [&str; 2] = [
    "Gloves on, eyes guarded, window open. Away from food and from children.",
    "The safety data sheets and your local rules stand above anything said here.",
];

impl Kind {
    fn of(test: TestKind) -> &'static Self {
        match test {
            TestKind::ResidualSilver => &SILVER,
            TestKind::ResidualThiosulfate => &THIOSULFATE,
            _ => &STOP,
        }
    }
}

/// The indicator's colours: tables, from memory. Smell and pH limits: common practice, no source.
static STOP: Kind = Kind {
    title: "Is the stop bath still acid?",
    in_short: "Look at its colour in white light, or measure its pH",
    steps: &[
        "Pour a little into a clean glass and hold it before something white, in daylight or under a white lamp.",
        "With an indicator in it: yellow is acid, purple is spent. Say above what you see.",
        "Without one, dip a pH strip or a meter and write the figure above.",
    ],
    verdicts: ["use it", "replace it soon", "replace it"],
    meanings: [
        "It is acid enough: it stops development and keeps the fixer clean.",
        "It may stop this film still. Do not begin a day with it, and not a paid job.",
        "It no longer stops: development goes on unevenly, and developer is carried into the fixer. Mix a fresh one.",
    ],
    sureness: &[
        "The colour tells fresh from spent. It does not tell how many films are left in it.",
        "The usual indicator is yellow up to a pH of 5.2 and purple from 6.8; the bath is spent from 5.5 to 6.",
        "Under an amber or red lamp both colours look alike: use white light.",
    ],
    cautions: &[
        "Pour acid into water, never water into acid, and keep it away from fixer in bulk: that gives off sulfur dioxide.",
    ],
};

/// The sulfide test of fixed film: common practice, no source; the amount from memory.
static SILVER: Kind = Kind {
    title: "Is silver left in the film?",
    in_short: "A drop of weak sodium sulfide on clear film",
    steps: &[
        "Take the clear edge or leader of a film that is fixed and washed. Blot it dry.",
        "Put one drop of a 0.2 % solution of sodium sulfide on it and wait three minutes.",
        "Rinse, blot, and look at it on white paper beside film without a drop.",
    ],
    verdicts: ["fixed through", "fix it again", "fix it again"],
    meanings: [
        "No silver is left that the eye could find. The fixer did its work on this film.",
        "A faint stain can be silver. Fix once more, in fresh fixer, and wash; then test again.",
        "Silver is left and would darken in the light. Fix the film again in fresh fixer, wash it, and replace the fixer.",
    ],
    sureness: &[
        "By eye it finds only plain faults. A clear spot says that fixing was not grossly short; it proves no archive.",
        "Do it on film that went through late in the fixer's life: the first film of a fresh bath proves nothing.",
        "On film that is not washed the drop stains too, by the fixer's own silver: wash first.",
    ],
    cautions: &[
        "Sodium sulfide is caustic, and with any acid gives off hydrogen sulfide, which can kill: keep it away from stop bath and fixer.",
        "It fogs film, too, by its vapour: keep it away from film that is not developed.",
    ],
};

/// The silver nitrate test of washed film: common practice, no source. The limit for keeping: ISO 18917 and ISO 18901.
static THIOSULFATE: Kind = Kind {
    title: "Is fixer left in the film?",
    in_short: "A drop of acid silver nitrate on clear film",
    steps: &[
        "Take the clear edge or leader of a film after its wash. Wipe off the water.",
        "Put one drop of acid silver nitrate test solution on it, away from daylight, and wait two minutes.",
        "Wipe it off and look at once, on white paper: the stain darkens in the light.",
    ],
    verdicts: ["washed well", "wash it longer", "wash it longer"],
    meanings: [
        "No fixer is left that the eye could find.",
        "Little is left. For film that is to last, wash it through two more changes and test again.",
        "Fixer is left and would bleach the image in years. Wash it again; with film fixer a wash aid shortens that.",
    ],
    sureness: &[
        "By eye it finds only plain faults. What film may hold that must last, 0.014 g of thiosulfate on a square metre, only a \
         laboratory can measure (ISO 18917).",
        "It is written down of the wash, and says nothing of what is in a bottle.",
        "A test goes with the film: cut the piece off, since the drop stays.",
    ],
    cautions: &[
        "Silver nitrate burns skin and eyes and stains all it touches black; hand in what is left, it does not go down the drain.",
    ],
};
