//! What one film says by itself: its figures, its speed, its drawing, and how its curve was found.

use super::{Curves, Film, number, read_off};
use crate::development::Parameter;
use crate::parts::{assumption, text};
use crate::proof::{
    CRITERION_DENSITY, CRITERION_EXPOSURE, CRITERION_WITHIN, CurveForm, SPEED_DENSITY, STOP, iso_degrees, iso_name,
    iso_speed,
};
use crate::quantity::Units;
use crate::sheet::{Figure, Item, NamedCurve, Picture};

/// Points of a drawn curve.
const PLACES: u32 = 40;
/// Base + fog that is known no better than this is said to be a guess.
const GUESSED: f64 = 0.05;

/// The figures to act on.
pub(super) fn headline(curves: &Curves, film: &Film, units: Units) -> Vec<Figure> {
    let curve = &film.curve;
    let mut figures = Vec::new();
    let mut push = |name: &'static str, label: &'static str, value| {
        figures.extend(Option::map(value, |value| read_off(name, label, &value, units)));
    };
    push("gamma", "Gamma", curve.gamma());
    push("average_gradient", "Average gradient", curve.average_gradient());
    push("base_fog", "Base + fog", curve.base());
    figures.extend(curves.absolute.then(|| speed_figure(film, units)).flatten());
    figures
}

fn speed_figure(film: &Film, units: Units) -> Option<Figure> {
    let point = film.curve.speed_point()?;
    let speed = iso_speed(point.value);
    let figure = Figure::number(
        "speed",
        "Speed, 0.8 / H",
        speed,
        if speed < 10.0 { 1 } else { 0 },
        units,
    );
    Some(match point.standard_uncertainty() {
        Some(u) => figure.uncertain(speed * std::f64::consts::LN_10 * u, |spread| {
            units.number(spread, if speed < 10.0 { 1 } else { 0 })
        }),
        None => figure,
    })
}

/// The drawing, and what else the first film shows.
pub(super) fn drawn(curves: &Curves, units: Units) -> Vec<Item> {
    let Some(first) = &curves.first else {
        return Vec::new();
    };
    let mut items = vec![Item::Picture(picture(curves, first, units))];
    items.extend(more(first, "", units));
    items.extend(cautions(first, units));
    items
}

/// The second film's figures.
pub(super) fn second(film: &Film, units: Units) -> Vec<Item> {
    let curve = &film.curve;
    let mut items = Vec::new();
    for (name, label, value) in [
        ("other_gamma", "Gamma", curve.gamma()),
        ("other_average_gradient", "Average gradient", curve.average_gradient()),
        ("other_base_fog", "Base + fog", curve.base()),
    ] {
        items.extend(value.map(|value| Item::Figure(read_off(name, label, &value, units))));
    }
    items.extend(more(film, "other_", units));
    items.extend(cautions(film, units));
    items
}

/// The contrast index, and what the average gradient was taken over.
fn more(film: &Film, prefix: &str, units: Units) -> Vec<Item> {
    let curve = &film.curve;
    let mut items = Vec::new();
    match curve.contrast_index() {
        Some(index) => items.push(Item::Figure(read_off(
            format!("{prefix}contrast_index"),
            "Contrast index",
            &index,
            units,
        ))),
        None => items.push(text("The steps do not reach both arcs of the contrast index.")),
    }
    if let (Some(base), Some(rise)) = (curve.base(), curve.criterion()) {
        let low = base.value + SPEED_DENSITY;
        let (low, high) = (units.number(low, 2), units.number(low + rise.value, 2));
        items.push(Item::Text(match prefix {
            "" => format!(
                "The average gradient goes from density {low} to {high}: from {} above base + fog over {} of log exposure. The \
                 standard's own contrast gives {}.",
                units.number(SPEED_DENSITY, 2),
                units.number(CRITERION_EXPOSURE, 2),
                units.number(CRITERION_DENSITY / CRITERION_EXPOSURE, 3)
            ),
            _ => format!("Here the average gradient goes from density {low} to {high}."),
        }));
    }
    items
}

fn cautions(film: &Film, units: Units) -> Vec<Item> {
    let curve = &film.curve;
    let mut texts = Vec::new();
    if film.left_out > 0 {
        texts.push(format!("Only the first {} steps are used.", film.steps.len()));
    }
    let unsure = curve
        .base()
        .and_then(|base| base.standard_uncertainty())
        .is_none_or(|u| u > GUESSED);
    if !film.base_read && (curve.starts_on_the_rise() || unsure) {
        texts.push(
            "The steps begin on the rise, so base + fog is little more than a guess, and the speed with it. Read a part of the film \
             that saw no light, and type it."
                .to_owned(),
        );
    }
    if curve.stops_in_the_toe() {
        texts.push("The steps end before the straight line. Gamma would be more; give more exposure.".to_owned());
    }
    if curve.form() == CurveForm::ThroughReadings {
        texts.push(format!(
            "No smooth curve of toe, straight line and shoulder lies near enough to these readings, so the curve goes through the \
             readings themselves, and gamma is the steepest {} of log exposure. Look for a step that was read or exposed wrong.",
            units.number(0.6, 1)
        ));
    }
    texts.into_iter().map(Item::Caution).collect()
}

/// Speed by ISO 6, or why there is none.
pub(super) fn speed(curves: &Curves, film: &Film, units: Units) -> Vec<Item> {
    let curve = &film.curve;
    let tenth = units.number(SPEED_DENSITY, 2);
    let Some(point) = curve.speed_point() else {
        let first = curve.density(curve.ends().0).zip(curve.base());
        let above = first.is_some_and(|(density, base)| density.value > base.value + SPEED_DENSITY);
        return vec![Item::Text(match above {
            true => format!(
                "Step 1 is already more than {tenth} above base + fog, so the speed point lies before it. Give less exposure."
            ),
            false => format!("No step is {tenth} above base + fog, so there is no speed point. Give more exposure."),
        })];
    };
    let label = "Log exposure of the speed point";
    let mut items = vec![Item::Figure(read_off("speed_point", label, &point, units))];
    let degrees = iso_degrees(iso_speed(point.value));
    if curves.absolute {
        let figure = Figure::number("degrees", "In degrees", degrees, 1, units);
        items.push(Item::Figure(match point.standard_uncertainty() {
            Some(u) => figure.uncertain(10.0 * u, |spread| units.number(spread, 1)),
            None => figure,
        }));
    }
    items.extend(criterion(film, iso_name(degrees).filter(|_| curves.absolute), units));
    if !curves.absolute {
        items.push(text(
            "The exposures are only relative, so there is no absolute speed. Type the log exposure of step 1 in lx s to have it.",
        ));
    }
    if let Some(other) = curves.other.as_ref().and_then(|other| other.curve.speed_point()) {
        let u = point.standard_uncertainty().zip(other.standard_uncertainty());
        items.push(Item::Figure(number(
            "speed_difference",
            "The second film is faster by, stops",
            (point.value - other.value) / STOP,
            u.map(|(one, other)| one.hypot(other) / STOP),
            units,
        )));
    }
    items
}

/// Whether the contrast is that of the standard, so that the speed of that name is an ISO speed.
fn criterion(film: &Film, name: Option<String>, units: Units) -> Vec<Item> {
    let stretch = units.number(CRITERION_EXPOSURE, 2);
    let Some(rise) = film.curve.criterion() else {
        return vec![Item::Text(format!(
            "The steps end less than {stretch} beyond the speed point, so it cannot be told whether the contrast is that of the \
             standard, and a speed an ISO speed. Give more exposure, or more steps."
        ))];
    };
    let off = rise.value - CRITERION_DENSITY;
    let unsure = rise
        .standard_uncertainty()
        .is_none_or(|u| (off.abs() - CRITERION_WITHIN).abs() < 2.0 * u);
    let unsure = if unsure { ", as far as these readings tell" } else { "" };
    let said = match off.abs() <= CRITERION_WITHIN {
        true => {
            let name = name.map(|name| format!(": {name}"));
            format!(
                "The contrast is that of the standard{unsure}{}.",
                name.unwrap_or_default()
            )
        }
        false => {
            let (much, shorter) = if off > 0.0 {
                ("high", "shorter")
            } else {
                ("low", "longer")
            };
            let name = name.map(|name| format!(" By the same rule it would be {}.", name.trim_start_matches("ISO ")));
            format!(
                "The contrast is too {much} for an ISO speed{unsure}: the standard wants {} ± {}. Develop {shorter} for that.{}",
                units.number(CRITERION_DENSITY, 2),
                units.number(CRITERION_WITHIN, 2),
                name.unwrap_or_default()
            )
        }
    };
    let label = format!("Density over {stretch} from there");
    vec![
        Item::Figure(read_off("criterion", label, &rise, units)),
        Item::Text(said),
    ]
}

fn picture(curves: &Curves, first: &Film, units: Units) -> Picture {
    let gamma = |film: &Film| {
        film.curve
            .gamma()
            .map_or(String::new(), |gamma| units.number(gamma.value, 2))
    };
    let (mut films, mut caption) = (
        vec![named(first, "first")],
        format!("Density over log exposure: gamma {}", gamma(first)),
    );
    if let Some(other) = &curves.other {
        films.push(named(other, "second"));
        caption.push_str(&format!(", the second film {}", gamma(other)));
    } else {
        films[0].label = "the film".to_owned();
    }
    let all = || films.iter().flat_map(|film| &film.points);
    let highest = all().map(|point| point[3]).fold(0.0, f64::max);
    let highest = films
        .iter()
        .flat_map(|film| &film.given)
        .map(|point| point.1)
        .fold(highest, f64::max);
    let left = all().map(|point| point[0]).fold(f64::INFINITY, f64::min);
    let right = all().map(|point| point[0]).fold(f64::NEG_INFINITY, f64::max);
    Picture::Curves {
        caption,
        axes: ["log exposure".to_owned(), "density".to_owned()],
        ends: [
            units.number(left, 2),
            units.number(right, 2),
            "0".to_owned(),
            units.number(highest, 2),
        ],
        curves: films,
    }
}

fn named(film: &Film, label: &str) -> NamedCurve {
    let (first, last) = film.curve.ends();
    let point = |place: u32| {
        let exposure = first + (last - first) * f64::from(place) / f64::from(PLACES);
        let density = film.curve.density(exposure)?;
        let spread = 2.0 * density.standard_uncertainty().unwrap_or(0.0);
        Some([
            exposure,
            (density.value - spread).max(0.0),
            density.value,
            density.value + spread,
        ])
    };
    NamedCurve {
        label: label.to_owned(),
        points: (0..=PLACES).filter_map(point).collect(),
        given: film.steps.clone(),
    }
}

/// How the first film's curve was found.
pub(super) fn fitted(film: &Film, units: Units) -> Vec<Item> {
    let shape = match film.curve.form() {
        CurveForm::ToeAndLine => {
            "A toe that runs into a straight line explains the readings; a shoulder would add nothing."
        }
        CurveForm::Bend => {
            "One bend from toe to shoulder explains the readings; a straight line between would add nothing."
        }
        CurveForm::Shoulder => "A toe, a straight line and a shoulder explain the readings.",
        CurveForm::ThroughReadings => "A smooth curve that never falls goes through the readings.",
    };
    vec![
        text(shape),
        Item::Figure(Figure::number(
            "scatter",
            "The readings lie about the curve to",
            film.curve.scatter(),
            3,
            units,
        )),
        text(
            "Every ± comes from how well a reading repeats, or from how the readings lie about the curve, whichever is more. A \
             densitometer that reads everything too high by the same share makes every contrast too high by that share, and no ± shows it.",
        ),
    ]
}

/// The error of a reading, where nobody said it.
pub(super) fn reading_assumption(reading: Parameter, units: Units) -> Vec<Item> {
    let figure = Figure::number(
        "assumed_reading",
        "A reading's standard uncertainty",
        reading.value,
        3,
        units,
    );
    assumption(figure, reading, "reading", units).into_iter().collect()
}
