//! What decanting rests on that nobody measured.

use crate::chemistry::{Class, Substance};
use crate::development::Parameter;
use crate::fields::{self, Form};
use crate::keeping::Assumptions;
use crate::kit::{Container, Material, Treatment};
use crate::parts::{assumption, assumption_of, given};
use crate::quantity::{Units, Volume, read};
use crate::sheet::{Figure, Item, Text};

/// The assumptions of the class with what the form knows better; the rest is told.
pub fn assumptions(form: &mut Form, class: Class, told: &mut Vec<Item>) -> Assumptions {
    let units = form.units();
    let of_class = Assumptions::of_class(class);
    // A millimole in a millilitre is a mole in a litre; the agent is counted as hydroquinone.
    let agent = Substance::HYDROQUINONE.molar_mass();
    let sulfite = Substance::SULFITE.molar_mass();
    let per_litre = |grams: Option<f64>, molar: f64| grams.map(|grams| given(grams / molar));
    let (typed_agent, typed_sulfite) = (form.read(&fields::shelf::AGENT), form.read(&fields::shelf::SULFITE));
    let uptake = form.read(&fields::shelf::UPTAKE).map_or(of_class.uptake, given);
    let pressure = form
        .read(&fields::shelf::PRESSURE)
        .map_or(of_class.pressure, |hectopascals| given(hectopascals * 100.0));
    let humidity = form
        .read(&fields::shelf::HUMIDITY)
        .map_or(of_class.humidity, |percent| given(percent / 100.0));
    let all = Assumptions {
        pressure,
        humidity,
        uptake,
        agent: per_litre(typed_agent, agent).or(of_class.agent),
        sulfite: per_litre(typed_sulfite, sulfite).or(of_class.sulfite),
        ..of_class
    };
    let figure =
        |name: &'static str, label: &'static str, value, places| Figure::number(name, label, value, places, units);
    let days = |days| read::show_period(days, units);
    let hold = match class.is_developer() {
        true => all.agent.map(|moles| {
            let grams = moles.map(|moles| moles * agent);
            let figure = figure("assumed_agent", "Developing agent, g/l as hydroquinone", grams.value, 0);
            assumption(figure, grams, "agent", units)
        }),
        false => all.sulfite.map(|moles| {
            let grams = moles.map(|moles| moles * sulfite);
            let figure = figure("assumed_sulfite", "Sulfite, g/l", grams.value, 0);
            assumption(figure, grams, "sulfite", units)
        }),
    };
    let taken_up = Figure {
        shown: days(uptake.value),
        ..figure("assumed_uptake", "Takes up the air in", uptake.value, 1)
    };
    let hectopascals = pressure.map(|pascals| pascals / 100.0);
    let percent = humidity.map(|share| share * 100.0);
    told.extend(hold.flatten());
    told.extend(assumption_of(taken_up, uptake, "uptake", days));
    let air = figure("assumed_pressure", "Air pressure, hPa", hectopascals.value, 0);
    told.extend(assumption_of(air, hectopascals, "pressure", |end| units.number(end, 0)));
    let damp = figure("assumed_humidity", "Humidity, %", percent.value, 0);
    told.extend(assumption(damp, percent, "humidity", units));
    all
}

/// What a bottle holds to the brim that is only known as it was sold.
pub fn brimful(nominal: Volume, units: Units, told: &mut Vec<Item>) -> Volume {
    let guess = Parameter::given_or(None, Container::brimful_of(nominal));
    let brimful = Volume::from_millilitres(guess.value);
    let show = |end| units.volume(Volume::from_millilitres(end));
    let figure = Figure::volume("assumed_brimful", "The bottle holds to the brim", brimful, units);
    told.extend(assumption_of(figure, guess, "bottle", show));
    brimful
}

/// What squeezing, beads or a gas leave of the air over it.
pub fn air_left(treatment: Treatment, units: Units, told: &mut Vec<Item>) {
    let left = treatment.air_left();
    let figure = Figure::percent("assumed_air_left", "Air that is left over it", left.value, units);
    told.extend(assumption_of(figure, left, "bottle", |share| units.percent(share)));
}

/// The walls that let oxygen through.
pub fn walls(bottle: &Container, at_hand: &[Container], units: Units, told: &mut Vec<Item>) {
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
