//! Tables of a report on the terminal, as CSV or as JSON, and the shop that planning commands read.

use std::path::Path;

use chrono::NaiveDateTime;

use super::args::{Printed, ShopArgs, TableArgs};
use super::exit::ExitCode;
use super::output;
use super::run;
use crate::job::{Job, JobError};
use crate::record::read_moment;
use crate::report::model::{Emphasis, Report, Sheet, Value};
use crate::report::{csv_of, json_of};

/// Rows of one table on the terminal.
const SHOWN: usize = 25;

/// Reads the shop of a planning command.
///
/// # Errors
/// The exit code, after the message was printed.
pub fn open(args: &ShopArgs) -> Result<Job, ExitCode> {
    let as_of = args.as_of.as_deref().map(moment).transpose()?;
    let read = |of: &Path, reads: fn(&Path, Option<NaiveDateTime>) -> Result<Job, JobError>| {
        reads(of, as_of).map_err(|error| run::fail(&error))
    };
    match (&args.workspace, &args.shop) {
        (Some(workspace), _) => read(workspace, Job::open),
        (None, Some(folder)) => read(folder, Job::read),
        (None, None) => Err(usage("`--shop` or `--workspace` says where the shop is")),
    }
}

fn moment(text: &str) -> Result<NaiveDateTime, ExitCode> {
    read_moment(text).ok_or_else(|| {
        usage(&format!(
            "`{text}` is not a moment; expected 2026-03-09T07:30 or 2026-03-09"
        ))
    })
}

/// Prints a report as the tables asked for.
pub fn print_chosen(report: &Report, args: &TableArgs, csv_key: &str) -> ExitCode {
    print(report, args.format, args.table.as_deref(), csv_key)
}

/// Prints a report: all its tables, or one of them; `csv_key` is the one that CSV means without a name.
pub fn print(report: &Report, format: Printed, table: Option<&str>, csv_key: &str) -> ExitCode {
    match format {
        Printed::Json => output::result(&String::from_utf8_lossy(&json_of(report))),
        Printed::Csv => {
            let key = table.unwrap_or(csv_key);
            match report.sheet(key) {
                Some(sheet) => output::result(&String::from_utf8_lossy(&csv_of(sheet))),
                None => {
                    let keys: Vec<&str> = report.sheets.iter().map(|sheet| &*sheet.key).collect();
                    usage(&format!("no table `{key}`; there are {}", keys.join(", ")))
                }
            }
        }
        Printed::Table => {
            let mut text = format!("{}, {}\n", report.title, report.as_of_words());
            let sheets = report.sheets.iter();
            let chosen = sheets.filter(|sheet| {
                table.is_none_or(|key| *key == sheet.key)
                    && (table.is_some() || sheet.key != "issues" || !sheet.rows.is_empty())
            });
            for sheet in chosen {
                text.push_str(&as_text(sheet));
            }
            for caution in &report.cover.cautions {
                text.push_str(&output::wrapped("Caution  ", caution));
            }
            output::result(&text)
        }
    }
}

/// A table of few rows with many columns stands on its side.
fn as_text(sheet: &Sheet) -> String {
    let mut text = format!("\n{}\n", sheet.title);
    if sheet.rows.is_empty() {
        text.push_str(&format!("{}\n", sheet.empty_text));
        return text;
    }
    let cell = |value: &Value, at: usize| value.in_words(sheet.columns[at].kind).into_owned();
    if sheet.columns.len() > 8 {
        // Lines on the shelf are told in one sentence.
        let is_shown = |row: &&crate::report::model::Row| {
            sheet.key != "kit_lines" || row.emphasis != Emphasis::None
        };
        let hidden = sheet.rows.iter().filter(|row| !is_shown(row)).count();
        if hidden > 0 {
            text.push_str(&format!(
                "  {hidden} lines are on the shelf and not shown\n\n"
            ));
        }
        for row in sheet.rows.iter().filter(is_shown) {
            for (at, value) in row.cells.iter().enumerate() {
                let words = cell(value, at);
                if !words.is_empty() {
                    let label = format!("  {:<40} ", sheet.columns[at].label());
                    text.push_str(&output::wrapped(&label, &words));
                }
            }
            text.push('\n');
        }
        return text;
    }
    let header: Vec<String> = sheet
        .columns
        .iter()
        .map(crate::report::model::Column::label)
        .collect();
    let header: Vec<&str> = header.iter().map(String::as_str).collect();
    let rows = sheet.rows.iter().take(SHOWN).map(|row| {
        let cells = row.cells.iter().enumerate();
        cells.map(|(at, value)| cell(value, at)).collect()
    });
    text.push_str(&output::table(&header, rows.collect()));
    if sheet.rows.len() > SHOWN {
        text.push_str(&format!(
            "and {} more rows: `--table {} --format csv`\n",
            sheet.rows.len() - SHOWN,
            sheet.key
        ));
    }
    text
}

/// A wrong command line.
pub fn usage(why: &str) -> ExitCode {
    output::note(&format!("error: {why}\n"));
    ExitCode::Usage
}
