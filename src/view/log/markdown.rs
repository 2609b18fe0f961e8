//! A sheet as Markdown (CommonMark 0.31, with the tables that most readers of it know). Marks in words are escaped, so that they are
//! seen as they were written.

use crate::sheet::{Figure, Item, Sheet, Table};

/// The sheet, each part under its heading.
pub fn sheet(sheet: &Sheet) -> String {
    let mut blocks = vec![format!("# {}", escaped(&sheet.title))];
    if !sheet.headline.is_empty() {
        let lines: Vec<String> = sheet.headline.iter().map(figure).collect();
        blocks.push(lines.join("\n"));
    }
    for part in &sheet.parts {
        blocks.push(format!("## {}", escaped(&part.title)));
        for items in part
            .items
            .chunk_by(|one, other| is_of_a_list(one) && is_of_a_list(other))
        {
            let lines: Vec<String> = items.iter().filter_map(item).collect();
            if !lines.is_empty() {
                blocks.push(lines.join("\n"));
            }
        }
    }
    blocks.join("\n\n") + "\n"
}

/// What is written as it is, between fences longer than any in it.
pub fn code(text: &str) -> String {
    let longest = text.split(|letter| letter != '`').map(str::len).max().unwrap_or(0);
    let fence = "`".repeat(longest.max(2) + 1);
    format!("{fence}\n{text}\n{fence}\n")
}

fn is_of_a_list(item: &Item) -> bool {
    matches!(item, Item::Figure(_) | Item::Caution(_))
}

/// Nothing for what a session has not.
fn item(item: &Item) -> Option<String> {
    match item {
        Item::Figure(one) => Some(figure(one)),
        Item::Caution(text) => Some(format!("- {}", beginning(text))),
        Item::Text(text) => Some(beginning(text)),
        Item::Table(table) => Some(self::table(table)),
        Item::Way(_) | Item::Picture(_) | Item::Assumption(_) => None,
    }
}

fn figure(figure: &Figure) -> String {
    format!("- {}: {}", beginning(&figure.label), escaped(&figure.text()))
}

fn table(table: &Table) -> String {
    let row = |cells: &mut dyn Iterator<Item = String>| {
        let cells: Vec<String> = cells.collect();
        format!("| {} |", cells.join(" | "))
    };
    let mut lines = vec![
        row(&mut table.heads.iter().map(|head| escaped(head))),
        row(&mut table.heads.iter().map(|_| "---".to_owned())),
    ];
    for (label, figures) in &table.rows {
        let figures = figures.iter().map(|figure| escaped(&figure.text()));
        lines.push(row(&mut std::iter::once(escaped(label)).chain(figures)));
    }
    lines.join("\n")
}

/// On one line, with a backslash before whatever Markdown would take for a mark (CommonMark 2.4).
fn escaped(text: &str) -> String {
    let mut plain = String::with_capacity(text.len() + 8);
    for word in text.split_whitespace() {
        if !plain.is_empty() {
            plain.push(' ');
        }
        for letter in word.chars() {
            if matches!(
                letter,
                '\\' | '`' | '*' | '_' | '[' | ']' | '<' | '>' | '|' | '~' | '&' | '#'
            ) {
                plain.push('\\');
            }
            plain.push(letter);
        }
    }
    plain
}

/// The same where a line begins, which could begin a list or a rule.
fn beginning(text: &str) -> String {
    let text = escaped(text);
    let digits = text.len() - text.trim_start_matches(|letter: char| letter.is_ascii_digit()).len();
    let marked = match text.as_bytes().get(digits) {
        Some(b'.' | b')') => digits > 0,
        Some(b'-' | b'+' | b'=') => digits == 0,
        _ => false,
    };
    match marked {
        true => format!("{}\\{}", &text[..digits], &text[digits..]),
        false => text,
    }
}
