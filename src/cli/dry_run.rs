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
use super::progress::Bar;
use super::{counted, maps, output};
use crate::import::{ColumnDryRun, Imported, KindScore, TableDryRun};
use crate::language::{Language, Translator};
use crate::store::{Change, Outcome, StoreError, Workspace, preview_first};

/// Schema number of the JSON form; a change of meaning raises it.
const SCHEMA: u32 = 2;

/// Runs the dry run of an import that was read; `bar` shows that it goes on.
pub fn run(
    args: &ImportArgs,
    imported: &Imported,
    now: NaiveDateTime,
    (language, bar): (Language, Bar),
) -> ExitCode {
    let preview = match Workspace::open(&args.workspace) {
        Ok(workspace) => workspace.preview(imported, now),
        Err(StoreError::NotAWorkspace { .. }) => preview_first(imported, now),
        Err(error) => Err(error),
    };
    drop(bar);
    match preview {
        Ok((outcome, changes)) => output::result(&match args.format {
            Format::Json => format!("{:#}\n", as_json(imported, &outcome, &changes)),
            Format::Table => as_text(imported, &outcome, &changes, language),
        }),
        Err(error) => output::fail(&error),
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

fn as_text(
    imported: &Imported,
    outcome: &Outcome,
    changes: &[Change],
    language: Language,
) -> String {
    let mut words = Translator::new(language);
    let mut text = String::new();
    for table in imported.dry_run() {
        text.push_str(&table_text(&table, &mut words));
    }
    text.push_str(&counted::not_read(imported, &mut words));
    text.push_str(&maps::not_used(&imported.unused_maps(), &mut words));
    text.push_str(&format!("\n{}:\n", words.say("What would change")));
    text.push_str(&counted::counts(outcome, &mut words));
    let mut kinds: BTreeMap<_, usize> = BTreeMap::new();
    for change in changes {
        *kinds.entry(change.kind).or_default() += 1;
    }
    for (kind, count) in kinds {
        text.push_str(&format!("{}: {count}\n", words.say(kind.words())));
    }
    text.push_str(&format!("\n{}\n", words.say("Nothing was written")));
    text
}

fn table_text(table: &TableDryRun, words: &mut Translator) -> String {
    let mut place = table.file.clone();
    if !table.sheet.is_empty() {
        place.push_str(&format!(", {} `{}`", words.say("sheet"), table.sheet));
    }
    if table.is_hidden {
        place.push_str(&format!(" ({})", words.say("hidden")));
    }
    if table.table > 1 {
        place.push_str(&format!(", {} {}", words.say("table"), table.table));
    }
    let mut text = format!(
        "\n{place}: {}, {}, {}, {}\n",
        words.say(table.kind.name()),
        words.say(&format!("header in row {}", table.header_row)),
        words.say(&counted::count(table.rows.read, "row")),
        words.say(&format!("{} rejected", table.rows.rejected)),
    );
    let columns = table.columns.iter().map(|column| column_row(column, words));
    let columns = columns.collect();
    text.push_str(&output::table_said(
        words,
        &["Column", "Header", "meaning", "found by", "samples"],
        columns,
    ));
    for kind in &table.kinds {
        text.push_str(&output::wrapped("  ", &kind_words(kind, words)));
    }
    if let Some(supplier) = &table.supplier {
        text.push_str(&format!("  {} {supplier}\n", words.say("list of")));
    }
    if let Some(dated) = table.dated {
        let day = words.language().date(dated);
        text.push_str(&format!("  {} {day}\n", words.say("list of the day")));
    }
    for why in &table.why {
        text.push_str(&output::wrapped("  ", &words.say(why)));
    }
    text
}

/// The meaning stands as `--map` takes it, in every language.
fn column_row(column: &ColumnDryRun, words: &mut Translator) -> Vec<String> {
    let meaning = column
        .field
        .map_or_else(|| words.say("not read"), |field| field.name().to_owned());
    vec![
        column.letters.clone(),
        column.header.clone(),
        meaning,
        words.say(&column.evidence),
        column.samples.join(" | "),
    ]
}

/// `offers 7.0 points: price +3, supplier's number +2`.
fn kind_words(kind: &KindScore, words: &mut Translator) -> String {
    let points = words.language().number(&format!("{:.1}", kind.points));
    let reasons: Vec<String> = kind.reasons.iter().map(|of| reason(of, words)).collect();
    format!(
        "{} {points} {}: {}",
        words.say(kind.kind.name()),
        words.say("points"),
        reasons.join(", ")
    )
}

/// A field, or a word in the name, with the points it gives.
fn reason(of: &str, words: &mut Translator) -> String {
    let (what, points) = of.rsplit_once(' ').unwrap_or((of, ""));
    format!("{} {}", words.say(what), words.language().number(points))
}
