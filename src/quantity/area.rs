//! Area of film, the measure by which baths are used up.

linear! {
    /// An area, in square centimetres.
    Area, from_square_centimetres, square_centimetres, "square centimetres"
}

/// One film unit: 80 square inches, an 8 x 10 in sheet, four 4 x 5 in sheets, one 120 or one 135 of 36 exposures, about.
pub const FILM_UNIT: Area = Area(80.0 * 2.54 * 2.54);

impl Area {
    /// From a width and a height in inches.
    pub const fn from_inches(width: f64, height: f64) -> Self {
        Self(width * height * 2.54 * 2.54)
    }
}
