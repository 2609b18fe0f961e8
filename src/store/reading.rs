//! The parts of a JSON object (RFC 8259), each taken once by its name. What a part says is looked at when it is taken, and a part
//! that nobody takes is an error; so nothing goes unread, nothing is read twice, and nothing is built that is not asked for.
//!
//! Whatever is wrong is remembered, the first of it, and told at the end; until then something harmless stands for it.

use std::str::Chars;

/// What can be wrong with the shape of an object; events and records say it each in their own words.
pub(crate) enum Wrong<'a> {
    /// There are no parts with names.
    NoObject,
    /// A part of that name was not taken.
    Left(&'a str),
    /// There is no part of that name.
    Missing(&'a str),
    /// The part of that name is not what it should be: what is said of it.
    Not(&'a str, &'static str),
}

/// What is left of an object: names, and the JSON of what they say.
pub(crate) struct Fields<'a> {
    left: Vec<(&'a str, &'a str)>,
    wrong: Option<String>,
    say: fn(Wrong) -> String,
}

impl Default for Fields<'_> {
    fn default() -> Self {
        Self {
            left: Vec::new(),
            wrong: None,
            say: said,
        }
    }
}

impl<'a> Fields<'a> {
    /// The parts of an event.
    pub(crate) fn of(json: &'a str) -> Self {
        Self::said(json, said)
    }

    /// The parts of an object; what is wrong with its shape is said in these words.
    pub(crate) fn said(json: &'a str, say: fn(Wrong) -> String) -> Self {
        let mut left = Vec::with_capacity(12);
        let whole = bare(json, b'{', b'}').and_then(|inner| {
            split(inner, &mut |json| {
                let end = end_of_text(json.as_bytes(), 1).filter(|_| json.starts_with('"'))?;
                left.push((json.get(1..end)?, json.get(end + 1..)?.strip_prefix(':')?));
                Some(())
            })
        });
        let wrong = whole.is_none().then(|| say(Wrong::NoObject));
        Self { left, wrong, say }
    }

    /// What is a word, or an object whose part has that word for its name; what it says is left in the object.
    pub(crate) fn chosen(json: &'a str, say: fn(Wrong) -> String) -> (&'a str, Self) {
        if let Some(word) = word(json) {
            return (word, Self { say, ..Self::default() });
        }
        let inner = Self::said(json, say);
        (inner.first_name(), inner)
    }

    /// All that is left, as texts by name.
    pub(crate) fn texts(&mut self) -> Vec<(String, String)> {
        let mut texts = Vec::with_capacity(self.left.len());
        for (name, json) in std::mem::take(&mut self.left) {
            if let Some(entry) = unescaped(name).zip(self.read(text(json), name, "is no text")) {
                texts.push(entry);
            }
        }
        texts
    }

    /// Remembers what is wrong, unless something was before.
    pub(crate) fn wrong(&mut self, what: String) {
        self.wrong.get_or_insert(what);
    }

    /// Whether nothing is wrong so far and nothing is left.
    pub(crate) fn end(mut self) -> Result<(), String> {
        if let Some((name, _)) = self.left.first() {
            self.wrong((self.say)(Wrong::Left(name)));
        }
        match self.wrong {
            None => Ok(()),
            Some(wrong) => Err(wrong),
        }
    }

    /// Ends an inner object: what is wrong with it is wrong with this.
    pub(crate) fn close(&mut self, inner: Self) {
        if let Err(wrong) = inner.end() {
            self.wrong(wrong);
        }
    }

    /// A text without escapes: a name, or a word of the file.
    pub(crate) fn word(&mut self, name: &str) -> &'a str {
        let found = self.word_if(name);
        self.needed(found, name)
    }

    pub(crate) fn word_if(&mut self, name: &str) -> Option<&'a str> {
        let json = self.take(name)?;
        let word = word(json);
        self.read(word, name, "is no plain word")
    }

    pub(crate) fn text(&mut self, name: &str) -> String {
        let found = self.text_if(name);
        self.needed(found, name)
    }

    pub(crate) fn text_if(&mut self, name: &str) -> Option<String> {
        let json = self.take(name)?;
        self.read(text(json), name, "is no text")
    }

    pub(crate) fn integer(&mut self, name: &str) -> i64 {
        let found = self.integer_if(name);
        self.needed(found, name)
    }

    pub(crate) fn integer_if(&mut self, name: &str) -> Option<i64> {
        let json = self.take(name)?;
        let digits = json.strip_prefix('-').unwrap_or(json);
        let odd = json.starts_with('+') || digits.starts_with('0') && json.len() > 1;
        let number = json.parse().ok().filter(|_| !odd);
        self.read(number, name, "is no whole number")
    }

    pub(crate) fn truth(&mut self, name: &str) -> bool {
        let json = self.take(name);
        let truth = match self.needed(json, name) {
            "true" => Some(true),
            "false" | "" => Some(false),
            _ => None,
        };
        self.read(truth, name, "is neither true nor false").unwrap_or_default()
    }

    /// Takes a part away that says `null`.
    pub(crate) fn null(&mut self, name: &str) {
        self.left.retain(|(other, json)| !(*other == name && *json == "null"));
    }

    pub(crate) fn object(&mut self, name: &str) -> Self {
        let found = self.object_if(name);
        self.needed(found, name)
    }

    pub(crate) fn object_if(&mut self, name: &str) -> Option<Self> {
        self.take(name).map(|json| Self::said(json, self.say))
    }

    /// Empty where there is none.
    pub(crate) fn list(&mut self, name: &str) -> Vec<&'a str> {
        let mut list = Vec::new();
        if let Some(json) = self.take(name) {
            let whole = bare(json, b'[', b']').and_then(|inner| {
                split(inner, &mut |json| {
                    list.push(json);
                    Some(())
                })
            });
            self.read(whole, name, "is no list");
        }
        list
    }

    /// A part that is a word, or an object whose part has that word for its name; what it says is left in the object.
    pub(crate) fn choice(&mut self, name: &str) -> (&'a str, Self) {
        let found = self.take(name);
        Self::chosen(self.needed(found, name), self.say)
    }

    /// A list that must be there, if only as an empty one.
    pub(crate) fn list_needed(&mut self, name: &str) -> Vec<&'a str> {
        if !self.has(name) {
            self.missing(name);
        }
        self.list(name)
    }

    /// Whether there is such a part.
    pub(crate) fn has(&self, name: &str) -> bool {
        self.left.iter().any(|(other, _)| *other == name)
    }

    /// The name of the first part; empty where there is none.
    pub(crate) fn first_name(&self) -> &'a str {
        self.left.first().map_or("", |(name, _)| name)
    }

    fn take(&mut self, name: &str) -> Option<&'a str> {
        let found = self.left.iter().position(|(other, _)| *other == name)?;
        Some(self.left.remove(found).1)
    }

    fn read<T>(&mut self, value: Option<T>, name: &str, wrong: &'static str) -> Option<T> {
        if value.is_none() {
            self.wrong((self.say)(Wrong::Not(name, wrong)));
        }
        value
    }

    fn missing(&mut self, name: &str) {
        self.wrong((self.say)(Wrong::Missing(name)));
    }

    fn needed<T: Default>(&mut self, value: Option<T>, name: &str) -> T {
        if value.is_none() {
            self.missing(name);
        }
        value.unwrap_or_default()
    }
}

/// How events say it.
fn said(wrong: Wrong) -> String {
    match wrong {
        Wrong::NoObject => "it has no parts with names".to_owned(),
        Wrong::Left(name) => format!("it says something of “{}”", short(name)),
        Wrong::Missing(name) => format!("“{name}” is missing"),
        Wrong::Not(name, what) => format!("“{name}” {what}"),
    }
}

/// The value of a word of the file; nothing where there is none.
pub(crate) fn value_if<T: Copy>(of: &mut Fields, name: &str, words: &[(&str, T)]) -> Option<T> {
    let word = of.word_if(name)?;
    let found = words.iter().find(|(other, _)| *other == word);
    if found.is_none() {
        no_such(of, word);
    }
    found.map(|(_, value)| *value)
}

/// The value of a word of the file; the first of the list where it is wrong.
pub(crate) fn value<T: Copy>(of: &mut Fields, name: &str, words: &[(&str, T)]) -> T {
    value_if(of, name, words).unwrap_or_else(|| {
        of.missing(name);
        words[0].1
    })
}

pub(crate) fn no_such(of: &mut Fields, word: &str) {
    of.wrong(format!("there is no “{}”", short(word)));
}

/// The word of the file for a value.
pub(crate) fn word_for<T: PartialEq>(words: &[(&'static str, T)], value: T) -> &'static str {
    let found = words.iter().find(|(_, other)| *other == value);
    found.map_or("", |(word, _)| *word)
}

/// Enough of a word to recognise it.
pub(crate) fn short(word: &str) -> String {
    word.chars().take(40).collect()
}

/// A text without escapes.
fn word(json: &str) -> Option<&str> {
    let plain = |byte| byte >= b' ' && byte != b'"' && byte != b'\\';
    bare(json, b'"', b'"').filter(|inner| inner.bytes().all(plain))
}

/// A text, whatever is escaped in it (RFC 8259, 7).
fn text(json: &str) -> Option<String> {
    match word(json) {
        Some(word) => Some(word.to_owned()),
        None => unescaped(bare(json, b'"', b'"')?),
    }
}

/// What stands between the marks of a text.
fn unescaped(inner: &str) -> Option<String> {
    let mut letters = inner.chars();
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

/// What stands between two marks.
fn bare(json: &str, open: u8, close: u8) -> Option<&str> {
    match json.as_bytes() {
        [first, .., last] if *first == open && *last == close => json.get(1..json.len() - 1),
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
                take(inner.get(start..at)?)?;
                start = at + 1;
            }
            _ => {}
        }
        at += 1;
    }
    take(inner.get(start..)?).filter(|()| depth == 0)
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

    /// What taking something from an object gives, or what is wrong.
    fn taken<T>(json: &str, take: impl Fn(&mut Fields) -> T) -> Result<T, String> {
        let mut fields = Fields::of(json);
        let taken = take(&mut fields);
        fields.end().map(|()| taken)
    }

    #[test]
    fn parts_are_found_whatever_stands_in_texts() {
        let json = r#"{"a":"x,\"}]","b":[1,{"c":[2,3]}],"d":{"e":"é\u00e9\n\ud834\udd1e"},"f":-5,"g":{"h":1}}"#;
        let mut fields = Fields::of(json);
        assert_eq!(fields.text("a"), "x,\"}]");
        assert_eq!(fields.list("b"), ["1", r#"{"c":[2,3]}"#]);
        let mut inner = fields.object("d");
        assert_eq!(inner.text("e"), "éé\n𝄞");
        fields.close(inner);
        assert_eq!(fields.integer("f"), -5);
        assert_eq!(fields.text_if("x"), None);
        let (word, mut inner) = fields.choice("g");
        assert_eq!((word, inner.integer("h")), ("h", 1));
        fields.close(inner);
        assert_eq!(fields.end(), Ok(()));
        assert_eq!(Fields::of("{}").end(), Ok(()));
    }

    #[test]
    fn the_first_that_is_wrong_is_told() {
        let wrong = |json: &str| taken(json, |fields| (fields.integer("a"), fields.text("b"))).expect_err("wrong");
        assert_eq!(wrong(r#"{"a":1}"#), "“b” is missing");
        assert_eq!(wrong(r#"{"a":"1","b":2}"#), "“a” is no whole number");
        assert_eq!(wrong(r#"{"a":1,"b":"x","c":3}"#), "it says something of “c”");
        assert_eq!(wrong(r#"{"a":1,"b":"x","a":1}"#), "it says something of “a”");
        assert_eq!(wrong("[]"), "it has no parts with names");
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
            assert!(taken(json, |fields| fields.integer_if("a")).is_err(), "{json}");
        }
    }

    #[test]
    fn what_is_no_value_is_refused() {
        let of = |says: &str| format!(r#"{{"a":{says}}}"#);
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
            assert!(taken(&of(says), |fields| fields.integer("a")).is_err(), "{says}");
        }
        for says in [
            "",
            "1",
            "null",
            "\"\\x\"",
            "\"a\"b\"",
            "\"\\ud800\"",
            "\"\\ud800\\u0041\"",
            "\"\\udc00\"",
            "\"\\u12\"",
            "\"a\u{1}\"",
            "[]",
            "{}",
            "a",
        ] {
            assert!(taken(&of(says), |fields| fields.text("a")).is_err(), "{says}");
        }
        for says in ["1", "null", "{}", "[1", "[1}", "[]]"] {
            assert!(taken(&of(says), |fields| fields.list("a").len()).is_err(), "{says}");
        }
        for says in ["1", "[]", r#"{"b":1,"c":2}"#] {
            let choice = |fields: &mut Fields| {
                let (_, inner) = fields.choice("a");
                fields.close(inner);
            };
            assert!(taken(&of(says), choice).is_err(), "{says}");
        }
    }
}
