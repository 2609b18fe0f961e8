//! A series of values with its smoothed line and the levels that it is held against, told apart by their dashes and by a name at
//! the end of each, not by colour.

use maud::{Markup, html};

use super::curves::apart;
use super::{at, text, widest};
use crate::sheet::{Level, LevelKind};

/// Top and bottom of the field, and where it begins.
const TOP: f64 = 14.0;
const BOTTOM: f64 = 166.0;
const LEFT: f64 = 12.0;

/// Values and smoothed line over one axis; what stands at the ends of the levels is to the right.
pub fn chart(
    caption: &str,
    across: &str,
    [values, smoothed]: [&[(f64, f64)]; 2],
    levels: &[Level],
    ends: &[String; 2],
) -> Markup {
    let names = widest(levels.iter().map(|level| level.label.as_str()));
    let right = 362.0 - names - 6.0;
    let (mut first, mut last) = (f64::INFINITY, f64::NEG_INFINITY);
    let (mut lowest, mut highest) = (f64::INFINITY, f64::NEG_INFINITY);
    for &(x, y) in values.iter().chain(smoothed) {
        (first, last) = (first.min(x), last.max(x));
        (lowest, highest) = (lowest.min(y), highest.max(y));
    }
    for level in levels {
        (lowest, highest) = (lowest.min(level.at), highest.max(level.at));
    }
    let margin = 6.0;
    let x = |value: f64| {
        LEFT + margin + (right - LEFT - 2.0 * margin) * (value - first) / (last - first).max(f64::MIN_POSITIVE)
    };
    let y = |value: f64| {
        BOTTOM - margin - (BOTTOM - TOP - margin) * (value - lowest) / (highest - lowest).max(f64::MIN_POSITIVE)
    };
    let line: Vec<String> = smoothed
        .iter()
        .map(|&(across, up)| format!("{} {}", at(x(across)), at(y(up))))
        .collect();
    let tops: Vec<f64> = levels.iter().map(|level| y(level.at)).collect();
    html! {
        svg viewBox="0 0 370 200" role="img" class="drawing chart" {
            title { (caption) }
            desc {
                (values.len()) " values from " (ends[0]) " to " (ends[1]) "; "
                @for level in levels { (level.label) "; " }
            }
            path class="axis" d={ "M" (at(LEFT)) " " (at(TOP)) " V" (at(BOTTOM)) " H" (at(right)) } {}
            @for (level, top) in levels.iter().zip(&tops) {
                path class=(class(level.kind)) d={ "M" (at(LEFT)) " " (at(*top)) " H" (at(right)) } {}
            }
            path class="line" d={ "M" (line.join(" L")) } {}
            @for &(across, up) in values { circle class="given" cx=(at(x(across))) cy=(at(y(up))) r="3.5" {} }
            @for (level, top) in levels.iter().zip(apart(&tops)) {
                (text("number", right + 6.0, top + 4.0, "start", &level.label))
            }
            (text("number", LEFT, BOTTOM + 18.0, "start", &ends[0]))
            (text("number", right, BOTTOM + 18.0, "end", &ends[1]))
            (text("axis-name", (LEFT + right) / 2.0, BOTTOM + 31.0, "middle", across))
        }
    }
}

fn class(kind: LevelKind) -> &'static str {
    match kind {
        LevelKind::Target => "axis",
        LevelKind::Chance => "cover chance",
        LevelKind::Limit => "cover limit",
    }
}
