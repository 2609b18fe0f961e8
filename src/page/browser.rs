//! The browser's own store behind the door of [`crate::store`]: probed first, since a missing or blocked one must not stop the
//! page.

use gloo_storage::{LocalStorage, Storage};
use js_sys::Object;

use super::dom;
use crate::store::{Door, DoorError, Memory, PREFIX};

/// Local storage.
struct Local;

/// The browser's store, or one in memory and the reason why.
pub fn door() -> (Box<dyn Door>, Option<DoorError>) {
    match probe() {
        Ok(()) => (Box::new(Local), None),
        Err(error) => (Box::new(Memory::default()), Some(error)),
    }
}

/// Whether there is a store that may be used. The storage library takes it for granted and would stop the page.
fn probe() -> Result<(), DoorError> {
    let window = web_sys::window().ok_or(DoorError::Absent)?;
    match window.local_storage() {
        Ok(Some(_)) => Ok(()),
        Ok(None) => Err(DoorError::Absent),
        Err(_) => Err(DoorError::Blocked),
    }
}

impl Door for Local {
    fn get(&self, key: &str) -> Result<Option<String>, DoorError> {
        LocalStorage::raw().get_item(key).map_err(|_| DoorError::Blocked)
    }

    fn set(&self, key: &str, text: &str) -> Result<(), DoorError> {
        LocalStorage::raw().set_item(key, text).map_err(|_| DoorError::Full)
    }

    fn keys(&self) -> Result<Vec<String>, DoorError> {
        let keys = dom::texts(&Object::keys(&LocalStorage::raw()));
        Ok(keys.into_iter().filter(|key| key.starts_with(PREFIX)).collect())
    }

    fn entries(&self) -> Result<Vec<(String, String)>, DoorError> {
        let storage = LocalStorage::raw();
        let keys = dom::texts(&Object::keys(&storage));
        let texts = dom::texts(&Object::values(&storage));
        let entries = keys.into_iter().zip(texts);
        Ok(entries.filter(|(key, _)| key.starts_with(PREFIX)).collect())
    }
}
