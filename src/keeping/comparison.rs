//! What a user should see at a glance: the same half-empty litre by class of solution, and the same bottle by material.

use super::{Assumptions, Exposure, Lean, Life, Ranged, Seal, Stretch, air, exposure, stated};
use crate::chemistry::Class;
use crate::kit::{Climate, Colour, Container, Material, Treatment};
use crate::quantity::{Amount, Day, Temperature, Volume, YEAR};

/// One class in the same half-empty litre.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ByClass {
    /// Which.
    pub class: Class,
    /// What the air could have done.
    pub air: Ranged<Exposure>,
    /// Multiple of the stated life used.
    pub share: Option<Ranged<f64>>,
}

/// One material around the same liquid.
#[derive(Clone, Debug, PartialEq)]
pub struct ByMaterial {
    /// Which.
    pub material: Material,
    /// Oxygen through the wall by year, from 0 on: usually, at the least, at the most.
    pub wall: Vec<Ranged<Amount>>,
    /// Share of the developing agent that it could have cost in all these years, if there is any.
    pub agent: Option<Ranged<f64>>,
    /// Share of the sulfite that it has used in all these years, if there is any.
    pub sulfite: Option<Ranged<f64>>,
}

/// The classes that are compared.
pub const CLASSES: [Class; 3] = [Class::Syrup, Class::PowderStock, Class::WorkingDeveloper];
/// The materials that are compared.
pub const MATERIALS: [Material; 3] = [Material::Glass, Material::Pet, Material::Ldpe];

/// Half a litre in a litre bottle of glass at 20 °C, opened every `interval` days for `days` days (both at least 1):
/// what that does to a syrup, a stock from powder, and a working solution. Nothing is drawn, so that all three meet the
/// same air.
///
/// ```
/// use meniscus::keeping::comparison::half_empty_litre;
///
/// let [syrup, stock, working] = half_empty_litre(60, 14);
/// let agent = |one: meniscus::keeping::comparison::ByClass| one.air.value.agent.expect("a developer");
/// assert!(agent(syrup) < 0.05 && agent(stock) > 0.2 && agent(working) > agent(stock));
/// ```
pub fn half_empty_litre(days: i32, interval: i32) -> [ByClass; 3] {
    let litre = bottle(Material::Glass);
    let interval = interval.max(1);
    let first = Day::from_days(0);
    let openings = (0..days.max(1)).step_by(interval as usize);
    let stretches = openings.map(|day| Stretch {
        from: first + day,
        to: first + (day + interval).min(days.max(1)),
        content: litre.brimful / 2.0,
        seal: Seal::Opened,
        treatment: Treatment::Plain,
        container: &litre,
        climate: ROOM,
    });
    let life = Life::of(stretches.collect());
    CLASSES.map(|class| {
        let assumptions = Assumptions::of_class(class);
        ByClass {
            class,
            air: air(&life, &assumptions),
            share: stated(&life, &assumptions),
        }
    })
}

/// A litre bottle, full and unopened at 20 °C for so many years, in each material; `assumptions` say what is in it.
pub fn same_bottle(assumptions: &Assumptions, years: u32) -> [ByMaterial; 3] {
    MATERIALS.map(|material| {
        let bottle = bottle(material);
        let after = |year: u32, lean| {
            let first = Day::from_days(0);
            let stretch = Stretch {
                from: first,
                to: first + (f64::from(year) * YEAR).round() as i32,
                content: bottle.brimful,
                seal: Seal::Unopened,
                treatment: Treatment::Plain,
                container: &bottle,
                climate: ROOM,
            };
            exposure(&Life::of(vec![stretch]), assumptions, &lean, None)
        };
        let ranged = |year| Ranged {
            value: after(year, Lean::USUAL),
            least: after(year, Lean::GENTLE),
            most: after(year, Lean::HARSH),
        };
        let end = ranged(years);
        ByMaterial {
            material,
            wall: (0..=years)
                .map(|year| ranged(year).map(|exposure| exposure.wall))
                .collect(),
            agent: end.map_some(|exposure| exposure.agent),
            sulfite: end.map_some(|exposure| exposure.sulfite),
        }
    })
}

const ROOM: Climate = Climate::Steady(Temperature::from_celsius(20.0));

fn bottle(material: Material) -> Container {
    Container {
        name: format!("a litre of {}", material.name()),
        brimful: Volume::from_millilitres(1000.0),
        nominal: None,
        material,
        wall_area: None,
        thickness: None,
        colour: Colour::Opaque,
    }
}
