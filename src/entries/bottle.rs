//! The form of a bottle: what its label and data sheet say, its vessel, and how it came to the shelf.

use super::{Entry, named};
use crate::chemistry::Class;
use crate::fields::{
    AnyField, BRIMFUL, CLASS, COLOURS, CURRENCY, Choice, Counts, DENSITY, Days, DilutionLists, EXPONENT, Field, Form,
    LEAST_PER_FILM, LIFE_FULL, LIFE_HALF, LIFE_UNOPENED, Named, Names, Numbers, TIMES, Volumes,
};
use crate::keeping::SheetLives;
use crate::kit::{Bottle, Colour, Material};
use crate::ledger::{ContainerNote, Description, Opened, Price, Thousandths};
use crate::quantity::{Day, Dilution, Units, Volume, bounds, exact};

/// A bottle as it comes to the shelf.
#[derive(Clone, Debug, PartialEq)]
pub struct Newcomer {
    /// What it is.
    pub is: Description,
    /// How much is in it; `None` where nobody knows.
    pub filled: Option<Volume>,
    /// Whether and when it was opened before it came.
    pub opened: Opened,
    /// Where it stands; empty where nobody says.
    pub place: String,
}

impl Newcomer {
    /// The day on which it was opened, where that is known.
    pub fn is_opened_on(&self) -> Option<Day> {
        match self.opened {
            Opened::On(day) => Some(day),
            Opened::Never | Opened::SomeDay | Opened::NotKnown => None,
        }
    }
}

/// Whether it was opened, as the form asks.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum WasOpened {
    NotYet,
    OnADay,
    SomeDay,
    NotKnown,
}

const PRODUCT: Field<Names> = Field::new("product", "Product, as you call it", Names).needed();
const USUAL_CLASS: Field<Choice<Class>> = Field::new("class", "Kind of bath", Choice(&Class::ALL)).initial("syrup");
const NOMINAL: Field<Volumes> = Field::volume("nominal", "Sold as", &bounds::SIZE);
const MATERIAL: Field<Choice<Material>> = Field::new("material", "The bottle is of", Choice(&Material::ALL));
const FILLED: Field<Volumes> = Field::volume("filled", "How much is in it", &bounds::IN_BOTTLE);
const OPENED: Field<Choice<WasOpened>> = Field::new(
    "opened",
    "Was it opened?",
    Choice(&[
        ("no", "not yet", WasOpened::NotYet),
        ("day", "yes, on the day below", WasOpened::OnADay),
        ("some", "yes, nobody knows when", WasOpened::SomeDay),
        ("unknown", "nobody knows", WasOpened::NotKnown),
    ]),
)
.initial("no");
const OPENED_ON: Field<Days> = Field::new("opened_on", "Opened on", Days);
const PLACE: Field<Names> = Field::new("place", "Where it stands", Names);
const COLOUR: Field<Choice<Colour>> = Field::new("colour", "The glass or wall is", Choice(&COLOURS));
const DILUTIONS: Field<DilutionLists> = Field::new("dilution", "Dilutions", DilutionLists);
const FILMS_PER_LITRE: Field<Counts> = Field::count("films_per_litre", "Films a litre takes", &bounds::FILMS_PER_LITRE);
const PRICE: Field<Numbers> = Field::number("price", "Price", &bounds::PRICE);

impl Entry for Newcomer {
    const FORM: &'static str = "bottle";
    const FIELDS: &'static [&'static dyn AnyField] = &[
        &PRODUCT,
        &USUAL_CLASS,
        &NOMINAL,
        &MATERIAL,
        &FILLED,
        &OPENED,
        &OPENED_ON,
        &PLACE,
        &DILUTIONS,
        &LEAST_PER_FILM,
        &TIMES,
        &LIFE_UNOPENED,
        &LIFE_FULL,
        &LIFE_HALF,
        &FILMS_PER_LITRE,
        &BRIMFUL,
        &COLOUR,
        &DENSITY,
        &EXPONENT,
        &PRICE,
        &CURRENCY,
    ];

    fn read(form: &mut Form) -> Option<Self> {
        let label = label(form);
        let nominal = form.read(&NOMINAL);
        let container = ContainerNote {
            nominal,
            material: form.read(&MATERIAL),
            brimful: form.read(&BRIMFUL),
            colour: form.read(&COLOUR),
            ..ContainerNote::default()
        };
        let opened = opened(form);
        let filled = form.read(&FILLED);
        let holds = container.brimful.or(nominal.map(|nominal| nominal * MOST_OVER_NOMINAL));
        if filled.zip(holds).is_some_and(|(filled, holds)| filled > holds) {
            form.fault("filled", "that is more than the bottle holds");
        }
        if nominal
            .zip(container.brimful)
            .is_some_and(|(nominal, brimful)| nominal > brimful)
        {
            form.fault("brimful", "a bottle holds at least what it is sold as");
        }
        // A bottle that was never opened is as full as it was sold.
        let filled = filled.or(nominal.filter(|_| opened == Some(Opened::Never) && !form.at_fault("filled")));
        let lives = SheetLives {
            unopened: form.read(&LIFE_UNOPENED),
            full: form.read(&LIFE_FULL),
            half_full: form.read(&LIFE_HALF),
        };
        let films_per_litre = form.read(&FILMS_PER_LITRE);
        let price = price(form);
        let place = form.read(&PLACE).unwrap_or_default();
        Some(Self {
            is: Description {
                label: label?,
                container,
                price,
                lives,
                films_per_litre: films_per_litre.map(|films| Thousandths::nearest(f64::from(films))),
            },
            filled,
            opened: opened?,
            place,
        })
    }

    fn write(&self, units: Units) -> Named {
        let is = &self.is;
        let (opened, opened_on) = match self.opened {
            Opened::Never => (WasOpened::NotYet, String::new()),
            Opened::On(day) => (WasOpened::OnADay, day.to_string()),
            Opened::SomeDay => (WasOpened::SomeDay, String::new()),
            Opened::NotKnown => (WasOpened::NotKnown, String::new()),
        };
        let days = |days: Option<f64>| days.map(|n| format!("{} days", units.number(n, 3))).unwrap_or_default();
        let price = is.price.as_ref();
        let films = is.films_per_litre.map(Thousandths::number);
        let mut all = write_label(&is.label, units);
        all.extend(named([
            ("product", is.label.product.clone()),
            ("class", CLASS.word(is.label.class)),
            ("dilution", Dilution::show_list(&is.label.dilutions)),
            ("nominal", volume(is.container.nominal, units)),
            (
                "material",
                is.container.material.map(|one| MATERIAL.word(one)).unwrap_or_default(),
            ),
            ("filled", volume(self.filled, units)),
            ("opened", OPENED.word(opened)),
            ("opened_on", opened_on),
            ("place", self.place.clone()),
            ("life_unopened", days(is.lives.unopened)),
            ("life_full", days(is.lives.full)),
            ("life_half", days(is.lives.half_full)),
            ("films_per_litre", number(films, 0, units)),
            ("brimful", volume(is.container.brimful, units)),
            (
                "colour",
                is.container.colour.map(|one| COLOUR.word(one)).unwrap_or_default(),
            ),
            (
                "price",
                number(price.map(|price| f64::from(price.cents) / 100.0), 2, units),
            ),
            (
                "currency",
                price.map(|price| price.currency.clone()).unwrap_or_default(),
            ),
        ]));
        all
    }

    fn summary(&self, units: Units, _: Day) -> String {
        let label = &self.is.label;
        let mut parts = vec![label.class.name().to_owned()];
        parts.extend(label.dilutions.iter().map(ToString::to_string));
        parts.extend(
            label
                .least_per_film
                .map(|least| format!("{} a film at least", units.volume(least))),
        );
        parts.extend(label.times.first().map(|time| time.text(units)));
        parts.join("; ")
    }
}

/// The fields of a calculator that a label fills.
pub const LABEL_FIELDS: [&str; 4] = ["least_per_film", "times", "density", "exponent"];

/// What a label says that calculators ask for too, in these units.
pub fn write_label(label: &Bottle, units: Units) -> Named {
    let times: Vec<_> = label.times.iter().map(|time| time.text(units)).collect();
    let density = label.density.map(|density| density.grams_per_millilitre());
    let density = density.map(|density| format!("{} g/ml", units.number(density, 6)));
    named([
        ("least_per_film", volume(label.least_per_film, units)),
        ("times", times.join("\n")),
        ("density", density.unwrap_or_default()),
        ("exponent", number(label.exponent, 3, units)),
    ])
}

fn volume(volume: Option<Volume>, units: Units) -> String {
    volume.map(|volume| exact::volume(volume, units)).unwrap_or_default()
}

fn number(value: Option<f64>, places: usize, units: Units) -> String {
    value.map(|value| units.number(value, places)).unwrap_or_default()
}

/// A bottle may hold a little more than it is sold as (common practice, no source).
const MOST_OVER_NOMINAL: f64 = 1.25;

fn label(form: &mut Form) -> Option<Bottle> {
    let product = form.read(&PRODUCT);
    let class = form.read(&USUAL_CLASS);
    let dilutions = form.read(&DILUTIONS).unwrap_or_default();
    let least_per_film = form.read(&LEAST_PER_FILM);
    let times = form.read(&TIMES).unwrap_or_default();
    let density = form.read(&DENSITY);
    let exponent = form.read(&EXPONENT);
    Some(Bottle {
        product: product?,
        class: class?,
        density,
        dilutions,
        least_per_film,
        times,
        exponent,
    })
}

fn opened(form: &mut Form) -> Option<Opened> {
    let (opened, day) = (form.read(&OPENED), form.read(&OPENED_ON));
    match (opened?, day) {
        (WasOpened::NotYet, None) => Some(Opened::Never),
        (WasOpened::NotYet, Some(_)) => {
            form.fault(
                "opened",
                "a day stands below; choose “yes, on the day below”, or clear the day",
            );
            None
        }
        (WasOpened::OnADay, Some(day)) => Some(Opened::On(day)),
        (WasOpened::OnADay, None) => {
            if !form.at_fault("opened_on") {
                form.fault("opened_on", "say on which day, or choose that nobody knows when");
            }
            None
        }
        (WasOpened::SomeDay, _) => Some(Opened::SomeDay),
        (WasOpened::NotKnown, _) => Some(Opened::NotKnown),
    }
}

fn price(form: &mut Form) -> Option<Price> {
    let (amount, currency) = (form.read(&PRICE), form.read(&CURRENCY));
    if amount.is_none() && currency.is_some() && !form.at_fault("price") {
        form.fault("price", "a currency stands here, and no price");
    }
    Some(Price {
        cents: (amount? * 100.0).round() as u32,
        currency: currency.unwrap_or_default(),
    })
}
