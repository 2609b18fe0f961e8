//! A figure: a number with its unit, its uncertainty and its standing.

use std::borrow::Cow;

use crate::quantity::show::{range, rounded};
use crate::quantity::{Amount, Day, Mass, Span, Temperature, TemperatureDifference, Units, Volume};
use crate::uncertainty::COVERAGE;

/// Text that mostly stands in the program.
pub type Text = Cow<'static, str>;

/// A number on a sheet.
#[derive(Clone, Debug, PartialEq)]
pub struct Figure {
    /// Its name in data, unique in its sheet unless it stands in a row.
    pub name: Text,
    /// What it is, for people.
    pub label: Text,
    /// The number, in `unit`, not rounded.
    pub value: f64,
    /// Unit of `value`: `ml`, `g`, `mg`, `mmol`, `°C`, `K`, `s`, `d`, `%`, or empty for a plain number or a word.
    pub unit: &'static str,
    /// Standard uncertainty, in `unit`.
    pub standard_uncertainty: Option<f64>,
    /// As it is shown, in the user's units.
    pub shown: String,
    /// The 95 % half-width (k = 2) as it is shown.
    pub shown_spread: Option<String>,
    /// Lowest and highest, where assumptions leave a band, as shown.
    pub band: Option<String>,
    /// How it stands.
    pub standing: Standing,
}

/// How far a figure can be taken at its word.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Standing {
    /// What is shown is the value.
    Exact,
    /// What is shown is the value rounded.
    Rounded,
    /// The value rests on a number that nobody measured.
    Assumed,
}

impl Figure {
    /// A volume.
    pub fn volume(name: impl Into<Text>, label: impl Into<Text>, volume: Volume, units: Units) -> Self {
        let exact = (units.shown_volume(volume) - volume).millilitres().abs() < 1e-9;
        Self::new(
            name.into(),
            label.into(),
            (volume.millilitres(), "ml"),
            units.volume(volume),
            exact,
        )
    }

    /// A mass.
    pub fn mass(name: impl Into<Text>, label: impl Into<Text>, mass: Mass, units: Units) -> Self {
        Self::new(name.into(), label.into(), (mass.grams(), "g"), units.mass(mass), false)
    }

    /// A small mass.
    pub fn milligrams(name: impl Into<Text>, label: impl Into<Text>, mass: Mass, units: Units) -> Self {
        let value = (mass.grams() * 1000.0, "mg");
        Self::new(name.into(), label.into(), value, units.milligrams(mass), false)
    }

    /// An amount of substance.
    pub fn amount(name: impl Into<Text>, label: impl Into<Text>, amount: Amount, units: Units) -> Self {
        let value = (amount.millimoles(), "mmol");
        Self::new(name.into(), label.into(), value, units.amount(amount), false)
    }

    /// A stretch of the calendar.
    pub fn period(name: impl Into<Text>, label: impl Into<Text>, days: f64, units: Units) -> Self {
        Self::new(name.into(), label.into(), (days, "d"), units.period(days), false)
    }

    /// A day of the calendar; its value is the days from today.
    pub fn day(name: impl Into<Text>, label: impl Into<Text>, day: Day, today: Day) -> Self {
        let value = (f64::from(day - today), "d");
        Self::new(name.into(), label.into(), value, day.to_string(), true)
    }

    /// A word of a list; its value is the word's place in it, from 0.
    pub fn word(name: impl Into<Text>, label: impl Into<Text>, place: usize, word: &str) -> Self {
        Self::new(name.into(), label.into(), (place as f64, ""), word.to_owned(), true)
    }

    /// A difference of temperature, or an error of it.
    pub fn temperature_difference(
        name: impl Into<Text>,
        label: impl Into<Text>,
        difference: TemperatureDifference,
        units: Units,
    ) -> Self {
        let value = (difference.kelvins(), "K");
        Self::new(
            name.into(),
            label.into(),
            value,
            units.temperature_difference(difference),
            false,
        )
    }

    /// A temperature.
    pub fn temperature(name: impl Into<Text>, label: impl Into<Text>, temperature: Temperature, units: Units) -> Self {
        let value = (temperature.celsius(), "°C");
        Self::new(name.into(), label.into(), value, units.temperature(temperature), false)
    }

    /// A time, shown as minutes and seconds.
    pub fn span(name: impl Into<Text>, label: impl Into<Text>, span: Span, units: Units) -> Self {
        let exact = (span.seconds() - span.seconds().round()).abs() < 1e-9;
        Self::new(
            name.into(),
            label.into(),
            (span.seconds(), "s"),
            units.span(span),
            exact,
        )
    }

    /// A small difference of time, shown in seconds.
    pub fn seconds(name: impl Into<Text>, label: impl Into<Text>, span: Span, units: Units) -> Self {
        Self::new(
            name.into(),
            label.into(),
            (span.seconds(), "s"),
            units.seconds(span),
            false,
        )
    }

    /// A share, given as a fraction of 1 and shown in percent.
    pub fn percent(name: impl Into<Text>, label: impl Into<Text>, share: f64, units: Units) -> Self {
        Self::new(
            name.into(),
            label.into(),
            (share * 100.0, "%"),
            units.percent(share),
            false,
        )
    }

    /// A plain number, with at most `places` decimals.
    pub fn number(name: impl Into<Text>, label: impl Into<Text>, value: f64, places: usize, units: Units) -> Self {
        let nearest = rounded(value, places);
        let exact = (nearest - value).abs() < 1e-12;
        let shown = match nearest == 0.0 && value > 1e-9 {
            true => format!("less than {}", units.number(0.1f64.powi(places as i32), places)),
            false => units.number(value, places),
        };
        Self::new(name.into(), label.into(), (value, ""), shown, exact)
    }

    /// With a standard uncertainty, and its k = 2 spread as shown text.
    pub fn uncertain(mut self, standard_uncertainty: f64, show: impl Fn(f64) -> String) -> Self {
        self.standard_uncertainty = Some(standard_uncertainty);
        self.shown_spread = Some(show(COVERAGE * standard_uncertainty));
        self
    }

    /// Of a volume that was measured, with its standard uncertainty.
    pub fn measured_to(self, u: Volume, units: Units) -> Self {
        self.uncertain(u.millilitres(), |spread| {
            units.volume_error(Volume::from_millilitres(spread))
        })
    }

    /// With a band from lowest to highest, unless both read the same.
    pub fn between(mut self, low: &str, high: &str) -> Self {
        self.band = range(low, high);
        self
    }

    /// With the band that assumptions leave, and resting on them where there is one.
    pub fn banded(self, low: &str, high: &str) -> Self {
        let figure = self.between(low, high);
        let is_assumed = figure.band.is_some();
        figure.assumed_if(is_assumed)
    }

    /// Resting on an assumption.
    pub fn assumed(self) -> Self {
        self.assumed_if(true)
    }

    /// Resting on an assumption, if that is so.
    pub fn assumed_if(mut self, assumed: bool) -> Self {
        if assumed {
            self.standing = Standing::Assumed;
        }
        self
    }

    /// Whether "about" stands before it: where a number rests on an assumption, but for nothing and for what is less than something.
    pub fn is_about(&self) -> bool {
        let nothing = self.shown.split(' ').next() == Some("0");
        let number = self.shown.contains(|letter: char| letter.is_ascii_digit());
        self.standing == Standing::Assumed && number && !nothing && !self.shown.starts_with("less than")
    }

    /// As it is shown, with "about" where it rests on an assumption, and with its spread or band.
    pub fn text(&self) -> String {
        let mut text = match self.is_about() {
            true => format!("about {}", self.shown),
            false => self.shown.clone(),
        };
        if let Some(spread) = &self.shown_spread {
            text.push_str(&format!(" ± {spread}"));
        }
        if let Some(band) = &self.band {
            text.push_str(&format!(" ({band})"));
        }
        text
    }

    fn new(name: Text, label: Text, (value, unit): (f64, &'static str), shown: String, exact: bool) -> Self {
        Self {
            name,
            label,
            value,
            unit,
            standard_uncertainty: None,
            shown,
            shown_spread: None,
            band: None,
            standing: if exact { Standing::Exact } else { Standing::Rounded },
        }
    }
}
