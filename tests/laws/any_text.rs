//! Any text whatsoever in any field: a value or a sentence, never a panic, never markup.

use meniscus::calculators::{self, Answer, Calculator};
use meniscus::entries::{self, Entry, Newcomer};
use meniscus::fields::{AnyField, Fault, Named};
use meniscus::kit::{Balance, House, Instrument, Kept, Kit, Tank};
use meniscus::view;
use proptest::collection::vec;
use proptest::prelude::*;
use proptest::sample;

use super::things::{balance, instrument, newcomer, tank, units};
use super::{darkroom, shelf, tries};

/// Pieces of what people type, so that more than the first letter is tried.
const PIECES: &[&str] = &[
    "0",
    "1",
    "9",
    "31",
    "100",
    "600",
    "18.75",
    "18,75",
    "1,000",
    "1e9",
    "-",
    "−",
    "+",
    ":",
    "/",
    ".",
    ",",
    " ",
    "%",
    "°",
    "ml",
    "l",
    "fl oz",
    "g",
    "g/l",
    "C",
    "F",
    "s",
    "m",
    "min",
    "h",
    "at",
    " at ",
    " in ",
    "then",
    "stock",
    "½",
    "¾",
    "\n",
    ";",
    "@",
    "inf",
    "NaN",
    "none",
    " to ",
    "0.2 0.3 0.5 0.8 1.1 1.3 1.4 ",
    "0.3 0.5; ",
    "seasonal",
    "days",
    "years",
    "2026-03-01",
    "syrup",
    "fixer",
    "added",
    "develop ",
    " every ",
    "first ",
    "glass",
    "pet",
    "3 x ",
    " weeks",
    "0.85 ",
    " ± ",
    "paired",
    "contrast",
    "<script>alert(1)</script>",
    "\"",
    "'",
    "&",
    "\0",
    "é",
    "٣",
    "🧪",
];

fn text() -> impl Strategy<Value = String> {
    prop_oneof![
        2 => any::<String>(),
        5 => vec(sample::select(PIECES), 0..8).prop_map(|pieces| pieces.concat()),
        2 => any::<f64>().prop_map(|number| number.to_string()),
        1 => sample::select(PIECES).prop_map(|piece| piece.repeat(2_000)),
    ]
}

/// Any text in some of the fields.
fn filled(fields: &'static [&'static dyn AnyField]) -> impl Strategy<Value = Named> {
    let one = (
        sample::select(fields.iter().map(|field| field.name()).collect::<Vec<_>>()),
        text(),
    );
    vec(one, 0..6).prop_map(|all| all.into_iter().map(|(name, text)| (name.to_owned(), text)).collect())
}

/// Every fault is a sentence, at a field that was there.
fn are_sentences(faults: &[Fault], fields: &[&dyn AnyField]) -> Result<(), TestCaseError> {
    for Fault { field, sentence } in faults {
        prop_assert!(fields.iter().any(|known| known.name() == field), "{}", field);
        prop_assert!(
            sentence.chars().count() > 10 && sentence.ends_with(['.', '!', '?']),
            "{}",
            sentence
        );
        prop_assert!(sentence.chars().count() < 400, "{}", sentence);
        prop_assert!(!sentence.contains("“”"), "{}", sentence);
    }
    Ok(())
}

/// A whole answer is sound: numbers are numbers, markup is ours alone.
fn is_sound(answer: &Answer) -> Result<(), TestCaseError> {
    for figure in answer.sheet.figures() {
        prop_assert!(figure.value.is_finite(), "{:?}", figure);
        prop_assert!(
            figure.standard_uncertainty.is_none_or(|u| u.is_finite() && u >= 0.0),
            "{:?}",
            figure
        );
    }
    let html = view::sheet(answer);
    prop_assert!(!html.contains("<script"), "{}", html);
    prop_assert!(!view::text(answer).is_empty());
    prop_assert!(serde_json::to_string(&view::data(answer)).is_ok());
    Ok(())
}

fn any_entry<T: Entry>(named: &Named, kit: &Kit) -> Result<Option<T>, TestCaseError> {
    let units = kit.house.units;
    match entries::read::<T>(named, units) {
        Ok(thing) => {
            let again = entries::read::<T>(&thing.write(units), units);
            prop_assert!(again.is_ok(), "{:?}: {:?}", thing.write(units), again.err());
            Ok(Some(thing))
        }
        Err(faults) => {
            prop_assert!(!faults.is_empty());
            are_sentences(&faults, T::FIELDS)?;
            Ok(None)
        }
    }
}

/// A field of a form that can be filled from any thing, and then one or two of its texts spoilt.
fn spoilt<T: Entry + std::fmt::Debug>(thing: impl Strategy<Value = T>) -> impl Strategy<Value = Named> {
    (thing, filled(T::FIELDS)).prop_map(|(thing, spoilt)| {
        let mut named = thing.write(meniscus::quantity::Units::default());
        named.extend(spoilt.into_iter().take(2));
        named
    })
}

proptest! {
    #![proptest_config(tries(200))]

    #[test]
    fn mix(named in filled(calculators::SINK[0].fields), units in units()) { try_calculator(calculators::SINK[0], &named, units)?; }

    #[test]
    fn measure(named in filled(calculators::SINK[1].fields), units in units()) { try_calculator(calculators::SINK[1], &named, units)?; }

    #[test]
    fn fill(named in filled(calculators::SINK[2].fields), units in units()) { try_calculator(calculators::SINK[2], &named, units)?; }

    #[test]
    fn time(named in filled(calculators::SINK[3].fields), units in units()) { try_calculator(calculators::SINK[3], &named, units)?; }

    /// Fields of no form at all are told, and change nothing else.
    #[test]
    fn unknown_fields(name in "[^a-z]{1,20}", text in text(), at in 0..calculators::ALL.len()) {
        let calculator = calculators::ALL[at];
        let with = calculator.answer(&Named::from([(name.clone(), text.clone())]), &darkroom::starter());
        let without = calculator.answer(&Named::new(), &darkroom::starter());
        prop_assert_eq!(&with.sheet, &without.sheet);
        prop_assert!(with.faults[0].sentence.starts_with("There is no field of this name"));
    }

    /// Whatever a Kit form takes, the calculators can use.
    #[test]
    fn kit_forms(
        an_instrument in spoilt(instrument(500)),
        a_balance in spoilt(balance()),
        a_tank in spoilt(tank()),
        a_bottle in spoilt(newcomer()),
        a_house in filled(House::FIELDS),
    ) {
        let mut kit = Kit::starter();
        let kept = |item| Kept { id: "own".to_owned(), item };
        kit.instruments.extend(any_entry::<Instrument>(&an_instrument, &kit)?.map(kept));
        let kept = |item| Kept { id: "own".to_owned(), item };
        kit.balances.extend(any_entry::<Balance>(&a_balance, &kit)?.map(kept));
        let own_tank = any_entry::<Tank>(&a_tank, &kit)?;
        if let Some(item) = own_tank {
            kit.tanks.insert(0, Kept { id: "own".to_owned(), item });
        }
        if let Some(item) = any_entry::<Newcomer>(&a_bottle, &kit)?.map(|newcomer| newcomer.is.label) {
            kit.bottles.push(Kept { id: "own".to_owned(), item });
        }
        if let Some(house) = any_entry::<House>(&a_house, &kit)? {
            kit.house = house;
        }
        let bottle = if kit.bottles.is_empty() { "" } else { "own" };
        let darkroom = darkroom::with(kit);
        for calculator in calculators::SINK {
            let mut named = Named::new();
            if calculator.fields.iter().any(|field| field.name() == "bottle") {
                named.insert("bottle".to_owned(), bottle.to_owned());
            }
            let answer = calculator.answer(&named, &darkroom);
            are_sentences(&answer.faults, calculator.fields)?;
            is_sound(&answer)?;
        }
    }
}

proptest! {
    // These look far ahead, so fewer of them are tried.
    #![proptest_config(tries(500))]

    #[test]
    fn of_the_shelf((at, named) in any_of_the_shelf(), units in units()) { try_calculator(calculators::SHELF[at], &named, units)?; }

    /// Any text in the form of a bottle that has a life behind it.
    #[test]
    fn a_bottle_with_a_life((at, mut named) in any_of_the_shelf()) {
        let calculator = calculators::SHELF[at];
        if calculator.fields.iter().any(|field| field.name() == "bottle") {
            named.insert("bottle".to_owned(), "blue-1".to_owned());
        }
        let answer = calculator.answer(&named, &shelf::darkroom());
        are_sentences(&answer.faults, calculator.fields)?;
        is_sound(&answer)?;
    }
}

/// One of the shelf, and any text in its form.
fn any_of_the_shelf() -> impl Strategy<Value = (usize, Named)> {
    (0..calculators::SHELF.len()).prop_flat_map(|at| (Just(at), filled(calculators::SHELF[at].fields)))
}

fn try_calculator(
    calculator: &Calculator,
    named: &Named,
    units: meniscus::quantity::Units,
) -> Result<(), TestCaseError> {
    let mut kit = Kit::starter();
    kit.house.units = units;
    let answer = calculator.answer(named, &darkroom::with(kit));
    are_sentences(&answer.faults, calculator.fields)?;
    is_sound(&answer)
}
