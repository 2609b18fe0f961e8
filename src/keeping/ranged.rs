//! A result with the band that assumptions leave it.

/// What assumptions as usually taken give, and what their ranges allow.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Ranged<T> {
    /// With every assumption at its value.
    pub value: T,
    /// The least that their ranges allow.
    pub least: T,
    /// The most that their ranges allow.
    pub most: T,
}

impl<T> Ranged<T> {
    /// The same of each of the three, in another scale that rises with it.
    pub fn map<U>(self, of: impl Fn(T) -> U) -> Ranged<U> {
        Ranged {
            value: of(self.value),
            least: of(self.least),
            most: of(self.most),
        }
    }

    /// The same of each of the three, if there is any.
    pub fn map_some<U>(self, of: impl Fn(T) -> Option<U>) -> Option<Ranged<U>> {
        Some(Ranged {
            value: of(self.value)?,
            least: of(self.least)?,
            most: of(self.most)?,
        })
    }
}
