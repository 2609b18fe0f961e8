//! Pieces of sentences: what a bottle is, what it was for, what a test showed.

use crate::kit::Climate;
use crate::ledger::description::{ContainerNote, Description, Opened, Price, TestResult};
use crate::quantity::{Dilution, Units, Volume};

/// That a bottle came.
pub(super) fn added(is: &Description, filled: Option<Volume>, opened: Opened, units: Units) -> String {
    let content = match filled {
        Some(filled) => format!("{} of ", units.volume(filled)),
        None => String::new(),
    };
    let opened = match opened {
        Opened::Never => String::new(),
        Opened::On(day) => format!(", opened on {day}"),
        Opened::SomeDay => ", opened at some time".to_owned(),
        Opened::NotKnown => ", not known whether opened".to_owned(),
    };
    let unknown = match filled {
        Some(_) => "",
        None => ", not known how full",
    };
    format!("added {content}{}{opened}{unknown}", described(is, units))
}

/// `“Blue Syrup” (developer, syrup concentrate), in a 500 ml bottle of glass, for 24.90 EUR`
pub(super) fn described(is: &Description, units: Units) -> String {
    let container = match is.container == ContainerNote::default() {
        true => String::new(),
        false => format!(", in {}", container_words(&is.container, units)),
    };
    let price = is.price.as_ref().map(|price| price_words(price, units));
    let label = &is.label;
    format!(
        "“{}” ({}){container}{}",
        label.product,
        label.class.name(),
        price.unwrap_or_default()
    )
}

/// `a 500 ml bottle of glass`, or the user's own name for it.
pub(super) fn container_words(container: &ContainerNote, units: Units) -> String {
    if !container.name.is_empty() {
        return format!("“{}”", container.name);
    }
    let size = container.nominal.or(container.brimful).map(|size| units.volume(size));
    let size = size.map(|size| format!("{size} ")).unwrap_or_default();
    let material = container.material.map(|material| format!(" of {}", material.name()));
    format!("a {size}bottle{}", material.unwrap_or_default())
}

fn price_words(price: &Price, units: Units) -> String {
    let sum = units.hundredths(u64::from(price.cents));
    format!(", for {sum}{}", after(" ", &price.currency))
}

/// ` for 600 ml at 1+31`
pub(super) fn bath_words(bath: Option<Volume>, dilution: Option<&Dilution>, units: Units) -> String {
    let bath = bath.map(|bath| format!(" for {}", units.volume(bath)));
    let dilution = dilution.map(|dilution| format!(" at {dilution}"));
    bath.unwrap_or_default() + &dilution.unwrap_or_default()
}

pub(super) fn result_words(result: TestResult, units: Units) -> String {
    match result {
        TestResult::Passed => "passed".to_owned(),
        TestResult::Seen => "sound by eye".to_owned(),
        TestResult::Failed => "failed".to_owned(),
        TestResult::Strength { strength, uncertainty } => {
            let percent = |share: f64| units.number(share * 100.0, 1);
            let spread = uncertainty.map(|u| format!(" ± {}", percent(u.number())));
            format!(
                "{}{} % as strong as fresh",
                percent(strength.number()),
                spread.unwrap_or_default()
            )
        }
    }
}

pub(super) fn climate_words(climate: Climate, units: Units) -> String {
    match climate {
        Climate::Steady(always) => units.temperature(always),
        Climate::Between(low, high) => format!("{} to {}", units.temperature(low), units.temperature(high)),
        Climate::Seasonal { low, high, .. } => format!(
            "{} in winter, {} in summer",
            units.temperature(low),
            units.temperature(high)
        ),
    }
}

/// `a, b and c`
pub(super) fn listed(parts: &[String]) -> String {
    match parts {
        [] => String::new(),
        [one] => one.clone(),
        [before @ .., last] => format!("{} and {last}", before.join(", ")),
    }
}

/// Words that may be missing, with what parts them from the words before.
pub(super) fn after(parting: &str, words: &str) -> String {
    match words.is_empty() {
        true => String::new(),
        false => format!("{parting}{words}"),
    }
}
