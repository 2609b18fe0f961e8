//! The walls that a decanting rests on and that nobody measured.

use crate::development::Parameter;
use crate::kit::{Container, Material};
use crate::parts::assumption;
use crate::quantity::Units;
use crate::sheet::{Figure, Item, Text};

/// The walls that let oxygen through.
pub fn assumed(bottle: &Container, at_hand: &[Container], units: Units, told: &mut Vec<Item>) {
    let all = std::iter::once((bottle, "material")).chain(at_hand.iter().map(|one| (one, "at_hand")));
    let mut seen: Vec<Material> = Vec::new();
    for (container, field) in all {
        let material = container.material;
        let lets = Parameter::given_or(None, material.permeability());
        if lets.most <= 0.0 || seen.contains(&material) {
            continue;
        }
        if seen.is_empty() {
            let wall = container.wall_thickness();
            let figure = Figure::number("assumed_thickness", "Plastic wall, mm", wall.value, 2, units);
            told.extend(assumption(figure, wall, "thickness", units));
            let area = container.area();
            let size = units.volume(container.brimful);
            let label = format!("Wall of the {size} {}, cm²", material.name());
            let figure = Figure::number("assumed_area", label, area.value, 0, units);
            told.extend(assumption(figure, area, field, units));
        }
        seen.push(material);
        let name = Text::from(format!("assumed_permeability_{}", material.word()));
        let label = format!("Oxygen through {}, cm³ mm/(m² day atm)", material.name());
        let figure = Figure {
            shown: units.about(lets.value),
            ..Figure::number(name, label, lets.value, 2, units)
        };
        told.extend(assumption(figure, lets, field, units));
    }
}
