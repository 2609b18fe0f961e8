//! The vectors as they stand in their file, and the formulas that they name.

use meniscus::uncertainty::{Distribution, Input};
use serde::Deserialize;

/// All cases of the file.
pub fn vectors() -> Vectors {
    toml::from_str(include_str!("../vectors/uncertainty.toml")).expect("the vectors are well formed")
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Vectors {
    pub propagation: Vec<Propagation>,
    pub line: Vec<LineCase>,
    pub columns: Vec<Columns>,
    pub normal: Quantiles<2>,
    pub student: Quantiles<3>,
    pub random: Outputs,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Propagation {
    pub name: String,
    pub source: String,
    pub model: String,
    pub inputs: Vec<InputCase>,
    pub value: f64,
    pub uncertainty: f64,
    pub tolerance: f64,
    #[serde(default)]
    pub contributions: Vec<Part>,
    pub contribution_tolerance: Option<f64>,
    pub degrees_of_freedom: Option<f64>,
    pub expanded: Option<Covered>,
    pub monte_carlo: Option<Drawn>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub struct InputCase {
    pub name: String,
    pub value: f64,
    pub shape: String,
    pub width: f64,
    pub degrees_of_freedom: Option<f64>,
    pub group: Option<String>,
    pub times: Option<usize>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Part {
    pub of: Vec<String>,
    pub is: f64,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Covered {
    pub coverage: f64,
    pub k: f64,
    pub low: f64,
    pub high: f64,
    pub tolerance: f64,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Drawn {
    pub draws: usize,
    pub mean: f64,
    pub uncertainty: f64,
    pub tolerance: f64,
    pub symmetric: [f64; 2],
    pub interval_tolerance: f64,
    pub shortest: Option<[f64; 2]>,
    pub length_tolerance: Option<f64>,
    pub place_tolerance: Option<f64>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LineCase {
    pub name: String,
    pub source: String,
    pub origin: f64,
    pub x: Vec<f64>,
    pub y: Vec<f64>,
    pub intercept: [f64; 2],
    pub slope: [f64; 2],
    pub correlation: f64,
    pub scatter: [f64; 2],
    pub degrees_of_freedom: f64,
    pub at: f64,
    pub prediction: [f64; 2],
    pub tolerance: f64,
    pub correlation_tolerance: f64,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Columns {
    pub name: String,
    pub source: String,
    pub powers: Vec<i32>,
    pub x: Vec<f64>,
    pub y: Vec<f64>,
    pub coefficients: Vec<f64>,
    pub uncertainties: Vec<f64>,
    pub scatter: f64,
    pub tolerance: f64,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, bound(deserialize = "[f64; N]: Deserialize<'de>"))]
pub struct Quantiles<const N: usize> {
    pub source: String,
    pub tolerance_relative: f64,
    pub quantiles: Vec<[f64; N]>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Outputs {
    pub source: String,
    pub outputs: Vec<Output>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Output {
    pub seed: String,
    pub bits: Vec<String>,
}

impl Propagation {
    /// The inputs, one for each time.
    pub fn inputs(&self) -> Vec<Input> {
        let one = |case: &InputCase| {
            let distribution = match case.shape.as_str() {
                "normal" => Distribution::Normal { sigma: case.width },
                "rectangular" => Distribution::Rectangular { half_width: case.width },
                "triangular" => Distribution::Triangular { half_width: case.width },
                "resolution" => Distribution::Resolution { step: case.width },
                other => panic!("no shape is called {other}"),
            };
            let (degrees_of_freedom, group) = (case.degrees_of_freedom, case.group.clone());
            Input {
                degrees_of_freedom,
                group,
                ..Input::new(&case.name, case.value, distribution)
            }
        };
        self.inputs
            .iter()
            .flat_map(|case| vec![one(case); case.times.unwrap_or(1)])
            .collect()
    }

    /// The formula, by its name.
    pub fn model(&self) -> fn(&[f64]) -> f64 {
        match self.model.as_str() {
            "sum" => |x| x.iter().sum(),
            "standard solution" => |x| 1000.0 * x[1] * x[0] / (x[2] + x[3] + x[4]),
            "phthalate" => phthalate,
            "titration" => |x| 1000.0 * x[0] * (x[1] + x[2]) * x[3] / ((x[4] + x[5]) * phthalate(&x[6..])),
            "mass in air" => |x| (x[0] + x[1]) * (1.0 + (x[2] - 1.2) * (1.0 / x[3] - 1.0 / x[4])) - 100_000.0,
            other => panic!("no model is called {other}"),
        }
    }

    /// Partial derivatives, worked out on paper.
    pub fn partials(&self, x: &[f64]) -> Vec<f64> {
        let atoms = [8.0, 5.0, 4.0, 1.0];
        match self.model.as_str() {
            "standard solution" => {
                let volume = x[2] + x[3] + x[4];
                let by_volume = -1000.0 * x[0] * x[1] / volume.powi(2);
                vec![
                    1000.0 * x[1] / volume,
                    1000.0 * x[0] / volume,
                    by_volume,
                    by_volume,
                    by_volume,
                ]
            }
            "phthalate" => atoms.to_vec(),
            "titration" => {
                let (mass, volume) = (x[1] + x[2], x[4] + x[5]);
                let molar = 8.0 * x[6] + 5.0 * x[7] + 4.0 * x[8] + x[9];
                let c = 1000.0 * x[0] * mass * x[3] / (volume * molar);
                let mut partials = vec![c / x[0], c / mass, c / mass, c / x[3], -c / volume, -c / volume];
                partials.extend(atoms.map(|n| -c * n / molar));
                partials
            }
            "mass in air" => {
                let (mass, buoyancy, difference) = (x[0] + x[1], x[2] - 1.2, 1.0 / x[3] - 1.0 / x[4]);
                let outer = 1.0 + buoyancy * difference;
                let air = mass * difference;
                vec![
                    outer,
                    outer,
                    air,
                    -mass * buoyancy / x[3].powi(2),
                    mass * buoyancy / x[4].powi(2),
                ]
            }
            _ => vec![1.0; x.len()],
        }
    }
}

fn phthalate(x: &[f64]) -> f64 {
    8.0 * x[0] + 5.0 * x[1] + 4.0 * x[2] + x[3]
}
