//! Diluting and measuring: nothing is lost, and no way of measuring is better than its instrument.

use meniscus::calculators::calculate;
use meniscus::fields::Named;
use meniscus::kit::{Draws, Film, Instrument, Kept, Kit, Load, Way, on_mark, ways};
use meniscus::quantity::{Dilution, TemperatureDifference, Volume};
use meniscus::sheet::{Item, Sheet};
use proptest::prelude::*;

use super::things::{dilution, instrument};
use super::{close, darkroom, tries};

const AT_20: TemperatureDifference = TemperatureDifference::ZERO;

fn ml(value: f64) -> Volume {
    Volume::from_millilitres(value)
}

fn answer(calculator: &str, fields: &[(&str, String)], kit: &Kit) -> Sheet {
    let named: Named = fields
        .iter()
        .map(|(name, text)| ((*name).to_owned(), text.clone()))
        .collect();
    let answer = calculate(calculator, &named, &darkroom::with(kit.clone())).expect("a calculator");
    assert_eq!(answer.faults, [], "{named:?}");
    answer.sheet
}

fn value(sheet: &Sheet, name: &str) -> Option<f64> {
    sheet.figure(name).map(|figure| figure.value)
}

fn with(instruments: Vec<Instrument>) -> Kit {
    let kept = instruments.into_iter().enumerate().map(|(index, item)| Kept {
        id: index.to_string(),
        item,
    });
    Kit {
        instruments: kept.collect(),
        ..Kit::starter()
    }
}

proptest! {
    #![proptest_config(tries(400))]

    #[test]
    fn parts_add_to_the_whole(dilution in dilution(), total in 10.0f64..20_000.0) {
        let concentrates: Volume = dilution.concentrates(ml(total)).into_iter().sum();
        prop_assert!(close(concentrates.millilitres(), total * dilution.share(), 1e-9 * total));
        prop_assert!(concentrates.millilitres() <= total * (1.0 + 1e-12));
        let sheet = answer("mix", &[("dilution", dilution.to_string()), ("total", format!("{total:.3}0 ml"))], &Kit::starter());
        if let Dilution::Weighed(density) = dilution {
            let mass = value(&sheet, "mass").expect("a mass");
            prop_assert!(close(mass, density.grams_per_millilitre() * total, 1e-3 * mass + 1e-9));
        } else {
            let parts = ["concentrate", "concentrate_b", "water"].map(|name| value(&sheet, name).unwrap_or(0.0));
            prop_assert!(close(parts.iter().sum(), total, 0.001), "{parts:?}");
        }
    }

    /// More volume and a richer dilution both bring exactly the concentrate that the data sheet wants; fewer films make do
    /// with what there is.
    #[test]
    fn every_way_out_holds_enough(
        water in 1u32..200,
        total in 100u32..3_000,
        least in 1u32..100,
        films in 1u32..5,
    ) {
        let dilution = format!("1+{water}");
        let fields = [
            ("dilution", dilution.clone()),
            ("total", format!("{total} ml")),
            ("least_per_film", format!("{least} ml")),
            ("films_135", films.to_string()),
            ("tank", "none".to_owned()),
        ];
        let sheet = answer("fill", &fields, &Kit::starter());
        let need = f64::from(least * films);
        prop_assert_eq!(value(&sheet, "need"), Some(need));
        let share = dilution.parse::<Dilution>().expect("parts").share();
        let have = f64::from(total) * share;
        let Some(more) = value(&sheet, "way_out_total") else {
            prop_assert!(have >= need * 0.999 - 0.003, "short by {}", need - have);
            return Ok(());
        };
        prop_assert!(have < need);
        prop_assert!(close(more * share, need, 1e-9 * need), "{more} ml of {dilution}");
        let units = value(&sheet, "way_out_film_units").expect("film units");
        prop_assert!(close(units * f64::from(least), have, 1e-9 * have));
        let richer = texts(&sheet).find_map(|text| {
            let dilution = text.strip_prefix("A richer dilution: ")?.split(", in").next()?;
            Some(dilution.parse::<Dilution>().expect("a dilution"))
        });
        match richer {
            // The parts are told to two decimals, as finely as they can be poured, and never so that it is short.
            Some(richer) => {
                let held = richer.share() * f64::from(total);
                prop_assert!(held >= need * (1.0 - 1e-9), "{richer} is short");
                prop_assert!(held <= need * (1.0 + 0.0101 * richer.share()), "{richer}");
            }
            None => prop_assert!(need > f64::from(total), "no richer dilution is told"),
        }
    }

    /// However much of the water first dilutions bring along, what is left of it is some, and all parts make the total.
    #[test]
    fn no_bath_wants_water_taken_out(total in 20u32..700, second in 1u32..4, water in 10u32..200) {
        let fields = [("dilution", format!("1+{second}+{water}")), ("total", format!("{total} ml"))];
        let sheet = answer("mix", &fields, &Kit::starter());
        let of = |name: &str| value(&sheet, name);
        let poured = |name: &str| of(&format!("{name}_diluted")).or(of(name)).expect("a volume");
        let left = of("water_left").or(of("water")).expect("water");
        prop_assert!(left > -1e-9, "{left} ml");
        let all = poured("concentrate") + poured("concentrate_b") + left;
        prop_assert!(close(all, f64::from(total), 1e-6), "{all} ml");
    }

    /// One error in every draw adds up: dividing a volume over more draws never makes the instrument's part smaller.
    #[test]
    fn more_draws_never_calibrate_better(instrument in instrument(200), part in 0.05f64..0.95, volume in 0.1f64..1.0) {
        let whole = instrument.capacity * volume;
        let one = Draws::once(&instrument, whole);
        let two = Draws { instrument: &instrument, fills: 1, to: whole * part, rest: Some(whole * (1.0 - part)) };
        let three = Draws { instrument: &instrument, fills: 3, to: whole / 3.0, rest: None };
        let calibration = |draws: &Draws| draws.spread(AT_20).calibration.millilitres();
        prop_assert!(close(two.volume().millilitres(), whole.millilitres(), 1e-9 * whole.millilitres()));
        prop_assert!(calibration(&two) >= calibration(&one) * (1.0 - 1e-12));
        prop_assert!(calibration(&three) >= calibration(&one) * (1.0 - 1e-12));
    }

    /// The plan's ways measure what was asked for, best first to a tenth of a percent, and draw only what can be drawn.
    #[test]
    fn every_way_measures_what_was_asked(
        instruments in prop::collection::vec(instrument(100), 1..4),
        wanted in prop_oneof![0.05f64..50.0, 50.0f64..5_000.0],
        warm in -20.0f64..40.0,
    ) {
        let kit = with(instruments);
        let warm = TemperatureDifference::from_kelvins(warm);
        let density = Some(meniscus::quantity::MassDensity::from_grams_per_millilitre(1.2));
        let found = ways(&kit, ml(wanted), density, warm);
        let order: Vec<f64> = found.iter().map(|way| (way.relative_uncertainty() * 1000.0).round()).collect();
        prop_assert!(order.is_sorted(), "{order:?}");
        for way in &found {
            prop_assert!(close(way.volume.millilitres(), wanted, 1e-6 * wanted));
            prop_assert!(way.relative_uncertainty() > 0.0 && way.relative_uncertainty().is_finite());
            let draws = match &way.way {
                Way::Draw(draws) => draws.clone(),
                Way::Predilute { concentrate, take, made_up, waste, .. } => {
                    let of_it = take.volume() / *made_up;
                    prop_assert!(close((concentrate.volume() * of_it).millilitres(), wanted, 1e-6 * wanted));
                    prop_assert!(close((concentrate.volume() - *waste).millilitres(), wanted, 1e-6 * wanted));
                    vec![*concentrate, *take]
                }
                Way::Weigh { balance, mass, density } => {
                    let step = balance.readability.grams();
                    let steps = mass.grams() / step;
                    prop_assert!(close(steps, steps.round(), 1e-6), "the balance shows {mass:?}");
                    prop_assert!(close(mass.grams(), (*density * ml(wanted)).grams(), step * 0.500_001));
                    Vec::new()
                }
            };
            for draws in &draws {
                prop_assert!(draws.count() <= 4);
                for volume in std::iter::once(draws.to).chain(draws.rest) {
                    prop_assert!(draws.instrument.can_draw(volume), "{volume:?} with {:?}", draws.instrument);
                }
            }
        }
    }

    /// A total that is offered lies where it may, and its concentrate on marks.
    #[test]
    fn a_total_on_a_mark_is_in_reach_and_on_a_mark(
        instruments in prop::collection::vec(instrument(100), 1..4),
        total in 50.0f64..3_000.0,
        water in 1.0f64..200.0,
        below in 0.5f64..1.0,
        above in 1.0f64..1.5,
    ) {
        let kit = with(instruments);
        let share = 1.0 / (1.0 + water);
        let (least, most) = (ml(total * below), ml(total * above));
        if let Some(found) = on_mark(&kit, ml(total), share, (least, most), AT_20) {
            let slack = 1e-6 * found.draws.instrument.graduation.millilitres() / share + 1e-9 * total;
            prop_assert!(found.total.millilitres() >= least.millilitres() - slack, "{found:?}");
            prop_assert!(found.total.millilitres() <= most.millilitres() + slack, "{found:?}");
            prop_assert!(close(found.draws.volume().millilitres(), found.total.millilitres() * share, slack));
            prop_assert!(found.after < found.before, "it gains nothing");
            for volume in std::iter::once(found.draws.to).chain(found.draws.rest) {
                prop_assert!(found.draws.instrument.on_mark(volume), "{volume:?} with {:?}", found.draws.instrument);
            }
        }
    }

    #[test]
    fn film_units_add_up(counts in prop::array::uniform5(0u32..100)) {
        let load = Load::new(counts);
        let sum: f64 = Film::ALL.into_iter().map(|film| Load::of(film, load.count(film)).units()).sum();
        prop_assert!(close(load.units(), sum, 1e-9));
        prop_assert_eq!(load.pieces(), counts.iter().sum::<u32>());
    }
}

fn texts(sheet: &Sheet) -> impl Iterator<Item = &str> {
    sheet
        .parts
        .iter()
        .flat_map(|part| &part.items)
        .filter_map(|item| match item {
            Item::Text(text) => Some(text.as_str()),
            _ => None,
        })
}
