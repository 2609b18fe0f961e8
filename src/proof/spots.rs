//! Tests by a colour: a stop bath by its indicator or its pH, film by a drop that shows silver or thiosulfate left in it.
//!
//! The eye tells sound from spoilt, and little between. What the colours mean is common practice; where a figure has a source, it
//! stands beside it.

/// What a colour, or a pH, says.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Spot {
    /// As it should be.
    Sound,
    /// It still works, and not for long; or it cannot be told.
    Doubtful,
    /// Not as it should be.
    Spoilt,
}

/// A colour of the indicator in a stop bath.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Indicator {
    /// Yellow: acid.
    Yellow,
    /// Between the two.
    Between,
    /// Purple: no longer acid enough.
    Purple,
}

/// The stain that a drop leaves on film.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stain {
    /// None at all.
    None,
    /// Hardly seen on white paper.
    Faint,
    /// Plainly seen.
    Plain,
}

/// Bromocresol purple, the usual indicator, is yellow up to this pH (indicator tables, from memory).
pub const YELLOW_UP_TO: f64 = 5.2;
/// A stop bath is spent from about this pH on: 5.5 to 6 (from memory).
pub const SPENT_FROM: f64 = 5.5;

/// A stop bath by the colour of its indicator.
///
/// Between yellow and purple, from pH 5.2 to 6.8, the bath is about to be spent or is so already: the colour does not tell.
pub fn by_indicator(colour: Indicator) -> Spot {
    match colour {
        Indicator::Yellow => Spot::Sound,
        Indicator::Between => Spot::Doubtful,
        Indicator::Purple => Spot::Spoilt,
    }
}

/// A stop bath by its pH, from 0 to 14.
pub fn by_ph(ph: f64) -> Spot {
    match ph {
        ph if ph <= YELLOW_UP_TO => Spot::Sound,
        ph if ph < SPENT_FROM => Spot::Doubtful,
        _ => Spot::Spoilt,
    }
}

/// Film by the stain of a drop, for silver or for thiosulfate.
pub fn by_stain(stain: Stain) -> Spot {
    match stain {
        Stain::None => Spot::Sound,
        Stain::Faint => Spot::Doubtful,
        Stain::Plain => Spot::Spoilt,
    }
}
