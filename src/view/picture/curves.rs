//! Several curves over one stretch: told apart by dashes and by a name at the end of each line, not by colour.

use maud::{Markup, html};

use super::at;
use crate::sheet::NamedCurve;

/// Left, right, top and bottom of the field; the names stand to the right of it.
const FIELD: [f64; 4] = [46.0, 262.0, 14.0, 166.0];
/// Least distance between two names.
const LINE: f64 = 14.0;

/// The drawing.
pub fn draw(caption: &str, axes: &[String; 2], curves: &[NamedCurve], ends: &[String; 4]) -> Markup {
    let [left, right, top, bottom] = FIELD;
    let all = || curves.iter().flat_map(|curve| &curve.points);
    let first = all().map(|point| point[0]).fold(f64::INFINITY, f64::min);
    let last = all().map(|point| point[0]).fold(f64::NEG_INFINITY, f64::max);
    let highest = all().map(|point| point[3]).fold(f64::MIN_POSITIVE, f64::max);
    let x = |value: f64| left + (right - left) * (value - first) / (last - first).max(f64::MIN_POSITIVE);
    let y = |value: f64| bottom - (bottom - top) * value / highest;
    let line = |points: &mut dyn Iterator<Item = (f64, f64)>| {
        let steps: Vec<_> = points.map(|(px, py)| format!("{} {}", at(x(px)), at(y(py)))).collect();
        steps.join(" L")
    };
    let tops: Vec<f64> = curves
        .iter()
        .map(|curve| curve.points.last().map_or(bottom, |point| y(point[2])))
        .collect();
    html! {
        svg viewBox="0 0 370 200" role="img" class="drawing curves" {
            title { (caption) }
            desc {
                (axes[1]) " over " (axes[0]) ", from " (ends[0]) " to " (ends[1]) "; highest at the end first: "
                @for index in from_the_top(&tops) { (curves[index].label) "; " }
                "each with the band that assumptions leave open."
            }
            @for curve in curves {
                @let upper = line(&mut curve.points.iter().map(|p| (p[0], p[3])));
                @let lower = line(&mut curve.points.iter().rev().map(|p| (p[0], p[1])));
                path class="band" d={ "M" (upper) " L" (lower) " Z" } {}
            }
            path class="axis" d={ "M" (at(left)) " " (at(top)) " V" (at(bottom)) " H" (at(right)) } {}
            @for (index, curve) in curves.iter().enumerate() {
                path class={ "line" (dash(index)) } d={ "M" (line(&mut curve.points.iter().map(|p| (p[0], p[2])))) } {}
            }
            @for (curve, y) in curves.iter().zip(apart(&tops)) {
                text class="number" x=(at(right + 6.0)) y=(at(y + 4.0)) { (curve.label) }
            }
            text class="number" x=(at(left)) y="184" text-anchor="middle" { (ends[0]) }
            text class="number" x=(at(right)) y="184" text-anchor="end" { (ends[1]) }
            text class="number" x=(at(left - 5.0)) y=(at(bottom)) text-anchor="end" { (ends[2]) }
            text class="number" x=(at(left - 5.0)) y=(at(top + 8.0)) text-anchor="end" { (ends[3]) }
            text class="axis-name" x=(at((left + right) / 2.0)) y="197" text-anchor="middle" { (axes[0]) }
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
fn apart(tops: &[f64]) -> Vec<f64> {
    let order = from_the_top(tops);
    let mut places = tops.to_vec();
    let mut floor = FIELD[3];
    for &index in order.iter().rev() {
        places[index] = places[index].min(floor);
        floor = places[index] - LINE;
    }
    places
}
