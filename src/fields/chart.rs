//! The fields of the control chart: what is measured, its values, and what they are held against.

use super::kinds::{Choice, Numbers};
use super::lists::{pieces, short};
use super::{Field, Kind};
use crate::proof::control::Measure;
use crate::quantity::bounds::Bounds;
use crate::quantity::{Day, DayError, Units, read};

/// One value of a test.
const VALUE: Bounds = Bounds {
    what: "a value",
    least: 0.0,
    most: 6.0,
    why: "as strengths and densities are",
};
/// Where it should be.
const LEVEL: Bounds = Bounds {
    what: "the target",
    ..VALUE
};
/// The scatter of one value.
const SCATTER: Bounds = Bounds {
    what: "the scatter",
    least: 0.001,
    most: 1.0,
    why: "less nobody reads, more is no test",
};
/// What is not to be passed.
const LIMIT: Bounds = Bounds {
    what: "the limit",
    least: 0.005,
    most: 3.0,
    why: "a least strength, or so much off a density",
};
/// Weight of the newest value.
const WEIGHT: Bounds = Bounds {
    what: "the weight",
    least: 0.05,
    most: 1.0,
    why: "1 forgets all but the last value",
};
/// What a sum forgives each value.
const SLACK: Bounds = Bounds {
    what: "the slack",
    least: 0.1,
    most: 3.0,
    why: "half of the move that is looked for",
};
/// From where on a sum signals.
const FAR: Bounds = Bounds {
    what: "the sum",
    least: 1.0,
    most: 20.0,
    why: "less cries wolf, more sleeps",
};

/// What is measured; clearing times of a fixer, clips of any other, where nothing is said.
pub const MEASURE: Field<Choice<Measure>> = Field::new("measure", "What is measured", Choice(&Measure::ALL));
/// Values that no shelf knows.
pub const VALUES: Field<Series> =
    Field::new("values", "Values", Series).starting("1.02; 0.98; 1.01; 0.97; 1; 1.03; 0.96; 0.99; 0.95; 0.97");
/// Where it should be; 1 for a strength, for a density the mean of the first five, where nothing is said.
pub const TARGET: Field<Numbers> = Field::number("target", "Target", &LEVEL);
/// What is not to be passed; by the measure where nothing is said.
pub const EDGE: Field<Numbers> = Field::number("limit", "Limit", &LIMIT);
/// Standard deviation of one value; by the moving range where nothing is said.
pub const SIGMA: Field<Numbers> = Field::number("sigma", "One test scatters by", &SCATTER);
/// Weight of the newest value in the moving average.
pub const LAMBDA: Field<Numbers> = Field::number("lambda", "Weight of the newest (EWMA, λ)", &WEIGHT).initial("0.2");
/// What a cumulative sum forgives each value, in standard deviations.
pub const CUSUM_K: Field<Numbers> = Field::number("cusum_k", "Slack of the sums (CUSUM, k)", &SLACK).initial("0.5");
/// From where on a cumulative sum signals, in standard deviations.
pub const CUSUM_H: Field<Numbers> = Field::number("cusum_h", "The sums speak from (h)", &FAR).initial("4");

/// A field for a series of values, each with its day or none with one.
///
/// ```
/// use meniscus::fields::{Kind, Series};
/// use meniscus::quantity::Units;
///
/// let read = |text| Series.read(text, Units::default());
/// let dated = read("2026-03-01 1.32\n2026-03-08: 1,30").expect("two values");
/// assert_eq!((dated[1].1, dated[1].0.map(|day| day.to_string())), (1.3, Some("2026-03-08".to_owned())));
/// assert_eq!(read("0.98 1.01; 1").expect("three values").len(), 3);
/// assert_eq!(read("2026-03-01 1; 2").unwrap_err(), "some values have a day and some have none; write a day at each, or at none");
/// ```
#[derive(Clone, Copy)]
pub struct Series;

/// Values that one list may hold.
const MOST_VALUES: usize = 200;

impl Kind for Series {
    type Value = Vec<(Option<Day>, f64)>;

    fn read(&self, text: &str, units: Units) -> Result<Self::Value, String> {
        let mut all = Vec::new();
        for piece in pieces(text) {
            let words: Vec<&str> = piece.split_whitespace().collect();
            let number = |word: &str| read::number(word, &VALUE, units).map_err(|error| error.to_string());
            let is_dated = words
                .first()
                .is_some_and(|word| word.find('-').is_some_and(|at| at > 0));
            if is_dated {
                let &[day, value] = &words[..] else {
                    return Err(format!(
                        "“{}” is not a day and its value; write {}",
                        short(piece),
                        example(units)
                    ));
                };
                let day = day.trim_end_matches([':', ',']);
                let day: Day = day.parse().map_err(|error: DayError| error.to_string())?;
                all.push((Some(day), number(value)?));
            } else {
                for word in words {
                    all.push((None, number(word)?));
                }
            }
            if all.len() > MOST_VALUES {
                return Err(format!("a chart takes up to {MOST_VALUES} values"));
            }
        }
        let dated = all.iter().filter(|(day, _)| day.is_some()).count();
        match dated == 0 || dated == all.len() {
            true => Ok(all),
            false => Err("some values have a day and some have none; write a day at each, or at none".to_owned()),
        }
    }

    fn takes(&self, units: Units) -> String {
        format!("one a line: {}; or the values alone", example(units))
    }
}

fn example(units: Units) -> String {
    format!("2026-03-01 {}", units.number(1.32, 2))
}
