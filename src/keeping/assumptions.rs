//! Every number of keeping that nobody measured, with its range, and where in the ranges it is taken.

use super::{Lives, ONE_ATMOSPHERE};
use crate::chemistry::{Class, Guess, Reserve};
use crate::development::{Origin, Parameter};
use crate::kit::{Container, Treatment};
use crate::quantity::{Amount, Area, Volume};
use crate::uncertainty::Random;

/// What is assumed of a product, a darkroom and the air; every field may be replaced by a measured number.
#[derive(Clone, Debug, PartialEq)]
pub struct Assumptions {
    /// Air pressure of the place, in pascals.
    pub pressure: Parameter,
    /// Relative humidity of the room, 0 to 1.
    pub humidity: Parameter,
    /// Days in which a liquid at rest takes up all but 1/e of the oxygen above it.
    pub uptake: Parameter,
    /// Developing agent, mol/l; `None` where there is none.
    pub agent: Option<Parameter>,
    /// Sulfite, mol/l; `None` where there is none.
    pub sulfite: Option<Parameter>,
    /// Stated lives; `None` where nothing is known.
    pub lives: Option<Lives>,
    /// How many times faster a stated life runs 10 degrees warmer.
    pub per_ten: Parameter,
    /// Share of the air that a treatment leaves, 0 to 1, where the user knows better than [`Treatment::air_left`].
    pub air_left: Option<f64>,
}

/// Pressure of the air: sea level, or up to some 800 m, or a deep low.
const PRESSURE: Guess = Guess {
    value: ONE_ATMOSPHERE,
    least: 92_000.0,
    most: 103_500.0,
    why: "air pressure at sea level; up to 800 m above it, it may be a tenth less",
};
const HUMIDITY: Guess = Guess {
    value: 0.5,
    least: 0.0,
    most: 1.0,
    why: "a room",
};
/// Oxygen reaches the agents of a liquid at rest only by diffusing in: flux = c sqrt(D k). With k = 1 / (25 min)
/// (uncatalysed sulfite), D = 2e-9 m²/s and 0.033 ml of oxygen to the ml of gas, the 9 cm above a half-empty litre last
/// some 25 days; traces of metal and every movement hasten it, a syrup slows it.
const UPTAKE: Guess = Guess {
    value: 14.0,
    least: 1.0,
    most: 90.0,
    why: "oxygen diffuses into a liquid at rest: about 25 days by the reaction time of pure sulfite, faster in practice",
};
const PER_TEN: Guess = Guess {
    value: 2.0,
    least: 1.5,
    most: 3.0,
    why: "most slow reactions double in speed with ten degrees",
};

impl Assumptions {
    /// What is assumed of a class when nothing else is known.
    pub fn of_class(class: Class) -> Self {
        let reserve = class.reserve();
        let assumed = |guess| Parameter::given_or(None, guess);
        Self {
            pressure: assumed(PRESSURE),
            humidity: assumed(HUMIDITY),
            uptake: assumed(UPTAKE),
            agent: reserve.and_then(|reserve| reserve.agent).map(assumed),
            sulfite: reserve.map(|reserve| assumed(reserve.sulfite)),
            lives: Lives::typical(class),
            per_ten: assumed(PER_TEN),
            air_left: None,
        }
    }

    /// The same with a reserve that is known.
    pub fn with_reserve(self, reserve: Reserve) -> Self {
        let known = |moles: f64| (moles > 0.0).then_some(exactly(moles));
        Self {
            agent: known(reserve.agent),
            sulfite: known(reserve.sulfite),
            ..self
        }
    }

    /// The same with these lives.
    pub fn with_lives(self, lives: Option<Lives>) -> Self {
        Self { lives, ..self }
    }

    /// The reserve where the lean takes it; zero where there is none.
    pub fn reserve(&self, lean: &Lean) -> Reserve {
        let taken = |parameter: &Option<Parameter>, position| parameter.as_ref().map_or(0.0, |p| at(p, position));
        Reserve {
            agent: taken(&self.agent, lean.agent),
            sulfite: taken(&self.sulfite, lean.sulfite),
        }
    }

    /// Oxygen through the wall of a container in a day, where the lean takes it.
    pub fn wall(&self, container: &Container, lean: &Lean) -> Amount {
        let permeability = Parameter::given_or(None, container.material.permeability());
        super::permeation(
            at(&permeability, lean.permeability),
            Area::from_square_centimetres(at(&container.area(), lean.area)),
            at(&container.wall_thickness(), lean.thickness),
            at(&self.pressure, lean.pressure),
        )
    }
}

/// Where in its range each assumption is taken: -1 is its least, 0 its value, 1 its most.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Lean {
    /// Of the air pressure.
    pub pressure: f64,
    /// Of the humidity.
    pub humidity: f64,
    /// Of the days of uptake.
    pub uptake: f64,
    /// Of the air that a treatment leaves.
    pub treatment: f64,
    /// Of the permeability of a wall.
    pub permeability: f64,
    /// Of the area of a wall.
    pub area: f64,
    /// Of the thickness of a wall.
    pub thickness: f64,
    /// Of the developing agent.
    pub agent: f64,
    /// Of the sulfite.
    pub sulfite: f64,
    /// Of the life unopened.
    pub unopened: f64,
    /// Of the life full.
    pub full: f64,
    /// Of the life half full as a share of it.
    pub half_full: f64,
    /// Of the factor for 10 degrees.
    pub per_ten: f64,
}

impl Lean {
    /// Every assumption at its value.
    pub const USUAL: Self = Self::towards(0.0);
    /// Every assumption at the end of its range that wears least; the factor for 10 degrees, whose end depends on the
    /// place, at its value.
    pub const GENTLE: Self = Self::towards(-1.0);
    /// Every assumption at the end of its range that wears most; the factor for 10 degrees at its value.
    pub const HARSH: Self = Self::towards(1.0);

    const fn towards(wear: f64) -> Self {
        Self {
            pressure: wear,
            humidity: -wear,
            uptake: -wear,
            treatment: wear,
            permeability: wear,
            area: wear,
            thickness: -wear,
            agent: -wear,
            sulfite: -wear,
            unopened: -wear,
            full: -wear,
            half_full: -wear,
            per_ten: 0.0,
        }
    }

    /// Each assumption anywhere in its range, most often near its value and independent of the others: a triangle over
    /// the positions, so that one half of the draws lies on either side of the value.
    pub fn sample(random: &mut Random) -> Self {
        let mut position = || random.uniform() - random.uniform();
        Self {
            pressure: position(),
            humidity: position(),
            uptake: position(),
            treatment: position(),
            permeability: position(),
            area: position(),
            thickness: position(),
            agent: position(),
            sulfite: position(),
            unopened: position(),
            full: position(),
            half_full: position(),
            per_ten: position(),
        }
    }
}

/// The number at a position of its range: -1 the least, 0 the value, 1 the most; between them in equal ratios, or in
/// equal steps where the least is zero or below.
pub fn at(parameter: &Parameter, position: f64) -> f64 {
    let end = match position < 0.0 {
        true => parameter.least,
        false => parameter.most,
    };
    if end == parameter.value {
        return end;
    }
    match parameter.least > 0.0 {
        true => parameter.value * (end / parameter.value).powf(position.abs()),
        false => parameter.value + (end - parameter.value) * position.abs(),
    }
}

/// A number that is known.
pub(super) fn exactly(value: f64) -> Parameter {
    Parameter {
        value,
        least: value,
        most: value,
        origin: Origin::Given,
    }
}

/// What the treatments leave, where a lean takes it.
#[derive(Clone, Copy)]
pub(super) struct AirLeft {
    squeezed: f64,
    beads: f64,
    inert_gas: f64,
}

impl AirLeft {
    /// `known` is the share that the user knows, if so.
    pub(super) fn new(known: Option<f64>, lean: &Lean) -> Self {
        let left = |treatment: Treatment| known.unwrap_or_else(|| at(&treatment.air_left(), lean.treatment));
        Self {
            squeezed: left(Treatment::Squeezed),
            beads: left(Treatment::Beads(None)),
            inert_gas: left(Treatment::InertGas),
        }
    }

    /// Gas above a liquid, and the share of it that is air.
    pub(super) fn gas(self, treatment: Treatment, headspace: Volume) -> (Volume, f64) {
        let left = match treatment {
            Treatment::Plain | Treatment::Beads(Some(_)) => 1.0,
            Treatment::Squeezed => self.squeezed,
            Treatment::Beads(None) => self.beads,
            Treatment::InertGas => self.inert_gas,
        };
        (treatment.gas(headspace, left), treatment.air(left))
    }
}
