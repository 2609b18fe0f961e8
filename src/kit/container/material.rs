//! Materials of a wall, and how much oxygen they let through.

use crate::chemistry::Guess;

/// 1 cm³ mil/(100 in² day atm) in cm³ mm/(m² day atm): a mil is 0.0254 mm, 100 square inches are 0.064516 m² (exact).
pub const MIL_UNIT: f64 = 0.0254 / 0.064_516;

/// 1 Barrer in cm³ mm/(m² day atm): 1e-10 cm³(STP) cm/(cm² s cmHg), 86 400 s a day, 76 cmHg an atmosphere.
pub const BARRER: f64 = 1e-10 * 10.0 * 1e4 * 86_400.0 * 76.0;

/// What a wall is made of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Material {
    /// Glass.
    Glass,
    /// Metal.
    Metal,
    /// PET, as drinks are sold in.
    Pet,
    /// Stiff polyethylene (HDPE).
    Hdpe,
    /// Soft polyethylene (LDPE), as bottles to be squeezed are.
    Ldpe,
    /// Polypropylene.
    Pp,
    /// Oriented polypropylene.
    PpOriented,
    /// Polystyrene.
    Ps,
    /// Polycarbonate.
    Pc,
    /// Rigid PVC.
    Pvc,
    /// Plasticised PVC.
    PvcSoft,
    /// Nylon 6.
    Nylon,
    /// PVDC.
    Pvdc,
}

impl Material {
    /// Every material, with its word in forms and files, and its name.
    pub const ALL: [(&'static str, &'static str, Self); 13] = [
        ("glass", "glass", Self::Glass),
        ("metal", "metal", Self::Metal),
        ("pet", "PET", Self::Pet),
        ("hdpe", "stiff polyethylene (HDPE)", Self::Hdpe),
        ("ldpe", "soft polyethylene (LDPE)", Self::Ldpe),
        ("pp", "polypropylene (PP)", Self::Pp),
        ("opp", "oriented polypropylene", Self::PpOriented),
        ("ps", "polystyrene (PS)", Self::Ps),
        ("pc", "polycarbonate (PC)", Self::Pc),
        ("pvc", "rigid PVC", Self::Pvc),
        ("soft-pvc", "soft PVC", Self::PvcSoft),
        ("nylon", "nylon 6", Self::Nylon),
        ("pvdc", "PVDC", Self::Pvdc),
    ];

    /// Its word in forms and files.
    pub fn word(self) -> &'static str {
        Self::ALL[self as usize].0
    }

    /// Its name for people.
    pub fn name(self) -> &'static str {
        Self::ALL[self as usize].1
    }

    /// Permeability to oxygen at 25 °C, in cm³(STP) mm/(m² day atm), taken in the middle of its range (Biosystems
    /// Engineering, *Food Package Engineering*, table 11.2, p. 345). Of stiff polyethylene the range goes down to 0.40
    /// Barrer (*Polymer Handbook*, from memory), which lies below the table. A cooler wall lets less through, within
    /// these ranges; closures are neglected.
    pub fn permeability(self) -> Guess {
        match self {
            Self::Glass | Self::Metal => of(
                0.0,
                0.0,
                0.0,
                "glass and metal let nothing through; the closure is neglected",
            ),
            Self::Pet => table(3.0, 6.0),
            Self::Hdpe => of(
                175.0 * MIL_UNIT,
                0.40 * BARRER,
                250.0 * MIL_UNIT,
                "published figures for stiff polyethylene differ by a factor of four",
            ),
            Self::Ldpe => table(300.0, 600.0),
            Self::Pp => table(150.0, 250.0),
            Self::PpOriented => table(100.0, 160.0),
            Self::Ps => table(250.0, 350.0),
            Self::Pc => table(180.0, 300.0),
            Self::Pvc => table(5.0, 15.0),
            Self::PvcSoft => table(50.0, 1500.0),
            Self::Nylon => table(2.0, 3.0),
            Self::Pvdc => table(0.1, 2.0),
        }
    }
}

/// From the table's own unit, cm³ mil/(100 in² day atm).
fn table(least: f64, most: f64) -> Guess {
    of(
        (least + most) / 2.0 * MIL_UNIT,
        least * MIL_UNIT,
        most * MIL_UNIT,
        "the published range of the material",
    )
}

fn of(value: f64, least: f64, most: f64, why: &'static str) -> Guess {
    Guess {
        value,
        least,
        most,
        why,
    }
}
