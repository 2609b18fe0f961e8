//! What lies ahead of a bottle, said: dates with their bands, and the curves that lead to them.

use super::judging::Judging;
use super::lives::lives_assumed;
use super::usage::How;
use super::vessel::Vessel;
use super::{assumption_of, text};
use crate::development::Parameter;
use crate::keeping::{CurvePoint, Dates, Forecast, Life, Limits, Pace, Seal, State, forecast};
use crate::quantity::{Day, Units, Volume};
use crate::sheet::{Figure, Item, Picture};
use crate::uncertainty::Random;

/// Any seed would do; one that stays gives the same dates for the same bottle.
const SEED: u64 = 1839;
/// The horizon of a forecast, for people.
const HORIZON: &str = "ten years";

/// The forecast, where the form says how the bottle is used, and where there is anything left to use.
pub fn look_ahead(vessel: &Vessel, judging: &Judging, life: &Life) -> Option<Forecast> {
    let discarded = vessel.bottle.is_some_and(|bottle| bottle.discarded.is_some());
    let nothing = life.last().content <= Volume::ZERO;
    if discarded || nothing || judging.use_of_it.how == How::Unread {
        return None;
    }
    let case = judging.grounds.case(life, &vessel.assumptions);
    Some(forecast(&case, judging.use_of_it.pace.as_ref(), &mut Random::new(SEED)))
}

/// The two dates to plan by.
pub fn dates_ahead(forecast: &Forecast, state: State, today: Day) -> Vec<Figure> {
    let mut figures = Vec::new();
    if state != State::TestFirst {
        figures.extend(band("test_first", "Test first from", &forecast.test_first, today));
    }
    figures.extend(band("empty", "Empty by", &forecast.empty, today));
    figures
}

/// The curves, and how likely a test is asked for before the bottle is empty.
pub fn ahead(forecast: &Forecast, life: &Life, state: State, judging: &Judging, units: Units) -> Vec<Item> {
    let today = life.today();
    let unopened = life.last().seal == Seal::Unopened;
    let pace = judging.use_of_it.pace.as_ref().filter(|_| !unopened);
    let mut items = vec![Item::Text(said(forecast, state, pace.is_some()))];
    if unopened {
        items.push(text("It is unopened, and taken to stay so."));
    }
    if let Some(days) = pace.map(Pace::interval) {
        let how = match judging.use_of_it.how {
            How::FromPast => "Taken from once in, as until now",
            How::Stated => "Taken from once in, as you say",
            _ => "Taken from once in, as nobody said otherwise",
        };
        items.push(Item::Figure(Figure::period("interval", how, days, units).assumed()));
    }
    if !matches!(state, State::Failed | State::Unknown) {
        let label = "Futures in which a test is asked for before it is empty";
        items.push(Item::Figure(
            Figure::percent("asked_before_empty", label, forecast.asked_before_empty, units).assumed(),
        ));
        let first = forecast.test_first.middle.unwrap_or(today);
        let caption = "How near a voice is to asking for a test; at 1 it asks";
        items.extend(curve(&forecast.wear, caption, first, today, &|value| {
            units.number(value, 2)
        }));
    }
    if pace.is_some() {
        items.extend(curve(&forecast.left, "Liquid left in it", today, today, &|value| {
            units.volume(Volume::from_millilitres(value))
        }));
    }
    items.push(Item::Figure(Figure::number(
        "draws",
        "Futures tried, each with its own choice of all that nobody measured",
        forecast.draws as f64,
        0,
        units,
    )));
    items
}

/// Lives, limits and the pace that nobody stated.
pub fn unstated(vessel: &Vessel, judging: &Judging, units: Units) -> Vec<Item> {
    let period = |name, label, parameter: Parameter, field| {
        let figure = Figure::period(name, label, parameter.value, units);
        assumption_of(figure, parameter, field, &|days| units.period(days))
    };
    let percent = |name, label, parameter: Parameter, field| {
        let figure = Figure::percent(name, label, parameter.value, units);
        assumption_of(figure, parameter, field, &|share| units.percent(share))
    };
    let mut items = lives_assumed(&vessel.assumptions, units);
    items.extend(judging.use_of_it.assumed(units));
    let Limits {
        agent,
        sulfite,
        hot_days,
        recent_days,
        life_since,
        air_since,
    } = judging.grounds.limits;
    let limits = [
        percent(
            "assumed_limit_agent",
            "The air asks from, of the agent",
            agent,
            "limit_agent",
        ),
        percent(
            "assumed_limit_sulfite",
            "The air asks from, of the preservative",
            sulfite,
            "limit_sulfite",
        ),
        period("assumed_limit_hot", "The heat asks after", hot_days, "limit_hot"),
        period(
            "assumed_limit_proof",
            "A test proves it for",
            recent_days,
            "limit_proof",
        ),
        percent(
            "assumed_limit_life",
            "Or until it has used, of its life",
            life_since,
            "limit_life",
        ),
        percent(
            "assumed_limit_air",
            "Or until the air has done, of what asks",
            air_since,
            "limit_air",
        ),
    ];
    items.extend(limits.into_iter().flatten());
    items
}

fn said(forecast: &Forecast, state: State, used: bool) -> String {
    match state {
        State::Unknown => "Nothing is known that would ask for a test in time.".to_owned(),
        State::Failed => "It failed its test: only how fast it would be used is shown.".to_owned(),
        State::TestFirst => "A voice asks for a test now; until one is made nothing ahead changes that.".to_owned(),
        _ if forecast.asked_before_empty < 0.5 && used => {
            "At this pace it is most likely used up before a test is asked for.".to_owned()
        }
        _ if forecast.asked_before_empty < 0.5 => format!("Most likely no test is asked for within {HORIZON}."),
        _ if used => {
            "At this pace a test is most likely asked for before it is empty: use it up sooner, decant it, or plan the test."
                .to_owned()
        }
        _ => "It only stands; a test will be asked for in time.".to_owned(),
    }
}

/// The middle date with the dates of one in twenty and of nineteen in twenty; nothing where it does not come to it.
fn band(name: &'static str, label: &'static str, dates: &Dates, today: Day) -> Option<Figure> {
    let middle = dates.middle?;
    let late = dates.late.map_or(format!("after {HORIZON}"), |day| day.to_string());
    let early = dates.early.unwrap_or(today).to_string();
    Some(Figure::day(name, label, middle, today).between(&early, &late).assumed())
}

/// A curve over the days to come, with its middle marked on a day; nothing where there is no height to draw.
fn curve(points: &[CurvePoint], caption: &str, marked: Day, today: Day, show: &dyn Fn(f64) -> String) -> Option<Item> {
    let (first, last) = (points.first()?, points.last()?);
    let highest = points.iter().map(|point| point.high).fold(0.0, f64::max);
    if highest <= 0.0 || last.day <= first.day {
        return None;
    }
    let days = |day: Day| f64::from(day - today);
    let marked = marked.min(last.day).max(first.day);
    let after = points.iter().position(|point| point.day >= marked).unwrap_or(0);
    let (one, other) = (&points[after.saturating_sub(1)], &points[after]);
    let between = match other.day > one.day {
        true => f64::from(marked - one.day) / f64::from(other.day - one.day),
        false => 0.0,
    };
    let height = one.middle + (other.middle - one.middle) * between;
    Some(Item::Picture(Picture::Curve {
        caption: format!("{caption}: {} on {marked}", show(height)),
        axes: ["day".to_owned(), caption.to_owned()],
        points: points
            .iter()
            .map(|point| [days(point.day), point.low, point.middle, point.high])
            .collect(),
        mark: (days(marked), height),
        ends: [first.day.to_string(), last.day.to_string(), show(0.0), show(highest)],
        given: Vec::new(),
    }))
}
