//! Oxygen in air, in water and through walls; and what a life meets of it, counted a second time day by day.

use meniscus::chemistry::{Class, Formula, SULFITE_PER_OXYGEN, Substance};
use meniscus::keeping::{
    AIR_OXYGEN, Air, Assumptions, Lean, Life, ONE_ATMOSPHERE, Seal, Stretch, at, dissolved, exposure, permeation,
    vapour_pressure,
};
use meniscus::kit::container::{BARRER, MIL_UNIT};
use meniscus::kit::{Container, Material, Treatment};
use meniscus::quantity::{Amount, Area, Day, Temperature};

use super::cases::{self, Wall};
use super::{bottle, celsius, material, millilitres, near, steady};

fn milligrams(oxygen: Amount) -> f64 {
    Substance::OXYGEN.mass(oxygen).grams() * 1000.0
}

#[test]
fn published_headspaces() {
    for case in cases::air().headspace {
        let name = format!("{} ({})", case.name, case.source);
        let air = Air {
            temperature: celsius(case.celsius),
            humidity: case.humidity,
            ..Air::STANDARD
        };
        let oxygen = air.oxygen(millilitres(case.millilitres));
        near(&name, oxygen.millimoles() * 1000.0, case.micromoles, case.tolerance[0]);
        near(&name, milligrams(oxygen), case.milligrams, case.tolerance[1]);
        // A second time: a share of the molar volume at 0 °C, 22.414 l/mol, by Gay-Lussac, less Magnus's vapour (Buck
        // 1996).
        let volume = 22.413_969_54 * (273.15 + case.celsius) / 273.15;
        let t = case.celsius;
        let vapour = 611.21 * ((18.678 - t / 234.5) * t / (257.14 + t)).exp();
        let naive = 0.20946 * case.millilitres / volume * (1.0 - case.humidity * vapour / 101_325.0) * 1000.0;
        near(&name, oxygen.millimoles() * 1000.0, naive, 2e-5 * naive);
    }
}

#[test]
fn published_vapour_pressures() {
    let vectors = cases::air();
    for case in vectors.vapour {
        let got = vapour_pressure(Temperature::from_kelvins(case.kelvins));
        near(&vectors.vapour_source, got, case.pascals, 1e-8 * case.pascals);
    }
    assert_eq!(vapour_pressure(celsius(-8.0)), vapour_pressure(celsius(0.0)));
}

#[test]
fn published_oxygen_of_water() {
    let vectors = cases::air();
    let milligrams_per_litre =
        |t: f64| dissolved(celsius(t), ONE_ATMOSPHERE).map(|density| density.grams_per_millilitre() * 1e6);
    for [t, wanted] in vectors.dissolved {
        let got = milligrams_per_litre(t).expect("in range");
        near(&format!("{t} °C ({})", vectors.dissolved_source), got, wanted, 0.001);
    }
    for [t, wanted] in vectors.dissolved_again {
        let got = milligrams_per_litre(t).expect("in range");
        near(
            &format!("{t} °C ({})", vectors.dissolved_again_source),
            got,
            wanted,
            0.05,
        );
    }
    assert_eq!(milligrams_per_litre(-0.1), None);
    assert_eq!(milligrams_per_litre(40.1), None);
    let high = dissolved(celsius(20.0), 0.8 * ONE_ATMOSPHERE).expect("in range");
    let vapour = 2339.2 / ONE_ATMOSPHERE;
    near(
        "in proportion to the dry air",
        high.grams_per_millilitre() * 1e6,
        9.092 * (0.8 - vapour) / (1.0 - vapour),
        0.001,
    );
}

#[test]
fn published_walls() {
    // 1 cm³ mil/(100 in² day atm) = 0.393701 cm³ mm/(m² day atm); 1 Barrer = 65.664 of these (computed).
    near("mil unit", MIL_UNIT, 0.393701, 5e-7);
    near("Barrer", BARRER, 65.664, 5e-4);
    near("Barrer in mil units", BARRER / MIL_UNIT, 166.79, 5e-3);
    let vectors = cases::air();
    for Wall {
        material: word,
        per_day,
        tolerance,
        month_as_sulfite,
    } in vectors.wall
    {
        let name = format!("{word} ({})", vectors.wall_source);
        let material = material(&word);
        let area = Area::from_square_centimetres(600.0);
        let day = permeation(material.permeability().value, area, 0.5, ONE_ATMOSPHERE);
        near(&name, milligrams(day), per_day, tolerance);
        let sulfite = Substance::SULFITE.mass(day * (30.0 * SULFITE_PER_OXYGEN)).grams() * 1000.0;
        near(&name, sulfite, month_as_sulfite, 1.0);
        // A second time, in the table's own unit: square inches, mils, and 22 414 cm³ to the mole.
        let mils = material.permeability().value / 0.393_700_787;
        let gas = mils * (0.06 / 0.000_645_16 / 100.0) * 0.20946 / (0.5 / 0.0254);
        near(&name, milligrams(day), gas / 22_413.97 * 31_998.8, 1e-6);
    }
    let month = |material: Material| {
        permeation(
            material.permeability().value,
            Area::from_square_centimetres(600.0),
            0.5,
            ONE_ATMOSPHERE,
        ) * 30.0
    };
    let as_headspace = |oxygen: Amount| oxygen / Air::STANDARD.oxygen(millilitres(1.0));
    near(
        "a month of HDPE in ml of air",
        as_headspace(month(Material::Hdpe)),
        270.0,
        5.0,
    );
    near(
        "a month of PET in ml of air",
        as_headspace(month(Material::Pet)),
        7.0,
        0.5,
    );
}

#[test]
fn published_ranges() {
    let vectors = cases::air();
    for case in vectors.range {
        let name = format!("{} ({})", case.material, vectors.range_source);
        let guess = material(&case.material).permeability();
        for (got, mils, barrers) in [
            (guess.least, case.mils[0], case.barrers[0]),
            (guess.most, case.mils[1], case.barrers[1]),
        ] {
            near(&name, got / MIL_UNIT, mils, 1e-9 * mils);
            near(&name, got / BARRER, barrers, 0.03 * barrers);
        }
        assert!(guess.least <= guess.value && guess.value <= guess.most, "{name}");
    }
    // Stiff polyethylene: the table's 100 to 250, widened down to 0.40 Barrer (Polymer Handbook, from memory).
    let stiff = Material::Hdpe.permeability();
    near("HDPE at least, Barrer", stiff.least / BARRER, 0.40, 1e-9);
    near("HDPE at most, mil units", stiff.most / MIL_UNIT, 250.0, 1e-9);
}

#[test]
fn an_estimated_wall_fits_a_litre() {
    // The bottle example of the permeation table takes 0.06 m² for a litre; a ball has 483.6 cm² (computed).
    let area = bottle(Material::Pet, 1000.0).area();
    near("cylinder, cm²", area.value, 600.0, 25.0);
    near("ball, cm²", area.least, 483.6, 0.05);
    assert!(area.is_assumed());
    let measured = Container {
        wall_area: Some(Area::from_square_centimetres(550.0)),
        ..bottle(Material::Pet, 1000.0)
    };
    assert_eq!((measured.area().value, measured.area().is_assumed()), (550.0, false));
}

/// Lives of all kinds: plain, treated, moved, unopened first.
pub fn some_lives<'a>(glass: &'a Container, soft: &'a Container) -> Vec<Life<'a>> {
    let day = Day::from_days;
    let stretch = |from: i32, to: i32, content: f64, seal, treatment, container| Stretch {
        from: day(from),
        to: day(to),
        content: millilitres(content),
        seal,
        treatment,
        container,
        climate: steady(18.0),
    };
    use Seal::{Opened, StillClosed, Unopened};
    let life = |stretches| Life::new(stretches).expect("they follow on one another");
    vec![
        life(vec![
            stretch(0, 40, 950.0, Unopened, Treatment::Plain, glass),
            stretch(40, 60, 900.0, Opened, Treatment::Plain, glass),
            stretch(60, 60, 850.0, Opened, Treatment::Plain, glass),
            stretch(60, 90, 600.0, Opened, Treatment::Plain, glass),
            stretch(90, 200, 600.0, StillClosed, Treatment::Plain, glass),
        ]),
        life(vec![
            stretch(0, 30, 900.0, Opened, Treatment::InertGas, soft),
            stretch(30, 45, 500.0, Opened, Treatment::Squeezed, soft),
            stretch(45, 100, 400.0, Opened, Treatment::Beads(Some(millilitres(500.0))), soft),
        ])
        .mixed_with(millilitres(900.0), celsius(20.0)),
        life(vec![
            stretch(0, 25, 1000.0, Opened, Treatment::Plain, soft),
            stretch(25, 300, 300.0, Opened, Treatment::Beads(None), glass),
        ]),
    ]
}

pub fn some_leans() -> Vec<Lean> {
    let mut random = meniscus::uncertainty::Random::new(11);
    let drawn: Vec<Lean> = (0..4).map(|_| Lean::sample(&mut random)).collect();
    [vec![Lean::USUAL, Lean::GENTLE, Lean::HARSH], drawn].concat()
}

/// Small steps of an hour: oxygen above the liquid goes into it and comes through the part of the wall above it; the
/// rest of the wall lets in all it can.
#[test]
fn exposures_counted_a_second_time() {
    let (glass, soft) = (bottle(Material::Glass, 1000.0), bottle(Material::Ldpe, 1050.0));
    let stock = Formula::find("mq-borax").expect("published");
    let assumptions = Assumptions::of_class(Class::PowderStock);
    for life in some_lives(&glass, &soft) {
        for lean in some_leans() {
            let known = assumptions.clone().with_reserve(stock.reserve());
            let got = exposure(&life, &known, &lean, None);
            let air = Air {
                temperature: celsius(18.0),
                pressure: at(&known.pressure, lean.pressure),
                humidity: at(&known.humidity, lean.humidity),
            };
            let fresh = air.oxygen(millilitres(1.0)).millimoles();
            let uptake = at(&known.uptake, lean.uptake);
            let left = |treatment: Treatment| at(&treatment.air_left(), lean.treatment);
            let water = got.water.millimoles();
            let first = life.first().content.millilitres();
            let (mut above, mut taken, mut agent) = (0.0, 0.0, water / (0.057_023_7 * first));
            for stretch in life.stretches() {
                let headspace = stretch.container.headspace(stretch.content).millilitres();
                let (gas, fraction) = match stretch.treatment {
                    Treatment::Plain => (headspace, 1.0),
                    Treatment::Squeezed => (headspace * left(stretch.treatment), 1.0),
                    Treatment::Beads(Some(beads)) => ((headspace - beads.millilitres()).max(0.0), 1.0),
                    Treatment::Beads(None) => (headspace * left(stretch.treatment), 1.0),
                    Treatment::InertGas => (headspace, left(stretch.treatment)),
                };
                match stretch.seal {
                    Seal::Opened => above = gas * fraction * fresh,
                    Seal::Unopened | Seal::StillClosed => {}
                }
                let wall = known.wall(stretch.container, &lean).millimoles();
                let touching = gas / stretch.container.brimful.millilitres();
                let hours = (stretch.to - stretch.from) * 24;
                for _ in 0..hours {
                    let into_gas = match gas > 0.0 {
                        true => wall * touching * (1.0 - above / (gas * fresh)),
                        false => 0.0,
                    };
                    let into_liquid = wall * (1.0 - touching) + above / uptake;
                    above += (into_gas - above / uptake) / 24.0;
                    taken += into_liquid / 24.0;
                    agent += into_liquid / 24.0 / (0.057_023_7 * stretch.content.millilitres());
                }
            }
            let oxygen = got.oxygen().millimoles();
            near("oxygen in mmol", oxygen, taken + water, 1e-3 * oxygen + 1e-9);
            near("still above", got.waiting.millimoles(), above, 2e-3 * oxygen + 1e-9);
            let share = got.agent.expect("a stock develops");
            near("share of the agent", share, agent.min(1.0), 1e-3 * share + 1e-9);
        }
    }
}

/// Two openings far apart are taken up whole; a third on the last day is put above and waits.
#[test]
fn each_opening_counts_what_it_puts_in() {
    let glass = bottle(Material::Glass, 1000.0);
    let opened = Stretch {
        from: Day::from_days(0),
        to: Day::from_days(30_000),
        content: millilitres(600.0),
        seal: Seal::Opened,
        treatment: Treatment::Plain,
        container: &glass,
        climate: steady(20.0),
    };
    let again = Stretch {
        from: opened.to,
        to: Day::from_days(60_000),
        content: millilitres(500.0),
        ..opened
    };
    let just_now = Stretch {
        from: again.to,
        to: again.to,
        content: millilitres(400.0),
        ..opened
    };
    let life = Life::new(vec![opened, again, just_now]).expect("a life");
    let assumptions = Assumptions::of_class(Class::Syrup);
    let got = exposure(
        &life,
        &assumptions,
        &Lean {
            humidity: -1.0,
            ..Lean::USUAL
        },
        None,
    );
    near(
        "400 and 500 ml of dry air",
        milligrams(got.headspace),
        900.0 * 0.27863,
        0.01,
    );
    near("and 600 ml that wait", milligrams(got.waiting), 600.0 * 0.27863, 0.01);
    near("all three", milligrams(got.refills), 1500.0 * 0.27863, 0.01);
}

#[test]
fn water_brings_its_oxygen() {
    let glass = bottle(Material::Glass, 1000.0);
    let full = Stretch {
        from: Day::from_days(0),
        to: Day::from_days(0),
        content: millilitres(1000.0),
        seal: Seal::Opened,
        treatment: Treatment::Plain,
        container: &glass,
        climate: steady(20.0),
    };
    let life = Life::new(vec![full])
        .expect("a life")
        .mixed_with(millilitres(1000.0), celsius(20.0));
    let assumptions = Assumptions::of_class(Class::PowderStock);
    let got = exposure(&life, &assumptions, &Lean::USUAL, None);
    near("mg in a litre (APHA 4500-O)", milligrams(got.water), 9.092, 0.001);
    assert_eq!(got.headspace, Amount::ZERO);
    near("the constant that all rests on", AIR_OXYGEN, 0.20946, 0.0);
}
