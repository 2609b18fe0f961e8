//! The law of development: warmer is faster, weaker is slower, and a slip and its mending cancel.

use meniscus::chemistry::Class;
use meniscus::development::Parameter;
use meniscus::development::{FirstOrder, RateLaw, SheetTime, SlipLaw, activation_from_q10, q10_from_activation};
use meniscus::quantity::{Dilution, Span, Temperature, TemperatureDifference};
use proptest::prelude::*;
use proptest::{option, sample};

use super::{close, tries};

fn class() -> impl Strategy<Value = Class> {
    sample::select(Class::ALL.map(|(_, _, class)| class).to_vec())
}

/// Any few times of a data sheet from which there is a law.
fn law() -> impl Strategy<Value = RateLaw> {
    let time = (60.0f64..3_600.0, 10.0f64..40.0, option::of(1u32..200));
    let times = prop::collection::vec(time, 1..6);
    (times, option::of(0.1f64..1.5), option::of(1.1f64..5.0), class()).prop_filter_map(
        "times that contradict each other give no law",
        |(times, exponent, q10, class)| {
            let times: Vec<SheetTime> = times
                .into_iter()
                .map(|(seconds, celsius, water)| SheetTime {
                    time: Span::from_seconds(seconds),
                    temperature: Temperature::from_celsius(celsius),
                    dilution: water.map(|water| format!("1+{water}").parse::<Dilution>().expect("parts")),
                })
                .collect();
            RateLaw::new(&times, 1.0 / 32.0, exponent, q10, class).ok()
        },
    )
}

proptest! {
    #![proptest_config(tries(1000))]

    #[test]
    fn warmer_is_faster(law in law(), celsius in 10.0f64..39.0, more in 0.1f64..1.0, share in 0.001f64..1.0) {
        let time = |celsius| law.time(Temperature::from_celsius(celsius), share, 1.0).time;
        prop_assert!(time(celsius + more) < time(celsius));
    }

    #[test]
    fn stronger_is_faster(law in law(), celsius in 10.0f64..40.0, share in 0.001f64..0.9) {
        let time = |share| law.time(Temperature::from_celsius(celsius), share, 1.0).time;
        prop_assert!(time(share * 1.1) < time(share));
    }

    #[test]
    fn time_is_as_one_over_the_strength_of_the_bottle(law in law(), celsius in 10.0f64..40.0, strength in 0.1f64..1.5) {
        let time = |strength| law.time(Temperature::from_celsius(celsius), 0.03, strength);
        let (fresh, tired) = (time(1.0), time(strength));
        prop_assert!(close(tired.time / fresh.time * strength, 1.0, 1e-12));
        prop_assert!(close(tired.band.0 / fresh.band.0 * strength, 1.0, 1e-12));
        prop_assert!(close(tired.relative_uncertainty, fresh.relative_uncertainty, 1e-15));
    }

    /// The band of the assumptions holds the time, and closes where nothing is assumed.
    #[test]
    fn the_band_holds_the_time(law in law(), celsius in 10.0f64..40.0, share in 0.001f64..1.0) {
        let found = law.time(Temperature::from_celsius(celsius), share, 1.0);
        let slack = 1.0 + 1e-12;
        prop_assert!(found.band.0 <= found.time * slack && found.time <= found.band.1 * slack, "{found:?}");
        if !law.activation().is_assumed() && !law.exponent().is_assumed() {
            prop_assert_eq!(found.band.0, found.band.1);
        }
    }

    #[test]
    fn a_single_time_is_given_back(seconds in 60.0f64..3_600.0, celsius in 10.0f64..40.0, class in class()) {
        let temperature = Temperature::from_celsius(celsius);
        let times = [SheetTime { time: Span::from_seconds(seconds), temperature, dilution: None }];
        let law = RateLaw::new(&times, 0.1, None, None, class).expect("one time is a law");
        let found = law.time(temperature, 0.1, 1.0);
        prop_assert!(close(found.time.seconds(), seconds, 1e-9 * seconds));
        prop_assert!(close(found.band.1 / found.band.0, 1.0, 1e-12), "at its own point no assumption matters");
    }

    /// Two lines that change temperature and dilution together leave n open, but each is given back whatever n.
    #[test]
    fn entangled_lines_are_given_back(
        cold in 15.0f64..22.0,
        warmer in 0.5f64..6.0,
        water in 1u32..100,
        thinner in 1u32..100,
        seconds in 240.0f64..1_200.0,
        times_longer in 0.7f64..2.0,
        class in class(),
    ) {
        let line = |seconds: f64, celsius: f64, water: u32| SheetTime {
            time: Span::from_seconds(seconds),
            temperature: Temperature::from_celsius(celsius),
            dilution: Some(format!("1+{water}").parse().expect("parts")),
        };
        let lines = [line(seconds, cold, water), line(seconds * times_longer, cold + warmer, water + thinner)];
        if let Ok(law) = RateLaw::new(&lines, 0.1, None, None, class) {
            prop_assert!(law.entangled());
            prop_assert!(law.corners().iter().all(|[activation, n]| *activation >= 0.0 && *n > 0.0), "{law:?}");
            for line in &lines {
                let strength = line.dilution.as_ref().expect("a dilution").strength();
                let found = law.time(line.temperature, strength, 1.0);
                prop_assert!(close(found.time / line.time, 1.0, 1e-9), "{found:?}");
                prop_assert!(close(found.band.1 / found.band.0, 1.0, 1e-9), "{found:?}");
            }
        }
    }

    #[test]
    fn a_factor_and_an_energy_are_one(q10 in 1.1f64..5.0) {
        let activation = activation_from_q10(q10);
        prop_assert!(close(q10_from_activation(activation, Temperature::from_celsius(25.0)), q10, 1e-12));
    }

    #[test]
    fn time_to_a_contrast_gives_that_contrast(rate in 0.01f64..1.0, limit in 0.3f64..3.0, share in 0.01f64..0.99) {
        let law = FirstOrder { rate, limit };
        let time = law.time_to(limit * share).expect("within the limit");
        prop_assert!(close(law.contrast(time), limit * share, 1e-9));
        let at = |time: Span| (time, law.contrast(time));
        let once = at(time);
        let doubled = at(time * 2.0);
        let found = FirstOrder::from_two(once, doubled).expect("two contrasts");
        prop_assert!(close(found.rate / rate, 1.0, 1e-5) && close(found.limit / limit, 1.0, 1e-5), "{found:?}");
        // The exact solution where one time is twice the other (Sheppard and Mees).
        let exact = (once.1 / (doubled.1 - once.1)).ln() / time.minutes();
        prop_assert!(close(found.rate / exact, 1.0, 1e-5), "{found:?}");
        let longer = FirstOrder::from_two(at(time * 1.3), once).expect("two contrasts");
        prop_assert!(close(longer.rate / rate, 1.0, 1e-4), "{longer:?}");
    }

    /// Too much concentrate acts as longer, warmer and harder; too little the other way round; none not at all.
    #[test]
    fn a_slip_has_one_direction(
        error in 0.001f64..0.5,
        n in 0.1f64..1.5,
        q10 in 1.1f64..5.0,
        x in 0.1f64..4.0,
        class in class(),
    ) {
        let law = SlipLaw {
            time: Some(Span::from_minutes(8.0)),
            temperature: Temperature::from_celsius(20.0),
            exponent: Parameter::given_or(Some(n), class.exponent()),
            activation: Parameter::given_or(Some(activation_from_q10(q10)), class.q10()),
            progress: Parameter::given_or(Some(x), class.q10()),
        };
        let (more, less, none) = (law.slip(error), law.slip(-error), law.slip(0.0));
        for (more, less, none) in [
            (more.contrast.value, less.contrast.value, none.contrast.value),
            (more.seconds.expect("a time").value, less.seconds.expect("a time").value, none.seconds.expect("a time").value),
        ] {
            prop_assert!(more > 0.0 && less < 0.0 && close(none, 0.0, 1e-12), "{more} {less} {none}");
        }
        prop_assert!(close(none.kelvins.expect("no slip").value, 0.0, 1e-12));
        // Warming by as much as the slip is worth makes the rate as much faster; where no bath is so warm, none is told.
        let rate = |kelvins: f64| {
            let warmer = law.temperature + TemperatureDifference::from_kelvins(kelvins);
            let inverse = 1.0 / law.temperature.kelvins() - 1.0 / warmer.kelvins();
            (law.activation.value / meniscus::development::GAS_CONSTANT * inverse).exp()
        };
        for (slip, off) in [(more, error), (less, -error)] {
            match slip.kelvins {
                Some(warmer) => {
                    prop_assert!(warmer.value * off > 0.0);
                    prop_assert!(close(rate(warmer.value) / (1.0 + off).powf(n), 1.0, 1e-9));
                }
                // 20 °C and 20 degrees more, or 10 less, are the ends of what is developed in.
                None => {
                    let factor = (1.0 + off).powf(n);
                    prop_assert!(factor > rate(20.0) || factor < rate(-10.0), "{factor}");
                }
            }
        }
    }
}
