//! The fragment of the page's address: which room is meant, and which thing of it.

/// All of it.
pub fn fragment() -> String {
    let hash = web_sys::window().and_then(|window| window.location().hash().ok());
    hash.unwrap_or_default().trim_start_matches('#').to_owned()
}

/// What it says after the room: which thing of it is meant.
pub fn detail(room: &str) -> Option<String> {
    let fragment = fragment();
    let detail = fragment.strip_prefix(room)?.strip_prefix('/')?;
    let detail = js_sys::decode_uri_component(detail).ok()?;
    Some(detail.into())
}

/// Goes to a room.
pub fn go(room: &str) {
    if let Some(window) = web_sys::window() {
        let moved = window.location().set_hash(room);
        debug_assert!(moved.is_ok());
    }
}
