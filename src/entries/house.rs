//! The form of the house: units, thermometer, timing, hand.

use super::{Entry, named};
use crate::fields::{AnyField, Choice, Field, Form, Named, Percents, Spans, TemperatureDifferences};
use crate::kit::House;
use crate::quantity::{Day, DecimalMark, TemperatureUnit, Units, VolumeUnit, bounds, exact};

const VOLUME_UNIT: Field<Choice<VolumeUnit>> = Field::new(
    "volume_unit",
    "Volumes in",
    Choice(&[
        ("ml", "millilitres", VolumeUnit::Millilitre),
        ("floz", "US fluid ounces", VolumeUnit::UsFluidOunce),
    ]),
)
.initial("ml");
const TEMPERATURE_UNIT: Field<Choice<TemperatureUnit>> = Field::new(
    "temperature_unit",
    "Temperatures in",
    Choice(&[
        ("c", "degrees Celsius", TemperatureUnit::Celsius),
        ("f", "degrees Fahrenheit", TemperatureUnit::Fahrenheit),
    ]),
)
.initial("c");
const DECIMAL: Field<Choice<DecimalMark>> = Field::new(
    "decimal",
    "Decimals with",
    Choice(&[
        ("point", "a point, 18.75", DecimalMark::Point),
        ("comma", "a comma, 18,75", DecimalMark::Comma),
    ]),
)
.initial("point");
const THERMOMETER: Field<TemperatureDifferences> =
    Field::temperature_difference("thermometer", "Your thermometer is good to, ±", &bounds::THERMOMETER)
        .initial("0.5 C");
const TIMING: Field<Spans> = Field::span("timing", "You start and stop to, ±", &bounds::TIMING).initial("10 s");
const HAND: Field<Percents> = Field::percent("hand", "Your hand repeats contrast to", &bounds::HAND).initial("2 %");

impl Entry for House {
    const FORM: &'static str = "house";
    const FIELDS: &'static [&'static dyn AnyField] =
        &[&VOLUME_UNIT, &TEMPERATURE_UNIT, &DECIMAL, &THERMOMETER, &TIMING, &HAND];

    fn read(form: &mut Form) -> Option<Self> {
        let volume = form.read(&VOLUME_UNIT);
        let temperature = form.read(&TEMPERATURE_UNIT);
        let decimal = form.read(&DECIMAL);
        let thermometer = form.read(&THERMOMETER);
        let timing = form.read(&TIMING);
        let hand = form.read(&HAND);
        Some(Self {
            units: Units {
                volume: volume?,
                temperature: temperature?,
                decimal: decimal?,
            },
            thermometer: thermometer?,
            timing: timing?,
            hand: hand?,
        })
    }

    fn write(&self, units: Units) -> Named {
        named([
            ("volume_unit", VOLUME_UNIT.word(self.units.volume)),
            ("temperature_unit", TEMPERATURE_UNIT.word(self.units.temperature)),
            ("decimal", DECIMAL.word(self.units.decimal)),
            ("thermometer", exact::difference(self.thermometer, units)),
            ("timing", format!("{} s", units.number(self.timing.seconds(), 3))),
            ("hand", format!("{} %", units.number(self.hand, 3))),
        ])
    }

    fn summary(&self, units: Units, _: Day) -> String {
        format!("thermometer ± {}", units.temperature_difference(self.thermometer))
    }
}
