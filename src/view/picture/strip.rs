//! A strip of film as it looks against the light.

use maud::{Markup, html};

use super::{at, text, widest};
use crate::quantity::held::held;
use crate::sheet::Patch;

const LEFT: f64 = 4.0;
const RIGHT: f64 = 366.0;
/// From one perforation to the next.
const PITCH: f64 = 17.0;
/// Where the maker's marks stand, three to a strip, each so long.
const MARKS: [(f64, f64); 3] = [(44.0, 22.0), (164.0, 34.0), (292.0, 22.0)];

/// Patches side by side between two rows of perforations; their names below where they have room, else those of the ends.
pub fn draw(caption: &str, patches: &[Patch], edge: Option<f64>) -> Markup {
    let wide = (RIGHT - LEFT) / patches.len().max(1) as f64;
    let words = patches.iter().flat_map(|patch| [patch.label.as_str(), &patch.shown]);
    let all_fit = widest(words) < wide;
    let holes = || {
        (0..)
            .map(|hole| LEFT + 6.0 + PITCH * f64::from(hole))
            .take_while(|x| x + 9.0 < RIGHT)
    };
    html! {
        svg viewBox="0 0 370 138" role="img" class="drawing strip" {
            title { (caption) }
            desc {
                @for patch in patches { (patch.label) ": " (patch.shown) "; " }
                @if edge.is_some() { "the maker's marks stand along the edge." }
            }
            rect class="lit" x=(at(LEFT)) y="4" width=(at(RIGHT - LEFT)) height="92" rx="2" {}
            @for (index, patch) in patches.iter().enumerate() {
                rect class="silver" x=(at(LEFT + wide * index as f64)) y="20" width=(at(wide)) height="60" fill-opacity=(opacity(patch.density)) {}
            }
            @for x in holes() {
                rect class="hole" x=(at(x)) y="8" width="9" height="8" rx="2" {}
                rect class="hole" x=(at(x)) y="84" width="9" height="8" rx="2" {}
            }
            @if let Some(edge) = edge {
                @for (from, long) in MARKS {
                    rect class="silver" x=(at(from)) y="81" width=(at(long)) height="2.5" fill-opacity=(opacity(edge)) {}
                }
            }
            @for (index, patch) in patches.iter().enumerate() {
                @if all_fit {
                    (below(LEFT + wide * (index as f64 + 0.5), "middle", patch))
                } @else if index == 0 {
                    (below(LEFT, "start", patch))
                } @else if index + 1 == patches.len() {
                    (below(RIGHT, "end", patch))
                }
            }
        }
    }
}

fn below(x: f64, anchor: &str, patch: &Patch) -> Markup {
    html! {
        (text("number", x, 112.0, anchor, &patch.label))
        (text("number", x, 129.0, anchor, &patch.shown))
    }
}

/// How dark a density looks: what it lets through, to the power at which a screen shows light.
fn opacity(density: f64) -> String {
    crate::quantity::show::trimmed(held(1.0 - 10f64.powf(-density / 2.2), 0.0, 1.0), 2)
}
