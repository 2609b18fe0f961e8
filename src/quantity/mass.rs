//! Mass, and mass per volume.

use super::Volume;

linear! {
    /// A mass, in grams. Negative only as a difference.
    Mass, from_grams, grams, "grams"
}

linear! {
    /// Mass per volume, in grams per millilitre: the density of a liquid, or grams of a solid in a millilitre of bath.
    MassDensity, from_grams_per_millilitre, grams_per_millilitre, "grams per millilitre"
}

impl Mass {
    /// The avoirdupois ounce: 1/16 of the pound of 453.59237 g (NIST Handbook 44, appendix C; exact).
    pub const OUNCE: Self = Self(453.592_37 / 16.0);

    /// From whole milligrams, the unit in which masses are stored.
    pub fn from_milligrams(value: i64) -> Self {
        Self(value as f64 / 1000.0)
    }

    /// To the nearest whole milligram.
    pub fn milligrams(self) -> i64 {
        (self.0 * 1000.0).round() as i64
    }
}

impl std::ops::Mul<Volume> for MassDensity {
    type Output = Mass;
    fn mul(self, volume: Volume) -> Mass {
        Mass(self.0 * volume.millilitres())
    }
}
