//! The browser's own store behind the door of [`crate::store`]: probed first, since a missing or blocked one must not stop the
//! page.

use gloo_storage::{LocalStorage, Storage};
use js_sys::{Array, Function, Reflect};
use wasm_bindgen::prelude::*;

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
        let keys = dom::texts(&own_keys(&LocalStorage::raw())?);
        Ok(keys.into_iter().filter(|key| key.starts_with(PREFIX)).collect())
    }

    /// Thousands of entries cross into the module as two texts.
    fn entries(&self) -> (Vec<(String, String)>, Option<DoorError>) {
        let storage = LocalStorage::raw();
        let lists = own_keys(&storage).and_then(|keys| Ok((get_each(&storage, &keys)?, keys)));
        let (texts, keys) = match lists {
            Ok(lists) => lists,
            Err(error) => return (Vec::new(), Some(error)),
        };
        let entries = dom::texts(&keys).into_iter().zip(dom::texts(&texts));
        (entries.filter(|(key, _)| key.starts_with(PREFIX)).collect(), None)
    }
}

fn own_keys(storage: &web_sys::Storage) -> Result<Array, DoorError> {
    let keys = Reflect::own_keys(storage).map_err(|_| DoorError::Blocked)?;
    Ok(keys.unchecked_into())
}

#[wasm_bindgen]
extern "C" {
    /// A list, as far as it calls a function with each of its parts without asking this module.
    type Parts;

    #[wasm_bindgen(method, catch)]
    fn map(this: &Parts, call: &Function) -> Result<Array, JsValue>;
}

/// The texts under some keys.
fn get_each(storage: &web_sys::Storage, keys: &Array) -> Result<Array, DoorError> {
    let get = Reflect::get(storage, &"getItem".into()).map_err(|_| DoorError::Blocked)?;
    let get: &Function = get.unchecked_ref();
    let parts: &Parts = keys.unchecked_ref();
    parts.map(&get.bind0(storage)).map_err(|_| DoorError::Blocked)
}
