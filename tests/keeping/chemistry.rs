//! Molar masses, hydrates, reserves.

use meniscus::chemistry::{Class, Formula, Guess, Reserve, SULFITE_PER_OXYGEN, Substance};
use meniscus::quantity::{Amount, Mass};

use super::cases::chemistry;
use super::{millilitres, near};

fn substance(name: &str) -> Substance {
    let found = Substance::ALL.into_iter().find(|substance| substance.name == name);
    found.unwrap_or_else(|| panic!("no substance {name}"))
}

#[test]
fn published_molar_masses() {
    let vectors = chemistry();
    for case in &vectors.molar_mass {
        let name = format!("{} ({})", case.substance, vectors.molar_mass_source);
        let got = substance(&case.substance).molar_mass();
        near(&name, got, case.is, vectors.molar_mass_tolerance);
        near(&name, got, naive_mass(&case.formula), 1e-9);
    }
    let named: Vec<&str> = vectors.molar_mass.iter().map(|case| case.substance.as_str()).collect();
    assert!(
        Substance::ALL.iter().all(|substance| named.contains(&substance.name)),
        "every substance has a case"
    );
}

/// Reads a formula such as `Na2CO3.10H2O`, letter by letter.
fn naive_mass(formula: &str) -> f64 {
    let weights = [
        ("H", 1.00794),
        ("B", 10.811),
        ("C", 12.0107),
        ("N", 14.0067),
        ("O", 15.9994),
        ("Na", 22.98976928),
        ("S", 32.065),
        ("K", 39.0983),
        ("Br", 79.904),
        ("Ag", 107.8682),
        ("I", 126.90447),
    ];
    let mut sum = 0.0;
    for part in formula.split('.') {
        let letters: Vec<char> = part.chars().collect();
        let mut at = 0;
        let number = |at: &mut usize| {
            let from = *at;
            while *at < letters.len() && letters[*at].is_ascii_digit() {
                *at += 1;
            }
            let digits: String = letters[from..*at].iter().collect();
            digits.parse().unwrap_or(1.0)
        };
        let times: f64 = number(&mut at);
        while at < letters.len() {
            let from = at;
            at += 1;
            while at < letters.len() && letters[at].is_lowercase() {
                at += 1;
            }
            let symbol: String = letters[from..at].iter().collect();
            let (_, weight) = weights
                .iter()
                .find(|(known, _)| *known == symbol)
                .expect("a known element");
            sum += times * weight * number(&mut at);
        }
    }
    sum
}

#[test]
fn published_hydrates() {
    for case in chemistry().hydrate {
        let (from, to) = (substance(&case.from), substance(&case.to));
        let got = from.as_much_as(Mass::from_grams(case.grams), to);
        match case.is {
            Some(grams) => {
                let got = got.unwrap_or_else(|| panic!("{} is a salt of {} ({})", case.to, case.from, case.source));
                near(&case.source, got.grams(), grams, case.tolerance);
                let back = to.as_much_as(got, from).expect("and back");
                near("and back", back.grams(), case.grams, 1e-9);
            }
            None => assert_eq!(got, None, "{}", case.source),
        }
    }
    near(
        "7-hydrate to anhydrous sulfite (computed with molmass 2026.1.8)",
        Substance::SULFITE_HEPTAHYDRATE.molar_mass() / Substance::SULFITE.molar_mass(),
        2.0005,
        5e-5,
    );
}

#[test]
fn reserves_of_published_formulas() {
    for case in chemistry().reserve {
        let formula = Formula::find(&case.formula).expect("a published formula");
        let Reserve { agent, sulfite } = formula.reserve();
        near(&case.source, agent, case.agent, case.tolerance);
        near(&case.source, sulfite, case.sulfite, case.tolerance);
    }
}

/// The classes' assumed ranges must hold every published stock.
#[test]
fn assumed_reserves_hold_the_published_stocks() {
    let typical = Class::PowderStock.reserve().expect("a stock has a reserve");
    let holds = |guess: Guess, value: f64| guess.least <= value && value <= guess.most;
    let agent = typical.agent.expect("a stock develops");
    for formula in Formula::ALL
        .iter()
        .filter(|formula| formula.class == Class::PowderStock)
    {
        let reserve = formula.reserve();
        assert!(
            holds(agent, reserve.agent),
            "{}: {} mol/l of agent",
            formula.name,
            reserve.agent
        );
        assert!(
            holds(typical.sulfite, reserve.sulfite),
            "{}: {} mol/l of sulfite",
            formula.name,
            reserve.sulfite
        );
    }
    for (word, _, class) in Class::ALL {
        let guesses = class
            .reserve()
            .into_iter()
            .flat_map(|reserve| [Some(reserve.sulfite), reserve.agent]);
        let lives = class.lives().map(|lives| [lives.unopened, lives.full, lives.half_full]);
        let all = guesses.flatten().chain(lives.into_iter().flatten());
        for guess in all {
            let Guess {
                value,
                least,
                most,
                why,
            } = guess;
            assert!(
                0.0 < least && least <= value && value <= most && !why.is_empty(),
                "{word}: {guess:?}"
            );
        }
    }
}

#[test]
fn sulfite_takes_oxygen_as_published() {
    // Handbooks print 7.88 (Fundamentals of Oxygen Scavengers); 7.87795 computed with molmass 2026.1.8.
    let oxygen = Amount::from_millimoles(1.0);
    let milligrams = Substance::OXYGEN.mass(oxygen);
    let factor = Substance::SULFITE.mass(oxygen * SULFITE_PER_OXYGEN) / milligrams;
    near("mg of sulfite to the mg of oxygen", factor, 7.87795, 1e-4);
    // A litre of water at 20 °C holds 9.09 mg: 71.6 mg of sulfite or 31.3 mg of hydroquinone (computed).
    let litre = Substance::OXYGEN.amount(Mass::from_grams(0.009092));
    let sulfite = Substance::SULFITE.mass(litre * SULFITE_PER_OXYGEN);
    let hydroquinone = Substance::HYDROQUINONE.mass(litre);
    near("mg of sulfite", sulfite.grams() * 1000.0, 71.6, 0.05);
    near("mg of hydroquinone", hydroquinone.grams() * 1000.0, 31.3, 0.05);
}

#[test]
fn one_filling_of_air_over_the_published_stock() {
    // 500 ml of air over 500 ml: 2.195 % of the sulfite, or 19.2 % of the hydroquinone (computed from the balance of
    // oxygen).
    let air = meniscus::keeping::Air::STANDARD.oxygen(millilitres(500.0));
    let stock = Formula::find("mq-borax").expect("published").reserve();
    let hydroquinone = Substance::HYDROQUINONE.amount(Mass::from_grams(5.0)).millimoles() / 1000.0;
    let alone = Reserve {
        agent: hydroquinone,
        ..stock
    };
    let half = millilitres(500.0);
    near(
        "sulfite",
        alone.sulfite_used(air, half).expect("sulfite"),
        0.02195,
        5e-6,
    );
    near(
        "hydroquinone",
        alone.agent_used(air, half).expect("hydroquinone"),
        0.192,
        5e-4,
    );
    let all = stock.agent_used(air, half).expect("agents");
    near("metol takes its part", all, 0.1527, 5e-5);
    near(
        "thinned 1+3",
        stock.thinned(0.25).agent_used(air, half).expect("agents"),
        4.0 * all,
        1e-12,
    );
    let nothing = Reserve {
        agent: 0.0,
        sulfite: 0.0,
    };
    assert_eq!(nothing.agent_used(air, half), None);
    assert_eq!(stock.sulfite_used(air, millilitres(0.0)), None);
}
