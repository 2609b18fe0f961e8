//! Weighing and comparing once more, by other formulas: Kell's density of water, differences by hand, the normal equations of the line.

use meniscus::chemistry::Guess;
use meniscus::chemistry::water_density;
use meniscus::development::Parameter;
use meniscus::kit::{Comparison, Verdict, Weighing, air_density, verdict, z_factor};
use meniscus::quantity::{Day, Mass, Temperature, TemperatureDifference, Volume};

use super::near;

fn celsius(value: f64) -> Temperature {
    Temperature::from_celsius(value)
}

fn kelvins(value: f64) -> TemperatureDifference {
    TemperatureDifference::from_kelvins(value)
}

fn given(value: f64) -> Parameter {
    let guess = Guess {
        value,
        least: value,
        most: value,
        why: "",
    };
    Parameter::given_or(Some(value), guess)
}

fn between(value: f64, least: f64, most: f64) -> Parameter {
    let guess = Guess {
        value,
        least,
        most,
        why: "a guess",
    };
    Parameter::given_or(None, guess)
}

/// Kell, J. Chem. Eng. Data 20, 97 (1975); from memory, very sure.
fn kell(t: f64) -> f64 {
    let above = 999.83952 + 16.945176 * t - 7.9870401e-3 * t.powi(2) - 46.170461e-6 * t.powi(3)
        + 105.56302e-9 * t.powi(4)
        - 280.54253e-12 * t.powi(5);
    above / (1.0 + 16.879850e-3 * t)
}

/// Densities of IAPWS-95 (package iapws 1.5.5) and of Tanaka (from its published formula), both computed apart from this project.
#[test]
fn density_of_water() {
    for (t, iapws, tanaka) in [
        (0.0, 999.8431, 999.8428),
        (4.0, 999.9749, 999.9749),
        (10.0, 999.7025, 999.7027),
        (15.0, 999.1026, 999.1026),
        (18.0, 998.5986, 998.5984),
        (20.0, 998.2072, 998.2067),
        (22.0, 997.7735, 997.7730),
        (24.0, 997.2994, 997.2988),
        (25.0, 997.0476, 997.0470),
        (30.0, 995.6495, 995.6488),
        (40.0, 992.2164, 992.2152),
    ] {
        let got = water_density(celsius(t));
        near(&format!("Tanaka at {t}"), got, tanaka, 0.0001);
        near(&format!("IAPWS-95 at {t}"), got, iapws, 0.005);
        near(&format!("Kell at {t}"), got, kell(t), 0.005);
    }
}

/// Z as ISO 8655-6 prints it for 1013 hPa, and for 800 and 1067 hPa at 20 °C (from memory); air of 1.2 kg/m³ at 20 °C (OIML R 111, by
/// convention).
#[test]
fn z_factors() {
    for (t, pressure, z) in [
        (15.0, 1013.0, 1.0020),
        (20.0, 1013.0, 1.0029),
        (25.0, 1013.0, 1.0040),
        (30.0, 1013.0, 1.0054),
        (20.0, 800.0, 1.0026),
        (20.0, 1067.0, 1.0029),
    ] {
        near(
            &format!("Z at {t} and {pressure}"),
            z_factor(celsius(t), pressure),
            z,
            0.00006,
        );
    }
    near("air", air_density(1013.25, celsius(20.0)), 1.2, 0.002);
}

/// Ten weighings of a syringe at 25 °C, all worked out again with Kell's water, differences and sums.
#[test]
fn a_weighing_by_hand() {
    let grams = [9.87, 9.93, 9.90, 9.85, 9.91, 9.88, 9.94, 9.89, 9.86, 9.92];
    let weighing = Weighing {
        marked: Volume::from_millilitres(10.0),
        masses: grams.map(Mass::from_grams).to_vec(),
        water: celsius(25.0),
        water_uncertainty: kelvins(0.3),
        pressure: between(1013.0, 800.0, 1040.0),
        expansion: between(3e-4, 2e-4, 4.5e-4),
        balance_step: Mass::from_grams(0.01),
        balance_error: given(0.001),
        evaporated: between(0.003, 0.0, 0.01),
    };
    let volume = |m: f64, t: f64, p: f64, g: f64| {
        let air = (0.34848 * p - 0.009 * 50.0 * (0.061 * t).exp()) / (273.15 + t);
        m * 1000.0 * (8000.0 - air) / 8000.0 / (kell(t) - air) * (1.0 - g * (t - 20.0))
    };
    let mean = grams.iter().sum::<f64>() / 10.0;
    let s = (grams.iter().map(|m| (m - mean) * (m - mean)).sum::<f64>() / 9.0).sqrt();
    let wanted = volume(mean + 0.003, 25.0, 1013.0, 3e-4);
    let root3 = 3f64.sqrt();
    let parts = [
        s / 10f64.sqrt(),
        0.01 * (1.0f64 / 6.0).sqrt(),
        mean * 0.001 / root3,
        0.005 / root3,
    ]
    .map(|u| volume(mean + 0.003 + u, 25.0, 1013.0, 3e-4) - wanted);
    let others = [
        volume(mean + 0.003, 25.3, 1013.0, 3e-4) - wanted,
        volume(mean + 0.003, 25.0, 1013.0 + 120.0 / root3, 3e-4) - wanted,
        volume(mean + 0.003, 25.0, 1013.0, 3e-4 + 1.25e-4 / root3) - wanted,
    ];
    let squares: f64 = parts.iter().chain(&others).map(|u| u * u).sum();
    let u = squares.sqrt();
    let freedom = 9.0 * (u / parts[0]).powi(4);
    let found = weighing.found().expect("ten");
    near("delivered", found.delivered.value(), wanted, 0.00003);
    near("its uncertainty", found.delivered.standard_uncertainty(), u, 0.00001);
    near("bias", found.bias.millilitres(), wanted - 10.0, 0.00003);
    near(
        "scatter",
        found.scatter.millilitres(),
        s * volume(1.0, 25.0, 1013.0, 3e-4),
        1e-6,
    );
    // Student's t at 0.975 for nine (table value, from memory).
    near(
        "repeatability",
        found.repeatability.millilitres(),
        s * 2.262157 / 2.0 * volume(1.0, 25.0, 1013.0, 3e-4),
        1e-6,
    );
    let effective = found.delivered.effective_degrees_of_freedom().expect("some");
    near("degrees of freedom", effective / freedom, 1.0, 0.01);
    near("degrees of freedom", freedom, 28.32, 0.05);
    // Student's t at 0.975 for so many (scipy 1.17.1).
    near(
        "kept uncertainty",
        found.uncertainty.millilitres(),
        u * 2.047357 / 2.0,
        0.00001,
    );
}

/// Student's t at 0.975 (table values, from memory): two weighings that differ widen by 12.706/2, ten by 2.262/2.
#[test]
fn few_weighings_are_widened() {
    for (masses, t) in [
        (vec![9.0, 11.0], 12.706),
        ([vec![9.0; 5], vec![11.0; 5]].concat(), 2.262),
    ] {
        let scatter = {
            let n = masses.len() as f64;
            (masses.iter().map(|m| (m - 10.0f64).powi(2)).sum::<f64>() / (n - 1.0) / n).sqrt()
        };
        let weighing = Weighing {
            marked: Volume::from_millilitres(10.0),
            masses: masses.into_iter().map(Mass::from_grams).collect(),
            water: celsius(20.0),
            water_uncertainty: kelvins(0.0001),
            pressure: given(1013.0),
            expansion: given(1e-5),
            balance_step: Mass::from_grams(1e-4),
            balance_error: given(1e-9),
            evaporated: given(0.0),
        };
        let found = weighing.found().expect("two or more");
        near(
            "widened",
            found.uncertainty.millilitres() / scatter / 1.00285,
            t / 2.0,
            0.001,
        );
    }
}

#[test]
fn verdicts() {
    let ml = Volume::from_millilitres;
    for (bias, u, wanted) in [
        (-0.1, 0.09, Verdict::Within),
        (0.25, 0.1, Verdict::CannotTell),
        (-0.35, 0.1, Verdict::CannotTell),
        (0.55, 0.1, Verdict::Outside),
        (-0.55, 0.1, Verdict::Outside),
        (0.0, 0.2, Verdict::CannotTell),
    ] {
        assert_eq!(verdict(ml(bias), ml(u), ml(0.3)), wanted, "{bias} ± {u}");
    }
}

/// JCGM 100, H.3, table H.6 and H.3.3 to H.3.5: level at 20 °C -0.1712(29), slope 0.00218(67), r -0.930, s 0.0035, correction at 30 °C
/// -0.1494(41).
const H_3: [(f64, f64); 11] = [
    (21.521, -0.171),
    (22.012, -0.169),
    (22.512, -0.166),
    (23.003, -0.159),
    (23.507, -0.164),
    (23.999, -0.165),
    (24.513, -0.156),
    (25.002, -0.157),
    (25.503, -0.159),
    (26.010, -0.161),
    (26.511, -0.160),
];

fn compared(pairs: &[(f64, f64)], reference: f64, step: f64) -> meniscus::kit::Compared {
    let comparison = Comparison {
        readings: pairs.iter().map(|&(t, b)| (celsius(t), celsius(t + b))).collect(),
        reference: given(reference),
        step: kelvins(step),
        drift: given(0.01),
    };
    comparison.found(Day::from_days(20_000)).expect("readings")
}

#[test]
fn the_thermometer_of_the_guide() {
    let found = compared(&H_3, 0.01, 0.001);
    let at = |t: f64| found.line.correction_at(celsius(t)).kelvins();
    let alone = |t: f64| found.alone_at(celsius(t)).kelvins();
    assert!(found.is_line);
    near("level at 20", at(20.0), -0.171204, 1e-6);
    near("its uncertainty", alone(20.0), 0.0028776, 1e-7);
    near("slope", found.line.slope, 0.00218270, 1e-8);
    near("its uncertainty", found.slope_alone, 0.00066794, 1e-8);
    near("r", found.correlation_at(celsius(20.0)), -0.93043, 1e-5);
    near("s", found.scatter.expect("scatter").kelvins(), 0.0035, 0.00005);
    near("correction at 30", at(30.0), -0.149377, 1e-6);
    near("its uncertainty", alone(30.0), 0.0041386, 1e-7);
    // The same from the sums of the guide, H.3.2, about 20 °C instead of the middle.
    let n = H_3.len() as f64;
    let sum = |of: fn(f64, f64) -> f64| H_3.iter().map(|&(t, b)| of(t - 20.0, b)).sum::<f64>();
    let (st, sb, stt, stb) = (sum(|t, _| t), sum(|_, b| b), sum(|t, _| t * t), sum(|t, b| t * b));
    let d = n * stt - st * st;
    near("level by sums", at(20.0), (sb * stt - stb * st) / d, 1e-9);
    near("slope by sums", found.line.slope, (n * stb - sb * st) / d, 1e-9);
    // What is kept holds one reading besides, and t of nine degrees of freedom (2.262, table value) over 2.
    let one = found.scatter.expect("scatter").kelvins() * 2.262157 / 2.0;
    for t in [10.0, 20.0, 24.0, 30.0, 40.0] {
        let line = alone(t) * 2.262157 / 2.0;
        let wanted = (line * line + one * one + 0.01f64.powi(2) / 3.0).sqrt();
        near(
            "one reading",
            found.line.standard_uncertainty(celsius(t)).kelvins(),
            wanted,
            1e-8,
        );
    }
}

/// One pair, two, and three too close together, by hand: the step over the root of 12, the reference and the drift over the root of 3.
#[test]
fn few_pairs_by_hand() {
    let one = compared(&[(20.0, 0.4)], 0.2, 0.1);
    near("one", one.line.correction_at(celsius(30.0)).kelvins(), 0.4, 1e-9);
    let u = |found: &meniscus::kit::Compared, t: f64| found.line.standard_uncertainty(celsius(t)).kelvins();
    near(
        "one at 20",
        u(&one, 20.0),
        (2.0 * 0.01f64 / 12.0 + 0.04 / 3.0).sqrt(),
        1e-9,
    );
    near(
        "one at 30",
        u(&one, 30.0),
        (2.0 * 0.01f64 / 12.0 + 0.04 / 3.0 + 0.01 / 3.0).sqrt(),
        1e-9,
    );
    let two = compared(&[(20.0, 0.4), (30.0, 0.2)], 0.2, 0.1);
    near("two", two.line.correction_at(celsius(20.0)).kelvins(), 0.3, 1e-9);
    // Half of their difference is 0.1.
    near(
        "two at 25",
        u(&two, 25.0),
        (1.5 * 0.01f64 / 3.0 + 0.04 / 3.0).sqrt(),
        1e-9,
    );
    let close = compared(&[(20.0, 0.4), (20.2, 0.3), (21.0, 0.5)], 0.2, 0.1);
    assert!(!close.is_line);
    near("close", close.line.correction_at(celsius(20.0)).kelvins(), 0.4, 1e-9);
    // s is 0.1, and t of two degrees of freedom 4.303 (table value).
    let scatter = 0.1f64 * 4.302653 / 2.0;
    near(
        "close at 20.4",
        u(&close, 20.4),
        (scatter * scatter * 4.0 / 3.0 + 0.04 / 3.0).sqrt(),
        1e-7,
    );
}
