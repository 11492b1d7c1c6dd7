//! Everything printed goes through here: results to stdout, all else to stderr; a closed pipe ends quietly.

use std::error::Error;
use std::io::{self, Write};

use comfy_table::{ContentArrangement, Table, presets};

use super::exit::ExitCode;

/// Width taken where stdout is no terminal.
const PLAIN_WIDTH: u16 = 120;

/// Prints a result on stdout.
pub fn result(text: &str) -> ExitCode {
    let mut out = io::stdout().lock();
    match out.write_all(text.as_bytes()).and_then(|()| out.flush()) {
        Ok(()) => ExitCode::Done,
        Err(error) if error.kind() == io::ErrorKind::BrokenPipe => ExitCode::Done,
        Err(_) => ExitCode::Output,
    }
}

/// Prints an error with its causes and, where there is one, the next step on stderr.
pub fn error(error: &dyn Error, hint: Option<&str>) {
    let mut text = format!("error: {error}\n");
    let mut cause = error.source();
    while let Some(inner) = cause {
        text.push_str(&format!("  because: {inner}\n"));
        cause = inner.source();
    }
    if let Some(hint) = hint {
        text.push_str(&format!("  hint: {hint}\n"));
    }
    note(&text);
}

/// Prints a note on stderr; a closed stderr is nobody's loss.
pub fn note(text: &str) {
    let _ = io::stderr().lock().write_all(text.as_bytes());
}

/// A plain table as wide as the terminal, with a line under its header.
pub fn table(header: &[&str], rows: Vec<Vec<String>>) -> String {
    let mut table = Table::new();
    table
        .load_preset(presets::NOTHING)
        .set_content_arrangement(ContentArrangement::Dynamic);
    table
        .set_width(width())
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

/// Words behind a label, wrapped to the terminal and indented below the label's end.
pub fn wrapped(label: &str, words: &str) -> String {
    let indent = label.trim_start_matches('\n').chars().count();
    let room = usize::from(width()).saturating_sub(indent).max(20);
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

/// Columns of the terminal, or of a plain page.
fn width() -> u16 {
    terminal_size::terminal_size()
        .map_or(PLAIN_WIDTH, |(width, _)| width.0)
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
    fn a_table_has_its_header_in_capitals_and_every_cell() {
        let text = table(&["part"], vec![vec!["6206".to_owned()]]);
        assert!(text.contains("PART") && text.contains("6206"), "{text}");
    }
}
