//! A sheet as Markdown (CommonMark 0.31, with the tables that most readers of it know). Marks in words are escaped, so that they are
//! seen as they were written.

use crate::sheet::{Figure, Item, Sheet, Table};

/// The sheet, each part under its heading.
pub fn sheet(sheet: &Sheet) -> String {
    let mut text = format!("# {}\n", escaped(&sheet.title));
    if !sheet.headline.is_empty() {
        text.push('\n');
    }
    for one in &sheet.headline {
        text += &figure(one);
    }
    for part in &sheet.parts {
        text += &format!("\n## {}\n", escaped(&part.title));
        let mut in_list = false;
        for item in &part.items {
            let is_of_a_list = matches!(item, Item::Figure(_) | Item::Caution(_));
            if !(in_list && is_of_a_list) {
                text.push('\n');
            }
            in_list = is_of_a_list;
            match item {
                Item::Figure(one) => text += &figure(one),
                Item::Caution(caution) => text += &format!("- {}\n", beginning(caution)),
                Item::Text(sentence) => text += &format!("{}\n", beginning(sentence)),
                Item::Table(table) => write_table(table, &mut text),
                // A write-up has none of these.
                Item::Way(_) | Item::Picture(_) | Item::Assumption(_) | Item::Onward(_) => {}
            }
        }
    }
    text
}

/// What is written as it is, between fences longer than any in it.
pub fn code(text: &str) -> String {
    let (mut run, mut longest) = (0, 2);
    for letter in text.chars() {
        run = if letter == '`' { run + 1 } else { 0 };
        longest = longest.max(run);
    }
    let fence = "`".repeat(longest + 1);
    format!("{fence}\n{text}\n{fence}\n")
}

fn figure(figure: &Figure) -> String {
    format!("- {}: {}\n", beginning(&figure.label), escaped(&figure.text()))
}

fn write_table(table: &Table, text: &mut String) {
    let mut rule = String::from("|");
    for head in &table.heads {
        *text += &format!("| {} ", escaped(head));
        rule += " --- |";
    }
    *text += &format!("|\n{rule}\n");
    for (label, figures) in &table.rows {
        *text += &format!("| {} ", escaped(label));
        for figure in figures {
            *text += &format!("| {} ", escaped(&figure.text()));
        }
        *text += "|\n";
    }
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
