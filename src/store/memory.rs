//! A store in memory: for tests, and for a browser that keeps nothing.

use std::cell::RefCell;

use super::{Door, DoorError, PREFIX};
use crate::fields::Named;

/// Text by key, with room for so many bytes.
#[derive(Debug)]
pub struct Memory {
    texts: RefCell<Named>,
    room: usize,
}

impl Memory {
    /// An empty one with room for so many bytes of keys and texts together.
    pub fn with_room(room: usize) -> Self {
        Self {
            texts: RefCell::default(),
            room,
        }
    }
}

impl Default for Memory {
    fn default() -> Self {
        Self::with_room(usize::MAX)
    }
}

impl Door for Memory {
    fn get(&self, key: &str) -> Result<Option<String>, DoorError> {
        Ok(self.texts.borrow().get(key).cloned())
    }

    fn set(&self, key: &str, text: &str) -> Result<(), DoorError> {
        let mut texts = self.texts.borrow_mut();
        let others: usize = texts
            .iter()
            .filter(|(other, _)| *other != key)
            .map(|(key, text)| key.len() + text.len())
            .sum();
        if others + key.len() + text.len() > self.room {
            return Err(DoorError::Full);
        }
        texts.insert(key.to_owned(), text.to_owned());
        Ok(())
    }

    fn keys(&self) -> Result<Vec<String>, DoorError> {
        let texts = self.texts.borrow();
        Ok(texts.keys().filter(|key| key.starts_with(PREFIX)).cloned().collect())
    }
}
