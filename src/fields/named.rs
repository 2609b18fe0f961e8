//! Text by field name, as a form or a command line gives it.

/// Texts by their names, in the order of the names, none twice. Small: a list serves better than a tree, which would take 3 kB of
/// what a first visit fetches.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Named(Vec<(String, String)>);

impl Named {
    /// Nothing.
    pub const fn new() -> Self {
        Self(Vec::new())
    }

    /// Puts a text under a name, in place of what stood there, which is returned.
    pub fn insert(&mut self, name: String, text: String) -> Option<String> {
        // What comes in the order of the names, as it mostly does, goes to the end.
        let at = match self.0.last() {
            Some((last, _)) if *last >= name => self.0.iter().position(|(other, _)| *other >= name),
            _ => None,
        };
        let at = at.unwrap_or(self.0.len());
        match self.0.get_mut(at) {
            Some((other, stood)) if *other == name => Some(std::mem::replace(stood, text)),
            _ => {
                self.0.insert(at, (name, text));
                None
            }
        }
    }

    /// The text under a name.
    pub fn get(&self, name: &str) -> Option<&String> {
        let found = self.0.iter().find(|(other, _)| other == name);
        found.map(|(_, text)| text)
    }

    /// Whether something stands under a name, be it blank.
    pub fn contains_key(&self, name: &str) -> bool {
        self.get(name).is_some()
    }

    /// Takes out what stands under a name.
    pub fn remove(&mut self, name: &str) -> Option<String> {
        let at = self.0.iter().position(|(other, _)| other == name)?;
        Some(self.0.remove(at).1)
    }

    /// The names.
    pub fn keys(&self) -> impl Iterator<Item = &String> {
        self.0.iter().map(|(name, _)| name)
    }

    /// Names and texts.
    pub fn iter(&self) -> impl Iterator<Item = (&String, &String)> {
        self.0.iter().map(|(name, text)| (name, text))
    }

    /// Whether there is nothing.
    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }
}

impl Extend<(String, String)> for Named {
    fn extend<T: IntoIterator<Item = (String, String)>>(&mut self, pairs: T) {
        for (name, text) in pairs {
            self.insert(name, text);
        }
    }
}

impl FromIterator<(String, String)> for Named {
    fn from_iter<T: IntoIterator<Item = (String, String)>>(pairs: T) -> Self {
        let mut named = Self::new();
        named.extend(pairs);
        named
    }
}

impl<const N: usize> From<[(String, String); N]> for Named {
    fn from(pairs: [(String, String); N]) -> Self {
        pairs.into_iter().collect()
    }
}

impl IntoIterator for Named {
    type Item = (String, String);
    type IntoIter = std::vec::IntoIter<(String, String)>;

    fn into_iter(self) -> Self::IntoIter {
        self.0.into_iter()
    }
}
