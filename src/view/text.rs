//! A sheet as plain text: for the shell, the clipboard, paper and tests.

use crate::calculators::Answer;
use crate::quantity::text::joined;
use crate::sheet::{Item, Picture, Table, Way};

/// An answer as plain text, faults first.
pub fn text(answer: &Answer) -> String {
    let mut lines = vec![answer.sheet.title.clone()];
    if !answer.faults.is_empty() {
        lines.push(String::new());
        let faults = answer.faults.iter();
        lines.extend(faults.map(|fault| format!("  ! {}: {}", fault.field, fault.sentence)));
    }
    if !answer.sheet.headline.is_empty() {
        lines.push(String::new());
        let figures = answer.sheet.headline.iter();
        lines.extend(figures.map(|figure| format!("  {:<14} {}", figure.label, figure.text())));
        let spread = answer.sheet.headline.iter().any(|figure| figure.shown_spread.is_some());
        if spread {
            lines.push("  (± is 95 %, k = 2)".to_owned());
        }
        lines.extend(answer.sheet.alerts.iter().map(|alert| format!("  ! {alert}")));
    }
    for part in &answer.sheet.parts {
        lines.push(String::new());
        lines.push(part.title.clone());
        part.items.iter().for_each(|item| write(item, &mut lines));
    }
    let mut text: String = joined(&lines.iter().map(|line| line.trim_end()).collect::<Vec<_>>(), "\n");
    text.push('\n');
    text
}

fn write(item: &Item, lines: &mut Vec<String>) {
    match item {
        Item::Figure(figure) => lines.push(format!("  {}: {}", figure.label, figure.text())),
        Item::Text(text) => lines.push(format!("  {text}")),
        Item::Way(way) => write_way(way, lines),
        Item::Table(table) => write_table(table, lines),
        Item::Picture(Picture::Bars { caption, bars }) => {
            lines.push(format!("  {caption}:"));
            lines.extend(bars.iter().map(|bar| format!("    {:<22} {}", bar.label, bar.shown)));
        }
        Item::Picture(picture) => lines.push(format!("  [{}]", picture.caption())),
        Item::Caution(text) => lines.push(format!("  ! {text}")),
        Item::Onward(_) => {}
        Item::Assumption(assumption) => lines.push(format!(
            "  {}: {} ({}), {}",
            assumption.figure.label, assumption.figure.shown, assumption.range, assumption.why
        )),
    }
}

fn write_way(way: &Way, lines: &mut Vec<String>) {
    let mark = if way.best { "*" } else { "-" };
    lines.push(format!("  {mark} {}", way.title));
    lines.extend(way.steps.iter().map(|step| format!("      {step}")));
    let figures: Vec<_> = way
        .figures
        .iter()
        .map(|figure| format!("{}: {}", figure.label, figure.text()))
        .collect();
    lines.push(format!("      {}", figures.join("; ")));
}

fn write_table(table: &Table, lines: &mut Vec<String>) {
    let rows: Vec<Vec<String>> = std::iter::once(table.heads.clone())
        .chain(table.rows.iter().map(|(label, figures)| {
            let cells = figures.iter().map(|figure| figure.text());
            std::iter::once(label.clone()).chain(cells).collect()
        }))
        .collect();
    let width = |column: usize| {
        let cells = rows.iter().filter_map(|row| row.get(column));
        cells.map(|cell| cell.chars().count()).max().unwrap_or(0)
    };
    for row in &rows {
        let cells: Vec<_> = row
            .iter()
            .enumerate()
            .map(|(column, cell)| format!("{cell:<width$}", width = width(column)))
            .collect();
        lines.push(format!("  {}", cells.join("  ")));
    }
}
