//! The form of a bottle: what its label and data sheet say.

use super::{Entry, named};
use crate::chemistry::Class;
use crate::fields::{
    AnyField, CLASS, Choice, DENSITY, DilutionLists, EXPONENT, Field, Form, LEAST_PER_FILM, Named, Names, TIMES,
};
use crate::kit::Bottle;
use crate::quantity::{Dilution, Units, exact};

const PRODUCT: Field<Names> = Field::new("product", "Product, as you call it", Names).needed();
const USUAL_CLASS: Field<Choice<Class>> = Field::new("class", "Kind of bath", Choice(&Class::ALL)).initial("syrup");
const DILUTIONS: Field<DilutionLists> = Field::new("dilution", "Dilutions", DilutionLists);

impl Entry for Bottle {
    const FORM: &'static str = "bottle";
    const FIELDS: &'static [&'static dyn AnyField] = &[
        &PRODUCT,
        &USUAL_CLASS,
        &DILUTIONS,
        &LEAST_PER_FILM,
        &TIMES,
        &DENSITY,
        &EXPONENT,
    ];

    fn read(form: &mut Form) -> Option<Self> {
        let product = form.read(&PRODUCT);
        let class = form.read(&USUAL_CLASS);
        let dilutions = form.read(&DILUTIONS).unwrap_or_default();
        let least_per_film = form.read(&LEAST_PER_FILM);
        let times = form.read(&TIMES).unwrap_or_default();
        let density = form.read(&DENSITY);
        let exponent = form.read(&EXPONENT);
        Some(Self {
            product: product?,
            class: class?,
            density,
            dilutions,
            least_per_film,
            times,
            exponent,
        })
    }

    fn write(&self, units: Units) -> Named {
        let times: Vec<_> = self.times.iter().map(|time| time.text(units)).collect();
        named([
            ("product", self.product.clone()),
            ("class", CLASS.word(self.class)),
            ("dilution", Dilution::show_list(&self.dilutions)),
            (
                "least_per_film",
                self.least_per_film.map(|v| exact::volume(v, units)).unwrap_or_default(),
            ),
            ("times", times.join("\n")),
            (
                "density",
                self.density
                    .map(|density| format!("{} g/ml", units.number(density.grams_per_millilitre(), 6)))
                    .unwrap_or_default(),
            ),
            (
                "exponent",
                self.exponent.map(|n| units.number(n, 3)).unwrap_or_default(),
            ),
        ])
    }

    fn summary(&self, units: Units) -> String {
        let mut parts = vec![self.class.name().to_owned()];
        parts.extend(self.dilutions.iter().map(ToString::to_string));
        parts.extend(
            self.least_per_film
                .map(|least| format!("{} a film at least", units.volume(least))),
        );
        parts.extend(self.times.first().map(|time| time.text(units)));
        parts.join("; ")
    }
}
