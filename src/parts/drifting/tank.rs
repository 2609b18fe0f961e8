//! How fast a tank follows the room: what two readings told, or what is assumed of so much water.

use super::super::{assumption_of, given};
use crate::development::drift::{INTO_AIR, tau_assumed, tau_of};
use crate::development::{Origin, Parameter};
use crate::fields::{self, Form};
use crate::kit::Kit;
use crate::quantity::{Span, Temperature, Units, Volume};
use crate::sheet::{Figure, Item};
use crate::uncertainty::{Distribution, Estimate, Input};

/// How fast a tank follows the room.
pub(super) struct Tau {
    /// Seconds; assumed unless two readings told it.
    pub seconds: Parameter,
    /// Standard uncertainty of what two readings told, as a share of it.
    pub relative: f64,
    /// Two readings were there, too close together to tell it.
    pub unclear: bool,
}

/// Beyond this, as a share of it, two readings do not tell how fast a tank follows the room: less than what is assumed anyway.
const UNCLEAR: f64 = 0.3;

impl Tau {
    /// What two readings told, or else what is assumed of so much water.
    pub fn of(measured: Option<(Span, f64)>, water: Volume) -> Self {
        match measured {
            Some((tau, relative)) if relative <= UNCLEAR => Self {
                seconds: given(tau.seconds()),
                relative,
                unclear: false,
            },
            too_close => Self {
                seconds: tau_assumption(water),
                relative: 0.0,
                unclear: too_close.is_some(),
            },
        }
    }

    /// What it may be: the assumption's range, or 95 % of what two readings told.
    pub fn range(&self) -> [f64; 2] {
        let spread = (2.0 * self.relative).exp();
        [self.seconds.least / spread, self.seconds.most * spread]
    }
}

/// The time constant that is assumed of so much water, in seconds.
pub(in super::super) fn tau_assumption(water: Volume) -> Parameter {
    let assumed = |watts: f64| tau_assumed(water, watts).seconds();
    Parameter {
        value: assumed(INTO_AIR.value),
        least: assumed(INTO_AIR.most),
        most: assumed(INTO_AIR.least),
        origin: Origin::Assumed(INTO_AIR.why),
    }
}

/// The time constant from two readings and its relative standard uncertainty. One reading without what belongs to it is a fault.
pub(super) fn measured(form: &mut Form, kit: &Kit, room: Option<Temperature>) -> Option<(Span, f64)> {
    let first = form.read(&fields::FIRST_READING);
    let second = form.read(&fields::SECOND_READING);
    let between = form.read(&fields::BETWEEN_READINGS);
    let room_then = form.read(&fields::ROOM_THEN).map(|room| kit.corrected(room));
    let read_to = form.read(&fields::READ_TO);
    let missing = [
        ("first", first.is_none()),
        ("second", second.is_none()),
        ("between", between.is_none()),
    ];
    if missing.iter().all(|(_, is_missing)| *is_missing) {
        return None;
    }
    for (field, _) in missing.iter().filter(|(_, is_missing)| *is_missing) {
        if !form.at_fault(field) {
            form.fault(field, "two readings and the time between them belong together");
        }
    }
    let (first, second) = (kit.corrected(first?), kit.corrected(second?));
    let (between, room) = (between?, room_then.or(room)?);
    let Some(tau) = tau_of(first, second, room, between) else {
        form.fault("second", "the second reading must lie between the first and the room");
        return None;
    };
    let reading = |name: &str, at: Temperature| {
        let half_width = read_to.unwrap_or(kit.thermometer_limit(at)).kelvins();
        Input::new(name, at.celsius(), Distribution::Rectangular { half_width })
    };
    let half_width = kit.house.timing.seconds();
    let inputs = [
        reading("the first", first),
        reading("the second", second),
        reading("the room", room),
        Input::new("the time", between.seconds(), Distribution::Rectangular { half_width }),
    ];
    // The rate bends less than the time constant.
    let rate = |x: &[f64]| ((x[0] - x[2]) / (x[1] - x[2])).ln() / x[3];
    let found = Estimate::propagate(&inputs, rate).ok();
    Some((tau, found.map_or(f64::INFINITY, |found| found.relative_uncertainty())))
}

/// In which time half of the way to the room is gone, in minutes, from a time constant in seconds.
pub(super) fn half_minutes(tau: Parameter) -> Parameter {
    tau.map(|seconds| seconds * 2f64.ln() / 60.0)
}

pub(super) fn half_figure(name: &'static str, minutes: Parameter, units: Units) -> Figure {
    Figure {
        shown: units.about(minutes.value),
        ..Figure::number(name, "Half way to the room in, minutes", minutes.value, 0, units)
    }
}

/// The item for a time constant that nobody measured, in seconds: what is typed into the field would tell it.
pub(in super::super) fn half_assumption(tau: Parameter, field: &'static str, units: Units) -> Option<Item> {
    let minutes = half_minutes(tau);
    let figure = half_figure("assumed_half", minutes, units);
    assumption_of(figure, minutes, field, &|minutes| units.about(minutes))
}
