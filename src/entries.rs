//! What the forms of the Kit and of the shelf take: an instrument, a balance, a tank, the house, a bottle that comes, what happens to
//! one. Named text to a thing, and back for editing.

mod bottle;
mod deed;
mod found;
mod house;
mod instrument;
mod tank;

pub use bottle::{LABEL_FIELDS, Newcomer, write_label};
pub use deed::{DEED_NAMES, DEEDS, Deed, Doing, PLACE_FIELDS, PLACE_FORM, read_place, within};
pub use found::found;

use crate::fields::{AnyField, Fault, Form, Named};
use crate::quantity::{Day, Units};

/// A thing that a form can describe.
pub trait Entry: Sized {
    /// Name of its form.
    const FORM: &'static str;
    /// Its fields, in the order of the form.
    const FIELDS: &'static [&'static dyn AnyField];

    /// Reads the form; `None` if anything needed is missing or at fault, which the form then tells.
    fn read(form: &mut Form) -> Option<Self>;

    /// The text that reads back as this thing, in these units.
    fn write(&self, units: Units) -> Named;

    /// What it is today, in a line.
    fn summary(&self, units: Units, today: Day) -> String;
}

/// A thing from named text, or everything that is wrong with it.
///
/// ```
/// use meniscus::entries::read;
/// use meniscus::fields::Named;
/// use meniscus::kit::Balance;
/// use meniscus::quantity::Units;
///
/// let named = Named::from([("name", ""), ("readability", "0,1 g"), ("most", "heavy")].map(|(k, v)| (k.into(), v.into())));
/// let faults = read::<Balance>(&named, Units::default()).unwrap_err();
/// assert_eq!(faults.len(), 2);
/// ```
///
/// # Errors
/// All faults, each tied to its field.
pub fn read<T: Entry>(named: &Named, units: Units) -> Result<T, Vec<Fault>> {
    let mut form = Form::new(named, units);
    form.refuse_unknown(T::FIELDS);
    let found = T::read(&mut form);
    match (found, form.into_faults()) {
        (Some(found), faults) if faults.is_empty() => Ok(found),
        (_, faults) => Err(faults),
    }
}

fn named<const N: usize>(pairs: [(&'static str, String); N]) -> Named {
    named_from(&mut pairs.into_iter())
}

/// One for all lengths, since each takes room on the page.
fn named_from(pairs: &mut dyn Iterator<Item = (&'static str, String)>) -> Named {
    let mut named = Named::new();
    for (name, text) in pairs {
        named.insert(name.to_owned(), text);
    }
    named
}
