//! Curves with their bands: one with a point on it, or several over one stretch, told apart by dashes and by a name at the end of
//! each line, not by colour.

use maud::{Markup, html};

use super::{at, text, widest};
use crate::sheet::NamedCurve;

/// Top and bottom of the field.
const TOP: f64 = 14.0;
const BOTTOM: f64 = 166.0;
/// Least distance between two names.
const LINE: f64 = 14.0;
/// Between an axis, or the end of a line, and what stands beside it.
const GAP: f64 = 9.0;

/// The field of a drawing: as wide as what stands beside it leaves.
struct Field {
    left: f64,
    right: f64,
    first: f64,
    last: f64,
    highest: f64,
}

impl Field {
    /// The field left of `right` for all of these points.
    fn of<'a>(points: impl Iterator<Item = &'a [f64; 4]>, ends: &[String; 4], right: f64) -> Self {
        let [first_end, _, lowest, highest] = ends;
        let beside = widest([lowest.as_str(), highest].into_iter()) + GAP;
        // The name of the first end stands across the corner.
        let below = widest([first_end.as_str()].into_iter()) / 2.0;
        let mut field = Self {
            left: beside.max(below).max(30.0),
            right,
            first: f64::INFINITY,
            last: f64::NEG_INFINITY,
            highest: f64::MIN_POSITIVE,
        };
        for point in points {
            field.first = field.first.min(point[0]);
            field.last = field.last.max(point[0]);
            field.highest = field.highest.max(point[3]);
        }
        field
    }

    fn x(&self, value: f64) -> f64 {
        self.left + (self.right - self.left) * (value - self.first) / (self.last - self.first).max(f64::MIN_POSITIVE)
    }

    fn y(&self, value: f64) -> f64 {
        BOTTOM - (BOTTOM - TOP) * value / self.highest
    }

    fn line(&self, points: &mut dyn Iterator<Item = (f64, f64)>) -> String {
        let steps: Vec<_> = points
            .map(|(x, y)| format!("{} {}", at(self.x(x)), at(self.y(y))))
            .collect();
        steps.join(" L")
    }

    fn band(&self, points: &[[f64; 4]]) -> Markup {
        let upper = self.line(&mut points.iter().map(|point| (point[0], point[3])));
        let lower = self.line(&mut points.iter().rev().map(|point| (point[0], point[1])));
        html! { path class="band" d={ "M" (upper) " L" (lower) " Z" } {} }
    }

    fn middle(&self, points: &[[f64; 4]], dash: &str) -> Markup {
        let middle = self.line(&mut points.iter().map(|point| (point[0], point[2])));
        html! { path class={ "line" (dash) } d={ "M" (middle) } {} }
    }

    fn axes(&self, across: &str, ends: &[String; 4]) -> Markup {
        let (left, right) = (self.left, self.right);
        html! {
            path class="axis" d={ "M" (at(left)) " " (at(TOP)) " V" (at(BOTTOM)) " H" (at(right)) } {}
            (text("number", left, BOTTOM + 18.0, "middle", &ends[0]))
            (text("number", right, BOTTOM + 18.0, "end", &ends[1]))
            (text("number", left - GAP, BOTTOM, "end", &ends[2]))
            (text("number", left - GAP, TOP + 8.0, "end", &ends[3]))
            (text("axis-name", (left + right) / 2.0, BOTTOM + 31.0, "middle", across))
        }
    }
}

/// One curve, the point of it that is used, and points that were given.
pub fn one(
    caption: &str,
    axes: &[String; 2],
    points: &[[f64; 4]],
    mark: (f64, f64),
    ends: &[String; 4],
    given: &[(f64, f64)],
) -> Markup {
    let mut field = Field::of(points.iter(), ends, 330.0);
    field.highest = given.iter().map(|point| point.1).fold(field.highest, f64::max);
    html! {
        svg viewBox="0 0 350 200" role="img" class="drawing curve" {
            title { (caption) }
            desc { (axes[1]) " over " (axes[0]) ", from " (ends[0]) " to " (ends[1]) "; the band is what assumptions leave open." }
            (field.band(points))
            (field.axes(&axes[0], ends))
            (field.middle(points, ""))
            path class="cover" d={ "M" (at(field.x(mark.0))) " " (at(BOTTOM)) " V" (at(field.y(mark.1))) " H" (at(field.left)) } {}
            @for &(x, y) in given { circle class="given" cx=(at(field.x(x))) cy=(at(field.y(y))) r="4" {} }
            circle class="point" cx=(at(field.x(mark.0))) cy=(at(field.y(mark.1))) r="6" {}
        }
    }
}

/// Several curves, their names to the right of the field.
pub fn several(caption: &str, axes: &[String; 2], curves: &[NamedCurve], ends: &[String; 4]) -> Markup {
    let names = widest(curves.iter().map(|curve| curve.label.as_str()));
    let all = curves.iter().flat_map(|curve| &curve.points);
    let given = || curves.iter().flat_map(|curve| &curve.given);
    let mut field = Field::of(all, ends, 370.0 - names - GAP);
    field.highest = given().map(|point| point.1).fold(field.highest, f64::max);
    let end = |curve: &NamedCurve| curve.points.last().map_or(BOTTOM, |point| field.y(point[2]));
    let tops: Vec<f64> = curves.iter().map(end).collect();
    html! {
        svg viewBox="0 0 370 200" role="img" class="drawing curves" {
            title { (caption) }
            desc {
                (axes[1]) " over " (axes[0]) ", from " (ends[0]) " to " (ends[1]) "; highest at the end first: "
                @for index in from_the_top(&tops) { (curves[index].label) "; " }
                "each with the band that is left open."
            }
            @for curve in curves { (field.band(&curve.points)) }
            (field.axes(&axes[0], ends))
            @for (index, curve) in curves.iter().enumerate() { (field.middle(&curve.points, dash(index))) }
            @for &(x, y) in given() { circle class="given" cx=(at(field.x(x))) cy=(at(field.y(y))) r="3" {} }
            @for (curve, y) in curves.iter().zip(apart(&tops)) {
                (text("number", field.right + 6.0, y + 4.0, "start", &curve.label))
            }
        }
    }
}

fn dash(index: usize) -> &'static str {
    match index {
        0 => "",
        1 => " second",
        _ => " third",
    }
}

/// Indices of the names, the highest first.
fn from_the_top(tops: &[f64]) -> Vec<usize> {
    let mut order: Vec<usize> = Vec::with_capacity(tops.len());
    for index in 0..tops.len() {
        let place = order.iter().position(|&other| tops[index] < tops[other]);
        order.insert(place.unwrap_or(order.len()), index);
    }
    order
}

/// Where the names stand, so that none covers another.
pub(super) fn apart(tops: &[f64]) -> Vec<f64> {
    let order = from_the_top(tops);
    let mut places = tops.to_vec();
    let mut floor = BOTTOM;
    for &index in order.iter().rev() {
        places[index] = places[index].min(floor);
        floor = places[index] - LINE;
    }
    places
}
