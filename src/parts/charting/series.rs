//! The values of a chart: measured tests of a product on the shelf, in the order of their days, and what is typed.

use super::super::picked::Picked;
use super::super::trust::of_product;
use crate::darkroom::Darkroom;
use crate::fields::{self, Form};
use crate::ledger::TestResult;
use crate::proof::control::Measure;
use crate::quantity::sorted::sort;
use crate::quantity::{Day, Units};

/// Values in order, each with its day or none with one.
pub(super) struct Series {
    /// Day and value.
    pub tests: Vec<(Option<Day>, f64)>,
    /// Whether a bottle was picked whose product's tests count.
    pub from_shelf: bool,
    /// The product, where a bottle was picked.
    product: Option<String>,
    /// Of how many bottles the shelf's tests are.
    pub bottles: usize,
}

/// The newest values that a chart takes in.
const MOST: usize = 400;

impl Series {
    /// The tests of that measure of all bottles of the picked one's product, gone ones too; typed values with their days besides.
    /// Without a bottle, or for a density, which no shelf holds, what is typed.
    pub fn read(form: &mut Form, darkroom: &Darkroom, picked: &Picked, measure: Measure) -> Self {
        let mut typed = form.read(&fields::VALUES).unwrap_or_default();
        if typed
            .iter()
            .any(|(day, _)| day.is_some_and(|day| day > darkroom.today()))
        {
            form.fault("values", "one of the days is still to come");
            typed.retain(|(day, _)| day.is_some_and(|day| day <= darkroom.today()));
        }
        let of_shelf = measure.test().zip(picked.bottle);
        let is_dated = typed.first().is_none_or(|(day, _)| day.is_some());
        if of_shelf.is_some() && !is_dated {
            // Beside tests that have days, values without any have no place.
            form.pass_over(&["values"]);
            typed.clear();
        }
        let mut tests = Vec::new();
        let mut bottles = 0;
        if let Some((kind, bottle)) = of_shelf {
            for bottle in of_product(&darkroom.shelf, bottle) {
                let before = tests.len();
                for test in bottle.tests.iter().filter(|test| test.test == kind) {
                    if let TestResult::Strength { strength, .. } = test.result {
                        tests.push((Some(test.day), strength.number()));
                    }
                }
                bottles += usize::from(tests.len() > before);
            }
        }
        tests.extend(typed);
        sort(&mut tests, |one, other| one.0 < other.0);
        tests.drain(..tests.len().saturating_sub(MOST));
        Self {
            tests,
            from_shelf: of_shelf.is_some(),
            product: picked.label.map(|label| label.product.clone()),
            bottles,
        }
    }

    /// The values alone.
    pub fn values(&self) -> Vec<f64> {
        self.tests.iter().map(|(_, value)| *value).collect()
    }

    /// The values with their days; nothing where they have none.
    pub fn dated(&self) -> Vec<(Day, f64)> {
        let dated = self.tests.iter().filter_map(|(day, value)| Some(((*day)?, *value)));
        dated.collect()
    }

    /// What one of the tests is called.
    pub fn name(&self, at: usize) -> String {
        match self.tests[at].0 {
            Some(day) => day.to_string(),
            None => format!("test {}", at + 1),
        }
    }

    /// What the chart is of.
    pub fn title(&self, measure: Measure) -> String {
        match &self.product {
            Some(product) => format!("{product}: {}", measure.name()),
            None => format!("A chart of {}", measure.name()),
        }
    }

    /// What is said where there are too few values for any chart.
    pub fn wanting(&self, measure: Measure, units: Units) -> String {
        match (&self.product, self.from_shelf) {
            (Some(product), true) => format!(
                "The shelf has {} of {product} with a measured {}. Two are the least: test it, and write the strength into its \
                 record, or type older values with their days.",
                match self.tests.len() {
                    0 => "no test",
                    _ => "only one test",
                },
                measure.name()
            ),
            _ => format!(
                "Type what your tests measured, one a line, each with its day: 2026-03-01 {}. Or pick a bottle whose tests are in its \
                 record.",
                units.number(0.98, 2)
            ),
        }
    }
}
