//! What the module writes into the page.

use maud::{Markup, html};

use super::strip::{Found, Spot, Strip};
use crate::proof::sampling::Coding;
use crate::quantity::show::trimmed;

/// Most patches of a strip.
pub const MOST_PATCHES: usize = 12;

/// The fields of an area, by the end of their ids, with their labels.
pub const SIDES: [(&str, &str); 4] = [
    ("left", "Left, %"),
    ("top", "Top, %"),
    ("width", "Width, %"),
    ("height", "Height, %"),
];

/// All of it but what changes: two strips, by the names of the fields that their readings go into, and how they are called.
pub fn room_of_strips(strips: [(&str, &str); 2]) -> Markup {
    let (least, most) = Coding::GAMMAS;
    html! {
        ol.steps {
            li { "Scan both strips with the same settings, in one go if they fit. Switch every automatic correction off: colour, contrast, sharpness, dust." }
            li { "Keep some clear film in each picture, its edge for example. That is the base." }
            li { "Draw the clear base, then the patches: in the same order on both." }
        }
        div.inner {
            div.field {
                label for="scan-coding" { "How brightness is written" }
                select id="scan-coding" {
                    option value="srgb" selected { "as for a screen (sRGB)" }
                    option value="linear" { "linear" }
                    option value="gamma" { "by another gamma" }
                }
            }
            div.field hidden {
                label for="scan-gamma" { "Gamma" }
                input id="scan-gamma" value="2.2" inputmode="decimal" autocomplete="off" aria-describedby="scan-gamma-takes";
                small id="scan-gamma-takes" { (trimmed(least, 1)) " to " (trimmed(most, 1)) }
                p.fault id="scan-gamma-fault" hidden {}
            }
            div.field {
                label for="scan-inverted" { "The picture is" }
                select id="scan-inverted" {
                    option value="no" selected { "as the film looks" }
                    option value="yes" { "inverted: clear film is dark" }
                }
            }
        }
        @for (strip, title) in strips { (one_strip(strip, title)) }
        p.actions {
            button.main type="button" data-use { "Use these densities" }
            button type="button" data-close { "Close the pictures" }
        }
        p id="scan-said" role="status" {}
    }
}

fn one_strip(strip: &str, title: &str) -> Markup {
    let id = |end: &str| format!("scan-{strip}-{end}");
    html! {
        section.strip data-strip=(strip) aria-labelledby=(id("title")) {
            h4 id=(id("title")) { (title) }
            div.field {
                label for=(id("file")) { "Its scan" }
                input id=(id("file")) type="file" accept="image/png,image/jpeg,image/tiff,.tif,.tiff" aria-describedby=(id("file-takes"));
                small id=(id("file-takes")) { "PNG, JPEG or TIFF; 16 bits say more than 8, and JPEG less than the others" }
                p.fault id=(id("file-fault")) hidden {}
            }
            p id=(id("said")) role="status" {}
            div id=(id("open")) hidden {
                p { "Choose an area below, then drag over the picture, or type where it is." }
                div.stage id=(id("stage")) {
                    canvas role="img" aria-label={ "Picture: " (title) } {}
                    svg aria-hidden="true" id=(id("drawing")) {}
                }
                ul.areas id=(id("areas")) {}
                p.actions { button type="button" data-add { "Add a patch" } }
                fieldset.inner {
                    legend id=(id("chosen")) {}
                    @for (side, label) in SIDES {
                        div.field {
                            label for=(id(side)) { (label) }
                            input id=(id(side)) data-side=(side) inputmode="decimal" autocomplete="off";
                            p.fault id=(id(&format!("{side}-fault"))) hidden {}
                        }
                    }
                }
            }
        }
    }
}

/// The areas of a strip, to choose from.
pub fn areas(name: &str, strip: &Strip) -> Markup {
    html! {
        @for (area, spot) in strip.areas.iter().enumerate() {
            @let called = Strip::name(area);
            li {
                button type="button" id={ "scan-" (name) "-choose-" (area) } data-choose=(area)
                    aria-pressed=(if area == strip.chosen { "true" } else { "false" }) { (called) }
                (state(spot))
                @if area > 0 {
                    button type="button" data-remove=(area) aria-label={ "Remove " (called) } { "Remove" }
                }
            }
        }
    }
}

/// What was found in an area.
pub fn state(spot: &Spot) -> Markup {
    html! {
        @match &spot.found {
            Some(Found::Reading(reading)) => span { (reading) },
            Some(Found::Fault(why)) => span.fault { (why) },
            None => span.none { (if spot.percent().is_some() { "is being measured" } else { "not drawn yet" }) },
        }
    }
}

/// The areas as they lie on the picture.
pub fn drawing(strip: &Strip) -> Markup {
    html! {
        @for (area, spot) in strip.areas.iter().enumerate() {
            @if let Some([left, top, width, height]) = spot.percent() {
                @let at = |percent: f64| trimmed(percent, 2) + "%";
                rect.edge x=(at(left)) y=(at(top)) width=(at(width)) height=(at(height)) {}
                rect.chosen[area == strip.chosen] x=(at(left)) y=(at(top)) width=(at(width)) height=(at(height)) {}
                text x=(at(left + width / 2.0)) y=(at(top + height / 2.0)) {
                    @if area == 0 { "base" } @else { (area) }
                }
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// No outside source: our own words.
    #[test]
    fn areas_say_what_was_found_and_nothing_is_markup() {
        let mut strip = Strip::default();
        strip.areas[0] = Spot::between((0.0, 0.0), (10.0, 100.0));
        strip.areas[1].found = Some(Found::Fault("<b>".to_owned()));
        let list = areas("first", &strip).into_string();
        assert!(list.contains(r#"aria-pressed="true">Clear base</button><span class="none">is being measured"#));
        assert!(list.contains(
            r#"<span class="fault">&lt;b&gt;</span><button type="button" data-remove="1" aria-label="Remove Patch 1">"#
        ));
        let drawn = drawing(&strip).into_string();
        assert!(
            drawn.starts_with(r#"<rect class="edge" x="0%" y="0%" width="10%" height="100%">"#),
            "{drawn}"
        );
        assert_eq!(drawn.matches("<rect").count(), 2, "{drawn}");
    }
}
