//! Temperature, and the difference of two: 2 degrees warmer is not 2 degrees.

/// A temperature, in degrees Celsius.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct Temperature(f64);

linear! {
    /// A difference of two temperatures, in kelvins (which are degrees Celsius in size).
    TemperatureDifference, from_kelvins, kelvins, "kelvins"
}

impl Temperature {
    /// 0 degrees Celsius in kelvins (definition of the Celsius scale, SI Brochure 9th ed., 2.3.1; exact).
    pub const ICE_POINT_KELVINS: f64 = 273.15;

    /// From degrees Celsius.
    pub const fn from_celsius(celsius: f64) -> Self {
        Self(celsius)
    }

    /// From degrees Fahrenheit.
    pub fn from_fahrenheit(fahrenheit: f64) -> Self {
        Self((fahrenheit - 32.0) / 1.8)
    }

    /// In degrees Celsius.
    pub const fn celsius(self) -> f64 {
        self.0
    }

    /// In degrees Fahrenheit.
    pub fn fahrenheit(self) -> f64 {
        self.0 * 1.8 + 32.0
    }

    /// Thermodynamic temperature in kelvins.
    pub const fn kelvins(self) -> f64 {
        self.0 + Self::ICE_POINT_KELVINS
    }

    /// From thermodynamic temperature in kelvins.
    pub const fn from_kelvins(kelvins: f64) -> Self {
        Self(kelvins - Self::ICE_POINT_KELVINS)
    }

    /// From thousandths of a degree Celsius, as stored.
    pub fn from_millidegrees(value: i64) -> Self {
        Self(value as f64 / 1000.0)
    }

    /// To the nearest thousandth of a degree Celsius, as stored.
    pub fn millidegrees(self) -> i64 {
        (self.0 * 1000.0).round() as i64
    }
}

impl TemperatureDifference {
    /// From thousandths of a degree, as stored.
    pub fn from_millidegrees(value: i64) -> Self {
        Self(value as f64 / 1000.0)
    }

    /// To the nearest thousandth of a degree.
    pub fn millidegrees(self) -> i64 {
        (self.0 * 1000.0).round() as i64
    }
}

impl std::ops::Sub for Temperature {
    type Output = TemperatureDifference;
    fn sub(self, other: Self) -> TemperatureDifference {
        TemperatureDifference(self.0 - other.0)
    }
}

impl std::ops::Add<TemperatureDifference> for Temperature {
    type Output = Self;
    fn add(self, difference: TemperatureDifference) -> Self {
        Self(self.0 + difference.0)
    }
}
