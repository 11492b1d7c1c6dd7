//! Everything printed goes through here: results to stdout, all else to stderr; a closed pipe ends quietly.

use std::borrow::Cow;
use std::io::{self, Write};

use comfy_table::{ContentArrangement, Table, presets};

use super::exit::ExitCode;
use super::refusal::Refusal;
use crate::language::Translator;
use crate::store::StoreError;

/// Width taken where stdout is no terminal.
const PLAIN_WIDTH: u16 = 120;

/// Prints a result on stdout.
pub fn result(text: &str) -> ExitCode {
    let text = plain(text);
    let mut out = io::stdout().lock();
    match out.write_all(text.as_bytes()).and_then(|()| out.flush()) {
        Ok(()) => ExitCode::Done,
        Err(error) if error.kind() == io::ErrorKind::BrokenPipe => ExitCode::Done,
        Err(_) => ExitCode::Output,
    }
}

/// Tells an error of a workspace; the exit code that belongs to it.
pub fn fail(error: &StoreError) -> ExitCode {
    Refusal::of(error).tell();
    error.into()
}

/// Prints a note on stderr; a closed stderr is nobody's loss.
pub fn note(text: &str) {
    let _ = io::stderr().lock().write_all(plain(text).as_bytes());
}

/// The text without signs that would steer a terminal: a cell of a spreadsheet may hold any.
fn plain(text: &str) -> Cow<'_, str> {
    let steers = |sign: char| sign.is_control() && !matches!(sign, '\n' | '\r' | '\t');
    match text.contains(steers) {
        true => Cow::Owned(text.replace(steers, "\u{fffd}")),
        false => Cow::Borrowed(text),
    }
}

/// As [`table`], with a header of ours that is said in another language.
pub fn table_said(words: &mut Translator, header: &[&str], rows: Vec<Vec<String>>) -> String {
    let header: Vec<String> = header.iter().map(|title| words.say(title)).collect();
    let header: Vec<&str> = header.iter().map(String::as_str).collect();
    table(&header, rows)
}

/// A plain table as wide as the terminal; where its columns would be too narrow to read, each row on its side.
pub fn table(header: &[&str], rows: Vec<Vec<String>>) -> String {
    table_within(width(), header, rows)
}

fn table_within(width: u16, header: &[&str], rows: Vec<Vec<String>>) -> String {
    let columns = header.len().max(1) as u16;
    let longest = |at: usize| {
        let cells = rows.iter().filter_map(|row| row.get(at));
        let words = cells.flat_map(|cell| cell.split_whitespace());
        words.map(|word| word.chars().count()).max().unwrap_or(0)
    };
    // Each word whole, or twelve letters of it, with a blank on both sides.
    let least: usize = (0..header.len())
        .map(|at| longest(at).max(header[at].chars().count()).min(12) + 2)
        .sum();
    if usize::from(width) < least && columns > 1 {
        return on_their_sides(width, header, &rows);
    }
    let mut table = Table::new();
    table
        .load_preset(presets::NOTHING)
        .set_content_arrangement(ContentArrangement::Dynamic);
    table
        .set_width(width)
        .set_header(header.iter().map(|title| title.to_uppercase()));
    for row in rows {
        table.add_row(row);
    }
    let lines: Vec<String> = table
        .lines()
        .map(|line| line.trim_end().to_owned())
        .collect();
    format!("{}\n", lines.join("\n"))
}

/// Rows one below the other, each value behind the header of its column.
fn on_their_sides(width: u16, header: &[&str], rows: &[Vec<String>]) -> String {
    let longest = header.iter().map(|title| title.chars().count()).max();
    let indent = longest.unwrap_or(0).min(usize::from(width) / 3) + 1;
    let mut text = String::new();
    for row in rows {
        for (title, cell) in header.iter().zip(row).filter(|(_, cell)| !cell.is_empty()) {
            let label = format!("{:<indent$}", title.to_uppercase());
            text.push_str(&wrapped_within(width, &label, cell));
        }
        text.push('\n');
    }
    text
}

/// Columns for the labels of values that stand one below the other.
pub fn label_width() -> usize {
    (usize::from(width()) * 2 / 5).min(42)
}

/// A value behind its label of `width` columns; a longer label has a line of its own.
pub fn labelled(label: &str, width: usize, words: &str) -> String {
    if label.chars().count() + 3 > width {
        return wrapped("  ", label) + &wrapped(&" ".repeat(width), words);
    }
    let room = width - 3;
    wrapped(&format!("  {label:<room$} "), words)
}

/// Words behind a label, wrapped to the terminal and indented below the label's end.
pub fn wrapped(label: &str, words: &str) -> String {
    wrapped_within(width(), label, words)
}

fn wrapped_within(width: u16, label: &str, words: &str) -> String {
    let indent = label.chars().count();
    let room = usize::from(width).saturating_sub(indent).max(20);
    let mut lines = vec![String::new()];
    for word in words.split_whitespace() {
        let line = lines.last_mut().filter(|line| {
            line.is_empty() || line.chars().count() + 1 + word.chars().count() <= room
        });
        match line {
            Some(line) if line.is_empty() => line.push_str(word),
            Some(line) => {
                line.push(' ');
                line.push_str(word);
            }
            None => lines.push(word.to_owned()),
        }
    }
    format!(
        "{label}{}\n",
        lines.join(&format!("\n{}", " ".repeat(indent)))
    )
}

/// Columns of the terminal; where there is none those that `COLUMNS` states, or of a plain page.
fn width() -> u16 {
    let stated = || std::env::var("COLUMNS").ok()?.parse().ok();
    terminal_size::terminal_size()
        .map(|(width, _)| width.0)
        .or_else(stated)
        .unwrap_or(PLAIN_WIDTH)
        .max(40)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn long_words_wrap_below_the_end_of_their_label() {
        let text = wrapped("  but   ", &"clearance ".repeat(30));
        let lines: Vec<&str> = text.lines().collect();
        assert!(
            lines.len() > 2
                && lines
                    .iter()
                    .all(|line| line.chars().count() <= usize::from(width()))
        );
        assert!(lines[1].starts_with("        clearance"), "{:?}", lines[1]);
    }

    #[test]
    fn a_table_stands_on_its_side_where_the_terminal_is_narrow() {
        let header = ["part", "designation", "supplier", "cost", "likely here"];
        let row = [
            "BRG-0106",
            "6005 2RS",
            "Vossenkamper Lagerkontor",
            "15.16 EUR",
            "2026-03-23",
        ];
        let rows = || vec![row.map(str::to_owned).to_vec()];
        let narrow = table_within(50, &header, rows());
        assert!(narrow.contains("PART        BRG-0106\n"), "{narrow}");
        let wide = table_within(100, &header, rows());
        assert!(wide.lines().nth(1).unwrap().contains("BRG-0106"), "{wide}");
        for (width, text) in [(50, narrow), (100, wide)] {
            assert!(
                text.lines().all(|line| line.chars().count() <= width),
                "{text}"
            );
        }
    }

    #[test]
    fn a_cell_cannot_steer_the_terminal() {
        assert_eq!(plain("6206\n\tx"), "6206\n\tx");
        assert_eq!(
            plain("\u{1b}[2Jgone\u{7}\u{9b}"),
            "\u{fffd}[2Jgone\u{fffd}\u{fffd}"
        );
    }

    #[test]
    fn a_table_has_its_header_in_capitals_and_every_cell() {
        let text = table(&["part"], vec![vec!["6206".to_owned()]]);
        assert!(text.contains("PART") && text.contains("6206"), "{text}");
    }
}
