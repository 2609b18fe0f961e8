//! A JSON object, written part by part in the order of the calls.

/// An object so far.
pub(super) struct Object(String);

impl Object {
    pub(super) fn new() -> Self {
        Self(String::with_capacity(64))
    }

    pub(super) fn text(mut self, name: &str, text: &str) -> Self {
        self.name(name);
        self.value(text);
        self
    }

    /// Nothing where the text is empty.
    pub(super) fn text_if(self, name: &str, text: &str) -> Self {
        match text.is_empty() {
            true => self,
            false => self.text(name, text),
        }
    }

    pub(super) fn integer(mut self, name: &str, number: i64) -> Self {
        self.name(name);
        self.0 += &number.to_string();
        self
    }

    /// Nothing where there is no number.
    pub(super) fn integer_if(self, name: &str, number: Option<i64>) -> Self {
        match number {
            Some(number) => self.integer(name, number),
            None => self,
        }
    }

    pub(super) fn object(mut self, name: &str, object: Self) -> Self {
        self.name(name);
        self.0 += &object.end();
        self
    }

    /// Nothing where the list is empty.
    pub(super) fn list_if(mut self, name: &str, list: Vec<Self>) -> Self {
        if list.is_empty() {
            return self;
        }
        self.name(name);
        for (index, object) in list.into_iter().enumerate() {
            self.0.push(if index == 0 { '[' } else { ',' });
            self.0 += &object.end();
        }
        self.0.push(']');
        self
    }

    pub(super) fn end(mut self) -> String {
        if self.0.is_empty() {
            self.0.push('{');
        }
        self.0.push('}');
        self.0
    }

    fn name(&mut self, name: &str) {
        self.0.push(if self.0.is_empty() { '{' } else { ',' });
        self.value(name);
        self.0.push(':');
    }

    /// A text as JSON has it (RFC 8259, 7): quotation mark, backslash and control characters escaped, all else as it is.
    fn value(&mut self, text: &str) {
        self.0.push('"');
        for letter in text.chars() {
            match letter {
                '"' => self.0 += "\\\"",
                '\\' => self.0 += "\\\\",
                '\n' => self.0 += "\\n",
                control if control < ' ' => self.0 += &format!("\\u{:04x}", u32::from(control)),
                other => self.0.push(other),
            }
        }
        self.0.push('"');
    }
}
