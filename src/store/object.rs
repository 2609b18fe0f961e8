//! A JSON object, written part by part in the order of the calls.

/// Letters with a short escape (RFC 8259, 7): first those that events are written with, then those that only records have. What
/// was once written one way stays so.
const SHORT: [(char, &str); 7] = [
    ('"', "\\\""),
    ('\\', "\\\\"),
    ('\n', "\\n"),
    ('\t', "\\t"),
    ('\r', "\\r"),
    ('\u{8}', "\\b"),
    ('\u{c}', "\\f"),
];
/// How many of them events have.
const SHORT_OF_EVENTS: usize = 3;

/// An object so far.
pub(crate) struct Object {
    json: String,
    short: usize,
}

impl Object {
    /// Part of an event.
    pub(crate) fn new() -> Self {
        Self {
            json: String::with_capacity(64),
            short: SHORT_OF_EVENTS,
        }
    }

    /// Part of a record.
    pub(crate) fn of_record() -> Self {
        Self {
            short: SHORT.len(),
            ..Self::new()
        }
    }

    pub(crate) fn text(mut self, name: &str, text: &str) -> Self {
        self.name(name);
        self.value(text);
        self
    }

    /// Nothing where the text is empty.
    pub(crate) fn text_if(self, name: &str, text: &str) -> Self {
        match text.is_empty() {
            true => self,
            false => self.text(name, text),
        }
    }

    pub(crate) fn integer(self, name: &str, number: i64) -> Self {
        self.plain(name, &number.to_string())
    }

    /// Nothing where there is no number.
    pub(crate) fn integer_if(self, name: &str, number: Option<i64>) -> Self {
        match number {
            Some(number) => self.integer(name, number),
            None => self,
        }
    }

    pub(crate) fn object(self, name: &str, object: Self) -> Self {
        self.plain(name, &object.end())
    }

    /// `null` where there is no number.
    pub(crate) fn integer_or_null(self, name: &str, number: Option<i64>) -> Self {
        match number {
            Some(number) => self.integer(name, number),
            None => self.plain(name, "null"),
        }
    }

    /// `null` where the text is empty.
    pub(crate) fn text_or_null(self, name: &str, text: &str) -> Self {
        match text.is_empty() {
            true => self.plain(name, "null"),
            false => self.text(name, text),
        }
    }

    /// What is JSON already.
    pub(crate) fn plain(mut self, name: &str, json: &str) -> Self {
        self.name(name);
        self.json += json;
        self
    }

    pub(crate) fn list(mut self, name: &str, list: Vec<Self>) -> Self {
        self.name(name);
        self.json.push('[');
        for (index, object) in list.into_iter().enumerate() {
            if index > 0 {
                self.json.push(',');
            }
            self.json += &object.end();
        }
        self.json.push(']');
        self
    }

    /// Nothing where the list is empty.
    pub(crate) fn list_if(self, name: &str, list: Vec<Self>) -> Self {
        match list.is_empty() {
            true => self,
            false => self.list(name, list),
        }
    }

    pub(crate) fn end(mut self) -> String {
        if self.json.is_empty() {
            self.json.push('{');
        }
        self.json.push('}');
        self.json
    }

    fn name(&mut self, name: &str) {
        self.json.push(if self.json.is_empty() { '{' } else { ',' });
        self.value(name);
        self.json.push(':');
    }

    /// A text as JSON has it (RFC 8259, 7): quotation mark, backslash and control characters escaped, all else as it is.
    fn value(&mut self, text: &str) {
        self.json.push('"');
        for letter in text.chars() {
            match SHORT[..self.short].iter().find(|(short, _)| *short == letter) {
                Some((_, escaped)) => self.json += escaped,
                None if letter < ' ' => self.json += &format!("\\u{:04x}", u32::from(letter)),
                None => self.json.push(letter),
            }
        }
        self.json.push('"');
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn events_have_three_short_escapes() {
        let json = Object::new().text("x", "\"\\\n\t\r\u{8}\u{c}\0").end();
        assert_eq!(json, r#"{"x":"\"\\\n\u0009\u000d\u0008\u000c\u0000"}"#);
    }
}
