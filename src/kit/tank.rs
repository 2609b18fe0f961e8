//! Tanks: what covers the film, and where the brim is.

use super::{Film, Load};
use crate::quantity::Volume;

/// A tank, drum or set of trays.
#[derive(Clone, Debug, PartialEq)]
pub struct Tank {
    /// The user's name for it.
    pub name: String,
    /// How the film is kept moving.
    pub turning: Turning,
    /// The most that goes in and still closes.
    pub brim: Volume,
    /// Volume that one 135 reel needs; zero where the tank does not take it.
    pub per_135: Volume,
    /// Volume that one 120 reel needs (220 runs on the same reel); zero where the tank does not take it.
    pub per_120: Volume,
    /// Volume that covers its 4 x 5 in sheets, however many; zero where the tank does not take them.
    pub sheets_4x5: Volume,
    /// Volume that covers its 8 x 10 in sheets, however many; zero where the tank does not take them.
    pub sheets_8x10: Volume,
}

/// How the film is kept moving.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Turning {
    /// The tank is turned over; the film stands in the bath.
    Inversion,
    /// The drum rolls; the film dips in and out.
    Rotary,
}

/// Whether a load can go into a tank.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Cover {
    /// With this volume at least.
    From(Volume),
    /// The tank does not take this film at all.
    NotThisFilm(Film),
    /// It would take more than the tank holds.
    TooMany(Volume),
}

impl Tank {
    /// The least volume that covers the load.
    pub fn cover(&self, load: &Load) -> Cover {
        let mut sum = Volume::ZERO;
        for film in Film::ALL {
            let count = load.count(film);
            if count == 0 {
                continue;
            }
            let (one, times) = match film {
                Film::Roll135 => (self.per_135, f64::from(count)),
                Film::Roll120 | Film::Roll220 => (self.per_120, f64::from(count)),
                Film::Sheet4x5 => (self.sheets_4x5, 1.0),
                Film::Sheet8x10 => (self.sheets_8x10, 1.0),
            };
            if one <= Volume::ZERO {
                return Cover::NotThisFilm(film);
            }
            sum = sum + one * times;
        }
        match self.brim.reaches(sum) {
            true => Cover::From(sum),
            false => Cover::TooMany(sum),
        }
    }
}
