//! Keeping: what a bottle's life has done to it, judged by three voices that are never mixed into one.
//!
//! 1. [`air`]: what the oxygen it met could have done, against what the solution holds (physics).
//! 2. [`stated`]: how much of its stated life is used, at the headspace and warmth it stood in (the sheet's own clock).
//! 3. [`Tested`]: what tests on it, and on others of its product, have shown.
//!
//! [`judge`] makes a [`State`] of them; age alone never fails a bottle. [`forecast()`] looks ahead, [`decant()`] says
//! which containers to fill, [`buy()`] which size to buy, [`comparison`] what class and wall make of the same bottle.
//!
//! Every number that nobody measured is one of the [`Assumptions`], with its range; a [`Lean`] says where in their
//! ranges they are taken, so that one and the same function gives the usual answer, both ends of its band, and every
//! draw of a Monte Carlo.
//!
//! # What it does not do
//!
//! No chemistry of aging: the air's part is a balance of oxygen, which bounds what it could have cost, since no
//! published experiment of strength lost against headspace was found. Closures are taken to be tight. Light is only
//! warned of. Nothing here knows today's date: it is an argument.
//!
//! # Example
//!
//! A syrup opened four years ago, half empty: its age fails nothing.
//!
//! ```
//! use meniscus::chemistry::Class;
//! use meniscus::keeping::{Assumptions, Case, Life, Limits, Seal, State, Stretch, Trusted, judge};
//! use meniscus::kit::{Climate, Colour, Container, Material, Treatment};
//! use meniscus::quantity::{Day, Temperature, Volume};
//!
//! let today: Day = "2026-03-01".parse()?;
//! let bottle = Container {
//!     name: "brown glass".to_owned(),
//!     brimful: Volume::from_millilitres(1040.0),
//!     nominal: None,
//!     material: Material::Glass,
//!     wall_area: None,
//!     thickness: None,
//!     colour: Colour::Amber,
//! };
//! let opened = Stretch {
//!     from: today + -1461,
//!     to: today,
//!     content: Volume::from_millilitres(1000.0),
//!     seal: Seal::Opened,
//!     treatment: Treatment::Plain,
//!     container: &bottle,
//!     climate: Climate::Steady(Temperature::from_celsius(18.0)),
//! };
//! let life = Life::used_evenly(opened, Volume::from_millilitres(500.0), 20)?;
//! let verdict = judge(&Case {
//!     life: &life,
//!     assumptions: &Assumptions::of_class(Class::Syrup),
//!     tests: &[],
//!     trusted: Trusted::STATED,
//!     limits: &Limits::default(),
//! });
//! assert_eq!(verdict.state, State::TestFirst);
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```

mod assumptions;
mod balance;
mod buying;
pub mod comparison;
mod decanting;
mod forecasting;
mod life;
mod oxygen;
mod pace;
mod pool;
mod ranged;
mod reason;
mod stated_life;
mod state;
mod trust;

pub use assumptions::{Assumptions, Lean, at};
pub use balance::{Exposure, air, exposure};
pub use buying::{Purchase, Shopping, Size, WhileUsed, buy, reorder_point};
pub use decanting::{Advice, Fill, HARDLY, Job, MARGIN, Plan, decant, even_times, oxygen_within};
pub use forecasting::{CurvePoint, Dates, Forecast, forecast};
pub use life::{Life, LifeError, Seal, Stretch};
pub use oxygen::{AIR_OXYGEN, Air, ONE_ATMOSPHERE, dissolved, permeation, vapour_pressure};
pub use pace::Pace;
pub use ranged::Ranged;
pub use reason::{Reason, Stale, Voice};
pub use state::{Case, Limits, State, Verdict, judge};
pub use stated_life::{Lives, LivesError, SheetLives, share_used, stated, warmth_factor};
pub use trust::{Tested, Trusted};
