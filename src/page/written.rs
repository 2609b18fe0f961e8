//! What stands in the place of each sheet, so that only what differs is written: nothing is laid out or read out twice.

use web_sys::{Document, Element};

use super::{dom, forms};
use crate::fields::Fault;
use crate::view::{self, Block};

/// Every sheet on the page.
#[derive(Default)]
pub struct Written(Vec<Sheet>);

/// One sheet: where it stands, and the markup that stands there.
pub struct Sheet {
    name: &'static str,
    head_at: Element,
    parts_at: Element,
    head: Vec<String>,
    parts: Vec<Block>,
    at_fault: bool,
}

impl Written {
    /// The sheet of that calculator; none if the page has no place for it.
    pub fn of(&mut self, document: &Document, name: &'static str) -> Option<&mut Sheet> {
        let index = match self.0.iter().position(|sheet| sheet.name == name) {
            Some(index) => index,
            None => {
                let find = |selector: &str| document.query_selector(selector).ok().flatten();
                self.0.push(Sheet {
                    name,
                    head_at: find(&format!("[data-room={name}] .head"))?,
                    parts_at: find(&format!("[data-room={name}] [data-sheet]"))?,
                    head: Vec::new(),
                    parts: Vec::new(),
                    at_fault: false,
                });
                self.0.len() - 1
            }
        };
        self.0.get_mut(index)
    }
}

impl Sheet {
    /// Writes what is wrong beside its fields. Where nothing was and nothing is, there is nothing to look for.
    pub fn write_faults(&mut self, document: &Document, faults: &[Fault]) {
        if self.at_fault || !faults.is_empty() {
            forms::show_faults(document, self.name, faults);
        }
        self.at_fault = !faults.is_empty();
    }

    /// Writes the figures that are acted on.
    pub fn write_head(&mut self, head: Vec<String>) {
        write_pieces(&self.head_at, &self.head, &head);
        self.head = head;
    }

    /// Writes the rest. A part is known again by its heading, wherever it stands.
    pub fn write_parts(&mut self, parts: Vec<Block>) {
        let children = self.parts_at.children();
        let mut kept = 0;
        self.parts.retain(|old| {
            let stays = parts.iter().any(|part| part.heading == old.heading);
            match children.item(kept) {
                Some(gone) if !stays => gone.remove(),
                _ => kept += 1,
            }
            stays
        });
        for (index, part) in parts.iter().enumerate() {
            let there = children.item(index as u32);
            match (self.parts.get(index), there) {
                (Some(old), Some(there)) if old.heading == part.heading => {
                    write_pieces(&there, &old.pieces, &part.pieces);
                }
                (_, Some(next)) => {
                    insert(&next, "beforebegin", &part.html());
                    self.parts.insert(index, part.clone());
                }
                (_, None) => insert(&self.parts_at, "beforeend", &part.html()),
            }
        }
        while let Some(extra) = children.item(parts.len() as u32) {
            extra.remove();
        }
        self.parts = parts;
    }
}

/// Changes what only says something else, replaces what is of another shape, takes out what is too much.
fn write_pieces(at: &Element, before: &[String], after: &[String]) {
    let children = at.children();
    for (index, piece) in after.iter().enumerate() {
        let old = before.get(index);
        if old == Some(piece) {
            continue;
        }
        let Some(child) = children.item(index as u32) else {
            insert(at, "beforeend", piece);
            continue;
        };
        let changes = old.and_then(|old| view::changes(old, piece));
        if changes.and_then(|changes| dom::change(&child, &changes)).is_none() {
            let open = child.has_attribute("open");
            child.set_outer_html(piece);
            // What was unfolded to be read stays so.
            if let Some(child) = children.item(index as u32).filter(|_| open) {
                dom::set(&child, "open", "");
            }
        }
    }
    while let Some(extra) = children.item(after.len() as u32) {
        extra.remove();
    }
}

fn insert(at: &Element, place: &str, markup: &str) {
    let done = at.insert_adjacent_html(place, markup);
    debug_assert!(done.is_ok());
}
