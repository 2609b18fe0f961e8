//! A small sort for short lists and for those that are nearly in order: the standard library's takes much room on the page,
//! once for each kind of thing.

/// Puts things in order; equals stay as they are.
pub(crate) fn sort<T>(things: &mut [T], before: impl Fn(&T, &T) -> bool) {
    for end in 1..things.len() {
        let mut at = end;
        while at > 0 && before(&things[at], &things[at - 1]) {
            things.swap(at, at - 1);
            at -= 1;
        }
    }
}
