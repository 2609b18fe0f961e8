//! What liquids are kept in and where: containers, the oxygen that comes through their walls, places and their
//! temperature.

mod material;
mod place;

pub use material::{BARRER, MIL_UNIT, Material};
pub use place::{Climate, HOT, Light, PLACE_TEMPERATURE, Place, Warmth};

use std::f64::consts::PI;

use crate::chemistry::Guess;
use crate::development::{Origin, Parameter};
use crate::quantity::{Area, Bounds, Volume};

/// Brimful capacity of a container, in millilitres.
pub const BRIMFUL: Bounds = Bounds {
    what: "the capacity to the brim",
    least: 5.0,
    most: 25_000.0,
    why: "from a sample vial to a canister",
};
/// Thickness of a wall, in millimetres.
pub const THICKNESS: Bounds = Bounds {
    what: "the thickness of the wall",
    least: 0.02,
    most: 10.0,
    why: "from a film to a canister",
};
/// Outer area of a wall, in square centimetres.
pub const WALL_AREA: Bounds = Bounds {
    what: "the area of the wall",
    least: 10.0,
    most: 10_000.0,
    why: "from a sample vial to a canister",
};

/// A bottle without its content.
///
/// ```
/// use meniscus::kit::{Colour, Container, Material};
/// use meniscus::quantity::Volume;
///
/// let litre = Container {
///     name: "brown glass".to_owned(),
///     brimful: Volume::from_millilitres(1040.0),
///     nominal: Some(Volume::from_millilitres(1000.0)),
///     material: Material::Glass,
///     wall_area: None,
///     thickness: None,
///     colour: Colour::Amber,
/// };
/// assert_eq!(litre.headspace(Volume::from_millilitres(1000.0)).millilitres(), 40.0);
/// assert!(litre.area().is_assumed());
/// ```
#[derive(Clone, Debug, PartialEq)]
pub struct Container {
    /// The user's name for it.
    pub name: String,
    /// What it holds to the brim: this, not the nominal capacity, leaves the headspace.
    pub brimful: Volume,
    /// What it is sold as.
    pub nominal: Option<Volume>,
    /// What the wall is made of.
    pub material: Material,
    /// Area of the wall, where it was measured.
    pub wall_area: Option<Area>,
    /// Thickness of the wall in millimetres, where it was measured.
    pub thickness: Option<f64>,
    /// How it stands to light.
    pub colour: Colour,
}

/// How a container stands to light.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Colour {
    /// No light comes in.
    Opaque,
    /// Brown: little that harms.
    Amber,
    /// Light comes in.
    Clear,
}

/// What is done to the air above the liquid when a bottle is closed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Treatment {
    /// Nothing.
    Plain,
    /// The bottle is squeezed until the liquid stands near the brim.
    Squeezed,
    /// Glass beads lift the liquid; their own volume, where it is known.
    Beads(Option<Volume>),
    /// The air is driven out by a gas without oxygen.
    InertGas,
}

impl Container {
    /// Volume above the liquid; nothing where there is more liquid than it holds.
    pub fn headspace(&self, content: Volume) -> Volume {
        (self.brimful - content).max(Volume::ZERO)
    }

    /// Area of the wall in cm², measured or estimated from what it holds.
    pub fn area(&self) -> Parameter {
        let size = self.brimful.millilitres().powf(2.0 / 3.0);
        // A cylinder of diameter d and height 2 d holds pi d^3 / 2 and has 5/2 pi d^2 of wall, its ends included.
        let cylinder = 2.5 * PI * (2.0 / PI).powf(2.0 / 3.0);
        let guess = Guess {
            value: cylinder * size,
            least: (36.0 * PI).powf(1.0 / 3.0) * size,
            most: 8.0 * size,
            why: "a bottle twice as high as wide; a ball has less, a flat bottle more",
        };
        Parameter::given_or(self.wall_area.map(Area::square_centimetres), guess)
    }

    /// Thickness of the wall in mm, measured or assumed.
    pub fn wall_thickness(&self) -> Parameter {
        let guess = Guess {
            value: 0.5,
            least: 0.25,
            most: 1.2,
            why: "as bottles are blown (common practice, no source)",
        };
        Parameter::given_or(self.thickness, guess)
    }

    /// Whether light of the place comes to the liquid.
    pub fn lets_light_in(&self, place: &Place) -> bool {
        self.colour == Colour::Clear && place.light == Light::Lit
    }

    /// What a bottle sold as this much holds to the brim, in ml (common practice, no source): fill one with water to
    /// know.
    pub fn brimful_of(nominal: Volume) -> Guess {
        let size = nominal.millilitres();
        Guess {
            value: size * 1.06,
            least: size * 1.02,
            most: size * 1.12,
            why: "bottles hold a little more than they are sold as; fill one with water to know",
        }
    }
}

impl Treatment {
    /// Share of the headspace that still holds air, or of its air that is still there (assumptions, no source); 1 where
    /// nothing is done or where the beads' volume is known.
    pub fn air_left(self) -> Parameter {
        let guess = |value, least, most, why| {
            Parameter::given_or(
                None,
                Guess {
                    value,
                    least,
                    most,
                    why,
                },
            )
        };
        match self {
            Self::Plain | Self::Beads(Some(_)) => Parameter {
                value: 1.0,
                least: 1.0,
                most: 1.0,
                origin: Origin::Given,
            },
            Self::Squeezed => guess(
                0.1,
                0.03,
                0.3,
                "a hand leaves some air, and the wall springs back a little",
            ),
            Self::Beads(None) => guess(
                0.1,
                0.03,
                0.25,
                "beads lift the liquid to the neck, not to the very brim",
            ),
            Self::InertGas => guess(
                0.3,
                0.1,
                0.7,
                "a puff of gas mixes with the air rather than replacing it",
            ),
        }
    }

    /// Volume of gas that it leaves of a headspace, given the share left.
    pub fn gas(self, headspace: Volume, left: f64) -> Volume {
        match self {
            Self::Plain | Self::InertGas => headspace,
            Self::Squeezed | Self::Beads(None) => headspace * left,
            Self::Beads(Some(beads)) => (headspace - beads).max(Volume::ZERO),
        }
    }

    /// Share of that gas that is air.
    pub fn air(self, left: f64) -> f64 {
        match self {
            Self::InertGas => left,
            Self::Plain | Self::Squeezed | Self::Beads(_) => 1.0,
        }
    }
}
