//! Reading and showing: what is shown reads back as it is shown, in every unit and with either decimal mark.

use meniscus::calculators;
use meniscus::entries::{self, Entry, Newcomer};
use meniscus::fields::{AnyField, Climates, Kind, Named};
use meniscus::kit::{Balance, Climate, House, Instrument, Kit, Tank};
use meniscus::parts;
use meniscus::quantity::{
    Amount, Bounds, Mass, Span, Temperature, TemperatureDifference, Units, Volume, bounds, exact, read,
};
use meniscus::sheet::Figure;
use proptest::prelude::*;

use super::things::{all_units, dilution, units};
use super::{close, darkroom, tries};

/// A range wide enough for anything below.
const WIDE: Bounds = Bounds {
    what: "the number",
    least: -1e6,
    most: 20_000.0,
    why: "a test",
};

proptest! {
    #![proptest_config(tries(2000))]

    #[test]
    fn a_shown_volume_reads_back(ml in 0.05f64..20_000.0, units in units()) {
        let volume = Volume::from_millilitres(ml);
        let text = units.volume(volume);
        let back = read::volume(&text, &WIDE, units).expect(&text);
        prop_assert!(close(back.millilitres(), units.shown_volume(volume).millilitres(), 1e-9), "{text}");
        prop_assert_eq!(units.volume(back), text);
        // To 0.005 ml below a litre, else 0.05 ml; or four figures of a fluid ounce.
        let least = units.volume_unit().millilitres() * 1e-6;
        prop_assert!(close(back.millilitres(), ml, (5.001e-4 * ml).max(0.00501).max(least)));
    }

    #[test]
    fn an_exact_volume_reads_back_exactly(microlitres in 1i64..20_000_000, units in units()) {
        let text = exact::volume(Volume::from_microlitres(microlitres), units);
        let back = read::volume(&text, &WIDE, units).expect(&text);
        prop_assert_eq!(back.microlitres(), microlitres, "{}", text);
    }

    /// Graduates in fluid ounces are written in fluid ounces, not in a long tail of millilitres.
    #[test]
    fn a_round_number_of_ounces_stays_round(eighths in 1u32..=512) {
        let ounces = f64::from(eighths) / 8.0;
        let us = all_units().into_iter().find(|units| units.volume_unit() == Volume::US_FLUID_OUNCE).expect("US units");
        let text = exact::volume(Volume::US_FLUID_OUNCE * ounces, us);
        prop_assert!(text.ends_with(" fl oz") && text.len() <= "63.8750 fl oz".len(), "{}", text);
        let back = read::volume(&text, &WIDE, us).expect(&text);
        prop_assert!(close(back / Volume::US_FLUID_OUNCE, ounces, 1e-12), "{}", text);
    }

    #[test]
    fn a_shown_mass_reads_back(grams in 0.01f64..5_000.0, units in units()) {
        let text = units.mass(Mass::from_grams(grams));
        let back = read::mass(&text, &WIDE, units).expect(&text);
        prop_assert_eq!(units.mass(back), text);
        let half_step = if grams < 99.995 { 0.00501 } else { 0.0501 };
        prop_assert!(close(back.grams(), grams, half_step));
    }

    #[test]
    fn a_shown_temperature_reads_back(celsius in -10.0f64..100.0, units in units()) {
        let text = units.temperature(Temperature::from_celsius(celsius));
        let back = read::temperature(&text, &WIDE, units).expect(&text);
        prop_assert_eq!(units.temperature(back), text);
        prop_assert!(close(back.celsius(), celsius, 0.0501));
    }

    #[test]
    fn a_shown_difference_reads_back(kelvins in 0.01f64..50.0, units in units()) {
        let difference = TemperatureDifference::from_kelvins(kelvins);
        let text = units.temperature_difference(difference);
        let back = read::temperature_difference(&text, &WIDE, units).expect(&text);
        prop_assert_eq!(units.temperature_difference(back), text);
        prop_assert!(close(back.kelvins(), kelvins, 0.0501 * kelvins));
        let exact = TemperatureDifference::from_millidegrees((kelvins * 1000.0) as i64);
        let text = exact::difference(exact, units);
        prop_assert_eq!(read::temperature_difference(&text, &WIDE, units).expect(&text).millidegrees(), exact.millidegrees());
    }

    #[test]
    fn a_shown_time_reads_back(seconds in 10.0f64..86_400.0, units in units()) {
        let text = units.span(Span::from_seconds(seconds));
        let back = read::span(&text, &bounds::TIME, units).expect(&text);
        prop_assert!(close(back.seconds(), seconds, 0.501), "{text}");
        prop_assert_eq!(units.span(back), text);
    }

    #[test]
    fn a_shown_percentage_reads_back(share in 0.0001f64..2.0, units in units()) {
        let text = units.percent(share);
        let back = read::percent(&text, &WIDE, units).expect(&text);
        prop_assert_eq!(units.percent(back / 100.0), text);
        prop_assert!(close(back / 100.0, share, 0.0501 * share));
    }

    #[test]
    fn a_shown_dilution_reads_back(dilution in dilution()) {
        let text = dilution.to_string();
        let back: meniscus::quantity::Dilution = text.parse().expect(&text);
        prop_assert_eq!(back.to_string(), text);
        prop_assert!(close(back.strength(), dilution.strength(), 1e-12 + 1e-4 * dilution.strength()));
    }

    /// The same time in every way of writing it.
    #[test]
    fn a_time_is_read_in_every_writing(minutes in 1u32..1_000, seconds in 0u32..60, units in units()) {
        let wanted = f64::from(minutes * 60 + seconds);
        let mut ways = vec![
            format!("{minutes}:{seconds:02}"),
            format!("{minutes}m{seconds}s"),
            format!("{minutes} min {seconds} s"),
            format!("{minutes}m{seconds:02}"),
            format!("{wanted} s"),
        ];
        if seconds == 45 {
            ways.extend([format!("{minutes} 3/4"), format!("{minutes}¾"), format!("{minutes}.75"), format!("{minutes},75")]);
        }
        for way in ways {
            prop_assert_eq!(read::span(&way, &WIDE_TIME, units).map(Span::seconds), Ok(wanted), "{}", way);
        }
    }

    /// A number out of its range is never taken, and the sentence names both ends.
    #[test]
    fn a_range_is_a_gate(ml in prop_oneof![-1e12f64..9.999, 20_000.1f64..1e12, Just(f64::INFINITY), Just(f64::NAN)]) {
        let text = format!("{ml} ml");
        let fault = read::volume(&text, &bounds::BATH, Units::default()).expect_err(&text).to_string();
        let told = fault.starts_with("the total must be from 10 ml to 20 l");
        prop_assert!(told || fault.contains("not a number") || fault.contains("more digits"), "{}", fault);
    }
}

const WIDE_TIME: Bounds = Bounds {
    what: "the time",
    least: 0.0,
    most: 100_000.0,
    why: "a test",
};

/// NIST Handbook 44, appendix C: the gallon is 231 cubic inches, 128 fluid ounces, 4 quarts; the pound 453.59237 g, 16 ounces.
#[test]
fn a_gallon_is_128_fluid_ounces() {
    let ml = |text: &str| read::volume(text, &WIDE, Units::default()).expect(text).millilitres();
    for text in ["1 gal", "128 fl oz", "4 qt", "3.785411784 l", "3785.411784 ml"] {
        assert!(close(ml(text), 231.0 * 2.54 * 2.54 * 2.54, 1e-9), "{text}");
    }
    assert!(close(ml("1 l") - ml("1000 ml"), 0.0, 0.0));
    let pound = read::mass("16 oz", &WIDE, Units::default()).expect("16 oz");
    assert!(close(pound.grams(), 453.592_37, 1e-9));
    let room = read::temperature("68 F", &WIDE, Units::default()).expect("68 F");
    assert!(close(room.celsius(), 20.0, 1e-12));
}

/// Both ends of what a field says it takes are taken, as they are said, in all units.
#[test]
fn what_a_field_says_it_takes_it_takes() {
    for units in all_units() {
        let mut kit = Kit::starter();
        kit.house.units = units;
        let darkroom = darkroom::with(kit);
        for calculator in calculators::ALL {
            for field in calculator.fields {
                for end in ends(*field, units) {
                    let named = Named::from([(field.name().to_owned(), end.clone())]);
                    let faults = calculator.answer(&named, &darkroom).faults;
                    // A bottle or a syringe holds no more than it does, a bath no more concentrate than all of it, there are no more rolls than
                    // readings, a target is not past its limit, a base no denser than the film, nor a hot tap colder than the cold one, whatever the
                    // field would take.
                    let by_others = [
                        "left",
                        "began",
                        "water",
                        "concentrate",
                        "first_rolls",
                        "second_rolls",
                        "target",
                        "limit",
                        "base",
                        "marked",
                        "hot",
                    ];
                    let by_another = by_others.contains(&field.name());
                    let at_fault = faults.iter().find(|fault| {
                        fault.field == field.name() && (!by_another || fault.sentence.contains("must be from"))
                    });
                    assert!(at_fault.is_none(), "{}, “{end}”: {at_fault:?}", calculator.name);
                }
            }
        }
        entry_takes::<Instrument>(units);
        entry_takes::<Balance>(units);
        entry_takes::<Tank>(units);
        entry_takes::<Newcomer>(units);
        entry_takes::<House>(units);
    }
}

fn entry_takes<T: Entry>(units: Units) {
    for field in T::FIELDS {
        for end in ends(*field, units) {
            let named = Named::from([(field.name().to_owned(), end.clone())]);
            let faults = entries::read::<T>(&named, units).err().unwrap_or_default();
            let gate = faults
                .iter()
                .find(|fault| fault.field == field.name() && fault.sentence.contains("must be from"));
            assert!(gate.is_none(), "{}, “{end}”: {gate:?}", T::FORM);
        }
    }
}

/// The two ends of `LEAST to MOST`; nothing for fields that are not ranges.
fn ends(field: &dyn AnyField, units: Units) -> Vec<String> {
    let takes = field.takes(units);
    let is_range = ["up to", "one a line", "seasonal"]
        .iter()
        .all(|not| !takes.contains(not))
        && takes.chars().any(|c| c.is_ascii_digit());
    match takes.split_once(" to ") {
        Some((least, most)) if is_range && !takes.contains("then") => vec![least.to_owned(), most.to_owned()],
        _ => Vec::new(),
    }
}

/// A year has 365.2425 days in the mean and twelve months (Gregorian calendar); a week has seven days.
#[test]
fn periods_are_read_in_days() {
    const LIFE: Bounds = Bounds {
        what: "the life",
        least: 1.0,
        most: 36_525.0,
        why: "a test",
    };
    let cases = [
        ("90", 90.0),
        ("90 d", 90.0),
        ("6 weeks", 42.0),
        ("1 month", 30.436_875),
        ("2 1/2 years", 913.106_25),
        ("4 y", 1460.97),
    ];
    for (text, days) in cases {
        let read = read::period(text, &LIFE, Units::default()).expect(text);
        assert!(close(read, days, 1e-9), "{text}: {read}");
    }
}

/// By hand, from the mean year: 180 days are 5.914 months, less than 2 % from six, and 210 are 6.899; 100 are 3.285, which is no
/// whole number; 60 are 8.57 weeks and stay days, 63 are nine weeks; 730 are not quite two years.
#[test]
fn a_stretch_is_said_as_people_say_it() {
    let cases = [
        (1.0, "1 day"),
        (40.4, "40 days"),
        (56.0, "8 weeks"),
        (60.0, "60 days"),
        (63.0, "9 weeks"),
        (100.0, "3.3 months"),
        (180.0, "6 months"),
        (210.0, "7 months"),
        (730.0, "24 months"),
        (1461.0, "4 years"),
        (1023.0, "2.8 years"),
    ];
    for (days, said) in cases {
        assert_eq!(Units::default().period(days), said, "{days}");
    }
}

/// Arithmetic of rounding: to the hundredth at the finest, and what is less than half of one is not called nothing.
#[test]
fn what_is_tiny_is_said_to_be_less_and_not_to_be_about_nothing() {
    let units = Units::default();
    let amount = |millimoles| units.amount(Amount::from_millimoles(millimoles));
    assert_eq!(amount(0.0), "0 mmol");
    assert_eq!(amount(1e-12), "0 mmol");
    assert_eq!(amount(0.0049), "less than 0.01 mmol");
    assert_eq!(amount(0.0551), "0.06 mmol");
    assert_eq!(amount(18.34), "18.3 mmol");
    assert_eq!(units.percent(0.000_04), "less than 0.01 %");
    assert_eq!(units.percent(0.003_12), "0.31 %");
    let share = |share| Figure::percent("share", "Share", share, units).assumed();
    assert_eq!(share(0.0).text(), "0 %");
    assert_eq!(share(0.000_04).text(), "less than 0.01 %");
    assert_eq!(share(0.25).between("25 %", "25 %").text(), "about 25 %");
    assert_eq!(share(0.25).between("7 %", "30 %").text(), "about 25 % (7 to 30 %)");
    for (value, said) in [
        (0.0, "0 EUR"),
        (0.004, "less than 0.01 EUR"),
        (0.0792, "0.08 EUR"),
        (0.4, "0.40 EUR"),
        (19.0, "19.00 EUR"),
    ] {
        assert_eq!(parts::show_money(value, "EUR", units), said);
    }
}

/// Every way to say how warm a place is, in both units.
#[test]
fn climates_are_read_as_they_are_written() {
    let celsius = Temperature::from_celsius;
    let cases = [
        ("18", Climate::Steady(celsius(18.0))),
        ("64.4 F", Climate::Steady(celsius(18.0))),
        ("12 to 24 C", Climate::Between(celsius(12.0), celsius(24.0))),
        ("50 to 77 F", Climate::Between(celsius(10.0), celsius(25.0))),
        ("12 C to 24 C", Climate::Between(celsius(12.0), celsius(24.0))),
    ];
    let near = |a: Temperature, b: Temperature| close(a.celsius(), b.celsius(), 1e-9);
    for (text, wanted) in cases {
        let read = Climates.read(text, Units::default()).expect(text);
        let (read, wanted) = (read.extremes(), wanted.extremes());
        assert!(near(read.0, wanted.0) && near(read.1, wanted.1), "{text}: {read:?}");
    }
    let seasonal = Climates.read("8 to 24 C seasonal", Units::default());
    assert!(
        matches!(seasonal, Ok(Climate::Seasonal { low, high, .. }) if near(low, celsius(8.0)) && near(high, celsius(24.0)))
    );
    for (text, fault) in [
        ("24 to 12", "the first temperature is the lower one"),
        (
            "18 C seasonal",
            "a place that follows the seasons has two temperatures; write 8 to 24 C seasonal",
        ),
    ] {
        assert_eq!(Climates.read(text, Units::default()), Err(fault.to_owned()));
    }
}
