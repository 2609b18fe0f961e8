//! Water, ice, and what mixtures of them come to, against another hand's.

use meniscus::chemistry::{ice_enthalpy, water_density, water_enthalpy};
use meniscus::development::tempering::{Short, Tempering};
use meniscus::quantity::{Mass, Temperature, Volume};
use serde::Deserialize;

use super::cases::load;
use super::near;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Reference {
    source: String,
    water: Vec<[f64; 3]>,
    ice: Vec<[f64; 2]>,
    bath: Vec<Bath>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Bath {
    name: String,
    hot: f64,
    cold: f64,
    room: f64,
    hot_ml: f64,
    cold_ml: f64,
    concentrate: f64,
    concentrate_heat: f64,
    vessel: f64,
    ice: f64,
    ice_g: f64,
    comes_to: f64,
}

fn celsius(value: f64) -> Temperature {
    Temperature::from_celsius(value)
}

fn ml(value: f64) -> Volume {
    Volume::from_millilitres(value)
}

/// The density is that of Tanaka and others, which is meant for 0 to 40 °C; the enthalpy is a fit.
#[test]
fn water_and_ice() {
    let reference: Reference = load("tempering");
    assert!(reference.source.contains("IAPWS-95"), "{}", reference.source);
    for [t, density, enthalpy] in reference.water {
        let within = if t > 60.0 {
            0.25
        } else if t > 40.0 {
            0.02
        } else {
            0.0015
        };
        near("density", water_density(celsius(t)), density, within);
        near("enthalpy", water_enthalpy(celsius(t)), enthalpy, 0.0016);
    }
    // One heat capacity for all of 0 to -18 °C is off by no more than a thousandth of what ice takes in all.
    for [t, enthalpy] in reference.ice {
        near(
            "ice",
            ice_enthalpy(celsius(t)) / enthalpy,
            1.0,
            if t < -18.0 { 3e-3 } else { 1e-3 },
        );
    }
}

/// What is poured comes to the temperature; and for that temperature the same is poured.
#[test]
fn mixtures() {
    for case in load::<Reference>("tempering").bath {
        let name = &case.name;
        let bath = Tempering {
            total: ml(case.hot_ml + case.cold_ml + case.concentrate),
            wanted: celsius(case.comes_to),
            hot: celsius(case.hot),
            cold: celsius(case.cold),
            room: celsius(case.room),
            concentrate: ml(case.concentrate),
            concentrate_heat: case.concentrate_heat,
            vessel: case.vessel,
            ice: celsius(case.ice),
            ice_at_hand: None,
        };
        let comes_to = bath.comes_to(ml(case.hot_ml), ml(case.cold_ml), Mass::from_grams(case.ice_g));
        // Of water at 95 °C the density is off by 2e-4 of it, of ice the heat by 1e-3.
        let within = match case.ice_g > 0.0 {
            true => 0.01,
            false if case.hot > 60.0 => 0.005,
            false => 0.0005,
        };
        near(name, comes_to.celsius(), case.comes_to, within);
        // The volume at the common temperature: by grams of water.
        let grams = |volume: f64, t: f64| volume * water_density(celsius(t)) / 1000.0;
        let water = grams(case.hot_ml, case.hot) + grams(case.cold_ml, case.cold) + case.ice_g;
        let total = ml(water * 1000.0 / water_density(comes_to) + case.concentrate);
        let poured = Tempering { total, ..bath }.pour();
        assert_eq!(poured.short, None, "{name}");
        near(name, poured.hot.millilitres(), case.hot_ml, 0.05);
        near(name, poured.cold.millilitres(), case.cold_ml, 0.1);
        near(name, poured.ice.grams(), case.ice_g, 0.05);
    }
}

/// Nothing but the one tap: its own temperature. By definition of a mixture of one.
#[test]
fn all_hot_and_all_cold() {
    let bath = Tempering {
        total: ml(600.0),
        wanted: celsius(50.0),
        hot: celsius(50.0),
        cold: celsius(12.0),
        room: celsius(20.0),
        concentrate: Volume::ZERO,
        concentrate_heat: 1.0,
        vessel: 0.0,
        ice: celsius(0.0),
        ice_at_hand: Some(Mass::ZERO),
    };
    let hot = bath.pour();
    near("hot", hot.hot.millilitres(), 600.0, 1e-9);
    near("no cold", hot.cold.millilitres(), 0.0, 1e-9);
    assert_eq!(hot.short, None);
    let cold = Tempering {
        wanted: celsius(12.0),
        ..bath
    }
    .pour();
    near("cold", cold.cold.millilitres(), 600.0, 1e-9);
    near("no hot", cold.hot.millilitres(), 0.0, 1e-9);
    let beyond = |wanted: f64| {
        Tempering {
            wanted: celsius(wanted),
            ..bath
        }
        .pour()
    };
    let (warmer, colder) = (beyond(51.0), beyond(11.0));
    assert_eq!((warmer.short, colder.short), (Some(Short::HotTap), Some(Short::Ice)));
    near("the nearest", warmer.comes_to.celsius(), 50.0, 1e-9);
    near("the nearest", colder.comes_to.celsius(), 12.0, 1e-9);
}
