//! A difference with its interval, over the band of what does not matter.

use maud::{Markup, html};

use super::{at, text};
use crate::quantity::held::held;

/// Left and right end of the scale, and where nothing is.
const LEFT: f64 = 14.0;
const RIGHT: f64 = 346.0;
const MIDDLE: f64 = (LEFT + RIGHT) / 2.0;

/// As wide as the farthest of them asks for.
pub fn draw(
    caption: &str,
    value: f64,
    [low, high]: [f64; 2],
    band: f64,
    [below, above]: &[String; 2],
    [shown, least, most]: &[String; 3],
) -> Markup {
    let farthest = low.abs().max(high.abs()).max(1.6 * band).max(f64::MIN_POSITIVE);
    let x = |value: f64| MIDDLE + (RIGHT - MIDDLE) * value / farthest;
    let here = x(value);
    html! {
        svg viewBox="0 0 360 110" role="img" class="drawing curve interval" {
            title { (caption) }
            desc { (shown) ", against a band from " (least) " to " (most) "; left of it is " (below) ", right of it " (above) "." }
            rect class="band" x=(at(x(-band))) y="26" width=(at(x(band) - x(-band))) height="46" {}
            path class="axis" d={ "M" (at(LEFT)) " 72 H" (at(RIGHT)) " M" (at(MIDDLE)) " 26 V76" } {}
            path class="line" d={ "M" (at(x(low))) " 49 H" (at(x(high))) " M" (at(x(low))) " 42 V56 M" (at(x(high))) " 42 V56" } {}
            circle class="point" cx=(at(here)) cy="49" r="5" {}
            (text("reading", held(here, 40.0, 320.0), 18.0, "middle", shown))
            (text("number", x(-band), 88.0, "middle", least))
            (text("number", MIDDLE, 88.0, "middle", "0"))
            (text("number", x(band), 88.0, "middle", most))
            (text("axis-name", LEFT, 105.0, "start", below))
            (text("axis-name", RIGHT, 105.0, "end", above))
        }
    }
}
