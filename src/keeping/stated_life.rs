//! The second voice: how much of the stated life is used.
//!
//! A data sheet states a life unopened, full, and half full. Between them, and beyond half full, the life is taken
//! log-linear in the headspace share h: L(h) = L_full (L_half / L_full)^(2 h). So from half full to empty it falls by
//! the same ratio once more, which no sheet states. It runs faster by a factor for 10 degrees from 20 °C, and the share
//! used is the sum of dt / L(h, T).

use std::fmt;

use super::assumptions::{AirLeft, at, exactly};
use super::{Assumptions, Lean, Life, Ranged, Seal, Stretch};
use crate::chemistry::{Class, Guess, TypicalLives};
use crate::development::{Origin, Parameter};
use crate::kit::Climate;
use crate::quantity::Day;
use crate::quantity::held::held;

/// Stated lives at 20 °C.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Lives {
    /// Days unopened.
    pub unopened: Parameter,
    /// Days once opened, without headspace.
    pub full: Parameter,
    /// Life half full as a share of the life full, above 0 and at most 1.
    pub half_full: Parameter,
}

/// What a data sheet states, in days.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct SheetLives {
    /// Unopened.
    pub unopened: Option<f64>,
    /// Opened, full.
    pub full: Option<f64>,
    /// Opened, half full.
    pub half_full: Option<f64>,
}

/// Why a sheet's lives cannot be right.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum LivesError {
    /// A life is not above zero.
    NoLife,
    /// Half full keeps longer than full.
    HalfKeepsLonger,
}

/// Where neither sheet nor class says how headspace shortens a life.
const HALF_FULL: Guess = Guess {
    value: 1.0 / 3.0,
    least: 1.0 / 6.0,
    most: 1.0,
    why: "published lives of one composition: a third and a sixth",
};

/// The temperature at which sheets state lives, in degrees Celsius.
const STATED_AT: f64 = 20.0;

impl Lives {
    /// What the class usually has.
    pub fn typical(class: Class) -> Option<Self> {
        class.lives().map(|typical| Self {
            unopened: Parameter::given_or(None, typical.unopened),
            full: Parameter::given_or(None, typical.full),
            half_full: Parameter::given_or(None, typical.half_full),
        })
    }

    /// What the sheet states, and for the rest what the class usually has; `None` where neither says how long it keeps
    /// opened.
    ///
    /// ```
    /// use meniscus::chemistry::Class;
    /// use meniscus::keeping::{Lean, Lives, SheetLives};
    ///
    /// let sheet = SheetLives { unopened: None, full: Some(180.0), half_full: Some(60.0) };
    /// let lives = Lives::new(sheet, Class::PowderStock)?.expect("a stock keeps");
    /// assert!((lives.days(0.5, &Lean::USUAL) - 60.0).abs() < 1e-9);
    /// assert!((lives.days(0.25, &Lean::USUAL) - 180.0 / 3_f64.sqrt()).abs() < 1e-9);
    ///
    /// let wrong = SheetLives { half_full: Some(200.0), ..sheet };
    /// assert_eq!(
    ///     Lives::new(wrong, Class::PowderStock).unwrap_err().to_string(),
    ///     "a half-full bottle cannot keep longer than a full one; exchange the two",
    /// );
    /// # Ok::<(), meniscus::keeping::LivesError>(())
    /// ```
    ///
    /// # Errors
    /// For a life that is not above zero, or one half full that is longer than the one full.
    pub fn new(sheet: SheetLives, class: Class) -> Result<Option<Self>, LivesError> {
        let all = [sheet.unopened, sheet.full, sheet.half_full];
        if all.into_iter().flatten().any(|days| !days.is_finite() || days <= 0.0) {
            return Err(LivesError::NoLife);
        }
        if let (Some(full), Some(half)) = (sheet.full, sheet.half_full)
            && half > full
        {
            return Err(LivesError::HalfKeepsLonger);
        }
        let typical = class.lives();
        let assumed_ratio = Parameter::given_or(None, typical.map_or(HALF_FULL, |lives| lives.half_full));
        let (full, half_full) = match (sheet.full, sheet.half_full) {
            (Some(full), Some(half)) => (exactly(full), exactly(half / full)),
            (Some(full), None) => (exactly(full), assumed_ratio),
            (None, Some(half)) => (from_half(half, assumed_ratio), assumed_ratio),
            (None, None) => match typical {
                Some(lives) => (Parameter::given_or(None, lives.full), assumed_ratio),
                None => return Ok(None),
            },
        };
        Ok(Some(Self {
            unopened: match sheet.unopened {
                Some(days) => exactly(days),
                None => assumed_unopened(typical, full),
            },
            full,
            half_full,
        }))
    }

    /// Days that it keeps once opened, at 20 °C, with that share of headspace, 0 to 1.
    pub fn days(&self, headspace: f64, lean: &Lean) -> f64 {
        at(&self.full, lean.full) * at(&self.half_full, lean.half_full).powf(2.0 * headspace)
    }

    /// Whether any of it is only assumed.
    pub fn assumed(&self) -> bool {
        [self.unopened, self.full, self.half_full]
            .iter()
            .any(|life| life.is_assumed())
    }
}

fn from_half(half: f64, ratio: Parameter) -> Parameter {
    Parameter {
        value: half / ratio.value,
        least: half / ratio.most,
        most: half / ratio.least,
        origin: ratio.origin,
    }
}

/// As the class has it, but no shorter than once opened.
fn assumed_unopened(typical: Option<TypicalLives>, full: Parameter) -> Parameter {
    let least = typical.map_or(full.least, |lives| lives.unopened.least.max(full.least));
    let value = typical.map_or(full.value, |lives| lives.unopened.value.max(full.value));
    let most = typical.map_or(full.most, |lives| lives.unopened.most.max(full.most));
    Parameter {
        value,
        least: least.min(value),
        most: most.max(value),
        origin: Origin::Assumed(typical.map_or("no shorter than once opened", |lives| lives.unopened.why)),
    }
}

/// How much of its stated life a bottle has used, as a multiple of it; usually, at the least and at the most. `None`
/// where no life is stated or assumed. The factor for 10 degrees is tried at both ends of its range and at its value.
pub fn stated(life: &Life, assumptions: &Assumptions) -> Option<Ranged<f64>> {
    let lives = assumptions.lives?;
    let shares = [0.0, -1.0, 1.0].map(|per_ten| {
        let days = days_at_20(life, at(&assumptions.per_ten, per_ten), None);
        [Lean::USUAL, Lean::GENTLE, Lean::HARSH].map(|lean| share(life, &days, &lives, assumptions.air_left, &lean))
    });
    let of = |lean: usize| shares.iter().map(move |share| share[lean]);
    Some(Ranged {
        value: shares[0][0],
        least: of(1).fold(f64::INFINITY, f64::min),
        most: of(2).fold(0.0, f64::max),
    })
}

/// The same with the assumptions at one place of their ranges; counted from a day only, where one is given.
pub fn share_used(life: &Life, assumptions: &Assumptions, lean: &Lean, since: Option<Day>) -> Option<f64> {
    let lives = assumptions.lives?;
    let days = days_at_20(life, at(&assumptions.per_ten, lean.per_ten), since);
    Some(share(life, &days, &lives, assumptions.air_left, lean))
}

/// Days at 20 °C that each stretch counts for.
fn days_at_20(life: &Life, per_ten: f64, since: Option<Day>) -> Vec<f64> {
    let stretches = life.stretches().iter();
    let days = stretches.map(|stretch| {
        let from = since.map_or(stretch.from, |day| stretch.from.max(day));
        f64::from((stretch.to - from).max(0)) * warmth_factor(stretch.climate, per_ten, from, stretch.to)
    });
    days.collect()
}

fn share(life: &Life, days: &[f64], lives: &Lives, air_left: Option<f64>, lean: &Lean) -> f64 {
    let left = AirLeft::new(air_left, lean);
    let stretches = life.stretches().iter().zip(days);
    stretches
        .map(|(stretch, days)| days / life_in(stretch, lives, lean, left))
        .sum()
}

/// Days that a bottle keeps at 20 °C as it stands in that stretch.
fn life_in(stretch: &Stretch, lives: &Lives, lean: &Lean, left: AirLeft) -> f64 {
    match stretch.seal {
        Seal::Unopened => at(&lives.unopened, lean.unopened),
        Seal::Opened | Seal::StillClosed => lives.days(air_share(stretch, left), lean),
    }
}

/// Air above the liquid, as a share of what the container holds.
pub(super) fn air_share(stretch: &Stretch, left: AirLeft) -> f64 {
    let (gas, air) = left.gas(stretch.treatment, stretch.container.headspace(stretch.content));
    held(gas / stretch.container.brimful, 0.0, 1.0) * air
}

/// How much faster a life runs in a place between two days than at 20 °C: the mean of `per_ten`^((T - 20) / 10).
///
/// ```
/// use meniscus::keeping::warmth_factor;
/// use meniscus::kit::Climate;
/// use meniscus::quantity::{Day, Temperature};
///
/// let warm = Climate::Steady(Temperature::from_celsius(30.0));
/// assert!((warmth_factor(warm, 2.0, Day::from_days(0), Day::from_days(9)) - 2.0).abs() < 1e-12);
/// ```
pub fn warmth_factor(climate: Climate, per_ten: f64, from: Day, to: Day) -> f64 {
    let steepness = per_ten.ln() / 10.0;
    let factor = |celsius: f64| (steepness * (celsius - STATED_AT)).exp();
    match climate {
        Climate::Steady(always) => factor(always.celsius()),
        Climate::Between(low, high) => {
            let (low, high) = (low.celsius(), high.celsius());
            match (steepness * (high - low)).abs() > 1e-6 {
                true => (factor(high) - factor(low)) / (steepness * (high - low)),
                false => factor((low + high) / 2.0),
            }
        }
        Climate::Seasonal { .. } => {
            let (start, length) = (f64::from(from.days()), f64::from((to - from).max(0)));
            mean(start, length, |days| factor(climate.at(days).celsius()))
        }
    }
}

/// Mean over a stretch of days by Simpson's rule in steps of ten days at the most.
fn mean(start: f64, length: f64, of: impl Fn(f64) -> f64) -> f64 {
    let steps = 2 * (length / 20.0).ceil().max(1.0) as u32;
    let weight = |step: u32| match step {
        0 => 1.0,
        last if last == steps => 1.0,
        odd if odd % 2 == 1 => 4.0,
        _ => 2.0,
    };
    let sum: f64 = (0..=steps)
        .map(|step| weight(step) * of(start + length * f64::from(step) / f64::from(steps)))
        .sum();
    sum / (3.0 * f64::from(steps))
}

impl fmt::Display for LivesError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::NoLife => "a life must be longer than nothing",
            Self::HalfKeepsLonger => "a half-full bottle cannot keep longer than a full one; exchange the two",
        })
    }
}

impl std::error::Error for LivesError {}
