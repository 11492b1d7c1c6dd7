//! A report's tables on stdout: for people, as CSV or as JSON.

use super::args::Printed;
use super::exit::ExitCode;
use super::meant;
use super::output;
use crate::report::model::{Column, Emphasis, Report, Row, Sheet, Value};
use crate::report::{csv_of, json_of};

/// Rows of one table on the terminal.
const SHOWN: usize = 25;
/// Columns above which a table stands on its side.
const MOST_COLUMNS: usize = 8;

/// Prints one table of the report or all of them; CSV is one table, by default `csv_default`.
pub fn print(report: &Report, table: Option<&str>, form: Printed, csv_default: &str) -> ExitCode {
    if let Some(key) = table
        && report.sheet(key).is_none()
    {
        return no_table(report, key);
    }
    match form {
        Printed::Json => {
            output::result(&String::from_utf8_lossy(&json_of(&narrowed(report, table))))
        }
        Printed::Csv => {
            let key = table.unwrap_or(csv_default);
            match report.sheet(key) {
                Some(sheet) => output::result(&String::from_utf8_lossy(&csv_of(sheet))),
                None => no_table(report, key),
            }
        }
        Printed::Table => output::result(&as_text(report, table)),
    }
}

/// The report with the one table that is asked for.
fn narrowed(report: &Report, table: Option<&str>) -> Report {
    let mut report = report.clone();
    if let Some(key) = table {
        report.sheets.retain(|sheet| sheet.key == key);
    }
    report
}

fn no_table(report: &Report, key: &str) -> ExitCode {
    let keys: Vec<&str> = report.sheets.iter().map(|sheet| &*sheet.key).collect();
    let hint = meant::hint(key, &keys);
    output::note(&format!(
        "error: no table `{key}`; there are {}{hint}\n",
        keys.join(", ")
    ));
    ExitCode::Usage
}

fn as_text(report: &Report, table: Option<&str>) -> String {
    let mut text = format!("{}, {}\n", report.title, report.as_of_words());
    let chosen = report.sheets.iter().filter(|sheet| match table {
        Some(key) => key == sheet.key,
        None => sheet.key != "issues" || !sheet.rows.is_empty(),
    });
    for sheet in chosen {
        text.push_str(&of_sheet(sheet));
    }
    let label = format!("{}  ", report.language.text("Caution"));
    for caution in &report.cover.cautions {
        text.push_str(&output::wrapped(&label, caution));
    }
    text
}

/// A table of few rows with many columns stands on its side.
fn of_sheet(sheet: &Sheet) -> String {
    let mut text = format!("\n{}\n", sheet.title);
    if sheet.rows.is_empty() {
        text.push_str(&format!("{}\n", sheet.empty_text));
        return text;
    }
    // Lines on the shelf are told in one sentence.
    let is_shown = |row: &&Row| sheet.key != "kit_lines" || row.emphasis != Emphasis::None;
    let hidden = sheet.rows.iter().filter(|row| !is_shown(row)).count();
    if hidden > 0 {
        let words = format!("{hidden} lines are on the shelf and not shown here");
        text.push_str(&format!("  {}\n\n", sheet.language.text(&words)));
    }
    let shown: Vec<&Row> = sheet.rows.iter().filter(is_shown).collect();
    let first = &shown[..shown.len().min(SHOWN)];
    if sheet.columns.len() > MOST_COLUMNS {
        text.push_str(&on_its_side(sheet, first));
    } else {
        text.push_str(&upright(sheet, first));
    }
    if shown.len() > SHOWN {
        let words = format!("and {} more rows", shown.len() - SHOWN);
        text.push_str(&format!(
            "{}: `--table {} --format csv`\n",
            sheet.language.text(&words),
            sheet.key
        ));
    }
    text
}

fn words(sheet: &Sheet, value: &Value, at: usize) -> String {
    let kind = sheet.columns[at].kind;
    value.in_language(kind, sheet.language).into_owned()
}

fn on_its_side(sheet: &Sheet, rows: &[&Row]) -> String {
    let mut text = String::new();
    let width = output::label_width();
    for row in rows {
        for (at, value) in row.cells.iter().enumerate() {
            let words = words(sheet, value, at);
            if !words.is_empty() {
                let label = sheet.columns[at].label();
                text.push_str(&output::labelled(&label, width, &words));
            }
        }
        text.push('\n');
    }
    text
}

fn upright(sheet: &Sheet, rows: &[&Row]) -> String {
    let header: Vec<String> = sheet.columns.iter().map(Column::label).collect();
    let header: Vec<&str> = header.iter().map(String::as_str).collect();
    let rows = rows.iter().map(|row| {
        let cells = row.cells.iter().enumerate();
        cells.map(|(at, value)| words(sheet, value, at)).collect()
    });
    output::table(&header, rows.collect())
}
