//! Markup looked at piece by piece: only our own elements and attributes, every one closed, no handler, no address.

use std::collections::BTreeSet;

/// Every element that the views write.
const ELEMENTS: &str = "b button dd desc details div dl dt figcaption figure h3 input label li ol option p path pre rect circle \
    section small span summary svg table tbody td text th thead title tr ul g line";
/// Elements without an end.
const VOID: &str = "input";
/// Attributes that they write, beside `data-` and `aria-` ones.
const ATTRIBUTES: &str = "class type role scope value viewBox d x y cx cy r rx width height fill-opacity text-anchor x1 x2 y1 y2 id for hidden";

/// Panics at anything that is not ours.
#[track_caller]
pub fn check(html: &str) {
    let [elements, void, attributes] =
        [ELEMENTS, VOID, ATTRIBUTES].map(|words| words.split_whitespace().collect::<BTreeSet<_>>());
    let mut open: Vec<&str> = Vec::new();
    let mut rest = html;
    while let Some(start) = rest.find('<') {
        assert!(!rest[..start].contains('>'), "a stray > in {}", &rest[..start]);
        // A > inside an attribute's quotes does not end the element.
        let mut quoted = false;
        let length = rest[start..].find(|c| {
            quoted ^= c == '"';
            c == '>' && !quoted
        });
        let end = start + length.unwrap_or_else(|| panic!("an element without an end: {}", &rest[start..]));
        let inside = &rest[start + 1..end];
        rest = &rest[end + 1..];
        if let Some(name) = inside.strip_prefix('/') {
            assert_eq!(open.pop(), Some(name), "</{name}> closes something else");
            continue;
        }
        let (name, mut tail) = inside.split_once(' ').unwrap_or((inside, ""));
        assert!(elements.contains(name), "<{name}> is not one of ours");
        while !tail.trim().is_empty() {
            let (attribute, after) = tail.trim_start().split_once("=\"").unwrap_or((tail.trim(), "\""));
            let (value, after) = after
                .split_once('"')
                .unwrap_or_else(|| panic!("{inside}: no end of {attribute}"));
            let ours =
                attributes.contains(attribute) || attribute.starts_with("data-") || attribute.starts_with("aria-");
            assert!(ours, "<{inside}>: {attribute} is not one of ours");
            assert!(!value.contains(['<', '>']), "<{inside}>: {value} is not escaped");
            tail = after;
        }
        if !void.contains(name) {
            open.push(name);
        }
    }
    assert!(open.is_empty(), "{open:?} are not closed");
    assert!(
        !html.contains("javascript:") && !html.contains("http"),
        "an address in {html}"
    );
}

#[test]
fn hostile_markup_is_found() {
    let refused = |html: &str| std::panic::catch_unwind(|| check(html)).is_err();
    for html in [
        "<script>alert(1)</script>",
        "<p onclick=\"alert(1)\">x</p>",
        "<img src=\"x\">",
        "<p>1 > 0</p>",
        "<p class=\"a\"",
        "<p><b>x</p></b>",
        "<p class=\"<b>\">x</p>",
        "<p>x",
    ] {
        assert!(refused(html), "{html}");
    }
    check("<p class=\"a\" data-x=\"&lt;&quot;\">1 &gt; 0 <b>x</b></p>");
}
