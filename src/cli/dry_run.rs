//! `sparewright import --dry-run`: how each table is read and what would change; writes nothing.
//!
//! JSON, schema 1: `{"schema", "tables": [{"file", "sheet", "kind", "header_row", "rows", "why", "columns": [{"column",
//! "header", "field", "how", "samples"}], "not_read": [{"column", "header"}]}], "counts", "kept_out", "changes":
//! [{"part", "supplier", "kind", "before", "after"}]}`.

use std::collections::BTreeMap;

use chrono::NaiveDateTime;
use serde_json::{Value, json};

use super::args::{Format, ImportArgs};
use super::exit::ExitCode;
use super::import;
use super::output;
use crate::import::{How, Imported, TableRead};
use crate::place::column_letters;
use crate::store::{Change, Outcome, StoreError, Workspace, preview_first};

/// Schema number of the JSON form; a change of meaning raises it.
const SCHEMA: u32 = 1;

/// Runs the dry run of an import that was read.
pub fn run(args: &ImportArgs, imported: &Imported, now: NaiveDateTime) -> ExitCode {
    let preview = match Workspace::open(&args.workspace) {
        Ok(workspace) => workspace.preview(imported, now),
        Err(StoreError::NotAWorkspace { .. }) => preview_first(imported, now),
        Err(error) => Err(error),
    };
    match preview {
        Ok((outcome, changes)) => output::result(&match args.format {
            Format::Json => format!("{:#}\n", as_json(imported, &outcome, &changes)),
            Format::Table => as_text(imported, &outcome, &changes),
        }),
        Err(error) => import::fail(&error),
    }
}

fn how(how: &How) -> String {
    match how {
        How::Known => "known word".to_owned(),
        How::Symbol => "symbol of the standards".to_owned(),
        How::Close { word } => format!("spelt nearly like `{word}`"),
    }
}

fn as_json(imported: &Imported, outcome: &Outcome, changes: &[Change]) -> Value {
    json!({
        "schema": SCHEMA,
        "tables": imported.tables.iter().map(table_json).collect::<Vec<_>>(),
        "counts": outcome.snapshot.counts,
        "kept_out": outcome.snapshot.kept_out,
        "changes": changes,
    })
}

fn table_json(table: &TableRead) -> Value {
    let columns = table.columns.iter().map(|column| {
        json!({
            "column": column_letters(column.column), "header": column.header, "field": column.field,
            "how": how(&column.how), "samples": column.samples,
        })
    });
    let not_read = table.unread_columns.iter();
    let not_read = not_read
        .map(|(column, header)| json!({"column": column_letters(*column), "header": header}));
    json!({
        "file": &*table.file, "sheet": &*table.sheet, "kind": table.kind, "header_row": table.header_row + 1,
        "rows": table.rows, "why": table.why, "columns": columns.collect::<Vec<_>>(),
        "not_read": not_read.collect::<Vec<_>>(),
    })
}

fn as_text(imported: &Imported, outcome: &Outcome, changes: &[Change]) -> String {
    let mut text = String::new();
    for table in &imported.tables {
        text.push_str(&table_text(table));
    }
    for problem in &imported.problems {
        text.push_str(&format!("Not read: {}: {}\n", problem.file, problem.reason));
    }
    text.push_str("\nWhat would change:\n");
    text.push_str(&import::counts(outcome));
    let mut kinds: BTreeMap<_, usize> = BTreeMap::new();
    for change in changes {
        *kinds.entry(change.kind).or_default() += 1;
    }
    for (kind, count) in kinds {
        text.push_str(&format!("{}: {count}\n", kind.words()));
    }
    text.push_str("\nNothing was written\n");
    text
}

fn table_text(table: &TableRead) -> String {
    let sheet = if table.sheet.is_empty() {
        String::new()
    } else {
        format!(", sheet `{}`", table.sheet)
    };
    let mut text = format!(
        "\n{}{sheet}: {}, header in row {}, {} rows, {} rejected\n",
        table.file,
        table.kind.name(),
        table.header_row + 1,
        table.rows.read,
        table.rows.rejected
    );
    let read = table.columns.iter().map(|column| {
        let meaning = column.field.to_string();
        let letters = column_letters(column.column);
        let samples = column.samples.join(" | ");
        vec![
            letters,
            column.header.clone(),
            meaning,
            how(&column.how),
            samples,
        ]
    });
    let unread = table.unread_columns.iter().map(|(column, header)| {
        let none = String::new;
        vec![
            column_letters(*column),
            header.clone(),
            "not read".to_owned(),
            none(),
            none(),
        ]
    });
    text.push_str(&output::table(
        &["column", "header", "meaning", "found by", "samples"],
        read.chain(unread).collect(),
    ));
    for why in &table.why {
        text.push_str(&format!("  {why}\n"));
    }
    text
}
