//! Two sets of densities against another hand's tests of equivalence.

use meniscus::proof::comparison::{Comparison, Readings, Strip, Verdict};
use meniscus::proof::{Outcome, STOP, TestKind};
use meniscus::uncertainty::student;
use serde::Deserialize;

use super::cases::{Case as Typed, load};
use super::near;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Reference {
    source: String,
    case: Vec<Case>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Case {
    name: String,
    paired: bool,
    first: Vec<f64>,
    second: Vec<f64>,
    margin: f64,
    equivalence_p: f64,
    lower_t: f64,
    upper_t: f64,
    freedom: f64,
    interval: [f64; 2],
}

/// Interval, degrees of freedom, both statistics and the share beyond, and what follows from it.
#[test]
fn equivalence_by_two_one_sided_tests() {
    let reference: Reference = load("comparison");
    assert!(reference.source.contains("statsmodels"), "{}", reference.source);
    let mut verdicts = Vec::new();
    for case in reference.case {
        let strip = |values: &[f64]| Strip::new(Readings::new(values.to_vec(), 0.0));
        let found = Comparison::new(&strip(&case.first), &strip(&case.second), case.paired, case.margin);
        let name = &case.name;
        near(name, found.freedom, case.freedom, 1e-8 * case.freedom);
        near(name, found.interval.low, case.interval[0], 1e-10);
        near(name, found.interval.high, case.interval[1], 1e-10);
        let (lower, upper) = (
            (found.difference + case.margin) / found.uncertainty,
            (found.difference - case.margin) / found.uncertainty,
        );
        near(name, lower, case.lower_t, 1e-8 * lower.abs());
        near(name, upper, case.upper_t, 1e-8 * upper.abs());
        let below = |t: f64| student::t_cdf(t, found.freedom).expect("degrees of freedom");
        near(name, below(-lower).max(below(upper)), case.equivalence_p, 1e-9);
        assert_eq!(found.verdict() == Verdict::Within, case.equivalence_p < 0.05, "{name}");
        verdicts.push(found.verdict());
    }
    for verdict in Verdict::ALL.map(|(verdict, _)| verdict) {
        assert!(verdicts.contains(&verdict), "no case is {verdict:?}");
    }
}

/// A stop of exposure is 0.30103 of density at slope 1: log10 of 2, by definition.
#[test]
fn a_stop() {
    near("a thousand stops", 1000.0 * STOP, 301.03, 5e-6);
    near("twice the light", 10f64.powf(STOP), 2.0, 1e-14);
}

/// What the last digit leaves stays, however often it is read (GUM F.2.2.1: the step over the root of 12).
#[test]
fn readings_that_are_all_alike_are_not_exact() {
    for count in [1, 2, 50] {
        let readings = Readings::new(vec![0.85; count], 0.01);
        near("0.01 / sqrt 12", readings.uncertainty(), 0.002_886_751_345_948, 1e-14);
    }
}

/// By hand: stated uncertainties of 0.02 and 0.04 make the mean of two uncertain by sqrt(0.0004 + 0.0016)/2; the scatter of 0.80
/// and 0.81, 0.005 in the mean, is less than that and does not count beside it.
#[test]
fn stated_uncertainties_count_where_they_are_larger_than_the_scatter() {
    let readings = Readings {
        uncertainties: vec![0.02, 0.04],
        ..Readings::new(vec![0.80, 0.81], 0.01)
    };
    near("sqrt(0.002)/2", readings.uncertainty(), 0.002_f64.sqrt() / 2.0, 1e-15);
}

/// By hand: two rolls of each that repeat to 0.02 leave 0.02 sqrt(1/2 + 1/2) = 0.02, whatever the number of readings.
#[test]
fn rolls_count_once_each() {
    let strip = |count| Strip {
        rolls: 2,
        repeat: 0.02,
        ..Strip::new(Readings::new(vec![0.85; count], 0.0))
    };
    for count in [3, 90] {
        let found = Comparison::new(&strip(count), &strip(count), false, 0.05);
        near("u", found.uncertainty, 0.02, 1e-15);
        near("what stays", found.stays(), 0.02, 1e-15);
    }
    // Where each reading is of a roll of its own, their scatter is the rolls': 0.80 and 0.90 have a standard deviation of 0.0707.
    let own = Strip {
        readings: Readings::new(vec![0.80, 0.90], 0.0),
        ..strip(2)
    };
    let found = Comparison::new(&own, &own, false, 0.05);
    near("u", found.uncertainty, 0.1 / 2f64.sqrt(), 1e-12);
    near("freedom", found.freedom, 2.0, 1e-12);
}

/// What a comparison writes into the record of the bottle under test: its strength, that it passed, or nothing.
#[test]
fn a_finding_is_of_the_bottle_that_was_picked() {
    let from = |fields: &str| {
        let case =
            format!("name = ''\nsource = ''\nfields = {{ {fields} }}\nkit = [{{ form = 'bottle', product = 'Blue' }}]");
        toml::from_str::<Typed>(&case)
            .expect("a case")
            .answer("compare")
            .sheet
            .finding
    };
    let found = |fields: &str| from(&format!("repeat = '0.01', {fields}"));
    let weak = "margin = '0.03', first = '0.62 0.63 0.61', second = '0.86 0.85 0.87', first_base = '0.30', second_base = '0.30'";
    assert_eq!(found(weak), None, "no bottle was picked");
    let near_by = "bottle = 'bottle-1', first = '0.80 0.80 0.81 0.79', second = '0.85 0.85 0.84 0.86'";
    assert_eq!(
        found(&format!("margin = '0.03', {near_by}")),
        None,
        "nothing can be told"
    );
    assert_eq!(
        found("margin = '0.1', bottle = 'bottle-1'"),
        None,
        "the figures that stand in the form at first are examples"
    );
    assert_eq!(
        found(&format!("margin = '0.1', {near_by}")),
        None,
        "within so wide a margin, but perhaps weak: 73.8 %, as the vector “alike” has it"
    );
    let ten = |density: &str| [density; 10].join(" ");
    let loose = format!(
        "hand = '4 %', first_rolls = '10', second_rolls = '10', first = '{}', second = '{}'",
        ten("0.80"),
        ten("0.849")
    );
    for fields in [
        "margin = '0.5', first = '0.55 0.56 0.54', second = '0.85 0.84 0.86'",
        "repeat = '0.3', first = '0.80 0.81', second = '0.85 0.84'",
        &loose,
    ] {
        let weak = from(&format!("bottle = 'bottle-1', {fields}"));
        assert_eq!(weak, None, "as weak as the vectors say: {fields}");
    }
    // By hand, as the vector “alike, and strong enough” has it: at least 94.56 %.
    let alike = "bottle = 'bottle-1', first = '0.85 0.86 0.84 0.85', second = '0.85 0.85 0.84 0.86', first_rolls = '4', \
                 second_rolls = '4', first_base = '0.30', second_base = '0.30'";
    let alike = found(&format!("margin = '0.03', {alike}")).expect("a finding");
    assert_eq!((alike.test, alike.outcome), (TestKind::Comparison, Outcome::Passed));
    let weak = found(&format!("bottle = 'bottle-1', {weak}")).expect("a finding");
    // By hand: 0.4482 as in the sheet, u = 0.021632 of the readings beside the range of x, 0.7 to 1.5: R = 0.571429 gives
    // 0.484582 and 0.391235, so (0.484582 - 0.391235)/sqrt 12 = 0.026947.
    let Outcome::Strength { strength, uncertainty } = weak.outcome else {
        panic!("{weak:?}");
    };
    near("strength", strength, 0.448_182_25, 1e-8);
    near("its uncertainty", uncertainty, 0.021632_f64.hypot(0.026947), 1e-6);
    assert_eq!(weak.remark, "density -0.24 ± 0.034 against fresh, 0.03 may pass");
    for dense in ["0.86 0.85 0.87", "0.90 0.89 0.91", "0.70 0.69 0.71"] {
        let fields = format!("bottle = 'bottle-1', margin = '0.03', second = '0.62 0.63 0.61', first = '{dense}'");
        assert_eq!(
            found(&fields),
            None,
            "a developer does not grow stronger (common practice, no source)"
        );
    }
}
