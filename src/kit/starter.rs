//! The kit that a first visit starts with, so that Mix answers before anything is typed.

use super::{
    Balance, Grade, House, Instrument, InstrumentKind, Kept, Kit, Reading, Tank, Tolerance, Turning, syringe_dead_space,
};
use crate::quantity::{Mass, Span, TemperatureDifference, Units, Volume};

impl Kit {
    /// Two syringes, two cylinders, a 0.1 g balance and a two-reel tank, as a home darkroom has them (common practice, no
    /// source); no bottle, since that is the user's own.
    pub fn starter() -> Self {
        let cylinder = Tolerance::CylinderIso4788(Grade::B);
        Self {
            instruments: vec![
                instrument(
                    "syringe-10",
                    "10 ml syringe",
                    InstrumentKind::Syringe,
                    10.0,
                    0.5,
                    Tolerance::SyringeIso7886,
                ),
                instrument(
                    "syringe-20",
                    "20 ml syringe",
                    InstrumentKind::Syringe,
                    20.0,
                    1.0,
                    Tolerance::SyringeIso7886,
                ),
                instrument(
                    "cylinder-100",
                    "100 ml cylinder",
                    InstrumentKind::Cylinder,
                    100.0,
                    1.0,
                    cylinder,
                ),
                instrument(
                    "cylinder-500",
                    "500 ml cylinder",
                    InstrumentKind::Cylinder,
                    500.0,
                    5.0,
                    cylinder,
                ),
            ],
            balances: vec![Kept {
                id: "starter-balance".to_owned(),
                item: Balance {
                    name: "0.1 g balance".to_owned(),
                    readability: Mass::from_grams(0.1),
                    capacity: Mass::from_grams(500.0),
                },
            }],
            tanks: vec![Kept {
                id: "starter-tank".to_owned(),
                item: Tank {
                    name: "two-reel 600 ml tank".to_owned(),
                    turning: Turning::Inversion,
                    brim: Volume::from_millilitres(650.0),
                    per_135: Volume::from_millilitres(290.0),
                    per_120: Volume::from_millilitres(500.0),
                    sheets_4x5: Volume::ZERO,
                    sheets_8x10: Volume::ZERO,
                },
            }],
            bottles: Vec::new(),
            house: House::default(),
            thermometer: None,
        }
    }
}

impl Default for House {
    /// A thermometer good to half a degree, ten seconds of pouring, and a hand that repeats contrast to 2 % (assumptions).
    fn default() -> Self {
        Self {
            units: Units::default(),
            thermometer: TemperatureDifference::from_kelvins(0.5),
            timing: Span::from_seconds(10.0),
            hand: 2.0,
        }
    }
}

fn instrument(
    id: &str,
    name: &str,
    kind: InstrumentKind,
    capacity: f64,
    graduation: f64,
    tolerance: Tolerance,
) -> Kept<Instrument> {
    let capacity = Volume::from_millilitres(capacity);
    Kept {
        id: format!("starter-{id}"),
        item: Instrument {
            name: name.to_owned(),
            kind,
            capacity,
            graduation: Volume::from_millilitres(graduation),
            reading: Reading::HalfMarks,
            tolerance,
            dead_space: match kind {
                InstrumentKind::Syringe => syringe_dead_space(capacity),
                _ => Volume::ZERO,
            },
            calibrated_on: None,
        },
    }
}
