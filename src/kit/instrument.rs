//! Instruments for volumes, balances, and what is uncertain about one or several draws (JCGM 100; EURACHEM/CITAC QUAM).

use super::Tolerance;
use super::calibration::is_old;
use crate::quantity::{Day, Mass, TemperatureDifference, Volume};

/// An instrument for volumes.
#[derive(Clone, Debug, PartialEq)]
pub struct Instrument {
    /// The user's name for it.
    pub name: String,
    /// What it is.
    pub kind: InstrumentKind,
    /// The volume at its highest mark.
    pub capacity: Volume,
    /// From mark to mark.
    pub graduation: Volume,
    /// How finely the user reads between marks.
    pub reading: Reading,
    /// Its limit of error.
    pub tolerance: Tolerance,
    /// Liquid left in the nozzle, delivered only if it is rinsed out.
    pub dead_space: Volume,
    /// The day of its calibration, where that is what it is judged by and the day is known.
    pub calibrated_on: Option<Day>,
}

/// What an instrument is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum InstrumentKind {
    /// With a plunger.
    Syringe,
    /// Measuring cylinder.
    Cylinder,
    /// With a scale.
    GraduatedPipette,
    /// With one mark.
    SingleMarkPipette,
    /// Jug or beaker.
    Jug,
}

/// How finely a user reads between two marks.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Reading {
    /// To the nearest mark.
    Marks,
    /// To half marks.
    HalfMarks,
    /// To fifths of a mark.
    Fifths,
}

/// A balance.
#[derive(Clone, Debug, PartialEq)]
pub struct Balance {
    /// The user's name for it.
    pub name: String,
    /// The smallest step it shows.
    pub readability: Mass,
    /// The most it weighs.
    pub capacity: Mass,
}

/// Draws with one instrument: so many to one mark, and perhaps a last one to another.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Draws<'a> {
    /// With what.
    pub instrument: &'a Instrument,
    /// How often to `to`.
    pub fills: u32,
    /// The volume of each of them.
    pub to: Volume,
    /// The last draw, if it differs.
    pub rest: Option<Volume>,
}

/// Standard uncertainties of a measured volume by cause; independent of one another.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Spread {
    /// The instrument's own error.
    pub calibration: Volume,
    /// Reading the marks.
    pub reading: Volume,
    /// Repeatability, where it was measured.
    pub repeatability: Volume,
    /// The liquid not being at 20 °C.
    pub temperature: Volume,
}

/// The most marks that a scale has: a pipette of 25 ml by 0.05 ml has 500.
pub const MOST_MARKS: f64 = 1000.0;
/// Expansion of water per kelvin as EURACHEM/CITAC QUAM:2012 uses it throughout.
pub const EXPANSION: f64 = 2.1e-4;
/// Half-width of a reading on a mark, as a share of the graduation (common practice, no source).
const ON_MARK: f64 = 0.2;
/// A draw stands on a mark when it is this close to one, as a share of the graduation: closer than any eye, and wide enough
/// for scales in fluid ounces, which are kept in whole microlitres.
const AT_MARK: f64 = 0.01;

impl Instrument {
    /// Half-width of one reading at this volume. A single mark round a narrow neck is read as well as its limit supposes.
    pub fn reading_half_width(&self, volume: Volume) -> Volume {
        if self.kind == InstrumentKind::SingleMarkPipette {
            return Volume::ZERO;
        }
        let between = match self.reading {
            Reading::Marks => 0.5,
            Reading::HalfMarks => 0.25,
            Reading::Fifths => 0.1,
        };
        match self.on_mark(volume) {
            true => self.graduation * ON_MARK.min(between),
            false => self.graduation * between,
        }
    }

    /// Whether the volume falls on a mark.
    pub fn on_mark(&self, volume: Volume) -> bool {
        let marks = self.mark_for(volume) / self.graduation;
        (marks - marks.round()).abs() < AT_MARK
    }

    /// The mark to go to so that this volume is delivered: less the bias that calibration found.
    pub fn mark_for(&self, delivered: Volume) -> Volume {
        delivered - self.bias()
    }

    /// The volume delivered from that mark.
    pub fn delivered_at(&self, mark: Volume) -> Volume {
        mark + self.bias()
    }

    /// Whether one draw of this volume can be read and is more than its own error: from the first mark to the last,
    /// with a limit of error of at most half of it.
    pub fn can_draw(&self, volume: Volume) -> bool {
        let mark = self.mark_for(volume);
        let slack = self.graduation * AT_MARK;
        let on_scale = mark + slack >= self.graduation && mark <= self.capacity + slack;
        let only_mark = self.kind != InstrumentKind::SingleMarkPipette || self.on_mark(volume);
        on_scale && only_mark && self.tolerance.half_width(self.capacity, volume) <= volume * 0.5
    }

    /// Dates its calibration, of which no form tells the day: as it was while all of it stays the same, and else not known.
    pub fn date(&mut self, before: Option<&Self>) {
        let mine = self.kept_calibration();
        let same = before.filter(|before| mine.is_some() && before.kept_calibration() == mine);
        self.calibrated_on = same.and_then(|before| before.calibrated_on);
    }

    /// Whether its calibration wants doing again.
    pub fn is_calibrated_long_ago(&self, today: Day) -> bool {
        self.calibrated_on.is_some_and(|day| is_old(day, today))
    }

    /// Its calibration in whole microlitres, as it is kept.
    fn kept_calibration(&self) -> Option<[i64; 3]> {
        match self.tolerance {
            Tolerance::Calibrated {
                bias,
                uncertainty,
                repeatability,
            } => Some([bias, uncertainty, repeatability].map(Volume::microlitres)),
            _ => None,
        }
    }

    fn bias(&self) -> Volume {
        match self.tolerance {
            Tolerance::Calibrated { bias, .. } => bias,
            _ => Volume::ZERO,
        }
    }

    fn repeatability(&self) -> Volume {
        match self.tolerance {
            Tolerance::Calibrated { repeatability, .. } => repeatability,
            _ => Volume::ZERO,
        }
    }
}

impl Balance {
    /// Standard uncertainty of a difference of two readings: d/sqrt(12) each (JCGM 100, F.2.2.1).
    pub fn standard_uncertainty(&self) -> Mass {
        self.readability * (2.0f64 / 12.0).sqrt()
    }
}

impl<'a> Draws<'a> {
    /// A single draw of so much.
    pub fn once(instrument: &'a Instrument, to: Volume) -> Self {
        Self {
            instrument,
            fills: 1,
            to,
            rest: None,
        }
    }

    /// The whole volume.
    pub fn volume(&self) -> Volume {
        self.to * f64::from(self.fills) + self.rest.unwrap_or_default()
    }

    /// How many draws.
    pub fn count(&self) -> u32 {
        self.fills + u32::from(self.rest.is_some())
    }

    /// What is uncertain about the whole volume, for a liquid so far from 20 °C. The instrument's error is the same in
    /// every draw and so adds up; readings and repeats are independent.
    pub fn spread(&self, from_20: TemperatureDifference) -> Spread {
        let instrument = self.instrument;
        let all = |one: &dyn Fn(Volume) -> f64| f64::from(self.fills) * one(self.to) + self.rest.map_or(0.0, one);
        let calibration = all(&|v| instrument.tolerance.half_width(instrument.capacity, v).millilitres());
        let readings = all(&|v| instrument.reading_half_width(v).millilitres().powi(2));
        let repeats = f64::from(self.count()) * instrument.repeatability().millilitres().powi(2);
        let expansion = self.volume() * (EXPANSION * from_20.kelvins().abs());
        Spread {
            calibration: Volume::from_millilitres(calibration / 3f64.sqrt()),
            reading: Volume::from_millilitres((readings / 3.0).sqrt()),
            repeatability: Volume::from_millilitres(repeats.sqrt()),
            temperature: expansion / 3f64.sqrt(),
        }
    }

    /// Standard uncertainty as a share of the whole volume, for a liquid so far from 20 °C.
    pub fn relative_uncertainty(&self, from_20: TemperatureDifference) -> f64 {
        self.spread(from_20).combined() / self.volume()
    }
}

impl Spread {
    /// All causes together.
    pub fn combined(self) -> Volume {
        let causes = [self.calibration, self.reading, self.repeatability, self.temperature];
        Volume::from_millilitres(causes.iter().map(|u| u.millilitres().powi(2)).sum::<f64>().sqrt())
    }

    /// Of two volumes from different instruments, poured together. The temperature of the liquid is one and the same.
    pub fn and(self, other: Self) -> Self {
        let root = |a: Volume, b: Volume| Volume::from_millilitres(a.millilitres().hypot(b.millilitres()));
        Self {
            calibration: root(self.calibration, other.calibration),
            reading: root(self.reading, other.reading),
            repeatability: root(self.repeatability, other.repeatability),
            temperature: self.temperature + other.temperature,
        }
    }
}
