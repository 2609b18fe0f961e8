//! Drawings as SVG, coloured by the style sheet alone.

mod curves;

use maud::{Markup, html};

use crate::quantity::held::held;
use crate::quantity::show::trimmed;
use crate::sheet::{Bar, Picture};

/// A drawing. Its caption is also its title, for those who cannot see it.
pub fn draw(picture: &Picture) -> Markup {
    match picture {
        Picture::Syringe {
            caption,
            capacity,
            graduation,
            level,
            shown,
        } => syringe(caption, *capacity, *graduation, *level, shown),
        Picture::Cylinder {
            caption,
            capacity,
            graduation,
            level,
            shown,
        } => cylinder(caption, *capacity, *graduation, *level, shown),
        Picture::Tank {
            caption,
            fill,
            cover,
            shown,
        } => tank(caption, *fill, *cover, shown),
        Picture::Bottle { caption, fill, shown } => bottle(caption, *fill, shown),
        Picture::Curve {
            caption,
            axes,
            points,
            mark,
            ends,
            given,
        } => curve(caption, axes, points, *mark, ends, given),
        Picture::Curves {
            caption,
            axes,
            curves,
            ends,
        } => curves::draw(caption, axes, curves, ends),
        Picture::Bars { caption, bars } => bar_chart(caption, bars),
    }
}

/// One mark of a scale: where, how long, and its number where it bears one.
struct Mark {
    at: f64,
    length: f64,
    number: Option<String>,
}

/// Most marks that can still be told apart in a drawing.
const MOST_MARKS: f64 = 60.0;

/// The marks of a scale, thinned out where they would run together; every fifth or tenth bears its number.
fn marks(capacity: f64, graduation: f64) -> Vec<Mark> {
    let mut step = graduation;
    while capacity / step > MOST_MARKS {
        step *= if capacity / step > MOST_MARKS * 2.5 { 5.0 } else { 2.0 };
    }
    let count = (capacity / step + 1e-9).floor() as u32;
    let numbered = match count {
        0..=6 => 1,
        7..=12 => 2,
        13..=30 => 5,
        _ => 10,
    };
    (1..=count)
        .map(|index| {
            let at = f64::from(index) * step;
            let bears = index % numbered == 0 || (index == count && numbered == 1);
            Mark {
                at,
                length: if bears { 1.0 } else { 0.55 },
                number: bears.then(|| trimmed(at, 2)),
            }
        })
        .collect()
}

fn at(value: f64) -> String {
    trimmed(value, 1)
}

/// Lying, nozzle to the left, so that a long scale fits a phone.
fn syringe(caption: &str, capacity: f64, graduation: f64, level: f64, shown: &str) -> Markup {
    let (left, right, top, bottom) = (46.0, 296.0, 26.0, 70.0);
    let x = |value: f64| left + (right - left) * held(value / capacity, 0.0, 1.0);
    let stop = x(level);
    let marks = marks(capacity, graduation);
    html! {
        svg viewBox="0 0 360 116" role="img" class="drawing syringe" {
            title { (caption) }
            desc { "A syringe lying with its nozzle to the left; the front edge of the plunger stands at " (shown) "." }
            path class="liquid" d={ "M8 46 H34 L" (at(left)) " " (at(top)) " H" (at(stop)) " V" (at(bottom)) " H" (at(left)) " L34 50 H8 Z" } {}
            path class="glass" d={ "M8 45 H33 L" (at(left)) " " (at(top)) " H" (at(right + 6.0)) " M8 51 H33 L" (at(left)) " " (at(bottom)) " H" (at(right + 6.0)) } {}
            path class="glass" d={ "M" (at(right + 6.0)) " 16 V80" } {}
            rect class="plunger" x=(at(stop)) y="28" width="9" height="40" rx="1" {}
            rect class="rod" x=(at(stop + 9.0)) y="44" width=(at((340.0 - stop - 9.0).max(4.0))) height="8" {}
            rect class="rod" x="338" y="30" width="7" height="36" rx="2" {}
            path class="tick" d={ @for mark in &marks { "M" (at(x(mark.at))) " " (at(bottom)) "v-" (at(16.0 * mark.length)) } } {}
            @for mark in &marks {
                @if let Some(number) = &mark.number {
                    text class="number" x=(at(x(mark.at))) y="84" text-anchor="middle" { (number) }
                }
            }
            path class="pointer" d={ "M" (at(stop)) " 24 l-6 -9 h12 Z" } {}
            text class="reading" x=(at(held(stop, 60.0, 300.0))) y="12" text-anchor="middle" { (shown) }
        }
    }
}

/// Standing, with the lowest point of the meniscus at the level.
fn cylinder(caption: &str, capacity: f64, graduation: f64, level: f64, shown: &str) -> Markup {
    let (top, bottom, left, right) = (34.0, 236.0, 40.0, 92.0);
    let y = |value: f64| bottom - (bottom - top) * held(value / capacity, 0.0, 1.0);
    let low = y(level);
    let marks = marks(capacity, graduation);
    html! {
        svg viewBox="0 0 190 260" role="img" class="drawing cylinder" {
            title { (caption) }
            desc { "A cylinder; the lowest point of the meniscus stands at " (shown) "." }
            path class="liquid" d={ "M" (at(left)) " " (at(low - 7.0)) " Q" (at(left + 3.0)) " " (at(low)) " " (at((left + right) / 2.0)) " " (at(low)) " Q" (at(right - 3.0)) " " (at(low)) " " (at(right)) " " (at(low - 7.0)) " V" (at(bottom)) " H" (at(left)) " Z" } {}
            path class="glass" d={ "M34 12 Q40 16 40 22 V" (at(bottom + 6.0)) " H24 V250 H108 V" (at(bottom + 6.0)) " H92 V22 Q92 16 98 12" } {}
            path class="tick" d={ @for mark in &marks { "M" (at(right)) " " (at(y(mark.at))) "h-" (at(18.0 * mark.length)) } } {}
            @for mark in &marks {
                @if let Some(number) = &mark.number {
                    text class="number" x="98" y=(at(y(mark.at) + 4.0)) { (number) }
                }
            }
            path class="pointer" d={ "M36 " (at(low)) " l-10 -6 v12 Z" } {}
            text class="reading" x="186" y="14" text-anchor="end" { (shown) }
        }
    }
}

fn tank(caption: &str, fill: f64, cover: Option<f64>, [filled, covered, brim]: &[String; 3]) -> Markup {
    let (top, bottom) = (26.0, 176.0);
    let y = |share: f64| bottom - (bottom - top) * held(share, 0.0, 1.12);
    // Labels that would run into each other are moved apart.
    let fill_y = y(fill);
    let gap = cover.map_or(99.0, |cover| y(cover) - fill_y);
    let cover_label = match gap {
        gap if (0.0..15.0).contains(&gap) => 15.0 - gap,
        gap if (-15.0..0.0).contains(&gap) => -15.0 - gap,
        _ => 0.0,
    };
    html! {
        svg viewBox="0 0 300 190" role="img" class="drawing tank" {
            title { (caption) }
            desc { "Filled to " (filled) @if cover.is_some() { "; the film is covered from " (covered) } "; the brim is at " (brim) "." }
            path class={ "liquid" @if fill > 1.0 { " over" } } d={ "M62 " (at(fill_y)) " H178 V170 Q178 " (at(bottom)) " 172 " (at(bottom)) " H68 Q62 " (at(bottom)) " 62 170 Z" } {}
            @if let Some(cover) = cover {
                rect class="film" x="84" y=(at(y(cover))) width="72" height=(at(bottom - 6.0 - y(cover))) rx="4" {}
                path class="cover" d={ "M62 " (at(y(cover))) " H186" } {}
            }
            path class="glass" d={ "M58 " (at(top)) " H182 M62 " (at(top)) " V170 Q62 " (at(bottom)) " 68 " (at(bottom)) " H172 Q178 " (at(bottom)) " 178 170 V" (at(top)) } {}
            text class="number" x="190" y=(at(top - 6.0)) { "brim " (brim) }
            text class="reading" x="56" y=(at(fill_y + 5.0)) text-anchor="end" { (filled) }
            @if let Some(cover) = cover {
                text class="number" x="190" y=(at(y(cover) + cover_label.max(4.0))) { "covers " (covered) }
            }
        }
    }
}

/// With its shoulders and neck. By its proportions, turned about its axis, the body holds 89 % and the neck 2 %.
fn bottle(caption: &str, fill: f64, [liquid, headspace, brim]: &[String; 3]) -> Markup {
    let (bottom, shoulder, neck, top) = (206.0, 82.0, 56.0, 30.0);
    let (middle, wide, narrow) = (76.0, 46.0, 15.0);
    let between = |low: f64, high: f64, from: f64, to: f64, fill: f64| from + (to - from) * (fill - low) / (high - low);
    let level = match held(fill, 0.0, 1.0) {
        body if body <= 0.89 => between(0.0, 0.89, bottom, shoulder, body),
        sloping if sloping <= 0.98 => between(0.89, 0.98, shoulder, neck, sloping),
        above => between(0.98, 1.0, neck, top, above),
    };
    let half = between(neck, shoulder, narrow, wide, held(level, neck, shoulder));
    let (left, right) = (at(middle - half), at(middle + half));
    let shown_at = at(level);
    // Up one side and down the other, as far as the liquid stands; what is less than the rounding of the bottom is flat.
    let outline = match level {
        little if little > 198.0 => format!("M34 206 H118 V{shown_at} H34 Z"),
        body if body >= shoulder => format!("M38 206 H114 Q122 206 122 198 V{shown_at} H30 V198 Q30 206 38 206 Z"),
        above => {
            let neck_at = at(above.max(neck));
            format!(
                "M38 206 H114 Q122 206 122 198 V82 L{right} {neck_at} V{shown_at} H{left} V{neck_at} L30 82 V198 Q30 206 38 206 Z"
            )
        }
    };
    html! {
        svg viewBox="0 0 300 222" role="img" class="drawing bottle" {
            title { (caption) }
            desc { "A bottle that holds " (brim) " to the brim, with " (liquid) " of liquid and " (headspace) " above it." }
            @if fill > 0.0 { path class="liquid" d=(outline) {} }
            path class="glass" d="M58 30 H94 M61 30 V56 L30 82 V198 Q30 206 38 206 H114 Q122 206 122 198 V82 L91 56 V30" {}
            path class="cover" d={ "M" (right) " " (shown_at) " H134" } {}
            text class="number" x="102" y="26" { "brim " (brim) }
            @if level - top > 40.0 {
                text class="number" x="134" y=(at((level + top) / 2.0 + 8.0)) { "above it " (headspace) }
            }
            text class="reading" x="138" y=(at(held(level + 16.0, 48.0, 204.0))) { (liquid) }
        }
    }
}

fn curve(
    caption: &str,
    axes: &[String; 2],
    points: &[[f64; 4]],
    mark: (f64, f64),
    ends: &[String; 4],
    given: &[(f64, f64)],
) -> Markup {
    let (left, right, top, bottom) = (46.0, 330.0, 14.0, 166.0);
    let first = points.first().map_or(0.0, |point| point[0]);
    let last = points.last().map_or(1.0, |point| point[0]);
    let tops = points
        .iter()
        .map(|point| point[3])
        .chain(given.iter().map(|point| point.1));
    let highest = tops.fold(0.0, f64::max);
    let x = |value: f64| left + (right - left) * (value - first) / (last - first);
    let y = |value: f64| bottom - (bottom - top) * value / highest;
    let line = |points: &mut dyn Iterator<Item = (f64, f64)>| {
        let steps: Vec<_> = points.map(|(px, py)| format!("{} {}", at(x(px)), at(y(py)))).collect();
        steps.join(" L")
    };
    let upper = line(&mut points.iter().map(|p| (p[0], p[3])));
    let lower = line(&mut points.iter().rev().map(|p| (p[0], p[1])));
    let middle = line(&mut points.iter().map(|p| (p[0], p[2])));
    html! {
        svg viewBox="0 0 350 200" role="img" class="drawing curve" {
            title { (caption) }
            desc { (axes[1]) " over " (axes[0]) ", from " (ends[0]) " to " (ends[1]) "; the band is what assumptions leave open." }
            path class="band" d={ "M" (upper) " L" (lower) " Z" } {}
            path class="axis" d={ "M" (at(left)) " " (at(top)) " V" (at(bottom)) " H" (at(right)) } {}
            path class="line" d={ "M" (middle) } {}
            path class="cover" d={ "M" (at(x(mark.0))) " " (at(bottom)) " V" (at(y(mark.1))) " H" (at(left)) } {}
            @for &(px, py) in given { circle class="given" cx=(at(x(px))) cy=(at(y(py))) r="4" {} }
            circle class="point" cx=(at(x(mark.0))) cy=(at(y(mark.1))) r="6" {}
            text class="number" x=(at(left)) y="184" text-anchor="middle" { (ends[0]) }
            text class="number" x=(at(right)) y="184" text-anchor="end" { (ends[1]) }
            text class="number" x=(at(left - 5.0)) y=(at(bottom)) text-anchor="end" { (ends[2]) }
            text class="number" x=(at(left - 5.0)) y=(at(top + 8.0)) text-anchor="end" { (ends[3]) }
            text class="axis-name" x=(at((left + right) / 2.0)) y="197" text-anchor="middle" { (axes[0]) }
        }
    }
}

fn bar_chart(caption: &str, bars: &[Bar]) -> Markup {
    let height = 26.0 * bars.len() as f64 + 4.0;
    html! {
        svg viewBox={ "0 0 340 " (at(height)) } role="img" class="drawing bars" {
            title { (caption) }
            desc { @for bar in bars { (bar.label) " " (bar.shown) "; " } }
            @for (index, bar) in bars.iter().enumerate() {
                @let top = 26.0 * index as f64 + 4.0;
                text class="number" x="136" y=(at(top + 15.0)) text-anchor="end" { (bar.label) }
                rect class="share" x="144" y=(at(top + 2.0)) width=(at(140.0 * bar.share.max(0.005))) height="16" rx="2" {}
                text class="number" x=(at(150.0 + 140.0 * bar.share)) y=(at(top + 15.0)) { (bar.shown) }
            }
        }
    }
}
