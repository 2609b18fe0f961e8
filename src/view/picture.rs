//! Drawings as SVG, coloured by the style sheet alone.

mod chart;
mod curves;
mod strip;
mod interval;

use maud::{Markup, html};

use crate::calculators::ONLY_THE_SINK;
use crate::quantity::held::held;
use crate::quantity::show::trimmed;
use crate::sheet::{Bar, Picture};

/// A drawing. Its caption is also its title, for those who cannot see it.
pub fn draw(picture: &Picture) -> Markup {
    match picture {
        Picture::Bottle { .. }
        | Picture::Curves { .. }
        | Picture::Strip { .. }
        | Picture::Interval { .. }
        | Picture::Chart { .. }
            if ONLY_THE_SINK =>
        {
            html! {}
        }
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
        } => curves::one(caption, axes, points, *mark, ends, given),
        Picture::Curves {
            caption,
            axes,
            curves,
            ends,
        } => curves::several(caption, axes, curves, ends),
        Picture::Strip { caption, patches, edge } => strip::draw(caption, patches, *edge),
        Picture::Interval {
            caption,
            value,
            interval,
            band,
            names,
            shown,
        } => interval::draw(caption, *value, *interval, *band, names, shown),
        Picture::Chart {
            caption,
            across,
            values,
            smoothed,
            levels,
            ends,
        } => chart::chart(caption, across, [values.as_slice(), smoothed], levels, ends),
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

/// Words in a drawing: which of their ends stands at the place, `start`, `middle` or `end`.
fn text(class: &str, x: f64, y: f64, anchor: &str, words: &str) -> Markup {
    html! { text class=(class) x=(at(x)) y=(at(y)) text-anchor=(anchor) { (words) } }
}

/// What the widest of these words take at the most, in a broad typeface of the style sheet's size of numbers.
fn widest<'a>(words: impl Iterator<Item = &'a str>) -> f64 {
    7.8 * words.map(|words| words.chars().count()).max().unwrap_or(0) as f64
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
                    (text("number", x(mark.at), 84.0, "middle", number))
                }
            }
            path class="pointer" d={ "M" (at(stop)) " 24 l-6 -9 h12 Z" } {}
            (text("reading", held(stop, 60.0, 300.0), 12.0, "middle", shown))
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
                    (text("number", 98.0, y(mark.at) + 4.0, "start", number))
                }
            }
            path class="pointer" d={ "M36 " (at(low)) " l-10 -6 v12 Z" } {}
            (text("reading", 186.0, 14.0, "end", shown))
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
        svg viewBox="-36 0 346 190" role="img" class="drawing tank" {
            title { (caption) }
            desc { "Filled to " (filled) @if cover.is_some() { "; the film is covered from " (covered) } "; the brim is at " (brim) "." }
            path class={ "liquid" @if fill > 1.0 { " over" } } d={ "M62 " (at(fill_y)) " H178 V170 Q178 " (at(bottom)) " 172 " (at(bottom)) " H68 Q62 " (at(bottom)) " 62 170 Z" } {}
            @if let Some(cover) = cover {
                rect class="film" x="84" y=(at(y(cover))) width="72" height=(at(bottom - 6.0 - y(cover))) rx="4" {}
                path class="cover" d={ "M62 " (at(y(cover))) " H186" } {}
            }
            path class="glass" d={ "M58 " (at(top)) " H182 M62 " (at(top)) " V170 Q62 " (at(bottom)) " 68 " (at(bottom)) " H172 Q178 " (at(bottom)) " 178 170 V" (at(top)) } {}
            (text("number", 190.0, top - 6.0, "start", &format!("brim {brim}")))
            (text("reading", 56.0, fill_y + 5.0, "end", filled))
            @if let Some(cover) = cover {
                (text("number", 190.0, y(cover) + cover_label.max(4.0), "start", &format!("covers {covered}")))
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
        svg viewBox="22 0 312 222" role="img" class="drawing bottle" {
            title { (caption) }
            desc { "A bottle that holds " (brim) " to the brim, with " (liquid) " of liquid and " (headspace) " above it." }
            @if fill > 0.0 { path class="liquid" d=(outline) {} }
            path class="glass" d="M58 30 H94 M61 30 V56 L30 82 V198 Q30 206 38 206 H114 Q122 206 122 198 V82 L91 56 V30" {}
            path class="cover" d={ "M" (right) " " (shown_at) " H134" } {}
            (text("number", 102.0, 26.0, "start", &format!("brim {brim}")))
            @if level - top > 40.0 {
                (text("number", 134.0, (level + top) / 2.0 + 8.0, "start", &format!("above it {headspace}")))
            }
            (text("reading", 138.0, held(level + 16.0, 48.0, 204.0), "start", liquid))
        }
    }
}

/// Names to the left of the bars and values to the right, each as wide as its longest.
fn bar_chart(caption: &str, bars: &[Bar]) -> Markup {
    let height = 26.0 * bars.len() as f64 + 4.0;
    let names = widest(bars.iter().map(|bar| bar.label.as_str()));
    let values = widest(bars.iter().map(|bar| bar.shown.as_str()));
    let from = names + 8.0;
    let whole = (340.0 - from - values - 8.0).max(60.0);
    let width = from + whole + values + 8.0;
    html! {
        svg viewBox={ "0 0 " (at(width)) " " (at(height)) } role="img" class="drawing bars" {
            title { (caption) }
            desc { @for bar in bars { (bar.label) " " (bar.shown) "; " } }
            @for (index, bar) in bars.iter().enumerate() {
                @let top = 26.0 * index as f64 + 4.0;
                @let long = whole * bar.share;
                (text("number", names, top + 15.0, "end", &bar.label))
                rect class="share" x=(at(from)) y=(at(top + 2.0)) width=(at(long.max(1.0))) height="16" rx="2" {}
                (text("number", from + long + 6.0, top + 15.0, "start", &bar.shown))
            }
        }
    }
}
