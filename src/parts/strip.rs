//! A strip of film as it is expected to look.

use crate::sheet::{Item, Patch, Picture};

/// Patches from left to right, each with what it is, its density over clear film, and how it looks.
pub(super) fn strip<const N: usize>(caption: &str, patches: [(&str, f64, &str); N]) -> Item {
    let patch = |(label, density, shown): (&str, f64, &str)| Patch {
        label: label.to_owned(),
        density,
        shown: shown.to_owned(),
    };
    Item::Picture(Picture::Strip {
        caption: caption.to_owned(),
        patches: patches.map(patch).into(),
        edge: None,
    })
}
