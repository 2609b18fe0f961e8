//! Washing film by changes of water, as far as mere dilution goes: each change thins what is carried over.
//!
//! The model mixes at once and for good. It knows nothing of fixer that comes out of the gelatin only in time, or that holds on to it:
//! what it says is the least that must be done.

use super::Guess;
use crate::quantity::{Temperature, Volume};

/// What stays in tank, reels and film when the water is poured out, and what is poured in.
///
/// ```
/// use meniscus::chemistry::Wash;
/// use meniscus::quantity::Volume;
///
/// let wash = Wash { carried: Volume::from_millilitres(10.0), fresh: Volume::from_millilitres(280.0) };
/// assert!((wash.after(3.0) - 4.10e-5).abs() < 0.005e-5);
/// assert_eq!(wash.whole_changes(1e-3), 3.0);
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Wash {
    /// Carried over from one fill to the next.
    pub carried: Volume,
    /// Fresh water that is poured in.
    pub fresh: Volume,
}

/// What one 135 or 120 film on its reel carries over, in millilitres, the walls of the tank shared out.
pub const CARRIED_PER_FILM: Guess = Guess {
    value: 10.0,
    least: 5.0,
    most: 20.0,
    why: "what hangs on a film, its reel and the walls, well drained or hardly (common practice, no source): weigh the emptied tank",
};

/// Thiosulfate in a fixer at the strength of use, in grams to the litre.
pub const THIOSULFATE: Guess = Guess {
    value: 120.0,
    least: 80.0,
    most: 200.0,
    why: "fixers for film, ready to use (from memory of data sheets): the data sheet of yours may say it",
};

/// Water that a square metre of film holds as it dries, in millilitres.
pub const HELD: Guess = Guess {
    value: 60.0,
    least: 30.0,
    most: 150.0,
    why: "swollen gelatin and the film of water on both sides (from memory): weigh a film wet and dry",
};

/// How long one change stands, agitated, at 20 °C, in seconds.
pub const SOAK: Guess = Guess {
    value: 120.0,
    least: 60.0,
    most: 300.0,
    why: "fixer needs time to come out of the gelatin (common practice, no source): the test of your own film says whether it had enough",
};

/// How much thiosulfate film may hold that must last, in grams on a square metre (practice of ISO 18901 and ISO 18917).
pub const TO_LAST: f64 = 0.014;

/// A way to wash that is in use.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sequence {
    /// Its name for a row of figures.
    pub word: &'static str,
    /// What it is.
    pub name: &'static str,
    /// Who says so.
    pub source: &'static str,
    /// How it goes.
    pub how: How,
}

/// How a wash goes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum How {
    /// Filled and poured out, with so many inversions each time.
    Changes(&'static [u32]),
    /// Running water that changes the tank so often in an hour, for so many minutes.
    Running(f64, f64),
}

/// One inversion and its rest, in seconds (common practice, no source).
const INVERSION: f64 = 3.0;

/// Washes that are in use.
pub const SEQUENCES: [Sequence; 4] = [
    Sequence {
        word: "dump",
        name: "three fills, turned 5, 10 and 20 times",
        source: "common practice, no source",
        how: How::Changes(&[5, 10, 20]),
    },
    Sequence {
        word: "slow",
        name: "4 changes an hour, 35 min",
        source: "USAF T.O. 33B-1-1, table 6-17, 20 °C",
        how: How::Running(4.0, 35.0),
    },
    Sequence {
        word: "quick",
        name: "8 changes an hour, 20 min",
        source: "the same",
        how: How::Running(8.0, 20.0),
    },
    Sequence {
        word: "army",
        name: "8 changes an hour, 30 min",
        source: "US Army MD0954, 21 °C: 25 to 30 min",
        how: How::Running(8.0, 30.0),
    },
];

impl Wash {
    /// Share of the fixer that is left in the water after one change.
    pub fn share(&self) -> f64 {
        self.carried / (self.carried + self.fresh)
    }

    /// The same after so many changes.
    pub fn after(&self, changes: f64) -> f64 {
        self.share().powf(changes)
    }

    /// The same where the tank is filled once and water then runs through it, well mixed, so many times its content.
    pub fn running(&self, contents: f64) -> f64 {
        self.share() * (-contents).exp()
    }

    /// Changes until no more than this share is left; not whole. A share of 1 or more needs none.
    pub fn changes(&self, wanted: f64) -> f64 {
        (wanted.ln() / self.share().ln()).max(0.0)
    }

    /// The same in whole changes.
    pub fn whole_changes(&self, wanted: f64) -> f64 {
        (self.changes(wanted) - 1e-9).ceil().max(0.0)
    }

    /// Contents of running water until no more than this share is left.
    pub fn contents(&self, wanted: f64) -> f64 {
        (self.share() / wanted).ln().max(0.0)
    }
}

impl Sequence {
    /// Share that it leaves, by dilution alone.
    pub fn leaves(&self, wash: &Wash) -> f64 {
        match self.how {
            How::Changes(inversions) => wash.after(inversions.len() as f64),
            How::Running(..) => wash.running(self.contents()),
        }
    }

    /// Water that it takes, in fills of the tank.
    pub fn fills(&self) -> f64 {
        match self.how {
            How::Changes(inversions) => inversions.len() as f64,
            How::Running(..) => 1.0 + self.contents(),
        }
    }

    /// How long it takes, in minutes, pouring not counted.
    pub fn minutes(&self) -> f64 {
        match self.how {
            How::Changes(inversions) => f64::from(inversions.iter().sum::<u32>()) * INVERSION / 60.0,
            How::Running(_, minutes) => minutes,
        }
    }

    fn contents(&self) -> f64 {
        match self.how {
            How::Changes(_) => 0.0,
            How::Running(an_hour, minutes) => an_hour * minutes / 60.0,
        }
    }
}

/// The share of the fixer's strength at which film that holds so much water, in millilitres on a square metre, dries with no more than
/// `residual` grams of thiosulfate on it. `fixer` is in grams to the litre.
pub fn wanted_share(residual: f64, held: f64, fixer: f64) -> f64 {
    residual / (held / 1000.0) / fixer
}

/// How many times longer diffusion takes than at 20 °C: it goes with the temperature over the viscosity of the water (Stokes and
/// Einstein). That gelatin swells less in the cold is not in it. From 0 to 40 °C.
pub fn slower(water: Temperature) -> f64 {
    viscosity_ratio(water) * AT.kelvins() / water.kelvins()
}

/// The temperature for which washes are stated.
const AT: Temperature = Temperature::from_celsius(20.0);

/// Viscosity of water over that at 20 °C (Korson, Drost-Hansen and Millero, J. Phys. Chem. 73, 34, 1969; from memory).
fn viscosity_ratio(water: Temperature) -> f64 {
    let t = water.celsius();
    let exponent = (1.1709 * (20.0 - t) - 0.001_827 * (t - 20.0).powi(2)) / (t + 89.93);
    10f64.powf(exponent)
}
