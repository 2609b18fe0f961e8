//! What the labels of substances warn of, in plain words. Which of them a substance has stands with the substance; a data sheet is
//! newer, and stands above it.

/// A statement of a label, as the globally harmonised system (GHS) and its European form (CLP) number them.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Hazard {
    /// H226
    Flammable,
    /// H301
    Poisonous,
    /// H302
    HarmfulIfSwallowed,
    /// H314
    Burns,
    /// H317
    SkinAllergy,
    /// H318
    EyeDamage,
    /// H319
    EyeIrritation,
    /// H341
    PerhapsGenetic,
    /// H351
    PerhapsCancer,
    /// H360FD
    HarmsTheUnborn,
    /// H373
    HarmsOrgans,
    /// H400
    ToxicToWaters,
    /// H410
    ToxicToWatersForLong,
    /// EUH031
    AcidFreesGas,
}

impl Hazard {
    /// What it says, with its number.
    pub fn words(self) -> &'static str {
        match self {
            Self::Flammable => "its vapour can catch fire (H226)",
            Self::Poisonous => "poisonous if swallowed (H301)",
            Self::HarmfulIfSwallowed => "harmful if swallowed (H302)",
            Self::Burns => "burns skin and eyes badly (H314)",
            Self::SkinAllergy => "can make the skin allergic (H317)",
            Self::EyeDamage => "can damage eyes for good (H318)",
            Self::EyeIrritation => "irritates eyes badly (H319)",
            Self::PerhapsGenetic => "may cause genetic defects (H341)",
            Self::PerhapsCancer => "may cause cancer (H351)",
            Self::HarmsTheUnborn => "can harm fertility and unborn children (H360FD)",
            Self::HarmsOrgans => "can harm organs if met often (H373)",
            Self::ToxicToWaters => "very toxic to life in water (H400)",
            Self::ToxicToWatersForLong => "very toxic to life in water, for long (H410)",
            Self::AcidFreesGas => "gives off toxic gas with acid (EUH031)",
        }
    }
}
