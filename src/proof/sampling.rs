//! Densities from a scan: how much less light came through a patch of film than through its clear base.
//!
//! # The model
//!
//! A picture's values are code. A [`Coding`] says how much linear light each stands for, as a share of the most that the scanner
//! can tell; only light may be averaged. So every pixel is made linear first, and the light T of an area is the mean over its
//! pixels, of the channels red, green and blue together where there are three. Against the clear base of the same strip
//!
//! D = log10(T_base / T)
//!
//! which no brightness of the lamp and no exposure of the scanner changes, as long as both areas are of one scan.
//!
//! # Its standard uncertainty
//!
//! Neighbouring pixels know of each other, by grain and by blur, so their scatter says too little. The area is divided into 8 by 8
//! cells, and into 4 by 4; from each, the standard deviation of the cells' means over the root of their number estimates how well
//! the mean is known. If the cells are independent the two agree; if grain is coarse, or the area is not even, the larger cells
//! say more. The larger figure is taken, which makes it some 7 % too large where they agree.
//!
//! To it comes the step of the code, the same for all pixels in the worst case: one step at the area's light over the root of 12
//! (JCGM 100:2008, F.2.2.1). Both are relative to T; carried through the logarithm,
//!
//! u(D) = (u(T_base)² / T_base² + u(T)² / T²)^½ / ln 10
//!
//! The base's share is the same in every patch of a strip.
//!
//! # What it does not know
//!
//! How a scanner's light is scattered by the film, its stray light, and what its software does between the sensor and the file.
//! Only differences between strips that were scanned in the same way count.

mod area;

pub use area::{Area, Sampler};

use std::f64::consts::LN_10;
use std::fmt;

/// How values in a picture stand for linear light.
///
/// ```
/// use meniscus::proof::sampling::Coding;
///
/// assert!((Coding::Srgb.light(0.5) - 0.21404).abs() < 5e-6);
/// assert_eq!(Coding::Linear.light(0.5), 0.5);
/// assert_eq!(Coding::gamma(2.0).map(|coding| coding.light(0.5)), Some(0.25));
/// assert_eq!(Coding::gamma(0.5), None);
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Coding {
    /// The value is the light.
    Linear,
    /// By IEC 61966-2-1.
    Srgb,
    /// The light is a power of the value.
    Gamma(Exponent),
}

/// The power of a [`Coding::Gamma`].
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Exponent(f64);

impl Coding {
    /// Least and most power that pictures are written with: from linear to beyond what screens ever had (common practice, no
    /// source).
    pub const GAMMAS: (f64, f64) = (1.0, 3.0);

    /// A power of the value; nothing if no scanner writes that.
    pub fn gamma(gamma: f64) -> Option<Self> {
        let (least, most) = Self::GAMMAS;
        (least..=most).contains(&gamma).then_some(Self::Gamma(Exponent(gamma)))
    }

    /// The linear light of a value, both as a share of full scale.
    pub fn light(self, value: f64) -> f64 {
        match self {
            Self::Linear => value,
            Self::Srgb if value <= 0.04045 => value / 12.92,
            Self::Srgb => ((value + 0.055) / 1.055).powf(2.4),
            Self::Gamma(Exponent(gamma)) => value.powf(gamma),
        }
    }
}

/// How a picture was made and written.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Writing {
    /// How its values stand for light.
    pub coding: Coding,
    /// Whether each value was turned into full scale less the value: clear film is dark in it.
    pub inverted: bool,
    /// The largest value, full scale.
    pub full: u16,
}

/// The mean light of an area, as a share of full scale.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Light {
    mean: f64,
    scatter: f64,
    step: f64,
}

impl Light {
    /// The mean.
    pub fn mean(&self) -> f64 {
        self.mean
    }

    /// Its standard uncertainty from the scatter of the cells.
    pub fn scatter(&self) -> f64 {
        self.scatter
    }

    /// Its standard uncertainty from the step of the code.
    pub fn step(&self) -> f64 {
        self.step
    }

    fn relative_variance(&self) -> f64 {
        (self.scatter.powi(2) + self.step.powi(2)) / self.mean.powi(2)
    }
}

/// A density above that of the clear base.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Density {
    /// The density.
    pub value: f64,
    /// Its standard uncertainty.
    pub standard_uncertainty: f64,
}

impl Density {
    /// The density of a patch against the clear base.
    ///
    /// # Errors
    ///
    /// If the patch is brighter than the base by more than both are uncertain.
    pub fn between(base: &Light, patch: &Light) -> Result<Self, Refusal> {
        let density = Self {
            value: (base.mean / patch.mean).log10(),
            standard_uncertainty: (base.relative_variance() + patch.relative_variance()).sqrt() / LN_10,
        };
        match density.value < -2.0 * density.standard_uncertainty {
            true => Err(Refusal::Brighter),
            false => Ok(density),
        }
    }
}

/// As a reading is typed: to thousandths, with what covers 95 % of it (k = 2) after the ±, rounded up. A density that is below zero
/// by less than its uncertainty is none.
///
/// ```
/// use meniscus::proof::sampling::Density;
///
/// let density = Density { value: 0.30103, standard_uncertainty: 0.0021 };
/// assert_eq!(density.to_string(), "0.301 ± 0.005");
/// ```
impl fmt::Display for Density {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let value = (self.value * 1000.0).round().max(0.0) as u32;
        let error = (2.0 * self.standard_uncertainty * 1000.0).ceil().max(1.0) as u32;
        write!(
            f,
            "{}.{:03} ± {}.{:03}",
            value / 1000,
            value % 1000,
            error / 1000,
            error % 1000
        )
    }
}

/// Why an area gives no density.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Refusal {
    /// Fewer pixels than can be divided into cells.
    TooSmall,
    /// Too many pixels at the lower end of the scale.
    Black,
    /// Too many pixels at the upper end of the scale.
    White,
    /// Some of it can be seen through.
    Transparent,
    /// The clear base again.
    SameAsBase,
    /// Another patch again.
    SameAsAnother,
    /// Brighter than the clear base.
    Brighter,
    /// There is no clear base to compare it with.
    NoBase,
}

impl fmt::Display for Refusal {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::TooSmall => write!(
                f,
                "this area is smaller than {} pixels each way: draw it larger, or scan finer",
                Sampler::LEAST
            ),
            Self::Black => f.write_str(
                "some of this area is pure black, so its light is not known: scan brighter, with automatic corrections off",
            ),
            Self::White => f.write_str(
                "some of this area is pure white, so its light is not known: scan darker, with automatic corrections off",
            ),
            Self::Transparent => {
                f.write_str("some of this area is transparent in the picture: draw it where the scan is")
            }
            Self::SameAsBase => f.write_str("this is the area of the clear base: draw it on a patch"),
            Self::SameAsAnother => f.write_str("this area is in the list already: draw it elsewhere, or remove it"),
            Self::Brighter => f.write_str(
                "this area lets through more light than the clear base: put the base on the clearest film, and look whether the \
                 scan is inverted",
            ),
            Self::NoBase => f.write_str("draw the clear base first"),
        }
    }
}

/// What the areas of one strip say: the clear base comes first, and has the density 0 of itself. Areas that are not drawn yet say
/// nothing.
pub fn densities(
    areas: &[Option<Area>],
    mut light: impl FnMut(Area) -> Result<Light, Refusal>,
) -> Vec<Option<Result<Density, Refusal>>> {
    let Some((base_area, patches)) = areas.split_first() else {
        return Vec::new();
    };
    let base = base_area.map(&mut light);
    let own = base.map(|base| base.and_then(|base| Density::between(&base, &base)));
    let of_patch = |(index, patch): (usize, &Option<Area>)| {
        let patch = (*patch)?;
        Some(if *base_area == Some(patch) {
            Err(Refusal::SameAsBase)
        } else if patches[..index].contains(&Some(patch)) {
            Err(Refusal::SameAsAnother)
        } else {
            light(patch).and_then(|found| match base {
                Some(Ok(base)) => Density::between(&base, &found),
                _ => Err(Refusal::NoBase),
            })
        })
    };
    std::iter::once(own)
        .chain(patches.iter().enumerate().map(of_patch))
        .collect()
}
