//! How a bottle is used: as the form says, as the draws of its product on the shelf tell, or as is assumed.

use super::assumption_of;
use super::trust::of_product;
use crate::chemistry::Guess;
use crate::darkroom::Darkroom;
use crate::development::Parameter;
use crate::fields::{self, Form};
use crate::keeping::Pace;
use crate::ledger::{Bottle, Opened};
use crate::quantity::{Day, Units, Volume};
use crate::sheet::{Figure, Item};

/// How a bottle is used.
pub struct Use {
    /// How that is known.
    pub how: How,
    /// The pace, if it is used at all.
    pub pace: Option<Pace>,
    /// Whether nobody said how much is taken at a time.
    draw_assumed: bool,
}

/// How it is known how a bottle is used.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum How {
    /// It only stands, as the form says.
    Stands,
    /// As the form says.
    Stated,
    /// As draws tell, or as its openings and what is gone do.
    FromPast,
    /// Nobody said how often.
    Assumed,
    /// The form cannot be read.
    Unread,
}

/// A usual draw where nobody says (an assumption), in millilitres. The ends are those of one in twenty and of nineteen in twenty of
/// the draws that a forecast tries then.
pub(super) const USUAL_DRAW: Guess = Guess {
    value: 20.0,
    least: 4.0,
    most: 36.0,
    why: "nothing is known of how much you take at a time; a tank or two of a thin bath",
};

impl Use {
    /// Reads how it is used. What is typed stands before what the shelf tells, and that before what the form describes: days from
    /// one opening to the next, how many there were, and what each took.
    pub fn read(
        form: &mut Form,
        bottle: Option<&Bottle>,
        described: Option<(f64, u32, Volume)>,
        darkroom: &Darkroom,
    ) -> Self {
        let draw = form.read(&fields::DRAW);
        let every = form.read(&fields::EVERY);
        let unused = |how| Self {
            how,
            pace: None,
            draw_assumed: false,
        };
        if form.at_fault("draw") || form.at_fault("every") {
            return unused(How::Unread);
        }
        if draw == Some(Volume::ZERO) {
            return unused(How::Stands);
        }
        let past = bottle.map(|bottle| past(bottle, darkroom));
        let drawn = past.filter(|past| past.draws() > 0);
        let each = drawn.map(|past| past.volume()).or(described.map(|(.., each)| each));
        let known = draw.or(each);
        let usual = known.unwrap_or(Volume::from_millilitres(USUAL_DRAW.value));
        let (how, pace) = match (every, drawn, described) {
            (Some(days), ..) => (How::Stated, Pace::stated(days, usual)),
            (None, Some(past), _) => (How::FromPast, past.taking(usual)),
            (None, None, Some((days, openings, _))) => (How::FromPast, Pace::even(days, usual, openings as usize)),
            (None, None, None) => (How::Assumed, past.unwrap_or(Pace::unknown()).taking(usual)),
        };
        Self {
            how,
            pace: Some(pace),
            draw_assumed: known.is_none(),
        }
    }

    /// What was assumed of it.
    pub fn assumed(&self, units: Units) -> Vec<Item> {
        let mut items = Vec::new();
        let Some(pace) = &self.pace else { return items };
        if self.how == How::Assumed {
            let interval = Parameter::given_or(None, unknown_interval(pace.interval()));
            let figure = Figure::period("assumed_interval", "Taken from once in", interval.value, units);
            items.extend(assumption_of(figure, interval, "every", &|days| units.period(days)));
        }
        if self.draw_assumed {
            let show = |draw| units.volume(Volume::from_millilitres(draw));
            let figure = Figure::volume("assumed_draw", "Taken at a time", pace.volume(), units);
            items.extend(assumption_of(
                figure,
                Parameter::given_or(None, USUAL_DRAW),
                "draw",
                &show,
            ));
        }
        items
    }
}

/// How a bottle's product was drawn on the shelf, since the first of it was opened there.
pub(super) fn past(bottle: &Bottle, darkroom: &Darkroom) -> Pace {
    let mut draws: Vec<(Day, Volume)> = Vec::new();
    let mut since = darkroom.today();
    for one in of_product(&darkroom.shelf, bottle) {
        draws.extend(one.draws.iter().map(|draw| (draw.day, draw.volume)));
        // What was drawn before it came nobody wrote down.
        since = since.min(match one.opened {
            Opened::Never => since,
            Opened::On(day) => day.max(one.since),
            Opened::SomeDay | Opened::NotKnown => one.since,
        });
    }
    let first = draws.iter().map(|(day, _)| *day).min();
    since = since.min(first.unwrap_or(since));
    Pace::from_draws(&draws, since, darkroom.today(), Volume::ZERO)
}

/// Between draws of which nothing is known: an exponential rate about the mean, from one in twenty to nineteen in twenty.
fn unknown_interval(mean: f64) -> Guess {
    Guess {
        value: mean,
        least: mean / -0.05_f64.ln(),
        most: mean / -0.95_f64.ln(),
        why: "nothing is known of how often you take from it",
    }
}
