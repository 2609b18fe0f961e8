//! The forms of an instrument and of a balance.

use super::{Entry, named};
use crate::fields::{AnyField, Choice, Field, Form, Masses, Named, Names, Volumes};
use crate::kit::{Balance, Grade, Instrument, InstrumentKind, MOST_MARKS, Reading, Tolerance, syringe_dead_space};
use crate::quantity::{Day, Units, Volume, bounds, exact};

const NAME: Field<Names> = Field::new("name", "Name", Names).needed();
const KIND: Field<Choice<InstrumentKind>> = Field::new(
    "kind",
    "What it is",
    Choice(&[
        ("syringe", "syringe", InstrumentKind::Syringe),
        ("cylinder", "measuring cylinder", InstrumentKind::Cylinder),
        (
            "graduated_pipette",
            "graduated pipette",
            InstrumentKind::GraduatedPipette,
        ),
        (
            "single_mark_pipette",
            "single-mark pipette",
            InstrumentKind::SingleMarkPipette,
        ),
        ("jug", "jug or beaker", InstrumentKind::Jug),
    ]),
)
.initial("syringe");
const CAPACITY: Field<Volumes> = Field::volume("capacity", "Highest mark", &bounds::CAPACITY).needed();
const GRADUATION: Field<Volumes> = Field::volume("graduation", "From mark to mark", &bounds::GRADUATION);
const READING: Field<Choice<Reading>> = Field::new(
    "reading",
    "You read it",
    Choice(&[
        ("marks", "to the nearest mark", Reading::Marks),
        ("half_marks", "to half marks", Reading::HalfMarks),
        ("fifths", "to fifths of a mark", Reading::Fifths),
    ]),
)
.initial("half_marks");
const LIMITS: Field<Choice<Limits>> = Field::new(
    "limits",
    "Its limit of error",
    Choice(&[
        ("standard_b", "its ISO standard, class B", Limits::Standard(Grade::B)),
        ("standard_a", "its ISO standard, class A", Limits::Standard(Grade::A)),
        ("astm_b", "ASTM E1272, class B", Limits::Astm(Grade::B)),
        ("astm_a", "ASTM E1272, class A", Limits::Astm(Grade::A)),
        ("guide", "only a guide: 5 %", Limits::Guide),
        ("own", "my own figure", Limits::Own),
        ("calibrated", "my own calibration", Limits::Calibrated),
    ]),
)
.initial("standard_b");
const OWN_LIMIT: Field<Volumes> = Field::volume("own_limit", "My own figure, ±", &bounds::LIMIT);
const BIAS: Field<Volumes> = Field::volume("bias", "Calibration: delivers more than marked by", &bounds::BIAS);
const BIAS_UNCERTAINTY: Field<Volumes> = Field::volume(
    "bias_uncertainty",
    "Calibration: standard uncertainty",
    &bounds::UNCERTAINTY,
);
const REPEATABILITY: Field<Volumes> = Field::volume(
    "repeatability",
    "Calibration: standard deviation of one draw",
    &bounds::DEVIATION,
);
const DEAD_SPACE: Field<Volumes> = Field::volume("dead_space", "Left in the nozzle", &bounds::DEAD_SPACE);

const READABILITY: Field<Masses> = Field::mass("readability", "Smallest step it shows", &bounds::READABILITY).needed();
const MOST: Field<Masses> = Field::mass("most", "The most it weighs", &bounds::BALANCE_CAPACITY).needed();

/// The choice of limits, before the figures that go with it.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Limits {
    Standard(Grade),
    Astm(Grade),
    Guide,
    Own,
    Calibrated,
}

impl Entry for Instrument {
    const FORM: &'static str = "instrument";
    const FIELDS: &'static [&'static dyn AnyField] = &[
        &NAME,
        &KIND,
        &CAPACITY,
        &GRADUATION,
        &READING,
        &LIMITS,
        &OWN_LIMIT,
        &BIAS,
        &BIAS_UNCERTAINTY,
        &REPEATABILITY,
        &DEAD_SPACE,
    ];

    fn read(form: &mut Form) -> Option<Self> {
        let name = form.read(&NAME);
        let kind = form.read(&KIND);
        let capacity = form.read(&CAPACITY);
        let graduation = form.read(&GRADUATION);
        let reading = form.read(&READING);
        let limits = form.read(&LIMITS);
        if graduation.is_none() && kind != Some(InstrumentKind::SingleMarkPipette) && !form.at_fault("graduation") {
            form.fault("graduation", "the step between marks is needed here");
        }
        if let (Some(capacity), Some(graduation)) = (capacity, graduation) {
            if graduation > capacity {
                form.fault(
                    "graduation",
                    "the step between marks cannot be more than the highest mark",
                );
            } else if capacity / graduation > MOST_MARKS {
                form.fault(
                    "graduation",
                    "no scale has more than 1000 marks; the step must be larger, or the highest mark lower",
                );
            }
        }
        let tolerance = tolerance(form, kind, limits);
        let dead_space = form.read(&DEAD_SPACE);
        let (kind, capacity) = (kind?, capacity?);
        let usual = match kind {
            InstrumentKind::Syringe => syringe_dead_space(capacity),
            _ => Volume::ZERO,
        };
        Some(Self {
            name: name?,
            kind,
            capacity,
            graduation: match kind {
                InstrumentKind::SingleMarkPipette => capacity,
                _ => graduation?,
            },
            reading: reading?,
            tolerance: tolerance?,
            dead_space: dead_space.unwrap_or(usual),
            calibrated_on: None,
        })
    }

    fn write(&self, units: Units) -> Named {
        let (limits, own, bias, uncertainty, repeatability) = match self.tolerance {
            Tolerance::SyringeIso7886 => (Limits::Standard(Grade::B), None, None, None, None),
            Tolerance::CylinderIso4788(grade)
            | Tolerance::GraduatedPipetteIso835(grade)
            | Tolerance::SingleMarkPipetteIso648(grade) => (Limits::Standard(grade), None, None, None, None),
            Tolerance::CylinderAstmE1272(grade) => (Limits::Astm(grade), None, None, None, None),
            Tolerance::Share(_) => (Limits::Guide, None, None, None, None),
            Tolerance::Own(limit) => (Limits::Own, Some(limit), None, None, None),
            Tolerance::Calibrated {
                bias,
                uncertainty,
                repeatability,
            } => (
                Limits::Calibrated,
                None,
                Some(bias),
                Some(uncertainty),
                Some(repeatability),
            ),
        };
        let volume = |volume: Option<Volume>| volume.map(|volume| exact::volume(volume, units)).unwrap_or_default();
        named([
            ("name", self.name.clone()),
            ("kind", KIND.word(self.kind)),
            ("capacity", volume(Some(self.capacity))),
            (
                "graduation",
                volume((self.kind != InstrumentKind::SingleMarkPipette).then_some(self.graduation)),
            ),
            ("reading", READING.word(self.reading)),
            ("limits", LIMITS.word(limits)),
            ("own_limit", volume(own)),
            ("bias", volume(bias)),
            ("bias_uncertainty", volume(uncertainty)),
            ("repeatability", volume(repeatability)),
            ("dead_space", volume(Some(self.dead_space))),
        ])
    }

    fn summary(&self, units: Units, today: Day) -> String {
        let full = self.tolerance.half_width(self.capacity, self.capacity);
        let source = match self.tolerance {
            Tolerance::Own(_) => "by your own figure",
            Tolerance::Calibrated { .. } if self.is_calibrated_long_ago(today) => {
                "by your calibration, which is over a year old: weigh it again"
            }
            Tolerance::Calibrated { .. } => "by your calibration",
            Tolerance::Share(_) => "as a guide",
            _ => "by its standard",
        };
        let scale = match self.kind {
            InstrumentKind::SingleMarkPipette => units.volume(self.capacity),
            _ => format!(
                "{} in steps of {}",
                units.volume(self.capacity),
                units.volume(self.graduation)
            ),
        };
        format!("{scale}; full it is good to ± {} {source}", units.volume_error(full))
    }
}

/// The tolerance that the choice and its figures make; a figure that the choice needs and lacks is a fault.
fn tolerance(form: &mut Form, kind: Option<InstrumentKind>, limits: Option<Limits>) -> Option<Tolerance> {
    let own = form.read(&OWN_LIMIT);
    let bias = form.read(&BIAS);
    let uncertainty = form.read(&BIAS_UNCERTAINTY);
    let repeatability = form.read(&REPEATABILITY);
    let (limits, kind) = (limits?, kind?);
    for (field, is_typed, of) in [
        ("own_limit", own.is_some(), Limits::Own),
        ("bias", bias.is_some(), Limits::Calibrated),
        ("bias_uncertainty", uncertainty.is_some(), Limits::Calibrated),
        ("repeatability", repeatability.is_some(), Limits::Calibrated),
    ] {
        match (is_typed, limits == of) {
            (true, false) => form.fault(
                field,
                "you typed this, but the limit of error says otherwise; choose it there, or leave this blank",
            ),
            (false, true) if !form.at_fault(field) => {
                form.fault(field, "your figure is needed here, or choose another limit");
            }
            _ => {}
        }
    }
    Some(match (limits, kind) {
        (Limits::Standard(grade), kind) => {
            let standard = Tolerance::by_standard(kind, grade);
            if standard.is_none() {
                form.fault(
                    "limits",
                    "no standard makes a jug exact; choose “only a guide” or your own figure",
                );
            }
            standard?
        }
        (Limits::Astm(grade), InstrumentKind::Cylinder) => Tolerance::CylinderAstmE1272(grade),
        (Limits::Astm(_), _) => {
            form.fault("limits", "ASTM E1272 is for measuring cylinders only");
            return None;
        }
        (Limits::Guide, _) => Tolerance::GUIDE,
        (Limits::Own, _) => Tolerance::Own(own?),
        (Limits::Calibrated, _) => Tolerance::Calibrated {
            bias: bias?,
            uncertainty: uncertainty?,
            repeatability: repeatability?,
        },
    })
}

impl Entry for Balance {
    const FORM: &'static str = "balance";
    const FIELDS: &'static [&'static dyn AnyField] = &[&NAME, &READABILITY, &MOST];

    fn read(form: &mut Form) -> Option<Self> {
        let name = form.read(&NAME);
        let readability = form.read(&READABILITY);
        let capacity = form.read(&MOST);
        Some(Self {
            name: name?,
            readability: readability?,
            capacity: capacity?,
        })
    }

    fn write(&self, units: Units) -> Named {
        named([
            ("name", self.name.clone()),
            ("readability", exact::mass(self.readability, units)),
            ("most", exact::mass(self.capacity, units)),
        ])
    }

    fn summary(&self, units: Units, _: Day) -> String {
        let mass = |grams: f64| units.number(grams, 4);
        format!(
            "shows {} g, up to {} g",
            mass(self.readability.grams()),
            mass(self.capacity.grams())
        )
    }
}
