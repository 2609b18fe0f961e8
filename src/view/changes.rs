//! What changes between two markups of the same shape, so that a page need not be built anew for every key press.
//!
//! It reads only what the markup library writes: escaped text, double-quoted attributes, every element closed.

use crate::quantity::text::split_while;

/// One thing to change in the tree that the markup made.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Change<'a> {
    /// A text, by the element that it stands in (0 for the root, then in the order of their opening) and its place among that
    /// element's children.
    Text {
        /// Of the element.
        element: usize,
        /// Among its children.
        child: usize,
        /// What it says now, unescaped.
        text: String,
    },
    /// The value of an attribute of an element.
    Attribute {
        /// Of the element.
        element: usize,
        /// Its name.
        name: &'a str,
        /// Its value now, unescaped.
        value: String,
    },
}

/// A piece of markup.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Piece<'a> {
    Open { name: &'a str, attributes: &'a str },
    Close(&'a str),
    Text(&'a str),
}

/// What makes the second markup of the first; `None` if they differ in more than texts and the values of attributes. An element
/// that says nothing has an empty text, or none.
///
/// ```
/// use meniscus::view::{Change, changes};
///
/// let found = changes("<p>600 ml <b>now</b></p>", "<p>601 ml <b>now</b></p>");
/// assert_eq!(found, Some(vec![Change::Text { element: 0, child: 0, text: "601 ml ".to_owned() }]));
/// assert_eq!(changes("<p>600 ml</p>", "<p><b>600</b> ml</p>"), None);
/// ```
pub fn changes<'a>(before: &str, after: &'a str) -> Option<Vec<Change<'a>>> {
    let mut found = Vec::new();
    let (mut before, mut after) = (before, after);
    let mut opened = 0;
    // The elements that are open, each with how many children it has so far.
    let mut open: Vec<(usize, usize)> = Vec::new();
    while !after.is_empty() {
        let (was, is) = (before, after);
        let (mut old, mut new) = (piece(&mut before)?, piece(&mut after)?);
        if matches!(open.last(), Some((_, 0))) {
            // What an element says may come and go.
            match (old, new) {
                (Piece::Close(_), Piece::Text(_)) => (before, old) = (was, Piece::Text("")),
                (Piece::Text(_), Piece::Close(_)) => (after, new) = (is, Piece::Text("")),
                _ => {}
            }
        }
        match (old, new) {
            (
                Piece::Open {
                    name: a,
                    attributes: old,
                },
                Piece::Open {
                    name: b,
                    attributes: new,
                },
            ) if a == b => {
                if old != new {
                    attributes(opened, old, new, &mut found)?;
                }
                if let Some((_, children)) = open.last_mut() {
                    *children += 1;
                }
                open.push((opened, 0));
                opened += 1;
            }
            (Piece::Close(a), Piece::Close(b)) if a == b => {
                open.pop()?;
            }
            (Piece::Text(old), Piece::Text(new)) => {
                let (element, children) = open.last_mut()?;
                if old != new {
                    found.push(Change::Text {
                        element: *element,
                        child: *children,
                        text: unescaped(new),
                    });
                }
                *children += 1;
            }
            _ => return None,
        }
    }
    before.is_empty().then_some(found)
}

/// Takes the first piece off the markup.
fn piece<'a>(markup: &mut &'a str) -> Option<Piece<'a>> {
    let (piece, rest) = match markup.strip_prefix('<') {
        None if markup.is_empty() => return None,
        None => {
            let (text, rest) = split_while(markup, |c| c != '<');
            (Piece::Text(text), rest)
        }
        Some(tag) => {
            let (tag, rest) = tag.split_once('>')?;
            let piece = match tag.strip_prefix('/') {
                Some(name) => Piece::Close(name),
                None => {
                    let (name, attributes) = split_while(tag, |c| c != ' ');
                    Piece::Open { name, attributes }
                }
            };
            (piece, rest)
        }
    };
    *markup = rest;
    Some(piece)
}

fn attributes<'a>(element: usize, old: &str, new: &'a str, found: &mut Vec<Change<'a>>) -> Option<()> {
    let (mut old, mut new) = (old, new);
    while !new.is_empty() {
        let (was, is) = (attribute(&mut old)?, attribute(&mut new)?);
        if was.0 != is.0 {
            return None;
        }
        if was.1 != is.1 {
            found.push(Change::Attribute {
                element,
                name: is.0,
                value: unescaped(is.1),
            });
        }
    }
    old.is_empty().then_some(())
}

/// Takes the first attribute off a list of them: its name, and its value or nothing.
fn attribute<'a>(list: &mut &'a str) -> Option<(&'a str, &'a str)> {
    let text = list.strip_prefix(' ')?;
    let (name, rest) = split_while(text, |c| !matches!(c, '=' | ' '));
    let (value, rest) = match rest.strip_prefix("=\"") {
        Some(quoted) => quoted.split_once('"')?,
        None => ("", rest),
    };
    *list = rest;
    Some((name, value))
}

fn unescaped(text: &str) -> String {
    let mut plain = String::with_capacity(text.len());
    let mut rest = text;
    while let Some((before, after)) = rest.split_once('&') {
        let known = [("amp;", '&'), ("lt;", '<'), ("gt;", '>'), ("quot;", '"')];
        let found = known
            .iter()
            .find_map(|(name, plain)| Some((after.strip_prefix(name)?, *plain)));
        let (after, letter) = found.unwrap_or((after, '&'));
        plain.push_str(before);
        plain.push(letter);
        rest = after;
    }
    plain.push_str(rest);
    plain
}

#[cfg(test)]
mod tests {
    use super::*;

    fn text(element: usize, child: usize, text: &str) -> Change<'static> {
        let text = text.to_owned();
        Change::Text { element, child, text }
    }

    #[test]
    fn elements_and_children_are_counted_as_a_document_counts_them() {
        let before = "<dl><div><dt>Water</dt><dd>1 <b>l</b> or so</dd></div></dl>";
        let after = "<dl><div><dt>Stock</dt><dd>2 <b>ml</b> or less</dd></div></dl>";
        let wanted = vec![
            text(2, 0, "Stock"),
            text(3, 0, "2 "),
            text(4, 0, "ml"),
            text(3, 2, " or less"),
        ];
        assert_eq!(changes(before, after), Some(wanted));
    }

    #[test]
    fn texts_and_values_are_unescaped() {
        let before = "<p title=\"a\" hidden>a</p>";
        let after = "<p title=\"&lt;b&gt; &amp;amp; &quot;c&quot;\" hidden>&lt;b&gt; &amp;amp;</p>";
        let attribute = Change::Attribute {
            element: 0,
            name: "title",
            value: "<b> &amp; \"c\"".to_owned(),
        };
        assert_eq!(changes(before, after), Some(vec![attribute, text(0, 0, "<b> &amp;")]));
    }

    #[test]
    fn what_an_element_says_comes_and_goes() {
        let (nothing, one) = ("<div><p></p><p></p></div>", "<div><p>a</p><p></p></div>");
        assert_eq!(changes(nothing, one), Some(vec![text(1, 0, "a")]));
        assert_eq!(changes(one, nothing), Some(vec![text(1, 0, "")]));
        let other = "<div><p></p><p>b</p></div>";
        assert_eq!(changes(one, other), Some(vec![text(1, 0, ""), text(2, 0, "b")]));
    }

    #[test]
    fn another_shape_is_no_change() {
        let pairs = [
            ("<p>a</p>", "<b>a</b>"),
            ("<p></p>", "<p>a<b>b</b></p>"),
            ("<p>a<b>b</b></p>", "<p></p>"),
            ("<p><b>b</b></p>", "<p><b>b</b>a</p>"),
            ("<p>a</p>", "<p>a</p><p>b</p>"),
            ("<p>a</p><p>b</p>", "<p>a</p>"),
            ("<p class=\"a\">a</p>", "<p id=\"a\">a</p>"),
            ("<p class=\"a\">a</p>", "<p class=\"a\" hidden>a</p>"),
            ("<p hidden>a</p>", "<p>a</p>"),
        ];
        for (before, after) in pairs {
            assert_eq!(changes(before, after), None, "{before} to {after}");
        }
    }
}
