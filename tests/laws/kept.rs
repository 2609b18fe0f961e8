//! What is kept: a thing written into its form and read again, a record written and read again, a store saved and loaded.

use meniscus::entries::{self, Entry, Newcomer};
use meniscus::fields::Named;
use meniscus::kit::{Instrument, InstrumentKind, Reading, Tolerance};
use meniscus::ledger::{BottleId, Event, EventId, Moment, What};
use meniscus::quantity::{Day, Units, Volume};
use meniscus::store::{self, Door, KIT, Memory, Record};
use proptest::prelude::*;

use super::things::{balance, bottle, house, instrument, newcomer, tank, thermometer, units};
use super::tries;

/// Through the form and back, as it is kept.
fn through_the_form<T: Entry + Clone>(thing: &T, units: Units, record: fn(T) -> Record) -> Result<(), TestCaseError> {
    let named = thing.write(units);
    let back = entries::read::<T>(&named, units);
    let back = back.map_err(|faults| TestCaseError::fail(format!("{named:?}: {faults:?}")))?;
    prop_assert_eq!(record(back).to_text(), record(thing.clone()).to_text(), "{:?}", named);
    let fields: Vec<_> = T::FIELDS.iter().map(|field| field.name()).collect();
    prop_assert!(named.keys().all(|name| fields.contains(&name.as_str())), "{:?}", named);
    Ok(())
}

/// Written and read again; what is read is written the same.
fn through_text(record: &Record) -> Result<(), TestCaseError> {
    let text = record.to_text();
    let back = Record::from_text(&text);
    let back = back.map_err(|error| TestCaseError::fail(format!("{text}: {error}")))?;
    prop_assert_eq!(back.to_text(), text);
    prop_assert_eq!(&back, record);
    Ok(())
}

/// What the ledger writes when such a bottle comes.
fn as_added(newcomer: Newcomer) -> String {
    let at = Moment::noon(Day::from_days(20_000));
    let what = What::Added {
        bottle: BottleId::new("own").expect("a name"),
        is: Box::new(newcomer.is),
        filled: newcomer.filled,
        opened: newcomer.opened,
    };
    Event {
        id: EventId::new(at, 1),
        at,
        day: at.day(),
        what,
    }
    .to_text()
}

fn form() -> impl Strategy<Value = Named> {
    prop::collection::btree_map("[a-z_]{1,12}", any::<String>(), 0..6).prop_map(Named::from_iter)
}

proptest! {
    #![proptest_config(tries(500))]

    #[test]
    fn an_instrument_stays_itself(thing in instrument(900), units in units()) {
        let undated = Instrument { calibrated_on: None, ..thing.clone() };
        through_the_form(&undated, units, Record::Instrument)?;
        // Changed by a form that tells no day, it keeps its own while all of the calibration stays.
        let typed = entries::read::<Instrument>(&undated.write(units), units);
        let mut same = typed.map_err(|faults| TestCaseError::fail(format!("{faults:?}")))?;
        same.date(Some(&thing));
        prop_assert_eq!(same.calibrated_on, thing.calibrated_on);
        // What was typed by hand has no day: a new thing, one that was by its limit, and one of which any figure is another.
        let mut new = undated.clone();
        new.date(None);
        prop_assert_eq!(new.calibrated_on, None);
        let mut limited = thing.clone();
        limited.tolerance = Tolerance::GUIDE;
        limited.date(Some(&thing));
        prop_assert_eq!(limited.calibrated_on, None);
        if let Tolerance::Calibrated { bias, uncertainty, repeatability } = thing.tolerance {
            let more = Volume::from_microlitres(1);
            for tolerance in [
                Tolerance::Calibrated { bias: bias + more, uncertainty, repeatability },
                Tolerance::Calibrated { bias, uncertainty: uncertainty + more, repeatability },
                Tolerance::Calibrated { bias, uncertainty, repeatability: repeatability + more },
            ] {
                let mut other = Instrument { tolerance, ..thing.clone() };
                other.date(Some(&thing));
                prop_assert_eq!(other.calibrated_on, None);
            }
        }
        through_text(&Record::Instrument(thing))?;
    }

    #[test]
    fn a_balance_stays_itself(thing in balance(), units in units()) {
        through_the_form(&thing, units, Record::Balance)?;
        through_text(&Record::Balance(thing))?;
    }

    #[test]
    fn a_tank_stays_itself(thing in tank(), units in units()) {
        through_the_form(&thing, units, Record::Tank)?;
        through_text(&Record::Tank(thing))?;
    }

    #[test]
    fn a_bottle_stays_itself(thing in bottle(), units in units()) {
        through_text(&Record::Bottle(thing.clone()))?;
        let named = entries::write_label(&thing, units);
        let fields: Vec<_> = Newcomer::FIELDS.iter().map(|field| field.name()).collect();
        prop_assert!(named.keys().all(|name| fields.contains(&name.as_str())), "{:?}", named);
    }

    /// Through its form and back, as the ledger writes it.
    #[test]
    fn a_newcomer_stays_itself(thing in newcomer(), units in units()) {
        let named = thing.write(units);
        let back = entries::read::<Newcomer>(&named, units);
        let back = back.map_err(|faults| TestCaseError::fail(format!("{named:?}: {faults:?}")))?;
        prop_assert_eq!(&back.place, &thing.place);
        prop_assert_eq!(as_added(back), as_added(thing), "{:?}", named);
    }

    /// A comparison makes it, so that it has no form.
    #[test]
    fn a_thermometer_stays_itself(thing in thermometer()) {
        through_text(&Record::Thermometer(thing))?;
    }

    #[test]
    fn a_house_stays_itself(thing in house(), units in units()) {
        through_the_form(&thing, units, Record::House)?;
        through_text(&Record::House(thing))?;
    }

    #[test]
    fn what_stood_in_a_form_stays(fields in form()) {
        through_text(&Record::Form(fields))?;
        through_text(&Record::Gone)?;
    }

    #[test]
    fn what_is_saved_is_loaded(
        instruments in prop::collection::vec(instrument(100), 0..4),
        bottles in prop::collection::vec(bottle(), 0..4),
        house in house(),
        form in form(),
    ) {
        let door = Memory::default();
        let save = |key: String, record: Record| store::save(&door, &key, &record).expect("room");
        for (index, item) in instruments.iter().enumerate() {
            save(format!("{KIT}i{index}"), Record::Instrument(item.clone()));
        }
        for (index, item) in bottles.iter().enumerate() {
            save(format!("{KIT}b{index}"), Record::Bottle(item.clone()));
        }
        save(format!("{KIT}house"), Record::House(house));
        save(format!("{}mix", store::FORMS), Record::Form(form.clone()));
        let loaded = store::load(&door);
        prop_assert_eq!(&loaded.unread, &[]);
        prop_assert_eq!(loaded.kit.house, house);
        prop_assert_eq!(&loaded.forms, &[("mix".to_owned(), form)]);
        for (index, item) in bottles.iter().enumerate() {
            prop_assert_eq!(loaded.kit.bottle(&format!("b{index}")), Some(item));
        }
        let own = loaded.kit.instruments.iter().filter(|kept| kept.id.starts_with('i'));
        let own: Vec<_> = own.map(|kept| kept.item.clone()).collect();
        prop_assert_eq!(own, instruments);
    }

    /// Anything under any key loads as something or stays as it is; nothing panics and nothing is lost.
    #[test]
    fn any_text_in_the_store_is_read_or_left(
        texts in prop::collection::btree_map("meniscus/[a-z/]{0,12}", any::<String>(), 0..8),
    ) {
        let door = Memory::default();
        for (key, text) in &texts {
            door.set(key, text).expect("room");
        }
        let loaded = store::load(&door);
        let unread: Vec<_> = loaded.unread.iter().map(|unread| (&unread.key, &unread.text)).collect();
        prop_assert_eq!(unread, texts.iter().collect::<Vec<_>>());
    }

    /// A graduate of whole eighths of a fluid ounce still stands on its marks after it was kept, though what is kept is whole
    /// microlitres.
    #[test]
    fn marks_stay_marks_in_fluid_ounces(eighths in 1u32..=8, marks in 2u32..=64) {
        let graduation = Volume::US_FLUID_OUNCE * (f64::from(eighths) / 8.0);
        let thing = Instrument {
            name: "graduate".to_owned(),
            kind: InstrumentKind::Cylinder,
            capacity: graduation * f64::from(marks),
            graduation,
            reading: Reading::HalfMarks,
            tolerance: Tolerance::Own(Volume::from_millilitres(0.5)),
            dead_space: Volume::ZERO,
            calibrated_on: None,
        };
        let Ok(Record::Instrument(kept)) = Record::from_text(&Record::Instrument(thing).to_text()) else {
            return Err(TestCaseError::fail("not an instrument"));
        };
        for mark in 1..=marks {
            let volume = graduation * f64::from(mark);
            prop_assert!(kept.on_mark(volume), "mark {} of {}", mark, marks);
            prop_assert!(kept.can_draw(volume), "mark {} of {}", mark, marks);
        }
        prop_assert!(!kept.on_mark(graduation * 1.1) && !kept.can_draw(kept.capacity * 1.1));
    }
}
