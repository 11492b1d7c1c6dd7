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
    let width = terminal_size::terminal_size().map_or(PLAIN_WIDTH, |(width, _)| width.0);
    table
        .set_width(width.max(40))
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
