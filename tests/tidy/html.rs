//! Just enough of HTML to read our own page: tags with their attributes, and the text up to the next tag.

use std::collections::BTreeMap;

/// A tag, opening or closing.
#[derive(Debug, PartialEq)]
pub struct Tag {
    pub name: String,
    pub closes: bool,
    pub attributes: BTreeMap<String, String>,
    /// The text behind it, up to the next tag.
    pub text: String,
}

impl Tag {
    pub fn attribute(&self, name: &str) -> &str {
        self.attributes.get(name).map_or("", String::as_str)
    }
}

/// All tags of a page in their order.
pub fn tags(page: &str) -> Vec<Tag> {
    let mut tags = Vec::new();
    let mut rest = page;
    while let Some(start) = rest.find('<') {
        let inside = &rest[start + 1..];
        if let Some(comment) = inside.strip_prefix("!--") {
            rest = comment.split_once("-->").map_or("", |(_, after)| after);
            continue;
        }
        let end = end_of_tag(inside);
        let (tag, after) = (&inside[..end], &inside[(end + 1).min(inside.len())..]);
        let text = &after[..after.find('<').unwrap_or(after.len())];
        tags.push(read_tag(tag, text));
        rest = after;
    }
    tags
}

/// The form of that id: its tags between the start and the end.
pub fn form<'a>(tags: &'a [Tag], id: &str) -> Option<&'a [Tag]> {
    let start = tags
        .iter()
        .position(|tag| tag.name == "form" && tag.attribute("id") == id)?;
    let length = tags[start..].iter().position(|tag| tag.name == "form" && tag.closes)?;
    Some(&tags[start..start + length])
}

fn end_of_tag(inside: &str) -> usize {
    let mut quoted = false;
    let end = inside.find(|c| {
        quoted ^= c == '"';
        c == '>' && !quoted
    });
    end.unwrap_or(inside.len())
}

fn read_tag(tag: &str, text: &str) -> Tag {
    let (closes, tag) = match tag.strip_prefix('/') {
        Some(tag) => (true, tag),
        None => (false, tag.trim_end_matches('/')),
    };
    let (name, mut rest) = tag.split_once(char::is_whitespace).unwrap_or((tag, ""));
    let mut attributes = BTreeMap::new();
    loop {
        rest = rest.trim_start();
        let end = rest.find(|c: char| c == '=' || c.is_whitespace()).unwrap_or(rest.len());
        if end == 0 {
            break;
        }
        let attribute = rest[..end].to_owned();
        rest = &rest[end..];
        let value = match rest.strip_prefix("=\"").and_then(|quoted| quoted.split_once('"')) {
            Some((value, after)) => {
                rest = after;
                unescaped(value)
            }
            None => String::new(),
        };
        attributes.insert(attribute, value);
    }
    Tag {
        name: name.to_lowercase(),
        closes,
        attributes,
        text: unescaped(text),
    }
}

fn unescaped(text: &str) -> String {
    let text = text.replace("&lt;", "<").replace("&gt;", ">").replace("&quot;", "\"");
    text.replace("&amp;", "&")
}

#[test]
fn the_reader_of_pages_reads() {
    let page = "<!doctype html><!-- <b> --><form id=\"a\" novalidate><input name=\"x>y\" value=\"1 &amp; 2\"/>text <b>bold</b></form>";
    let all = tags(page);
    let inside = form(&all, "a").expect("a form");
    assert_eq!(inside.len(), 4);
    assert_eq!(
        (inside[1].attribute("name"), inside[1].attribute("value")),
        ("x>y", "1 & 2")
    );
    assert_eq!(inside[1].text, "text ");
    assert!(inside[0].attributes.contains_key("novalidate") && inside[3].closes);
    assert_eq!(form(&all, "b"), None);
}
