//! Where a series is going: its change in a month, and the days between which it meets its limit.

use super::{Charting, PLACES, text};
use crate::proof::control::{Edge, Meeting, NoTrend, Trend, When};
use crate::quantity::{Day, Units};
use crate::sheet::{Figure, Item};

/// A trend, and when it meets the limit that it goes to.
pub(super) struct Course {
    trend: Result<Trend, Untold>,
    /// `None` where no direction is told.
    meeting: Option<(Edge, Meeting)>,
}

/// Why no trend is told.
#[derive(Clone, Copy)]
enum Untold {
    NoDays,
    Because(NoTrend),
}

/// How far ahead is looked, in days: two years.
const AHEAD: u16 = 730;
/// Days of the change that is told.
const STRETCH: f64 = 30.0;

impl Course {
    pub fn of(charting: &Charting, today: Day) -> Self {
        let dated = charting.series.dated();
        let trend = match dated.is_empty() {
            true => Err(Untold::NoDays),
            false => Trend::fit(&dated).map_err(Untold::Because),
        };
        let told = trend.as_ref().ok().filter(|trend| trend.is_told());
        let meeting = told.and_then(|trend| {
            let rising = trend.per_day().value > 0.0;
            let ahead = charting.edges.iter().find(|edge| edge.above == rising);
            let edge = *ahead.or(charting.edges.first())?;
            Some((edge, trend.meets(edge, today, AHEAD)))
        });
        Self { trend, meeting }
    }

    /// The likely day, where there is one.
    pub fn headline(&self, today: Day) -> Option<Figure> {
        let (_, meeting) = self.meeting.as_ref()?;
        match meeting.likely {
            When::NotWithin => None,
            likely => Some(figure("meets", "Meets its limit", likely, today)),
        }
    }

    pub fn items(&self, charting: &Charting, today: Day, units: Units) -> Vec<Item> {
        let trend = match &self.trend {
            Ok(trend) => trend,
            Err(untold) => return vec![text(untold.sentence())],
        };
        if !trend.is_told() {
            return vec![text(
                "No direction can be told yet: what these tests show a level line could show by chance.",
            )];
        }
        let per_day = trend.per_day();
        let change = Figure::number(
            "change",
            "Change in 30 days",
            per_day.value * STRETCH,
            PLACES + 1,
            units,
        )
        .uncertain(per_day.standard_uncertainty * STRETCH, |spread| {
            units.number(spread, PLACES + 1)
        });
        let mut items = vec![Item::Figure(change)];
        let Some((edge, meeting)) = &self.meeting else {
            return items;
        };
        let dates = [
            ("meets_earliest", "Meets its limit, earliest", meeting.earliest),
            ("meets_likely", "Meets its limit, likely", meeting.likely),
            ("meets_latest", "Meets its limit, latest", meeting.latest),
        ];
        items.extend(dates.map(|(name, label, when)| Item::Figure(figure(name, label, when, today))));
        items.push(Item::Text(format!(
            "The limit that counts here is {}. The days are those of a straight line and of its band of nineteen in twenty; what bends \
             comes sooner or later than that, so test before the earliest day.",
            units.number(edge.at, PLACES)
        )));
        if charting.series.bottles > 1 {
            items.push(Item::Text(format!(
                "The tests are of {} bottles: each fresh one begins anew, so the line is that of the product and of your way to test.",
                charting.series.bottles
            )));
        }
        items
    }
}

impl Untold {
    fn sentence(self) -> &'static str {
        match self {
            Self::NoDays => {
                "Without days there is no trend. Write each value with its day, and the sheet says when it meets its limit."
            }
            Self::Because(NoTrend::TooFew) => {
                "Four tests are the least for a trend: with fewer nothing tells how far they scatter."
            }
            Self::Because(NoTrend::OneDay) => {
                "All tests are of one day: there is no time in which it could have moved."
            }
        }
    }
}

fn figure(name: &'static str, label: &'static str, when: When, today: Day) -> Figure {
    let far = today + i32::from(AHEAD);
    match when {
        When::On(day) => Figure::day(name, label, day, today),
        When::Past => Figure {
            shown: "already past".to_owned(),
            ..Figure::day(name, label, today, today)
        },
        When::NotWithin => Figure {
            shown: "not within two years".to_owned(),
            ..Figure::day(name, label, far, today)
        },
    }
}
