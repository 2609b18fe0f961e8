//! The store and its mirror: each gets what it lacks.

use std::rc::Rc;

use super::super::{App, mirror};
use super::{merge, not_kept};
use crate::ledger::{self, sort_texts};
use crate::store::EVENTS;

/// Whether the mirror, which has these keys, has what the store has not.
pub fn lacks_any(app: &App, keys: &[String]) -> bool {
    let here = keys_here(app);
    keys.iter().any(|key| lacks(app, &here, key))
}

/// The mirror has these keys, and these texts if the store lacks any of them: each gets what it lacks.
pub fn unite(app: &Rc<App>, keys: &[String], texts: Vec<String>) {
    let here = keys_here(app);
    let entries = keys.iter().zip(texts).filter(|(key, _)| lacks(app, &here, key));
    let more = ledger::read_all(entries.map(|(key, text)| (key.clone(), text)).collect()).ledger;
    if !more.is_empty() {
        if let Some(error) = ledger::take_in(&*app.door, &more).trouble {
            for event in &more.events {
                if app.door.get(&event.key()) == Ok(None) {
                    not_kept(app, event.clone(), error, true);
                }
            }
        }
        merge(app, more);
    }
    let mut there = keys.to_vec();
    sort_texts(&mut there);
    let is_there = |key: &String| there.binary_search(key).is_ok();
    let stored = here.into_iter().filter(|key| !is_there(key));
    let stored = stored.filter_map(|key| Some((app.door.get(&key).ok()??, key)));
    let mut entries: Vec<_> = stored.map(|(text, key)| (key, text)).collect();
    for unkept in &*app.ledger.unkept.borrow() {
        let key = unkept.event.key();
        if !is_there(&key) {
            entries.push((key, unkept.event.to_text()));
        }
    }
    if !entries.is_empty() {
        mirror_has(app, entries, |_, _| {});
    }
}

/// The keys of all events in the store, in order.
pub(super) fn keys_here(app: &App) -> Vec<String> {
    let mut keys = app.door.keys().unwrap_or_default();
    keys.retain(|key| key.starts_with(EVENTS));
    sort_texts(&mut keys);
    keys
}

/// Whether the store lacks an entry, or has it damaged.
fn lacks(app: &App, here: &[String], key: &String) -> bool {
    let unread = &app.ledger.all.borrow().unread;
    let damaged = || unread.binary_search_by(|entry| entry.key.cmp(key)).is_ok();
    key.starts_with(EVENTS) && (here.binary_search(key).is_err() || damaged())
}

/// Puts entries into the mirror, and calls with whether they are there.
pub(super) fn mirror_has(app: &Rc<App>, entries: Vec<(String, String)>, then: fn(&App, bool)) {
    let keys: Vec<String> = entries.iter().map(|(key, _)| key.clone()).collect();
    let later = Rc::clone(app);
    let answered = move |is_there| {
        if is_there {
            for unkept in &mut *later.ledger.unkept.borrow_mut() {
                unkept.in_mirror |= keys.contains(&unkept.event.key());
            }
        }
        then(&later, is_there);
    };
    mirror::write(app, entries, Box::new(answered));
}
