//! Limits of error of instruments, as the standards give them.
//!
//! The figures are from memory, except those of ISO 7886-1 for 1 ml and 10 ml, of ISO 4788 for 500 ml class A, and of ASTM E1272
//! up to 500 ml, which were read; the vectors of the tests say so beside each.
//!
//! A limit is a half-width: the error lies within plus or minus it. Sources: ISO 7886-1 (syringes), ISO 4788 and ASTM E1272
//! (cylinders), ISO 835 (graduated pipettes), ISO 648 (single-mark pipettes).

use super::InstrumentKind;
use crate::quantity::Volume;

/// Where an instrument's limit of error comes from.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Tolerance {
    /// A hypodermic syringe by ISO 7886-1.
    SyringeIso7886,
    /// A measuring cylinder by ISO 4788.
    CylinderIso4788(Grade),
    /// A measuring cylinder by ASTM E1272.
    CylinderAstmE1272(Grade),
    /// A graduated pipette by ISO 835.
    GraduatedPipetteIso835(Grade),
    /// A single-mark pipette by ISO 648.
    SingleMarkPipetteIso648(Grade),
    /// So much of what is measured.
    Share(f64),
    /// The maker's or the user's own limit, at any mark.
    Own(Volume),
    /// The user's own calibration: the error that was found (delivered less marked), and what was not found out.
    Calibrated {
        /// Delivered less marked.
        bias: Volume,
        /// Standard uncertainty of the bias.
        uncertainty: Volume,
        /// Standard deviation of one delivery.
        repeatability: Volume,
    },
}

/// Accuracy class of the glass and plastic standards.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Grade {
    /// The narrower limits.
    A,
    /// Twice as wide, or nearly.
    B,
}

impl Tolerance {
    /// That of jugs and beakers whose marks are only a guide (common practice, no source).
    pub const GUIDE: Self = Self::Share(0.05);

    /// That of the ISO standard for its kind; none makes a jug exact.
    pub fn by_standard(kind: InstrumentKind, grade: Grade) -> Option<Self> {
        match kind {
            InstrumentKind::Syringe => Some(Self::SyringeIso7886),
            InstrumentKind::Cylinder => Some(Self::CylinderIso4788(grade)),
            InstrumentKind::GraduatedPipette => Some(Self::GraduatedPipetteIso835(grade)),
            InstrumentKind::SingleMarkPipette => Some(Self::SingleMarkPipetteIso648(grade)),
            InstrumentKind::Jug => None,
        }
    }

    /// Half-width of the error when `delivered` is measured with an instrument of `capacity`.
    pub fn half_width(self, capacity: Volume, delivered: Volume) -> Volume {
        match self {
            Self::SyringeIso7886 => syringe(capacity, delivered),
            Self::CylinderIso4788(grade) => row(&CYLINDER_ISO_4788, capacity, grade),
            Self::CylinderAstmE1272(grade) => row(&CYLINDER_ASTM_E1272, capacity, grade),
            Self::GraduatedPipetteIso835(grade) => row(&GRADUATED_PIPETTE_ISO_835, capacity, grade),
            Self::SingleMarkPipetteIso648(grade) => row(&SINGLE_MARK_PIPETTE_ISO_648, capacity, grade),
            Self::Share(share) => delivered * share,
            Self::Own(limit) => limit,
            Self::Calibrated { uncertainty, .. } => uncertainty * 3f64.sqrt(),
        }
    }
}

/// ISO 7886-1, table 1: below half of the capacity a part of the capacity and a part of what is expelled; from half on,
/// a part of what is expelled. The two meet at half.
fn syringe(capacity: Volume, expelled: Volume) -> Volume {
    let small = capacity < Volume::from_millilitres(5.0);
    match (expelled < capacity / 2.0, small) {
        (true, true) => capacity * 0.015 + expelled * 0.02,
        (true, false) => capacity * 0.015 + expelled * 0.01,
        (false, true) => expelled * 0.05,
        (false, false) => expelled * 0.04,
    }
}

/// Most dead space that ISO 7886-1, table 1, lets a syringe have.
pub fn syringe_dead_space(capacity: Volume) -> Volume {
    let millilitres = match capacity.millilitres() {
        size if size < 5.0 => 0.07,
        size if size < 10.0 => 0.075,
        size if size < 20.0 => 0.10,
        size if size < 30.0 => 0.15,
        size if size < 50.0 => 0.17,
        _ => 0.20,
    };
    Volume::from_millilitres(millilitres)
}

/// Nominal capacity, limit of class A, limit of class B; millilitres.
type Row = (f64, f64, f64);

const CYLINDER_ISO_4788: [Row; 9] = [
    (5.0, 0.05, 0.1),
    (10.0, 0.1, 0.2),
    (25.0, 0.25, 0.5),
    (50.0, 0.5, 1.0),
    (100.0, 0.5, 1.0),
    (250.0, 1.0, 2.0),
    (500.0, 2.5, 5.0),
    (1000.0, 5.0, 10.0),
    (2000.0, 10.0, 20.0),
];

const CYLINDER_ASTM_E1272: [Row; 9] = [
    (5.0, 0.05, 0.10),
    (10.0, 0.10, 0.20),
    (25.0, 0.17, 0.34),
    (50.0, 0.25, 0.50),
    (100.0, 0.50, 1.00),
    (250.0, 1.00, 2.00),
    (500.0, 2.00, 4.00),
    (1000.0, 3.00, 6.00),
    (2000.0, 6.00, 12.00),
];

const GRADUATED_PIPETTE_ISO_835: [Row; 5] = [
    (1.0, 0.007, 0.010),
    (2.0, 0.010, 0.020),
    (5.0, 0.030, 0.050),
    (10.0, 0.050, 0.100),
    (25.0, 0.100, 0.200),
];

/// Class B of 1 ml and of 100 ml is not known from the standard: twice class A, as in the ASTM family (ASTM E694).
const SINGLE_MARK_PIPETTE_ISO_648: [Row; 8] = [
    (1.0, 0.008, 0.016),
    (2.0, 0.010, 0.020),
    (5.0, 0.015, 0.030),
    (10.0, 0.020, 0.040),
    (20.0, 0.030, 0.060),
    (25.0, 0.030, 0.060),
    (50.0, 0.050, 0.100),
    (100.0, 0.080, 0.160),
];

/// The limit of the nominal size, or of the next larger one where the size is not in the table.
/// Above the largest size the limit grows with the capacity.
fn row(table: &[Row], capacity: Volume, grade: Grade) -> Volume {
    let size = capacity.millilitres();
    let last = table[table.len() - 1];
    let (scale, row) = match table.iter().find(|row| row.0 >= size) {
        Some(row) => (1.0, *row),
        None => (size / last.0, last),
    };
    Volume::from_millilitres(scale * if grade == Grade::A { row.1 } else { row.2 })
}
