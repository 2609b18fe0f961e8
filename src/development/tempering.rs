//! Tempering: hot and cold water, a concentrate, a vessel and ice to a wanted volume and temperature.
//!
//! The enthalpy before is the enthalpy after: sum m h(t) over all that is poured = the same at the common temperature. Water has its
//! own density and enthalpy ([`crate::chemistry::water_enthalpy`]); nothing is lost to the room, and volumes of concentrate and water
//! add up.

use super::zero;
use crate::chemistry::{Guess, WATER_HEAT, ice_enthalpy, water_density, water_enthalpy};
use crate::quantity::{Mass, Temperature, Volume};

/// A bath that is to be tempered, and what there is for it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Tempering {
    /// The whole bath, at the temperature that it comes to.
    pub total: Volume,
    /// The temperature that is wanted, 0 to 99 °C.
    pub wanted: Temperature,
    /// Water from the hot tap, no colder than from the cold one.
    pub hot: Temperature,
    /// Water from the cold tap.
    pub cold: Temperature,
    /// Where concentrate and vessel stood.
    pub room: Temperature,
    /// Concentrate in the bath, no more than the total.
    pub concentrate: Volume,
    /// Heat that it takes for a kelvin, as a share of what as much water takes.
    pub concentrate_heat: f64,
    /// Heat that the vessel takes for a kelvin, in joules; 0 where it is not counted.
    pub vessel: f64,
    /// The ice as it is put in, -30 to 0 °C.
    pub ice: Temperature,
    /// The most ice there is; `None` for as much as it takes.
    pub ice_at_hand: Option<Mass>,
}

/// What to pour, and what comes of it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Poured {
    /// From the hot tap, measured as it runs.
    pub hot: Volume,
    /// From the cold tap, measured as it runs.
    pub cold: Volume,
    /// Ice.
    pub ice: Mass,
    /// The temperature of the bath once all is stirred and the ice is gone.
    pub comes_to: Temperature,
    /// Why that is not the wanted temperature, if it is not.
    pub short: Option<Short>,
}

/// What a wanted temperature fails on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Short {
    /// Nothing but hot water is not warm enough.
    HotTap,
    /// Cold water and all the ice there is, or all that the bath has room for, are not cold enough.
    Ice,
    /// The bath is all concentrate: there is no water to temper it with.
    NoWater,
}

/// Heat that a concentrate takes for a kelvin, as a share of what as much water takes. From memory: a glycol 0.6, strong solutions of
/// salts 0.8 to 0.95, thin ones close to 1.
pub const CONCENTRATE_HEAT: Guess = Guess {
    value: 0.8,
    least: 0.6,
    most: 1.0,
    why: "a glycol takes about 0.6 of what water takes, a strong solution of salts 0.8 to 0.95 (from memory)",
};

/// The ice as it is put in, degrees Celsius.
pub const ICE: Guess = Guess {
    value: -9.0,
    least: -18.0,
    most: 0.0,
    why: "between ice straight from a freezer and ice that is melting",
};

/// What a vessel is made of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum VesselKind {
    /// Polypropylene, polyethylene, ABS.
    Plastic,
    /// Any glass.
    Glass,
    /// Stainless steel.
    Steel,
}

impl VesselKind {
    /// The heat that a gram of it takes for a kelvin, in joules (textbook values, from memory).
    pub fn heat(self) -> Guess {
        let why = "a textbook's range for its kind (from memory)";
        let (value, least, most) = match self {
            Self::Plastic => (1.7, 1.3, 2.3),
            Self::Glass => (0.8, 0.75, 0.85),
            Self::Steel => (0.5, 0.46, 0.52),
        };
        Guess {
            value,
            least,
            most,
            why,
        }
    }
}

/// Mass of a jug or a bottle, in grams.
pub const VESSEL_MASS: Guess = Guess {
    value: 200.0,
    least: 80.0,
    most: 500.0,
    why: "from a thin jug to a heavy bottle; weigh yours",
};

/// Mass of a volume of water.
fn mass(volume: Volume, water: Temperature) -> f64 {
    volume.millilitres() * water_density(water) / 1000.0
}

/// Volume of so many grams of water.
fn volume(grams: f64, water: Temperature) -> Volume {
    Volume::from_millilitres(grams * 1000.0 / water_density(water))
}

impl Tempering {
    /// What to pour for the wanted temperature, or else for the nearest one that can be reached.
    pub fn pour(&self) -> Poured {
        if self.water_at(self.wanted) <= 0.0 {
            return Poured {
                hot: Volume::ZERO,
                cold: Volume::ZERO,
                ice: Mass::ZERO,
                comes_to: self.room,
                short: Some(Short::NoWater),
            };
        }
        let [hot, cold] = [self.hot, self.cold].map(water_enthalpy);
        let needed = self.needed(self.wanted);
        if needed > hot {
            let comes_to = zero(&|at| self.needed(at) - hot);
            return self.poured([1.0, 0.0], comes_to, Some(Short::HotTap));
        }
        if needed >= cold {
            let share = if hot > cold {
                (needed - cold) / (hot - cold)
            } else {
                0.0
            };
            return self.poured([share, 0.0], self.wanted, None);
        }
        let ice = ice_enthalpy(self.ice);
        let share = (cold - needed) / (cold - ice);
        let most = |at| {
            let hand = self.ice_at_hand.map_or(1.0, |mass| mass.grams() / self.water_at(at));
            hand.min(1.0)
        };
        if share <= most(self.wanted) {
            return self.poured([0.0, share], self.wanted, None);
        }
        let comes_to = zero(&|at| self.needed(at) - cold + most(at) * (cold - ice));
        self.poured([0.0, most(comes_to)], comes_to, Some(Short::Ice))
    }

    /// What the bath comes to where these are poured, whatever was wanted; not below 0 °C.
    pub fn comes_to(&self, hot: Volume, cold: Volume, ice: Mass) -> Temperature {
        let [hot_mass, cold_mass] = [mass(hot, self.hot), mass(cold, self.cold)];
        let before = hot_mass * water_enthalpy(self.hot)
            + cold_mass * water_enthalpy(self.cold)
            + ice.grams() * ice_enthalpy(self.ice);
        let water = hot_mass + cold_mass + ice.grams();
        zero(&|at| water * water_enthalpy(at) + self.taken(at) - before)
    }

    /// The temperature of the water alone before the concentrate is in it, the vessel at the same temperature.
    pub fn water_alone(&self, poured: &Poured) -> Temperature {
        let alone = Self {
            concentrate: Volume::ZERO,
            ..*self
        };
        alone.comes_to(poured.hot, poured.cold, poured.ice)
    }

    /// What is to be poured away and poured in again from the hot tap, or the cold one, to move water of the wanted temperature by one
    /// kelvin its way; `None` where that tap moves it by no more.
    pub fn swap(&self, tap: Temperature) -> Option<Volume> {
        let away = (tap - self.wanted).kelvins().abs();
        (away > 1.0).then(|| self.total / away)
    }

    /// Water in the bath, in grams, where it comes to this temperature.
    fn water_at(&self, at: Temperature) -> f64 {
        mass(self.total - self.concentrate, at)
    }

    /// Heat that concentrate and vessel take up to come to this temperature, in joules.
    fn taken(&self, at: Temperature) -> f64 {
        let concentrate = self.concentrate.millilitres() * WATER_HEAT * self.concentrate_heat;
        (concentrate + self.vessel) * (at - self.room).kelvins()
    }

    /// Enthalpy that a gram of the water must have before it meets concentrate and vessel, so that all comes to this temperature.
    fn needed(&self, at: Temperature) -> f64 {
        water_enthalpy(at) + self.taken(at) / self.water_at(at)
    }

    /// The bath of these shares of hot water and of ice in its water.
    fn poured(&self, [hot, ice]: [f64; 2], comes_to: Temperature, short: Option<Short>) -> Poured {
        let water = self.water_at(comes_to);
        Poured {
            hot: volume(water * hot, self.hot),
            cold: volume(water * (1.0 - hot - ice), self.cold),
            ice: Mass::from_grams(water * ice),
            comes_to,
            short,
        }
    }
}
