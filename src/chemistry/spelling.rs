//! The names by which people write substances: spellings, everyday names, and the words for how much water crystallises with them.

use std::fmt;

use super::Substance;
use crate::quantity::text::split_at_word;

/// A substance as somebody wrote it.
#[derive(Clone, Debug, PartialEq)]
pub enum Written {
    /// One that is known here.
    Known {
        /// Which.
        substance: Substance,
        /// Whether its form was not said, though there are several.
        usual_form: bool,
    },
    /// One that is not; its name as written.
    Unknown(String),
}

/// A form that a known substance is not sold in.
#[derive(Clone, Debug, PartialEq)]
pub struct NoSuchForm {
    written: String,
    forms: Vec<&'static str>,
}

impl fmt::Display for NoSuchForm {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let forms = self.forms.join(" or ");
        write!(f, "“{}” is not known in that form; write {forms}", self.written)
    }
}

impl std::error::Error for NoSuchForm {}

/// Names, and what they stand for where no form is said: the trade's usual one (common practice, no source). British `sulph` is
/// read as `sulf`.
const NAMES: [(&str, Substance); 37] = [
    ("metol", Substance::METOL),
    ("hydroquinone", Substance::HYDROQUINONE),
    ("quinol", Substance::HYDROQUINONE),
    ("ascorbic acid", Substance::ASCORBIC_ACID),
    ("vitamin c", Substance::ASCORBIC_ACID),
    ("sodium ascorbate", Substance::SODIUM_ASCORBATE),
    ("phenidone", Substance::PHENIDONE),
    (
        "4 hydroxymethyl 4 methyl phenidone",
        Substance::HYDROXYMETHYL_METHYL_PHENIDONE,
    ),
    ("sodium sulfite", Substance::SULFITE),
    ("sulfite", Substance::SULFITE),
    ("sodium bisulfite", Substance::BISULFITE),
    ("bisulfite", Substance::BISULFITE),
    ("sodium metabisulfite", Substance::METABISULFITE),
    ("metabisulfite", Substance::METABISULFITE),
    ("sodium thiosulfate", Substance::HYPO),
    ("thiosulfate", Substance::HYPO),
    ("hypo", Substance::HYPO),
    ("ammonium thiosulfate", Substance::AMMONIUM_THIOSULFATE),
    ("sodium carbonate", Substance::CARBONATE),
    ("carbonate", Substance::CARBONATE),
    ("soda ash", Substance::CARBONATE),
    ("washing soda", Substance::CARBONATE_DECAHYDRATE),
    ("potassium carbonate", Substance::POTASSIUM_CARBONATE),
    ("potash", Substance::POTASSIUM_CARBONATE),
    ("borax", Substance::BORAX),
    ("sodium tetraborate", Substance::BORAX),
    ("boric acid", Substance::BORIC_ACID),
    ("sodium hydroxide", Substance::SODIUM_HYDROXIDE),
    ("caustic soda", Substance::SODIUM_HYDROXIDE),
    ("potassium bromide", Substance::BROMIDE),
    ("bromide", Substance::BROMIDE),
    ("potassium iodide", Substance::IODIDE),
    ("iodide", Substance::IODIDE),
    ("sodium sulfide", Substance::SULFIDE),
    ("acetic acid", Substance::ACETIC_ACID),
    ("glacial acetic acid", Substance::ACETIC_ACID),
    ("citric acid", Substance::CITRIC_ACID),
];

/// How much water crystallises with it, as a word says it.
#[derive(Clone, Copy, PartialEq)]
enum Form {
    /// So many molecules.
    Water(u32),
    /// As crystals: with the most that there is.
    Crystals,
}

const FORMS: [(&str, Form); 20] = [
    ("anhydrous", Form::Water(0)),
    ("anhyd", Form::Water(0)),
    ("anh", Form::Water(0)),
    ("dry", Form::Water(0)),
    ("desiccated", Form::Water(0)),
    ("monohydrate", Form::Water(1)),
    ("monohydrated", Form::Water(1)),
    ("mono", Form::Water(1)),
    ("pentahydrate", Form::Water(5)),
    ("penta", Form::Water(5)),
    ("heptahydrate", Form::Water(7)),
    ("hepta", Form::Water(7)),
    ("decahydrate", Form::Water(10)),
    ("deca", Form::Water(10)),
    ("crystals", Form::Crystals),
    ("crystal", Form::Crystals),
    ("crystalline", Form::Crystals),
    ("cryst", Form::Crystals),
    ("crys", Form::Crystals),
    ("hydrated", Form::Crystals),
];

impl Substance {
    /// What somebody meant by a name.
    ///
    /// ```
    /// use meniscus::chemistry::{Substance, Written};
    ///
    /// let known = |substance, usual_form| Ok(Written::Known { substance, usual_form });
    /// assert_eq!(Substance::written("Sodium sulphite, anh."), known(Substance::SULFITE, false));
    /// assert_eq!(Substance::written("carbonate"), known(Substance::CARBONATE, true));
    /// assert_eq!(Substance::written("pyro"), Ok(Written::Unknown("pyro".to_owned())));
    /// let fault = Substance::written("borax mono").unwrap_err();
    /// assert_eq!(fault.to_string(), "“borax mono” is not known in that form; write borax (10 water) or borax, pentahydrate");
    /// ```
    ///
    /// # Errors
    /// A form that the substance is not known in.
    pub fn written(text: &str) -> Result<Written, NoSuchForm> {
        let text = text.trim();
        let lower = text.to_ascii_lowercase();
        let words: Vec<&str> = lower
            .split(|letter: char| !letter.is_alphanumeric())
            .filter(|word| !word.is_empty())
            .collect();
        // As it is called on a sheet.
        let exactly = Self::ALL.iter().find(|substance| substance.name == lower);
        if let Some(&substance) = exactly {
            return Ok(Written::Known {
                substance,
                usual_form: false,
            });
        }
        let (form, rest) = form_of(&words);
        let name = rest.join(" ");
        let name = match split_at_word(&name, "sulph") {
            Some((before, after)) => [before, "sulf", after].concat(),
            None => name,
        };
        let Some(&(_, usual)) = NAMES.iter().find(|(known, _)| *known == name) else {
            return Ok(Written::Unknown(text.to_owned()));
        };
        let forms: Vec<Self> = Self::ALL.into_iter().filter(|other| other.is_salt_of(&usual)).collect();
        let substance = match form {
            None => Some(usual),
            Some(Form::Water(water)) => forms.iter().find(|one| one.water() == water).copied(),
            Some(Form::Crystals) => {
                let most = forms.iter().max_by_key(|one| one.water());
                most.filter(|one| one.water() > 0).copied()
            }
        };
        match substance {
            Some(substance) => Ok(Written::Known {
                substance,
                usual_form: form.is_none() && forms.len() > 1,
            }),
            None => Err(NoSuchForm {
                written: words.join(" "),
                forms: forms.iter().map(|one| one.name).collect(),
            }),
        }
    }
}

/// The form that the words name, and the other words.
fn form_of<'a>(words: &[&'a str]) -> (Option<Form>, Vec<&'a str>) {
    // 7 water, 10 H2O
    let counted = words.windows(2).position(|pair| {
        matches!(pair[1], "water" | "hydrate" | "h2o") && pair[0].parse::<u32>().is_ok_and(|count| count <= 12)
    });
    if let Some(at) = counted {
        let water = words[at].parse().unwrap_or(0);
        return (Some(Form::Water(water)), [&words[..at], &words[at + 2..]].concat());
    }
    let found = words.iter().enumerate().find_map(|(at, word)| {
        FORMS
            .iter()
            .find(|(known, _)| known == word)
            .map(|(_, form)| (at, *form))
    });
    match found {
        Some((at, form)) => (Some(form), [&words[..at], &words[at + 1..]].concat()),
        None => (None, words.to_vec()),
    }
}
