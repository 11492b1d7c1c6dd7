//! `sparewright import --dry-run`: how each table is read and what would change; writes nothing.
//!
//! JSON, schema 2: `{"schema", "tables": [{"file", "sheet", "is_hidden", "table", "kind", "kinds": [{"kind", "points",
//! "reasons"}], "shape", "header_row", "rows", "supplier", "dated", "columns": [{"letters", "header", "field", "evidence",
//! "samples"}], "why"}], "not_read": [{"file", "reason"}], "maps_not_used", "counts", "kept_out", "set_aside", "changes":
//! [{"part", "supplier", "kind", "before", "after"}]}`. `field` is null for a column that is not read; `table` numbers the
//! tables of a sheet from 1.

use std::collections::BTreeMap;

use chrono::NaiveDateTime;
use serde_json::{Value, json};

use super::args::{Format, ImportArgs};
use super::exit::ExitCode;
use super::import;
use super::maps;
use super::output;
use super::progress::Bar;
use crate::import::{ColumnDryRun, Imported, KindScore, TableDryRun};
use crate::store::{Change, Outcome, StoreError, Workspace, preview_first};

/// Schema number of the JSON form; a change of meaning raises it.
const SCHEMA: u32 = 2;

/// Runs the dry run of an import that was read; `bar` shows that it goes on.
pub fn run(args: &ImportArgs, imported: &Imported, now: NaiveDateTime, bar: Bar) -> ExitCode {
    let preview = match Workspace::open(&args.workspace) {
        Ok(workspace) => workspace.preview(imported, now),
        Err(StoreError::NotAWorkspace { .. }) => preview_first(imported, now),
        Err(error) => Err(error),
    };
    drop(bar);
    match preview {
        Ok((outcome, changes)) => output::result(&match args.format {
            Format::Json => format!("{:#}\n", as_json(imported, &outcome, &changes)),
            Format::Table => as_text(imported, &outcome, &changes),
        }),
        Err(error) => import::fail(&error),
    }
}

fn as_json(imported: &Imported, outcome: &Outcome, changes: &[Change]) -> Value {
    json!({
        "schema": SCHEMA,
        "tables": imported.dry_run(),
        "not_read": outcome.snapshot.not_read,
        "maps_not_used": maps::as_texts(&imported.unused_maps()),
        "counts": outcome.snapshot.counts,
        "kept_out": outcome.snapshot.kept_out,
        "set_aside": outcome.set_aside,
        "changes": changes,
    })
}

fn as_text(imported: &Imported, outcome: &Outcome, changes: &[Change]) -> String {
    let mut text = String::new();
    for table in imported.dry_run() {
        text.push_str(&table_text(&table));
    }
    for problem in &imported.problems {
        text.push_str(&format!("Not read: {}: {}\n", problem.file, problem.reason));
    }
    text.push_str(&maps::not_used(&imported.unused_maps()));
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

fn table_text(table: &TableDryRun) -> String {
    let mut place = table.file.clone();
    if !table.sheet.is_empty() {
        place.push_str(&format!(", sheet `{}`", table.sheet));
    }
    if table.is_hidden {
        place.push_str(" (hidden)");
    }
    if table.table > 1 {
        place.push_str(&format!(", table {}", table.table));
    }
    let mut text = format!(
        "\n{place}: {}, header in row {}, {} rows, {} rejected\n",
        table.kind.name(),
        table.header_row,
        table.rows.read,
        table.rows.rejected
    );
    let columns = table.columns.iter().map(column_row);
    text.push_str(&output::table(
        &["column", "header", "meaning", "found by", "samples"],
        columns.collect(),
    ));
    for kind in &table.kinds {
        text.push_str(&output::wrapped("  ", &kind_words(kind)));
    }
    if let Some(supplier) = &table.supplier {
        text.push_str(&format!("  list of {supplier}\n"));
    }
    if let Some(dated) = table.dated {
        text.push_str(&format!("  list of {dated}\n"));
    }
    for why in &table.why {
        text.push_str(&output::wrapped("  ", why));
    }
    text
}

fn column_row(column: &ColumnDryRun) -> Vec<String> {
    let meaning = column.field.map_or("not read", |field| field.name());
    vec![
        column.letters.clone(),
        column.header.clone(),
        meaning.to_owned(),
        column.evidence.clone(),
        column.samples.join(" | "),
    ]
}

/// `offers 7.0 points: price +3, supplier's number +2`.
fn kind_words(kind: &KindScore) -> String {
    format!(
        "{} {:.1} points: {}",
        kind.kind.name(),
        kind.points,
        kind.reasons.join(", ")
    )
}
