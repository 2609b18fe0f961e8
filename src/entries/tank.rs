//! The form of a tank.

use super::{Entry, named};
use crate::fields::{AnyField, Choice, Field, Form, Named, Names, Volumes};
use crate::kit::{Tank, Turning};
use crate::quantity::{Day, Units, Volume, bounds, exact};

const NAME: Field<Names> = Field::new("name", "Name", Names).needed();
const TURNING: Field<Choice<Turning>> = Field::new(
    "turning",
    "The film is moved by",
    Choice(&[
        ("inversion", "turning the tank over", Turning::Inversion),
        ("rotary", "rolling", Turning::Rotary),
    ]),
)
.initial("inversion");
const BRIM: Field<Volumes> = Field::volume("brim", "The most that goes in", &bounds::BATH).needed();
const PER_135: Field<Volumes> = Field::volume("per_135", "Each 135 reel needs", &bounds::TANK);
const PER_120: Field<Volumes> = Field::volume("per_120", "Each 120 reel needs", &bounds::TANK);
const COVER_4X5: Field<Volumes> = Field::volume("sheets_4x5", "All 4×5 in sheets need", &bounds::TANK);
const COVER_8X10: Field<Volumes> = Field::volume("sheets_8x10", "All 8×10 in sheets need", &bounds::TANK);

impl Entry for Tank {
    const FORM: &'static str = "tank";
    const FIELDS: &'static [&'static dyn AnyField] =
        &[&NAME, &TURNING, &BRIM, &PER_135, &PER_120, &COVER_4X5, &COVER_8X10];

    fn read(form: &mut Form) -> Option<Self> {
        let name = form.read(&NAME);
        let turning = form.read(&TURNING);
        let brim = form.read(&BRIM);
        let mut covers = [Volume::ZERO; 4];
        for (cover, field) in covers.iter_mut().zip([&PER_135, &PER_120, &COVER_4X5, &COVER_8X10]) {
            *cover = form.read(field).unwrap_or(Volume::ZERO);
            if brim.is_some_and(|brim| *cover > brim) {
                form.fault(field.name(), "that is more than the tank holds");
            }
        }
        if covers.iter().all(|cover| *cover <= Volume::ZERO) && !form.at_fault("per_135") {
            form.fault("per_135", "say for one kind of film at least how much covers it");
        }
        let [per_135, per_120, sheets_4x5, sheets_8x10] = covers;
        Some(Self {
            name: name?,
            turning: turning?,
            brim: brim?,
            per_135,
            per_120,
            sheets_4x5,
            sheets_8x10,
        })
    }

    fn write(&self, units: Units) -> Named {
        let volume = |volume: Volume| match volume > Volume::ZERO {
            true => exact::volume(volume, units),
            false => String::new(),
        };
        named([
            ("name", self.name.clone()),
            ("turning", TURNING.word(self.turning)),
            ("brim", volume(self.brim)),
            ("per_135", volume(self.per_135)),
            ("per_120", volume(self.per_120)),
            ("sheets_4x5", volume(self.sheets_4x5)),
            ("sheets_8x10", volume(self.sheets_8x10)),
        ])
    }

    fn summary(&self, units: Units, _: Day) -> String {
        let covers = [
            ("each 135 reel", self.per_135),
            ("each 120 reel", self.per_120),
            ("its 4×5 in sheets", self.sheets_4x5),
            ("its 8×10 in sheets", self.sheets_8x10),
        ];
        let covers: Vec<_> = covers
            .iter()
            .filter(|(_, volume)| *volume > Volume::ZERO)
            .map(|(what, volume)| format!("{} for {what}", units.volume(*volume)))
            .collect();
        format!("{} at the brim; {}", units.volume(self.brim), covers.join(", "))
    }
}
