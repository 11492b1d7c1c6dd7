//! A report's tables on stdout: for people, as CSV or as JSON.

use super::args::Printed;
use super::exit::ExitCode;
use super::meant;
use super::output;
use super::refusal::Refusal;
use crate::report::model::{Emphasis, Report, Row, Sheet, Value};
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
    let why = format!("no table `{key}`; there are {}", keys.join(", "));
    Refusal::new(why).hinting(meant::hint(key, &keys)).tell();
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
        text.push_str(&output::wrapped("", &sheet.empty_text));
        text.push_str(&notes(sheet));
        return text;
    }
    // Lines on the shelf are told in one sentence.
    let is_shown = |row: &&Row| sheet.key != "kit_lines" || row.emphasis != Emphasis::None;
    let hidden = sheet.rows.iter().filter(|row| !is_shown(row)).count();
    if hidden > 0 {
        let words = match hidden {
            1 => "1 line is on the shelf and not shown here".to_owned(),
            several => format!("{several} lines are on the shelf and not shown here"),
        };
        text.push_str(&format!("  {}\n\n", sheet.language.text(&words)));
    }
    let shown: Vec<&Row> = sheet.rows.iter().filter(is_shown).collect();
    let first = &shown[..shown.len().min(SHOWN)];
    let (same, differing) = told_apart(sheet, first);
    if sheet.columns.len() <= MOST_COLUMNS {
        let all: Vec<usize> = (0..sheet.columns.len()).collect();
        text.push_str(&upright(sheet, first, &all));
    } else if differing.len() <= MOST_COLUMNS {
        for at in same {
            let (label, words) = (
                sheet.columns[at].label(),
                words(sheet, &first[0].cells[at], at),
            );
            text.push_str(&output::wrapped("  ", &format!("{label}: {words}")));
        }
        text.push_str(&upright(sheet, first, &differing));
    } else {
        text.push_str(&on_its_side(sheet, first));
    }
    if shown.len() > SHOWN {
        let words = format!("and {} more rows", shown.len() - SHOWN);
        text.push_str(&format!(
            "{}: `--table {} --format csv`\n",
            sheet.language.text(&words),
            sheet.key
        ));
    }
    text.push_str(&notes(sheet));
    text
}

/// The notes of a table, and why values of it are not known.
fn notes(sheet: &Sheet) -> String {
    let reasons = sheet.unknown_notes();
    let label = format!("{}  ", sheet.language.text("Note"));
    let notes = sheet.notes.iter().chain(&reasons);
    notes.map(|note| output::wrapped(&label, note)).collect()
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

/// Columns whose words are the same in all these rows, which are told once, and the others.
///
/// One row has none that are the same, and a column that is empty is not told at all.
fn told_apart(sheet: &Sheet, rows: &[&Row]) -> (Vec<usize>, Vec<usize>) {
    let is_same = |at: &usize| {
        let mut of_rows = rows.iter().map(|row| words(sheet, &row.cells[*at], *at));
        let first = of_rows.next();
        rows.len() > 1 && of_rows.all(|words| Some(words) == first)
    };
    let (mut same, differing): (Vec<usize>, Vec<usize>) =
        (0..sheet.columns.len()).partition(is_same);
    same.retain(|at| !words(sheet, &rows[0].cells[*at], *at).is_empty());
    (same, differing)
}

fn upright(sheet: &Sheet, rows: &[&Row], columns: &[usize]) -> String {
    let header: Vec<String> = columns
        .iter()
        .map(|at| sheet.columns[*at].label())
        .collect();
    let header: Vec<&str> = header.iter().map(String::as_str).collect();
    let rows = rows.iter().map(|row| {
        let cells = columns.iter().map(|at| words(sheet, &row.cells[*at], *at));
        cells.collect()
    });
    output::table(&header, rows.collect())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::report::model::Column;

    /// A sheet of ten columns; column `a` alone says the same in every row, and `b` is empty.
    fn sheet(rows: usize) -> Sheet {
        let mut sheet = Sheet::new("lines", "Lines", "?");
        let keys = ["a", "b", "c", "d", "e", "f", "g", "h", "i", "j"];
        sheet.columns = keys.map(|key| Column::text(key, key)).to_vec();
        sheet.rows = (0..rows)
            .map(|row| {
                let cells = keys.iter().map(|key| match *key {
                    "a" => Value::text("now"),
                    "b" => Value::Empty,
                    key => Value::text(format!("{key}{row}")),
                });
                Row::new(cells.collect())
            })
            .collect();
        sheet
    }

    #[test]
    fn what_is_the_same_in_every_row_is_told_once_above_the_table() {
        let text = of_sheet(&sheet(3));
        let lines: Vec<&str> = text.lines().collect();
        assert_eq!(lines[..3], ["", "Lines", "  a: now"], "{text}");
        assert!(lines[3].contains('C') && !lines[3].contains('B'), "{text}");
        assert!(lines[4].contains("c0") && lines[4].contains("j0"), "{text}");
        assert_eq!(text.matches("now").count(), 1, "{text}");
    }

    #[test]
    fn one_row_and_rows_that_differ_in_too_much_stand_on_their_sides() {
        // One row has no column in common with another.
        let one = of_sheet(&sheet(1));
        assert!(
            one.lines().any(|line| line.trim_start().starts_with("c ")),
            "{one}"
        );
        let mut differing = sheet(2);
        differing.rows[1].cells[0] = Value::text("later");
        let text = of_sheet(&differing);
        assert!(text.contains("later") && text.contains("now"), "{text}");
        assert!(
            text.lines().any(|line| line.trim_end().ends_with("c1")),
            "{text}"
        );
    }

    #[test]
    fn notes_and_reasons_stand_below_a_table_and_below_an_empty_one() {
        let mut noted = sheet(2);
        noted.notes = vec!["The budget of 0.00 EUR is not enough.".to_owned()];
        noted.rows[0].cells[3] = Value::unknown("no price");
        {
            let mut sheet = noted;
            let text = of_sheet(&sheet);
            let (at, row) = (text.find("The budget of 0.00"), text.find("c1"));
            assert!(at > row && row.is_some(), "{text}");
            assert!(text.contains("unknown in 1 row: no price"), "{text}");
            sheet.rows.clear();
            let text = of_sheet(&sheet);
            assert!(text.contains("The budget of 0.00"), "{text}");
        }
    }

    #[test]
    fn a_table_of_few_columns_keeps_all_of_them() {
        let mut few = sheet(3);
        few.columns.truncate(8);
        for row in &mut few.rows {
            row.cells.truncate(8);
        }
        let text = of_sheet(&few);
        assert_eq!(text.matches("now").count(), 3, "{text}");
    }
}
