//! Substances of the darkroom by their atoms: molar masses, hydrates, and what each brings of agent and sulfite.

use super::hazard::Hazard::{self, *};
use crate::quantity::{Amount, Mass};

/// An element that occurs in them.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Element {
    /// Hydrogen.
    H,
    /// Boron.
    B,
    /// Carbon.
    C,
    /// Nitrogen.
    N,
    /// Oxygen.
    O,
    /// Sodium.
    Na,
    /// Sulfur.
    S,
    /// Potassium.
    K,
    /// Bromine.
    Br,
    /// Silver.
    Ag,
    /// Iodine.
    I,
}

use Element::{Ag, B, Br, C, H, I, K, N, Na, O, S};

impl Element {
    /// Standard atomic weight, g/mol (IUPAC, *Atomic weights of the elements 2007*, Pure Appl. Chem. 81, 2131; from
    /// memory, and C, H, O, K as read in QUAM:2012 example A2).
    pub const fn weight(self) -> f64 {
        match self {
            H => 1.007_94,
            B => 10.811,
            C => 12.0107,
            N => 14.0067,
            O => 15.9994,
            Na => 22.989_769_28,
            S => 32.065,
            K => 39.0983,
            Br => 79.904,
            Ag => 107.8682,
            I => 126.904_47,
        }
    }
}

/// A substance as it is weighed out, water of crystallisation included.
///
/// ```
/// use meniscus::chemistry::Substance;
/// use meniscus::quantity::Mass;
///
/// let dry = Mass::from_grams(100.0);
/// let crystals = Substance::SULFITE.as_much_as(dry, Substance::SULFITE_HEPTAHYDRATE).expect("the same salt");
/// assert!((crystals.grams() - 200.05).abs() < 0.005);
/// assert_eq!(Substance::SULFITE.as_much_as(dry, Substance::BORAX), None);
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Substance {
    /// What it is called.
    pub name: &'static str,
    /// Atoms of one formula unit, without water of crystallisation.
    atoms: &'static [(Element, u32)],
    /// Molecules of water that crystallise with it.
    water: u32,
    /// Molecules of developing agent in one formula unit.
    agents: u32,
    /// Sulfite ions that one formula unit gives in an alkaline bath.
    sulfites: u32,
    /// What it is for in a bath.
    pub role: Role,
    /// What its label warns of.
    pub hazards: &'static [Hazard],
    /// Grams of it in 100 ml of water that surely dissolve in a cold room (from memory, on the safe side).
    pub dissolves: f64,
}

/// What a substance is for in a bath, in the order in which they are dissolved (common practice, no source).
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Role {
    /// It makes silver bromide soluble, and cools the water as it dissolves.
    Fixing,
    /// The agent that dissolves badly once sulfite is there.
    Metol,
    /// It keeps the air from the agents.
    Sulfite,
    /// The same, and sour.
    Bisulfite,
    /// It develops.
    Agent,
    /// It makes the bath alkaline.
    Alkali,
    /// Alkaline enough to burn, and hot as it dissolves.
    Caustic,
    /// It holds the alkali where it is.
    Buffer,
    /// It holds fog back.
    Restrainer,
    /// An acid of a stop bath.
    Acid,
    /// Anything else.
    Other,
}

type Atoms = &'static [(Element, u32)];

const fn plain(name: &'static str, atoms: Atoms) -> Substance {
    hydrate(name, atoms, 0)
}

const fn hydrate(name: &'static str, atoms: Atoms, water: u32) -> Substance {
    Substance {
        name,
        atoms,
        water,
        agents: 0,
        sulfites: 0,
        role: Role::Other,
        hazards: &[],
        dissolves: 10.0,
    }
}

const fn agent(name: &'static str, atoms: Atoms, agents: u32) -> Substance {
    Substance {
        agents,
        dissolves: 2.0,
        ..plain(name, atoms).role(Role::Agent)
    }
}

const fn sulfite(name: &'static str, atoms: Atoms, water: u32, sulfites: u32) -> Substance {
    Substance {
        sulfites,
        ..hydrate(name, atoms, water).role(Role::Sulfite).warns(&[AcidFreesGas])
    }
}

impl Substance {
    const fn role(self, role: Role) -> Self {
        Self { role, ..self }
    }

    const fn warns(self, hazards: &'static [Hazard]) -> Self {
        Self { hazards, ..self }
    }

    const fn dissolves(self, dissolves: f64) -> Self {
        Self { dissolves, ..self }
    }
}

/// Of hydroquinone (CLP 604-005-00-4, Annex VI, from memory; H318 as read in NITE 2007).
const OF_HYDROQUINONE: &[Hazard] = &[
    HarmfulIfSwallowed,
    SkinAllergy,
    EyeDamage,
    PerhapsGenetic,
    PerhapsCancer,
    ToxicToWaters,
];
/// Of metol (CLP Annex VI, from memory).
const OF_METOL: &[Hazard] = &[HarmfulIfSwallowed, SkinAllergy, HarmsOrgans, ToxicToWatersForLong];
/// Of borax and boric acid (CLH report 2018, Swedish Chemicals Agency; the code from memory).
const OF_BORATES: &[Hazard] = &[HarmsTheUnborn];
/// Of sodium carbonate and potassium bromide (from memory).
const OF_IRRITANTS: &[Hazard] = &[EyeIrritation];
/// Of acetic acid, concentrated (CLP Annex VI, from memory).
const OF_ACETIC_ACID: &[Hazard] = &[Flammable, Burns];
/// Of sodium hydroxide (CLP Annex VI, from memory).
const OF_HYDROXIDE: &[Hazard] = &[Burns];
/// Of sodium sulfide (CLP Annex VI, from memory).
const OF_SULFIDE: &[Hazard] = &[Poisonous, Burns, ToxicToWaters, AcidFreesGas];

const SODIUM_SULFITE: Atoms = &[(Na, 2), (S, 1), (O, 3)];
const SODIUM_THIOSULFATE: Atoms = &[(Na, 2), (S, 2), (O, 3)];
const SODIUM_CARBONATE: Atoms = &[(Na, 2), (C, 1), (O, 3)];
const TETRABORATE: Atoms = &[(Na, 2), (B, 4), (O, 7)];
const CITRIC: Atoms = &[(C, 6), (H, 8), (O, 7)];

impl Substance {
    /// Metol, (C7H9NO)2 · H2SO4: two molecules of agent in each.
    pub const METOL: Self = agent("metol", &[(C, 14), (H, 20), (N, 2), (O, 6), (S, 1)], 2)
        .role(Role::Metol)
        .warns(OF_METOL);
    /// Hydroquinone.
    pub const HYDROQUINONE: Self = agent("hydroquinone", &[(C, 6), (H, 6), (O, 2)], 1).warns(OF_HYDROQUINONE);
    /// Ascorbic acid.
    pub const ASCORBIC_ACID: Self = agent("ascorbic acid", &[(C, 6), (H, 8), (O, 6)], 1);
    /// Sodium ascorbate.
    pub const SODIUM_ASCORBATE: Self = agent("sodium ascorbate", &[(C, 6), (H, 7), (O, 6), (Na, 1)], 1);
    /// 1-phenyl-3-pyrazolidinone.
    pub const PHENIDONE: Self = agent("phenidone", &[(C, 9), (H, 10), (N, 2), (O, 1)], 1).dissolves(0.2);
    /// 4-hydroxymethyl-4-methyl-1-phenyl-3-pyrazolidinone.
    pub const HYDROXYMETHYL_METHYL_PHENIDONE: Self = agent(
        "4-hydroxymethyl-4-methyl-phenidone",
        &[(C, 11), (H, 14), (N, 2), (O, 2)],
        1,
    )
    .dissolves(0.2);
    /// Sodium sulfite, anhydrous.
    pub const SULFITE: Self = sulfite("sodium sulfite, anhydrous", SODIUM_SULFITE, 0, 1);
    /// Sodium sulfite in crystals, with 7 water.
    pub const SULFITE_HEPTAHYDRATE: Self = sulfite("sodium sulfite, crystals (7 water)", SODIUM_SULFITE, 7, 1);
    /// Sodium bisulfite (hydrogen sulfite).
    pub const BISULFITE: Self =
        sulfite("sodium bisulfite", &[(Na, 1), (H, 1), (S, 1), (O, 3)], 0, 1).role(Role::Bisulfite);
    /// Sodium metabisulfite, which gives two sulfites.
    pub const METABISULFITE: Self =
        sulfite("sodium metabisulfite", &[(Na, 2), (S, 2), (O, 5)], 0, 2).role(Role::Bisulfite);
    /// Sodium thiosulfate, anhydrous.
    pub const THIOSULFATE: Self = plain("sodium thiosulfate, anhydrous", SODIUM_THIOSULFATE).role(Role::Fixing);
    /// Hypo: sodium thiosulfate with 5 water.
    pub const HYPO: Self = hydrate("sodium thiosulfate, crystals (5 water)", SODIUM_THIOSULFATE, 5).role(Role::Fixing);
    /// Ammonium thiosulfate.
    pub const AMMONIUM_THIOSULFATE: Self =
        plain("ammonium thiosulfate", &[(N, 2), (H, 8), (S, 2), (O, 3)]).role(Role::Fixing);
    /// Sodium carbonate, anhydrous.
    pub const CARBONATE: Self = plain("sodium carbonate, anhydrous", SODIUM_CARBONATE)
        .role(Role::Alkali)
        .warns(OF_IRRITANTS);
    /// Sodium carbonate with 1 water.
    pub const CARBONATE_MONOHYDRATE: Self = hydrate("sodium carbonate, monohydrate", SODIUM_CARBONATE, 1)
        .role(Role::Alkali)
        .warns(OF_IRRITANTS);
    /// Washing soda: sodium carbonate with 10 water.
    pub const CARBONATE_DECAHYDRATE: Self = hydrate("sodium carbonate, crystals (10 water)", SODIUM_CARBONATE, 10)
        .role(Role::Alkali)
        .warns(OF_IRRITANTS);
    /// Potassium carbonate, anhydrous.
    pub const POTASSIUM_CARBONATE: Self =
        plain("potassium carbonate, anhydrous", &[(K, 2), (C, 1), (O, 3)]).role(Role::Alkali);
    /// Borax with 10 water.
    pub const BORAX: Self = hydrate("borax (10 water)", TETRABORATE, 10)
        .role(Role::Alkali)
        .warns(OF_BORATES)
        .dissolves(2.0);
    /// Borax with 5 water.
    pub const BORAX_PENTAHYDRATE: Self = hydrate("borax, pentahydrate", TETRABORATE, 5)
        .role(Role::Alkali)
        .warns(OF_BORATES)
        .dissolves(2.0);
    /// Boric acid.
    pub const BORIC_ACID: Self = plain("boric acid", &[(H, 3), (B, 1), (O, 3)])
        .role(Role::Buffer)
        .warns(OF_BORATES)
        .dissolves(2.0);
    /// Sodium hydroxide.
    pub const SODIUM_HYDROXIDE: Self = plain("sodium hydroxide", &[(Na, 1), (O, 1), (H, 1)])
        .role(Role::Caustic)
        .warns(OF_HYDROXIDE);
    /// Potassium bromide.
    pub const BROMIDE: Self = plain("potassium bromide", &[(K, 1), (Br, 1)])
        .role(Role::Restrainer)
        .warns(OF_IRRITANTS);
    /// Potassium iodide.
    pub const IODIDE: Self = plain("potassium iodide", &[(K, 1), (I, 1)]).role(Role::Restrainer);
    /// Sodium sulfide.
    pub const SULFIDE: Self = plain("sodium sulfide", &[(Na, 2), (S, 1)]).warns(OF_SULFIDE);
    /// Acetic acid.
    pub const ACETIC_ACID: Self = plain("acetic acid", &[(C, 2), (H, 4), (O, 2)])
        .role(Role::Acid)
        .warns(OF_ACETIC_ACID);
    /// Citric acid, anhydrous.
    pub const CITRIC_ACID: Self = plain("citric acid, anhydrous", CITRIC).role(Role::Acid);
    /// Citric acid with 1 water.
    pub const CITRIC_ACID_MONOHYDRATE: Self = hydrate("citric acid, monohydrate", CITRIC, 1).role(Role::Acid);
    /// Oxygen as it is in air, O2.
    pub const OXYGEN: Self = plain("oxygen", &[(O, 2)]);
    /// Sulfur dioxide.
    pub const SULFUR_DIOXIDE: Self = plain("sulfur dioxide", &[(S, 1), (O, 2)]);
    /// Silver.
    pub const SILVER: Self = plain("silver", &[(Ag, 1)]);
    /// Silver bromide.
    pub const SILVER_BROMIDE: Self = plain("silver bromide", &[(Ag, 1), (Br, 1)]);

    /// Every substance.
    pub const ALL: [Self; 31] = [
        Self::METOL,
        Self::HYDROQUINONE,
        Self::ASCORBIC_ACID,
        Self::SODIUM_ASCORBATE,
        Self::PHENIDONE,
        Self::HYDROXYMETHYL_METHYL_PHENIDONE,
        Self::SULFITE,
        Self::SULFITE_HEPTAHYDRATE,
        Self::BISULFITE,
        Self::METABISULFITE,
        Self::THIOSULFATE,
        Self::HYPO,
        Self::AMMONIUM_THIOSULFATE,
        Self::CARBONATE,
        Self::CARBONATE_MONOHYDRATE,
        Self::CARBONATE_DECAHYDRATE,
        Self::POTASSIUM_CARBONATE,
        Self::BORAX,
        Self::BORAX_PENTAHYDRATE,
        Self::BORIC_ACID,
        Self::SODIUM_HYDROXIDE,
        Self::BROMIDE,
        Self::IODIDE,
        Self::SULFIDE,
        Self::ACETIC_ACID,
        Self::CITRIC_ACID,
        Self::CITRIC_ACID_MONOHYDRATE,
        Self::OXYGEN,
        Self::SULFUR_DIOXIDE,
        Self::SILVER,
        Self::SILVER_BROMIDE,
    ];

    /// Molar mass in g/mol, which is also mg/mmol.
    pub fn molar_mass(&self) -> f64 {
        let salt: f64 = self
            .atoms
            .iter()
            .map(|&(element, count)| element.weight() * f64::from(count))
            .sum();
        salt + f64::from(self.water) * (2.0 * H.weight() + O.weight())
    }

    /// Molecules of water that crystallise with one formula unit.
    pub fn water(&self) -> u32 {
        self.water
    }

    /// Whether both are hydrates of one salt.
    pub fn is_salt_of(&self, other: &Self) -> bool {
        self.atoms == other.atoms
    }

    /// How much of it a mass is.
    pub fn amount(&self, mass: Mass) -> Amount {
        Amount::from_millimoles(mass.grams() * 1000.0 / self.molar_mass())
    }

    /// What an amount of it weighs.
    pub fn mass(&self, amount: Amount) -> Mass {
        Mass::from_grams(amount.millimoles() * self.molar_mass() / 1000.0)
    }

    /// The mass of `other` that holds as much of the salt as this mass of `self`; `None` unless they are hydrates of
    /// one salt.
    pub fn as_much_as(&self, mass: Mass, other: Self) -> Option<Mass> {
        self.is_salt_of(&other)
            .then(|| mass * (other.molar_mass() / self.molar_mass()))
    }

    /// Developing agent in a mass of it.
    pub fn agent(&self, mass: Mass) -> Amount {
        self.amount(mass) * f64::from(self.agents)
    }

    /// Sulfite in a mass of it.
    pub fn sulfite(&self, mass: Mass) -> Amount {
        self.amount(mass) * f64::from(self.sulfites)
    }
}
