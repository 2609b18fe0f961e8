//! Characteristic curves against fits by another hand, and the words and numbers of the standard.

use meniscus::proof::{CharacteristicCurve, CurveForm, ReadOff, iso_degrees, iso_name, iso_speed};
use serde::Deserialize;

use super::cases::load;
use super::near;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct File {
    source: String,
    reading: f64,
    values_within: f64,
    uncertainties_within: f64,
    fit: Vec<Fit>,
}

/// Each figure with its standard uncertainty; what is not there cannot be had from the steps.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Fit {
    name: String,
    form: String,
    base: Option<f64>,
    steps: Vec<[f64; 2]>,
    fog: Option<[f64; 2]>,
    gamma: Option<[f64; 2]>,
    speed_point: Option<[f64; 2]>,
    criterion: Option<[f64; 2]>,
    index: Option<[f64; 2]>,
}

#[test]
fn curves_are_those_of_another_hand() {
    let file = load::<File>("characteristic");
    for fit in file.fit {
        let steps: Vec<(f64, f64)> = fit
            .steps
            .iter()
            .map(|&[exposure, density]| (exposure, density))
            .collect();
        let curve = CharacteristicCurve::fit(&steps, fit.base, file.reading).expect(&fit.name);
        let form = match curve.form() {
            CurveForm::ToeAndLine => "line",
            CurveForm::Bend => "bend",
            CurveForm::Shoulder => "shoulder",
            CurveForm::ThroughReadings => "readings",
        };
        assert_eq!(form, fit.form, "{}", fit.name);
        let check = |what: &str, got: Option<ReadOff>, wanted: Option<[f64; 2]>| {
            let what = format!("{}, {what} ({})", fit.name, file.source);
            let (Some(got), Some([value, uncertainty])) = (&got, wanted) else {
                assert_eq!(got.is_some(), wanted.is_some(), "{what}");
                return;
            };
            near(&what, got.value, value, file.values_within);
            let u = got.standard_uncertainty().expect(&what);
            near(&what, u / uncertainty, 1.0, file.uncertainties_within);
        };
        check("base + fog", curve.base(), fit.fog);
        check("gamma", curve.gamma(), fit.gamma);
        check("speed point", curve.speed_point(), fit.speed_point);
        check("criterion", curve.criterion(), fit.criterion);
        check("contrast index", curve.contrast_index(), fit.index);
    }
}

/// S = 0.8 / H_m and S° = 1 + 10 log S (ISO 6, from memory, very sure); the pairs of the scale.
#[test]
fn speeds_and_degrees_of_the_standard() {
    near("100", iso_speed(0.008f64.log10()), 100.0, 1e-9);
    near("400", iso_speed(0.002f64.log10()), 400.0, 1e-9);
    for (speed, degrees) in [
        (25, 15),
        (50, 18),
        (100, 21),
        (125, 22),
        (200, 24),
        (320, 26),
        (400, 27),
        (800, 30),
        (1600, 33),
        (3200, 36),
    ] {
        let found = iso_degrees(f64::from(speed));
        near("degrees", found.round(), f64::from(degrees), 0.0);
        assert_eq!(iso_name(found), Some(format!("ISO {speed}/{degrees}°")));
    }
    // By the same scale, ten degrees apart ten times as much.
    for (degrees, name) in [
        (2.0, "ISO 1.2/2°"),
        (9.0, "ISO 6.4/9°"),
        (10.0, "ISO 8/10°"),
        (11.0, "ISO 10/11°"),
        (12.0, "ISO 12/12°"),
        (41.0, "ISO 10000/41°"),
    ] {
        assert_eq!(iso_name(degrees).as_deref(), Some(name));
    }
    assert_eq!((iso_name(1.4), iso_name(41.6)), (None, None));
    assert_eq!(iso_name(f64::NAN), None);
}
