//! Film by format, and how much of it there is in film units.

use crate::quantity::{Area, FILM_UNIT};

/// A format of film.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Film {
    /// 135, 36 exposures.
    Roll135,
    /// 120.
    Roll120,
    /// 220, twice the length of 120.
    Roll220,
    /// A 4 x 5 in sheet.
    Sheet4x5,
    /// An 8 x 10 in sheet.
    Sheet8x10,
}

/// What is developed together.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Load {
    /// How many of each, in the order of [`Film::ALL`].
    counts: [u32; 5],
}

impl Film {
    /// Every format.
    pub const ALL: [Self; 5] = [
        Self::Roll135,
        Self::Roll120,
        Self::Roll220,
        Self::Sheet4x5,
        Self::Sheet8x10,
    ];

    /// Film units of one: by the trade's rule of 80 square inches, one for 135-36 and for 120 (common practice, no source),
    /// two for 220, and by area for sheets.
    pub fn units(self) -> f64 {
        match self {
            Self::Roll135 | Self::Roll120 => 1.0,
            Self::Roll220 => 2.0,
            Self::Sheet4x5 => Area::from_inches(4.0, 5.0) / FILM_UNIT,
            Self::Sheet8x10 => Area::from_inches(8.0, 10.0) / FILM_UNIT,
        }
    }

    /// As it is said, one or many.
    pub fn label(self) -> &'static str {
        match self {
            Self::Roll135 => "135",
            Self::Roll120 => "120",
            Self::Roll220 => "220",
            Self::Sheet4x5 => "4x5 in",
            Self::Sheet8x10 => "8x10 in",
        }
    }

    /// Whether it is cut in sheets, and not a roll.
    pub fn is_sheet(self) -> bool {
        matches!(self, Self::Sheet4x5 | Self::Sheet8x10)
    }
}

impl FromIterator<(Film, u32)> for Load {
    fn from_iter<T: IntoIterator<Item = (Film, u32)>>(films: T) -> Self {
        let mut load = Self::default();
        for (film, count) in films {
            load.counts[film as usize] += count;
        }
        load
    }
}

impl std::iter::Sum for Load {
    fn sum<I: Iterator<Item = Self>>(loads: I) -> Self {
        loads.flat_map(|load| Film::ALL.into_iter().zip(load.counts)).collect()
    }
}

impl Load {
    /// So many of each, in the order of [`Film::ALL`].
    pub fn new(counts: [u32; 5]) -> Self {
        Self { counts }
    }

    /// So many of one format.
    pub fn of(film: Film, count: u32) -> Self {
        let mut load = Self::default();
        load.counts[film as usize] = count;
        load
    }

    /// How many of one format.
    pub fn count(&self, film: Film) -> u32 {
        self.counts[film as usize]
    }

    /// How many films and sheets in all.
    pub fn pieces(&self) -> u32 {
        self.counts.iter().sum()
    }

    /// All of it in film units.
    pub fn units(&self) -> f64 {
        Film::ALL
            .iter()
            .map(|&film| f64::from(self.count(film)) * film.units())
            .sum()
    }

    /// The one format of it, if all is of one.
    pub fn only_format(&self) -> Option<Film> {
        let mut formats = Film::ALL.into_iter().filter(|&film| self.count(film) > 0);
        formats.next().filter(|_| formats.next().is_none())
    }

    /// Whether there is nothing to develop.
    pub fn is_empty(&self) -> bool {
        self.pieces() == 0
    }

    /// In words: `2 × 135 and 1 × 120`.
    pub fn words(&self) -> String {
        let parts: Vec<_> = Film::ALL
            .iter()
            .filter(|&&film| self.count(film) > 0)
            .map(|&film| format!("{} × {}", self.count(film), film.label()))
            .collect();
        match parts.is_empty() {
            true => "no film".to_owned(),
            false => parts.join(" and "),
        }
    }
}
