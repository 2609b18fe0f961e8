//! The parts of a JSON object (RFC 8259), each taken once by its name. What a part says is looked at when it is taken, and a part
//! that nobody takes is an error; so nothing goes unread, nothing is read twice, and nothing is built that is not asked for.

use std::str::Chars;

/// What is left of an object: names, and the JSON of what they say.
pub(super) struct Fields<'a>(Vec<(&'a str, &'a str)>);

impl<'a> Fields<'a> {
    pub(super) fn of(json: &'a str) -> Result<Self, String> {
        let mut parts = Vec::with_capacity(12);
        let whole = bare(json, b'{', b'}').and_then(|inner| {
            split(inner, &mut |json| {
                let end = end_of_text(json.as_bytes(), 1).filter(|_| json.starts_with('"'))?;
                parts.push((&json[1..end], json[end + 1..].strip_prefix(':')?));
                Some(())
            })
        });
        let whole = whole.ok_or_else(|| "it has no parts with names".to_owned());
        whole.map(|()| Self(parts))
    }

    /// The only part: its name, and what it says.
    pub(super) fn only(self) -> Result<(&'a str, &'a str), String> {
        match self.0[..] {
            [part] => Ok(part),
            _ => Err("it says not exactly one thing".to_owned()),
        }
    }

    /// A text without escapes: a name, or a word of the file.
    pub(super) fn word(&mut self, name: &str) -> Result<&'a str, String> {
        needed(self.word_if(name)?, name)
    }

    pub(super) fn word_if(&mut self, name: &str) -> Result<Option<&'a str>, String> {
        self.take(name, "is no plain word", word)
    }

    pub(super) fn text(&mut self, name: &str) -> Result<String, String> {
        needed(self.text_if(name)?, name)
    }

    pub(super) fn text_if(&mut self, name: &str) -> Result<Option<String>, String> {
        self.take(name, "is no text", text)
    }

    pub(super) fn integer(&mut self, name: &str) -> Result<i64, String> {
        needed(self.integer_if(name)?, name)
    }

    pub(super) fn integer_if(&mut self, name: &str) -> Result<Option<i64>, String> {
        self.take(name, "is no whole number", integer)
    }

    pub(super) fn object(&mut self, name: &str) -> Result<Self, String> {
        needed(self.object_if(name)?, name)
    }

    pub(super) fn object_if(&mut self, name: &str) -> Result<Option<Self>, String> {
        self.remove(name).map(Self::of).transpose()
    }

    /// Empty where there is none.
    pub(super) fn list(&mut self, name: &str) -> Result<Vec<&'a str>, String> {
        let list = self.take(name, "is no list", |json| {
            let mut list = Vec::new();
            let whole = split(bare(json, b'[', b']')?, &mut |json| {
                list.push(json);
                Some(())
            });
            whole.map(|()| list)
        })?;
        Ok(list.unwrap_or_default())
    }

    /// A part that is a word, or an object whose only part has that word for its name.
    pub(super) fn choice(&mut self, name: &str) -> Result<(&'a str, Option<&'a str>), String> {
        let json = needed(self.remove(name), name)?;
        match word(json) {
            Some(word) => Ok((word, None)),
            None => Self::of(json)?.only().map(|(word, says)| (word, Some(says))),
        }
    }

    /// That nothing is left.
    pub(super) fn end(self) -> Result<(), String> {
        match self.0.first() {
            None => Ok(()),
            Some((name, _)) => Err(format!("it says something of “{}”", short(name))),
        }
    }

    fn take<T>(&mut self, name: &str, wrong: &str, read: impl Fn(&'a str) -> Option<T>) -> Result<Option<T>, String> {
        match self.remove(name) {
            None => Ok(None),
            Some(json) => read(json).map(Some).ok_or_else(|| format!("“{name}” {wrong}")),
        }
    }

    fn remove(&mut self, name: &str) -> Option<&'a str> {
        let found = self.0.iter().position(|(other, _)| *other == name)?;
        Some(self.0.remove(found).1)
    }
}

/// Enough of a word to recognise it.
pub(super) fn short(word: &str) -> String {
    word.chars().take(40).collect()
}

/// A whole number.
pub(super) fn integer(json: &str) -> Option<i64> {
    json.parse().ok().filter(|_| !json.starts_with('+'))
}

/// A text without escapes.
pub(super) fn word(json: &str) -> Option<&str> {
    let plain = |byte| byte >= b' ' && byte != b'"' && byte != b'\\';
    bare(json, b'"', b'"').filter(|inner| inner.bytes().all(plain))
}

/// A text, whatever is escaped in it (RFC 8259, 7).
fn text(json: &str) -> Option<String> {
    if let Some(word) = word(json) {
        return Some(word.to_owned());
    }
    let mut letters = bare(json, b'"', b'"')?.chars();
    let mut text = String::new();
    while let Some(letter) = letters.next() {
        text.push(match letter {
            '"' | '\0'..' ' => return None,
            '\\' => match letters.next()? {
                same @ ('"' | '\\' | '/') => same,
                'b' => '\u{8}',
                'f' => '\u{c}',
                'n' => '\n',
                'r' => '\r',
                't' => '\t',
                'u' => escaped(&mut letters)?,
                _ => return None,
            },
            plain => plain,
        });
    }
    Some(text)
}

/// What four digits stand for, or twice four: a pair of surrogates is one character.
fn escaped(letters: &mut Chars) -> Option<char> {
    let first = unit(letters)?;
    if !(0xd800..0xdc00).contains(&first) {
        return char::from_u32(first);
    }
    if (letters.next(), letters.next()) != (Some('\\'), Some('u')) {
        return None;
    }
    let second = unit(letters).filter(|second| (0xdc00..0xe000).contains(second))?;
    char::from_u32(0x1_0000 + ((first - 0xd800) << 10) + (second - 0xdc00))
}

fn unit(letters: &mut Chars) -> Option<u32> {
    (0..4).try_fold(0, |unit, _| Some(unit * 16 + letters.next()?.to_digit(16)?))
}

fn needed<T>(value: Option<T>, name: &str) -> Result<T, String> {
    value.ok_or_else(|| format!("“{name}” is missing"))
}

/// What stands between two marks.
fn bare(json: &str, open: u8, close: u8) -> Option<&str> {
    match json.as_bytes() {
        [first, .., last] if *first == open && *last == close => Some(&json[1..json.len() - 1]),
        _ => None,
    }
}

/// Takes what stands between the commas that stand in no text, list or object.
fn split<'a>(inner: &'a str, take: &mut dyn FnMut(&'a str) -> Option<()>) -> Option<()> {
    if inner.is_empty() {
        return Some(());
    }
    let bytes = inner.as_bytes();
    let (mut start, mut at, mut depth) = (0, 0, 0_usize);
    while let Some(byte) = bytes.get(at) {
        match byte {
            b'"' => at = end_of_text(bytes, at + 1)?,
            b'{' | b'[' => depth += 1,
            b'}' | b']' => depth = depth.checked_sub(1)?,
            b',' if depth == 0 => {
                take(&inner[start..at])?;
                start = at + 1;
            }
            _ => {}
        }
        at += 1;
    }
    take(&inner[start..]).filter(|()| depth == 0)
}

/// Where the mark stands that ends a text.
fn end_of_text(bytes: &[u8], from: usize) -> Option<usize> {
    let mut at = from;
    loop {
        match bytes.get(at)? {
            b'"' => return Some(at),
            b'\\' => at += 2,
            _ => at += 1,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn parts_are_found_whatever_stands_in_texts() {
        let json = r#"{"a":"x,\"}]","b":[1,{"c":[2,3]}],"d":{"e":"é\u00e9\n"},"f":-5}"#;
        let mut fields = Fields::of(json).expect("an object");
        assert_eq!(fields.text("a"), Ok("x,\"}]".to_owned()));
        assert_eq!(fields.list("b"), Ok(vec!["1", r#"{"c":[2,3]}"#]));
        assert_eq!(fields.object("d").expect("an object").text("e"), Ok("éé\n".to_owned()));
        assert_eq!(fields.integer("f"), Ok(-5));
        assert_eq!(fields.text_if("g"), Ok(None));
        assert_eq!(fields.text("g"), Err("“g” is missing".to_owned()));
        assert_eq!(fields.end(), Ok(()));
        assert_eq!(Fields::of("{}").and_then(Fields::end), Ok(()));
    }

    #[test]
    fn what_is_no_object_is_refused() {
        for json in [
            "",
            "{",
            "}",
            "[]",
            "1",
            "{a:1}",
            r#"{"a"}"#,
            r#"{"a":1,}"#,
            r#"{,"a":1}"#,
            r#"{"a":"}"#,
            r#"{"a":]}"#,
            r#"{"a":{}"#,
            r#"{"a" :1}"#,
            "{\"a\":1}x",
            "{]",
        ] {
            assert!(Fields::of(json).is_err(), "{json}");
        }
    }

    #[test]
    fn what_is_no_value_is_refused() {
        fn refused<T>(says: &str, take: impl Fn(&mut Fields) -> Result<T, String>) {
            let json = format!(r#"{{"a":{says}}}"#);
            let taken = Fields::of(&json).and_then(|mut fields| take(&mut fields));
            assert!(taken.is_err(), "{says}");
        }
        for says in [
            "",
            "1.5",
            "1e3",
            "+1",
            "0x1",
            "\"1\"",
            "null",
            "99999999999999999999",
            " 1",
            "[1]",
            "--1",
        ] {
            refused(says, |fields| fields.integer("a"));
        }
        for says in [
            "",
            "1",
            "null",
            "\"\\x\"",
            "\"a\"b\"",
            "\"\\ud800\"",
            "\"a\u{1}\"",
            "[]",
            "{}",
            "a",
        ] {
            refused(says, |fields| fields.text("a"));
        }
        for says in ["1", "null", "{}", "[1", "[1}", "[]]"] {
            refused(says, |fields| fields.list("a").map(|list| list.len()));
        }
    }
}
