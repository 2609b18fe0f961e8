//! A recipe: what is weighed for a bath, in the order of dissolving, in the forms that are at hand.

use super::{Class, Formula, Role, Substance};
use crate::quantity::sorted::sort;
use crate::quantity::text::split_at_word;
use crate::quantity::{Mass, MassDensity, Temperature, Volume};

/// What is weighed out for a bath, in the order of dissolving.
///
/// ```
/// use meniscus::chemistry::{Formula, Recipe, Substance};
/// use meniscus::quantity::Volume;
///
/// let formula = Formula::find("mq-borax").expect("it is published");
/// let recipe = Recipe::published(formula).in_forms(&[Substance::BORAX_PENTAHYDRATE]);
/// let borax = recipe.lines().last().expect("four lines");
/// assert_eq!(borax.name(), "borax, pentahydrate");
/// assert!((borax.mass(Volume::from_millilitres(1000.0)).grams() - 1.5276).abs() < 0.0005);
/// ```
#[derive(Clone, Debug, PartialEq)]
pub struct Recipe(Vec<Line>);

/// One substance of a recipe.
#[derive(Clone, Debug, PartialEq)]
pub struct Line {
    /// Which.
    pub what: What,
    /// How much of it is in the bath.
    pub content: MassDensity,
    /// The form that the recipe names, where another one is at hand, and how much of that would be in the bath.
    pub instead_of: Option<(Substance, MassDensity)>,
    /// Whether its form was not said, and the usual one is taken.
    pub usual_form: bool,
}

/// A substance, known here or not.
#[derive(Clone, Debug, PartialEq)]
pub enum What {
    /// One whose molar mass, use and dangers are known.
    Known(Substance),
    /// One of which nothing is known but the name that was typed.
    Unknown(String),
}

/// Share of the water in which all is dissolved; the rest makes it up to volume (common practice, no source).
pub const FIRST_WATER: f64 = 0.75;

/// How warm the water is in which developers and fixers are dissolved (common practice, no source: the literature's 50 °C or 125 °F).
const WARM: Temperature = Temperature::from_celsius(50.0);
/// The same for what dissolves in any water.
const COOL: Temperature = Temperature::from_celsius(20.0);

impl Recipe {
    /// A published formula.
    pub fn published(formula: &Formula) -> Self {
        let lines = formula.grams_per_litre.iter();
        Self::new(lines.map(|&(substance, grams)| Line::known(substance, grams)).collect())
    }

    /// Lines as they were typed, put into the order of dissolving. What is not known here stays behind what it was typed after.
    pub fn new(lines: Vec<Line>) -> Self {
        let mut before = Role::Fixing;
        let mut placed: Vec<(Role, Line)> = Vec::with_capacity(lines.len());
        for line in lines {
            before = line.role().unwrap_or(before);
            placed.push((before, line));
        }
        sort(&mut placed, |(one, _), (other, _)| one < other);
        Self(placed.into_iter().map(|(_, line)| line).collect())
    }

    /// The same with what is at hand in another form than the recipe names.
    pub fn in_forms(mut self, at_hand: &[Substance]) -> Self {
        for line in &mut self.0 {
            let What::Known(named) = line.what else { continue };
            let other = at_hand.iter().find(|form| form.is_salt_of(&named) && **form != named);
            let Some(&form) = other else { continue };
            line.instead_of = Some((named, line.content));
            line.content = line.content * (form.molar_mass() / named.molar_mass());
            line.what = What::Known(form);
        }
        self
    }

    /// Its substances, in the order of dissolving.
    pub fn lines(&self) -> &[Line] {
        &self.0
    }

    /// What it makes, by what is in it.
    pub fn class(&self) -> Class {
        match () {
            () if self.has(Role::Metol) || self.has(Role::Agent) => Class::PowderStock,
            () if self.has(Role::Fixing) => Class::Fixer,
            () if self.has(Role::Acid) => Class::StopBath,
            () => Class::Other,
        }
    }

    /// Whether anything in it has that use.
    pub fn has(&self, role: Role) -> bool {
        self.0.iter().any(|line| line.role() == Some(role))
    }

    /// Whether a pinch of the sulfite goes before the metol.
    pub fn wants_a_pinch(&self) -> bool {
        self.has(Role::Metol) && self.has(Role::Sulfite)
    }

    /// Whether it holds what gives off sulfur dioxide with acid.
    pub fn has_sulfur(&self) -> bool {
        [Role::Sulfite, Role::Bisulfite, Role::Fixing]
            .into_iter()
            .any(|role| self.has(role))
    }

    /// Whether it holds an acid; of what is not known here the name must tell. Boric and ascorbic acid are too weak to count.
    pub fn has_acid(&self) -> bool {
        let by_name = |line: &Line| matches!(&line.what, What::Unknown(name) if split_at_word(&name.to_ascii_lowercase(), "acid").is_some());
        self.has(Role::Acid) || self.0.iter().any(by_name)
    }

    /// How warm the first water is.
    pub fn water(&self) -> Temperature {
        match self.class() {
            Class::StopBath | Class::Other => COOL,
            _ => WARM,
        }
    }
}

impl Line {
    /// A known substance, in grams to the litre.
    pub fn known(substance: Substance, grams_per_litre: f64) -> Self {
        Self::new(What::Known(substance), Mass::from_grams(grams_per_litre))
    }

    /// So much of it to the litre.
    pub fn new(what: What, per_litre: Mass) -> Self {
        Self {
            what,
            content: MassDensity::from_grams_per_millilitre(per_litre.grams() / 1000.0),
            instead_of: None,
            usual_form: false,
        }
    }

    /// Its name.
    pub fn name(&self) -> &str {
        match &self.what {
            What::Known(substance) => substance.name,
            What::Unknown(name) => name,
        }
    }

    /// What it is for, where that is known.
    pub fn role(&self) -> Option<Role> {
        self.substance().map(|substance| substance.role)
    }

    /// It as a known substance.
    pub fn substance(&self) -> Option<&Substance> {
        match &self.what {
            What::Known(substance) => Some(substance),
            What::Unknown(_) => None,
        }
    }

    /// What to weigh of it for a bath.
    pub fn mass(&self, bath: Volume) -> Mass {
        self.content * bath
    }
}
