//! Volume of a liquid.

linear! {
    /// A volume, in millilitres. Negative only as a difference.
    Volume, from_millilitres, millilitres, "millilitres"
}

impl Volume {
    /// The US fluid ounce: 1/128 of the US gallon of 231 cubic inches of 2.54 cm (NIST Handbook 44, appendix C; exact).
    pub const US_FLUID_OUNCE: Self = Self(231.0 * 2.54 * 2.54 * 2.54 / 128.0);

    /// From whole microlitres, the unit in which amounts are stored.
    pub fn from_microlitres(value: i64) -> Self {
        Self(value as f64 / 1000.0)
    }

    /// To the nearest whole microlitre.
    pub fn microlitres(self) -> i64 {
        (self.0 * 1000.0).round() as i64
    }

    /// Whether it is as much as is wanted. What the store's rounding to whole microlitres may take off, of a few volumes, is no lack.
    pub fn reaches(self, wanted: Self) -> bool {
        self + Self::from_microlitres(3) >= wanted
    }
}
