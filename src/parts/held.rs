//! How much is left in a bottle and what holds it: as the shelf knows it, and for the rest as the form says.

use super::given;
use crate::development::Parameter;
use crate::fields::{self, Form};
use crate::kit::{Colour, Container, Material};
use crate::ledger::Bottle;
use crate::quantity::{Area, Volume};

/// A container and its content, as far as they are known.
pub struct Held {
    /// Liquid in it now.
    left: Option<Volume>,
    /// The field to be mended where it holds less than that.
    too_small: &'static str,
    /// What it holds to the brim, measured.
    pub brimful: Option<Volume>,
    /// What it is sold as.
    pub nominal: Option<Volume>,
    material: Option<Material>,
    wall_area: Option<Area>,
    thickness: Option<f64>,
    /// How thick the form says that walls are.
    pub typed_thickness: Option<f64>,
}

impl Held {
    /// Reads the fields of a container; what the shelf knows stands before them.
    pub fn read(form: &mut Form, on_shelf: Option<&Bottle>) -> Self {
        let material = form.read(&fields::MATERIAL);
        let nominal = form.read(&fields::NOMINAL);
        let left = form.read(&fields::LEFT);
        let brimful = form.read(&fields::BRIMFUL);
        let typed_thickness = form.read(&fields::THICKNESS);
        let wall_area = form.read(&fields::WALL_AREA).map(Area::from_square_centimetres);
        let noted = on_shelf.map(|bottle| bottle.is.container.clone()).unwrap_or_default();
        let (brimful, nominal) = match (noted.brimful, noted.nominal) {
            (None, None) => (brimful, nominal),
            (None, sold_as) => (brimful, sold_as),
            known => known,
        };
        let noted_left = on_shelf.and_then(Bottle::left);
        let known = [
            ("left", noted_left.is_some()),
            ("brimful", noted.brimful.is_some()),
            ("nominal", noted.brimful.or(noted.nominal).is_some()),
            ("material", noted.material.is_some()),
            ("wall_area", noted.wall_area.is_some()),
        ];
        form.pass_over_known(&known);
        Self {
            left: noted_left.or(left),
            too_small: match noted_left {
                None => "left",
                Some(_) if noted.brimful.is_some() => "bottle",
                Some(_) => "brimful",
            },
            brimful,
            nominal,
            material: noted.material.or(material),
            wall_area: noted.wall_area.or(wall_area),
            thickness: noted.thickness.or(typed_thickness),
            typed_thickness,
        }
    }

    /// What it holds to the brim: measured, or by what it is sold as.
    pub fn to_the_brim(&self) -> Option<Parameter> {
        let measured = self.brimful.map(|brimful| given(brimful.millilitres()));
        let sold_as = |nominal| Parameter::given_or(None, Container::brimful_of(nominal));
        measured.or(self.nominal.map(sold_as))
    }

    /// What is left in it and what it holds to the brim, at least that. `None` where that is not known; where it does not fit, that
    /// is a fault.
    pub fn fits(&self, form: &mut Form) -> Option<(Volume, Parameter)> {
        if form.at_fault("brimful") || (self.brimful.is_none() && form.at_fault("nominal")) {
            return None;
        }
        let Some(brimful) = self.to_the_brim() else {
            form.fault("nominal", "say what it is sold as, or what it holds to the brim");
            return None;
        };
        let left = self.left?;
        if left.millilitres() > brimful.most + 1e-6 {
            let most = form.units().volume(Volume::from_millilitres(brimful.most));
            let left = form.units().volume(left);
            form.fault(
                self.too_small,
                &format!("{left} is left in it, but the bottle holds {most} at the most; is it a larger one?"),
            );
            return None;
        }
        Some((left, brimful.map(|value| value.max(left.millilitres()))))
    }

    /// The container, holding so many millilitres to the brim; `None` where nobody knows what it is made of.
    pub fn container(&self, brimful: f64) -> Option<Container> {
        Some(Container {
            name: String::new(),
            brimful: Volume::from_millilitres(brimful),
            nominal: None,
            material: self.material?,
            wall_area: self.wall_area,
            thickness: self.thickness,
            colour: Colour::Clear,
        })
    }
}
