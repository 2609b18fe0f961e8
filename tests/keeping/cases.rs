//! The vectors as they stand in their files.

use serde::Deserialize;

fn read<T: for<'a> Deserialize<'a>>(text: &str) -> T {
    toml::from_str(text).expect("the vectors are well formed")
}

pub fn chemistry() -> Chemistry {
    read(include_str!("../vectors/chemistry.toml"))
}

pub fn air() -> Air {
    read(include_str!("../vectors/oxygen.toml"))
}

pub fn keeping() -> Keeping {
    read(include_str!("../vectors/lives.toml"))
}

pub fn decant() -> Vec<Decant> {
    read::<Decants>(include_str!("../vectors/decanting.toml")).decant
}

pub fn buy() -> Vec<Buy> {
    read::<Buys>(include_str!("../vectors/buying.toml")).buy
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Chemistry {
    pub molar_mass_source: String,
    pub molar_mass_tolerance: f64,
    pub molar_mass: Vec<MolarMass>,
    pub hydrate: Vec<Hydrate>,
    pub reserve: Vec<Reserve>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub struct MolarMass {
    pub substance: String,
    pub formula: String,
    pub is: f64,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Hydrate {
    pub from: String,
    pub grams: f64,
    pub to: String,
    pub is: Option<f64>,
    #[serde(default)]
    pub tolerance: f64,
    pub source: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Reserve {
    pub formula: String,
    pub agent: f64,
    pub sulfite: f64,
    pub tolerance: f64,
    pub source: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Air {
    pub headspace: Vec<Headspace>,
    pub vapour_source: String,
    pub vapour: Vec<Vapour>,
    pub dissolved_source: String,
    pub dissolved: Vec<[f64; 2]>,
    pub dissolved_again_source: String,
    pub dissolved_again: Vec<[f64; 2]>,
    pub wall_source: String,
    pub wall: Vec<Wall>,
    pub range_source: String,
    pub range: Vec<Range>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Headspace {
    pub name: String,
    pub millilitres: f64,
    pub celsius: f64,
    pub humidity: f64,
    pub micromoles: f64,
    pub milligrams: f64,
    pub tolerance: [f64; 2],
    pub source: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Vapour {
    pub kelvins: f64,
    pub pascals: f64,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Wall {
    pub material: String,
    pub per_day: f64,
    pub tolerance: f64,
    pub month_as_sulfite: f64,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Range {
    pub material: String,
    pub mils: [f64; 2],
    pub barrers: [f64; 2],
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Keeping {
    pub life: Vec<Life>,
    pub share: Vec<Share>,
    pub warmth_source: String,
    pub warmth: Vec<(f64, String)>,
    pub state: Vec<State>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Life {
    pub name: String,
    pub full: f64,
    pub half_full: f64,
    pub at: Vec<[f64; 2]>,
    pub ratio: f64,
    pub source: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Share {
    pub name: String,
    pub unopened: f64,
    pub full: f64,
    pub half_full: f64,
    pub per_ten: f64,
    pub stretches: Vec<(i32, f64, f64)>,
    pub is: f64,
    pub source: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub struct State {
    pub name: String,
    pub class: String,
    pub days: i32,
    pub openings: u32,
    pub left: f64,
    pub celsius: f64,
    #[serde(default)]
    pub tests: Vec<(i32, bool)>,
    pub state: String,
    #[serde(default)]
    pub asks: Vec<String>,
    #[serde(default)]
    pub paid: bool,
    pub source: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Decants {
    decant: Vec<Decant>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Decant {
    pub name: String,
    pub content: f64,
    pub brimful: f64,
    pub at_hand: Vec<(f64, String)>,
    pub draw: f64,
    pub interval: f64,
    pub advised: Vec<i32>,
    pub source: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Buys {
    buy: Vec<Buy>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Buy {
    pub name: String,
    pub draw: f64,
    pub interval: f64,
    pub per_film: f64,
    pub size: f64,
    pub price: f64,
    pub full: f64,
    pub half_full: f64,
    pub per_film_costs: f64,
    pub outlives: f64,
    pub tolerance: f64,
    pub source: String,
}
